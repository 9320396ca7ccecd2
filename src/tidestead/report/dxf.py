"""Flat parts as DXF: true scale in millimetres, on layers that a cutter can switch on and off."""

from __future__ import annotations

import io
import math
from collections.abc import Sequence
from typing import TYPE_CHECKING, NamedTuple

from tidestead.build.flats import Flat, file_stems
from tidestead.report.plain import clean

if TYPE_CHECKING:
    from ezdxf.document import Drawing
    from ezdxf.layouts.layout import Modelspace

    from tidestead.core.scene import Point

LAYERS = {
    "OUTLINE": 7,
    "OPENINGS": 1,
    "HOLES": 150,
    "HOLE-CENTRES": 6,
    "GRAIN": 94,
    "MARKS": 8,
}
"""Name of a layer: its colour by the AutoCAD colour index. Cut by the first three, drill at the fourth.
Each can be told from a white and from a dark ground.
"""

ALL = "all-parts"
"""Stem of the file that has every part side by side."""

MILLIMETRE = 1000.0
_SCREEN = 1.6
"""Width of a drawing over its height, about."""
_MARGIN = 1.1
"""How much more than the drawing is seen when the file is opened."""

_SMALLEST_WORDS, _LARGEST_WORDS = 6.0, 40.0
_LETTER = 0.9
"""Width of a letter over its height, generously: no words run into the next part."""


def drawings(flats: Sequence[Flat]) -> dict[str, str]:
    """File names without their ending, and what stands in them: one for each part, and all side by side."""
    if not flats:
        return {}
    stems = file_stems([*(flat.mark for flat in flats), ALL])
    files = {stem: drawing([flat]) for stem, flat in zip(stems, flats, strict=False)}
    return {**files, stems[-1]: drawing(flats)}


def drawing(flats: Sequence[Flat]) -> str:
    """The parts in rows from nought on, each with its words below it, shown whole when the file is opened."""
    from ezdxf.filemanagement import new  # noqa: PLC0415 - takes a fifth of a second; wanted by exports only

    document = new("R2010", units=4)
    document.header["$MEASUREMENT"] = 1
    document.header["$LUNITS"] = 2
    for name, colour in LAYERS.items():
        document.layers.add(name, color=colour)
    space = document.modelspace()
    rooms = [_room(flat) for flat in flats]
    places = _places(rooms)
    for flat, place in zip(flats, places, strict=True):
        _part(space, flat, place)
    _shown_whole(document, places, rooms)
    return _text(document)


def _places(rooms: Sequence[_Room]) -> list[Point]:
    """Where each part begins, row under row: so many in a row that the whole is hardly wider than a screen."""
    area = sum(room.width * (room.above + room.below) for room in rooms)
    wide = math.sqrt(_SCREEN * area)
    rows: list[list[_Room]] = [[]]
    for room in rooms:
        if rows[-1] and sum(one.width for one in rows[-1]) + room.width > wide:
            rows.append([])
        rows[-1].append(room)
    places: list[Point] = []
    level = 0.0
    for number, row in enumerate(rows):
        level -= max((one.above for one in row), default=0.0) if number else 0.0
        left = 0.0
        for room in row:
            places.append((left, level))
            left += room.width
        level -= max((one.below for one in row), default=0.0)
    return places


def _text(document: Drawing) -> str:
    stream = io.StringIO()
    document.write(stream)
    return stream.getvalue()


def _shown_whole(document: Drawing, places: Sequence[Point], rooms: Sequence[_Room]) -> None:
    """Tell in the file how far the drawing reaches, and open it at that."""
    here = list(zip(places, rooms, strict=True))
    right = max((x + room.width for (x, _), room in here), default=1.0)
    low = min((y - room.below for (_, y), room in here), default=0.0)
    high = max((y + room.above for (_, y), room in here), default=1.0)
    document.modelspace().reset_extents((0.0, low, 0.0), (right, high, 0.0))
    height = max(high - low, right / _SCREEN)
    document.set_modelspace_vport(_MARGIN * height, (right / 2.0, (low + high) / 2.0))


class _Room(NamedTuple):
    """What a part and its words take, in millimetres: how wide, above its lower edge and below."""

    width: float
    above: float
    below: float


