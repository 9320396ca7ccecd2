"""One list of everything to be bought, each thing once, and the sources that its amounts rest on."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import get_args

from tidestead.build.lists import Line, Phase, Trade, Unit
from tidestead.build.materials import Rows, shipped, title_of
from tidestead.core.answer import Column, Estimate, Table
from tidestead.core.source import Source
from tidestead.core.units import System
from tidestead.plan.items import CATALOGUE, Item

UNITS: tuple[tuple[Unit, str], ...] = (
    ("1", "pieces"),
    ("m", "length"),
    ("m2", "area"),
    ("m3", "volume"),
    ("kg", "weight"),
    ("J", "energy"),
)
"""What amounts are counted in, and the head of the column they stand under."""

NOTE = (
    "Amounts are net: what is cut from lengths and sheets is bought as the cut plan says. Up to is the far end of an "
    "amount that is not certain."
)


def shopping_list(
    lines: Iterable[Line],
    system: System,
    bought: Mapping[Item, str],
    rows: Rows = shipped,
    *,
    yearly: bool = False,
) -> Table:
    """What is bought once, or with `yearly` what is used up in a year.

    `bought` says what a cut plan makes of a thing.
    """
    grouped: dict[tuple[Item, Unit], list[Line]] = {}
    for line in lines:
        if line.yearly is yearly:
            grouped.setdefault((line.item, line.unit), []).append(line)
    units = [(unit, head) for unit, head in UNITS if any(key[1] == unit for key in grouped)]
    columns = [Column("item"), Column("what"), Column("trade"), Column("needed for")]
    for unit, head in units:
        shown = "count" if unit == "1" else unit
        columns += [Column(head, shown, _style(unit)), Column(f"{head}, up to", shown, _style(unit))]
    columns += [Column("bought as"), Column("for"), Column("how it follows")]
    ordered = sorted(grouped.items(), key=lambda pair: _order(pair[1][0]))
    made = [_row(item, unit, found, units, (system, bought, rows)) for (item, unit), found in ordered]
    table = Table("cost.shopping", "Shopping list", tuple(columns), tuple(made), NOTE if made else "")
    return (
        table
        if not yearly
        else Table("cost.yearly", "Used up in a year", table.columns, table.rows, table.note)
    )


def _style(unit: Unit) -> str:
    return "hose" if unit == "m" else ""


def _order(line: Line) -> tuple[int, int, Item]:
    """By who sells it, then by when it is needed."""
    return get_args(Trade).index(line.trade), get_args(Phase).index(line.phase), line.item


def _row(
    item: Item,
    unit: Unit,
    lines: list[Line],
    units: Iterable[tuple[Unit, str]],
    told: tuple[System, Mapping[Item, str], Rows],
) -> tuple[float | str | None, ...]:
    system, bought, rows = told
    amount = _sum(lines)
    amounts: list[float | None] = []
    for one, _ in units:
        amounts += list(amount) if one == unit else [None, None]
    name = title_of(item, rows) if item.sort in CATALOGUE else lines[0].what
    basis = _once(f"{line.basis or line.what}{f': {line.missing}' if line.missing else ''}" for line in lines)
    wanted = _once(line.vessel or "all" for line in lines)
    phases = _once(line.phase for line in lines)
    return (item.written(system), name, lines[0].trade, phases, *amounts, bought.get(item, ""), wanted, basis)


def _sum(lines: Iterable[Line]) -> tuple[float | None, float | None]:
    """The likely amount of all lines, and the far end where it is another; None where one has no amount."""
    found: list[Estimate] = []
    for line in lines:
        if line.amount is None:
            return None, None
        found.append(line.amount)
    likely, high = sum(one.likely for one in found), sum(one.high for one in found)
    return likely, high if high > likely * (1.0 + 1e-9) else None


def _once(words: Iterable[str]) -> str:
    return "; ".join(dict.fromkeys(word for word in words if word))


def sources_list(sources: Iterable[Source]) -> Table:
    """Works, places in them and how each is known."""
    columns = (Column("work"), Column("place"), Column("how it is known"), Column("note"))
    made = tuple((one.work, one.place, one.known.value, one.note) for one in dict.fromkeys(sources))
    return Table("cost.sources", "What the amounts rest on", columns, made)
