"""What the plan takes beside timber, sheathing, clear sheets and fasteners."""

from __future__ import annotations

from collections.abc import Iterator

from tidestead.build.lists import TakenOff
from tidestead.build.takeoff.findings import Finding, taken
from tidestead.build.takeoff.house import house_taken
from tidestead.build.takeoff.linings import linings_taken
from tidestead.build.takeoff.machines import machines_taken
from tidestead.build.takeoff.pipework import pipework_taken
from tidestead.build.takeoff.running import energy_taken, heat_of_changes
from tidestead.build.takeoff.seals import seals_taken
from tidestead.build.takeoff.studied import Studies
from tidestead.build.takeoff.water import water_taken
from tidestead.plan.model import Plan

__all__ = ["Studies", "rest_taken"]


def rest_taken(plan: Plan, studies: Studies) -> TakenOff:
    """Linings, seals, pipework, house, machines, water and the energy of a year."""
    return taken(_found(plan, studies))


def _found(plan: Plan, studies: Studies) -> Iterator[Finding]:
    yield from linings_taken(plan)
    yield from seals_taken(plan)
    yield from pipework_taken(plan)
    yield from house_taken(plan)
    yield from machines_taken(plan)
    yield from water_taken(plan, studies)
    yield from energy_taken(plan, studies)
    yield from heat_of_changes(plan, studies)
