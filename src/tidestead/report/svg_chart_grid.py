"""A grid of numbers like a calendar: the step that each has reached as a pattern, and a mark in every row."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from tidestead.core.charts import GridChart
from tidestead.core.units import Scale, System, side_by_side
from tidestead.report import svg_axes
from tidestead.report.chart_tables import step_words
from tidestead.report.svg_axes import SMALL, WIDTH, Body, Plot, Sample, rect
from tidestead.report.svg_paint import Hatch, paint
from tidestead.report.svg_words import Box, Text, fitted, number, width

STEPS = {
    "step-1": Hatch((10, 10), "sheetpale", "timber", "M2 2h1.6M7 7h1.6", 1.0),
    "step-2": Hatch((8, 8), "timberpale", "timber", "M-2 10L10 -2M-2 2L2 -2M6 10L10 6", 1.0),
    "step-3": Hatch((6, 6), "timberpale", "timber", "M0 0l6 6M6 0l-6 6M0 3h6", 1.0),
}
"""Tiles of the steps between the first, which is bare, and the fifth, which is full: the more, the darker."""

_ROW, _LOW_ROW, _MANY = 25.0, 20.0, 15
_NAMES, _FIGURE = 130.0, 11.0


def grid(chart: GridChart, uid: str, system: System) -> Body:
    """Cells in their rows, figures where all of them find room."""
    names = [fitted(row.name, _NAMES, SMALL, 1) for row in chart.rows]
    left = max((width(name[0], SMALL) for name in names), default=0.0) + 8.0
    tall = _ROW if len(chart.rows) <= _MANY else _LOW_ROW
    count = max(1, len(chart.columns))
    box = Box(left, 0.0, WIDTH, tall * max(1, len(chart.rows)))
    plot = Plot(box, Scale(0.0, 1.0, "", ()), 0.0, float(count))
    word, figures = _figures(chart, system, (WIDTH - left) / count - 3.0)
    words = f"{chart.what}, {word}" if word else chart.what
    heading = fitted(words, WIDTH, SMALL, 1)
    parts = [Text(heading, 0.0, -12.0, "start", size=SMALL, role="soft").svg(halo=False)]
    for at, name in enumerate(names):
        y = tall * (at + 0.5)
        parts.append(Text(name, left - 8.0, y, "end", size=SMALL).svg(halo=False))
        parts += _cells(chart, at, plot, uid, (y - tall / 2.0, y + tall / 2.0))
        parts += _written(chart, at, figures[at][:count], plot, y)
    parts += [_mark(plot.x(_column(row.mark, count)), tall * at, tall * (at + 1.0))
              for at, row in enumerate(chart.rows) if row.mark is not None]  # fmt: skip
    below, bottom = _under(plot, chart)
    return Body((*parts, *below), Box(0.0, -21.0, WIDTH, bottom), tuple(_key(chart, uid, system)))


def _column(mark: int, count: int) -> float:
    """The edge behind the marked column."""
    return float(min(max(mark + 1, 0), count))


def _figures(chart: GridChart, system: System, room: float) -> tuple[str, list[list[str]]]:
    """The unit, and the figure of every cell; none where they find no room."""
    values = [value for row in chart.rows for value in row.values]
    for digits in (3, 2):
        word, texts = side_by_side(values, chart.unit, system, chart.style, digits)
        if all(width(text, _FIGURE) <= room for text in texts):
            break
    else:
        texts = ("",) * len(values)
    found, at = [], 0
    for row in chart.rows:
        found.append(list(texts[at : at + len(row.values)]))
        at += len(row.values)
    return word, found


def _cells(chart: GridChart, row: int, plot: Plot, uid: str, ends: tuple[float, float]) -> Iterator[str]:
    values = chart.rows[row].values[: len(chart.columns)]
    for at, value in enumerate(values):
        box = Box(plot.x(at), ends[0], plot.x(at + 1.0), ends[1])
        if math.isnan(value):
            middle = (ends[0] + ends[1]) / 2.0
            line = f"M{number(box.left + 3)} {number(middle)}H{number(box.right - 3)}"
            yield rect(box, f'{paint("none", "line")} stroke-width="0.8" data-step="none"')
            yield f'<path d="{line}" {paint("none", "soft")} stroke-width="1" stroke-dasharray="2 2"/>'
        else:
            yield rect(box, _look(uid, chart.step(value)))


def _written(chart: GridChart, row: int, figures: Sequence[str], plot: Plot, y: float) -> Iterator[str]:
    """The figures of a row: dark on paper, on a full cell the other way round."""
    for at, words in enumerate(figures):
        if words:
            full = chart.step(chart.rows[row].values[at]) > len(STEPS)
            text = Text((words,), plot.x(at + 0.5), y, size=_FIGURE, role="paper" if full else "ink")
            yield text.svg(halo=not full)


def _look(uid: str, step: int) -> str:
    """Bare, then tile by tile, then full."""
    line = f'stroke-width="0.8" data-step="{step}"'
    if f"step-{step}" in STEPS:
        return f"{paint('none', 'line', f'{uid}-step-{step}')} {line}"
    return f"{paint('timber' if step else 'paper', 'line')} {line}"


def _mark(x: float, top: float, bottom: float) -> str:
    """A thick upright line with a foot to each side before it, on a rim of paper."""
    path = f"M{number(x - 5)} {number(top + 1.5)}H{number(x)}V{number(bottom - 1.5)}H{number(x - 5)}"
    rim = f'<path d="{path}" {paint("none", "paper")} stroke-width="5.5"/>'
    return f'{rim}<path d="{path}" {paint("none", "ink")} stroke-width="2.6" data-mark=""/>'


def _under(plot: Plot, chart: GridChart) -> tuple[list[str], float]:
    """Names of the columns, and what they are."""
    below, bottom = svg_axes.under_bars(plot, chart.columns)
    if chart.along:
        words = fitted(chart.along, plot.box.right - plot.box.left, SMALL, 1)
        middle = (plot.box.left + plot.box.right) / 2.0
        below.append(Text(words, middle, bottom + 6.0, size=SMALL, role="soft").svg(halo=False))
        bottom += 16.0
    return below, bottom


def _key(chart: GridChart, uid: str, system: System) -> Iterator[Sample]:
    for number_, step in enumerate(chart.steps):
        sample = rect(Box(0.0, 0.0, 20.0, 12.0), _look(uid, number_).replace(" data-step", " data-key"))
        yield Sample(sample, step_words(chart, step, system))
    if any(math.isnan(value) for row in chart.rows for value in row.values):
        line = f'<path d="M3 6H17" {paint("none", "soft")} stroke-width="1" stroke-dasharray="2 2"/>'
        yield Sample(line, "no number")
    if chart.mark and any(row.mark is not None for row in chart.rows):
        yield Sample(_mark(13.0, -1.0, 13.0).replace(" data-mark", " data-key"), chart.mark)
