"""Laws that timber rules must keep: mirrors, limits, order, and what may never help."""

from __future__ import annotations

import dataclasses
import math
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tidestead.core.errors import ImpossibleInput
from tidestead.physics.structure import (
    eurocode,
    eurocode_fasteners,
    eurocode_groups,
    eurocode_withdrawal,
    nds,
    nds_fasteners,
    nds_groups,
    nds_panels,
    nds_withdrawal,
    plywood,
    wood_movement,
)

diameters = st.floats(0.002, 0.02)
lengths = st.floats(0.008, 0.15)
bearings = st.floats(5e6, 60e6)
moments = st.floats(1.0, 300.0)
joints = st.builds(eurocode_fasteners.EcJoint, diameters, lengths, lengths, bearings, bearings, moments)
shares = st.floats(0.0, 1.0)
temperatures = st.floats(-10.0, 50.0)
thin = st.lists(st.floats(0.0005, 0.004), min_size=3, max_size=15)

SPF = nds.LumberReference(6.03e6, 3.10e6, 0.93e6, 2.93e6, 7.93e6, 9.65e9, 3.52e9)


@given(diameters, lengths, lengths, bearings, bearings, moments)
def test_johansen_cares_not_which_side_is_the_head(
    d: float, t1: float, t2: float, f1: float, f2: float, m: float
) -> None:
    one = eurocode_fasteners.johansen_modes(eurocode_fasteners.EcJoint(d, t1, t2, f1, f2, m))
    other = eurocode_fasteners.johansen_modes(eurocode_fasteners.EcJoint(d, t2, t1, f2, f1, m))
    assert (one.a, one.c, one.d, one.f) == pytest.approx((other.b, other.c, other.e, other.f), rel=1e-9)


@given(diameters, lengths, lengths, bearings, bearings, st.floats(3e8, 7e8))
def test_yield_modes_care_not_which_member_is_the_main_one(
    d: float, lm: float, ls: float, fm: float, fs: float, fy: float
) -> None:
    one = nds_fasteners.yield_modes(nds_fasteners.NdsJoint(d, lm, ls, fm, fs, fy))
    other = nds_fasteners.yield_modes(nds_fasteners.NdsJoint(d, ls, lm, fs, fm, fy))
    assert one.main_bearing == pytest.approx(other.side_bearing, rel=1e-12)
    assert one.both_bearing == pytest.approx(other.both_bearing, rel=1e-9)
    assert one.main_hinge == pytest.approx(other.side_hinge, rel=1e-9)
    assert one.two_hinges == pytest.approx(other.two_hinges, rel=1e-12)


@given(joints, st.floats(1.0, 2.0))
def test_more_wood_or_steel_never_weakens_a_joint(joint: eurocode_fasteners.EcJoint, more: float) -> None:
    plain = eurocode_fasteners.shear_capacity(joint).value
    for name in ("head_length", "point_length", "head_embedment", "point_embedment", "yield_moment"):
        stronger = dataclasses.replace(joint, **{name: getattr(joint, name) * more})
        assert eurocode_fasteners.shear_capacity(stronger).value >= plain * (1 - 1e-9)


@given(joints, st.floats(0.0, 20e3), shares)
def test_rope_effect_helps_no_more_than_its_share(
    joint: eurocode_fasteners.EcJoint, axial: float, most: float
) -> None:
    plain = eurocode_fasteners.shear_capacity(joint).value
    helped = eurocode_fasteners.shear_capacity(joint, axial, most).value
    assert plain * (1 - 1e-12) <= helped <= plain * (1 + most) * (1 + 1e-12)
    assert helped <= plain + axial / 4.0 + 1e-6


