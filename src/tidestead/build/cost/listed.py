"""The lists and drawings that a purchase leads to: what is still to be built, by every trade's own list."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Set
from types import MappingProxyType
from typing import TYPE_CHECKING

from tidestead.build.cost.book import offers_of
from tidestead.build.cost.buying import standing_of
from tidestead.build.cost.cuts import HERE
from tidestead.build.cost.finding import sawing_of, sheet_sizes
from tidestead.build.cost.offers import by_item
from tidestead.build.cut_lists import cut_list, quantities
from tidestead.build.cut_plans import CutPlans, LengthsCut, SheetsCut, stock_numbers
from tidestead.build.cutting.lengths import LengthPlan
from tidestead.build.cutting.sheets import SheetPlan, SheetStock
from tidestead.build.lists import TakenOff
from tidestead.build.materials import Rows, shipped
from tidestead.build.merchant_lists import bars_list, merchant_list
from tidestead.build.shed_list import shed_list
from tidestead.build.sheet_lists import clear_list, sheets_list
from tidestead.build.takeoff.vessels import vessels_taken
from tidestead.core.answer import Column, Table
from tidestead.core.source import Source

if TYPE_CHECKING:
    from tidestead.build.cost.buying import Bought
    from tidestead.build.cost.facts import Purchase
    from tidestead.build.cost.offers import Offer
    from tidestead.core.units import System
    from tidestead.plan.model import Plan

TOTALS = MappingProxyType(
    {
        "cost.merchant": ("qty", "running length", "board ft", "m³, finished", "total"),
        "cost.cut-list": ("qty",),
        "cost.sheets": ("qty", "total"),
        "cost.on-hand": ("qty",),
        "cost.clear-sheets": ("qty",),
        "cost.bars": ("qty",),
    }
)
"""Heads of columns whose sum means something, by table."""


def lists_of(purchase: Purchase, system: System, rows: Rows = shipped) -> tuple[Table, ...]:
    """Every list of a trade that has a row, from what a yard is asked for to the sources."""
    taken, plans, money = to_build(purchase), cut_plans_of(purchase), purchase.money.currency
    made = (
        merchant_list(plans, system, money, rows),
        cut_list(taken, stock_numbers(plans), rows),
        sheets_list(plans, money, rows),
        shed_list(plans, system, rows),
        clear_list(taken.parts, rows),
        bars_list(plans, system, rows),
        quantities((piece for piece in taken.pieces if piece.item.sort == "lumber"), rows),
        sources_list(line.source for line in taken.lines),
    )
    return tuple(table for table in made if table.rows)


def to_build(purchase: Purchase) -> TakenOff:
    """What the plan takes without what stands already."""
    stands = {line.vessel for one in purchase.standing for line in one.lines if line.vessel}
    return _without(purchase.taken, stands)


def parts_of(plan: Plan) -> TakenOff:
    """Timber, sheets and windows still to be cut, by geometry alone: no study is asked and nothing is priced."""
    taken = vessels_taken(plan, sheet_sizes(offers_of(plan), sawing_of(plan).boards.trim))
    return _without(taken, standing_of({name: vessel.stage for name, vessel in plan.vessels.items()}))


def _without(taken: TakenOff, stands: Set[str]) -> TakenOff:
    return TakenOff(
        tuple(line for line in taken.lines if line.vessel not in stands),
        tuple(piece for piece in taken.pieces if piece.vessel not in stands),
        tuple(part for part in taken.parts if part.vessel not in stands),
        taken.missing,
    )


def cut_plans_of(purchase: Purchase) -> CutPlans:
    """The cut plans of what is still to be built, in the order of the lists."""
    sold = by_item(purchase.offers)
    lengths: list[LengthsCut] = []
    sheets: list[SheetsCut] = []
    for one in purchase.once:
        offers = sold.get(one.item, ())
        if isinstance(one.cut, LengthPlan):
            lengths.append(LengthsCut(one.item, one.cut, _spare(one)))
        elif isinstance(one.cut, SheetPlan):
            boards = tuple(
                SheetStock(name, offer.size[0], offer.size[1], price, count)
                for name, offer, price, count in _shelf(purchase, offers)
            )
            sheets.append(SheetsCut(one.item, boards, purchase.sawing.boards, one.cut, _spare(one)))
    return CutPlans(tuple(lengths), tuple(sheets))


def _shelf(purchase: Purchase, offers: Iterable[Offer]) -> Iterator[tuple[str, Offer, float, int | None]]:
    """Sheets that a plan could be cut from, under the names they have there: price of one, how many of how few."""
    for offer in offers:
        if len(offer.size) != 2:
            continue
        if offer.owned > 0.0 and not offer.has_all:
            yield offer.row + HERE, offer, 0.0, math.floor(offer.owned)
        if offer.price is not None:
            price = offer.price.likely * purchase.money.worth(offer.currency)
            yield offer.row, offer, price, offer.at_most


def _spare(one: Bought) -> dict[str, int]:
    """Whole pieces bought over the plan for knots and mistakes, by row."""
    return {buy.offer.row: round(buy.spare) for buy in one.buys if buy.spare}


def sources_list(sources: Iterable[Source]) -> Table:
    """Works, places in them and how each is known."""
    columns = (Column("work"), Column("place"), Column("how it is known"), Column("note"))
    made = tuple((one.work, one.place, one.known.value, one.note) for one in dict.fromkeys(sources))
    return Table("cost.sources", "What the amounts rest on", columns, made)
