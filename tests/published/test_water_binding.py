"""Phosphorus bound by a granulate and nutrients in harvested algae, against print and by hand."""

from __future__ import annotations

import pytest

from tests.published.case import Case
from tidestead.core.errors import ImpossibleInput
from tidestead.physics.water import binding as laws

HAND = "balance of matter, worked by hand"
GRANULES = "Uusitalo et al. (2012), Agricultural and Food Science 21:224, abstract"
KELP = {"wet": 1.5, "dry": 0.1, "content": 0.004, "every": 7.0}

CASES = [
    Case("a kilogram at 6 mg/g: 6 g", laws.bound_phosphorus, {"load": 1.0, "share": 0.006, "every": 1.0}, 6.0, 1e-9,
         GRANULES, "6 to 7 mg/g, low end", "read", why="exact"),
    Case("2 kg at 0.5 % in 4 weeks: 0.357 g a day", laws.bound_phosphorus, {"load": 2.0, "share": 0.005, "every": 28.0},
         0.3571, 5e-5, HAND, "10/28", "computed"),
    Case("0.3 g a day for 4 weeks at 0.2 %: 4.2 kg", laws.binding_load,
         {"phosphorus": 0.3, "share": 0.002, "every": 28.0}, 4.2, 1e-9, HAND, "8.4/2", "computed", why="exact"),
    Case("1.5 kg of algae a week: 0.0857 g P a day", laws.harvested_nutrient, KELP, 0.0857, 5e-5, HAND, "0.6/7",
         "computed"),
    Case("0.5 g N a day at 2.5 % of a tenth: 1.4 kg a week", laws.harvest_wanted,
         {"nutrient": 0.5, "dry": 0.1, "content": 0.025, "every": 7.0}, 1.4, 1e-9, HAND, "3.5/2.5", "computed",
         why="exact"),
]  # fmt: skip


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_binding_holds_to_print(case: Case) -> None:
    assert case.holds()


@pytest.mark.parametrize("every", [0.5, 7.0, 60.0])
def test_sizes_read_backwards(every: float) -> None:
    load = laws.binding_load(0.21, 0.0035, every)
    assert laws.bound_phosphorus(load, 0.0035, every) == pytest.approx(0.21, rel=1e-12)
    wet = laws.harvest_wanted(0.21, 0.12, 0.0035, every)
    assert laws.harvested_nutrient(wet, 0.12, 0.0035, every) == pytest.approx(0.21, rel=1e-12)


@pytest.mark.parametrize(
    ("load", "share", "every"), [(-1.0, 0.01, 7.0), (1.0, 1.1, 7.0), (1.0, -0.1, 7.0), (1.0, 0.01, 0.0)]
)
def test_what_cannot_be_is_refused(load: float, share: float, every: float) -> None:
    with pytest.raises(ImpossibleInput):
        laws.bound_phosphorus(load, share, every)
    with pytest.raises(ImpossibleInput):
        laws.harvested_nutrient(load, share, 0.5, every)


def test_no_size_holds_where_nothing_is_bound() -> None:
    with pytest.raises(ImpossibleInput):
        laws.binding_load(0.1, 0.0, 7.0)
    with pytest.raises(ImpossibleInput):
        laws.harvest_wanted(0.1, 0.1, 0.0, 7.0)
