"""How far the joints under a lining move, from what the walls do under water and what the air does to wood."""

from __future__ import annotations

import math
from collections.abc import Mapping

from tidestead.plan.model import Building, Vessel
from tidestead.studies.structure.ask import Ask
from tidestead.studies.structure.found import timber_left
from tidestead.studies.structure.lining_checks import Moves, moves
from tidestead.studies.structure.tower_facts import TowerFacts
from tidestead.studies.structure.wall_loads import WallLoads


def foot_turn(load: float, depth: float, span: float, stiffness: float) -> float:
    """Turn of a stud at its foot under a triangle of water.

        theta = w0*h**2/(360*EI*L) * (20*L**2 - 15*L*h + 3*h**2)      at h = L: 8*w0*L**3/(360*EI)

    From the beam's bending: integral of the moment against a unit moment at the foot.
    """
    return (
        load * depth**2 / (360.0 * stiffness * span) * (20.0 * span**2 - 15.0 * span * depth + 3.0 * depth**2)
    )


def box_moves(vessel: Vessel, building: Building, walls: Mapping[str, WallLoads], ask: Ask) -> Moves | None:
    """The joint of wall and floor that moves most, with creep."""
    turn, plate, sheet = 0.0, 0.0, 0.0
    for loads in walls.values():
        studs, sheathing = loads.place.wall.studs, loads.place.wall.sheathing
        if (
            studs is None
            or studs.section is None
            or studs.grade is None
            or sheathing is None
            or sheathing.sheet is None
        ):
            return None
        piece = ask.piece(studs.grade, timber_left(studs.section, studs.as_built))
        first = foot_turn(loads.stud_base, min(loads.depth, loads.span), loads.span, piece.stiffness)
        turn = max(turn, first * ask.lasting(piece.creep))
        plate = max(plate, studs.section.breadth)
        sheet = max(sheet, ask.tables["sheathing"][sheathing.sheet].si("thickness"))
    return moves(vessel, building, turn, plate, sheet) if walls else None


def tower_moves(vessel: Vessel, building: Building, facts: TowerFacts) -> Moves | None:
    """Faces of a tower turn little at the floor; the corner joints open as the rings stretch."""
    rings = vessel.rings
    if rings is None or rings.section is None:
        return None
    busiest = max(facts.rings, key=lambda ring: ring.pull)
    stretch = busiest.pull / (facts.ring_piece.modulus * facts.ring_piece.shape.area)
    girth = 2.0 * math.pi * facts.apothem
    corners = vessel.sides if vessel.shape == "polygon" and vessel.sides else 1
    opening = stretch * girth / corners * facts.ring_piece.creep
    found = moves(vessel, building, 0.0, rings.section.breadth, 0.0)
    return Moves(opening, found.plate, found.sheets * min(1.0, facts.side / 1.22))
