"""A timber tower in space: faces between ribs and rings, window, buttresses, cone, water."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise

from tidestead.core.scene import Point
from tidestead.core.solids import Solid, between, upright
from tidestead.plan import wall_of
from tidestead.plan.model import Vessel, Window
from tidestead.studies.openings import Rect, opening_or_sheet
from tidestead.studies.structure.ask import Tables
from tidestead.studies.structure.drawings_box import window_left
from tidestead.studies.structure.drawings_tower import polygon, ring_heights
from tidestead.studies.structure.round_box import (
    FILM,
    lining_height,
    on_wet_side,
    sheet_thickness,
    total_fall,
)
from tidestead.studies.structure.round_faces import Piece, Side, left_of, thick

FACETS = 24
"""A round vessel is drawn with so many flat faces, of the same area as the circle."""


def facets_of(vessel: Vessel) -> tuple[int, float]:
    """How many faces are drawn, and how far they stand from the middle."""
    half = (vessel.across or 0.0) / 2.0
    if vessel.shape == "polygon" and vessel.sides:
        return vessel.sides, half
    turn = math.pi / FACETS
    return FACETS, half * math.sqrt(turn / math.tan(turn))


def outline_of(vessel: Vessel, middle: Point, further: float = 0.0) -> tuple[Point, ...]:
    """The tower's inside from above, or so much further out, counter-clockwise."""
    count, apothem = facets_of(vessel)
    return tuple((middle[0] + x, middle[1] + y) for x, y in polygon(apothem + further, count))


def tower_sides(vessel: Vessel, middle: Point, floor: float) -> tuple[Side, ...]:
    """Its faces, counter-clockwise as seen from above; the first looks south."""
    corners = outline_of(vessel, middle)
    mitre = math.tan(math.pi / len(corners))
    return tuple(
        _face(here, there, floor, mitre)
        for here, there in zip(corners, (*corners[1:], corners[0]), strict=True)
    )


def _face(here: Point, there: Point, floor: float, mitre: float) -> Side:
    length = math.dist(here, there)
    along = ((there[0] - here[0]) / length, (there[1] - here[1]) / length)
    return Side(here, along, (along[1], -along[0]), length, floor, mitre)


def _radial(middle: Point, angle: float, distance: float, floor: float) -> Side:
    """A narrow face square to the way outward at an angle, its left end on that way."""
    out = (math.cos(angle), math.sin(angle))
    place = (middle[0] + distance * out[0], middle[1] + distance * out[1])
    return Side(place, (-out[1], out[0]), out, 0.0, floor)


def tower_solids(key: str, vessel: Vessel, tables: Tables, middle: Point, floor: float) -> Iterator[Solid]:
    """Every piece of a built tower."""
    sheet = sheet_thickness(wall_of(vessel, "all").sheathing, tables)
    for number, side in enumerate(tower_sides(vessel, middle, floor)):
        windows = _windows(vessel, number, side)
        yield from _face_solids(key, vessel, side, sheet, windows)
        for face, name, window, rect in windows:
            yield from _window_solids(f"{key}.{face}.{name}", vessel, side, sheet, (window, rect))
    yield from _corner_ribs(key, vessel, middle, floor, sheet)
    yield from _buttresses(key, vessel, middle, floor, sheet)
    yield from tower_contents(key, vessel, middle, floor)


def tower_contents(key: str, vessel: Vessel, middle: Point, floor: float) -> Iterator[Solid]:
    """Its water, and the cone on it."""
    yield from _cone(key, vessel, middle, floor)
    if vessel.water is not None:
        outline, levels = outline_of(vessel, middle), (floor - total_fall(vessel) / 2.0, floor + vessel.water)
        yield upright(outline, levels, "water", f"{key}.water", "water")


Hole = tuple[str, str, Window, Rect]


