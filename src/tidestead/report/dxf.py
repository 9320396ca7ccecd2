"""Flat parts as DXF: true scale in millimetres, on layers that a cutter can switch on and off."""

from __future__ import annotations

import io
import math
from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING

from tidestead.build.flats import Flat, file_stems
from tidestead.report.plain import clean

if TYPE_CHECKING:
    from ezdxf.document import Drawing
    from ezdxf.layouts.layout import Modelspace

LAYERS = {
    "OUTLINE": 7,
    "OPENINGS": 1,
    "HOLES": 5,
    "HOLE-CENTRES": 6,
    "GRAIN": 3,
    "MARKS": 8,
}
"""Name of a layer: its colour by the AutoCAD colour index. Cut by the first three, drill at the fourth."""

ALL = "all-parts"
"""Stem of the file that has every part side by side."""

MILLIMETRE = 1000.0
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


def drawing(flats: Iterable[Flat]) -> str:
    """The parts beside one another from nought on, each with its words below it."""
    from ezdxf.filemanagement import new  # noqa: PLC0415 - takes a fifth of a second; wanted by exports only

    document = new("R2010", units=4)
    document.header["$MEASUREMENT"] = 1
    document.header["$LUNITS"] = 2
    for name, colour in LAYERS.items():
        document.layers.add(name, color=colour)
    space, left = document.modelspace(), 0.0
    for flat in flats:
        left += _part(space, flat, left)
    return _text(document)


def _text(document: Drawing) -> str:
    stream = io.StringIO()
    document.write(stream)
    return stream.getvalue()


def _part(space: Modelspace, flat: Flat, left: float) -> float:
    """One part with its left edge there, in millimetres; the room it takes."""
    _closed(space, flat.outline, left, "OUTLINE")
    for opening in flat.openings:
        _closed(space, opening, left, "OPENINGS")
    for hole in flat.holes:
        _hole(space, (left + MILLIMETRE * hole.x, MILLIMETRE * hole.y), MILLIMETRE * hole.diameter)
    width, height = MILLIMETRE * flat.width, MILLIMETRE * flat.height
    tall = min(max(0.04 * max(width, height), _SMALLEST_WORDS), _LARGEST_WORDS)
    words = [*flat.told, *_hole_words(flat)]
    for number, line in enumerate(words):
        below = -(1.5 + 1.6 * number) * tall
        _words(space, line, (left, below), tall)
    if flat.grain:
        _arrow(space, flat, left, -(3.0 + 1.6 * len(words)) * tall, tall)
    longest = max(map(len, words), default=0) * _LETTER * tall
    return max(width, longest) + 3.0 * tall


def _closed(space: Modelspace, outline: Sequence[tuple[float, float]], left: float, layer: str) -> None:
    corners = [(left + MILLIMETRE * x, MILLIMETRE * y) for x, y in outline]
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
