"""The equations of a frame as a narrow band, and which movement is loose when they cannot be solved.

A banded factorisation is not only less work than a full one: its pieces are too small for the linear algebra
library to share among threads, which costs hundreds of milliseconds whenever other work keeps the cores busy.
"""

from __future__ import annotations

from collections import deque
from dataclasses import dataclass
from typing import cast

import numpy as np
from numpy.typing import NDArray
from scipy.linalg import cho_solve_banded, cholesky_banded, eigh

from tidestead.core.dims import Array

_LOOSE = 1e-11
"""A pivot of the evened-out stiffness below this is a mechanism; a sound frame stays above a millionth."""

Numbers = NDArray[np.intp]


@dataclass(frozen=True)
class Band:
    """Stiffness of the free directions, evened out: `rows[d, j]` couples the j-th with the d-th after it.

    `free` are the directions in the order of the columns, `scale` what each was multiplied by to even it out.
    """

    free: Numbers
    scale: Array
    rows: Array

    @classmethod
    def of(cls, ends: Numbers, held: NDArray[np.bool_], bars: Array, springs: Array) -> Band:
        """Gathered from the bars (bars, 12, 12) that join the nodes `ends`, and springs to the ground."""
        nodes = neighbourly(ends, len(held) // 6)
        every = (6 * nodes[:, None] + np.arange(6)).ravel()
        free = every[~held[every]]
        count = len(free)
        column = np.full(len(held), -1)
        column[free] = np.arange(count)
        place = column[(6 * ends[:, :, None] + np.arange(6)).reshape(-1, 12)]
        far, near = np.broadcast_arrays(place[:, :, None], place[:, None, :])
        kept = (near >= 0) & (far >= near)
        off, at = (far - near)[kept], near[kept]
        width = int(off.max(initial=0)) + 1
        rows = gathered(off * count + at, bars[kept], width * count).reshape(width, count)
        rows[0] += springs[free]
        scale = 1.0 / np.sqrt(np.where(rows[0] > 0.0, rows[0], 1.0))
        after = np.arange(width)[:, None] + np.arange(count)
        reach = np.where(after < count, scale[np.minimum(after, count - 1)], 0.0) if count else rows
        return cls(free, scale, rows * scale * reach)

    def factor(self) -> Array | None:
        """The factors of the stiffness, or nothing where the frame is loose."""
        if not len(self.free):
            return self.rows
        try:
            factor: Array = cholesky_banded(self.rows, lower=True, check_finite=False)
        except np.linalg.LinAlgError:
            return None
        return factor if np.min(factor[0]) ** 2 > _LOOSE else None

    def moves(self, factor: Array, push: Array) -> Array:
        """Movements of all directions under forces on all of them; held ones stay where they are."""
        moves: Array = np.zeros(len(push))
        if len(self.free):
            even = cho_solve_banded((factor, True), self.scale * push[self.free], check_finite=False)
            moves[self.free] = self.scale * even
        return moves

    def loosest(self, lever: float) -> int:
        """The direction that moves most in the easiest way the frame can move; turns count by `lever`."""
        width, count = self.rows.shape
        whole: Array = np.zeros((count, count))
        for off in range(min(width, count)):
            column = np.arange(count - off)
            whole[column + off, column] = self.rows[off, : count - off]
        shape = eigh(whole, lower=True, subset_by_index=[0, 0])[1][:, 0] * self.scale
        return int(self.free[np.argmax(np.abs(shape) * np.where(self.free % 6 < 3, 1.0, lever))])


def gathered(places: Numbers, values: Array, size: int) -> Array:
    """Values summed up by the place each belongs to."""
    return cast(Array, np.bincount(places.ravel(), values.ravel(), size).astype(float, copy=False))


def neighbourly(ends: Numbers, count: int) -> Numbers:
    """Nodes in an order that keeps the ends of every bar near together: breadth first from a lone node.

    The order of E. Cuthill and J. McKee (1969).
    """
    near: list[set[int]] = [set() for _ in range(count)]
    for start, end in ends.tolist():
        near[start].add(end)
        near[end].add(start)
    order: list[int] = []
    seen = [False] * count
    for first in sorted(range(count), key=lambda node: len(near[node])):
        if seen[first]:
            continue
        seen[first] = True
        waiting = deque([first])
        while waiting:
            node = waiting.popleft()
            order.append(node)
            for other in sorted(near[node], key=lambda each: len(near[each])):
                if not seen[other]:
                    seen[other] = True
                    waiting.append(other)
    return np.array(order, dtype=np.intp)
