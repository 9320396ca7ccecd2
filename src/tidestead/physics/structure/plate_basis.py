"""Shape functions along one side of a plate, and the integrals of their products.

A line is cut into strips. In each strip the functions are every polynomial up to a degree, written as the
four end cubics (value and slope at each end) and twice-integrated Legendre polynomials, which are zero with
their slope at both ends. The space is the same as Legendre polynomials times boundary factors; this form
keeps the equations well conditioned at any degree, joins strips without a kink, and makes an edge held by
leaving out its value, or its value and slope.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property, lru_cache

import numpy as np
from numpy.polynomial import legendre
from numpy.typing import NDArray

from tidestead.core.dims import Array, Count, Metre
from tidestead.physics.structure.plate_panel import Metres, Support

END_CUBICS = np.array(
    [[2.0, -3.0, 0.0, 1.0], [1.0, -1.0, -1.0, 1.0], [2.0, 3.0, 0.0, -1.0], [-1.0, -1.0, 1.0, 1.0]]
)
"""Four times the end cubics on -1..1 in rising powers: value and slope at -1, value and slope at 1."""
SEARCH_EXTRA: Count = 5
"""Points added to a strip's degree when it is searched for a peak."""
ZOOMS: Count = 2
ZOOM_POINTS: Count = 9
"""A peak is refined this often, each time on so many points between the neighbours of the best."""


@lru_cache(maxsize=64)
def gauss_points(count: Count) -> tuple[Array, Array]:
    """Points and weights on -1..1 that integrate every polynomial up to degree 2*count - 1.

    Source: Gauss-Legendre quadrature, by numpy.
    Valid:  one point and more.
    """
    points, weights = legendre.leggauss(count)
    return np.asarray(points), np.asarray(weights)


@dataclass(frozen=True, eq=False)
class StripFunctions:
    """The functions of one strip on -1..1 and the integrals of their products.

    `tables[order][k, f]` is the coefficient of the Legendre polynomial k in that derivative of function f.
    `mass` is the integral of f*g, `slope` of f'*g', `curve` of f''*g'', `cross` of f*g''.
    """

    tables: tuple[Array, Array, Array]
    mass: Array
    slope: Array
    curve: Array
    cross: Array

    def jets(self, points: Array) -> tuple[Array, Array, Array]:
        """Every function and its two derivatives, one row for each point on -1..1."""
        value, first, second = self.derivatives(points, 3)
        return value, first, second

    def derivatives(self, points: Array, count: Count) -> list[Array]:
        """Every function and its first derivatives, `count` arrays in all, one row for each point on -1..1."""
        polynomials = _legendre(points, len(self.tables[0]) - 1)
        return [polynomials[:, : len(table)] @ table for table in self.tables[:count]]


def _legendre(points: Array, degree: Count) -> Array:
    """Legendre polynomials up to a degree (of one and more), one row for each point, by Bonnet's recurrence.

    k*P_k = (2k - 1)*x*P_(k-1) - (k - 1)*P_(k-2)
    """
    found = np.empty((degree + 1, len(points)))
    found[0], found[1] = 1.0, points
    for k in range(2, degree + 1):
        found[k] = (found[k - 1] * points * (2 * k - 1) - found[k - 2] * (k - 1)) / k
    return found.T


@lru_cache(maxsize=64)
def strip_functions(degree: Count) -> StripFunctions:
    """All polynomials up to `degree` on one strip, with the integrals of their products.

        b_k = integral of the integral of P_k
            = P_(k+2)/((2k+1)(2k+3)) - 2 P_k/((2k-1)(2k+3)) + P_(k-2)/((2k+1)(2k-1))   for k >= 2

    each b_k is scaled so that the integral of b_k''**2 is one.
    Source: recurrence of the Legendre polynomials, (2k+1) P_k = P'_(k+1) - P'_(k-1), used twice.
    Valid:  degree 4 and more; integrals exact to rounding.
    """
    table = np.zeros((degree + 1, degree + 1))
    for row, cubic in enumerate(END_CUBICS):
        table[row, :4] = legendre.poly2leg(cubic) / 4.0
    for k in range(2, degree - 1):
        table[k + 2, k + 2] = 1.0 / ((2 * k + 1) * (2 * k + 3))
        table[k + 2, k] = -2.0 / ((2 * k - 1) * (2 * k + 3))
        table[k + 2, k - 2] = 1.0 / ((2 * k + 1) * (2 * k - 1))
        table[k + 2] *= np.sqrt(k + 0.5)
    bent = [np.asarray(legendre.legder(table.T, order), dtype=float) for order in (1, 2)]
    tables = (np.ascontiguousarray(table.T), bent[0], bent[1])
    points, weights = gauss_points(degree + 1)
    value, first, second = StripFunctions(tables, table, table, table, table).jets(points)

    def product(left: Array, right: Array) -> Array:
        return np.asarray((left.T * weights) @ right)

    return StripFunctions(
        tables,
        mass=product(value, value),
        slope=product(first, first),
        curve=product(second, second),
        cross=product(value, second),
    )


