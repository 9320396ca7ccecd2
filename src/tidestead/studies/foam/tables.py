"""Tables of the answer: bubbles side by side, foam sizes in the neck, clean-up times, oxygen."""

from __future__ import annotations

import math

from tidestead.catalog import table as catalog_table
from tidestead.core.answer import Column, Table
from tidestead.core.units import System, show
from tidestead.studies.foam.bubble_steps import size_words
from tidestead.studies.foam.facts import FoamFacts, TowerFoam
from tidestead.studies.foam.gas import SHOALS
from tidestead.studies.foam.neck_checks import dry_width, least_width


def tables_told(facts: FoamFacts, system: System) -> tuple[Table, ...]:
    """Every table that has rows."""
    found = []
    for tower in facts.towers:
        found += [_bubbles(tower, system), _necks(tower, system), _times(tower)]
    found.append(_oxygen(facts, system))
    return tuple(table for table in found if table.rows)


def _bubbles(tower: TowerFoam, system: System) -> Table:
    columns = (
        Column("bubble"),
        Column("air used of flooding", "1", "share"),
        Column("air in the column", "1", "share"),
        Column("bubble stays", "s"),
        Column("water stays", "s"),
        Column("surface of bubbles", "m2"),
        Column("smaller bubbles leave with the water", "m", "bubble"),
        Column("water that would sweep all down", "m3/s"),
    )
    rows = tuple(
        (
            size_words(state.bubble, system),
            state.flooding_use if math.isfinite(state.flooding_use) else None,
            state.holdup,
            state.bubble_dwell,
            state.water_dwell,
            state.surface,
            state.carry_under if state.carry_under is None or math.isfinite(state.carry_under) else None,
            None if tower.way.rises else state.most_water * tower.area,
        )
        for state in tower.columns
    )
    note = (
        "One size of bubble is assumed in each line, and it governs all of it: diffusers make a mixture, which changes "
        "as they clog. Empty places: the column floods, or the water rises with the bubbles."
    )
    return Table(
        f"foam.{tower.key}.bubbles", f"{tower.key}: sizes of bubble side by side", columns, rows, note
    )


def _necks(tower: TowerFoam, system: System) -> Table:
    columns = (
        Column("foam of bubbles"),
        Column("air used of what the neck bears", "1", "share"),
        Column("least neck", "m", "sheet"),
        Column("air used of what leaves the foam dry", "1", "share"),
        Column("neck that would leave it dry", "m", "sheet"),
    )
    rows = tuple(
        (size_words(neck.bubble, system), neck.use, least_width(neck), neck.dry_use, dry_width(tower, neck))
        for neck in tower.necks
    )
    note = (
        "Stable foam: an upper bound of how wet it is. Dry is meant as a twentieth of water, a figure of ours without "
        "a source: past 100 % foam of that size runs over wetter. How much runs over is not told by this."
    )
    return Table(f"foam.{tower.key}.neck", f"{tower.key}: foam in the neck", columns, rows, note)


def _times(tower: TowerFoam) -> Table:
    row = catalog_table("foam_limits")["organic-carbon"]
    columns = (
        Column("gone of what can be skimmed"),
        *(Column(f"if a pass takes {100.0 * one:.3g} %", "s") for one in tower.efficiencies),
        Column("left of all the carbon, at best", "1", "share"),
        Column("at worst", "1", "share"),
    )
    rows: tuple[tuple[float | str | None, ...], ...] = tuple(
        (
            f"{100.0 * share:g} %",
            *times,
            round(1.0 - share * row.si("share_high"), 3),
            round(1.0 - share * row.si("share_low"), 3),
        )
        for share, *times in tower.times
    )
    note = (
        "At the likely flow, without anything new coming in. Only 20 to 30 % of the dissolved carbon can be skimmed at "
        "all; the rest stays whatever the time: it takes water changes, carbon or bacteria."
    )
    return Table(
        f"foam.{tower.key}.times", f"{tower.key}: how long it takes to clean up", columns, rows, note
    )


def _oxygen(facts: FoamFacts, system: System) -> Table:
    columns = (
        Column("where"),
        Column("how"),
        Column("low", "g/h"),
        Column("likely", "g/h"),
        Column("high", "g/h"),
    )
    rows = tuple((gain.where, gain.how, gain.low, gain.likely, gain.high) for gain in facts.gas.gains)
    row, lively = catalog_table("oxygen")["still-surface"], catalog_table("oxygen")["lively-fish"]
    speeds = tuple(row.si(name) for name in ("speed_low", "speed", "speed_high"))
    slow, likely, quick = (show(speed, "m/s", system, "", speeds) for speed in speeds)
    fish, stock = (show(weight, "kg", system) for weight in SHOALS[system])
    sunk = (
        f"When the water has sunk to {facts.gas.danger:g} mg/L, at the warmest kept, where it can hold "
        f"{facts.gas.warm:.2f} mg/L."
    )
    if facts.gas.warm <= facts.gas.danger:
        sunk = (
            f"At the warmest kept, and at this height, water holds no more than {facts.gas.warm:.2f} mg/L: less than "
            f"the {facts.gas.danger:g} mg/L below which animals suffer, so that air takes oxygen out of what has more."
        )
    note = (
        f"{sunk} A still surface lets oxygen in at {slow} to {quick}, likely {likely}, measured on "
        "small lakes without wind and so for an open, clean surface; indoors nothing measured was found: under a cover "
        f"or an oily film count on the low figure. {stock} of resting fish of {fish} each take about "
        f"{facts.gas.fish[system]:.2g} g/h of it, feeding ones {lively.si('factor_low'):g} to "
        f"{lively.si('factor_high'):g} times that."
    )
    return Table("foam.oxygen", "Oxygen that comes in when it runs short", columns, rows, note)
