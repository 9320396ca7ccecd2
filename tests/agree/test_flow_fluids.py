"""Friction, fittings and pipe sizes against the library fluids, pumps' curves against scipy.

The library's look-ups by name are traps: they answer something near in spelling. Nothing of ours asks them.
"""

from __future__ import annotations

import math
from collections.abc import Callable

import fluids
import numpy as np
import pytest
from fluids.atmosphere import ATMOSPHERE_1976
from fluids.piping import schedule_lookup
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.interpolate import PchipInterpolator

from tests.many import many
from tidestead.catalog import table
from tidestead.physics.flow.fittings import (
    bend_k,
    k_from_kv,
    multiple_k,
    sudden_widening_k,
    turbulent_factor,
)
from tidestead.physics.flow.pipes import colebrook_factor, friction_factor, pipe_loss
from tidestead.physics.flow.pumps import PumpLaw, PumpPoint, pump_head
from tidestead.physics.flow.suction import air_pressure
from tidestead.physics.flow.tees import Tee, converging_k, diverging_k

TURBULENT = st.floats(math.log10(4001.0), 8.0).map(lambda power: 10.0**power)
ROUGH = st.one_of(st.just(0.0), st.floats(-6.0, math.log10(0.05)).map(lambda power: 10.0**power))


@given(elevation=st.floats(-400.0, 10900.0))
@settings(deadline=None, max_examples=many(100))
def test_air_of_a_height(elevation: float) -> None:
    assert air_pressure(elevation) == pytest.approx(ATMOSPHERE_1976(elevation).P, rel=1e-6)


@given(reynolds=TURBULENT, rough=ROUGH)
@settings(deadline=None, max_examples=many(200))
def test_colebrook_is_solved(reynolds: float, rough: float) -> None:
    theirs = fluids.friction_factor(Re=reynolds, eD=rough)
    assert colebrook_factor(reynolds, rough).factor == pytest.approx(theirs, rel=1e-9)
    assert friction_factor(reynolds, rough) == pytest.approx(theirs, rel=1e-9)


@given(reynolds=TURBULENT, rough=ROUGH)
@settings(deadline=None, max_examples=50)
def test_its_slope_is_that_of_the_factor(reynolds: float, rough: float) -> None:
    step = 1e-5 * reynolds
    ends = [fluids.friction.Colebrook(reynolds + way * step, rough) for way in (-1.0, 1.0)]
    assert colebrook_factor(reynolds, rough).slope == pytest.approx(
        (ends[1] - ends[0]) / (2.0 * step), rel=1e-4
    )


def test_laminar_loss_is_that_of_hagen_and_poiseuille() -> None:
    flow, bore, viscosity = 1e-5, 0.05, 1e-6
    velocity = flow / (math.pi / 4.0 * bore**2)
    theirs = (
        fluids.friction_factor(Re=velocity * bore / viscosity) * 10.0 / bore * velocity**2 / (2.0 * 9.80665)
    )
    assert pipe_loss(flow, 10.0, bore, 0.0, viscosity) == pytest.approx(theirs, rel=1e-12)


@pytest.mark.parametrize("bore", [0.0158, 0.0266, 0.0525, 0.1023, 0.2027])
def test_turbulent_factor_is_within_the_rounding_of_the_table_of_its_fit(bore: float) -> None:
    assert turbulent_factor(bore) == pytest.approx(fluids.friction.ft_Crane(bore), rel=0.016)
    elbow = fluids.fittings.bend_rounded(Di=bore, angle=90.0, method="Crane standard")
    assert multiple_k(30.0, bore) == pytest.approx(elbow, rel=0.016)
    ball = fluids.fittings.K_ball_valve_Crane(D1=bore, D2=bore, angle=0.0)
    assert multiple_k(table("valves")["ball"].si("multiple"), bore) == pytest.approx(ball, rel=0.016)


@pytest.mark.parametrize(
    ("name", "theirs"),
    [
        ("gate", lambda bore: fluids.fittings.K_gate_valve_Crane(D1=bore, D2=bore, angle=0.0)),
        ("globe", lambda bore: fluids.fittings.K_globe_valve_Crane(D1=bore, D2=bore)),
        ("butterfly", lambda bore: fluids.fittings.K_butterfly_valve_Crane(D=bore)),
        ("check-swing", lambda bore: fluids.fittings.K_swing_check_valve_Crane(D=bore, angled=True)),
        ("check-swing-straight", lambda bore: fluids.fittings.K_swing_check_valve_Crane(D=bore, angled=False)),
        ("check-spring", lambda bore: fluids.fittings.K_lift_check_valve_Crane(D1=bore, D2=bore, angled=False)),
        ("foot-hinged", lambda bore: fluids.fittings.K_foot_valve_Crane(D=bore, style=1)),
        ("foot-poppet", lambda bore: fluids.fittings.K_foot_valve_Crane(D=bore, style=0)),
    ],
)  # fmt: skip
def test_multiples_of_valves(name: str, theirs: Callable[[float], float]) -> None:
    ours = multiple_k(table("valves")[name].si("multiple"), 0.0525)
    assert ours == pytest.approx(theirs(0.0525), rel=0.016)


