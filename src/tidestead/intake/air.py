"""Three plain laws of moist air that weather needs before any subject of physics is asked."""

from __future__ import annotations

import numpy as np

from tidestead.core.dims import Array, Celsius, Metre, Pascal

_SEA_LEVEL = 101325.0
_MAGNUS = (17.625, 243.04)
"""Pa, and Magnus' two constants, the second in degC. Sources: with the formulas below."""


def station_pressure(elevation: Metre) -> Pascal:
    """Mean pressure of the air at a height above the sea.

        p = 101325*(1 - 2.25577e-5*z)**5.25588

    Source: U.S. Standard Atmosphere (1976), in the short form of handbooks of moist air.
    Valid:  -500 to 11 000 m, mean weather.
    """
    return float(_SEA_LEVEL * max(1.0 - 2.25577e-5 * elevation, 0.0) ** 5.25588)


def humidity_at(temp_c: Array, dew_c: Array) -> Array:
    """Relative humidity over water, 0 to 1, of air of a temperature and a dew point, degC.

        h = exp(a*d/(b + d) - a*t/(b + t))      a = 17.625, b = 243.04 degC

    Source: Alduchov and Eskridge (1996), Journal of Applied Meteorology 35:601, form of Magnus.
    Valid:  -40 to 50 degC, 0.4 % of the pressure of vapour.
    """
    a, b = _MAGNUS
    share: Array = np.exp(a * dew_c / (b + dew_c) - a * temp_c / (b + temp_c))
    return share


def dew_point(temp_c: Array, humidity: Array) -> Celsius | Array:
    """Temperature at which air of a relative humidity (0 to 1) is saturated over water, degC.

        d = b*x/(a - x)      x = ln(h) + a*t/(b + t)

    Source: Alduchov and Eskridge (1996), turned round.
    Valid:  as `humidity_at`; a humidity under one in ten thousand counts as that.
    """
    a, b = _MAGNUS
    worked = np.log(np.maximum(humidity, 1e-4)) + a * temp_c / (b + temp_c)
    point: Array = b * worked / (a - worked)
    return point
