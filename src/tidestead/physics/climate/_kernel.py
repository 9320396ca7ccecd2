"""A year of hours out of a climate and chance: the loops, compiled where the compiler is there.

`months` has a row for each month and the columns below, `hours` a row for each figure below and a column for each
hour. Whoever imports this pays for the compiler; `years` does so only when a year is made.
"""

from __future__ import annotations

import math

import numpy as np

from tidestead.core.compiled import compiled
from tidestead.core.dims import Array
from tidestead.core.weather import MONTH_OF_HOUR
from tidestead.physics import _air_laws, _sky_laws
from tidestead.physics.climate import _draws, _laws

MEAN, HIGHEST, STEEP, SCALE, DEPRESSION, WIND = range(6)
BASE, SPREAD, COLD, SWING, POSITION, COSINE, TOP, SHAPE, CLEAR = range(9)
TEMP, HUMIDITY, PRESSURE, WIND_ROW, BEAM, DIFFUSE, TOTAL, SKY = range(8)

_DAYS = 365
MONTH_OF_DAY = MONTH_OF_HOUR[12::24].copy()
_DAY_LAG = 0.29
"""Of daily clearness. Source: Graham, Hollands and Unny (1988), from memory."""

_HOUR_LAG, _HOUR_SPREAD = 0.54, 0.16
"""Of hourly clearness. Source: Graham and Hollands (1990); lag from the abstract, spread from memory."""

_HOUR_HIGHEST, _HOUR_WIDEST = 0.85, 0.9
"""Clearest hour, and where the spread of hours ends. Common practice, no source."""

_TEMP_LAG = 0.7
_YEAR_SPREAD, _MONTH_SHARE = 0.5, 0.2
_SKEW = 0.1
_BETWEEN = 0.934
"""Days: lag; spread of whole years, K, and of months for each kelvin of that of days; lean of cold seasons towards the
cold; what is left of a day's spread when one goes in a line from noon to noon. Common practice, no source."""

_DRY_LAG, _DRY_BY_SUN, _DRY_SPREAD = 0.5, 0.7, 0.6
"""Dew point below the air: lag, pull of a clear day, spread of its logarithm. Common practice, no source: seen in the
typical years of two stations."""

_WIND_LAG = 0.9
_WEIBULL = 0.886226925452758
"""Lag of hours: common practice, no source. Mean of a Weibull wind of shape 2 over its scale: gamma(1.5)."""

CALM_SWING, WIDE_SWING = 0.3, 1.7
DRIEST = 0.05
FROZEN_OUT = -60.0
_TWILIGHT = 0.01

_YEAR, _MONTH, _DAY, _HOUR = range(4)
"""What chance is drawn for: second word of the counter."""

philox = compiled(_draws.philox)
bell_pair = compiled(_draws.bell_pair)
clearness_at = compiled(_laws.clearness_at)
diffuse_share = compiled(_laws.diffuse_share)
saturation = compiled(_air_laws.saturation_pressure)
emissivity = compiled(_sky_laws.sky_emissivity_clark)
longwave = compiled(_sky_laws.sky_longwave)
cloud_of_sun = compiled(_sky_laws.cloud_of_sun)


@compiled
def drier(clear: float, other: float) -> float:
    """Depression of a day's dew point over the month's, by how clear the day is and other chance."""
    both = _DRY_BY_SUN * clear + math.sqrt(1.0 - _DRY_BY_SUN**2) * other
    return math.exp(_DRY_SPREAD * both - 0.5 * _DRY_SPREAD**2)


@compiled
def draw_days(months: Array, hours: Array, seed: int, number: int) -> Array:
    """For each day: clearness, temperature off the normal, depression of the dew point, sun's place among days."""
    odd = np.empty(13)
    word = philox(0, _YEAR, 0, 0, seed, number)
    odd[12] = _YEAR_SPREAD * bell_pair(word[0], word[1])[0]
    for month in range(12):
        word = philox(month, _MONTH, 0, 0, seed, number)
        odd[month] = _MONTH_SHARE * bell_pair(word[0], word[1])[0]
    days = np.empty((_DAYS, 4))
    clear, warm, dry = 0.0, 0.0, 0.0
    for day in range(_DAYS):
        noon = 24 * day + 12
        month = months[MONTH_OF_DAY[day]]
        word = philox(day, _DAY, 0, 0, seed, number)
        one, two = bell_pair(word[0], word[1])
        three = bell_pair(word[2], word[3])[0]
        cold = hours[COLD, noon]
        tied = 0.05 - 0.25 * cold
        two = tied * one + math.sqrt(1.0 - tied * tied) * two
        if day == 0:
            clear, warm, dry = one, two, three
        else:
            clear = _DAY_LAG * clear + math.sqrt(1.0 - _DAY_LAG**2) * one
            warm = _TEMP_LAG * warm + math.sqrt(1.0 - _TEMP_LAG**2) * two
            dry = _DRY_LAG * dry + math.sqrt(1.0 - _DRY_LAG**2) * three
        below = 0.5 * math.erfc(-clear / math.sqrt(2.0))
        lean = _SKEW * max(cold, 0.0)
        leaning = (warm - lean * (warm * warm - 1.0)) / math.sqrt(1.0 + 2.0 * lean * lean)
        place = hours[POSITION, noon]
        left = int(place)
        part = place - left
        whole = odd[left % 12] * (1.0 - part) + odd[(left + 1) % 12] * part
        days[day, 0] = month[SCALE] * clearness_at(below, month[HIGHEST], month[STEEP])
        days[day, 1] = odd[12] + hours[SPREAD, noon] * (leaning / _BETWEEN + whole)
        days[day, 2] = month[DEPRESSION] * drier(clear, dry)
        days[day, 3] = below
    return days