@pytest.mark.parametrize("angle", [45.0, 90.0, 180.0])
@pytest.mark.parametrize("radius", [2.0, 3.0, 6.0, 10.0])
def test_bends(angle: float, radius: float) -> None:
    theirs = fluids.fittings.bend_rounded_Crane(Di=0.1, angle=angle, bend_diameters=radius)
    assert bend_k(radius, math.radians(angle), 0.1) == pytest.approx(theirs, rel=0.06)


def test_steps_and_valve_coefficients() -> None:
    theirs = fluids.fittings.diffuser_sharp(Di1=0.05, Di2=0.1, method="Rennels")
    assert sudden_widening_k(0.05, 0.1) == pytest.approx(theirs, rel=1e-12)
    assert k_from_kv(12.0 / 3600.0, 0.05) == pytest.approx(fluids.fittings.Kv_to_K(12.0, 0.05), rel=1e-3)


@given(
    share=st.floats(0.01, 0.99).filter(lambda q: min(abs(q - 0.4), abs(q - 0.6)) > 0.0101),
    angle=st.sampled_from([30.0, 45.0, 90.0]),
    narrow=st.sampled_from([0.5, 0.7, 0.9, 1.0]),
)
@settings(deadline=None, max_examples=many(200))
def test_tees(share: float, angle: float, narrow: float) -> None:
    tee = Tee(0.1, 0.1 * narrow, math.radians(angle))
    legs = {"D_run": 0.1, "D_branch": 0.1 * narrow, "Q_run": 1.0 - share, "Q_branch": share, "angle": angle}
    joined, left = converging_k(tee, share), diverging_k(tee, share)
    assert joined.branch == pytest.approx(
        fluids.fittings.K_branch_converging_Crane(**legs), rel=1e-9, abs=1e-12
    )
    assert joined.run == pytest.approx(fluids.fittings.K_run_converging_Crane(**legs), rel=1e-9, abs=1e-12)
    assert left.branch == pytest.approx(fluids.fittings.K_branch_diverging_Crane(**legs), rel=1e-9, abs=1e-12)
    assert left.run == pytest.approx(fluids.fittings.K_run_diverging_Crane(**legs), rel=1e-9, abs=1e-12)


def test_bores_are_those_of_plastic_pipe_not_of_steel() -> None:
    """The library's schedule 40 is steel; ASTM D1785 is named apart."""
    rows = {row.name: row for row in table("pipes")}
    checked = 0
    for schedule, stem in (("40D1785", "pvc40"), ("80D1785", "pvc80"), ("PVCD2665", "dwv")):
        sizes, bores, outers, _ = schedule_lookup[schedule][:4]
        for size, bore, outer in zip(sizes, bores, outers, strict=False):
            row = rows.get(f"{stem}-{size:g}in")
            if row is not None:
                assert row.si("bore") == pytest.approx(bore / 1e3, abs=1e-7)
                assert row.si("outer") == pytest.approx(outer / 1e3, abs=5e-5)
                checked += 1
    assert checked == sum(row.name.split("-")[0] in ("pvc40", "pvc80", "dwv") for row in rows.values())


def test_bores_are_outer_less_two_walls() -> None:
    rows = [row for row in table("pipes") if row.has("wall")]
    assert len(rows) > 40
    for row in rows:
        assert row.si("bore") == pytest.approx(row.si("outer") - 2.0 * row.si("wall"), abs=1e-5), row.name


def test_roughness_is_of_plastic_not_of_a_name() -> None:
    """Asked for PVC the library answers concrete, 0.8 mm."""
    assert fluids.material_roughness("PVC") > 1e-4
    assert all(row.si("roughness") < 2e-6 for row in table("pipes") if row.name.startswith(("pvc", "dwv")))


@given(
    drops=st.lists(st.floats(0.05, 3.0), min_size=2, max_size=7),
    widths=st.lists(st.floats(0.1, 2.0), min_size=7, max_size=7),
    along=st.floats(0.0, 1.0),
)
@settings(deadline=None, max_examples=many(100))
def test_pump_curves_are_scipys_monotone_cubics(
    drops: list[float], widths: list[float], along: float
) -> None:
    flows = np.concatenate([[0.0], np.cumsum(widths[: len(drops)])]) * 1e-3
    heads = 20.0 - np.concatenate([[0.0], np.cumsum(drops)])
    pump = PumpLaw(
        tuple(PumpPoint(float(flow), float(head)) for flow, head in zip(flows, heads, strict=True))
    )
    flow = float(flows[-1] * along)
    theirs = PchipInterpolator(flows, heads)
    assert pump_head(pump, flow) == pytest.approx(float(theirs(flow)), abs=1e-10)
    slope = -pump.at(min(flow, flows[-1] * (1.0 - 1e-12))).slope
    assert slope == pytest.approx(float(theirs(flow, 1)), rel=1e-6, abs=1e-6)
