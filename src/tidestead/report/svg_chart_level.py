"""Level bars with their names beside them: causes ranked by what they move, and bars under long words."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from tidestead.core.charts import BarChart, Bars, Mark, RankChart
from tidestead.core.units import Scale, System, scale, show
from tidestead.report import svg_axes
from tidestead.report.svg_axes import SMALL, WIDTH, Body, Plot, Sample, rect
from tidestead.report.svg_chart_looks import bar_sample, filled, level_whisker
from tidestead.report.svg_paint import fill, paint
from tidestead.report.svg_words import LEADING, Box, Text, broken, number, width

_BAR, _GAP = 9.0, 14.0
_NAMES, _LETTERS = 158.0, 23
_DOT = 4.5


@dataclass(frozen=True)
class _Row:
    """A name in lines, and the room of its row."""

    name: tuple[str, ...]
    top: float
    bottom: float

    @property
    def middle(self) -> float:
        return (self.top + self.bottom) / 2.0


def ranks(chart: RankChart, uid: str, system: System) -> Body:
    """Causes under one another, each with a bar from what less of it gives to what more gives."""
    ends = [value for row in chart.rows for value in (row.less, row.more)]
    found = scale([chart.middle, *ends], chart.unit, system, chart.style, most=5)
    rows = _rows([row.name for row in chart.rows], 2)
    plot = _plot(found, rows)
    parts = [*_upright_lines(plot), *_named(rows)]
    for room, row in zip(rows, chart.rows, strict=True):
        for place, (index, value) in enumerate(((1, row.less), (0, row.more))):
            if math.isfinite(value):
                parts.append(rect(_bar(plot, room, (chart.middle, value), place, 2), filled(uid, index)))
    line = f"M{number(plot.x(chart.middle))} 0V{number(plot.box.bottom)}"
    middle = f'{paint("none", "ink")} stroke-width="1.8"'
    parts.append(f'<path d="{line}" {middle}/>')
    now = f"{chart.middle_is} {show(chart.middle, chart.unit, system, chart.style, (chart.middle, *ends))}"
    samples = (
        bar_sample(uid, 1, chart.less),
        bar_sample(uid, 0, chart.more),
        Sample(f'<path d="M10 0v12" {middle}/>', now),
    )
    return _body(plot, parts, chart.what, samples)


def level_bars(chart: BarChart, uid: str, system: System) -> Body:
    """Bars from nothing to the right, or dots on a scale without a true zero; limits are upright lines."""
    runs = [run for group in chart.groups for run in (group.values, group.low, group.high)]
    values = [value for run in runs for value in run]
    dots = chart.unit == "degC"
    beside = [mark.value for mark in chart.limits] + (
        [chart.wanted.low, chart.wanted.high] if chart.wanted else []
    )
    found = scale([*values, *beside, *([] if dots else [0.0])], chart.unit, system, chart.style, most=5)
    rows = _rows(chart.labels, len(chart.groups))
    plot = _plot(found, rows)
    behind, samples = _wanted(plot, chart)
    parts = [*behind, *_upright_lines(plot), *_named(rows)]
    for index, group in enumerate(chart.groups):
        parts += _group(plot, uid, rows, group, (index, len(chart.groups)), dots)
    parts += [_limit(plot, mark) for mark in chart.limits]
    samples = [*(bar_sample(uid, index, group.name) for index, group in enumerate(chart.groups)), *samples]
    samples += [
        Sample(
            _upright_dash(10.0, 0.0, 12.0),
            f"{mark.words} {show(mark.value, chart.unit, system, chart.style)}",
        )
        for mark in chart.limits
    ]
    if chart.ribbon and any(group.low and group.high for group in chart.groups):
        samples.append(Sample(level_whisker(2.0, 18.0, 6.0), chart.ribbon))
    return _body(plot, parts, chart.what, samples)


def _rows(names: Sequence[str], bars: int) -> list[_Row]:
    """As high as its name or its bars want."""
    rows, top = [], 0.0
    for name in names:
        lines = tuple(broken(name, _LETTERS))
        tall = max(len(lines) * SMALL * LEADING + 4.0, bars * _BAR + _GAP)
        rows.append(_Row(lines, top, top + tall))
        top += tall
    return rows


def _plot(found: Scale, rows: Sequence[_Row]) -> Plot:
    room = max((width(text, SMALL) for _, text in found.marks), default=0.0) / 2.0
    tall = rows[-1].bottom if rows else 20.0
    return Plot(Box(_NAMES + room, 0.0, WIDTH - room, tall), found, found.low, found.high)


def _named(rows: Sequence[_Row]) -> Iterator[str]:
    for row in rows:
        yield Text(row.name, _NAMES - 8.0, row.middle, "end", size=SMALL).svg(halo=False)


def _group(
    plot: Plot, uid: str, rows: Sequence[_Row], group: Bars, which: tuple[int, int], dots: bool
) -> Iterator[str]:
    """One sort of bars, or of dots on a thin line, in all rows."""
    index, count = which
    for at, (row, value) in enumerate(zip(rows, group.values, strict=True)):
        if not math.isfinite(value):
            continue
        box = _bar(plot, row, (plot.first if dots else 0.0, value), index, count)
        y = (box.top + box.bottom) / 2.0
        spread = ""
        if group.low and group.high and math.isfinite(group.low[at]) and math.isfinite(group.high[at]):
            spread = level_whisker(plot.x(group.low[at]), plot.x(group.high[at]), y)
        if dots:
            yield _dotted(box, plot.x(value), spread, filled(uid, index))
        else:
            yield rect(box, filled(uid, index)) + spread


def _dotted(box: Box, x: float, spread: str, look: str) -> str:
    """A dot at the end of a thin line, over its range."""
    y = (box.top + box.bottom) / 2.0
    line = f"M{number(box.left)} {number(y)}H{number(box.right)}"
    thin = f'<path d="{line}" {paint("none", "soft")} stroke-width="1" stroke-dasharray="1 3"/>'
    return f'{thin}{spread}<circle cx="{number(x)}" cy="{number(y)}" r="{_DOT}" {look}/>'


def _bar(plot: Plot, row: _Row, values: tuple[float, float], place: int, count: int) -> Box:
    """The bar of one place of so many in a row, between two values."""
    ends = sorted(map(plot.x, values))
    top = row.middle + (place - count / 2.0) * _BAR
    return Box(ends[0], top, ends[1], top + _BAR)


def _wanted(plot: Plot, chart: BarChart) -> tuple[list[str], list[Sample]]:
    """What is wanted, as a pale band from top to bottom."""
    if chart.wanted is None:
        return [], []
    box = Box(plot.x(chart.wanted.low), 0.0, plot.x(chart.wanted.high), plot.box.bottom)
    sample = f'<rect width="20" height="12" {paint("waterpale", "line")}/>'
    return [rect(box, fill("waterpale"))], [Sample(sample, chart.wanted.words)]


def _limit(plot: Plot, mark: Mark) -> str:
    return _upright_dash(plot.x(mark.value), 0.0, plot.box.bottom)


def _upright_dash(x: float, top: float, bottom: float) -> str:
    line = f"M{number(x)} {number(top)}V{number(bottom)}"
    return f'<path d="{line}" {paint("none", "rust")} stroke-width="1.8" stroke-dasharray="10 3"/>'


def _upright_lines(plot: Plot) -> Iterator[str]:
    for value, _ in plot.up.marks:
        line = f"M{number(plot.x(value))} 0V{number(plot.box.bottom)}"
        yield f'<path d="{line}" {paint("none", "line")} stroke-width="1"/>'


def _body(plot: Plot, parts: Sequence[str], what: str, samples: Sequence[Sample]) -> Body:
    words = f"{what}, {plot.up.word}" if plot.up.word else what
    heading = Text((words,), 0.0, -17.0, "start", size=SMALL, role="soft").svg(halo=False)
    below, bottom = svg_axes.along(plot, plot.up.marks)
    return Body((*parts, heading, *below), Box(0.0, -26.0, WIDTH, bottom), tuple(samples))
