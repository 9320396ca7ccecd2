"""Daylight at a depth of a vessel, hour by hour, for years of weather; and what months and days make of it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from tidestead.core.dims import Array
from tidestead.core.weather import HOURS, MONTH_DAYS, MONTH_OF_HOUR, SunPath, WeatherYear
from tidestead.physics.light import attenuation
from tidestead.plan.model.warmth import Cover
from tidestead.studies.house import WaterLight
from tidestead.studies.light.facts import Months, Spread
from tidestead.studies.years import tenths

_DAYS = HOURS // 24
_MOL = 3600.0 / 1e6
"""Moles of an hour at 1 umol/s."""

SOLSTICES = ((354, "21 Dec"), (79, "21 Mar"), (171, "21 Jun"), (264, "22 Sep"))
"""Days of the year, from 0, whose light over the day is told."""

_WEEK = 7
"""Days before and after one of them that are taken together."""

COLUMN = 5
"""Days that make a column of the map of the year."""


@dataclass(frozen=True, eq=False)
class Sky:
    """Sun and sky on level ground in all years that are tried, W/m2, shape (years, 8760)."""

    beam: Array
    diffuse: Array


@dataclass(frozen=True, eq=False)
class Share:
    """What of sun (by hour) and of sky arrives at a place."""

    beam: Array
    diffuse: Array


def sky_of(years: Sequence[WeatherYear]) -> Sky:
    """The years laid under one another. Sun on level ground is what is left of the whole without the sky's."""
    beam, diffuse = np.empty((len(years), HOURS)), np.empty((len(years), HOURS))
    for row, year in enumerate(years):
        diffuse[row] = year.diffuse
        beam[row] = np.maximum(year.total - year.diffuse, 0.0)
    return Sky(beam, diffuse)


def on_water(light: WaterLight, shaded: Array, covers: Sequence[Cover], sun: SunPath) -> Share:
    """What falls on the water, with its covers and with shade that keeps out a share by hour."""
    left = 1.0 - shaded
    for cover in covers:
        used = np.isin(MONTH_OF_HOUR, cover.months)
        shut = used if cover.when == "always" else used & (sun.up <= 0.0)
        left *= np.where(shut, 1.0 - cover.share * (1.0 - cover.passes), 1.0)
    return Share(light.beam * left, light.diffuse * left)


def at_depth(surface: Share, sun: SunPath, depth: float, rate: float) -> Share:
    """What arrives at a depth of what falls on the water."""
    angle = np.clip(sun.zenith_rad, 0.0, np.pi / 2.0)
    direct = attenuation.sun_under_water(angle, depth, rate)  # type: ignore[arg-type]  # numbers or arrays
    return Share(surface.beam * direct, surface.diffuse * attenuation.sky_under_water(depth, rate))


def flows(sky: Sky, share: Share, photons: float) -> Array:
    """Photons at a place by hour, umol/(m2 s), shape (years, 8760)."""
    found: Array = photons * (sky.beam * share.beam + sky.diffuse * share.diffuse)
    return found


def monthly(hours: Array) -> Array:
    """Light of a day, mol/(m2 day), mean of each month: (years, 12) from (years, 8760)."""
    days = hours.reshape(len(hours), _DAYS, 24).sum(axis=2) * _MOL
    edges = np.concatenate([[0], np.cumsum(MONTH_DAYS)[:-1]])
    means: Array = np.add.reduceat(days, edges, axis=1) / np.array(MONTH_DAYS, dtype=float)
    return means


def highest(hours: Array) -> Array:
    """The highest hour of each month: (years, 12)."""
    edges = np.concatenate([[0], np.cumsum(MONTH_DAYS)[:-1]]) * 24
    found: Array = np.maximum.reduceat(hours, edges, axis=1)
    return found


def spread(months: Array) -> Spread:
    """Over the years."""
    low, middle, high = tenths(months)
    return Spread(_numbers(low), _numbers(middle), _numbers(high))


def mean_days(hours: Array) -> tuple[Months, ...]:
    """Mean day round each solstice and equinox, over all years."""
    by_day = hours.reshape(len(hours), _DAYS, 24).mean(axis=0)
    found = []
    for day, _ in SOLSTICES:
        near = np.arange(day - _WEEK, day + _WEEK + 1) % _DAYS
        found.append(_numbers(by_day[near].mean(axis=0)))
    return tuple(found)


def brightest_day(hours: Array) -> tuple[int, Months]:
    """The day with the highest hour, from 0, and its 24 hours, in the year whose highest hour is the middle one."""
    tops = hours.max(axis=1)
    middle = int(np.argmin(np.abs(tops - np.median(tops))))
    day = int(np.argmax(hours[middle])) // 24
    return day, _numbers(hours[middle].reshape(_DAYS, 24)[day])


def columns(hours: Array) -> tuple[Months, ...]:
    """Five-day means of every hour of the day, over all years: 73 columns of 24."""
    by_day = hours.reshape(len(hours), _DAYS // COLUMN, COLUMN, 24).mean(axis=(0, 2))
    return tuple(_numbers(column) for column in by_day)


def day_lengths(sun: SunPath) -> Months:
    """Hours with the sun up, mean day of each month."""
    return _numbers(np.bincount(MONTH_OF_HOUR, weights=sun.up) / np.array(MONTH_DAYS))


def _numbers(values: Array) -> tuple[float, ...]:
    return tuple(float(value) for value in values)
