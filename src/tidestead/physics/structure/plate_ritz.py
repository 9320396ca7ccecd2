"""The equations of a panel: its strips, stiffness and load, and the bow that makes their energy least."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.linalg import LinAlgError
from scipy.linalg import cho_factor, cho_solve

from tidestead.core.dims import Array, Count, Metre, Ratio
from tidestead.core.errors import SolverError
from tidestead.physics.structure.plate_basis import LineBasis, kept_functions, line_basis
from tidestead.physics.structure.plate_panel import EDGE_NAMES, EdgeName, Panel, WaterLoad

EDGE_STRIP: Ratio = 0.1
"""Width of a strip along an edge where the moments change quickly, as a share of the shorter side."""
EDGE_DEGREE: Count = 8
LOW_WATER: Ratio = 0.3
LEAST_STRIP: Ratio = 0.02
"""Water lower than the first share of the height gets a strip to itself, no narrower than the second share."""
LONG_SIDE: Ratio = 4.5
"""A side this many times the other is cut at LONG_CUTS, where the ends stop being felt."""
LONG_CUTS: tuple[Ratio, ...] = (1.2, 4.5)
LONG_DEGREE: Count = 10
WHOLE_DEGREE: Count = 20
INNER_DEGREE: Count = 16
DEGREE_PER_RATIO: Count = 3
"""Strips and degrees were chosen so that bow and moments stay within 0.1 % of a much finer solution."""
SEAT_POINTS_EXTRA: Count = 10
"""Seat points in a strip beyond its degree: a push may end inside a strip, which smooth work does not."""
NEIGHBOURS: dict[EdgeName, tuple[EdgeName, EdgeName]] = {
    "left": ("bottom", "top"),
    "right": ("bottom", "top"),
    "bottom": ("left", "right"),
    "top": ("left", "right"),
}


@dataclass(frozen=True, eq=False)
class RitzPlate:
    """A panel's functions along the width and up the height, and which of their products the edges leave.

    The bow is the sum of `C[i, j] * along_i(x) * up_j(y)`; `across` and `above` hold the rows that are kept.
    """

    panel: Panel
    along: LineBasis
    up: LineBasis
    across: Array
    above: Array

    def stiffness(self) -> Array:
        """Energy matrix of the kept products, bending and springs under leaning edges together."""
        terms = [
            (factor, self.across @ wide @ self.across.T, self.above @ high @ self.above.T)
            for factor, wide, high in (*self._bending, *self._springs)
        ]
        left = np.array([factor * wide.ravel() for factor, wide, _ in terms])
        right = np.array([high.ravel() for _, _, high in terms])
        m, n = len(self.across), len(self.above)
        full = (left.T @ right).reshape(m, m, n, n).transpose(0, 2, 1, 3)
        return np.ascontiguousarray(full).reshape(m * n, m * n)

    @cached_property
    def _bending(self) -> tuple[tuple[float, Array, Array], ...]:
        """Terms of the bending energy: a factor, products along the width, products up the height."""
        stiff, poisson, x, y = self.panel.rigidity, self.panel.poisson, self.along, self.up
        return (
            (stiff, x.curve, y.mass),
            (stiff, x.mass, y.curve),
            (poisson * stiff, x.cross, y.cross.T),
            (poisson * stiff, x.cross.T, y.cross),
            (2.0 * (1.0 - poisson) * stiff, x.slope, y.slope),
        )

    @property
    def _springs(self) -> tuple[tuple[float, Array, Array], ...]:
        """The same for the springs: products along the edge, and the value at its end of the other line."""
        terms = []
        for edge in self.panel.leaning():
            other = self.up if edge in ("bottom", "top") else self.along
            end = np.zeros((other.size, other.size))
            number = other.end_values[edge in ("right", "top")]
            end[number, number] = 1.0
            pair = (self.along.mass, end) if edge in ("bottom", "top") else (end, self.up.mass)
            terms.append((self.panel.springs.of(edge), *pair))
        return tuple(terms)

    def edge_line(self, edge: EdgeName, table: Array) -> tuple[LineBasis, Array]:
        """The functions along an edge, and the part of a table that belongs to the value on it."""
        if edge in ("bottom", "top"):
            return self.along, table[:, self.up.end_values[edge == "top"]]
        return self.up, table[self.along.end_values[edge == "right"]]

    def push(self, load: WaterLoad) -> Array:
        """Work of the water on each product of functions, kept or not.

        Pressure falls in a straight line to the water line: the wet part is integrated by itself, exactly.
        """
        high = load.pressure * self.up.integrals
        if load.head > 0.0:
            wet, shares = self.up.quadrature(min(load.head, self.panel.height))
            high = high + load.weight * ((shares * (load.head - wet)) @ self.up.values(wet))
        return np.outer(self.along.integrals, high)

    def reduced(self, work: Array) -> Array:
        """Work on all products turned into work on the kept ones, in one column."""
        return np.asarray((self.across @ work @ self.above.T).ravel())

    def spread(self, kept: Array) -> Array:
        """Amounts of the kept products turned into the table C of all of them."""
        return np.asarray(self.across.T @ kept.reshape(len(self.across), len(self.above)) @ self.above)

    def resistance(self, table: Array) -> Array:
        """Work of the plate's own bending on each product of functions, for the bow `table`."""
        return sum(
            (factor * (wide @ table @ high.T) for factor, wide, high in self._bending), np.zeros_like(table)
        )


