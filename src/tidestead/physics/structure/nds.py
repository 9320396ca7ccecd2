"""Sawn lumber by the American rules (allowable stress design): reference values adjusted to how it is used.

Of the adjustments, load duration is given as a number, since it depends on what loads the timber; the others
follow here from size, moisture and temperature. Lookups take single numbers, formulas take arrays.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np

from tidestead.core.dims import Celsius, Metre, Pascal, Ratio
from tidestead.physics import _refuse
from tidestead.physics.structure._pick import pick
from tidestead.physics.structure._us_units import INCH, PSI, from_fahrenheit

_WIDTHS: Final = (4.0 * INCH, 5.0 * INCH, 6.0 * INCH, 8.0 * INCH, 10.0 * INCH, 12.0 * INCH)
"""Upper limits of the columns of the size tables; a 2x6 (5 1/2 in) lies in the third.
Source: NDS Supplement 2018, Table 4A, adjustment factors."""

_BENDING_THIN: Final = (1.5, 1.4, 1.3, 1.2, 1.1, 1.0, 0.9)
_BENDING_THICK: Final = (1.5, 1.4, 1.3, 1.3, 1.2, 1.1, 1.0)
_COMPRESSION: Final = (1.15, 1.1, 1.1, 1.05, 1.0, 1.0, 0.9)
_FLAT_THIN: Final = (1.1, 1.1, 1.15, 1.15, 1.2, 1.2, 1.2)
_FLAT_THICK: Final = (1.0, 1.05, 1.05, 1.05, 1.1, 1.1, 1.1)
"""C_F for F_b and F_t (thin: up to 3 in nominal; thick: 4 in), C_F for F_c, C_fu likewise, No.2 and better.
Source: NDS Supplement 2018, Table 4A, adjustment factors; tension takes the thin row."""

_THICK: Final = 3.0 * INCH
"""From this dressed thickness on a plank counts as 4 in nominal."""

_NARROW_FLAT: Final = 3.0 * INCH
"""Narrower (2 in and 3 in nominal) has no gain from lying flat. Source: NDS Supplement 2018, Table 4A."""

_WET_BENDING: Final = 0.85
_WET_BENDING_FREE: Final = 1150.0 * PSI
_WET_SHEAR: Final = 0.97
_WET_ACROSS: Final = 0.67
_WET_COMPRESSION: Final = 0.8
_WET_COMPRESSION_FREE: Final = 750.0 * PSI
_WET_MODULUS: Final = 0.9
"""C_M above 19 % moisture, and the stresses up to which bending and compression need none; tension has none.
Source: NDS Supplement 2018, Table 4A, adjustment factors."""

_HOT: Final = tuple(from_fahrenheit(limit) for limit in (100.0, 125.0, 150.0))
_HOT_DRY: Final = (1.0, 0.8, 0.7)
_HOT_WET: Final = (1.0, 0.7, 0.5)
_HOT_STIFF: Final = (1.0, 0.9, 0.9)
"""C_t by sustained wood temperature. Source: NDS-2018, Table 2.3.3; the last row is for F_t, E and E_min."""

_INCISED: Final = 0.80
_INCISED_MODULUS: Final = 0.95
"""C_i of lumber incised for pressure treatment; none across the grain.
Source: NDS-2018, Table 4.3.8, from memory."""

_REPETITIVE: Final = 1.15
"""C_r on bending. Source: NDS-2018, 4.3.9: three or more, no further than 24 in apart, sharing load."""

_BEARING_SPREAD: Final = 0.375 * INCH
_BEARING_LONG: Final = 6.0 * INCH
"""Bearing area factor. Source: NDS-2018, 3.10.4, from memory."""


@dataclass(frozen=True)
class LumberReference:
    """Reference design values of one grade as the Supplement prints them, for normal duration and dry use."""

    bending: Pascal
    tension: Pascal
    shear: Pascal
    compression_across: Pascal
    compression: Pascal
    modulus: Pascal
    modulus_min: Pascal


@dataclass(frozen=True)
class NdsConditions:
    """How a piece of lumber is used.

    `duration` is C_D. `thickness` and `width` are the dressed smaller and larger side. `size_in_values`: the
    grade is printed by width (Southern Pine), so no size factor is due. `flat`: bent about its weak axis.
    `water_load` is a further factor on bending that a cautious builder may set below one, because long tests
    saw lumber fail sooner than the duration factor says.
    """

    duration: Ratio
    thickness: Metre
    width: Metre
    wet: bool = False
    temp_c: Celsius = 20.0
    size_in_values: bool = False
    repetitive: bool = False
    flat: bool = False
    incised: bool = False
    water_load: Ratio = 1.0


@dataclass(frozen=True)
class LumberFactors:
    """All factors together, one per property, and those of bending apart for the working."""

    bending: Ratio
    tension: Ratio
    shear: Ratio
    compression_across: Ratio
    compression: Ratio
    modulus: Ratio
    bending_size: Ratio
    bending_wet: Ratio
    bending_flat: Ratio
    temperature: Ratio


@dataclass(frozen=True)
class AdjustedLumber:
    """Adjusted design values, and the factors they were made with."""

    bending: Pascal
    tension: Pascal
    shear: Pascal
    compression_across: Pascal
    compression: Pascal
    modulus: Pascal
    modulus_min: Pascal
    factors: LumberFactors


def _column(width: Metre, row: tuple[float, ...]) -> float:
    """The entry of a size row that a dressed width falls in."""
    _refuse.not_positive(width=width)
    return row[sum(width > limit for limit in _WIDTHS)]


def bending_size_factor(thickness: Metre, width: Metre) -> Ratio:
    """C_F on bending of dimension lumber.

        looked up by dressed width; planks of 4 in nominal thickness have their own row

    Single numbers only.
    Source: NDS Supplement 2018, Table 4A, adjustment factors.
    Valid:  grades No.2 and better, 2 to 4 in nominal; not Southern Pine, whose values have it inside.
    """
    _refuse.not_positive(thickness=thickness)
    return _column(width, _BENDING_THICK if thickness >= _THICK else _BENDING_THIN)


def tension_size_factor(width: Metre) -> Ratio:
    """C_F on tension of dimension lumber.

        looked up by dressed width

    Single numbers only.
    Source: NDS Supplement 2018, Table 4A, adjustment factors.
    Valid:  as for bending.
    """
    return _column(width, _BENDING_THIN)


def compression_size_factor(width: Metre) -> Ratio:
    """C_F on compression along the grain of dimension lumber.

        looked up by dressed width

    Single numbers only.
    Source: NDS Supplement 2018, Table 4A, adjustment factors.
    Valid:  as for bending.
    """
    return _column(width, _COMPRESSION)


def flat_use_factor(thickness: Metre, width: Metre) -> Ratio:
    """C_fu on bending of a plank laid flat.

        looked up by dressed width; planks of 4 in nominal thickness have their own row

    Single numbers only.
    Source: NDS Supplement 2018, Table 4A, adjustment factors.
    Valid:  dimension lumber loaded on its wide face.
    """
    _refuse.not_positive(thickness=thickness)
    if width < _NARROW_FLAT:
        return 1.0
    return _column(width, _FLAT_THICK if thickness >= _THICK else _FLAT_THIN)


def wet_bending_factor(reference: Pascal, size_factor: Ratio) -> Ratio:
    """C_M on bending of lumber wetter than 19 %.

        1.0 where F_b * C_F <= 1150 psi, else 0.85

    Single numbers only.
    Source: NDS Supplement 2018, Table 4A, adjustment factors.
    Valid:  dimension lumber.
    """
    return 1.0 if reference * size_factor <= _WET_BENDING_FREE * (1 + 1e-9) else _WET_BENDING


def wet_compression_factor(reference: Pascal, size_factor: Ratio) -> Ratio:
    """C_M on compression along the grain of lumber wetter than 19 %.

        1.0 where F_c * C_F <= 750 psi, else 0.8

    Single numbers only.
    Source: NDS Supplement 2018, Table 4A, adjustment factors.
    Valid:  dimension lumber.
    """
    return 1.0 if reference * size_factor <= _WET_COMPRESSION_FREE * (1 + 1e-9) else _WET_COMPRESSION


def _hot(temp_c: Celsius, row: tuple[float, ...]) -> float:
    for limit, factor in zip(_HOT, row, strict=True):
        if temp_c <= limit + 1e-9:
            return factor
    return float("nan")


def temperature_factor(temp_c: Celsius, wet: bool) -> Ratio:
    """C_t on bending, shear and compression of wood that stays warm.

        1.0 to 100 F; then 0.8 dry, 0.7 wet to 125 F; then 0.7 dry, 0.5 wet to 150 F

    Single numbers only; hotter than 150 F is outside the table and gives no number.
    Source: NDS-2018, Table 2.3.3.
    Valid:  sustained temperature of the wood itself, which sun can raise far above that of the air.
    """
    return _hot(temp_c, _HOT_WET if wet else _HOT_DRY)


def stiffness_temperature_factor(temp_c: Celsius) -> Ratio:
    """C_t on tension and on the moduli of wood that stays warm.

        1.0 to 100 F, then 0.9 to 150 F

    Single numbers only; hotter than 150 F is outside the table and gives no number.
    Source: NDS-2018, Table 2.3.3.
    Valid:  sustained temperature of the wood itself.
    """
    return _hot(temp_c, _HOT_STIFF)


def lumber_factors(reference: LumberReference, conditions: NdsConditions) -> LumberFactors:
    """Every adjustment of a piece of lumber, multiplied up property by property.

        bending C_D*C_M*C_t*C_F*C_fu*C_r*C_i; tension C_D*C_t*C_F*C_i; shear C_D*C_M*C_t*C_i
        across C_M*C_t; compression C_D*C_M*C_t*C_F*C_i; modulus C_M*C_t*C_i

    Single numbers only.
    Source: NDS-2018, Table 4.3.1.
    Valid:  sawn dimension lumber held against twisting sideways (C_L = 1).
    """
    use = conditions
    size = 1.0 if use.size_in_values else bending_size_factor(use.thickness, use.width)
    wet_bending = wet_bending_factor(reference.bending, size) if use.wet else 1.0
    flat = flat_use_factor(use.thickness, use.width) if use.flat else 1.0
    hot, hot_stiff = temperature_factor(use.temp_c, use.wet), stiffness_temperature_factor(use.temp_c)
    lasting = use.duration * (_INCISED if use.incised else 1.0)
    pressed = 1.0 if use.size_in_values else compression_size_factor(use.width)
    wet_pressed = wet_compression_factor(reference.compression, pressed) if use.wet else 1.0
    pulled = 1.0 if use.size_in_values else tension_size_factor(use.width)
    shared = _REPETITIVE if use.repetitive else 1.0
    return LumberFactors(
        bending=lasting * hot * size * wet_bending * flat * shared * use.water_load,
        tension=lasting * hot_stiff * pulled,
        shear=lasting * hot * (_WET_SHEAR if use.wet else 1.0),
        compression_across=hot * (_WET_ACROSS if use.wet else 1.0),
        compression=lasting * hot * pressed * wet_pressed,
        modulus=hot_stiff * (_WET_MODULUS if use.wet else 1.0) * (_INCISED_MODULUS if use.incised else 1.0),
        bending_size=size,
        bending_wet=wet_bending,
        bending_flat=flat,
        temperature=hot,
    )


def adjusted_lumber(reference: LumberReference, conditions: NdsConditions) -> AdjustedLumber:
    """Adjusted design values of a piece of lumber.

        F' = F * (the product of its factors)

    Single numbers only; a property without a number (wood hotter than 150 F) can prove nothing.
    Source: NDS-2018, 4.3.
    Valid:  as `lumber_factors`.
    """
    _refuse.not_positive(duration=conditions.duration, water_load=conditions.water_load)
    factors = lumber_factors(reference, conditions)
    return AdjustedLumber(
        bending=reference.bending * factors.bending,
        tension=reference.tension * factors.tension,
        shear=reference.shear * factors.shear,
        compression_across=reference.compression_across * factors.compression_across,
        compression=reference.compression * factors.compression,
        modulus=reference.modulus * factors.modulus,
        modulus_min=reference.modulus_min * factors.modulus,
        factors=factors,
    )


def bearing_area_factor(length: Metre) -> Ratio:
    """C_b, what wood beside a short bearing adds.

        C_b = (l_b + 3/8 in) / l_b      for l_b < 6 in, else 1

    Arrays broadcast.
    Source: NDS-2018, 3.10.4, equation 3.10-2, from memory.
    Valid:  bearings 3 in or more from the end of the timber; nearer use one.
    """
    _refuse.not_positive(bearing_length=length)
    factor: Ratio = pick(np.less(length, _BEARING_LONG), 1.0 + _BEARING_SPREAD / length, 1.0)
    return factor


def long_term_deflection(permanent: Metre, passing: Metre, creep_factor: Ratio) -> Metre:
    """Bow after creep.

        delta_T = K_cr * delta_LT + delta_ST

    Arrays broadcast. K_cr 1.5 for seasoned lumber kept dry, 2.0 for unseasoned or wet lumber and for panels.
    Source: NDS-2018, 3.5.2, equation 3.5-1.
    Valid:  the source calls K_cr a rule of thumb; in a damp, changing climate creep can be larger.
    """
    _refuse.not_positive(creep_factor=creep_factor)
    return creep_factor * permanent + passing


def tension_bending_use(tension: Ratio, bending: Ratio) -> Ratio:
    """Share used by a pull and a bend together, of the stretched side.

        f_t / F_t' + f_b / F_b*          arguments are the two shares

    Arrays broadcast. F_b* has every factor but C_L.
    Source: NDS-2018, 3.9.1, equation 3.9-1.
    Valid:  timber held against twisting, so that equation 3.9-2 cannot govern.
    """
    _refuse.negative(tension=tension, bending=bending)
    return tension + bending
