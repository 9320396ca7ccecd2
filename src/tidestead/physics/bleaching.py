"""How much warmth corals have had above what they are used to: degree heating weeks.

Made for reefs seen from space, with the mean of the warmest month of many years as what corals are used to. In a
tank it is the warmest month that its corals have lived through.
"""

from __future__ import annotations

import numpy as np

from tidestead.core.dims import Array, Celsius, Kelvin, KelvinWeek
from tidestead.core.errors import ImpossibleInput
from tidestead.physics import _refuse

BLEACHING: KelvinWeek = 4.0
"""From here on bleaching is to be expected. Source: NOAA Coral Reef Watch, agency pages read."""

MORTALITY: KelvinWeek = 8.0
"""From here on corals die. Source: NOAA Coral Reef Watch, agency pages read."""

_COUNTS: Kelvin = 1.0
_WINDOW = 84
"""Least warmth above the warmest month that counts, and days that are looked back on: twelve weeks."""

_WEEK = 7.0


def degree_heating_weeks(daily: Array, warmest_month: Celsius) -> KelvinWeek:
    """Warmth above the warmest month of the days up to the last one, `daily` their means in degC.

        DHW = sum(HotSpot)/7 over 84 days, of days with HotSpot >= 1      HotSpot = SST - MMM

    Source: NOAA Coral Reef Watch, agency pages read; Skirving et al. (2020) for the days that count.
    Valid:  one mean of each day, without gaps. Light, and how fast it grew warm, are not in it. No further axes.
    """
    _refuse.endless(warmest_month=warmest_month)
    days = np.asarray(daily, dtype=float)
    if days.ndim != 1 or days.size == 0 or not np.all(np.isfinite(days)):
        raise ImpossibleInput("degree heating weeks want one temperature for each of some days")
    hot = days[-_WINDOW:] - warmest_month
    return float(hot[hot >= _COUNTS - _SLIP].sum() / _WEEK)


def most_heating_weeks(daily: Array, warmest_month: Celsius) -> KelvinWeek:
    """The most that degree heating weeks come to on any of the days.

        max over days of `degree_heating_weeks`

    Source: `degree_heating_weeks`.
    Valid:  as that.
    """
    days = np.asarray(daily, dtype=float)
    ends = range(1, max(days.size, 1) + 1)
    return max(degree_heating_weeks(days[:end], warmest_month) for end in ends)


_SLIP = 1e-9
"""A day of 28.1 over a month of 27.1 counts, though floats put it a hair below 1."""
