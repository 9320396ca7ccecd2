"""What the edges and corners of a solved panel push back with, and how far the panel turns on them.

Forces are positive where the edge pushes the panel back against the water, negative where it must hold it.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import TypeAlias

import numpy as np
from numpy.linalg import cholesky
from numpy.typing import NDArray
from scipy.linalg import lstsq, solve_triangular

from tidestead.core.dims import Array, Count, Metre, Newton, NewtonPerMetre, Radian, Ratio
from tidestead.physics.structure.plate_basis import LineBasis, line_basis
from tidestead.physics.structure.plate_panel import EDGE_NAMES, EdgeName, LineLoads, Metres, Panel
from tidestead.physics.structure.plate_ritz import NEIGHBOURS, SEAT_POINTS_EXTRA, RitzPlate

BLIND_END: Ratio = 0.15
"""Share of the shorter side at the end of a clamped edge that meets a free one where its force is not judged."""
Numbers: TypeAlias = NDArray[np.intp]
LINE_POINTS: Count = 81
KEPT_LINES: Count = 64
"""Edges of which what no load changes is kept."""
LOWER_DEGREE: Count = 2
LOWER_DEGREE_CLAMPED: Count = 4
"""The force along an edge is sought this many degrees lower than the bow, so that there are equations enough:
each end takes one away, and a second one where the edge beside it is clamped."""


@dataclass(frozen=True, eq=False)
class EdgeReaction:
    """The seat force along one edge: `line_load` at `place` along it, from the left or from the bottom.

    `peak` is the greatest push on a metre of the seat. It leaves out the ends of a clamped edge that meets a
    free one, over BLIND_END, where plate theory gives no limit to it.
    """

    edge: EdgeName
    place: Metres
    line_load: LineLoads
    total: Newton
    peak: NewtonPerMetre
    peak_at: Metre


@dataclass(frozen=True)
class EdgeReactions:
    """Seat forces of the four edges; a free edge carries none."""

    left: EdgeReaction
    right: EdgeReaction
    bottom: EdgeReaction
    top: EdgeReaction

    @property
    def total(self) -> Newton:
        """All four edges together, without the corner forces."""
        return self.left.total + self.right.total + self.bottom.total + self.top.total


@dataclass(frozen=True)
class CornerForces:
    """Single forces at the corners. Negative: the corner would lift and must be held down.

    At a corner of simple edges this is the twisting reaction of plate theory. Where an edge is clamped it is
    the rest that the edge forces leave: small, except against a free edge.
    """

    bottom_left: Newton
    bottom_right: Newton
    top_left: Newton
    top_right: Newton

    @property
    def total(self) -> Newton:
        return self.bottom_left + self.bottom_right + self.top_left + self.top_right


@dataclass(frozen=True)
class EdgeRotations:
    """Greatest turn of the panel across each edge, as a positive angle."""

    left: Radian
    right: Radian
    bottom: Radian
    top: Radian


def edge_forces(
    plate: RitzPlate, table: Array, work: Array, one_way: bool = False
) -> tuple[EdgeReactions, CornerForces]:
    """Forces along the edges and at the corners that hold a bent panel.

        seat work = work of the water - work of the bending

    taken over the functions that carry the value of an edge, which the supports left out of the solution. The
    line force whose work is nearest is found for each edge; what is left at the corners is the corner force,
    so edges and corners together carry the whole load. With `one_way` a leaning edge does not pull.
    Source: principle of virtual work on functions that move the edge.
    Valid:  held and leaning edges; near a corner of a clamped and a free edge only the total is meaningful.
    """
    rest = work - plate.resistance(table)
    edges = {name: _edge_force(plate, table, rest, name, one_way) for name in EDGE_NAMES}
    corners = []
    ends: tuple[tuple[EdgeName, int], ...] = (("bottom", 0), ("top", 1))
    sides: tuple[tuple[EdgeName, int], ...] = (("left", 0), ("right", 1))
    for end, up_number in ends:
        for side, along_number in sides:
            i = plate.along.end_values[along_number]
            j = plate.up.end_values[up_number]
            corners.append(float(rest[i, j]) - edges[end][1][along_number] - edges[side][1][up_number])
    reactions = EdgeReactions(**{name: edges[name][0] for name in EDGE_NAMES})
    return reactions, CornerForces(*corners)


def _edge_force(
    plate: RitzPlate, table: Array, rest: Array, edge: EdgeName, one_way: bool
) -> tuple[EdgeReaction, tuple[float, float]]:
    """The force along one edge, and the work it does on the value at each of the edge's ends."""
    line, amounts = plate.edge_line(edge, table)
    spring = plate.panel.springs.of(edge)
    along = _along(line)
    if spring > 0.0 or plate.panel.edges.of(edge) == "free":
        least = 0.0 if one_way else -np.inf
        shown = spring * np.maximum(along.at_places @ amounts, least)
        force = spring * np.maximum(along.at_points @ amounts, least)
    else:
        shapes = _force_shapes(line, tuple(_silent(plate.panel, line, edge)))
        amounts = shapes.nearest(plate.edge_line(edge, rest)[1])
        shown, force = shapes.at_places @ amounts, shapes.at_points @ amounts
    shares = along.shares
    first, last = (float((shares * force) @ along.at_points[:, end]) for end in line.end_values)
    sure = _sure(plate.panel, edge, along.places)
    best = int(np.argmax(np.where(sure, shown, -np.inf)))
    reaction = EdgeReaction(
        edge, along.places, shown, float(shares @ force), float(shown[best]), float(along.places[best])
    )
    return reaction, (first, last)