@compiled
def draw_hours(seed: int, number: int) -> Array:
    """Two normal numbers for each hour: for its sun and for its wind."""
    noise = np.empty((24 * _DAYS, 2))
    for pair in range(12 * _DAYS):
        word = philox(pair, _HOUR, 0, 0, seed, number)
        noise[2 * pair, 0], noise[2 * pair, 1] = bell_pair(word[0], word[1])
        noise[2 * pair + 1, 0], noise[2 * pair + 1, 1] = bell_pair(word[2], word[3])
    return noise


@compiled
def fill_sun(out: Array, hours: Array, clearness: float, day: int, noise: Array) -> None:
    """The day's sun, hour by hour; the clearest hours are capped and the rest of the day made to sum up."""
    first, last = 24 * day, 24 * day + 24
    wanted = 0.0
    for hour in range(first, last):
        top = hours[TOP, hour]
        usual = clearness * hours[SHAPE, hour]
        wide = _HOUR_SPREAD * math.sin(math.pi * min(usual, _HOUR_WIDEST) / _HOUR_WIDEST)
        out[TOTAL, hour] = min(max(usual + wide * noise[hour, 0], 0.1 * usual), _HOUR_HIGHEST)
        wanted += clearness * top
    for _ in range(4):
        came = 0.0
        for hour in range(first, last):
            came += out[TOTAL, hour] * hours[TOP, hour]
        if came <= 0.0:
            break
        for hour in range(first, last):
            out[TOTAL, hour] = min(out[TOTAL, hour] * wanted / came, _HOUR_HIGHEST)
    for hour in range(first, last):
        k, top, cosine = out[TOTAL, hour], hours[TOP, hour], hours[COSINE, hour]
        total = k * top
        diffuse = total
        if cosine > _TWILIGHT:
            diffuse = diffuse_share(k) * total
        out[TOTAL, hour] = total
        out[DIFFUSE, hour] = diffuse
        out[BEAM, hour] = (total - diffuse) / max(cosine, _TWILIGHT)


@compiled
def fill_air(out: Array, hours: Array, scales: Array, days: Array, cloud: Array) -> None:
    """Temperature, humidity and sky of every hour, going in a line from noon to noon."""
    for hour in range(24 * _DAYS):
        place = min(max((hour - 11.5) / 24.0, 0.0), _DAYS - 1.0)
        left = min(int(place), _DAYS - 2)
        part = place - left
        off = days[left, 1] * (1.0 - part) + days[left + 1, 1] * part
        depressed = days[left, 2] * (1.0 - part) + days[left + 1, 2] * part
        swing = scales[left] * (1.0 - part) + scales[left + 1] * part
        level = hours[BASE, hour] + off
        temp = level + swing * hours[SWING, hour]
        dew = min(max(level - depressed, FROZEN_OUT), temp)
        out[TEMP, hour] = temp
        out[HUMIDITY, hour] = min(max(saturation(dew) / saturation(temp), DRIEST), 1.0)
        out[SKY, hour] = longwave(emissivity(dew, 10.0 * cloud[hour // 24]), temp)


@compiled
def year_into(out: Array, months: Array, hours: Array, pressure: float, seed: int, number: int) -> None:
    """Fill `out` (8, 8760) with a year: temperature, humidity, pressure, wind, beam, diffuse, total, sky.

    The same seed and number, below 2**32, give the same year whatever else is asked.
    """
    days = draw_days(months, hours, seed, number)
    noise = draw_hours(seed, number)
    scales, cloud = np.empty(_DAYS), np.empty(_DAYS)
    sunny, windy = 0.0, 0.0
    keep_sun, keep_wind = math.sqrt(1.0 - _HOUR_LAG**2), math.sqrt(1.0 - _WIND_LAG**2)
    for hour in range(24 * _DAYS):
        if hour == 0:
            sunny, windy = noise[0, 0], noise[0, 1]
        else:
            sunny = _HOUR_LAG * sunny + keep_sun * noise[hour, 0]
            windy = _WIND_LAG * windy + keep_wind * noise[hour, 1]
        noise[hour, 0] = sunny
        calmer = 0.5 * math.erfc(windy / math.sqrt(2.0))
        scale = months[MONTH_OF_DAY[hour // 24], WIND] / _WEIBULL
        out[WIND_ROW, hour] = scale * math.sqrt(-math.log(calmer))
        out[PRESSURE, hour] = pressure
    for day in range(_DAYS):
        fill_sun(out, hours, days[day, 0], day, noise)
        came = 0.0
        for hour in range(24 * day, 24 * day + 24):
            came += out[TOTAL, hour] / 24.0
        cloud[day] = 1.0 - days[day, 3]
        if hours[CLEAR, 24 * day] > 0.0:
            cloud[day] = cloud_of_sun(came, hours[CLEAR, 24 * day])
        usual = months[MONTH_OF_DAY[day], MEAN]
        scales[day] = 1.0
        if usual > 0.0:
            scales[day] = min(max(days[day, 0] / usual, CALM_SWING), WIDE_SWING)
    fill_air(out, hours, scales, days, cloud)
