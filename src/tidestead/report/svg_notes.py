"""Notes and labels of a drawing: each where it is meant, or near by with a leader to its place."""

from __future__ import annotations

import math
from collections.abc import Sequence

from tidestead.core.scene import Area, Contours, Note, Point, Scene, Stroke
from tidestead.core.units import show
from tidestead.report import svg_contours
from tidestead.report.svg_legend import said_in_key, style_of
from tidestead.report.svg_paint import paint
from tidestead.report.svg_shapes import Frame, finite, grouped
from tidestead.report.svg_words import LEADING, SIZE, Box, Room, Text, broken, number, width

_LEADER_FROM = 26.0
_NEAR_EDGE = 0.06
_TOO_CROWDED = 160.0
"""A label that could only stand on other words is left to the name that pointing at the shape shows."""


def notes(frame: Frame, shapes: Sequence[Note], object_box: Box, room: Room) -> list[tuple[str, Text]]:
    """Every note as elements; none is left out."""
    made = []
    for note in shapes:
        at = frame.at(note.at)
        text = room.take(_near(at, tuple(broken(note.words)), _side(at, object_box)))
        if text is not None:
            made.append((grouped(note.part, "", _leader(at, text) + text.svg()), text))
    return made


def labels(frame: Frame, scene: Scene, room: Room) -> list[tuple[str, Text]]:
    """Each different label once, inside its shape where it fits, else near it."""
    made, seen = [], set()
    for shape in scene.shapes:
        if not isinstance(shape, Area | Stroke) or not shape.label or shape.label in seen:
            continue
        if said_in_key(shape):
            continue
        places = shape.outline if isinstance(shape, Area) else shape.points
        if not finite(places):
            continue
        text = room.take(_label_places(frame, shape, shape.label), _TOO_CROWDED)
        if text is not None:
            seen.add(shape.label)
            at = _middle(frame, places) if isinstance(shape, Area) else (text.x, text.y)
            made.append((grouped(shape.part, "", _leader(at, text) + text.svg()), text))
    return made


def _label_places(frame: Frame, shape: Area | Stroke, label: str) -> list[Text]:
    if isinstance(shape, Stroke):
        return _along(frame, shape.points, label)
    box, middle = frame.box(shape.outline), _middle(frame, shape.outline)
    lines = tuple(broken(label))
    block = Text(lines, *middle).box
    fits = block.right - block.left < box.right - box.left and block.bottom - block.top < box.bottom - box.top
    inside = [Text(lines, middle[0], middle[1] + down) for down in (0.0, 20.0, -20.0)] if fits else []
    return inside + _near(middle, lines, "middle")[1:]


def _along(frame: Frame, points: Sequence[Point], label: str) -> list[Text]:
    """Above or below a line, near its ends first."""
    begin, end = frame.at(points[0]), frame.at(points[-1])
    half = width(label) / 2.0
    length = math.dist(begin, end) or 1.0
    places = []
    for share in (min(0.5, (half + 4.0) / length), max(0.5, 1.0 - (half + 4.0) / length), 0.5):
        x, y = (a + share * (b - a) for a, b in zip(begin, end, strict=True))
        places += [Text((label,), x, y - 11.0), Text((label,), x, y + 11.0)]
    return places


def _side(at: Point, object_box: Box) -> str:
    """Which way words run from a place: outward where the place lies beside the object or near its edge."""
    near = _NEAR_EDGE * (object_box.right - object_box.left)
    if at[0] > object_box.right - near:
        return "start"
    return "end" if at[0] < object_box.left + near else "middle"


def _near(at: Point, lines: tuple[str, ...], side: str) -> list[Text]:
    """Places for words: there, then further and further off on every side."""
    x, y = at
    block = SIZE * LEADING * len(lines)
    there = Text(lines, x, y, "start" if side == "start" else "end" if side == "end" else "middle")
    places = [there]
    for off in (12.0, 26.0, 44.0, 66.0, 92.0):
        places += [
            Text(lines, x, y - off - block / 2.0),
            Text(lines, x, y + off + block / 2.0),
            Text(lines, x + off, y, "start"),
            Text(lines, x - off, y, "end"),
            Text(lines, x + off, y - off, "start"),
            Text(lines, x - off, y - off, "end"),
            Text(lines, x + off, y + off, "start"),
            Text(lines, x - off, y + off, "end"),
        ]
    return places


def _leader(at: Point, text: Text) -> str:
    """A thin line from words that stand far off to the place they speak of."""
    box = text.box
    nearest = (min(max(at[0], box.left), box.right), min(max(at[1], box.top), box.bottom))
    if math.dist(at, nearest) < _LEADER_FROM - SIZE - 1e-6:
        return ""
    path = f"M{number(nearest[0])} {number(nearest[1])}L{number(at[0])} {number(at[1])}"
    dot = f'<circle cx="{number(at[0])}" cy="{number(at[1])}" r="1.8" {paint("ink")}/>'
    return f'<path d="{path}" {paint("none", "soft")} stroke-width="0.8"/>{dot}'


def _middle(frame: Frame, outline: Sequence[Point]) -> Point:
    """The centre of area of an outline, or of its corners where it has no area."""
    places = [frame.at(point) for point in outline]
    crosses = [
        (ax * by - bx * ay, ax + bx, ay + by)
        for (ax, ay), (bx, by) in zip(places, places[1:] + places[:1], strict=True)
    ]
    twice = sum(cross for cross, _, _ in crosses)
    if abs(twice) < 1e-9:
        return sum(x for x, _ in places) / len(places), sum(y for _, y in places) / len(places)
    return (
        sum(cross * x for cross, x, _ in crosses) / (3.0 * twice),
        sum(cross * y for cross, _, y in crosses) / (3.0 * twice),
    )


def peak(frame: Frame, field: Contours, room: Room) -> tuple[str, Text] | None:
    """A cross where a field is greatest, with the value."""
    if svg_contours.ends(field) is None:
        return None
    point, value = svg_contours.greatest(field)
    x, y = frame.at(point)
    beside = [value] if field.limit is None else [value, field.limit]
    words = f"most {show(value, field.unit, frame.system, style_of(field.unit, value), beside)}"
    text = room.take(_near((x, y), (words,), "middle")[1:])
    if text is None:
        return None
    cross = f"M{number(x - 5)} {number(y)}h10M{number(x)} {number(y - 5)}v10"
    mark = f'<path d="{cross}" {paint("none", "ink")} stroke-width="1.6"/>'
    return mark + _leader((x, y), text) + text.svg(), text
