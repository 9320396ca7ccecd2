"""Ring-framed towers against print: hoop pull, ring bending, stand, feet, cone seat.

The worked ring is an octagon of apothem 12 in with rings every 12 in, at 7.5 ft of water of 64 lb/ft3.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from typing import Any, TypedDict

import numpy as np
import pytest

from tests.published.case import FOOT, INCH, LB_IN, LB_PER_IN, LBF, PCF, Case
from tidestead.core.dims import Array, G
from tidestead.physics.structure import rings, towers

AISC = "AISC, Steel Construction Manual, Table 3-23, shears, moments and deflections"
WORKED = "worked octagon tower, by hand from ring statics and the beam tables"
STATICS = "elementary geometry and statics"
SHELLS = "S. Timoshenko and S. Woinowsky-Krieger, Theory of Plates and Shells, 2nd edition (1959)"
MIDDLE_THIRD = "the middle third, in any text on foundations"


class RingsGiven(TypedDict):
    """What loads of rings are found from."""

    levels: Array
    depth: float
    density: float


def field(name: str) -> Callable[[Any], float]:
    """Pick one field of a result."""
    return lambda result: float(getattr(result, name))


def worked(name: str, of: Callable[..., Any], given: Mapping[str, Any], printed: float, **more: Any) -> Case:
    """One number of the worked tower."""
    more = {"source": WORKED, "known": "computed", "place": name, **more}
    return Case(name, of, given, printed, **more)


RIGID = {"line_load": 40 * LB_PER_IN, "side": 9.941 * INCH, "stiffness": 1e4, "corner_stiffness": math.inf}
PINNED = {**RIGID, "corner_stiffness": 0.0}
UNIT = {"line_load": 1.0, "side": 1.0, "stiffness": 1.0}
BENT = {
    "rigid": rings.RingBending(corner=329.4, middle=164.7, shear=0.0, deflection=1.0),
    "pinned": rings.RingBending(corner=0.0, middle=494.1, shear=0.0, deflection=5.0),
}
LEVELS = {"levels": np.array([0.0, 1.0, 2.0, 3.0]), "depth": 3.0, "density": 1.0 / G}
LOWEST_1_FT: RingsGiven = {"levels": np.array([7.0, 8.0]) * FOOT, "depth": 7.5 * FOOT, "density": 64 * PCF}

RING_CASES = [
    worked("octagon, side 9.941 in", rings.polygon_side, {"apothem": 12 * INCH, "sides": 8}, 9.941, to=5e-4,
           unit=INCH),
    worked("octagon, hoop pull 480 lb", rings.hoop_tension,
           {"line_load": 40 * LB_PER_IN, "radius": 12 * INCH}, 480.0, to=0.5, unit=LBF),
    worked("octagon, rigid corner 329.4 lb-in", rings.ring_bending, RIGID, 329.4, to=0.05, unit=LB_IN,
           pick=field("corner")),
    worked("octagon, rigid mid-side 164.7 lb-in", rings.ring_bending, RIGID, 164.7, to=0.05, unit=LB_IN,
           pick=field("middle")),
    worked("octagon, hinged mid-side 494.1 lb-in", rings.ring_bending, PINNED, 494.1, to=0.05, unit=LB_IN,
           pick=field("middle")),
    worked("octagon in newtons, hoop pull 2135 N", rings.hoop_tension,
           {"line_load": 7005.1, "radius": 0.3048}, 2135.0, to=0.5),
    Case("beam clamped at both ends, M = wl2/12", rings.ring_bending, {**UNIT, "corner_stiffness": math.inf},
         0.0833, 5e-5, AISC, "beam fixed at both ends, even load", "recalled", pick=field("corner")),
    Case("beam clamped at both ends, bow wl4/384EI", rings.ring_bending,
         {**UNIT, "corner_stiffness": math.inf}, 0.0026, 5e-5, AISC, "beam fixed at both ends, even load",
         "recalled", pick=field("deflection")),
    Case("simple beam, bow 5wl4/384EI", rings.ring_bending, {**UNIT, "corner_stiffness": 0.0}, 0.0130, 5e-5,
         AISC, "simple beam, even load", "recalled", pick=field("deflection")),
    worked("corner strong enough, 164.7 at mid-side", rings.held_ring_bending,
           {**BENT, "corner_capacity": 330.0}, 164.7, to=0.05, pick=field("middle")),
    worked("corner not shown, 494.1 at mid-side", rings.held_ring_bending, {**BENT, "corner_capacity": 0.0},
           494.1, to=0.05, pick=field("middle")),
    worked("corner too weak, 494.1 at mid-side", rings.held_ring_bending, {**BENT, "corner_capacity": 329.0},
           494.1, to=0.05, pick=field("middle")),
    worked("ring 6 mm out of round under 2135 N", rings.out_of_round_moment,
           {"tension": 2135.0, "out_of_round": 0.006}, 12.81, to=0.005),
    worked("lowest of four rings: pressure at the floor over half a bay", rings.ring_loads, LEVELS, 1.5,
           to=0.05, pick=lambda loads: float(loads[0])),
    worked("second of four rings: mean pressure over a bay", rings.ring_loads, LEVELS, 2.0, to=0.05,
           pick=lambda loads: float(loads[1]), why="an exact number"),
    worked("uppermost of four rings: the triangle above it", rings.ring_loads, LEVELS, 0.125, to=5e-4,
           pick=lambda loads: float(loads[3])),
    worked("four uprights round a tower", rings.buttress_gradient,
           {"density": 1.0 / G, "radius": 1.0, "buttresses": 4}, 1.4142, to=5e-5, source=STATICS),
    worked("ring pulled outward at six corners: T = P", rings.plate_tension, {"force": 100.0, "points": 6},
           100.0, to=0.5, source=STATICS),
    worked("ring pulled outward at four corners: T = .7071 P", rings.plate_tension,
           {"force": 1.0, "points": 4}, 0.7071, to=5e-5, source=STATICS),
]  # fmt: skip

FOOT_UNDER = {"load": 1.0, "width": 1.0, "length": 1.0}


def _foot(name: str, off: float, pick: str, printed: float, to: float) -> Case:
    return Case(
        f"load off by {name}, {pick}",
        towers.footing_pressure, {**FOOT_UNDER, "eccentricity": off}, printed, to, MIDDLE_THIRD,
        f"load off the middle by {name}", "recalled", pick=field(pick), why="an exact number",
    )  # fmt: skip


TOWER_CASES = [
    worked("tower of 500 lb on 2 ft pushed by 100 lb at 3 ft", towers.overturning_safety,
           {"weight": 500 * LBF, "base": 2 * FOOT, "push": 100 * LBF, "height": 3 * FOOT}, 1.667, to=5e-4,
           source=STATICS),
    worked("four feet on a circle of 1 m", towers.buttressed_base,
           {"radius": 0.4, "reach": 0.6, "buttresses": 4}, 1.4142, to=5e-5, source=STATICS),
    worked("three feet on a circle of 1 m", towers.buttressed_base,
           {"radius": 1.0, "reach": 0.0, "buttresses": 3}, 1.0, to=0.005, source=STATICS),
    _foot("nothing", 0.0, "peak", 1.0, 5e-4),
    _foot("a sixth", 1.0 / 6.0, "peak", 2.0, 5e-4),
    _foot("a twelfth", 1.0 / 12.0, "least", 0.5, 5e-4),
    _foot("a third", 1.0 / 3.0, "peak", 4.0, 5e-4),
    _foot("a third", 1.0 / 3.0, "contact", 0.5, 5e-4),
    Case("cone of 45 degrees, hoop pull W/(2 pi)", towers.cone_seat,
         {"weight": 2.0 * math.pi * 100.0, "radius": 0.3, "slope_rad": math.pi / 4.0}, 100.0, 0.05, SHELLS,
         "section 108, conical shell under its own weight", "recalled", pick=field("hoop")),
    Case("cone of 30 degrees, thrust on its seat", towers.cone_seat,
         {"weight": 2.0 * math.pi, "radius": 1.0, "slope_rad": math.pi / 6.0}, 1.732, 5e-4, SHELLS,
         "section 108, conical shell under its own weight", "recalled", pick=field("thrust")),
    Case("cone of 30 degrees, force along its slope", towers.cone_seat,
         {"weight": 2.0 * math.pi, "radius": 1.0, "slope_rad": math.pi / 6.0}, 2.0, 5e-4, SHELLS,
         "section 108, conical shell under its own weight", "recalled", pick=field("along_slope")),
    worked("cone full to its tip lifts by two thirds of its cylinder", towers.cone_uplift,
           {"density": 1.0 / G, "radius": 1.0, "slope_rad": math.pi / 4.0, "water": 1.0}, 2.0944, to=5e-5,
           source=STATICS),
]  # fmt: skip

CASES = [*RING_CASES, *TOWER_CASES]


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_case_holds(case: Case) -> None:
    assert case.holds(), f"{case.ours()} against printed {case.printed}"


def test_lowest_ring_takes_the_pressure_at_its_foot() -> None:
    """A ring that stands off the floor takes everything below it too."""
    loads = rings.ring_loads(**LOWEST_1_FT)
    foot = 64 * PCF * G * 7.5 * FOOT
    assert loads[0] == pytest.approx(foot * 7.5 * FOOT, rel=1e-12)
    assert loads[1] == pytest.approx(0.0, abs=1e-9)
