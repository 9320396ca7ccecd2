"""From feed to nitrate against print and worked examples, and fish that a tank carries."""

from __future__ import annotations

import math

import pytest

from tests.published.case import Case
from tidestead.core.errors import ImpossibleInput
from tidestead.physics.water import nutrients, stock
from tidestead.physics.water.nutrients import Balance, Film
from tidestead.physics.water.stock import Feeding, Stocking

EBELING = "Ebeling, Timmons and Bisogni, Aquaculture 257 (2006)"
ATOMS = "IUPAC standard atomic weights"
STOICHIOMETRY = "stoichiometry, by hand"
MATTER = "balance of matter, by hand"
RUSTEN = "Rusten et al., Aquacultural Engineering 34 (2006), law worked by hand"
NIJHOF = "Nijhof and Bovendeur, Aquaculture (1990), abstract"
MERINO = "Merino, Piedrahita and Conklin, Aquacultural Engineering 41 (2009), abstract"
HAND = "filter growing with its load, by hand"
WEEKLY = Balance(20.0, 8.28, renewed=2.0 / 7.0)
ALIVE = Balance(20.0, 8.28, pace=0.01, renewed=2.0 / 7.0)
EATEN = Balance(20.0, 8.28, pace=0.01, renewed=2.0 / 7.0, uptake=2.0)
FREE = Film(ceiling=math.inf)
FED = Feeding(0.01, 0.45)
RAMP = Stocking(adult=4.0, first=0.5, made=3.0, growth=0.25, volume=20.0, room=9.0)
TIGHT = Stocking(adult=4.0, first=0.5, made=3.0, growth=0.25, volume=20.0, room=0.05)
MG_PER_KG_HOUR = 0.024

