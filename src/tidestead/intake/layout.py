"""From rows in the order of a file to whole years of 8,760 hours by the site's clock.

A file that patches one year together from months of several years, or that holds no whole calendar year, is laid on
one year that has neither beginning nor end; a long series is cut into calendar years. The 29th of February is left
out. Where a clock differs from the site's by part of an hour, an hour is made of the parts of two.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from tidestead.core.dims import Array, Hour
from tidestead.core.weather import HOURS, MONTHS
from tidestead.intake.hours import SUN, Flags, Hours, Whole, hour_number
from tidestead.intake.notes import Notes
from tidestead.intake.rows import no_weather_in

WHOLE_YEAR = 8000
"""Hours of a calendar year that make it worth standing by itself."""
_MOST_HOURS = 62 * 8784
_PATCHED = 720
"""Hours between rows that follow each other in time: months of several years."""
_PIECE = 480
"""Hours of the shortest of such months."""
_SAME_CLOCK = 1e-6
_LEAP = "The 29th of February is left out."
_LEAP_BEGINS, _LEAP_ENDS = 59 * 24, 60 * 24


@dataclass(frozen=True, eq=False)
class RawYear:
    """Columns of 8,760 hours by the site's clock, not a number where nothing is known; `last` is the hour (from 0)
    and `line` the line of the last row that belongs to it.
    """

    label: str
    columns: dict[str, Array]
    rows: int
    ring: bool
    last: int = HOURS - 1
    line: int | None = None


@dataclass(frozen=True, eq=False)
class _Series:
    """Each hour once, in the order of time."""

    begins: Whole
    lines: Whole
    columns: dict[str, Array]


def laid_out(name: str, hours: Hours, later: Hour, notes: Notes) -> tuple[list[RawYear], bool]:
    """The years of a file by a clock that shows `later` hours more than its own, and whether it is one typical year."""
    series = _each_once(hours, notes)
    begins = series.begins
    _, counts = np.unique(begins.astype("datetime64[h]").astype("datetime64[Y]"), return_counts=True)
    typical = len(counts) > 1 and _is_patched(begins) if hours.typical is None else hours.typical
    if abs((later + hours.late) % 1.0) > _SAME_CLOCK and {"total", "diffuse"} <= series.columns.keys():
        series.columns.pop(
            "beam", None
        )  # made anew: at the edges of night a mean of two beams has another height
    if typical or bool((counts < WHOLE_YEAR).all()):
        return [_ring(series, hours, later, typical, notes)], typical
    if int(begins[-1] - begins[0]) > _MOST_HOURS:
        raise no_weather_in(
            name, f"The stamps go from {_day(begins[0])} to {_day(begins[-1])}.", "61 years are the most."
        )
    return _calendar_years(series, hours, later, notes), False


def _is_patched(begins: Whole) -> bool:
    """Whether months of several years make one year together; a lone row with a slip in its year does not."""
    pieces = np.split(begins, np.flatnonzero(np.diff(begins) > _PATCHED) + 1)
    return len(begins) <= HOURS + 24 and len(pieces) > 1 and min(len(piece) for piece in pieces) >= _PIECE


def _each_once(hours: Hours, notes: Notes) -> _Series:
    """Rows sorted by time; several of one hour become their mean."""
    begins, first, inverse, counts = np.unique(
        hours.begins, return_index=True, return_inverse=True, return_counts=True
    )
    per_hour = max(round(1.0 / hours.step), 1)
    twice = counts > per_hour
    if bool(twice.any()):
        where = f"line {hours.lines[first[np.flatnonzero(twice)[0]]]}"
        notes.count("hours stand in the file more than once; their mean was taken", int(twice.sum()), where)
    if per_hour > 1:
        notes.say(f"The file has {per_hour} rows an hour; their mean was taken.")
    columns = {}
    for key, values in hours.columns.items():
        known = np.isfinite(values)
        total = np.bincount(inverse, np.where(known, values, 0.0), len(begins))
        number = np.bincount(inverse, known, len(begins))
        columns[key] = np.where(number > 0, total / np.maximum(number, 1), np.nan)
    return _Series(begins, hours.lines[first], columns)


def _ring(series: _Series, hours: Hours, shift: float, typical: bool, notes: Notes) -> RawYear:
    """One year without beginning or end; where an hour of the year comes twice, the later year counts."""
    place, leap = _hour_of_year(series.begins)
    kept = np.flatnonzero(~leap)
    if bool(leap.any()):
        notes.say(_LEAP)
    columns = {}
    for key, values in series.columns.items():
        year = np.full(HOURS, np.nan)
        year[place[kept]] = values[kept]
        columns[key] = _moved(year, shift + _late(key, hours), ring=True)
    last = kept[np.argmax(place[kept])] if len(kept) else 0
    first_day, last_day = _month(series.begins[0]), _month(series.begins[-1])
    label = "typical year" if typical else f"{first_day} to {last_day}"
    rows = len(np.unique(place[kept]))
    return RawYear(label, columns, rows, ring=True, last=int(place[last]), line=int(series.lines[last]))


def _calendar_years(series: _Series, hours: Hours, shift: float, notes: Notes) -> list[RawYear]:
    """Every calendar year that the series touches, by the site's clock."""
    whole = round(shift)
    first = int(series.begins[0]) + whole
    size = int(series.begins[-1] - series.begins[0]) + 1
    place = series.begins - series.begins[0]
    grid = {}
    for key, values in series.columns.items():
        even = np.full(size, np.nan)
        even[place] = values
        grid[key] = _moved(even, shift - whole + _late(key, hours), ring=False)
    start, end = (int(str(np.datetime64(hour, "h"))[:4]) for hour in (first, first + size - 1))
    years = [_one_year(grid, first, year, series, whole) for year in range(start, end + 1)]
    if any(_hours_in(year) > HOURS for year in range(start, end + 1)):
        notes.say(_LEAP)
    return years


