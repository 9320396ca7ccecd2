"""Openings that reach the edge of a part: no holes, but notches in its outline, which is then cut as one line."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import pairwise

from tidestead.build.lists import Outline
from tidestead.core.scene import Point

SAME = 1e-7
"""Metres: places closer than this are one."""

Box = tuple[float, float, float, float]
"""Left, low, right, high."""


def notched(outline: Outline, openings: Sequence[Outline]) -> tuple[Outline, tuple[Outline, ...]]:
    """The outline with those openings taken out that reach its edge, and the openings that do not.

    Both as they were where a side is not level or upright, or where the part would fall into pieces.
    """
    part, boxes = _box(outline), [_box(opening) for opening in openings]
    if part is None:
        return outline, tuple(openings)
    reaching = [box for box in boxes if box is not None and _reaches(box, part)]
    whole = tuple(opening for opening, box in zip(openings, boxes, strict=True) if box not in reaching)
    loop = _loop(part, reaching) if reaching else None
    return (outline, tuple(openings)) if loop is None else (loop, whole)


def _box(outline: Outline) -> Box | None:
    """A rectangle's sides; None of anything else."""
    across, up = ([point[axis] for point in outline] for axis in (0, 1))
    box = min(across), min(up), max(across), max(up)
    level = all(
        min(abs(one[0] - other[0]), abs(one[1] - other[1])) < SAME
        for one, other in pairwise((*outline, outline[0]))
    )
    return box if level and len(outline) == 4 else None


def _reaches(box: Box, part: Box) -> bool:
    """Whether a box in or over a part leaves none of it on some side, and has some of it inside."""
    low = box[0] <= part[0] + SAME or box[1] <= part[1] + SAME
    high = box[2] >= part[2] - SAME or box[3] >= part[3] - SAME
    apart = (
        box[0] >= part[2] - SAME
        or box[1] >= part[3] - SAME
        or box[2] <= part[0] + SAME
        or box[3] <= part[1] + SAME
    )
    return (low or high) and not apart


def _loop(part: Box, notches: Sequence[Box]) -> Outline | None:
    """The one line round what is left of a part, counter-clockwise; None where it is not one line.

    What is left is told in cells between all sides; of two cells side by side the common side goes.
    """
    lines = [
        _places(part[axis], part[axis + 2], [n[at] for n in notches for at in (axis, axis + 2)])
        for axis in (0, 1)
    ]
    sides: dict[Point, Point] = {}
    many = 0
    for begin, end in _sides_left(lines[0], lines[1], notches):
        sides[begin] = end
        many += 1
    if not sides or len(sides) < many:
        return None
    at = first = min(sides, key=lambda point: (point[1], point[0]))
    way = [at]
    while (at := sides.pop(at)) != first:
        way.append(at)
    return None if sides else tuple(_corners(way))


def _places(low: float, high: float, between: Iterable[float]) -> list[float]:
    places = [low]
    for place in sorted(between):
        if places[-1] + SAME < place < high - SAME:
            places.append(place)
    return [*places, high]


def _sides_left(across: list[float], up: list[float], notches: Sequence[Box]) -> set[tuple[Point, Point]]:
    """Sides of cells that no notch covers, each with the cell on its left, without those that two cells share."""
    sides: set[tuple[Point, Point]] = set()
    for left, right in pairwise(across):
        for low, high in pairwise(up):
            x, y = (left + right) / 2.0, (low + high) / 2.0
            if not any(box[0] < x < box[2] and box[1] < y < box[3] for box in notches):
                ring = (left, low), (right, low), (right, high), (left, high), (left, low)
                sides |= set(pairwise(ring))
    return {(begin, end) for begin, end in sides if (end, begin) not in sides}


def _corners(way: Sequence[Point]) -> list[Point]:
    """Without places on a straight side."""
    turns = zip((way[-1], *way), way, (*way[1:], way[0]), strict=False)
    return [at for before, at, after in turns if (before[0] == at[0]) != (at[0] == after[0])]
