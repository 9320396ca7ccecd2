"""Tables on a page: keys of the plan as links, long ones folded, lines of a list picked out."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from urllib.parse import quote, urlencode

from markupsafe import Markup, escape

from tidestead.core.answer import Answer
from tidestead.core.units import System
from tidestead.plan.model import Plan
from tidestead.web import rows

LONG = 30
"""Rows from which on a table is folded away, and counted."""
PRINTED = ("cost.shopping", "cost.cut-list", "cost.bars")
"""Long tables that are taken along on paper: into the shop and to the saw."""
LINES = "cost.lines"
"""The table in which lines are picked out."""
PICKED = ("trade", "vessel")
"""Heads of its columns by which that is done, from tables whose first column they are."""
UNPRICED = "cost.unpriced"


@dataclass(frozen=True)
class TableShown:
    """A table as the page has it: a cell is words, or a link. `only` says which rows of it were picked out."""

    id: str
    title: str
    note: str
    heads: tuple[tuple[str, bool], ...]
    rows: tuple[tuple[str, ...], ...]
    folded: bool
    only: str = ""

    @property
    def printed(self) -> bool:
        """Whether it is unfolded where the page is printed."""
        return self.id in PRINTED


def shown(answer: Answer, system: System, lines: str = "") -> tuple[TableShown, ...]:
    """Every table of an answer; `lines`, such as "trade:timber", picks out rows of the list of lines."""
    return tuple(_shown(rows.table_told(table, system), answer.subject, lines) for table in answer.tables)


def _shown(table: rows.TableTold, subject: str, lines: str) -> TableShown:
    head, _, word = lines.partition(":")
    names = [name for name, _ in table.heads]
    only = f"{head} {word}" if table.id == LINES and head in PICKED and word else ""
    kept = [row for row in table.rows if not only or row[names.index(head)] == word]
    linked = tuple(
        tuple(_cell(name, cell, subject, table.id) for name, cell in zip(names, row, strict=True))
        for row in kept
    )
    if table.id != LINES and names and names[0] in PICKED:
        linked = tuple((_picks(names[0], row[0], subject), *row[1:]) for row in linked)
    return TableShown(
        table.id, table.title, table.note, table.heads, linked, len(linked) > LONG and not only, only
    )


def _cell(head: str, cell: str, subject: str, table: str) -> str:
    """A cell; keys of the plan in it lead to their form, what has no price to a new row of the price book."""
    if table == UNPRICED and (found := _OF.search(cell)) is not None:
        return escape(cell) + Markup(' <a href="{}">give it a price</a>').format(new_row(found[1]))
    if head != "in the plan" and not head.endswith("row"):
        return cell
    if cell in Plan.model_fields:
        return Markup('<a href="/plan/part/{}?for={}">{}</a>').format(cell, subject, cell)
    parts = _KEY.split(cell)  # every second is a key
    if len(parts) == 1:
        return cell
    link = Markup('<a href="/plan/part/{}?for={}">{}</a>')
    return Markup().join(
        link.format(quote(part, safe=""), subject, part) if at % 2 else part for at, part in enumerate(parts)
    )


def _picks(head: str, word: str, subject: str) -> Markup:
    """A link to the lines of one trade or vessel."""
    query = urlencode({"lines": f"{head}:{word}"})
    return Markup('<a href="/question/{}?{}#lines">{}</a>').format(subject, query, word)


def new_row(item: str) -> str:
    """The address of the form of a new row of the price book for a thing."""
    name = re.sub(r"[^a-z0-9]+", "-", item.lower()).strip("-")[:40].strip("-") or "row"
    return f"/plan/new/book?{urlencode({'name': name, 'of': item})}"


def unpriced(answer: Answer | None) -> tuple[str, ...]:
    """What has no price, as the price book names it."""
    tables = answer.tables if answer is not None else ()
    cells = [str(cell) for table in tables if table.id == UNPRICED for row in table.rows for cell in row]
    return tuple(found[1] for cell in cells if (found := _OF.search(cell)) is not None)


def _any_of(names: Sequence[str]) -> str:
    return "|".join(sorted(names, key=len, reverse=True))


_OF = re.compile(r'of = "([^"]+)"')
_KEY = re.compile(rf"\b((?:{_any_of(tuple(Plan.model_fields))})(?:\.[A-Za-z0-9_-]+)+)")
