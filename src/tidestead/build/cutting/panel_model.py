"""Parts laid freely on boards as a program of whole numbers and intervals that do not overlap, for CP-SAT."""

from __future__ import annotations

from collections.abc import Sequence
from functools import reduce
from math import gcd, inf
from threading import Thread
from typing import Any, NamedTuple

from tidestead.build.cutting.sheet_job import Board, Lay, Layout, SheetJob, Spot
from tidestead.build.cutting.sheet_types import Tick

WORKERS = 2
SEED = 1
FINE = 10_000
"""Money and worth are counted in parts of one so fine, unless whole."""
BEAT = 0.1
"""Seconds between two beats of the tick."""


class Found(NamedTuple):
    """What a search found: boards with parts, the rects these belong to; the bound; whether all ways were looked at."""

    layouts: tuple[Layout, ...] | None
    rects: tuple[int, ...]
    bound: float
    closed: bool


class _Way(NamedTuple):
    """A part lies on a board in one way, if `chosen`."""

    board: int
    lay: Lay
    chosen: Any


class _Part(NamedTuple):
    """One part: its shape, its rect, where it lies if it does, and every way it can."""

    shape: int
    rect: int
    x: Any
    y: Any
    ways: list[_Way]


class PanelModel:
    """The parts of a job and the boards there may be. `boards` alike stand side by side.

    Sides are counted in their greatest common measure: every layout can be pushed into the corner, and then each part
    stands at a sum of sides.
    """

    def __init__(self, job: SheetJob, boards: Sequence[Board]) -> None:
        from ortools.sat.python import cp_model  # noqa: PLC0415 - half a second that only this search needs

        self.cp: Any = cp_model
        self.job, self.boards = job, list(boards)
        self.model: Any = cp_model.CpModel()
        sides = [side for shape in job.shapes for side in (shape.along, shape.across)]
        self.measure = reduce(gcd, sides)
        self.along = [board.along // self.measure for board in self.boards]
        self.across = [board.across // self.measure for board in self.boards]
        self.parts = [
            self._part(number, rect) for number, shape in enumerate(job.shapes) for rect in shape.rects
        ]
        self.scale = 1.0
        for number in range(len(self.boards)):
            self._apart(number)
        self._in_order()

    def _part(self, shape: int, rect: int) -> _Part:
        x = self.model.new_int_var(0, max(self.along), "")
        y = self.model.new_int_var(0, max(self.across), "")
        ways = []
        for number, board in enumerate(self.boards):
            for lay in filter(board.takes, self.job.shapes[shape].lays):
                chosen = self.model.new_bool_var("")
                self.model.add(x + self._in(lay.along) <= self.along[number]).only_enforce_if(chosen)
                self.model.add(y + self._in(lay.across) <= self.across[number]).only_enforce_if(chosen)
                ways.append(_Way(number, lay, chosen))
        self.model.add_at_most_one(way.chosen for way in ways)
        return _Part(shape, rect, x, y, ways)

    def _in(self, side: int) -> int:
        return side // self.measure

    def _apart(self, number: int) -> None:
        """No two parts on one board overlap; nor do they crowd any line across it, which follows, but helps."""
        level, upright, heights, widths = [], [], [], []
        for part in self.parts:
            for way in part.ways:
                if way.board == number:
                    along, across = self._in(way.lay.along), self._in(way.lay.across)
                    fixed = self.model.new_optional_fixed_size_interval_var
                    level.append(fixed(part.x, along, way.chosen, ""))
                    upright.append(fixed(part.y, across, way.chosen, ""))
                    heights.append(across)
                    widths.append(along)
        self.model.add_no_overlap_2d(level, upright)
        self.model.add_cumulative(level, heights, self.across[number])
        self.model.add_cumulative(upright, widths, self.along[number])

    def _in_order(self) -> None:
        """Of parts that are alike the first lies on the first board, furthest left: of many like plans one will do."""
        for one, other in zip(self.parts, self.parts[1:], strict=False):
            if (one.shape, one.rect) == (other.shape, other.rect):
                place = [self._place(part) for part in (one, other)]
                self.model.add(place[0] <= place[1])

    def _place(self, part: _Part) -> Any:
        """The number of the board, then how far along; a part that is not laid is last."""
        step = max(self.along) + 1
        last = len(self.boards)
        return part.x + step * (last + sum((way.board - last) * way.chosen for way in part.ways))

    def wants_all(self) -> None:
        """Every part is laid."""
        for part in self.parts:
            self.model.add_exactly_one(way.chosen for way in part.ways)

    def cheapest(self, below: float | None) -> None:
        """The least price of boards used, and less than `below`."""
        prices = [board.price for board in self.boards]
        self.scale = 1.0 if all(float(price).is_integer() for price in prices) else float(FINE)
        used = [self.model.new_bool_var("") for _ in self.boards]
        for part in self.parts:
            for way in part.ways:
                self.model.add_implication(way.chosen, used[way.board])
        for number, board in enumerate(self.boards[1:], 1):
            if board is self.boards[number - 1]:
                self.model.add_implication(used[number], used[number - 1])
        cost = sum(round(price * self.scale) * one for price, one in zip(prices, used, strict=True))
        if below is not None:
            self.model.add(cost <= round(below * self.scale) - 1)
        self.model.minimize(cost)

    def most_worth(self, worth: Sequence[float], least: Sequence[int]) -> None:
        """Parts of the most worth, each rect so often at the least."""
        self.scale = 1.0 if all(float(one).is_integer() for one in worth) else float(FINE)
        laid = [(part.rect, sum(way.chosen for way in part.ways)) for part in self.parts]
        for number, low in enumerate(least):
            self.model.add(sum(one for rect, one in laid if rect == number) >= low)
        self.model.maximize(sum(round(worth[rect] * self.scale) * one for rect, one in laid))

    def shortest(self) -> None:
        """The least length along that all parts need."""
        self.scale = 1.0 / self.measure
        end = self.model.new_int_var(0, self.along[0], "")
        for part in self.parts:
            for way in part.ways:
                self.model.add(part.x + self._in(way.lay.along) <= end).only_enforce_if(way.chosen)
        area = sum(self._in(shape.along) * self._in(shape.across) * shape.count for shape in self.job.shapes)
        self.model.add(end * self.across[0] >= area)
        self.model.minimize(end)

    def solve(self, seconds: float, tick: Tick | None) -> Found:
        """Search until it is proven or the time is up. What `tick` raises stops the search and goes on from here."""
        solver = self.cp.CpSolver()
        solver.parameters.num_workers = WORKERS
        solver.parameters.random_seed = SEED
        solver.parameters.max_time_in_seconds = seconds
        status: list[Any] = []
        work = Thread(target=lambda: status.append(solver.solve(self.model)), daemon=True)
        work.start()
        try:
            beats = 0
            while work.is_alive():
                work.join(BEAT)
                beats += 1
                if tick:
                    tick(min(beats, int(seconds / BEAT)), int(seconds / BEAT))
        finally:
            solver.stop_search()
            work.join()
        return self._found(solver, status[0])

    def _found(self, solver: Any, status: Any) -> Found:
        if status == self.cp.INFEASIBLE:
            return Found(None, (), inf, closed=True)
        bound = solver.best_objective_bound / self.scale
        if status not in {self.cp.OPTIMAL, self.cp.FEASIBLE}:
            return Found(None, (), bound, closed=False)
        spots: list[list[Spot]] = [[] for _ in self.boards]
        rects = []
        for part in self.parts:
            for way in part.ways:
                if solver.value(way.chosen):
                    x, y = (solver.value(place) * self.measure for place in (part.x, part.y))
                    spots[way.board].append(Spot(part.shape, x, y, way.lay))
                    rects.append(part.rect)
        laid = zip(self.boards, spots, strict=True)
        layouts = tuple(Layout(board, tuple(sorted(_pushed(these)))) for board, these in laid if these)
        return Found(layouts, tuple(rects), bound, status == self.cp.OPTIMAL)


def _pushed(spots: list[Spot]) -> list[Spot]:
    """The same parts, each as far into the lower left corner as those before it allow."""
    before: list[Spot] = []
    while before != spots:
        before = spots
        spots = _pushed_down(_pushed_left(spots))
    return spots


def _pushed_left(spots: list[Spot]) -> list[Spot]:
    done: list[Spot] = []
    for spot in sorted(spots, key=lambda one: (one.x, one.y)):
        ends = [
            other.x + other.lay.along
            for other in done
            if other.y < spot.y + spot.lay.across and spot.y < other.y + other.lay.across
        ]
        done.append(spot._replace(x=max(ends, default=0)))
    return done


def _pushed_down(spots: list[Spot]) -> list[Spot]:
    done: list[Spot] = []
    for spot in sorted(spots, key=lambda one: (one.y, one.x)):
        ends = [
            other.y + other.lay.across
            for other in done
            if other.x < spot.x + spot.lay.along and spot.x < other.x + other.lay.along
        ]
        done.append(spot._replace(y=max(ends, default=0)))
    return done
