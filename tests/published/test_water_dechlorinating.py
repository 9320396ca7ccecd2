"""Thiosulfate for chlorine and the ammonia of chloramine, against print and atom by atom."""

from __future__ import annotations

import pytest

from tests.published.case import Case
from tidestead.core.errors import ImpossibleInput
from tidestead.physics.water import dechlorinating as laws

NOTE = "a maker of test instruments, support note TE213 on taking chlorine out of samples"
HAND = "stoichiometry, worked by hand"

CASES = [
    Case("1 mg/L of chlorine: 7.0 mg/L of pentahydrate", laws.thiosulfate_for_chlorine, {"chlorine": 1.0}, 7.0, 0.05,
         NOTE, "solid thiosulfate", "read"),
    Case("to sulphate: 0.875 for one", laws.thiosulfate_for_chlorine, {"chlorine": 1.0, "moles": 0.25}, 0.875, 5e-4,
         HAND, "248.17/70.90/4", "computed"),
    Case("14 mg/L take 2 of 3 mg/L", laws.chlorine_left, {"chlorine": 3.0, "thiosulfate": 14.0}, 1.0, 1e-3, HAND,
         "3 - 14/7.0006", "computed"),
    Case("1 mg/L as chloramine holds 0.198 mg/L of nitrogen", laws.chloramine_nitrogen, {"chlorine": 1.0}, 0.1976,
         5e-5, HAND, "14.007/70.90", "computed"),
]  # fmt: skip


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_dechlorinating_holds_to_print(case: Case) -> None:
    assert case.holds()


def test_molar_weights_are_those_of_the_atoms() -> None:
    water = 2.0 * 1.008 + 15.999
    crystals = 2.0 * 22.990 + 2.0 * 32.06 + 3.0 * 15.999 + 5.0 * water
    assert pytest.approx(crystals, abs=0.01) == laws.THIOSULFATE
    assert pytest.approx(2.0 * 35.45) == laws.CHLORINE


def test_electrons_balance_both_ways() -> None:
    """Cl2 takes two; thiosulfate gives one on its way to tetrathionate, eight on its way to sulphate."""
    for moles, gives in ((laws.TO_TETRATHIONATE, 1.0), (laws.TO_SULPHATE, 8.0)):
        assert moles * gives == 2.0


@pytest.mark.parametrize("moles", [0.25, 1.0, 2.0])
def test_dose_that_is_asked_for_leaves_nothing_and_less_leaves_its_part(moles: float) -> None:
    dose = laws.thiosulfate_for_chlorine(0.7, moles)
    assert laws.chlorine_left(0.7, dose, moles) == pytest.approx(0.0, abs=1e-15)
    assert laws.chlorine_left(0.7, 0.25 * dose, moles) == pytest.approx(0.75 * 0.7, rel=1e-12)
    assert laws.chlorine_left(0.7, 3.0 * dose, moles) == 0.0


@pytest.mark.parametrize(
    ("chlorine", "thiosulfate", "moles"), [(-1.0, 1.0, 2.0), (1.0, -1.0, 2.0), (1.0, 1.0, 0.0)]
)
def test_what_cannot_be_is_refused(chlorine: float, thiosulfate: float, moles: float) -> None:
    with pytest.raises(ImpossibleInput):
        laws.chlorine_left(chlorine, thiosulfate, moles)
