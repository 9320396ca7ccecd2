"""The table of new seawater: all of it and a load, side by side."""

from __future__ import annotations

from typing import TypeAlias

from tidestead.core.answer import Column, Table
from tidestead.plan.model import Plan
from tidestead.studies.water.salt_facts import SaltingFacts

Cell: TypeAlias = float | str | None


def batches_table(plan: Plan, facts: SaltingFacts) -> Table:
    """What goes into all the water and into a load; columns that say nothing are left out."""
    pairs = ((("all the water"), facts.whole), (facts.vat.words, facts.load))
    batches = [(words, batch) for words, batch in pairs if batch is not None]
    money = next((one.cost.currency for _, one in batches), "")
    columns: list[tuple[Column, list[Cell]]] = [
        (Column("of what"), [words for words, _ in batches]),
        (Column("finished water", "m3"), [one.volume for _, one in batches]),
        (Column("salt mix", "kg"), [one.recipe.mix.likely for _, one in batches]),
    ]
    if facts.factor.low < facts.factor.high:
        columns.append((Column("at least", "kg"), [one.recipe.mix.low for _, one in batches]))
        columns.append((Column("at most", "kg"), [one.recipe.mix.high for _, one in batches]))
    columns += [
        (Column("water of the source", "m3"), [one.recipe.source for _, one in batches]),
        (Column("fresh water to thin it", "m3"), [one.recipe.fresh or None for _, one in batches]),
        (Column("the source takes", "s"), [one.making for _, one in batches]),
        (Column("to waste", "m3"), [one.reject or None for _, one in batches]),
    ]
    if money:
        totals = [one.cost.total for _, one in batches]
        columns.append(
            (Column("cost, unheated", money), [None if one is None else one.likely for one in totals])
        )
    kept = [(head, cells) for head, cells in columns if any(cell is not None for cell in cells)]
    source = "" if facts.supply is None else f"Water from {facts.supply.key}. "
    factor = "as you measured it" if plan.salt.factor is not None else "as mixes are sold"
    note = (
        f"{source}Mix by weight, {factor}: a litre of finished water takes less than a litre of fresh. Stir the salt "
        "into the water, never the water onto the salt, and measure before use."
    )
    heads = tuple(head for head, _ in kept)
    rows = tuple(zip(*(cells for _, cells in kept), strict=True))
    return Table("water.salt.batches", "What new seawater takes", heads, rows, note)
