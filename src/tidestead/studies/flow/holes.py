"""Every fitting through a wall: what it clamps, the room round it, the water on it."""

from __future__ import annotations

from dataclasses import dataclass

from tidestead.catalog import Row, Table, table
from tidestead.core.errors import ImpossibleInput
from tidestead.physics.flow import bulkheads
from tidestead.plan.merging import SHARED
from tidestead.plan.model import Bulkhead, Plan, Port, Vessel, Wall
from tidestead.plan.ports import FLOOR
from tidestead.studies.flow.heights import brim_depth
from tidestead.studies.flow.water_kind import WaterKind

EDGE = 0.045
"""Half the breadth of a stud where the plan names none: nothing is closer. Common practice, no source."""


@dataclass(frozen=True)
class HoleFacts:
    """One fitting. Lengths in m. `layers` are what its nut clamps; `missing` what the plan must say of them."""

    vessel: str
    port: str
    row: Row
    size: bulkheads.BulkheadSize
    layers: tuple[tuple[str, float], ...]
    missing: str
    to_stud: float | None
    to_edge: float | None
    to_other: float | None
    head: float
    load: bulkheads.BlankLoad | None
    seat: str | None
    lining: str | None

    @property
    def wall(self) -> float:
        return float(bulkheads.wall_build_up(tuple(thick for _, thick in self.layers)))


def hole_facts(plan: Plan, water: WaterKind, fittings: Table) -> tuple[HoleFacts, ...]:
    """Every port with a bulkhead."""
    return tuple(
        _hole(plan, key, name, port.bulkhead, water.density, fittings[port.bulkhead.fitting])
        for key, vessel in plan.vessels.items()
        for name, port in vessel.ports.items()
        if port.bulkhead is not None
    )


def size_of(row: Row) -> bulkheads.BulkheadSize:
    """The fitting's sizes."""
    return bulkheads.BulkheadSize(
        row.si("hole"), row.si("flange"), row.si("clamps_from"), row.si("clamps_to")
    )


def _hole(plan: Plan, key: str, name: str, bulkhead: Bulkhead, density: float, row: Row) -> HoleFacts:
    vessel = plan.vessels[key]
    port = vessel.ports[name]
    size = size_of(row)
    layers, missing = layers_of(plan, key, vessel, bulkhead, name)
    floor = bulkhead.wall == FLOOR
    height = 0.0 if floor else port.level
    head = brim_depth(vessel) - height
    try:
        load = bulkheads.blank_load(density, head, size.flange)
    except ImpossibleInput:
        load = None
    wall = wall_of(vessel, bulkhead.wall)
    lining = vessel.lining.kind if vessel.lining is not None else None
    return HoleFacts(
        key,
        name,
        row,
        size,
        layers,
        missing,
        None if floor else _to_stud(wall, bulkhead.from_left),
        None if floor else _to_edge(vessel, bulkhead, port.level),
        _to_other(vessel, name, port),
        head,
        load,
        bulkhead.seat,
        lining,
    )


def wall_of(vessel: Vessel, name: str) -> Wall | None:
    """A wall with what all walls share filled in."""
    shared, own = vessel.walls.get(SHARED), vessel.walls.get(name)
    if shared is None or own is None:
        return own or shared
    said = {field: getattr(own, field) for field in own.model_fields_set}
    return shared.model_copy(update=said)


def layers_of(
    plan: Plan, key: str, vessel: Vessel, bulkhead: Bulkhead, port: str
) -> tuple[tuple[tuple[str, float], ...], str]:
    """What lies between flange and nut, and what the plan must still say of it."""
    if bulkhead.thickness is not None:
        return (("wall", bulkhead.thickness),), ""
    say = f"say how thick the wall is there: vessels.{key}.ports.{port}.bulkhead.thickness"
    wall = wall_of(vessel, bulkhead.wall)
    if bulkhead.wall == FLOOR or wall is None or wall.sheathing is None or wall.sheathing.sheet is None:
        return (), say
    sheets = table("sheathing")
    if "sheathing" in plan.yours:
        sheets = sheets.with_yours(plan.yours["sheathing"], plan.gallons)
    layers = [("sheathing", sheets[wall.sheathing.sheet].si("thickness"))]
    lining = vessel.lining
    if lining is not None and lining.kind is not None:
        film = _film(plan, vessel)
        if film is None:
            return tuple(layers), f"say how thick the lining is: vessels.{key}.lining.dry_film"
        layers.append(("lining", film))
    return tuple(layers), ""


def _film(plan: Plan, vessel: Vessel) -> float | None:
    lining = vessel.lining
    if lining is None:
        return 0.0
    if lining.dry_film is not None:
        return lining.dry_film
    if lining.product is None:
        return None
    rows = table("linings")
    if "linings" in plan.yours:
        rows = rows.with_yours(plan.yours["linings"], plan.gallons)
    row = rows[lining.product]
    if lining.kind == "sheet" and row.has("thickness"):
        return row.si("thickness")
    if lining.coats is not None and row.has("dry_film_per_coat"):
        return row.si("dry_film_per_coat") * lining.coats
    return None


def _to_stud(wall: Wall | None, left: float | None) -> float | None:
    """From the hole's middle to the nearest face of a stud; studs stand from the left end on, evenly."""
    if left is None or wall is None or wall.studs is None or not wall.studs.spacing:
        return None
    spacing = wall.studs.spacing
    half = wall.studs.section.breadth / 2.0 if wall.studs.section is not None else EDGE / 2.0
    beside = left % spacing
    return max(min(beside, spacing - beside) - half, 0.0)


def _to_edge(vessel: Vessel, bulkhead: Bulkhead, level: float) -> float | None:
    """From the hole's middle to the nearest edge of its sheet: floor, top of the wall, its ends."""
    sides = [level, vessel.height - level]
    across = vessel.length if bulkhead.wall in ("north", "south") else vessel.width
    if vessel.shape == "box" and across is not None and bulkhead.from_left is not None:
        sides += [bulkhead.from_left, across - bulkhead.from_left]
    return max(min(sides), 0.0)


def _to_other(vessel: Vessel, name: str, port: Port) -> float | None:
    """To the middle of the nearest other hole of the same wall, where both places are known."""
    mine = port.bulkhead
    if mine is None or mine.from_left is None:
        return None
    apart = [
        ((mine.from_left - other.bulkhead.from_left) ** 2 + (port.level - other.level) ** 2) ** 0.5
        for key, other in vessel.ports.items()
        if key != name
        and other.bulkhead is not None
        and other.bulkhead.wall == mine.wall
        and other.bulkhead.from_left is not None
    ]
    return min(apart, default=None)
