"""The tables of an answer in a terminal, at any width, without cutting a word."""

from __future__ import annotations

import itertools
import re
import textwrap
from collections.abc import Sequence

from rich.cells import cell_len
from rich.padding import Padding
from rich.table import Table as Grid
from rich.text import Text

from tidestead.core.answer import Check, Figure, Table
from tidestead.report import wording
from tidestead.report.alike import Row
from tidestead.report.terminal_sheet import Sheet

WIDE_ENOUGH = 76
"""From this width on checks stand in a table; below it each stands in a block of its own."""

SIGN_WIDTH = 14
"""Sign, word and the gap after them."""

GAP = "  "

ROOM_FOR_NAMES = 12
"""Of a check's name, in letters: where figures leave less, they are broken onto more lines."""


def print_checks(sheet: Sheet, checks: Sequence[Row]) -> None:
    """Checks as a table where there is room for one, else as blocks."""
    if sheet.target.width >= WIDE_ENOUGH:
        _print_rows(sheet, checks)
        return
    for row in checks:
        _print_block(sheet, row)


def _print_rows(sheet: Sheet, checks: Sequence[Row]) -> None:
    """One line of figures for a check, its ranges under them, and then where it is made, across the sheet."""
    heads = ("now", "allowed", "used", "margin")
    for narrow in (False, True):
        rows = [_figures(sheet, row.check, narrow) for row in checks]
        widths = [
            max([len(head), *(cell_len(line) for row in rows for line in row[index])])
            for index, head in enumerate(heads)
        ]
        named = sheet.target.width - SIGN_WIDTH - sum(widths) - 2 * len(widths)
        if named >= ROOM_FOR_NAMES:
            break
    top = "".join(f"  {head:>{width}}" for head, width in zip(heads, widths, strict=True))
    sheet.target.print(Text(f"{'verdict':<{SIGN_WIDTH}}{'check':<{named}}{top}", "bold"))
    sheet.target.print(Text(("─" if sheet.blocks else "-") * sheet.target.width, "dim"))
    for told, row in zip(checks, rows, strict=True):
        check = told.check
        names = textwrap.wrap(sheet.say(wording.titled(check)), named) or [""]
        for number, parts in enumerate(itertools.zip_longest(names, *row, fillvalue="")):
            sign = sheet.sign(check.verdict, check.use) if number == 0 else Text("")
            sign.truncate(SIGN_WIDTH, pad=True)
            line = sign.append(_padded(parts[0], named), "not bold default")
            for part, width in zip(parts[1:], widths, strict=True):
                line.append("  " + " " * (width - cell_len(part)) + part, "not bold default")
            sheet.target.print(line, no_wrap=True)
        for words in _under(sheet, told):
            sheet.target.print(Padding(Text(sheet.say(words), "dim"), (0, 0, 0, SIGN_WIDTH), expand=False))


def _under(sheet: Sheet, row: Row) -> list[str]:
    """What stands under the figures of a check: where it is made, where else, what its range rests on."""
    check = row.check
    where = " ".join(part for part in (wording.place(check), sheet.citations.mark(check.source)) if part)
    return [part for part in (where, row.same, wording.range_basis(check), wording.own_band(check)) if part]


def _figures(sheet: Sheet, check: Check, narrow: bool) -> tuple[list[str], list[str], list[str], list[str]]:
    """Now with its range, allowed, used and margin, each on as few lines as keep its column narrow.

    `narrow` breaks the end of a range from its "up to" as well.
    """
    now = [wording.now(check, sheet.system), *_broken(wording.adverse(check, sheet.system), narrow)]
    return (
        [sheet.say(line) for line in now if line],
        [sheet.say(line) for line in _broken(wording.allowed(check, sheet.system))],
        [wording.used(check)],
        [wording.margin(check)],
    )