CASES = [
    Case("200 g of feed at 45 %", nutrients.ammonia_from_feed, {"feed": 200.0, "protein": 0.45}, 8.28, 0.005, EBELING,
         "equation 1: 200*0.45*0.092", "quoted"),
    Case("200 g of feed at 45 %, nearly all of it", nutrients.ammonia_from_feed,
         {"feed": 200.0, "protein": 0.45, "share": nutrients.AMMONIA_SHARE_MOST}, 13.0, 0.05, EBELING,
         "zero exchange: 0.144", "quoted"),
    Case("200 g at 32 % make 7.5 g of NH3", nutrients.ammonia_from_feed,
         {"feed": 200.0, "protein": 0.32, "share": 0.098}, 7.5, 0.15, "FAO Technical Paper 589 (2014), appendix 4",
         "as quoted", "quoted", unit=14.007 / 17.031, why="30 % kept, 61 % to ammonia: 0.098 is that, rounded"),
    Case("all nitrogen of it", nutrients.nitrogen_in_feed, {"feed": 200.0, "protein": 0.45}, 14.4, 0.05,
         STOICHIOMETRY, "200*0.45*0.16", "computed"),
    Case("phosphorus of 200 g at 1.2 %, half released", nutrients.phosphorus_from_feed,
         {"feed": 200.0, "content": 0.012, "released": 0.5}, 1.2, 0.005, MATTER, "200*0.012*0.5", "computed"),
    Case("a gram of nitrate nitrogen", nutrients.nitrate_ion, {"nitrogen": 1.0}, 4.427, 5e-4, ATOMS, "62.004/14.007",
         "computed"),
    Case("a gram of phosphate phosphorus", nutrients.phosphate_ion, {"phosphorus": 1.0}, 3.066, 5e-4, ATOMS,
         "94.970/30.974", "computed"),
    Case("oxygen without growth", nutrients.nitrification_oxygen, {"nitrogen": 1.0}, 4.57, 0.005,
         "textbooks of waste water", "4.57 g O2/g N", "read"),
    Case("oxygen with growth", nutrients.nitrification_oxygen,
         {"nitrogen": 8.28, "each": nutrients.OXYGEN_GROWING}, 34.6, 0.05, EBELING, "8.28*4.18", "recalled"),
    Case("alkalinity taken", nutrients.nitrification_alkalinity, {"nitrogen": 1.0}, 7.14, 0.01,
         "textbooks of waste water", "7.14 g CaCO3/g N", "read", why="7.1455, printed cut off"),
    Case("alkalinity taken by 8.28 g", nutrients.nitrification_alkalinity, {"nitrogen": 8.28}, 59.0, 0.5,
         STOICHIOMETRY, "8.28*7.145", "computed"),
    Case("alkalinity given back", nutrients.denitrification_alkalinity, {"nitrogen": 1.0}, 3.57, 0.005, STOICHIOMETRY,
         "one equivalent to each N", "computed"),
    Case("ceiling of feed at 45 % protein", nutrients.feed_oxygen, {"feed": 1.0, "protein": 0.45}, 1.4, 0.005,
         STOICHIOMETRY, "2.67*0.40 + 4.57*0.072", "computed"),
    Case("200 g a day by the hour", nutrients.feed_oxygen, {"feed": 200.0, "protein": 0.45}, 11.7, 0.06,
         STOICHIOMETRY, "200*1.40/24", "computed", unit=24.0, why="worked from the rounded 1.40"),
    Case("a third kept", nutrients.feed_oxygen, {"feed": 1.0, "protein": 0.45, "kept": 1.0 / 3.0}, 0.9314, 5e-5,
         STOICHIOMETRY, "1.39704*2/3", "computed"),
    Case("nitrate settles by changes alone", nutrients.settled_nutrient, {"balance": WEEKLY}, 28.98, 0.005, MATTER,
         "8.28*7/2", "computed"),
    Case("nitrate settles with denitrification", nutrients.settled_nutrient, {"balance": ALIVE}, 17.047, 5e-4, MATTER,
         "8.28/(0.2 + 0.285714)", "computed"),
    Case("nitrate settles with plants too", nutrients.settled_nutrient, {"balance": EATEN}, 12.929, 5e-4, MATTER,
         "6.28/0.485714", "computed"),
    Case("with 7 in the new water", nutrients.settled_nutrient,
         {"balance": Balance(20.0, 8.28, 0.01, 2.0 / 7.0, 0.0, 7.0)}, 21.165, 5e-4, MATTER, "10.28/0.485714",
         "computed"),
    Case("a month from clean water", nutrients.nutrient_after, {"balance": ALIVE, "start": 0.0, "time": 30.0}, 8.8202,
         5e-5, MATTER, "17.047*(1 - exp(-30*0.0242857))", "computed"),
    Case("a month without any loss", nutrients.nutrient_after,
         {"balance": Balance(20.0, 8.28), "start": 1.0, "time": 30.0}, 13.42, 0.005, MATTER, "1 + 30*0.414",
         "computed"),
    Case("days to 10", nutrients.days_to_nutrient, {"balance": ALIVE, "start": 0.0, "goal": 10.0}, 36.374, 5e-4, MATTER,
         "ln(17.047/7.047)/0.0242857", "computed"),
    Case("days to 10 without any loss", nutrients.days_to_nutrient,
         {"balance": Balance(20.0, 8.28), "start": 1.0, "goal": 10.0}, 21.739, 5e-4, MATTER, "9/0.414", "computed"),
    Case("days to within a twentieth", nutrients.days_to_settle, {"balance": ALIVE, "left": 0.05}, 123.35, 0.005,
         MATTER, "ln 20/0.0242857", "computed"),
    *[Case(f"film at {level} mg/L, 26 degC, no ceiling", nutrients.film_rate,
           {"ammonia": level, "temp_c": 26.0, "film": FREE}, printed, 0.005, RUSTEN, "0.50*S**0.7*1.09**11*0.6",
           "computed")
      for level, printed in ((0.02, 0.05), (0.05, 0.09), (0.1, 0.15), (0.5, 0.48))
      if level != 0.05],
    Case("film at 0.05 mg/L, 26 degC, no ceiling", nutrients.film_rate,
         {"ammonia": 0.05, "temp_c": 26.0, "film": FREE}, 0.09, 0.006, RUSTEN, "0.50*S**0.7*1.09**11*0.6", "computed",
         why="0.0951, printed cut off"),
    Case("film at 1 mg/L and 15 degC in fresh water", nutrients.film_rate,
         {"ammonia": 1.0, "temp_c": 15.0, "film": Film(1.0, math.inf)}, 0.5, 0.005,
         "Rusten et al., Aquacultural Engineering 34 (2006)", "r = 0.50*S**0.7", "quoted"),
    Case("film in plenty of ammonia", nutrients.film_rate, {"ammonia": 3.0, "temp_c": 24.0}, 0.28, 0.005, NIJHOF,
         "0.28 g N/m2/d", "read"),
    Case("least film for 8.28 g", nutrients.film_area, {"load": 8.28, "ammonia": 3.0, "temp_c": 26.0}, 30.0, 0.5,
         NIJHOF, "8.28/0.28", "computed"),
    Case("least film for 8.28 g, more closely", nutrients.film_area, {"load": 8.28, "ammonia": 3.0, "temp_c": 26.0},
         29.57, 0.005, NIJHOF, "8.28/0.28", "computed"),
    Case("60 m2 under 8.28 g", nutrients.film_ammonia, {"load": 8.28, "area": 60.0, "temp_c": 26.0}, 0.0851, 5e-5,
         RUSTEN, "(0.138/0.7741)**(1/0.7)", "computed"),
    Case("100 g, mean", stock.fed_oxygen, {"fish": 0.1}, 203.0, 0.5, MERINO, "15.08*100**-0.245", "read",
         unit=MG_PER_KG_HOUR),
    Case("100 g, most", stock.most_oxygen, {"fish": 0.1}, 282.0, 0.6, MERINO, "17.27*100**-0.203", "read",
         unit=MG_PER_KG_HOUR, why="282.54, printed cut off"),
    Case("fed one percent a day at 45 %", stock.made_ammonia, {"feeding": FED}, 0.414, 5e-4, EBELING, "10*0.45*0.092",
         "quoted"),
    Case("fish on 50 g of oxygen", stock.carried_by_oxygen, {"spare": 50.0, "fish": 0.1}, 7.374, 5e-4, MERINO,
         "50/6.781", "computed"),
    Case("fish on 8.28 g of nitrogen", stock.carried_by_filter, {"removed": 8.28, "feeding": FED}, 20.0, 0.05, EBELING,
         "8.28/0.414", "computed"),
    Case("fish on both", stock.carried, {"spare": 50.0, "removed": 8.28, "fish": 0.1, "feeding": FED}, 7.374, 5e-4,
         MATTER, "the smaller of 7.374 and 20", "computed"),
    Case("fish on a small filter", stock.carried, {"spare": 50.0, "removed": 0.828, "fish": 0.1, "feeding": FED}, 2.0,
         0.005, MATTER, "the smaller of 7.374 and 2", "computed"),
    Case("a quarter added to 0.3 kg", stock.addition_peak, {"stocking": RAMP, "before": 0.3, "added": 0.25}, 0.0408,
         5e-5, HAND, "0.9/(0.031878*20)*(1.25*ln 1.25 - 0.25)", "computed"),
    Case("addition to 1 kg with room for 0.05 mg/L", stock.largest_addition, {"stocking": TIGHT, "before": 1.0},
         0.1493, 5e-5, HAND, "4.7055*((1 + x)*ln(1 + x) - x) = 0.05", "computed"),
    Case("fish after five weeks", stock.stocking_ramp, {"stocking": RAMP}, 1.5259, 5e-5, HAND, "0.5*1.25**5",
         "computed", pick=lambda weeks: weeks[5]),
]  # fmt: skip


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_nutrients_hold_to_print(case: Case) -> None:
    assert case.holds()


