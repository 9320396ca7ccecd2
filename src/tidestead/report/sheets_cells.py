"""A table as the cells of a spreadsheet: real numbers in the reader's unit, which the head of the column says."""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import TypeAlias

from tidestead.core.answer import Column, Table
from tidestead.core.units import DIMENSIONS, System, show
from tidestead.core.units.dimensions import Unit
from tidestead.core.units.showing import label, shared_unit
from tidestead.report import wording
from tidestead.report.plain import clean

Cell: TypeAlias = float | str | None

DIGITS = 8
"""Significant digits of a number in a file: more than any saw or scale needs, and none of a float's last bits."""

_CURRENCY = re.compile("[A-Z]{3}")
_CENTS, _MOST = 2, 4
_CLOSE = 0.05
"""Millimetres that no saw knows of."""

_LENGTHS = {
    "metric": {"": "m", "level": "m", "head": "m", "hose": "m", "air": "m", "day": "m", "film": "um"},
    "us": {"": "ft", "level": "ft", "head": "ft", "hose": "ft", "air": "ft", "day": "ft", "film": "mil"},
}
"""Units of lengths by their style; all others in millimetres or inches, decimal."""

_IN_FRACTIONS = ("lumber", "sheet")
"""Styles of lengths that a US reader is also told in feet, inches and fractions, in a column of their own."""


@dataclass(frozen=True)
class Plain:
    """One column: its head with the unit, its cells, and the decimals that its numbers need."""

    head: str
    cells: tuple[Cell, ...]
    decimals: int
    column: Column


def plain_columns(table: Table, system: System) -> tuple[Plain, ...]:
    """The columns of a table in the reader's units. No cell begins a formula: text stands as it is, cleaned."""
    made: list[Plain] = []
    for index, column in enumerate(table.columns):
        cells = [row[index] for row in table.rows]
        made.append(_in_unit(column, cells, system))
        if (
            system == "us"
            and column.unit == "m"
            and column.style in _IN_FRACTIONS
            and any(map(_number, cells))
        ):
            told = tuple(_told(cell, column, system) for cell in cells)
            made.append(Plain(f"{column.head}, in words", told, 0, column))
    return tuple(made)


def guarded(text: str) -> str:
    """Text that a spreadsheet cannot take for a formula: an apostrophe stands before what would begin one."""
    return f"'{text}" if text[:1] in {"=", "+", "-", "@", "\t", "\r"} else text


def _in_unit(column: Column, cells: Sequence[Cell], system: System) -> Plain:
    numbers = [cell for cell in cells if _number(cell)]
    if column.style == wording.SHARE:
        unit = Unit("%", Fraction(1, 100))
    elif not numbers or column.unit in ("", "1", "count"):
        unit = Unit("", Fraction(1))
    else:
        unit = _unit(column, numbers, system)  # type: ignore[arg-type]  # they are the numbers among the cells
    word = label(unit.symbol) if unit.symbol else ""
    shown = tuple(_cell(cell, unit, column, system) for cell in cells)
    head = f"{clean(column.head)}, {word or unit.symbol}" if unit.symbol and numbers else clean(column.head)
    told = [cell for cell in shown if isinstance(cell, float)]
    return Plain(head, shown, _decimals(column, told, unit.symbol == "mm"), column)


def _unit(column: Column, numbers: Sequence[float], system: System) -> Unit:
    if column.unit == "m":
        symbol = _LENGTHS[system].get(column.style, "mm" if system == "metric" else "in")
        return DIMENSIONS["length"].units[symbol]
    return shared_unit(numbers, column.unit, system, column.style)


def _number(cell: Cell) -> bool:
    return isinstance(cell, int | float) and math.isfinite(cell)


def _cell(cell: Cell, unit: Unit, column: Column, system: System) -> Cell:
    if cell is None:
        return None
    if isinstance(cell, str):
        return clean(cell)
    if not math.isfinite(cell):
        return wording.shown(cell, column.unit, system)
    return float(f"{float(unit.from_si(Fraction(cell))):.{DIGITS}g}")


def _told(cell: Cell, column: Column, system: System) -> str | None:
    return show(cell, "m", system, column.style) if isinstance(cell, int | float) else None


def is_money(column: Column) -> bool:
    """Whether its numbers are sums of money: its unit is a currency."""
    return _CURRENCY.fullmatch(column.unit) is not None


def _decimals(column: Column, numbers: Sequence[float], in_millimetres: bool) -> int:
    """Two for money, one at most for what is sawn in millimetres; else the fewest that show every number as it is.

    Where four do not, three digits of the smallest; of a length at least four decimals, of anything else one.
    """
    if is_money(column):
        return _CENTS
    if in_millimetres and column.style in _IN_FRACTIONS:
        return 0 if all(abs(number - round(number)) <= _CLOSE for number in numbers) else 1
    for places in range(_MOST + 1):
        if all(abs(number - round(number, places)) <= 1e-9 * max(1.0, abs(number)) for number in numbers):
            return places
    smallest = min(abs(number) for number in numbers if number)
    least = _MOST if column.unit == "m" else 1
    return min(max(least, 2 - math.floor(math.log10(smallest))), 9)
