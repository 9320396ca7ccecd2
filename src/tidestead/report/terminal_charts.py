"""Plots in a terminal: the run of each line or bar in blocks, and from where to where it goes."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from tidestead.core.charts import BarChart, Chart, LineChart, RankChart, StackChart
from tidestead.report import wording
from tidestead.report.terminal_sheet import Sheet

_SPARKS = "▁▂▃▄▅▆▇█"
_SPARK_WIDTH = 48


def print_charts(sheet: Sheet, charts: Sequence[Chart]) -> None:
    """Every plot that can be told in a few lines."""
    told = [(chart, list(_lines(sheet, chart))) for chart in charts]
    for chart, lines in told:
        if lines:
            sheet.section(f"{chart.title} (plot)")
            for line in lines:
                sheet.paragraph(line)


def spark(values: Sequence[float]) -> str:
    """The run of the values in one line of blocks; each block is the mean of its share of them."""
    finite = [value for value in values if math.isfinite(value)]
    if not finite:
        return ""
    count = min(len(finite), _SPARK_WIDTH)
    means = []
    for index in range(count):
        part = finite[index * len(finite) // count : (index + 1) * len(finite) // count]
        means.append(sum(part) / len(part))
    low, high = min(means), max(means)
    room = (high - low) or 1.0
    return "".join(_SPARKS[min(7, int(8 * (mean - low) / room))] for mean in means)


def _lines(sheet: Sheet, chart: Chart) -> Iterator[str]:
    match chart:
        case LineChart():
            for curve in chart.curves:
                yield _run(sheet, chart, curve.name, curve.values)
        case BarChart():
            for group in chart.groups:
                yield _run(sheet, chart, group.name, group.values)
        case StackChart():
            for part in chart.parts:
                yield _run(sheet, chart, part.name, part.values)
        case RankChart():
            ends = [end for row in chart.rows for end in (row.less, row.more)]
            for row in chart.rows:
                less, more = (_shown(sheet, chart, value, ends) for value in (row.less, row.more))
                yield f"{row.name}: {chart.less} {less}, {chart.more} {more}"
        case _:
            return


def _run(sheet: Sheet, chart: Chart, name: str, values: Sequence[float]) -> str:
    finite = [value for value in values if math.isfinite(value)]
    if not finite:
        return f"{name}: no value anywhere"
    low, high = (_shown(sheet, chart, value, finite) for value in (min(finite), max(finite)))
    blocks = f"{spark(values)}  " if sheet.blocks else ""
    return f"{blocks}{name}: {low} to {high}"


def _shown(sheet: Sheet, chart: Chart, value: float, beside: Sequence[float]) -> str:
    return wording.shown(value, chart.unit, sheet.system, chart.style, beside)
