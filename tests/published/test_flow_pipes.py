"""Friction in pipes against print: Colebrook, Crane's examples, Schedule 40 losses, Hazen-Williams in a network."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import TypedDict

import numpy as np
import pytest

from tests.arrays import broadcast
from tests.published.case import FOOT, INCH, Case, marked
from tidestead.core.errors import ImpossibleInput
from tidestead.physics.flow import limits, pipes
from tidestead.physics.flow.laws import Link
from tidestead.physics.flow.network import NetworkState, solve_network
from tidestead.physics.flow.pumps import design_point_pump

COLEBROOK = "C. Colebrook, J. Inst. Civil Engineers 11 (1939) 133-156"
CRANE = "Crane TP-410, as an open library's notebooks of its examples quote it"
NET1 = "EPANET example network 1 (U.S. Environmental Protection Agency), solved by three simulators"
CONTINUITY = "continuity, worked by hand"
GPM = 231.0 * INCH**3 / 60.0


def factor(name: str, reynolds: float, rough: float, printed: float, to: float, **more: object) -> Case:
    return Case(
        name, pipes.friction_factor, {"reynolds": reynolds, "relative_roughness": rough}, printed, to,
        str(more.get("source", COLEBROOK)), str(more.get("place", "the formula, iterated")),
        str(more.get("known", "computed")), why=str(more.get("why", "")),
    )  # fmt: skip


FACTORS = [
    factor("Colebrook, Re 1e5, eD 1e-4", 1e5, 1e-4, 0.01851387, 5e-9),
    factor("Colebrook, Re 4e4, eD 2.857e-5", 4e4, 2.857e-5, 0.02206104, 2e-8, why="eD is rounded"),
    factor("Colebrook, Re 1e6, eD 1e-3", 1e6, 1e-3, 0.01994347, 5e-9),
    factor("Colebrook, smooth, Re 1e4", 1e4, 0.0, 0.03088295, 5e-9),
    factor("Colebrook, smooth, Re 1e5", 1e5, 0.0, 0.01798977, 5e-9),
    factor("laminar at Re 1000, 64/Re", 1000.0, 1e-3, 0.064, 5e-4, source="Hagen and Poiseuille",
           place="64/Re", known="recalled"),
    factor("Crane 7-1, water of 30 degC in smooth pipe", 100600.0, 0.0, 0.0179, 1e-4, source=CRANE,
           place="example 7-1", known="quoted", why="read by eye from a chart"),
    Case("Colebrook alone, Re 1e5, eD 1e-4", pipes.colebrook_factor,
         {"reynolds": 1e5, "relative_roughness": 1e-4}, 0.01851387, 5e-9, COLEBROOK, "the formula, iterated",
         "computed", pick=lambda found: float(found.factor)),
    Case("Crane 7-1, Reynolds number 100600", pipes.reynolds_number,
         {"flow": 0.2 / 60.0, "bore": 2.067 * INCH, "kinematic_viscosity": 0.8008e-6}, 100600.0, 500.0, CRANE,
         "example 7-1, 200 L/min in 50 mm pipe at 30 degC", "quoted",
         why="the viscosity is ours: 0.8008e-6 m2/s, IAPWS; Crane's is rounded"),
]  # fmt: skip

SCHEDULE_40 = {"1 1/2": 1.610, "2": 2.067, "3": 3.068, "4": 4.026}
CUT = "the table cuts the last digit off instead of rounding it: 10.755"
UP = "the table rounds velocities up: 2.115, 1.165 and 1.015"
LOSSES = [
    ("1 1/2", 10.0, 10.3, 0.05, 2.12),
    ("2", 10.0, 3.09, 0.005, 1.28),
    ("3", 10.0, 0.47, 0.005, 0.58),
    ("2", 20.0, 10.7, 0.05, 2.57),
    ("3", 20.0, 1.61, 0.005, 1.17),
    ("4", 20.0, 0.44, 0.005, 0.68),
    ("3", 30.0, 3.34, 0.005, 1.75),
    ("4", 30.0, 0.90, 0.005, 1.02),
]
"""Size, flow in m3/h, loss in m per 100 m, its last digit halved, velocity in m/s."""


def loss(size: str, flow: float, printed: float, to: float, velocity: float) -> list[Case]:
    pipe = {"flow": flow / 3600.0, "bore": SCHEDULE_40[size] * INCH}
    source = "computed table of losses in ASTM D1785 Schedule 40 pipe for sea water of 26 degC"
    water = {"roughness": 1.5e-6, "kinematic_viscosity": 0.917e-6}
    cut = CUT if printed == 10.7 else ""
    return [
        Case(f"{flow:g} m3/h of sea water in {size} in, loss per 100 m", pipes.loss_gradient,
             {**pipe, **water}, printed, to, source, "m per 100 m", "computed", unit=0.01, differs=cut),
        Case(f"{flow:g} m3/h of sea water in {size} in, loss in 100 m", pipes.pipe_loss,
             {**pipe, "length": 100.0, **water}, printed, to, source, "m per 100 m", "computed", differs=cut),
        Case(f"{flow:g} m3/h in {size} in, velocity", pipes.pipe_velocity, pipe, velocity, 0.005, source,
             "velocity", "computed", differs=UP if velocity in (2.12, 1.17, 1.02) else ""),
    ]  # fmt: skip


PLAIN = [
    Case("area of 2 in Schedule 40, 3.36 in2", pipes.pipe_area, {"bore": 2.067 * INCH}, 3.36, 0.005,
         "Crane TP-410, appendix B, steel pipe of the same bore", "2 in Schedule 40, inside area", "recalled",
         unit=INCH**2),
    Case("8 ft/s stand for 0.994 ft", pipes.velocity_head, {"velocity": 8.0 * FOOT}, 64.0 / 64.35, 5e-4 * 2,
         "elementary hydraulics, 2g = 64.35 ft/s2", "v2/2g", "recalled", unit=FOOT, why="2g is rounded"),
    Case("K of 1 at 2 m/s loses 0.204 m", pipes.square_loss,
         {"flow": 2.0 * math.pi / 4.0 * 0.05**2, "bore": 0.05, "k": 1.0}, 0.204, 5e-4, CONTINUITY, "v2/2g",
         "computed", pick=lambda found: float(found.head)),
    Case("100 gal/min in 3 in Schedule 40, 4.34 ft/s", pipes.pipe_velocity,
         {"flow": 100.0 * GPM, "bore": 3.068 * INCH}, 4.34, 0.005, "Crane TP-410, appendix B",
         "flow of water through Schedule 40 pipe", "recalled", unit=FOOT),
    Case("bore for 100 gal/min at 9.56 ft/s, 2.067 in", limits.bore_for_velocity,
         {"flow": 100.0 * GPM, "velocity": 9.56 * FOOT}, 2.067, 0.0005, "Crane TP-410, appendix B",
         "flow of water through Schedule 40 pipe, turned round", "recalled", unit=INCH),
    Case("flow at 4.34 ft/s in 3 in Schedule 40, 100 gal/min", limits.flow_at_velocity,
         {"bore": 3.068 * INCH, "velocity": 4.34 * FOOT}, 100.0, 0.5, "Crane TP-410, appendix B",
         "flow of water through Schedule 40 pipe, turned round", "recalled", unit=GPM),
    Case("10 m3/h through 2.5 m3, 4 in an hour", limits.turnover_rate, {"flow": 10.0 / 3600.0, "volume": 2.5},
         4.0, 0.05, CONTINUITY, "Q/V", "computed", unit=1.0 / 3600.0),
]  # fmt: skip

LINES = """
10 10 11 10530 18
11 11 12 5280 14
12 12 13 5280 10
21 21 22 5280 10
22 22 23 5280 12
31 31 32 5280 6
110 2 12 200 18
111 11 21 5280 10
112 12 22 5280 12
113 13 23 5280 8
121 21 31 5280 8
122 22 32 5280 6
"""
"""Pipe, from, to, feet, inches; all of C = 100."""

DEMANDS = {"11": 150, "12": 150, "13": 100, "21": 150, "22": 200, "23": 150, "31": 100, "32": 100}
"""gal/min."""

NET1_HEADS = {
    "10": 1004.35, "11": 985.23, "12": 970.07, "13": 968.87, "21": 971.55, "22": 969.08, "23": 968.65,
    "31": 967.39, "32": 965.69,
}  # fmt: skip
"""ft."""

NET1_FLOWS = {
    "9": 1866.18, "11": 1234.21, "12": 129.34, "21": 191.16, "22": 120.66, "31": 40.81, "110": -766.18,
    "111": 481.97, "112": 188.7, "113": 29.34, "121": 140.81, "122": 59.19,
}  # fmt: skip
"""gal/min."""


class NetworkGiven(TypedDict):
    """What a network is solved from."""

    links: list[Link]
    fixed: dict[str, float]
    injections: dict[str, float]


def net1() -> NetworkGiven:
    """The network at its first hour: reservoir at 800 ft, tank at 970 ft, pump 1500 gal/min at 250 ft."""
    rows = [line.split() for line in LINES.split("\n") if line]
    links = [
        Link(name, start, end, pipes.HazenWilliamsLaw(float(length) * FOOT, float(bore) * INCH, 100.0))
        for name, start, end, length, bore in rows
    ]
    links.append(Link("9", "9", "10", design_point_pump(1500.0 * GPM, 250.0 * FOOT), one_way=True))
    taken = {node: -demand * GPM for node, demand in DEMANDS.items()}
    return {"links": links, "fixed": {"9": 800.0 * FOOT, "2": 970.0 * FOOT}, "injections": taken}


def head_at(node: str) -> Callable[[NetworkState], float]:
    def pick(state: NetworkState) -> float:
        return state.heads[node]

    return pick


def flow_in(link: str) -> Callable[[NetworkState], float]:
    def pick(state: NetworkState) -> float:
        return state.flows[link]

    return pick


NETWORK = [
    *(Case(f"head at {node}, {printed} ft", solve_network, net1(), printed, 0.005, NET1, "t = 0", "computed",
           unit=FOOT, pick=head_at(node)) for node, printed in NET1_HEADS.items()),
    *(Case(f"flow in {link}, {printed} gal/min", solve_network, net1(), printed, 0.005, NET1, "t = 0",
           "computed", unit=GPM, pick=flow_in(link)) for link, printed in NET1_FLOWS.items()),
    Case("loss in pipe 10, 1004.35 to 985.23 ft", pipes.hazen_williams_loss,
         {"flow": 1866.18 * GPM, "length": 10530.0 * FOOT, "bore": 18.0 * INCH, "coefficient": 100.0},
         1004.35 - 985.23, 0.01, NET1, "t = 0", "computed", unit=FOOT,
         why="a difference of two printed heads"),
]  # fmt: skip

CASES = [*FACTORS, *(case for row in LOSSES for case in loss(*row)), *PLAIN, *NETWORK]


@pytest.mark.parametrize("case", [marked(case) for case in CASES])
def test_printed_value(case: Case) -> None:
    assert case.holds(), f"{case.ours()} against printed {case.printed}"


def test_laws_take_arrays() -> None:
    flows = np.array([-2e-3, 0.0, 1e-6, 2e-3])
    law = pipes.PipeLaw(10.0, 0.05, 1.5e-6, 1e-6, 1.5)
    found = law.at(broadcast(flows))
    one = [law.at(float(flow)) for flow in flows]
    assert found.head == pytest.approx([single.head for single in one], rel=1e-15)
    assert found.slope == pytest.approx([single.slope for single in one], rel=1e-15)


@pytest.mark.parametrize(
    ("given", "word"),
    [
        ({"bore": 0.0}, "bore"),
        ({"length": -1.0}, "length"),
        ({"roughness": -1e-6}, "roughness"),
        ({"kinematic_viscosity": 0.0}, "kinematic viscosity"),
        ({"bore": float("nan")}, "bore"),
        ({"length": float("inf")}, "length"),
        ({"sum_k": float("nan")}, "sum k"),
    ],
)
def test_impossible_pipes_are_refused(given: dict[str, float], word: str) -> None:
    usual = {"length": 1.0, "bore": 0.05, "roughness": 0.0, "kinematic_viscosity": 1e-6}
    with pytest.raises(ImpossibleInput, match=word):
        pipes.PipeLaw(**{**usual, **given})