@given(st.integers(2, 12), st.floats(0.007, 0.025), st.floats(0.05, 0.3), st.floats(1.0, 6.0))
def test_a_row_gives_less_than_its_number_and_more_than_one(
    number: int, diameter: float, spacing: float, ratio: float
) -> None:
    row = nds_groups.DowelRow(number, diameter, spacing, 9.65e9, 5e-3 * ratio, 9.65e9, 5e-3)
    turned = dataclasses.replace(row, main_area=5e-3, side_area=5e-3 * ratio)
    factor = nds_groups.group_action_factor(row)
    assert 1.0 / number < factor <= 1.0 + 1e-12
    assert factor == pytest.approx(nds_groups.group_action_factor(turned), rel=1e-9)
    assert 1.0 <= eurocode_groups.bolts_in_row(number, 5 * diameter, diameter) < number


@given(thin, st.booleans())
def test_a_sheet_turned_over_is_the_same_sheet(veneers: list[float], along: bool) -> None:
    odd = (*veneers, veneers[0]) if len(veneers) % 2 == 0 else tuple(veneers)
    one = plywood.strip_section(plywood.Makeup(odd, 12e9, 0.4e9), along)
    other = plywood.strip_section(plywood.Makeup(odd[::-1], 12e9, 0.4e9), along)
    assert one.stiffness == pytest.approx(other.stiffness, rel=1e-9)
    assert one.edge == pytest.approx(other.edge, rel=1e-9)
    assert one.roller == pytest.approx(other.roller, rel=1e-9)


@given(st.integers(1, 8), st.floats(0.001, 0.004), st.floats(0.5, 3.0))
def test_both_ways_of_an_even_sheet_share_one_modulus(half: int, veneer: float, scale: float) -> None:
    """Along and across together make the sum of the two veneer moduli; all sizes scale as they should."""
    plies = 2 * half + 1
    makeup = plywood.Makeup((veneer,) * plies, 12e9, 0.4e9)
    along, across = plywood.strip_section(makeup, True), plywood.strip_section(makeup, False)
    assert along.modulus + across.modulus == pytest.approx(12.4e9, rel=1e-9)
    larger = plywood.strip_section(plywood.Makeup((veneer * scale,) * plies, 12e9, 0.4e9), True)
    assert larger.stiffness == pytest.approx(along.stiffness * scale**3, rel=1e-9)
    assert larger.edge == pytest.approx(along.edge * scale**2, rel=1e-9)
    assert larger.roller == pytest.approx(along.roller * scale, rel=1e-9)


def test_a_sheet_of_one_modulus_is_a_plain_board() -> None:
    """Where grain makes no difference the strip is a rectangle: t**3/12, t**2/6 and 2*t/3."""
    section = plywood.strip_section(plywood.Makeup((0.003,) * 6, 10e9, 10e9), True)
    assert section.stiffness == pytest.approx(10e9 * 0.018**3 / 12)
    assert section.plain_edge == pytest.approx(section.edge)
    assert section.roller == pytest.approx(0.018 / 1.5, rel=0.02)


@given(temperatures, st.floats(0.0, 0.97), st.floats(0.001, 0.03))
def test_damper_air_makes_wetter_wood(temp_c: float, humidity: float, more: float) -> None:
    dry = wood_movement.equilibrium_moisture(temp_c, humidity)
    damp = wood_movement.equilibrium_moisture(temp_c, humidity + more)
    assert 0.0 <= dry < damp < 35.0


@given(st.floats(0.01, 3.0), st.floats(0.0, 40.0), st.floats(0.0, 40.0))
def test_wood_returns_to_its_size(size: float, first: float, last: float) -> None:
    out = wood_movement.dimension_change(size, 0.0027, first, last)
    back = wood_movement.dimension_change(size, 0.0027, last, first)
    assert out == pytest.approx(-back, abs=1e-15)
    grown = wood_movement.shrinkage_change(size, 7.6, first, last)
    assert wood_movement.shrinkage_change(size + grown, 7.6, last, first) == pytest.approx(-grown, abs=1e-12)


@given(st.floats(20.0, 65.0), st.booleans(), st.booleans(), st.booleans())
def test_no_hardship_makes_lumber_stronger(temp_c: float, wet: bool, incised: bool, flat: bool) -> None:
    dry = nds.NdsConditions(0.9, 0.0381, 0.1397, flat=flat)
    hard = dataclasses.replace(dry, temp_c=temp_c, wet=wet, incised=incised)
    easy, tried = nds.adjusted_lumber(SPF, dry), nds.adjusted_lumber(SPF, hard)
    for name in ("bending", "tension", "shear", "compression_across", "compression", "modulus"):
        assert getattr(tried, name) <= getattr(easy, name) * (1 + 1e-12)


