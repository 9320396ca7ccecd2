"""All combinations of what is varied, and the plan at each of them."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path as FilePath
from typing import Any

from tidestead.core.errors import Fault, PlanError
from tidestead.plan import LoadedPlan, loads
from tidestead.plan.edits import Edit, edited
from tidestead.plan.editing import Value
from tidestead.plan.forms.draft import Draft
from tidestead.plan.lines import Lines
from tidestead.plan.reading import judged_values
from tidestead.plan.statements import Path
from tidestead.plan.toml import values_in
from tidestead.trials.axes import Axis, read_axis

MOST_POINTS = 100_000


@dataclass(frozen=True)
class Grid:
    """Every combination of the values of its axes; the values of the last axis follow each other soonest."""

    axes: tuple[Axis, ...]

    def __len__(self) -> int:
        return math.prod(map(len, self.axes))

    def at(self, number: int) -> tuple[int, ...]:
        """The place on each axis of a point by its number, from 0."""
        places: list[int] = []
        for axis in reversed(self.axes):
            number, place = divmod(number, len(axis))
            places.append(place)
        return tuple(reversed(places))

    def typed(self, number: int) -> tuple[str, ...]:
        """The values of a point as typed."""
        return tuple(axis.typed[place] for axis, place in zip(self.axes, self.at(number), strict=True))

    def values(self, number: int) -> tuple[Value, ...]:
        """The values of a point as they are put into the plan."""
        return tuple(axis.values[place] for axis, place in zip(self.axes, self.at(number), strict=True))


def read_grid(loaded: LoadedPlan, words: Sequence[str]) -> Grid:
    """The grid that "key=values" of each key make. Raises a PlanError with every fault found."""
    draft = Draft.of(loaded.text, _name(loaded.path))
    axes: list[Axis] = []
    faults: list[Fault] = []
    for said in words:
        try:
            axes.append(read_axis(draft, said))
        except PlanError as error:
            faults += error.faults
    keys = [axis.path for axis in axes]
    faults += [
        Fault(axis.key, None, "", "is varied twice.", "Write all its values at once.")
        for number, axis in enumerate(axes)
        if axis.path in keys[:number]
    ]
    if not words:
        faults.append(Fault("vary", None, "", "needs a key with its values.", "Write KEY=FROM..TO:HOW MANY."))
    grid = Grid(tuple(axes))
    if len(grid) > MOST_POINTS:
        faults.append(
            Fault("vary", None, f"{len(grid):,} points", "are too many.", f"At most {MOST_POINTS:,} at once.")
        )
    if faults:
        raise PlanError(tuple(faults))
    _check_values(loaded, grid)
    return grid


def _check_values(loaded: LoadedPlan, grid: Grid) -> None:
    """Refuse a value that cannot be read where it is to stand; whether it fits its neighbours shows at the points."""
    plans = Plans.of(loaded, grid)
    faults: list[Fault] = []
    for axis in grid.axes:
        edited(loaded.text, [Edit(axis.key, axis.values[0])])
        for value in axis.values if not axis.numbers else (axis.values[0], axis.values[-1]):
            faults += [replace(fault, line=None, given=f'"{value}"') for fault in plans.unread(axis, value)]
    if faults:
        raise PlanError(tuple(faults))


def _name(path: FilePath | None) -> str:
    return path.name if path is not None else "plan"


@dataclass(frozen=True)
class Plans:
    """The plan at any point of a grid: its values are read once and changed, which is the same as editing the file."""

    loaded: LoadedPlan
    grid: Grid
    lines: Lines = field(repr=False)

    @classmethod
    def of(cls, loaded: LoadedPlan, grid: Grid) -> Plans:
        """The plans that a grid makes of one."""
        return cls(loaded, grid, Lines.of(loaded.text))

    def at(self, number: int) -> LoadedPlan:
        """The plan at a point. Raises the PlanError of the edited file where that is refused."""
        values: Any = values_in(self.loaded.text)
        put = list(zip(self.grid.axes, self.grid.values(number), strict=True))
        for axis, value in put:
            values = _with(values, axis.path, value)
        plan, faults = judged_values(dict(values), self.lines)
        if plan is not None and not faults:
            return replace(self.loaded, plan=plan)
        text = edited(self.loaded.text, [Edit(axis.key, value) for axis, value in put])
        return replace(self.loaded, plan=loads(text, _name(self.loaded.path)).plan)

    def unread(self, axis: Axis, value: Value) -> list[Fault]:
        """What is wrong with a value in itself."""
        values = _with(values_in(self.loaded.text), axis.path, value)
        plan, faults = judged_values(dict(values), self.lines)
        return [] if plan is not None else [fault for fault in faults if fault.where == axis.key]


def _with(values: Any, path: Path, value: Value) -> Any:
    """The values with one of them set; what is not on the way to it is shared with those before."""
    first, rest = path[0], path[1:]
    if isinstance(values, list) and isinstance(first, int):
        return [
            (_with(inner, rest, value) if rest else value) if place == first else inner
            for place, inner in enumerate(values)
        ]
    table = values if isinstance(values, dict) else {}
    return {**table, first: _with(table.get(first, {}), rest, value) if rest else value}
