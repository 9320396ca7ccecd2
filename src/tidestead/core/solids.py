"""Bodies in space as plain geometry in metres: x east, y north, z up from the datum of all levels.

A round view is drawn from them as a picture in the round or as a static one. They know no colours; renderers choose
those from `stuff`, or from the checks that carry the same `part`.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal, TypeAlias

from tidestead.core.scene import Point, Stuff

Spot: TypeAlias = tuple[float, float, float]
Corner = Literal["south-west", "south-east", "north-east", "north-west"]


@dataclass(frozen=True)
class Solid:
    """A convex body with flat faces.

    `faces` are numbers of `points`, in order round each face, counter-clockwise as seen from outside. `part` is the
    key that checks carry too.
    """

    points: tuple[Spot, ...]
    faces: tuple[tuple[int, ...], ...]
    stuff: Stuff
    part: str = ""
    label: str = ""


@dataclass(frozen=True)
class Wire:
    """A thin line through places in space, such as an edge of the building."""

    points: tuple[Spot, ...]
    stuff: Stuff = "ghost"
    part: str = ""
    label: str = ""


@dataclass(frozen=True)
class Span:
    """A dimension between two places, its line drawn `aside` of them; `style` as units.show takes it."""

    start: Spot
    end: Spot
    aside: Spot
    style: str = ""
    words: str = ""


@dataclass(frozen=True)
class Tag:
    """Words at a place in space."""

    at: Spot
    words: str
    part: str = ""


@dataclass(frozen=True)
class Round:
    """One view in the round. `told` is the same in words; `seen_from` is the corner it is first looked at from."""

    id: str
    title: str
    told: str
    solids: tuple[Solid, ...]
    wires: tuple[Wire, ...] = ()
    spans: tuple[Span, ...] = ()
    tags: tuple[Tag, ...] = ()
    seen_from: Corner = "south-west"


def between(below: Sequence[Spot], above: Sequence[Spot], stuff: Stuff, part: str, label: str = "") -> Solid:
    """The convex body between two outlines with as many corners, each counter-clockwise as seen from the second.

    Corner n of the one is joined to corner n of the other; every side must come out flat.
    """
    count = len(below)
    sides = tuple((n, (n + 1) % count, count + (n + 1) % count, count + n) for n in range(count))
    ends = (tuple(reversed(range(count))), tuple(range(count, 2 * count)))
    return Solid((*below, *above), (*ends, *sides), stuff, part, label)


def upright(
    outline: Sequence[Point], heights: tuple[float, float], stuff: Stuff, part: str, label: str = ""
) -> Solid:
    """A level outline, counter-clockwise as seen from above, raised from one height to another."""
    low, high = heights
    return between([(x, y, low) for x, y in outline], [(x, y, high) for x, y in outline], stuff, part, label)
