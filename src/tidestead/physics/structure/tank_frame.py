"""From a box vessel to the frame that stands for it: studs, rims, corner posts, ties, buttresses, water.

Names of bars: "south.stud.3.0" (post and piece, pieces from the foot up), "south.rim.2", "south.sill.0",
"south.header.0", "south.strut.0", "corner.sw.0", "tie.1". Names of nodes: the post and "foot", "head" or a
number between; "south.joint.4" where only a tie meets the rim; "south.heel.0" under a strut.
`FrameState.moment` and its like take the beginnings of names.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from itertools import pairwise

from tidestead.core.errors import ImpossibleInput
from tidestead.core.kept import kept
from tidestead.physics.structure._tank_layout import Piece, Post, WallLayout, box_layout, check_depths
from tidestead.physics.structure._tank_water import water_loads, written_loads
from tidestead.physics.structure.frame_model import (
    DIRECTIONS,
    HINGE,
    SWIVEL,
    Bar,
    FrameModel,
    Node,
    Spring,
    Support,
)
from tidestead.physics.structure.tank_spec import SAME_PLACE, SIDES, BoxFrameSpec, Side, TieBar

_UP = (0.0, 0.0, 1.0)


@dataclass
class _Draft:
    """A model while it is put together."""

    spec: BoxFrameSpec
    walls: dict[Side, WallLayout]
    posts: dict[str, Post]
    nodes: list[Node] = field(default_factory=list)
    bars: list[Bar] = field(default_factory=list)
    supports: list[Support] = field(default_factory=list)
    springs: list[Spring] = field(default_factory=list)


def box_frame(spec: BoxFrameSpec) -> FrameModel:
    """The frame of a timber box full of water, ready for `solve_frame`.

    Studs are hinged at the base and under the rim, and carry the water of half a bay on either side. Ties,
    struts, sill beams and headers are hinged at their ends. The base is held all along. Sheathing adds no
    strength; it only keeps each wall from leaning along itself (`WallFrame.racking`).

    Source: modelling of our own; its parts follow the hand formulas in `walls`.
    Valid:  water at or below the heads of the studs; still water; joints as stated.
    """
    for side in SIDES:
        check_depths(spec, side)
    built = _built(_dry(spec))
    return FrameModel(
        built.nodes,
        built.bars,
        built.supports,
        built.springs,
        bar_loads=(
            *water_loads(spec, built.walls, built.pieces),
            *written_loads(spec, built.walls, built.pieces),
        ),
    )


@dataclass(frozen=True, eq=False)
class _Built:
    """The timbers of a box, whatever the water does."""

    walls: Mapping[Side, WallLayout]
    pieces: Mapping[str, tuple[Piece, ...]]
    nodes: tuple[Node, ...]
    bars: tuple[Bar, ...]
    supports: tuple[Support, ...]
    springs: tuple[Spring, ...]


def _dry(spec: BoxFrameSpec) -> BoxFrameSpec:
    """The same box with no load on it."""
    south, north, west, east = (
        replace(spec.wall(side), depth_start=0.0, depth_end=0.0, lines=()) for side in SIDES
    )
    return replace(spec, density=0.0, south=south, north=north, west=west, east=east)


@kept(at_most=8)
def _built(spec: BoxFrameSpec) -> _Built:
    walls, posts = box_layout(spec)
    draft = _Draft(spec, walls, posts)
    for post in posts.values():
        _add_post(draft, post)
    for layout in walls.values():
        _add_rim(draft, layout)
        _add_beams(draft, layout)
        _add_struts(draft, layout)
        _add_racking(draft, layout)
    for number, tie in enumerate(spec.ties):
        if number not in spec.lost:
            _add_tie(draft, number, tie)
    pieces = {name: post.pieces(spec.height) for name, post in posts.items()}
    return _Built(
        walls, pieces, tuple(draft.nodes), tuple(draft.bars), tuple(draft.supports), tuple(draft.springs)
    )


def _add_post(draft: _Draft, post: Post) -> None:
    height = draft.spec.height
    levels = post.levels(height)
    names = [post.node_at(level, height) for level in levels]
    draft.nodes += [Node(name, post.x, post.y, level) for name, level in zip(names, levels, strict=True)]
    draft.supports.append(Support(names[0], DIRECTIONS))
    last = len(names) - 2
    for number, (low, high) in enumerate(pairwise(names)):
        draft.bars.append(
            Bar(
                f"{post.name}.{number}",
                low,
                high,
                post.section,
                post.strong_along,
                start_free=post.foot_free if number == 0 else (),
                end_free=post.head_free if number == last else (),
            )
        )


def _add_rim(draft: _Draft, layout: WallLayout) -> None:
    wall = draft.spec.wall(layout.side)
    flat = wall.rim_deep == "out"
    # A hinged corner turns about an upright pin: free in the plane of the top, stiff out of it.
    pin = ("bend_strong",) if flat else ("bend_weak",)
    hinge = pin if draft.spec.corners == "pinned" else ()
    last = len(layout.stations) - 2
    for station in layout.stations:
        if station.post is None:
            draft.nodes.append(Node(station.node, station.x, station.y, draft.spec.height))
    for number, (start, end) in enumerate(pairwise(layout.stations)):
        draft.bars.append(
            Bar(
                f"{layout.side}.rim.{number}",
                start.node,
                end.node,
                wall.rim,
                layout.out if flat else _UP,
                start_free=hinge if number == 0 else (),
                end_free=hinge if number == last else (),
            )
        )


def _add_beams(draft: _Draft, layout: WallLayout) -> None:
    """Sill beams and headers, from trimmer to trimmer."""
    for number, opening in enumerate(draft.spec.wall(layout.side).openings):
        for what, section, level in opening.beams(draft.spec.height):
            start = _node_on(draft, layout, opening.start, level)
            end = _node_on(draft, layout, opening.end, level)
            name = f"{layout.side}.{what}.{number}"
            draft.bars.append(Bar(name, start, end, section, layout.out, HINGE, HINGE))


def _node_on(draft: _Draft, layout: WallLayout, at: float, level: float) -> str:
    """The node of the post nearest to a place, at a height."""
    station = min(layout.held, key=lambda held: abs(held.at - at))
    post = draft.posts[station.post or ""]
    return post.node_at(level, draft.spec.height)


def _add_struts(draft: _Draft, layout: WallLayout) -> None:
    for number, prop in enumerate(draft.spec.wall(layout.side).buttresses):
        if prop.strut:
            station = min(layout.held, key=lambda held: abs(held.at - prop.at))
            heel = f"{layout.side}.heel.{number}"
            x, y = station.x + layout.out[0] * prop.reach, station.y + layout.out[1] * prop.reach
            draft.nodes.append(Node(heel, x, y, 0.0))
            draft.supports.append(Support(heel, DIRECTIONS))
            top = _node_on(draft, layout, prop.at, prop.height)
            name = f"{layout.side}.strut.{number}"
            draft.bars.append(Bar(name, heel, top, prop.strut, _UP, HINGE, SWIVEL))


def _add_racking(draft: _Draft, layout: WallLayout) -> None:
    """A spring along the wall, at the rim's joint nearest to its middle: it leaves the rim's pull alone.

    Two joints equally near share it, so that neither end of a wall is favoured.
    """
    middle = draft.spec.run(layout.side) / 2.0
    nearest = min(abs(joint.at - middle) for joint in layout.stations)
    shared = [joint.node for joint in layout.stations if abs(joint.at - middle) < nearest + SAME_PLACE]
    way = "x" if layout.side in {"south", "north"} else "y"
    stiffness = draft.spec.wall(layout.side).racking / len(shared)
    draft.springs += [Spring(node, way, stiffness) for node in shared]


def _add_tie(draft: _Draft, number: int, tie: TieBar) -> None:
    sides: tuple[Side, Side] = ("south", "north") if tie.across == "width" else ("west", "east")
    if not SAME_PLACE < tie.at < draft.spec.run(sides[0]) - SAME_PLACE:
        raise ImpossibleInput(f"tie {number} at {tie.at} m meets no rim between the corners")
    start, end = (
        min(draft.walls[side].stations, key=lambda joint: abs(joint.at - tie.at)).node for side in sides
    )
    draft.bars.append(Bar(f"tie.{number}", start, end, tie.section, _UP, HINGE, SWIVEL))
