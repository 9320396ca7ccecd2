"""What a frame must keep to whatever it is: balance, adding up, turning, mirroring, naming what is loose."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.agree.test_frames_pynite import FRAMES, TIMBER, scattered, windowed_tank
from tests.published.test_structure_frames import timber_tank
from tidestead.core.dims import Array, G
from tidestead.core.errors import ImpossibleInput, SolverError
from tidestead.physics.structure.frame_model import LineForce
from tidestead.physics.structure.frames import (
    DIRECTIONS,
    HINGE,
    SWIVEL,
    Bar,
    BarLoad,
    FrameModel,
    FrameState,
    Node,
    NodeLoad,
    Support,
    solve_frame,
)
from tidestead.physics.structure.pressure import sloped_wall_push
from tidestead.physics.structure.tank_frame import box_frame
from tidestead.physics.structure.tank_spec import SIDES, Opening, Side, TieBar, WallFrame, WallLine, lost_tie

LEVEL_TANK = timber_tank(14.4)
ENDS_HELD = (Support("n0", DIRECTIONS), Support("n6", DIRECTIONS))


def whole_load(model: FrameModel) -> Array:
    """Sum of the loads of a model, as force and as moment about the origin, worked out by itself."""
    places = {node.name: np.array([node.x, node.y, node.z]) for node in model.nodes}
    bars = {bar.name: (places[bar.start], places[bar.end]) for bar in model.bars}
    force, moment = np.zeros(3), np.zeros(3)
    for load in model.node_loads:
        force += load.force
        moment += np.cross(places[load.node], load.force) + load.moment
    for part in model.bar_loads:
        start, end = bars[part.bar]
        way = (end - start) / np.linalg.norm(end - start)
        run = part.end - part.start
        first, last = np.array(part.load_start), np.array(part.load_end)
        force += (first + last) / 2.0 * run
        moment += np.cross(start + way * (part.start + run / 3.0), first * run / 2.0)
        moment += np.cross(start + way * (part.start + 2.0 * run / 3.0), last * run / 2.0)
    return np.concatenate([force, moment])


def whole_reaction(state: FrameState) -> Array:
    places = np.array([[node.x, node.y, node.z] for node in state.model.nodes])
    pushes, turns = state.reactions[:, :3], state.reactions[:, 3:]
    return np.concatenate([pushes.sum(axis=0), (np.cross(places, pushes) + turns).sum(axis=0)])


def turned(model: FrameModel, turn: Array) -> FrameModel:
    """The same frame turned in space, with all its directions. Springs and half-held nodes are not turned."""

    def way(vector: tuple[float, float, float]) -> LineForce:
        x, y, z = turn @ np.array(vector)
        return (float(x), float(y), float(z))

    return replace(
        model,
        nodes=tuple(Node(node.name, *way((node.x, node.y, node.z))) for node in model.nodes),
        bars=tuple(replace(bar, strong_along=way(bar.strong_along)) for bar in model.bars),
        node_loads=tuple(NodeLoad(load.node, way(load.force), way(load.moment)) for load in model.node_loads),
        bar_loads=tuple(
            replace(load, load_start=way(load.load_start), load_end=way(load.load_end))
            for load in model.bar_loads
        ),
    )


def free_standing(seed: int) -> FrameModel:
    """Scattered bars held in full at both ends, so that turning leaves the supports as they are."""
    return replace(scattered(seed), supports=ENDS_HELD, springs=())


@pytest.mark.parametrize("name", FRAMES)
def test_ground_gives_back_the_whole_load(name: str) -> None:
    state = solve_frame(FRAMES[name])
    load, back = whole_load(state.model), whole_reaction(state)
    size = np.abs(state.reactions[:, :3]).sum()
    assert np.abs(load[:3] + back[:3]).max() <= 1e-8 * size
    assert np.abs(load[3:] + back[3:]).max() <= 1e-7 * size


def test_tank_is_given_the_whole_push_of_the_water() -> None:
    spec = replace(windowed_tank(), south=replace(windowed_tank().south, openings=(), lines=()),
                   west=replace(windowed_tank().west, openings=()))  # fmt: skip
    model = box_frame(spec)
    axes: dict[Side, int] = {"south": 1, "north": 1, "west": 0, "east": 0}
    for side, axis in axes.items():
        wall = spec.wall(side)
        out = 1.0 if side in {"north", "east"} else -1.0
        given_ = sum(
            (load.load_start[axis] + load.load_end[axis]) / 2.0 * (load.end - load.start) * out
            for load in model.bar_loads
            if load.load_start[axis] * out > 0.0
        )
        assert wall.depth_start is not None
        assert wall.depth_end is not None
        push = sloped_wall_push(wall.depth_start, wall.depth_end, spec.run(side), spec.density)
        assert given_ == pytest.approx(push.force, rel=1e-4), side


def test_window_takes_away_only_its_own_water() -> None:
    """With sill beam and header, what is missing is the push on the hole and what the base takes directly."""
    spec = replace(
        windowed_tank(), south=replace(windowed_tank().south, lines=(), depth_start=1.1, depth_end=1.1)
    )
    bare = replace(spec, south=replace(spec.south, openings=()))
    window = spec.south.openings[0]
    missing = (whole_load(box_frame(bare)) - whole_load(box_frame(spec)))[1]
    gradient = spec.density * G * (window.end - window.start)
    hole = gradient * ((1.1 - window.sill) ** 2 - (1.1 - window.head) ** 2) / 2.0
    sill = window.sill
    to_base = gradient * (1.1 * sill / 2.0 - sill**2 / 6.0)
    assert -missing == pytest.approx(hole + to_base, rel=1e-9)


def times(factor: float, along: tuple[float, float, float]) -> tuple[float, float, float]:
    x, y, z = along
    return factor * x, factor * y, factor * z


@given(st.integers(0, 3), st.floats(-3.0, 3.0), st.floats(-3.0, 3.0))
@settings(max_examples=25, deadline=None)
def test_loads_add_up(seed: int, one: float, other: float) -> None:
    model = free_standing(seed)
    parts = [replace(model, bar_loads=()), replace(model, node_loads=())]
    scaled = replace(
        model,
        node_loads=tuple(
            NodeLoad(n.node, times(one, n.force), times(one, n.moment))
            for n in model.node_loads
        ),
        bar_loads=tuple(
            replace(b, load_start=times(other, b.load_start), load_end=times(other, b.load_end))
            for b in model.bar_loads
        ),
    )  # fmt: skip
    both = solve_frame(scaled)
    apart = [solve_frame(part) for part in parts]
    for field in ("displacements", "reactions", "end_forces"):
        together = one * getattr(apart[0], field) + other * getattr(apart[1], field)
        size = max(np.abs(getattr(state, field)).max() for state in apart)
        assert np.abs(getattr(both, field) - together).max() <= 1e-9 * size * (1 + abs(one) + abs(other))


@given(st.integers(0, 3), st.floats(-math.pi, math.pi), st.floats(-math.pi, math.pi))
@settings(max_examples=25, deadline=None)
def test_turned_frame_gives_the_same_answer(seed: int, first: float, second: float) -> None:
    c, s = math.cos(first), math.sin(first)
    d, t = math.cos(second), math.sin(second)
    turn = np.array([[c, -s, 0], [s, c, 0], [0, 0, 1]]) @ np.array([[1, 0, 0], [0, d, -t], [0, t, d]])
    model = free_standing(seed)
    before, after = solve_frame(model), solve_frame(turned(model, turn))
    assert np.abs(after.end_forces - before.end_forces).max() <= 1e-7 * np.abs(before.end_forces).max()
    moved = before.displacements[:, :3] @ turn.T
    assert np.abs(after.displacements[:, :3] - moved).max() <= 1e-7 * np.abs(moved).max()


def test_upright_frame_laid_down_gives_the_same_answer() -> None:
    """The trap of upright bars: a frame turned so that its studs lie along each axis in turn."""
    model = replace(FRAMES["tank with stiff corners"], springs=())
    held = replace(model, supports=(*model.supports, Support("corner.sw.head", ("x", "y", "z"))))
    before = solve_frame(held)
    for turn in (
        np.array([[0.0, -1.0, 0.0], [1.0, 0.0, 0.0], [0.0, 0.0, 1.0]]),
        np.array([[0.0, 0.0, 1.0], [1.0, 0.0, 0.0], [0.0, 1.0, 0.0]]),
        np.array([[1.0, 0.0, 0.0], [0.0, 0.0, -1.0], [0.0, 1.0, 0.0]]),
    ):
        after = solve_frame(turned(held, turn))
        assert np.abs(after.end_forces - before.end_forces).max() <= 1e-7 * np.abs(before.end_forces).max()


def test_tank_built_a_quarter_turn_round_gives_the_same_answer() -> None:
    """Not the frame but the tank is turned: its long walls become its east and west walls."""
    spec = windowed_tank()

    def back(wall: WallFrame, run: float) -> WallFrame:
        """The same wall, its places counted from the other end."""
        return replace(
            wall,
            studs=tuple(sorted(run - at for at in wall.studs)),
            depth_start=wall.depth_end,
            depth_end=wall.depth_start,
            openings=tuple(replace(o, start=run - o.end, end=run - o.start) for o in wall.openings),
            buttresses=tuple(replace(b, at=run - b.at) for b in wall.buttresses),
        )

    quarter = replace(
        spec,
        length=spec.width,
        width=spec.length,
        east=spec.south,
        west=spec.north,
        north=back(spec.east, spec.width),
        south=back(spec.west, spec.width),
        ties=tuple(
            TieBar("length", t.at, t.section) if t.across == "width"
            else TieBar("width", spec.width - t.at, t.section)
            for t in spec.ties
        ),
    )  # fmt: skip
    before, after = solve_frame(box_frame(spec)), solve_frame(box_frame(quarter))
    for number in range(3):
        assert after.axial(f"tie.{number}") == pytest.approx(before.axial(f"tie.{number}"), rel=1e-7)
    for then, now in (("south", "east"), ("north", "west"), ("west", "south"), ("east", "north")):
        for part in ("rim", "stud"):
            assert after.moment(f"{now}.{part}") == pytest.approx(before.moment(f"{then}.{part}"), rel=1e-6)
    assert after.moment("east.sill") == pytest.approx(before.moment("south.sill"), rel=1e-9)


@given(st.integers(0, 3), st.integers(0, 10))
@settings(max_examples=20, deadline=None)
def test_bar_named_from_its_other_end_gives_the_same_answer(seed: int, number: int) -> None:
    model = free_standing(seed)
    bar = model.bars[number]
    places = {node.name: np.array([node.x, node.y, node.z]) for node in model.nodes}
    run = float(np.linalg.norm(places[bar.end] - places[bar.start]))
    x, y, z = bar.strong_along
    other = Bar(bar.name, bar.end, bar.start, bar.section, (-x, -y, -z), bar.end_free, bar.start_free)
    loads = tuple(
        BarLoad(load.bar, run - load.end, run - load.start, load.load_end, load.load_start)
        if load.bar == bar.name else load
        for load in model.bar_loads
    )  # fmt: skip
    bars = (*model.bars[:number], other, *model.bars[number + 1 :])
    before, after = solve_frame(model), solve_frame(replace(model, bars=bars, bar_loads=loads))
    size = np.abs(before.displacements).max()
    assert np.abs(after.displacements - before.displacements).max() <= 1e-8 * size
    assert after.moment(bar.name) == pytest.approx(before.moment(bar.name), rel=1e-6)
    ahead, behind = before.shape(bar.name, 9).moved, after.shape(bar.name, 9).moved
    assert np.abs(behind[::-1] - ahead).max() <= 1e-8 * size


def test_bar_cut_in_two_gives_the_same_answer() -> None:
    load: LineForce = (0.0, 700.0, -300.0)
    ends = (Node("a", 0, 0, 0), Node("b", 2, 1, 0.5))
    held = (Support("a", DIRECTIONS), Support("b", DIRECTIONS))
    whole = Bar("ab", "a", "b", TIMBER, (0, 0.3, 1.0), (), HINGE)
    run = float(np.linalg.norm([2, 1, 0.5]))
    cut = 0.4 * run
    one = solve_frame(FrameModel(ends, (whole,), held, bar_loads=(BarLoad("ab", 0, run, load, load),)))
    halves = (replace(whole, name="am", end="m", end_free=()), replace(whole, name="mb", start="m"))
    two = solve_frame(
        FrameModel(
            (*ends, Node("m", 0.8, 0.4, 0.2)), halves, held,
            bar_loads=(BarLoad("am", 0, cut, load, load), BarLoad("mb", 0, run - cut, load, load)),
        )
    )  # fmt: skip
    assert two.displacement("m")[:3] == pytest.approx(one.shape("ab", 6).moved[2], rel=1e-8)
    assert two.reaction("a") == pytest.approx(one.reaction("a"), rel=1e-8)


def test_tank_alike_on_both_sides_moves_alike_on_both_sides() -> None:
    state = solve_frame(box_frame(timber_tank(12.0)))
    assert state.axial("tie.0") == pytest.approx(state.axial("tie.1"))
    assert state.moment("south.rim") == pytest.approx(state.moment("north.rim"))
    by_place = {(round(n.x, 6), round(n.y, 6), round(n.z, 6)): n.name for n in state.model.nodes}
    largest = np.abs(state.displacements[:, :3]).max()
    for (x, y, z), name in by_place.items():
        here = state.displacement(name)[:3]
        opposite = state.displacement(by_place[(x, round(LEVEL_TANK.width - y, 6), z)])[:3]
        other_end = state.displacement(by_place[(round(LEVEL_TANK.length - x, 6), y, z)])[:3]
        assert np.abs(here - opposite * [1.0, -1.0, 1.0]).max() <= 1e-6 * largest
        assert abs(here[1] - other_end[1]) <= 1e-6 * largest


def test_lost_tie_loads_its_neighbour_and_the_rim() -> None:
    whole, lost = solve_frame(box_frame(LEVEL_TANK)), solve_frame(box_frame(lost_tie(LEVEL_TANK, 0)))
    assert lost.axial("tie.1") > 1.2 * whole.axial("tie.1")
    assert lost.moment("south.rim") > 1.5 * whole.moment("south.rim")
    assert "tie.0" not in {bar.name for bar in lost.model.bars}
    with pytest.raises(ImpossibleInput, match=r"no bar called tie\.0"):
        lost.axial("tie.0")


def test_softer_ties_let_the_rim_bow_further() -> None:
    strip = replace(LEVEL_TANK.ties[0].section, area=LEVEL_TANK.ties[0].section.area / 50.0)
    soft = replace(LEVEL_TANK, ties=tuple(replace(tie, section=strip) for tie in LEVEL_TANK.ties))
    stiff_bow, soft_bow = (
        max(abs(state.displacement(station)[1]) for station in ("south.stud.4.head", "south.stud.5.head"))
        for state in (solve_frame(box_frame(LEVEL_TANK)), solve_frame(box_frame(soft)))
    )  # fmt: skip
    assert soft_bow > stiff_bow


LOOSE = replace(scattered(1), springs=())


@pytest.mark.parametrize(
    ("model", "words"),
    [
        (replace(LOOSE, supports=(Support("n0", ("x", "y", "z")),)), r"node n\d is free to (move|turn)"),
        (replace(LOOSE, supports=()), "is free to"),
        (replace(LOOSE, node_loads=(NodeLoad("n2", (math.nan, 0.0, 0.0)),)), "do not balance"),
    ],
)
def test_loose_frame_says_what_is_loose(model: FrameModel, words: str) -> None:
    with pytest.raises(SolverError, match=words):
        solve_frame(model)


def test_loose_node_and_direction_are_named() -> None:
    nodes = (Node("a", 0, 0, 0), Node("b", 1, 0, 0), Node("c", 2, 0, 0))
    bars = (Bar("ab", "a", "b", TIMBER, (0, 0, 1), (), HINGE), Bar("bc", "b", "c", TIMBER, (0, 0, 1), HINGE))
    held = (Support("a", DIRECTIONS), Support("c", ("x", "y", "rx", "rz")), Support("b", ("ry", "rz")))
    with pytest.raises(SolverError, match="node c is free to move along z"):
        solve_frame(FrameModel(nodes, bars, held))


def test_bar_that_spins_is_named() -> None:
    bar = Bar("spins", "a", "b", TIMBER, (0, 0, 1), SWIVEL, SWIVEL)
    model = FrameModel((Node("a", 0, 0, 0), Node("b", 1, 0, 0)), (bar,), (Support("a", DIRECTIONS),))
    with pytest.raises(SolverError, match="bar spins is loose"):
        solve_frame(model)


GOOD = FRAMES["scattered bars 0"]
FIRST = GOOD.bars[0]
DOWN: LineForce = (0.0, 0.0, -1.0)
NARROW = Opening(1.0, 1.3, 0.2, 0.9)
SOUTH = windowed_tank().south


@pytest.mark.parametrize(
    ("model", "words"),
    [
        (replace(GOOD, nodes=(*GOOD.nodes, GOOD.nodes[0])), "node n0 is there twice"),
        (replace(GOOD, bars=(*GOOD.bars, GOOD.bars[0])), "bar b0 is there twice"),
        (replace(GOOD, bars=(replace(FIRST, end="nowhere"),)), "no node called nowhere"),
        (replace(GOOD, bars=(replace(FIRST, end="n0"),)), "bar b0 has no length"),
        (replace(GOOD, bars=()), "without bars"),
        (replace(GOOD, bars=(replace(FIRST, end_free=("slide",)),), bar_loads=()), "cannot be freed"),
        (replace(GOOD, bars=(replace(FIRST, section=replace(TIMBER, weak=0.0)),)), "b0 has a stiffness"),
        (replace(GOOD, supports=(Support("n0", ("up",)),)), "no direction called up"),
        (replace(GOOD, bar_loads=(BarLoad("b0", 0.0, 99.0, DOWN, DOWN),)), "must lie within its bar"),
    ],
)  # fmt: skip
def test_model_that_contradicts_itself_is_refused(model: FrameModel, words: str) -> None:
    with pytest.raises(ImpossibleInput, match=words):
        solve_frame(model)


def test_deep_side_along_the_bar_is_refused() -> None:
    nodes = (Node("a", 0, 0, 0), Node("b", 0, 0, 1))
    model = FrameModel(nodes, (Bar("ab", "a", "b", TIMBER, (0, 0, 2)),), (Support("a", DIRECTIONS),))
    with pytest.raises(ImpossibleInput, match="deep side pointing along itself"):
        solve_frame(model)


@pytest.mark.parametrize(
    ("south", "words"),
    [
        (replace(SOUTH, depth_start=1.3), "does not fit studs"),
        (replace(SOUTH, studs=(9.0,)), "beyond its"),
        (replace(SOUTH, openings=(Opening(1.0, 2.0, 0.2, 0.9), Opening(1.9, 2.5, 0.2, 0.9))), "does not fit"),
        (replace(SOUTH, openings=(Opening(1.0, 2.0, 0.9, 0.2),)), "does not fit"),
        (replace(SOUTH, openings=(NARROW,)), "no post stands"),
        (replace(SOUTH, lines=(WallLine("across", 1.2, 3.0, 3.9, 1.0, 1.0),)), "is not on it"),
        (replace(SOUTH, lines=(WallLine("across", 0.7, 1.0, 2.0, 1.0, 1.0),)), "no rim, sill or header"),
    ],
)
def test_tank_that_cannot_be_is_refused(south: WallFrame, words: str) -> None:
    with pytest.raises(ImpossibleInput, match=words):
        box_frame(replace(windowed_tank(), south=south))


def test_every_side_is_a_wall() -> None:
    assert {LEVEL_TANK.wall(side).depth_start for side in SIDES} == {LEVEL_TANK.height}
    round_it = sum(LEVEL_TANK.run(side) for side in SIDES)
    assert round_it == pytest.approx(2.0 * (LEVEL_TANK.length + LEVEL_TANK.width))