@dataclass(frozen=True, eq=False)
class LineBasis:
    """The functions along one side: strips between `cuts` (m, from 0 to the length), a degree for each.

    Functions are numbered: value and slope at each cut in turn, then the inner functions of each strip.
    """

    cuts: tuple[Metre, ...]
    degrees: tuple[Count, ...]
    mass: Array
    slope: Array
    curve: Array
    cross: Array

    @property
    def length(self) -> Metre:
        return self.cuts[-1]

    @property
    def size(self) -> Count:
        return len(self.mass)

    @property
    def end_values(self) -> tuple[Count, Count]:
        """Numbers of the two functions that carry the value at the ends of the line."""
        return 0, 2 * len(self.cuts) - 2

    @cached_property
    def _numbers(self) -> list[tuple[NDArray[np.intp], Array]]:
        return _strip_numbers(self.cuts, self.degrees)

    def jets(self, points: Metres) -> tuple[Array, Array, Array]:
        """Every function and its two derivatives: one row for each point along the line."""
        value, first, second = self._derivatives(points, 3)
        return value, first, second

    def values(self, points: Metres) -> Array:
        """Every function: one row for each point along the line."""
        return np.asarray(self._derivatives(points, 1)[0])

    def _derivatives(self, points: Metres, count: Count) -> Array:
        where = np.searchsorted(self.cuts[1:-1], points, side="right")
        out = np.zeros((count, len(points), self.size))
        for strip, (numbers, scales) in enumerate(self._numbers):
            rows = np.flatnonzero(where == strip)
            if rows.size:
                start, stop = self.cuts[strip : strip + 2]
                local = 2.0 * (points[rows] - start) / (stop - start) - 1.0
                tables = strip_functions(self.degrees[strip]).derivatives(local, count)
                for order, table in enumerate(tables):
                    out[order, rows[:, None], numbers] = table * (scales * (2.0 / (stop - start)) ** order)
        return out

    def quadrature(self, stop: Metre, extra: Count = 1) -> tuple[Metres, Metres]:
        """Gauss points and weights of every strip, from the start of the line to `stop` and no further."""
        points, weights = [], []
        for start, end, degree in zip(self.cuts, self.cuts[1:], self.degrees, strict=False):
            if start < stop:
                nodes, shares = gauss_points(degree + extra)
                half = 0.5 * (min(end, stop) - start)
                points.append(start + half * (nodes + 1.0))
                weights.append(half * shares)
        return np.concatenate(points), np.concatenate(weights)

    @cached_property
    def search_points(self) -> Metres:
        """Points closer together near the cuts, both ends among them."""
        points = [np.zeros(1)]
        for start, stop, degree in zip(self.cuts, self.cuts[1:], self.degrees, strict=False):
            turn = np.linspace(0.0, np.pi, degree + SEARCH_EXTRA)[1:]
            points.append(start + 0.5 * (stop - start) * (1.0 - np.cos(turn)))
        return np.concatenate(points)

    @cached_property
    def search_jets(self) -> tuple[Array, Array, Array]:
        """The functions and their two derivatives at the search points."""
        return self.jets(self.search_points)

    @cached_property
    def integrals(self) -> Array:
        """The integral of every function over the whole line."""
        points, shares = self.quadrature(self.length)
        return np.asarray(shares @ self.values(points))

    @staticmethod
    def closer(points: Metres, spot: Count) -> Metres:
        """`ZOOM_POINTS` even points between the neighbours of one of the points: `numpy.linspace` of two plain ends."""
        start, stop = points[max(spot - 1, 0)], points[min(spot + 1, len(points) - 1)]
        found = _EVEN * ((stop - start) / (ZOOM_POINTS - 1)) + start
        found[-1] = stop
        return np.asarray(found)

    def greatest(self, amounts: Array) -> Metre:
        """Greatest size over the line of the sum of functions."""
        points = self.search_points
        sizes = np.abs(self.search_jets[0] @ amounts)
        best = int(sizes.argmax())
        for _ in range(ZOOMS):
            points = self.closer(points, best)
            sizes = np.abs(self.values(points) @ amounts)
            best = int(sizes.argmax())
        return float(sizes[best])


