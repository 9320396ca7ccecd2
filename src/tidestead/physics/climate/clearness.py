"""How clear days and hours are: their spread about a month's mean, the run of a day, and what comes from the sky.

Clearness is the sun on level ground over what would come without air.
"""

from __future__ import annotations

import numpy as np

from tidestead.core.dims import Array, Hour, Radian, Ratio
from tidestead.core.errors import ImpossibleInput
from tidestead.physics import _refuse
from tidestead.physics._each import each
from tidestead.physics.climate import _laws

_LEAST, _MOST = 0.28, 0.82
"""Mean clearness up to which the spread of days may be asked for; printed from 0.3 to 0.75 or 0.8."""


def highest_clearness(mean: Ratio) -> Ratio:
    """Clearness of the clearest day of a month with a mean clearness.

        Kmax = 0.6313 + 0.267*Kb - 11.9*(Kb - 0.75)**8

    Source: Hollands and Huget (1983), as quoted from Duffie and Beckman, 5th edition, equation 2.9.6.
    Valid:  means of 0.3 to 0.8.
    """
    _usual(mean)
    return each(_laws.highest_clearness, mean)


def days_steepness(mean: Ratio) -> Ratio:
    """How crowded the days of a month are towards the clear end; below nothing towards the dull end.

        gamma = -1.498 + (1.184*xi - 27.182*exp(-1.5*xi))/(Kmax - Kmin)      xi = (Kmax - Kmin)/(Kmax - Kb), Kmin 0.05

    Source: Herzog (1985), as quoted from Duffie and Beckman, 5th edition, equation 2.9.5.
    Valid:  means of 0.3 to 0.75; the mean of the days then comes out within 0.7 %.
    """
    return each(_laws.steepness, mean, highest_clearness(mean))


def days_below(clearness: Ratio, mean: Ratio) -> Ratio:
    """Share of a month's days that are duller than a clearness.

        F = (exp(g*Kmin) - exp(g*K))/(exp(g*Kmin) - exp(g*Kmax))      g: `days_steepness`, Kmin 0.05

    Source: Bendt, Collares-Pereira and Rabl (1981), as quoted from Duffie and Beckman, 5th edition, equation 2.9.4.
    Valid:  temperate places, months with a mean of 0.3 to 0.75; the tropics have fewer clear and dull days.
    """
    _refuse.negative(clearness=clearness)
    return each(_laws.share_below, clearness, highest_clearness(mean), days_steepness(mean))


def day_clearness(share: Ratio, mean: Ratio) -> Ratio:
    """Clearness that a share of a month's days stays below.

        K = ln(exp(g*Kmin) + F*(exp(g*Kmax) - exp(g*Kmin)))/g

    Source: Bendt, Collares-Pereira and Rabl (1981), turned round.
    Valid:  as `days_below`.
    """
    _refuse.not_a_share(share_of_days=share)
    return each(_laws.clearness_at, share, highest_clearness(mean), days_steepness(mean))


def hour_ratio(hour_angle: Radian, sunset: Radian) -> Ratio:
    """Sun of an hour over that of its day, mean of many days. `hour_angle` of its middle, `sunset` that of sunset.

        r = pi/24*(a + b*cos w)*(cos w - cos ws)/(sin ws - ws*cos ws)
        a = 0.409 + 0.5016*sin(ws - 60 deg)      b = 0.6609 - 0.4767*sin(ws - 60 deg)

    Source: Collares-Pereira and Rabl (1979), as quoted.
    Valid:  whole hours of sun; their sum over a day is 1 within a percent. Nothing outside sunrise and sunset.
    """
    if not np.all((np.greater(sunset, 0.0)) & (np.less_equal(sunset, np.pi))):
        raise ImpossibleInput(f"sunset between 0 and pi from noon is meant, got {sunset}")
    w, ws = np.asarray(hour_angle, dtype=float), np.asarray(sunset, dtype=float)
    level = np.maximum(np.cos(w) - np.cos(ws), 0.0) / (np.sin(ws) - ws * np.cos(ws))
    ratio: Ratio = (np.pi / 24.0 * each(_laws.hour_shape, hour_angle, sunset) * level)[()]
    return ratio


def day_shape(hour: Array, top: Array, daylight: Hour) -> Array:
    """Clearness of each hour of a day over that of the whole day. `hour` counts from noon, `top` is the sun above the
    air, `daylight` hours of it; arrays of the day's hours.

        (a + b*cos w), scaled so that its mean weighed by `top` is 1

    Source: Collares-Pereira and Rabl (1979): `hour_ratio` over the same without air.
    Valid:  as `hour_ratio`; a day without sun is given ones.
    """
    _refuse.negative(daylight=daylight)
    if not np.any(np.greater(top, 0.0)) or daylight <= 0.0:
        return np.ones(np.shape(top))
    sunset = np.pi * min(daylight, 24.0) / 24.0
    shape = np.array(
        [_laws.hour_shape(angle, sunset) for angle in (np.pi / 12.0 * np.asarray(hour)).tolist()]
    )
    even: Array = shape * np.sum(top) / np.sum(shape * top)
    return even


def diffuse_share(clearness: Ratio) -> Ratio:
    """Share of an hour's sun on level ground that comes from the sky.

        k <= 0.22: 1 - 0.09*k;  k <= 0.80: 0.9511 - 0.1604*k + 4.388*k**2 - 16.638*k**3 + 12.336*k**4;  above: 0.165

    Source: Erbs, Klein and Duffie, Solar Energy 28 (1982) 293-302.
    Valid:  hours; snow on the ground and high mountains give other shares.
    """
    _refuse.negative(clearness=clearness)
    return each(_laws.diffuse_share, clearness)


def _usual(mean: Ratio) -> None:
    if not np.all((np.greater_equal(mean, _LEAST)) & (np.less_equal(mean, _MOST))):
        raise ImpossibleInput(f"a month's mean clearness between {_LEAST} and {_MOST} is meant, got {mean}")
