"""The answer on cost put together."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from tidestead.build.cost.assumptions import CAUTIONS, assumptions_of
from tidestead.build.cost.charts import cause_words, charts_of
from tidestead.build.cost.checks import judged, missing_words, unvalued_words
from tidestead.build.cost.cut_table import cut_table
from tidestead.build.cost.facts import CostFacts
from tidestead.build.cost.grades import grade_of
from tidestead.build.cost.listed import cut_plans_of, lists_of
from tidestead.build.cost.tables import is_ahead, is_old, old_after, tables_of
from tidestead.build.cost.wholeness import wholeness
from tidestead.build.cost.wording import money_words, range_words
from tidestead.build.cut_lists import chosen
from tidestead.build.cut_plans import scenes_of
from tidestead.build.materials import rows_of
from tidestead.build.takeoff.coats import coats_table, rate_words
from tidestead.build.takeoff.coats_planned import planned_table
from tidestead.build.takeoff.machines import ELECTRICIAN
from tidestead.core.answer import Answer, Check, Estimate, Figure, Table
from tidestead.core.source import COMPUTED
from tidestead.core.units import to_si
from tidestead.plan.items import Item
from tidestead.studies.inputs import Inputs
from tidestead.studies.sentences import governing, told_of

QUESTION = "What does it take, and what does it cost?"
_SHORT = {
    "cost.merchant": ("qty", "section", "length", "grade", "unit price", "total", "from"),
    "cost.cut-list": ("mark", "part", "qty", "T", "W", "L"),
    "cost.sheets": ("qty", "product", "sheet, along", "sheet, across", "unit price", "total"),
    "cost.on-hand": ("qty", "what", "length", "sheet, along", "sheet, across"),
    "cost.bars": ("no.", "qty", "stock", "length", "pieces in order", "left over"),
}
"""Heads of the lists that a page has room for."""
_GALLON, _LITRE = to_si(1.0, "US gal"), to_si(1.0, "L")


def tell(inputs: Inputs, facts: CostFacts) -> Answer:
    """The whole answer."""
    found = judged(inputs, facts)
    checks = tuple(one.check for one in found)
    return Answer(
        "cost",
        QUESTION,
        sentence(inputs, facts, checks),
        checks,
        tuple(_figures(inputs, facts)),
        tuple(assumptions_of(inputs.plan, facts, inputs.system)),
        tuple(one.working for one in found if one.steps),
        (*tables_of(inputs, facts), *_lists(inputs, facts)),
        scenes=scenes_of(cut_plans_of(facts.purchase), inputs.system, rows_of(inputs.plan)),
        cautions=tuple(_cautions(inputs, facts)),
        extra_sources=(grade_of(facts).row.figure("low").source,),
        charts=tuple(charts_of(inputs, facts)),
        governs=governing(checks).id,
    )


def sentence(inputs: Inputs, facts: CostFacts, checks: Sequence[Check]) -> str:
    """Whether the budget holds; the three sums; what drives the first; how well it is known."""
    words = told_of(checks, inputs.system)
    totals, money = facts.totals, facts.currency
    if totals is None:
        return " ".join([*words, "Nothing in the plan has a price yet: write a price book under [book]."])
    whole = wholeness(facts)
    sure = (
        f", nine times in ten no more than the last; keep {money_words(totals.contingency, money)} beside the sum of "
        "likely prices"
    )
    words.append(
        f"Still to be spent{whole.cash}: {range_words(totals.cash, money)}{'' if whole.cash else sure}."
    )
    words.append(f"All of it at today's prices{whole.worth}: {range_words(totals.replacement, money)}.")
    words.append(f"A year of running{whole.year}: {range_words(totals.yearly, money)}.")
    words += _drivers(inputs, facts)
    unvalued = unvalued_words(inputs, facts)
    if unvalued:
        words.append(f"{unvalued}.")
    missing = missing_words(inputs, facts)
    if missing and not any(missing in word for word in words):
        words.append(f"{missing}.")
    return " ".join(words)


def _drivers(inputs: Inputs, facts: CostFacts) -> Iterator[str]:
    """The price, amount or rate that moves the cash most, and the mishap that would."""
    mishaps = {one.name for one in facts.purchase.mishaps}
    prices = [name for name, _, _ in facts.cash.moved if name not in mishaps]
    if prices:
        yield f"Of prices, that of {_small(cause_words(inputs, prices[0]))} drives the spread most."
    bad = next((one for one in facts.cash.moved if one[0] in mishaps), None)
    if bad is not None:
        yield f"Worst would be that {bad[0]}: {money_words(bad[2] - bad[1], facts.currency)}."


def _lists(inputs: Inputs, facts: CostFacts) -> Iterator[Table]:
    """What yard, saw and cutter are given, as far as a page has room for it; files have all of it."""
    for told in facts.coats:
        item = Item("coating", told.plan.row.name)
        cans = [one.size[0] for one in facts.purchase.offers if one.item == item and len(one.size) == 1]
        planned, laid = planned_table(told.plan, cans, inputs.system), coats_table(told, inputs.system)
        yield from (table for table in (planned, laid) if table.rows)
    yield cut_table(facts, inputs.system, rows_of(inputs.plan))
    for table in lists_of(facts.purchase, inputs.system, rows_of(inputs.plan)):
        if table.id in _SHORT:
            yield chosen(table, _SHORT[table.id])


def _figures(inputs: Inputs, facts: CostFacts) -> Iterator[Figure]:
    money = facts.currency
    totals = facts.totals
    if totals is None:
        return
    whole = wholeness(facts)
    bought, valued, run = not whole.cash, not whole.worth, not whole.year
    base, mean = Estimate.exact(totals.base), Estimate.exact(facts.cash.mean)
    kept = "to keep beside the sum of likely prices, so that it is enough four times in five"
    rows = (
        ("cost.cash", f"cash still to spend{whole.cash}", totals.cash, bought),
        ("cost.cash.base", "sum of its likely prices", base, bought),
        ("cost.cash.mean", "mean of its throws", mean, bought),
        ("cost.contingency", kept, Estimate.exact(totals.contingency), bought),
        ("cost.replacement", f"all of it at today's prices{whole.worth}", totals.replacement, valued),
        ("cost.yearly", f"a year of running{whole.year}", totals.yearly, run),
    )
    for ident, words, estimate, complete in rows:
        yield Figure(ident, words, estimate, money, COMPUTED, complete=complete)
    size, unit, one = (_GALLON, "US gal", "gallon") if inputs.system == "us" else (_LITRE, "L", "litre")
    for name, volume in (("display", facts.display), ("system", facts.system)):
        if volume > 0.0:
            yield Figure(
                f"cost.per_{name}",
                f"at today's prices, for each {one} of the {name}'s water",
                totals.replacement.times(size / volume),
                f"{money}/{unit}",
                COMPUTED,
                complete=valued,
            )


def _cautions(inputs: Inputs, facts: CostFacts) -> Iterator[str]:
    if inputs.no_prices:
        yield f"The price book beside the plan was left out: {inputs.no_prices}"
    grade = grade_of(facts)
    low, high = (grade.row.several(key) for key in ("low", "high"))
    yield (
        f"As the trade tells estimates apart this is one of class {grade.number}: {grade.row.title.lower()}. "
        f"Estimates of that class have come out {100.0 * low[0]:.0f} to {100.0 * low[1]:.0f} % lower and "
        f"{100.0 * high[0]:.0f} to {100.0 * high[1]:.0f} % higher. Which class it is, is told by a rule of our own: "
        f"offers hold {100.0 * grade.offered:.0f} % of the cash, offers and lists {100.0 * grade.listed:.0f} %."
    )
    old = [buy.offer.row for one in facts.purchase.once for buy in one.buys if is_old(buy.offer, inputs)]
    if old:
        yield f"Older than {old_after()} months, ask anew: {', '.join(dict.fromkeys(old))}."
    ahead = [buy.offer.row for one in facts.purchase.once for buy in one.buys if is_ahead(buy.offer, inputs)]
    if ahead:
        yield f"Dated after today, so that nobody is told once they are old: {', '.join(dict.fromkeys(ahead))}."
    yield from filter(None, (rate_words(one, inputs.system) for one in facts.coats))
    if inputs.plan.electrics or inputs.plan.supply is not None:
        yield ELECTRICIAN
    yield from CAUTIONS


def _small(words: str) -> str:
    """The same within a sentence; what begins with more than one capital is left."""
    return words[:1].lower() + words[1:] if words[1:2].islower() else words
