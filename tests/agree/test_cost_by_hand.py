"""What things cost, worked out on paper from the two example plans and their price books, beside the program's."""

from __future__ import annotations

import math
from functools import lru_cache

import pytest

from tests.journeys.cost_plans import bought, cost_of, in_a_year, told_of, with_words
from tests.journeys.flow_plans import example
from tests.journeys.takeoff_plans import plan_of, without_weather
from tidestead.build.cost.buying import Bought
from tidestead.build.cost.facts import CostFacts
from tidestead.build.cost.finding import found
from tidestead.build.cost.tables import cash_lines, worth_lines
from tidestead.build.cost.totals import paid, replaced

FOOT, GALLON = 0.3048, 231.0 * 0.0254**3


@lru_cache(maxsize=1)
def packhouse() -> CostFacts:
    """With what the water comes to."""
    return found(plan_of("packhouse"), without_weather("packhouse"))


def skerry() -> CostFacts:
    return cost_of(example("skerry"))


def buys(one: Bought) -> dict[str, tuple[float, float]]:
    """Of each row, how many are paid for and how many are there."""
    rows: dict[str, tuple[float, float]] = {}
    for buy in one.buys:
        count, here = rows.get(buy.offer.row, (0.0, 0.0))
        rows[buy.offer.row] = (count + buy.count, here + buy.here)
    return rows


def money(facts: CostFacts, one: Bought) -> tuple[float, float]:
    """What is paid for it, and what it is worth today."""
    rates = facts.purchase.money
    return sum(paid(buy, rates) for buy in one.buys), sum(replaced(buy, rates) for buy in one.buys)


def test_rings_of_the_skerry_tower() -> None:
    """36 pieces of 0.545 m. 3.0 m less 10 mm of trim hold 5 (4 cuts of 3 mm: 2.737 m), 3.6 m hold 6 (3.285 m), 5.4 m
    hold 9 (4.929 m): 1.680, 1.683 and 1.689 EUR for each. Six of 3.0 m and one of 3.6 m give 36 for 60.50 EUR; twelve
    of 3.0 m would give 35 from seven and an eighth for one piece, 67.20; six of 3.6 m 60.60; four of 5.4 m 60.80. One
    in twenty is spoiled: one of 3.0 m more.
    """
    one = bought(skerry(), "lumber 70 x 70 mm C24")
    assert one.needed == pytest.approx(36 * 0.545, rel=1e-4)
    assert buys(one) == {"book.ring-3-0": (7.0, 0.0), "book.ring-3-6": (1.0, 0.0)}
    assert sum(buy.spare for buy in one.buys) == 1.0
    assert money(skerry(), one)[0] == pytest.approx(6 * 8.40 + 10.10 + 8.40)


def test_ribs_of_the_skerry_tower() -> None:
    """Eleven of 1.36 m, one of 0.795 m and one of 0.195 m. 3.0 m hold two long ones and the shortest, 5.4 m three and
    both short ones (5.07 m and four cuts). Four of 3.0 m and one of 5.4 m: 12.80 EUR; six of 3.0 m would be 13.20.
    """
    one = bought(skerry(), "lumber 28 x 45 mm C24")
    assert one.needed == pytest.approx(11 * 1.36 + 0.795 + 0.195)
    assert buys(one) == {"book.rib-3-0": (5.0, 0.0), "book.rib-5-4": (1.0, 0.0)}
    assert money(skerry(), one)[0] == pytest.approx(4 * 2.20 + 4.00 + 2.20)


def test_studs_that_are_there_are_used_first_and_not_paid_for() -> None:
    """89.39 m net. Five of 4.2 m are there. What is bought holds the rest, and of twenty-one in all the sixteen that
    are paid for give one spare.
    """
    one = bought(skerry(), "lumber 47 x 145 mm C24")
    lengths = {buy.offer.row: buy.offer.size[0] for buy in one.buys}
    held = sum((count + here) * lengths[row] for row, (count, here) in buys(one).items())
    assert held - 5.4 >= one.needed  # one of the longest is the spare
    assert buys(one)["book.stud-4-2"][1] == 5.0
    prices = {"book.stud-4-2": 13.40, "book.stud-4-8": 15.40, "book.stud-5-4": 17.80}
    cash = sum(count * prices[row] for row, (count, _) in buys(one).items())
    assert money(skerry(), one) == pytest.approx((cash, cash + 5 * 13.40))
    floor = (one.needed - 5 * 4.2) * min(price / lengths[row] for row, price in prices.items()) + 17.80
    assert floor <= cash < 1.12 * floor  # no cheaper than by the metre, and little is wasted


