"""Laws that loads, glass, seals, linings, ground and sloshing keep whatever the numbers."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tidestead.core.errors import ImpossibleInput
from tidestead.physics import lining, seawater
from tidestead.physics.structure import (
    acrylic,
    anchors,
    glass,
    ground,
    hydrostatics,
    joints,
    membranes,
    seals,
    sloshing,
)

metres = st.floats(0.05, 10.0)
small = st.floats(0.001, 0.2)
densities = st.floats(990.0, 1035.0)
salinities = st.floats(0.0, 42.0)
temps = st.floats(0.0, 38.0)
plies = st.lists(st.floats(0.003, 0.025), min_size=2, max_size=5)


@given(salinities, temps, temps)
def test_a_hydrometer_reading_goes_there_and_back(sal_psu: float, temp_c: float, reference: float) -> None:
    reading = seawater.specific_gravity(sal_psu, temp_c, reference)
    found = seawater.salinity_from_specific_gravity(reading, temp_c, reference)
    assert found == pytest.approx(sal_psu, abs=1e-8)


@given(salinities, st.floats(0.1, 5.0), temps)
def test_salt_makes_water_heavier(sal_psu: float, more: float, temp_c: float) -> None:
    assert seawater.density(sal_psu + more, temp_c) > seawater.density(sal_psu, temp_c)


@given(st.floats(25.0, 42.0), st.floats(0.0, 36.0), st.floats(0.2, 4.0))
def test_warm_seawater_is_lighter(sal_psu: float, temp_c: float, warmer: float) -> None:
    assert seawater.density(sal_psu, temp_c + warmer) < seawater.density(sal_psu, temp_c)


@pytest.mark.parametrize(("reading", "temp_c"), [(0.9, 25.0), (1.2, 25.0), (1.5, 0.0)])
def test_a_reading_of_no_water_is_refused(reading: float, temp_c: float) -> None:
    with pytest.raises(ImpossibleInput, match="no water"):
        seawater.salinity_from_specific_gravity(reading, temp_c, 25.0)


@pytest.mark.parametrize("sal_psu", [-1.0, math.nan, math.inf])
def test_impossible_salinity_is_refused(sal_psu: float) -> None:
    with pytest.raises(ImpossibleInput):
        seawater.density(sal_psu, 25.0)


@given(densities, metres, metres)
def test_doubling_a_window_wet_to_its_top_quadruples_the_push(rho: float, depth: float, extra: float) -> None:
    once = hydrostatics.window_load(rho, depth, depth).push
    assert hydrostatics.window_load(rho, 2 * depth, 2 * depth + extra).push == pytest.approx(4 * once)


@given(densities, metres, metres, metres)
def test_two_windows_stacked_push_as_one(rho: float, low: float, high: float, over: float) -> None:
    head = low + high + over
    whole = hydrostatics.window_load(rho, head, low + high)
    lower = hydrostatics.window_load(rho, head, low)
    upper = hydrostatics.window_load(rho, head - low, high)
    assert whole.push == pytest.approx(lower.push + upper.push)
    moment = lower.push * lower.above + upper.push * (low + upper.above)
    assert whole.push * whole.above == pytest.approx(moment)


@given(densities, metres, metres)
def test_a_window_is_pushed_below_its_middle(rho: float, head: float, height: float) -> None:
    load = hydrostatics.window_load(rho, head, height)
    assert load.wet / 3.0 - 1e-12 <= load.above <= load.wet / 2.0 + 1e-12
    assert 0.0 <= load.pressure_top <= load.pressure_bottom


@given(metres)
def test_many_sides_make_a_circle(across: float) -> None:
    assert hydrostatics.polygon_area(across, 20_000) == pytest.approx(
        hydrostatics.round_area(across), rel=1e-7
    )
    assert hydrostatics.polygon_area(across, 12) > hydrostatics.round_area(across)


@given(metres, metres, metres, densities)
def test_water_weighs_what_it_presses_on_the_floor(
    length: float, width: float, depth: float, rho: float
) -> None:
    area = length * width
    weight = hydrostatics.weight_of(
        hydrostatics.water_mass(hydrostatics.box_volume(length, width, depth), rho)
    )
    assert hydrostatics.floor_pressure(depth, rho, 0.0, area) * area == pytest.approx(weight)
    assert hydrostatics.prism_volume(area, depth) == pytest.approx(
        hydrostatics.box_volume(length, width, depth)
    )


@given(plies)
def test_a_laminate_is_stiffer_than_its_thickest_ply_and_softer_than_solid(layers: list[float]) -> None:
    stiff = glass.laminate_thickness(layers)
    assert max(layers) < stiff < sum(layers)
    assert sum(part.share for part in glass.ply_shares(layers)) == pytest.approx(1.0)
    assert glass.broken_ply_rise(layers) > 1.0


@given(plies)
def test_the_stress_of_each_ply_adds_up_to_the_moment(layers: list[float]) -> None:
    """Each ply bears sigma_i t_i**2/6; with sigma = 6 M/t_stress**2 the sum is M again."""
    parts = glass.ply_shares(layers)
    borne = [t**2 / part.thickness_for_stress**2 for t, part in zip(layers, parts, strict=True)]
    assert sum(borne) == pytest.approx(1.0)


@given(st.floats(1e-3, 4e5), st.floats(1.01, 100.0))
def test_glass_weakens_with_time(hours: float, longer: float) -> None:
    assert glass.load_duration_factor(hours * longer) <= glass.load_duration_factor(hours)


def test_a_single_sheet_has_no_ply_to_spare() -> None:
    with pytest.raises(ImpossibleInput, match="single sheet"):
        glass.broken_ply_rise([0.02])


@given(st.floats(-500.0, 500.0), st.floats(0.0, 500.0), small)
def test_doubling_the_thickness_quarters_the_stress(least: float, more: float, thickness: float) -> None:
    thin = acrylic.face_stress(least + more, least, thickness)
    thick = acrylic.face_stress(least + more, least, 2.0 * thickness)
    assert thick.water_side == pytest.approx(thin.water_side / 4.0)
    assert thick.air_side == pytest.approx(thin.air_side / 4.0)


@given(st.floats(-500.0, 500.0), st.floats(0.0, 500.0), small)
def test_turning_the_load_round_swaps_the_faces(least: float, more: float, thickness: float) -> None:
    there = acrylic.face_stress(least + more, least, thickness)
    back = acrylic.face_stress(-least, -(least + more), thickness)
    assert back.water_side == pytest.approx(there.air_side)
    assert back.air_side == pytest.approx(there.water_side)


@given(st.floats(-10.0, 120.0))
def test_a_warmer_window_is_never_credited_with_more(temp_c: float) -> None:
    basis = acrylic.CreepBasis(0.5, 0.33, 23.0, 80.0)
    cooler, here = acrylic.creep_runs(basis, temp_c - 1.0), acrylic.creep_runs(basis, temp_c)
    assert min(here.ratios) <= min(cooler.ratios)
    assert here.too_hot >= cooler.too_hot
    assert bool(here.caution) == (temp_c > basis.test_temp_c)


@given(st.lists(st.floats(-0.01, 0.01), max_size=8))
def test_a_joint_travels_what_it_opens_and_closes(parts: list[float]) -> None:
    moves = joints.joint_movement(parts)
    assert moves.opening >= 0.0
    assert moves.closing >= 0.0
    assert moves.opening - moves.closing == pytest.approx(sum(parts), abs=1e-12)
    assert moves.travel == pytest.approx(moves.opening + moves.closing)


@given(small, st.floats(0.05, 0.27), st.floats(0.05, 0.27))
def test_lumber_that_dries_and_wets_again_is_as_it_was(size: float, moisture: float, later: float) -> None:
    dried = joints.lumber_size(size, moisture, later, "width")
    assert joints.lumber_size(dried, later, moisture, "width") == pytest.approx(size)


@given(small, small, small)
def test_real_stretch_is_less_than_shear(movement: float, thickness: float, arm: float) -> None:
    assert seals.shear_stretch(movement, thickness) <= seals.shear_strain(movement, thickness)
    assert seals.rotation_strain(0.01, arm, thickness) == seals.rotation_strain(-0.01, arm, thickness)


@given(st.floats(1e-4, 0.01), st.floats(2e-4, 5e-3), st.floats(0.0, 5e-3))
def test_a_film_never_bridges_more_than_was_tested(tested: float, tested_film: float, film: float) -> None:
    bridged = membranes.bridgeable_opening(tested, tested_film, film)
    assert 0.0 <= bridged <= tested * (1.0 + 1e-12)


@given(st.floats(1e-4, 0.02), st.floats(0.3, 1.0), st.floats(1e-4, 5e-3))
def test_what_covers_an_area_leaves_its_film(volume: float, solids: float, film: float) -> None:
    area = volume * lining.spreading_rate(solids, film, 1.0)
    assert lining.dry_film(lining.wet_film(volume, area), solids, 1) == pytest.approx(film)


@given(st.floats(0.08, 0.4), st.floats(15e6, 40e6), st.floats(5e6, 80e6))
def test_an_edge_bears_less_than_the_middle_of_a_slab(t: float, strength: float, spring: float) -> None:
    slab = ground.GroundSlab(t, strength, spring)
    thicker = ground.GroundSlab(1.2 * t, strength, spring)
    assert ground.slab_edge_line_load(slab) < ground.slab_line_load(slab) < ground.slab_line_load(thicker)


@given(st.floats(0.05, 0.5), st.floats(0.05, 1.0), st.floats(0.08, 0.4))
def test_anchors_hold_more_away_from_the_edge(edge: float, spacing: float, slab: float) -> None:
    near = anchors.EdgeAnchor(0.012, 0.1, edge, spacing, slab, 20e6)
    far = anchors.EdgeAnchor(0.012, 0.1, 1.5 * edge, spacing, slab, 20e6)
    assert anchors.row_breakout(far) >= anchors.row_breakout(near) * (1.0 - 1e-9)
    assert anchors.row_breakout(near) <= anchors.single_breakout(near)


@given(st.floats(0.3, 8.0), st.floats(0.3, 3.0), densities, st.floats(0.0, 10.0), st.floats(0.0, 10.0))
def test_shaken_water_is_shared_out(
    along: float, depth: float, rho: float, stiff: float, slow: float
) -> None:
    rigid = sloshing.impulsive_share(along, depth)
    free = sloshing.convective_share(along, depth)
    assert 0.0 < rigid < 1.0
    assert 0.0 < free < 1.0
    assert rigid + free < 1.08, "the two parts of Housner's box overlap by no more than 8 %"
    assert along > 4.0 * depth or rigid + free > 0.98, "nothing is lost but in very shallow water"
    load = sloshing.slosh_load(sloshing.ShakenBox(along, 1.0, depth, rho, stiff, slow))
    assert max(load.impulsive, load.convective) <= load.force <= load.impulsive + load.convective + 1e-6


@given(st.floats(0.3, 3.0), st.floats(0.0, 1.0), st.floats(1.0, 1e5))
def test_the_line_on_the_wall_adds_up_to_half_the_force(depth: float, share: float, force: float) -> None:
    """A straight line: its sum and its centre follow from its two ends."""
    height = share * depth
    low = sloshing.wall_line_load(force, height, depth, 0.0)
    high = sloshing.wall_line_load(force, height, depth, depth)
    assert depth * (low + high) / 2.0 == pytest.approx(force / 2.0)
    assert depth**2 * (low + 2.0 * high) / 6.0 == pytest.approx(force / 2.0 * height, abs=1e-9 * force)
