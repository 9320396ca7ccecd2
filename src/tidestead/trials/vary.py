"""A sweep from the words of a request to its rows: what is varied, what is shown, what is best."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import TypeAlias

from tidestead.core.errors import Fault, PlanError
from tidestead.desk.sought import Sought, users_of
from tidestead.plan import LoadedPlan
from tidestead.trials.grid import Grid, read_grid
from tidestead.trials.known import Known, Row
from tidestead.trials.pareto import pareto
from tidestead.trials.plans import Plans, check_values
from tidestead.trials.points import Points, found_of
from tidestead.trials.shows import Shown, plain_ids, resolved, subjects_of
from tidestead.trials.sweeping import swept

Progress: TypeAlias = Callable[[int, int], None]
"""Called with how many points of how many are done."""


@dataclass(frozen=True)
class Request:
    """What is asked of a sweep, as typed. `best` are held against each other; `anew` forgets what is known."""

    axes: tuple[str, ...]
    show: tuple[str, ...] = ()
    best: tuple[str, ...] = ()
    anew: bool = False


@dataclass(frozen=True)
class Goal:
    """One of the things that choices are held against each other by: a column, and whether more of it is better."""

    column: int
    more: bool


@dataclass(frozen=True)
class Sweep:
    """Every point in the order of the grid. `known` were found before; `best` are numbers of points that none beats."""

    grid: Grid
    shown: tuple[Shown, ...]
    rows: tuple[Row, ...]
    known: int = 0
    goals: tuple[Goal, ...] = ()
    best: tuple[int, ...] = field(default=())

    def goal_values(self, row: Row) -> tuple[float | None, ...]:
        """What a point has of each goal: of a figure and of money its likely value, of all else its margin."""
        if not row.cells:
            return tuple(None for _ in self.goals)
        return tuple(
            row.cells[goal.column].value
            if self.shown[goal.column].by_value
            else row.cells[goal.column].margin
            for goal in self.goals
        )


def vary(
    loaded: LoadedPlan, request: Request, progress: Progress | None = None, cores: int | None = None
) -> Sweep:
    """Work a sweep out. Raises a PlanError where it cannot be made sense of.

    What is found is kept point by point, so that a sweep that is stopped goes on where it was.
    """
    points, goals = asked(loaded, request)
    grid = points.grid
    known = Known.of(loaded, [axis.key for axis in grid.axes], points.shown, request.anew)
    rows = {number: row for number in range(len(grid)) if (row := known.row(number, grid.typed(number)))}
    before, left = len(rows), [number for number in range(len(grid)) if number not in rows]
    for some in swept(points, left, cores):
        known.add((grid.typed(row.number), row) for row in some)
        rows |= {row.number: row for row in some}
        if progress is not None:
            progress(len(rows), len(grid))
    sweep = Sweep(grid, points.shown, tuple(rows[number] for number in range(len(grid))), before, goals)
    if not goals:
        return sweep
    best = pareto([sweep.goal_values(row) for row in sweep.rows], [goal.more for goal in goals])
    return Sweep(grid, points.shown, sweep.rows, before, goals, best)


def asked(loaded: LoadedPlan, request: Request) -> tuple[Points, tuple[Goal, ...]]:
    """What a request means for a plan. Raises a PlanError with what is wrong in it."""
    grid = read_grid(loaded, request.axes)
    check_values(Plans.of(loaded, grid))
    best = [(name.removeprefix("+").removeprefix("-"), name[:1]) for name in request.best]
    if len(best) == 1 or len({name for name, _ in best}) < len(best):
        advice = "Name two or more, such as cost.cash,structure."
        raise PlanError((Fault("--pareto", None, "", "holds different things against each other.", advice),))
    names = [*request.show, *(name for name, _ in best)]
    default = () if names else tuple(dict.fromkeys(_users(grid)))
    subjects = subjects_of(names) or default
    shown = _resolved(loaded, grid, names or default, subjects)
    ids = [one.id for one in shown]
    for name, _ in best:
        if name not in ids:
            raise PlanError(
                (Fault("--pareto", None, name, "is more than one thing.", "Name one check or figure."),)
            )
    goals = tuple(
        Goal(ids.index(name), sign == "+" or (sign != "-" and not shown[ids.index(name)].by_value))
        for name, sign in best
    )
    return Points(loaded, grid, shown), goals


def _users(grid: Grid) -> Iterator[str]:
    """The subjects that use what is varied."""
    for axis in grid.axes:
        users = users_of(str(axis.path[0]))
        if not users:
            advice = "Name what to show with --show."
            raise PlanError((Fault(axis.key, None, "", "is used by no subject yet.", advice),))
        yield from users


def _resolved(
    loaded: LoadedPlan, grid: Grid, names: Sequence[str], subjects: Sequence[str]
) -> tuple[Shown, ...]:
    """What the names stand for. Plain ids are looked for alone; what is not found, among all there are."""
    ids = plain_ids(names)
    if ids is not None:
        try:
            return resolved(names, _looked_at(loaded, grid, ids))
        except PlanError:
            pass  # told with the nearest of all that there are
    return resolved(names, _looked_at(loaded, grid, dict.fromkeys(subjects)))


def _looked_at(
    loaded: LoadedPlan, grid: Grid, wanted: Mapping[str, frozenset[str] | None]
) -> Iterator[dict[str, Sought]]:
    """What the plan as it stands has, and what it has at the first and the last point, where it is not refused."""
    yield found_of(loaded, wanted)
    plans = Plans.of(loaded, grid)
    for number in dict.fromkeys((0, len(grid) - 1)):
        try:
            plan = plans.at(number)
        except PlanError:
            continue
        yield found_of(plan, wanted)
