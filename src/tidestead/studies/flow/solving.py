"""The network of a plan solved: flow by circuit, level by vessel, what comes and goes."""

from __future__ import annotations

import math
from collections.abc import Collection, Hashable, Iterable, Mapping, Sequence
from dataclasses import dataclass

from tidestead.core.errors import ImpossibleInput
from tidestead.core.kept import kept
from tidestead.physics.flow.network import NetworkState, solve_network
from tidestead.physics.flow.side_by_side import NetworkCase, solve_networks
from tidestead.plan.model import Plan, Vessel
from tidestead.studies.flow.elements import Stock, Unknown
from tidestead.studies.flow.facts import Line, RunFlow, Running
from tidestead.studies.flow.heights import floor_of, place_of, port_of
from tidestead.studies.flow.lines import line_of
from tidestead.studies.vessels import plan_area

NOTHING = 1e-6
"""Share of the largest flow up to which a flow counts as none."""

ORDINARY = 1e-3
"""m3/s that stand for the largest flow where next to nothing flows: 3.6 m3/h."""


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


def groups_of(plan: Plan, lines: Iterable[Line]) -> tuple[frozenset[str], ...]:
    """Vessels and junctions that lines join, apart from those that none joins to them; in the order of the plan."""
    groups: list[set[str]] = []
    for line in lines:
        if line.shut:
            continue
        ends = {place_of(plan, line.circuit.start), place_of(plan, line.circuit.end)}
        joined = [group for group in groups if group & ends]
        groups = [group for group in groups if group not in joined] + [ends.union(*joined)]
    order = {key: at for at, key in enumerate(plan.vessels)}
    first = {frozenset(one): min((order[key] for key in one if key in order), default=-1) for one in groups}
    return tuple(sorted((one for one, at in first.items() if at >= 0), key=lambda one: first[one]))


def only(running: Running, lines: Iterable[Line], places: Collection[str]) -> Running:
    """What a solution says of some lines and places."""

    def of(told: Mapping[str, float]) -> dict[str, float]:
        return {key: value for key, value in told.items() if key in places}

    flows = {line.key: running.flows[line.key] for line in lines}
    return Running(running.state, flows, of(running.levels), of(running.inflow), of(running.outflow))


def fixed_levels(plan: Plan, lines: Sequence[Line], met: Sequence[str]) -> tuple[dict[str, float], str]:
    """Surfaces that are given and not found, by vessel; or why there are none.

    Of the sumps; where no vessel is one, of the one that pumps draw from; without pumps, of the largest.
    """
    low = [key for key in met if plan.vessels[key].role == "sump"]
    if not low and met:
        drawn = _drawn_from(plan, lines)
        if len(drawn) > 1:
            return {}, (
                f"pumps draw from {' and '.join(drawn)} and no vessel is the sump: say which one the water comes back "
                f'to by itself, vessels.{drawn[0]}.role = "sump"'
            )
        low = [*drawn] or [
            max(met, key=lambda key: plan_area(plan.vessels[key]) * (plan.vessels[key].water or 0.0))
        ]
    found: dict[str, float] = {}
    for key in low:
        vessel = plan.vessels[key]
        if vessel.water is None:
            return {}, f"say how deep the water is in {key}: vessels.{key}.water"
        found[key] = floor_of(vessel) + kept_depth(vessel, vessel.water)
    return found, ""


def highest_levels(plan: Plan, fixed: Mapping[str, float]) -> dict[str, float]:
    """The highest at which vessels with a fixed level may stand: the plan's depth, or where their float valve shuts."""
    return {
        key: max(level, floor_of(plan.vessels[key]) + _fullest(plan.vessels[key]))
        for key, level in fixed.items()
    }


def _fullest(vessel: Vessel) -> float:
    return max(vessel.water or 0.0, vessel.top_off.level if vessel.top_off is not None else 0.0)


def kept_depth(vessel: Vessel, water: float) -> float:
    """Depth at which a vessel runs: what evaporates is made up where its float valve opens, not before."""
    return water if vessel.top_off is None else min(water, vessel.top_off.level)


def _drawn_from(plan: Plan, lines: Sequence[Line]) -> tuple[str, ...]:
    """Vessels from which a pump draws through its own line."""
    starts = [port_of(plan, line.circuit.start) for line in lines if line.pump is not None]
    return tuple(dict.fromkeys(start[0] for start in starts if start is not None))


def run_dry(plan: Plan, lines: Sequence[Line], running: Running) -> str:
    """A vessel that pumps would draw to below its own floor, in words; empty where there is none."""
    for key in _drawn_from(plan, lines):
        if running.levels[key] < floor_of(plan.vessels[key]) - 1e-6:
            return (
                f"{key} runs empty: more is drawn from it than comes in, and no weir, riser or sump keeps its level. "
                "Draw from a sump, or give what leaves it an overflow"
            )
    return ""


def gone_for_good(plan: Plan, lines: Sequence[Line]) -> tuple[tuple[Line, ...], tuple[str, ...]]:
    """Lines that end at an outfall, and why nothing can be in balance while one of them runs."""
    outs = tuple(line for line in lines if line.circuit.end in plan.outfalls)
    why = tuple(
        f"circuit {line.key} lets water out of the system at the outfall {line.circuit.end} for good, so that nothing "
        'stays in balance: shut a valve in it (open = "0 %") to ask how the rest runs, or end it at a port'
        for line in outs
        if not line.shut
    )
    return outs, why


