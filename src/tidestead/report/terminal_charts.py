"""Plots in a terminal: the run of each line or bar in blocks, and from where to where it goes."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from tidestead.core.charts import BarChart, Chart, GridChart, HoursChart, LineChart, RankChart, StackChart
from tidestead.core.units import side_by_side
from tidestead.report import wording
from tidestead.report.chart_tables import marked_column, step_words, table_of
from tidestead.report.terminal_sheet import Sheet

_SPARKS = "▁▂▃▄▅▆▇█"
_SPARK_WIDTH = 48
_SHADES, _ASCII_SHADES = "·░▒▓█", ".-+x#"
"""Of the steps of a grid."""


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
            yield from _ranks(sheet, chart)
        case HoursChart():
            yield from _hours(sheet, chart)
        case GridChart():
            yield from _grid(sheet, chart)
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


def _ranks(sheet: Sheet, chart: RankChart) -> Iterator[str]:
    ends = [end for row in chart.rows for end in (row.less, row.more)]
    for row in chart.rows:
        less, more = (_shown(sheet, chart, value, ends) for value in (row.less, row.more))
        yield f"{row.name}: {chart.less} {less}, {chart.more} {more}"


def _hours(sheet: Sheet, chart: HoursChart) -> Iterator[str]:
    """Each row in a line; what a row does not have is left out."""
    table = table_of(chart, sheet.system)
    heads = [column.head for column in table.columns] if table else []
    for row in table.rows if table else ():
        cells = [(head, str(cell)) for head, cell in zip(heads, row, strict=True) if cell != wording.NOTHING]
        parts = [cell if head in ("what", "verdict") else f"{head} {cell}" for head, cell in cells if cell]
        yield f"{parts[0]}: {'; '.join(parts[1:])}" if len(parts) > 1 else parts[0]


def _grid(sheet: Sheet, chart: GridChart) -> Iterator[str]:
    """What the shades mean, then each row in shades, with its least and greatest value and its mark."""
    shades = _SHADES if sheet.blocks else _ASCII_SHADES
    top = len(shades) - 1
    yield ", ".join(
        f"{shades[min(number, top)]} {step_words(chart, step, sheet.system)}"
        for number, step in enumerate(chart.steps)
    )
    if chart.columns:
        along = f"{chart.along}: " if chart.along else ""
        yield f"columns, {along}{', '.join(chart.columns)}"
    wide = max((len(row.name) for row in chart.rows), default=0)
    for row in chart.rows:
        cells = "".join(
            "?" if math.isnan(value) else shades[min(chart.step(value), top)] for value in row.values
        )
        finite = [value for value in row.values if math.isfinite(value)]
        told = [_ends(sheet, chart, finite) if finite else "no value anywhere"]
        told += [f"{chart.mark or 'mark'}: {marked_column(chart, row.mark)}"] if row.mark is not None else []
        yield f"{cells}  {row.name.ljust(wide)}  {'; '.join(told)}"


def _ends(sheet: Sheet, chart: GridChart, values: Sequence[float]) -> str:
    ends = (min(values), max(values))
    word, figures = side_by_side(ends, chart.unit, sheet.system, chart.style, 0)
    return f"{' to '.join(dict.fromkeys(figures))} {word}".rstrip()
