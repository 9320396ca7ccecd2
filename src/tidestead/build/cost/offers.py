"""What can be had, for what money, and what is there already: the price book in SI."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from tidestead.build.cost.ensemble import Three
from tidestead.build.lists import Unit
from tidestead.core.errors import ImpossibleInput
from tidestead.plan.items import Item


@dataclass(frozen=True)
class Offer:
    """One row of a price book. `price` is for one piece of `size`, or for one `unit` where there is no size.

    `size`: length of a bar, both sides of a sheet (along the grain first), what a package holds, in SI. `owned` pieces
    are there already (infinite: all that is needed). `replacement` is what one costs today. `life` and `lead` in
    seconds. `in_part`: half of one can be had.
    """

    row: str
    item: Item
    price: Three | None
    currency: str
    unit: Unit
    size: tuple[float, ...] = ()
    owned: float = 0.0
    at_most: int | None = None
    replacement: Three | None = None
    known: str = "guess"
    dated: date | None = None
    supplier: str = ""
    lead: float | None = None
    visit: int | None = None
    life: float | None = None
    in_part: bool = False

    @property
    def has_all(self) -> bool:
        """Whether all that is needed is there already."""
        return math.isinf(self.owned)

    @property
    def today(self) -> Three | None:
        """What one would cost today."""
        return self.replacement or self.price


@dataclass(frozen=True)
class Buy:
    """So many of one offer: `count` to be paid for, `here` of what is there already; pieces of its size, or measures.

    `spare` of the count are for knots and mistakes.
    """

    offer: Offer
    count: float
    here: float = 0.0
    spare: float = 0.0


@dataclass(frozen=True)
class Money:
    """The plan's own money, and what one of each foreign money is worth in it."""

    currency: str
    rates: dict[str, Three]

    def worth(self, currency: str) -> float:
        """Likely worth of one of a money; the plan's own is one."""
        if currency in ("", self.currency):
            return 1.0
        if currency not in self.rates:
            raise ImpossibleInput(f"no rate says what one {currency} is worth in {self.currency}")
        return self.rates[currency].likely

    def rate(self, currency: str) -> str:
        """The name of the rate that a money goes by; empty for the plan's own."""
        return "" if currency in ("", self.currency) else currency


def by_item(offers: Iterable[Offer]) -> dict[Item, tuple[Offer, ...]]:
    """The offers of each item, in the order of the book."""
    found: dict[Item, list[Offer]] = {}
    for one in offers:
        found.setdefault(one.item, []).append(one)
    return {item: tuple(several) for item, several in found.items()}
