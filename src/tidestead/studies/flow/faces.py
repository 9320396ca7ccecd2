"""What stands in the way of a hole on one face of a vessel: timbers and clear sheets, as rectangles seen from outside.

Uprights stand where the structure has them: studs at both ends of a wall and evenly between, no further apart than
their spacing; ribs evenly on each face of a tower. Timbers inside an opening give way to the frame round it.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from itertools import pairwise

from tidestead.core.units import Section
from tidestead.physics.structure.rings import polygon_side
from tidestead.plan import wall_of
from tidestead.plan.model import Vessel, Wall, Window
from tidestead.studies.openings import opening_or_sheet

PLATE = 0.045
"""Height of a bottom plate where the plan names neither it nor a stud, metres. Common practice, no source."""


@dataclass(frozen=True)
class Bar:
    """A piece in the way of a hole: metres from the face's left end and from the vessel's floor."""

    words: str
    left: float
    right: float
    low: float
    high: float

    def gap(self, x: float, z: float) -> float:
        """From a place on the face to the nearest edge of the piece; nothing inside it."""
        return math.hypot(max(self.left - x, x - self.right, 0.0), max(self.low - z, z - self.high, 0.0))


@dataclass(frozen=True)
class Face:
    """One face: its length (None where it has no ends), its timbers, its clear sheets."""

    length: float | None
    height: float
    timbers: tuple[Bar, ...]
    windows: tuple[Bar, ...]


def face_of(vessel: Vessel, name: str) -> Face:
    """A face of a vessel by its wall's name."""
    wall, length = wall_of(vessel, name), face_length(vessel, name)
    windows = tuple(_windows(wall, length))
    if vessel.shape == "box":
        timbers = [*_studs(vessel, wall, length), *_plates(vessel, wall, length)]
    else:
        timbers = [*_ribs(vessel, length), *_rings(vessel, length)]
    timbers = [left for bar in timbers for left in _beside(bar, windows, vessel)]
    timbers += [bar for key, window in wall.windows.items() for bar in _frame(vessel, key, window, length)]
    return Face(length, vessel.height, tuple(timbers), windows)


def face_length(vessel: Vessel, name: str) -> float | None:
    """Length of a face between its ends: a wall of a box, a side of a polygon; a round vessel has none."""
    if vessel.shape == "box":
        return vessel.length if name in ("north", "south") else vessel.width
    if vessel.shape == "polygon" and vessel.across is not None and vessel.sides:
        return float(polygon_side(vessel.across / 2.0, vessel.sides))
    return None


def ring_levels(vessel: Vessel) -> tuple[float, ...]:
    """Heights of a tower's rings above its floor, the plates at foot and top among them."""
    rings = vessel.rings
    if rings is None or (not rings.at and rings.spacing is None):
        return ()
    if rings.at:
        return tuple(sorted({0.0, *rings.at, vessel.height}))
    return evenly(vessel.height, rings.spacing or vessel.height)


def evenly(length: float, spacing: float) -> tuple[float, ...]:
    """Places from end to end, no further apart than a spacing."""
    bays = max(1, math.ceil((length - 1e-9) / spacing))
    return tuple(length * number / bays for number in range(bays + 1))


def _thick(section: Section | None, instead: float = 0.0) -> float:
    """All pieces of a timber side by side, across the way its depth points."""
    return instead if section is None else section.pieces * section.breadth


def _studs(vessel: Vessel, wall: Wall, length: float | None) -> Iterator[Bar]:
    studs = wall.studs
    if studs is None or not studs.spacing or length is None:
        return
    half = _thick(studs.section) / 2.0
    places = evenly(length, studs.spacing)
    for at in places:
        words = "corner post" if at in (places[0], places[-1]) else "stud"
        yield Bar(words, at - half, at + half, 0.0, vessel.height)


def _plates(vessel: Vessel, wall: Wall, length: float | None) -> Iterator[Bar]:
    """The rim along the top and the plate along the foot of a wall."""
    ends = (-math.inf, math.inf) if length is None else (0.0, length)
    if wall.rim is not None and wall.rim.section is not None:
        section = wall.rim.section
        tall = section.depth if wall.rim.lies == "on edge" else _thick(section)
        yield Bar("rim", *ends, vessel.height - tall, vessel.height)
    if wall.studs is None and wall.base is None:
        return
    section_of_stud = wall.studs.section if wall.studs is not None else None
    plate = wall.base.plate if wall.base is not None and wall.base.plate is not None else None
    tall = plate if plate is not None else section_of_stud.breadth if section_of_stud is not None else PLATE
    yield Bar("bottom plate", *ends, 0.0, tall)


