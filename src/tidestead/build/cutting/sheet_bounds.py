"""What no plan of cutting sheets can go below, however its parts are laid.

Three bounds, each of which holds for parts cut from edge to edge and for parts laid freely. The relaxed sum over
staged patterns is not among them: patterns in stages are only some of all, so it may lie above the best plan.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil
from typing import NamedTuple

import numpy as np

from tidestead.build.cutting.sheet_job import Board, SheetJob

BRANCHES = 20_000
"""Steps after which a search stops; each says what it gives then."""
TRIED = 8
"""Pairs of roundings that are tried with whole boards."""
HAIR = 1e-9


class Bound(NamedTuple):
    """A least cost, and why, in words."""

    cost: float
    basis: str


class _Offer(NamedTuple):
    """A board as a bound counts it: its price, how many there are, what it can hold at most."""

    price: float
    limit: int | None
    size: float

    @property
    def rate(self) -> float:
        """What is paid for what it holds."""
        return self.price / self.size


def least_cost(job: SheetJob) -> Bound:
    """The greatest of the bounds on the cost."""
    apart = parts_apart(job)
    area = float(sum(shape.area * shape.count for shape in job.shapes))
    offers = [_Offer(board.price, board.limit, float(board.area)) for board in job.boards]
    found = [
        Bound(
            _cheapest(offers, area),
            "the area of all parts, a kerf round each, from the cheapest whole sheets",
        ),
        Bound(cheapest_number(job.boards, apart), f"{apart} parts of which no two can share a sheet"),
        Bound(
            by_rounded_sides(job),
            "areas of parts in which a side that hardly leaves room beside it counts as whole",
        ),
    ]
    return max(found, key=lambda bound: bound.cost)


def _cheapest(offers: Sequence[_Offer], need: float) -> float:
    """The least price of whole boards that together hold so much; inf where the boards on hand do not.

    Every mix is looked at that could be best. Should there be too many, parts of boards count: that is less yet.
    """
    ranked = sorted((one for one in offers if one.size > 0.0), key=lambda one: (one.rate, -one.size))
    least, hair = [float("inf")], HAIR * need
    steps = [0]

    def further(at: int, left: float, spent: float) -> None:
        steps[0] += 1
        if left <= hair:
            least[0] = min(least[0], spent)
            return
        if at == len(ranked) or spent + (left - hair) * ranked[at].rate >= least[0]:
            return
        offer = ranked[at]
        most = ceil((left - hair) / offer.size)
        for number in range(most if offer.limit is None else min(offer.limit, most), -1, -1):
            if steps[0] <= BRANCHES:
                further(at + 1, left - number * offer.size, spent + number * offer.price)

    further(0, need, 0.0)
    return least[0] if steps[0] <= BRANCHES else _relaxed(ranked, need)


def _relaxed(ranked: Sequence[_Offer], need: float) -> float:
    """The price of holding so much where boards may be bought in parts, the cheapest rate first."""
    spent, left = 0.0, need * (1.0 - HAIR)
    for offer in ranked:
        taken = left if offer.limit is None else min(left, offer.limit * offer.size)
        spent, left = spent + taken * offer.rate, left - taken
    return spent if left <= 0.0 else float("inf")


def cheapest_number(boards: tuple[Board, ...], number: int) -> float:
    """The least price of so many boards; inf where there are not so many."""
    spent = 0.0
    for board in sorted(boards, key=lambda board: board.price):
        taken = number if board.limit is None else min(number, board.limit)
        spent, number = spent + taken * board.price, number - taken
    return spent if number == 0 else float("inf")


def parts_apart(job: SheetJob) -> int:
    """Parts of which no two can lie on one sheet: each needs its own.

    A largest such set is searched for; one that is not largest is a bound too.
    """
    shapes = range(len(job.shapes))
    alone = {one: not _share(job, one, one) for one in shapes}
    weight = {one: job.shapes[one].count if alone[one] else 1 for one in shapes}
    ranked = sorted(shapes, key=lambda one: (-weight[one], -job.shapes[one].area))
    foes = {
        one: {other for other in shapes if other != one and not _share(job, one, other)} for one in shapes
    }
    best, steps = [0], [0]

    def grown(held: int, left: list[int]) -> None:
        steps[0] += 1
        best[0] = max(best[0], held)
        for at, one in enumerate(left):
            if held + sum(weight[other] for other in left[at:]) <= best[0] or steps[0] > BRANCHES:
                return
            grown(held + weight[one], [other for other in left[at + 1 :] if other in foes[one]])

    grown(0, ranked)
    return best[0]


def _share(job: SheetJob, one: int, other: int) -> bool:
    """Whether a part of each can lie on some board together: side by side or one above the other."""
    for board in job.boards:
        for first in filter(board.takes, job.shapes[one].lays):
            for second in filter(board.takes, job.shapes[other].lays):
                if first.along + second.along <= board.along or first.across + second.across <= board.across:
                    return True
    return False


def by_rounded_sides(job: SheetJob) -> float:
    """The least cost by areas measured with sides that are rounded in a way no packing can beat.

        u(x) = 1 if x > 1 - e;  0 if x < e;  x otherwise     for 0 < e <= 1/2, x a share of the longest board's side

    Sides that fit side by side have rounded sides whose sum is not above that of the board they fit on. So the parts
    on a board never hold more rounded area than the board itself. A part that may turn counts as it would count for
    less. The pairs of e that promise most where boards may be bought in parts are then tried with whole boards.
    Source: S. P. Fekete, J. Schepers, A general framework for bounds for higher-dimensional orthogonal packing
            problems, Mathematical Methods of Operations Research 60 (2004) 311-329 (recalled).
    """
    counts = np.array([shape.count for shape in job.shapes])
    straight = np.array([[shape.along, shape.across] for shape in job.shapes])
    turned = np.array([shape.lays[-1][:2] for shape in job.shapes])
    boards = np.array([[board.along, board.across] for board in job.boards])
    whole = boards.max(axis=0)
    edges = [_edges(np.concatenate([straight[:, axis], turned[:, axis]]), whole[axis]) for axis in (0, 1)]
    areas = [
        np.where((sides <= whole).all(axis=1), _rounded_areas(sides, edges, whole), np.inf)
        for sides in (straight, turned)
    ]
    needs = (np.minimum(*areas) * counts).sum(axis=-1).ravel()
    sizes = _rounded_areas(boards, edges, whole).reshape(needs.size, -1)
    promise = [
        (_relaxed(_offers(job, size), need), at)
        for at, (need, size) in enumerate(zip(needs, sizes, strict=True))
    ]
    best = sorted(promise, key=lambda one: (-one[0], one[1]))[:TRIED]
    return max(_cheapest(_offers(job, sizes[at]), float(needs[at])) for _, at in best)


def _offers(job: SheetJob, sizes: np.ndarray) -> list[_Offer]:
    found = [
        _Offer(board.price, board.limit, float(size)) for board, size in zip(job.boards, sizes, strict=True)
    ]
    return sorted((one for one in found if one.size > 0.0), key=lambda one: one.rate)


def _rounded_areas(sides: np.ndarray, edges: list[np.ndarray], whole: np.ndarray) -> np.ndarray:
    """Rounded areas: the first axis for the e along, the second for the e across, the last for the rectangles."""
    along, across = (_rounded(sides[:, axis], edges[axis], whole[axis]) for axis in (0, 1))
    rounded: np.ndarray = along[:, None, :] * across[None, :, :]
    return rounded


def _edges(sides: np.ndarray, whole: int) -> np.ndarray:
    """Shares e worth a try: those at which some side changes what it counts, and none (0)."""
    sides = np.unique(sides[sides <= whole])
    return np.unique(
        np.concatenate(
            [[0], sides[2 * sides <= whole], (whole - sides + 1)[2 * (whole - sides + 1) <= whole]]
        )
    )


def _rounded(sides: np.ndarray, edges: np.ndarray, whole: int) -> np.ndarray:
    """Rounded sides as shares, a row for each edge."""
    share = np.broadcast_to(sides / whole, (edges.size, sides.size))
    over, under = sides[None, :] > whole - edges[:, None], sides[None, :] < edges[:, None]
    return np.where(over, 1.0, np.where(under, 0.0, share))
