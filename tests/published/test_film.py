"""Film on windows against sums worked by hand. Its constants have no published source."""

from __future__ import annotations

import numpy as np
import pytest

from tests.published.case import Case
from tidestead.physics import film
from tidestead.physics.film import Growing, Habit, Setting

LOGISTIC = "logistic growth worked by hand, K 100, start 1, doubling in 1.5 d"
FIRST_GUESS = "first guess worked by hand: 1.5 d, 4 d, 1.5"
RATE = "product of halves worked by hand"
GUESS = Setting()

CASES = [
    *[Case(f"film of day {day}: {printed}", film.film_amount,
           {"start": 1.0, "most": 100.0, "rate": film.doubling_rate(1.5), "after": float(day)}, printed, 0.05,
           LOGISTIC, f"day {day}", "computed")
      for day, printed in ((1, 1.6), (2, 2.5), (3, 3.9), (5, 9.2), (7, 20.4), (10, 50.6))],
    Case("doubling in 1.5 d: 0.462 a day", film.doubling_rate, {"doubles": 1.5}, 0.462, 5e-4, LOGISTIC, "ln(2)/1.5",
         "computed"),
    Case("each want half sated, 10 K warmer: a quarter of 0.5", film.growth_rate,
         {"growing": Growing(50.0, 0.02, 0.005, 30.0), "habit": Habit(0.5, 50.0, 0.02, 0.005, 2.0)}, 0.125, 5e-4,
         RATE, "0.5*(1/2)**3*2", "computed"),
    Case("two days at the reference and two at half of it: 3", film.effective_age,
         {"rates": np.array([0.4, 0.4, 0.2, 0.2]), "reference": 0.4}, 3.0, 0.005, "integral by hand", "2 + 2/2",
         "computed"),
    *[Case(f"set by day {day}: {printed}", film.set_share, {"age": float(day), "setting": GUESS}, printed, 0.005,
           FIRST_GUESS, f"day {day}", "computed")
      for day, printed in ((1, 0.0), (2, 0.04), (3, 0.21), (4, 0.39), (5, 0.56), (7, 0.80))],
    Case("two cleanings of day 3 leave 37 %", film.set_after, {"ages": (3.0, 3.0), "setting": GUESS}, 0.37, 0.005,
         FIRST_GUESS, "1 - (1 - 0.205)**2", "computed"),
    Case("within 15 %: day 2.69", film.last_safe_day, {"limit": 0.15, "setting": GUESS}, 2.69, 0.005, FIRST_GUESS,
         "1.5 + 4*(-ln(0.85))**(2/3)", "computed"),
    Case("within 15 %, growing twice as fast: day 1.35", film.last_safe_day,
         {"limit": 0.15, "setting": GUESS, "pace": 2.0}, 1.35, 0.005, FIRST_GUESS, "half of 2.691", "computed"),
    Case("within 30 %, 15 % set already: day 2.84", film.last_safe_day,
         {"limit": 0.30, "setting": GUESS, "already": 0.15}, 2.84, 0.005, FIRST_GUESS,
         "1.5 + 4*(-ln(0.70/0.85))**(2/3)", "computed"),
]  # fmt: skip


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_film_holds_to_print(case: Case) -> None:
    assert case.holds()
