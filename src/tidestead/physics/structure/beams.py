"""Beams on several props: equal spans, unequal spans, and the patches of load that water and windows make.

All props are rigid and let the beam turn; the outer ends are free to turn too.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise

import numpy as np

from tidestead.core.dims import (
    Array,
    Count,
    Metre,
    Newton,
    NewtonMetre,
    NewtonMetre2,
    NewtonPerMetre,
    NewtonPerMetre2,
)
from tidestead.core.errors import ImpossibleInput
from tidestead.physics import _refuse
from tidestead.physics.structure._arrays import peaks
from tidestead.physics.structure._line_loads import LineLoads

_STATIONS = 61
"""Places along each span where moment and bow are looked at, and again round the highest of them."""

_MOST_SPANS = 8
"""Beyond this many equal spans nothing changes in the fourth digit."""


@dataclass(frozen=True)
class LinePatch:
    """A load on part of one span, growing evenly. `start` and `end` count from that span's own start."""

    span: Count
    start: Metre
    end: Metre
    load_start: NewtonPerMetre
    load_end: NewtonPerMetre


@dataclass(frozen=True)
class BeamState:
    """What a beam on props does, as arrays.

    `reactions` and `hogging` one per prop (hogging positive), `sagging`, `shear` and `deflection` the largest
    of each span (deflection signed, with the load positive).
    """

    reactions: Array
    hogging: Array
    sagging: Array
    shear: Array
    deflection: Array

    @property
    def moment(self) -> NewtonMetre:
        """The largest moment anywhere, whichever way it bends."""
        return float(max(self.hogging.max(), -self.hogging.min(), self.sagging.max()))


@dataclass(frozen=True)
class EqualSpans:
    """Largest moment, shear and bow of a beam over equal spans, and what its busiest inner prop carries."""

    moment: NewtonMetre
    shear: Newton
    deflection: Metre
    reaction: Newton


def _loads(lengths: Array, patches: Sequence[LinePatch]) -> LineLoads:
    rows = np.array([(p.start, p.end, p.load_start, p.load_end) for p in patches]).reshape(-1, 4)
    spans = np.array([p.span for p in patches], dtype=np.intp)
    return LineLoads(lengths, spans, rows[:, 0], rows[:, 1], rows[:, 2:3], rows[:, 3:4])


def _end_slopes(loads: LineLoads, stiffness: Array) -> tuple[Array, Array]:
    """Slopes at start and end of each span as if it were a simple beam."""
    places, forces = loads.points()
    length = loads.lengths[loads.bar][:, None]
    rest, force = length - places, forces[:, :, 0]
    start = loads.per_bar(np.sum(force * rest * (length**2 - rest**2), axis=1))
    end = loads.per_bar(np.sum(force * places * (length**2 - places**2), axis=1))
    scale = 6.0 * stiffness * loads.lengths
    return start / scale, end / scale


def _prop_moments(lengths: Array, stiffness: Array, slopes: tuple[Array, Array]) -> Array:
    """Hogging moment over each prop, from Clapeyron's equation of three moments."""
    give = lengths / (6.0 * stiffness)
    inner = len(lengths) - 1
    moments: Array = np.zeros(len(lengths) + 1)
    if inner:
        matrix = np.diag(2.0 * (give[:-1] + give[1:]))
        matrix += np.diag(give[1:-1], 1) + np.diag(give[1:-1], -1)
        moments[1:-1] = np.linalg.solve(matrix, slopes[1][:-1] + slopes[0][1:])
    return moments


