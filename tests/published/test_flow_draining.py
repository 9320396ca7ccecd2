"""Vessels that sink: Torricelli, pipes, pumps, power stops, starts and stuck float valves, against print."""

from __future__ import annotations

import math

import pytest

from tests.published.case import FOOT, INCH, Case, marked
from tidestead.physics.flow import draining, runback, surge, top_off
from tidestead.physics.flow.draining import Basin, Outlet, upright_basin
from tidestead.physics.flow.runback import Guards, HeldWater, PowerStop, Standing, Way
from tidestead.physics.flow.surge import ElasticPipe
from tidestead.physics.flow.top_off import StuckFill

TORRICELLI = "Torricelli's law, by hand"
SUMMARY = "lecture summary on tanks that drain through a small hole"
STOP = "power stop of a basin 4 m by 1.5 m, by hand"
MAKER = "pressure of surge for 1 ft/s in plastic pipe, a pipe makers' table repeated on a page"
HAMMER = "Joukowsky (1898) and Michaud (1878), by hand"
BALANCE = "balance of water and salt, by hand"
GEOMETRY = "geometry, by hand"
HOUR = 3600.0
LITRE = 1e-3
GALLON = 231.0 * INCH**3
PSI = 6894.757293168361
PCF = 16.018463373960138

HOLE = Outlet(level=0.0, area=math.pi * 0.0525**2 / 4.0, coefficient=0.61)
WIDER = Basin((0.0, 0.5, 1.2), (2.0, 3.0, 6.0))

SILL, WEIR_HEAD = 1.20, 0.0185
BASIN = upright_basin(0.0, 1.30, 4.0 * 1.5)
SUMP = upright_basin(-0.80, -0.05, 1.0)
OVER_THE_SILL = Way("basin", "sump", SILL)
BY_THE_OUTLET = Way("basin", "sump", 0.80, break_at=SILL - 0.025)
VESSELS = {"sump": Standing(SUMP, -0.40), "basin": Standing(BASIN, SILL + WEIR_HEAD)}
STOPPED = PowerStop(VESSELS, (OVER_THE_SILL, BY_THE_OUTLET), (), "sump")
WITH_CHECK = PowerStop(
    VESSELS,
    (OVER_THE_SILL, Way("basin", "sump", 0.80, SILL - 0.025, check_valve=True)),
    (
        HeldWater(math.pi * 0.0525**2 / 4.0 * 2.0, -0.60, 1.20, "", "sump"),
        HeldWater(math.pi * 0.0525**2 / 4.0 * 3.0, -0.60, 1.10, "sump", "", check_valve=True),
    ),
    "sump",
)

TOWER = upright_basin(-0.60, 0.90, 0.34)
"""A tower that stands low: its feed meets the basin's line past the check valve, its riser ends at 0.78 m."""
BRANCHED = PowerStop(
    VESSELS | {"tower": Standing(TOWER, 0.80)},
    (
        OVER_THE_SILL,
        Way("basin", "junction", 0.60),
        Way("junction", "basin", 0.60),
        Way("junction", "sump", -0.60, check_valve=True),
        Way("tower", "junction", 0.55),
        Way("junction", "tower", 0.55),
        Way("tower", "sump", 0.78),
    ),
    (),
    "sump",
)

CLEAR_SPEED = 4660.0 * FOOT
"""Speed of sound in water as the makers' formula has it; with its bulk modulus of 300,000 psi."""
SURGES = {
    "PVC": (400_000.0, {41.0: 11.4, 32.5: 12.8, 25.0: 14.7, 21.0: 16.0, 18.0: 17.4}),
    "HDPE": (115_000.0, {21.0: 8.8, 17.0: 9.9, 13.5: 11.3, 11.0: 12.7, 9.0: 14.3, 7.3: 16.3}),
}


