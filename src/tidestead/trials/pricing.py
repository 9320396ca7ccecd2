"""What a change adds to the cost: the changed plan priced, less the plan as it is."""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeAlias

from tidestead import desk
from tidestead.build.cost.facts import CostFacts
from tidestead.core.answer import Estimate
from tidestead.core.errors import TidesteadError
from tidestead.plan import LoadedPlan
from tidestead.trials.remedy import Priced

Price: TypeAlias = Callable[[LoadedPlan], Priced | None]
"""What a plan costs; None where nothing is known of that."""


def price_of(loaded: LoadedPlan) -> Priced | None:
    """What the desk knows of the cost of a plan; None while there is no answer on cost, or nothing has a price."""
    if not any(entry.name == "cost" and entry.built for entry in desk.SUBJECTS):
        return None
    try:
        found: CostFacts = desk.facts(loaded, "cost")
    except TidesteadError:
        return None
    if found.totals is None:
        return None
    return Priced(found.totals.cash, found.currency, found.totals.yearly, found.unpriced)


def difference(before: Priced | None, after: Priced | None) -> Priced | None:
    """What a change adds, end by end, for the same prices make both; what is newly without a price is named."""
    if before is None or after is None or before.currency != after.currency:
        return None
    new = tuple(item for item in after.unpriced if item not in before.unpriced)
    yearly = None if before.yearly is None or after.yearly is None else _less(after.yearly, before.yearly)
    return Priced(_less(after.cash, before.cash), after.currency, yearly, new)


def _less(one: Estimate, other: Estimate) -> Estimate:
    ends = sorted((one.low - other.low, one.likely - other.likely, one.high - other.high))
    return Estimate(ends[0], one.likely - other.likely, ends[2], one.basis)
