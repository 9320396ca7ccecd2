"""What a sum leaves out, said beside it wherever it stands."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from tidestead.build.cost.buying import Bought
from tidestead.build.cost.facts import CostFacts

_BARE = ", but for what has no price"
_ODD = ", but for what cannot be priced"
"""Where some of it has a price and cannot be bought as it is sold."""


@dataclass(frozen=True)
class Wholeness:
    """Words behind the name of each sum: none where it is whole."""

    cash: str
    worth: str
    year: str


def wholeness(facts: CostFacts) -> Wholeness:
    """Of the three sums."""
    purchase = facts.purchase
    return Wholeness(
        _but(purchase.once),
        _but(purchase.unpriced) or (_BARE if purchase.unvalued else ""),
        _but(facts.bare_of_year) or (_BARE if facts.bare_of_year else ""),
    )


def _but(things: Iterable[Bought]) -> str:
    missing = [one.missing for one in things if one.missing]
    if not missing:
        return ""
    return _BARE if all(why.startswith("has no price") for why in missing) else _ODD
