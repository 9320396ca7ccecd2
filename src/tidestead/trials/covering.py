"""The cheapest set of changes of which each check is mended by one and no two set the same: exact, by HiGHS."""

from __future__ import annotations

import math
from collections.abc import Collection, Sequence
from dataclasses import dataclass
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import Bounds, LinearConstraint, milp

from tidestead.core.dims import Array
from tidestead.trials.keys import meets

SECONDS = 20.0
"""For each of the three steps; beyond that the best found stands and is not called the cheapest. Own choice."""
Taken: TypeAlias = NDArray[np.bool_]
"""Of each offer whether it is taken: (offers,)."""


@dataclass(frozen=True)
class Offer:
    """A change: what it costs, the checks that it mends by itself, and the keys it sets."""

    cost: float
    mends: frozenset[str]
    sets: frozenset[str] = frozenset()


@dataclass(frozen=True)
class Cover:
    """The numbers of the offers taken, their cost in sum, and whether no other set of them that mends as much can cost
    less: to a millionth of what money is counted in, as far as HiGHS tells two sums apart.
    """

    taken: tuple[int, ...]
    cost: float
    proven: bool


def cheapest_cover(
    offers: Sequence[Offer], checks: Sequence[str], first: Collection[str] = frozenset()
) -> Cover:
    """The offers that mend as many of the checks as any set of them can, at the least cost in sum.

    One of `first`, those that fail, weighs more than all the others. No two offers taken set the same key. A change
    that saves money is counted as costing nothing, and of those that cost nothing the fewest that do are taken.
    """
    able = [check for check in dict.fromkeys(checks) if any(check in one.mends for one in offers)]
    if not able:
        return Cover((), 0.0, proven=True)
    if not all(math.isfinite(one.cost) for one in offers):
        raise ValueError("a change whose cost is no number cannot be held against others")
    paid = np.array([max(one.cost, 0.0) for one in offers])
    rules = _Rules(
        np.array([[float(check in one.mends) for one in offers] for check in able]),
        np.array([[float(meets(key, one.sets)) for one in offers] for key in sorted(_keys(offers))]),
        np.array([1.0 + len(able) * (check in first) for check in able]),
    )
    every = np.ones(len(offers), dtype=bool)
    most, counted = rules.least(_Asked(np.zeros(len(offers)), 1.0, float(rules.weights.sum()), ~every, every))
    left = rules.left(most)
    found, cheapest = rules.least(_Asked(paid, 0.0, left, ~every, every))
    taken = found if cheapest or _is_better(rules, paid, found, most) else most
    bought = taken & (paid > 0.0)
    fewest, _ = rules.least(_Asked(np.ones(len(offers)), 0.0, left, bought, bought | (paid <= 0.0)))
    taken = fewest if rules.left(fewest) <= left and fewest.any() else taken
    return Cover(tuple(map(int, np.flatnonzero(taken))), float(paid[taken].sum()), counted and cheapest)


def _is_better(rules: _Rules, paid: Array, one: Taken, other: Taken) -> bool:
    """Whether one leaves less, or as much at less cost."""
    return (rules.left(one), float(paid[one].sum())) <= (rules.left(other), float(paid[other].sum()))


def _keys(offers: Sequence[Offer]) -> frozenset[str]:
    """Keys that more than one offer sets, by themselves or within a table that is set as a whole."""
    every = {key for one in offers for key in one.sets}
    return frozenset(key for key in every if sum(meets(key, one.sets) for one in offers) > 1)


@dataclass(frozen=True)
class _Asked:
    """What is looked for: what each offer costs and what each weight left unmended does, how much weight may be left,
    and between which bounds each offer is taken.
    """

    costs: Array
    each_left: float
    left: float
    at_least: Taken
    at_most: Taken


@dataclass(frozen=True)
class _Rules:
    """Which offer mends which check, and which keys it sets: (checks, offers) and (keys, offers), 1 or 0.

    `weights` are what each check weighs: (checks,).
    """

    mends: Array
    sets: Array
    weights: Array

    def left(self, taken: Taken) -> float:
        """What the checks weigh that a set does not mend."""
        return float(self.weights[self.mends[:, taken].sum(axis=1) < 0.5].sum())

    def least(self, asked: _Asked) -> tuple[Taken, bool]:
        """Of the sets that leave no more than so much, the one of least cost; whether that is proven."""
        checks, offers = self.mends.shape
        rows = [LinearConstraint(np.hstack([self.mends, np.eye(checks)]), 1.0, np.inf)]
        rows.append(LinearConstraint(np.r_[np.zeros(offers), self.weights], 0.0, asked.left))
        if len(self.sets):
            rows.append(
                LinearConstraint(np.hstack([self.sets, np.zeros((len(self.sets), checks))]), 0.0, 1.0)
            )
        found = milp(
            np.concatenate([asked.costs, asked.each_left * self.weights]),
            integrality=np.ones(offers + checks),
            bounds=Bounds(np.r_[asked.at_least, np.zeros(checks)], np.r_[asked.at_most, np.ones(checks)]),
            constraints=rows,
            options={"time_limit": SECONDS, "mip_rel_gap": 0.0},
        )
        if found.x is None:
            return np.zeros(offers, dtype=bool), False
        return found.x[:offers] > 0.5, found.status == 0
