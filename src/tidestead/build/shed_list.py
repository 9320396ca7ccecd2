"""What is cut from lengths and sheets that are there already: nobody is asked for it, so it is a list of its own."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from tidestead.build.cut_lists import LUMBER, Cells
from tidestead.build.cut_plans import CutPlans, is_there, timber_title
from tidestead.build.materials import Rows, shipped, title_of
from tidestead.build.sheet_lists import SHEET
from tidestead.core.answer import Column, Table

if TYPE_CHECKING:
    from tidestead.core.units import System


def shed_list(plans: CutPlans, system: System, rows: Rows = shipped) -> Table:
    """Lengths and sheets on hand that the plans use; what is there and not needed is not in it."""
    columns = (
        Column("qty", "count"),
        Column("what"),
        Column("length", "m", LUMBER),
        Column("sheet, along", "m", SHEET),
        Column("sheet, across", "m", SHEET),
    )
    return Table("cost.on-hand", "Taken from what is there", columns, tuple(_rows(plans, system, rows)))


def _rows(plans: CutPlans, system: System, rows: Rows) -> Iterator[Cells]:
    for cut in plans.lengths:
        for stock, used, spare in cut.used():
            if is_there(stock):
                yield float(used + spare), timber_title(cut.item, system, rows), stock.length, None, None
    for cut_sheets in plans.sheets:
        for board, used, spare in cut_sheets.used():
            if is_there(board):
                yield float(used + spare), title_of(cut_sheets.item, rows), None, board.along, board.across
