"""How high may it be filled today: in a table, and in a sentence."""

from __future__ import annotations

from tidestead.core.answer import Column, Table
from tidestead.core.units import System, show
from tidestead.studies.structure.facts import VesselFacts
from tidestead.studies.structure.levels import SafeLevel


def level_table(facts: VesselFacts) -> Table:
    """Highest levels as found, and as drawn where something is measured."""
    key = facts.subject.key
    columns = (
        Column("taken"),
        Column("every check sound up to", "m", "level"),
        Column("nothing fails up to", "m", "level"),
        Column("what stops it"),
        Column("in service", "m", "level"),
    )
    measured = facts.level_as_drawn is not None
    now = "as found" if measured else "as planned"
    rows = tuple(
        (words, level.sound, level.holds, _stop(level), facts.subject.vessel.water)
        for words, level in ((now, facts.level), ("as drawn", facts.level_as_drawn))
        if level is not None
    )
    note = (
        "Depths above the highest place of the floor, standing for good. A dash: not even the least depth looked at. "
        "Checks that no water level changes are left out here; a caution names those of them that fail."
    )
    return Table(f"structure.{key}.level", f"{key}: how high may it be filled today?", columns, rows, note)


def _stop(level: SafeLevel) -> str:
    return f"{level.governs_where}: {level.governs}" if level.governs else "the brim"


def level_sentence(facts: VesselFacts, system: System) -> str:
    """What a builder may do today with a vessel that fails."""
    level = facts.level
    if level is None:
        return ""
    if level.holds is None and level.governs:
        return (
            f"Keep water out of {facts.subject.key} until {level.governs_where} ({level.governs}) is settled."
        )
    if level.holds is None:
        return f"Keep water out of {facts.subject.key} until it is mended."
    holds = show(level.holds, "m", system, "level")
    if level.sound is None:
        return f"Until it is mended, nothing fails in {facts.subject.key} up to {holds}, but nothing is sound either."
    depth = show(level.sound, "m", system, "level")
    return f"Until it is mended, fill {facts.subject.key} no higher than {depth}; from {holds} on something fails."
