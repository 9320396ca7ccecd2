"""Line charts: lines with ribbons, limits and what is wanted."""

from __future__ import annotations

import math
from collections.abc import Iterator

from tidestead.core.charts import Curve, LineChart
from tidestead.core.months import MONTHS
from tidestead.core.units import System, scale
from tidestead.report import svg_axes, svg_chart_dots
from tidestead.report.svg_axes import Body, Plot, Sample
from tidestead.report.svg_chart_looks import LINES, stroke
from tidestead.report.svg_paint import fill
from tidestead.report.svg_words import Box, number

_ENDS = {"months": (-0.5, 11.5), "days": (0.0, 365.0), "hours": (0.0, 24.0)}
_RIBBON = 0.24
_PIECE = 12.0
"""Lines keep words off in pieces so wide."""


def lines(chart: LineChart, uid: str, system: System) -> Body:  # noqa: ARG001 - every sort of plot is called alike
    """The lines of a chart in their frame."""
    values = [
        value for curve in chart.curves for run in (curve.values, curve.low, curve.high) for value in run
    ]
    up = svg_axes.upright_scale(values, chart.unit, system, chart.style, chart.wanted, chart.limits)
    first, last, marks, word = _level(chart, system)
    plot = svg_axes.plot_of(up, first, last, marks[-1][1] if marks and chart.over != "months" else "")
    behind, key = svg_axes.band(plot, chart.wanted)
    parts = [*behind, *svg_axes.upright(plot, chart.what)]
    if chart.over == "days":
        below, bottom = svg_axes.of_the_year(plot)
    else:
        words = ", ".join(part for part in (chart.along, word) if part)
        below, bottom = svg_axes.along(plot, marks, words)
    parts += below
    parts += [
        _ribbon(plot, curve, index) for index, curve in enumerate(chart.curves) if curve.low and curve.high
    ]
    parts += [_line(plot, curve, index) for index, curve in enumerate(chart.curves)]
    for curve in chart.curves:
        plot.room.lines += [
            *(_taken(plot, curve) if curve.joined else ()),
            *svg_chart_dots.taken(plot, curve),
        ]
    parts += svg_axes.limit_lines(plot, chart.limits, chart.unit, system, chart.style)
    for curve in chart.curves:
        parts += svg_chart_dots.named(plot, curve)
    samples = (*_samples(chart), *key)
    return Body(tuple(parts), Box(0.0, plot.box.top - 26.0, svg_axes.WIDTH, bottom), samples)


def _level(chart: LineChart, system: System) -> tuple[float, float, list[tuple[float, str]], str]:
    """Ends and marks of the level scale, and its unit."""
    if chart.over == "number":
        found = scale([at for curve in chart.curves for at in curve.at], chart.along_unit, system, snug=True)
        return found.low, found.high, list(found.marks), found.word
    first, last = _ENDS[chart.over]
    if chart.over == "months":
        return first, last, [(float(month), name) for month, name in enumerate(MONTHS)], ""
    hours = range(0, 25, 4) if chart.over == "hours" else ()
    return first, last, [(float(hour), f"{hour}:00") for hour in hours], ""


def _line(plot: Plot, curve: Curve, index: int) -> str:
    line = f'<path d="{plot.path(curve.at, curve.values)}" {stroke(index)}/>' if curve.joined else ""
    return line + "".join(svg_chart_dots.dot(x, y, index) for x, y, _ in svg_chart_dots.places(plot, curve))


def _ribbon(plot: Plot, curve: Curve, index: int) -> str:
    """From the low run to the high one, along and back."""
    steps = [(at, value) for at, value in zip(curve.at, curve.low, strict=True)]
    steps += [(at, value) for at, value in zip(reversed(curve.at), reversed(curve.high), strict=True)]
    path = plot.path([at for at, _ in steps], [value for _, value in steps])
    return f'<path d="{path}Z" {fill(LINES[index % len(LINES)].role)} fill-opacity="{_RIBBON}"/>'


def _taken(plot: Plot, curve: Curve) -> Iterator[Box]:
    """Boxes round pieces of a line."""
    places = [
        (plot.x(at), plot.y(value))
        for at, value in zip(curve.at, curve.values, strict=True)
        if math.isfinite(value)
    ]
    begin = 0
    for end in range(1, len(places)):
        if places[end][0] - places[begin][0] >= _PIECE or end == len(places) - 1:
            ups = [y for _, y in places[begin : end + 1]]
            yield Box(places[begin][0], min(ups) - 2.0, places[end][0], max(ups) + 2.0)
            begin = end


def _samples(chart: LineChart) -> Iterator[Sample]:
    for index, curve in enumerate(chart.curves):
        if not curve.joined:
            yield Sample(svg_chart_dots.dot(10.0, 6.0, index), curve.name)
            continue
        ribbon = curve.low and curve.high and chart.ribbon
        behind = (
            f'<rect width="20" height="12" {fill(LINES[index % len(LINES)].role)} fill-opacity="{_RIBBON}"/>'
        )
        drawn = f'{behind if ribbon else ""}<path d="M0 6h{number(20.0)}" {stroke(index)}/>'
        yield Sample(drawn, f"{curve.name} ({chart.ribbon} shaded)" if ribbon else curve.name)
