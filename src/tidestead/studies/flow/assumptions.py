"""Every default that was used because the plan is silent, with what to write to override it."""

from __future__ import annotations

from tidestead.core.answer import Assumption
from tidestead.core.source import PRACTICE, Known, Source
from tidestead.core.units import System, show
from tidestead.plan.model import Plan
from tidestead.studies.flow.facts import FlowFacts
from tidestead.studies.flow.lines import EDGE, ENTRY, EXIT
from tidestead.studies.flow.stops import PRIMING
from tidestead.studies.vessels import FALLBACK_C, FALLBACK_PSU

_TEES = Source("Crane TP-410 (2009)", "chapter 2", Known.QUOTED)


def assumptions_of(plan: Plan, facts: FlowFacts, system: System) -> tuple[Assumption, ...]:
    """Water first, then lines, pumps and vessels."""
    found: list[Assumption] = []
    if plan.water.salinity is None:
        found.append(
            Assumption("water.salinity", f"{FALLBACK_PSU:g} psu", "the sea's usual salinity", PRACTICE)
        )
    if plan.water.keep is None:
        found.append(Assumption("water.keep", show(FALLBACK_C, "degC", system), "a warm reef", PRACTICE))
    found += _of_lines(facts)
    for key, pump in plan.pumps.items():
        if pump.power is None:
            found.append(Assumption(f"pumps.{key}.power", "not known", "no energy is counted", PRACTICE))
    for key in facts.levels:
        vessel = plan.vessels[key]
        if vessel.place.floor is None:
            datum = show(0.0, "m", system)
            found.append(Assumption(f"vessels.{key}.place.floor", datum, "it stands at the datum", PRACTICE))
        if any(port.kind == "weir" for port in vessel.ports.values()):
            edge = show(EDGE, "m", system, "sheet")
            found.append(
                Assumption(f"vessels.{key}.ports", f"edge of weirs {edge} thick", "a clear sheet", PRACTICE)
            )
        if any(port.kind == "siphon" for port in vessel.ports.values()):
            wait = show(PRIMING, "s", system)
            found.append(
                Assumption(f"vessels.{key}.ports", f"siphons take {wait} to fill", "at a start", PRACTICE)
            )
    return tuple(found)


def _of_lines(facts: FlowFacts) -> list[Assumption]:
    """What is taken of the ends of lines and of their tees."""
    found: list[Assumption] = []
    if facts.lines:
        found.append(
            Assumption(
                "circuits.*.route",
                f"{ENTRY:g} velocity heads at an entry, {EXIT:g} at an outlet",
                "square edges, where the route names no entry or exit of its own",
                PRACTICE,
            )
        )
    if facts.parted_at:
        found.append(
            Assumption(
                f"junctions {', '.join(facts.parted_at)}",
                "tees lose what they do as the plan runs",
                "trials with a pump off or a way shut keep these losses",
                _TEES,
            )
        )
    return found
