"""What walls, beams, rings and towers must keep to whatever the numbers."""

from __future__ import annotations

import math
from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.arrays import broadcast
from tidestead.core.dims import G
from tidestead.core.errors import ImpossibleInput
from tidestead.physics.structure import beams, buttresses, members, pressure, rings, towers, walls

LENGTH = st.floats(0.2, 4.0)
SHARE = st.floats(0.02, 1.0)
LOAD = st.floats(1.0, 1e5)
SPANS = st.lists(st.floats(0.2, 3.0), min_size=1, max_size=6)
DENSITY = 1025.0


@given(LENGTH, SHARE, LOAD)
def test_stud_hands_on_all_it_is_given(length: float, share: float, base_load: float) -> None:
    depth = share * length
    ends = walls.stud_reactions(length, depth, base_load)
    assert ends.top + ends.bottom == pytest.approx(base_load * depth / 2.0)
    assert ends.top * length == pytest.approx(base_load * depth**2 / 6.0)


@given(LENGTH, SHARE, LOAD)
def test_stud_formulas_agree_with_the_beam_on_props(length: float, share: float, base_load: float) -> None:
    depth = share * length
    state = beams.hydrostatic_beam(np.array([0.0, length]), depth, base_load / depth, 1.0)
    ends = walls.stud_reactions(length, depth, base_load)
    assert state.reactions == pytest.approx([ends.bottom, ends.top], rel=1e-9)
    assert state.moment == pytest.approx(walls.stud_moment(length, depth, base_load).moment, rel=1e-5)
    bow = walls.stud_deflection(length, depth, base_load, 1.0).deflection
    assert state.deflection[0] == pytest.approx(bow, rel=1e-6)


@given(LENGTH, SHARE, LOAD)
def test_stud_bends_most_where_its_shear_is_nothing(length: float, share: float, base_load: float) -> None:
    depth = share * length
    most = walls.stud_moment(length, depth, base_load)
    shear = walls.stud_shear(length, depth, base_load, length - most.from_top)
    assert shear == pytest.approx(0.0, abs=1e-9 * base_load * depth)
    bow = walls.stud_deflection(length, depth, base_load, 1.0)
    assert 0.519 * length <= bow.from_top <= 0.5775 * length


@given(LENGTH, SHARE)
def test_rim_and_base_share_the_push(length: float, share: float) -> None:
    depth = share * length
    rim = walls.rim_line_load(length, depth, DENSITY)
    base = walls.base_line_load(length, depth, DENSITY)
    assert rim + base == pytest.approx(pressure.wall_thrust(depth, DENSITY))
    assert base >= 2.0 * rim * (1.0 - 1e-12)


@given(LENGTH)
def test_doubling_the_wall_and_its_water(length: float) -> None:
    one = walls.stud_moment(length, length, walls.stud_line_load(length, DENSITY, 0.4))
    two = walls.stud_moment(2.0 * length, 2.0 * length, walls.stud_line_load(2.0 * length, DENSITY, 0.4))
    assert two.moment == pytest.approx(8.0 * one.moment)
    rims = [walls.rim_line_load(size, size, DENSITY) for size in (length, 2.0 * length)]
    assert rims[1] == pytest.approx(4.0 * rims[0])


@given(SPANS, LOAD)
def test_props_carry_the_whole_load(spans: list[float], load: float) -> None:
    state = beams.continuous_beam(np.array(spans), load, 1e4)
    assert state.reactions.sum() == pytest.approx(load * sum(spans))
    places = np.cumsum([0.0, *spans])
    assert state.reactions @ places == pytest.approx(load * sum(spans) ** 2 / 2.0)


@given(SPANS, LOAD)
def test_beam_seen_from_the_other_end(spans: list[float], load: float) -> None:
    ahead = beams.continuous_beam(np.array(spans), load, 1e4)
    back = beams.continuous_beam(np.array(spans[::-1]), load, 1e4)
    for field in ("reactions", "hogging", "sagging", "shear", "deflection"):
        assert getattr(back, field)[::-1] == pytest.approx(
            getattr(ahead, field), rel=1e-6, abs=1e-9 * load
        ), field


