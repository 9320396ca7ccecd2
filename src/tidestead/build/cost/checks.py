"""What the sums are held against: what the plan lets be spent, once and in a year."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from tidestead.build.cost.buying import Bought
from tidestead.build.cost.ensemble import THROWS, Throws
from tidestead.build.cost.facts import CostFacts
from tidestead.build.cost.wording import item_words
from tidestead.build.materials import rows_of
from tidestead.build.takeoff.coats import film_check
from tidestead.core.answer import Check, Given, Step
from tidestead.core.source import COMPUTED, YOURS
from tidestead.core.units import Price
from tidestead.plan.model import Plan
from tidestead.studies.inputs import Inputs
from tidestead.studies.judged import Judged

_NAMED = 4
"""Names that a sentence lists of what has no price."""


def judged(inputs: Inputs, facts: CostFacts) -> tuple[Judged, ...]:
    """Cash against the budget, the year against what it may cost."""
    return tuple(_judged(inputs, facts))


def _judged(inputs: Inputs, facts: CostFacts) -> Iterator[Judged]:
    targets = inputs.plan.targets
    missing = _of(inputs, [one for one in facts.purchase.once if one.missing])
    check = _check("cost.cash", "cash still to spend", facts.cash, targets.budget, inputs.plan)
    yield _with_missing(check, facts.cash, facts, missing, "targets.budget: what may still be spent")
    words = _of(inputs, facts.bare_of_year)
    year = _check("cost.yearly", "cost of a year", facts.year, targets.running, inputs.plan)
    yield _with_missing(year, facts.year, facts, words, "targets.running: what a year may cost")

    for told in facts.coats:
        film = film_check(told)
        if film is not None:
            yield Judged(film)


def missing_words(inputs: Inputs, facts: CostFacts) -> str:
    """Why the sums of what is bought once are not whole; empty where they are."""
    return _of(inputs, facts.purchase.unpriced)


def unvalued_words(inputs: Inputs, facts: CostFacts) -> str:
    """Why what all is worth today is not known; empty where it is."""
    rows = rows_of(inputs.plan)
    names = [item_words(one.item, inputs.system, rows) for one in facts.purchase.unvalued]
    return incomplete(names).replace("the total is", "what all is worth is")


def _of(inputs: Inputs, bare: Sequence[Bought]) -> str:
    rows = rows_of(inputs.plan)
    odd = sum(1 for one in bare if one.missing and not one.missing.startswith("has no price"))
    return incomplete([item_words(one.item, inputs.system, rows) for one in bare], odd)


def incomplete(names: list[str], odd: int = 0) -> str:
    """The sentence on things without a price. `odd` of them have one, but cannot be bought as they are sold."""
    count = len(names)
    if not count:
        return ""
    few = ", ".join(names[:_NAMED]) + (" and more" if count > _NAMED else "")
    has = "1 thing has no price" if count == 1 else f"{count} things have no price"
    if odd:
        has = "1 thing cannot be bought as it is sold" if count == 1 else f"{count} things cannot be priced"
        few += " (why: the list Without a price)"
    return f"{has}, so the total is incomplete: {few}"


def _check(ident: str, what: str, throws: Throws, limit: Price | None, plan: Plan) -> Check:
    currency = plan.currency or (limit.currency if limit is not None else "")
    return Check(
        ident,
        what,
        "the whole plan",
        currency,
        throws.estimate,
        None if limit is None else float(limit.amount),
        YOURS,
        limit_includes="it must hold nine times in ten",
    )


def _with_missing(check: Check, throws: Throws, facts: CostFacts, missing: str, wanted: str) -> Judged:
    said = missing or ("" if check.limit is not None else f"say {wanted}")
    named = replace(check, unit=facts.currency, missing=said, complete=not missing)
    return Judged(named, _steps(throws, facts.currency) if not missing else ())


def _steps(throws: Throws, currency: str) -> tuple[Step, ...]:
    base = Step("B", "sum of the likely prices", "sum of count * price", (), throws.base, currency, COMPUTED)
    mean = Step(
        "M", f"mean of {THROWS:,} throws of every price within its range", "mean of the throws", (), throws.mean,
        currency, COMPUTED,
    )  # fmt: skip
    p80 = Step(
        "P_80",
        "enough in four throws of five",
        "quantile of the throws",
        (),
        throws.share(0.8),
        currency,
        COMPUTED,
    )
    kept = Step(
        "C", "contingency to keep beside the base", "P_80 - B",
        (Given("P_80", p80.result, currency), Given("B", throws.base, currency)), p80.result - throws.base, currency,
        COMPUTED,
    )  # fmt: skip
    p90 = Step(
        "P_90",
        "enough in nine throws of ten",
        "quantile of the throws",
        (),
        throws.share(0.9),
        currency,
        COMPUTED,
    )
    return base, mean, p80, kept, p90
