"""Cold spells and heat waves: laid over a year where it is coldest or warmest, and what to take where none is stated.

Made years and typical years are too mild at their ends, so what must be stood is stated, not drawn.
"""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np

from tidestead.core.dims import Array, Celsius, Count, Day, Kelvin
from tidestead.core.errors import ImpossibleInput
from tidestead.core.weather import HOURS, Normals, Spell, SunPath, WeatherYear
from tidestead.physics import _refuse
from tidestead.physics._air_laws import saturation_pressure
from tidestead.physics._sky_laws import clear_sun
from tidestead.physics.climate._laws import diffuse_share

_DAY = 24
_RAMP = 24
"""Hours over which a spell comes and goes. Common practice, no source."""

_LONGEST = 90.0
_DAYS = 5.0
_WANTED_YEARS = 20.0
_COLD_SPREAD, _WARM_SPREAD = 3.0, 1.5
_GUMBEL = math.sqrt(6.0) / math.pi
_BELOW_NORMAL, _ABOVE_NORMAL = 10.0, 6.0
"""A spell where none is stated: its days; how seldom it should come, years; how far the coldest and the warmest five
days of years differ, K; scale of Gumbel's law for a spread of one; K below and above the mean of the coldest and the
warmest month. Common practice, no source: own choice, from typical years of three stations and from made years."""

_KELVIN = 273.15
_CLEAREST = 0.85
_LOW_SUN = 0.05
"""A clear sky passes no more of the sun than this; cosine below which hours are left as they are. Own choice."""


def coldest_mean(year: WeatherYear, days: Day) -> Celsius:
    """Mean temperature of the coldest days on end of a year, from a midnight on.

        min over d of mean(t from day d to d + n)

    Source: definition.
    Valid:  spells over the turn of the year are cut there.
    """
    return float(_means(year.temp_c, _span(days)).min())


def warmest_mean(year: WeatherYear, days: Day) -> Celsius:
    """Mean temperature of the warmest days on end of a year, from a midnight on.

        max over d of mean(t from day d to d + n)

    Source: definition.
    Valid:  as `coldest_mean`.
    """
    return float(_means(year.temp_c, _span(days)).max())


def with_cold_spell(year: WeatherYear, spell: Spell) -> WeatherYear:
    """The year with its coldest stretch made as cold as the spell; a year that is colder already is given back.

        t' = t + w*(T_spell - mean of the stretch)       w: 1 in it, falling to 0 over a day on both sides

    Relative humidity stays, so that the air gets drier with the cold. The sky's longwave goes with T**4.

    Source: own choice, common practice: a real stretch shifted keeps its days and nights.
    Valid:  up to 90 days.
    """
    span = _span(spell.days)
    means = _means(year.temp_c, span)
    start, shift = _DAY * int(means.argmin()), spell.mean_c - float(means.min())
    if shift >= 0.0:
        return year
    temp_c = year.temp_c + shift * _weights(start, span)
    return _told(replace(year, temp_c=temp_c, sky=_sky(year, temp_c)), "cold spell")


def with_heat_wave(year: WeatherYear, spell: Spell, sun: SunPath | None = None) -> WeatherYear:
    """The year with its warmest stretch made as warm as the wave; a year that is warmer already keeps its heat.

        t' = t + w*(T_wave - mean of the stretch)       w: 1 in it, falling to 0 over a day on both sides

    Vapour stays, so that relative humidity falls. With the sun's path given the sky is clear in it:
    at least 1098*cos z*exp(-0.059/cos z) W/m2, its diffuse part by Erbs. The sky's longwave goes with T**4.

    Source: own choice, common practice; clear sky by Haurwitz (1945).
    Valid:  up to 90 days. Damp heat waves let a fan over the water do less than is found here.
    """
    span = _span(spell.days)
    means = _means(year.temp_c, span)
    start, shift = _DAY * int(means.argmax()), max(0.0, spell.mean_c - float(means.max()))
    if shift > 0.0:
        weights = _weights(start, span)
        temp_c = year.temp_c + shift * weights
        humidity = year.humidity.copy()
        for hour in np.flatnonzero(weights).tolist():
            held = humidity[hour] * saturation_pressure(float(year.temp_c[hour]))
            humidity[hour] = held / saturation_pressure(float(temp_c[hour]))
        year = _told(replace(year, temp_c=temp_c, humidity=humidity, sky=_sky(year, temp_c)), "heat wave")
    return year if sun is None else _cleared(year, sun, slice(start, start + span))


def rare_margin(years: Count, spread: Kelvin) -> Kelvin:
    """How much further out than the furthest of so many years the one lies that comes once in twenty.

        dT = sqrt(6)/pi*s*ln(20/n), not below nothing       s: spread (standard deviation) of yearly extremes

    Source: Gumbel, Statistics of Extremes (1958): the most likely furthest of n years goes with ln n.
    Valid:  20 years and more: nothing. A typical year counts as one.
    """
    _refuse.not_positive(years=years)
    _refuse.negative(spread=spread)
    return max(0.0, _GUMBEL * spread * math.log(_WANTED_YEARS / years))


