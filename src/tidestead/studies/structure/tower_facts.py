"""What the water does to a tower: faces between ribs and rings, rings round it, what it stands on."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from tidestead.core.dims import Array
from tidestead.core.errors import SolverError
from tidestead.physics.structure.beams import BeamState, hydrostatic_beam
from tidestead.physics.structure.rings import (
    RingBending,
    held_ring_bending,
    hoop_tension,
    polygon_side,
    ring_bending,
    ring_loads,
)
from tidestead.plan.model import Vessel
from tidestead.studies.structure.ask import Ask
from tidestead.studies.structure.drawings_tower import ring_heights
from tidestead.studies.structure.found import timber_left
from tidestead.studies.structure.timber import Piece


@dataclass(frozen=True)
class RingFacts:
    """One ring: its height, the line load on it, its pull, its bending with the corners as they are shown to be.

    `rigid_corners` says whether stiff corners were counted.
    """

    number: int
    level: float
    line_load: float
    pull: float
    bending: RingBending | None
    rigid_corners: bool


@dataclass(frozen=True)
class TowerFacts:
    """A tower under one load case. `side` is one face's width (a metre of girth for a round one)."""

    depth: float
    weight: float
    apothem: float
    side: float
    levels: tuple[float, ...]
    rings: tuple[RingFacts, ...]
    ring_piece: Piece
    rib_piece: Piece | None
    rib_spacing: float
    rib: BeamState | None

    @property
    def pressure(self) -> float:
        return self.weight * self.depth

    @property
    def bays(self) -> Array:
        """Heights between rings."""
        return np.diff(np.asarray(self.levels))


def missing_words(key: str, vessel: Vessel) -> list[str]:
    """What the plan must say before a tower can be reckoned."""
    rings = vessel.rings
    missing = []
    if vessel.across is None or (vessel.shape == "polygon" and vessel.sides is None):
        missing.append(f"{key}.across and .sides")
    if rings is None or rings.section is None or rings.grade is None or not ring_heights(vessel):
        missing.append(f"{key}.rings: section, grade and spacing")
    elif vessel.shape == "polygon" and rings.corners is None:
        missing.append(f"{key}.rings.corners")
    return missing


def find_tower(vessel: Vessel, ask: Ask) -> TowerFacts:
    """The tower's rings, ribs and faces under a load case. The plan must be complete for it (`missing_words`)."""
    rings = vessel.rings
    if rings is None or rings.section is None or rings.grade is None:
        raise SolverError("a tower without rings cannot be reckoned")
    piece = ask.piece(rings.grade, timber_left(rings.section, rings.as_built))
    apothem = (vessel.across or 0.0) / 2.0
    levels = ring_heights(vessel)
    stands = vessel.stands_on
    depth = min(ask.case.level + (stands.drop or 0.0) + (stands.settles or 0.0), levels[-1])
    rib_piece, rib_spacing = _rib(vessel, ask, apothem)
    rib = None
    loads = ring_loads(np.asarray(levels), depth, ask.case.density)
    if rib_piece is not None:
        rib = hydrostatic_beam(np.asarray(levels), depth, ask.case.weight * rib_spacing, rib_piece.stiffness)
        loads = np.maximum(loads, rib.reactions / rib_spacing)
    side = polygon_side(apothem, vessel.sides) if vessel.shape == "polygon" and vessel.sides else 1.0
    found = tuple(
        _ring((number, float(level)), max(float(load), 0.0), (apothem, side), piece, vessel)
        for number, (level, load) in enumerate(zip(levels, loads, strict=True))
    )
    return TowerFacts(
        depth, ask.case.weight, apothem, side, levels, found, piece, rib_piece, rib_spacing, rib
    )


def _rib(vessel: Vessel, ask: Ask, apothem: float) -> tuple[Piece | None, float]:
    """The ribs' timber and how much girth each carries. A polygon has a rib or its ring's corner at each corner."""
    ribs = vessel.ribs
    if ribs is None or ribs.section is None or ribs.grade is None or not ribs.per_face:
        return None, 0.0
    piece = ask.piece(ribs.grade, timber_left(ribs.section, ribs.as_built))
    if vessel.shape == "polygon" and vessel.sides:
        return piece, float(polygon_side(apothem, vessel.sides)) / (ribs.per_face + 1)
    return piece, 2.0 * math.pi * apothem / ribs.per_face


def _ring(
    place: tuple[int, float], load: float, size: tuple[float, float], piece: Piece, vessel: Vessel
) -> RingFacts:
    """A ring by number and level; `size` is the tower's apothem and side."""
    (number, level), (apothem, side) = place, size
    pull = float(hoop_tension(load, apothem))
    rings = vessel.rings
    if vessel.shape != "polygon" or rings is None:
        return RingFacts(number, level, load, pull, None, rigid_corners=False)
    pinned = ring_bending(load, side, piece.stiffness, 0.0)
    capacity = (
        rings.corner_capacity if rings.corners == "rigid" and rings.corner_capacity is not None else 0.0
    )
    if capacity <= 0.0:
        return RingFacts(number, level, load, pull, pinned, rigid_corners=False)
    rigid = ring_bending(load, side, piece.stiffness, math.inf)
    held = held_ring_bending(rigid, pinned, capacity)
    return RingFacts(number, level, load, pull, held, rigid_corners=bool(held.corner > 0.0))
