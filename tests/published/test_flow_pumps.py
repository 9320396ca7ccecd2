"""Pumps against print: curves, speed, power."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from typing import Any

import pytest

from tests.published.case import FOOT, INCH, PCF, Case, itself
from tests.published.test_flow_pipes import net1
from tidestead.core.errors import ImpossibleInput
from tidestead.physics.flow import operating, pumps
from tidestead.physics.flow.fittings import FittingLaw
from tidestead.physics.flow.laws import Link
from tidestead.physics.flow.network import solve_network
from tidestead.physics.flow.pumps import PumpDuty, PumpLaw, PumpPoint

CRANE = "Crane TP-410 (2009), as an open library's notebooks of its examples quote it"
MANUAL = "L. Rossman et al., EPANET 2.2 User Manual (2020), pumps"
NET1 = "EPANET example network 1 (U.S. Environmental Protection Agency), solved by three simulators"
HAND = "the formula, worked by hand"
GPM = 231.0 * INCH**3 / 60.0
HP = 550.0 * 4.4482216152605 * FOOT

AT_3500 = {"duty": PumpDuty(400.0 * GPM, 126.0 * FOOT, 17.5 * HP), "speed": 1700.0 / 3500.0}
CURVE = PumpLaw((PumpPoint(0.0, 6.0), PumpPoint(2e-3, 5.0), PumpPoint(4e-3, 3.0)))
STANDING = {"pump": Link("p", "a", "b", CURVE, one_way=True), "run_back": FittingLaw(5.0, 0.05)}


def field(name: str) -> Callable[[object], float]:
    def pick(found: object) -> float:
        return float(getattr(found, name))

    return pick


def made(
    name: str,
    of: Callable[..., Any],
    given: Mapping[str, Any],
    printed: float,
    to: float,
    *,
    source: str = CRANE,
    place: str = "",
    known: str = "quoted",
    unit: float = 1.0,
    pick: Callable[[Any], float] = itself,
    why: str = "",
) -> Case:
    return Case(name, of, given, printed, to, source, place, known, unit, pick, why)


CASES = [
    made("Crane 7-33, 194.3 gal/min", pumps.affinity, AT_3500, 194.3, 0.05, unit=GPM, place="example 7-33",
         pick=field("flow")),
    made("Crane 7-33, 29.73 ft", pumps.affinity, AT_3500, 29.73, 0.005, unit=FOOT, place="example 7-33",
         pick=field("head")),
    made("Crane 7-33, 2.005 hp", pumps.affinity, AT_3500, 2.005, 5e-4, unit=HP, place="example 7-33",
         pick=field("power")),
    made("Crane 7-15, 15.2 hp at an efficiency of 0.70", pumps.electric_power,
         {"flow": 100.0 * GPM, "head": 421.0 * FOOT, "density": 62.298 * PCF, "efficiency": 0.70}, 15.2, 0.05,
         unit=HP, place="example 7-15, at its head of 421 ft"),
    made("Crane 7-34, $83,970 a year", pumps.electric_power,
         {"flow": 700.0 * GPM, "head": 428.0 * FOOT, "density": 62.364 * PCF, "efficiency": 0.707 * 0.95 * 0.96},
         83970.0, 100.0, unit=1000.0 / (8000.0 * 0.12), place="example 7-34: 8000 h at $0.12 a kWh",
         why="Crane rounds powers on the way"),
    made("efficiency of Crane 7-34's pump, 0.707", pumps.pump_efficiency,
         {"duty": PumpDuty(700.0 * GPM, 428.0 * FOOT, 107.06 * HP), "density": 62.364 * PCF}, 0.707, 5e-4,
         place="example 7-34, from the brake horsepower of the notebook"),
    made("water horsepower, Q*H/3960", pumps.hydraulic_power,
         {"flow": 100.0 * GPM, "head": 100.0 * FOOT, "density": 62.37 * PCF}, 100.0 * 100.0 / 3960.0, 0.002,
         unit=HP, source="the trade's formula for horsepower of water", place="gal/min x ft / 3960",
         known="recalled", why="3960 is rounded"),
    made("pump of Net1, head without flow", pumps.design_point_pump, {"flow": 1500.0 * GPM, "head": 250.0 * FOOT},
         333.33, 0.005, unit=FOOT, source=MANUAL, place="single-point curve: 133 % of the head", known="quoted",
         pick=field("shut_off_head")),
    made("pump of Net1, its head at 1866.18 gal/min", pumps.pump_head,
         {"pump": pumps.design_point_pump(1500.0 * GPM, 250.0 * FOOT), "flow": 1866.18 * GPM}, 1004.35 - 800.0, 0.005,
         unit=FOOT, source=NET1, place="t = 0: head at 10 less that at 9", known="computed",
         why="a difference of two printed heads"),
    made("two numbers: 3/4 of the head at half the flow", pumps.pump_head,
         {"pump": pumps.parabola_pump(8.0, 4e-3), "flow": 2e-3}, 6.0, 0.05, source=HAND, place="8*(1 - 1/4)",
         known="computed"),
    made("two numbers: the parabola's factor", pumps.parabola_pump, {"max_head": 8.0, "max_flow": 4e-3},
         8.0 / 16.0, 5e-3, unit=1e6, source=HAND, place="h_max/Q_max**2", known="computed",
         pick=field("coefficient")),
    made("three points of a parabola: power 2", pumps.power_pump,
         {"shut_off": PumpPoint(0.0, 8.0), "middle": PumpPoint(2e-3, 6.0), "last": PumpPoint(4e-3, 0.0)}, 2.0, 0.005,
         source=MANUAL, place="three-point curve, worked", known="computed", pick=field("exponent")),
    made("three points: power of log 3 over log 2, 1.585", pumps.power_pump,
         {"shut_off": PumpPoint(0.0, 8.0), "middle": PumpPoint(2e-3, 6.0), "last": PumpPoint(4e-3, 2.0)},
         1.585, 5e-4, source=MANUAL, place="three-point curve, worked", known="computed",
         pick=field("exponent")),
    made("points are met", pumps.pump_head, {"pump": CURVE, "flow": 2e-3}, 5.0, 0.005, source=HAND,
         place="the second point", known="computed"),
    made("past the last point straight on, as steep as the last stretch or steeper", pumps.pump_head,
         {"pump": CURVE, "flow": 5e-3}, 3.0 - 1.25, 0.01, source=HAND,
         place="end slope by the parabola through three points: -(1000 + 0.5*(1000 - 500)) per m3/s",
         known="computed", why="worked by hand to three digits"),
    made("half speed: a quarter of the head at half the flow", pumps.pump_head,
         {"pump": PumpLaw(CURVE.points, 0.5), "flow": 1e-3}, 1.25, 0.005, source=HAND, place="5/4",
         known="computed"),
    made("5 L/s is past the last point", pumps.beyond_curve, {"pump": CURVE, "flow": 5e-3}, 1.0, 0.005,
         source=HAND, place="4 L/s is the last point", known="computed"),
    made("3 L/s is not", pumps.beyond_curve, {"pump": CURVE, "flow": 3e-3}, 0.0, 0.005, source=HAND,
         place="4 L/s is the last point", known="computed"),
    made("a standing pump loses 5 heads of velocity backwards", pumps.standing_pump, STANDING, -1.0197, 5e-5,
         source=HAND, place="K 5 at 2 m/s", known="computed",
         pick=lambda link: link.through.at(-2.0 * math.pi / 4.0 * 0.05**2).head),
]  # fmt: skip

NETWORK = net1()
PUMP_9 = next(link for link in NETWORK["links"] if link.name == "9")
SOLVED = solve_network(**NETWORK)

CASES += [
    made("pump 9 of Net1 runs at 1866.18 gal/min", operating.operating_point, {"pump": PUMP_9, "state": SOLVED},
         1866.18, 0.005, unit=GPM, source=NET1, place="t = 0", known="computed", pick=field("flow")),
    made("pump 9 of Net1 gives 204.35 ft", operating.operating_point, {"pump": PUMP_9, "state": SOLVED},
         1004.35 - 800.0, 0.005, unit=FOOT, source=NET1, place="t = 0: head at 10 less that at 9", known="computed",
         pick=field("head"), why="a difference of two printed heads"),
    made("the system of Net1 asks 204.35 ft at 1866.18 gal/min", operating.system_curve,
         {**NETWORK, "pump": "9", "flows": (1000.0 * GPM, 1866.18 * GPM)}, 1004.35 - 800.0, 0.005, unit=FOOT,
         source=NET1, place="t = 0: head at 10 less that at 9", known="computed",
         pick=lambda points: float(points[1].head), why="a difference of two printed heads"),
]  # fmt: skip


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_printed_value(case: Case) -> None:
    assert case.holds(), f"{case.ours()} against printed {case.printed}"


@pytest.mark.parametrize(
    ("points", "words"),
    [
        ([(0.0, 5.0), (1e-3, 5.5), (2e-3, 3.0)], "must fall: it gives 5 m at 0 m3/s and 5.5 m at 0.001 m3/s"),
        ([(0.0, 5.0), (1e-3, 5.0)], "must fall"),
        ([(0.0, 5.0), (0.0, 4.0)], "must grow in flow"),
        ([(0.0, 5.0)], "at least two points"),
        ([(0.0, 5.0), (1e-3, -1.0)], "pump head cannot be negative"),
        ([(0.0, float("nan")), (1e-3, 1.0)], "pump head"),
    ],
)
def test_impossible_curves_are_refused(points: list[tuple[float, float]], words: str) -> None:
    with pytest.raises(ImpossibleInput, match=words):
        PumpLaw(tuple(PumpPoint(*point) for point in points))


def test_impossible_duties_are_refused() -> None:
    with pytest.raises(ImpossibleInput, match="cannot give"):
        pumps.pump_efficiency(PumpDuty(1e-2, 10.0, 100.0), 1000.0)
    with pytest.raises(ImpossibleInput, match="speed"):
        PumpLaw(CURVE.points, 0.0)
    with pytest.raises(ImpossibleInput, match="without flow"):
        pumps.power_pump(PumpPoint(1e-3, 5.0), PumpPoint(2e-3, 4.0), PumpPoint(3e-3, 1.0))


def test_a_standing_pump_behind_its_check_valve_is_shut() -> None:
    shut = pumps.standing_pump(Link("p", "a", "b", CURVE, one_way=True))
    assert shut.through is not None
    assert math.isinf(shut.through.at(0.0).slope)


def test_an_operating_point_is_that_of_a_pump() -> None:
    pipe = next(link for link in NETWORK["links"] if link.name == "10")
    with pytest.raises(ImpossibleInput, match="10 holds 0 pumps"):
        operating.operating_point(pipe, SOLVED)
    with pytest.raises(ImpossibleInput, match="no element 99"):
        operating.system_curve(**NETWORK, pump="99", flows=(1e-3,))
    with pytest.raises(ImpossibleInput, match="flow of the system"):
        operating.system_curve(**NETWORK, pump="9", flows=(0.0,))