def test_plywood_of_the_skerry_tower() -> None:
    """Twelve level strips of 0.5 m and a bit: 3.43 m2 net are more than one sheet of 3.125 m2, and go on two."""
    one = bought(skerry(), "sheet birch-plywood-12")
    assert 2.5 * 1.25 < one.needed < 2 * 2.5 * 1.25
    assert buys(one) == {"book.birch-12": (2.0, 0.0)}
    assert money(skerry(), one)[0] == pytest.approx(2 * 79.0)


def test_coats_by_cans() -> None:
    """37.3 L. Two cans of 20 L for 620; one of 20 and four of 5 for 678; eight of 5 for 736."""
    one = bought(skerry(), "coating liquid-rubber")
    assert one.needed == pytest.approx(37.3e-3, abs=1e-4)
    assert buys(one) == {"book.rubber-can": (2.0, 0.0)}
    assert money(skerry(), one)[0] == pytest.approx(620.0)


def test_screws_by_boxes() -> None:
    """164 of 8 x 160 mm by fifties: four boxes. Of 6 x 120 mm three at the head and five at the foot of 47 studs (15,
    13, 9 and 10), six at the heads of two jambs, four at the ends of a header: 47 x 8 + 12 + 8 = 396, one in twenty
    lost 416: by hundreds five boxes.
    """
    for item, pieces, row, boxes, price in (
        ("fastener screw-8x160", 164, "book.screws-160", 4, 29.0),
        ("fastener screw-6x120", 396, "book.screws-120", 5, 24.0),
    ):
        one = bought(skerry(), item)
        assert one.needed == pieces
        assert sum(line.amount.likely for line in one.lines if line.amount) == pieces
        assert buys(one) == {row: (boxes, 0.0)}
        assert money(skerry(), one)[0] == pytest.approx(boxes * price)


def test_pipe_by_lengths() -> None:
    """Of 63 mm pipe: ten of 0.475 m, two of 0.775, three of 0.575 and one of 1.4875 m, 9.51 m in all. Three lengths of
    3 m hold no more than 9 m, so that it takes four.
    """
    one = bought(skerry(), "pipe pvc-63-pn10")
    assert one.needed == pytest.approx(10 * 0.475 + 2 * 0.775 + 3 * 0.575 + 1.4875)
    assert buys(one) == {"book.pipe-63": (4.0, 0.0)}
    assert money(skerry(), one)[0] == pytest.approx(4 * 17.0)


def test_a_liner_by_the_square_foot() -> None:
    """A sheet of 23 ft x 16 ft and a strip of 2 in along 14 ft 8 in of seat, at 1.15 USD for each square foot."""
    one = bought(packhouse(), "liner epdm-45-mil")
    area = 23 * 16 + 14.667 / 6.0
    assert one.needed == pytest.approx(area * FOOT**2, rel=1e-4)
    assert money(packhouse(), one)[0] == pytest.approx(1.15 * area, rel=1e-4)


def test_windows_in_other_money() -> None:
    """2.4 x 1.1 m at 1750 GBP for a square metre; a sheet of 64 GBP for the eye; one GBP is 1.17 EUR."""
    long, eye = (bought(skerry(), f"clear acrylic-cast {thick} mm") for thick in (60, 12))
    assert money(skerry(), long)[0] == pytest.approx(2.4 * 1.1 * 1750 * 1.17)
    assert money(skerry(), eye)[0] == pytest.approx(64 * 1.17)


