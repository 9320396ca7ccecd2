"""What electricity must keep to, whatever the numbers; and the table of its limits against the formulas."""

from __future__ import annotations

import math
from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tidestead.catalog import Row, table
from tidestead.core.errors import ImpossibleInput
from tidestead.physics.power import backup, cables, leakage, loads
from tidestead.physics.power.backup import BatteryUse
from tidestead.physics.power.loads import Load

AREA = st.floats(0.5e-6, 120e-6)
AMPS = st.floats(0.01, 200.0)
METRES = st.floats(0.1, 500.0)
FACTOR = st.floats(0.05, 1.0)
SHARE = st.floats(0.1, 1.0)
WARMTH = st.floats(-20.0, 90.0)
LOADS = st.lists(st.tuples(AMPS, st.floats(1.0, 8.0)), max_size=6).map(
    lambda rows: tuple(Load(running, running * multiple) for running, multiple in rows)
)
USE = st.builds(BatteryUse, SHARE, SHARE, SHARE, SHARE, st.floats(0.0, 100.0))
LIMITS = table("electric_limits")


def _of(kind: str) -> list[Row]:
    return [row for row in LIMITS if row.tag("kind") == kind]


@given(AREA, WARMTH)
def test_a_conductor_resists_more_than_bare_copper_and_not_much_more(area: float, temp_c: float) -> None:
    pure, most = cables.copper_resistance(area, temp_c), cables.conductor_resistance(area, temp_c)
    assert 1.04 < most / pure < 1.13


@given(AREA, st.floats(1.01, 4.0), WARMTH)
def test_thicker_or_colder_copper_resists_less(area: float, times: float, temp_c: float) -> None:
    here = cables.conductor_resistance(area, temp_c)
    assert cables.conductor_resistance(area * times, temp_c) < here
    assert cables.conductor_resistance(area, temp_c + 1.0) > here


def test_resistance_runs_without_a_jump_through_every_size() -> None:
    areas = np.geomspace(0.4e-6, 150e-6, 20_000)
    found = np.asarray(cables.conductor_resistance(areas, 20.0))  # type: ignore[arg-type]  # arrays broadcast
    assert np.all(np.diff(found) < 0.0)
    assert np.all(np.abs(np.diff(np.log(found))) < 2.0 * np.diff(np.log(areas)))


@pytest.mark.parametrize("gauge", range(-3, 41))
def test_six_gauges_halve_the_wire_and_three_its_copper(gauge: int) -> None:
    """The gauge's own rules of thumb: 92**(6/39) is 2.005."""
    if gauge <= 34:
        ratio = cables.awg_diameter(gauge) / cables.awg_diameter(gauge + 6)
        assert ratio == pytest.approx(92.0 ** (6.0 / 39.0), rel=1e-12)
    assert cables.awg_area(gauge) == pytest.approx(math.pi / 4.0 * cables.awg_diameter(gauge) ** 2, rel=1e-15)
    assert math.isclose(cables.awg_diameter(36), 0.127e-3)


@given(AMPS, AREA, METRES)
def test_what_a_cable_loses_is_its_drop_times_its_current(current: float, area: float, length: float) -> None:
    resistance = cables.conductor_resistance(area, 70.0)
    single = cables.single_phase_drop(current, resistance, length, 1.0)
    assert cables.cable_loss(current, resistance, length) == pytest.approx(single * current, rel=1e-12)
    three = cables.three_phase_drop(current, resistance, length, 1.0)
    lost = math.sqrt(3.0) * three * current
    assert cables.cable_loss(current, resistance, length, 3) == pytest.approx(lost, rel=1e-12)
    assert three < single


@given(AMPS, AREA, METRES, FACTOR)
def test_the_longest_run_loses_just_what_is_allowed(
    current: float, area: float, length: float, factor: float
) -> None:
    resistance = cables.conductor_resistance(area, 70.0)
    drop = cables.single_phase_drop(current, resistance, length, factor)
    assert cables.longest_run(current, resistance, factor, drop) == pytest.approx(length, rel=1e-12)
    assert cables.far_voltage(230.0, drop) == pytest.approx(
        230.0 * (1.0 - cables.drop_share(drop, 230.0)), abs=1e-9 * (230.0 + drop)
    )


@given(st.floats(0.5e-6, 16e-6), st.floats(0.6, 1.0))
def test_left_out_reactance_adds_less_than_a_twelfth_up_to_16_mm2(area: float, factor: float) -> None:
    """The bound that leaves it out: in phasors the drop along the voltage is I*(R*cos + X*sin)."""
    resistance = cables.conductor_resistance(area, 70.0)
    added = cables.reactance_left_out(resistance, factor)
    angle = math.acos(factor)
    phasor = ((resistance + 0.08e-3j) * complex(math.cos(angle), -math.sin(angle))).real
    assert resistance * factor * (1.0 + added) == pytest.approx(phasor, rel=1e-9)
    assert added < 1.0 / 12.0


