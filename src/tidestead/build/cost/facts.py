"""What the cost study finds and hands on: frozen, for sweeps, remedies and the telling of the answer."""

from __future__ import annotations

from dataclasses import dataclass

from tidestead.build.cost.buying import Bought
from tidestead.build.cost.cuts import Sawing
from tidestead.build.cost.ensemble import Mishap, Throws, Togetherness
from tidestead.build.cost.offers import Money, Offer
from tidestead.build.lists import TakenOff
from tidestead.build.takeoff.coats import CoatsTold
from tidestead.core.answer import Estimate
from tidestead.core.units import to_si


@dataclass(frozen=True)
class Totals:
    """Three totals that are never one, each from the P10 to the P90 of its ensemble, in the plan's money.

    `base` is the sum of the likely prices of what is still to be bought, before any range.
    """

    cash: Estimate
    replacement: Estimate
    yearly: Estimate
    base: float
    contingency: float


@dataclass(frozen=True)
class Worn:
    """Something that wears out: what it costs today, and after how many seconds it is replaced, `said` by the book or
    else taken.
    """

    bought: Bought
    worth: float
    life: float
    said: bool

    @property
    def yearly(self) -> float:
        """Share of it that a year takes: of six years' life a sixth."""
        return to_si(1.0, "year") / self.life


@dataclass(frozen=True, eq=False)
class Purchase:
    """What the plan takes, and how it is had: `once` to build it, whole vessels that `stand` already apart.

    `unpriced` are the keys of `once` and `standing` that have no price.
    """

    taken: TakenOff
    offers: tuple[Offer, ...]
    money: Money
    sawing: Sawing
    together: Togetherness
    mishaps: tuple[Mishap, ...]
    once: tuple[Bought, ...]
    standing: tuple[Bought, ...]

    @property
    def unpriced(self) -> tuple[Bought, ...]:
        """What has no price, or cannot be had as it is sold."""
        return tuple(one for one in (*self.once, *self.standing) if one.missing)

    @property
    def unvalued(self) -> tuple[Bought, ...]:
        """What is there already, wholly or in part, without a price of today: nobody can say what it is worth."""
        return tuple(
            one
            for one in (*self.once, *self.standing)
            if any(buy.here and buy.offer.today is None for buy in one.buys)
        )


@dataclass(frozen=True, eq=False)
class CostFacts:
    """Everything found. `display` and `system` are m3 of water; `yearly` is what a year uses up, `unworn` what wears
    out and of which nobody can say what a new one costs, so that nothing is set aside for it.
    """

    purchase: Purchase
    yearly: tuple[Bought, ...]
    worn: tuple[Worn, ...]
    cash: Throws
    replacement: Throws
    year: Throws
    display: float
    system: float
    coats: tuple[CoatsTold, ...]
    unworn: tuple[Bought, ...] = ()

    @property
    def bare_of_year(self) -> tuple[Bought, ...]:
        """What a year takes and what has no price: by that the cost of a year is no total."""
        return (*(one for one in self.yearly if one.missing), *self.unworn)

    @property
    def currency(self) -> str:
        return self.purchase.money.currency

    @property
    def totals(self) -> Totals | None:
        """None where nothing at all has a price."""
        bought = (*self.purchase.once, *self.purchase.standing)
        if not any(buy.offer.today for one in bought for buy in one.buys):
            return None
        return Totals(
            self.cash.estimate,
            self.replacement.estimate,
            self.year.estimate,
            self.cash.base,
            self.cash.contingency,
        )

    @property
    def unpriced(self) -> tuple[str, ...]:
        """Names of what has no price, once or in a year."""
        return tuple(one.item.written() for one in (*self.purchase.unpriced, *self.yearly) if one.missing)
