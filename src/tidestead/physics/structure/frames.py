"""A linear frame in space: `solve_frame(model) -> FrameState`, and what to ask of the state by name.

The parts of a model are in `frame_model`. A bar's own directions are along it, "strong" (where its deep side
points) and "weak" (square to both); its deep side is given outright, so upright bars cannot flip it.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from tidestead.core.dims import Array, Count, Metre, Newton, NewtonMetre
from tidestead.core.errors import ImpossibleInput
from tidestead.core.kept import kept
from tidestead.physics.structure._arrays import peaks
from tidestead.physics.structure._frame_sums import (
    FrameNumbers,
    FrameParts,
    FrameSums,
    frame_parts,
    frame_sums,
    line_loads,
)
from tidestead.physics.structure._line_loads import LineLoads
from tidestead.physics.structure.frame_model import (
    DIRECTIONS,
    HINGE,
    SWIVEL,
    Bar,
    BarLoad,
    BarSection,
    FrameModel,
    Node,
    NodeLoad,
    Spring,
    Support,
)

__all__ = [
    "DIRECTIONS",
    "HINGE",
    "SWIVEL",
    "Bar",
    "BarLoad",
    "BarPeaks",
    "BarSection",
    "BarShape",
    "FrameModel",
    "FrameState",
    "Node",
    "NodeLoad",
    "Spring",
    "Support",
    "solve_frame",
]

_STATIONS = 41
"""Places along each bar where moments are looked at before the peak is refined."""


@dataclass(frozen=True)
class BarPeaks:
    """Largest sizes in every bar, one number each in the order of the model's bars. Axial keeps its sign."""

    axial: Array
    shear: Array
    moment_strong: Array
    moment_weak: Array


@dataclass(frozen=True)
class BarShape:
    """One bar, `at` metres from its start: where its points were, how they moved, what it carries.

    `rest` and `moved` are in the directions of space, (stations, 3). Pull is positive; a moment is positive
    where it bends the bar's middle away from the direction it is named after.
    """

    at: Array
    rest: Array
    moved: Array
    axial: Array
    shear_strong: Array
    shear_weak: Array
    moment_strong: Array
    moment_weak: Array


