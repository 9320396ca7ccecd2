"""A panel on seats that push but cannot pull: where it stays, where it lifts, and what the seat carries."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache
from typing import TypeAlias

import numpy as np
from numpy.linalg import LinAlgError
from numpy.typing import NDArray

from tidestead.core.dims import Array, Count, Metre, NewtonPerMetre2, Ratio
from tidestead.core.errors import ImpossibleInput, SolverError
from tidestead.physics.structure.plate_basis import LineBasis, kept_functions
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
from tidestead.physics.structure.plate_ritz import SEAT_POINTS_EXTRA, Factored, RitzPlate, factored

Mask: TypeAlias = NDArray[np.bool_]
MOST_ROUNDS: Count = 300
STEP_SHARE: Ratio = 1e-4
"""How closely a shortened step is sought, as a share of the whole step."""
SOFT_SHARE: Ratio = 100.0
"""Stiffness of the soft springs, in rigidities per cube of the shorter side: about the plate's own.

Of the values tried it loses the fewest digits; the answer does not hang on it."""
HARD_REACH: Ratio = 0.02
"""The push of a hard edge spreads over about (D/k)**(1/3) of plate. A seat so hard that this is less than
this share of the shorter side (about a thickness) is taken as just so hard; bow and moments hardly change."""
ROUNDING: Ratio = 1e-10
"""A point this near to its seat, as a share of the greatest bow, may count as pressing or as lifted."""
LINE_POINTS: Count = 401
KEPT_PLATES: Count = 16
"""Panels whose compliance is kept, since the same one is asked about at many levels of water."""
KEPT_FACTORED: Count = 8
"""Shapes on soft springs kept, each of some three megabytes: the windows of one vessel at high and at low water."""


@dataclass(frozen=True, eq=False)
class SeatPoints:
    """Points along the seats: how the kept functions move them, the length of seat each stands for, its edge."""

    moves: Array
    length: Array
    edge: tuple[EdgeName, ...]


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


def on_seats(panel: Panel, seat_stiffness: NewtonPerMetre2) -> Panel:
    """The panel as its seats see it: every simple edge becomes a free one that leans on a stiff spring.

    Source: own model of a seat, a row of springs along the edge.
    Valid:  seats that follow the panel only by being pressed.
    """
    if not (np.isfinite(seat_stiffness) and seat_stiffness > 0.0):
        raise ImpossibleInput(
            f"seat stiffness: {seat_stiffness!r} given; a finite number above zero is needed."
        )
    hardest = panel.rigidity / (HARD_REACH * min(panel.width, panel.height)) ** 3
    edges = {name: panel.edges.of(name) for name in EDGE_NAMES}
    springs = {name: panel.springs.of(name) for name in EDGE_NAMES}
    for name in EDGE_NAMES:
        if edges[name] == "simple":
            edges[name], springs[name] = "free", seat_stiffness
        springs[name] = min(springs[name], hardest)
    return replace(panel, edges=Edges(**edges), springs=EdgeSprings(**springs))


def push_only_bow(plate: RitzPlate, load: WaterLoad) -> tuple[Array, Count]:
    """Bow of a panel whose leaning edges can only push, and how many rounds it took.

        w = w0 + C (s w - g),   g = k w where the panel presses, g = 0 where it has lifted
        (w0, C: bow and compliance of the seat points on soft springs s, there only to hold the panel)

    The set of lifted points is changed until it agrees with the bow it gives. Raises SolverError where
    nothing holds the panel, or the set does not settle.
    Source: own; the active-set method for springs that only push.
    Valid:  thin plates, small turns, no friction on the seat.
    """
    panel, rigidity = plate.panel, plate.panel.rigidity
    _check_balance(panel, load)
    held = _softly_held(_shape(panel), panel.mirrored, plate.along, plate.up)
    seats = held.seats
    start = held.whole.solve(plate.reduced(plate.push(load))) / rigidity
    system = SeatSystem(
        bow=seats.moves @ start,
        compliance=held.compliance / rigidity,
        soft=_soft(panel) * seats.length,
        stiffness=np.array([panel.springs.of(edge) for edge in seats.edge]) * seats.length,
    )
    forces, rounds = system.settled()
    return plate.spread(start + held.answers @ forces / rigidity), rounds


@dataclass(frozen=True, eq=False)
class SoftlyHeld:
    """A panel of unit rigidity on soft springs: what neither load, thickness nor modulus changes.

    `answers` is the bow for a unit force at each seat point, `compliance` what that is at the seat points.
    """

    seats: SeatPoints
    whole: Factored
    answers: Array
    compliance: Array


def _soft(panel: Panel) -> NewtonPerMetre2:
    """Stiffness of the soft springs."""
    return SOFT_SHARE * panel.rigidity / min(panel.width, panel.height) ** 3


def _shape(panel: Panel) -> Panel:
    """The panel with unit rigidity, on soft springs wherever it leans."""
    unit = replace(panel, thickness=1.0, modulus=12.0 * (1.0 - panel.poisson**2))
    return replace(unit, springs=EdgeSprings(**dict.fromkeys(panel.leaning(), _soft(unit))))


@lru_cache(maxsize=KEPT_FACTORED)
def _softly_held(shape: Panel, mirrored: bool, along: LineBasis, up: LineBasis) -> SoftlyHeld:
    across = kept_functions(along, shape.edges.left, shape.edges.right, mirrored)
    plate = RitzPlate(
        shape, along, up, across, kept_functions(up, shape.edges.bottom, shape.edges.top, mirrored=False)
    )
    seats = _seat_points(plate, mirrored)
    whole = factored(plate.stiffness())
    answers = whole.solve(seats.moves.T)
    return SoftlyHeld(seats, whole, answers, seats.moves @ answers)


@dataclass(frozen=True, eq=False)
class SeatSystem:
    """The seat points alone: bow on soft springs, compliance, soft and true stiffness of each point."""

    bow: Array
    compliance: Array
    soft: Array
    stiffness: Array

    def settled(self) -> tuple[Array, Count]:
        """Forces on the points beside the soft springs, once lifted points and bow agree, and the rounds.

        Newton steps on the energy of plate and seat; each goes only as far as the energy falls, so they end.
        """
        lifted: Mask = np.zeros(len(self.bow), dtype=np.bool_)
        bow = self._bow(lifted)
        push = self.stiffness * bow
        for rounds in range(1, MOST_ROUNDS + 1):
            small = ROUNDING * np.abs(bow).max(initial=0.0)
            lifted = bow < -small
            step = self._bow(lifted)
            if not np.where(lifted, step > small, step < -small).any():
                return self._pull(lifted) * step, rounds
            share = self._share(bow, push, step - bow, np.where(lifted, 0.0, self.stiffness * step) - push)
            push = push + share * (np.where(lifted, 0.0, self.stiffness * step) - push)
            bow = bow + share * (step - bow)
        raise SolverError("the panel does not settle on its seats: check that they can balance the water.")

    def _share(self, bow: Array, push: Array, bow_step: Array, push_step: Array) -> Ratio:
        """How much of a step to take: all, or as far as the energy falls."""

        def slope(share: Ratio) -> float:
            pressed = self.stiffness * np.maximum(bow + share * bow_step, 0.0)
            return float(bow_step @ (pressed - push - share * push_step))

        if slope(1.0) <= 0.0 or slope(0.0) >= 0.0:
            return 1.0
        low, high = 0.0, 1.0
        while high - low > STEP_SHARE:
            middle = 0.5 * (low + high)
            low, high = (middle, high) if slope(middle) < 0.0 else (low, middle)
        return high

    def _pull(self, lifted: Mask) -> Array:
        """Force for each metre of bow that turns the soft spring of a point into what is truly there."""
        return self.soft - np.where(lifted, 0.0, self.stiffness)

    def _bow(self, lifted: Mask) -> Array:
        """Bow at the points for a given set of lifted ones."""
        scale = 1.0 / np.where(lifted, self.soft, self.stiffness)
        matrix = np.diag(scale) - self.compliance * (self._pull(lifted) * scale)
        try:
            return np.asarray(scale * np.linalg.solve(matrix, self.bow))
        except LinAlgError as fault:
            raise SolverError("the panel tips off its seats: where they push they cannot hold it.") from fault


def _check_balance(panel: Panel, load: WaterLoad) -> None:
    """Raise SolverError where seats that only push cannot balance the push of the water.

    The centre of the push must lie inside the shape stretched round the seats: the whole panel, or the
    triangle between two edges that meet.
    """
    if any(panel.edges.of(name) == "clamped" for name in EDGE_NAMES):
        return
    push, moment = load.push(panel.height), load.moment(panel.height)
    if push == 0.0 and moment == 0.0:
        return
    if push <= 0.0 or not 0.0 < moment < push * panel.height:
        raise SolverError("the panel is pulled off its seats: they only push, and the load pulls or tips it.")
    seats = panel.leaning()
    if len(seats) == len(EDGE_NAMES) // 2 and ("left" in seats) != ("right" in seats):
        height = moment / (push * panel.height)
        inside = height < 0.5 if "bottom" in seats else height > 0.5
        if not inside:
            raise SolverError(
                f"the panel tips off its seats: the {seats[0]} and {seats[1]} edges only push, and "
                f"the centre of the push, at {height:.2f} of the height, is outside their triangle."
            )


def _seat_points(plate: RitzPlate, mirrored: bool) -> SeatPoints:
    """Gauss points along every leaning edge; of a mirrored panel those of its left half, counted twice."""
    panel = plate.panel
    middle = 0.5 * panel.width
    moves, length = [], []
    edges: list[EdgeName] = []
    for edge in panel.leaning():
        if edge in ("left", "right"):
            if edge == "right" and mirrored:
                continue
            points, shares = plate.up.quadrature(panel.height, SEAT_POINTS_EXTRA)
            end = plate.across[:, plate.along.end_values[edge == "right"]]
            rows = np.einsum("i,pj->pij", end, plate.up.values(points) @ plate.above.T)
            counted = np.full(len(points), 2.0 if mirrored else 1.0)
        else:
            points, shares = plate.along.quadrature(panel.width, SEAT_POINTS_EXTRA)
            end = plate.above[:, plate.up.end_values[edge == "top"]]
            rows = np.einsum("pi,j->pij", plate.along.values(points) @ plate.across.T, end)
            # a point on the middle line is its own image
            side = np.where(np.isclose(points, middle, rtol=1e-9), 1.0, np.where(points < middle, 2.0, 0.0))
            counted = side if mirrored else np.ones(len(points))
        use = counted > 0.0
        moves.append(rows.reshape(len(points), -1)[use])
        length.append((counted * shares)[use])
        edges += [edge] * len(length[-1])
    return SeatPoints(np.concatenate(moves), np.concatenate(length), tuple(edges))


def contact(plate: RitzPlate, table: Array, rounds: Count) -> Contact:
    """Bow and push along every seat of a solved panel.

    Source: the seat's own law, push = stiffness * bow where the bow is towards it.
    Valid:  as push_only_bow.
    """
    seats = []
    for edge in plate.panel.leaning():
        line, amounts = plate.edge_line(edge, table)
        place, values = _shown(line)
        bow = values @ amounts
        seats.append(SeatLine(edge, place, bow, plate.panel.springs.of(edge) * np.maximum(bow, 0.0)))
    return Contact(tuple(seats), rounds)


@lru_cache(maxsize=KEPT_PLATES)
def _shown(line: LineBasis) -> tuple[Metres, Array]:
    """Places along an edge where its bow is told, and the functions there."""
    place = np.linspace(0.0, line.length, LINE_POINTS)
    return place, line.values(place)
