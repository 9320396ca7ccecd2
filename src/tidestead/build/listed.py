"""The lists of a build under the names that they go by, in the order in which they are wanted."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tidestead.build.cut_lists import cut_list, quantities
from tidestead.build.cut_plans import CutPlans, bought_as, stock_numbers
from tidestead.build.materials import Rows, shipped
from tidestead.build.merchant_lists import bars_list, merchant_list
from tidestead.build.sheet_lists import clear_list, sheets_list
from tidestead.build.shopping import shopping_list, sources_list

if TYPE_CHECKING:
    from tidestead.build.lists import TakenOff
    from tidestead.core.answer import Table
    from tidestead.core.units import System

MERCHANT_TOTALS = ("qty", "running length", "board ft", "m³, finished", "total")


@dataclass(frozen=True)
class Listed:
    """One list. `totals` are the heads of columns whose sum means something."""

    name: str
    table: Table
    totals: tuple[str, ...] = ()


def lists_of(
    taken: TakenOff, plans: CutPlans, system: System, currency: str = "", rows: Rows = shipped
) -> tuple[Listed, ...]:
    """Every list that has a row. Prices stand in `currency`, the plan's own."""
    bought = bought_as(plans, system)
    sources = (line.source for line in taken.lines)
    made = (
        Listed("Shopping", shopping_list(taken.lines, system, bought, rows)),
        Listed("Each year", shopping_list(taken.lines, system, bought, rows, yearly=True)),
        Listed("Merchant", merchant_list(plans, system, currency, rows), MERCHANT_TOTALS),
        Listed("Cut list", cut_list(taken, stock_numbers(plans), rows), ("qty",)),
        Listed("Sheets", sheets_list(plans, currency, rows), ("qty", "total")),
        Listed("Clear sheets", clear_list(taken.parts, rows), ("qty",)),
        Listed("Bars", bars_list(plans, system, rows), ("qty",)),
        Listed("Quantities", quantities(taken.pieces, rows)),
        Listed("Sources", sources_list(sources)),
    )
    return tuple(one for one in made if one.table.rows)
