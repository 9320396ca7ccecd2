"""Where the posts of a box vessel stand and where its rims are joined: the geometry behind `tank_frame`."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise
from typing import TypeAlias

from tidestead.core.dims import Metre
from tidestead.core.errors import ImpossibleInput
from tidestead.physics.structure.frame_model import HINGE, SWIVEL, BarSection, Direction
from tidestead.physics.structure.tank_spec import SAME_PLACE, SIDES, BoxFrameSpec, Buttress, Opening, Side

_CORNERS: dict[Side, tuple[str, str]] = {
    "south": ("corner.sw", "corner.se"),
    "north": ("corner.nw", "corner.ne"),
    "west": ("corner.sw", "corner.nw"),
    "east": ("corner.se", "corner.ne"),
}
"""The posts at the start and end of each wall."""


Piece: TypeAlias = tuple[str, Metre, Metre]
"""A bar on a line: its name, and where it begins and ends along the line."""


@dataclass(frozen=True)
class Post:
    """An upright: a stud, trimmer, buttress post or corner post. `cuts` are heights where others join it."""

    name: str
    x: Metre
    y: Metre
    section: BarSection
    strong_along: Direction
    foot_free: tuple[str, ...]
    head_free: tuple[str, ...]
    cuts: tuple[Metre, ...]

    def levels(self, height: Metre) -> tuple[Metre, ...]:
        """Heights of its nodes, from foot to head."""
        return (0.0, *self.cuts, height)

    def pieces(self, height: Metre) -> tuple[Piece, ...]:
        """Its bars from foot to head: name, lower and upper end."""
        return tuple(
            (f"{self.name}.{number}", low, high)
            for number, (low, high) in enumerate(pairwise(self.levels(height)))
        )

    def node_at(self, level: Metre, height: Metre) -> str:
        """Name of its node at a height."""
        levels = self.levels(height)
        number = min(range(len(levels)), key=lambda index: abs(levels[index] - level))
        if number in {0, len(levels) - 1}:
            return f"{self.name}.{'head' if number else 'foot'}"
        return f"{self.name}.{number}"


@dataclass(frozen=True)
class Station:
    """A place along a wall where the rim has a joint; `post` is None where only a tie meets the rim."""

    at: Metre
    node: str
    x: Metre
    y: Metre
    post: str | None


@dataclass(frozen=True)
class WallLayout:
    """One wall in place: its stations from start to end, and which way is out."""

    side: Side
    stations: tuple[Station, ...]
    out: Direction

    @cached_property
    def rim(self) -> tuple[Piece, ...]:
        """The bars of the rim from joint to joint."""
        return tuple(
            (f"{self.side}.rim.{number}", near.at, far.at)
            for number, (near, far) in enumerate(pairwise(self.stations))
        )

    @cached_property
    def held(self) -> tuple[Station, ...]:
        """The stations that stand on a post."""
        return tuple(station for station in self.stations if station.post is not None)


def box_layout(spec: BoxFrameSpec) -> tuple[dict[Side, WallLayout], dict[str, Post]]:
    """Stations of every wall, and every post by name.

    Source: geometry.
    Valid:  places within their walls, openings that do not overlap, nothing standing within an opening.
    """
    posts = {post.name: post for post in _corner_posts(spec)}
    walls: dict[Side, WallLayout] = {}
    for side in SIDES:
        stations, own = _wall_stations(spec, side)
        walls[side] = WallLayout(side, stations, _out(side))
        posts.update((post.name, post) for post in own)
    return walls, posts


def _out(side: Side) -> Direction:
    ways: dict[Side, Direction] = {
        "south": (0.0, -1.0, 0.0),
        "north": (0.0, 1.0, 0.0),
        "west": (-1.0, 0.0, 0.0),
        "east": (1.0, 0.0, 0.0),
    }
    return ways[side]


def _on_plan(spec: BoxFrameSpec, side: Side, at: Metre) -> tuple[Metre, Metre]:
    places = {
        "south": (at, 0.0),
        "north": (at, spec.width),
        "west": (0.0, at),
        "east": (spec.length, at),
    }
    return places[side]


def _corner_posts(spec: BoxFrameSpec) -> list[Post]:
    corners = []
    for side in ("south", "north"):
        for name, at in zip(_CORNERS[side], (0.0, spec.length), strict=True):
            cuts = _cuts(spec, [(near, spec.run(near) if far else 0.0) for near, far in _meeting(name)])
            x, y = _on_plan(spec, side, at)
            corners.append(Post(name, x, y, spec.corner_post, _out(side), HINGE, HINGE, cuts))
    return corners


def _meeting(corner: str) -> list[tuple[Side, bool]]:
    """The walls that meet at a corner, and whether it is their far end."""
    return [
        (side, far)
        for side in SIDES
        for far, name in zip((False, True), _CORNERS[side], strict=True)
        if name == corner
    ]


def _cuts(spec: BoxFrameSpec, places: list[tuple[Side, Metre]]) -> tuple[Metre, ...]:
    """Heights at which something joins the post that stands at these places."""
    levels: list[Metre] = []
    for side, at in places:
        wall = spec.wall(side)
        for opening in wall.openings:
            if min(abs(opening.start - at), abs(opening.end - at)) < SAME_PLACE:
                levels += [level for _, _, level in opening.beams(spec.height)]
        levels += [prop.height for prop in wall.buttresses if prop.strut and abs(prop.at - at) < SAME_PLACE]
    inner = [level for level in levels if SAME_PLACE < level < spec.height - SAME_PLACE]
    return tuple(_merged(inner))


def _merged(places: list[Metre]) -> list[Metre]:
    """Places in order, those at the same place once."""
    kept: list[Metre] = []
    for place in sorted(places):
        if not kept or place - kept[-1] >= SAME_PLACE:
            kept.append(place)
    return kept


def _wall_stations(spec: BoxFrameSpec, side: Side) -> tuple[tuple[Station, ...], list[Post]]:
    wall, run = spec.wall(side), spec.run(side)
    _check_wall(spec, side)
    sides = [place for opening in wall.openings for place in (opening.start, opening.end)]
    props = [prop.at for prop in wall.buttresses]
    studs = [at for at in wall.studs if not any(o.start < at < o.end for o in wall.openings)]
    # Trimmers and buttress posts stand where they are told, studs give way to them.
    fixed = _merged([*sides, *props])
    studs = [at for at in studs if all(abs(at - other) >= SAME_PLACE for other in fixed)]
    standing = [at for at in _merged([*fixed, *studs]) if SAME_PLACE < at < run - SAME_PLACE]
    joints = _merged([0.0, run, *standing, *_tie_places(spec, side, [0.0, run, *standing])])
    stations, posts = [], []
    for number, at in enumerate(joints):
        x, y = _on_plan(spec, side, at)
        name = _post_name(side, number, len(joints) - 1, at in standing)
        node = f"{name}.head" if name else f"{side}.joint.{number}"
        stations.append(Station(at, node, x, y, name))
        if name and at in standing:
            posts.append(_stud(spec, side, at, name))
    return tuple(stations), posts


def _post_name(side: Side, number: int, last: int, standing: bool) -> str | None:
    if number in {0, last}:
        return _CORNERS[side][1 if number else 0]
    return f"{side}.stud.{number}" if standing else None


def _stud(spec: BoxFrameSpec, side: Side, at: Metre, name: str) -> Post:
    wall = spec.wall(side)
    x, y = _on_plan(spec, side, at)
    prop = _there(wall.buttresses, at)
    beside = [o for o in wall.openings if min(abs(o.start - at), abs(o.end - at)) < SAME_PLACE]
    trimmers = [opening.trimmer for opening in beside if opening.trimmer]
    section = prop.post if prop else trimmers[0] if trimmers else wall.stud
    foot = () if prop and prop.strut is None else HINGE
    return Post(name, x, y, section, _out(side), foot, SWIVEL, _cuts(spec, [(side, at)]))


def _there(buttresses: tuple[Buttress, ...], at: Metre) -> Buttress | None:
    return next((prop for prop in buttresses if abs(prop.at - at) < SAME_PLACE), None)


def _tie_places(spec: BoxFrameSpec, side: Side, others: list[Metre]) -> list[Metre]:
    """Places where ties meet this wall's rim away from any post."""
    across = "width" if side in {"south", "north"} else "length"
    places = [tie.at for tie in spec.ties if tie.across == across]
    return [at for at in places if all(abs(at - other) >= SAME_PLACE for other in others)]


