"""What the rims, ties and corners of a box carry: by hand, wall by wall, and by the whole frame beside it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from tidestead.core.answer import Estimate
from tidestead.core.dims import Array
from tidestead.physics.structure.beams import BeamState
from tidestead.studies.structure.ask import Ask
from tidestead.studies.structure.found import ROUND, WallPlace, lie, timber_left
from tidestead.studies.structure.patches import Patch, bent
from tidestead.studies.structure.timber import Piece
from tidestead.studies.structure.wall_loads import WallLoads


@dataclass(frozen=True)
class RimInFrame:
    """A rim as the whole frame bends it: largest moment and shear, and how it moves.

    `places` count from the wall's left end; `moved` is the way outward there, less that of the straight line between
    the two corners. `bow` is the largest straying from the line between two neighbouring props, `corners` the largest
    way outward of either corner.
    """

    moment: float
    shear: float
    bow: float
    corners: float
    places: Array
    moved: Array

    @property
    def farthest(self) -> tuple[float, float]:
        """Place and way of the point that moves most, outward or inward."""
        number = int(np.argmax(np.abs(self.moved)))
        return float(self.places[number]), float(self.moved[number])

    def at(self, place: float) -> float:
        """Way outward at a place."""
        return float(np.interp(place, self.places, self.moved))


@dataclass(frozen=True)
class RimFacts:
    """A rim over its props. `props` are places from the wall's left end, the corners among them.

    `pull` is the tension from the walls round both corners; `frame` is what the whole frame says of this rim, None
    where that could not be solved.
    """

    place: WallPlace
    piece: Piece
    props: tuple[float, ...]
    hand: BeamState
    pull: float
    frame: RimInFrame | None = None

    @property
    def longest(self) -> float:
        """The longest span between props."""
        return max(end - begin for begin, end in zip(self.props, self.props[1:], strict=False))

    @property
    def moment(self) -> Estimate:
        """By hand and by frame; the larger one decides."""
        return self._both(self.hand.moment, None if self.frame is None else self.frame.moment)

    @property
    def apart(self) -> float:
        """How far hand formula and frame differ, as a share of the larger."""
        if self.frame is None:
            return 0.0
        moment = self.frame.moment
        return abs(moment - self.hand.moment) / max(self.hand.moment, moment, 1e-9)

    def beside(self, frame: RimInFrame) -> RimFacts:
        """The same with what the whole frame says."""
        return replace(self, frame=frame)

    @property
    def shear(self) -> Estimate:
        """Largest shear, by hand and by frame; the larger one decides."""
        return self._both(float(self.hand.shear.max()), None if self.frame is None else self.frame.shear)

    @property
    def hand_bow(self) -> float:
        """Largest bow at once between props that do not give."""
        return float(max(abs(self.hand.deflection)))

    @property
    def bow(self) -> Estimate:
        """Largest bow at once between neighbouring props, by hand and by frame; the larger one decides."""
        return self._both(self.hand_bow, None if self.frame is None else self.frame.bow)

    @staticmethod
    def _both(hand: float, frame: float | None) -> Estimate:
        if frame is None:
            return Estimate.exact(hand, "by hand")
        low, high = sorted((hand, frame))
        return Estimate(low, hand, high, "hand formula and whole frame")


def rim_piece(place: WallPlace, ask: Ask) -> Piece | None:
    """The rim's timber as it lies; None where the plan does not say enough."""
    rim = place.wall.rim
    if rim is None or rim.section is None or rim.grade is None or rim.lies is None:
        return None
    return ask.piece(rim.grade, lie(timber_left(rim.section, rim.as_built), rim.lies))


def props_of(place: WallPlace) -> tuple[float, ...]:
    """Where the rim is held: corners, ties, and buttresses at their spacing."""
    props = {0.0, place.length, *place.tie_places}
    buttresses = place.wall.buttresses
    if buttresses is not None and buttresses.spacing is not None:
        bays = max(1, -int(-(place.length - 1e-9) // buttresses.spacing))
        props |= {place.length * number / bays for number in range(1, bays)}
    kept = [0.0]
    for at in sorted(props):
        if at - kept[-1] > MERGED and place.length - at > MERGED:
            kept.append(at)
    return (*kept, place.length)


MERGED = 0.005
"""Props nearer together than this are one."""


def rim_stiffness(place: WallPlace, piece: Piece) -> float:
    """Push of the rim on a metre of window edge for each metre it gives, under an even load between its props."""
    even = (Patch(0.0, place.length, 1.0, 1.0),)
    return 1.0 / float(max(abs(bent(even, props_of(place), piece.stiffness).deflection)))


def find_rims(loads: Mapping[str, WallLoads], pieces: Mapping[str, Piece]) -> dict[str, RimFacts]:
    """Every rim that has a timber, by hand: first as a beam, then pulled by its neighbours round the corners."""
    states = {
        name: bent(loads[name].rim, props_of(loads[name].place), piece.stiffness)
        for name, piece in pieces.items()
    }
    return {
        name: RimFacts(
            loads[name].place, pieces[name], props_of(loads[name].place), state, corner_pull(name, states)
        )
        for name, state in states.items()
    }


def corner_pull(name: str, states: Mapping[str, BeamState]) -> float:
    """Tension in a rim: the larger of what the two neighbouring rims hang on its ends."""
    number = ROUND.index(name)
    before, after = ROUND[number - 1], ROUND[(number + 1) % len(ROUND)]
    pulls = [0.0]
    if before in states:
        pulls.append(float(states[before].reactions[-1]))
    if after in states:
        pulls.append(float(states[after].reactions[0]))
    return max(pulls)


def tie_forces(rims: Mapping[str, RimFacts], walls: Sequence[str]) -> dict[float, float]:
    """Pull in each tie between two opposite rims by hand: the larger of what either rim asks, by place."""
    found: dict[float, float] = {}
    for name in walls:
        rim = rims.get(name)
        if rim is None:
            continue
        run = rim.place.length
        for number, at in enumerate(rim.props):
            if at in rim.place.tie_places:
                place = round(run - at if name in ("north", "west") else at, 4)
                found[place] = max(found.get(place, 0.0), float(rim.hand.reactions[number]))
    return found
