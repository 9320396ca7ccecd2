"""Many throws of what a sum may come to: prices with their spread, what moves several at once, what may go wrong."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from tidestead.build.cost.correlation import alone, together
from tidestead.core.answer import Estimate
from tidestead.core.dims import Array

THROWS = 10_000


@dataclass(frozen=True)
class Three:
    """A price or an amount: lowest, likely, highest."""

    low: float
    likely: float
    high: float

    @property
    def mean(self) -> float:
        """Of the triangle between the three."""
        return (self.low + self.likely + self.high) / 3.0

    def times(self, factor: float) -> Three:
        """All three times a number that is not below nothing."""
        return Three(self.low * factor, self.likely * factor, self.high * factor)

    def at(self, share: float) -> float:
        """The value that so large a share of the triangle lies below."""
        return float(_triangle(np.asarray(share), self))


@dataclass(frozen=True)
class Term:
    """One thing that adds to the sum: an amount at a price, each with its spread, in money of its own.

    Terms of one `group` (a trade) move together; those that share a `rate` move with that money. Prices of one `key`
    are thrown alike, as are amounts of one `name`; the key is the name where none is given.
    """

    name: str
    group: str
    price: Three
    amount: Three = Three(1.0, 1.0, 1.0)
    rate: str = ""
    key: str = ""


@dataclass(frozen=True)
class Mishap:
    """What may happen once, and what it costs then."""

    name: str
    chance: float
    cost: Three
    rate: str = ""


@dataclass(frozen=True)
class Togetherness:
    """How much prices of one trade rise together, and those of different trades."""

    within: float
    across: float


@dataclass(frozen=True, eq=False)
class Throws:
    """The sums thrown (THROWS,), and what each cause does to the sum when it alone is low or high."""

    sums: Array
    base: float
    moved: tuple[tuple[str, float, float], ...]

    @property
    def mean(self) -> float:
        return float(self.sums.mean())

    def share(self, part: float) -> float:
        """The sum that so large a share of the throws stays below."""
        return float(np.quantile(self.sums, part))

    @property
    def estimate(self) -> Estimate:
        """P10, the middle, P90."""
        low, middle, high = (self.share(part) for part in (0.1, 0.5, 0.9))
        return Estimate(low, middle, high, f"P10 to P90 of {THROWS:,} throws")

    @property
    def contingency(self) -> float:
        """What is to be kept beside the base, so that four times in five it is enough: never less than nothing."""
        return max(self.share(0.8) - self.base, 0.0)


def told_apart(sums: Array, others: Array) -> Estimate:
    """What sums are more than others, throw by throw: P10, the middle, P90."""
    low, middle, high = (float(one) for one in np.quantile(sums - others, (0.1, 0.5, 0.9)))
    return Estimate(low, middle, high, f"P10 to P90 of {len(sums):,} throws, each of both on the same luck")


def thrown(
    terms: tuple[Term, ...],
    rates: dict[str, Three],
    mishaps: tuple[Mishap, ...],
    goes: Togetherness,
    count: int = THROWS,
) -> Throws:
    """Throw the sum of all terms and mishaps. `rates` are what one of a foreign money is worth; "" is the plan's own.

    Every spread is the triangle between its three numbers. Ranks of prices go together (`together`); amounts, rates and
    mishaps are thrown by themselves, a rate once for all terms in its money. Each is thrown by its name, so that what
    is added to a sum leaves the throws of the rest as they were.
    """
    worth = {name: _thrown(three, alone(f"rate {name}", count)) for name, three in rates.items()}
    sums = np.zeros(count)
    for term in terms:
        shares = together(term.key or term.name, term.group, goes.within, goes.across, count)
        amount = (
            _thrown(term.amount, alone(f"amount {term.name}", count))
            if _spreads(term.amount)
            else term.amount.likely
        )
        sums += _thrown(term.price, shares) * amount * worth.get(term.rate, 1.0)
    for one in mishaps:
        comes = alone(f"chance {one.name}", count) < one.chance
        sums += comes * _thrown(one.cost, alone(f"cost {one.name}", count)) * worth.get(one.rate, 1.0)
    sums.flags.writeable = False
    return Throws(sums, base(terms, rates), moved(terms, rates, mishaps))


def base(terms: tuple[Term, ...], rates: dict[str, Three]) -> float:
    """The sum of the likely prices, before any range or mishap."""
    return float(sum(term.price.likely * term.amount.likely * _likely(rates, term.rate) for term in terms))


def moved(
    terms: tuple[Term, ...], rates: dict[str, Three], mishaps: tuple[Mishap, ...]
) -> tuple[tuple[str, float, float], ...]:
    """What the expected sum moves by when one cause alone is at its P10 and at its P90, the greatest first.

    Offers of one thing move as one, as do all prices in one money; what goes together in a trade is not counted here. A
    mishap does not come, or comes.
    """
    found: dict[str, list[float]] = {}

    def add(name: str, less: float, more: float) -> None:
        ends = found.setdefault(name, [0.0, 0.0])
        ends[0] += less
        ends[1] += more

    for term in terms:
        rate, amount = _expected(rates, term.rate), term.amount.mean
        add(f"price: {term.name}", *_ends(term.price, amount * rate))
        if _spreads(term.amount):
            add(f"amount: {term.name}", *_ends(term.amount, term.price.mean * rate))
    for name, three in rates.items():
        in_it = sum(term.price.mean * term.amount.mean for term in terms if term.rate == name)
        in_it += sum(one.chance * one.cost.mean for one in mishaps if one.rate == name)
        add(f"rate of {name}", *_ends(three, in_it))
    for one in mishaps:
        cost = one.cost.mean * _expected(rates, one.rate)
        add(one.name, -one.chance * cost, (1.0 - one.chance) * cost)
    ranked = [(name, less, more) for name, (less, more) in found.items() if more - less > 0.0]
    return tuple(sorted(ranked, key=lambda row: (row[1] - row[2], row[0])))


def _ends(three: Three, factor: float) -> tuple[float, float]:
    """How far P10 and P90 of a spread lie from its mean, times a factor."""
    return (three.at(0.1) - three.mean) * factor, (three.at(0.9) - three.mean) * factor


def _likely(rates: dict[str, Three], name: str) -> float:
    return rates[name].likely if name else 1.0


def _expected(rates: dict[str, Three], name: str) -> float:
    return rates[name].mean if name else 1.0


def _spreads(three: Three) -> bool:
    return three.high > three.low


def _thrown(three: Three, shares: Array) -> Array | float:
    """What a spread comes to at these shares of it."""
    return _triangle(shares, three) if _spreads(three) else three.likely


def _triangle(share: Array, three: Three) -> Array:
    """The triangle's value that so large a share lies below."""
    low, likely, high = three.low, three.likely, three.high
    width = high - low
    if width <= 0.0:
        return np.full(np.shape(share), likely)
    rising = low + np.sqrt(share * width * (likely - low))
    falling = high - np.sqrt((1.0 - share) * width * (high - likely))
    return np.asarray(np.where(share < (likely - low) / width, rising, falling))