def _broken(value: str, narrow: bool = False) -> list[str]:
    """A limit or range on two lines."""
    if value.startswith("at least "):
        return ["at least", value.removeprefix("at least ")]
    low, middle, high = value.partition(" to ")
    return [f"{low} to", high] if middle and (narrow or low not in ("up", "down")) else [value]


_WITH_UNIT = re.compile(r"(-?[\d.,\u00a0]+(?:e-?\d+)?) (\D.*)")
"""A number and the unit after it."""


def _padded(text: str, width: int) -> str:
    return text + " " * (width - cell_len(text))


def _print_block(sheet: Sheet, row: Row) -> None:
    check = row.check
    head = sheet.sign(check.verdict, check.use)
    sheet.target.print(head.append(f"  {sheet.say(wording.titled(check))}", "not bold default"))
    now, adverse = wording.now(check, sheet.system), wording.adverse(check, sheet.system)
    for words in _under(sheet, row):
        sheet.paragraph(words, indent=4)
    sheet.paragraph(f"now {now}{f' ({adverse})' if adverse else ''}", indent=4)
    sheet.paragraph(f"allowed {wording.allowed(check, sheet.system)}", indent=4)
    sheet.paragraph(f"used {wording.used(check)}, margin {wording.margin(check)}", indent=4)


def figure_table(sheet: Sheet, figures: Sequence[Figure]) -> Padding:
    """Totals that have no limit, one to a line."""
    table = Grid.grid(padding=(0, 2, 0, 0))
    table.add_column(overflow="fold")
    table.add_column(justify="right", overflow="fold")
    table.add_column(overflow="fold")
    for figure in figures:
        value = wording.likely(figure.estimate, figure.unit, sheet.system, figure.style)
        spread = wording.spread(figure.estimate, figure.unit, sheet.system, figure.style)
        rest = ", ".join(part for part in (spread, figure.estimate.basis) if part)
        name = f"{figure.what} {sheet.citations.mark(figure.source)}"
        table.add_row(Text(sheet.say(name)), Text(sheet.say(value)), Text(sheet.say(rest), "dim"))
    return Padding(table, (0, 0, 0, 2))


def print_data(sheet: Sheet, table: Table) -> None:
    """A table of a study where its words and numbers fit side by side, else a block for each row."""
    heads = [sheet.say(column.head) for column in table.columns]
    down = [[row[index] for row in table.rows] for index in range(len(heads))]
    cells = [
        wording.column_cells(values, column, sheet.system)
        for values, column in zip(down, table.columns, strict=True)
    ]
    rows = [[sheet.say(cell) for cell in row] for row in zip(*cells, strict=True)]
    wordy = [any(isinstance(row[index], str) for row in table.rows) for index in range(len(heads))]
    least = [_least_width(index, heads, rows, wordy[index]) for index in range(len(heads))]
    room = sheet.target.width - (len(heads) - 1) * len(GAP)
    if sum(least) > room:
        heads, rows = _units_in_heads(heads, rows, wordy)
        least = [_least_width(index, heads, rows, wordy[index]) for index in range(len(heads))]
    if sum(least) <= room:
        most = [_most_width(index, heads, rows, wordy[index]) for index in range(len(heads))]
        heads_too = [max(width, cell_len(head)) for width, head in zip(most, heads, strict=True)]
        widths = _shared(_shared(least, most, room), heads_too, room)
        _print_table(sheet, heads, rows, list(zip(widths, wordy, strict=True)))
        return
    for row in rows:
        for number, (head, cell) in enumerate(zip(heads, row, strict=True)):
            sheet.paragraph(f"{head}: {cell}", indent=4 if number else 2)


