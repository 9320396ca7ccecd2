"""Where ties lie: over the rims to their outsides, or between them where they are fixed into their ends."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from tidestead.plan.model import Tie
from tidestead.studies.structure.found import WallPlace

SIDES = {"width": ("south", "north"), "length": ("west", "east")}
"""The walls that a timber from side to side joins, the one that it begins at first."""


@dataclass(frozen=True)
class TieEnds:
    """How far a tie goes beyond the inside of the wall that it begins at and the one that it ends at, metres, and how
    high its underside lies over the top of the walls.
    """

    before: float
    after: float
    up: float


def tie_ends(tie: Tie, places: Mapping[str, WallPlace]) -> TieEnds:
    """As it is built: a tie whose fasteners go into its end stands between the rims, any other lies on them."""
    walls = [places[name] for name in SIDES[tie.across]]
    if tie.end_joint.into == "end":
        return TieEnds(0.0, 0.0, 0.0)
    before, after = (rim_width(place) for place in walls)
    return TieEnds(before, after, max(rim_height(place) for place in walls))


def rim_width(place: WallPlace) -> float:
    """How far a rim reaches outward from the inside of its wall; nothing where there is none."""
    rim = place.wall.rim
    if rim is None or rim.section is None:
        return 0.0
    return rim.section.pieces * rim.section.breadth if rim.lies == "on edge" else rim.section.depth


def rim_height(place: WallPlace) -> float:
    """How tall a rim is; nothing where there is none."""
    rim = place.wall.rim
    if rim is None or rim.section is None:
        return 0.0
    return rim.section.depth if rim.lies == "on edge" else rim.section.pieces * rim.section.breadth
