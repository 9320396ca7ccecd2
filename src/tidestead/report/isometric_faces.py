"""Faces of bodies as they are seen from above one corner: flat outlines with their depth.

The picture is isometric: the three axes are drawn at one scale. Faces that look away are left out.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

from tidestead.core.scene import Point
from tidestead.core.solids import Corner, Round, Solid, Spot

HAIR = 5e-5
"""Half a tenth of a millimetre: what lies closer than this counts as touching, metres."""

_TOWARDS: dict[Corner, Point] = {
    "south-west": (-1.0, -1.0),
    "south-east": (1.0, -1.0),
    "north-east": (1.0, 1.0),
    "north-west": (-1.0, 1.0),
}
_ACROSS, _RISE = math.sqrt(0.5), math.sqrt(1.0 / 3.0)
"""Level and upright share of the way to the eye: 35.26 degrees above the level, as isometric means."""

_EDGE_ON = 1e-6
_BENT = math.cos(math.radians(35.0))
"""Faces that meet at less than this make one rounded face: the line between them is not drawn."""


@dataclass(frozen=True)
class Look:
    """How places in space fall on the picture: across and up in metres, and how near they are."""

    right: Spot
    up: Spot
    eye: Spot

    def flat(self, spot: Spot) -> Point:
        """Where a place is drawn."""
        return _dot(self.right, spot), _dot(self.up, spot)

    def near(self, spot: Spot) -> float:
        """How far a place stands towards the eye."""
        return _dot(self.eye, spot)


def look_from(corner: Corner) -> Look:
    """The isometric look from above a corner."""
    x, y = (part * _ACROSS for part in _TOWARDS[corner])
    level = math.sqrt(1.0 - _RISE**2)
    return Look((-y, x, 0.0), (-x * _RISE, -y * _RISE, level), (x * level, y * level, _RISE))


def _dot(one: Spot, other: Spot) -> float:
    return one[0] * other[0] + one[1] * other[1] + one[2] * other[2]


@dataclass(frozen=True)
class Face:
    """One face on the picture, counter-clockwise. `plane` gives its nearness: a * across + b * up + c.

    `drawn` says of each side whether it is an edge of the body, or only a cut. `turned` tells how the face lies: 0
    level, 1 and 2 upright, to the right and to the left of the eye.
    """

    solid: Solid
    outline: tuple[Point, ...]
    plane: tuple[float, float, float]
    drawn: tuple[bool, ...]
    turned: int

    def near(self, place: Point) -> float:
        """How near the face is at a place of the picture."""
        return self.plane[0] * place[0] + self.plane[1] * place[1] + self.plane[2]

    @cached_property
    def lines(self) -> tuple[tuple[float, float, float], ...]:
        """The lines through its sides, above zero inside."""
        return tuple(
            side_line(here, there)
            for here, there in zip(self.outline, (*self.outline[1:], self.outline[0]), strict=True)
        )

    @cached_property
    def area(self) -> float:
        """Of its outline on the picture, m2."""
        return area_of(self.outline)

    @property
    def box(self) -> tuple[float, float, float, float]:
        """Left, bottom, right, top."""
        across, up = zip(*self.outline, strict=True)
        return min(across), min(up), max(across), max(up)

    def cut(self, line: tuple[float, float, float]) -> tuple[Face | None, Face | None]:
        """What lies where a * across + b * up + c is above zero, and what lies where it is below."""
        found: list[Face | None] = []
        for sign in (1.0, -1.0):
            outline, drawn = _clipped(
                self.outline, self.drawn, (line[0] * sign, line[1] * sign, line[2] * sign)
            )
            found.append(replace(self, outline=outline, drawn=drawn) if wide(outline) else None)
        return found[0], found[1]


def seen_faces(view: Round, look: Look) -> Iterator[Face]:
    """Every face that looks to the eye; bodies with a place that is no number are left out."""
    for solid in view.solids:
        if all(math.isfinite(part) for point in solid.points for part in point):
            yield from _seen(solid, look)


def _seen(solid: Solid, look: Look) -> Iterator[Face]:
    ahead: dict[tuple[int, ...], Spot] = {}
    for numbers in solid.faces:
        normal = _unit(_normal([solid.points[number] for number in numbers]))
        if _dot(normal, look.eye) > _EDGE_ON:
            ahead[numbers] = normal
    sides = {side: normal for numbers, normal in ahead.items() for side in _sides(numbers)}
    for numbers, normal in ahead.items():
        beyond = [sides.get((there, here)) for here, there in _sides(numbers)]
        drawn = tuple(other is None or _dot(normal, other) < _BENT for other in beyond)
        face = _face(solid, [solid.points[number] for number in numbers], normal, drawn, look)
        if wide(face.outline):
            yield face


def _sides(numbers: Sequence[int]) -> list[tuple[int, int]]:
    return list(zip(numbers, (*numbers[1:], numbers[0]), strict=True))


def _face(solid: Solid, corners: Sequence[Spot], normal: Spot, drawn: tuple[bool, ...], look: Look) -> Face:
    ahead = _dot(normal, look.eye)
    plane = (
        -_dot(normal, look.right) / ahead,
        -_dot(normal, look.up) / ahead,
        _dot(normal, corners[0]) / ahead,
    )
    turned = 0 if normal[2] > 0.5 else 1 if _dot(normal, look.right) > 0.0 else 2
    return Face(solid, tuple(look.flat(corner) for corner in corners), plane, drawn, turned)


def _unit(way: Spot) -> Spot:
    length = math.sqrt(_dot(way, way)) or 1.0
    return way[0] / length, way[1] / length, way[2] / length


def _normal(corners: Sequence[Spot]) -> Spot:
    """Square to a flat face, outward, by Newell's sums."""
    x = y = z = 0.0
    for (ax, ay, az), (bx, by, bz) in zip(corners, (*corners[1:], corners[0]), strict=True):
        x += (ay - by) * (az + bz)
        y += (az - bz) * (ax + bx)
        z += (ax - bx) * (ay + by)
    return x, y, z


