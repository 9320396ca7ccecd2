"""How well lengths and sheets are cut: what is bought for it, what is waste, how far from the least it may be."""

from __future__ import annotations

from tidestead.build.cost.facts import CostFacts
from tidestead.build.cost.wording import item_words
from tidestead.build.cutting.lengths import LengthPlan
from tidestead.build.cutting.sheets import SheetPlan
from tidestead.build.materials import Rows
from tidestead.core.answer import Column, Table
from tidestead.core.units import System

_EXACT = "exact: no plan costs less"


def cut_table(facts: CostFacts, system: System, rows: Rows) -> Table:
    """A row for each thing that is cut by a plan."""
    columns = (
        Column("what"),
        Column("cut from", "count"),
        Column("waste", "%"),
        Column("money for what is bought", facts.currency),
        Column("no plan costs less than", facts.currency),
        Column("known how far"),
    )
    made = tuple(
        (item_words(one.item, system, rows), *_figures(one.cut), _proof(one.cut))
        for one in facts.purchase.once
        if one.cut is not None
    )
    note = (
        "Waste is what is bought or there and neither a piece nor an off-cut that is kept. The least money holds for "
        "any way to cut; of sheets it rests on area and on parts that cannot share one, and is seldom reached."
    )
    return Table("cost.cuts", "How it is cut", columns, made, note)


def _figures(cut: LengthPlan | SheetPlan) -> tuple[float, float, float, float]:
    if isinstance(cut, LengthPlan):
        count = sum(bar.times for bar in cut.bars)
        return float(count), 100.0 * cut.waste / cut.stock_length, cut.cost, cut.bound
    used = sum(sheet.share * sheet.times for sheet in cut.sheets) / cut.count
    return float(cut.count), 100.0 * (1.0 - used), cut.cost, cut.bound


def _proof(cut: LengthPlan | SheetPlan) -> str:
    if cut.proven:
        return _EXACT
    if isinstance(cut, LengthPlan):
        return f"at most {100.0 * cut.gap:.2g} % above the least"
    above = 100.0 * (cut.cost / cut.bound - 1.0) if cut.bound > 0.0 else 0.0
    return f"at most {above:.2g} % above the least; {cut.bound_basis}"
