"""How a face is cut into sheets: courses from the floor up, joints over uprights, openings and holes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from tidestead.build.lists import Hole, Outline
from tidestead.build.takeoff.gathered import Shape
from tidestead.core.units import to_si
from tidestead.plan.model import Sheathing
from tidestead.studies.openings import Rect
from tidestead.studies.structure.round_faces import left_of

METRIC_SHEET = (2.440, 1.220)
"""Length along the face grain and across it where nobody says what is sold, metres. Common practice, no source."""

US_SHEET = (to_si(8.0, "ft", "length"), to_si(4.0, "ft", "length"))
"""The same of sheets with an American rating. Common practice, no source."""

_HAIR = 1e-6
_THIN = 1e-3


@dataclass(frozen=True)
class Prop:
    """An upright behind a sheet: its middle, from where to where it reaches, whether a joint may lie on it."""

    at: float
    foot: float
    head: float
    bears_joint: bool = True


@dataclass(frozen=True)
class Field:
    """A face to be sheeted: from where to where it reaches along its wall, and what stands behind it and in it.

    `levels` are heights of level timbers that a level joint may lie on.
    """

    left: float
    right: float
    height: float
    props: tuple[Prop, ...] = ()
    levels: tuple[float, ...] = ()
    openings: tuple[Rect, ...] = ()
    holes: tuple[Hole, ...] = ()

    @property
    def width(self) -> float:
        return self.right - self.left


@dataclass(frozen=True)
class Sheeted:
    """A face as sheets: their shapes, heights of level joints, how many upright joints no timber is behind.

    `edges` and `between` are metres to be screwed: along edges, and over uprights away from them.
    """

    shapes: tuple[Shape, ...]
    level_joints: tuple[float, ...]
    upright_joints: tuple[float, ...]
    unbacked: int
    edges: float
    between: float


def grain_is_level(sheathing: Sheathing) -> bool:
    """Whether the face grain runs level."""
    return sheathing.face_grain in ("across studs", "along rings")


def sheeted(field: Field, room: tuple[float, float], from_right: bool = False) -> Sheeted:
    """The face in sheets no larger than `room` (level, upright)."""
    columns, unbacked = _columns(field, room[0], from_right)
    rows = _rows(field, room[1])
    cells = [(left, low, right, high) for low, high in pairwise(rows) for left, right in pairwise(columns)]
    kept = [_bounds(whole) for cell in cells for whole in _wholes(left_of(cell, field.openings))]
    shapes = tuple(_shape(cell, field) for cell in kept)
    edges = sum(_edge(shape) for shape in shapes)
    between = sum(_over_props(cell, field) for cell in kept)
    return Sheeted(shapes, tuple(rows[1:-1]), tuple(columns[1:-1]), unbacked, edges, between)


def joints_up_to(field: Field, sheets: Sheeted, height: float) -> float:
    """Metres of joints between the sheets of a face, up to a height, out of its openings."""
    openings, top = _widened(field.openings), min(height, field.height)
    upright = [(at, 0.0, at + _THIN, top) for at in sheets.upright_joints]
    level = [(field.left, at, field.right, at + _THIN) for at in sheets.level_joints if at < top]
    tall = sum(rect[3] - rect[1] for strip in upright for rect in left_of(strip, openings))
    return tall + sum(rect[2] - rect[0] for strip in level for rect in left_of(strip, openings))


def _columns(field: Field, most: float, from_right: bool) -> tuple[list[float], int]:
    """Edges of the sheets along the wall: each joint over the furthest whole upright that a sheet reaches.

    Where none is within reach, as along a window, the joint lies on a short one half way to the next.
    """
    if field.width <= most + _HAIR:
        return [field.left, field.right], 0
    begin, end, way = (field.right, field.left, -1.0) if from_right else (field.left, field.right, 1.0)
    whole = [way * (prop.at - begin) for prop in field.props if prop.bears_joint]
    short = [way * (prop.at - begin) for prop in field.props if not prop.bears_joint]
    edges, unbacked = [0.0], 0
    while field.width - edges[-1] > most + _HAIR:
        at, backed = _joint(edges[-1], (whole, short), most, field.width)
        unbacked += not backed
        edges.append(at)
    return sorted([*(begin + way * at for at in edges), end]), unbacked


def _joint(
    begin: float, props: tuple[list[float], list[float]], most: float, end: float
) -> tuple[float, bool]:
    """Where a sheet that begins here ends, and whether anything stands behind the joint."""
    whole, short = props
    near = [at for at in whole if _HAIR < at - begin <= most + _HAIR]
    if near:
        return max(near), True
    beyond = min((at for at in whole if at > begin + most), default=end)
    aim = min((begin + beyond) / 2.0, begin + most)
    near = [at for at in short if _HAIR < at - begin <= most + _HAIR]
    return (min(near, key=lambda at: abs(at - aim)), True) if near else (begin + most, False)


def _rows(field: Field, most: float) -> list[float]:
    """Edges of the courses from the floor up: joints on level timbers, else whole sheets, the rest on top."""
    edges = [0.0]
    while field.height - edges[-1] > most + _HAIR:
        near = [level for level in field.levels if _HAIR < level - edges[-1] <= most + _HAIR]
        edges.append(max(near, default=edges[-1] + most))
    return [*edges, field.height]


def _wholes(rects: Sequence[Rect]) -> list[list[Rect]]:
    """What is left of a sheet as pieces that hang together: an opening from edge to edge leaves two."""
    found: list[list[Rect]] = []
    for rect in rects:
        beside = [whole for whole in found if any(_touching(rect, other) > _HAIR for other in whole)]
        found = [whole for whole in found if whole not in beside]
        found.append([rect, *(other for whole in beside for other in whole)])
    return found


def _bounds(rects: Sequence[Rect]) -> Rect:
    """The smallest rectangle round a piece."""
    left, low, right, high = zip(*rects, strict=True)
    return min(left), min(low), max(right), max(high)


def _shape(cell: Rect, field: Field) -> Shape:
    left, low, right, high = cell
    openings = tuple(
        _outline(part, cell) for rect in field.openings if (part := _common(rect, cell)) is not None
    )
    holes = tuple(
        Hole(round(hole.x - left, 6), round(hole.y - low, 6), hole.diameter, hole.what)
        for hole in field.holes
        if left <= hole.x < right and low <= hole.y < high
    )
    return Shape(round(right - left, 6), round(high - low, 6), openings, holes)


def _common(one: Rect, other: Rect) -> Rect | None:
    left, low = max(one[0], other[0]), max(one[1], other[1])
    right, high = min(one[2], other[2]), min(one[3], other[3])
    return (left, low, right, high) if right - left > _HAIR and high - low > _HAIR else None


def _outline(rect: Rect, cell: Rect) -> Outline:
    left, low, right, high = (round(value - cell[number % 2], 6) for number, value in enumerate(rect))
    return ((left, low), (right, low), (right, high), (left, high))


def _edge(shape: Shape) -> float:
    """All edges of a sheet: its own less what an opening takes of them, and the opening's inside it."""
    pieces = left_of((0.0, 0.0, shape.width, shape.height), [(*one[0], *one[2]) for one in shape.openings])
    around = sum(2.0 * (right - left + high - low) for left, low, right, high in pieces)
    return around - 2.0 * sum(
        _touching(one, other) for number, one in enumerate(pieces) for other in pieces[:number]
    )


def _touching(one: Rect, other: Rect) -> float:
    """Length along which two rectangles of a cut sheet lie against each other."""
    if min(abs(one[2] - other[0]), abs(other[2] - one[0])) < _HAIR:
        return max(min(one[3], other[3]) - max(one[1], other[1]), 0.0)
    if min(abs(one[3] - other[1]), abs(other[3] - one[1])) < _HAIR:
        return max(min(one[2], other[2]) - max(one[0], other[0]), 0.0)
    return 0.0


def _over_props(cell: Rect, field: Field) -> float:
    """Metres of uprights behind a sheet, away from its ends and out of its openings."""
    left, low, right, high = cell
    found = 0.0
    for prop in field.props:
        if left + _HAIR < prop.at < right - _HAIR:
            strip = (prop.at, max(low, prop.foot), prop.at + _THIN, min(high, prop.head))
            if strip[3] > strip[1]:
                found += sum(rect[3] - rect[1] for rect in left_of(strip, _widened(field.openings)))
    return found


def _widened(openings: Sequence[Rect]) -> list[Rect]:
    """Openings a little wider, so that a thin strip lies in one of them wholly or not at all."""
    return [(left - _THIN, low, right + _THIN, high) for left, low, right, high in openings]
