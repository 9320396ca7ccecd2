"""What is the most that fits on a length: exact, in whole numbers, for every sort of stock at once.

A frontier is what the pieces from one row onward can make of a room: widths used, rising, each with the most it can
be worth. Rows are taken from the last to the first, so that all their frontiers are there when a pattern is read off.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

Whole = NDArray[np.int64]
Real = NDArray[np.float64]

GAIN = 1e-9
"""Gain by which a pattern has to be worth more than its price, as a share of the dearest stock."""

FINE = 20_000
"""Longer frontiers are thinned upward: what they say is then a bound, and no longer exact."""

CELLS = (1_024, 8_192)
"""Cells that the longest room is parted into for a rough look and for a closer one, at the most."""


@dataclass(frozen=True)
class Problem:
    """Pieces and stock in whole numbers, prices as shares of the dearest.

    `widths` falls and holds each piece with its kerf; `rooms` is what each stock gives with one kerf more, since the
    last piece needs none. `limits` is how many there are of a stock, below nothing where there is no end of them.
    """

    widths: Whole
    wanted: Whole
    rooms: Whole
    prices: Real
    limits: Whole

    @cached_property
    def snug(self) -> tuple[Problem, ...]:
        """In cells, few and many, so that whatever fits there fits here."""
        return tuple(in_cells(self, cells, up=True) for cells in CELLS)

    @cached_property
    def loose(self) -> tuple[Problem, ...]:
        """In cells, few and many, so that whatever fits here fits there."""
        return tuple(in_cells(self, cells, up=False) for cells in CELLS)


@dataclass(frozen=True)
class Frontier:
    """Widths used, rising from nothing, and the most that each can be worth, rising too."""

    used: Whole
    worth: Real

    def most(self, room: Whole) -> Real:
        """The most that fits into each room; minus infinity into less than nothing."""
        at = np.searchsorted(self.used, room, side="right") - 1
        return np.where(at >= 0, self.worth[at], -np.inf)


@dataclass(frozen=True)
class Cells:
    """The same told cell by cell: the most that fits into none, one, two cells and so on."""

    worth: Real

    def most(self, room: Whole) -> Real:
        """The most that fits into each room; minus infinity into less than nothing."""
        return np.where(room >= 0, self.worth[np.maximum(room, 0)], -np.inf)


EMPTY = Frontier(np.zeros(1, dtype=np.int64), np.zeros(1))


def frontiers(problem: Problem, wanted: Whole, worth: Real, states: int = FINE) -> list[Frontier]:
    """One frontier for each row, of its pieces and all narrower ones, and an empty one behind the last."""
    room = int(problem.rooms.max(initial=0))
    found = [EMPTY]
    for row in range(len(worth) - 1, -1, -1):
        width = int(problem.widths[row])
        copies = min(int(wanted[row]), room // width)
        found.append(_with_more(found[-1], width, float(worth[row]), copies, room, states))
    return found[::-1]


def in_cells(problem: Problem, cells: int, *, up: bool) -> Problem:
    """The problem in at most so many whole cells, exact where all widths and rooms are multiples of one.

    With widths rounded up whatever fits in cells fits in truth; rounded down, whatever fits in truth fits in cells.
    """
    cell = max(
        int(np.gcd.reduce(np.concatenate((problem.widths, problem.rooms)))),
        -(-int(problem.rooms.max()) // cells),
    )
    widths = -(-problem.widths // cell) if up else problem.widths // cell
    return replace(problem, widths=widths, rooms=problem.rooms // cell)


def by_cells(cells: Problem, wanted: Whole, worth: Real) -> list[Cells]:
    """What `frontiers` gives, for a problem in cells: one after another in a few microseconds each."""
    room = int(cells.rooms.max())
    best = np.zeros(room + 1)
    found = [Cells(best)]
    for row in range(len(worth) - 1, -1, -1):
        width, most = int(cells.widths[row]), int(wanted[row])
        if worth[row] > 0.0:
            best = best.copy()
            for many in _bundles(min(most, room // max(width, 1)) if width else most):
                if many * width <= room:
                    best[many * width :] = np.maximum(
                        best[many * width :], best[: room + 1 - many * width] + many * worth[row]
                    )
        found.append(Cells(best))
    return found[::-1]


def _bundles(copies: int) -> Iterator[int]:
    """Ones, twos, fours and a rest, from which any number up to so many can be made."""
    bundle = 1
    while copies > 0:
        yield min(bundle, copies)
        copies -= bundle
        bundle *= 2


def _with_more(frontier: Frontier, width: int, worth: float, copies: int, room: int, states: int) -> Frontier:
    """The frontier once up to `copies` pieces of one width may be used too."""
    if worth <= 0.0:
        return frontier
    for many in _bundles(copies):
        frontier = _merged(frontier, many * width, many * worth, room, states)
    return frontier


def _merged(frontier: Frontier, width: int, worth: float, room: int, states: int) -> Frontier:
    fits = int(np.searchsorted(frontier.used, room - width, side="right"))
    used = np.concatenate((frontier.used, frontier.used[:fits] + width))
    best = np.concatenate((frontier.worth, frontier.worth[:fits] + worth))
    order = np.argsort(used, kind="stable")
    used, best = used[order], best[order]
    kept = np.ones(len(used), dtype=np.bool_)
    np.greater(best[1:], np.maximum.accumulate(best)[:-1], out=kept[1:])
    used, best = used[kept], best[kept]
    last = np.append(used[1:] != used[:-1], True)
    return _thinned(used[last], best[last], room, states)


def _thinned(used: Whole, worth: Real, room: int, states: int) -> Frontier:
    """At most so many states: of those side by side the narrowest with the worth of the best, never too little."""
    if len(used) <= states:
        return Frontier(used, worth)
    cell = used // (room // (states // 2) + 1)
    first = np.append(True, cell[1:] != cell[:-1])
    last = np.append(cell[1:] != cell[:-1], True)
    return Frontier(used[first], worth[last])


@dataclass(frozen=True)
class Patterns:
    """Ways to cut: a stock and so many pieces of each row for each, as one line of `counts`."""

    stocks: Whole
    counts: Whole

    def __len__(self) -> int:
        return len(self.stocks)


def best_worth(problem: Problem, suffixes: Sequence[Frontier | Cells]) -> Real:
    """The most that each stock can be worth: never too little."""
    return suffixes[0].most(problem.rooms)


@dataclass(frozen=True)
class Asked:
    """Pieces wanted, what each is worth, the price of each stock, and how many patterns are looked for at the most."""

    wanted: Whole
    worth: Real
    price: Real
    most: int


def best_patterns(problem: Problem, asked: Asked, suffixes: Sequence[Frontier | Cells]) -> Patterns:
    """Patterns worth more than their stock's price: the best for each widest piece and stock."""
    worth, heads = asked.worth, []
    for row in map(int, np.flatnonzero((worth > 0.0) & (asked.wanted > 0))):
        width = int(problem.widths[row])
        copies = np.arange(1, min(int(asked.wanted[row]), int(problem.rooms.max()) // width) + 1)
        rest = problem.rooms[None, :] - width * copies[:, None]
        value = (copies[:, None] * worth[row] + suffixes[row + 1].most(rest)).max(axis=0, initial=-np.inf)
        gains = value - asked.price
        heads += [(float(gains[at]), row, int(at)) for at in np.flatnonzero(gains > GAIN)]
    heads = sorted(heads, key=lambda head: (-head[0], *head[1:]))[: asked.most]
    rows = np.array([row for _, row, _ in heads], dtype=np.int64)
    stocks = np.array([stock for *_, stock in heads], dtype=np.int64)
    counts = _read_off(problem, asked, suffixes, rows, problem.rooms[stocks])
    return Patterns(stocks, counts)


def with_gain(found: Patterns, worth: Real, price: Real, least: float = GAIN) -> Patterns:
    """Those patterns that are worth more than the price of their stock."""
    gains = found.counts @ worth - price[found.stocks] > least
    return Patterns(found.stocks[gains], found.counts[gains])


def _read_off(
    problem: Problem, asked: Asked, suffixes: Sequence[Frontier | Cells], heads: Whole, rooms: Whole
) -> Whole:
    """Pieces of each row in the best pattern of each room whose widest piece is of the head's row."""
    wanted, worth = asked.wanted, asked.worth
    counts = np.zeros((len(heads), len(worth)), dtype=np.int64)
    room = rooms.copy()
    for row in range(len(worth)):
        if worth[row] <= 0.0 or not len(heads):
            continue
        width = int(problem.widths[row])
        most = min(int(wanted[row]), int(room.max()) // width)
        copies = np.arange(most + 1)[:, None]
        value = copies * worth[row] + suffixes[row + 1].most(room[None, :] - width * copies)
        value[0, heads == row] = -np.inf
        value[1:, heads > row] = -np.inf
        counts[:, row] = value.argmax(axis=0)
        room -= width * counts[:, row]
    return counts
