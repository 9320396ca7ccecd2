"""Films of coatings, cloth with its epoxy and sizes of liner sheets, against print."""

from __future__ import annotations

import pytest

from tests.published.case import FOOT, INCH, Case
from tidestead.physics import lining

MIL = INCH / 1000.0
US_GALLON = 231 * INCH**3
OUNCE_A_SQUARE_YARD = 0.028349523125 / 0.9144**2
RATE = FOOT**2 / US_GALLON
SPREAD = "coating maker's general information, theoretical spreading rate"
COLUMN = "paint column on calculating coverage"
RUBBER = "liquid rubber maker's instructions for underwater use"
NIEDERER = "Niederer, Estimating Epoxy Amounts"
POND = "pond-liner trade, worked sizes of a sheet"


def _pond(name: str, given: tuple[float, float, float], printed: float) -> Case:
    side, depth, overlap = (FOOT * one for one in given)
    return Case(name, lining.liner_side, {"side": side, "depth": depth, "overlap": overlap}, printed, 0.05, POND,
                "length plus twice the depth plus twice the overlap, ft", "read", unit=FOOT,
                why="exact: sides in whole and half feet")  # fmt: skip


CASES = [
    Case(
        "a gallon over 1,604 square feet",
        of=lining.wet_film,
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
        of=lining.wet_film,
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
        of=lining.dry_film,
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
        of=lining.dry_film,
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
        of=lining.spreading_rate,
        given={"solids": 0.65, "film": 5 * MIL, "transfer": 1.0},
        printed=208.52,
        to=0.03,
        why="printed with 1,604 for 1,604.17 ft2 mil/gal",
        unit=RATE,
        source=SPREAD,
        place="worked example in US units",
        known="read",
    ),
    Case(
        "65 percent solids at 125 micron, square metres to the litre",
        of=lining.spreading_rate,
        given={"solids": 0.65, "film": 125e-6, "transfer": 1.0},
        printed=5.2,
        to=0.05,
        unit=1e3,
        source=SPREAD,
        place="worked example in metric units",
        known="read",
    ),
    Case("a gallon at one mil, nothing lost", lining.spreading_rate, {"solids": 1.0, "film": MIL, "transfer": 1.0},
         1604.17, 0.005, "231 cubic inches over a thousandth of an inch", "exact", "computed", unit=RATE),
    Case("52 percent solids at 1.5 mil, 30 percent of it arrives", lining.spreading_rate,
         {"solids": 0.52, "film": 1.5 * MIL, "transfer": 0.30}, 167.0, 0.5, COLUMN,
         "1604 x 0.52 x 0.30 / 1.5 ft2/gal", "read", unit=RATE),
    Case("ten mil wet for six dry at 60 percent", lining.wet_for_dry, {"dry": 6 * MIL, "solids": 0.60}, 10.0, 0.05,
         RUBBER, "10 mil wet dry to 6 mil", "read", unit=MIL),
    Case("5.2 m2/L at 65 percent solids leave 125 micron", lining.rate_film, {"rate": 5200.0, "solids": 0.65}, 125.0,
         0.5, SPREAD, "metric example read from its answer", "read", unit=1e-6),
    Case("167 square feet at 1.5 mil take a gallon where 30 percent arrives", lining.coat_volume,
         {"area": 167 * FOOT**2, "film": 1.5 * MIL, "solids": 0.52, "transfer": 0.30}, 1.0, 0.005, COLUMN,
         "167 ft2/gal read the other way", "read", unit=US_GALLON),
    Case("a gallon over 167 square feet builds 1.5 mil where 30 percent arrives", lining.film_built,
         {"volume": US_GALLON, "area": 167 * FOOT**2, "solids": 0.52, "transfer": 0.30}, 1.5, 0.005, COLUMN,
         "167 ft2/gal read for its film", "read", unit=MIL, why="167 is printed without decimals: 0.3 % of 1.5"),
    Case("56 square feet of cloth of 12 oz", lining.cloth_epoxy,
         {"area": 56 * FOOT**2, "cloth": 12 * OUNCE_A_SQUARE_YARD}, 0.99, 0.005, NIEDERER, "worked, US gallons", "read",
         unit=US_GALLON),
    Case("61 square feet of cloth of 6 oz", lining.cloth_epoxy,
         {"area": 61 * FOOT**2, "cloth": 6 * OUNCE_A_SQUARE_YARD}, 0.77, 0.005, NIEDERER, "worked, US gallons", "read",
         unit=US_GALLON),
    _pond("12 ft wide, 3 ft deep, 1 ft over", (12.0, 3.0, 1.0), 20.0),
    _pond("17 ft long, 3 ft deep, 1 ft over", (17.0, 3.0, 1.0), 25.0),
    _pond("10 ft long, 6 ft deep, half a foot over", (10.0, 6.0, 0.5), 23.0),
    _pond("8 ft wide, 6 ft deep, half a foot over", (8.0, 6.0, 0.5), 21.0),
    Case("corner folds of the sheet of 20 x 25 ft", lining.folded_area, {"depth": 3 * FOOT, "overlap": FOOT}, 64.0,
         0.5, POND, "20 x 25 less 12 x 17 and four walls of 4 ft: 500 - 204 - 232", "computed", unit=FOOT**2),
    Case("welded box of 12 x 17 x 3 ft, 1 ft over", lining.welded_area,
         {"floor": 204 * FOOT**2, "girth": 58 * FOOT, "depth": 3 * FOOT, "overlap": FOOT}, 436.0, 0.5, POND,
         "12 x 17 and four walls of 4 ft: 204 + 232", "computed", unit=FOOT**2),
]  # fmt: skip


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_printed_value(case: Case) -> None:
    assert case.holds()


def test_folds_are_what_the_flat_sheet_has_over_the_welded_box() -> None:
    """500 square feet of sheet, 436 of them in the box."""
    wide, long = (lining.liner_side(one * FOOT, 3 * FOOT, FOOT) for one in (12.0, 17.0))
    welded = lining.welded_area(204 * FOOT**2, 58 * FOOT, 3 * FOOT, FOOT)
    assert wide * long - welded == pytest.approx(lining.folded_area(3 * FOOT, FOOT))
