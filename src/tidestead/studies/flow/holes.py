"""Every fitting through a wall: what it clamps, the room round it, the water on it."""

from __future__ import annotations

import math
from dataclasses import dataclass

from tidestead.catalog import Row, Table, table
from tidestead.core.errors import ImpossibleInput
from tidestead.physics.flow import bulkheads
from tidestead.plan import wall_of
from tidestead.plan.model import Bulkhead, Plan, Port, Vessel
from tidestead.plan.ports import FLOOR
from tidestead.studies.flow.faces import Bar, Face, face_of
from tidestead.studies.flow.heights import brim_depth
from tidestead.studies.flow.water_kind import WaterKind


@dataclass(frozen=True)
class Near:
    """The nearest of its kind: what it is, how far it is from the hole's middle, and for a hole how wide its flange."""

    words: str
    away: float
    flange: float = 0.0


@dataclass(frozen=True)
class HoleFacts:
    """One fitting. Lengths in m. `layers` are what its nut clamps; `missing` what the plan must say of them.

    `timber`, `window` and `other` are what is nearest to the hole's middle, and how far: to the edge of a timber or a
    clear sheet, to the middle of the next hole. `unplaced` says that the plan does not tell where the hole is, though
    its face has ends or timbers.
    """

    vessel: str
    port: str
    row: Row
    size: bulkheads.BulkheadSize
    layers: tuple[tuple[str, float], ...]
    missing: str
    timber: Near | None
    window: Near | None
    to_edge: float | None
    other: Near | None
    unplaced: bool
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
        _hole(plan, (key, name), port.bulkhead, water.density, fittings)
        for key, vessel in plan.vessels.items()
        for name, port in vessel.ports.items()
        if port.bulkhead is not None
    )


def size_of(row: Row) -> bulkheads.BulkheadSize:
    """The fitting's sizes."""
    return bulkheads.BulkheadSize(
        row.si("hole"), row.si("flange"), row.si("clamps_from"), row.si("clamps_to")
    )


def _hole(plan: Plan, at: tuple[str, str], bulkhead: Bulkhead, density: float, fittings: Table) -> HoleFacts:
    (key, name), row = at, fittings[bulkhead.fitting]
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
    face = None if floor else face_of(vessel, bulkhead.wall)
    place = None if bulkhead.from_left is None else (bulkhead.from_left, port.level)
    lining = vessel.lining.kind if vessel.lining is not None else None
    return HoleFacts(
        key,
        name,
        row,
        size,
        layers,
        missing,
        None if face is None else _nearest(face.timbers, place, port.level),
        None if face is None else _nearest(face.windows, place, port.level),
        None if face is None else _to_edge(face, bulkhead.from_left, port.level),
        _next_hole(vessel, name, port, fittings),
        face is not None and place is None and (face.length is not None or _upright(face)),
        head,
        load,
        bulkhead.seat,
        lining,
    )


def _nearest(bars: tuple[Bar, ...], place: tuple[float, float] | None, level: float) -> Near | None:
    """The bar nearest to a hole; of those from end to end only, where its place along the face is not known."""
    if place is None:
        bars = tuple(bar for bar in bars if not math.isfinite(bar.left))
    found = [Near(bar.words, bar.gap(*(place or (0.0, level)))) for bar in bars]
    return min(found, key=lambda one: one.away, default=None)


def _upright(face: Face) -> bool:
    return any(math.isfinite(bar.left) for bar in (*face.timbers, *face.windows))


def layers_of(
    plan: Plan, key: str, vessel: Vessel, bulkhead: Bulkhead, port: str
) -> tuple[tuple[tuple[str, float], ...], str]:
    """What lies between flange and nut, and what the plan must still say of it."""
    if bulkhead.thickness is not None:
        return (("wall", bulkhead.thickness),), ""
    say = f"say how thick the wall is there: vessels.{key}.ports.{port}.bulkhead.thickness"
    sheathing = None if bulkhead.wall == FLOOR else wall_of(vessel, bulkhead.wall).sheathing
    if sheathing is None or sheathing.sheet is None:
        return (), say
    sheets = table("sheathing")
    if "sheathing" in plan.yours:
        sheets = sheets.with_yours(plan.yours["sheathing"], plan.gallons)
    one = sheathing.as_built.thickness or sheets[sheathing.sheet].si("thickness")
    layers = [("sheathing", one * sheathing.layers)]
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


def _to_edge(face: Face, left: float | None, level: float) -> float:
    """From the hole's middle to the nearest edge of its sheet: floor, top of the wall, its ends."""
    sides = [level, face.height - level]
    if face.length is not None and left is not None:
        sides += [left, face.length - left]
    return max(min(sides), 0.0)


def _next_hole(vessel: Vessel, name: str, port: Port, fittings: Table) -> Near | None:
    """The nearest other hole of the same wall, where both places are known."""
    mine = port.bulkhead
    if mine is None or mine.from_left is None:
        return None
    found = [
        Near(
            key,
            math.hypot(mine.from_left - other.bulkhead.from_left, port.level - other.level),
            size_of(fittings[other.bulkhead.fitting]).flange,
        )
        for key, other in vessel.ports.items()
        if key != name
        and other.bulkhead is not None
        and other.bulkhead.wall == mine.wall
        and other.bulkhead.from_left is not None
    ]
    return min(found, key=lambda one: one.away - one.flange / 2.0, default=None)
