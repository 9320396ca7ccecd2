"""Plots as plain data: what is shown over what, in SI with its unit, and the same in words.

A chart knows no colours, pixels or fonts, and no unit but SI; renderers choose round marks in the reader's units.
What parts one line or bar from another is told by its name, which renderers pair with a pattern.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, TypeAlias

from tidestead.core.months import MONTHS

Over = Literal["months", "days", "hours", "number"]
"""What a line chart runs over: months (0 to 11, each at its middle), days of the year (0 to 365), hours of the day
(0 to 24), or numbers with a unit of their own. Six lines, ten parts of a stack, three bars side by side can be told
apart, and no more."""


@dataclass(frozen=True)
class Curve:
    """One line: `values` at `at`. `low` and `high`, where given, bound a ribbon round it.

    What is not `joined` is points without a line: choices, between which there is nothing. `names` are words at them.
    """

    name: str
    at: tuple[float, ...]
    values: tuple[float, ...]
    low: tuple[float, ...] = ()
    high: tuple[float, ...] = ()
    names: tuple[str, ...] = ()
    joined: bool = True


@dataclass(frozen=True)
class Mark:
    """A limit: a labelled line across the chart."""

    value: float
    words: str


@dataclass(frozen=True)
class Wanted:
    """A band that values should lie in, with its words."""

    low: float
    high: float
    words: str


@dataclass(frozen=True)
class LineChart:
    """Lines over months, days, hours or a number. `ribbon` says what the ribbons are, such as "P10 to P90".

    `what` names the upright scale, `unit` is its SI unit and `style` as units.show takes it; `along` names the level
    scale, which needs `along_unit` where it runs over a number.
    """

    id: str
    title: str
    told: str
    what: str
    unit: str
    curves: tuple[Curve, ...]
    over: Over = "number"
    along: str = ""
    along_unit: str = ""
    ribbon: str = ""
    limits: tuple[Mark, ...] = ()
    wanted: Wanted | None = None
    style: str = ""


@dataclass(frozen=True)
class Bars:
    """Bars of one sort, one for each label. `low` and `high`, where given, are drawn as a range on each."""

    name: str
    values: tuple[float, ...]
    low: tuple[float, ...] = ()
    high: tuple[float, ...] = ()


@dataclass(frozen=True)
class BarChart:
    """Bars side by side under labels, the twelve months unless said otherwise, with a band of what is wanted."""

    id: str
    title: str
    told: str
    what: str
    unit: str
    groups: tuple[Bars, ...]
    labels: tuple[str, ...] = MONTHS
    ribbon: str = ""
    limits: tuple[Mark, ...] = ()
    wanted: Wanted | None = None
    style: str = ""


@dataclass(frozen=True)
class Part:
    """One part of every stack: what adds lies above nothing, what takes away below."""

    name: str
    values: tuple[float, ...]


@dataclass(frozen=True)
class StackChart:
    """Bars of parts laid on one another under labels, such as where heat comes from and goes to by month."""

    id: str
    title: str
    told: str
    what: str
    unit: str
    parts: tuple[Part, ...]
    labels: tuple[str, ...] = MONTHS
    style: str = ""


@dataclass(frozen=True)
class YearMap:
    """A year as a field: `values[column][row]`, columns of one width from 1 January on, rows from midnight on.

    Where the value is over `limit`, the field is marked with `limit_words`.
    """

    id: str
    title: str
    told: str
    what: str
    unit: str
    values: tuple[tuple[float, ...], ...]
    limit: float | None = None
    limit_words: str = ""
    style: str = ""


@dataclass(frozen=True)
class Ranked:
    """One cause, and the result where it is less and where it is more."""

    name: str
    less: float
    more: float


@dataclass(frozen=True)
class RankChart:
    """Causes by how much they move a result away from `middle`, the greatest first.

    `less`, `more` and `middle_is` are the words for the two ends and for the middle.
    """

    id: str
    title: str
    told: str
    what: str
    unit: str
    middle: float
    rows: tuple[Ranked, ...]
    less: str = "less"
    more: str = "more"
    style: str = ""
    middle_is: str = "now"


@dataclass(frozen=True)
class Moment:
    """When something comes, in seconds from the begin: likely, and the earliest and latest of its range.

    Infinity is a moment that does not come within the time that was followed.
    """

    low: float
    likely: float
    high: float

    @classmethod
    def exact(cls, at: float) -> Moment:
        """A moment whose range is not considered."""
        return cls(at, at, at)


@dataclass(frozen=True)
class HoursRow:
    """One line of a chart of hours: what comes when, and when it is answered.

    `moments` stand in the order of the chart's own names, None where there is none. `verdict` is one of the words
    sound, near, fails, unproven, or nothing; `use` is the share of what is allowed that is used. `words` stand in
    place of moments where there are none, and beside them in tables. `followed` are the seconds up to which this row
    was followed, where that is not what the chart says.
    """

    name: str
    moments: tuple[Moment | None, ...] = ()
    response: Moment | None = None
    verdict: str = ""
    use: float | None = None
    words: str = ""
    followed: float | None = None


@dataclass(frozen=True)
class HoursChart:
    """Moments of many rows over one scale of time, each ten times longer than the last at even steps.

    Up to three `moments` are named in the order in which they come, milder first. `response` names the moment that
    is to come before the last of them. `followed` are the seconds up to which anything was followed. `ribbon` says
    what the ranges are. Rows stand as they are given.
    """

    id: str
    title: str
    told: str
    what: str
    rows: tuple[HoursRow, ...]
    followed: float
    moments: tuple[str, ...] = ("warn", "act", "harm")
    response: str = "somebody has acted"
    ribbon: str = "earliest to latest"
    unit: str = "s"
    style: str = ""


@dataclass(frozen=True)
class Step:
    """What values are called from `least` on, up to the next step."""

    least: float
    words: str


@dataclass(frozen=True)
class GridRow:
    """One row of a grid. `mark` is the number of the column, from 0, behind which a mark stands; -1: before all."""

    name: str
    values: tuple[float, ...]
    mark: int | None = None


@dataclass(frozen=True)
class GridChart:
    """Numbers in rows and columns like a calendar, each told by the step that it has reached.

    Up to five `steps` stand in rising order; what lies below the first is called as the first is. `along` names the
    columns, `down` the rows, `mark` says what the mark in a row means.
    """

    id: str
    title: str
    told: str
    what: str
    unit: str
    columns: tuple[str, ...]
    rows: tuple[GridRow, ...]
    steps: tuple[Step, ...]
    along: str = ""
    down: str = ""
    mark: str = ""
    style: str = ""

    def step(self, value: float) -> int:
        """The number of the step that a value has reached."""
        reached = (number for number, step in enumerate(self.steps) if value >= step.least)
        return max(reached, default=0)


Chart: TypeAlias = LineChart | BarChart | StackChart | YearMap | RankChart | HoursChart | GridChart
