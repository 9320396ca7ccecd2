"""Hours without a value: short gaps are filled between their neighbours, long ones make the year unusable."""

from __future__ import annotations

import numpy as np

from tidestead.core.dims import Array
from tidestead.core.weather import HOURS, MONTH_DAYS, MONTH_OF_HOUR, MONTHS
from tidestead.intake.hours import Flags
from tidestead.intake.layout import RawYear
from tidestead.intake.notes import Notes

LONGEST = 6
"""Hours of a gap that is filled."""
TURN = 14
"""Hours at the turn of a year that are lost when a series of UTC is cut by a clock elsewhere."""
_FIRST_DAY = np.cumsum((0, *MONTH_DAYS))


def gaps(values: Array, ring: bool) -> list[tuple[int, int]]:
    """Where gaps begin and how long they are; one over the turn of a ring begins in its old year."""
    missing = ~np.isfinite(values)
    if not missing.any():
        return []
    if missing.all():
        return [(0, len(values))]
    edges = np.flatnonzero(np.diff(np.concatenate(([0], missing.view(np.int8), [0]))))
    found = [(int(begin), int(end - begin)) for begin, end in zip(edges[::2], edges[1::2], strict=True)]
    if ring and len(found) > 1 and found[0][0] == 0 and sum(found[-1]) == len(values):
        begin, length = found.pop()
        found[0] = (begin, length + found[0][1])
    return found


def filled(values: Array, ring: bool, what: str, notes: Notes) -> Array:
    """The values with every gap of up to six hours filled on a straight line; longer ones stay."""
    short = [(begin, length) for begin, length in gaps(values, ring) if length <= LONGEST]
    if not short:
        return values
    known = np.flatnonzero(np.isfinite(values))
    places = np.concatenate([np.arange(begin, begin + length) for begin, length in short]) % len(values)
    mended = values.copy()
    mended[places] = np.interp(places, known, values[known], period=len(values) if ring else None)
    words = f"hours without {what} were filled between their neighbours"
    notes.count(words, len(places), moment(short[0][0]))
    return mended


def turned(year: RawYear, notes: Notes) -> RawYear:
    """The first or last hours of a calendar year, lost to another clock, taken from the day beside them."""
    if year.ring or not year.rows:
        return year
    known = np.any([np.isfinite(values) for values in year.columns.values()], axis=0)
    first, last = int(np.argmax(known)), int(np.argmax(known[::-1]))
    if not (0 < first <= TURN or 0 < last <= TURN):
        return year
    columns = {}
    for key, values in year.columns.items():
        own = values.copy()
        if 0 < first <= TURN:
            own[:first] = own[24 : 24 + first]
        if 0 < last <= TURN:
            own[HOURS - last :] = own[HOURS - last - 24 : HOURS - 24]
        columns[key] = own
    number = (first if first <= TURN else 0) + (last if last <= TURN else 0)
    notes.count("hours at the turn of a year were taken from the day beside them", number)
    return RawYear(year.label, columns, year.rows, year.ring, year.last, year.line)


def months_missing(missing: Flags) -> str:
    """The months with hours missing: "Mar (744 of 744 hours), Apr (12 of 720 hours)"."""
    lost = np.bincount(MONTH_OF_HOUR[missing], minlength=12)
    return ", ".join(
        f"{MONTHS[month]} ({lost[month]} of {24 * MONTH_DAYS[month]} hours)" for month in np.flatnonzero(lost)
    )


def moment(hour: int) -> str:
    """An hour of the year in words: "2 Jul, 03:00"; its beginning."""
    day, clock = divmod(hour % HOURS, 24)
    month = int(np.searchsorted(_FIRST_DAY, day, side="right")) - 1
    return f"{day - int(_FIRST_DAY[month]) + 1} {MONTHS[month]}, {clock:02d}:00"
