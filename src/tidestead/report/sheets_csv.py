"""A table as comma-separated values that spreadsheets open without asking."""

from __future__ import annotations

import csv
import io

from tidestead.core.answer import Table
from tidestead.core.units import System
from tidestead.report.sheets_cells import DIGITS, Cell, guarded, plain_columns

MARK = "\ufeff"
"""First sign of the file: without it spreadsheets on some computers take UTF-8 for an older encoding."""


def csv_text(table: Table, system: System) -> str:
    """The table as RFC 4180 has it: one line of heads, lines ended by CR LF, quotes where they are needed.

    Numbers have a decimal point and no thousands; their unit stands in the head. Written as UTF-8 the text begins
    with a byte order mark.
    """
    columns = plain_columns(table, system)
    stream = io.StringIO()
    writer = csv.writer(stream, lineterminator="\r\n")
    writer.writerow([guarded(column.head) for column in columns])
    for row in zip(*(column.cells for column in columns), strict=True):
        writer.writerow([_written(cell) for cell in row])
    return MARK + stream.getvalue()


def _written(cell: Cell) -> str:
    if cell is None:
        return ""
    if isinstance(cell, str):
        return guarded(cell)
    return f"{cell:.{DIGITS}g}"