def _units_in_heads(
    heads: Sequence[str], rows: Sequence[Sequence[str]], wordy: Sequence[bool]
) -> tuple[list[str], list[list[str]]]:
    """The table with the unit of a column said once, in its head, where all its numbers have the same."""
    columns = [list(column) for column in zip(*rows, strict=True)]
    told = list(heads)
    for index, column in enumerate(columns):
        found = [_WITH_UNIT.fullmatch(cell) for cell in column if cell != wording.NOTHING]
        units = {match[2] if match else "" for match in found}
        if wordy[index] or len(units) != 1 or units == {""}:
            continue
        told[index] = f"{heads[index]}, {units.pop()}"
        columns[index] = [match[1] if (match := _WITH_UNIT.fullmatch(cell)) else cell for cell in column]
    return told, [list(row) for row in zip(*columns, strict=True)]


def _least_width(index: int, heads: Sequence[str], rows: Sequence[Sequence[str]], wordy: bool) -> int:
    """The width below which a column would cut a word or break a number from its unit."""
    cells = [row[index] for row in rows]
    pieces = heads[index].split() + ([word for cell in cells for word in cell.split()] if wordy else cells)
    return max(map(cell_len, pieces), default=0)


def _most_width(index: int, heads: Sequence[str], rows: Sequence[Sequence[str]], wordy: bool) -> int:
    """The width that a column can use: heads over numbers had better break than take room from words."""
    least = _least_width(index, heads, rows, wordy)
    return max([least, cell_len(heads[index]), *(cell_len(row[index]) for row in rows)]) if wordy else least


def _shared(least: Sequence[int], most: Sequence[int], room: int) -> list[int]:
    """Column widths: what each needs at least, and of the room left over as much as it can use, narrow ones first."""
    widths = list(least)
    left = room - sum(least)
    for remaining, index in zip(
        range(len(widths), 0, -1),
        sorted(range(len(widths)), key=lambda place: most[place] - least[place]),
        strict=True,
    ):
        more = min(most[index] - least[index], left // remaining)
        widths[index] += more
        left -= more
    return widths


def _print_table(
    sheet: Sheet, heads: Sequence[str], rows: Sequence[Sequence[str]], columns: Sequence[tuple[int, bool]]
) -> None:
    """Numbers to the right, words to the left. Words of the first column that repeat are said once."""
    _print_row(sheet, heads, columns, "bold")
    across = sum(width for width, _ in columns) + len(GAP) * (len(columns) - 1)
    sheet.target.print(Text(("─" if sheet.blocks else "-") * across, "dim"))
    for name, group in itertools.groupby(rows, key=lambda row: row[0] if columns[0][1] else ""):
        _print_group(sheet, name, list(group), columns)


def _print_group(
    sheet: Sheet, name: str, rows: Sequence[Sequence[str]], columns: Sequence[tuple[int, bool]]
) -> None:
    """Rows whose first column says the same words: these once, beside the first of the rows."""
    if not columns[0][1]:
        for row in rows:
            _print_row(sheet, row, columns, "")
        return
    lines = [line for row in rows for line in _lines(row[1:], columns[1:])]
    for first, rest in itertools.zip_longest(textwrap.wrap(name, columns[0][0]), lines, fillvalue=""):
        sheet.target.print(Text(f"{_padded(first, columns[0][0])}{GAP}{rest}".rstrip()), no_wrap=True)


def _print_row(sheet: Sheet, cells: Sequence[str], columns: Sequence[tuple[int, bool]], style: str) -> None:
    for line in _lines(cells, columns):
        sheet.target.print(Text(line.rstrip(), style), no_wrap=True)


def _lines(cells: Sequence[str], columns: Sequence[tuple[int, bool]]) -> list[str]:
    """The lines that one row takes, its cells wrapped within their columns."""
    wrapped = [
        textwrap.wrap(cell, max(width, 1)) or [""] for cell, (width, _) in zip(cells, columns, strict=True)
    ]
    return [
        GAP.join(
            _padded(part, width) if words else " " * (width - cell_len(part)) + part
            for part, (width, words) in zip(parts, columns, strict=True)
        )
        for parts in itertools.zip_longest(*wrapped, fillvalue="")
    ]