def _ribs(vessel: Vessel, length: float | None) -> Iterator[Bar]:
    ribs = vessel.ribs
    if ribs is None:
        return
    if length is None:
        yield from _round_ribs(vessel)
        return
    half, bays = _thick(ribs.section) / 2.0, (ribs.per_face or 0) + 1
    for number in range(bays + 1):
        if number in (0, bays) and not ribs.at_corners:
            continue
        at = length * number / bays
        yield Bar("corner rib" if number in (0, bays) else "rib", at - half, at + half, 0.0, vessel.height)


def _round_ribs(vessel: Vessel) -> Iterator[Bar]:
    """Ribs round a round vessel, places counted along its girth from the middle of one of them."""
    ribs = vessel.ribs
    if ribs is None or not ribs.per_face or vessel.across is None:
        return
    half, apart = _thick(ribs.section) / 2.0, math.pi * vessel.across / ribs.per_face
    for number in range(ribs.per_face + 1):
        yield Bar("rib", number * apart - half, number * apart + half, 0.0, vessel.height)


def _rings(vessel: Vessel, length: float | None) -> Iterator[Bar]:
    ends = (-math.inf, math.inf) if length is None else (0.0, length)
    tall = _thick(vessel.rings.section) if vessel.rings is not None else 0.0
    levels = ring_levels(vessel)
    for number, level in enumerate(levels):
        low = min(max(level - tall / 2.0, 0.0), vessel.height - tall)
        words = "bottom plate" if number == 0 else "top plate" if number == len(levels) - 1 else "ring"
        yield Bar(words, *ends, low, low + tall)


def _windows(wall: Wall, length: float | None) -> Iterator[Bar]:
    """The clear sheets, where their place can be told."""
    for key, window in wall.windows.items():
        sheet = _sheet(window, length)
        if sheet is not None:
            yield Bar(f"window {key}", *sheet)


def _sheet(window: Window, length: float | None) -> tuple[float, float, float, float] | None:
    if window.width is None or window.height is None or window.sill is None:
        return None
    left = window.from_left
    if left is None:
        if length is None:
            return -math.inf, math.inf, window.sill, window.sill + window.height
        left = (length - window.width) / 2.0
    return left, left + window.width, window.sill, window.sill + window.height


def _beside(bar: Bar, windows: Iterable[Bar], vessel: Vessel) -> list[Bar]:
    """What is left of an upright where sheets are set into its face: their frames take its place where they stand."""
    left = [bar]
    if bar.words not in ("stud", "rib"):
        return left
    middle = (bar.left + bar.right) / 2.0
    for window in windows:
        if window.left < middle < window.right:
            foot, head = _bay(vessel, window.low, window.high)
            pieces = [
                piece
                for one in left
                for piece in (replace(one, high=min(one.high, foot)), replace(one, low=max(one.low, head)))
            ]
            left = [one for one in pieces if one.high > one.low]
    return left


def _frame(vessel: Vessel, key: str, window: Window, length: float | None) -> Iterator[Bar]:
    """Timbers round a clear opening: beside it from base to rim, in a tower from ring to ring, under it, over it."""
    sheet = _sheet(window, length)
    if sheet is None:
        return
    left, low, right, high = opening_or_sheet(window, (sheet[0], sheet[2], sheet[1], sheet[3]))
    opening = window.opening
    beside = _thick(opening.jambs.section) if opening.jambs is not None else 0.0
    if beside:
        foot, head = _bay(vessel, low, high)
        yield Bar(f"timber beside window {key}", left - beside, left, foot, head)
        yield Bar(f"timber beside window {key}", right, right + beside, foot, head)
    for words, piece, at in (("under", opening.sill, low), ("over", opening.header, high)):
        tall = _thick(piece.section) if piece is not None else 0.0
        if tall:
            foot = at - tall if words == "under" else at
            yield Bar(f"timber {words} window {key}", left - beside, right + beside, foot, foot + tall)


def _bay(vessel: Vessel, low: float, high: float) -> tuple[float, float]:
    """From where to where the timbers beside a sheet stand."""
    middle = (low + high) / 2.0
    for one, other in pairwise(ring_levels(vessel)):
        if one <= middle <= other:
            return one, other
    return 0.0, vessel.height