@given(st.floats(1.0, 1e5), st.floats(100.0, 400.0), FACTOR)
def test_power_comes_back_out_of_the_current(power: float, voltage: float, factor: float) -> None:
    single = loads.single_phase_current(power, voltage, factor)
    assert single * voltage * factor == pytest.approx(power, rel=1e-12)
    three = loads.three_phase_current(power, math.sqrt(3.0) * voltage, factor)
    assert 3.0 * three == pytest.approx(single, rel=1e-12)


@given(LOADS, SHARE)
def test_worst_moments_stand_in_order(some: tuple[Load, ...], demand: float) -> None:
    running = loads.demand_current(some)
    worst, after_cut = loads.worst_moment(some), loads.all_starting(some)
    slack = 1e-9 * (1.0 + after_cut)
    assert loads.demand_current(some, demand) <= running + slack
    assert running <= worst + slack
    assert worst <= after_cut + slack
    for left_out in range(len(some)):
        fewer = some[:left_out] + some[left_out + 1 :]
        assert loads.worst_moment(fewer) <= worst + slack


def test_sums_of_phasors_are_never_above_the_plain_sum() -> None:
    """What the calculators call the high side: currents of any angles."""
    dice = np.random.default_rng(3)
    for _ in range(200):
        sizes, angles = dice.uniform(0.1, 10.0, 5), dice.uniform(-1.5, 1.5, 5)
        true = abs(np.sum(sizes * np.exp(1j * angles)))
        plain = loads.demand_current(tuple(Load(float(size), float(size)) for size in sizes))
        assert true <= plain + 1e-9
        assert leakage.standing_leakage(tuple(map(float, sizes))) == pytest.approx(plain)


@given(st.lists(st.floats(0.0, 5e-3), max_size=30), st.sampled_from([30e-3, 6e-3]))
def test_devices_are_enough_and_one_fewer_is_not(leaks: list[float], rated: float) -> None:
    standing = leakage.standing_leakage(tuple(leaks))
    count = leakage.devices_wanted(standing, rated, 0.3)
    assert standing / count <= 0.3 * rated * (1.0 + 1e-8)
    assert count == 1 or standing / (count - 1) > 0.3 * rated


@given(st.floats(0.0, 0.1), st.sampled_from([15e-3, 4e-3]))
def test_room_and_share_tell_the_same_of_a_trip(standing: float, trip_low: float) -> None:
    assert (leakage.leakage_room(standing, trip_low) <= 0.0) == (
        leakage.trip_share(standing, trip_low) >= 1.0
    )


@given(st.floats(1.0, 5e3), st.floats(60.0, 1e6), USE)
def test_a_battery_lasts_what_it_was_made_for(load: float, time: float, use: BatteryUse) -> None:
    capacity = backup.battery_capacity(load, time, use)
    assert backup.battery_time(capacity, load, use) == pytest.approx(time, rel=1e-9)
    assert capacity >= load * time


@given(st.floats(1.0, 20.0), st.floats(1.0, 10.0), st.floats(1.0, 1.6))
def test_peukert_at_the_rated_current_is_the_rating_and_faster_is_less(
    rated: float, times: float, exponent: float
) -> None:
    hours = 20.0 * 3600.0
    assert backup.peukert_time(rated, hours, rated, exponent) == pytest.approx(hours)
    faster = backup.peukert_time(rated, hours, rated * times, exponent)
    share = backup.peukert_share(rated, rated * times, exponent)
    assert share <= 1.0 + 1e-12
    assert faster == pytest.approx(hours / times * share, rel=1e-9)


@given(st.floats(1.0, 1e4), st.floats(0.0, 1e4), SHARE, SHARE)
def test_a_generator_bears_both_long_running_and_the_start(
    running: float, extra: float, loaded: float, left: float
) -> None:
    real = backup.generator_power(running, extra, loaded, left) * left
    assert running <= real * loaded * (1.0 + 1e-9)
    assert running + extra <= real * (1.0 + 1e-9)


@given(st.floats(1.0, 200.0), st.floats(100.0, 5e3), st.floats(0.2, 1.0))
def test_a_tank_burns_all_of_itself(litres: float, load: float, per_kwh: float) -> None:
    use = per_kwh * 1e-3 / 3.6e6
    time = backup.tank_time(litres * 1e-3, load, use)
    assert backup.fuel_volume(load * time, use) == pytest.approx(litres * 1e-3, rel=1e-12)


