"""What a change adds to the cost: the changed plan priced, less the plan as it is."""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import TypeAlias

from tidestead import desk
from tidestead.build.cost import study
from tidestead.build.cost.ensemble import told_apart
from tidestead.build.cost.facts import CostFacts
from tidestead.build.cost.finding import cash_of, lacking_of
from tidestead.core.answer import Check, Estimate
from tidestead.core.dims import Array
from tidestead.core.errors import TidesteadError
from tidestead.desk.prices import with_prices
from tidestead.plan import LoadedPlan
from tidestead.plan.edits import Edit
from tidestead.plan.forms import words_of_key
from tidestead.studies.inputs import Inputs
from tidestead.trials.remedy import Priced

Price: TypeAlias = Callable[[LoadedPlan], Priced | None]
"""What a plan costs; None where nothing is known of that."""

_BELOW = ("flow", "light", "heat", "water")
"""The subjects that the cost is given the facts of, in its own order."""


def price_of(loaded: LoadedPlan) -> Priced | None:
    """What the plan alone tells of its cost, no study asked; None where nothing has a price.

    Water, salt and warmth of the first fill are not in it: it ranks what is tried, and is not told where more is known.
    """
    try:
        found = cash_of(with_prices(loaded).plan)
    except TidesteadError:
        return None
    if found is None:
        return None
    return Priced(
        found.throws.estimate, found.currency, None, found.unpriced, found.lacking, found.throws.sums
    )


@dataclass(frozen=True, eq=False)
class Costed:
    """A plan's cost as the answer on it has it, and its checks."""

    price: Priced | None
    checks: tuple[Check, ...]


def costed(loaded: LoadedPlan) -> Costed | None:
    """The cost of a plan, all studies asked; None where it has none."""
    try:
        checks = desk.answer(loaded, ["cost"])["cost"].checks
        return Costed(_priced(desk.facts(loaded, "cost")), checks)
    except TidesteadError:
        return None


def costed_upon(base: LoadedPlan, loaded: LoadedPlan) -> Costed | None:
    """The cost of a plan that differs from `base` in nothing that its water, warmth and light hang on."""
    try:
        earlier = [desk.facts(base, name) for name in _BELOW]
        inputs = Inputs(with_prices(loaded).plan, loaded.plan.show)
        facts = study.find(inputs, *earlier)
        return Costed(_priced(facts), study.judge(inputs, facts).checks)
    except TidesteadError:
        return None


def _priced(facts: CostFacts) -> Priced | None:
    """Both sums with their throws; None where nothing has a price. A year with gaps is not told."""
    totals = facts.totals
    if totals is None:
        return None
    lacking = lacking_of(facts.purchase.once)
    unpriced = tuple(name for name, _ in lacking)
    whole = not facts.bare_of_year
    yearly, years = (totals.yearly, facts.year.sums) if whole else (None, None)
    return Priced(totals.cash, facts.currency, yearly, unpriced, lacking, facts.cash.sums, years)


def difference(before: Priced | None, after: Priced | None) -> Priced | None:
    """What a change adds, throw by throw on the same luck.

    What has no price and is needed anew, more, less or no longer is named: by that the difference is no total.
    """
    if before is None or after is None or before.currency != after.currency:
        return None
    new = tuple(dict.fromkeys((*_only(after, before), *_only(before, after), *_other_amounts(before, after))))
    yearly = _apart((before.yearly, before.years), (after.yearly, after.years))
    cash = _apart((before.cash, before.sums), (after.cash, after.sums))
    return None if cash is None else Priced(cash, after.currency, yearly, new)


def _only(one: Priced, other: Priced) -> tuple[str, ...]:
    """What lacks its price in one of them alone."""
    return tuple(item for item in one.unpriced if item not in other.unpriced)


def _other_amounts(before: Priced, after: Priced) -> Iterator[str]:
    """What lacks its price in both, and is needed in another amount."""
    was = dict(before.lacking)
    for item, amount in after.lacking:
        if item in was and not math.isclose(amount, was[item], rel_tol=1e-6):
            yield item


_BOUGHT = re.compile(
    r"(?:heaters|chillers|lamps|pumps|airpumps|backups|apparatus|adsorbers|harvests|covers|fans)\.[^.]+"
    r"(?:\.(?:power|cooling|energy|peak|flow|mass|uvc|surface|count|share))?"
    r"|supply\.(?:amps|cable)|electrics\.[^.]+\.(?:breaker|residual|cable)|sources\.[^.]+\.(?:carbon|thiosulfate)"
    r"|filters\.[^.]+\.(?:surface|denitrifies)|vessels\.[^.]+\.(?:air\.flow|top_off\.flow|insulation)"
    r"|building\.(?:glazing|passes|vents\.rate)|response\.alarm(?:\..+)?"
)
"""Keys by which something else is bought, built or set up, whether or not a list of the cost counts it."""


def told_whole(price: Priced | None, edits: Sequence[Edit]) -> Priced | None:
    """The same price, with what is bought named as lacking its price where no list of the cost counts the change.

    A machine of another size has the same line in the price book, and what is no line there costs nothing by it:
    nothing more is not what it costs.
    """
    if price is None or not price.whole or not _is_nothing(price):
        return price
    return with_lacking(price, [_named(edit) for edit in edits if _is_bought(edit)])


def lacking_alone(edits: Sequence[Edit], alone: Callable[[Edit], Priced | None]) -> list[str]:
    """What is bought by some of the edits and counted by no list, though others of them cost something.

    `alone` is what one of them adds by itself; None where it makes no plan.
    """
    prices = ((edit, alone(edit)) for edit in edits if _is_bought(edit))
    return [
        _named(edit) for edit, price in prices if price is not None and price.whole and _is_nothing(price)
    ]


def with_lacking(price: Priced, names: Sequence[str]) -> Priced:
    """The same price, with these named as lacking theirs."""
    return replace(price, unpriced=tuple(dict.fromkeys((*price.unpriced, *names))))


def _is_nothing(price: Priced) -> bool:
    return not (price.cash.low or price.cash.high or price.cash.likely)


def _is_bought(edit: Edit) -> bool:
    return edit.value is not None and _BOUGHT.fullmatch(edit.key) is not None


def _named(edit: Edit) -> str:
    """What is bought, in words."""
    named = words_of_key(edit.key)
    return f"{named[:1].lower()}{named[1:]}" + (f" of {edit.value}" if isinstance(edit.value, str) else "")


def _apart(
    before: tuple[Estimate | None, Array | None], after: tuple[Estimate | None, Array | None]
) -> Estimate | None:
    """What one sum is more than another, by their throws where there are any; None where one is not known."""
    (was, thrown), (now, others) = before, after
    if was is None or now is None:
        return None
    return _less(now, was) if thrown is None or others is None else told_apart(others, thrown)


def _less(one: Estimate, other: Estimate) -> Estimate:
    """One range less another of which nothing more is known: as far as the two can lie apart."""
    return Estimate(one.low - other.high, one.likely - other.likely, one.high - other.low, one.basis)
