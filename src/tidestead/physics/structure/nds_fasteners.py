"""Nails, screws and bolts loaded sideways by the American rules: how a dowel yields and what use takes off.

Pulling a fastener out is in `nds_withdrawal`. Lookups take single numbers, formulas take arrays.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final, Literal

import numpy as np

from tidestead.core.dims import Celsius, Count, Metre, Newton, Pascal, Radian, Ratio
from tidestead.core.errors import ImpossibleInput
from tidestead.physics import _refuse
from tidestead.physics.structure._pick import pick
from tidestead.physics.structure._us_units import INCH, PSI, from_fahrenheit

Moisture = Literal["dry", "wet", "dries", "wets"]
"""Of the wood, when made and in service: dry and dry, wet and wet, wet then dry, dry then wet."""

SMALL: Final = 0.25 * INCH
"""Thinner dowels bear as nails do and care nothing for the grain. Source: NDS-2018, Table 12.3.3, note 2."""

_BEARING_SMALL: Final = 16600.0 * PSI
_BEARING_ALONG: Final = 11200.0 * PSI
_BEARING_ACROSS: Final = 6100.0 * PSI
"""Dowel bearing strength. Source: NDS-2018, Table 12.3.3, note 2."""

_YIELD: Final = ((0.142, 100.0), (0.177, 90.0), (0.236, 80.0), (0.273, 70.0), (0.344, 60.0))
"""Bending yield strength of nails in ksi, up to diameters in inches.
Source: NDS-2018, Table I1; the last pair from memory."""

_THIN: Final = 0.17 * INCH
_THIN_TERM: Final = 2.2
_LARGE_TERMS: Final = (4.0, 3.6, 3.2)
"""Reduction terms: all modes of thin dowels; modes I, II and III-IV of dowels of 1/4 in and thicker.
Source: NDS-2018, Table 12.3.1B."""

_FULL_DEPTH: Final = 10.0
_LEAST_DEPTH: Final = 6.0
_LAG_FULL: Final = 8.0
_LAG_LEAST: Final = 4.0
"""Penetration in diameters for the full value, and the least allowed; nails and wood screws, then lag screws.
Source: NDS-2018, Tables 12J to 12N, notes 3; 12.1.4.6, 12.1.5.6, 12.1.6.5."""

_END_GRAIN: Final = 0.67
_TOE_NAILED: Final = 0.83
"""C_eg and C_tn on a sideways load. Source: NDS-2018, 12.5.2.2 and 12.5.4.2."""

_WET_LATERAL: Final[dict[Moisture, tuple[float, float]]] = {
    "dry": (1.0, 1.0),
    "wet": (0.7, 0.7),
    "wets": (0.7, 0.7),
    "dries": (0.7, 0.4),
}
"""C_M on a sideways load, dowels under 1/4 in and thicker ones. Source: NDS-2018, Table 11.3.3."""

_HOT: Final = tuple(from_fahrenheit(limit) for limit in (100.0, 125.0, 150.0))
_HOT_DRY: Final = (1.0, 0.8, 0.7)
_HOT_WET: Final = (1.0, 0.7, 0.5)
"""C_t of connections by sustained temperature. Source: NDS-2018, Table 11.3.4."""


@dataclass(frozen=True)
class NdsJoint:
    """One dowel through a side member into a main member.

    `diameter` is the shank's, or the root's where thread crosses the joint. `main_length` and `side_length`
    are the lengths that bear in each. Bearing strengths hold for the direction of the load.
    """

    diameter: Metre
    main_length: Metre
    side_length: Metre
    main_bearing: Pascal
    side_bearing: Pascal
    bending_yield: Pascal


@dataclass(frozen=True)
class YieldModes:
    """Force at which each yield mode would start, before the reduction terms."""

    main_bearing: Newton
    side_bearing: Newton
    both_bearing: Newton
    main_hinge: Newton
    side_hinge: Newton
    two_hinges: Newton


@dataclass(frozen=True)
class LateralValue:
    """Reference value of one dowel and the mode that governs, by its usual number."""

    value: Newton
    mode: str


@dataclass(frozen=True)
class JointConditions:
    """How a joint is used. `duration` is C_D, at most 1.6. `moisture` as the type says."""

    duration: Ratio
    moisture: Moisture = "dry"
    temp_c: Celsius = 20.0
    end_grain: bool = False
    toe_nailed: bool = False


def dowel_bearing(specific_gravity: Ratio, diameter: Metre, grain_angle_rad: Radian = 0.0) -> Pascal:
    """Dowel bearing strength of wood.

        D < 1/4 in:   F_e = 16600 * G**1.84                                psi, any direction
        else along:   F_e = 11200 * G;   across: F_e = 6100 * G**1.45 / sqrt(D)      psi, D in inches
        between:      F_e = F_par*F_perp / (F_par*sin**2 + F_perp*cos**2)

    Single numbers only. The tables round to 50 psi, this does not.
    Source: NDS-2018, Table 12.3.3 note 2 and equation 12.3-11.
    Valid:  sawn lumber; G oven dry.
    """
    _refuse.not_positive(specific_gravity=specific_gravity, diameter=diameter)
    if diameter < SMALL:
        return _BEARING_SMALL * float(specific_gravity**1.84)
    along = _BEARING_ALONG * specific_gravity
    across = _BEARING_ACROSS * specific_gravity**1.45 / math.sqrt(diameter / INCH)
    sine, cosine = math.sin(grain_angle_rad), math.cos(grain_angle_rad)
    return float(along * across / (along * sine**2 + across * cosine**2))


def nail_bending_yield(diameter: Metre) -> Pascal:
    """Bending yield strength of common steel nails and wood screws.

        100 ksi to 0.142 in; 90 to 0.177; 80 to 0.236; 70 to 0.273; 60 to 0.344

    Single numbers only. Bolts and lag screws take 45 ksi.
    Source: NDS-2018, Table I1.
    Valid:  low to medium carbon steel; stainless nails are not in the table: give their tested value.
    """
    _refuse.not_positive(diameter=diameter)
    for limit, strength in _YIELD:
        if diameter <= limit * INCH * (1 + 1e-9):
            return strength * 1000.0 * PSI
    raise ImpossibleInput(f"a nail {diameter * 1000:.1f} mm thick is outside the table; bolts take 45 ksi")


def yield_modes(joint: NdsJoint) -> YieldModes:
    """Forces of the six yield modes in single shear, before the reduction terms.

        I_m = D*l_m*F_em;  I_s = D*l_s*F_es;  II = k1*D*l_s*F_es;  III_m = k2*D*l_m*F_em/(1 + 2*R_e)
        III_s = k3*D*l_s*F_em/(2 + R_e);  IV = D**2*sqrt(2*F_em*F_yb/(3*(1 + R_e)))
        R_e = F_em/F_es, R_t = l_m/l_s
        k1 = (sqrt(R_e + 2*R_e**2*(1 + R_t + R_t**2) + R_t**2*R_e**3) - R_e*(1 + R_t))/(1 + R_e)
        k2 = -1 + sqrt(2*(1 + R_e) + 2*F_yb*(1 + 2*R_e)*D**2/(3*F_em*l_m**2))
        k3 = -1 + sqrt(2*(1 + R_e)/R_e + 2*F_yb*(2 + R_e)*D**2/(3*F_em*l_s**2))

    Arrays broadcast.
    Source: NDS-2018, Table 12.3.1A.
    Valid:  faces in contact, load square to the dowel.
    """
    D, lm, ls = joint.diameter, joint.main_length, joint.side_length
    Fem, Fes, Fyb = joint.main_bearing, joint.side_bearing, joint.bending_yield
    _refuse.not_positive(diameter=D, main_length=lm, side_length=ls)
    _refuse.not_positive(main_bearing=Fem, side_bearing=Fes, bending_yield=Fyb)
    Re, Rt = Fem / Fes, lm / ls
    k1 = (np.sqrt(Re + 2 * Re**2 * (1 + Rt + Rt**2) + Rt**2 * Re**3) - Re * (1 + Rt)) / (1 + Re)
    k2 = -1 + np.sqrt(2 * (1 + Re) + 2 * Fyb * (1 + 2 * Re) * D**2 / (3 * Fem * lm**2))
    k3 = -1 + np.sqrt(2 * (1 + Re) / Re + 2 * Fyb * (2 + Re) * D**2 / (3 * Fem * ls**2))
    return YieldModes(
        main_bearing=D * lm * Fem,
        side_bearing=D * ls * Fes,
        both_bearing=k1 * D * ls * Fes,
        main_hinge=k2 * D * lm * Fem / (1 + 2 * Re),
        side_hinge=k3 * D * ls * Fem / (2 + Re),
        two_hinges=D**2 * np.sqrt(2 * Fem * Fyb / (3 * (1 + Re))),
    )


def reduction_terms(diameter: Metre, grain_angle_rad: Radian = 0.0) -> tuple[Ratio, Ratio, Ratio]:
    """R_d for the modes I, II, and III with IV.

        D <= 0.17 in: 2.2;  D < 1/4 in: 10*D + 0.5;  else 4, 3.6, 3.2 times 1 + angle/(2*pi)

    Single numbers only. The angle is the largest one between load and grain in any member.
    Source: NDS-2018, Table 12.3.1B.
    Valid:  dowels to 1 in.
    """
    _refuse.not_positive(diameter=diameter)
    if diameter < SMALL:
        term = _THIN_TERM if diameter <= _THIN * (1 + 1e-9) else 10.0 * diameter / INCH + 0.5
        return term, term, term
    turned = 1.0 + 0.25 * abs(grain_angle_rad) / (math.pi / 2.0)
    first, second, third = _LARGE_TERMS
    return first * turned, second * turned, third * turned


def lateral_value(joint: NdsJoint, grain_angle_rad: Radian = 0.0) -> LateralValue:
    """Reference value of one dowel in single shear.

        Z = least of (force of a mode / its R_d)

    Single numbers only.
    Source: NDS-2018, 12.3.1.
    Valid:  as `yield_modes`.
    """
    modes = yield_modes(joint)
    one, two, three = reduction_terms(joint.diameter, grain_angle_rad)
    values = {
        "Im": modes.main_bearing / one,
        "Is": modes.side_bearing / one,
        "II": modes.both_bearing / two,
        "IIIm": modes.main_hinge / three,
        "IIIs": modes.side_hinge / three,
        "IV": modes.two_hinges / three,
    }
    mode = min(values, key=values.__getitem__)
    return LateralValue(value=float(values[mode]), mode=mode)


def double_lateral_value(joint: NdsJoint, grain_angle_rad: Radian = 0.0) -> LateralValue:
    """Reference value of one dowel through two equal side members with the main one between: both planes.

        Z = least of I_m/R_d, 2*I_s/R_d, 2*III_s/R_d, 2*IV/R_d

    Single numbers only.
    Source: NDS-2018, Table 12.3.1A, double shear, equations 12.3-7 to 12.3-10.
    Valid:  side members alike; `main_length` is the whole thickness between them.
    """
    modes = yield_modes(joint)
    one, _, three = reduction_terms(joint.diameter, grain_angle_rad)
    values = {
        "Im": modes.main_bearing / one,
        "Is": 2.0 * modes.side_bearing / one,
        "IIIs": 2.0 * modes.side_hinge / three,
        "IV": 2.0 * modes.two_hinges / three,
    }
    mode = min(values, key=values.__getitem__)
    return LateralValue(value=float(values[mode]), mode=mode)


def penetration_factor(penetration: Metre, diameter: Metre, lag: bool = False) -> Ratio:
    """Share of the tabulated value that the depth in the main member allows.

        p / (10*D) from 6*D to 10*D, nothing below; lag screws p / (8*D) from 4*D to 8*D

    Arrays broadcast.
    Source: NDS-2018, Tables 12J to 12N, notes 3.
    Valid:  nails, wood screws and lag screws; on top of yield modes reckoned with the same depth this is
            on the safe side.
    """
    _refuse.not_positive(diameter=diameter)
    _refuse.negative(penetration=penetration)
    full, least = (_LAG_FULL, _LAG_LEAST) if lag else (_FULL_DEPTH, _LEAST_DEPTH)
    depth = penetration / diameter
    share: Ratio = pick(np.less(depth, least * (1 - 1e-9)), 0.0, np.minimum(depth / full, 1.0))
    return share


def connection_temperature_factor(temp_c: Celsius, moisture: Moisture) -> Ratio:
    """C_t of a connection that stays warm.

        1.0 to 100 F; then 0.8 dry, 0.7 wet to 125 F; then 0.7 dry, 0.5 wet to 150 F

    Single numbers only; hotter than 150 F is outside the table and gives no number.
    Source: NDS-2018, Table 11.3.4.
    Valid:  sustained temperature of the wood itself.
    """
    row = _HOT_DRY if moisture in ("dry", "dries") else _HOT_WET
    for limit, factor in zip(_HOT, row, strict=True):
        if temp_c <= limit + 1e-9:
            return factor
    return math.nan


def lateral_factor(diameter: Metre, conditions: JointConditions) -> Ratio:
    """All that use takes off or adds to a dowel's reference value sideways.

        C_D * C_M * C_t * C_eg * C_tn

    Single numbers only. Penetration, group and spacing factors are apart.
    Source: NDS-2018, Table 11.3.1.
    Valid:  dowel-type fasteners.
    """
    _refuse.not_positive(duration=conditions.duration, diameter=diameter)
    thick = not diameter < SMALL
    factor = conditions.duration * _WET_LATERAL[conditions.moisture][thick]
    factor *= connection_temperature_factor(conditions.temp_c, conditions.moisture)
    if conditions.end_grain:
        factor *= _END_GRAIN
    if conditions.toe_nailed:
        factor *= _TOE_NAILED
    return factor


def fasteners_needed(force: Newton, each: Newton) -> Count:
    """How many fasteners of a given value carry a force.

        n = force / each, rounded up

    Single numbers only.
    Source: elementary statics.
    Valid:  every fastener takes its share; rows of thick dowels need a group factor in `each`.
    """
    _refuse.negative(force=force)
    _refuse.not_positive(each=each)
    return math.ceil(force / each - 1e-9)
