"""The cheapest set of changes of which each check is mended by one: exact, by branch and bound."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

NODES = 200_000
"""Branches followed at most; beyond that the best found stands and is not called the cheapest."""


@dataclass(frozen=True)
class Offer:
    """A change: what it costs, and the checks that it mends by itself."""

    cost: float
    mends: frozenset[str]


@dataclass(frozen=True)
class Cover:
    """The numbers of the offers taken, their cost in sum, and whether no other set of them can cost less."""

    taken: tuple[int, ...]
    cost: float
    proven: bool


@dataclass
class _Hunt:
    offers: Sequence[Offer]
    by_check: Mapping[str, tuple[int, ...]]
    best: tuple[int, ...] = ()
    cost: float = float("inf")
    nodes: int = 0
    taken: list[int] = field(default_factory=list)

    def follow(self, left: frozenset[str], spent: float) -> None:
        """Take each offer that mends the hardest check of those left."""
        self.nodes += 1
        if self.nodes > NODES or spent + self.at_least(left) >= self.cost - 1e-9:
            return
        if not left:
            self.best, self.cost = tuple(self.taken), spent
            return
        hardest = min(sorted(left), key=lambda check: len(self.by_check[check]))
        for number in self.by_check[hardest]:
            offer = self.offers[number]
            self.taken.append(number)
            self.follow(left - offer.mends, spent + offer.cost)
            self.taken.pop()

    def at_least(self, left: frozenset[str]) -> float:
        """What is left costs no less: of every check the smallest share of an offer that mends it."""
        return sum(
            min(
                offer.cost / len(offer.mends & left)
                for offer in map(self.offers.__getitem__, self.by_check[one])
            )
            for one in left
        )


def cheapest_cover(offers: Sequence[Offer], checks: Sequence[str]) -> Cover:
    """The offers that mend every check that any of them mends, at the least cost in sum.

    A change that saves money is counted as costing nothing, so that it is never taken for its own sake.
    """
    paid = [Offer(max(offer.cost, 0.0), offer.mends & frozenset(checks)) for offer in offers]
    by_check = {
        check: tuple(
            sorted(
                (at for at, one in enumerate(paid) if check in one.mends), key=lambda at: (paid[at].cost, at)
            )
        )
        for check in checks
    }
    able = frozenset(check for check, ones in by_check.items() if ones)
    hunt = _Hunt(paid, by_check)
    hunt.follow(able, 0.0)
    return Cover(hunt.best, 0.0 if not able else hunt.cost, hunt.nodes <= NODES)
