"""Lowering and emptying: by which pump or drain a vessel sinks, in how long, where its water goes, what stays."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TypeAlias

from tidestead.core.answer import Column, Table
from tidestead.core.kept import kept
from tidestead.core.units import System, show
from tidestead.physics.flow.draining import driven_flow, pumped_down_time, volume_at
from tidestead.physics.flow.fittings import gathered
from tidestead.physics.flow.laws import Law, SeriesLaw
from tidestead.physics.flow.pipes import PipeLaw
from tidestead.plan.model import Plan
from tidestead.studies.flow.elements import LITTLE, stock_of
from tidestead.studies.flow.facts import FlowFacts, Line
from tidestead.studies.flow.gravity import gravity_lines
from tidestead.studies.flow.heads import way_of
from tidestead.studies.flow.heights import basin_of, brim_of, brimful_basin, floor_of, port_of
from tidestead.studies.flow.lines import falls_free
from tidestead.studies.flow.solving import ORDINARY, lines_of
from tidestead.studies.flow.stops import rest_of

HOSE_LENGTH, HOSE_ROUGHNESS, HOSE_K = 10.0, 1e-5, 1.5
"""A hose for emptying: metres, roughness in metres, velocity heads at its ends. Common practice, no source."""

LEAST = 0.02
"""A way that lowers a vessel by less, metres, is none."""

_STILL = 0.01
"""How near to the water it runs into a vessel is taken to sink, metres: the rest takes for ever."""

_LEVELS = 17


@dataclass(frozen=True)
class Way:
    """One way of lowering a vessel: the parts the water passes, the level it leaves at, the lowest it can reach.

    `to` is the vessel it runs into; where it leaves the system, `out` says by what.
    """

    words: str
    law: Law
    outlet: float
    lowest: float
    to: str
    out: str = "out by hose"


@dataclass(frozen=True)
class Lowered:
    """A vessel lowered to one level. Time in seconds, None where the way does not reach it."""

    vessel: str
    way: Way
    level: float
    time: float | None
    moved: float
    left: float


def lowered(plan: Plan, facts: FlowFacts) -> tuple[Lowered, ...]:
    """Every vessel by every way: to the level wanted, and as low as the way goes."""
    found = []
    for key in facts.levels:
        for way in _ways(plan, facts, key):
            flows = _flows(way, facts.levels[key])
            found += [
                _lowered(plan, facts, key, way, (flows, level)) for level in _targets(plan, facts, key, way)
            ]
    return tuple(found)


def lowering_table(plan: Plan, facts: FlowFacts, system: System) -> Table:
    """Hours to each level."""
    columns = (
        Column("vessel"),
        Column("by"),
        Column("down to", "m", "level"),
        Column("takes", "s"),
        Column("water moved", "m3"),
        Column("stays in it", "m3"),
        Column("goes to"),
        Column("room there", "m3"),
    )
    rows = tuple(
        (
            one.vessel,
            one.way.words,
            one.level - floor_of(plan.vessels[one.vessel]),
            one.time if one.time is not None else "too high for it",
            one.moved,
            one.left,
            one.way.to or one.way.out,
            _room(plan, facts, one.way.to) if one.way.to else None,
        )
        for one in lowered(plan, facts)
    )
    hose = show(HOSE_LENGTH, "m", system, "hose")
    note = (
        "Nothing flows in meanwhile: see the table Shutting off. Drains are opened. Each pump on its own curve against "
        "the falling water: one that draws from the vessel through its line to that line's end; where none does, each "
        f"laid in it with {hose} of hose over the brim, in the bore of its line. A pump draws air before its port is "
        "bare: stop when it gulps. Where more is moved than there is room, lead it out. Depths above the vessel's "
        "floor; the key lower_to in the plan chooses another than half."
    )
    return Table("flow.lowering", "Lowering and emptying", columns, rows, note)


def _room(plan: Plan, facts: FlowFacts, key: str) -> float:
    basin = brimful_basin(plan.vessels[key])
    return max(float(volume_at(basin, basin.brim) - volume_at(basin, facts.levels[key])), 0.0)


def _targets(plan: Plan, facts: FlowFacts, key: str, way: Way) -> Iterator[float]:
    """The level wanted, where the way reaches it, and the lowest."""
    vessel, level = plan.vessels[key], facts.levels[key]
    depth = vessel.lower_to if vessel.lower_to is not None else (level - floor_of(vessel)) / 2.0
    wanted = floor_of(vessel) + depth
    if way.lowest + LEAST < wanted < level:
        yield wanted
    yield way.lowest


Flows: TypeAlias = tuple[tuple[float, float], ...]
"""What a way takes at each level, levels rising."""


@kept(at_most=128)
def _flows(way: Way, start: float) -> Flows:
    found: list[tuple[float, float]] = []
    flow = 0.0
    for n in range(_LEVELS):
        at = way.lowest + (start - way.lowest) * n / (_LEVELS - 1)
        flow = driven_flow(way.law, at - way.outlet, flow or ORDINARY)
        found.append((at, flow))
    return tuple(found)


def _lowered(plan: Plan, facts: FlowFacts, key: str, way: Way, to: tuple[Flows, float]) -> Lowered:
    flows, level = to
    basin, start = basin_of(plan.vessels[key]), facts.levels[key]
    left = float(volume_at(basin, level))
    step = (start - way.lowest) / (_LEVELS - 1)
    reached = all(flow > 0.0 for at, flow in flows if at > level - step)
    above = tuple(one for one in flows if one[1] > 0.0)
    time = float(pumped_down_time(basin, start, level, above)) if reached else None
    return Lowered(key, way, level, time, float(volume_at(basin, start)) - left, left)


def _ways(plan: Plan, facts: FlowFacts, key: str) -> Iterator[Way]:
    """By its own weight, by the pumps that draw from it, else by any pump with a hose."""
    level = facts.levels[key]
    lines = _opened(plan, facts)
    runs_out = [line for line in gravity_lines(plan, lines, key) if _draws_down(plan, line)]
    drains = [_drain(plan, facts, line) for line in runs_out]
    own = [_own(plan, facts, line) for line in facts.lines if _draws(plan, line, key)]
    for way in [*drains, *own]:
        if way.lowest < level - LEAST:
            yield way
    if not own and level > floor_of(plan.vessels[key]) + LEAST:
        yield from _hoses(plan, facts, key)


def _opened(plan: Plan, facts: FlowFacts) -> tuple[Line, ...]:
    """The lines with every valve that is shut opened: a drain for emptying is shut while the water goes round."""
    shut = {key: valve for key, valve in plan.valves.items() if valve.open < LITTLE}
    laid = (*facts.lines, *facts.outs)
    if not shut:
        return laid
    opened = {key: valve.model_copy(update={"open": 1.0}) for key, valve in shut.items()}
    wide = plan.model_copy(update={"valves": {**plan.valves, **opened}})
    lines, _ = lines_of(wide, stock_of(wide, facts.water.kinematic_viscosity))
    named = {line.key: line for line in lines}
    has_shut = {line.key for line in laid if any(run.item.name in shut for run in line.runs)}
    return tuple(named[line.key] if line.key in has_shut else line for line in laid)


def _draws_down(plan: Plan, line: Line) -> bool:
    """Whether a line takes more than what stands over an edge: of a weir, a standpipe, a riser."""
    found = port_of(plan, line.circuit.start)
    risers = any(item.kind == "riser" for item in line.circuit.route)
    return bool(line.runs) and not risers and found is not None and found[2].kind not in ("weir", "standpipe")


def _draws(plan: Plan, line: Line, key: str) -> bool:
    found = port_of(plan, line.circuit.start)
    return line.pump is not None and found is not None and found[0] == key


def _drain(plan: Plan, facts: FlowFacts, line: Line) -> Way:
    """A line that runs by itself: down to its mouth, its lips, or the water it ends in."""
    outlet, to = _outlet(plan, facts, line)
    lowest = max(rest_of(plan, line), outlet + _STILL)
    return Way(f"line {line.key}", _law([line]), outlet, lowest, to, f"out at {line.circuit.end}")


def _own(plan: Plan, facts: FlowFacts, line: Line) -> Way:
    """A pump that draws from the vessel: through its line, to where that ends, and out."""
    way = way_of(facts, line)
    way = way[way.index(line) :]
    outlet, _ = _outlet(plan, facts, way[-1])
    lips = [lip for one in way for lip in one.lips]
    return Way(f"pump {line.pump}", _law(way), max(outlet, *lips, -1e9), line.start_level or 0.0, "")


def _outlet(plan: Plan, facts: FlowFacts, line: Line) -> tuple[float, str]:
    """The level against which a line runs out, and the vessel it ends in."""
    found = port_of(plan, line.circuit.end)
    if line.circuit.end in plan.outfalls:
        return plan.outfalls[line.circuit.end].level, ""
    if found is None:
        return facts.running.state.heads[line.circuit.end] if facts.running is not None else 0.0, ""
    if falls_free(found[1], found[2]):
        return line.end_level or 0.0, found[0]
    return facts.levels[found[0]], found[0]


def _law(way: list[Line]) -> Law:
    return gathered([run.law for line in way for run in line.runs])


def _hoses(plan: Plan, facts: FlowFacts, key: str) -> Iterator[Way]:
    """Every pump of the plan laid into the vessel, its hose over the brim."""
    vessel = plan.vessels[key]
    for line in facts.lines:
        law = line.pump_law
        if law is None or line.bore <= 0.0:
            continue
        hose = PipeLaw(HOSE_LENGTH, line.bore, HOSE_ROUGHNESS, facts.water.kinematic_viscosity, HOSE_K)
        yield Way(f"pump {line.pump}, hose", SeriesLaw((law, hose)), brim_of(vessel), floor_of(vessel), "")