_EVEN = np.arange(float(ZOOM_POINTS))


def _strip_numbers(
    cuts: tuple[Metre, ...], degrees: tuple[Count, ...]
) -> list[tuple[NDArray[np.intp], Array]]:
    """For each strip: the line's numbers of its functions, and the factor that turns a unit slope true."""
    inner = 2 * len(cuts)
    found = []
    for strip, degree in enumerate(degrees):
        numbers = np.r_[2 * strip : 2 * strip + 4, inner : inner + degree - 3]
        scales = np.ones(degree + 1)
        scales[[1, 3]] = 0.5 * (cuts[strip + 1] - cuts[strip])
        inner += degree - 3
        found.append((numbers, scales))
    return found


@lru_cache(maxsize=256)
def line_basis(cuts: tuple[Metre, ...], degrees: tuple[Count, ...]) -> LineBasis:
    """The functions along a line cut into strips, with the integrals of their products in metres.

    Source: strip functions scaled by the chain rule and joined at the cuts in value and slope.
    Valid:  rising cuts, one degree of 4 or more for each strip.
    """
    size = 2 * len(cuts) + sum(degree - 3 for degree in degrees)
    mass, slope, curve, cross = (np.zeros((size, size)) for _ in range(4))
    for strip, (numbers, scales) in enumerate(_strip_numbers(cuts, degrees)):
        half = 0.5 * (cuts[strip + 1] - cuts[strip])
        both = np.outer(scales, scales)
        place = np.ix_(numbers, numbers)
        functions = strip_functions(degrees[strip])
        mass[place] += both * functions.mass * half
        slope[place] += both * functions.slope / half
        curve[place] += both * functions.curve / half**3
        cross[place] += both * functions.cross / half
    return LineBasis(cuts, degrees, mass, slope, curve, cross)


def kept_functions(basis: LineBasis, start: Support, end: Support, mirrored: bool) -> Array:
    """Rows that pick the functions the supports leave: a simple end loses its value, a clamped end its slope.

    With `mirrored` only the combinations that are the same on both halves of the line remain.
    Source: essential boundary conditions of the Ritz method.
    Valid:  mirrored only with equal supports and strips that mirror each other.
    """
    first, last = basis.end_values
    lost = {first: start != "free", first + 1: start == "clamped"}
    lost |= {last: end != "free", last + 1: end == "clamped"}
    kept = [number for number in range(basis.size) if not lost.get(number, False)]
    unit = np.eye(basis.size)
    if not mirrored:
        return unit[kept]
    partners, signs = _partners(basis)
    rows = []
    for number in kept:
        partner, sign = partners[number], signs[number]
        if partner > number:
            rows.append(unit[number] + sign * unit[partner])
        elif partner == number and sign > 0:
            rows.append(unit[number])
    return np.array(rows)


def _partners(basis: LineBasis) -> tuple[list[int], list[int]]:
    """For each function its mirror image on the line, and whether the image keeps (1) or turns (-1) sign."""
    cuts, strips = len(basis.cuts), len(basis.degrees)
    partners, signs = [], []
    for cut in range(cuts):
        partners += [2 * (cuts - 1 - cut), 2 * (cuts - 1 - cut) + 1]
        signs += [1, -1]
    numbers = [place[4:] for place, _ in _strip_numbers(basis.cuts, basis.degrees)]
    for strip in range(strips):
        image = numbers[strips - 1 - strip]
        partners += [int(number) for number in image]
        signs += [(-1) ** k for k in range(len(image))]
    return partners, signs