def idle_ring(lines: Sequence[Line]) -> str:
    """A ring of lines that each let water one way only, with no pump in it, in words; empty where there is none."""
    ways = {line.key: line for line in lines if line.one_way and line.pump is None}
    for first in ways.values():
        ring = _round(first, ways)
        if ring:
            names = [run.item.name for line in ring for run in line.runs if run.checks]
            keys = ", ".join(line.key for line in ring)
            return (
                f"circuits {keys} lead round in a ring that no pump drives, each with a check valve "
                f"({', '.join(names)}): turn one of them round, or take it out"
            )
    return ""


def _round(first: Line, ways: Mapping[str, Line]) -> tuple[Line, ...]:
    """The ring that a line stands in, in the order of the water."""
    queue: list[tuple[Line, ...]] = [(first,)]
    seen = {first.key}
    while queue:
        path = queue.pop(0)
        if path[-1].circuit.end == first.circuit.start:
            return path
        for line in ways.values():
            if line.circuit.start == path[-1].circuit.end and line.key not in seen:
                seen.add(line.key)
                queue.append((*path, line))
    return ()


def no_way_back(plan: Plan, lines: Sequence[Line], fixed: Mapping[str, float]) -> str:
    """Where water can come and cannot leave, or leave and not come, in words; empty where it goes round."""
    ways = [(place_of(plan, line.circuit.start), place_of(plan, line.circuit.end)) for line in lines]
    goals = ", ".join(fixed)
    stuck = _lost(ways, fixed)
    if stuck:
        return f"water that comes to {stuck} has no way back to {goals}: start a circuit at a port of it"
    dry = _lost([(end, start) for start, end in ways], fixed)
    return f"{dry} is fed by nothing: no line leads to it from {goals}" if dry else ""


def _lost(ways: Sequence[tuple[str, str]], fixed: Mapping[str, float]) -> str:
    """A place that ways lead to and from which no way leads to a fixed level; the last of a chain of them."""
    home = set(fixed)
    while more := {start for start, end in ways if end in home} - home:
        home |= more
    lost = [end for _, end in ways if end not in home]
    ends = [place for place in lost if not any(start == place for start, _ in ways)]
    return next(iter([*ends, *lost]), "")


def solve(plan: Plan, lines: Sequence[Line], fixed: Mapping[str, float]) -> Running:
    """The network as it runs. Raises SolverError or ImpossibleInput with the element's name."""
    found = tried(plan, lines, fixed)
    if found is not None:
        return found
    case = _case(lines, fixed, None)
    return _running(plan, lines, solve_network(case.links, case.fixed))


def _case(lines: Sequence[Line], fixed: Mapping[str, float], begin: NetworkState | None) -> NetworkCase:
    links = tuple(link for line in lines for link in line.links)
    touched = {node for link in links for node in (link.start, link.end)}
    return NetworkCase(links, {key: level for key, level in fixed.items() if key in touched}, begin)


def _running(plan: Plan, lines: Sequence[Line], state: NetworkState) -> Running:
    """A solution by circuit and by vessel."""
    flows = _told({line.key: state.flows[line.links[0].name] for line in lines})
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
    levels = {key: _level(plan, key, state.heads[key]) for key in met}
    return Running(state, flows, levels, inflow, outflow)


def _told(flows: Mapping[str, float]) -> dict[str, float]:
    """Flows with what is next to nothing taken as nothing: rounding is no flow."""
    least = NOTHING * max([ORDINARY, *map(abs, flows.values())])
    return {key: flow if abs(flow) > least else 0.0 for key, flow in flows.items()}


def _level(plan: Plan, key: str, head: float) -> float:
    """The surface found; that of the plan where shut lines part a vessel from every other."""
    vessel = plan.vessels[key]
    return head if math.isfinite(head) else floor_of(vessel) + (vessel.water or 0.0)


@dataclass(frozen=True)
class Trial:
    """Lines with fixed levels that are tried, and a solution to begin from, if any."""

    lines: Sequence[Line]
    fixed: Mapping[str, float]
    begin: NetworkState | None = None


def all_tried(plan: Plan, trials: Sequence[Trial]) -> list[Running | None]:
    """Each of the trials solved, begun from its state and then from nothing; None where it has no solution."""
    states = _solved(tuple(_case(one.lines, one.fixed, one.begin) for one in trials))
    return [
        None if state is None else _running(plan, one.lines, state)
        for one, state in zip(trials, states, strict=True)
    ]


def _key(cases: tuple[NetworkCase, ...]) -> Hashable:
    """All that networks say. A head that is not a number is none."""
    return tuple(
        (
            case.links,
            tuple(sorted(case.fixed.items())),
            None if case.start is None else _start_key(case.start),
        )
        for case in cases
    )


def _start_key(start: NetworkState) -> Hashable:
    heads = ((node, None if math.isnan(head) else head) for node, head in start.heads.items())
    return tuple(start.flows.items()), tuple(start.branch.items()), tuple(heads)


@kept(at_most=192, by=_key)
def _solved(cases: tuple[NetworkCase, ...]) -> tuple[NetworkState | None, ...]:
    return solve_networks(cases)


def tried(
    plan: Plan, lines: Sequence[Line], fixed: Mapping[str, float], begin: NetworkState | None = None
) -> Running | None:
    """One trial solved; None where it has no solution."""
    return all_tried(plan, [Trial(lines, fixed, begin)])[0]


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
