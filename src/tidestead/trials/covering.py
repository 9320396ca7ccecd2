"""The cheapest set of changes of which each check is mended by one and no two set the same: exact, by HiGHS."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import Bounds, LinearConstraint, milp

from tidestead.core.dims import Array

SECONDS = 20.0
"""For each of the two steps; beyond that the best found stands and is not called the cheapest."""
Taken: TypeAlias = NDArray[np.bool_]
"""Of each offer whether it is taken: (offers,)."""
_TIE = 1e-6
"""Share of the dearest offer that each one taken counts besides, so that none is taken for nothing."""


@dataclass(frozen=True)
class Offer:
    """A change: what it costs, the checks that it mends by itself, and the keys it sets."""

    cost: float
    mends: frozenset[str]
    sets: frozenset[str] = frozenset()


@dataclass(frozen=True)
class Cover:
    """The numbers of the offers taken, their cost in sum, and whether no other set of them that mends as much can cost
    less.
    """

    taken: tuple[int, ...]
    cost: float
    proven: bool


def cheapest_cover(offers: Sequence[Offer], checks: Sequence[str]) -> Cover:
    """The offers that mend as many of the checks as any set of them can, at the least cost in sum.

    No two of those taken set the same key. A change that saves money is counted as costing nothing, so that it is
    never taken for its own sake.
    """
    able = [check for check in dict.fromkeys(checks) if any(check in one.mends for one in offers)]
    if not able:
        return Cover((), 0.0, proven=True)
    paid = np.array([max(one.cost, 0.0) for one in offers])
    rules = _Rules(
        np.array([[float(check in one.mends) for one in offers] for check in able]),
        np.array([[float(key in one.sets) for one in offers] for key in sorted(_keys(offers))]),
    )
    most, counted = rules.least(np.zeros(len(offers)), 1.0, len(able))
    left = len(able) - int((rules.mends[:, most].sum(axis=1) > 0.0).sum())
    tie = _TIE * max(float(paid.max()), 1.0)
    taken, cheapest = rules.least(paid + tie, 0.0, left)
    return Cover(tuple(map(int, np.flatnonzero(taken))), float(paid[taken].sum()), counted and cheapest)


def _keys(offers: Sequence[Offer]) -> frozenset[str]:
    """Keys that more than one offer sets."""
    counts = Counter(key for one in offers for key in one.sets)
    return frozenset(key for key, count in counts.items() if count > 1)


@dataclass(frozen=True)
class _Rules:
    """Which offer mends which check, and which keys it sets: (checks, offers) and (keys, offers), 1 or 0."""

    mends: Array
    sets: Array

    def least(self, costs: Array, each_left: float, left: int) -> tuple[Taken, bool]:
        """Of the sets that leave no more checks than so many, the one of least cost; whether that is proven.

        `each_left` is what a check costs that is left.
        """
        checks, offers = self.mends.shape
        whole = np.concatenate([costs, np.full(checks, each_left)])
        rows = [LinearConstraint(np.hstack([self.mends, np.eye(checks)]), 1.0, np.inf)]
        rows.append(LinearConstraint(np.r_[np.zeros(offers), np.ones(checks)], 0.0, left))
        if len(self.sets):
            rows.append(
                LinearConstraint(np.hstack([self.sets, np.zeros((len(self.sets), checks))]), 0.0, 1.0)
            )
        found = milp(
            whole,
            integrality=np.ones(offers + checks),
            bounds=Bounds(0.0, 1.0),
            constraints=rows,
            options={"time_limit": SECONDS, "mip_rel_gap": 0.0},
        )
        if found.x is None:
            return np.zeros(offers, dtype=bool), False
        return found.x[:offers] > 0.5, found.status == 0
