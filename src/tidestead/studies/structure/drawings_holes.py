"""What goes through the walls of a vessel, and under it: bulkheads seen square on, levels of ports, the floor."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from tidestead.catalog import Table, table
from tidestead.core.scene import Area, Measure, Note, Point, Shape, Stroke, Stuff
from tidestead.core.units import System, show
from tidestead.plan.model import Plan, Port, Vessel
from tidestead.plan.ports import FLOOR

_CORNERS = 48


@dataclass(frozen=True)
class Bored:
    """A bulkhead: the port it serves, its wall, its middle from the wall's left end and above the floor, its sizes."""

    key: str
    port: str
    wall: str
    along: float | None
    level: float
    hole: float
    flange: float
    clamps: float | None

    @property
    def part(self) -> str:
        return f"{self.key}.{self.port}.bulkhead"


def bored_of(plan: Plan, key: str) -> tuple[Bored, ...]:
    """The bulkheads of a vessel; those whose fitting no table has are left out."""
    fittings = _fittings(plan)
    found = []
    for name, port in plan.vessels[key].ports.items():
        bulkhead = port.bulkhead
        if bulkhead is None or bulkhead.fitting not in fittings:
            continue
        row = fittings[bulkhead.fitting]
        level = 0.0 if bulkhead.wall == FLOOR else port.level
        sizes = (row.si("hole"), row.si("flange"), bulkhead.thickness)
        found.append(Bored(key, name, bulkhead.wall, bulkhead.from_left, level, *sizes))
    return tuple(found)


def _fittings(plan: Plan) -> Table:
    ours = table("bulkheads")
    return ours.with_yours(plan.yours["bulkheads"], plan.gallons) if "bulkheads" in plan.yours else ours


def circle(middle: Point, across: float) -> tuple[Point, ...]:
    """The outline of something round."""
    turns = (2.0 * math.pi * number / _CORNERS for number in range(_CORNERS))
    return tuple(
        (middle[0] + across / 2.0 * math.cos(turn), middle[1] + across / 2.0 * math.sin(turn))
        for turn in turns
    )


def square_on(holes: Sequence[Bored], left: float, system: System) -> Iterator[Shape]:
    """Bulkheads of one wall as they look from outside; `left` is where the wall begins in the drawing."""
    measured: set[float] = set()
    for hole in holes:
        if hole.along is None:
            continue
        middle = (left + hole.along, hole.level)
        words = f"{hole.port}, hole {show(hole.hole, 'm', system, 'sheet')}"
        yield Area(circle(middle, hole.flange), "outline", hole.part)
        yield Area(circle(middle, hole.hole), "outline", hole.part, words)
        yield Measure((left, hole.level), middle, 0.0, "sheet")
        if hole.level > 0.0 and hole.level not in measured:
            measured.add(hole.level)
            yield Measure(middle, (middle[0], 0.0), 0.1, "sheet")


def level_marks(key: str, vessel: Vessel, edge: float, system: System) -> Iterator[Shape]:
    """A mark beside a section at the level of each port, with what stands there; ports of one level share a mark."""
    levels: dict[float, list[str]] = {}
    for name, port in vessel.ports.items():
        levels.setdefault(port.level, []).append(name)
    for level, names in sorted(levels.items()):
        part = f"{key}.{names[0]}" if len(names) == 1 else ""
        yield Stroke(((edge, level), (edge + 0.08, level)), "outline", part)
        yield Note((edge + 0.1, level), f"{', '.join(names)} {show(level, 'm', system, 'sheet')}", part)


_KINDS = {
    "inlet": "goes out at",
    "outlet": "comes in at",
    "weir": "spills over a weir at",
    "standpipe": "spills into a standpipe at",
    "siphon": "leaves by a siphon at",
    "spill": "falls in from above at",
}


def ports_told(vessel: Vessel, system: System) -> str:
    """Where water enters and leaves, in words; empty where the plan names no port."""
    told = "; ".join(f"{name} {_port_told(port, system)}" for name, port in vessel.ports.items())
    return f" Ports above the floor: {told}." if told else ""


def _port_told(port: Port, system: System) -> str:
    place = f"{_KINDS[port.kind]} {show(port.level, 'm', system, 'sheet')}"
    if port.bulkhead is None:
        return place
    wall = port.bulkhead.wall
    return f"{place}, through {f'face {wall}' if wall.isdigit() else f'the {wall}'}"


def stands_told(vessel: Vessel, system: System) -> str:
    """What is under the vessel, in words; empty where the plan does not say."""
    stands = vessel.stands_on
    if stands.kind is None:
        return ""
    thick = f", {show(stands.slab_thickness, 'm', system, 'sheet')} thick" if stands.slab_thickness else ""
    words = {"slab": f"a slab{thick}", "ground": "the ground", "joists": "a timber floor"}[stands.kind]
    soil = f" on {stands.soil}" if stands.soil and stands.kind == "slab" else ""
    return f" It stands on {words}{soil}."


def under_stuff(vessel: Vessel) -> Stuff:
    """What a vessel stands on: a floor of joists is timber, all else is drawn as slab or ground."""
    return "timber" if vessel.stands_on.kind == "joists" else "ground"


def floor_under(key: str, vessel: Vessel, ends: tuple[float, float], system: System) -> Area:
    """The slab, ground or timber floor under the vessel, as thick as the plan says."""
    stands = vessel.stands_on
    deep = stands.slab_thickness or _UNNAMED
    label = f"slab {show(deep, 'm', system, 'sheet')}" if stands.slab_thickness else stands.kind or ""
    left, right = ends
    outline = ((left, -deep), (right, -deep), (right, 0.0), (left, 0.0))
    return Area(outline, under_stuff(vessel), f"{key}.stands_on", label)


_UNNAMED = 0.1
"""Ground that the plan says no thickness of is drawn so deep, metres."""
