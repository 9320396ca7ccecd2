"""Film of coatings and what linings can follow, against print."""

from __future__ import annotations

import pytest

from tests.published.case import FOOT, INCH, Case
from tidestead.physics.structure import membranes

MIL = INCH / 1000.0
US_GALLON = 231 * INCH**3
SPREAD = "coating maker's general information, theoretical spreading rate"
PAINT = "paint consultant's question page on calculating coverage"
RUBBER = "liquid rubber maker's instructions for underwater use"

CASES = [
    Case(
        "a gallon over 1,604 square feet",
        of=membranes.wet_film,
        given={"volume": US_GALLON, "area": 1604 * FOOT**2},
        printed=1.0,
        to=0.005,
        unit=MIL,
        source=SPREAD,
        place="one US gallon covers 1,604 square feet at one mil",
        known="read",
    ),
    Case(
        "a gallon over 400 square feet",
        of=membranes.wet_film,
        given={"volume": US_GALLON, "area": 400 * FOOT**2},
        printed=0.004,
        to=0.00005,
        why="printed with one digit; 1604/400 is 4.01 mil",
        unit=INCH,
        source="units forum, thickness of a gallon of paint over 400 square feet",
        place="231 cubic inches over 57,600 square inches",
        known="read",
    ),
    Case(
        "three coats of ten mil with sixty percent solids",
        of=membranes.dry_film,
        given={"wet": 10 * MIL, "solids": 0.60, "coats": 3},
        printed=18.0,
        to=0.05,
        unit=MIL,
        source=RUBBER,
        place="how many coats: three 10 mil coats give 18 mil dry",
        known="read",
    ),
    Case(
        "eight mil wet with 35 percent solids",
        of=membranes.dry_film,
        given={"wet": 8 * MIL, "solids": 0.35, "coats": 1},
        printed=2.8,
        to=0.05,
        unit=MIL,
        source="estimating guide, wet and dry film",
        place="WFT x volume solids = DFT",
        known="read",
    ),
    Case(
        "65 percent solids at 5 mil, square feet to the gallon",
        of=membranes.spread_area,
        given={"volume": US_GALLON, "solids": 0.65, "film": 5 * MIL},
        printed=208.52,
        to=0.03,
        why="printed with 1,604 for 1,604.17 ft2 mil/gal",
        unit=FOOT**2,
        source=SPREAD,
        place="worked example in US units",
        known="read",
    ),
    Case(
        "65 percent solids at 125 micron, square metres to the litre",
        of=membranes.spread_area,
        given={"volume": 1e-3, "solids": 0.65, "film": 125e-6},
        printed=5.2,
        to=0.05,
        source=SPREAD,
        place="worked example in metric units",
        known="read",
    ),
    Case(
        "a film as thick as tested bridges what was tested",
        of=membranes.bridgeable_opening,
        given={"tested": 3.2e-3, "tested_film": 1.5e-3, "film": 1.5e-3},
        printed=3.2,
        to=0.05,
        unit=1e-3,
        source="ASTM C1305",
        place="3.2 mm at a film of 1.5 mm",
        known="recalled",
    ),
    Case(
        "half the film bridges half",
        of=membranes.bridgeable_opening,
        given={"tested": 3.2e-3, "tested_film": 1.5e-3, "film": 0.75e-3},
        printed=1.6,
        to=0.05,
        unit=1e-3,
        source="common practice, no source",
        place="in proportion to the film",
        known="practice",
    ),
    Case(
        "twice the film is credited with no more",
        of=membranes.bridgeable_opening,
        given={"tested": 3.2e-3, "tested_film": 1.5e-3, "film": 3.0e-3},
        printed=3.2,
        to=0.05,
        unit=1e-3,
        source="common practice, no source",
        place="not above what was tested",
        known="practice",
    ),
    Case(
        "a quarter of the two-way elongation of EPDM",
        of=membranes.allowed_strain,
        given={"elongation": 1.0, "safety": 4.0},
        printed=0.25,
        to=0.0005,
        source="ASTM D7465 minima for EPDM geomembrane",
        place="two-way elongation 100 %, with a stated safety of 4",
        known="practice",
    ),
    Case(
        "opening over a free strip of 25 mm",
        of=membranes.free_width_opening,
        given={"strain": 0.25, "free_width": 0.025},
        printed=6.25,
        to=0.005,
        unit=1e-3,
        source="definition of strain",
        place="a quarter of 25 mm",
        known="computed",
    ),
    Case(
        "sheet over a joint that opens 6 mm, free over 100 mm",
        of=membranes.bridging_strain,
        given={"opening": 0.006, "free_length": 0.1},
        printed=0.06,
        to=0.0005,
        why="the printed share is exact",
        source="definition of strain",
        place="6 mm over 100 mm",
        known="computed",
    ),
]


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_printed_value(case: Case) -> None:
    assert case.holds()
