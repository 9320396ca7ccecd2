"""All combinations of what is varied."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from tidestead.core.errors import Fault, PlanError
from tidestead.plan import LoadedPlan
from tidestead.plan.editing import Value
from tidestead.plan.forms.draft import Draft
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
    """The grid that "key=values" of each key make. Raises a PlanError with every fault found.

    Whether each value can be read where it is to stand is for `plans.check_values`.
    """
    draft = Draft.of(loaded.text)
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
    return grid