@dataclass(frozen=True, eq=False)
class _Along:
    """The places shown along an edge, the points and shares it is integrated with, and its functions at both."""

    places: Metres
    points: Metres
    shares: Metres
    at_places: Array
    at_points: Array


@lru_cache(maxsize=KEPT_LINES)
def _along(line: LineBasis) -> _Along:
    places = np.linspace(0.0, line.length, LINE_POINTS)
    points, shares = line.quadrature(line.length, SEAT_POINTS_EXTRA)
    return _Along(places, points, shares, line.values(places), line.values(points))


@dataclass(frozen=True, eq=False)
class _ForceShapes:
    """The functions a line force is made of, at places and points, and their work on the functions told of it.

    `lower` is the Cholesky factor of the products of those functions, each scaled by `scale`.
    """

    at_places: Array
    at_points: Array
    told: Numbers
    scale: Array
    lower: Array
    work: Array

    def nearest(self, rest: Array) -> Array:
        """Amounts whose work on the functions told of is nearest to `rest`."""
        right = solve_triangular(self.lower, rest[self.told] * self.scale, lower=True)
        return np.asarray(lstsq(self.work, right)[0])


@lru_cache(maxsize=KEPT_LINES)
def _force_shapes(line: LineBasis, silent: tuple[int, ...]) -> _ForceShapes:
    less = LOWER_DEGREE if len(silent) == len(line.end_values) else LOWER_DEGREE_CLAMPED
    force_line = line_basis(line.cuts, tuple(degree - less for degree in line.degrees))
    told = np.setdiff1d(np.arange(line.size), silent)
    points, shares = line.quadrature(line.length)
    shapes = line.values(points)[:, told]
    scale = 1.0 / np.sqrt(shares @ shapes**2)
    shapes = shapes * scale
    lower = np.asarray(cholesky((shapes.T * shares) @ shapes), dtype=float)
    work = solve_triangular(lower, (shapes.T * shares) @ force_line.values(points), lower=True)
    along = _along(line)
    return _ForceShapes(
        force_line.values(along.places), force_line.values(along.points), told, scale, lower, work
    )


def _silent(panel: Panel, line: LineBasis, edge: EdgeName) -> list[int]:
    """Functions on which others work too: the end values, and end slopes that a clamped neighbour holds."""
    silent = list(line.end_values)
    for end, beside in zip(line.end_values, NEIGHBOURS[edge], strict=True):
        if panel.edges.of(beside) == "clamped":
            silent.append(end + 1)
    return silent


def _sure(panel: Panel, edge: EdgeName, place: Metres) -> NDArray[np.bool_]:
    """Which places along an edge stand clear of a corner between a clamped and a free edge."""
    reach = BLIND_END * min(panel.width, panel.height)
    sure = np.ones(len(place), dtype=np.bool_)
    for beside, distance in zip(NEIGHBOURS[edge], (place, place[-1] - place), strict=True):
        if {panel.edges.of(edge), panel.edges.of(beside)} == {"clamped", "free"}:
            sure &= distance >= reach
    return sure


def edge_rotations(plate: RitzPlate, table: Array) -> EdgeRotations:
    """Greatest turn of the panel across each edge: the slope square to the edge.

    Source: slope of the bow, small angles.
    Valid:  turns under about 0.1 rad.
    """
    slopes_x = [table[number + 1] for number in plate.along.end_values]
    slopes_y = [table[:, number + 1] for number in plate.up.end_values]
    return EdgeRotations(
        left=plate.up.greatest(slopes_x[0]),
        right=plate.up.greatest(slopes_x[1]),
        bottom=plate.along.greatest(slopes_y[0]),
        top=plate.along.greatest(slopes_y[1]),
    )
