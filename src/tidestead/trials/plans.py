"""The plan at each point of a grid, which is that of the file edited by hand."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import Any

from tidestead.core.errors import Fault, PlanError
from tidestead.plan import LoadedPlan, loads
from tidestead.plan.editing import Value
from tidestead.plan.edits import Edit, edited
from tidestead.plan.lines import Lines
from tidestead.plan.model import Plan
from tidestead.plan.model.part import Part
from tidestead.plan.parts import value_at
from tidestead.plan.reading import judged_values, misfits_in
from tidestead.plan.statements import Path
from tidestead.plan.toml import values_in
from tidestead.trials.axes import Axis
from tidestead.trials.grid import Grid

_READ_BY_ALL = frozenset(("gallons", "show", "currency", "yours", "tidestead"))
"""Keys by which the values of others are read."""


@dataclass(frozen=True)
class Plans:
    """The plan at any point. Each value is read once; points put what was read together, and look whether it fits."""

    loaded: LoadedPlan
    grid: Grid
    lines: Lines = field(repr=False)
    _read: dict[tuple[int, int], Any] = field(default_factory=dict, repr=False)

    @classmethod
    def of(cls, loaded: LoadedPlan, grid: Grid) -> Plans:
        """The plans that a grid makes of one."""
        return cls(loaded, grid, Lines.of(loaded.text))

    def at(self, number: int) -> LoadedPlan:
        """The plan at a point. Raises the PlanError of the edited file where that is refused."""
        values: Any = values_in(self.loaded.text)
        for axis, value in zip(self.grid.axes, self.grid.values(number), strict=True):
            values = _with(values, axis.path, value)
        plan = self._joined(number) if self._apart else None
        if plan is not None and not misfits_in(values, self.lines):
            return replace(self.loaded, plan=plan)
        return self.edited(number)

    def edited(self, number: int) -> LoadedPlan:
        """The same by the text of the file, edited and read again. Raises a PlanError where it is refused."""
        put = zip(self.grid.axes, self.grid.values(number), strict=True)
        text = edited(self.loaded.text, [Edit(axis.key, value) for axis, value in put])
        return replace(self.loaded, plan=loads(text, _name(self.loaded)).plan)

    @cached_property
    def _apart(self) -> bool:
        """Whether each value is read by itself, in a table that is there already."""
        values = values_in(self.loaded.text)
        return all(
            axis.path[0] not in _READ_BY_ALL and _is_table(value_at(values, axis.path[:-1]))
            for axis in self.grid.axes
        )

    def _joined(self, number: int) -> Plan | None:
        """The plan with each value as it was read; None where one cannot be read."""
        plan: Any = self.loaded.plan
        for place, (axis, step) in enumerate(zip(self.grid.axes, self.grid.at(number), strict=True)):
            if (place, step) not in self._read:
                found, _ = self.with_one(axis, axis.values[step])
                self._read[place, step] = _NOTHING if found is None else _leaf(found, axis.path)
            leaf = self._read[place, step]
            if leaf is _NOTHING:
                return None
            plan = _put(plan, axis.path, leaf)
        return plan if isinstance(plan, Plan) else None

    def with_one(self, axis: Axis, value: Value) -> tuple[Plan | None, list[Fault]]:
        """The plan with one value alone, and what is wrong with it; None where it cannot be read."""
        values = _with(values_in(self.loaded.text), axis.path, value)
        return judged_values(dict(values), self.lines)


def check_values(plans: Plans) -> None:
    """Refuse values that cannot be read where they are to stand; whether they fit their neighbours shows at the points.

    Raises a PlanError with every fault found.
    """
    faults: list[Fault] = []
    for axis in plans.grid.axes:
        edited(plans.loaded.text, [Edit(axis.key, axis.values[0])])
        for value in axis.values if not axis.numbers else (axis.values[0], axis.values[-1]):
            plan, found = plans.with_one(axis, value)
            if plan is None:
                faults += [
                    replace(one, line=None, given=f'"{value}"') for one in found if one.where == axis.key
                ]
    if faults:
        raise PlanError(tuple(faults))


_NOTHING = object()
"""Stands for a value that cannot be read."""


def _name(loaded: LoadedPlan) -> str:
    return loaded.path.name if loaded.path is not None else "plan"


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


def _is_table(values: Any) -> bool:
    return isinstance(values, Mapping | list)


def _leaf(part: Any, path: Path) -> Any:
    """The value at a path of the model."""
    for step in path:
        part = getattr(part, str(step)) if isinstance(part, Part) else part[step]
    return part


def _put(part: Any, path: Path, leaf: Any) -> Any:
    """The model with the value at a path; what is not on the way to it is shared."""
    first, rest = path[0], path[1:]
    inner = _put(_leaf(part, path[:1]), rest, leaf) if rest else leaf
    if isinstance(part, Part):
        return part.model_copy(update={str(first): inner})
    if isinstance(part, Mapping):
        return {**part, first: inner}
    return tuple(inner if place == first else item for place, item in enumerate(part))