@given(st.integers(1, 6), LENGTH, LOAD)
def test_equal_spans_are_a_case_of_any_spans(count: int, span: float, load: float) -> None:
    state = beams.continuous_beam(np.full(count, span), load, 1e4)
    peak = beams.equal_spans(load, span, count, 1e4)
    assert peak.moment == pytest.approx(state.moment)
    assert peak.shear == pytest.approx(state.shear.max())
    assert peak.deflection == pytest.approx(state.deflection.max())


@given(SPANS, LOAD, LOAD)
def test_patches_add_up(spans: list[float], first: float, last: float) -> None:
    lengths = np.array(spans)
    one = beams.LinePatch(0, 0.1 * spans[0], 0.7 * spans[0], first, last)
    other = beams.LinePatch(len(spans) - 1, 0.0, spans[-1], last, 0.0)
    both = beams.patched_beam(lengths, [one, other], 1e4)
    apart = [beams.patched_beam(lengths, [patch], 1e4) for patch in (one, other)]
    assert both.reactions == pytest.approx(apart[0].reactions + apart[1].reactions, rel=1e-9, abs=1e-9)
    assert both.hogging == pytest.approx(apart[0].hogging + apart[1].hogging, rel=1e-9, abs=1e-9)


@given(st.floats(0.0, 2.0), st.floats(0.01, 2.0), LENGTH)
def test_push_on_a_wall_out_of_level(start: float, end: float, length: float) -> None:
    push = pressure.sloped_wall_push(start, end, length, DENSITY)
    along = np.linspace(0.0, length, 20001)
    depth = pressure.sloped_depth(start, end, length, broadcast(along))
    each = pressure.wall_thrust(depth, DENSITY)
    whole = np.trapezoid(each, along)
    assert push.force == pytest.approx(whole, rel=1e-6)
    assert push.along * whole == pytest.approx(np.trapezoid(each * along, along), rel=1e-6)
    about_foot = np.trapezoid(pressure.wall_base_moment(depth, DENSITY), along)
    assert push.above * whole == pytest.approx(about_foot, rel=1e-6)


@given(LENGTH, LOAD, st.floats(0.0, 1e9))
def test_ring_moments_add_up_to_the_simple_beam(side: float, load: float, grip: float) -> None:
    bent = rings.ring_bending(load, side, 1e4, grip)
    assert bent.corner + bent.middle == pytest.approx(load * side**2 / 8.0)
    assert 0.0 <= bent.corner <= load * side**2 / 12.0 * (1.0 + 1e-12)


@given(st.integers(3, 400), LOAD)
def test_many_points_make_a_hoop(points: int, load: float) -> None:
    """Equal forces at the corners of a polygon of unit apothem pull as the pressure that makes them."""
    corner = load * rings.polygon_side(1.0, points) * math.cos(math.pi / points)
    assert rings.plate_tension(corner, points) == pytest.approx(rings.hoop_tension(load, 1.0))
    upright = rings.buttress_gradient(load / G, 1.0 / math.cos(math.pi / points), points)
    assert upright == pytest.approx(2.0 * load * math.tan(math.pi / points))


@given(st.lists(st.floats(0.05, 0.6), min_size=1, max_size=6), st.floats(0.1, 4.0))
def test_rings_carry_at_least_the_whole_water(gaps: list[float], depth: float) -> None:
    levels = np.cumsum([0.0, *gaps])
    loads = rings.ring_loads(levels, depth, DENSITY)
    whole = pressure.wall_thrust(depth, DENSITY)
    lowest_only = DENSITY * G * min(gaps[0] / 2.0, depth) ** 2 / 2.0
    assert loads.sum() == pytest.approx(whole + lowest_only)


@given(st.floats(0.0, 0.49))
def test_foot_pushes_back_what_stands_on_it(off: float) -> None:
    foot = towers.footing_pressure(1000.0, off, 1.0, 2.0)
    assert (foot.peak + foot.least) / 2.0 * foot.contact * 2.0 == pytest.approx(1000.0)