@dataclass(frozen=True, eq=False)
class Factored:
    """A stiffness matrix scaled to a unit diagonal and factored once, for any number of loads."""

    factor: Array
    scale: Array

    def solve(self, work: Array) -> Array:
        """Amounts of the functions for one column of work, or for several columns."""
        scale = self.scale if work.ndim == 1 else self.scale[:, None]
        return np.asarray(scale * cho_solve((self.factor, True), scale * work, check_finite=False))


def factored(stiffness: Array) -> Factored:
    """Cholesky factor of a stiffness matrix.

    Raises SolverError where the matrix is not positive: a mechanism, or sizes out of all proportion.
    Source: Cholesky factorisation by LAPACK through scipy.
    Valid:  symmetric positive matrices.
    """
    diagonal = np.diag(stiffness)
    if not (np.isfinite(diagonal).all() and (diagonal > 0.0).all()):
        raise SolverError("the panel's stiffness is not a positive, finite number: check sizes and modulus.")
    scale = 1.0 / np.sqrt(diagonal)
    try:
        lower, _ = cho_factor(
            stiffness * np.outer(scale, scale), lower=True, overwrite_a=True, check_finite=False
        )
    except LinAlgError as fault:
        raise SolverError("the panel is a mechanism: its edges do not hold it.") from fault
    return Factored(lower, scale)


def ritz_plate(panel: Panel, low: Metre = 0.0, all_edges: bool = False, extra_degree: Count = 0) -> RitzPlate:
    """Choose strips and degrees for a panel, and keep the functions its edges leave.

    `low` is the depth of low water, which gets a strip of its own (see low_strip). `all_edges` puts a strip
    along every edge, for seats that may let go. `extra_degree` goes to all strips.
    Source: own choice, tested against finer solutions (see the constants above).
    Valid:  sides up to 30 times each other.
    """
    ends = {edge: all_edges or _quick(panel, edge) for edge in EDGE_NAMES}
    # low water presses on a short length of the sides, so that the moments across them change quickly too
    sides = (ends["left"] or low > 0.0, ends["right"] or low > 0.0)
    along = _side(panel.width, panel.height, sides, 0.0, extra_degree)
    up = _side(panel.height, panel.width, (ends["bottom"], ends["top"]), low, extra_degree)
    return RitzPlate(
        panel,
        along,
        up,
        kept_functions(along, panel.edges.left, panel.edges.right, panel.mirrored),
        kept_functions(up, panel.edges.bottom, panel.edges.top, mirrored=False),
    )


def low_strip(panel: Panel, head: Metre) -> Metre:
    """Depth of the strip that low water gets to itself; nothing where the water is high.

    Source: own choice (see the constants above).
    Valid:  any head.
    """
    return max(head, LEAST_STRIP * panel.height) if 0.0 < head < LOW_WATER * panel.height else 0.0


def _quick(panel: Panel, edge: EdgeName) -> bool:
    """Whether moments change quickly near an edge: it leans, or it meets another, clamped against free."""
    support = panel.edges.of(edge)
    beside = {panel.edges.of(other) for other in NEIGHBOURS[edge]}
    springs = [panel.springs.of(name) for name in (edge, *NEIGHBOURS[edge])]
    against = {"clamped": "free", "free": "clamped"}.get(support)
    return any(spring > 0.0 for spring in springs) or against in beside


def _side(length: Metre, other: Metre, quick: tuple[bool, bool], low: Metre, extra: Count) -> LineBasis:
    """Strips of one side: narrow ones at quick ends and under low water, and cuts further in of a long side."""
    short = min(length, other)
    far = [share * short for share in LONG_CUTS if share * short < 0.4 * length] * (
        length > LONG_SIDE * short
    )
    edge = EDGE_STRIP * short
    start = [edge] * quick[0] + far
    if low > 0.0:
        start = sorted([low, *(mark for mark in start if not 0.67 * low < mark < 1.5 * low)])
    finish = [edge] * quick[1] + far
    cuts = (0.0, *start, *(length - mark for mark in reversed(finish)), length)
    inner = INNER_DEGREE if any(quick) or low > 0.0 else WHOLE_DEGREE
    degrees = []
    for number in range(len(cuts) - 1):
        span = cuts[number + 1] - cuts[number]
        # a hair is taken off so that rounding in the sizes cannot change the degree of a round ratio
        longer = math.ceil(DEGREE_PER_RATIO * max(0.0, span / short - 1.0) - 1e-9)
        if span < 1.5 * edge:
            degrees.append(EDGE_DEGREE + extra)
        elif far or span < LOW_WATER * length:
            degrees.append(LONG_DEGREE + extra)
        else:
            degrees.append(inner + longer + extra)
    return line_basis(cuts, tuple(degrees))
