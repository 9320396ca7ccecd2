"""Sheets cut by us beside plain shelves: how long it takes, how many sheets, how far from the bound.

Run with `pytest benchmarks/test_cutting_sheets.py`. The parts are made up; each row carries its sheets, the bound
and the sheets of the shelves in `extra_info`. Time is shown, not asserted.
"""

from __future__ import annotations

from typing import Any

import pytest

from tests.agree.test_cutting_sheets import ACRYLIC, PLYWOOD, SAW, random_rects, shelves
from tidestead.build.cutting.panels import PanelTerms, place_panels
from tidestead.build.cutting.sheets import SheetPlan, cut_sheets


@pytest.mark.parametrize(
    ("parts", "seed"), [(12, 0), (20, 1), (90, 1), (90, 2)], ids=["wall", "two walls", "house", "house again"]
)
def test_edge_to_edge(benchmark: Any, parts: int, seed: int) -> None:
    benchmark.group = "sheets, edge to edge"
    rects = random_rects(parts, seed)
    plan: SheetPlan = benchmark.pedantic(cut_sheets, (rects, [PLYWOOD], SAW), rounds=2)
    plain = shelves(rects, PLYWOOD, SAW)
    bound = plan.bound / PLYWOOD.price
    benchmark.extra_info.update(sheets=plan.count, bound=bound, shelves=plain, proven=plan.proven)
    assert bound <= plan.count <= plain


@pytest.mark.parametrize("seed", [3, 6])
def test_free_laying(benchmark: Any, seed: int) -> None:
    benchmark.group = "sheets, laid freely"
    rects = random_rects(8, seed, 300, 900)
    terms = PanelTerms(seconds=20.0)
    plan: SheetPlan = benchmark.pedantic(place_panels, (rects, ACRYLIC, SAW, "cost", terms), rounds=1)
    benchmark.extra_info.update(cost=plan.cost, bound=plan.bound, proven=plan.proven)
    assert plan.bound <= plan.cost <= cut_sheets(rects, ACRYLIC, SAW).cost
