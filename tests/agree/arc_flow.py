"""A referee for cutting lengths: one whole-number program over places along a length, solved by scipy's milp.

Pieces are arcs from where they begin to where they end, each with its kerf; a length of a stock ends a way at any
place it reaches. No patterns, no column generation and no bound of ours: only the widths are shared.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import lil_array

Item = tuple[int, int]
"""A width and how many are wanted."""
Length = tuple[int, float, int | None]
"""A room, its price, and how many there are."""


def arcs_of(items: Sequence[Item], longest: int) -> list[tuple[int, int, int]]:
    """(from, to, item) for every place that pieces before it, widest first, can lead to."""
    reached = {0}
    arcs = []
    for number, (width, many) in sorted(enumerate(items), key=lambda one: -one[1][0]):
        ends = reached
        for _ in range(many):
            begins = {place for place in ends if place + width <= longest}
            arcs += [(place, place + width, number) for place in sorted(begins)]
            ends = {place + width for place in begins}
            reached = reached | ends
    return sorted(set(arcs))


def least_cost(items: Sequence[Item], lengths: Sequence[Length], kerf: int = 0) -> float | None:
    """The least cost; None where the lengths do not give all pieces. Widths and rooms in whole units, without kerf."""
    widths = [(width + kerf, many) for width, many in items]
    rooms = [(room + kerf, price, limit) for room, price, limit in lengths]
    arcs = arcs_of(widths, max(room for room, *_ in rooms))
    places = sorted({place for begin, end, _ in arcs for place in (begin, end)} - {0})
    ends = [(place, number) for number, (room, *_) in enumerate(rooms) for place in places if place <= room]
    row = {place: at for at, place in enumerate(places)}
    flow = lil_array((len(places), len(arcs) + len(ends)))
    made = lil_array((len(items), len(arcs) + len(ends)))
    used = lil_array((len(rooms), len(arcs) + len(ends)))
    for at, (begin, end, number) in enumerate(arcs):
        flow[row[end], at] += 1
        if begin:
            flow[row[begin], at] -= 1
        made[number, at] = 1
    for at, (place, number) in enumerate(ends, start=len(arcs)):
        flow[row[place], at] = -1
        used[number, at] = 1
    cost = np.array([0.0] * len(arcs) + [rooms[number][1] for _, number in ends])
    limits = np.array([np.inf if limit is None else limit for *_, limit in rooms])
    wanted = np.array([many for _, many in widths])
    rules = [
        LinearConstraint(flow.tocsr(), 0, 0),
        LinearConstraint(made.tocsr(), wanted, np.inf),
        LinearConstraint(used.tocsr(), -np.inf, limits),
    ]
    found = milp(
        cost,
        constraints=rules,
        integrality=np.ones(len(cost), dtype=np.int64),
        bounds=Bounds(0, np.inf),
        options={"mip_rel_gap": 0.0},
    )
    return None if found.x is None else float(found.fun)
