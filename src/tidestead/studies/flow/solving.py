"""The network of a plan solved: flow by circuit, level by vessel, what comes and goes."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence

from tidestead.core.errors import ImpossibleInput, SolverError
from tidestead.physics.flow.network import NetworkState, solve_network
from tidestead.plan.model import Plan
from tidestead.studies.flow.elements import Stock, Unknown
from tidestead.studies.flow.facts import Line, RunFlow, Running
from tidestead.studies.flow.heights import floor_of, port_of
from tidestead.studies.flow.lines import line_of
from tidestead.studies.vessels import plan_area


def lines_of(plan: Plan, stock: Stock) -> tuple[tuple[Line, ...], tuple[str, ...]]:
    """Every circuit as a line, and what the plan must still say of the others."""
    lines: list[Line] = []
    missing: list[str] = []
    for key, circuit in plan.circuits.items():
        try:
            lines.append(line_of(plan, key, circuit, stock))
        except (Unknown, ImpossibleInput) as error:
            missing.append(f"circuit {key}: {error}")
    return tuple(lines), tuple(missing)


def vessels_met(plan: Plan, lines: Iterable[Line]) -> tuple[str, ...]:
    """Vessels that the lines join, in the order of the plan."""
    met = {
        found[0]
        for line in lines
        for name in (line.circuit.start, line.circuit.end)
        if (found := port_of(plan, name)) is not None
    }
    return tuple(key for key in plan.vessels if key in met)


def fixed_levels(plan: Plan, met: Sequence[str]) -> tuple[dict[str, float], str]:
    """Surfaces that are given and not found: of the sumps, else of the largest vessel; or why there are none."""
    low = [key for key in met if plan.vessels[key].role == "sump"]
    if not low and met:
        low = [max(met, key=lambda key: plan_area(plan.vessels[key]) * (plan.vessels[key].water or 0.0))]
    found: dict[str, float] = {}
    for key in low:
        vessel = plan.vessels[key]
        if vessel.water is None:
            return {}, f"say how deep the water is in {key}: vessels.{key}.water"
        found[key] = floor_of(vessel) + vessel.water
    return found, ""


def no_way_back(plan: Plan, lines: Sequence[Line], fixed: Mapping[str, float]) -> str:
    """Where water can come and cannot leave, or leave and not come, in words; empty where it goes round."""
    ways = [(_node(plan, line.circuit.start), _node(plan, line.circuit.end), line) for line in lines]
    for words, pairs in (
        ("has no way back", [(start, end) for start, end, _ in ways]),
        ("is fed by nothing", [(end, start) for start, end, _ in ways]),
    ):
        ends = _reached({end: start for start, end in pairs}, pairs, set(fixed))
        for start, end in pairs:
            if end not in ends and end not in fixed:
                source = start if words == "has no way back" else end
                return (
                    f"water that comes to {end} {words} to {', '.join(fixed)}"
                    if source == start
                    else (f"{end} {words}: no line leads to it from {', '.join(fixed)}")
                )
    return ""


def _reached(_: object, pairs: Sequence[tuple[str, str]], goals: set[str]) -> set[str]:
    """Places from which the goals are reached along the pairs."""
    found = set(goals)
    while True:
        more = {start for start, end in pairs if end in found} - found
        if not more:
            return found
        found |= more


def _node(plan: Plan, name: str) -> str:
    found = port_of(plan, name)
    return name if found is None else found[0]


def solve(
    plan: Plan, lines: Sequence[Line], fixed: Mapping[str, float], begin: NetworkState | None = None
) -> Running:
    """The network as it runs. Raises SolverError or ImpossibleInput with the element's name."""
    links = [link for line in lines for link in line.links]
    touched = {node for link in links for node in (link.start, link.end)}
    state = solve_network(links, {key: level for key, level in fixed.items() if key in touched}, start=begin)
    flows = {line.key: state.flows[line.links[0].name] for line in lines}
    met = vessels_met(plan, lines)
    inflow, outflow = dict.fromkeys(met, 0.0), dict.fromkeys(met, 0.0)
    for line in lines:
        for name, share in ((line.circuit.start, -1.0), (line.circuit.end, 1.0)):
            found = port_of(plan, name)
            if found is None:
                continue
            amount = share * flows[line.key]
            side = inflow if amount > 0.0 else outflow
            side[found[0]] += abs(amount)
    levels = {key: state.heads[key] for key in met if math.isfinite(state.heads[key])}
    return Running(state, flows, levels, inflow, outflow)


def tried(
    plan: Plan, lines: Sequence[Line], fixed: Mapping[str, float], begin: NetworkState | None = None
) -> Running | None:
    """As solve; None where there is no solution."""
    try:
        return solve(plan, lines, fixed, begin)
    except (SolverError, ImpossibleInput):
        return None


def passed_of(lines: Sequence[Line], running: Running) -> dict[str, tuple[RunFlow, ...]]:
    """Every item with its flow, velocity and head. Entry and outlet stand at the ends of the lines."""
    found = {}
    for line in lines:
        flow = running.flows[line.key]
        found[line.key] = tuple(
            RunFlow(run, flow, _velocity(flow, run.bore), float(run.law.at(flow).head)) for run in line.runs
        )
    return found


def _velocity(flow: float, bore: float) -> float:
    return abs(flow) / (math.pi * bore**2 / 4.0) if bore > 0.0 else 0.0