def _windows(vessel: Vessel, number: int, side: Side) -> list[Hole]:
    """The windows of one face: (face, name, window, its rectangle). Those of a round vessel are drawn to the south."""
    found: list[Hole] = []
    for face in vessel.walls:
        here = int(face) - 1 if face.isdigit() else 0
        if face == "all" or (here if vessel.shape == "polygon" else 0) != number:
            continue
        for name, window in wall_of(vessel, face).windows.items():
            if window.sill is None or not window.height or not window.width:
                continue
            left = window_left(window, side.length) if vessel.shape == "polygon" else 0.0
            right = left + window.width if vessel.shape == "polygon" else side.length
            found.append((face, name, window, (left, window.sill, right, window.sill + window.height)))
    return found


def _face_solids(key: str, vessel: Vessel, side: Side, sheet: float, windows: list[Hole]) -> Iterator[Solid]:
    holes = [opening_or_sheet(window, rect) for _, _, window, rect in windows]
    top = lining_height(vessel)
    if top > 0.0:
        for rect in left_of((0.0, 0.0, side.length, top), holes):
            yield side.block(rect, (0.0, FILM), Piece("membrane", f"{key}.lining", "lining"), mitred=True)
    inner = FILM if vessel.lining is not None else 0.0
    for rect in left_of((0.0, 0.0, side.length, vessel.height), holes):
        yield side.block(rect, (inner, sheet), Piece("sheet", f"{key}.sheathing"), mitred=True)
    rings = vessel.rings
    if rings is not None and rings.section is not None:
        for low, high in ring_bands(vessel):
            rect, deep = (0.0, low, side.length, high), (sheet, sheet + rings.section.depth)
            yield side.block(rect, deep, Piece("timber", f"{key}.rings", "ring"), mitred=True)
    yield from _face_ribs(key, vessel, side, sheet, [rect for _, _, _, rect in windows])


def ring_bands(vessel: Vessel) -> list[tuple[float, float]]:
    """From where to where each ring reaches in height, as in the section."""
    rings = vessel.rings
    tall = rings.section.breadth if rings is not None and rings.section is not None else 0.0
    lows = [min(max(level - tall / 2.0, 0.0), vessel.height - tall) for level in ring_heights(vessel)]
    return [(low, low + tall) for low in lows]


def bay_of(vessel: Vessel, rect: Rect) -> tuple[float, float]:
    """From which ring to which the timbers beside a window stand."""
    middle = (rect[1] + rect[3]) / 2.0
    for one, other in pairwise(ring_heights(vessel)):
        if one <= middle <= other:
            return one, other
    return 0.0, vessel.height


def rib_places(vessel: Vessel, length: float) -> tuple[float, ...]:
    """Centres of the ribs along a flat face, those at its corners left out."""
    count = vessel.ribs.per_face if vessel.ribs is not None and vessel.ribs.per_face else 0
    return tuple(length * number / (count + 1) for number in range(1, count + 1))


def _free(vessel: Vessel) -> list[Rect]:
    """Where rings stand, and timbers from ring to ring do not."""
    return [(-math.inf, low, math.inf, high) for low, high in ring_bands(vessel)]


def _plates(vessel: Vessel) -> list[Rect]:
    """Where bottom and top plate stand; ribs go through the rings between them, as their check takes them."""
    bands = _free(vessel)
    return [bands[0], bands[-1]] if bands else []


def _crossed(vessel: Vessel, hole: Rect) -> tuple[float, float]:
    """From the underside of the ring under a window to the top of the ring over it: a rib in its way is cut there."""
    levels = dict(zip(ring_heights(vessel), ring_bands(vessel), strict=True))
    foot, head = bay_of(vessel, hole)
    return (levels[foot][0] if foot in levels else foot), (levels[head][1] if head in levels else head)


def _face_ribs(key: str, vessel: Vessel, side: Side, sheet: float, holes: list[Rect]) -> Iterator[Solid]:
    ribs = vessel.ribs
    if ribs is None or ribs.section is None or vessel.shape != "polygon":
        return
    half = thick(ribs.section) / 2.0
    for at in rib_places(vessel, side.length):
        taken = [
            (at - half, low, at + half, high)
            for hole in holes
            if hole[0] < at < hole[2]
            for low, high in (_crossed(vessel, hole),)
        ]
        for rect in left_of((at - half, 0.0, at + half, vessel.height), [*taken, *_plates(vessel)]):
            deep = (sheet, sheet + ribs.section.depth)
            yield side.block(rect, deep, Piece("timber", f"{key}.ribs", "rib"))


