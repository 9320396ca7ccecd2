"""What a change adds to the cost: the changed plan priced, less the plan as it is."""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeAlias

from tidestead.build.cost.ensemble import told_apart
from tidestead.build.cost.finding import cash_of
from tidestead.core.answer import Estimate
from tidestead.core.errors import TidesteadError
from tidestead.desk.prices import with_prices
from tidestead.plan import LoadedPlan
from tidestead.trials.remedy import Priced

Price: TypeAlias = Callable[[LoadedPlan], Priced | None]
"""What a plan costs; None where nothing is known of that."""


def price_of(loaded: LoadedPlan) -> Priced | None:
    """What the plan alone tells of its cost, no study asked; None where nothing has a price."""
    try:
        found = cash_of(with_prices(loaded).plan)
    except TidesteadError:
        return None
    if found is None:
        return None
    return Priced(found.throws.estimate, found.currency, None, found.unpriced, found.throws.sums)


def difference(before: Priced | None, after: Priced | None) -> Priced | None:
    """What a change adds, throw by throw on the same luck; what is newly without a price is named."""
    if before is None or after is None or before.currency != after.currency:
        return None
    new = tuple(item for item in after.unpriced if item not in before.unpriced)
    yearly = None if before.yearly is None or after.yearly is None else _less(after.yearly, before.yearly)
    if before.sums is None or after.sums is None:
        return Priced(_less(after.cash, before.cash), after.currency, yearly, new)
    return Priced(told_apart(after.sums, before.sums), after.currency, yearly, new)


def _less(one: Estimate, other: Estimate) -> Estimate:
    """One range less another of which nothing more is known: as far as the two can lie apart."""
    return Estimate(one.low - other.high, one.likely - other.likely, one.high - other.low, one.basis)
