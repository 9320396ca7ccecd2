"""Moments of many rows over one scale of time, and against them the moment at which each is answered."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from tidestead.core.answer import Verdict
from tidestead.core.charts import HoursChart, HoursRow, Moment
from tidestead.core.units import System
from tidestead.report import times
from tidestead.report.svg_axes import SMALL, WIDTH, Body, Sample, rect
from tidestead.report.svg_paint import fill, paint
from tidestead.report.svg_sign import placed
from tidestead.report.svg_words import LEADING, Box, Text, fitted, number, width
from tidestead.report.times import Times

_NAMES, _VERDICTS, _SIGN = 150.0, 58.0, 15.0
_ARROW = 13.0
"""Room behind the scale for what does not come within it."""

_ROW, _TINY, _LINES = 25.0, 10.5, 3
_ABOVE, _BELOW = -5.5, 4.5
"""Where in a row the answer stands, and where what it answers."""

_BAND = 4.0
_MANY = 10
"""Rows from which the scale stands over them too."""

_BANDS = ("waterpale", "part-5", "rust")
"""From each moment on: pale, hatched, full."""

_SIGNS = {verdict.value: verdict for verdict in Verdict}


@dataclass(frozen=True)
class _Row:
    """What a row tells, its name in lines, and its room."""

    told: HoursRow
    name: tuple[str, ...]
    top: float
    bottom: float

    @property
    def middle(self) -> float:
        return (self.top + self.bottom) / 2.0


def hours(chart: HoursChart, uid: str, system: System) -> Body:
    """Rows under one another, each with its moments below and its answer above."""
    judged = any(row.verdict for row in chart.rows)
    end = WIDTH - (_VERDICTS if judged else 0.0)
    first = _SIGN + 4.0 if judged else 0.0
    scale = times.times_of(chart, first + _NAMES + 8.0, end - _ARROW)
    rows = _rows(chart.rows)
    bottom = rows[-1].bottom if rows else 20.0
    parts = [*_lines(scale, bottom), *_between(rows, first, end)]
    for row in rows:
        until = times.followed(chart, row.told)
        own = scale if row.told.followed is None else replace(scale, edge=scale.x(until))
        parts += _row(own, uid, row, times.never(until, system))
        parts += _judged(row.told, row.middle, end + 4.0)
    parts += _marks(scale, bottom + 13.0)
    top = -8.0
    if len(rows) >= _MANY:
        parts += _marks(scale, -10.0)
        top = -22.0
    heading = Text(fitted(chart.what, WIDTH, SMALL, 1), 0.0, top - 9.0, "start", size=SMALL, role="soft")
    parts.append(heading.svg(halo=False))
    return Body(
        tuple(parts), Box(0.0, top - 18.0, WIDTH, bottom + 22.0), _key(chart, uid, _never(chart, system))
    )


def _never(chart: HoursChart, system: System) -> str:
    """What is said under the chart of what does not come: how long was followed, where that is one time."""
    untils = {times.followed(chart, row) for row in chart.rows}
    return times.never(untils.pop(), system) if len(untils) == 1 else "not within the time followed"


def _rows(rows: Sequence[HoursRow]) -> list[_Row]:
    found, top = [], 0.0
    for row in rows:
        name = fitted(row.name, _NAMES, SMALL, _LINES)
        tall = max(_ROW, len(name) * SMALL * LEADING + 4.0)
        found.append(_Row(row, name, top, top + tall))
        top += tall
    return found


def _lines(scale: Times, bottom: float) -> Iterator[str]:
    """An upright line at every mark, a dark one where what was followed ends."""
    for at, _ in scale.marks:
        yield _stroke(f"M{number(scale.x(at))} 0V{number(bottom)}", "line", 1.0)
    yield _stroke(f"M{number(scale.right)} 0V{number(bottom)}", "soft", 1.0)


def _between(rows: Sequence[_Row], first: float, end: float) -> Iterator[str]:
    """A line under each row, and its name from `first` on."""
    for row in rows:
        yield _stroke(f"M0 {number(row.bottom)}H{number(end)}", "line", 0.6)
        yield Text(row.name, first, row.middle, "start", size=SMALL).svg(halo=False)


def _marks(scale: Times, y: float) -> Iterator[str]:
    """As many words of the scale as find room; one at an end is moved inside."""
    edge = -math.inf
    for at, words in scale.marks:
        half = width(words, SMALL) / 2.0
        x = min(scale.x(at), scale.right + _ARROW - half)
        if x - half >= edge:
            yield Text((words,), x, y, size=SMALL, role="soft").svg(halo=False)
            edge = x + half + 3.0


def _row(scale: Times, uid: str, row: _Row, never: str) -> Iterator[str]:
    """Bands, ranges and signs of one row; its words where it has no moment."""
    moments = [times.known(moment) for moment in row.told.moments[: len(_BANDS)]]
    response = times.known(row.told.response)
    low, high = row.middle + _BELOW, row.middle + _ABOVE
    if response is None and not any(moments):
        if row.told.words:
            words = fitted(row.told.words, scale.right - scale.left - 12.0, SMALL, 1)
            yield Text(words, scale.left + 6.0, row.middle, "start", size=SMALL, role="soft").svg()
        return
    yield from _bands(scale, uid, moments, low)
    for which, moment in enumerate(moments):
        yield _range(scale, moment, low, rimmed=which == len(_BANDS) - 1)
    for which, moment in enumerate(moments):
        if moment is not None and not scale.beyond(moment.likely):
            yield _sign(which, scale.x(moment.likely), low)
    yield from _ends(scale, moments, low, never)
    if response is not None:
        yield _range(replace(scale, edge=scale.right), response, high)
        yield _answer(scale.x(response.likely), high)
        if scale.beyond(response.likely):
            yield _head(scale.right + _ARROW, high)


def _bands(scale: Times, uid: str, moments: Sequence[Moment | None], y: float) -> Iterator[str]:
    """From each moment to the next one that comes, graver band by band."""
    at = [
        scale.x(moment.likely) if moment is not None and not scale.beyond(moment.likely) else math.nan
        for moment in moments
    ]
    for which, begin in enumerate(at):
        last = scale.right if which == len(_BANDS) - 1 else scale.edge
        end = min([x for x in at[which + 1 :] if math.isfinite(x)], default=last)
        if math.isfinite(begin) and end > begin:
            yield rect(Box(begin, y - _BAND, end, y + _BAND), _band(uid, which))


def _band(uid: str, which: int) -> str:
    look = _BANDS[which]
    filled = f'fill="url(#{uid}-{look})"' if look.startswith("part-") else fill(look)
    return f'{filled} data-band="{which}"'


def _ends(scale: Times, moments: Sequence[Moment | None], y: float, never: str) -> Iterator[str]:
    """An arrow for what does not come within the scale, and the word where the row is free for it."""
    known = [moment for moment in moments if moment is not None]
    if not known or not any(scale.beyond(moment.likely) for moment in known):
        return
    yield _stroke(f"M{number(scale.edge)} {number(y)}h{number(_ARROW - 2.0)}", "ink", 1.4)
    yield _head(scale.edge + _ARROW, y)
    taken = [scale.x(end) for moment in known for end in (moment.low, moment.likely) if not scale.beyond(end)]
    text = Text((never,), scale.edge - 4.0, y, "end", size=_TINY, role="soft")
    if not taken and text.box.left >= scale.left:
        yield text.svg()


def _range(scale: Times, moment: Moment | None, y: float, *, rimmed: bool = True) -> str:
    """A line from the earliest to the latest; one that may never come ends in an arrow.

    Those that are to be compared are `rimmed`, and so are seen first.
    """
    if moment is None or math.isnan(moment.low) or math.isnan(moment.high):
        return ""
    left, right = scale.x(moment.low), scale.x(moment.high)
    if scale.beyond(moment.low) or not (right > left or scale.beyond(moment.high)):
        return ""
    end, foot, head = f"H{number(right)}", "m0 -3v6" if rimmed else "m0 -2v4", ""
    if scale.beyond(moment.high):
        end, foot, head = f"H{number(scale.edge + _ARROW - 2.0)}", "", _head(scale.edge + _ARROW, y)
    if not rimmed:
        return _stroke(f"M{number(left)} {number(y - 2)}v4m0 -2{end}{foot}", "ink", 0.8) + head
    path = f"M{number(left)} {number(y - 3)}v6m0 -3{end}{foot}"
    return _stroke(path, "paper", 3.0) + _stroke(path, "ink", 1.2) + head


def _stroke(path: str, role: str, wide: float) -> str:
    return f'<path d="{path}" {paint("none", role)} stroke-width="{number(wide)}"/>'


def _head(x: float, y: float) -> str:
    return f'<path d="M{number(x)} {number(y)}l-6 -3.5v7Z" {paint("ink")}/>'


_SHAPES = (
    "m-4 0a4 4 0 1 0 8 0a4 4 0 1 0 -8 0Z",
    "m0 -5.5l5.5 5.5l-5.5 5.5l-5.5 -5.5Z",
    "m-4.5 -4.5h9v9h-9Z",
)
"""Round, on its corner, square."""


def _sign(which: int, x: float, y: float) -> str:
    """The sign of a moment: the graver, the fuller."""
    look = paint("ink" if which == len(_SHAPES) - 1 else "paper", "paper" if which == 2 else "ink")
    return f'<path d="M{number(x)} {number(y)}{_SHAPES[which]}" {look} stroke-width="1.4" data-moment="{which}"/>'


def _answer(x: float, y: float) -> str:
    """A wedge that points down at what it answers."""
    look = f'{paint("water", "ink")} stroke-width="1"'
    return f'<path d="M{number(x)} {number(y + 5)}l-5 -9h10Z" {look} data-response=""/>'


def _judged(row: HoursRow, y: float, left: float) -> Iterator[str]:
    """The sign of a verdict before the row's name, where a narrow screen shows it too, and its word behind the row."""
    if not row.verdict:
        return
    verdict = _SIGNS.get(row.verdict)
    if verdict is not None:
        yield placed(verdict, row.use, 0.0, y - _SIGN / 2.0, _SIGN)
    words = fitted(row.verdict, WIDTH - left, 11.0, 1)
    yield Text(words, left, y, "start", size=11.0).svg(halo=False)


def _key(chart: HoursChart, uid: str, never: str) -> tuple[Sample, ...]:
    """Each sign before the band that begins at it."""
    found = [
        Sample(rect(Box(7.0, 2.0, 20.0, 10.0), _band(uid, which)) + _sign(which, 7.0, 6.0), name)
        for which, name in enumerate(chart.moments[: len(_BANDS)])
    ]
    if any(times.known(row.response) for row in chart.rows):
        found.append(Sample(_answer(10.0, 6.0), chart.response))
    moments = list(times.moments_of(chart))
    if chart.ribbon and any(moment.low < moment.high for moment in moments):
        found.append(Sample(_stroke("M2 3v6m0 -3H18m0 -3v6", "ink", 1.2), chart.ribbon))
    if any(moment.high == math.inf for moment in moments):
        found.append(Sample(_stroke("M2 6H14", "ink", 1.4) + _head(19.0, 6.0), never))
    return tuple(found)