def _corner_ribs(key: str, vessel: Vessel, middle: Point, floor: float, sheet: float) -> Iterator[Solid]:
    """Ribs at the corners of a polygon; all ribs of a round vessel."""
    ribs = vessel.ribs
    if ribs is None or ribs.section is None:
        return
    sides, apothem = facets_of(vessel)
    if vessel.shape == "polygon":
        count, distance = sides if ribs.at_corners else 0, (apothem + sheet) / math.cos(math.pi / sides)
    else:
        count, distance = ribs.per_face or 0, (vessel.across or 0.0) / 2.0 + sheet
    half = thick(ribs.section) / 2.0
    for number in range(count):
        angle = -math.pi / 2.0 + math.pi * (2 * number - 1) / count
        side = _radial(middle, angle, distance, floor)
        for rect in left_of((-half, 0.0, half, vessel.height), _plates(vessel)):
            yield side.block(rect, (0.0, ribs.section.depth), Piece("timber", f"{key}.ribs", "rib"))


def _window_solids(
    part: str, vessel: Vessel, side: Side, sheet: float, found: tuple[Window, Rect]
) -> Iterator[Solid]:
    window, rect = found
    yield side.block(rect, on_wet_side(window), Piece("clear", part, f"window {part.rpartition('.')[2]}"))
    left, low, right, high = opening_or_sheet(window, rect)
    foot, head = bay_of(vessel, rect)
    around: list[tuple[str, Rect]] = []
    opening = window.opening
    beside = thick(opening.jambs.section) if opening.jambs is not None and opening.jambs.section else 0.0
    around += [("jambs", (left - beside, foot, left, head)), ("jambs", (right, foot, right + beside, head))]
    for kind, at, way in (("sill", low, -1.0), ("header", high, 1.0)):
        timber = getattr(opening, kind)
        tall = thick(timber.section) if timber is not None and timber.section is not None else 0.0
        ends = sorted((at, at + way * tall))
        around.append((kind, (left, ends[0], right, ends[1])))
    for kind, place in around:
        timber = getattr(opening, kind)
        if timber is None or timber.section is None:
            continue
        for piece in left_of(place, _free(vessel)):
            deep = (sheet, sheet + timber.section.depth)
            yield side.block(piece, deep, Piece("timber", f"{part}.opening.{kind}", kind))


def _buttresses(key: str, vessel: Vessel, middle: Point, floor: float, sheet: float) -> Iterator[Solid]:
    props = vessel.buttresses
    if props is None or not props.count or not props.reach or props.section is None:
        return
    sides, apothem = facets_of(vessel)
    rings = vessel.rings
    deep = rings.section.depth if rings is not None and rings.section is not None else 0.0
    for number in range(props.count):
        angle = math.pi / 4.0 + 2.0 * math.pi * number / props.count
        turned = (angle + math.pi / 2.0 + math.pi / sides) % (2.0 * math.pi / sides) - math.pi / sides
        side = _radial(middle, angle, (apothem + sheet + deep) / math.cos(turned), floor)
        piece = Piece("timber", f"{key}.buttresses", "buttress")
        yield side.strut(0.0, (0.0, vessel.height), props.reach, props.section, piece)


def _cone(key: str, vessel: Vessel, middle: Point, floor: float) -> Iterator[Solid]:
    """The cone's sides; it is open below and above."""
    if vessel.cone is None:
        return
    count, apothem = facets_of(vessel)
    neck = vessel.cone.neck / 2.0 * (apothem / ((vessel.across or 1.0) / 2.0))
    base = floor + vessel.height
    rings = [
        [(middle[0] + x, middle[1] + y, level) for x, y in polygon(size, count)]
        for size, level in ((apothem, base), (neck, base + vessel.cone.height))
    ]
    cone = between(rings[0], rings[1], "outline", f"{key}.cone", "cone")
    yield replace(cone, faces=cone.faces[2:])
