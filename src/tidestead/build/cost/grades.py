"""What sort of estimate it is, as the trade tells estimates apart: by how much of it is known."""

from __future__ import annotations

from dataclasses import dataclass

from tidestead.build.cost.facts import CostFacts
from tidestead.build.cost.totals import paid
from tidestead.catalog import Row, table

_ENOUGH = 0.8
"""Share of the money that must be known so well. Own rule: the classes are told apart by how far the design is."""
_FEW = 0.1
"""Share of the things that may be without a price."""


@dataclass(frozen=True)
class Grade:
    """A class of estimate: its row, and shares of the cash by how its prices are known."""

    row: Row
    offered: float
    listed: float
    unpriced: float

    @property
    def number(self) -> int:
        return int(self.row.name.removeprefix("class-"))


def grade_of(facts: CostFacts) -> Grade:
    """The class that the prices allow: 2 where nearly all is offered, 3 listed or offered, 4 guessed, 5 not priced."""
    money = facts.purchase.money
    known = {"quote": 0.0, "list": 0.0, "guess": 0.0}
    for one in facts.purchase.once:
        for buy in one.buys:
            known[buy.offer.known] += paid(buy, money)
    whole = sum(known.values())
    bare = len(facts.purchase.unpriced)
    unpriced = bare / max(len(facts.purchase.once) + len(facts.purchase.standing), 1)
    offered = known["quote"] / whole if whole else 0.0
    listed = (known["quote"] + known["list"]) / whole if whole else 0.0
    return Grade(_row(offered, listed, unpriced), offered, listed, unpriced)


def _row(offered: float, listed: float, unpriced: float) -> Row:
    if unpriced > _FEW:
        return table("cost_limits")["class-5"]
    if offered >= _ENOUGH and not unpriced:
        return table("cost_limits")["class-2"]
    return table("cost_limits")["class-3" if listed >= _ENOUGH else "class-4"]
