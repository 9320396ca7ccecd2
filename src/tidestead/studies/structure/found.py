"""The vessel as it is found: measured values put in the place of planned ones, walls laid out.

The same vessel can be taken as drawn, which is what the comparison of safe water levels needs.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, TypeVar

from tidestead.core.kept import kept
from tidestead.core.units import Section
from tidestead.plan import wall_of
from tidestead.plan.model import BOX_WALLS, MeasuredTimber, Part, Vessel, Wall

LEFT_IS_FAR = ("north", "west")
"""Walls whose left end, seen from outside, is the east or the north one; places in the plan count from the west
and from the south."""

ROUND = ("south", "east", "north", "west")
"""The walls in the order in which each one's right end meets the next one's left."""

BOX_ORDER = BOX_WALLS

AnyPart = TypeVar("AnyPart", bound=Part)


@dataclass(frozen=True, eq=False)  # a place is itself: what is worked out of it can be kept by it
class WallPlace:
    """One wall with what the geometry gives it. Lengths in metres, places from its left end seen from outside.

    `deeper` is how much deeper the water is along this wall than the stated depth, `deeper_from` the same at
    its other end (they differ along a wall that runs down the slope).
    """

    name: str
    wall: Wall
    length: float
    height: float
    deeper: float
    deeper_from: float
    tie_places: tuple[float, ...]
    end_wall_length: float


def timber_left(planned: Section, measured: MeasuredTimber) -> Section:
    """A section with its measured size and without what is lost. The lost share is taken off the depth."""
    breadth = measured.breadth or planned.breadth
    depth = measured.depth or planned.depth
    left = depth * (1.0 - (measured.lost or 0.0))
    return Section(planned.pieces, breadth, left, planned.nominal, (breadth, depth))


def lie(section: Section, lies: str | None) -> Section:
    """A rim section turned so that its depth is level: flat keeps it, on edge swaps it."""
    if lies == "on edge":
        breadth, depth = section.graded
        return Section(section.pieces, section.depth, section.breadth, section.nominal, (depth, breadth))
    return section


def deeper_at(vessel: Vessel, wall: str) -> tuple[float, float]:
    """Extra depth at the deep and at the shallow end of a wall from a floor out of level and settlement.

    The stated depth is taken where the floor is highest, so that a fall can only add to it.
    """
    stands = vessel.stands_on
    fall = (stands.drop or 0.0) + (stands.settles or 0.0)
    low = stands.falls_to
    if fall == 0.0 or low is None:
        return (fall, fall) if fall else (0.0, 0.0)
    if vessel.shape != "box":
        return fall, fall
    opposite = {"north": "south", "south": "north", "east": "west", "west": "east"}
    if wall == low:
        return fall, fall
    if wall == opposite.get(low):
        return 0.0, 0.0
    return fall, 0.0


def ties_across(vessel: Vessel, wall: str) -> tuple[float, ...]:
    """Places from the wall's left end, in order, where a tie takes hold of its rim; cracked ties are left out."""
    run = (vessel.length if wall in ("north", "south") else vessel.width) or 0.0
    direction = "width" if wall in ("north", "south") else "length"
    places = [
        place
        for tie in vessel.ties.values()
        if tie.across == direction
        for number, place in enumerate(tie.at, start=1)
        if number not in tie.as_built.cracked
    ]
    return tuple(sorted(run - place if wall in LEFT_IS_FAR else place for place in places))


@kept(at_most=128, by=repr)
def same_place(place: WallPlace) -> WallPlace:
    """The first place found that said all the same, so that what was worked out of it is found again."""
    return place


def box_walls(vessel: Vessel) -> tuple[WallPlace, ...]:
    """The four walls of a box in the order north, south, east, west."""
    length, width = vessel.length or 0.0, vessel.width or 0.0
    found = []
    for name in BOX_WALLS:
        along, across = (length, width) if name in ("north", "south") else (width, length)
        deep, shallow = deeper_at(vessel, name)
        found.append(
            WallPlace(
                name,
                wall_of(vessel, name),
                along,
                vessel.height,
                deep,
                shallow,
                ties_across(vessel, name),
                across,
            )
        )
    return tuple(found)


def as_drawn(vessel: Vessel) -> Vessel:
    """The vessel without any measured value, as if it had been built just as planned."""
    return _unmeasured(vessel)


def has_measured(vessel: Vessel) -> bool:
    """Whether anything measured stands in the plan."""
    return as_drawn(vessel) != vessel


def _unmeasured(part: AnyPart) -> AnyPart:
    changed: dict[str, Any] = {}
    for name, value in part:
        if name == "as_built":
            changed[name] = type(value)()
        elif isinstance(value, Part):
            changed[name] = _unmeasured(value)
        elif isinstance(value, dict):
            changed[name] = {
                key: _unmeasured(item) if isinstance(item, Part) else item for key, item in value.items()
            }
    return part.model_copy(update=changed)
