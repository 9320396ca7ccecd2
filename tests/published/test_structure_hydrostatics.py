"""Volumes, weights, floor pressure and the push on a window against print."""

from __future__ import annotations

import pytest

from tests.published.case import FOOT, LBF, PCF, PSF, Case
from tidestead.physics.structure import hydrostatics

GATES = "civil engineering board examination page, hydrostatic forces on plane surfaces"
QUIZ = "open question set on forces on submerged surfaces"
MACHINERY = "Machinery's Handbook, areas and volumes"
STATICS = "hand sum with seawater of 64.0 lb/ft3"
SHORT_G = "printed with g = 9.81, ours is 9.80665"

POUND = 0.45359237
US_GALLON = 231 * 0.0254**3

CASES = [
    Case(
        "gate 3 m high with its top 2 m under water: push",
        of=hydrostatics.window_load,
        given={"density": 1000.0, "head": 5.0, "height": 3.0},
        printed=154.51,
        to=0.06,
        why=SHORT_G,
        unit=1000.0 / 1.5,
        pick=lambda load: load.push,
        source=GATES,
        place="rectangular gate 1.5 m by 3 m",
        known="read",
    ),
    Case(
        "gate 3 m high with its top 2 m under water: centre of pressure",
        of=hydrostatics.window_load,
        given={"density": 1000.0, "head": 5.0, "height": 3.0},
        printed=3.714,
        to=0.0005,
        pick=lambda load: 5.0 - load.above,
        source=GATES,
        place="rectangular gate 1.5 m by 3 m, depth below the surface",
        known="read",
    ),
    Case(
        "gate 3 m high with its top 1 m under water: push",
        of=hydrostatics.window_load,
        given={"density": 1000.0, "head": 4.0, "height": 3.0},
        printed=147.15,
        to=0.06,
        why=SHORT_G,
        unit=1000.0 / 2.0,
        pick=lambda load: load.push,
        source=QUIZ,
        place="rectangular gate 2 m by 3 m",
        known="read",
    ),
    Case(
        "gate 3 m high with its top 1 m under water: pressure at the top",
        of=hydrostatics.window_load,
        given={"density": 1000.0, "head": 4.0, "height": 3.0},
        printed=9.81,
        to=0.005,
        unit=1000.0,
        pick=lambda load: load.pressure_top,
        source=QUIZ,
        place="one metre of water at 9.81 kN/m3",
        known="read",
    ),
    Case(
        "window 1.2 m high, wet to its top edge: pressure at the bottom",
        of=hydrostatics.window_load,
        given={"density": 1025.0, "head": 1.2, "height": 1.2},
        printed=12062.2,
        to=0.05,
        pick=lambda load: load.pressure_bottom,
        source="hand sum, 1025 kg/m3 times 9.80665 m/s2 times 1.2 m",
        place="worked panel 1.8 m by 1.2 m",
        known="computed",
    ),
    Case(
        "window that reaches above the water is wet as far as the water goes",
        of=hydrostatics.window_load,
        given={"density": 1000.0, "head": 0.9, "height": 1.2},
        printed=0.3,
        to=0.05,
        pick=lambda load: load.above,
        source="elementary hydrostatics",
        place="a triangle's push acts at a third of the wet height",
        known="computed",
    ),
    Case(
        "box of 12 by 6 by 4 feet in US gallons",
        of=hydrostatics.box_volume,
        given={"length": 12 * FOOT, "width": 6 * FOOT, "depth": 4 * FOOT},
        printed=2154.4,
        to=0.05,
        unit=US_GALLON,
        source="NIST SP 811 (2008), appendix B",
        place="7.48052 US gallons to the cubic foot",
        known="recalled",
    ),
    Case(
        "area of an octagon",
        of=hydrostatics.polygon_area,
        given={"across": 1.0, "sides": 8},
        printed=0.828,
        to=0.0005,
        source=MACHINERY,
        place="octagon: 0.828 times the square of the width across flats",
        known="recalled",
    ),
    Case(
        "area of a hexagon",
        of=hydrostatics.polygon_area,
        given={"across": 1.0, "sides": 6},
        printed=0.866,
        to=0.0005,
        source=MACHINERY,
        place="hexagon: 0.866 times the square of the width across flats",
        known="recalled",
    ),
    Case(
        "area of a circle",
        of=hydrostatics.round_area,
        given={"diameter": 2.0},
        printed=3.1416,
        to=0.00005,
        source=MACHINERY,
        place="circle: 0.7854 times the square of the diameter",
        known="recalled",
    ),
    Case(
        "upright round vessel of 40 inches by 48 inches",
        of=hydrostatics.prism_volume,
        given={"area": 0.7854 * (40 * 0.0254) ** 2, "depth": 48 * 0.0254},
        printed=261.12,
        to=0.005,
        unit=US_GALLON,
        source=MACHINERY,
        place="cylinder: 0.0034 times diameter squared times height, inches to US gallons",
        known="recalled",
    ),
    Case(
        "frustum of a cone",
        of=hydrostatics.cone_volume,
        given={"wide": 2.0, "narrow": 1.0, "height": 1.0},
        printed=1.8326,
        to=0.0003,
        why="printed with the constant 0.2618 for pi/12",
        source=MACHINERY,
        place="frustum of cone: 0.2618 h (D2 + D d + d2)",
        known="recalled",
    ),
    Case(
        "seawater in a box of 12 by 6 by 4 feet",
        of=hydrostatics.water_mass,
        given={"volume": 288.0 * FOOT**3, "density": 64.0 * PCF},
        printed=18432.0,
        to=0.5,
        unit=POUND,
        source=STATICS,
        place="288 ft3 at 64.0 lb/ft3",
        known="computed",
    ),
    Case(
        "weight of that water",
        of=hydrostatics.weight_of,
        given={"mass": 18432.0 * POUND},
        printed=18432.0,
        to=0.5,
        unit=LBF,
        source="NIST SP 811 (2008), appendix B",
        place="a pound of mass weighs a pound-force under standard gravity",
        known="recalled",
    ),
    Case(
        "water alone on a floor, 4 feet deep",
        of=hydrostatics.floor_pressure,
        given={"depth": 4 * FOOT, "density": 64.0 * PCF, "own_mass": 0.0, "area": 72.0 * FOOT**2},
        printed=256.0,
        to=0.05,
        unit=PSF,
        source=STATICS,
        place="64 psf for each foot of depth",
        known="practice",
    ),
    Case(
        "the same with 1,800 pounds of timber",
        of=hydrostatics.floor_pressure,
        given={"depth": 4 * FOOT, "density": 64.0 * PCF, "own_mass": 1800 * POUND, "area": 72.0 * FOOT**2},
        printed=281.0,
        to=0.05,
        unit=PSF,
        source=STATICS,
        place="1,800 lb over 72 ft2 add 25 psf",
        known="computed",
    ),
]


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_printed_value(case: Case) -> None:
    assert case.holds()
