"""Temperature through the year and the day, from means of months."""

from __future__ import annotations

import numpy as np

from tidestead.core.dims import Array, Hour, Kelvin, Ratio
from tidestead.core.errors import ImpossibleInput
from tidestead.core.weather import HOURS, MONTH_DAYS, MONTH_OF_HOUR

_MONTHS = 12
_WAVES = ((0.4632, 3.805), (0.0984, 0.360), (0.0168, 0.822), (0.0138, 3.513))
"""Heights and delays of the waves of a day. Source: Erbs, Klein and Beckman (1983), from memory."""


def swing_of_clearness(clearness: Ratio) -> Kelvin:
    """From the coldest to the warmest hour of a month's mean day, by the month's mean clearness.

        A = 25.8*K - 5.21

    Source: Erbs, Klein and Beckman, ASHRAE Journal, June 1983, from memory.
    Valid:  clearness 0.3 to 0.75, inland; by the sea half of it or less.
    """
    return 25.8 * clearness - 5.21


def daily_wave(hour: Hour) -> Ratio:
    """Temperature of a mean day at an hour of the sun's time, off the day's mean, for each kelvin of swing.

        0.4632*cos(s - 3.805) + 0.0984*cos(2*s - 0.360) + 0.0168*cos(3*s - 0.822) + 0.0138*cos(4*s - 3.513)
        s = 2*pi*(h - 0.5)/24       printed as n - 1 with n the number of the hour, the first of which ends at 1 h

    Source: Erbs, Klein and Beckman, ASHRAE Journal, June 1983, from memory.
    Valid:  means of many days; warmest at about 15 h, coldest before 6 h. Two coasts were warmest half an hour to an
            hour sooner.
    """
    s = 2.0 * np.pi * np.subtract(hour, 0.5) / 24.0
    wave: Ratio = sum(high * np.cos((place + 1) * s - late) for place, (high, late) in enumerate(_WAVES))
    return wave


def month_position() -> Array:
    """Where every hour of the year stands between the middles of months: 0 in mid January, 11 in mid December, and
    below 0 and above 11 towards the ends of the year; shape (8760,).

        n + (t - middle of n)/(middle of n+1 - middle of n)

    Source: definition.
    Valid:  a year of 365 days.
    """
    ends = 24.0 * np.concatenate(([0.0], np.cumsum(MONTH_DAYS)))
    middles = 0.5 * (ends[:-1] + ends[1:])
    before, after = middles[-1] - HOURS, middles[0] + HOURS
    knots = np.concatenate(([before], middles, [after]))
    place: Array = np.interp(np.arange(HOURS) + 0.5, knots, np.arange(-1.0, _MONTHS + 1))
    return place


def through_months(means: Array) -> Array:
    """A line through the year, straight between the middles of months, whose mean over each month is the one given.

        means (12,) in any unit, hours (8760,) out; the heights in the middles follow from 12 equations

    Source: elementary.
    Valid:  the heights lie outside the means where these bend: by about an eighth of the bend.
    """
    wanted = np.asarray(means, dtype=float)
    if wanted.shape != (_MONTHS,) or not np.all(np.isfinite(wanted)):
        raise ImpossibleInput(f"twelve finite means are meant, got {means}")
    place = month_position()
    left = np.floor(place).astype(int)
    part = place - left
    weights = np.zeros((HOURS, _MONTHS))
    every = np.arange(HOURS)
    np.add.at(weights, (every, left % _MONTHS), 1.0 - part)
    np.add.at(weights, (every, (left + 1) % _MONTHS), part)
    sums = np.array([weights[month == MONTH_OF_HOUR].mean(axis=0) for month in range(_MONTHS)])
    line: Array = weights @ np.linalg.solve(sums, wanted)
    return line