@dataclass(frozen=True)
class _Bent:
    """A beam whose moments over the props are known, asked at places counted from the start of each span.

    `start` is the shear there and `hogging` the moment over the prop there; `end_turn` is what the loads alone bend
    up to the far end, integrated four times. Results are (spans, places).
    """

    lengths: Array
    stiffness: Array
    start: Array
    hogging: Array
    end_turn: Array

    def moment(self, places: Array, twice: Array) -> Array:
        """Sagging moment; `twice` is the loads integrated two times up to the places."""
        return self.start * places - self.hogging - twice

    def bow(self, places: Array, fourfold: Array) -> Array:
        """Movement with the load, nothing over both props; `fourfold` is the loads integrated four times."""
        slope = self._bent(self.lengths, self.end_turn) / self.lengths
        return (slope * places - self._bent(places, fourfold)) / self.stiffness

    def _bent(self, places: Array, fourfold: Array) -> Array:
        return self.start * places**3 / 6.0 - self.hogging * places**2 / 2.0 - fourfold


def _peaks(bent: _Bent, loads: LineLoads, moment: Array, bow: Array) -> Array:
    """Largest moment and movement with and against the load in each span, (3, spans).

    The curves are known at even stations; each is looked at again, closely, round its highest station.
    """
    highest = np.argmax(np.stack((moment, bow, -bow)), axis=2)[:, :, None]
    near = np.clip(highest, 1, _STATIONS - 2) + np.linspace(-1.0, 1.0, _STATIONS)
    places = bent.lengths * near / (_STATIONS - 1)
    side_by_side = np.concatenate(tuple(places), axis=1)
    twice, fourfold = (sums[:, :, 0] for sums in loads.integrals(side_by_side, (2, 4)))
    bows = bent.bow(side_by_side[:, _STATIONS:], fourfold[:, _STATIONS:])
    close = bent.moment(places[0], twice[:, :_STATIONS]), bows[:, :_STATIONS], -bows[:, _STATIONS:]
    return peaks(np.stack(close))[0]


def patched_beam(spans: Array, patches: Sequence[LinePatch], stiffness: NewtonMetre2) -> BeamState:
    """A beam on props under patches of load, each growing evenly from one value to another.

        M1*l1/6EI1 + 2*M2*(l1/6EI1 + l2/6EI2) + M3*l2/6EI2 = slope of the loads, over every inner prop

    `spans` are lengths in order; `stiffness` is EI, one for all or one per span. Serves a stud that also
    holds the side of a window, a sill beam, and a rim whose ties stand at uneven places.

    Source: B. Clapeyron (1857), equation of three moments, in any text on the strength of materials.
    Valid:  small bows, straight beam, rigid props that can pull as well as push; shear bow left out.
    """
    lengths = np.atleast_1d(np.asarray(spans, dtype=float))
    rigidity = np.broadcast_to(np.asarray(stiffness, dtype=float), lengths.shape)
    _refuse.not_positive(span=lengths.min(), stiffness=rigidity.min())
    loads = _loads(lengths, patches)
    hogging = _prop_moments(lengths, rigidity, _end_slopes(loads, rigidity))
    end = lengths[:, None]
    places = end * np.linspace(0.0, 1.0, _STATIONS)
    once, twice, fourfold = (sums[:, :, 0] for sums in loads.integrals(places, (1, 2, 4)))
    start = (hogging[:-1] - hogging[1:] + twice[:, -1]) / lengths
    bent = _Bent(end, rigidity[:, None], start[:, None], hogging[:-1, None], fourfold[:, -1:])
    along = bent.start - once
    moment, bow = bent.moment(places, twice), bent.bow(places, fourfold)
    sagging, outward, inward = _peaks(bent, loads, moment, bow)
    reactions: Array = np.zeros(len(lengths) + 1)
    reactions[:-1] += start
    reactions[1:] -= along[:, -1]
    return BeamState(
        reactions=reactions,
        hogging=hogging,
        sagging=np.maximum(sagging, 0.0),
        shear=np.abs(along).max(axis=1),
        deflection=np.where(outward >= inward, outward, -inward),
    )


