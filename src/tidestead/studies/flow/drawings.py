"""A schematic of the circuits: vessels at their true heights side by side, lines with their flows."""

from __future__ import annotations

from tidestead.core.scene import Area, Note, Point, Scene, Shape, Stroke
from tidestead.core.units import System, show
from tidestead.plan.model import Plan, Vessel
from tidestead.studies.flow.facts import FlowFacts, Line
from tidestead.studies.flow.heights import floor_of, port_of
from tidestead.studies.flow.stop_drawing import stop_scene

_GAP = 1.0
"""Metres between two vessels of the drawing."""

_NARROW, _WIDE = 0.5, 2.0
"""Least and greatest width drawn, so that a long basin leaves room for the rest."""

_CLEAR = 0.15
"""Metres between a vessel and what passes it, and between two lanes of lines."""


def scenes_of(plan: Plan, facts: FlowFacts, system: System) -> tuple[Scene, ...]:
    """The schematic, where the flow is known, and the levels after a power stop."""
    return (_schematic(plan, facts, system), *stop_scene(plan, facts, system)) if facts.solved else ()


def _schematic(plan: Plan, facts: FlowFacts, system: System) -> Scene:
    places = _places(plan, facts)
    shapes: list[Shape] = []
    for key, (left, width) in places.items():
        shapes += _vessel(plan.vessels[key], key, left, width, facts.levels[key], system)
    top = max(floor_of(plan.vessels[key]) + plan.vessels[key].height for key in places)
    bottom = min(floor_of(plan.vessels[key]) for key in places)
    above = below = 0
    for line in facts.lines:
        if line.pump is not None or port_of(plan, line.circuit.start) is None:
            above += 1
            lane = top + _CLEAR * (above + 1)
        else:
            below += 1
            lane = bottom - _CLEAR * (below + 1)
        shapes += _line(plan, facts, line, places, lane, system)
    told = "Circuits, heights true, widths not: " + "; ".join(
        f"{line.key} from {line.circuit.start} to {line.circuit.end}, {show(facts.flows[line.key], 'm3/s', system)}"
        for line in facts.lines
    )
    return Scene("flow.schematic", "Where the water goes", told + ".", tuple(shapes))


def _places(plan: Plan, facts: FlowFacts) -> dict[str, tuple[float, float]]:
    """Left edge and width of every vessel drawn, the highest water first."""
    found, left = {}, 0.0
    for key in sorted(facts.levels, key=lambda key: -facts.levels[key]):
        vessel = plan.vessels[key]
        true = vessel.length if vessel.shape == "box" else vessel.across
        width = min(max(true or _NARROW, _NARROW), _WIDE)
        found[key] = (left, width)
        left += width + _GAP
    return found


def _vessel(vessel: Vessel, key: str, left: float, width: float, level: float, system: System) -> list[Shape]:
    floor, right = floor_of(vessel), left + width
    top, part = floor + vessel.height, key
    depth = show(level - floor, "m", system, "level")
    shapes: list[Shape] = [
        Area(((left, floor), (right, floor), (right, level), (left, level)), "water", part),
        Stroke(((left, top), (left, floor), (right, floor), (right, top)), "outline", part),
        Note(((left + right) / 2.0, (floor + level) / 2.0), f"{key}, {depth} deep", part),
    ]
    return shapes


def _line(
    plan: Plan,
    facts: FlowFacts,
    line: Line,
    places: dict[str, tuple[float, float]],
    lane: float,
    system: System,
) -> list[Shape]:
    """From port to port: out of the vessel, along a lane of its own above all vessels where it is pumped, below them
    where it runs by itself past others, and in.
    """
    start = _end(plan, facts, line.circuit.start, places, right=True)
    end = _end(plan, facts, line.circuit.end, places, right=False)
    flow = facts.flows[line.key]
    part = f"circuits.{line.key}"
    pumped = line.pump is not None or port_of(plan, line.circuit.start) is None
    beside = 0.0 <= end[0] - start[0] <= _GAP
    middle = min(start[1], end[1]) if beside and not pumped else lane
    points: tuple[Point, ...] = (start, (start[0], middle), (end[0], middle), end)
    words = f"{line.key} {show(flow, 'm3/s', system)}"
    return [
        Stroke(points, "outline" if flow > 0.0 else "ghost", part),
        Note(((start[0] + end[0]) / 2.0, middle), words, part),
    ]


def _end(
    plan: Plan, facts: FlowFacts, name: str, places: dict[str, tuple[float, float]], right: bool
) -> Point:
    """Where a port or a junction is drawn."""
    found = port_of(plan, name)
    if found is not None:
        left, width = places[found[0]]
        at = left + width + _CLEAR if right else left - _CLEAR
        return at, floor_of(found[1]) + found[2].level
    joined = [line for line in facts.lines if name in (line.circuit.start, line.circuit.end)]
    marks = [
        places[other[0]][0] + places[other[0]][1] / 2.0
        for line in joined
        for end in (line.circuit.start, line.circuit.end)
        if (other := port_of(plan, end)) is not None
    ]
    across = sum(marks) / len(marks) if marks else 0.0
    top = max(floor_of(plan.vessels[key]) + plan.vessels[key].height for key in places)
    return across, top + _CLEAR / 2.0