def _tall(flat: Flat) -> float:
    """Height of its words in millimetres."""
    return min(max(0.04 * MILLIMETRE * max(flat.width, flat.height), _SMALLEST_WORDS), _LARGEST_WORDS)


def _room(flat: Flat) -> _Room:
    tall, words = _tall(flat), [*flat.told, *_hole_words(flat)]
    longest = max(map(len, words), default=0) * _LETTER * tall
    arrow = {"": 0.0, "level": 4.0, "upright": 10.0}[flat.grain]
    below = (3.0 + 1.6 * len(words) + arrow) * tall
    return _Room(max(MILLIMETRE * flat.width, longest) + 3.0 * tall, MILLIMETRE * flat.height + tall, below)


def _part(space: Modelspace, flat: Flat, place: Point) -> None:
    """One part with its lower left corner there, in millimetres."""
    left, low = place
    _closed(space, flat.outline, place, "OUTLINE")
    for opening in flat.openings:
        _closed(space, opening, place, "OPENINGS")
    for hole in flat.holes:
        _hole(space, (left + MILLIMETRE * hole.x, low + MILLIMETRE * hole.y), MILLIMETRE * hole.diameter)
    tall, words = _tall(flat), [*flat.told, *_hole_words(flat)]
    for number, line in enumerate(words):
        _words(space, line, (left, low - (1.5 + 1.6 * number) * tall), tall)
    if flat.grain:
        _arrow(space, flat, left, low - (3.0 + 1.6 * len(words)) * tall, tall)


def _closed(space: Modelspace, outline: Sequence[Point], place: Point, layer: str) -> None:
    corners = [(place[0] + MILLIMETRE * x, place[1] + MILLIMETRE * y) for x, y in outline]
    space.add_lwpolyline(corners, close=True, dxfattribs={"layer": layer})


def _hole(space: Modelspace, centre: tuple[float, float], diameter: float) -> None:
    """The edge of a hole, and its middle as a point under a cross that reaches a quarter past the edge."""
    x, y = centre
    arm = 0.625 * diameter
    space.add_circle(centre, diameter / 2.0, dxfattribs={"layer": "HOLES"})
    space.add_point(centre, dxfattribs={"layer": "HOLE-CENTRES"})
    space.add_line((x - arm, y), (x + arm, y), dxfattribs={"layer": "HOLE-CENTRES"})
    space.add_line((x, y - arm), (x, y + arm), dxfattribs={"layer": "HOLE-CENTRES"})


def _hole_words(flat: Flat) -> list[str]:
    """A line for every hole: its diameter, where its middle lies from the lower left corner, what it is for."""
    return [
        f"hole {_mm(hole.diameter)} mm at {_mm(hole.x)}, {_mm(hole.y)} mm: {hole.what}".removesuffix(": ")
        for hole in flat.holes
    ]


def _mm(size: float) -> str:
    return f"{round(MILLIMETRE * size, 1) + 0.0:g}" if math.isfinite(size) else "?"


def _words(space: Modelspace, line: str, place: tuple[float, float], tall: float) -> None:
    text = " ".join(clean(line).split())
    space.add_text(text, height=tall, dxfattribs={"layer": "MARKS"}).set_placement(place)


def _arrow(space: Modelspace, flat: Flat, left: float, below: float, tall: float) -> None:
    """Which way the face grain runs, with heads at both ends, under the words of the part."""
    length = 8.0 * tall
    begin, along, aside = (left, below), (1.0, 0.0), (0.0, 1.0)
    if flat.grain == "upright":
        begin, along, aside = (left + tall, below - length), (0.0, 1.0), (1.0, 0.0)
    end = (begin[0] + along[0] * length, begin[1] + along[1] * length)
    space.add_line(begin, end, dxfattribs={"layer": "GRAIN"})
    for tip, way in ((begin, 1.0), (end, -1.0)):
        for side in (1.0, -1.0):
            barb = tuple(tip[axis] + tall * (way * along[axis] + 0.4 * side * aside[axis]) for axis in (0, 1))
            space.add_line(tip, barb, dxfattribs={"layer": "GRAIN"})
    beside = (end[0] + tall, end[1] - (0.5 * tall if flat.grain == "level" else length / 2.0))
    space.add_text("grain", height=tall, dxfattribs={"layer": "GRAIN"}).set_placement(beside)