def test_the_usual_share_is_the_product_of_its_factors() -> None:
    """0.16 of protein, 0.80 taken up, 0.80 given off, 0.90 of that as ammonia."""
    assert pytest.approx(0.16 * 0.80 * 0.80 * 0.90, abs=5e-4) == nutrients.AMMONIA_SHARE


def test_a_level_that_is_never_reached_is_endless() -> None:
    assert math.isinf(nutrients.days_to_nutrient(ALIVE, 0.0, 18.0))
    assert math.isinf(nutrients.days_to_nutrient(ALIVE, 10.0, 5.0))
    assert math.isinf(nutrients.days_to_nutrient(ALIVE, 30.0, 17.0))
    assert math.isinf(nutrients.days_to_nutrient(Balance(20.0, 8.28), 5.0, 1.0))
    assert math.isinf(nutrients.days_to_nutrient(Balance(20.0, 0.0), 5.0, 1.0))
    assert nutrients.days_to_nutrient(ALIVE, 3.0, 3.0) == 0.0


def test_a_tank_without_losses_never_settles() -> None:
    assert math.isinf(nutrients.settled_nutrient(Balance(20.0, 8.28)))
    assert nutrients.settled_nutrient(Balance(20.0, 1.0, uptake=2.0)) == 0.0
    assert math.isnan(nutrients.settled_nutrient(Balance(20.0, 1.0, uptake=1.0)))
    assert math.isinf(nutrients.days_to_settle(Balance(20.0, 8.28), 0.05))


def test_too_much_for_a_film_has_no_level() -> None:
    assert math.isinf(nutrients.film_ammonia(8.28, 29.0, 26.0))
    assert math.isinf(stock.carried_by_filter(8.28, Feeding(0.0, 0.45)))


def test_a_full_stock_takes_eleven_weeks() -> None:
    """0.5*1.25**n reaches 4 at n = 9.3; counted with the first week there are eleven."""
    ramp = stock.stocking_ramp(RAMP)
    assert len(ramp) == 11
    assert ramp[-1] == 4.0
    assert len(stock.stocking_ramp(TIGHT)) > len(ramp)


def test_a_ramp_that_never_ends_is_refused() -> None:
    with pytest.raises(ImpossibleInput, match="never stocked"):
        stock.stocking_ramp(Stocking(4.0, 0.5, 3.0, 1e-6, 20.0, 1.0))
    with pytest.raises(ImpossibleInput, match="weekly growth"):
        Stocking(4.0, 0.5, 3.0, 0.0, 20.0, 1.0)
