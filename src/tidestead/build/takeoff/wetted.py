"""Insides of vessels as a lining meets them: floor, walls up to where it ends, windows cut out, inner corners."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from tidestead.build.takeoff.findings import Gap
from tidestead.plan import wall_of
from tidestead.plan.model import BOX_WALLS, Plan, Vessel, Window
from tidestead.studies.openings import ON_SEAT
from tidestead.studies.vessels import plan_area

_LEAST_SIDES = 3


@dataclass(frozen=True)
class Inside:
    """A vessel's inside. `girth` goes round its floor, `corners` are upright inner ones, `walls` how long each is."""

    key: str
    vessel: Vessel
    floor: float
    girth: float
    walls: tuple[float, ...]

    @property
    def corners(self) -> int:
        return 0 if self.vessel.shape == "round" else len(self.walls)

    @property
    def path(self) -> str:
        return f"vessels.{self.key}"


@dataclass(frozen=True)
class Set:
    """A window where it is set: its key in the plan, its words, the wall's name."""

    path: str
    name: str
    wall: str
    window: Window

    def seats(self) -> tuple[float, float, float, float] | None:
        """Width of its seat left, right, below and above; None where the plan does not say."""
        edges, width = self.window.edges, self.window.seat.width
        if edges is None or width is None:
            return None
        left, right, bottom, top = (
            width if edge in ON_SEAT else 0.0 for edge in (edges.left, edges.right, edges.bottom, edges.top)
        )
        return left, right, bottom, top

    def seated(self) -> tuple[float, float] | None:
        """Metres of its edges that lie on a seat, and the seat's width; None where the plan does not say."""
        edges, sheet = self.window.edges, self.window
        if edges is None or sheet.seat.width is None or sheet.width is None or sheet.height is None:
            return None
        sides = ((edges.left, sheet.height), (edges.right, sheet.height), (edges.bottom, sheet.width),
                 (edges.top, sheet.width))  # fmt: skip
        return sum(side for edge, side in sides if edge in ON_SEAT), sheet.seat.width

    def clear_area(self, height: float) -> float | None:
        """Its clear opening below a height above the floor; None where the plan says too little."""
        sheet, seats = self.window, self.seats()
        if seats is None or sheet.width is None or sheet.height is None or sheet.sill is None:
            return None
        left, right, bottom, top = seats
        wide = sheet.width - left - right
        tall = min(sheet.sill + sheet.height - top, height) - max(sheet.sill + bottom, 0.0)
        return max(wide, 0.0) * max(tall, 0.0)


def built(plan: Plan) -> Iterator[Inside | Gap]:
    """The vessels that are made and not bought; a gap where one has no sizes."""
    for key, vessel in plan.vessels.items():
        if vessel.made == "built":
            yield inside_of(key, vessel)


def inside_of(key: str, vessel: Vessel) -> Inside | Gap:
    """A vessel's inside, or what of its sizes is lacking."""
    for size, words in _sizes(vessel):
        if not getattr(vessel, size):
            return Gap(
                f"vessels.{key}.{size}", f"Say {words} of {key}: nothing of it can be measured without."
            )
    if vessel.shape == "polygon" and (vessel.sides or 0) < _LEAST_SIDES:
        return Gap(f"vessels.{key}.sides", f"Say how many sides {key} has: three or more.")
    walls = wall_lengths(vessel)
    return Inside(key, vessel, plan_area(vessel), sum(walls), walls)


def _sizes(vessel: Vessel) -> tuple[tuple[str, str], ...]:
    if vessel.shape == "box":
        return ("length", "the inside length"), ("width", "the inside width")
    if vessel.shape == "round":
        return (("across", "the inside diameter"),)
    return ("across", "the inside width, flat to flat,"), ("sides", "the number of sides")


def wall_lengths(vessel: Vessel) -> tuple[float, ...]:
    """Inside length of each wall; of a round vessel the way round, as one wall."""
    across = vessel.across or 0.0
    if vessel.shape == "box":
        length, width = vessel.length or 0.0, vessel.width or 0.0
        return length, length, width, width
    if vessel.shape == "round":
        return (math.pi * across,)
    sides = max(vessel.sides or 0, _LEAST_SIDES)
    return (across * math.tan(math.pi / sides),) * sides


def windows_of(inside: Inside) -> Iterator[Set]:
    """Every window of a vessel, wall by wall."""
    vessel = inside.vessel
    names = (
        BOX_WALLS if vessel.shape == "box" else tuple(str(number + 1) for number in range(len(inside.walls)))
    )
    for wall in names:
        for name, window in wall_of(vessel, wall).windows.items():
            own = wall in vessel.walls and name in vessel.walls[wall].windows
            path = f"{inside.path}.walls.{wall if own else 'all'}.windows.{name}"
            yield Set(path, name, wall, window)
