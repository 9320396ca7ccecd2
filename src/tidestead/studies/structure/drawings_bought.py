"""Drawings of a bought vessel: plan, section, and each wall that a bulkhead goes through.

Its maker answers for its walls, and the plan does not say how they are built: they are drawn as outlines.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import NamedTuple

from tidestead.core.scene import Area, Measure, Note, Point, Scene, Shape, Stroke
from tidestead.core.units import System, show
from tidestead.plan.model import Vessel
from tidestead.studies.structure.drawings_box import rectangle
from tidestead.studies.structure.drawings_holes import (
    Bored,
    circle,
    floor_under,
    level_marks,
    ports_told,
    square_on,
    stands_told,
)
from tidestead.studies.structure.drawings_tower import ROUND_SIDES, polygon

MAKERS_WALL = 0.012
"""A wall that the plan gives no thickness of is drawn so thick, metres."""

_ROOM = 0.3
"""How far the floor is drawn beyond the vessel, metres."""


class _Cut(NamedTuple):
    """A section: how wide the inside is, the walls at its left and right end, and the way it looks."""

    width: float
    left: str
    right: str
    looking: str


def bought_scenes(key: str, vessel: Vessel, holes: Sequence[Bored], system: System) -> list[Scene]:
    """Plan, section, and an elevation of every wall of a box that something goes through."""
    if vessel.shape != "box":
        return [_tower_plan(key, vessel, system), _section(key, vessel, holes, system)]
    walls = dict.fromkeys(hole.wall for hole in holes if hole.wall in _SIDES)
    return [
        *(
            _elevation(key, vessel, wall, [hole for hole in holes if hole.wall == wall], system)
            for wall in walls
        ),
        _box_plan(key, vessel, holes, system),
        _section(key, vessel, holes, system),
    ]


_SIDES = ("north", "south", "east", "west")


def _size(vessel: Vessel) -> Point:
    return vessel.length or 0.0, vessel.width or 0.0


def _wall(holes: Sequence[Bored], *walls: str) -> float:
    """How thick a wall is drawn: as a bulkhead through it clamps."""
    return max((hole.clamps or 0.0 for hole in holes if hole.wall in walls), default=0.0) or MAKERS_WALL


def _elevation(key: str, vessel: Vessel, wall: str, holes: Sequence[Bored], system: System) -> Scene:
    length, width = _size(vessel)
    along, height = (length if wall in ("north", "south") else width), vessel.height
    shapes: list[Shape] = [
        Area(rectangle(0.0, 0.0, along, height), "outline", f"{key}.{wall}"),
        replace(floor_under(key, vessel, (-_ROOM, along + _ROOM), system), label=""),
        *square_on(holes, 0.0, system),
        Measure((0.0, 0.0), (along, 0.0), -0.25, "level"),
        Measure((along, 0.0), (along, height), -0.3, "level"),
    ]
    told = f"{wall} wall of {key}, {show(along, 'm', system)} long and {show(height, 'm', system)} high; through it go "
    if vessel.water is not None:
        shapes += [
            Stroke(((-0.05, vessel.water), (along + 0.05, vessel.water)), "water"),
            Measure((0.0, 0.0), (0.0, vessel.water), 0.2, "level"),
        ]
    told += "; ".join(_hole_told(hole, system) for hole in holes)
    title = f"{wall.capitalize()} wall of {key}, from outside"
    return Scene(f"structure.{key}.{wall}.elevation", title, f"{told[0].upper()}{told[1:]}.", tuple(shapes))


def _hole_told(hole: Bored, system: System) -> str:
    place = f"{show(hole.level, 'm', system, 'sheet')} above the floor"
    if hole.along is None:
        place += " (not drawn, for the plan does not say how far from its left end)"
    else:
        place = f"{show(hole.along, 'm', system, 'sheet')} from its left end and {place}"
    return f"{hole.port}, a hole of {show(hole.hole, 'm', system, 'sheet')}, {place}"


def _box_plan(key: str, vessel: Vessel, holes: Sequence[Bored], system: System) -> Scene:
    length, width = _size(vessel)
    thick = _wall(holes, *_SIDES)
    placed = [hole for hole in holes if hole.wall in _SIDES and hole.along is not None]
    shapes: list[Shape] = [
        Area(rectangle(-thick, -thick, length + thick, width + thick), "outline", f"{key}.walls"),
        Area(rectangle(0.0, 0.0, length, width), "water", f"{key}.water"),
        *(_stub(hole, (length, width)) for hole in placed),
        Measure((0.0, 0.0), (length, 0.0), -0.25, "level"),
        Measure((0.0, 0.0), (0.0, width), 0.25, "level"),
        Note((length / 2.0, width + 0.12), "north"),
        Note((length / 2.0, -0.42), "south"),
        Note((length + 0.12, width / 2.0), "east"),
        Note((-0.42, width / 2.0), "west"),
    ]
    unplaced = [name for name in vessel.ports if name not in {hole.port for hole in placed}]
    told = (
        f"Plan of {key}: inside {show(length, 'm', system)} west to east by {show(width, 'm', system)} south to "
        f"north.{stands_told(vessel, system)}"
    )
    if unplaced:
        told += (
            f" Not drawn, for the plan does not say where they are seen from above: {', '.join(unplaced)}."
        )
    return Scene(f"structure.{key}.plan", f"{key.capitalize()} from above", told, tuple(shapes))


def _stub(hole: Bored, size: Point) -> Area:
    """A bulkhead from above: its flanges on both sides of the wall. Places count from the left, seen from outside."""
    (length, width), half, deep = size, hole.flange / 2.0, 0.05
    at = hole.along or 0.0
    outline = {
        "south": rectangle(at - half, -deep, at + half, deep),
        "north": rectangle(length - at - half, width - deep, length - at + half, width + deep),
        "east": rectangle(length - deep, at - half, length + deep, at + half),
        "west": rectangle(-deep, width - at - half, deep, width - at + half),
    }[hole.wall]
    return Area(outline, "outline", hole.part, hole.port)


def _section(key: str, vessel: Vessel, holes: Sequence[Bored], system: System) -> Scene:
    """A cut along the longer side of a box, or up the middle of a tower, at the vessel's own levels."""
    cut = _cut(vessel)
    thick, height = _wall(holes, cut.left, cut.right), vessel.height
    left, right = 0.0, cut.width
    shapes: list[Shape] = [
        floor_under(key, vessel, (left - thick - _ROOM, right + thick + _ROOM), system),
        Area(rectangle(left - thick, 0.0, left, height), "outline", f"{key}.walls"),
        Area(rectangle(right, 0.0, right + thick, height), "outline", f"{key}.walls"),
        *_cone(key, vessel),
        *level_marks(key, vessel, right + thick, system),
        Measure((left - thick, 0.0), (left - thick, height), 0.32, "level"),
        Measure((left, 0.0), (right, 0.0), -0.3, "level"),
    ]
    for hole in holes:
        if hole.wall in (cut.left, cut.right):
            middle = left - thick / 2.0 if hole.wall == cut.left else right + thick / 2.0
            box = rectangle(
                middle - 0.06, hole.level - hole.hole / 2.0, middle + 0.06, hole.level + hole.hole / 2.0
            )
            shapes.append(Area(box, "outline", hole.part))
    told = (
        f"Section of {key}: {show(cut.width, 'm', system)} wide and {show(height, 'm', system)} high inside"
    )
    if vessel.water is not None:
        shapes.insert(0, Area(rectangle(left, 0.0, right, vessel.water), "water", f"{key}.water"))
        shapes.append(Measure((left, 0.0), (left, vessel.water), 0.15, "level"))
        brim = vessel.brim if vessel.brim is not None else height
        shapes.append(Stroke(((left, brim), (right, brim)), "ghost", label="brim"))
        told += f", water {show(vessel.water, 'm', system)} deep, spilling at {show(brim, 'm', system)}"
    told += f".{stands_told(vessel, system)}{ports_told(vessel, system)}"
    return Scene(f"structure.{key}.section", f"Section through {key}{cut.looking}", told, tuple(shapes))


