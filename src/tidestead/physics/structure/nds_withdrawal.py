"""Pulling nails, wood screws and lag screws out of wood by the American rules.

Values are per length that holds. Out of end grain nails and wood screws count for nothing.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal

from tidestead.core.dims import Metre, Newton, NewtonPerMetre, Ratio
from tidestead.physics import _refuse
from tidestead.physics.structure._us_units import INCH, PSI
from tidestead.physics.structure.nds_fasteners import (
    JointConditions,
    Moisture,
    connection_temperature_factor,
)

Holding = Literal["smooth nail", "ring nail", "stainless nail", "wood screw", "lag screw"]

_SMOOTH: Final = 1380.0 * PSI
_RING: Final = 1800.0 * PSI
_STAINLESS: Final = 465.0 * PSI
_WOOD_SCREW: Final = 2850.0 * PSI
_LAG: Final = 1800.0 * PSI * INCH**0.25
"""Withdrawal constants, in pounds per inch with D in inches. Source: NDS-2018, equations 12.2-1 to 12.2-5."""

_LAG_END_GRAIN: Final = 0.75
"""C_eg of a lag screw pulled out of end grain. Source: NDS-2018, 12.5.2.1."""

_TOE_NAILED: Final = 0.67
"""C_tn on withdrawal; the moisture factor then falls away. Source: NDS-2018, 12.5.4.1."""

_NAIL_MOISTURE: Final[dict[Moisture, float]] = {"dry": 1.0, "wet": 1.0, "dries": 0.25, "wets": 0.25}
_SCREW_MOISTURE: Final[dict[Moisture, float]] = {"dry": 1.0, "wet": 0.7, "dries": 1.0, "wets": 0.7}
"""C_M on withdrawal: a nail lets go where the wood turns from dry to wet or back.
Source: NDS-2018, Table 11.3.3."""


@dataclass(frozen=True)
class Withdrawal:
    """Adjusted value of one fastener pulled out; `reason` says why it counts for nothing, or is empty."""

    value: Newton
    factor: Ratio
    reason: str


def smooth_nail_withdrawal(specific_gravity: Ratio, diameter: Metre) -> NewtonPerMetre:
    """Reference withdrawal of a smooth-shank steel nail from side grain.

        W = 1380 * G**2.5 * D        lb per inch, D in inches

    Arrays broadcast.
    Source: NDS-2018, equation 12.2-3; a fifth of the ultimate value of FPL Technical Note 236 (1958).
    Valid:  bright or galvanised nails driven square to the grain; not stainless ones.
    """
    _refuse.not_positive(specific_gravity=specific_gravity, diameter=diameter)
    hold: NewtonPerMetre = _SMOOTH * specific_gravity**2.5 * diameter
    return hold


def ring_nail_withdrawal(specific_gravity: Ratio, diameter: Metre) -> NewtonPerMetre:
    """Reference withdrawal of a ring-shank nail from side grain, per length of ringed shank.

        W = 1800 * G**2 * D          lb per inch, D in inches

    Arrays broadcast.
    Source: NDS-2018, equation 12.2-5.
    Valid:  ring-shank nails of the kind the standard names (post-frame, ASTM F1667).
    """
    _refuse.not_positive(specific_gravity=specific_gravity, diameter=diameter)
    return _RING * specific_gravity**2 * diameter


def stainless_nail_withdrawal(specific_gravity: Ratio, diameter: Metre) -> NewtonPerMetre:
    """Reference withdrawal of a smooth-shank stainless nail from side grain.

        W = 465 * G**1.5 * D         lb per inch, D in inches

    Arrays broadcast.
    Source: NDS-2018, equation 12.2-4.
    Valid:  smooth stainless nails, which slide out more easily than bright ones.
    """
    _refuse.not_positive(specific_gravity=specific_gravity, diameter=diameter)
    hold: NewtonPerMetre = _STAINLESS * specific_gravity**1.5 * diameter
    return hold


def wood_screw_withdrawal(specific_gravity: Ratio, diameter: Metre) -> NewtonPerMetre:
    """Reference withdrawal of a wood screw from side grain, per length of thread.

        W = 2850 * G**2 * D          lb per inch, D in inches

    Arrays broadcast.
    Source: NDS-2018, equation 12.2-2.
    Valid:  cut or rolled thread wood screws; the screw's own tension is apart.
    """
    _refuse.not_positive(specific_gravity=specific_gravity, diameter=diameter)
    return _WOOD_SCREW * specific_gravity**2 * diameter


def lag_screw_withdrawal(specific_gravity: Ratio, diameter: Metre) -> NewtonPerMetre:
    """Reference withdrawal of a lag screw from side grain, per length of thread without the tip.

        W = 1800 * G**1.5 * D**0.75  lb per inch, D in inches

    Arrays broadcast.
    Source: NDS-2018, equation 12.2-1.
    Valid:  lag screws in lead holes; the screw's own tension is apart.
    """
    _refuse.not_positive(specific_gravity=specific_gravity, diameter=diameter)
    hold: NewtonPerMetre = _LAG * specific_gravity**1.5 * diameter**0.75
    return hold


_BY_KIND: Final = {
    "smooth nail": smooth_nail_withdrawal,
    "ring nail": ring_nail_withdrawal,
    "stainless nail": stainless_nail_withdrawal,
    "wood screw": wood_screw_withdrawal,
    "lag screw": lag_screw_withdrawal,
}


def withdrawal_factor(kind: Holding, conditions: JointConditions) -> Ratio:
    """All that use takes off or adds to a withdrawal value.

        C_D * C_M * C_t * C_eg * C_tn

    Single numbers only. Nails and wood screws out of end grain give nothing.
    Source: NDS-2018, Tables 11.3.1 and 11.3.3, 12.5.2 and 12.5.4.
    Valid:  dowel-type fasteners.
    """
    _refuse.not_positive(duration=conditions.duration)
    factor = conditions.duration * connection_temperature_factor(conditions.temp_c, conditions.moisture)
    nail = kind.endswith("nail")
    if conditions.end_grain:
        return factor * _LAG_END_GRAIN * _SCREW_MOISTURE[conditions.moisture] if kind == "lag screw" else 0.0
    if conditions.toe_nailed and nail:
        return factor * _TOE_NAILED
    return factor * (_NAIL_MOISTURE if nail else _SCREW_MOISTURE)[conditions.moisture]


def withdrawal_value(
    kind: Holding, specific_gravity: Ratio, diameter: Metre, held: Metre, conditions: JointConditions
) -> Withdrawal:
    """Adjusted value of one fastener pulled out of the main member.

        W' = W * held * C_D * C_M * C_t * C_eg * C_tn

    Single numbers only. `held`: length of shank or thread in the main member, without a lag screw's tip.
    Source: NDS-2018, 12.2.
    Valid:  as the reference value of the kind; the standard asks that nails not be loaded so where it can
            be helped.
    """
    _refuse.negative(held=held)
    factor = withdrawal_factor(kind, conditions)
    reason = ""
    if conditions.end_grain and kind != "lag screw":
        reason = f"a {kind} pulled out of end grain counts for nothing: turn the joint or use a lag screw"
    value = _BY_KIND[kind](specific_gravity, diameter) * held * factor
    return Withdrawal(value=value, factor=factor, reason=reason)