def _one_year(grid: dict[str, Array], first: int, year: int, series: _Series, whole: int) -> RawYear:
    begin, length = _first_hour(year), _hours_in(year)
    columns = {}
    for key, values in grid.items():
        own = np.full(length, np.nan)
        low, high = max(begin, first), min(begin + length, first + len(values))
        if high > low:
            own[low - begin : high - begin] = values[low - first : high - first]
        columns[key] = np.delete(own, slice(_LEAP_BEGINS, _LEAP_ENDS)) if length > HOURS else own
    inside = (series.begins + whole >= begin) & (series.begins + whole < begin + length)
    rows = int(inside.sum())
    if not rows:
        return RawYear(str(year), columns, 0, ring=False)
    last = int(np.flatnonzero(inside)[-1])
    place, _ = _hour_of_year(series.begins[last : last + 1] + whole)
    return RawYear(str(year), columns, rows, ring=False, last=int(place[0]), line=int(series.lines[last]))


def _late(key: str, hours: Hours) -> float:
    return hours.late if key in SUN else -hours.early


def _moved(values: Array, later: float, ring: bool) -> Array:
    """Values whose hours are later by `later` hours than where they stand, put where they belong."""
    whole = int(np.floor(-later + _SAME_CLOCK))
    part = -later - whole
    if abs(part) < 10.0 * _SAME_CLOCK:
        return _rolled(values, whole, ring)
    return (1.0 - part) * _rolled(values, whole, ring) + part * _rolled(values, whole + 1, ring)


def _rolled(values: Array, by: int, ring: bool) -> Array:
    """For each place the value `by` places further on."""
    if by == 0:
        return values
    if ring:
        return np.roll(values, -by)
    moved = np.full(len(values), np.nan)
    if abs(by) < len(values):
        if by > 0:
            moved[:-by] = values[by:]
        else:
            moved[-by:] = values[:by]
    return moved


def _hour_of_year(begins: Whole) -> tuple[Whole, Flags]:
    """Place in a year of 365 days, and whether the hour is of the 29th of February."""
    years = begins.astype("datetime64[h]").astype("datetime64[Y]")
    place = begins - years.astype("datetime64[h]").astype(np.int64)
    leap_year = ((years + 1).astype("datetime64[D]") - years.astype("datetime64[D]")).astype(np.int64) == 366
    leap = leap_year & (place >= _LEAP_BEGINS) & (place < _LEAP_ENDS)
    return np.where(leap_year & (place >= _LEAP_ENDS), place - 24, place), leap


def _first_hour(year: int) -> int:
    one = np.array([1], dtype=np.int64)
    return int(hour_number(np.array([year], dtype=np.int64), one, one, one - 1)[0])


def _hours_in(year: int) -> int:
    return _first_hour(year + 1) - _first_hour(year)


def _day(begins: int) -> str:
    return str(np.datetime64(int(begins), "h").astype("datetime64[D]"))


def _month(begins: int) -> str:
    year, month = str(np.datetime64(int(begins), "h").astype("datetime64[M]")).split("-")
    return f"{MONTHS[int(month) - 1]} {year}"
