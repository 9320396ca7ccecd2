"""Housner's shaken box of water against print."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from tests.published.case import FOOT, Case
from tidestead.physics.structure import sloshing

THESIS = "thesis (2018), section 8.2, basin 6.0 m by 4.5 m with 3.0 m of water, by ACI 350.3-06"
SHEET = "worked sheet to IS 1893 part 2, tank 6.85 m by 6.85 m with 3.2 m of water"
SHEET_2 = "worked sheet to IS 1893 part 2, tank 12 m by 9 m with 5.56 m of water"
OWN = "box 12 ft by 4 ft deep, worked by hand from ACI 350.3-06"
CENGEL = "Cengel and Cimbala, Fluid Mechanics, example of an accelerated fish tank"

LONG = {"along": 6.0, "depth": 3.0}
SHORT = {"along": 4.5, "depth": 3.0}
WEIGHT = 794.6
SHAKEN = sloshing.ShakenBox(along=6.0, across=4.5, depth=3.0, density=1000.0, stiff=9.81, slow=9.81)


def _share(name: str, of: Callable[[float, float], float], given: dict[str, float], printed: float) -> Case:
    return Case(
        name,
        of=of,
        given=given,
        printed=printed,
        to=0.05,
        unit=1.0 / WEIGHT,
        source=THESIS,
        place="weights in kN of 794.6 kN",
        known="quoted",
    )


CASES = [
    _share("moves with the walls, long way", sloshing.impulsive_share, LONG, 430.9),
    _share("sloshes, long way", sloshing.convective_share, LONG, 385.4),
    _share("moves with the walls, short way", sloshing.impulsive_share, SHORT, 527.0),
    _share("sloshes, short way", sloshing.convective_share, SHORT, 305.5),
    Case(
        "moves with the walls at length to depth 2.16",
        of=sloshing.impulsive_share,
        given={"along": 2.16, "depth": 1.0},
        printed=305890.71,
        to=0.005,
        unit=1.0 / 600000.0,
        source=SHEET_2,
        place="impulsive mass of 600,000 kg, longer direction",
        known="read",
    ),
    Case(
        "moves with the walls at length to depth 1.62",
        of=sloshing.impulsive_share,
        given={"along": 1.62, "depth": 1.0},
        printed=378915.91,
        to=0.005,
        unit=1.0 / 600000.0,
        source=SHEET_2,
        place="impulsive mass of 600,000 kg, shorter direction",
        known="read",
    ),
    Case(
        "height of the slosh, long way",
        of=sloshing.convective_height,
        given=LONG,
        printed=1.75,
        to=0.005,
        source=THESIS,
        place="hc",
        known="quoted",
    ),
    Case(
        "height of the slosh, short way",
        of=sloshing.convective_height,
        given=SHORT,
        printed=1.88,
        to=0.005,
        source=THESIS,
        place="hc",
        known="quoted",
    ),
    Case(
        "period, long way",
        of=sloshing.slosh_period,
        given=LONG,
        printed=2.88,
        to=0.005,
        source=THESIS,
        place="Tc",
        known="quoted",
    ),
    Case(
        "period, short way",
        of=sloshing.slosh_period,
        given=SHORT,
        printed=2.43,
        to=0.005,
        source=THESIS,
        place="Tc",
        known="quoted",
    ),
    Case(
        "height of the part that moves with the walls, low box",
        of=sloshing.impulsive_height,
        given={"along": 6.85, "depth": 3.2},
        printed=1.2,
        to=0.05,
        source=SHEET,
        place="hi = 0.375 h",
        known="read",
    ),
    Case(
        "height of the part that moves with the walls, where the two lines meet",
        of=sloshing.impulsive_height,
        given={"along": 1.3329, "depth": 1.0},
        printed=0.375,
        to=0.0005,
        source="ACI 350.3-06, 9.2.2",
        place="0.5 - 0.09375 x meets 0.375 at x = 1.333",
        known="quoted",
    ),
    Case(
        "lever of the part that moves with the walls, floor included",
        of=sloshing.impulsive_height_with_floor,
        given={"along": 6.85, "depth": 3.2},
        printed=2.72,
        to=0.016,
        why="0.85 read off the chart of the code to two digits: 0.005 of 3.2 m",
        source=SHEET,
        place="hi* = 0.85 h",
        known="read",
    ),
    Case(
        "share that moves with the walls, 12 ft by 4 ft",
        of=sloshing.impulsive_share,
        given={"along": 12 * FOOT, "depth": 4 * FOOT},
        printed=0.381,
        to=0.0005,
        source=OWN,
        place="tanh(2.598)/2.598",
        known="computed",
    ),
    Case(
        "share that sloshes, 12 ft by 4 ft",
        of=sloshing.convective_share,
        given={"along": 12 * FOOT, "depth": 4 * FOOT},
        printed=0.620,
        to=0.0005,
        source=OWN,
        place="0.792 tanh(1.0533)",
        known="computed",
    ),
    Case(
        "period, 12 ft by 4 ft",
        of=sloshing.slosh_period,
        given={"along": 12 * FOOT, "depth": 4 * FOOT},
        printed=2.44,
        to=0.005,
        source=OWN,
        place="2 pi sqrt(L/(3.16 g tanh(1.0533)))",
        known="computed",
    ),
    Case(
        "fish tank two metres along a truck",
        of=sloshing.slosh_rise,
        given={"along": 2.0, "slow": 2.5},
        printed=25.5,
        to=0.05,
        unit=0.01,
        source=CENGEL,
        place="90 km/h in 10 s, 25.5 cm",
        known="recalled",
    ),
    Case(
        "fish tank 0.6 m along a truck",
        of=sloshing.slosh_rise,
        given={"along": 0.6, "slow": 2.5},
        printed=7.6,
        to=0.05,
        unit=0.01,
        source=CENGEL,
        place="90 km/h in 10 s, 7.6 cm",
        known="recalled",
    ),
    Case(
        "round tank 40 cm across at 4 m/s2",
        of=sloshing.slosh_rise,
        given={"along": 0.4, "slow": 4.0},
        printed=8.2,
        to=0.05,
        unit=0.01,
        source="open question page, water tank carried on a level road",
        place="rise of 8.2 cm at the edge",
        known="read",
    ),
    Case(
        "push at the floor of a force at a third of the depth",
        of=sloshing.wall_line_load,
        given={"force": 3000.0, "at_height": 1.0, "depth": 3.0, "above": 0.0},
        printed=1000.0,
        to=0.5,
        source="elementary statics",
        place="a triangle with half the force: 2 x 1500 N over 3 m",
        known="computed",
    ),
    Case(
        "push half-way up of a force at half the depth",
        of=sloshing.wall_line_load,
        given={"force": 3000.0, "at_height": 1.5, "depth": 3.0, "above": 1.5},
        printed=500.0,
        to=0.5,
        source="elementary statics",
        place="an even load with half the force: 1500 N over 3 m",
        known="computed",
    ),
    Case(
        "force of the part that moves with the walls under one g",
        of=sloshing.slosh_load,
        given={"box": SHAKEN},
        printed=430.9,
        to=0.05,
        unit=1000.0,
        pick=lambda load: load.impulsive,
        source=THESIS,
        place="weight that moves with the walls",
        known="quoted",
    ),
    Case(
        "force of both parts under one g",
        of=sloshing.slosh_load,
        given={"box": SHAKEN},
        printed=578.1,
        to=0.05,
        unit=1000.0,
        pick=lambda load: load.force,
        source=THESIS,
        place="root of the squares of 430.9 and 385.4 kN, by hand",
        known="computed",
    ),
]


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_printed_value(case: Case) -> None:
    assert case.holds()