def _cut(vessel: Vessel) -> _Cut:
    length, width = _size(vessel)
    if vessel.shape != "box":
        return _Cut(vessel.across or 0.0, "", "", "")
    if length >= width:
        return _Cut(length, "west", "east", ", looking north")
    return _Cut(width, "south", "north", ", looking west")


def _cone(key: str, vessel: Vessel) -> list[Shape]:
    if vessel.cone is None:
        return []
    across, base, top = vessel.across or 0.0, vessel.height, vessel.height + vessel.cone.height
    near = (across - vessel.cone.neck) / 2.0
    far = across - near
    return [
        Stroke(((0.0, base), (near, top)), "outline", f"{key}.cone", "cone"),
        Stroke(((across, base), (far, top)), "outline", f"{key}.cone"),
        Measure((near, top), (far, top), 0.12, "sheet"),
        Measure((0.0, base), (0.0, top), 0.32, "level"),
    ]


def _tower_plan(key: str, vessel: Vessel, system: System) -> Scene:
    across = vessel.across or 0.0
    sides = vessel.sides if vessel.shape == "polygon" and vessel.sides else ROUND_SIDES
    half = across / 2.0
    shapes: list[Shape] = [
        Area(polygon(half + MAKERS_WALL, sides), "outline", f"{key}.walls"),
        Area(polygon(half, sides), "water", f"{key}.water"),
        Measure((-half, -half), (half, -half), -0.03, "sheet"),
    ]
    told = f"Plan of {key}: {'round' if sides == ROUND_SIDES else f'{sides} sides'}, "
    told += f"{show(across, 'm', system, 'sheet')} across inside."
    if vessel.cone is not None:
        neck = vessel.cone.neck
        shapes.append(Area(circle((0.0, 0.0), neck), "outline", f"{key}.cone", "neck of the cone"))
        shapes.append(Measure((-neck / 2.0, 0.0), (neck / 2.0, 0.0), 0.0, "sheet"))
        told += f" The neck of its cone is {show(neck, 'm', system, 'sheet')}."
    if vessel.ports:
        told += f" Its ports are not drawn here; the section tells their levels: {', '.join(vessel.ports)}."
    told += stands_told(vessel, system)
    return Scene(f"structure.{key}.plan", f"{key.capitalize()} from above", told, tuple(shapes))
