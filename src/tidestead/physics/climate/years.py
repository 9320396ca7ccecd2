"""Years of hourly weather made from twelve monthly normals and the sun's path, by chance that can be repeated.

Monthly means of many years are the normals; single years differ as real ones do. The cold tail is on the mild side:
the coldest hour of made years is on average 3 to 4 K milder than that of a typical year at two of three stations
(Florida, North Carolina; not Alaska), so heaters are sized on a stated cold spell, never on these years (`spells`).
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from tidestead.core.dims import Array, Count, Pascal
from tidestead.core.errors import ImpossibleInput
from tidestead.core.weather import HOURS, MONTH_OF_HOUR, MONTHS, Normals, SunPath, WeatherYear
from tidestead.physics import _refuse

_MOST = 2**32
_ROWS = 8


@dataclass(frozen=True, eq=False)
class Climate:
    """Normals and sun made ready for years to be drawn. `months` (12, 6) and `hours` (9, 8760) are what `year_into` of
    the compiled loops takes, in the order written there."""

    months: Array
    hours: Array
    pressure: Pascal


def climate_of(normals: Normals, sun: SunPath, pressure: Pascal = 101325.0) -> Climate:
    """Twelve normals and the sun's path at a place, made ready for years to be drawn. `pressure`: of the air there.

        clearness of a month = mean sun / mean sun above the air; dew point so that the mean humidity is kept

    Source: chain of monthly normals to hours as in Knight, Klein and Duffie (1991), with parts named at `year_of`.
    Valid:  as `year_of`. Swings left out follow from the sun; by the sea they are smaller.
    """
    from tidestead.physics.climate import _prepared  # noqa: PLC0415 - brings the compiler, which only years need

    _check(normals, sun)
    _refuse.not_positive(pressure=pressure)
    months = _prepared.month_rows(normals, sun)
    hours = _prepared.hour_rows(normals, sun, months)
    for array in (months, hours):
        array.flags.writeable = False
    return Climate(months, np.ascontiguousarray(hours), pressure)


def year_of(climate: Climate, seed: Count, number: Count) -> WeatherYear:
    """One year of hours. The same seed and number give the same year, whatever else is asked and in what order.

        days: clearness by Bendt's spread, lag 0.29; temperature with lag 0.7, leaning to the cold in winter
        hours: Collares-Pereira and Rabl, lag 0.54; diffuse by Erbs; day's wave by Erbs; wind Weibull, shape 2

    Source: Bendt and others (1981); Graham, Hollands and Unny (1988); Collares-Pereira and Rabl (1979); Erbs and
            others (1982, 1983); spread and lags of temperature, dew point and wind: common practice, no source.
    Valid:  means and energy of a year within some percent; single extremes are too mild. Air pressure is steady.
    """
    from tidestead.physics.climate._kernel import year_into  # noqa: PLC0415 - brings the compiler

    for name, value in (("seed", seed), ("number", number)):
        if not 0 <= value < _MOST:
            raise ImpossibleInput(f"{name} of a year from 0 to {_MOST - 1} is meant, got {value}")
    out = np.empty((_ROWS, HOURS))
    year_into(out, climate.months, climate.hours, climate.pressure, seed, number)
    out.flags.writeable = False
    temp_c, humidity, pressure, wind, beam, diffuse, total, sky = out
    return WeatherYear(f"made {number}", temp_c, humidity, pressure, wind, beam, diffuse, total, sky)


def synthetic_year(
    normals: Normals, sun: SunPath, seed: Count, number: Count, pressure: Pascal = 101325.0
) -> WeatherYear:
    """One year of hours from twelve normals; for many years make a `climate_of` once and draw with `year_of`.

        year_of(climate_of(normals, sun, pressure), seed, number)

    Source: `year_of`.
    Valid:  as `year_of`.
    """
    return year_of(climate_of(normals, sun, pressure), seed, number)


def _check(normals: Normals, sun: SunPath) -> None:
    """Refuse normals that no place has."""
    for name in ("temp_c", "sun", "humidity", "wind", "swing"):
        values = getattr(normals, name)
        if values is not None and (len(values) != len(MONTHS) or not np.all(np.isfinite(values))):
            raise ImpossibleInput(f"twelve finite monthly means are meant, got {values} for {name}")
    for values in (normals.sun, normals.wind, normals.swing or ()):
        for value in values:
            _refuse.negative(normal=value)
    for value in normals.humidity:
        _refuse.not_a_share(humidity=value)
    top = np.bincount(MONTH_OF_HOUR, weights=sun.top) / np.bincount(MONTH_OF_HOUR)
    for month, (mean, most) in enumerate(zip(normals.sun, top, strict=True)):
        if mean > max(most, 1.0):
            raise ImpossibleInput(
                f"{MONTHS[month]}: a mean sun of {mean:.0f} W/m2 is more than the {most:.0f} W/m2 above the air there"
            )
