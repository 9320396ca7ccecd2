"""Dimension lines: off the object, ticked at both ends, side by side without touching."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from tidestead.core.scene import Measure, Point
from tidestead.core.units import System, show
from tidestead.report.svg_paint import paint
from tidestead.report.svg_shapes import Frame
from tidestead.report.svg_words import Box, Room, Text, number, width

_LEAST, _LANE = 20.0, 21.0
_TICK, _OVERRUN, _GAP = 4.0, 4.0, 3.0


@dataclass(frozen=True)
class Line:
    """One dimension in drawing units: the points measured, the ends of its line, and its words."""

    measured: tuple[Point, Point]
    ends: tuple[Point, Point]
    text: str

    @property
    def length(self) -> float:
        return math.dist(*self.ends)

    @property
    def box(self) -> Box:
        """The room of the line with its ticks, without its words."""
        (ax, ay), (bx, by) = self.ends
        return Box(min(ax, bx), min(ay, by), max(ax, bx), max(ay, by)).grown(_TICK)


def lines(frame: Frame, measures: Sequence[Measure]) -> list[Line]:
    """Every dimension with its line far enough off the object and off its neighbours."""
    taken: list[tuple[Point, float, float, float]] = []
    same = one_style([measure.style for measure in measures], frame.system)
    made: dict[int, Line] = {}
    for index in sorted(range(len(measures)), key=lambda place: abs(measures[place].aside)):
        measure = measures[index]
        begin, end = frame.at(measure.start), frame.at(measure.end)
        if math.dist(begin, end) < 1e-6:
            continue
        outward, along = _directions(begin, end, measure.aside)
        offset = _lane(begin, end, (outward, along), measure.aside * frame.scale, taken)
        shift = (outward[0] * offset, outward[1] * offset)
        ends = tuple((x + shift[0], y + shift[1]) for x, y in (begin, end))
        length = show(math.dist(measure.start, measure.end), "m", frame.system, same or measure.style)
        made[index] = Line((begin, end), (ends[0], ends[1]), f"{measure.words} {length}".strip())
    return [made[index] for index in sorted(made)]


def one_style(styles: Sequence[str], system: System) -> str:
    """The style that all lengths of a drawing are told in where theirs would mix metres and millimetres; else empty."""
    mixed = system == "metric" and "level" in styles and any(style in _MILLIMETRES for style in styles)
    return "lumber" if mixed else ""


_MILLIMETRES = ("sheet", "lumber")


def _directions(begin: Point, end: Point, aside: float) -> tuple[Point, Point]:
    """Unit vectors off the object and along the line. Positive `aside` lies left of the way to the end."""
    length = math.dist(begin, end)
    along = ((end[0] - begin[0]) / length, (end[1] - begin[1]) / length)
    side = 1.0 if aside >= 0.0 else -1.0
    return (along[1] * side, -along[0] * side), along


def _lane(
    begin: Point,
    end: Point,
    directions: tuple[Point, Point],
    aside: float,
    taken: list[tuple[Point, float, float, float]],
) -> float:
    """How far off the line is drawn: as far as asked, but clear of the object and of lines already there."""
    outward, along = directions
    base = begin[0] * outward[0] + begin[1] * outward[1]
    low, high = sorted(x * abs(along[0]) + y * abs(along[1]) for x, y in (begin, end))
    place = base + (max(abs(aside), _LEAST) if aside else 0.0)
    for other, there, from_, to in sorted(taken, key=lambda lane: lane[1]):
        same_way = other[0] * outward[0] + other[1] * outward[1] > 0.999
        if same_way and from_ < high - 1.0 and low < to - 1.0 and abs(place - there) < _LANE:
            place = there + _LANE
    taken.append((outward, place, low, high))
    return place - base


def drawn(line: Line, room: Room) -> tuple[str, Text]:
    """The dimension as elements, and its words where they found room."""
    (ax, ay), (bx, by) = line.ends
    dx, dy = (bx - ax) / line.length, (by - ay) / line.length
    text, inside = _placed(line, room)
    half = width(text.lines[0]) / 2.0 + _GAP
    parts = [_extension(line.measured[0], line.ends[0]), _extension(line.measured[1], line.ends[1])]
    if inside:
        middle = (text.x - ax) * dx + (text.y - ay) * dy
        parts.append(_piece(ax, ay, ax + dx * (middle - half), ay + dy * (middle - half)))
        parts.append(_piece(ax + dx * (middle + half), ay + dy * (middle + half), bx, by))
    else:
        parts.append(_piece(ax, ay, bx, by))
    ticks = "".join(_tick(x, y, dx, dy) for x, y in line.ends)
    thin = f'<path d="{"".join(parts)}" {paint("none", "soft")} stroke-width="0.8"/>'
    return f'{thin}<path d="{ticks}" {paint("none", "ink")} stroke-width="1.5"/>', text


def _placed(line: Line, room: Room) -> tuple[Text, bool]:
    """The words in a gap of the line where it is long enough, else beyond one of its ends or beside it."""
    (ax, ay), (bx, by) = line.ends
    turned = math.degrees(math.atan2(by - ay, bx - ax))
    turned = turned - 180.0 if turned > 89.0 else turned + 180.0 if turned < -91.0 else turned
    wide = width(line.text)
    if wide + 2.0 * (_GAP + 1.0) <= line.length:
        shares = (0.5, 0.35, 0.65, 0.25, 0.75)
        fitting = [
            share for share in shares if wide / 2.0 + 9.0 <= min(share, 1.0 - share) * line.length
        ] or [0.5]
        inside = [Text((line.text,), ax + (bx - ax) * s, ay + (by - ay) * s, turned=turned) for s in fitting]
        return room.take(inside) or inside[0], True
    beside = _beside(line, wide, turned)
    return room.take(beside) or beside[0], False


def _beside(line: Line, wide: float, turned: float) -> list[Text]:
    """Places for words too long for their line: beyond either end, then beside it, level."""
    (ax, ay), (bx, by) = line.ends
    dx, dy = (bx - ax) / line.length, (by - ay) / line.length
    beyond = wide / 2.0 + 10.0
    places = [
        Text((line.text,), bx + dx * beyond, by + dy * beyond, turned=turned),
        Text((line.text,), ax - dx * beyond, ay - dy * beyond, turned=turned),
    ]
    middle = ((ax + bx) / 2.0, (ay + by) / 2.0)
    upright = abs(dy) > abs(dx)
    if upright:
        level = [
            Text((line.text,), middle[0] + 8.0, middle[1], "start"),
            Text((line.text,), middle[0] - 8.0, middle[1], "end"),
        ]
        return level + places
    return [
        *places,
        Text((line.text,), middle[0], middle[1] - 12.0),
        Text((line.text,), middle[0], middle[1] + 12.0),
    ]


def _extension(measured: Point, end: Point) -> str:
    """The thin line from the object past the dimension line; none where they coincide."""
    far = math.dist(measured, end)
    if far < 2.0 * _GAP:
        return ""
    ux, uy = (end[0] - measured[0]) / far, (end[1] - measured[1]) / far
    return _piece(
        measured[0] + ux * _GAP, measured[1] + uy * _GAP, end[0] + ux * _OVERRUN, end[1] + uy * _OVERRUN
    )


def _piece(ax: float, ay: float, bx: float, by: float) -> str:
    return f"M{number(ax)} {number(ay)}L{number(bx)} {number(by)}"


def _tick(x: float, y: float, dx: float, dy: float) -> str:
    """The slanting stroke across the end of a dimension line."""
    tx, ty = (dx - dy) * _TICK / math.sqrt(2.0), (dy + dx) * _TICK / math.sqrt(2.0)
    return _piece(x - tx, y - ty, x + tx, y + ty)
