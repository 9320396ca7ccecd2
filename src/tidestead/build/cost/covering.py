"""The cheapest packages that hold an amount: cans, boxes, bags of several sizes."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from tidestead.core.errors import ImpossibleInput

_SLACK = 1e-9
"""Share of an amount that rounding may take: twelve screws of a box of twelve are one box."""

_DIGITS = 9
"""Amounts left that agree to so many digits are one."""


@dataclass(frozen=True)
class Package:
    """One size that is sold: what it holds, what it costs, how many there are (None: as many as wanted)."""

    holds: float
    price: float
    at_most: int | None = None


def packages_for(amount: float, packages: Sequence[Package]) -> tuple[int, ...] | None:
    """How many of each package hold the amount at the least money; of equal money, the least that is left over.

    None where all there are do not hold it. Raises ImpossibleInput for a package that holds nothing or has a price
    below nothing. Searches every count but the last, bound by the best that was found and by price for what it holds.
    """
    if any(one.holds <= 0.0 or one.price < 0.0 for one in packages):
        raise ImpossibleInput("a package must hold something and cost no less than nothing")
    order = sorted(range(len(packages)), key=lambda one: (packages[one].price / packages[one].holds, one))
    found = _Search(packages, order)
    found.go(0, amount * (1.0 - _SLACK), 0.0, ())
    if found.best is None:
        return None
    counts = dict(zip(order, found.best, strict=True))
    return tuple(counts[one] for one in range(len(packages)))


class _Search:
    """Depth first, the cheapest for what it holds first. Where so much was left before, for no more money, it turns
    back: prices that only go by what is held would else be tried in every mixture.
    """

    def __init__(self, packages: Sequence[Package], order: Sequence[int]) -> None:
        self._packages = [packages[one] for one in order]
        self.best: tuple[int, ...] | None = None
        self._money, self._over = math.inf, math.inf
        self._reached: dict[tuple[int, float], float] = {}

    def go(self, at: int, left: float, money: float, counts: tuple[int, ...]) -> None:
        """Counts of the packages from `at` on for what is left."""
        if at == len(self._packages) or left <= 0.0:
            self._take(left, money, counts)
            return
        one, place = self._packages[at], (at, round(left, _DIGITS))
        if money + left * one.price / one.holds > self._money * (1.0 + _SLACK):
            return
        if money >= self._reached.get(place, math.inf):
            return
        self._reached[place] = money
        most = math.ceil(left / one.holds)
        most = most if one.at_most is None else min(most, one.at_most)
        last = at + 1 == len(self._packages)
        for count in (most,) if last else range(most, -1, -1):
            self.go(at + 1, left - count * one.holds, money + count * one.price, (*counts, count))

    def _take(self, left: float, money: float, counts: tuple[int, ...]) -> None:
        if left > 0.0:
            return
        better = money < self._money - _SLACK * max(money, 1.0)
        equal = not better and money <= self._money + _SLACK * max(money, 1.0)
        if better or (equal and -left < self._over):
            self.best = (*counts, *(0 for _ in range(len(self._packages) - len(counts))))
            self._money, self._over = money, -left
