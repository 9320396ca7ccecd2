"""The catalogue's row of a thing that is bought, the user's own rows among them."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from tidestead.catalog import table
from tidestead.plan.items import CATALOGUE, Item

if TYPE_CHECKING:
    from tidestead.catalog import Row
    from tidestead.plan.model.plan import Plan

Rows = Callable[[Item], "Row | None"]
"""Finds the row of an item; None where it is named after none."""


def shipped(item: Item) -> Row | None:
    """The row in our own tables."""
    name = CATALOGUE.get(item.sort)
    if name is None or item.name not in table(name):
        return None
    return table(name)[item.name]


def rows_of(plan: Plan) -> Rows:
    """Looks into our tables and the plan's own rows."""
    tables = {
        name: table(name).with_yours(plan.yours[name], plan.gallons) if name in plan.yours else table(name)
        for name in CATALOGUE.values()
    }

    def found(item: Item) -> Row | None:
        rows = tables.get(CATALOGUE.get(item.sort, ""))
        return rows[item.name] if rows is not None and item.name in rows else None

    return found


def title_of(item: Item, rows: Rows) -> str:
    """What the catalogue calls it, else its own name."""
    row = rows(item)
    return row.title if row is not None else item.name or item.sort


def thickness_of(item: Item, rows: Rows) -> float | None:
    """The thickness of a sheet in metres; None where nothing says it."""
    if item.sort == "clear" and item.sizes:
        return item.sizes[0]
    row = rows(item)
    return row.si("thickness") if row is not None and "thickness" in row.figures else None
