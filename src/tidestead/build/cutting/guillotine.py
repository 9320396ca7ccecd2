"""Edge-to-edge plans by rule: parts in one order, each into the free rectangle that suits it, which a saw then splits.

Each rule alone is crude. Many of them, each different, find a good plan in milliseconds.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from itertools import product
from random import Random
from typing import NamedTuple

from tidestead.build.cutting.sheet_job import Board, Lay, Layout, SheetJob, Spot


class Free(NamedTuple):
    """A piece of a board that nothing lies on yet."""

    x: int
    y: int
    along: int
    across: int


STIRRED = (60, 400)
"""Rules with a stirred order: fewest and most of them."""
STIRRED_PARTS = 4000
"""Parts that they place in all, between those two: a job of few parts is tried more often."""
STIR = (0.5, 1.5)
"""By how much a stirred order takes a part for larger or smaller than it is."""

Order = Callable[[Lay], tuple[int, ...]]


class Rest(NamedTuple):
    """What is left of a free piece beside a part: along and across, and the sides of the part."""

    along: int
    across: int
    lay: Lay


Fit = Callable[[Rest], int]
"""How ill a part suits a free piece."""
Split = Callable[[Rest], bool]
"""Whether the first cut beside a part runs across the whole piece, so that the rest along it stays whole."""

ORDERS: tuple[Order, ...] = (
    lambda lay: (lay.along * lay.across, lay.along, lay.across),
    lambda lay: (max(lay.along, lay.across), min(lay.along, lay.across)),
    lambda lay: (lay.along, lay.across),
    lambda lay: (lay.across, lay.along),
    lambda lay: (min(lay.along, lay.across), max(lay.along, lay.across)),
)
"""Largest first: by area, longest side, side along, side across, shortest side."""


def _area_left(rest: Rest) -> int:
    lay = rest.lay
    return (rest.along + lay.along) * (rest.across + lay.across) - lay.along * lay.across


def _short_left(rest: Rest) -> int:
    return min(rest.along, rest.across)


def _largest_rest(rest: Rest) -> bool:
    return rest.along * (rest.across + rest.lay.across) > rest.across * (rest.along + rest.lay.along)


def _short_cut(rest: Rest) -> bool:
    return rest.along > rest.across


def _alike(rest: Rest) -> bool:
    return rest.along * rest.lay.across > rest.across * rest.lay.along


def _across(_rest: Rest) -> bool:
    return True


def _along(_rest: Rest) -> bool:
    return False


FITS: tuple[Fit, ...] = (_area_left, _short_left)
SPLITS: tuple[Split, ...] = (_largest_rest, _short_cut, _alike, _across, _along)


@dataclass(frozen=True)
class Rule:
    """One way to fill boards: the order of parts, how a free piece is chosen and how it is split."""

    order: Order
    fit: Fit
    split: Split
    boards: tuple[Board, ...]
    """In the order in which a new one is opened."""
    stir: int = 0
    """Where not nothing: the seed by which the order is stirred, largest still before smallest in the main."""


def rules(job: SheetJob) -> list[Rule]:
    """All rules: a few dozen for every order in which boards of several sizes may be opened, the stirred ones last."""
    ways = list(product(ORDERS, FITS[:1], SPLITS)) + list(product(ORDERS, FITS[1:], SPLITS[:2]))
    openings = _openings(job.boards)
    plain = [Rule(*way, boards) for boards in openings for way in ways]
    stirred = [
        Rule(ORDERS[0], FITS[0], SPLITS[seed % len(SPLITS)], openings[seed % len(openings)], seed)
        for seed in range(1, _stirred_rules(job) + 1)
    ]
    return plain + stirred


def _stirred_rules(job: SheetJob) -> int:
    """How many rules with a stirred order a job is worth."""
    return min(max(STIRRED_PARTS // job.parts, STIRRED[0]), STIRRED[1])


def _openings(boards: Sequence[Board]) -> list[tuple[Board, ...]]:
    """Free boards first, then by price for the area, by size, by price, and each size first once."""
    by_rate = sorted(boards, key=lambda one: (one.price / one.area, -one.area))
    by_size = sorted(boards, key=lambda one: (one.price > 0.0, -one.area))
    by_price = sorted(boards, key=lambda one: (one.price, -one.area))
    firsts = [[one, *(other for other in by_rate if other is not one)] for one in by_rate]
    return list(dict.fromkeys(tuple(order) for order in (by_rate, by_size, by_price, *firsts)))


@dataclass
class _Open:
    """A board in work."""

    board: Board
    free: list[Free]
    spots: list[Spot] = field(default_factory=list)


@dataclass
class _Seat:
    """The best place found so far for one part."""

    loss: int
    open: _Open
    at: int
    lay: Lay


def filled(job: SheetJob, rule: Rule) -> list[Layout] | None:
    """All parts on boards by one rule. None where the boards on hand run out."""
    begun: list[_Open] = []
    opened = dict.fromkeys(rule.boards, 0)
    for shape, favoured in _in_order(job, rule):
        lays = job.shapes[shape].lays
        seat = _best_seat(begun, favoured, rule.fit) or _best_seat(begun, lays, rule.fit)
        if seat is None:
            fresh = _opened(rule.boards, opened, lays)
            if fresh is None:
                return None
            begun.append(fresh)
            seat = _best_seat(begun[-1:], favoured, rule.fit) or _best_seat(begun[-1:], lays, rule.fit)
        if seat is not None:
            _seated(seat, shape, rule.split)
    return [Layout(one.board, tuple(one.spots)) for one in begun]


def _in_order(job: SheetJob, rule: Rule) -> Iterator[tuple[int, tuple[Lay, ...]]]:
    """Numbers of shapes, as many times as they are wanted, by the largest of their lays, and the lays to try first."""
    if rule.stir:
        yield from _stirred(job, rule.stir)
        return
    ranked = sorted(
        range(len(job.shapes)), key=lambda one: max(map(rule.order, job.shapes[one].lays)), reverse=True
    )
    for number in ranked:
        shape = job.shapes[number]
        yield from [(number, shape.lays)] * shape.count


def _stirred(job: SheetJob, seed: int) -> Iterator[tuple[int, tuple[Lay, ...]]]:
    """Parts by an area that is taken for larger or smaller than it is; each favours one lay, or any."""
    drawn = Random(seed)
    parts = [number for number, shape in enumerate(job.shapes) for _ in range(shape.count)]
    for number in sorted(parts, key=lambda one: -job.shapes[one].area * drawn.uniform(*STIR)):
        lays = job.shapes[number].lays
        yield number, drawn.choice([lays, lays[:1], lays[-1:]])


def _best_seat(begun: Sequence[_Open], lays: tuple[Lay, ...], fit: Fit) -> _Seat | None:
    best: _Seat | None = None
    for one in begun:
        for at, free in enumerate(one.free):
            for lay in lays:
                along, across = free.along - lay.along, free.across - lay.across
                if along >= 0 and across >= 0:
                    loss = fit(Rest(along, across, lay))
                    if best is None or loss < best.loss:
                        best = _Seat(loss, one, at, lay)
    return best


def _opened(boards: Sequence[Board], opened: dict[Board, int], lays: tuple[Lay, ...]) -> _Open | None:
    """A fresh board that takes the part, the first in order of which there is one left."""
    for board in boards:
        if (board.limit is None or opened[board] < board.limit) and any(map(board.takes, lays)):
            opened[board] += 1
            return _Open(board, [Free(0, 0, board.along, board.across)])
    return None


def _seated(seat: _Seat, shape: int, split: Split) -> None:
    """The part lies in the lower left corner of the piece; the two rests are free."""
    free = seat.open.free.pop(seat.at)
    lay = seat.lay
    along, across = free.along - lay.along, free.across - lay.across
    seat.open.spots.append(Spot(shape, free.x, free.y, lay))
    whole = split(Rest(along, across, lay))
    if along:
        seat.open.free.append(Free(free.x + lay.along, free.y, along, free.across if whole else lay.across))
    if across:
        seat.open.free.append(Free(free.x, free.y + lay.across, lay.along if whole else free.along, across))
