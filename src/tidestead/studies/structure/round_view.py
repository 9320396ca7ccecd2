"""The whole system in the round: every vessel where it stands, the floor under it, the edges of the building."""

from __future__ import annotations

import math
from collections.abc import Hashable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import combinations

from tidestead.core.kept import kept
from tidestead.core.scene import Point
from tidestead.core.solids import Corner, Round, Solid, Span, Spot, Tag, Wire, upright
from tidestead.core.units import System, show
from tidestead.plan.model import Vessel
from tidestead.studies.inputs import Inputs
from tidestead.studies.structure.ask import Tables
from tidestead.studies.structure.case_facts import own_rows
from tidestead.studies.structure.drawings_holes import under_stuff
from tidestead.studies.structure.facts import KEPT_VESSELS, StructureFacts
from tidestead.studies.structure.round_box import box_sides, box_solids, box_water, outward
from tidestead.studies.structure.round_house import house_wires
from tidestead.studies.structure.round_tower import outline_of, tower_contents, tower_solids

_GAP = 0.6
"""Between vessels whose place is not in the plan, metres."""

_SHELL, _SLAB, _APRON = 0.01, 0.1, 0.1
"""A bought vessel's wall, a floor whose thickness nobody says, and how far a floor reaches out, metres; only drawn."""

_OFF = 0.35
_TOUCH = 0.001


@dataclass(frozen=True)
class _Standing:
    """A vessel with the place it is drawn at: the inside corner in the south-west of a box, the middle of a tower."""

    key: str
    vessel: Vessel
    at: Point
    tables: Tables | None
    guessed: bool

    @property
    def floor(self) -> float:
        return self.vessel.place.floor or 0.0

    def around(self, further: float) -> tuple[Point, ...]:
        """Its inside from above, or so much further out."""
        if self.vessel.shape != "box":
            return outline_of(self.vessel, self.at, further)
        (x, y), vessel = self.at, self.vessel
        east, north = x + (vessel.length or 0.0) + further, y + (vessel.width or 0.0) + further
        return ((x - further, y - further), (east, y - further), (east, north), (x - further, north))

    @property
    def wall(self) -> float:
        """How far its walls reach outward, about."""
        if self.tables is None:
            return _SHELL
        if self.vessel.shape == "box":
            return outward(self.vessel, self.tables)
        rings = self.vessel.rings
        return 0.018 + (rings.section.depth if rings is not None and rings.section is not None else 0.0)


def rounds_of(inputs: Inputs, facts: StructureFacts) -> tuple[Round, ...]:
    """The view in the round; none where no vessel has its measures."""
    tables = {one.subject.key: one.subject.tables for one in facts.built}
    sized = {key: vessel for key, vessel in inputs.plan.vessels.items() if _sized(vessel)}
    if not sized:
        return ()
    standing = list(_stood(sized, tables))
    rows = own_rows(inputs.plan)
    solids = [solid for one in standing for solid in _solids(one, rows, inputs.system)]
    wires = house_wires(inputs.plan.building)
    unsized = [key for key in inputs.plan.vessels if key not in sized]
    corner = _seen_from(sized)
    return (
        Round(
            "structure.round",
            "The whole in the round",
            _told(standing, unsized, bool(wires), corner, inputs.system),
            tuple(solids),
            (*wires, *(wire for one in standing for wire in _stand(one))),
            tuple(span for one in standing for span in _spans(one, corner)),
            tuple(Tag(_crown(one), one.key, one.key) for one in standing),
            corner,
        ),
    )


def _sized(vessel: Vessel) -> bool:
    if vessel.shape == "box":
        return bool(vessel.length and vessel.width)
    return bool(vessel.across) and (vessel.shape == "round" or bool(vessel.sides))


def _stood(vessels: Mapping[str, Vessel], tables: Mapping[str, Tables]) -> Iterator[_Standing]:
    """Each vessel at its place; those without one in a row to the east of all others."""
    placed = {key: one for key, one in vessels.items() if one.place.x is not None and one.place.y is not None}
    edge = 0.0
    for key, one in placed.items():
        at = (one.place.x or 0.0, one.place.y or 0.0)
        edge = max(edge, at[0] + _reach(one)[0] + _GAP)
        yield _Standing(key, one, at, tables.get(key), guessed=False)
    for key, one in vessels.items():
        if key not in placed:
            ahead, behind = _reach(one)
            yield _Standing(key, one, (edge + behind, behind), tables.get(key), guessed=True)
            edge += ahead + behind + _GAP


