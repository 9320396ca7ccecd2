"""Bow, moments and principal moments of a solved panel, and where they are greatest.

Signs: bow is positive towards the dry (air) side; a positive moment stretches the dry face.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from tidestead.core.dims import Array, Count, Metre, NewtonMetre, NewtonMetrePerMetre, Ratio
from tidestead.physics.structure.plate_basis import ZOOMS, LineBasis
from tidestead.physics.structure.plate_panel import EDGE_NAMES, Metres, Moments, Panel

CORNER_PATCH: Ratio = 0.02
"""Share of the shorter side left out of the search round a corner between a clamped and a free edge.

There thin-plate theory gives moments that swing without end over ever smaller distances, less than any real
thickness (M. L. Williams, 1952: the leading power of the distance is complex and near zero).
"""

SUMMITS: Count = 3
SUMMIT_SHARE: Ratio = 0.05
"""So many summits of the coarse search are refined, where they come within this share of the highest."""

Values: TypeAlias = tuple[Array, Array, Array]
Mask: TypeAlias = NDArray[np.bool_]


@dataclass(frozen=True)
class PeakBow:
    """The greatest bow of the panel and where it stands."""

    value: Metre
    x: Metre
    y: Metre


@dataclass(frozen=True)
class PeakMoment:
    """The greatest moment of the panel on one face, as a positive number, and where it stands."""

    value: NewtonMetrePerMetre
    x: Metre
    y: Metre


@dataclass(frozen=True, eq=False)
class Fields:
    """Bow and moments of a panel at many points at once; all arrays have one shape."""

    bow: Metres
    mx: Moments
    my: Moments
    mxy: Moments

    @property
    def air_side(self) -> Moments:
        """Greatest principal moment: it stretches the dry face."""
        return principal_moments(self.mx, self.my, self.mxy)[0]

    @property
    def water_side(self) -> Moments:
        """Least principal moment with its sign turned: it stretches the wet face."""
        return -principal_moments(self.mx, self.my, self.mxy)[1]


@dataclass(frozen=True, eq=False)
class GridFields:
    """Fields on a grid: `x` along the width, `y` up the height, everything else indexed [x, y].

    `air_side` and `water_side` are the moments whose bending stretches that face most, positive as tension.
    """

    x: Metres
    y: Metres
    bow: Metres
    mx: Moments
    my: Moments
    mxy: Moments
    air_side: Moments
    water_side: Moments


@dataclass(frozen=True, eq=False)
class Surface:
    """The bow as a table of products of functions: w = sum of table[i, j] * along_i(x) * up_j(y)."""

    along: LineBasis
    up: LineBasis
    table: Array
    rigidity: NewtonMetre
    poisson: Ratio

    def on_lines(self, wide: Values, high: Values) -> Fields:
        """Fields at every crossing of lines, from the functions and their two derivatives on them."""
        value, first, second = (part @ self.table for part in wide)
        return self._fields(value @ high[0].T, second @ high[0].T, value @ high[2].T, first @ high[1].T)

    def at(self, x: Metres, y: Metres) -> Fields:
        """Fields at points given one by one."""
        value, first, second = (part @ self.table for part in self.along.jets(x))
        high = self.up.jets(y)

        def pairs(left: Array, right: Array) -> Array:
            return np.asarray(np.einsum("pj,pj->p", left, right))

        return self._fields(
            pairs(value, high[0]), pairs(second, high[0]), pairs(value, high[2]), pairs(first, high[1])
        )

    def _fields(self, bow: Array, bend_x: Array, bend_y: Array, twist: Array) -> Fields:
        stiff, nu = self.rigidity, self.poisson
        return Fields(
            bow,
            mx=-stiff * (bend_x + nu * bend_y),
            my=-stiff * (bend_y + nu * bend_x),
            mxy=-stiff * (1.0 - nu) * twist,
        )


def principal_moments(mx: Moments, my: Moments, mxy: Moments) -> tuple[Moments, Moments]:
    """Greatest and least moment over all directions at a point.

        m = (mx + my)/2 +- sqrt(((mx - my)/2)**2 + mxy**2)

    Arrays broadcast.
    Source: rotation of a symmetric tensor (Mohr's circle), elementary plate theory.
    Valid:  everywhere.
    """
    middle = 0.5 * (mx + my)
    radius = np.hypot(0.5 * (mx - my), mxy)
    return middle + radius, middle - radius


def field_peaks(surface: Surface, panel: Panel) -> tuple[PeakBow, PeakMoment, PeakMoment]:
    """Greatest bow, air-side moment and water-side moment over the panel, edges and corners included.

    A search over points close together, then two finer ones round its highest summits. Corners between a clamped and a
    free edge are left out over CORNER_PATCH (moments only).
    Source: direct search.
    Valid:  where the field has no peak narrower than the spacing of the search points.
    """
    lines = surface.along.search_points, surface.up.search_points
    fields = surface.on_lines(surface.along.search_jets, surface.up.search_jets)
    keep = _outside_patches(panel, *lines)
    everywhere = np.ones_like(keep)
    picks: tuple[tuple[Callable[[Fields], Array], Mask], ...] = (
        (lambda found: found.bow, everywhere),
        (lambda found: found.air_side, keep),
        (lambda found: found.water_side, keep),
    )
    summits: list[_Summit] = []
    for number, (pick, mask) in enumerate(picks):
        field = pick(fields)
        spots = _summits(np.where(mask, field, -np.inf))
        summits += [
            _Summit(
                number, pick, spot, (float(field[spot]), float(lines[0][spot[0]]), float(lines[1][spot[1]]))
            )
            for spot in spots
        ]
    refined = _refined(surface, panel, summits)
    bow, air, water = (
        max(best for summit, best in zip(summits, refined, strict=True) if summit.number == number)
        for number in range(len(picks))
    )
    return PeakBow(*bow), PeakMoment(*air), PeakMoment(*water)


Best: TypeAlias = tuple[float, float, float]
"""A field's value, and its place along the width and up the height."""


@dataclass(frozen=True, eq=False)
class _Summit:
    """A high place of a field on the coarse grid: the field's number, how it is had, where, and the value there."""

    number: int
    pick: Callable[[Fields], Array]
    spot: tuple[int, int]
    best: Best


def _summits(field: Array) -> list[tuple[int, int]]:
    """The highest places of a field that no neighbour tops and that stand close to the highest of them."""
    rows, columns = field.shape
    padded = np.full((rows + 2, columns + 2), -np.inf)
    padded[1:-1, 1:-1] = field
    around = [padded[i : i + rows, j : j + columns] for i in range(3) for j in range(3)]
    top = field.max()
    high = (field >= np.max(around, axis=0)) & (field >= top - SUMMIT_SHARE * abs(top))
    spots = np.argwhere(high)
    order = np.argsort(-field[high], kind="stable")[:SUMMITS]
    return [(int(i), int(j)) for i, j in spots[order]]


def _refined(surface: Surface, panel: Panel, summits: Sequence[_Summit]) -> list[Best]:
    """The best point round each summit: by grids ever finer between its neighbours, those of all summits at once."""
    spots = [summit.spot for summit in summits]
    found = [summit.best for summit in summits]
    wide = [surface.along.search_points] * len(summits)
    high = [surface.up.search_points] * len(summits)
    for _ in range(ZOOMS):
        wide = [surface.along.closer(line, spot[0]) for line, spot in zip(wide, spots, strict=True)]
        high = [surface.up.closer(line, spot[1]) for line, spot in zip(high, spots, strict=True)]
        wide_jets, high_jets = _jets(surface.along, wide), _jets(surface.up, high)
        for number, summit in enumerate(summits):
            x, y = wide[number], high[number]
            fine = summit.pick(surface.on_lines(wide_jets[number], high_jets[number]))
            fine = np.where(_outside_patches(panel, x, y), fine, -np.inf)
            i, j = spots[number] = divmod(int(np.argmax(fine)), len(y))
            found[number] = max(found[number], (float(fine[i, j]), float(x[i]), float(y[j])))
    return found


def _jets(basis: LineBasis, lines: Sequence[Metres]) -> list[Values]:
    """The functions and their two derivatives on several lines of as many points."""
    every = basis.jets(np.concatenate(lines))
    parts = [np.split(part, len(lines)) for part in every]
    return [(value, first, second) for value, first, second in zip(*parts, strict=True)]


def _outside_patches(panel: Panel, x: Metres, y: Metres) -> Mask:
    """Which crossings of the lines stand clear of every corner between a clamped and a free edge."""
    keep = np.ones((len(x), len(y)), dtype=np.bool_)
    if not {"clamped", "free"} <= {panel.edges.of(name) for name in EDGE_NAMES}:
        return keep
    patch = CORNER_PATCH * min(panel.width, panel.height)
    for side, near_side in (("left", x < patch), ("right", x > panel.width - patch)):
        for end, near_end in (("bottom", y < patch), ("top", y > panel.height - patch)):
            pair = {getattr(panel.edges, side), getattr(panel.edges, end)}
            if pair == {"clamped", "free"}:
                keep[np.ix_(near_side, near_end)] = False
    return keep
