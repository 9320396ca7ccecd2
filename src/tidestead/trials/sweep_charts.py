"""A sweep as a plot: over one key, over two as lines or as a field, or the choices that none beats."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence

from tidestead.core.charts import Chart, Curve, GridChart, GridRow, LineChart, Mark, Step
from tidestead.trials.axes import Axis
from tidestead.trials.known import Row
from tidestead.trials.shows import Cell, Shown
from tidestead.trials.vary import Goal, Sweep

MOST_LINES = 6
"""Lines that can be told apart."""
MOST_AXES = 2

_LEFT = (
    Step(-math.inf, "nothing left"),
    Step(0.0, "left"),
    Step(0.2, "left"),
    Step(0.5, "left"),
    Step(0.8, "left"),
)
"""Steps of what is left of a limit."""


def chart_of(sweep: Sweep) -> Chart | None:
    """The plot of a sweep; None where there is none, for three keys and more that no choice is looked for in."""
    if sweep.goals:
        return _front(sweep)
    if len(sweep.grid.axes) > MOST_AXES:
        return None
    along = _along(sweep.grid.axes)
    others = [axis for axis in sweep.grid.axes if axis is not along]
    if along is None or any(len(axis) > MOST_LINES for axis in others):
        return _field(sweep)
    return _lines(sweep, along, others)


def _along(axes: Sequence[Axis]) -> Axis | None:
    """The key that the plot runs over: of those that are numbers the one with most values."""
    return max((axis for axis in axes if axis.numbers), key=len, default=None)


def _lines(sweep: Sweep, along: Axis, others: Sequence[Axis]) -> LineChart:
    shown = sweep.shown[0]
    drawn = [one for one in sweep.shown if _unit(one) == _unit(shown)][:MOST_LINES] if not others else [shown]
    curves = []
    for one in drawn:
        column = sweep.shown.index(one)
        for name, rows in _runs(sweep, others):
            pairs = sorted(
                (along.numbers[_place(sweep, row, along)], _value(one, _cell(row, column))) for row in rows
            )
            curves.append(
                Curve(name or one.what, tuple(at for at, _ in pairs), tuple(value for _, value in pairs))
            )
    unit, style = _unit(shown)
    told = f"{_said(drawn)} over {along.key}, {along.typed[0]} to {along.typed[-1]}."
    what = "margin" if shown.kind == "subject" else shown.what if len(drawn) == 1 else "values"
    what += ", at worst" if any(one.kind == "check" for one in drawn) else ""
    return LineChart(
        "vary.lines", _title(drawn), told, what, unit, tuple(curves), along=along.key, along_unit=along.unit,
        limits=_limits(sweep, drawn), style=style,
    )  # fmt: skip


def _runs(sweep: Sweep, others: Sequence[Axis]) -> Iterator[tuple[str, list[Row]]]:
    """The rows of each line, with what tells it from the others."""
    if not others:
        yield "", list(sweep.rows)
        return
    other = others[0]
    for place, typed in enumerate(other.typed):
        yield (
            f"{last_of(other.key)} {typed}",
            [row for row in sweep.rows if _place(sweep, row, other) == place],
        )


def _field(sweep: Sweep) -> GridChart:
    """One row of the field for each value of the first key."""
    shown, axes = sweep.shown[0], sweep.grid.axes
    across = axes[-1]
    down = axes[0] if len(axes) == MOST_AXES else None
    wide = len(across)
    rows = []
    for start in range(0, len(sweep.rows), wide):
        name = down.typed[start // wide] if down is not None else shown.id
        values = (_margin_or_value(shown, _cell(row, 0)) for row in sweep.rows[start : start + wide])
        rows.append(GridRow(name, tuple(values)))
    keys = " and ".join(axis.key for axis in axes)
    judged = shown.kind != "figure"
    steps = (
        _LEFT if judged else _even([value for row in rows for value in row.values if math.isfinite(value)])
    )
    unit, style = ("1", "share") if judged else (shown.unit, shown.style)
    return GridChart(
        "vary.field", _title([shown]), f"{shown.what} over {keys}.", "margin" if judged else shown.what, unit,
        across.typed, tuple(rows), steps, along=across.key, down=down.key if down is not None else "", style=style,
    )  # fmt: skip


def _even(values: Sequence[float]) -> tuple[Step, ...]:
    """Five steps of one height from the least to the greatest value."""
    low, high = min(values, default=0.0), max(values, default=0.0)
    if low == high:
        return (Step(low, "the same everywhere"),)
    return (Step(low, "least"), *(Step(low + (high - low) * part / 5.0, "more") for part in range(1, 5)))


def _front(sweep: Sweep) -> LineChart:
    """The choices that none beats, by the first two things that they are held against each other by."""
    first, second = sweep.goals[:2]
    if not sweep.shown[first.column].by_value and sweep.shown[second.column].by_value:
        first, second = second, first
    one, other = sweep.shown[first.column], sweep.shown[second.column]
    best = set(sweep.best)
    curves = [_choices(sweep, "choices that none beats", (first, second), sweep.best)]
    beaten = [row.number for row in sweep.rows if row.number not in best]
    curves += [_choices(sweep, "beaten by one of these", (first, second), beaten)]
    unit, style = (other.unit, other.style) if other.by_value else ("1", "share")
    told = f"Of {len(sweep.rows)} points {len(sweep.best)} that no other beats in both."
    lacking = len(sweep.rows) - sum(len(curve.at) for curve in curves)
    told += f" Points that lack a value in one of the two and are not drawn: {lacking}." if lacking else ""
    return LineChart(
        "vary.best", f"{one.id} against {other.id}", told, _axis(other), unit,
        tuple(curve for curve in curves if curve.at) or tuple(curves[:1]), along=_axis(one),
        along_unit=one.unit if one.by_value else "1", style=style,
    )  # fmt: skip


def _axis(shown: Shown) -> str:
    """What a scale of choices says: the value that is held against others, of a check the likely one, or the margin."""
    if not shown.by_value:
        return f"margin, {shown.what}"
    return f"{shown.what}, likely" if shown.kind == "check" else shown.what


def _choices(sweep: Sweep, name: str, goals: tuple[Goal, Goal], numbers: Iterable[int]) -> Curve:
    """Points by two goals, each with what was typed of it."""
    found = sorted(
        (across, up, ", ".join(sweep.grid.typed(number)))
        for number in numbers
        if (across := _of_goal(sweep, goals[0], sweep.rows[number])) is not None
        and (up := _of_goal(sweep, goals[1], sweep.rows[number])) is not None
    )
    return Curve(
        name,
        tuple(at for at, _, _ in found),
        tuple(value for _, value, _ in found),
        names=tuple(words for _, _, words in found),
        joined=False,
    )


def _of_goal(sweep: Sweep, goal: Goal, row: Row) -> float | None:
    value = sweep.goal_values(row)[sweep.goals.index(goal)]
    return value if value is not None and math.isfinite(value) else None


def _unit(shown: Shown) -> tuple[str, str]:
    return ("1", "share") if shown.kind == "subject" else (shown.unit, shown.style)


def _said(shown: Sequence[Shown]) -> str:
    return shown[0].what if len(shown) == 1 else f"{len(shown)} values"


def _title(shown: Sequence[Shown]) -> str:
    return ", ".join(one.id for one in shown[:2]) + (f" and {len(shown) - 2} more" if len(shown) > 2 else "")


def _limits(sweep: Sweep, drawn: Sequence[Shown]) -> tuple[Mark, ...]:
    """The limit of a check that is drawn alone, where it is the same at every point."""
    if len(drawn) != 1:
        return ()
    if drawn[0].kind == "subject":
        return (Mark(0.0, "nothing left"),)
    column = sweep.shown.index(drawn[0])
    found = {cell.limits for row in sweep.rows if (cell := _cell(row, column)) is not None and cell.limits}
    return tuple(Mark(limit, "limit") for limit in next(iter(found))) if len(found) == 1 else ()


def _place(sweep: Sweep, row: Row, axis: Axis) -> int:
    return sweep.grid.at(row.number)[sweep.grid.axes.index(axis)]


def _cell(row: Row, column: int) -> Cell | None:
    return row.cells[column] if row.cells else None


def _value(shown: Shown, cell: Cell | None) -> float:
    """What is drawn of a cell, of a check the end that is judged; no number where there is none."""
    if cell is None:
        return math.nan
    value = cell.value if shown.kind == "figure" else cell.judged(shown.must_be)
    return math.nan if value is None else value


def _margin_or_value(shown: Shown, cell: Cell | None) -> float:
    if cell is None:
        return math.nan
    value = cell.value if shown.kind == "figure" else cell.margin
    return math.nan if value is None else value


def last_of(key: str) -> str:
    """The last step of a dotted key."""
    return key.rpartition(".")[2]
