"""A sweep as a table, as comma-separated values and as JSON."""

from __future__ import annotations

import csv
import io
import json
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from typing import Any, TypeAlias

from tidestead import __version__
from tidestead.core.answer import Column, Table, Verdict
from tidestead.report.json_numbers import Numbers
from tidestead.report.wording import SHARE, many
from tidestead.trials.known import Row
from tidestead.trials.shows import Cell, Shown
from tidestead.trials.vary import Sweep

FORMAT = 1
MOST_REASONS = 5
"""Reasons told of points that are refused."""
Value: TypeAlias = float | str | None


def short_names(names: Sequence[str]) -> list[str]:
    """Of each dotted name as many last steps as tell it from the others."""
    found = []
    for name in names:
        steps = name.split(".")
        ends = (".".join(steps[-count:]) for count in range(1, len(steps) + 1))
        others = [other for other in names if other != name]
        found.append(
            next((end for end in ends if not any(f".{other}".endswith(f".{end}") for other in others)), name)
        )
    return found


def table_of(sweep: Sweep, rows: Sequence[Row]) -> Table:
    """Rows of a sweep: the values of its keys as typed, then of each thing its value, what is left, its verdict.

    Of a point that is refused there is nothing but that: the reasons are `refusals`.
    """
    keys = short_names([axis.key for axis in sweep.grid.axes])
    heads = short_names([one.id for one in sweep.shown])
    columns = [Column(key) for key in keys]
    likely = _held_by_value(sweep)
    for number, (one, head) in enumerate(zip(sweep.shown, heads, strict=True)):
        columns += _columns(one, head, number in likely)
    best = set(sweep.best)
    if sweep.goals:
        columns.append(Column("none beats it"))
    body = []
    for row in rows:
        cells: list[Value] = [*sweep.grid.typed(row.number)]
        for number, one in enumerate(sweep.shown):
            cell = row.cells[number] if row.cells else _REFUSED
            cells += _cells(one, cell, number in likely)
        cells += [("*" if row.number in best else "")] if sweep.goals else []
        body.append(tuple(cells))
    return Table("vary", "Points", tuple(columns), tuple(body))


_REFUSED = Cell(verdict="no plan")


def _held_by_value(sweep: Sweep) -> set[int]:
    """Columns of checks that choices are held against each other by with their likely value: it has to be seen."""
    columns = {goal.column for goal in sweep.goals}
    return {
        number for number in columns if sweep.shown[number].kind == "check" and sweep.shown[number].by_value
    }


def refusals(sweep: Sweep) -> list[str]:
    """Why points are refused, each reason once with how many have it, the first ones only."""
    return _reasons(row.refused for row in sweep.rows if row.refused)


def unproven(sweep: Sweep) -> list[str]:
    """Why checks are unproven at points, each check's reasons once with how many points have it, the first ones."""
    checks = [(number, one.id) for number, one in enumerate(sweep.shown) if one.kind == "check"]
    return _reasons(
        f"{ident}: {row.cells[number].note}"
        for number, ident in checks
        for row in sweep.rows
        if row.cells and row.cells[number].note and row.cells[number].verdict == Verdict.UNPROVEN.value
    )


def _reasons(found: Iterable[str]) -> list[str]:
    counts = Counter(found)
    told = [f"{why} ({many(count, 'point')})" for why, count in counts.items()]
    left = len(told) - MOST_REASONS
    return told if left <= 0 else [*told[:MOST_REASONS], f"and {many(left, 'more reason')}"]


def _columns(shown: Shown, head: str, likely: bool) -> list[Column]:
    if shown.kind == "figure":
        return [Column(head, shown.unit, shown.style)]
    margin, verdict = Column("margin", "1", SHARE), Column("verdict")
    if shown.kind == "subject":
        return [Column(f"{head}: margin", "1", SHARE), verdict, Column("governs")]
    return [Column(f"{head} {'likely' if likely else 'at worst'}", shown.unit, shown.style), margin, verdict]


def _cells(shown: Shown, cell: Cell, likely: bool) -> list[Value]:
    if shown.kind == "figure":
        return [cell.value]
    if shown.kind == "subject":
        return [cell.margin, cell.verdict, cell.note]
    return [cell.value if likely else cell.judged(shown.must_be), cell.margin, cell.verdict]


def as_csv(sweep: Sweep) -> str:
    """Every point on a line, numbers in SI and whole, so that nothing is lost by rounding. Empty where there is none.

    A key has its value as typed and, where it is a number, the number beside it.
    """
    stream = io.StringIO()
    write = csv.writer(stream, lineterminator="\n")
    write.writerow(_head(sweep))
    for row in sweep.rows:
        line: list[Value] = []
        for axis, place in zip(sweep.grid.axes, sweep.grid.at(row.number), strict=True):
            line += [axis.typed[place], *([axis.numbers[place]] if axis.numbers else [])]
        for number, one in enumerate(sweep.shown):
            cell = row.cells[number] if row.cells else Cell()
            line += [cell.value, cell.low, cell.high] if one.kind != "subject" else []
            line += [cell.margin, cell.verdict] if one.kind != "figure" else []
            line += [cell.note] if one.kind == "subject" else []
        line += [("yes" if row.number in sweep.best else "no")] if sweep.goals else []
        write.writerow([_safe(value) for value in [*line, row.refused]])
    return stream.getvalue()


def _safe(value: Value) -> Value:
    """A number as it is; words that a spreadsheet might take for a formula with a quote before them."""
    return f"'{value}" if isinstance(value, str) and value[:1] in ("=", "+", "@") else value


def _head(sweep: Sweep) -> Iterator[str]:
    for axis in sweep.grid.axes:
        yield axis.key
        if axis.numbers:
            yield f"{axis.key} ({axis.unit})"
    for one in sweep.shown:
        if one.kind != "subject":
            yield from (f"{one.id} ({one.unit})", f"{one.id} low", f"{one.id} high")
        if one.kind != "figure":
            yield from (f"{one.id} margin", f"{one.id} verdict")
        if one.kind == "subject":
            yield f"{one.id} governs"
    if sweep.goals:
        yield "none beats it"
    yield "why not"


def as_json(sweep: Sweep, plan: str) -> str:
    """The sweep as one JSON object, SI values with their unit beside them, what is no finite number null with why."""
    found = {
        "format": FORMAT,
        "tidestead": __version__,
        "plan": plan,
        "keys": [
            {"key": axis.key, "typed": list(axis.typed), "values": list(axis.numbers), "unit": axis.unit}
            for axis in sweep.grid.axes
        ],
        "shown": [
            {"id": one.id, "kind": one.kind, "what": one.what, "unit": one.unit} for one in sweep.shown
        ],
        "known": sweep.known,
        "best": list(sweep.best),
        "points": [_point(sweep, row) for row in sweep.rows],
    }
    return json.dumps(found, indent=1, ensure_ascii=True, allow_nan=False) + "\n"


def _point(sweep: Sweep, row: Row) -> dict[str, Any]:
    return {
        "at": list(sweep.grid.typed(row.number)),
        "refused": row.refused,
        "found": [_cell(cell) for cell in row.cells],
    }


def _cell(cell: Cell) -> dict[str, Any]:
    numbers = Numbers()
    found = {
        name: numbers.take(name, getattr(cell, name), cell.note)
        for name in ("value", "low", "high", "margin")
    }
    return {**found, "verdict": cell.verdict, "note": cell.note, "why_null": numbers.why}
