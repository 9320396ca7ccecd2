"""Areas, lines and fields of a scene as SVG elements in drawing units."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass

from tidestead.core.scene import Area, Contours, Point, Stroke, Stuff
from tidestead.core.units import System
from tidestead.report import svg_contours
from tidestead.report.svg_paint import FIELD_STEP, PAINTS, Paint, fill, paint
from tidestead.report.svg_words import Box, attribute, number, words

_ARROWS = 5
_PIECE, _MOST_PIECES = 6.0, 40
_FURTHEST = 1e5
"""Metres from the origin. Nothing built here lies further off; what does is a fault and is not drawn."""


@dataclass(frozen=True)
class Frame:
    """Metres to drawing units: `scale` units to the metre, y downward. `uid` marks its own patterns.

    `upright` tells a view or section, where water has a surface, from a view from above.
    """

    scale: float
    uid: str
    system: System
    upright: bool = True

    def at(self, point: Point) -> Point:
        """A place in drawing units."""
        return point[0] * self.scale, -point[1] * self.scale

    def path(self, points: Sequence[Point], closed: bool) -> str:
        """The data of a path through places in metres."""
        steps = " ".join(f"{number(x)} {number(y)}" for x, y in map(self.at, points))
        return f"M{steps}{'Z' if closed else ''}"

    def box(self, points: Sequence[Point]) -> Box:
        """The box round places in metres."""
        across, down = zip(*map(self.at, points), strict=True)
        return Box(min(across), min(down), max(across), max(down))


def finite(points: Sequence[Point]) -> bool:
    """Whether there are places, and every one can be drawn; no number that is NaN or endless passes."""
    return bool(points) and all(abs(x) < _FURTHEST and abs(y) < _FURTHEST for x, y in points)


def grouped(part: str, label: str, inner: str) -> str:
    """Elements under the key of their part, named by their label."""
    key = f" data-part={attribute(part)}" if part else ""
    name = f"<title>{words(label)}</title>" if label else ""
    return f"<g{key}>{name}{inner}</g>"


def area(frame: Frame, shape: Area) -> str:
    """A filled outline; a load has arrows towards its straight side."""
    look = PAINTS[shape.stuff]
    pattern = _pattern(frame, look, frame.box(shape.outline))
    opacity = f' fill-opacity="{look.opacity}"' if look.opacity < 1.0 else ""
    path = frame.path(shape.outline, closed=True)
    if shape.stuff == "water":
        inner = f'<path d="{path}" {fill(look.fill)}/>'
        inner += _surface(frame, shape.outline) if frame.upright else ""
    else:
        inner = f'<path d="{path}" {paint(look.fill, look.line, pattern)}{_line(look)}{opacity}/>'
    if shape.stuff == "load":
        inner += _arrows(frame, shape.outline)
    return grouped(shape.part, shape.label, inner)


def _surface(frame: Frame, outline: Sequence[Point]) -> str:
    """The line on still water: the level side at the top of its outline, where it has one."""
    top = max(y for _, y in outline)
    across = [x for x, y in outline if top - y < 1e-9]
    if len(across) < 2:
        return ""
    look = PAINTS["water"]
    line = frame.path(((min(across), top), (max(across), top)), closed=False)
    return f'<path d="{line}" {paint("none", look.line)}{_line(look)}/>'


def edges(frame: Frame, shape: Area | Stroke) -> list[Box]:
    """The sides of a shape as thin boxes, a sloping one as a chain of small ones, which words had better not cross."""
    closed = isinstance(shape, Area)
    places = [frame.at(point) for point in (shape.outline if isinstance(shape, Area) else shape.points)]
    sides = zip(places, [*places[1:], *(places[:1] if closed else ())], strict=False)
    return [
        Box(min(ax, bx) - 1.0, min(ay, by) - 1.0, max(ax, bx) + 1.0, max(ay, by) + 1.0)
        for begin, end in sides
        for (ax, ay), (bx, by) in _pieces(begin, end)
    ]


def _pieces(begin: Point, end: Point) -> list[tuple[Point, Point]]:
    """A side in pieces so short that the box round each is small; an upright or level side is one piece."""
    across, down = end[0] - begin[0], end[1] - begin[1]
    count = 1 + int(min(abs(across), abs(down), _MOST_PIECES * _PIECE) / _PIECE)
    places = [(begin[0] + across * at / count, begin[1] + down * at / count) for at in range(count + 1)]
    return list(itertools.pairwise(places))


def stroke(frame: Frame, shape: Stroke) -> str:
    """An open line; a level line of water carries the mark of a water level."""
    look = PAINTS[shape.stuff]
    inner = f'<path d="{frame.path(shape.points, closed=False)}" {paint("none", look.line)}{_line(look)}/>'
    if shape.stuff == "water" and _level(shape.points):
        inner += _water_mark(frame, shape.points)
    return grouped(shape.part, shape.label, inner)


def swatch(uid: str, stuff: Stuff, left: float, top: float) -> str:
    """A small sample of a stuff for the key, 18 by 12."""
    look = PAINTS[stuff]
    if look.fill == "none" or stuff == "bow":
        return f'<path d="M{number(left)} {number(top + 6)}h18" {paint("none", look.line)}{_line(look)}/>'
    pattern = f"{uid}-{look.pattern}{'-along' if look.pattern == 'grain' else ''}" if look.pattern else ""
    opacity = f' fill-opacity="{look.opacity}"' if look.opacity < 1.0 else ""
    place = f'x="{number(left)}" y="{number(top)}" width="18" height="12"'
    return f"<rect {place} {paint(look.fill, look.line, pattern)}{_line(look)}{opacity}/>"


def _line(look: Paint) -> str:
    dashes = f' stroke-dasharray="{look.dashes}"' if look.dashes else ""
    return f' stroke-width="{look.width}" stroke-linejoin="round"{dashes}'


def _pattern(frame: Frame, look: Paint, box: Box) -> str:
    """The hatch; grain runs along the longer side of the piece."""
    if not look.pattern:
        return ""
    if look.pattern != "grain":
        return f"{frame.uid}-{look.pattern}"
    lying = box.right - box.left >= box.bottom - box.top
    return f"{frame.uid}-grain-{'along' if lying else 'up'}"


def _level(points: Sequence[Point]) -> bool:
    return max(y for _, y in points) - min(y for _, y in points) < 1e-9


def _water_mark(frame: Frame, points: Sequence[Point]) -> str:
    """The draughtsman's mark of a water level: a triangle on the line and shorter lines below it."""
    left, y = frame.at(min(points))
    x = left + 14.0
    triangle = f"M{number(x - 5)} {number(y - 9)}h10l-5 8z"
    lines = f"M{number(x - 6)} {number(y + 3)}h12M{number(x - 3)} {number(y + 6)}h6"
    return f'<path d="{triangle}{lines}" {paint("none", "water")} stroke-width="1.1"/>'


