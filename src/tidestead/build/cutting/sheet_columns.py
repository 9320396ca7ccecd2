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

import numpy as np

from tidestead.build.cutting.master import quiet_highs
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


class _Model:
    """A choice of sheets as a program: a row for each shape (enough of it), one for each board that may run out."""

    def __init__(self, job: SheetJob) -> None:
        self.shapes = len(job.shapes)
        self.limits = [board for board in job.boards if board.limit is not None]
        self.highs: Any = quiet_highs()
        for shape in job.shapes:
            self.highs.addRow(float(shape.count), inf, 0, [], [])
        for board in self.limits:
            self.highs.addRow(-inf, float(board.limit or 0), 0, [], [])

    def column(self, price: float, rows: Sequence[tuple[int, int]]) -> None:
        """Something that may be bought, and what it gives to which row."""
        numbers, amounts = [row for row, _ in rows], [float(amount) for _, amount in rows]
        self.highs.addCol(price, 0.0, inf, len(rows), numbers, amounts)

    def sheet(self, layout: Layout, holds: Sequence[int]) -> None:
        """A sheet that may be bought."""
        rows = [(row, number) for row, number in enumerate(holds) if number]
        limits = enumerate(self.limits, self.shapes)
        self.column(layout.board.price, rows + [(row, 1) for row, board in limits if board is layout.board])


class _Relaxed:
    """The choice where sheets may be bought in parts; grows with the pool.

    A part may also be bought without a sheet, at a price beyond any sheet's, so that there is always an answer.
    """

    def __init__(self, pool: Pool) -> None:
        self.pool, self.taken, self.model = pool, 0, _Model(pool.job)
        self.dear = (1.0 + pool.job.parts) * (1.0 + max(board.price for board in pool.job.boards))
        for row in range(self.model.shapes):
            self.model.column(self.dear, [(row, 1)])
        self.sum = inf
        self.worth: list[float] = []
        self.ration: dict[int, float] = {}
        """Of a board that runs out, by its number: nothing or less."""

    def solve(self) -> None:
        """Take in what is new in the pool, then the least sum, the price of each shape and of each board."""
        for layout in self.pool.layouts[self.taken :]:
            self.model.sheet(layout, self.pool.holds(layout))
        self.taken = len(self.pool.layouts)
        self.model.highs.run()
        duals = list(self.model.highs.getSolution().row_dual)
        limits = enumerate(self.model.limits, self.model.shapes)
        self.sum = self.model.highs.getInfo().objective_function_value
        self.worth, self.ration = (
            duals[: self.model.shapes],
            {board.number: duals[row] for row, board in limits},
        )

    def gain(self, layout: Layout) -> float:
        """What a sheet is worth beyond its price."""
        worth = sum(self.worth[spot.shape] for spot in layout.spots)
        return worth - layout.board.price + self.ration.get(layout.board.number, 0.0)


def cheapest_choice(pool: Pool, best: float, ends: float, told: Callable[[int], None]) -> Chosen | None:
    """The cheapest choice of sheets found below a cost `best`; None where there is none.

    Adds what it finds to the pool. `ends` is when to stop by the monotonic clock; `told` hears of every round.
    """
    relaxed, closed = _Relaxed(pool), False
    boards = pool.job.boards
    pricers = [Pricer(pool.job, board, upright=upright) for board in boards for upright in (False, True)]
    for turn in range(ROUNDS):
        told(turn)
        relaxed.solve()
        found = [pricer.dearest(relaxed.worth) for pricer in pricers]
        closed = not pool.add(one for one in found if relaxed.gain(one) > SLACK * (1.0 + one.board.price))
        if closed or monotonic() > ends:
            break
    if closed and _least_step(pool, relaxed.sum) >= best - SLACK:
        return None
    room = best - relaxed.sum if closed else inf
    within = [one for one in pool.layouts if -relaxed.gain(one) <= room + SLACK]
    return _whole(_undominated(within, pool), pool, best, ends)


def _undominated(layouts: list[Layout], pool: Pool) -> list[Layout]:
    """Without sheets that hold nothing which another, no dearer and no scarcer, does not hold too."""
    holds = np.array([pool.holds(layout) for layout in layouts])
    prices = np.array([layout.board.price for layout in layouts])
    scarce = np.array([-1 if layout.board.limit is None else layout.board.number for layout in layouts])
    order = np.arange(len(layouts))
    kept = []
    for at, layout in enumerate(layouts):
        beats = (
            (prices <= prices[at])
            & ((scarce == -1) | (scarce == scarce[at]))
            & (holds >= holds[at]).all(axis=1)
        )
        alike = beats & (prices == prices[at]) & (scarce == scarce[at]) & (holds == holds[at]).all(axis=1)
        if not (beats & ~(alike & (order >= at))).any():
            kept.append(layout)
    return kept


def _whole(layouts: list[Layout], pool: Pool, best: float, ends: float) -> Chosen | None:
    """Whole numbers of sheets. The program is made anew: one that was solved relaxed gave wrong sums here."""
    from highspy import HighsVarType  # noqa: PLC0415 - loaded when sheets are chosen only

    model = _Model(pool.job)
    for layout in layouts:
        model.sheet(layout, pool.holds(layout))
    columns = len(layouts)
    model.highs.changeColsIntegrality(columns, list(range(columns)), [HighsVarType.kInteger] * columns)
    model.highs.setOptionValue("mip_max_nodes", NODES)
    model.highs.setOptionValue("time_limit", max(0.1, ends - monotonic()))
    model.highs.run()
    numbers = [round(value) for value in model.highs.getSolution().col_value]
    chosen = tuple(one for one, number in zip(layouts, numbers, strict=True) for _ in range(number))
    cost = sum(layout.board.price for layout in chosen)
    return Chosen(chosen, cost) if _enough(pool, chosen) and cost < best - SLACK else None


def _enough(pool: Pool, chosen: Sequence[Layout]) -> bool:
    """Whether every part is on these sheets as often as it is wanted, and no board is used beyond its number."""
    parts = Counter(spot.shape for layout in chosen for spot in layout.spots)
    boards = Counter(layout.board.number for layout in chosen)
    within = all(board.limit is None or boards[board.number] <= board.limit for board in pool.job.boards)
    return within and all(parts[number] >= shape.count for number, shape in enumerate(pool.job.shapes))


def _least_step(pool: Pool, relaxed: float) -> float:
    """The least sum that whole sheets can have: the next whole number of them where all cost alike."""
    prices = {board.price for board in pool.job.boards}
    price = prices.pop()
    if prices or price == 0.0:
        return relaxed
    return price * -(-(relaxed / price - SLACK) // 1.0)