REFUSED: list[Callable[[], object]] = [
    lambda: cables.awg_diameter(41),
    lambda: cables.awg_area(-4),
    lambda: cables.copper_resistance(0.0, 20.0),
    lambda: cables.conductor_resistance(1e-6, 500.0),
    lambda: cables.conductor_resistance(1e-6, math.nan),
    lambda: cables.single_phase_drop(-1.0, 0.01, 1.0, 1.0),
    lambda: cables.three_phase_drop(1.0, 0.01, 1.0, 1.1),
    lambda: cables.reactance_left_out(0.01, 0.0),
    lambda: cables.drop_share(1.0, 0.0),
    lambda: cables.far_voltage(230.0, -1.0),
    lambda: cables.longest_run(0.0, 0.01, 1.0, 5.0),
    lambda: cables.cable_loss(1.0, 0.01, 1.0, 4),
    lambda: Load(2.0, 1.0),
    lambda: Load(-1.0, 1.0),
    lambda: loads.single_phase_current(100.0, 230.0, 0.0),
    lambda: loads.three_phase_current(-1.0, 400.0, 1.0),
    lambda: loads.starting_current(1.0, 0.9),
    lambda: loads.demand_current((), 1.2),
    lambda: loads.rating_share(1.0, 0.0),
    lambda: leakage.standing_leakage((1e-3, -1e-3)),
    lambda: leakage.leakage_ceiling(100.0, 1e-6, 5e-3, 1e-3),
    lambda: leakage.trip_share(math.nan, 15e-3),
    lambda: leakage.devices_wanted(1e-3, 30e-3, 0.0),
    lambda: BatteryUse(1.1, 0.9),
    lambda: BatteryUse(0.5, 0.0),
    lambda: backup.battery_capacity(100.0, -1.0, BatteryUse(0.5, 0.9)),
    lambda: backup.battery_time(1e6, 0.0, BatteryUse(0.5, 0.9)),
    lambda: backup.peukert_time(5.0, 72e3, 5.0, 0.9),
    lambda: backup.peukert_share(5.0, 0.0, 1.2),
    lambda: backup.generator_power(100.0, 0.0, 0.0),
    lambda: backup.fuel_volume(1.0, 0.0),
    lambda: backup.tank_time(0.01, 0.0, 1e-10),
]


@pytest.mark.parametrize("asked", REFUSED)
def test_the_impossible_is_refused(asked: Callable[[], object]) -> None:
    with pytest.raises(ImpossibleInput):
        asked()


def test_cables_of_the_table_are_those_of_the_formulas() -> None:
    for row in _of("cable"):
        if row.has("resistance"):
            assert row.si("resistance") == pytest.approx(cables.conductor_resistance(row.si("area"), 20.0))
        else:
            gauge = int(row.name.rpartition("-")[2])
            assert row.si("area") == pytest.approx(cables.awg_area(gauge), rel=3e-4)


@pytest.mark.parametrize("way", ["mm2", "awg"])
def test_thicker_cables_carry_more(way: str) -> None:
    rows = sorted((row for row in _of("cable") if way in row.name), key=lambda row: row.si("area"))
    assert len(rows) >= 5
    carried = [row.si("ampacity") for row in rows]
    assert carried == sorted(carried)


def test_the_loss_of_a_metre_at_full_load_hardly_depends_on_the_size() -> None:
    """A slip in one ampacity would stand out: what a metre may warm up by grows slowly with its skin."""
    lost = [
        cables.cable_loss(row.si("ampacity"), cables.conductor_resistance(row.si("area"), 70.0), 1.0)
        for row in sorted(_of("cable"), key=lambda row: row.si("area"))
        if "mm2" in row.name
    ]
    assert lost == sorted(lost)
    assert lost[-1] < 2.5 * lost[0]


def test_ranges_of_the_table_rise() -> None:
    for kind in ("leakage", "starting", "inverter"):
        assert _of(kind)
        for row in _of(kind):
            assert 0.0 < row.si("low") <= row.si("likely") <= row.si("high")
    for row in _of("residual"):
        assert row.si("standing_share") * row.si("trip") < row.si("trip_low") < row.si("trip")
    for row in _of("generator"):
        assert row.si("fuel_low") < row.si("fuel") < row.si("fuel_high")


def test_whoever_burns_fuel_or_goes_near_water_is_warned() -> None:
    for row in (*_of("generator"), *_of("zone")):
        assert row.tag("cautions")
    assert all("Outdoors only" in " ".join(row.tag("cautions")) for row in _of("generator"))  # type: ignore[arg-type]  # a list of words
