"""A timber tower drawn whole: from above, and from outside, square to a face that something is set in.

Both are its pieces in space seen from far away, nearer over farther, with sizes beside them.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from typing import NamedTuple

from tidestead.core.scene import Area, Measure, Note, Point, Scene, Shape, Stroke
from tidestead.core.solids import Solid, Spot
from tidestead.core.units import System, show
from tidestead.plan import wall_of
from tidestead.plan.model import Vessel
from tidestead.studies.structure.ask import Tables
from tidestead.studies.structure.drawings_box import window_left
from tidestead.studies.structure.drawings_holes import (
    Bored,
    circle,
    floor_under,
    ports_told,
    square_on,
    stands_told,
)
from tidestead.studies.structure.round_faces import Side
from tidestead.studies.structure.round_tower import tower_sides, tower_solids

_MIDDLE = (0.0, 0.0)
_INSIDE = ("water", "membrane")
"""Stuffs that the faces of a tower hide."""

_ROOM = 0.15
_HAIR = 1e-6


class _View(NamedTuple):
    """Ways in space: to the right of the drawing, up it, and out of it towards whoever looks."""

    right: Spot
    up: Spot
    near: Spot


_FROM_ABOVE = _View((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))


def whole_scenes(
    key: str, vessel: Vessel, tables: Tables, holes: Sequence[Bored], system: System
) -> list[Scene]:
    """The plan, and an elevation of each face that has a window or a bulkhead; of the first where none has."""
    pieces = tuple(tower_solids(key, vessel, tables, _MIDDLE, 0.0))
    sides = tower_sides(vessel, _MIDDLE, 0.0)
    faces = _busy_faces(vessel, holes)
    named = [(face, "elevation" if not number else f"{face}.elevation") for number, face in enumerate(faces)]
    return [
        *(
            _elevation(
                _Face(key, vessel, face, sides[face - 1]), f"structure.{key}.{name}", pieces, holes, system
            )
            for face, name in named
        ),
        _plan(key, vessel, sides, pieces, system),
    ]


def _busy_faces(vessel: Vessel, holes: Sequence[Bored]) -> list[int]:
    """Numbers of the faces with something in them, windows first; the first face where there is none."""
    if vessel.shape != "polygon":
        return [1]
    windows = [face for face in vessel.walls if face.isdigit() and vessel.walls[face].windows]
    walls = [hole.wall for hole in holes if hole.wall.isdigit()]
    last = vessel.sides or 0
    found = dict.fromkeys(int(face) for face in (*windows, *walls) if 1 <= int(face) <= last)
    return list(found) or [1]


class _Face(NamedTuple):
    """A face that is looked at, with its vessel."""

    key: str
    vessel: Vessel
    number: int
    side: Side

    @property
    def view(self) -> _View:
        return _View((*self.side.along, 0.0), (0.0, 0.0, 1.0), (*self.side.out, 0.0))


def _elevation(
    face: _Face, ident: str, pieces: Iterable[Solid], holes: Sequence[Bored], system: System
) -> Scene:
    key, vessel, view = face.key, face.vessel, face.view
    seen = [piece for piece in pieces if piece.stuff not in _INSIDE and not _behind(piece, view)]
    drawn = list(_projected(seen, view))
    ends = (
        min(x for area in drawn for x, _ in area.outline),
        max(x for area in drawn for x, _ in area.outline),
    )
    left = -face.side.length / 2.0
    bored = [hole for hole in holes if hole.wall == str(face.number)]
    shapes: list[Shape] = [
        replace(floor_under(key, vessel, (ends[0] - _ROOM, ends[1] + _ROOM), system), label=""),
        *drawn,
        *square_on(bored, left, system),
        *_window_sizes(face, left),
        Measure((ends[0], 0.0), (ends[0], vessel.height), 0.3, "level"),
        Measure((ends[0], 0.0), (ends[1], 0.0), -0.3, "level"),
    ]
    if vessel.water is not None:
        shapes.append(Stroke(((ends[0], vessel.water), (ends[1], vessel.water)), "water", f"{key}.water"))
        shapes.append(Measure((ends[1], 0.0), (ends[1], vessel.water), -0.2, "level"))
    if vessel.cone is not None:
        top = vessel.height + vessel.cone.height
        shapes.append(Measure((ends[0], vessel.height), (ends[0], top), 0.3, "level"))
    facing = f"square to face {face.number}" if vessel.shape == "polygon" else "from the south"
    told = f"{key.capitalize()} from outside, {facing}: {show(vessel.height, 'm', system)} high"
    if vessel.water is not None:
        told += f", water {show(vessel.water, 'm', system)} deep"
    told += f".{stands_told(vessel, system)}{ports_told(vessel, system)}"
    return Scene(ident, f"{key.capitalize()} from outside, {facing}", told, tuple(shapes))


def _window_sizes(face: _Face, left: float) -> Iterator[Shape]:
    """Sill, width and height of the windows in the face."""
    if face.vessel.shape != "polygon":
        return
    for window in wall_of(face.vessel, str(face.number)).windows.values():
        if window.sill is None or not window.width or not window.height:
            continue
        begin = left + window_left(window, face.side.length)
        yield Measure((begin, 0.0), (begin, window.sill), 0.06, "sheet")
        yield Measure((begin, window.sill), (begin, window.sill + window.height), 0.06, "sheet")
        yield Measure((begin, window.sill), (begin + window.width, window.sill), -0.06, "sheet")


def _plan(key: str, vessel: Vessel, sides: Sequence[Side], pieces: Iterable[Solid], system: System) -> Scene:
    half = (vessel.across or 0.0) / 2.0
    drawn = list(_projected([piece for piece in pieces if _seen_from_above(piece, vessel)], _FROM_ABOVE))
    across = [x for area in drawn for x, _ in area.outline]
    lowest = min(y for area in drawn for _, y in area.outline)
    shapes: list[Shape] = [
        *drawn,
        Measure((0.0, -half), (0.0, half), max(across) + 0.1, "sheet"),
        Measure((min(across), lowest), (max(across), lowest), -0.15, "level"),
        Note((0.0, max(y for area in drawn for _, y in area.outline) + 0.1), "north"),
    ]
    if vessel.cone is not None:
        neck = vessel.cone.neck
        shapes.append(Area(circle(_MIDDLE, neck), "outline", f"{key}.cone", "neck of the cone"))
        shapes.append(Measure((-neck / 2.0, 0.0), (neck / 2.0, 0.0), 0.0, "sheet"))
    told = f"Plan of {key}: {show(vessel.across or 0.0, 'm', system, 'sheet')} across inside, "
    told += f"{show(max(across) - min(across), 'm', system)} over all from west to east; north is up."
    if vessel.buttresses is not None and vessel.buttresses.count:
        told += f" Its {vessel.buttresses.count} buttresses are drawn evenly round it, the first to the north-east."
    if vessel.shape == "polygon":
        shapes += _face_names(vessel, sides)
        told += (
            f" {len(sides)} faces, counted from the south to the left, as you walk round them by the east."
        )
    return Scene(f"structure.{key}.plan", f"{key.capitalize()} from above", told, tuple(shapes))


def _face_names(vessel: Vessel, sides: Sequence[Side]) -> Iterator[Note]:
    """The number of every face inside of it, with what is set in it."""
    for number, side in enumerate(sides, start=1):
        windows = vessel.walls[str(number)].windows if str(number) in vessel.walls else {}
        words = ", ".join([f"{number}", *(f"window {name}" for name in windows)])
        place = side.spot(side.length / 2.0, -0.07, 0.0)
        yield Note((place[0], place[1]), words)


def _seen_from_above(piece: Solid, vessel: Vessel) -> bool:
    """Whether a piece is not hidden under the top ring."""
    reach = max(z for _, _, z in piece.points)
    return (reach >= vessel.height - _HAIR or piece.stuff == "water") and piece.stuff != "membrane"


def _behind(piece: Solid, view: _View) -> bool:
    """Whether a piece of the shell is on the far side, which the near side hides."""
    shell = piece.part.endswith((".sheathing", ".lining", ".rings", ".ribs"))
    return shell and sum(_dot(point, view.near) for point in piece.points) < -_HAIR


def _projected(pieces: Iterable[Solid], view: _View) -> Iterator[Area]:
    """Outlines of the pieces as they are seen, the farthest first."""
    for piece in sorted(pieces, key=lambda one: max(_dot(point, view.near) for point in one.points)):
        flat = [(_dot(point, view.right), _dot(point, view.up)) for point in piece.points]
        yield Area(_hull(flat), piece.stuff, piece.part)


def _dot(point: Spot, way: Spot) -> float:
    return sum(one * other for one, other in zip(point, way, strict=True))


def _hull(points: Sequence[Point]) -> tuple[Point, ...]:
    """The outline round points, counter-clockwise: the lower chain from left to right, then the upper one back."""
    ordered = sorted(set(points))
    chains = []
    for run in (ordered, ordered[::-1]):
        chain: list[Point] = []
        for point in run:
            while len(chain) > 1 and _turn(chain[-2], chain[-1], point) <= 0.0:
                chain.pop()
            chain.append(point)
        chains.append(chain[:-1])
    return (*chains[0], *chains[1])


def _turn(first: Point, second: Point, third: Point) -> float:
    """Twice the area to the left of the way over three points."""
    return (second[0] - first[0]) * (third[1] - first[1]) - (second[1] - first[1]) * (third[0] - first[0])
