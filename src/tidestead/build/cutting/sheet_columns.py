"""Sheets to choose from, and the cheapest choice among them that holds every part.

Relaxed prices of parts lead to new sheets (`sheet_patterns`) until none is worth more than it costs; then whole
numbers of sheets are chosen, out of these and the ones that rules made, by HiGHS.
The relaxed sum is the least over sheets cut in stages, not over all that a saw can cut: it ends the search, but is
never told as a bound.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Sequence
from math import inf
from time import monotonic
from typing import Any, NamedTuple

from tidestead.build.cutting.sheet_job import Layout, SheetJob
from tidestead.build.cutting.sheet_patterns import Pricer

ROUNDS = 400
"""New sheets are looked for so many times at most."""
NODES = 2_000
"""Branches of the choice in whole numbers."""
SLACK = 1e-7


class Chosen(NamedTuple):
    """Sheets that hold every part, some perhaps more often than wanted, and what they cost."""

    layouts: tuple[Layout, ...]
    cost: float


class Pool:
    """All sheets known, each with how often each shape is on it."""

    def __init__(self, job: SheetJob) -> None:
        self.job = job
        self.layouts: list[Layout] = []
        self._known: set[tuple[int, tuple[int, ...]]] = set()

    def add(self, layouts: Iterable[Layout]) -> int:
        """Take in those that are new; gives how many were."""
        before = len(self.layouts)
        for layout in layouts:
            key = (layout.board.number, self.holds(layout))
            if key not in self._known:
                self._known.add(key)
                self.layouts.append(layout)
        return len(self.layouts) - before

    def holds(self, layout: Layout) -> tuple[int, ...]:
        """How often each shape is on a sheet."""
        found = Counter(spot.shape for spot in layout.spots)
        return tuple(found[shape] for shape in range(len(self.job.shapes)))


class _Master:
    """The choice of sheets as a program: a row for each shape (enough of it), one for each board that may run out."""

    def __init__(self, pool: Pool) -> None:
        from highspy import Highs  # noqa: PLC0415 - loaded when sheets are chosen only

        self.pool, self.taken = pool, 0
        self.limits = [board for board in pool.job.boards if board.limit is not None]
        make: Any = Highs
        self.model = make()
        self.model.silent()
        for name, value in (("threads", 1), ("random_seed", 0)):
            self.model.setOptionValue(name, value)
        for shape in pool.job.shapes:
            self.model.addRow(float(shape.count), inf, 0, [], [])
        for board in self.limits:
            self.model.addRow(-inf, float(board.limit or 0), 0, [], [])
        self._short()

    def _short(self) -> None:
        """A part that no sheet holds yet may be bought at a price beyond any sheet's, so that there is an answer."""
        self.dear = 10.0 * (1.0 + max(board.price for board in self.pool.job.boards))
        for row in range(len(self.pool.job.shapes)):
            self.model.addCol(self.dear, 0.0, inf, 1, [row], [1.0])

    def grow(self) -> None:
        """Take the new sheets of the pool in as columns."""
        for layout in self.pool.layouts[self.taken :]:
            rows = [(row, float(number)) for row, number in enumerate(self.pool.holds(layout)) if number]
            rows += [
                (len(self.pool.job.shapes) + at, 1.0)
                for at, board in enumerate(self.limits)
                if board is layout.board
            ]
            self.model.addCol(
                layout.board.price, 0.0, inf, len(rows), [row for row, _ in rows], [one for _, one in rows]
            )
        self.taken = len(self.pool.layouts)

    def relaxed(self) -> tuple[float, list[float], dict[int, float]]:
        """The sum where sheets may be bought in parts, the price of each shape, and of each board that runs out."""
        self.model.run()
        duals = list(self.model.getSolution().row_dual)
        shapes = len(self.pool.job.shapes)
        boards = {board.number: duals[shapes + at] for at, board in enumerate(self.limits)}
        return self.model.getObjectiveValue(), duals[:shapes], boards

    def whole(self, seconds: float) -> list[int] | None:
        """How many of each sheet of the pool, whole numbers. None where none was found that holds every part."""
        from highspy import HighsVarType  # noqa: PLC0415 - loaded when sheets are chosen only

        columns = self.model.getNumCol()
        self.model.changeColsIntegrality(columns, list(range(columns)), [HighsVarType.kInteger] * columns)
        self.model.setOptionValue("mip_max_nodes", NODES)
        self.model.setOptionValue("time_limit", seconds)
        self.model.run()
        values = list(self.model.getSolution().col_value)
        shapes = len(self.pool.job.shapes)
        if not values or any(round(value) for value in values[:shapes]):
            return None
        return [round(value) for value in values[shapes:]]


def cheapest_choice(pool: Pool, best: float, ends: float, told: Callable[[int], None]) -> Chosen | None:
    """The cheapest choice of sheets found below a cost `best`; None where there is none.

    Adds what it finds to the pool. `ends` is when to stop by the monotonic clock; `told` hears of every round.
    """
    master = _Master(pool)
    master.grow()
    pricers = [
        Pricer(pool.job, board, upright=upright) for board in pool.job.boards for upright in (False, True)
    ]
    closed = False
    for turn in range(ROUNDS):
        told(turn)
        relaxed, worth, boards = master.relaxed()
        found = [(pricer, pricer.dearest(worth)) for pricer in pricers]
        gains = [
            one for pricer, one in found if _gain(one, worth, boards) > SLACK * (1.0 + pricer.board.price)
        ]
        closed = not pool.add(gains)
        if closed or monotonic() > ends:
            break
        master.grow()
    if closed and _least_step(pool, relaxed) >= best - SLACK:
        return None
    numbers = master.whole(max(0.1, ends - monotonic()))
    return _chosen(pool, numbers, best)


def _gain(layout: Layout, worth: Sequence[float], boards: dict[int, float]) -> float:
    """What a sheet is worth beyond its price, and beyond that of its board where boards run out."""
    return (
        sum(worth[spot.shape] for spot in layout.spots)
        - layout.board.price
        + boards.get(layout.board.number, 0.0)
    )


def _least_step(pool: Pool, relaxed: float) -> float:
    """The least sum that whole sheets can have: the next whole number of them where all cost alike."""
    prices = {board.price for board in pool.job.boards}
    price = prices.pop()
    if prices or price == 0.0:
        return relaxed
    return price * -(-(relaxed / price - SLACK) // 1.0)


def _chosen(pool: Pool, numbers: list[int] | None, best: float) -> Chosen | None:
    if numbers is None:
        return None
    layouts = tuple(
        layout for layout, number in zip(pool.layouts, numbers, strict=True) for _ in range(number)
    )
    cost = sum(layout.board.price for layout in layouts)
    return Chosen(layouts, cost) if cost < best - SLACK else None
