"""Swarms, columns, diffusers and towers against print and against worked tables for seawater.

The tables are for seawater of 25 degC and S = 35: 1023.3 kg/m3, 0.959 mPa s, 73.2 mN/m.
"""

from __future__ import annotations

import math

import pytest

from tests.published.case import PSI, Case
from tidestead.physics.foam import columns, contact, diffusers, swarms, towers
from tidestead.physics.foam.bubbles import WaterProperties
from tidestead.physics.foam.columns import Column
from tidestead.physics.foam.contact import Heights
from tidestead.physics.foam.swarms import Swarm

SEAWATER = WaterProperties(density=1023.3, viscosity=0.959e-3, surface_tension=0.0732)
TABLE = "worked table of flooding in seawater of 25 degC, drift flux of Wallis with Richardson and Zaki"
HINDERED = "J. Richardson and W. Zaki, Trans. Inst. Chem. Eng. 32 (1954) 35, as four public codes quote it"
PARK = "Park et al., ozone and foam fractionation in a recirculating system for black sea bream"
GEOMETRY = "elementary geometry"
POLYGONS = "table of regular polygons of side 1 in handbooks of mathematics"
MM_S = 1e-3

ROUNDED = "the table prints jl rounded to 0.1 mm/s, which alone moves this by 0.02, and takes g as 9.81"
LOOSE = {(10.2, 1.0): 0.08, (13.8, 1.0): 0.06}
"""Where that shows, by speed of water and size of bubble."""

SIZES = {0.5: Swarm(56.9e-3, 3.163), 0.8: Swarm(95.8e-3, 2.865), 1.0: Swarm(120.05e-3, 2.739)}
"""The swarms of the table: rise alone, as it prints it, and exponent by hand from Re 30.4, 81.8 and 128.1."""

FLOODING = {
    0.0: (7.9, 15.0, 19.9),
    6.9: (5.4, 11.9, 16.4),
    10.2: (4.5, 10.6, 15.1),
    13.8: (3.6, 9.4, 13.7),
}
"""Largest speed of air, mm/s, by speed of water and size of bubble (0.5, 0.8, 1.0 mm)."""


def _flooding(water: float, size: float, printed: float) -> Case:
    to = LOOSE.get((water, size), 0.05)
    return Case(
        f"bubbles of {size:g} mm flood at {printed:g} mm/s in water sinking {water:g} mm/s",
        swarms.flooding_gas_speed, {"water_speed": water * MM_S, "swarm": SIZES[size]},
        printed, to, TABLE, f"jl {water:g}, {size:g} mm", "computed", unit=MM_S, why=ROUNDED if to > 0.05 else "",
    )  # fmt: skip


def _exponent(reynolds: float, printed: float, place: str) -> Case:
    return Case(
        f"exponent {printed:g} at Re {reynolds:g}", swarms.swarm_exponent, {"reynolds_number": reynolds},
        printed, 5e-4, HINDERED, place, "quoted",
    )  # fmt: skip


def _state(name: str, pick: str, printed: float, to: float, unit: float = 1.0) -> Case:
    given = {
        "column": Column(area=0.5, height=2.0), "water_flow": 0.0051, "air_flow": 0.003,
        "bubble": 0.8e-3, "properties": SEAWATER,
    }  # fmt: skip
    return Case(
        name, columns.column_state, given, printed, to, TABLE, "worked by hand for 0.5 m2, 2 m", "computed", unit=unit,
        pick=lambda state: float(getattr(state, pick)),
    )  # fmt: skip


