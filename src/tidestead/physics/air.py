"""Moist air: what vapour it can hold, what it holds, where it drips, what evaporating takes.

`vapour` is the pressure of the water vapour in the air; `pressure` that of all the air.
"""

from __future__ import annotations

import numpy as np

from tidestead.core.dims import (
    Celsius,
    JoulePerKg,
    KgPerM3,
    Pascal,
    PascalPerKelvin,
    Ratio,
)
from tidestead.core.errors import ImpossibleInput
from tidestead.physics import _air_laws, _refuse
from tidestead.physics._each import each

_COLDEST: Celsius = -100.0
_HOTTEST: Celsius = 200.0
"""Where the saturation formula ends. Source: Hyland and Wexler (1983)."""


def saturation_pressure(temp_c: Celsius) -> Pascal:
    """Most vapour that air can hold over water, below 0 degC over ice.

        ln p = C8/T + C9 + C10*T + C11*T**2 + C12*T**3 + C13*ln T      over ice seven other constants

    Source: Hyland and Wexler (1983), as in ASHRAE Handbook, Fundamentals (2017), chapter 1, equations 5 and 6.
    Valid:  -100 to 200 degC; within 300 parts in a million of the steam tables.
    """
    _liquid(temp_c)
    return each(_air_laws.saturation_pressure, temp_c)


def saturation_slope(temp_c: Celsius) -> PascalPerKelvin:
    """How fast the saturation pressure climbs with temperature.

        dp/dT = p*(-C8/T**2 + C10 + 2*C11*T + 3*C12*T**2 + C13/T)

    Source: derivative of `saturation_pressure`.
    Valid:  as `saturation_pressure`; at 0 degC that over water.
    """
    _liquid(temp_c)
    return each(_air_laws.saturation_slope, temp_c)


def vapour_of_humidity(temp_c: Celsius, humidity: Ratio) -> Pascal:
    """Vapour in air of a relative humidity.

        e = h * p_s(t)

    Source: definition; saturation by Hyland and Wexler (1983).
    Valid:  as `saturation_pressure`. Weather stations count humidity over water in frost too: at -10 degC this is a
            tenth low then.
    """
    _refuse.not_a_share(humidity=humidity)
    return humidity * saturation_pressure(temp_c)


def relative_humidity(temp_c: Celsius, vapour: Pascal) -> Ratio:
    """Vapour in air over the most that it can hold; more than 1 where it must drip.

        h = e / p_s(t)

    Source: definition; saturation by Hyland and Wexler (1983).
    Valid:  as `saturation_pressure`. With the temperature of a face: the humidity that mould sees there.
    """
    _refuse.negative(vapour=vapour)
    return vapour / saturation_pressure(temp_c)


def dew_point(vapour: Pascal) -> Celsius:
    """Temperature below which a face gets wet (below 0 degC: rimed) in air with so much vapour.

        t such that p_s(t) = e, by Newton's steps

    Source: ASHRAE Handbook, Fundamentals (2017), chapter 1; saturation by Hyland and Wexler (1983).
    Valid:  0.002 Pa to 1.5 MPa.
    """
    _refuse.not_positive(vapour=vapour)
    return each(_air_laws.dew_point, vapour)


def humidity_ratio(vapour: Pascal, pressure: Pascal) -> Ratio:
    """Water in each kilogram of dry air.

        W = 0.621945*e/(p - e)

    Source: ASHRAE Handbook, Fundamentals (2017), chapter 1, equation 20.
    Valid:  ideal gases: half a percent at room temperature.
    """
    _within(vapour, pressure)
    return each(_air_laws.humidity_ratio, vapour, pressure)


def vapour_of_ratio(ratio: Ratio, pressure: Pascal) -> Pascal:
    """Vapour in air with so much water in each kilogram of dry air.

        e = p*W/(0.621945 + W)

    Source: ASHRAE Handbook, Fundamentals (2017), chapter 1, equation 20 turned round.
    Valid:  as `humidity_ratio`.
    """
    _refuse.negative(humidity_ratio=ratio)
    _refuse.not_positive(pressure=pressure)
    return each(_air_laws.vapour_of_ratio, ratio, pressure)


def dry_air_density(temp_c: Celsius, vapour: Pascal, pressure: Pascal) -> KgPerM3:
    """Dry air in each cubic metre of moist air.

        rho = (p - e)/(287.042*T)

    Source: ASHRAE Handbook, Fundamentals (2017), chapter 1, equation 26.
    Valid:  ideal gases. It is not the weight of the moist air, which has the vapour in it too.
    """
    _liquid(temp_c)
    _within(vapour, pressure)
    return each(_air_laws.dry_air_density, temp_c, vapour, pressure)


def latent_heat(temp_c: Celsius) -> JoulePerKg:
    """Heat that a kilogram of water takes to evaporate.

        L = 2500.86 - 2.3582*t - 0.000378*t**2      kJ/kg

    Source: a parabola through the steam tables (IAPWS-95).
    Valid:  0 to 50 degC, within 0.01 %; salt of the sea takes off less than that.
    """
    _liquid(temp_c)
    return each(_air_laws.latent_heat, temp_c)


def _liquid(temp_c: Celsius) -> None:
    if not np.all(np.greater_equal(temp_c, _COLDEST)) or not np.all(np.less_equal(temp_c, _HOTTEST)):
        raise ImpossibleInput(f"air between {_COLDEST:g} and {_HOTTEST:g} degC is meant, got {temp_c} degC")


def _within(vapour: Pascal, pressure: Pascal) -> None:
    _refuse.negative(vapour=vapour)
    if not np.all(np.less(vapour, pressure)):
        raise ImpossibleInput(f"vapour of {vapour} Pa does not go into air of {pressure} Pa")