def check_depths(spec: BoxFrameSpec, side: Side) -> None:
    """Raises ImpossibleInput where the water stands over the heads of a wall's studs."""
    wall = spec.wall(side)
    for depth in (wall.depth_start, wall.depth_end):
        if not 0.0 <= depth <= spec.height * (1.0 + 1e-9):
            raise ImpossibleInput(f"{side} wall: water {depth} m deep does not fit studs of {spec.height} m")


def _check_wall(spec: BoxFrameSpec, side: Side) -> None:
    wall, run = spec.wall(side), spec.run(side)
    for place in (*wall.studs, *(prop.at for prop in wall.buttresses), *_tie_places(spec, side, [])):
        if not 0.0 <= place <= run:
            raise ImpossibleInput(f"{side} wall: a place {place} m along it is beyond its {run} m")
    _check_openings(spec, side, sorted(wall.openings, key=lambda opening: opening.start))
    for prop in wall.buttresses:
        if any(o.start + SAME_PLACE < prop.at < o.end - SAME_PLACE for o in wall.openings):
            raise ImpossibleInput(f"{side} wall: the buttress at {prop.at} m stands in a window")
        if prop.strut and not (0.0 < prop.height <= spec.height and prop.reach > 0.0):
            raise ImpossibleInput(f"{side} wall: the strut at {prop.at} m needs a height and a reach")


def _check_openings(spec: BoxFrameSpec, side: Side, openings: list[Opening]) -> None:
    reached = 0.0
    for opening in openings:
        if not reached - SAME_PLACE < opening.start < opening.end - SAME_PLACE < spec.run(side):
            raise ImpossibleInput(
                f"{side} wall: the window from {opening.start} m to {opening.end} m does not fit"
            )
        if not 0.0 <= opening.sill < opening.head <= spec.height * (1.0 + 1e-9):
            raise ImpossibleInput(
                f"{side} wall: the window from {opening.sill} m to {opening.head} m up does not fit"
            )
        reached = opening.end
