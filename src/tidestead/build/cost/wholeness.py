"""What a sum leaves out, said beside it wherever it stands."""

from __future__ import annotations

from dataclasses import dataclass

from tidestead.build.cost.facts import CostFacts

_BUT = ", but for what has no price"


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
        _BUT if any(one.missing for one in purchase.once) else "",
        _BUT if purchase.unvalued or purchase.unpriced else "",
        _BUT if any(one.missing for one in facts.yearly) else "",
    )