def _reach(vessel: Vessel) -> tuple[float, float]:
    """How far a vessel reaches east and west of its place."""
    if vessel.shape == "box":
        return (vessel.length or 0.0), 0.0
    half = (vessel.across or 0.0) / 2.0
    return half, half


@kept(at_most=KEPT_VESSELS, by=lambda one, rows, system: (one.key, repr(one.vessel), one.at, rows, system))
def _solids(one: _Standing, _rows: Hashable, system: System) -> tuple[Solid, ...]:
    """The pieces of a vessel; `_rows` are the user's own, which its tables hold besides ours."""
    return tuple(_each_solid(one, system))


def _each_solid(one: _Standing, system: System) -> Iterator[Solid]:
    key, vessel = one.key, one.vessel
    stands = vessel.stands_on
    if stands.kind is not None:
        outline = one.around(one.wall + _APRON)
        below = one.floor - (stands.slab_thickness or _SLAB)
        under = under_stuff(vessel)
        yield upright(outline, (below, one.floor), under, f"{key}.stands_on", f"{stands.kind} under {key}")
    if one.tables is None:
        yield from _bought(one)
    elif vessel.shape == "box":
        yield from box_solids(key, vessel, one.tables, box_sides(vessel, one.at, one.floor), system)
    else:
        yield from tower_solids(key, vessel, one.tables, one.at, one.floor)


def _bought(one: _Standing) -> Iterator[Solid]:
    """A bought vessel as a bare shell, open above, with its water, and its cone."""
    key, vessel = one.key, one.vessel
    shell = upright(
        one.around(_SHELL), (one.floor, one.floor + vessel.height), "outline", key, f"{key}, bought"
    )
    yield replace(shell, faces=(shell.faces[0], *shell.faces[2:]))
    if vessel.shape != "box":
        yield from tower_contents(key, vessel, one.at, one.floor)
    else:
        yield from box_water(key, vessel, one.at, one.floor)


def _stand(one: _Standing) -> Iterator[Wire]:
    """Lines from a floor that stands high down to the datum: the plan does not say what is between."""
    below = one.floor - (one.vessel.stands_on.slab_thickness or _SLAB)
    if one.vessel.stands_on.kind is not None and below > 0.0:
        for x, y in one.around(one.wall + _APRON)[:: 1 if one.vessel.shape == "box" else 3]:
            yield Wire(((x, y, 0.0), (x, y, below)), "ghost", f"{one.key}.stands_on", "down to the datum")


def _crown(one: _Standing) -> Spot:
    """Where the vessel's name stands: over its middle."""
    across, north = zip(*one.around(0.0), strict=True)
    top = one.floor + one.vessel.height + (one.vessel.cone.height if one.vessel.cone is not None else 0.0)
    return (min(across) + max(across)) / 2.0, (min(north) + max(north)) / 2.0, top + 0.12


def _seen_from(vessels: Mapping[str, Vessel]) -> Corner:
    """The corner that most of the clear sheet of boxes faces."""
    clear = {
        name: sum(
            (window.width or 0.0) * (window.height or 0.0)
            for vessel in vessels.values()
            if vessel.shape == "box" and name in vessel.walls
            for window in vessel.walls[name].windows.values()
        )
        for name in ("south", "east", "north", "west")
    }
    corners: tuple[Corner, ...] = ("south-west", "south-east", "north-east", "north-west")
    return max(corners, key=lambda corner: sum(clear[name] for name in corner.split("-")))


