"""A panel on seats that push but cannot pull: where it stays, where it lifts, and what the seat carries."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TypeAlias

import numpy as np
from numpy.linalg import LinAlgError
from numpy.typing import NDArray
from scipy.linalg import cho_factor, cho_solve

from tidestead.core.dims import Array, Count, Metre, NewtonPerMetre2, Ratio
from tidestead.core.errors import ImpossibleInput, SolverError
from tidestead.physics.structure.plate_panel import (
    EDGE_NAMES,
    EdgeName,
    Edges,
    EdgeSprings,
    LineLoads,
    Metres,
    Panel,
    WaterLoad,
)
from tidestead.physics.structure.plate_ritz import SEAT_POINTS_EXTRA, RitzPlate, factored

Mask: TypeAlias = NDArray[np.bool_]
MOST_ROUNDS: Count = 60
LINE_POINTS: Count = 401


@dataclass(frozen=True, eq=False)
class SeatPoints:
    """Points along the seats: how the kept functions move them, and the force there for one metre of bow."""

    moves: Array
    stiffness: Array


@dataclass(frozen=True, eq=False)
class SeatLine:
    """The seat along one edge: bow, and push on a metre of it, at many places from the left or the bottom."""

    edge: EdgeName
    place: Metres
    bow: Metres
    line_load: LineLoads


@dataclass(frozen=True, eq=False)
class Contact:
    """How a panel lies on seats that only push."""

    seats: tuple[SeatLine, ...]
    rounds: Count

    @property
    def share(self) -> Ratio:
        """Share of the seats' length that the panel presses on."""
        length = sum(seat.place[-1] for seat in self.seats)
        touching = sum(seat.place[-1] * np.mean(seat.bow > 0.0) for seat in self.seats)
        return float(touching / length)

    @property
    def lift(self) -> Metre:
        """Greatest gap between the panel and its seat."""
        return max(0.0, *(float(-seat.bow.min()) for seat in self.seats))

    @property
    def peak_load(self) -> float:
        """Greatest push on a metre of seat, N/m."""
        return max(float(seat.line_load.max()) for seat in self.seats)


def on_seats(panel: Panel, seat_stiffness: NewtonPerMetre2) -> Panel:
    """The panel as its seats see it: every simple edge becomes a free one that leans on a stiff spring.

    Source: own model of a seat, a row of springs along the edge.
    Valid:  seats that follow the panel only by being pressed.
    """
    if not (np.isfinite(seat_stiffness) and seat_stiffness > 0.0):
        raise ImpossibleInput(
            f"seat stiffness: {seat_stiffness!r} given; a finite number above zero is needed."
        )
    edges = {name: panel.edges.of(name) for name in EDGE_NAMES}
    springs = {name: panel.springs.of(name) for name in EDGE_NAMES}
    for name in EDGE_NAMES:
        if edges[name] == "simple":
            edges[name], springs[name] = "free", seat_stiffness
    return replace(panel, edges=Edges(**edges), springs=EdgeSprings(**springs))


def push_only_bow(plate: RitzPlate, load: WaterLoad) -> tuple[Array, Count]:
    """Bow of a panel whose leaning edges can only push, and how many rounds it took.

        bow w at seat points:  w = w0 + C f,   f = k w where the panel has lifted, f = 0 where it presses
        (w0, C: bow and compliance with every seat point at work)

    The set of lifted points is changed until it agrees with the bow it gives. Raises SolverError where
    nothing holds the panel, or the set does not settle.
    Source: own; the active-set method for springs that only push.
    Valid:  thin plates, small turns, no friction on the seat.
    """
    seats = _seat_points(plate)
    whole = factored(plate.stiffness())
    columns = np.column_stack([plate.reduced(plate.push(load)), seats.moves.T])
    solved = whole.solve(columns)
    bow, compliance = seats.moves @ solved[:, 0], seats.moves @ solved[:, 1:]
    lifted: Mask = np.zeros(len(bow), dtype=np.bool_)
    for rounds in range(1, MOST_ROUNDS + 1):
        back = _undone(bow, compliance, seats.stiffness, lifted)
        now = bow + compliance @ back
        wrong = (now < 0.0) != lifted
        if not wrong.any():
            return plate.spread(solved[:, 0] + solved[:, 1:] @ back), rounds
        lifted = now < 0.0
    raise SolverError("the panel does not settle on its seats: check that they can balance the water's push.")


def _undone(bow: Array, compliance: Array, stiffness: Array, lifted: Mask) -> Array:
    """Forces that take away again the pull of the seat points the panel has lifted from."""
    forces = np.zeros(len(bow))
    if lifted.any():
        soft = np.diag(1.0 / stiffness[lifted]) - compliance[np.ix_(lifted, lifted)]
        try:
            forces[lifted] = cho_solve(cho_factor(soft), bow[lifted])
        except LinAlgError as fault:
            raise SolverError("the panel tips off its seats: where they push they cannot hold it.") from fault
    return forces


def _seat_points(plate: RitzPlate) -> SeatPoints:
    """Gauss points along every leaning edge; of a mirrored panel those of its left half, counted twice."""
    moves, stiffness = [], []
    for edge in plate.panel.leaning():
        spring = plate.panel.springs.of(edge)
        twice = 2.0 if plate.panel.mirrored else 1.0
        if edge in ("left", "right"):
            if edge == "right" and plate.panel.mirrored:
                continue
            points, shares = plate.up.quadrature(plate.panel.height, SEAT_POINTS_EXTRA)
            end = plate.across[:, plate.along.end_values[edge == "right"]]
            rows = np.einsum("i,pj->pij", end, plate.up.values(points, 0) @ plate.above.T)
        else:
            points, shares = plate.along.quadrature(plate.panel.width, SEAT_POINTS_EXTRA)
            if plate.panel.mirrored:
                near = points < 0.5 * plate.panel.width
                points, shares = points[near], shares[near]
            end = plate.above[:, plate.up.end_values[edge == "top"]]
            rows = np.einsum("pi,j->pij", plate.along.values(points, 0) @ plate.across.T, end)
        moves.append(rows.reshape(len(points), -1))
        stiffness.append(twice * spring * shares)
    return SeatPoints(np.concatenate(moves), np.concatenate(stiffness))


def contact(plate: RitzPlate, table: Array, rounds: Count) -> Contact:
    """Bow and push along every seat of a solved panel.

    Source: the seat's own law, push = stiffness * bow where the bow is towards it.
    Valid:  as push_only_bow.
    """
    seats = []
    for edge in plate.panel.leaning():
        line, amounts = plate.edge_line(edge, table)
        place = np.linspace(0.0, line.length, LINE_POINTS)
        bow = line.values(place, 0) @ amounts
        seats.append(SeatLine(edge, place, bow, plate.panel.springs.of(edge) * np.maximum(bow, 0.0)))
    return Contact(tuple(seats), rounds)