def _surge(stuff: str, ratio: float, printed: float, differs: str = "") -> Case:
    """The table gives psi for 1 ft/s as a/(2.31*g); what is judged is the wave speed a."""
    pipe = ElasticPipe(bore=ratio - 2.0, wall=1.0, modulus=SURGES[stuff][0] * PSI)
    given = {"pipe": pipe, "density": 300_000.0 * PSI / CLEAR_SPEED**2, "sound_speed": CLEAR_SPEED}
    return Case(
        f"{stuff} pipe of dimension ratio {ratio:g}", surge.wave_speed, given, printed, 0.05, MAKER, "DR and psi",
        "quoted", unit=2.31 * 32.2 * FOOT, differs=differs,
    )  # fmt: skip


FILL = StuckFill(
    flow=0.1 / HOUR, volume=10.0, free=2.05, sal_psu=35.0, density=1025.0, fresh_density=1000.0
)  # fmt: skip

CASES = [
    Case("6 m2, hole of 52.5 mm, 1 m: 2052 s", draining.draining_time,
         {"surface": 6.0, "outlet": HOLE, "start": 1.0, "end": 0.0}, 2052.0, 0.5, TORRICELLI,
         "2*A*sqrt(h)/(Cd*a*sqrt(2*g))", "computed"),
    Case("any shape: 6 m2, hole of 52.5 mm, 1 m: 2052 s", draining.basin_draining_time,
         {"basin": upright_basin(0.0, 1.2, 6.0), "outlet": HOLE, "start": 1.0, "end": 0.0}, 2052.0, 0.5, TORRICELLI,
         "2*A*sqrt(h)/(Cd*a*sqrt(2*g))", "computed"),
    Case("the upper half takes 29 % of the time", draining.draining_time,
         {"surface": 6.0, "outlet": HOLE, "start": 1.0, "end": 0.5}, 29.0, 0.5, SUMMARY, "ratio of times", "read",
         unit=2052.0 / 100.0),
    Case("and the lower half 71 %", draining.draining_time,
         {"surface": 6.0, "outlet": HOLE, "start": 0.5, "end": 0.0}, 71.0, 0.5, SUMMARY, "ratio of times", "read",
         unit=2052.0 / 100.0),
    Case("hole of 2 in under 4 ft", draining.outlet_flow,
         {"outlet": Outlet(0.0, math.pi * INCH**2, 0.61), "level": 4 * FOOT}, 0.2135, 5e-5, TORRICELLI,
         "0.61*0.021817*sqrt(2*32.174*4) cfs", "computed", unit=FOOT**3),
    Case("pipe of four velocity heads keeps half the speed", draining.pipe_coefficient, {"resistance": 4.0}, 0.5,
         5e-4, TORRICELLI, "1/sqrt(R)", "computed"),
    Case("water under 0.5 m of a vessel that widens", draining.volume_at, {"basin": WIDER, "level": 0.5}, 1.25,
         5e-3, GEOMETRY, "(2 + 3)/2*0.5", "computed"),
    Case("water under its brim", draining.volume_at, {"basin": WIDER, "level": 1.2}, 4.40, 5e-3, GEOMETRY,
         "1.25 + (3 + 6)/2*0.7", "computed"),
    Case("surface half way", draining.surface_at, {"basin": WIDER, "level": 0.85}, 4.5, 0.05, GEOMETRY,
         "(3 + 6)/2", "computed"),
    Case("level of 1.25 m3", draining.level_of, {"basin": WIDER, "volume": 1.25}, 0.5, 5e-4, GEOMETRY, "backwards",
         "computed"),
    Case("an upright vessel holds surface times height", draining.upright_basin,
         {"floor": 0.1, "brim": 1.4, "surface": 6.0}, 7.8, 0.05, GEOMETRY, "6*1.3", "computed",
         pick=lambda basin: basin.surfaces[0] * (basin.brim - basin.floor)),
    Case("3000 US gal by a pump of 25 US gal/min: two hours", draining.pumped_down_time,
         {"basin": upright_basin(0.0, 1.0, 3000.0 * GALLON), "start": 1.0, "end": 0.0,
          "flows": ((0.0, 25.0 * GALLON / 60.0), (1.0, 25.0 * GALLON / 60.0))},
         2.0, 0.005, GEOMETRY, "V/Q", "computed", unit=HOUR),
    Case("pump that slows from 2 to 1 L/s over 1 m of 6 m2: 6*ln(2)/0.001 s", draining.pumped_down_time,
         {"basin": upright_basin(0.0, 1.0, 6.0), "start": 1.0, "end": 0.0, "flows": ((0.0, 0.001), (1.0, 0.002))},
         4158.9, 0.05, TORRICELLI, "integral of A*dz/Q(z)", "computed"),
    Case("a third of a riser above a level", runback.share_above, {"low": 0.0, "high": 1.5, "level": 1.0}, 0.3333,
         5e-5, GEOMETRY, "(1.5 - 1.0)/1.5", "computed"),
    Case("way whose break works", runback.way_needs, {"way": BY_THE_OUTLET, "guards": Guards()}, 1.175, 5e-4, STOP,
         "at the break", "computed"),
    Case("vessel whose break works", runback.lowest_heads,
         {"ways": STOPPED.ways, "sump": "sump", "level": -0.40, "guards": Guards()}, 1.175, 5e-4, STOP,
         "25 mm below the sill", "computed", pick=lambda found: found["basin"]),
    Case("from branch to branch: 6 m2 from 1.2185 to the riser's 0.78 m, and 20 mm of the tower", runback.runback,
         {"stop": BRANCHED, "guards": Guards()}, 2637.8, 0.05, STOP, "6*0.4385 + 0.34*0.02", "computed", unit=LITRE,
         pick=lambda found: found.total),
    Case("room left in the sump", runback.free_volume, {"basin": SUMP, "level": -0.40}, 350.0, 0.5, STOP, "1.0*0.35",
         "computed", unit=LITRE),
    Case("4 by 1.5 m, weir head 18.5 mm, air 25 mm below the sill: 261 L", runback.runback,
         {"stop": STOPPED, "guards": Guards()}, 261.0, 0.5, STOP, "A*(h_weir + z_sill - z_break)", "computed",
         unit=LITRE, pick=lambda found: found.total),
    Case("with the break blocked, down to the outlet: 2511 L", runback.runback_cases, {"stop": STOPPED}, 2511.0, 0.5,
         STOP, "A*(h_weir + z_sill - z_outlet)", "computed", unit=LITRE, pick=lambda found: found.break_blocked.total),
    Case("check valve holds: the weir's 111 L and the drain", runback.runback_cases, {"stop": WITH_CHECK}, 114.848,
         5e-4, STOP, "111 + 3.848", "computed", unit=LITRE, pick=lambda found: found.working.total),
    Case("check valve failed: 261 L and both pipes", runback.runback_cases, {"stop": WITH_CHECK}, 270.58, 5e-3, STOP,
         "261 + 3.848 + 5.730", "computed", unit=LITRE, pick=lambda found: found.check_failed.total),
    *[_surge(stuff, ratio, printed) for stuff, (_, table) in SURGES.items() for ratio, printed in table.items()],
    _surge("PVC", 51.0, 10.8, differs="the table's own formula gives 10.2; its other eleven rows agree"),
    Case("stop of 1 ft/s at a wave of 1090.8 ft/s: 14.7 psi", surge.hammer_pressure,
         {"density": 62.4 * PCF, "wave": 1090.8 * FOOT, "change": FOOT}, 14.7, 0.05, MAKER, "DR 25", "quoted",
         unit=PSI),
    Case("wave of 400 m/s over 100 m and back", surge.returning_time, {"length": 100.0, "wave": 400.0}, 0.5, 0.005,
         HAMMER, "2*L/a", "computed"),
    Case("1 m/s over 100 m stopped in 2 s: 100 kPa", surge.slow_stop_pressure,
         {"density": 1000.0, "length": 100.0, "change": 1.0, "time": 2.0}, 100.0, 0.5, HAMMER, "2*rho*L*v/t",
         "computed", unit=1000.0),
    Case("20 m3/h on a box of 0.2 m2 that carries 8 for 6 s", surge.waiting_rise,
         {"flow": 20.0 / HOUR, "carried": 8.0 / HOUR, "surface": 0.2, "delay": 6.0}, 100.0, 0.5, BALANCE,
         "(Q - Qc)*t/A", "computed", unit=0.001),
    Case("what waits there is missing in a sump of 1 m2", surge.start_surge,
         {"rise": 0.1, "surface": 0.2, "sump": SUMP, "running": -0.40}, -0.42, 5e-4, BALANCE, "-0.40 - 0.02/1.0",
         "computed", pick=lambda found: found.sump_level),
    Case("float valve at four times the head", top_off.float_valve_flow,
         {"rated_flow": 5 * GALLON / 60.0, "rated_head": 10 * FOOT, "head": 40 * FOOT}, 10.0, 0.05, BALANCE,
         "Q*sqrt(4)", "computed", unit=GALLON / 60.0),
    Case("2.05 m3 of room at 100 L/h: 20.5 h", top_off.flooding_time, {"fill": FILL}, 20.5, 0.05, BALANCE, "V/Q",
         "computed", unit=HOUR),
    Case("a tenth of its weight more: 35/1.1", top_off.stuck_salinity, {"fill": FILL, "after": 10.25 * HOUR}, 31.818,
         5e-4, BALANCE, "35*10250/11275", "computed"),
    Case("after it spills: 35/1.2*exp(-1/12.05)", top_off.stuck_salinity, {"fill": FILL, "after": 30.5 * HOUR},
         26.844, 5e-4, BALANCE, "29.1667*exp(-0.082988)", "computed"),
    Case("down to 35/1.1 in 10.25 h", top_off.dilution_time, {"fill": FILL, "sal_psu": 31.8182}, 10.25, 0.005,
         BALANCE, "backwards", "computed", unit=HOUR),
    Case("down to 26.844 in 30.5 h", top_off.dilution_time, {"fill": FILL, "sal_psu": 26.844}, 30.5, 0.05, BALANCE,
         "backwards", "computed", unit=HOUR),
]  # fmt: skip


