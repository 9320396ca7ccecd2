"""One upright face of a vessel in space, and pieces cut from it: sheets with holes, timbers laid on it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from tidestead.core.scene import Area, Point, Stuff
from tidestead.core.solids import Solid, Spot, between
from tidestead.core.units import Section
from tidestead.studies.openings import Rect

_LEAST = 1e-6
_DIGITS = 5
"""Places are told to a hundredth of a millimetre; more would only lengthen what is sent to the page."""


@dataclass(frozen=True)
class Piece:
    """What a piece is: its stuff, the key that its checks carry, its words."""

    stuff: Stuff
    part: str
    label: str = ""


@dataclass(frozen=True)
class Side:
    """An upright face: the left end of its inner line as seen from outside, the way along it and the way outward.

    `floor` is the level of the vessel's floor. `mitre` is how much longer a piece grows at either end of the face
    for each metre outward, so that it meets its neighbour round the corner.
    """

    corner: Point
    along: Point
    out: Point
    length: float
    floor: float
    mitre: float = 0.0

    def spot(self, along: float, outward: float, height: float) -> Spot:
        """A place in space."""
        return (
            round(self.corner[0] + along * self.along[0] + outward * self.out[0], _DIGITS),
            round(self.corner[1] + along * self.along[1] + outward * self.out[1], _DIGITS),
            round(self.floor + height, _DIGITS),
        )

    def block(self, rect: Rect, deep: tuple[float, float], piece: Piece, *, mitred: bool = False) -> Solid:
        """A rectangle of the face from one distance outward to another."""
        left, low, right, high = rect
        inner, outer = deep
        grown = self.mitre if mitred else 0.0
        before = grown if left < _LEAST else 0.0
        after = grown if right > self.length - _LEAST else 0.0
        outline = (
            (left - before * outer, outer),
            (right + after * outer, outer),
            (right + after * inner, inner),
            (left - before * inner, inner),
        )
        return between(
            [self.spot(*place, low) for place in outline],
            [self.spot(*place, high) for place in outline],
            piece.stuff,
            piece.part,
            piece.label,
        )

    def strut(
        self, at: float, heads: tuple[float, float], reach: float, timber: Section, piece: Piece
    ) -> Solid:
        """A raking timber from a head (outward, height) down to a foot that much further out on the floor."""
        outward, height = heads
        half = thick(timber) / 2.0
        cut = timber.depth * (reach**2 + height**2) ** 0.5 / height
        head, foot = (outward, outward + cut), (outward + reach - cut, outward + reach)
        ends = [
            [
                self.spot(at - half, far, level),
                self.spot(at + half, far, level),
                self.spot(at + half, near, level),
                self.spot(at - half, near, level),
            ]
            for (near, far), level in ((foot, 0.0), (head, height))
        ]
        return between(ends[0], ends[1], piece.stuff, piece.part, piece.label)


def thick(section: Section) -> float:
    """All pieces of a timber side by side, across the way its depth points."""
    return section.pieces * section.breadth


def rect_of(area: Area) -> Rect:
    """The rectangle of an area of an elevation."""
    across, up = zip(*area.outline, strict=True)
    return min(across), min(up), max(across), max(up)


def left_of(rect: Rect, holes: Iterable[Rect]) -> list[Rect]:
    """What is left of a rectangle where others are cut out of it, as rectangles that do not overlap."""
    pieces = [rect]
    for hole in holes:
        pieces = [piece for whole in pieces for piece in _cut(whole, hole)]
    return pieces


def _cut(rect: Rect, hole: Rect) -> list[Rect]:
    left, low, right, high = rect
    west, foot, east, head = max(left, hole[0]), max(low, hole[1]), min(right, hole[2]), min(high, hole[3])
    if east - west < _LEAST or head - foot < _LEAST:
        return [rect]
    parts = [
        (left, low, right, foot),
        (left, head, right, high),
        (left, foot, west, head),
        (east, foot, right, head),
    ]
    return [part for part in parts if part[2] - part[0] > _LEAST and part[3] - part[1] > _LEAST]
