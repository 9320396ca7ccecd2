"""The table that a plot is a picture of, for those who cannot see it or want the figures."""

from __future__ import annotations

import math

from tidestead.core.answer import Column, Table
from tidestead.core.charts import Chart, GridChart, HoursChart, HoursRow, Moment, Step
from tidestead.core.units import System, side_by_side
from tidestead.report import times, wording


def table_of(chart: Chart, system: System) -> Table | None:
    """Every value of a plot in words; None for a sort of plot whose values stand in no table of its own."""
    if isinstance(chart, HoursChart):
        return _hours(chart, system)
    return _grid(chart, system) if isinstance(chart, GridChart) else None


def _hours(chart: HoursChart, system: System) -> Table:
    """A row for every row: its moments, its answer, its verdict and words."""
    heads = ["what", *chart.moments]
    answered = any(row.response is not None for row in chart.rows)
    judged = any(row.verdict or row.words for row in chart.rows)
    heads += [chart.response] if answered else []
    heads += ["verdict"] if judged else []
    rows = []
    for row in chart.rows:
        moments = [*row.moments, *[None] * (len(chart.moments) - len(row.moments))][: len(chart.moments)]
        cells = [row.name, *(_moment(chart, row, moment, system) for moment in moments)]
        cells += [_moment(chart, row, row.response, system)] if answered else []
        cells += [verdict_words(row)] if judged else []
        rows.append(tuple(cells))
    note = f"In brackets: {chart.ribbon}." if chart.ribbon else ""
    columns = tuple(map(Column, heads))
    return Table(f"{chart.id}.table", f"{chart.title}: {chart.what}", columns, tuple(rows), note)


def _moment(chart: HoursChart, row: HoursRow, moment: Moment | None, system: System) -> str:
    return wording.NOTHING if moment is None else times.told(times.followed(chart, row), moment, system)


def verdict_words(row: HoursRow) -> str:
    """The verdict of a row with the share used and the row's own words."""
    used = f"{wording.percent(row.use)} used" if row.use is not None and math.isfinite(row.use) else ""
    return ", ".join(part for part in (row.verdict, used, row.words) if part)


def _grid(chart: GridChart, system: System) -> Table:
    """The grid itself, each figure with three digits, and the column that the mark stands behind."""
    values = [value for row in chart.rows for value in row.values]
    word, figures = side_by_side(values, chart.unit, system, chart.style, 0)
    marked = any(row.mark is not None for row in chart.rows)
    heads = [chart.down or "row", *chart.columns, *([chart.mark or "mark"] if marked else [])]
    rows, at = [], 0
    for row in chart.rows:
        own = figures[at : at + len(row.values)]
        at += len(row.values)
        cells = [figure or _no_number(value) for figure, value in zip(own, row.values, strict=True)]
        cells = [*cells, *[wording.NOTHING] * (len(chart.columns) - len(cells))][: len(chart.columns)]
        rows.append((row.name, *cells, *([marked_column(chart, row.mark)] if marked else [])))
    unit = f", {word}" if word else ""
    along = f" by {chart.along}" if chart.along else ""
    called = "; ".join(step_words(chart, step, system) for step in chart.steps)
    columns = tuple(map(Column, heads))
    title = f"{chart.title}: {chart.what}{unit}{along}"
    return Table(
        f"{chart.id}.table",
        title,
        columns,
        tuple(rows),
        f"{called[:1].upper()}{called[1:]}." if called else "",
    )


def _no_number(value: float) -> str:
    return "no number" if math.isnan(value) else "endless" if value > 0.0 else "endlessly below zero"


def marked_column(chart: GridChart, mark: int | None) -> str:
    """The name of the column behind which a mark stands."""
    if mark is None or not chart.columns:
        return wording.NOTHING
    return "none" if mark < 0 else chart.columns[min(mark, len(chart.columns) - 1)]


def step_words(chart: GridChart, step: Step, system: System) -> str:
    """A step with the value at which it begins, but for the first."""
    if step is chart.steps[0] or not math.isfinite(step.least):
        return step.words
    word, figures = side_by_side([one.least for one in chart.steps], chart.unit, system, chart.style, 0)
    return f"{step.words} from {figures[chart.steps.index(step)]} {word}".rstrip()
