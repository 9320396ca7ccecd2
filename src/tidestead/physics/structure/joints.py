"""How far a joint opens and closes: turning under load, drying and swelling of timber, heat.

Moisture content is a share of dry mass (0.15 is what the trade calls 15 %). A movement that opens the joint
is positive, one that closes it negative.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np

from tidestead.core.dims import Kelvin, Metre, PerKelvin, Radian, Ratio
from tidestead.core.errors import ImpossibleInput
from tidestead.physics import _refuse

Way = Literal["width", "thickness"]

_SHRINK_LINES: dict[Way, tuple[Ratio, Ratio]] = {"width": (0.06031, 0.215), "thickness": (0.05062, 0.181)}
"""Shrinkage from green of framing lumber of softwoods other than redwood and cedar: share when dry, and how
much less for each part of moisture.
Source: D. Green, Forest Products Laboratory research paper FPL-RP-489 (1989)."""

_GREEN: Ratio = 0.28
"""Moisture above which lumber neither shrinks nor swells. Source: FPL-RP-489, assumed green moisture."""


@dataclass(frozen=True)
class JointMovement:
    """What a joint does at most: how far it opens, how far it closes, and the whole way between."""

    opening: Metre
    closing: Metre
    travel: Metre


def rotation_opening(rotation_rad: Radian, arm: Metre) -> Metre:
    """How far a joint opens when one side turns about a point `arm` away.

        u = theta * a

    Source: geometry of small turns.
    Valid:  turns up to 0.1 rad (0.3 % error).
    """
    _refuse.negative(arm=arm)
    return rotation_rad * arm


def thermal_movement(length: Metre, expansion: PerKelvin, temp_rise: Kelvin) -> Metre:
    """How much longer a part gets when it warms by `temp_rise` kelvin.

        u = alpha * L * dT

    Source: definition of the coefficient of linear expansion.
    Valid:  free to move; a coefficient that holds over the range.
    """
    _refuse.negative(length=length)
    return length * expansion * temp_rise


def moisture_movement(width: Metre, coefficient: Ratio, moisture_rise: Ratio) -> Metre:
    """How much wider timber or panel gets when its moisture rises.

        u = W * C * (M2 - M1)      C: share of growth for a change of moisture of 1

    The handbook prints C for one percent of moisture: 0.00245 there is 0.245 here.
    Source: Wood Handbook, FPL-GTR-282 (2021), equation 13-2.
    Valid:  moisture between 6 and 14 %; wider ranges by `lumber_size`. Panels: a coefficient of their own.
    """
    _refuse.negative(width=width)
    return width * coefficient * moisture_rise


def lumber_shrinkage(moisture: Ratio, way: Way) -> Ratio:
    """Share that framing lumber has shrunk from green.

        S = a - b*M          nothing at and above the moisture of green wood

    Source: FPL-RP-489 (1989).
    Valid:  8 to 19 % moisture; a little beyond it the line still serves.
    """
    _refuse.negative(moisture=moisture)
    dry, slope = _SHRINK_LINES[way]
    shrunk: Ratio = np.maximum(dry - slope * np.minimum(moisture, _GREEN), 0.0)
    return shrunk


def lumber_size(size: Metre, moisture: Ratio, later: Ratio, way: Way) -> Metre:
    """Size of lumber at another moisture.

        d2 = d1 * (1 - S(M2)) / (1 - S(M1))

    Source: FPL-RP-489 (1989); the same in ASTM D1990.
    Valid:  8 to 19 % moisture, softwoods other than redwood and cedar.
    """
    _refuse.negative(size=size)
    return size * (1.0 - lumber_shrinkage(later, way)) / (1.0 - lumber_shrinkage(moisture, way))


def joint_movement(parts: Sequence[Metre]) -> JointMovement:
    """What a joint does when everything that moves it comes at its worst together.

        opening = sum of the parts that open      closing = sum of the parts that close

    Source: superposition; that the worst may meet is a caution, not a measurement.
    Valid:  each part given as its greatest value, with its sign.
    """
    moves = np.asarray(parts, dtype=float)
    if moves.ndim != 1 or not np.all(np.isfinite(moves)):
        raise ImpossibleInput("the movements of a joint are a list of numbers")
    opening = float(np.sum(np.maximum(moves, 0.0)))
    closing = float(np.sum(np.maximum(-moves, 0.0)))
    return JointMovement(opening, closing, opening + closing)