@dataclass(frozen=True)
class FrameState:
    """A frame under its loads. Rows of `displacements` and `reactions` are nodes, columns `DIRECTIONS`.

    `end_forces` has one row per bar: along, strong, weak and the moments about these, at start and end.
    """

    model: FrameModel
    displacements: Array
    reactions: Array
    end_forces: Array
    _numbers: FrameNumbers
    _loads: LineLoads
    _sums: FrameSums

    def displacement(self, node: str) -> Array:
        """Movement of a node in metres, and its turn in radians, in the order of `DIRECTIONS`."""
        row: Array = self.displacements[self._node(node)]
        return row

    def reaction(self, node: str) -> Array:
        """Force of the ground on a node in newtons, and moment, in the order of `DIRECTIONS`."""
        row: Array = self.reactions[self._node(node)]
        return row

    @cached_property
    def peaks(self) -> BarPeaks:
        """Largest axial force, shear and moments of every bar."""
        axial, shear_strong, shear_weak, strong, weak = self._along(np.linspace(0.0, 1.0, _STATIONS))
        ends = np.stack([axial[:, 0], axial[:, -1]], axis=1)
        larger = np.abs(ends[:, 0]) > np.abs(ends[:, 1])
        return BarPeaks(
            axial=np.where(larger, ends[:, 0], ends[:, 1]),
            shear=np.maximum(np.abs(shear_strong).max(axis=1), np.abs(shear_weak).max(axis=1)),
            moment_strong=np.abs(np.maximum(peaks(strong)[0], peaks(-strong)[0])),
            moment_weak=np.abs(np.maximum(peaks(weak)[0], peaks(-weak)[0])),
        )

    def moment(self, prefix: str) -> NewtonMetre:
        """Largest strong moment among the bars called `prefix`, or so and a dot and more."""
        return float(np.max(self.peaks.moment_strong[self._bars(prefix)]))

    def shear(self, prefix: str) -> Newton:
        """Largest shear among the bars called `prefix`, or so and a dot and more."""
        return float(np.max(self.peaks.shear[self._bars(prefix)]))

    def axial(self, prefix: str) -> Newton:
        """Force along a bar, pull positive; of several, the one largest in size."""
        forces = self.peaks.axial[self._bars(prefix)]
        return float(forces[np.argmax(np.abs(forces))])

    def shape(self, bar: str, stations: Count = 21) -> BarShape:
        """One bar at even stations; exact between its ends for the loads given."""
        return self.shapes((bar,), stations)[0]

    def shapes(self, bars: tuple[str, ...], stations: Count = 21) -> tuple[BarShape, ...]:
        """Several bars at even stations, in about the time of one."""
        share = np.linspace(0.0, 1.0, stations)
        moved, forces = self._bent(share), self._along(share)
        found = []
        for bar in bars:
            number = self._bar(bar)
            path = self._path(number, share, moved)
            found.append(
                BarShape(share * self._numbers.lengths[number], *path, *(row[number] for row in forces))
            )
        return tuple(found)

    def paths(self, bars: tuple[str, ...], stations: Count = 21) -> tuple[tuple[Array, Array], ...]:
        """Where the points of several bars were and how they moved: `rest` and `moved` of their shapes alone."""
        share = np.linspace(0.0, 1.0, stations)
        moved = self._bent(share)
        return tuple(self._path(self._bar(bar), share, moved) for bar in bars)

    def _path(self, number: int, share: Array, moved: Array) -> tuple[Array, Array]:
        start, end = self._numbers.places[self._numbers.ends[number]]
        return start + (end - start) * share[:, None], moved[number] @ self._numbers.turn[number]

    def bow(self, bar: str, stations: Count = 41) -> Metre:
        """How far a bar strays from the straight line between its moved ends."""
        moved = self.shape(bar, stations).moved
        share = np.linspace(0.0, 1.0, stations)[:, None]
        return float(np.linalg.norm(moved - (1.0 - share) * moved[0] - share * moved[-1], axis=1).max())

    def _along(self, share: Array) -> tuple[Array, Array, Array, Array, Array]:
        """Axial force, two shears and two moments of every bar at shares of its length; (bars, stations)."""
        at = self._numbers.lengths[:, None] * share
        once, twice = self._loads.integrals(at, (1, 2))
        first = self.end_forces[:, :6, None]
        strong = -first[:, 5] + first[:, 1] * at + twice[:, :, 1]
        weak = first[:, 4] + first[:, 2] * at + twice[:, :, 2]
        axial = -first[:, 0] - once[:, :, 0]
        return axial, first[:, 1] + once[:, :, 1], first[:, 2] + once[:, :, 2], strong, weak

    def _bent(self, share: Array) -> Array:
        """Movement of every bar at shares of its length in its own directions; (bars, stations, 3)."""
        numbers, first, moves = self._numbers, self.end_forces[:, :6, None], self._sums.end_moves[:, :, None]
        at = numbers.lengths[:, None] * share
        twice, fourfold = self._loads.integrals(at, (2, 4))
        along = -first[:, 0] * at - twice[:, :, 0]
        strong = -first[:, 5] * at**2 / 2.0 + first[:, 1] * at**3 / 6.0 + fourfold[:, :, 1]
        weak = first[:, 4] * at**2 / 2.0 + first[:, 2] * at**3 / 6.0 + fourfold[:, :, 2]
        return np.stack(
            [
                moves[:, 0] + along / numbers.axial[:, None],
                moves[:, 1] + moves[:, 5] * at + strong / numbers.strong[:, None],
                moves[:, 2] - moves[:, 4] * at + weak / numbers.weak[:, None],
            ],
            axis=2,
        )

    def _node(self, name: str) -> int:
        if name not in self._numbers.node_number:
            raise ImpossibleInput(f"there is no node called {name}")
        return self._numbers.node_number[name]

    def _bars(self, prefix: str) -> list[int]:
        named = self._numbers.bars_under.get(prefix)
        if named is None:
            raise ImpossibleInput(f"there is no bar called {prefix}")
        return named

    def _bar(self, name: str) -> int:
        if name not in self._numbers.bar_number:
            raise ImpossibleInput(f"there is no bar called {name}")
        return self._numbers.bar_number[name]


def solve_frame(model: FrameModel) -> FrameState:
    """The frame under its loads.

        K * u = F       K: stiffness of all bars and springs, u: movements of the nodes, F: loads

    Raises ImpossibleInput for a model that contradicts itself, and SolverError, naming node and direction,
    for a frame that is loose or whose forces do not balance to one part in a hundred million.

    Source: direct stiffness method, for example W. McGuire, R. Gallagher and R. Ziemian, Matrix Structural
            Analysis, 2nd edition (2000), chapters 4 and 5, known from memory.
    Valid:  small movements, slender bars (shear bow left out), joints as stiff or as free as stated, nothing
            buckles; bars pull and push alike. A few hundred nodes.
    """
    parts = _parts(model)
    loads = line_loads(model, parts.numbers)
    sums = frame_sums(model, parts, loads)
    return FrameState(model, sums.displacements, sums.reactions, sums.end_forces, parts.numbers, loads, sums)


@kept(at_most=8, by=lambda model: tuple(map(id, (model.nodes, model.bars, model.supports, model.springs))))
def _parts(model: FrameModel) -> FrameParts:
    """What no load changes, of the very same nodes and bars: the parts hold on to them, so that no others can have
    their place in memory for as long as these are kept."""
    return frame_parts(model)
