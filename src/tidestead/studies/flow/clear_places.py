"""Where on a line of a schematic its signs and its number stand, so that no other line crosses there."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from tidestead.core.kept import kept
from tidestead.core.scene import Point

_STEPS = 200
"""Places tried along a line."""

_CLEAR, _BETWEEN, _FAR = 0.8, 1.6, 2.0
"""Times the size of a sign: from its middle to a line that crosses, and to the next sign; and how far off a number
stands from both where there is room."""


@dataclass(frozen=True)
class Path:
    """A line: out, up or down, along its lane, down or up, in."""

    points: tuple[Point, Point, Point, Point, Point, Point]

    @property
    def lane(self) -> float:
        return self.points[2][1]

    @property
    def way(self) -> float:
        """The way along the lane: 1 to the right, -1 to the left."""
        return 1.0 if self.points[3][0] > self.points[2][0] else -1.0

    @property
    def upright(self) -> tuple[tuple[Point, Point], tuple[Point, Point]]:
        return (self.points[1], self.points[2]), (self.points[3], self.points[4])

    @property
    def level(self) -> tuple[tuple[Point, Point], ...]:
        return tuple((self.points[at], self.points[at + 1]) for at in (0, 2, 4))


def spread(ends: Sequence[tuple[str, float]], gap: float) -> dict[str, float]:
    """Heights by name at least so far apart, each as near to its own as that allows; equal ones in their order."""
    ordered = sorted(ends, key=lambda end: end[1])
    groups: list[list[float]] = []
    for place, (_, level) in enumerate(ordered):
        groups.append([level - gap * place])
        while len(groups) > 1 and _mean(groups[-2]) > _mean(groups[-1]):
            groups[-2:] = [groups[-2] + groups[-1]]
    shifted = [_mean(group) for group in groups for _ in group]
    return {name: shifted[place] + gap * place for place, (name, _) in enumerate(ordered)}


def _mean(values: Sequence[float]) -> float:
    return sum(values) / len(values)


def clear_places(path: Path, others: Sequence[Path], count: int, size: float) -> list[float]:
    """Places along the lane for so many signs and, behind them, a number; for fewer where there is no more room."""
    begin, end = path.points[2][0], path.points[3][0]
    free = _free(begin, end, tuple(_across(path.lane, others)), _CLEAR * size)
    room = max(int(abs(end - begin) / (2.0 * size)) - 1, 0)
    for fits in range(min(count, room), 0, -1):
        found: list[float] = []
        for at in range(1, fits + 1):
            wanted = begin + (end - begin) * at / (fits + 2)
            ahead = [x for x in free if not found or (x - found[-1]) * path.way >= _BETWEEN * size]
            if not ahead:
                break
            found.append(min(ahead, key=lambda x: abs(x - wanted)))
        if len(found) == fits:
            return found
    return []


def number_place(path: Path, others: Sequence[Path], signs: Sequence[float], size: float) -> Point:
    """Where a line bears its number: on its lane clear of its signs, else on one of its upright parts."""
    begin, end = path.points[2][0], path.points[3][0]
    middle = begin + (end - begin) * (len(signs) + 1) / (len(signs) + 2)
    taken = (*_across(path.lane, others), *signs)
    for clear in (_FAR * size, _CLEAR * size):
        if along := _free(begin, end, taken, clear):
            return min(along, key=lambda x: abs(x - middle)), path.lane
    for (x, low), (_, high) in path.upright:
        crossed = tuple(
            y
            for other in others
            for (left, y), (right, _) in other.level
            if min(left, right) <= x <= max(left, right)
        )
        if up := _free(low, high, crossed, _CLEAR * size):
            return x, min(up, key=lambda y: abs(y - (low + high) / 2.0))
    return middle, path.lane


def _across(lane: float, others: Sequence[Path]) -> list[float]:
    """Where upright parts of other lines cross or touch a lane."""
    return [
        x
        for other in others
        for (x, low), (_, high) in other.upright
        if min(low, high) <= lane <= max(low, high)
    ]


@kept(at_most=512)
def _free(begin: float, end: float, taken: tuple[float, ...], clear: float) -> tuple[float, ...]:
    """Places between two ends that keep clear of what is taken; the ends themselves are kept a little off."""
    inside = (begin + (end - begin) * step / _STEPS for step in range(1, _STEPS))
    off = min(clear, abs(end - begin) / 2.0 - 1e-9)
    return tuple(
        x
        for x in inside
        if min(abs(x - begin), abs(x - end)) >= off and all(abs(x - one) >= clear for one in taken)
    )