def wide(outline: Sequence[Point]) -> bool:
    """Whether an outline is more than a line: its area against its way round."""
    if len(outline) < 3:
        return False
    way = sum(map(math.dist, outline, (*outline[1:], outline[0])))
    return 2.0 * area_of(outline) > HAIR * way


def area_of(outline: Sequence[Point]) -> float:
    """The area inside an outline, counter-clockwise."""
    total = 0.0
    for (ax, ay), (bx, by) in zip(outline, (*outline[1:], outline[0]), strict=True):
        total += ax * by - bx * ay
    return total / 2.0


def shared(one: Face, other: Face) -> tuple[Point, ...]:
    """Where both faces are drawn; empty where they only touch."""
    if _beyond(one, other) or _beyond(other, one):
        return ()
    outline = one.outline
    for line in other.lines:
        outline, _ = _clipped(outline, (), line)
        if len(outline) < 3:
            return ()
    return outline if wide(outline) else ()


def _beyond(one: Face, other: Face) -> bool:
    """Whether all of one face lies outside some side of the other: the quick way to tell most pairs apart."""
    return any(all(a * x + b * y + c <= 0.0 for x, y in one.outline) for a, b, c in other.lines)


def side_line(here: Point, there: Point) -> tuple[float, float, float]:
    """The line through a side; above zero to the left of it, which is inside an outline."""
    a, b = here[1] - there[1], there[0] - here[0]
    return a, b, -(a * here[0] + b * here[1])


def _clipped(
    outline: Sequence[Point], drawn: Sequence[bool], line: tuple[float, float, float]
) -> tuple[tuple[Point, ...], tuple[bool, ...]]:
    """The part of a convex outline on the upper side of a line, with which of its sides are edges."""
    a, b, c = line
    above = [a * x + b * y + c for x, y in outline]
    flags = drawn or (True,) * len(outline)
    places: list[Point] = []
    sides: list[bool] = []
    for index, (x, y) in enumerate(outline):
        after = (index + 1) % len(outline)
        here, there = above[index], above[after]
        if here >= 0.0:
            places.append((x, y))
            sides.append(flags[index])
        if (here > 0.0 > there) or (here < 0.0 < there):
            share = here / (here - there)
            places.append((x + share * (outline[after][0] - x), y + share * (outline[after][1] - y)))
            sides.append(flags[index] if here < 0.0 else False)
    return tuple(places), tuple(sides)