def test_wood_hotter_than_the_table_proves_nothing() -> None:
    hot = nds.NdsConditions(0.9, 0.0381, 0.1397, temp_c=70.0)
    assert math.isnan(nds.adjusted_lumber(SPF, hot).bending)
    assert math.isnan(nds_fasteners.lateral_factor(0.004, nds_fasteners.JointConditions(0.9, temp_c=70.0)))


@given(st.floats(0.05, 0.7), st.floats(0.002, 0.01))
def test_stainless_nails_hold_less_than_bright_ones_in_dense_wood(gravity: float, diameter: float) -> None:
    """465*G**1.5 falls below 1380*G**2.5 from G = 0.337 on."""
    smooth = nds_withdrawal.smooth_nail_withdrawal(gravity, diameter)
    stainless = nds_withdrawal.stainless_nail_withdrawal(gravity, diameter)
    assert (stainless < smooth) == (gravity > 465 / 1380)


@pytest.mark.parametrize("kind", ["smooth nail", "ring nail", "stainless nail", "wood screw"])
def test_only_lag_screws_hold_in_end_grain(kind: nds_withdrawal.Holding) -> None:
    use = nds_fasteners.JointConditions(0.9, end_grain=True)
    assert nds_withdrawal.withdrawal_value(kind, 0.5, 0.004, 0.05, use).value == 0.0
    assert nds_withdrawal.withdrawal_value("lag screw", 0.5, 0.01, 0.05, use).value > 0.0
    with pytest.raises(ImpossibleInput, match="30 degrees"):
        eurocode_withdrawal.screw_withdrawal(12e6, 0.008, 0.08, grain_angle_rad=0.1)


@given(st.floats(0.0, 5.0), st.floats(0.0, 5.0), st.booleans())
def test_slenderer_columns_bear_less(one: float, two: float, glulam: bool) -> None:
    low, high = sorted((one, two))
    strong, weak = eurocode.column_factor(low, glulam), eurocode.column_factor(high, glulam)
    assert 0.0 < weak <= strong <= 1.0
    assert high <= 0.3 or weak < 1.0 / high**2


@given(st.floats(0.0, 1.0), st.booleans())
def test_strand_board_never_creeps_less_than_plywood(share: float, wet: bool) -> None:
    board = nds_panels.panel_creep_factor("strand board", wet, share)
    assert board <= nds_panels.panel_creep_factor("plywood", wet, share) <= 1.0


@given(st.floats(0.05, 0.4), st.floats(0.05, 0.95))
def test_a_pull_nearer_the_far_edge_splits_less(depth: float, share: float) -> None:
    near = eurocode_groups.splitting_capacity(0.045, depth, depth * share)
    assert eurocode_groups.splitting_capacity(0.045, depth, depth * min(share * 1.05, 0.99)) > near


@pytest.mark.parametrize(
    "wrong",
    [
        lambda: nds_fasteners.dowel_bearing(-0.5, 0.004),
        lambda: nds_fasteners.fasteners_needed(100.0, 0.0),
        lambda: eurocode.solid_depth_factor(0.0, 350.0),
        lambda: eurocode_fasteners.nail_embedment(350.0, -0.003),
        lambda: eurocode_withdrawal.washer_capacity(2.5e6, 0.012, 0.013),
        lambda: plywood.strip_section(plywood.Makeup((0.003, 0.003), 12e9), True),
        lambda: wood_movement.equilibrium_moisture(20.0, 1.2),
        lambda: eurocode_groups.splitting_capacity(0.045, 0.1, 0.1),
        lambda: nds_fasteners.nail_bending_yield(0.012),
    ],
)
def test_what_nature_does_not_have_is_refused(wrong: Callable[[], object]) -> None:
    with pytest.raises(ImpossibleInput):
        wrong()
