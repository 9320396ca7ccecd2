"""Level lines and filled bands of a field on a regular grid, by marching squares.

The region where the field is at or above a level is a set of closed loops; painting the regions of rising
levels over one another gives filled bands. A ring of lower values on the edge of the grid closes every loop.
"""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from tidestead.core.dims import Array
from tidestead.core.scene import Contours, Point
from tidestead.core.units import System, show

Loop: TypeAlias = list[Point]
Edge: TypeAlias = tuple[int, int, int]
"""A grid edge: row and column of its lower left node, 0 along the row or 1 up the column."""

INCH, MILLIMETRE = 0.0254, 0.001
_BANDS = 7
_STEPS = (1.0, 2.0, 2.5, 5.0, 10.0)

_TURNS = {
    1: (("left", "bottom"),),
    2: (("bottom", "right"),),
    3: (("left", "right"),),
    4: (("right", "top"),),
    6: (("bottom", "top"),),
    7: (("left", "top"),),
    8: (("top", "left"),),
    9: (("top", "bottom"),),
    11: (("top", "right"),),
    12: (("right", "left"),),
    13: (("right", "bottom"),),
    14: (("bottom", "left"),),
}
"""For the corners at or above the level (1 lower left, 2 lower right, 4 upper right, 8 upper left): the sides
where the line comes in and goes out, so that the higher ground lies on one side of it all the way round."""


def region(field: Contours, level: float) -> list[Loop]:
    """The outlines, holes among them, of where the field is at or above the level. What is NaN lies below."""
    across, up, values = _ringed(field)
    above = values >= level
    links: dict[Edge, Edge] = {}
    for row in range(len(up) - 1):
        for column in range(len(across) - 1):
            for begin, end in _turns(values, above, row, column, level):
                links[_edge(row, column, begin)] = _edge(row, column, end)
    return [[_crossing(across, up, values, edge, level) for edge in loop] for loop in _loops(links)]


def _ringed(field: Contours) -> tuple[list[float], list[float], Array]:
    """The grid with a ring of values below every other, at the same places as its outermost nodes."""
    values = np.asarray(field.values, dtype=np.float64)
    finite = np.where(np.isfinite(values), values, np.nan)
    lowest = float(np.nanmin(finite)) if np.isfinite(values).any() else 0.0
    highest = float(np.nanmax(finite)) if np.isfinite(values).any() else 0.0
    floor = lowest - 1e6 * (highest - lowest + 1.0)
    ringed = np.pad(np.nan_to_num(finite, nan=floor), 1, constant_values=floor)
    across = [field.across[0], *field.across, field.across[-1]]
    return across, [field.up[0], *field.up, field.up[-1]], ringed


def _turns(
    values: Array, above: NDArray[np.bool_], row: int, column: int, level: float
) -> Sequence[tuple[str, str]]:
    """How the line runs through one cell; a saddle is parted by the mean of its corners."""
    case = (
        int(above[row, column])
        | int(above[row, column + 1]) << 1
        | int(above[row + 1, column + 1]) << 2
        | int(above[row + 1, column]) << 3
    )
    if case in (0, 15):
        return ()
    if case not in (5, 10):
        return _TURNS[case]
    joined = float(values[row : row + 2, column : column + 2].mean()) >= level
    if case == 5:
        return (("left", "top"), ("right", "bottom")) if joined else (*_TURNS[1], *_TURNS[4])
    return (("bottom", "left"), ("top", "right")) if joined else (*_TURNS[2], *_TURNS[8])


def _edge(row: int, column: int, side: str) -> Edge:
    if side == "left":
        return (row, column, 1)
    if side == "right":
        return (row, column + 1, 1)
    return (row, column, 0) if side == "bottom" else (row + 1, column, 0)


def _loops(links: dict[Edge, Edge]) -> list[list[Edge]]:
    """The chains of links; each closes on itself, for the ring lets no line leave the grid."""
    loops = []
    while links:
        start, at = links.popitem()
        loop = [start]
        while at != start:
            loop.append(at)
            at = links.pop(at)
        loops.append(loop)
    return loops


def _crossing(across: Sequence[float], up: Sequence[float], values: Array, edge: Edge, level: float) -> Point:
    """Where the level is met between the two nodes of an edge, by straight line."""
    row, column, rising = edge
    row_to, column_to = (row + 1, column) if rising else (row, column + 1)
    first, second = float(values[row, column]), float(values[row_to, column_to])
    share = (level - first) / (second - first)
    return (
        across[column] + share * (across[column_to] - across[column]),
        up[row] + share * (up[row_to] - up[row]),
    )


def ends(field: Contours) -> tuple[float, float] | None:
    """Least and greatest value; None where the field has no finite value."""
    values = [value for row in field.values for value in row if math.isfinite(value)]
    return (min(values), max(values)) if values else None


def greatest(field: Contours) -> tuple[Point, float]:
    """Where the field is greatest, and how great."""
    value, row, column = max(
        (value, -row, -column)
        for row, values in enumerate(field.values)
        for column, value in enumerate(values)
        if math.isfinite(value)
    )
    return (field.across[-column], field.up[-row]), value


_TOUCHES = 1e-9
"""Of a step: an end this close to a round number is that number, whatever the last bit of it says."""


def levels(low: float, high: float, unit: str, system: System) -> list[float]:
    """Round numbers, in the unit the user reads, that part the range into some seven bands."""
    if not high > low:
        return []
    size = _shown_size(max(abs(low), abs(high)), unit, system)
    rough = (high - low) / size / _BANDS
    power = 10.0 ** math.floor(math.log10(rough))
    step = next(power * part for part in _STEPS if power * part >= rough * (1.0 - 1e-9)) * size
    first, last = math.floor(low / step + _TOUCHES) + 1, math.ceil(high / step - _TOUCHES) - 1
    return [number * step for number in range(first, last + 1)]


def _shown_size(value: float, unit: str, system: System) -> float:
    """The SI size of the unit in which the value is shown; 1 where its text is no plain number."""
    if unit == "m":
        return INCH if system == "us" else MILLIMETRE
    found = re.fullmatch(r"([\d,.\u00a0]+)(?: [^\d ].*)?", show(value, unit, system, "fine"))
    number = float(re.sub("[,\u00a0]", "", found[1])) if found else 0.0
    return value / number if number > 0.0 else 1.0