def _arrows(frame: Frame, outline: Sequence[Point]) -> str:
    """Arrows across a load towards its longest upright or level side; none where it has no such side."""
    places = [frame.at(point) for point in outline]
    sides = list(zip(places, places[1:] + places[:1], strict=True))
    straight = [
        (abs(b[1 - axis] - a[1 - axis]), axis, a, b)
        for a, b in sides
        for axis in (0, 1)
        if abs(a[axis] - b[axis]) < 1e-6
    ]
    if not straight:
        return ""
    length, axis, begin, end = max(straight)
    lines = []
    for index in range(_ARROWS):
        along = begin[1 - axis] + (end[1 - axis] - begin[1 - axis]) * (index + 0.5) / _ARROWS
        tail = _far_side(sides, axis, along, begin[axis])
        if abs(tail - begin[axis]) > 6.0 and length > 30.0:
            lines.append(_arrow(axis, along, tail, begin[axis]))
    return f'<path d="{"".join(lines)}" {paint("none", "water")} stroke-width="1.1"/>' if lines else ""


def _far_side(sides: Sequence[tuple[Point, Point]], axis: int, along: float, near: float) -> float:
    """Where a line across the load at `along` leaves it on the side away from `near`."""
    met = [near]
    for a, b in sides:
        low, high = sorted((a[1 - axis], b[1 - axis]))
        if low <= along <= high and high - low > 1e-9:
            share = (along - a[1 - axis]) / (b[1 - axis] - a[1 - axis])
            met.append(a[axis] + share * (b[axis] - a[axis]))
    return max(met, key=lambda place: abs(place - near))


def _arrow(axis: int, along: float, tail: float, head: float) -> str:
    back = math.copysign(5.0, tail - head)
    corners = [
        (tail, along),
        (head, along),
        (head + back, along - 2.5),
        (head, along),
        (head + back, along + 2.5),
    ]
    ordered = [place if axis == 0 else (place[1], place[0]) for place in corners]
    steps = [f"{number(x)} {number(y)}" for x, y in ordered]
    return f"M{steps[0]}L{steps[1]}M{steps[2]}L{steps[3]}L{steps[4]}"


def field(frame: Frame, shape: Contours) -> str:
    """Filled bands, each a layer over those of lower levels, with the limit's line and what is past it."""
    ends = svg_contours.ends(shape)
    if ends is None:
        return ""
    corners = [(x, y) for x in (shape.across[0], shape.across[-1]) for y in (shape.up[0], shape.up[-1])]
    box = frame.box(corners)
    size = f'width="{number(box.right - box.left)}" height="{number(box.bottom - box.top)}"'
    edge = f'<rect x="{number(box.left)}" y="{number(box.top)}" {size}'
    layers = [f"{edge} {fill('paper')}/>"]
    for level in svg_contours.levels(*ends, shape.unit, frame.system):
        layers.append(
            f'<path d="{_region(frame, shape, level)}" {paint("water", "water")} fill-opacity="{FIELD_STEP}"'
            ' fill-rule="evenodd" stroke-width="0.7"/>'
        )
    if shape.limit is not None and ends[0] < shape.limit < ends[1]:
        layers.append(
            f'<path d="{_region(frame, shape, shape.limit)}" {paint("none", "rust", f"{frame.uid}-over")}'
            ' fill-rule="evenodd" stroke-width="2.2"/>'
        )
    layers.append(f'{edge} {paint("none", "ink")} stroke-width="1.2"/>')
    return grouped(shape.part, shape.what, "".join(layers))


def _region(frame: Frame, shape: Contours, level: float) -> str:
    return "".join(frame.path(loop, closed=True) for loop in svg_contours.region(shape, level))