@pytest.mark.parametrize("case", [marked(case) for case in CASES])
def test_draining_holds_to_print(case: Case) -> None:
    assert case.holds()


def test_the_sump_fails_only_with_the_break_blocked() -> None:
    """A line without a check valve: 261 L fit into 350 L of room, 2511 L do not."""
    cases = runback.runback_cases(STOPPED)
    assert cases.working.spare == pytest.approx(0.089)
    assert cases.check_failed.spare == pytest.approx(0.089)
    assert cases.break_blocked.spare < 0.0
    assert cases.break_blocked.rests == {"basin": 0.80}


def test_one_guard_is_enough_and_none_is_not() -> None:
    cases = runback.runback_cases(WITH_CHECK)
    assert cases.working.rests == cases.break_blocked.rests == {"basin": SILL}
    assert cases.check_failed.rests["basin"] == pytest.approx(SILL - 0.025)
    assert cases.both_failed.rests == {"basin": 0.80}
    assert min(cases.working.spare, cases.break_blocked.spare, cases.check_failed.spare) > 0.0
    assert cases.both_failed.spare < 0.0


def test_a_check_valve_in_the_main_does_not_part_its_branches() -> None:
    """With the valve failed the basin goes down to its own mouth and the tower to its feed's."""
    cases = runback.runback_cases(BRANCHED)
    assert cases.working.rests == {"basin": 0.78, "tower": 0.78}
    assert cases.check_failed.rests == {"basin": 0.60, "tower": 0.55}


def test_a_vessel_that_leads_nowhere_keeps_its_water() -> None:
    ways = (Way("basin", "tower", 0.5),)
    found = runback.runback(PowerStop(BRANCHED.vessels, ways, (), "sump"), Guards())
    assert found.total == 0.0
    assert found.rests == {"basin": SILL + WEIR_HEAD, "tower": 0.80}
