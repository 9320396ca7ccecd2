"""Tables as one workbook: a sheet each, real numbers, heads that stay, ready to print."""

from __future__ import annotations

import io
import math
import re
import textwrap
from collections.abc import Mapping, Sequence
from types import MappingProxyType
from typing import TYPE_CHECKING

from tidestead.core.answer import Table
from tidestead.core.units import System
from tidestead.report.plain import clean
from tidestead.report.sheets_cells import Cell, Plain, is_money, plain_columns

if TYPE_CHECKING:
    from openpyxl.workbook import Workbook
    from openpyxl.worksheet.worksheet import Worksheet

NARROWEST, WIDEST = 6, 34
"""Widths of columns in letters; longer text goes on over more lines."""

LONGEST_NAME = 31
"""Letters that the name of a sheet may have."""

_NOT_IN_NAMES = re.compile(r"[\[\]:*?/\\]")
_LINE, _ITALIC, _BOLD = 15.0, 1.1, 1.15
"""Height of a line in points; how much wider than plain ones such words may run."""

_AIR = 3
"""Letters of room beside the words of a column."""

_NARROW, _EDGE = 0.4, 0.6
"""Margins of paper in inches: at the sides, and above and below, where heads and page numbers stand."""

_WHOLE_SHEET, _A4, _LETTER = 0, 9, 1


def workbook(
    tables: Sequence[Table],
    title: str,
    system: System,
    totals: Mapping[str, Sequence[str]] = MappingProxyType({}),
) -> bytes:
    """The file: a sheet for each table. `totals` are heads of columns that a last row adds up, by table.

    Sums are formulas, which the spreadsheet reckons when it opens the file; all else are values."""
    from openpyxl import Workbook  # noqa: PLC0415 - takes a tenth of a second; wanted by exports only

    book = Workbook()
    book.remove(book.worksheets[0])
    for table in tables:
        _sheet(book, table, (title, system), totals.get(table.id, ()))
    if not tables:
        book.create_sheet("Empty")
    stream = io.BytesIO()
    book.save(stream)
    return stream.getvalue()


def _sheet(book: Workbook, table: Table, said: tuple[str, System], totals: Sequence[str]) -> None:
    title, system = said
    sheet = book.create_sheet(_name(table.id, [one.title for one in book.worksheets]))
    columns = plain_columns(table, system)
    for index, column in enumerate(columns, start=1):
        _column(sheet, index, column)
    last = len(table.rows) + 1
    _heights(sheet, columns, last)
    if columns and table.rows:
        _totals(sheet, columns, totals, last)
    if columns:
        sheet.auto_filter.ref = f"A1:{_letter(len(columns))}{last}"
    if table.note:
        _note(sheet, table.note, last + 3, columns)
    _print(sheet, f"{title}: {table.title}", system)


def _name(ident: str, taken: Sequence[str]) -> str:
    """A table's id without its subject, as a name that a sheet may have and none has yet."""
    wanted = ident.partition(".")[2].replace("-", " ").replace(".", " ").capitalize()
    plain = _NOT_IN_NAMES.sub(" ", clean(wanted)).strip("' ")[:LONGEST_NAME] or "Sheet"
    name, number = plain, 1
    while name.lower() in {one.lower() for one in taken}:
        number += 1
        name = f"{plain[: LONGEST_NAME - 4]} {number}"
    return name


def _column(sheet: Worksheet, index: int, column: Plain) -> None:
    from openpyxl.styles import Alignment, Border, Font, Side  # noqa: PLC0415 - as above

    thin = Side("thin", "FFB8B09C")
    lines = Border(thin, thin, thin, thin)
    _put(sheet, 1, index, column.head)
    head = sheet.cell(1, index)
    head.font, head.border = Font(bold=True), Border(bottom=Side("medium"))
    head.alignment = Alignment(wrap_text=True, vertical="top")
    whole = "#,##0" if is_money(column.column) else "0"
    form = whole + ("." + "0" * column.decimals if column.decimals else "")
    for number, value in enumerate(column.cells, start=2):
        _put(sheet, number, index, value)
        cell = sheet.cell(number, index)
        cell.border = lines
        words = isinstance(value, str)
        cell.alignment = Alignment(
            "left" if words else None, "top", wrap_text=words, indent=1 if words else 0
        )
        if isinstance(value, float):
            cell.number_format = form
    sheet.column_dimensions[_letter(index)].width = _width(column)