def continuous_beam(spans: Array, line_load: NewtonPerMetre, stiffness: NewtonMetre2) -> BeamState:
    """A beam on props at any spacing under an even load: a rim between ties wherever the user puts them.

    `line_load` and `stiffness` are one number for all spans or one for each.

        M = w*(l1**3 + l2**3) / (8*(l1 + l2))           over the middle prop of two spans

    Source: equation of three moments, see `patched_beam`.
    Valid:  as `patched_beam`; corners free to turn, so a rim with stiff corners is easier than this.
    """
    lengths = np.atleast_1d(np.asarray(spans, dtype=float))
    loads = np.broadcast_to(np.asarray(line_load, dtype=float), lengths.shape)
    patches = [
        LinePatch(number, 0.0, float(length), float(load), float(load))
        for number, (length, load) in enumerate(zip(lengths, loads, strict=True))
    ]
    return patched_beam(lengths, patches, stiffness)


def hydrostatic_beam(
    levels: Array, depth: Metre, gradient: NewtonPerMetre2, stiffness: NewtonMetre2
) -> BeamState:
    """An upright held at several `levels` above the floor under water standing `depth` above the floor.

        w(z) = gradient * (depth - z),   gradient = density * g * width of wall that the upright carries

    Results run upward, one per level or span. Serves ribs that lean on rings, and studs with a waling.

    Source: equation of three moments, see `patched_beam`.
    Valid:  water surface at or below the uppermost level; nothing of the upright is wet below the lowest.
    """
    heights = np.asarray(levels, dtype=float)
    lengths = np.diff(heights)
    _refuse.negative(lowest_level=heights[0], depth=depth, gradient=gradient)
    _refuse.not_positive(distance_between_levels=lengths.min())
    if depth > heights[-1] * (1 + 1e-9):
        raise ImpossibleInput(f"water {depth} m deep stands above the top of the upright, {heights[-1]} m")
    patches = [
        LinePatch(
            number,
            0.0,
            float(min(top, depth) - bottom),
            gradient * (depth - bottom),
            gradient * max(depth - top, 0.0),
        )
        for number, (bottom, top) in enumerate(pairwise(heights))
        if depth > bottom
    ]
    return patched_beam(lengths, patches, stiffness)


@lru_cache(maxsize=1)
def _coefficients() -> Array:
    """Moment, shear, bow and inner reaction of 1 to `_MOST_SPANS` equal spans of unit load and size."""
    rows = [(1 / 8, 1 / 2, 5 / 384, 0.0)]
    for count in range(2, _MOST_SPANS + 1):
        unit = continuous_beam(np.ones(count), 1.0, 1.0)
        rows.append(
            (unit.moment, float(unit.shear.max()), float(unit.deflection.max()), float(unit.reactions.max()))
        )
    return np.array(rows)


def equal_spans(line_load: NewtonPerMetre, span: Metre, spans: Count, stiffness: NewtonMetre2) -> EqualSpans:
    """Largest effects of an even load on a beam over `spans` equal spans.

        M = c_m * w * l**2,   V = c_v * w * l,   bow = c_d * w * l**4 / EI,   R = c_r * w * l

    The inner reaction is nothing where there is one span. Arrays broadcast.

    Source: AISC, Steel Construction Manual, Table 3-23 (shears, moments and deflections); the coefficients
            are worked out here from the equation of three moments.
    Valid:  props rigid and level, outer ends free to turn. Four spans bend most (0.107); panel standards take
            three (0.100) for any larger number, 7 % less.
    """
    _refuse.not_positive(span=span, spans=spans, stiffness=stiffness)
    row = np.minimum(np.asarray(spans, dtype=int), _MOST_SPANS) - 1
    moment, shear, bow, reaction = np.moveaxis(_coefficients()[row], -1, 0)
    return EqualSpans(
        moment=moment * line_load * span**2,
        shear=shear * line_load * span,
        deflection=bow * line_load * span**4 / stiffness,
        reaction=reaction * line_load * span,
    )
