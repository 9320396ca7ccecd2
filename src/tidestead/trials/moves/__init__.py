"""Which changes may mend which checks: one table of rows for each subject, no search and no verdict here."""

from __future__ import annotations

from tidestead.core.answer import Check
from tidestead.trials.moves import climate, electric, flow, lighting, structure, upkeep
from tidestead.trials.remedy import Ladder
from tidestead.trials.said import Asked, Said

ROWS = {
    "structure": structure.ROWS,
    "flow": flow.FLOW_ROWS,
    "foam": flow.FOAM_ROWS,
    "heat": climate.HEAT_ROWS,
    "light": lighting.LIGHT_ROWS,
    "water": upkeep.WATER_ROWS,
    "power": electric.POWER_ROWS,
    "faults": upkeep.FAULT_ROWS,
    "cost": upkeep.COST_ROWS,
}


def ladders_for(said: Said, check: Check) -> tuple[Ladder, ...]:
    """The ladders of changes that may mend a check, each name once."""
    asked = Asked(said, check, {})
    found: dict[str, Ladder] = {}
    for row in ROWS.get(check.id.split(".", 1)[0], ()):
        for ladder in row.ladders(asked, check.id):
            found.setdefault(ladder.name, ladder)
    return tuple(found.values())
