"""Degree heating weeks against the worked days of the agency's method."""

from __future__ import annotations

import numpy as np
import pytest

from tests.published.case import Case, marked
from tidestead.core.errors import ImpossibleInput
from tidestead.physics import bleaching

SKIRVING = "Skirving et al. (2020), worked example of degree heating weeks"
HAND = "sums by hand"
MONTH = 27.0
EXAMPLE = MONTH + np.array([1.0, 2.0, 0.8, 1.2])

CASES = [
    Case("HotSpots of 1.0, 2.0, 0.8 and 1.2", bleaching.degree_heating_weeks,
         {"daily": EXAMPLE, "warmest_month": MONTH}, 0.60, 0.005, SKIRVING, "(1.0 + 2.0 + 1.2)/7", "read"),
    Case("the same days and twelve cool weeks: at its most", bleaching.most_heating_weeks,
         {"daily": np.concatenate([EXAMPLE, np.full(84, MONTH)]), "warmest_month": MONTH}, 0.60, 0.005, SKIRVING,
         "(1.0 + 2.0 + 1.2)/7", "read"),
    Case("two kelvin for a fortnight are where bleaching begins", bleaching.degree_heating_weeks,
         {"daily": np.full(14, MONTH + 2.0), "warmest_month": MONTH}, bleaching.BLEACHING, 1e-9, HAND, "2*14/7",
         "computed", why="exact"),
]  # fmt: skip


@pytest.mark.parametrize("case", [marked(case) for case in CASES])
def test_bleaching_holds_to_print(case: Case) -> None:
    assert case.holds()


def test_days_before_twelve_weeks_are_forgotten() -> None:
    old = np.concatenate([np.full(30, MONTH + 3.0), np.full(84, MONTH)])
    assert bleaching.degree_heating_weeks(old, MONTH) == 0.0
    assert bleaching.degree_heating_weeks(old[:-1], MONTH) == pytest.approx(3.0 / 7.0)


def test_a_day_of_exactly_one_kelvin_counts_in_every_float() -> None:
    assert bleaching.degree_heating_weeks(np.array([28.1]), 27.1) == pytest.approx(1.0 / 7.0)
    assert bleaching.degree_heating_weeks(np.array([28.09]), 27.1) == 0.0


@pytest.mark.parametrize("daily", [[], [27.0, float("nan")], [[27.0]]])
def test_what_are_no_days_is_refused(daily: list[float]) -> None:
    with pytest.raises(ImpossibleInput):
        bleaching.degree_heating_weeks(np.array(daily), MONTH)
    with pytest.raises(ImpossibleInput):
        bleaching.most_heating_weeks(np.array(daily), MONTH)