CASES = [
    _exponent(0.1, 4.65, "Re < 0.2"),
    _exponent(0.5, 4.441, "0.2 to 1: 4.35*Re**-0.03, by hand"),
    _exponent(100.0, 2.808, "1 to 500: 4.45*Re**-0.1, by hand"),
    _exponent(1000.0, 2.39, "above 500"),
    *[_flooding(water, size, printed) for water, row in FLOODING.items()
      for size, printed in zip(SIZES, row, strict=True)],
    *[
        Case(
            f"bubbles of {size:g} mm flood still water at {printed:g} of air", swarms.flooding_holdup,
            {"water_speed": 0.0, "swarm": SIZES[size]}, printed, 5e-3, TABLE, f"jl 0, {size:g} mm", "computed",
        )
        for size, printed in ((0.5, 0.32), (0.8, 0.35), (1.0, 0.37))
    ],
    Case(
        "bubbles of 1 mm at 16.4 mm/s of air flood at 6.9 mm/s of water", swarms.flooding_water_speed,
        {"gas_speed": 16.4 * MM_S, "swarm": SIZES[1.0]}, 6.9, 0.13, TABLE, "jl 6.9, 1 mm, turned round", "computed",
        unit=MM_S, why="half a digit of the air (0.05) is 0.11 of the water; the water is printed to 0.1",
    ),
    Case(
        "bubbles of 0.5 mm at 7 mm/s of air flood at 2.4 mm/s of water, by hand: e 0.29", swarms.flooding_water_speed,
        {"gas_speed": 3.163 * 56.9e-3 * 0.29**2 * 0.71**2.163, "swarm": SIZES[0.5]},
        56.9 * 0.71**3.163 * (1.0 - 3.163 * 0.29), 1e-6, TABLE, "the two closed forms at one holdup", "computed",
        unit=MM_S,
        why="both closed forms are exact at a chosen share of air",
    ),
    Case(
        "a tenth of air: 0.1*(100*0.9**2 - 20/0.9) mm/s", swarms.gas_speed,
        {"holdup": 0.1, "water_speed": 20.0 * MM_S, "swarm": Swarm(0.1, 3.0)}, 5.878, 5e-4,
        "G. Wallis, One-dimensional Two-phase Flow (1969)", "law of drift, by hand", "computed", unit=MM_S,
    ),
    Case(
        "the same turned round", swarms.gas_holdup,
        {"gas_speed": 5.8778e-3, "water_speed": 20.0 * MM_S, "swarm": Swarm(0.1, 3.0)}, 0.1, 1e-5,
        "G. Wallis, One-dimensional Two-phase Flow (1969)", "law of drift, by hand", "computed",
        why="the speed is given to five digits",
    ),
    Case(
        "swarm of 0.5 mm: rises 56.9 mm/s alone", swarms.bubble_swarm,
        {"diameter": 0.5e-3, "properties": SEAWATER}, 56.9, 0.05, TABLE, "0.5 mm", "computed", unit=MM_S,
        pick=lambda swarm: float(swarm.rise),
    ),
    Case(
        "swarm of 1 mm: 1/n is 0.365", swarms.bubble_swarm, {"diameter": 1e-3, "properties": SEAWATER},
        0.365, 5e-4, TABLE, "1.0 mm, gas fraction at flooding", "computed", pick=lambda swarm: 1.0 / swarm.exponent,
    ),
    *[
        Case(
            f"water sinking {water:g} mm/s takes bubbles under {cut:g} mm", columns.carry_under_cut,
            {"water_speed": water * MM_S, "holdup": 0.1, "properties": SEAWATER}, cut, 5e-3, TABLE,
            f"carry-under, jl {water:g}; the page does not print its share of air, a tenth fits all five", "computed",
            unit=1e-3,
        )
        for water, cut in ((3.5, 0.08), (6.9, 0.12), (10.2, 0.15), (13.8, 0.19), (20.7, 0.25))
    ],
    Case(
        "10 m3/h through 0.4 m2 is 6.94 mm/s", columns.superficial_speed, {"flow": 10.0 / 3600.0, "area": 0.4},
        6.94, 5e-3, GEOMETRY, "definition", "computed", unit=MM_S,
    ),
    Case(
        "a tenth of air in balls of 1 mm is 600 m2/m3", columns.specific_area, {"holdup": 0.1, "diameter": 1e-3},
        600.0, 0.5, GEOMETRY, "6*e/d", "computed",
    ),
    Case(
        "2 m, a tenth of air, 5 mm/s: 40 s", columns.bubble_dwell,
        {"height": 2.0, "holdup": 0.1, "gas_speed": 5e-3}, 40.0, 0.5, GEOMETRY, "L*e/jg", "computed",
    ),
    Case(
        "0.212 m3, a tenth of air, 6 m3/h: 114 s", columns.water_dwell,
        {"volume": 0.212, "holdup": 0.1, "water_flow": 6.0 / 3600.0}, 114.0, 0.5, GEOMETRY, "V*(1-e)/Q", "computed",
    ),
    _state("column state: water 10.2 mm/s floods at 10.6 mm/s of air", "flooding_speed", 10.6, 0.05, MM_S),
    _state("column state: 6 mm/s of air is 0.56 of flooding", "flooding_use", 0.565, 5e-4),
    _state("column state: three parts of air to 5.1 of water", "air_to_water", 0.588, 5e-4),
    Case(
        "column 300 mm wide, 3 m high: 212 L", towers.column_volume,
        {"area": math.pi * 0.15**2, "height": 3.0}, 212.0, 0.5, PARK, "300 mm by 3 m, read; volume by hand",
        "computed", unit=1e-3,
    ),
    Case(
        "212 L of 4.5 m3 is 4.7 %", towers.share_of_system, {"volume": 0.212, "system": 4.5}, 4.7, 0.05,
        PARK, "column on 4.5 m3, read; share by hand", "computed", unit=0.01,
    ),
    Case(
        "column 300 mm wide: 0.0707 m2", towers.round_area, {"diameter": 0.3}, 0.0707, 5e-5, GEOMETRY, "circle",
        "computed",
    ),
    Case(
        "twelve sides of 1: area 11.196", towers.polygon_area,
        {"apothem": 1.8660254, "sides": 12}, 11.19615, 5e-6, POLYGONS, "dodecagon, apothem 1.8660254", "recalled",
    ),
    Case(
        "six sides of 1: area 2.598", towers.polygon_area, {"apothem": 0.8660254, "sides": 6},
        2.59808, 5e-6, POLYGONS, "hexagon, apothem 0.8660254", "recalled",
    ),
    Case(
        "cone from radius 3 to 1 over 3: 13*pi", towers.cone_volume,
        {"lower": 9.0 * math.pi, "upper": math.pi, "height": 3.0}, 40.84, 5e-3, GEOMETRY, "cone cut off", "computed",
    ),
    Case(
        "cone in by 0.2 over 0.2: 45 degrees", towers.cone_slope,
        {"column_radius": 0.3, "neck_radius": 0.1, "height": 0.2}, 45.0, 0.05, GEOMETRY, "slope", "computed",
        unit=math.pi / 180.0,
    ),
    Case(
        "neck of a third of the width: nine times as fast", towers.narrowing,
        {"column_area": math.pi * 0.09, "neck_area": math.pi * 0.01}, 9.0, 0.05, GEOMETRY, "(D/d)**2", "computed",
    ),
    Case(
        "in at 1.8 m, out at 0.1 m, air at 0.3 m: they meet along 1.5 m", contact.contact_height,
        {"heights": Heights(feed=1.8, outlet=0.1, diffuser=0.3)}, 1.5, 5e-3, GEOMETRY, "above the diffuser only",
        "computed",
    ),
    Case(
        "in at 0.5 m, out at 1.6 m, air at 0.2 m: they meet along 1.1 m, side by side", contact.contact_height,
        {"heights": Heights(feed=0.5, outlet=1.6, diffuser=0.2)}, 1.1, 5e-3, GEOMETRY, "between the ports only",
        "computed",
    ),
    Case(
        "bed of 1 m with a fifth of air stands at 1.25 m: e = (L - L0)/L", contact.lifted_level,
        {"clear": 1.0, "foot": 0.0, "holdup": 0.2}, 1.25, 5e-3, "W.-D. Deckwer, Bubble Column Reactors (1992)",
        "holdup from the expansion of the bed", "recalled",
    ),
    Case(
        "one foot of seawater of 64 lb/ft3 over a diffuser: 0.444 psi", diffusers.diffuser_pressure,
        {"depth": 0.3048, "density": 1025.18, "loss": 0.0}, 0.4444, 5e-5, "elementary hydrostatics",
        "64/144 psi a foot", "computed", unit=PSI,
    ),
    Case(
        "2 m of seawater and 3 kPa of diffuser: 23.1 kPa", diffusers.diffuser_pressure,
        {"depth": 2.0, "density": 1025.0, "loss": 3000.0}, 23.1, 0.05, "elementary hydrostatics", "by hand", "computed",
        unit=1e3,
    ),
    Case(
        "100 L/min to twice the pressure of the air: 129.5 W", diffusers.air_power,
        {"air_flow": 1.0 / 600.0, "pressure": 101325.0, "efficiency": 1.0}, 129.5, 0.05,
        "thermodynamics of a perfect gas", "3.5*p0*Q*(2**(2/7) - 1), by hand", "computed",
    ),
]  # fmt: skip


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_printed_value(case: Case) -> None:
    assert case.holds()
