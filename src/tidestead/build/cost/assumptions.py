"""What is taken for granted of cost where the plan is silent."""

from __future__ import annotations

from collections.abc import Iterator

from tidestead.build.cost.facts import CostFacts
from tidestead.build.cost.waste import waste_row
from tidestead.catalog import table
from tidestead.core.answer import Assumption
from tidestead.core.units import System, show
from tidestead.plan.model import Plan

CAUTIONS = (
    "Prices are those of your price book; none is ours, and no price is looked up anywhere. Prices that move together, "
    "of one trade, are thrown together; what no list holds (your own time, travel, tools) costs nothing here.",
    "Lists follow the drawings of this plan: look through them before you buy. They are no approval of the design: "
    "only a part whose checks are sound should be bought.",
)


def assumptions_of(plan: Plan, facts: CostFacts, system: System) -> Iterator[Assumption]:
    """Every default that was used."""
    yield from _saws(plan, system)
    together = table("cost_limits")["together"]
    words = f"{together.si('within'):g} within a trade, {together.si('across'):g} across trades"
    why = "by their ranks; independent prices would hide the risk"
    yield Assumption("prices rise together", words, why, together.figure("within").source)
    offers = [buy.offer for one in (*facts.purchase.once, *facts.yearly) for buy in one.buys]
    spreads, known = [], None
    for name, words in (("quote", "an offer"), ("list", "a price list"), ("guess", "a guess")):
        if any(one.known == name for one in offers if one.row.startswith("book.")):
            row = table("cost_limits")[f"price-{name}"]
            known = row.figure("above").source
            spreads.append(
                f"{words} {100.0 * row.si('below'):.0f} % less to {100.0 * row.si('above'):.0f} % more"
            )
    if known is not None:
        why = "where its row has one price and not three"
        yield Assumption("range of a price", "; ".join(spreads), why, known)
    yield from _wastes(facts)
    yield from _lives(facts, system)


def _lives(facts: CostFacts, system: System) -> Iterator[Assumption]:
    """How long things last of which no row says it."""
    told = {one.bought.item.sort: one.life for one in facts.worn if not one.said}
    if told:
        words = ", ".join(f"{sort} {show(life, 's', system)}" for sort, life in told.items())
        source = table("cost_limits")[f"life-{next(iter(told))}"].figure("life").source
        yield Assumption("how long things last", words, "a row of the price book may say life", source)


def _wastes(facts: CostFacts) -> Iterator[Assumption]:
    """What is bought over the net amount of things that no cut plan holds."""
    rows = {row.name: row for one in facts.purchase.once if one.buys and one.cut is None
            if (row := waste_row(one.item)) is not None}  # fmt: skip
    for row in rows.values():
        share = f"{100.0 * row.si('share'):g} %"
        yield Assumption(
            f"lost of it: {row.title}", share, "bought over the net amount", row.figure("share").source
        )


def _saws(plan: Plan, system: System) -> Iterator[Assumption]:
    usual = table("cost_limits")["saws"]
    said = plan.cutting
    for key, words in (
        ("kerf", "what the saw turns to dust, of lengths"),
        ("trim", "cut off a bought length first"),
        ("useful", "the shortest off-cut that is kept"),
        ("sheet_kerf", "what the saw turns to dust, of sheets"),
        ("sheet_trim", "cut off each edge of a bought sheet"),
    ):
        if getattr(said, key) is None:
            yield Assumption(
                f"cutting.{key}", show(usual.si(key), "m", system, "sheet"), words, usual.figure(key).source
            )
    if said.spoils is None:
        words = "bought lengths that knots and mistakes cost"
        yield Assumption(
            "cutting.spoils", f"{100.0 * usual.si('spoils'):g} %", words, usual.figure("spoils").source
        )