@given(st.floats(0.001, 0.2), st.floats(0.002, 0.4), st.integers(1, 5))
def test_planks_made_one_are_never_weaker(breadth: float, depth: float, pieces: int) -> None:
    free = members.plank_section(breadth, depth, pieces)
    one = members.plank_section(breadth, depth, pieces, made_one=True)
    assert one.weak == pytest.approx(free.weak * pieces**2)
    assert one.strong == pytest.approx(free.strong)
    assert one.torsion >= free.torsion * (1.0 - 1e-9)
    polar = breadth * depth * (breadth**2 + depth**2) / 12.0
    assert members.rectangle_torsion(breadth, depth) < polar


def test_arrays_give_what_numbers_give() -> None:
    depths = np.array([0.3, 0.9, 1.2])
    many = walls.stud_deflection(1.2, broadcast(depths), 4000.0, 2e5)
    alone = [walls.stud_deflection(1.2, float(depth), 4000.0, 2e5).deflection for depth in depths]
    assert many.deflection == pytest.approx(alone)
    counts = beams.equal_spans(1.0, 1.0, np.array([1, 3, 40]), 1.0)  # type: ignore[arg-type]  # arrays broadcast
    assert counts.moment == pytest.approx([0.125, 0.1, 0.10567], abs=1e-5)
    feet = towers.footing_pressure(1.0, broadcast([0.0, 0.3, 0.6]), 1.0, 1.0)
    assert feet.peak == pytest.approx([1.0, 10.0 / 3.0, math.inf])


def test_water_growing_only_makes_it_worse() -> None:
    depths = broadcast(np.linspace(0.05, 1.2, 60))
    loads = walls.stud_line_load(depths, DENSITY, 0.4)
    bows = walls.stud_deflection(1.2, depths, loads, 2e5).deflection
    assert np.all(np.diff(bows) > 0.0)


@pytest.mark.parametrize(
    "ask",
    [
        lambda: pressure.water_pressure(-0.1, DENSITY),
        lambda: pressure.water_pressure(math.nan, DENSITY),
        lambda: walls.stud_moment(1.2, 1.25, 4000.0),
        lambda: walls.stud_moment(1.2, 0.0, 4000.0),
        lambda: walls.rim_line_load(1.2, 1.3, DENSITY),
        lambda: walls.stud_shear(1.2, 1.0, 4000.0, 1.3),
        lambda: beams.hydrostatic_beam(np.array([0.0, 1.0]), 1.1, 1e4, 1e4),
        lambda: beams.continuous_beam(np.array([1.0, 0.0]), 1.0, 1e4),
        lambda: beams.patched_beam(np.array([1.0]), [beams.LinePatch(0, 0.5, 1.5, 1.0, 1.0)], 1e4),
        lambda: beams.patched_beam(np.array([1.0]), [beams.LinePatch(1, 0.0, 1.0, 1.0, 1.0)], 1e4),
        lambda: beams.equal_spans(1.0, 1.0, 0, 1.0),
        lambda: members.rectangle_area(0.0, 0.1),
        lambda: members.plank_section(0.04, 0.1, share_left=1.2),
        lambda: members.net_area(1e-3, 4, 0.02, 0.04),
        lambda: pressure.sloped_depth(1.0, 1.1, 2.0, 2.5),
        lambda: pressure.sloped_wall_push(0.0, 0.0, 2.0, DENSITY),
        lambda: rings.polygon_side(0.3, 2),
        lambda: rings.ring_loads(np.array([0.0, 0.3, 0.3]), 1.0, DENSITY),
        lambda: towers.cone_uplift(DENSITY, 0.3, math.pi / 4.0, 0.4),
        lambda: towers.cone_seat(10.0, 0.3, math.pi / 2.0),
        lambda: towers.buttressed_base(0.3, 0.1, 2),
        lambda: buttresses.raking_post_moment(1.2, DENSITY, 1.0, 0.3),
    ],
)
def test_impossible_input_is_refused(ask: Callable[[], object]) -> None:
    with pytest.raises(ImpossibleInput):
        ask()
