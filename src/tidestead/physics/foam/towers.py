"""Sizes of a fractionator's tower: round or many-sided column, the cone over it, the neck.

All sizes are inside ones. A many-sided column is measured across its flats: the apothem is half of that.
"""

from __future__ import annotations

import numpy as np

from tidestead.core.dims import Count, CubicMetre, Metre, Radian, Ratio, SquareMetre
from tidestead.core.errors import ImpossibleInput
from tidestead.physics import _refuse

_FEWEST_SIDES = 3
"""A polygon has three sides at least. Source: geometry."""


def round_area(diameter: Metre) -> SquareMetre:
    """Area of a round column or neck.

        A = pi*d**2 / 4

    Source: geometry.
    Valid:  inside diameter.
    """
    _refuse.not_positive(diameter=diameter)
    return np.pi * diameter**2 / 4.0


def polygon_area(apothem: Metre, sides: Count) -> SquareMetre:
    """Area of a regular many-sided column.

        A = n*r**2*tan(pi/n)          r: middle to the inside of a side

    Source: geometry.
    Valid:  three sides and more.
    """
    _refuse.not_positive(apothem=apothem)
    if np.any(np.less(sides, _FEWEST_SIDES)):
        raise ImpossibleInput(f"a polygon has three sides at least, got {sides}")
    area: SquareMetre = sides * np.square(apothem) * np.tan(np.pi / sides)
    return area


def column_volume(area: SquareMetre, height: Metre) -> CubicMetre:
    """Volume of a column of one width.

        V = A*h

    Source: geometry.
    Valid:  upright walls.
    """
    _refuse.not_positive(area=area)
    _refuse.negative(height=height)
    return area * height


def cone_volume(lower: SquareMetre, upper: SquareMetre, height: Metre) -> CubicMetre:
    """Volume of a cone with its tip cut off, between column and neck.

        V = h/3*(A1 + A2 + sqrt(A1*A2))

    Source: geometry.
    Valid:  both ends of one shape, round or many-sided.
    """
    _refuse.not_positive(lower=lower, upper=upper)
    _refuse.negative(height=height)
    volume: CubicMetre = height / 3.0 * (lower + upper + np.sqrt(np.multiply(lower, upper)))
    return volume


def cone_slope(column_radius: Metre, neck_radius: Metre, height: Metre) -> Radian:
    """Slope of a cone's wall against the level; upright where it does not narrow.

        a = atan(h / (R - r))          apothems where it is many-sided

    Foam slides up a steep wall and hangs under a flat one; how steep is enough, no source was found to say.

    Source: geometry.
    Valid:  neck no wider than the column.
    """
    _refuse.not_positive(column_radius=column_radius, neck_radius=neck_radius, height=height)
    if np.any(np.greater(neck_radius, column_radius)):
        raise ImpossibleInput(f"a neck of {neck_radius} m is wider than its column of {column_radius} m")
    slope: Radian = np.arctan2(height, np.subtract(column_radius, neck_radius))
    return slope


def narrowing(column_area: SquareMetre, neck_area: SquareMetre) -> Ratio:
    """How many times faster the air goes through the neck than through the column.

        jg_neck/jg = A/A_neck = (D/d)**2

    Source: conservation of volume.
    Valid:  all the air passes the neck; what bursts on the way does so too.
    """
    _refuse.not_positive(column_area=column_area, neck_area=neck_area)
    return column_area / neck_area


def share_of_system(volume: CubicMetre, system: CubicMetre) -> Ratio:
    """Share of the system's water that stands in the column.

        s = V / V_system

    Source: definition.
    Valid:  the system's volume counts the column's.
    """
    _refuse.negative(volume=volume)
    _refuse.not_positive(system=system)
    share: Ratio = np.divide(volume, system)
    return share