def cold_spell_of_years(years: tuple[WeatherYear, ...]) -> Spell:
    """The cold spell to stand where the plan states none and there are years of weather: five days.

        coldest five days of them, less `rare_margin` with a spread of 3 K

    Source: own choice, common practice; `rare_margin`.
    Valid:  real years, or a typical one, which counts as one year.
    """
    _some(years)
    coldest = min(coldest_mean(year, _DAYS) for year in years)
    words = f"coldest 5 days of {len(years)} years of weather, less what so few years do not show"
    return Spell(_DAYS, coldest - rare_margin(len(years), _COLD_SPREAD), words)


def heat_wave_of_years(years: tuple[WeatherYear, ...]) -> Spell:
    """The heat wave to stand where the plan states none and there are years of weather: five days.

        warmest five days of them, and `rare_margin` with a spread of 1.5 K on top

    Source: own choice, common practice; `rare_margin`.
    Valid:  real years, or a typical one, which counts as one year.
    """
    _some(years)
    warmest = max(warmest_mean(year, _DAYS) for year in years)
    words = f"warmest 5 days of {len(years)} years of weather, with what so few years do not show on top"
    return Spell(_DAYS, warmest + rare_margin(len(years), _WARM_SPREAD), words)


def cold_spell_of_normals(normals: Normals) -> Spell:
    """The cold spell to stand where the plan states none and only monthly normals are known: five days.

        mean of the coldest month less 10 K

    Source: own choice, common practice.
    Valid:  by the sea and in the tropics safe; inland of a continent some 3 K too mild: state one there.
    """
    return Spell(_DAYS, min(normals.temp_c) - _BELOW_NORMAL, "mean of the coldest month, less 10 K")


def heat_wave_of_normals(normals: Normals) -> Spell:
    """The heat wave to stand where the plan states none and only monthly normals are known: five days.

        mean of the warmest month and 6 K

    Source: own choice, common practice.
    Valid:  temperate places; too much by some 3 K in the humid tropics.
    """
    return Spell(_DAYS, max(normals.temp_c) + _ABOVE_NORMAL, "mean of the warmest month, and 6 K on top")


def _span(days: Day) -> int:
    """Hours of a spell."""
    if not 0.0 < days <= _LONGEST:
        raise ImpossibleInput(f"a spell of up to {_LONGEST:g} days is meant, got {days}")
    return max(1, round(_DAY * days))


def _means(temp_c: Array, span: int) -> Array:
    """Mean of the hours of a spell that starts at each midnight, while it ends within the year."""
    summed = np.concatenate(([0.0], np.cumsum(temp_c)))
    starts = np.arange(0, HOURS - span + 1, _DAY)
    means: Array = (summed[starts + span] - summed[starts]) / span
    return means


def _weights(start: int, span: int) -> Array:
    """1 in the spell, falling to 0 as half a wave over a day on both sides."""
    hour = np.arange(HOURS) + 0.5
    away = np.maximum(np.maximum(start - hour, hour - (start + span)), 0.0) / _RAMP
    weights: Array = np.where(away < 1.0, 0.5 + 0.5 * np.cos(np.pi * np.minimum(away, 1.0)), 0.0)
    return weights


def _sky(year: WeatherYear, temp_c: Array) -> Array:
    """The sky's longwave at other temperatures and the same emissivity."""
    sent: Array = year.sky * ((temp_c + _KELVIN) / (year.temp_c + _KELVIN)) ** 4
    return sent


def _cleared(year: WeatherYear, sun: SunPath, stretch: slice) -> WeatherYear:
    """The year with a clear sky over a stretch of it."""
    total, diffuse, beam = year.total.copy(), year.diffuse.copy(), year.beam.copy()
    cosine = np.cos(sun.zenith_rad)
    for hour in range(stretch.start, stretch.stop):
        clear = min(clear_sun(float(cosine[hour])) * float(sun.up[hour]), _CLEAREST * float(sun.top[hour]))
        if clear > total[hour] and cosine[hour] > _LOW_SUN:
            total[hour] = clear
            diffuse[hour] = clear * diffuse_share(clear / float(sun.top[hour]))
            beam[hour] = (total[hour] - diffuse[hour]) / cosine[hour]
    return _told(replace(year, total=total, diffuse=diffuse, beam=beam), "clear sky")


def _told(year: WeatherYear, words: str) -> WeatherYear:
    """The year under a name that says what was laid over it, not to be changed."""
    for array in (year.temp_c, year.humidity, year.sky, year.total, year.diffuse, year.beam):
        array.flags.writeable = False
    return replace(year, label=f"{year.label}, {words}")


def _some(years: tuple[WeatherYear, ...]) -> None:
    if not years:
        raise ImpossibleInput("no year of weather to find a spell in")
