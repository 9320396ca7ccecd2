"""Tables of the answer: bubbles side by side, foam sizes in the neck, clean-up times, oxygen."""

from __future__ import annotations

import math

from tidestead.catalog import table as catalog_table
from tidestead.core.answer import Column, Table
from tidestead.studies.foam.facts import FoamFacts, TowerFoam


def tables_told(facts: FoamFacts) -> tuple[Table, ...]:
    """Every table that has rows."""
    found = []
    for tower in facts.towers:
        found += [_bubbles(tower), _necks(tower), _times(tower)]
    found.append(_oxygen(facts))
    return tuple(table for table in found if table.rows)


def _bubbles(tower: TowerFoam) -> Table:
    columns = (
        Column("bubble"),
        Column("air used of flooding", "1", "share"),
        Column("air in the column", "1", "share"),
        Column("bubble stays", "s"),
        Column("water stays", "s"),
        Column("surface of bubbles", "m2"),
        Column("smaller bubbles leave with the water", "m", "film"),
        Column("water that would sweep all down", "m3/s"),
    )
    rows = tuple(
        (
            f"{1000.0 * state.bubble:g} mm",
            state.flooding_use if math.isfinite(state.flooding_use) else None,
            state.holdup,
            state.bubble_dwell,
            state.water_dwell,
            state.surface,
            state.carry_under if state.carry_under is None or math.isfinite(state.carry_under) else None,
            state.most_water * tower.area,
        )
        for state in tower.columns
    )
    note = "One size of bubble is assumed in each line, and it governs all of it. Empty places: the column floods."
    return Table(
        f"foam.{tower.key}.bubbles", f"{tower.key}: sizes of bubble side by side", columns, rows, note
    )


def _necks(tower: TowerFoam) -> Table:
    columns = (
        Column("foam of bubbles"),
        Column("air used of what the neck bears", "1", "share"),
        Column("least neck", "m", "sheet"),
        Column("air used of what leaves the foam dry", "1", "share"),
    )
    rows = tuple(
        (f"{1000.0 * neck.bubble:g} mm", neck.use, 2.0 * math.sqrt(neck.least_area / math.pi), neck.dry_use)
        for neck in tower.necks
    )
    note = (
        "Stable foam, an upper bound: real foam bursts and coarsens on its way, and bears more. Make the neck a ring "
        "that can be changed. How much runs over is not told by this."
    )
    return Table(f"foam.{tower.key}.neck", f"{tower.key}: foam in the neck", columns, rows, note)


def _times(tower: TowerFoam) -> Table:
    row = catalog_table("foam_limits")["organic-carbon"]
    columns = (
        Column("gone of what can be skimmed"),
        Column("if a pass takes all", "s"),
        Column("if it takes half", "s"),
        Column("if it takes a quarter", "s"),
        Column("left of all the carbon, at best", "1", "share"),
        Column("at worst", "1", "share"),
    )
    rows: tuple[tuple[float | str | None, ...], ...] = tuple(
        (
            f"{100.0 * share:g} %",
            *times,
            1.0 - share * row.si("share_high"),
            1.0 - share * row.si("share_low"),
        )
        for share, *times in tower.times
    )
    note = (
        "Without anything new coming in. Only 20 to 30 % of the dissolved carbon can be skimmed at all; the rest stays "
        "whatever the time."
    )
    return Table(
        f"foam.{tower.key}.times", f"{tower.key}: how long it takes to clean up", columns, rows, note
    )


def _oxygen(facts: FoamFacts) -> Table:
    columns = (
        Column("where"),
        Column("how"),
        Column("low", "g/h"),
        Column("likely", "g/h"),
        Column("high", "g/h"),
    )
    rows = tuple((gain.where, gain.how, gain.low, gain.likely, gain.high) for gain in facts.gas.gains)
    note = (
        f"When the water has sunk to {facts.gas.danger:g} mg/L, at the warmest kept, where it can hold "
        f"{facts.gas.warm:.2f} mg/L. A kilogram of resting fish of 100 g takes about 0.2 g an hour, feeding ones two "
        "to three times that."
    )
    return Table("foam.oxygen", "Oxygen that comes in when it runs short", columns, rows, note)
