"""Times on a scale whose steps grow tenfold: its marks, where a moment stands on it, and moments in words."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from tidestead.core.charts import HoursChart, HoursRow, Moment
from tidestead.core.units import System, show
from tidestead.report import wording

_HOUR, _DAY = 3600.0, 86400.0
_YEAR = 365.25 * _DAY

MARKS = (
    (60.0, "1 min"), (600.0, "10 min"), (_HOUR, "1 h"), (6.0 * _HOUR, "6 h"), (_DAY, "1 day"),
    (7.0 * _DAY, "1 week"), (_YEAR / 12.0, "1 month"), (_YEAR, "1 year"), (10.0 * _YEAR, "10 years"),
    (100.0 * _YEAR, "100 years"),
)  # fmt: skip
_SHORTEST, _LONGEST = MARKS[0][0], MARKS[-1][0]


@dataclass(frozen=True)
class Times:
    """A scale of time from `first` to `last` seconds, drawn between `left` and `right`.

    What was followed ends at `edge`, which may differ row by row.
    """

    first: float
    last: float
    left: float
    right: float
    marks: tuple[tuple[float, str], ...]
    edge: float

    def x(self, at: float) -> float:
        """Place of a time, held inside the scale."""
        if not at > self.first:
            return self.left
        share = math.log(min(at, self.last) / self.first) / math.log(self.last / self.first)
        return self.left + share * (self.right - self.left)

    def beyond(self, at: float) -> bool:
        """Whether a time lies behind the end of the scale, as one that never comes does."""
        return at > self.last


def times_of(chart: HoursChart, left: float, right: float) -> Times:
    """A scale that holds every moment that comes, from the mark before the first to what was followed."""
    known = [at for moment in moments_of(chart) for at in (moment.low, moment.likely, moment.high)]
    finite = [at for at in known if math.isfinite(at)]
    followed = chart.followed if math.isfinite(chart.followed) else _DAY
    last = min(max([*finite, followed, 10.0 * _SHORTEST]), _LONGEST)
    least = min([*finite, last / 10.0])
    first = max((at for at, _ in MARKS if at <= least), default=_SHORTEST)
    marks = [(at, words) for at, words in MARKS if first <= at <= last]
    if least < first:
        marks[0] = (first, f"≤ {marks[0][1]}")
    return Times(first, last, left, right, tuple(marks), right)


def moments_of(chart: HoursChart) -> Iterator[Moment]:
    """Every moment of every row."""
    for row in chart.rows:
        yield from (moment for moment in (*row.moments, row.response) if moment is not None)


def known(moment: Moment | None) -> Moment | None:
    """The moment, unless it is no number."""
    return None if moment is None or math.isnan(moment.likely) else moment


def followed(chart: HoursChart, row: HoursRow) -> float:
    """Seconds up to which a row was followed."""
    return chart.followed if row.followed is None else row.followed


def never(until: float, system: System) -> str:
    """What is said of a moment that does not come in the seconds that were followed."""
    return f"not within {show(until, 's', system)}" if math.isfinite(until) else "not at all"


def told(until: float, moment: Moment, system: System) -> str:
    """A moment with its range in words, where it was followed `until` so many seconds."""
    ends = (moment.low, moment.likely, moment.high)
    low, likely, high = (_at(until, end, ends, system) for end in ends)
    if low == likely == high:
        return likely
    if moment.likely == math.inf:
        return f"{likely} ({low} at the earliest)"
    return (
        f"{likely} ({low} to {high})" if moment.high != math.inf else f"{likely} (from {low} on, or {high})"
    )


def _at(until: float, at: float, beside: Iterable[float], system: System) -> str:
    return never(until, system) if at == math.inf else wording.shown(at, "s", system, "", beside)
