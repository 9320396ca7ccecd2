"""Upright bars: side by side under months or short words, and stacks over and under nothing."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from tidestead.core.charts import BarChart, Bars, StackChart
from tidestead.core.units import System, scale
from tidestead.report import svg_axes
from tidestead.report.svg_axes import SMALL, Body, Plot, Sample, rect
from tidestead.report.svg_chart_level import level_bars
from tidestead.report.svg_chart_looks import bar_sample, filled, whisker
from tidestead.report.svg_words import Box, width

_FILLED = 0.76
"""Share of its room that a group of bars takes."""

_TRUE_ZERO = "degC"
"""The one unit of ours whose nothing is no zero: bars from it would lie."""


def bars(chart: BarChart, uid: str, system: System) -> Body:
    """Groups of bars under their labels, with ranges; level ones where labels are long or nothing is no zero."""
    room = svg_axes.WIDTH / max(1, len(chart.labels))
    if chart.unit == _TRUE_ZERO or any(width(label, SMALL) > room for label in chart.labels):
        return level_bars(chart, uid, system)
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
    samples = [bar_sample(uid, index, group.name) for index, group in enumerate(chart.groups)]
    if chart.ribbon and any(group.low and group.high for group in chart.groups):
        samples.append(Sample(whisker(10.0, 1.0, 11.0), chart.ribbon))
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
        yield rect(box, filled(uid, index))
        if group.low and group.high and math.isfinite(group.low[at]) and math.isfinite(group.high[at]):
            yield whisker((left + right) / 2.0, plot.y(group.high[at]), plot.y(group.low[at]))


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
        bar_sample(uid, index, _signed(part.name, part.values)) for index, part in enumerate(chart.parts)
    )
    return Body(tuple(parts), Box(0.0, plot.box.top - 26.0, svg_axes.WIDTH, bottom), samples)


def _stacked(plot: Plot, uid: str, chart: StackChart) -> Iterator[str]:
    for at in range(len(chart.labels)):
        left, right = (plot.x(at + 0.5 + side * _FILLED / 2.0) for side in (-1.0, 1.0))
        high = low = 0.0
        for index, part in enumerate(chart.parts):
            value = part.values[at]
            if value > 0.0:
                yield rect(_upright_box(plot, left, right, high, high + value), filled(uid, index))
                high += value
            elif value < 0.0:
                yield rect(_upright_box(plot, left, right, low + value, low), filled(uid, index))
                low += value


def _signed(name: str, values: Sequence[float]) -> str:
    """The name, saying where a part lies on both sides of nothing."""
    return f"{name} (both ways)" if max(values) > 0.0 > min(values) else name


def _upright_box(plot: Plot, left: float, right: float, low: float, high: float) -> Box:
    ends = sorted((plot.y(low), plot.y(high)))
    return Box(left, ends[0], right, ends[1])
