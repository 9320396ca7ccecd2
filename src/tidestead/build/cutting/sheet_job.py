"""A job of cutting sheets in whole numbers, after its input has been refused or taken.

Lengths are whole nanometres, in which sizes in inches are exact too. Every part and every trimmed sheet is one
kerf larger each way: parts that then touch lie a kerf apart, and one at the edge of the sheet loses none there.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from math import isfinite
from typing import NamedTuple

from tidestead.build.cutting.lengths_refused import both
from tidestead.build.cutting.sheet_types import Rect, SheetSaw, SheetStock
from tidestead.core.errors import ImpossibleInput

NANO = 1e9
"""Nanometres in a metre."""
GREATEST = 1e3
"""No side of a part or sheet is longer, in metres: whole numbers stay small enough to be multiplied."""


class Lay(NamedTuple):
    """One way to lay a shape: its sides along and across the sheet."""

    along: int
    across: int
    turned: bool


class Spot(NamedTuple):
    """A part on a board: which shape, its lower left corner, how it lies."""

    shape: int
    x: int
    y: int
    lay: Lay


@dataclass(frozen=True)
class Shape:
    """Parts of one size, kerf included. `rects` are the numbers of the rects that want them, one for each part."""

    along: int
    across: int
    turns: bool
    rects: tuple[int, ...]

    @property
    def count(self) -> int:
        """How many are wanted."""
        return len(self.rects)

    @property
    def area(self) -> int:
        """Of one, kerf included."""
        return self.along * self.across

    @cached_property
    def lays(self) -> tuple[Lay, ...]:
        """Every way it may lie."""
        straight = Lay(self.along, self.across, turned=False)
        if not self.turns or self.along == self.across:
            return (straight,)
        return (straight, Lay(self.across, self.along, turned=True))


@dataclass(frozen=True)
class Board:
    """A trimmed sheet, one kerf larger each way. `number` is its place among the stocks; `limit` how many there are."""

    number: int
    along: int
    across: int
    price: float
    limit: int | None

    @property
    def area(self) -> int:
        """Of one, kerf included."""
        return self.along * self.across

    def takes(self, lay: Lay) -> bool:
        """Whether a part that lies so fits at all."""
        return lay.along <= self.along and lay.across <= self.across


class Layout(NamedTuple):
    """One board with parts on it."""

    board: Board
    spots: tuple[Spot, ...]


@dataclass(frozen=True)
class SheetJob:
    """What is to be cut out of what. Only boards that take some part are listed."""

    shapes: tuple[Shape, ...]
    boards: tuple[Board, ...]
    kerf: int

    @property
    def parts(self) -> int:
        """How many parts there are in all."""
        return sum(shape.count for shape in self.shapes)


def sheet_job(rects: Sequence[Rect], stocks: Sequence[SheetStock], saw: SheetSaw) -> SheetJob:
    """The job in whole numbers. Raises ImpossibleInput, which names what is wrong."""
    _refuse_saw(saw)
    _refuse_rects(rects)
    _refuse_stocks(stocks, saw)
    kerf = nanometres(saw.kerf)
    boards = [board for board in (_board(number, one, saw) for number, one in enumerate(stocks)) if board]
    shapes: dict[tuple[int, int, bool], list[int]] = {}
    for number, rect in enumerate(rects):
        size = (nanometres(rect.along) + kerf, nanometres(rect.across) + kerf, rect.turns)
        shapes.setdefault(size, []).extend([number] * rect.count)
    made = [Shape(*size, tuple(wanted)) for size, wanted in shapes.items()]
    for shape in made:
        if not any(board.takes(lay) for board in boards for lay in shape.lays):
            raise ImpossibleInput(_too_large(rects[shape.rects[0]], stocks, saw))
    used = [board for board in boards if any(board.takes(lay) for shape in made for lay in shape.lays)]
    return SheetJob(tuple(made), tuple(used), kerf)


def nanometres(length: float) -> int:
    """A length in metres as whole nanometres."""
    return round(length * NANO)


def _board(number: int, stock: SheetStock, saw: SheetSaw) -> Board | None:
    """The trimmed sheet, None where there is none of it."""
    if stock.on_hand == 0:
        return None
    lost = nanometres(saw.kerf) - 2 * nanometres(saw.trim)
    along, across = nanometres(stock.along) + lost, nanometres(stock.across) + lost
    return Board(number, along, across, stock.price, stock.on_hand)


def _refuse_saw(saw: SheetSaw) -> None:
    for name, size in (("kerf", saw.kerf), ("trim", saw.trim)):
        if not (isfinite(size) and size >= 0.0):
            raise ImpossibleInput(f"saw: the {name} cannot be {size:g} m. Give nothing or more.")


def _refuse_rects(rects: Sequence[Rect]) -> None:
    if not rects:
        raise ImpossibleInput("There are no parts to cut. Give at least one.")
    seen = set()
    for rect in rects:
        _refuse_size(f'part "{rect.mark}"', rect.along, rect.across)
        if rect.count < 1:
            raise ImpossibleInput(
                f'part "{rect.mark}": cannot be cut {rect.count} times. Give one or more, or leave it out.'
            )
        if rect.mark in seen:
            raise ImpossibleInput(f'part "{rect.mark}": is listed twice. Give every part a mark of its own.')
        seen.add(rect.mark)


def _refuse_stocks(stocks: Sequence[SheetStock], saw: SheetSaw) -> None:
    if not any(stock.on_hand != 0 for stock in stocks):
        raise ImpossibleInput("There are no sheets to cut from. Give at least one size.")
    names = set()
    for stock in stocks:
        where = f'sheet "{stock.name}"'
        _refuse_size(where, stock.along, stock.across)
        if stock.on_hand is not None and stock.on_hand < 0:
            raise ImpossibleInput(f"{where}: there cannot be {stock.on_hand} on hand. Give nothing or more.")
        _refuse_price(where, stock)
        if 2.0 * saw.trim >= min(stock.along, stock.across):
            raise ImpossibleInput(
                f"{where}: nothing is left of it after {saw.trim:g} m is trimmed off each edge. Trim less."
            )
        if stock.name in names:
            raise ImpossibleInput(f"{where}: is listed twice. Give every size a name of its own.")
        names.add(stock.name)


def _refuse_size(where: str, along: float, across: float) -> None:
    for size in (along, across):
        if not (isfinite(size) and 1.0 / NANO <= size <= GREATEST):
            raise ImpossibleInput(
                f"{where}: a side cannot be {size:g} m. Give more than nothing, up to {GREATEST:g} m."
            )


def _refuse_price(where: str, stock: SheetStock) -> None:
    if not isfinite(stock.price) or stock.price < 0.0:
        raise ImpossibleInput(f"{where}: the price cannot be {stock.price:g}. Give what one sheet costs.")
    if stock.price == 0.0 and stock.on_hand is None:
        raise ImpossibleInput(
            f"{where}: costs nothing though any number may be bought. Give its price, or how many are on hand."
        )


def _too_large(rect: Rect, stocks: Sequence[SheetStock], saw: SheetSaw) -> str:
    largest = max((one for one in stocks if one.on_hand != 0), key=lambda one: one.along * one.across)
    turned = "" if rect.turns else ", along the grain first,"
    trimmed = f", less {both(saw.trim)} off each edge" if saw.trim else ""
    return (
        f'part "{rect.mark}": {both(rect.along)} by {both(rect.across)}{turned} fits on no sheet; the largest is '
        f'"{largest.name}", {both(largest.along)} by {both(largest.across)}{trimmed}. '
        "Join it from smaller parts (a scarf or a backed joint), or give a larger sheet."
    )
