"""The sheet that is worth most when every part has a worth: strips across it, in them stacks of like parts.

A saw cuts the sheet into strips, each strip into stacks, each stack into parts: three stages. Both first directions
are tried. The best strips and the best sheet of strips are bounded knapsacks, worked as tables of numbers.
Source: P. C. Gilmore, R. E. Gomory, Multistage cutting stock problems of two and more dimensions,
        Operations Research 13 (1965) 94-120 (recalled).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from functools import reduce
from math import gcd
from typing import NamedTuple

import numpy as np

from tidestead.build.cutting.sheet_job import Board, Lay, Layout, SheetJob, Spot

CELLS = 4000
"""Widest table. Where sizes have no common measure that is coarse enough, parts are rounded up to whole cells."""
HAIR = 1e-10

Table = np.ndarray


class Stack(NamedTuple):
    """`number` like parts one above the other. `length` is its place in the strip, `height` that of all of them.

    Both are in the strip's own directions: for upright strips length runs across the sheet.
    """

    shape: int
    lay: Lay
    number: int
    length: int
    height: int


class _Choice(NamedTuple):
    """Something that may be taken up to `most` times into a knapsack: its room in cells and its worth."""

    room: int
    worth: float
    most: int


@dataclass
class _Knapsack:
    """A table of the most worth for every room, one thing after another. Remembers which was taken where."""

    cells: int
    best: Table = field(init=False)
    taken: list[tuple[int, int, Table]] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.best = np.zeros(self.cells + 1)

    def offer(self, number: int, choice: _Choice) -> None:
        """One more thing, in lots of 1, 2, 4 and so on, so that any count up to the most can be made of them."""
        left, lot = min(choice.most, self.cells // choice.room), 1
        while left > 0:
            lot = min(lot, left)
            room = lot * choice.room
            tried = self.best[: self.cells + 1 - room] + lot * choice.worth
            better = np.zeros(self.cells + 1, dtype=bool)
            better[room:] = tried > self.best[room:] + HAIR
            self.best[room:] = np.maximum(self.best[room:], tried)
            self.taken.append((number, lot, better))
            left, lot = left - lot, 2 * lot

    def contents(self, rooms: Sequence[int], upto: int) -> Iterator[tuple[int, int]]:
        """What makes up the best of the first so many offers: numbers of things and how many of each."""
        room = self.cells
        for number, lot, better in reversed(self.taken[:upto]):
            if better[room]:
                yield number, lot
                room -= lot * rooms[number]


class _Strip(NamedTuple):
    """The best strip of one height."""

    height: int
    worth: float
    stacks: tuple[tuple[Stack, int], ...]


class Pricer:
    """Finds the dearest sheet of one board, its strips running one way. `upright` strips run across the sheet."""

    def __init__(self, job: SheetJob, board: Board, *, upright: bool) -> None:
        self.job, self.board, self.upright = job, board, upright
        self.length, self.height = (board.across, board.along) if upright else (board.along, board.across)
        self.stacks = sorted(self._stacks(), key=lambda one: (one.height, one.length, one.shape))
        self.cell, self.cells = _grid(self.length, [one.length for one in self.stacks])
        self.rooms = [-(-one.length // self.cell) for one in self.stacks]
        self.high_cell, self.high_cells = _grid(self.height, [one.height for one in self.stacks])

    def _stacks(self) -> Iterator[Stack]:
        for number, shape in enumerate(self.job.shapes):
            for lay in shape.lays:
                length, height = (lay.across, lay.along) if self.upright else (lay.along, lay.across)
                if length <= self.length:
                    most = min(shape.count, self.height // height)
                    yield from (
                        Stack(number, lay, high, length, high * height) for high in range(1, most + 1)
                    )

    def dearest(self, worth: Sequence[float]) -> Layout:
        """The sheet of the most worth; no part is on it more often than it is wanted."""
        strips = self._strips(worth)
        sack = _Knapsack(self.high_cells)
        rooms = [-(-strip.height // self.high_cell) for strip in strips]
        for number, strip in enumerate(strips):
            sack.offer(number, _Choice(rooms[number], strip.worth, self._repeats(strip)))
        chosen = [(strips[number], lot) for number, lot in sack.contents(rooms, len(sack.taken))]
        return Layout(self.board, tuple(self._spots(chosen)))

    def _strips(self, worth: Sequence[float]) -> list[_Strip]:
        """The best strip of every height at which a higher one is worth more."""
        sack, ends = _Knapsack(self.cells), []
        for number, stack in enumerate(self.stacks):
            if worth[stack.shape] > HAIR and self.rooms[number] <= self.cells:
                most = self.job.shapes[stack.shape].count // stack.number
                sack.offer(number, _Choice(self.rooms[number], stack.number * worth[stack.shape], most))
                ends.append((stack.height, float(sack.best[-1]), len(sack.taken)))
        found: list[_Strip] = []
        for at, (height, value, upto) in enumerate(ends):
            last = at + 1 == len(ends) or ends[at + 1][0] > height
            if last and value > (found[-1].worth if found else 0.0) + HAIR:
                inside = tuple((self.stacks[one], lot) for one, lot in sack.contents(self.rooms, upto))
                found.append(_Strip(height, value, inside))
        return found

    def _repeats(self, strip: _Strip) -> int:
        """How many such strips the parts wanted are enough for, one at the least."""
        held = dict.fromkeys((stack.shape for stack, _ in strip.stacks), 0)
        for stack, lot in strip.stacks:
            held[stack.shape] += stack.number * lot
        return max(1, min(self.job.shapes[shape].count // number for shape, number in held.items()))

    def _spots(self, chosen: list[tuple[_Strip, int]]) -> Iterator[Spot]:
        """Where the parts lie, those beyond what is wanted left out."""
        left = [shape.count for shape in self.job.shapes]
        level = 0
        for strip, lot in chosen:
            for _ in range(lot):
                start = 0
                for stack, times in strip.stacks:
                    for _ in range(times):
                        yield from self._stacked(stack, start, level, left)
                        start += stack.length
                level += strip.height

    def _stacked(self, stack: Stack, start: int, level: int, left: list[int]) -> Iterator[Spot]:
        step = stack.height // stack.number
        for high in range(stack.number):
            if left[stack.shape]:
                left[stack.shape] -= 1
                place = level + high * step
                x, y = (place, start) if self.upright else (start, place)
                yield Spot(stack.shape, x, y, stack.lay)


def _grid(whole: int, sizes: Sequence[int]) -> tuple[int, int]:
    """The side of a cell and how many of them the whole holds."""
    cell = max(reduce(gcd, sizes, 0), -(-whole // CELLS))
    return cell, whole // cell
