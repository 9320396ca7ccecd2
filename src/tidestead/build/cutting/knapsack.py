"""What is the most that fits on a length: exact, in whole numbers, for every sort of stock at once.

A frontier is what the pieces from one row onward can make of a room: widths used, rising, each with the most it can
be worth. Rows are taken from the last to the first, so that all their frontiers are there when a pattern is read off.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Whole = NDArray[np.int64]
Real = NDArray[np.float64]

GAIN = 1e-9
"""Gain by which a pattern has to be worth more than its price, as a share of the dearest stock."""

COARSE, FINE = 2_000, 20_000
"""Longer frontiers are thinned upward: what they say is then a bound, and no longer exact."""


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


@dataclass(frozen=True)
class Frontier:
    """Widths used, rising from nothing, and the most that each can be worth, rising too."""

    used: Whole
    worth: Real

    def most(self, room: Whole) -> Real:
        """The most that fits into each room; minus infinity into less than nothing."""
        at = np.searchsorted(self.used, room, side="right") - 1
        return np.where(at >= 0, self.worth[at], -np.inf)


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


def _with_more(frontier: Frontier, width: int, worth: float, copies: int, room: int, states: int) -> Frontier:
    """The frontier once up to `copies` pieces of one width may be used too: by ones, twos, fours and a rest."""
    if worth <= 0.0:
        return frontier
    bundle = 1
    while copies > 0:
        many = min(bundle, copies)
        frontier = _merged(frontier, many * width, many * worth, room, states)
        copies -= many
        bundle *= 2
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


def best_worth(problem: Problem, suffixes: list[Frontier]) -> Real:
    """The most that each stock can be worth: never too little."""
    return suffixes[0].most(problem.rooms)


def best_patterns(
    problem: Problem, wanted: Whole, worth: Real, price: Real, suffixes: list[Frontier], most: int
) -> Patterns:
    """Up to `most` patterns worth more than their stock's `price`: the best for each widest piece and stock."""
    heads = []
    for row in np.flatnonzero((worth > 0.0) & (wanted > 0)):
        width = int(problem.widths[row])
        copies = np.arange(1, min(int(wanted[row]), int(problem.rooms.max()) // width) + 1)
        rest = problem.rooms[None, :] - width * copies[:, None]
        value = (copies[:, None] * worth[row] + suffixes[row + 1].most(rest)).max(axis=0, initial=-np.inf)
        heads += [(value[at] - price[at], int(row), at) for at in range(len(price))]
    gainful = sorted((head for head in heads if head[0] > GAIN), key=lambda head: (-head[0], *head[1:]))[
        :most
    ]
    rows = np.array([row for _, row, _ in gainful], dtype=np.int64)
    stocks = np.array([stock for *_, stock in gainful], dtype=np.int64)
    counts = _read_off(problem, wanted, worth, suffixes, rows, problem.rooms[stocks])
    return Patterns(stocks, counts)


def with_gain(found: Patterns, worth: Real, price: Real) -> Patterns:
    """Those patterns that are worth more than the price of their stock."""
    gains = found.counts @ worth - price[found.stocks] > GAIN
    return Patterns(found.stocks[gains], found.counts[gains])


def _read_off(
    problem: Problem, wanted: Whole, worth: Real, suffixes: list[Frontier], heads: Whole, rooms: Whole
) -> Whole:
    """Pieces of each row in the best pattern of each room whose widest piece is of the head's row."""
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
