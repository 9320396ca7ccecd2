"""Every default that was used because the plan is silent, with what to write to override it."""

from __future__ import annotations

from tidestead.core.answer import Assumption
from tidestead.core.source import PRACTICE, STATICS
from tidestead.core.units import show
from tidestead.studies.inputs import Inputs
from tidestead.studies.structure.facts import StructureFacts, VesselFacts
from tidestead.studies.structure.ground_checks import OWN_SHARE
from tidestead.studies.structure.lining_checks import FALLBACK_HUMIDITY
from tidestead.studies.structure.timber import FALLBACK_WOOD_C
from tidestead.studies.structure.water import FALLBACK_C, FALLBACK_PSU


def assumptions_of(inputs: Inputs, facts: StructureFacts) -> tuple[Assumption, ...]:
    """Defaults of the plan first, then those of each vessel."""
    plan, system = inputs.plan, inputs.system
    found = []
    if plan.water.salinity is None:
        found.append(Assumption("water.salinity", f"{FALLBACK_PSU:g} psu", "the sea's usual salinity", PRACTICE))
    if plan.water.keep is None:
        found.append(Assumption("water.keep", show(FALLBACK_C, "degC", system), "water is heaviest when coolest", PRACTICE))
    if plan.building.humidity is None:
        low, high = FALLBACK_HUMIDITY
        found.append(Assumption("building.humidity", f"{100 * low:g} to {100 * high:g} %", "air beside open water", PRACTICE))
    for vessel in facts.built:
        found += _of_vessel(inputs, vessel)
    return tuple(found)


def _of_vessel(inputs: Inputs, facts: VesselFacts) -> list[Assumption]:
    key, vessel, system = f"vessels.{facts.subject.key}", facts.subject.vessel, inputs.system
    found = []
    if vessel.brim is None:
        found.append(Assumption(f"{key}.brim", show(vessel.height, "m", system, "level"), "it spills over the wall's top", STATICS))
    if vessel.wood is None:
        found.append(Assumption(f"{key}.wood", "wet", "wood may get and stay wet unless proved otherwise", PRACTICE))
    if vessel.warmest_wood is None and inputs.plan.building.warmest_wood is None:
        found.append(Assumption(f"{key}.warmest_wood", show(FALLBACK_WOOD_C, "degC", system), "no more than this costs no strength", PRACTICE))
    if vessel.dry_mass_share is None:
        found.append(Assumption(f"{key}.dry_mass_share", f"{100 * OWN_SHARE:g} %", "own mass over that of its water when full", PRACTICE))
    found.append(Assumption(f"{key}.stud span", "the wall's whole height", "studs turn freely at foot and head", STATICS))
    for name, wall in vessel.walls.items():
        for window_name, window in wall.windows.items():
            if window.from_left is None:
                found.append(Assumption(f"{key}.walls.{name}.windows.{window_name}.from_left", "centred", "in the middle of its wall", PRACTICE))
        if wall.studs is not None:
            for joint, fixing in (("top", wall.studs.top), ("foot", wall.studs.foot)):
                if fixing.fastener is not None and fixing.into is None:
                    found.append(Assumption(f"{key}.walls.{name}.studs.{joint}.into", "end", "the weaker is taken", PRACTICE))
    return found