def test_salt_of_the_first_fill_and_of_a_year() -> None:
    """Reef, sump and column hold 285.6 cubic feet. At 35 g/kg and 1023.2 kg/m3, and 1.1 of dry mix for each of salt:
    318.6 kg, sixteen bags of 20 kg. A tenth of it every 21 days, and what is lost, make some 29 bags and a bit.
    """
    volume = (12 * 5 * 4.25 + 6 * 3 * 16 / 12 + math.pi / 4 * (16 / 12) ** 2 * 4.75) * FOOT**3
    salt = volume * 1023.2 * 0.035 * 1.1
    one = bought(packhouse(), "salt")
    assert one.needed == pytest.approx(
        salt, rel=1.5e-3
    )  # the volume of a strainer and its like is left out here
    assert buys(one) == {"book.salt-bag": (16.0, 0.0)}
    assert money(packhouse(), one)[0] == pytest.approx(16 * 58.0)
    year = in_a_year(packhouse(), "salt")
    changes = next(line.amount for line in year.lines if line.key == "changes")
    assert changes is not None
    assert changes.likely == pytest.approx(salt * 0.1 * 365.0 / 21.0, rel=1.5e-3)
    bags = math.ceil(year.needed / 20.0)
    assert money(packhouse(), year)[0] == pytest.approx(bags * 58.0)


def test_energy_of_a_pump_in_a_year() -> None:
    """170 W in all 8760 hours are 1489 kWh, 223 USD at 0.15 for each; 150 W 1314 kWh, 420 EUR at 0.32."""
    for facts, watts, price in ((packhouse(), 170.0, 0.15), (skerry(), 150.0, 0.32)):
        energy = in_a_year(facts, "energy")
        pump = next(line.amount for line in energy.lines if line.key == "pumps.return")
        assert pump is not None
        assert pump.likely / 3.6e6 == pytest.approx(watts * 8.760)
        share = pump.likely / energy.needed * money(facts, energy)[0]
        assert share == pytest.approx(watts * 8.760 * price)


def test_what_is_set_aside_for_a_pump() -> None:
    """520 EUR over six years."""
    (pump,) = (one for one in skerry().worn if one.bought.item.written() == "pump return")
    assert (pump.worth, pump.life / (365.25 * 86400.0), pump.said) == pytest.approx((520.0, 6.0, True))
    once = skerry().year.base
    later = cost_of(with_words("skerry", 'lead = "2 weeks", life = "6 years"', 'life = "3 years"')).year.base
    assert later - once == pytest.approx(520.0 / 3.0 - 520.0 / 6.0)


def test_what_is_there_already_is_worth_what_it_would_cost_today() -> None:
    """A router there, at its price; a pump to the sea there, at what one costs today; two heaters of four."""
    paper = {"device router": (0.0, 95.0), "source sea": (0.0, 290.0), "heater sump": (2 * 78.0, 4 * 78.0)}
    for item, sums in paper.items():
        assert money(skerry(), bought(skerry(), item)) == pytest.approx(sums)


def test_money_for_each_gallon() -> None:
    """The reef holds 12 ft x 5 ft x 51 in: 1907.5 gallons of 231 cubic inches."""
    gallons = 144.0 * 60.0 * 51.0 / 231.0
    facts, answer = cost_of(example("packhouse")), told_of(example("packhouse"), "us")
    assert facts.display / GALLON == pytest.approx(gallons)
    (figure,) = (one for one in answer.figures if one.id == "cost.per_display")
    assert figure.unit == "USD/US gal"
    assert figure.estimate.likely == pytest.approx(facts.replacement.share(0.5) / gallons)


def test_a_vessel_that_stands_is_worth_something_and_costs_nothing() -> None:
    """Filled, the basin needs none of its windows, coats or timber; at today's prices they still count."""
    stands = cost_of(with_words("skerry", 'stage = "building"', 'stage = "filled"'))
    before = skerry()
    of_basin = sum(row.money for row in cash_lines(before) if row.line.vessel == "basin")
    assert of_basin > 8000.0
    assert not [row.line.key for row in cash_lines(stands) if row.line.vessel == "basin"]
    assert stands.cash.base == pytest.approx(before.cash.base - of_basin, rel=0.02)
    (window,) = (row for row in worth_lines(stands) if row.line.item.written() == "clear acrylic-cast 60 mm")
    assert window.money == pytest.approx(2.4 * 1.1 * 1750 * 1.17)
    assert stands.replacement.base == pytest.approx(before.replacement.base, rel=0.02)
