"""What is bought over the net amount: of what no cut plan holds, and of nothing else."""

from __future__ import annotations

import math

import pytest

from tests.journeys.cost_plans import bought, cost_of, told_of, with_row
from tests.journeys.flow_plans import example
from tests.published.case import FOOT
from tidestead.build.cost.waste import with_waste
from tidestead.plan.items import Item, parse_item


@pytest.mark.parametrize(
    ("item", "factor"),
    [
        (Item("layer", "plywood"), 1.10),
        (Item("layer", "concrete"), 1.035),
        (Item("glazing", "pc-8-twin"), 1.10),
        (Item("frame"), 1.075),
        (Item("fastener", "nail-16d"), 1.05),
        (Item("extra", "sheathing-screw"), 1.05),
        (Item("extra", "carriage"), 1.0),
        (Item("coating", "liquid-rubber"), 1.0),  # its transfer is in the amount
        (Item("liner", "epdm-45-mil"), 1.0),  # one sheet, as it is ordered
        (Item("pump", "return"), 1.0),
    ],
)
def test_what_is_lost_goes_by_the_thing(item: Item, factor: float) -> None:
    assert with_waste(item, 40.0) == pytest.approx(40.0 * factor)


def test_clear_sheet_of_the_shed_by_strips() -> None:
    """Sheets of 12 x 4 ft, faces of 30 ft: eight strips each. The roof's are 8.94 ft long, one of a sheet; the front's
    162/30 = 5.4 ft, two of a sheet: 8 + 4. By area 430.3/48 would be nine.
    """
    one = bought(cost_of(example("packhouse")), "glazing pc-8-twin")
    assert [buy.count for buy in one.buys] == [12.0]
    assert one.needed / FOOT**2 == pytest.approx(162.0 + 30.0 * math.hypot(8.0, 4.0))


def test_a_face_taller_than_any_sheet_laps() -> None:
    """Of 6 x 4 ft: 8.94 ft in two courses that lap 150 mm, 4.72 ft each, one of a sheet: 16; the front's eight: 24."""
    text = example("packhouse").replace('sold = "12 ft x 4 ft"', 'sold = "6 ft x 4 ft"')
    assert [buy.count for buy in bought(cost_of(text), "glazing pc-8-twin").buys] == [24.0]


def test_clear_sheet_by_the_square_metre_with_its_laps() -> None:
    """Skerry: 60.4 m2 and a tenth."""
    one = bought(cost_of(example("skerry")), "glazing pc-16-triple")
    assert one.buys[0].count == pytest.approx(1.1 * one.needed)
    assert one.needed == pytest.approx(60.4, abs=0.05)


def test_timber_by_the_metre_is_lost_in_part_and_timber_that_is_cut_by_a_plan_is_not() -> None:
    """Of 28 x 45 mm 15.95 m net. Sold in lengths the plan of cuts says what is bought; by the metre 7.5 % more."""
    text = with_row("skerry", "rib-3-0", None)
    for row in ("rib-3-6", "rib-5-4"):
        text = "\n".join(line for line in text.splitlines() if not line.startswith(f"{row} ="))
    text = text.replace(
        "small-3-0 =", 'rib = { of = "lumber 28 x 45 mm C24", price = "0.75 EUR/m" }\nsmall-3-0 ='
    )
    item = parse_item("lumber 28 x 45 mm C24")
    by_metre = bought(cost_of(text), item.written())
    assert by_metre.needed == pytest.approx(11 * 1.36 + 0.795 + 0.195)
    assert by_metre.buys[0].count == pytest.approx(1.075 * by_metre.needed)
    assert bought(cost_of(example("skerry")), item.written()).cut is not None


def test_what_is_lost_is_told_as_taken_for_granted() -> None:
    told = {one.key: one.value for one in told_of(example("skerry")).assumptions}
    assert told["lost of it: Concrete"] == "3.5 %"
    assert not [key for key in told if "no cut plan holds" in key]
