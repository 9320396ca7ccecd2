"""A year as a map: days along, hours up, the value as bands of water laid on one another."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from tidestead.core.charts import YearMap
from tidestead.core.units import Scale, System, scale, show
from tidestead.report import svg_axes
from tidestead.report.svg_axes import SMALL, Body, Plot, Sample, rect
from tidestead.report.svg_paint import FIELD_STEP, fill, paint
from tidestead.report.svg_words import Box, Text, number, width

_HOURS = (0.0, 6.0, 12.0, 18.0, 24.0)
_BAR = 12.0


def year(chart: YearMap, uid: str, system: System) -> Body:
    """The field in its frame, with the scale of its bands under it."""
    rows = len(chart.values[0]) if chart.values else 1
    hours = Scale(0.0, 24.0, "", tuple((hour, f"{hour:.0f}:00") for hour in _HOURS))
    plot = svg_axes.plot_of(hours, 0.0, 365.0)
    values = [value for column in chart.values for value in column if math.isfinite(value)]
    bands = scale(values or [0.0], chart.unit, system, chart.style, most=8)
    levels = [value for value, _ in bands.marks if bands.low < value < bands.high]
    box = plot.box
    ground = Box(box.left, box.top, box.right, box.bottom)
    parts = [rect(ground, fill("paper"))]
    parts += [
        f'<path d="{_over(plot, chart, rows, level)}" {fill("water")} fill-opacity="{FIELD_STEP}"/>'
        for level in levels
    ]
    key: tuple[Sample, ...] = ()
    if chart.limit is not None and any(value > chart.limit for value in values):
        hatch = f'fill="url(#{uid}-over)"'
        parts.append(f'<path d="{_over(plot, chart, rows, chart.limit)}" {hatch}/>')
        words = f"{chart.limit_words} {show(chart.limit, chart.unit, system, chart.style)}"
        key = (Sample(f'<rect width="20" height="12" {hatch}/>', words),)
    parts += svg_axes.upright(plot, "hour of the day")
    below, bottom = svg_axes.of_the_year(plot)
    legend, bottom = _legend(chart, bands, levels, plot, bottom + 20.0)
    return Body((*parts, *below, *legend), Box(0.0, box.top - 26.0, svg_axes.WIDTH, bottom), key)


def _over(plot: Plot, chart: YearMap, rows: int, level: float) -> str:
    """One path round every run of fields over a level, column by column."""
    columns = len(chart.values)
    steps = []
    for index, column in enumerate(chart.values):
        left, right = plot.x(365.0 * index / columns), plot.x(365.0 * (index + 1) / columns)
        for begin, end in _runs(column, level):
            top, bottom = plot.y(24.0 * end / rows), plot.y(24.0 * begin / rows)
            steps.append(f"M{number(left)} {number(top)}H{number(right)}V{number(bottom)}H{number(left)}Z")
    return "".join(steps)


def _runs(column: Sequence[float], level: float) -> Iterator[tuple[int, int]]:
    """Begin and end of every run of values over the level."""
    begin = -1
    for row, value in enumerate((*column, -math.inf)):
        if value > level and begin < 0:
            begin = row
        elif not value > level and begin >= 0:
            yield begin, row
            begin = -1


def _legend(
    chart: YearMap, bands: Scale, levels: Sequence[float], plot: Plot, top: float
) -> tuple[list[str], float]:
    """The bands side by side with their figures."""
    left, right = plot.box.left, plot.box.right
    span = bands.high - bands.low

    def place(value: float) -> float:
        return left + (right - left) * (value - bands.low) / span

    parts = [rect(Box(left, top, right, top + _BAR), fill("paper"))]
    for level in levels:
        box = Box(place(level), top, right, top + _BAR)
        parts.append(rect(box, f'{fill("water")} fill-opacity="{FIELD_STEP}"'))
    parts.append(rect(Box(left, top, right, top + _BAR), f'{paint("none", "ink")} stroke-width="1"'))
    edge = -math.inf
    for value, text in bands.marks:
        half = width(text, SMALL) / 2.0
        x = min(max(place(value), left + half), right - half)
        if x - half > edge:
            parts.append(Text((text,), x, top + _BAR + 11.0, size=SMALL, role="soft").svg(halo=False))
            edge = x + half + 6.0
    words = f"{chart.what}, {bands.word}" if bands.word else chart.what
    middle = (left + right) / 2.0
    parts.append(Text((words,), middle, top + _BAR + 28.0, size=SMALL, role="soft").svg(halo=False))
    return parts, top + _BAR + 36.0