def _spans(one: _Standing, corner: Corner) -> Iterator[Span]:
    """The inside measures of a vessel that is built, on the sides that are seen first."""
    if one.tables is None:
        return
    xs, ys = zip(*one.around(0.0), strict=True)
    west, east, south, north = min(xs), max(xs), min(ys), max(ys)
    out, floor = one.wall + _OFF, one.floor
    y, far_y, down = (south, north, -out) if "south" in corner else (north, south, out)
    x, far_x, aside = (west, east, -out) if "west" in corner else (east, west, out)
    ends = [(x, far_y, aside, 0.0), (far_x, y, 0.0, down)]
    left, right = ends if corner in ("south-west", "north-east") else reversed(ends)
    if one.vessel.shape == "box":
        yield Span((west, y, floor), (east, y, floor), (0.0, down, 0.0), "level")
        yield Span((x, south, floor), (x, north, floor), (aside, 0.0, 0.0), "level")
        yield _upward(one, left)
    else:
        half = (one.vessel.across or 0.0) / 2.0
        yield Span((x, one.at[1] - half, floor), (x, one.at[1] + half, floor), (aside, 0.0, 0.0), "level")
        yield _upward(one, right)


def _upward(one: _Standing, foot: tuple[float, float, float, float]) -> Span:
    """The inside height over a place in the plan, and off it by a way."""
    x, y, east, north = foot
    return Span((x, y, one.floor), (x, y, one.floor + one.vessel.height), (east, north, 0.0), "level")


def _told(standing: list[_Standing], unsized: list[str], housed: bool, corner: Corner, system: System) -> str:
    """The same in words."""
    words = [f"The whole system, seen from the {corner} and above, true to scale."]
    words += [_vessel_told(one, system) for one in standing]
    guessed = [one.key for one in standing if one.guessed]
    if guessed:
        words.append(f"Laid out in a row, for the plan does not say where they stand: {', '.join(guessed)}.")
    if unsized:
        words.append(f"Not drawn, for their measures are not in the plan: {', '.join(unsized)}.")
    words += [
        f"As placed, {one.key} and {other.key} stand in one another."
        for one, other in combinations(standing, 2)
        if _clash(one, other)
    ]
    if housed:
        words.append("Thin lines are the edges of the building.")
    words.append("Pipes are not drawn; linings are drawn thicker than they are.")
    return " ".join(words)


def _vessel_told(one: _Standing, system: System) -> str:
    vessel = one.vessel
    tall = show(vessel.height, "m", system)
    if vessel.shape == "box":
        size = f"{show(vessel.length or 0.0, 'm', system)} by {show(vessel.width or 0.0, 'm', system)}"
        shape = "a box"
    else:
        size = f"{show(vessel.across or 0.0, 'm', system, 'sheet')} across"
        shape = f"a tower of {vessel.sides} sides" if vessel.shape == "polygon" else "round"
    words = f"{one.key}: {shape}, {size} inside and {tall} high"
    words += ", bought" if one.tables is None else ", built"
    if vessel.water is not None:
        words += f", water {show(vessel.water, 'm', system)} deep"
    windows = [f"{name} ({wall})" for wall, face in vessel.walls.items() for name in face.windows]
    if windows:
        words += f", windows: {', '.join(windows)}"
    ties = sum(len(tie.at) for tie in vessel.ties.values())
    if ties:
        words += f", {ties} ties across its top"
    if vessel.cone is not None:
        words += ", a cone on it"
    return f"{words}, its floor at {show(one.floor, 'm', system)}."


def _clash(one: _Standing, other: _Standing) -> bool:
    """Whether two vessels with their walls take the same room."""
    high = min(each.floor + each.vessel.height for each in (one, other))
    if high - max(one.floor, other.floor) < _TOUCH:
        return False
    outlines = [each.around(each.wall) for each in (one, other)]
    return not any(_parted(outline, outlines) for outline in outlines)


def _parted(outline: Sequence[Point], both: Sequence[Sequence[Point]]) -> bool:
    """Whether some side of an outline has all of one outline on one side of it and all of the other beyond."""
    for (ax, ay), (bx, by) in zip(outline, (*outline[1:], outline[0]), strict=True):
        across = [[(x - ax) * (by - ay) - (y - ay) * (bx - ax) for x, y in each] for each in both]
        least = _TOUCH * math.hypot(bx - ax, by - ay)
        if max(across[0]) < min(across[1]) + least or max(across[1]) < min(across[0]) + least:
            return True
    return False
