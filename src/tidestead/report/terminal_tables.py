"""The tables of an answer in a terminal, at any width, without cutting a word."""

from __future__ import annotations

from collections.abc import Sequence

from rich.box import SIMPLE_HEAD, Box
from rich.padding import Padding
from rich.table import Table as Grid
from rich.text import Text

from tidestead.core.answer import Check, Column, Figure, Table, Verdict
from tidestead.report import wording
from tidestead.report.terminal_sheet import Sheet

WIDE_ENOUGH = 76
"""From this width on checks stand in a table; below it each stands in a block of its own."""

_PLAIN_HEAD = Box("    \n    \n -- \n    \n    \n    \n    \n    \n", ascii=True)


def print_checks(sheet: Sheet, checks: Sequence[Check]) -> None:
    """Checks as a table where there is room for one, else as blocks."""
    if sheet.target.width >= WIDE_ENOUGH:
        sheet.target.print(_check_table(sheet, checks))
        return
    for check in checks:
        _print_block(sheet, check)


def _ruled(sheet: Sheet) -> Grid:
    """An empty table with a line under its head."""
    return Grid(
        box=SIMPLE_HEAD if sheet.blocks else _PLAIN_HEAD,
        show_edge=False,
        pad_edge=False,
        padding=(0, 1, 0, 0),
        header_style="bold",
    )


def _check_table(sheet: Sheet, checks: Sequence[Check]) -> Grid:
    table = _ruled(sheet)
    table.add_column("verdict", no_wrap=True)
    table.add_column("check", overflow="fold", ratio=1)
    for head in ("now", "allowed", "used", "margin"):
        table.add_column(head, justify="right", no_wrap=True)
    for check in checks:
        now = "\n".join(
            filter(None, (wording.now(check, sheet.system), wording.adverse(check, sheet.system)))
        )
        table.add_row(
            sheet.sign(check.verdict, check.use),
            _named(sheet, check),
            Text(sheet.say(_broken(now))),
            Text(sheet.say(_broken(wording.allowed(check, sheet.system)))),
            Text(sheet.say(wording.used(check))),
            Text(sheet.say(wording.margin(check)), "bold" if check.verdict is Verdict.FAILS else ""),
        )
    return table


def _broken(value: str) -> str:
    """A limit or range on two lines, so that its column stays narrow."""
    return value.replace("at least ", "at least\n").replace(" to ", " to\n").replace("up to\n", "up to ")


def _named(sheet: Sheet, check: Check) -> Text:
    """What is checked, and under it where, with the mark of its source."""
    where = " ".join(part for part in (wording.place(check), sheet.citations.mark(check.source)) if part)
    return Text(sheet.say(check.what)).append(f"\n{sheet.say(where)}", "dim")


def _print_block(sheet: Sheet, check: Check) -> None:
    head = sheet.sign(check.verdict, check.use)
    sheet.target.print(head.append(f"  {sheet.say(check.what)}", "not bold default"))
    now, adverse = wording.now(check, sheet.system), wording.adverse(check, sheet.system)
    sheet.paragraph(f"{wording.place(check)} {sheet.citations.mark(check.source)}".strip(), indent=4)
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
        value = wording.shown(figure.estimate.likely, figure.unit, sheet.system, figure.style)
        spread = wording.spread(figure.estimate, figure.unit, sheet.system, figure.style)
        rest = ", ".join(part for part in (spread, figure.estimate.basis) if part)
        name = f"{figure.what} {sheet.citations.mark(figure.source)}"
        table.add_row(Text(sheet.say(name)), Text(sheet.say(value)), Text(sheet.say(rest), "dim"))
    return Padding(table, (0, 0, 0, 2))


def print_data(sheet: Sheet, table: Table) -> None:
    """A table of a study where its words and numbers fit side by side, else a block for each row."""
    heads = [sheet.say(column.head) for column in table.columns]
    rows = [
        [sheet.say(_cell(sheet, *pair)) for pair in zip(row, table.columns, strict=True)]
        for row in table.rows
    ]
    wordy = [any(isinstance(row[index], str) for row in table.rows) for index in range(len(heads))]
    least = [_least_width(index, heads, rows, wordy[index]) for index in range(len(heads))]
    if sum(least) + 2 * len(least) <= sheet.target.width:
        sheet.target.print(_data_table(sheet, heads, rows, wordy))
        return
    for row in rows:
        for number, (head, cell) in enumerate(zip(heads, row, strict=True)):
            sheet.paragraph(f"{head}: {cell}", indent=4 if number else 2)


def _least_width(index: int, heads: Sequence[str], rows: Sequence[Sequence[str]], wordy: bool) -> int:
    """The width below which a column would cut a word or break a number from its unit."""
    cells = [row[index] for row in rows]
    pieces = heads[index].split() + ([word for cell in cells for word in cell.split()] if wordy else cells)
    return max(map(len, pieces), default=0)


def _data_table(
    sheet: Sheet, heads: Sequence[str], rows: Sequence[Sequence[str]], wordy: Sequence[bool]
) -> Grid:
    """Numbers to the right, words to the left."""
    made = _ruled(sheet)
    for head, words in zip(heads, wordy, strict=True):
        made.add_column(head, justify="left" if words else "right", overflow="fold")
    for row in rows:
        made.add_row(*(Text(cell, no_wrap=not words) for cell, words in zip(row, wordy, strict=True)))
    return made


def _cell(sheet: Sheet, value: float | str | None, column: Column) -> str:
    if value is None:
        return wording.NOTHING
    return value if isinstance(value, str) else wording.shown(value, column.unit, sheet.system, column.style)
