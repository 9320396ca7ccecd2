"""Every default that was used because the plan is silent, with what to write to override it."""

from __future__ import annotations

from tidestead.catalog import table
from tidestead.core.answer import Assumption
from tidestead.core.source import PRACTICE, Known, Source
from tidestead.core.units import System, show
from tidestead.plan.model import Apparatus, Plan
from tidestead.studies.flow.facts import FlowFacts
from tidestead.studies.flow.heights import floor_of
from tidestead.studies.flow.lamps import CLEAR, SLEEVE
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
    found += _of_pumps(plan, facts, system)
    passed = {run.item.name for line in facts.lines for run in line.runs if run.item.kind == "apparatus"}
    for key in plan.apparatus:
        if key in passed and plan.apparatus[key].volume is None:
            why = "what it holds is lost in no service"
            found.append(Assumption(f"apparatus.{key}.volume", "nothing", why, PRACTICE))
        if key in passed and plan.apparatus[key].kind == "uv":
            found += _of_lamp(key, plan.apparatus[key], system)
    for key in facts.levels:
        found += _of_vessel(plan, facts, key, system)
    return tuple(found)


def _of_lamp(key: str, lamp: Apparatus, system: System) -> list[Assumption]:
    """What is taken of a lamp, its sleeve and its water."""
    row, found = table("uv_targets")["low-pressure-lamp"], []
    if lamp.lamp_left is None:
        left = f"{100.0 * row.si('left_at_life'):g} % of a new lamp's light"
        found.append(
            Assumption(
                f"apparatus.{key}.lamp_left",
                left,
                "at the end of its life",
                row.figure("left_at_life").source,
            )
        )
    sleeve = f"sleeve {show(2.0 * SLEEVE, 'm', system, 'sheet')} wide that lets {100.0 * row.si('sleeve'):g} % through"
    found.append(Assumption(f"apparatus.{key}", sleeve, "between two cleanings", row.figure("sleeve").source))
    low, likely, high = (f"{100.0 * one:g} %" for one in CLEAR)
    water = f"a centimetre of water lets {likely} through, {low} to {high}"
    found.append(Assumption(f"apparatus.{key}", water, "nobody has measured yours", PRACTICE))
    return found


def _of_vessel(plan: Plan, facts: FlowFacts, key: str, system: System) -> list[Assumption]:
    """Where it stands, where it spills, its edges, its siphons."""
    vessel, found = plan.vessels[key], []
    if key in facts.fixed and facts.levels[key] < floor_of(vessel) + (vessel.water or 0.0):
        level = show(facts.levels[key] - floor_of(vessel), "m", system, "level")
        why = "its float valve opens no sooner; what runs back is judged at the depth of the plan"
        found.append(Assumption(f"vessels.{key}.water", f"it runs {level} deep", why, PRACTICE))
    if vessel.place.floor is None:
        datum = show(0.0, "m", system)
        found.append(Assumption(f"vessels.{key}.place.floor", datum, "it stands at the datum", PRACTICE))
    if key in facts.fixed and vessel.brim is None:
        top = show(vessel.height, "m", system, "level")
        why = "nothing in its walls lies lower: measure to the lowest hole or notch"
        found.append(Assumption(f"vessels.{key}.brim", top, why, PRACTICE))
    if any(port.kind == "weir" for port in vessel.ports.values()):
        edge = show(EDGE, "m", system, "sheet")
        words = f"edge of weirs {edge} thick"
        found.append(Assumption(f"vessels.{key}.ports", words, "a clear sheet", PRACTICE))
    tried = any(drain.blocked for drain in facts.drains if drain.vessel == key)
    if not tried and any(port.kind == "siphon" for port in vessel.ports.values()):
        words = f"siphons take {show(PRIMING, 's', system)} to fill"
        why = "at a start; no other way out tells how far the water rises before them"
        found.append(Assumption(f"vessels.{key}.ports", words, why, PRACTICE))
    return found


def _of_pumps(plan: Plan, facts: FlowFacts, system: System) -> list[Assumption]:
    """What is taken of pumps, and of the air that presses on what they draw."""
    found: list[Assumption] = []
    for key, pump in plan.pumps.items():
        if pump.power is None:
            found.append(Assumption(f"pumps.{key}.power", "not known", "no energy is counted", PRACTICE))
        if facts.stop is not None and not pump.check_valve:
            why = "as centrifugal pumps do, and without loss: the adverse case"
            found.append(
                Assumption(f"pumps.{key}.check_valve", "lets water back when it stands", why, PRACTICE)
            )
    for pumping in facts.pumps:
        if pumping.intake is not None and not pumping.intake.said:
            level = show(pumping.intake.level, "m", system, "level")
            why = "it stands at the level of its suction port; a pump that stands higher draws less well"
            found.append(Assumption(f"pumps.{pumping.name}.level", level, why, PRACTICE))
    if (facts.pumps or facts.high_points) and plan.site.elevation is None:
        found.append(Assumption("site.elevation", show(0.0, "m", system), "air as at the sea", PRACTICE))
    return found


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
