"""Cutting lengths: which stock to buy or take, and what to cut of each, as cheap as may be.

Lengths are in metres and are counted in whole nanometres: whatever is typed in inches or millimetres fits exactly or
not at all, and no plan is off by more than that. Column generation gives a plan and a bound that no plan is below;
what is not proven is told by the gap between them (Gilmore and Gomory's method; recalled, not read).
"""

from __future__ import annotations

import math
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cached_property

NANOMETRES = 1e9
"""In a metre."""


@dataclass(frozen=True)
class Need:
    """So many pieces of one length. Marks tell needs apart."""

    mark: str
    length: float
    count: int


@dataclass(frozen=True)
class Stock:
    """A length that can be cut. `price` is money for one, nothing for stock on hand; `on_hand` says how many there are
    of it, None that as many as are wanted can be had.
    """

    name: str
    length: float
    price: float
    on_hand: int | None = None


@dataclass(frozen=True)
class Saw:
    """`kerf` is what a cut takes, `trim` what is cut off a length in all before the first piece, both ends together.
    An off-cut is kept from the length `useful` on.
    """

    kerf: float
    trim: float
    useful: float


@dataclass(frozen=True)
class Bar:
    """So many lengths of one stock, cut alike: the marks in the order they are cut, and what is left of each."""

    stock: Stock
    marks: tuple[str, ...]
    times: int
    offcut: float


@dataclass(frozen=True)
class LengthPlan:
    """How everything is cut. No plan costs less than `bound`; `gap` is how far the cost is above it, as a share of it.

    `proven` says that no plan is cheaper.
    """

    bars: tuple[Bar, ...]
    cost: float
    bound: float
    proven: bool
    gap: float
    needs: tuple[Need, ...]
    saw: Saw

    @cached_property
    def length_of(self) -> dict[str, float]:
        """The length of each mark."""
        return {need.mark: need.length for need in self.needs}

    @property
    def stock_length(self) -> float:
        """All lengths that are cut up, end to end."""
        return math.fsum(bar.times * bar.stock.length for bar in self.bars)

    @property
    def net_length(self) -> float:
        """All pieces, end to end."""
        return math.fsum(need.count * need.length for need in self.needs)

    @property
    def trimmed(self) -> float:
        """What is cut off ends to square them."""
        return self.saw.trim * sum(bar.times for bar in self.bars)

    @property
    def kept(self) -> tuple[tuple[float, int], ...]:
        """Off-cuts that are long enough to be kept, longest first, and how many of each."""
        many: dict[float, int] = {}
        for bar in self.bars:
            if bar.offcut > 0.0 and bar.offcut >= self.saw.useful:
                many[bar.offcut] = many.get(bar.offcut, 0) + bar.times
        return tuple(sorted(many.items(), reverse=True))

    @property
    def waste(self) -> float:
        """What becomes neither a piece nor an off-cut that is kept."""
        return self.stock_length - self.net_length - math.fsum(length * many for length, many in self.kept)


def cut_lengths(
    needs: Sequence[Need],
    stocks: Sequence[Stock],
    saw: Saw,
    tick: Callable[[int, int], None] | None = None,
    budget_s: float = 10.0,
) -> LengthPlan:
    """The cheapest plan that can be found in `budget_s` seconds, checked before it is given out.

    Where money is to play no part give each stock its length as its price. `tick` is told how far it has come and may
    raise to stop it. The same needs give the same plan, unless time runs out.
    Raises ImpossibleInput for what cannot be cut, SolverError where stock on hand would do but no way was found.
    """
    from tidestead.build.cutting.solving import solved  # noqa: PLC0415 - numpy and the solver only when something is cut

    return solved(tuple(needs), tuple(stocks), saw, tick, time.monotonic() + budget_s)
