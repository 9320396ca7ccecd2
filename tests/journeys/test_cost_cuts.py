"""What the answer says of its cut plans: nothing is called exact that is not, and nothing is cheaper than its bound."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from tidestead.build.cost.cut_table import cut_table
from tidestead.build.cost.facts import CostFacts
from tidestead.build.cost.finding import found
from tidestead.build.cutting.lengths import LengthPlan
from tidestead.build.materials import shipped
from tidestead.build.takeoff.studied import Studies
from tidestead.plan import load, loads

EXAMPLES = Path(__file__).parents[2] / "examples"


@pytest.fixture(scope="module")
def facts() -> CostFacts:
    return found(load(EXAMPLES / "packhouse.toml").plan, Studies())


def test_every_cut_plan_has_a_row_and_no_row_is_below_its_bound(facts: CostFacts) -> None:
    rows = cut_table(facts, "us", shipped).rows
    cut = [one for one in facts.purchase.once if one.cut is not None]
    assert len(rows) == len(cut) > 5
    for one, row in zip(cut, rows, strict=True):
        _, count, waste, money, least, words = row
        assert one.cut is not None
        assert isinstance(count, float)
        assert count >= 1.0
        assert isinstance(waste, float)
        assert 0.0 <= waste < 100.0
        assert isinstance(money, float)
        assert isinstance(least, float)
        assert least <= money + 1e-9
        assert (words == "exact: no plan costs less") == one.cut.proven


def test_a_gap_is_told_where_there_is_one(facts: CostFacts) -> None:
    one = next(one for one in facts.purchase.once if isinstance(one.cut, LengthPlan))
    assert isinstance(one.cut, LengthPlan)
    loose = replace(one.cut, bound=0.96 * one.cut.cost, gap=1.0 / 0.96 - 1.0, proven=False)
    told = replace(facts, purchase=replace(facts.purchase, once=(replace(one, cut=loose),)))
    assert cut_table(told, "us", shipped).rows[0][-1] == "at most 4.2 % above the least"


def test_pieces_too_long_are_told_once_and_the_others_are_cut() -> None:
    """Without its 16 ft planks packhouse has four rims that no plank gives; the others stand on the saw's list.

    The money stays unknown as long as one of them cannot be had.
    """
    lines = (EXAMPLES / "packhouse.toml").read_text(encoding="utf-8").splitlines()
    text = "\n".join(line for line in lines if not line.startswith("rim-16 = "))
    once = found(loads(text).plan, Studies()).purchase.once
    (planks,) = (one for one in once if one.item.written() == "lumber 2x8 dfl-no2")
    assert planks.missing.count("the longest stock, book.rim-12, is 3657.6 mm") == 1
    assert "Splice the pieces from shorter ones" in planks.missing
    assert isinstance(planks.cut, LengthPlan)
    cut = {mark for bar in planks.cut.bars for mark in bar.marks}
    named = {mark for mark in ("reef N3", "reef N4", "reef S5", "reef S6") if f"{mark} is " in planks.missing}
    assert len(named) == 4
    assert not named & cut
    assert {"reef S8", "reef E3", "reef W3"} <= cut
    assert planks.buys == ()
    assert "or trim less" in planks.missing, "N4 is as long as a plank before it is trimmed"
