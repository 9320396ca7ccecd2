"""Signs of a pipework drawing: arrowheads, pumps, valves, check valves, apparatus, as plain strokes."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable
from typing import TypeAlias

from tidestead.core.scene import Point, Shape, Stroke
from tidestead.core.scene import Sign as Explained

Way: TypeAlias = tuple[float, float]
"""The way the water goes, as a step of length one."""

Sign: TypeAlias = Callable[[Point, Way, float, str], list[Shape]]

_CORNERS = 20


def arrow(at: Point, way: Way, size: float, part: str) -> list[Shape]:
    """An open arrowhead with its tip at a place."""
    back = [_moved(at, way, -size, side * 0.5 * size) for side in (1.0, -1.0)]
    return [Stroke((back[0], at, back[1]), "outline", part)]


def pump(at: Point, way: Way, size: float, part: str) -> list[Shape]:
    """A circle with a triangle that points the way of the water."""
    radius = size / 2.0
    ring = tuple(
        (at[0] + radius * math.cos(turn), at[1] + radius * math.sin(turn))
        for turn in (2.0 * math.pi * number / _CORNERS for number in range(_CORNERS + 1))
    )
    tip, low, high = (
        _moved(at, way, radius, 0.0),
        _moved(at, way, -0.5 * radius, 0.86 * radius),
        _moved(at, way, -0.5 * radius, -0.86 * radius),
    )
    return [Stroke(ring, "outline", part), Stroke((low, tip, high, low), "outline", part)]


def valve(at: Point, way: Way, size: float, part: str) -> list[Shape]:
    """Two triangles tip to tip."""
    half, side = size / 2.0, 0.35 * size
    first = (at, _moved(at, way, -half, side), _moved(at, way, -half, -side), at)
    other = (at, _moved(at, way, half, side), _moved(at, way, half, -side), at)
    return [Stroke(first, "outline", part), Stroke(other, "outline", part)]


def check_valve(at: Point, way: Way, size: float, part: str) -> list[Shape]:
    """A triangle against a bar."""
    half, side = size / 2.0, 0.35 * size
    tip = _moved(at, way, half, 0.0)
    body = (tip, _moved(at, way, -half, side), _moved(at, way, -half, -side), tip)
    bar = (_moved(at, way, half, side), _moved(at, way, half, -side))
    return [Stroke(body, "outline", part), Stroke(bar, "outline", part)]


def box(at: Point, way: Way, size: float, part: str) -> list[Shape]:
    """A box, for apparatus in the line."""
    half, side = size / 2.0, 0.35 * size
    corners = [(-half, -side), (half, -side), (half, side), (-half, side), (-half, -side)]
    return [Stroke(tuple(_moved(at, way, along, aside) for along, aside in corners), "outline", part)]


def junction(at: Point, way: Way, size: float, part: str) -> list[Shape]:
    """A square on its corner, where pipes meet."""
    half = size / 2.0
    corners = [(-half, 0.0), (0.0, half), (half, 0.0), (0.0, -half), (-half, 0.0)]
    return [Stroke(tuple(_moved(at, way, along, aside) for along, aside in corners), "outline", part)]


NAMES: dict[Sign, str] = {
    pump: "pump",
    valve: "valve",
    check_valve: "check valve",
    box: "apparatus (lamp, strainer)",
    junction: "junction",
}


def explained(used: Iterable[Sign]) -> tuple[Explained, ...]:
    """The signs that a drawing uses, once each, with their words, for its key."""
    used = set(used)
    return tuple(
        Explained(
            tuple(
                shape.points for shape in sign((0.0, 0.0), (1.0, 0.0), 1.0, "") if isinstance(shape, Stroke)
            ),
            words,
        )
        for sign, words in NAMES.items()
        if sign in used
    )


def _moved(at: Point, way: Way, along: float, aside: float) -> Point:
    """So far along the way, and so far to its left."""
    return at[0] + along * way[0] - aside * way[1], at[1] + along * way[1] + aside * way[0]
