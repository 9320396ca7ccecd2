"""What is breathed: more fish, larger ones or more feed never take less oxygen, at no end of the range."""

from __future__ import annotations

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from tests.journeys.flow_plans import EXAMPLES
from tests.laws.water_life import Found, circulation, found
from tidestead.core.answer import Estimate
from tidestead.plan import loads
from tidestead.plan.model import Plan
from tidestead.studies.inputs import Inputs
from tidestead.studies.water.spans import summed
from tidestead.studies.water.stock_facts import Load
from tidestead.studies.water.stocking import bacteria_oxygen, fed_oxygen, fish_oxygen, stock_of

SLIP = 1.0 - 1e-9
A_DAY = 1.0 / 86.4e6
"""kg/s of a gram a day."""
FED = st.floats(0.0, 400.0)
HEAVY = st.floats(0.0, 20.0)
SORTS = st.lists(st.tuples(st.floats(0.01, 10.0), st.floats(0.005, 1.0)), min_size=1, max_size=3)


def never_less(more: Estimate, less: Estimate) -> bool:
    """Every end of one is no lower than that of the other."""
    return all(getattr(more, end) >= SLIP * getattr(less, end) for end in ("low", "likely", "high"))


def breath_of(sorts: list[tuple[float, float]]) -> Estimate:
    return summed([fish_oxygen(mass, each, 25.0) for mass, each in sorts])


@settings(max_examples=200, deadline=None)
@given(sorts=SORTS, more=HEAVY, feed=FED, protein=st.floats(0.2, 0.7))
@example(sorts=[(0.6, 0.0245)], more=0.4, feed=35.0, protein=0.48)
@example(sorts=[(2.0, 0.1)], more=18.0, feed=5.0, protein=0.48)
def test_more_fish_on_the_same_feed_never_take_less(
    sorts: list[tuple[float, float]], more: float, feed: float, protein: float
) -> None:
    (mass, each), *rest = sorts
    few, many = breath_of(sorts), breath_of([(mass + more, each), *rest])
    assert never_less(many, few)
    less, whole = (fed_oxygen(feed * A_DAY, protein, fish) for fish in (few, many))
    assert less.low <= less.likely <= less.high
    assert never_less(whole, less)
    assert never_less(less, few), "fish and bacteria take no less than the fish"


@settings(max_examples=200, deadline=None)
@given(sorts=SORTS, feed=FED, more=FED, protein=st.floats(0.2, 0.7))
def test_more_feed_for_the_same_fish_never_takes_less(
    sorts: list[tuple[float, float]], feed: float, more: float, protein: float
) -> None:
    fish = breath_of(sorts)
    less, whole = (fed_oxygen(fed * A_DAY, protein, fish) for fed in (feed, feed + more))
    assert never_less(whole, less)


@settings(max_examples=100, deadline=None)
@given(sorts=SORTS, feed=FED)
def test_fish_and_bacteria_make_the_likely_sum(sorts: list[tuple[float, float]], feed: float) -> None:
    fish = breath_of(sorts)
    bacteria = bacteria_oxygen(feed * A_DAY, 0.48, fish)
    assert 0.0 <= bacteria.low <= bacteria.likely <= bacteria.high
    whole = fed_oxygen(feed * A_DAY, 0.48, fish)
    assert whole.likely == pytest.approx(fish.likely + bacteria.likely)


def kept(one: Found, plan: Plan) -> Load:
    """The stock of now of a plan that is changed in no more than its fish and feed."""
    running, towers = circulation("skerry")
    return stock_of(Inputs(plan, "metric", None, "no weather"), one.setting, running, towers).now


def plan_of(text: str, wrasses: float, tangs: float, feed: float) -> Plan:
    """The skerry with so many grams of each, the tangs few, and so much fed in a day."""
    for old, new in (
        ('mass = "0.6 kg"', f'mass = "{wrasses} g"'),
        ('grown = "1.1 kg"', 'grown = "6 kg"'),
        ('grown = "1.2 kg"\neach', f'mass = "{tangs} g"\ngrown = "6 kg"\neach'),
        ('daily = "35 g/day"', f'daily = "{feed} g/day"'),
    ):
        assert old in text, old
        text = text.replace(old, new, 1)
    return loads(text).plan


TEXT = (EXAMPLES / "skerry.toml").read_text(encoding="utf-8")
GRAMS = st.integers(10, 3000)


@settings(max_examples=25, deadline=None)
@given(
    wrasses=GRAMS, more=st.integers(0, 3000), tangs=GRAMS, feed=st.integers(1, 150), fed=st.integers(0, 150)
)
@example(wrasses=600, more=400, tangs=10, feed=35, fed=0)
def test_uptake_of_a_plan_never_falls_with_its_fish_or_its_feed(
    wrasses: int, more: int, tangs: int, feed: int, fed: int
) -> None:
    """The fish of now grow as they come to weigh more; nothing of it lets a night hold more oxygen."""
    one = found("skerry")
    few, many, rich = (
        kept(one, plan_of(TEXT, *numbers))
        for numbers in ((wrasses, tangs, feed), (wrasses + more, tangs, feed), (wrasses, tangs, feed + fed))
    )
    for whole in (many, rich):
        assert never_less(whole.uptake, few.uptake)
        assert whole.oxygen is not None
        assert few.oxygen is not None
        assert never_less(few.oxygen, whole.oxygen)
