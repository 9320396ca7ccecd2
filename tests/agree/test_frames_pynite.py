"""The frame against PyNite: movements, reactions, end forces, and moments and bows within bars."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from tests.agree.pynite_frame import COMBO, end_forces, node_moves, reactions, refereed
from tests.published.test_structure_frames import timber_tank
from tidestead.physics.structure import rings
from tidestead.physics.structure.buttresses import buttress_load, raking_post_moment, raking_strut
from tidestead.physics.structure.frames import (
    DIRECTIONS,
    HINGE,
    SWIVEL,
    Bar,
    BarLoad,
    BarSection,
    FrameModel,
    Node,
    NodeLoad,
    Spring,
    Support,
    solve_frame,
)
from tidestead.physics.structure.tank_frame import box_frame
from tidestead.physics.structure.tank_spec import (
    BoxFrameSpec,
    Buttress,
    Opening,
    TieBar,
    WallFrame,
    WallLine,
    lost_tie,
    stud_places,
)

CLOSE = 1e-6
"""Largest difference allowed, as a share of the largest value of its kind. Both solve the same equations."""

TIMBER = BarSection(9e9, 0.6e9, 5.3e-3, 9.4e-6, 9.9e-7, 3.1e-6)
HEAVY = BarSection(11e9, 0.7e9, 1.2e-2, 4.1e-5, 8.0e-6, 2.4e-5)


def windowed_tank() -> BoxFrameSpec:
    """Out of level: a window, a kerb window, ties between studs, both sorts of buttress, extra lines."""
    window = Opening(1.0, 2.6, 0.25, 0.9, sill_beam=HEAVY, header=TIMBER, trimmer=HEAVY)
    kerb = Opening(0.6, 1.5, 0.15, 1.2)
    lines = (
        WallLine("up", 1.0, 0.25, 0.9, 2100.0, 700.0),
        WallLine("up", 2.6, 0.25, 0.9, 2100.0, 700.0),
        WallLine("across", 0.25, 1.0, 2.6, 2500.0, 2600.0),
        WallLine("across", 1.2, 0.5, 3.0, 100.0, 250.0),
    )
    props = (Buttress(1.6, HEAVY, TIMBER, 0.9, 0.6), Buttress(2.8, HEAVY))

    def wall(length: float, first: float, last: float) -> WallFrame:
        return WallFrame(stud_places(length, 0.4), TIMBER, HEAVY, first, last)

    return BoxFrameSpec(
        length=3.6,
        width=2.1,
        height=1.2,
        density=1025.0,
        corner_post=HEAVY,
        corners="rigid",
        south=replace(wall(3.6, 1.10, 1.16), openings=(window,), lines=lines),
        north=replace(wall(3.6, 1.10, 1.16), buttresses=props, rim_deep="up"),
        west=replace(wall(2.1, 1.10, 1.10), openings=(kerb,)),
        east=wall(2.1, 1.16, 1.16),
        ties=(TieBar("width", 1.3, TIMBER), TieBar("width", 2.45, TIMBER), TieBar("length", 1.0, TIMBER)),
    )


def scattered(seed: int) -> FrameModel:
    """A tree of bars in space, rolled anyhow, some ends freed, loads on parts of bars and on nodes."""
    draw = np.random.default_rng(seed)
    places = np.cumsum(draw.uniform([-0.4, -0.7, -0.8], [1.6, 1.3, 1.2], (7, 3)), axis=0)
    nodes = tuple(Node(f"n{number}", *map(float, place)) for number, place in enumerate(places))
    links = [(0, 1), (1, 2), (2, 3), (3, 4), (4, 5), (5, 6), (0, 3), (2, 5), (1, 4), (3, 6), (0, 6)]
    free = [(), (), (), (), (), (), HINGE, ("bend_weak",), ("axial",), ("bend_strong", "torsion"), SWIVEL]
    bars = tuple(
        Bar(f"b{number}", f"n{start}", f"n{end}", TIMBER if number % 2 else HEAVY,
            (float(draw.normal()), float(draw.normal()), float(draw.normal())), (), free[number])
        for number, (start, end) in enumerate(links)
    )  # fmt: skip
    loads = []
    for number, (start, end) in enumerate(links):
        run = float(np.linalg.norm(places[end] - places[start]))
        first, last = np.sort(draw.uniform(0.0, 1.0, 2)) * run
        rows = draw.normal(0.0, 1000.0, (2, 3))
        loads.append(BarLoad(f"b{number}", float(first), float(last), tuple(rows[0]), tuple(rows[1])))
    held = (Support("n0", DIRECTIONS), Support("n6", ("x", "y", "z")))
    push = NodeLoad("n2", (500.0, -200.0, 300.0), (40.0, 10.0, -25.0))
    return FrameModel(nodes, bars, held, (Spring("n4", "z", 2e5),), (push,), tuple(loads))


FRAMES = {
    "tank with stiff corners": box_frame(timber_tank(14.4)),
    "tank with hinged corners": box_frame(replace(timber_tank(14.4), corners="pinned")),
    "tank that lost a tie": box_frame(lost_tie(timber_tank(14.4), 0)),
    "tank with windows, out of level": box_frame(windowed_tank()),
    **{f"scattered bars {seed}": scattered(seed) for seed in range(4)},
}


def check_close(ours: object, theirs: object, largest: float | None = None) -> None:
    mine, other = np.asarray(ours, dtype=float), np.asarray(theirs, dtype=float)
    size = float(np.abs(other).max()) if largest is None else largest
    assert np.abs(mine - other).max() <= CLOSE * size


@pytest.mark.parametrize("name", FRAMES)
def test_frame_agrees_with_pynite(name: str) -> None:
    model = FRAMES[name]
    state, other = solve_frame(model), refereed(model)
    other.analyze_linear(check_stability=False)
    moves, pushes, ends = node_moves(other, model), reactions(other, model), end_forces(other, model)
    check_close(state.displacements[:, :3], moves[:, :3])
    check_close(state.displacements[:, 3:], moves[:, 3:])
    check_close(state.reactions[:, :3], pushes[:, :3])
    check_close(state.end_forces[:, [0, 1, 2, 6, 7, 8]], ends[:, [0, 1, 2, 6, 7, 8]])
    check_close(state.end_forces[:, [3, 4, 5, 9, 10, 11]], ends[:, [3, 4, 5, 9, 10, 11]])


@pytest.mark.parametrize("name", ["tank with windows, out of level", "scattered bars 0", "scattered bars 1"])
def test_moments_and_bows_within_bars_agree_with_pynite(name: str) -> None:
    model = FRAMES[name]
    state, other = solve_frame(model), refereed(model)
    other.analyze_linear(check_stability=False)
    most = float(np.abs(end_forces(other, model)[:, [4, 5, 10, 11]]).max())
    far = float(np.abs(node_moves(other, model)[:, :3]).max())
    for bar in model.bars:
        member = other.members[bar.name]
        shape = state.shape(bar.name, 5)
        places = np.clip(shape.at, 0.0, member.L() * (1.0 - 1e-12))
        check_close(np.abs(shape.moment_strong), [abs(member.moment("Mz", x, COMBO)) for x in places], most)
        check_close(np.abs(shape.moment_weak), [abs(member.moment("My", x, COMBO)) for x in places], most)
        own = shape.moved @ member.T()[:3, :3].T
        check_close(own[:, 1], [member.deflection("dy", x, COMBO) for x in places], far)
        check_close(own[:, 2], [member.deflection("dz", x, COMBO) for x in places], far)


@pytest.mark.parametrize("grip", [0.0, 2e4, 1e5, 1e6])
def test_ring_with_giving_corners_agrees_with_a_frame(grip: float) -> None:
    """One side of the ring; by symmetry each end turns by half of what its corner gives."""
    side, load = 0.31, 6900.0
    out = (0.0, load, 0.0)
    nodes = (Node("a", 0.0, 0.0, 0.0), Node("b", side, 0.0, 0.0))
    held = tuple(Support(name, ("x", "y", "z", "rx", "ry")) for name in "ab")
    springs = tuple(Spring(name, "rz", 2.0 * grip) for name in "ab") if grip else ()
    bar = Bar("ab", "a", "b", TIMBER, (0.0, 1.0, 0.0))
    state = solve_frame(
        FrameModel(nodes, (bar,), held, springs, bar_loads=(BarLoad("ab", 0, side, out, out),))
    )
    bent = rings.ring_bending(load, side, TIMBER.youngs_modulus * TIMBER.strong, grip)
    shape = state.shape("ab", 3)
    assert bent.corner == pytest.approx(abs(shape.moment_strong[0]), rel=1e-6, abs=1e-6)
    assert bent.middle == pytest.approx(abs(shape.moment_strong[1]), rel=1e-6)
    assert bent.deflection == pytest.approx(state.bow("ab"), rel=1e-6)


@pytest.mark.parametrize("height", [0.5, 0.8, 1.2])
def test_raking_strut_agrees_with_a_frame(height: float) -> None:
    """A post in 1.2 m of water, hinged at its foot, leaning on a strut that meets the ground 0.7 m out."""
    depth, reach, density, spacing = 1.2, 0.7, 1025.0, 0.9
    stiff = replace(TIMBER, area=1e3)
    base = density * 9.80665 * depth * spacing
    names = ("foot", "knee", "head") if height < depth else ("foot", "head")
    levels = (0.0, height, depth) if height < depth else (0.0, depth)
    post = tuple(Node(name, 0.0, 0.0, level) for name, level in zip(names, levels, strict=True))
    out = (1.0, 0.0, 0.0)
    bars, loads = [], []
    for low, high, start, end in zip(names, names[1:], levels, levels[1:], strict=False):
        bars.append(Bar(low + high, low, high, stiff, out, HINGE if low == "foot" else ()))
        push = [base * (1.0 - level / depth) for level in (start, end)]
        loads.append(BarLoad(low + high, 0.0, end - start, (push[0], 0.0, 0.0), (push[1], 0.0, 0.0)))
    top = "knee" if height < depth else "head"
    bars.append(Bar("strut", "heel", top, stiff, (0.0, 0.0, 1.0), HINGE, SWIVEL))
    held = (
        Support("foot", DIRECTIONS), Support("heel", DIRECTIONS),
        *(Support(name, ("y", "rx", "rz")) for name in names[1:]),
    )  # fmt: skip
    nodes = (*post, Node("heel", reach, 0.0, 0.0))
    state = solve_frame(FrameModel(nodes, tuple(bars), held, bar_loads=tuple(loads)))
    prop = raking_strut(buttress_load(depth, density, spacing), height, reach)
    assert -state.axial("strut") == pytest.approx(prop.compression, rel=1e-6)
    assert -state.reaction("foot")[2] == pytest.approx(prop.post_uplift, rel=1e-6)
    assert -state.reaction("foot")[0] == pytest.approx(prop.post_shear, rel=1e-6)
    assert -state.reaction("heel")[0] == pytest.approx(prop.foot_push, rel=1e-6)
    most = max(float(state.peaks.moment_strong[number]) for number in range(len(bars) - 1))
    assert raking_post_moment(depth, density, spacing, height) == pytest.approx(most, rel=1e-5)
