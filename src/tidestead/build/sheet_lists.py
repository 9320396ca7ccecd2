"""What a sheet merchant and a cutter of clear sheet are asked for, as plain tables."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from tidestead.build.cut_lists import FINE, Cells, assembly
from tidestead.build.cut_plans import CutPlans, SheetsCut, is_there
from tidestead.build.materials import Rows, shipped, thickness_of, title_of
from tidestead.core.answer import Column, Table

if TYPE_CHECKING:
    from tidestead.build.lists import SheetPart
    from tidestead.catalog import Row
    from tidestead.plan.items import Item

SHEET = "sheet"
"""Style of lengths of sheets."""

SHEETS_NOTE = (
    "Bond, grade and standard as is usual for the sort of sheet, common practice, no source: what the plan's sums rest "
    "on is the product."
)

CLEAR_NOTE = (
    "Finished sizes: the cutter adds the kerf of the saw or router in use. The tolerance is on the thickness, by the "
    "standard that the catalogue names. Keep the masking on both faces until the sheet stands in its seat. Masking and "
    "annealing: common practice, no source."
)


def sheets_list(plans: CutPlans, currency: str = "", rows: Rows = shipped) -> Table:
    """Whole sheets to buy, by product and size; those that are there already are a list of their own."""
    columns = (
        Column("qty", "count"),
        Column("product"),
        Column("thickness", "m", FINE),
        Column("sheet, along", "m", SHEET),
        Column("sheet, across", "m", SHEET),
        Column("grade"),
        Column("bond"),
        Column("standard"),
        Column("unit price", currency),
        Column("total", currency),
        Column("from"),
    )
    made = tuple(row for cut in plans.sheets for row in _sheet_rows(cut, rows))
    return Table("cost.sheets", "Sheets", columns, made, SHEETS_NOTE if made else "")


def _sheet_rows(cut: SheetsCut, rows: Rows) -> Iterator[Cells]:
    row = rows(cut.item)
    for stock, used, spare in cut.used():
        if is_there(stock):
            continue
        count = float(used + spare)
        size = (thickness_of(cut.item, rows), stock.along, stock.across)
        money = (stock.price, count * stock.price, stock.name)
        yield (count, title_of(cut.item, rows), *size, *_made_as(cut.item, row), *money)


def _made_as(item: Item, row: Row | None) -> tuple[str, str, str]:
    """Grade, bond and standard of a sort of sheet."""
    if row is None:
        return "", "", ""
    kind, european = str(row.tag("kind", "")), row.tag("basis", "") == "EC5"
    if item.sort == "clear":
        standards = {"cast": "ISO 7823-1", "extruded": "ISO 7823-2"}
        made = str(row.tag("made", ""))
        return made, "", standards.get(made, "") if kind == "acrylic" else ""
    grade = str(row.tag("span_rating", "")) or str(row.tag("plies", ""))
    if kind == "plywood":
        wet = bool(row.tag("wet_places", False))
        bond = ("EN 314-2 class 3" if european else "Exterior") if wet else ""
        return grade, bond, "EN 13986, EN 636" if european else "PS 1"
    return grade, "", "EN 13986, EN 300" if european else "PS 2"


def clear_list(parts: Iterable[SheetPart], rows: Rows = shipped) -> Table:
    """Clear sheets cut to size: what the cutter must be told of each."""
    columns = (
        Column("mark"),
        Column("part"),
        Column("assembly"),
        Column("qty", "count"),
        Column("thickness", "m", FINE),
        Column("tolerance, plus or minus", "m", FINE),
        Column("width", "m", SHEET),
        Column("height", "m", SHEET),
        Column("material"),
        Column("made"),
        Column("edges"),
        Column("annealed"),
        Column("masking"),
        Column("kerf"),
        Column("holes", "count"),
    )
    made = tuple(_clear_row(part, rows) for part in parts if part.item.sort == "clear")
    return Table("cost.clear-sheets", "Clear sheets, cut to size", columns, made, CLEAR_NOTE if made else "")


def _clear_row(part: SheetPart, rows: Rows) -> Cells:
    row, thick = rows(part.item), thickness_of(part.item, rows)
    acrylic = row is not None and row.tag("kind", "") == "acrylic"
    where = assembly(part.key, part.vessel)
    size = (float(part.count), thick, _tolerance(row, thick), part.width, part.height)
    made = str(row.tag("made", "")) if row is not None else ""
    work = (part.edges or "as the cutter proposes", "after all machining" if acrylic else "")
    masking = "both faces" if acrylic else ""
    return (
        part.mark, part.what, where, *size, title_of(part.item, rows), made, *work, masking, "cutter's own",
        float(len(part.holes)),
    )  # fmt: skip


def _tolerance(row: Row | None, thick: float | None) -> float | None:
    """By how much a sheet may be thicker or thinner than it is called; None where the catalogue is silent."""
    if row is None or thick is None or not row.has("thickness_tolerance_fixed"):
        return None
    return row.si("thickness_tolerance_fixed") + row.si("thickness_tolerance_share") * thick
