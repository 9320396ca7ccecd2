"""Moist air, one number at a time. Private to physics: `air` checks and offers them, the year's engine compiles them.

Each law stands alone (no law calls another), so that a compiler can take it by itself. `vapour` is the pressure of the
water vapour in the air, Pa.
Source: ASHRAE Handbook, Fundamentals (2017), chapter 1; saturation by Hyland and Wexler (1983).
"""

from __future__ import annotations

import math

_KELVIN = 273.15

_DRY = 287.042
"""Gas constant of dry air, J/(kg K). Source: ASHRAE Handbook, Fundamentals (2017), chapter 1."""

_LIGHTER = 0.621945
"""Molar mass of water over that of dry air. Source: ASHRAE Handbook, Fundamentals (2017), chapter 1."""

_W1, _W2, _W3, _W4, _W5, _W6 = (
    -5.8002206e3, 1.3914993, -4.8640239e-2, 4.1764768e-5, -1.4452093e-8, 6.5459673,
)  # fmt: skip
_I1, _I2, _I3, _I4, _I5, _I6, _I7 = (
    -5.6745359e3, 6.3925247, -9.677843e-3, 6.2215701e-7, 2.0747825e-9, -9.484024e-13, 4.1635019,
)  # fmt: skip
"""Over water, 0 to 200 degC, and over ice, -100 to 0 degC. Source: Hyland and Wexler (1983), as ASHRAE prints them."""

_FREEZING = 6.41539
"""Logarithm of the saturation pressure at 0 degC, between that over ice (6.41535) and that over water (6.41545)."""

_NEWTON = 8
"""Steps back from a pressure to its dew point; from the start below, four reach the last digit."""


def saturation_pressure(temp_c: float) -> float:
    """Pressure of vapour over water, below 0 degC over ice, Pa."""
    T = temp_c + 273.15
    if temp_c < 0.0:
        line = _I2 + T * (_I3 + T * (_I4 + T * (_I5 + T * _I6)))
        return math.exp(_I1 / T + line + _I7 * math.log(T))
    line = _W2 + T * (_W3 + T * (_W4 + T * _W5))
    return math.exp(_W1 / T + line + _W6 * math.log(T))


def saturation_slope(temp_c: float) -> float:
    """How the saturation pressure climbs with temperature, Pa/K."""
    T = temp_c + 273.15
    if temp_c < 0.0:
        line = _I2 + T * (_I3 + T * (_I4 + T * (_I5 + T * _I6)))
        climb = _I3 + T * (2.0 * _I4 + T * (3.0 * _I5 + T * 4.0 * _I6))
        return math.exp(_I1 / T + line + _I7 * math.log(T)) * (climb - _I1 / (T * T) + _I7 / T)
    line = _W2 + T * (_W3 + T * (_W4 + T * _W5))
    climb = _W3 + T * (2.0 * _W4 + T * 3.0 * _W5)
    return math.exp(_W1 / T + line + _W6 * math.log(T)) * (climb - _W1 / (T * T) + _W6 / T)


def saturation_climb(temp_c: float) -> float:
    """Share by which the saturation pressure climbs for each kelvin, 1/K; its slope without the pressure itself."""
    T = temp_c + 273.15
    if temp_c < 0.0:
        climb = _I3 + T * (2.0 * _I4 + T * (3.0 * _I5 + T * 4.0 * _I6))
        return climb - _I1 / (T * T) + _I7 / T
    climb = _W3 + T * (2.0 * _W4 + T * 3.0 * _W5)
    return climb - _W1 / (T * T) + _W6 / T


def humidity_ratio(vapour: float, pressure: float) -> float:
    """Water in a kilogram of dry air, kg/kg."""
    return _LIGHTER * vapour / (pressure - vapour)


def vapour_of_ratio(ratio: float, pressure: float) -> float:
    """Vapour pressure of air that holds so much water for each kilogram of dry air, Pa."""
    return pressure * ratio / (_LIGHTER + ratio)


def dry_air_density(temp_c: float, vapour: float, pressure: float) -> float:
    """Dry air in a cubic metre of moist air, kg/m3."""
    return (pressure - vapour) / (_DRY * (temp_c + _KELVIN))


def latent_heat(temp_c: float) -> float:
    """Heat that a kilogram of fresh water takes to evaporate, J/kg.

    Source: a parabola through the steam tables (IAPWS-95), 0 to 50 degC, within 0.01 %.
    """
    return 1e3 * (2500.86 - temp_c * (2.3582 + 0.000378 * temp_c))


def dew_point(vapour: float) -> float:
    """Temperature at which so much vapour saturates the air (below 0 degC the frost point), degC."""
    logarithm = math.log(max(vapour, 1e-6))
    over = logarithm - _FREEZING
    temp_c = 243.12 * over / (17.62 - over) if over >= 0.0 else 272.62 * over / (22.46 - over)
    for _ in range(_NEWTON):
        T = temp_c + 273.15
        if over < 0.0:
            here = _I1 / T + _I2 + T * (_I3 + T * (_I4 + T * (_I5 + T * _I6))) + _I7 * math.log(T)
            climb = _I3 + T * (2.0 * _I4 + T * (3.0 * _I5 + T * 4.0 * _I6)) - _I1 / (T * T) + _I7 / T
        else:
            here = _W1 / T + _W2 + T * (_W3 + T * (_W4 + T * _W5)) + _W6 * math.log(T)
            climb = _W3 + T * (2.0 * _W4 + T * 3.0 * _W5) - _W1 / (T * T) + _W6 / T
        change = (logarithm - here) / climb
        temp_c += change
        if abs(change) < 1e-9:
            break
    return temp_c
