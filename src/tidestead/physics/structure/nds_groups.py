"""Bolts and lag screws in a row by the American rules: the outer ones take more than the inner ones."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np

from tidestead.core.dims import Count, Metre, NewtonPerMetre, Pascal, Ratio, SquareMetre
from tidestead.physics import _refuse
from tidestead.physics.structure._us_units import INCH, POUND_PER_INCH
from tidestead.physics.structure.nds_fasteners import SMALL

_WOOD_TO_WOOD: Final = 180_000.0 * POUND_PER_INCH / INCH**1.5
_WOOD_TO_METAL: Final = 270_000.0 * POUND_PER_INCH / INCH**1.5
"""Slip modulus over D**1.5. Source: NDS-2018, 11.3.6, from memory."""


@dataclass(frozen=True)
class DowelRow:
    """Dowels in a row along the load: how many, how far apart, and what they join (modulus E, whole area)."""

    number: Count
    diameter: Metre
    spacing: Metre
    main_modulus: Pascal
    main_area: SquareMetre
    side_modulus: Pascal
    side_area: SquareMetre
    metal_side: bool = False


def slip_modulus(diameter: Metre, metal_side: bool = False) -> NewtonPerMetre:
    """Stiffness of one bolt or lag screw against slip, for use in `group_action_factor`.

        gamma = 180000 * D**1.5 between wood, 270000 * D**1.5 to metal         lb/in, D in inches

    Arrays broadcast.
    Source: NDS-2018, 11.3.6, from memory.
    Valid:  dowels of 1/4 in and thicker.
    """
    _refuse.not_positive(diameter=diameter)
    stiffness: NewtonPerMetre = (_WOOD_TO_METAL if metal_side else _WOOD_TO_WOOD) * diameter**1.5
    return stiffness


def group_action_factor(row: DowelRow) -> Ratio:
    """C_g, the mean share of its value that a dowel in a row can give.

        C_g = m*(1 - m**2n) / (n*((1 + R*m**n)*(1 + m) - 1 + m**2n)) * (1 + R)/(1 - m)
        m = u - sqrt(u**2 - 1),   u = 1 + gamma*s/2*(1/(E_m*A_m) + 1/(E_s*A_s))
        R = the smaller of E_s*A_s/(E_m*A_m) and its inverse

    Single numbers only. One for dowels under 1/4 in and for a single one.
    Source: NDS-2018, equation 11.3-1, from memory; agrees with Table 11.3.6A as remembered.
    Valid:  one row along the load.
    """
    _refuse.not_positive(number=row.number, diameter=row.diameter, spacing=row.spacing)
    main, side = row.main_modulus * row.main_area, row.side_modulus * row.side_area
    _refuse.not_positive(main_stiffness=main, side_stiffness=side)
    n = row.number
    if row.diameter < SMALL or n == 1:
        return 1.0
    u = 1.0 + slip_modulus(row.diameter, row.metal_side) * row.spacing / 2.0 * (1.0 / main + 1.0 / side)
    m = u - np.sqrt(u**2 - 1.0)
    R = min(side / main, main / side)
    spread = m * (1.0 - m ** (2 * n)) / (n * ((1.0 + R * m**n) * (1.0 + m) - 1.0 + m ** (2 * n)))
    return float(spread * (1.0 + R) / (1.0 - m))