def _put(sheet: Worksheet, row: int, column: int, value: Cell) -> None:
    """A value, never a formula: text is marked as text, whatever sign it begins with."""
    cell = sheet.cell(row, column)
    cell.value = value
    if isinstance(value, str):
        cell.data_type = "s"
        cell.quotePrefix = value[:1] in {"=", "+", "-", "@"}


def _heights(sheet: Worksheet, columns: Sequence[Plain], last: int) -> None:
    """Each row as tall as its longest cell needs: not every program finds that out when it opens the file."""
    lines = [1] * (last + 1)
    for column in columns:
        letters = max(int(_width(column)) - 1, 1)
        for row, cell in enumerate((column.head, *column.cells), start=1):
            if isinstance(cell, str):
                room = max(int((letters + 1) / _BOLD), 1) if row == 1 else letters
                wrapped = (max(len(textwrap.wrap(line, room)), 1) for line in cell.split("\n"))
                lines[row] = max(lines[row], sum(wrapped))
    for row in range(1, last + 1):
        sheet.row_dimensions[row].height = _LINE * lines[row]


def _width(column: Plain) -> float:
    """As wide as the longest word of the head and the longest cell, within bounds; a little air beside it."""
    form = f".{column.decimals}f"
    cells = [f"{cell:{form}}" if isinstance(cell, float) else str(cell or "") for cell in column.cells]
    words = math.ceil(_BOLD * max(map(len, column.head.split()), default=0))
    longest = max(
        [words, len(column.head) // 2 + 1, *(len(line) for cell in cells for line in cell.split("\n"))]
    )
    return min(max(longest, NARROWEST), WIDEST) + float(_AIR)


def _totals(sheet: Worksheet, columns: Sequence[Plain], wanted: Sequence[str], last: int) -> None:
    """A row of sums under the columns that are asked for."""
    from openpyxl.styles import Border, Font, Side  # noqa: PLC0415 - as above

    summed = [
        index
        for index, column in enumerate(columns, start=1)
        if column.column.head in wanted and any(isinstance(cell, float) for cell in column.cells)
    ]
    for index in summed:
        letter = _letter(index)
        cell = sheet.cell(last + 1, index)
        cell.value = f"=SUM({letter}2:{letter}{last})"
        cell.number_format = sheet.cell(2, index).number_format
        cell.font, cell.border = Font(bold=True), Border(top=Side("medium"))
    if summed and 1 not in summed:
        _put(sheet, last + 1, 1, "total")
        sheet.cell(last + 1, 1).font = Font(bold=True)


def _note(sheet: Worksheet, note: str, row: int, columns: Sequence[Plain]) -> None:
    """Words under the rows, across all columns, on as many lines as they need."""
    from openpyxl.styles import Alignment, Font  # noqa: PLC0415 - as above

    _put(sheet, row, 1, clean(note))
    sheet.merge_cells(start_row=row, end_row=row, start_column=1, end_column=max(len(columns), 1))
    sheet.cell(row, 1).font = Font(italic=True)
    sheet.cell(row, 1).alignment = Alignment(wrap_text=True, vertical="top")
    wide = sum(_width(column) for column in columns) or WIDEST
    lines = sum(1 + int(len(line) / wide * _ITALIC) for line in note.split("\n"))
    sheet.row_dimensions[row].height = _LINE * lines


def _print(sheet: Worksheet, title: str, system: System) -> None:
    """Across the paper, as wide as the page, heads on every page, what it is and which page above and below."""
    from openpyxl.worksheet.page import PageMargins  # noqa: PLC0415 - as above
    from openpyxl.worksheet.properties import PageSetupProperties  # noqa: PLC0415 - as above

    sheet.freeze_panes = "A2"
    sheet.print_title_rows = "1:1"
    sheet.page_setup.orientation = "landscape"
    sheet.page_setup.paperSize = _LETTER if system == "us" else _A4
    sheet.page_setup.fitToWidth, sheet.page_setup.fitToHeight = 1, _WHOLE_SHEET
    sheet.sheet_properties.pageSetUpPr = PageSetupProperties(fitToPage=True)
    sheet.page_margins = PageMargins(_NARROW, _NARROW, _EDGE, _EDGE, _NARROW / 2.0, _NARROW / 2.0)
    above, below = sheet.HeaderFooter.oddHeader, sheet.HeaderFooter.oddFooter
    if above is not None and below is not None:
        above.left.text = clean(title).replace("&", "&&")[:200]
        below.right.text = "&P / &N"


def _letter(index: int) -> str:
    from openpyxl.utils import get_column_letter  # noqa: PLC0415 - as above

    return str(get_column_letter(index))
