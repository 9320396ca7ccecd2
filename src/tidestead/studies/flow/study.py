"""Will the water go round? Find how it runs, then judge it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from tidestead.core.answer import Answer
from tidestead.core.errors import ImpossibleInput, SolverError
from tidestead.core.kept import kept
from tidestead.plan.model import Plan
from tidestead.studies.flow.closed import closed_network
from tidestead.studies.flow.drains import drain_facts
from tidestead.studies.flow.elements import Stock, stock_of
from tidestead.studies.flow.facts import FlowFacts
from tidestead.studies.flow.heights import place_of
from tidestead.studies.flow.high_points import high_points
from tidestead.studies.flow.holes import hole_facts
from tidestead.studies.flow.outline import KEPT, Same, key_of, outline
from tidestead.studies.flow.overflows import overflow_facts
from tidestead.studies.flow.pumping import Setting, pump_facts
from tidestead.studies.flow.ranges import ranges_of
from tidestead.studies.flow.shutting import shut_facts
from tidestead.studies.flow.solving import (
    fixed_levels,
    gone_for_good,
    groups_of,
    idle_ring,
    lines_of,
    no_way_back,
    only,
    passed_of,
    run_dry,
    solve,
    vessels_met,
)
from tidestead.studies.flow.stops import StopFacts, Stopped, stop_facts
from tidestead.studies.flow.tees import parted
from tidestead.studies.flow.told import tell
from tidestead.studies.flow.top_offs import top_off_facts
from tidestead.studies.flow.water_kind import WaterKind, water_kind
from tidestead.studies.inputs import Inputs
from tidestead.studies.vessels import plan_area


def find(inputs: Inputs) -> FlowFacts:
    """How the water of the plan goes round, and what it does when the pumps stop."""
    return _found(outline(inputs.plan))


@kept(at_most=KEPT, by=key_of)
def _found(plan: Plan) -> FlowFacts:
    water = water_kind(plan)
    stock = stock_of(plan, water.kinematic_viscosity)
    holes = hole_facts(plan, water, stock.tables["bulkheads"])
    lines, missing = lines_of(plan, stock)
    outs, leaving = gone_for_good(plan, lines)
    lines = tuple(line for line in lines if line not in outs)
    met = vessels_met(plan, lines)
    fixed, silent = fixed_levels(plan, lines, met)
    volumes = {key: plan_area(plan.vessels[key]) * (plan.vessels[key].water or 0.0) for key in met}
    why = [*missing, silent, *leaving] if silent else [*missing, *leaving]
    if not plan.circuits:
        why.append("the plan describes no circuit: add [circuits.NAME]")
    elif not why and (lost := idle_ring(lines) or no_way_back(plan, lines, fixed)):
        why.append(lost)
    found = FlowFacts(water, lines, fixed, volumes=volumes, missing=tuple(why), holes=holes, outs=outs)
    return found if why else _run(plan, stock, water, found)


def _run(plan: Plan, stock: Stock, water: WaterKind, found: FlowFacts) -> FlowFacts:
    """Everything that needs the network's solution."""
    fixed = found.fixed
    lines, parted_at, unparted = parted(found.lines, fixed)
    found = replace(found, lines=lines, parted_at=parted_at, unparted=unparted)
    try:
        running = solve(plan, lines, fixed)
    except (SolverError, ImpossibleInput) as error:
        return replace(found, missing=(f"the flow could not be found: {error}",))
    if dry := run_dry(plan, lines, running):
        return replace(found, missing=(dry,))
    passed = passed_of(lines, running)
    ranges = ranges_of(plan, stock, lines, fixed, running)
    setting = Setting(plan, lines, fixed, running, water, ranges)
    volumes = {
        key: plan_area(plan.vessels[key]) * max(level - (plan.vessels[key].place.floor or 0.0), 0.0)
        for key, level in running.levels.items()
    }
    groups = groups_of(plan, lines)
    drains = drain_facts(plan, stock, lines, (fixed, groups), running)
    stops = _stops(Stopped(plan, lines, running, drains, water.density), fixed, groups)
    return replace(
        found,
        running=running,
        passed=passed,
        volumes=volumes,
        overflows=overflow_facts(plan, lines, running),
        pumps=pump_facts(setting),
        drains=drains,
        stops=tuple(stop for _, stop in stops),
        groups=groups,
        high_points=tuple(one for at, stop in stops for one in high_points(at, stop, water)),
        top_offs=top_off_facts(plan, (lines, fixed, running), (groups, volumes), water),
        shutting=shut_facts(plan, (lines, found.outs), fixed, running),
        closed=closed_network(plan, lines, running, water),
        ranges=ranges,
    )


def _stops(
    whole: Stopped, fixed: Mapping[str, float], groups: tuple[frozenset[str], ...]
) -> list[tuple[Stopped, StopFacts]]:
    """The power stop of every group of vessels, each with nothing but its own lines and levels."""
    found = []
    for group in groups:
        lines = tuple(line for line in whole.lines if place_of(whole.plan, line.circuit.start) in group)
        part = replace(
            whole,
            lines=lines,
            running=only(whole.running, lines, group),
            drains=[drain for drain in whole.drains if drain.vessel in group],
        )
        found.append((part, _stop(part, {key: level for key, level in fixed.items() if key in group})))
    return found


def _stop(stopped: Stopped, fixed: Mapping[str, float]) -> StopFacts:
    try:
        return stop_facts(stopped, fixed)
    except (SolverError, ImpossibleInput) as error:
        return StopFacts(missing=str(error))


def judge(inputs: Inputs, facts: FlowFacts) -> Answer:
    """Every check, the sentence, tables, series, drawings and cautions."""
    return _judged(Inputs(outline(inputs.plan), inputs.system), facts)


@kept(at_most=KEPT, by=lambda inputs, facts: (key_of(inputs.plan), inputs.system, Same(facts)))
def _judged(inputs: Inputs, facts: FlowFacts) -> Answer:
    return tell(inputs, facts)
