"""A scene as one stand-alone, accessible SVG text: a builder's drawing, for light, dark and print."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import reduce

from tidestead.core.charts import Chart
from tidestead.core.scene import Area, Contours, Measure, Note, Point, Scene, Stroke
from tidestead.core.solids import Round
from tidestead.core.units import System
from tidestead.report import svg_legend, svg_measures, svg_notes, svg_paint, svg_shapes
from tidestead.report.svg_shapes import Frame, finite
from tidestead.report.svg_words import SIZE, Box, Room, Text, broken, number, words

WIDTH, LEAST_WIDTH, TALLEST = 480.0, 380.0, 520.0
"""In drawing units. Words are 14 units high, so that they still read on a phone some 360 wide."""

_MARGIN = 14.0
_TRIES = 6


def draw(scene: Scene, system: System, *, titled: bool = True, themed: bool = True) -> str:
    """The scene as SVG. `titled` writes its title above; `themed` adds a style sheet for dark and print."""
    uid = "ts-" + re.sub(r"[^a-z0-9]+", "-", scene.id.lower()).strip("-")
    sheet = _fitted(scene, system, uid)
    parts, room = list(sheet.parts), sheet.box
    if room.right - room.left < LEAST_WIDTH:
        more = (LEAST_WIDTH - room.right + room.left) / 2.0
        room = Box(room.left - more, room.top, room.right + more, room.bottom)
    below = _under(scene, uid, system, room)
    parts.append(below[0])
    top = room.top
    if titled:
        title = heading(scene.title, room)
        parts.append(title.svg())
        top = title.box.top
    whole = Box(room.left, top, room.right, room.bottom + below[1]).grown(_MARGIN)
    return document(scene, uid, whole, "".join(parts), themed, svg_paint.HATCHES)


@dataclass(frozen=True)
class Sheet:
    """What is drawn, and the room it takes."""

    parts: tuple[str, ...]
    box: Box


def _fitted(scene: Scene, system: System, uid: str) -> Sheet:
    """The drawing at the largest scale at which it stays within the width and height, words included."""
    across, up = _extent(scene)
    upright = any(
        getattr(shape, "stuff", "") == "ground" or getattr(shape, "part", "").endswith(".stands_on")
        for shape in scene.shapes
    )
    scale = min((WIDTH - 60.0) / max(across, 1e-6), (TALLEST - 60.0) / max(up, 1e-6))
    for _ in range(_TRIES):
        sheet = _laid_out(scene, Frame(scale, uid, system, upright))
        wide, tall = sheet.box.right - sheet.box.left, sheet.box.bottom - sheet.box.top
        over = max(wide - WIDTH, tall - TALLEST)
        if over <= 1.0:
            break
        scale *= max(0.5, 1.0 - over / max(wide, tall) * 1.15)
    return sheet


def _extent(scene: Scene) -> tuple[float, float]:
    """Width and height in metres of what is drawn."""
    points = [point for shape in scene.shapes for point in _places(shape)]
    if not points:
        return 1.0, 1.0
    across, up = zip(*points, strict=True)
    return max(across) - min(across), max(up) - min(up)


def _places(shape: object) -> list[Point]:
    """The finite places of a shape."""
    match shape:
        case Area():
            found = list(shape.outline)
        case Stroke():
            found = list(shape.points)
        case Note():
            found = [shape.at]
        case Measure():
            found = [shape.start, shape.end]
        case Contours() if shape.across and shape.up:
            found = [(x, y) for x in shape.across for y in (shape.up[0], shape.up[-1])]
            found += [(shape.across[0], y) for y in shape.up]
        case _:
            found = []
    return found if finite(found) else []


def _laid_out(scene: Scene, frame: Frame) -> Sheet:
    """Shapes, then dimensions, then words where they find room, at one scale."""
    room = Room()
    shapes = [shape for shape in scene.shapes if _places(shape)]
    solid = [frame.box(_places(shape)) for shape in shapes if isinstance(shape, Area | Stroke | Contours)]
    object_box = reduce(Box.joined, solid) if solid else Box(0.0, 0.0, 0.0, 0.0)
    parts = [_shape(frame, shape) for shape in shapes]
    dimensions = svg_measures.lines(frame, [shape for shape in shapes if isinstance(shape, Measure)])
    room.lines += [line.box for line in dimensions]
    for shape in shapes:
        if isinstance(shape, Area | Stroke):
            room.lines += svg_shapes.edges(frame, shape)
    drawn = [svg_measures.drawn(line, room) for line in dimensions]
    parts += [element for element, _ in drawn]
    texts = [text for _, text in drawn]
    parts += [text.svg() for text in texts]
    worded = svg_notes.notes(frame, [shape for shape in shapes if isinstance(shape, Note)], object_box, room)
    worded += svg_notes.labels(frame, scene, room)
    peaks = [svg_notes.peak(frame, shape, room) for shape in shapes if isinstance(shape, Contours)]
    worded += [found for found in peaks if found]
    parts += [element for element, _ in worded]
    texts += [text for _, text in worded]
    boxes = [object_box, *(line.box for line in dimensions), *(text.box for text in texts)]
    return Sheet(tuple(parts), reduce(Box.joined, boxes))


def _shape(frame: Frame, shape: object) -> str:
    match shape:
        case Area():
            return svg_shapes.area(frame, shape)
        case Stroke():
            return svg_shapes.stroke(frame, shape)
        case Contours():
            return svg_shapes.field(frame, shape)
        case _:
            return ""


def _under(scene: Scene, uid: str, system: System, room: Box) -> tuple[str, float]:
    """Legends, key and the word on exaggeration, under the drawing; and their height."""
    parts, top = [], room.bottom + 20.0
    for shape in scene.shapes:
        if isinstance(shape, Contours) and _places(shape):
            legend, height = svg_legend.bands(shape, uid, system, room._replace(top=top))
            parts.append(legend)
            top += height
    samples, height = svg_legend.key(scene, uid, room._replace(top=top))
    parts.append(samples)
    top += height
    if scene.exaggerated != 1.0:
        line = Text(
            (f"Movement is drawn {scene.exaggerated:.3g} times larger than it is.",),
            room.left,
            top + 6.0,
            "start",
        )
        parts.append(line.svg())
        top += 18.0
    return "".join(parts), top - room.bottom


def heading(title: str, room: Box) -> Text:
    """The title of a drawing over its room."""
    size = 16.0
    lines = tuple(broken(title, int((room.right - room.left) / (0.5 * size))))
    block = size * 1.22 * len(lines)
    return Text(lines, room.left, room.top - 12.0 - block / 2.0, "start", size=size, serif=True)


def document(
    drawn: Scene | Chart | Round,
    uid: str,
    whole: Box,
    inner: str,
    themed: bool,
    hatches: Mapping[str, svg_paint.Hatch],
) -> str:
    """What is drawn as one SVG text, with its title and the same in words."""
    box = " ".join(
        number(value) for value in (whole.left, whole.top, whole.right - whole.left, whole.bottom - whole.top)
    )
    x, y, wide, tall = box.split()
    ground = f'<rect x="{x}" y="{y}" width="{wide}" height="{tall}" {svg_paint.fill("paper")}/>'
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="{box}" class="{uid}" role="img" '
        f'aria-labelledby="{uid}-title {uid}-told" font-family="{svg_paint.SANS}" font-size="{number(SIZE)}">'
        f'<title id="{uid}-title">{words(drawn.title)}</title>'
        f'<desc id="{uid}-told">{words(drawn.told)}</desc>'
        f"{svg_paint.style(uid) if themed else ''}<defs>{svg_paint.patterns(uid, hatches)}</defs>"
        f"{ground}{inner}</svg>\n"
    )
