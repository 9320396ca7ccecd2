"""Bar charts: bars side by side, stacks over and under nothing, and causes ranked by what they move."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from tidestead.core.charts import BarChart, Bars, RankChart, StackChart
from tidestead.core.units import System, scale, show
from tidestead.report import svg_axes
from tidestead.report.svg_axes import SMALL, WIDTH, Body, Plot, Sample
from tidestead.report.svg_chart_looks import filled
from tidestead.report.svg_paint import paint
from tidestead.report.svg_words import Box, Text, broken, number, width

_FILLED = 0.76
"""Share of its room that a group of bars takes."""

_ROW, _BAR = 34.0, 18.0
_NAMES = 150.0


def bars(chart: BarChart, uid: str, system: System) -> Body:
    """Groups of bars under their labels, with ranges."""
    runs = [run for group in chart.groups for run in (group.values, group.low, group.high)]
    values = [0.0, *(value for run in runs for value in run)]
    up = svg_axes.upright_scale(values, chart.unit, system, chart.style, chart.wanted, chart.limits)
    plot = svg_axes.plot_of(up, 0.0, float(len(chart.labels)))
    behind, key = svg_axes.band(plot, chart.wanted)
    below, bottom = svg_axes.under_bars(plot, chart.labels)
    parts = [*behind, *svg_axes.upright(plot, chart.what)]
    for index, group in enumerate(chart.groups):
        parts += _group(plot, uid, group, index, len(chart.groups))
    parts += below
    parts += svg_axes.limit_lines(plot, chart.limits, chart.unit, system, chart.style)
    samples = [_sample(uid, index, group.name) for index, group in enumerate(chart.groups)]
    if chart.ribbon and any(group.low and group.high for group in chart.groups):
        samples.append(Sample(_whisker(10.0, 1.0, 11.0), chart.ribbon))
    return Body(tuple(parts), Box(0.0, plot.box.top - 26.0, svg_axes.WIDTH, bottom), (*samples, *key))


def _group(plot: Plot, uid: str, group: Bars, index: int, count: int) -> Iterator[str]:
    """One sort of bars: each a box from nothing to its value, with its range."""
    wide = _FILLED / count
    for at, value in enumerate(group.values):
        if not math.isfinite(value):
            continue
        left = plot.x(at + (1.0 - _FILLED) / 2.0 + index * wide)
        right = plot.x(at + (1.0 - _FILLED) / 2.0 + (index + 1) * wide)
        box = _upright_box(plot, left, right, 0.0, value)
        plot.room.lines.append(box)
        yield _rect(box, filled(uid, index))
        if group.low and group.high and math.isfinite(group.low[at]) and math.isfinite(group.high[at]):
            yield _whisker((left + right) / 2.0, plot.y(group.high[at]), plot.y(group.low[at]))


def _whisker(x: float, top: float, bottom: float) -> str:
    """A range: a line with two ends, on a rim of paper so that it shows on the bar."""
    path = f"M{number(x - 3)} {number(top)}h6m-3 0V{number(bottom)}m-3 0h6"
    rim = f'<path d="{path}" {paint("none", "paper")} stroke-width="3.4"/>'
    return f'{rim}<path d="{path}" {paint("none", "ink")} stroke-width="1.3"/>'


def stacks(chart: StackChart, uid: str, system: System) -> Body:
    """Stacks over and under nothing; the sum of each as a dot on a line."""
    count = len(chart.labels)
    over = [sum(max(part.values[at], 0.0) for part in chart.parts) for at in range(count)]
    under = [sum(min(part.values[at], 0.0) for part in chart.parts) for at in range(count)]
    up = scale([0.0, *over, *under], chart.unit, system, chart.style)
    plot = svg_axes.plot_of(up, 0.0, float(count))
    below, bottom = svg_axes.under_bars(plot, chart.labels)
    parts = [*svg_axes.upright(plot, chart.what), *_stacked(plot, uid, chart), *below]
    samples = tuple(
        _sample(uid, index, _signed(part.name, part.values)) for index, part in enumerate(chart.parts)
    )
    return Body(tuple(parts), Box(0.0, plot.box.top - 26.0, svg_axes.WIDTH, bottom), samples)


def _stacked(plot: Plot, uid: str, chart: StackChart) -> Iterator[str]:
    for at in range(len(chart.labels)):
        left, right = (plot.x(at + 0.5 + side * _FILLED / 2.0) for side in (-1.0, 1.0))
        high = low = 0.0
        for index, part in enumerate(chart.parts):
            value = part.values[at]
            if value > 0.0:
                yield _rect(_upright_box(plot, left, right, high, high + value), filled(uid, index))
                high += value
            elif value < 0.0:
                yield _rect(_upright_box(plot, left, right, low + value, low), filled(uid, index))
                low += value


def _signed(name: str, values: Sequence[float]) -> str:
    """The name, saying where a part lies on both sides of nothing."""
    return f"{name} (both ways)" if max(values) > 0.0 > min(values) else name


def ranks(chart: RankChart, uid: str, system: System) -> Body:
    """Causes under one another, each with a bar from what less of it gives to what more gives."""
    ends = [value for row in chart.rows for value in (row.less, row.more)]
    found = scale([chart.middle, *ends], chart.unit, system, chart.style, most=5)
    tall = _ROW * len(chart.rows)
    room = max((width(text, SMALL) for _, text in found.marks), default=0.0) / 2.0
    plot = Plot(Box(_NAMES + room, 0.0, WIDTH - room, tall), found, found.low, found.high)
    parts = list(_upright_lines(plot))
    for at, row in enumerate(chart.rows):
        middle = _ROW * (at + 0.5)
        lines = tuple(broken(row.name, 24))
        parts.append(Text(lines, _NAMES - 8.0, middle, "end", size=SMALL).svg(halo=False))
        for index, value in ((1, row.less), (0, row.more)):
            box = _level_box(plot, chart.middle, value, middle, index)
            parts.append(_rect(box, filled(uid, index)))
    line = f"M{number(plot.x(chart.middle))} 0V{number(tall)}"
    parts.append(f'<path d="{line}" {paint("none", "ink")} stroke-width="1.8"/>')
    words = f"{chart.what}, {found.word}" if found.word else chart.what
    parts.append(Text((words,), 0.0, -17.0, "start", size=SMALL, role="soft").svg(halo=False))
    below, bottom = svg_axes.along(plot, found.marks)
    now = f"now {show(chart.middle, chart.unit, system, chart.style, (chart.middle, *ends))}"
    samples = (
        _sample(uid, 1, chart.less),
        _sample(uid, 0, chart.more),
        Sample(f'<path d="M10 0v12" {paint("none", "ink")} stroke-width="1.8"/>', now),
    )
    return Body((*parts, *below), Box(0.0, -26.0, WIDTH, bottom), samples)


def _upright_lines(plot: Plot) -> Iterator[str]:
    for value, _ in plot.up.marks:
        line = f"M{number(plot.x(value))} 0V{number(plot.box.bottom)}"
        yield f'<path d="{line}" {paint("none", "line")} stroke-width="1"/>'


def _level_box(plot: Plot, middle: float, value: float, y: float, index: int) -> Box:
    """A bar of one end: both ends on one side of the middle lie over one another, so each has half the height."""
    ends = sorted((plot.x(middle), plot.x(value)))
    top = y - _BAR / 2.0 + (0.0 if index == 1 else _BAR / 2.0)
    return Box(ends[0], top, ends[1], top + _BAR / 2.0)


def _upright_box(plot: Plot, left: float, right: float, low: float, high: float) -> Box:
    ends = sorted((plot.y(low), plot.y(high)))
    return Box(left, ends[0], right, ends[1])


def _rect(box: Box, look: str) -> str:
    return (
        f'<rect x="{number(box.left)}" y="{number(box.top)}" width="{number(box.right - box.left)}" '
        f'height="{number(box.bottom - box.top)}" {look}/>'
    )


def _sample(uid: str, index: int, words: str) -> Sample:
    return Sample(f'<rect width="20" height="12" {filled(uid, index)}/>', words)
