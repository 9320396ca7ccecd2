"""What a timber merchant is asked for, and what every length that comes is sawn into, as plain tables."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby
from typing import TYPE_CHECKING

from tidestead.build.cut_lists import LUMBER, Cells, chosen
from tidestead.build.cut_plans import CutPlans, LengthsCut, is_there, timber_title
from tidestead.build.cutting.numbering import numbers
from tidestead.build.materials import Rows, shipped, title_of
from tidestead.build.timber_sizes import board_feet_of, nominal_sizes, section_words
from tidestead.core.answer import Column, Table

if TYPE_CHECKING:
    from tidestead.core.units import System
    from tidestead.plan.items import Item

MERCHANT_NOTE = (
    "By section, longest first, in lengths that are stocked. Thickness and width are finished sizes; where the section "
    "is a name in inches, board feet go by that name. Spare is for "
    "knots and mistakes. The plan does not say how the timber is treated."
)

BOARD_FEET, VOLUME = "board ft", "m³, finished"
"""The yard's own measures: the one in inches, the other in metres."""

_FEET_AT = 10


def merchant_list(plans: CutPlans, system: System, currency: str = "", rows: Rows = shipped) -> Table:
    """Lengths to buy, with spare ones; those that are there already are a list of their own."""
    columns = (
        Column("qty", "count"),
        Column("of it spare", "count"),
        Column("section"),
        Column("thickness, finished", "m", LUMBER),
        Column("width, finished", "m", LUMBER),
        Column("length", "m", LUMBER),
        Column("grade"),
        Column("finish"),
        Column("treatment"),
        Column("running length", "m", "hose"),
        Column(BOARD_FEET, "1"),
        Column(VOLUME, "1"),
        Column("unit price", currency),
        Column("total", currency),
        Column("from"),
    )
    timber = [cut for cut in plans.lengths if cut.item.sort == "lumber"]
    ordered = sorted(timber, key=lambda cut: (cut.item.sizes, cut.item.name))
    made = tuple(row for cut in ordered for row in _merchant_rows(cut, system, rows))
    whole = Table("cost.merchant", "Merchant's list", columns, made, MERCHANT_NOTE if made else "")
    left_out = VOLUME if system == "us" else BOARD_FEET if all(row[_FEET_AT] is None for row in made) else ""
    return chosen(whole, [column.head for column in columns if column.head != left_out])


def _merchant_rows(cut: LengthsCut, system: System, rows: Rows) -> Iterator[Cells]:
    thick, wide = cut.item.sizes
    for stock, used, spare in cut.used():
        if is_there(stock):
            continue
        count = float(used + spare)
        feet = board_feet_of(cut.item, stock.length)
        amounts = (
            count * stock.length,
            None if feet is None else count * feet,
            count * stock.length * thick * wide,
        )
        money = (stock.price, count * stock.price, stock.name)
        named = (section_words(cut.item, system), thick, wide, stock.length, title_of(cut.item, rows))
        yield (count, float(spare) or None, *named, _finish(cut.item), "", *amounts, *money)


def _finish(item: Item) -> str:
    """What is usual for timber that is sold so. Common practice, no source."""
    return "dressed four sides, dry" if nominal_sizes(item) else "as sized"


def bars_list(plans: CutPlans, system: System, rows: Rows = shipped) -> Table:
    """Every length by number: what it is sawn into, in order, and what is left of it."""
    columns = (
        Column("no."),
        Column("qty", "count"),
        Column("stock"),
        Column("length", "m", LUMBER),
        Column("pieces in order"),
        Column("kerf", "m", LUMBER),
        Column("left over", "m", LUMBER),
        Column("done"),
    )
    made: list[Cells] = []
    for cut, first in plans.numbered_lengths():
        title = timber_title(cut.item, system, rows)
        named = numbers((bar.times for bar in cut.plan.bars), first)
        for bar, name in zip(cut.plan.bars, named, strict=True):
            runs = [(mark, len(list(same))) for mark, same in groupby(bar.marks)]
            order = ", ".join(f"{run} x {mark}" if run > 1 else mark for mark, run in runs)
            made.append(
                (name, float(bar.times), title, bar.stock.length, order, cut.plan.saw.kerf, bar.offcut, "")
            )
    return Table("cost.bars", "What each length is sawn into", columns, tuple(made))
