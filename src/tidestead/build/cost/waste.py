"""What is bought over the net amount where no cut plan says what is bought: cuts, laps, what is lost."""

from __future__ import annotations

from tidestead.catalog import Row, table
from tidestead.plan.items import OWN, Item

_SCREWS = "-screw"


def waste_row(item: Item) -> Row | None:
    """The row of its name, else of its sort; None where nothing is lost."""
    limits = table("cost_limits")
    sort = "fastener" if item.sort == OWN and item.name.endswith(_SCREWS) else item.sort
    names = (f"waste-{sort}-{item.name}", f"waste-{sort}")
    return next((limits[name] for name in names if name in limits), None)


def with_waste(item: Item, amount: float) -> float:
    """An amount with what is lost of it. Not for what a cut plan holds: its waste is in the plan."""
    row = waste_row(item)
    return amount if row is None else amount * (1.0 + row.si("share"))
