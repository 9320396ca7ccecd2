"""Granulates and harvested algae: matter kept, sums by hand, what is advised passes, what is silent is told."""

from __future__ import annotations

import re
from itertools import pairwise

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from scipy.integrate import quad

from tests.laws.water_life import Found, found
from tidestead.core.answer import Estimate, Verdict
from tidestead.core.errors import PlanError
from tidestead.physics.water import nutrients as laws
from tidestead.physics.water.nutrients import Balance
from tidestead.studies.water.nutrients import NutrientLevel
from tidestead.studies.water.takings import algae, granulate

IRON = '[adsorbers.gfh]\nvessel = "sump"\nkind = "ferric-hydroxide"\n'
CUT = '[harvests.screen]\nvessel = "sump"\n'
BEFORE = "[losses]"
TO_ION = (30.974 + 4.0 * 15.999) / 30.974
TO_NITRATE = (14.007 + 3.0 * 15.999) / 14.007


def packed(*parts: str) -> Found:
    """The packhouse, which has neither, with more."""
    return found("packhouse", (BEFORE, "\n".join((*parts, BEFORE))))


def phosphate(one: Found) -> NutrientLevel:
    assert one.nutrients.phosphate is not None
    return one.nutrients.phosphate


def load(mass: str, every: str = "28 days", more: str = "") -> str:
    return f'{IRON}mass = "{mass}"\nevery = "{every}"\n{more}'


def cut(mass: str, every: str = "7 days", more: str = "") -> str:
    return f'{CUT}mass = "{mass}"\nevery = "{every}"\n{more}'


# By hand


def test_a_load_binds_its_share_of_phosphorus_and_that_is_so_much_phosphate() -> None:
    """2 kg of 5 mg/g in 28 days: 10 g P, of the ion 3.066 times that."""
    taken = phosphate(packed(load("2 kg", more='binds = "0.5 %"'))).taken
    assert taken.low == taken.likely == taken.high == pytest.approx(TO_ION * 10.0 / 28.0, rel=1e-12)
    silent = phosphate(packed(load("2 kg"))).taken
    ends = [TO_ION * 2000.0 * share / 28.0 for share in (0.002, 0.005, 0.010)]
    assert [silent.low, silent.likely, silent.high] == pytest.approx(ends, rel=1e-12)


def test_aluminium_oxide_binds_half_as_much() -> None:
    iron = packed(load("2 kg")).nutrients.exports.phosphorus
    white = packed(load("2 kg").replace("ferric-hydroxide", "aluminium-oxide")).nutrients.exports.phosphorus
    assert [white.low, white.likely, white.high] == pytest.approx(
        [0.5 * iron.low, 0.5 * iron.likely, 0.5 * iron.high]
    )


def test_algae_carry_off_nitrogen_and_phosphorus() -> None:
    """A kilogram a week, a tenth of it dry, 2.5 % N and 0.4 % P: 2.5 g N and 0.4 g P in seven days."""
    shares = 'dry = "10 %"\nnitrogen = "2.5 %"\nphosphorus = "0.4 %"'
    one = packed(cut("1 kg", more=shares))
    assert phosphate(one).taken.likely == pytest.approx(TO_ION * 0.4 / 7.0, rel=1e-12)
    taken = one.nitrate.taken
    assert taken.low == taken.likely == taken.high == pytest.approx(TO_NITRATE * 2.5 / 7.0, rel=1e-12)
    silent = packed(cut("1 kg"))
    assert silent.nitrate.taken.low < one.nitrate.taken.likely < silent.nitrate.taken.high
    assert silent.nitrate.taken.likely == pytest.approx(one.nitrate.taken.likely)


def test_all_of_a_plan_add_up_and_none_of_another_water_counts() -> None:
    both = packed(load("2 kg"), cut("1 kg"))
    parts = (packed(load("2 kg")), packed(cut("1 kg")))
    for end in ("low", "likely", "high"):
        alone = sum(getattr(phosphate(one).taken, end) for one in parts)
        assert getattr(phosphate(both).taken, end) == pytest.approx(alone, rel=1e-12)
    assert both.nitrate.taken.high == pytest.approx(parts[1].nitrate.taken.high)
    assert parts[0].nitrate.taken.high == 0.0


# Matter is kept


@settings(max_examples=25, deadline=None)
@example(made=1.0, uptake=0.0, pace=1e-13, renewed=0.0, start=5.0, days=500.0)
@example(made=1.0, uptake=5.0, pace=0.0, renewed=1e-12, start=50.0, days=500.0)
@given(
    made=st.floats(0.1, 20.0), uptake=st.floats(0.0, 25.0), pace=st.floats(0.0, 0.05),
    renewed=st.floats(0.0, 2.0), start=st.floats(0.0, 80.0), days=st.floats(1.0, 900.0),
)  # fmt: skip
def test_what_came_is_what_left_and_what_stands(
    made: float, uptake: float, pace: float, renewed: float, start: float, days: float
) -> None:
    """Once nothing is left no more is taken than comes: what is taken is summed up to that day, and made after it."""
    balance = Balance(20.0, made, pace=pace, renewed=renewed, uptake=uptake)
    gone = min(float(laws.days_to_nutrient(balance, start, 0.0)), days) if uptake > made else days
    went = quad(
        lambda t: float(laws.nutrient_after(balance, start, t)), 0.0, gone, epsabs=1e-13, epsrel=1e-13
    )[0]
    left = (renewed + pace * 20.0) * went
    bound = uptake * gone + made * (days - gone)
    stands = 20.0 * float(laws.nutrient_after(balance, start, days))
    whole = 20.0 * start + made * days
    assert left + bound + stands == pytest.approx(whole, rel=1e-9)


@pytest.mark.parametrize("parts", [(load("2 kg"),), (cut("1 kg"),), (load("2 kg"), cut("2 kg"))])
def test_at_the_settled_level_all_that_is_made_leaves_by_one_way_or_another(parts: tuple[str, ...]) -> None:
    one = packed(*parts)
    for level in (one.nitrate, phosphate(one)):
        for balance, settled in zip(
            level.balances, (level.settled.low, level.settled.likely, level.settled.high), strict=True
        ):
            leaves = settled * (balance.renewed + balance.pace * balance.volume)
            assert leaves + min(balance.uptake, balance.made) == pytest.approx(balance.made, rel=1e-12)


def test_nitrogen_of_a_harvest_gives_back_half_of_the_alkalinity_it_took() -> None:
    """Two equivalents for each nitrogen turned to nitrate, one given back by each that algae grow on."""
    bare, grown = packed(), packed(cut("1 kg"))
    assert bare.nutrients.alkalinity is not None
    assert grown.nutrients.alkalinity is not None
    nitrogen = grown.nutrients.exports.nitrogen.likely
    back = bare.nutrients.alkalinity.likely - grown.nutrients.alkalinity.likely
    assert back == pytest.approx(nitrogen / 14.007, rel=1e-12)


def test_more_is_never_worse() -> None:
    levels = [phosphate(packed(load(f"{mass} kg"))) for mass in (1, 2, 4, 8, 16)]
    for less, more in pairwise(levels):
        assert more.settled.high <= less.settled.high
        assert more.settled.low <= less.settled.low
    assert levels[-1].settled.high == 0.0
    rarer = phosphate(packed(load("4 kg", "56 days")))
    assert rarer.settled.high == pytest.approx(levels[1].settled.high)


# What is judged, and what is advised


def test_the_least_that_is_bound_is_judged() -> None:
    """A load that holds the target by its likely share alone does not pass."""
    bare = phosphate(packed())
    wanted = (bare.made.high - bare.target * bare.balances[2].renewed) / TO_ION
    likely = wanted * 28.0 / 0.005 / 1000.0
    one = packed(load(f"{likely:.6f} kg"))
    assert phosphate(one).settled.likely <= bare.target
    assert one.checks["water.nutrients.phosphate"].verdict is Verdict.FAILS


def test_loads_and_harvests_that_are_advised_hold_the_phosphate() -> None:
    advice = packed().checks["water.nutrients.phosphate"].advice
    iron = re.search(r"([\d.]+) kg of granular ferric hydroxide, or ([\d.]+) kg of activated", advice)
    wet = re.search(r"taken out, ([\d.]+) kg a week", advice)
    assert iron is not None
    assert wet is not None
    white = load(f"{iron[2]} kg").replace("ferric-hydroxide", "aluminium-oxide")
    for part in (load(f"{iron[1]} kg"), white, cut(f"{wet[1]} kg")):
        assert packed(part).checks["water.nutrients.phosphate"].verdict is not Verdict.FAILS
    for part in (load(f"{0.9 * float(iron[1])} kg"), cut(f"{0.9 * float(wet[1])} kg")):
        assert packed(part).checks["water.nutrients.phosphate"].verdict is Verdict.FAILS


def test_what_is_advised_beside_a_load_is_what_more_it_takes() -> None:
    some = load("2 kg", "14 days")
    advice = packed(some).checks["water.nutrients.phosphate"].advice
    more = re.search(r"a week more: ([\d.]+) kg of granular", advice)
    assert more is not None
    assert "every 14 days" in advice
    second = load(f"{more[1]} kg", "14 days").replace("gfh", "second")
    assert packed(some, second).checks["water.nutrients.phosphate"].verdict is not Verdict.FAILS


def test_harvest_that_is_advised_holds_the_nitrate() -> None:
    advice = packed().checks["water.nutrients.nitrate"].advice
    wet = re.search(r"taken out, ([\d.]+) kg a week", advice)
    assert wet is not None
    assert packed(cut(f"{wet[1]} kg")).checks["water.nutrients.nitrate"].verdict is not Verdict.FAILS


def test_the_skerry_holds_its_phosphate_by_its_load_and_not_without() -> None:
    text = 'binds = "0.6 %"'
    check = found("skerry").checks["water.nutrients.phosphate"]
    assert check.verdict in (Verdict.SOUND, Verdict.NEAR)
    weaker = found("skerry", (text, 'binds = "0.1 %"')).checks["water.nutrients.phosphate"]
    assert weaker.verdict is Verdict.FAILS


def test_more_fish_are_carried_where_algae_take_nitrate() -> None:
    def carried(one: Found) -> Estimate:
        mass = next(each.mass for each in one.stock.capacities if each.by == "nitrate")
        assert mass is not None
        return mass

    bare, grown = carried(packed()), carried(packed(cut("2 kg")))
    assert grown.low > bare.low
    assert grown.likely > bare.likely


def test_a_load_that_may_take_all_is_warned_of() -> None:
    def said(one: Found) -> bool:
        return any("corals starve" in words for section in one.sections for words in section.cautions)

    assert said(packed(load("40 kg")))
    assert not said(packed(load("1 kg")))
    assert not said(packed())


def test_emptied_water_settles_when_nine_tenths_are_gone() -> None:
    level = phosphate(packed(load("40 kg")))
    assert level.settled.high == 0.0
    assert level.passes is None
    then = float(laws.nutrient_after(level.balances[1], level.start, level.settles_in))
    assert then == pytest.approx(0.1 * level.start, rel=1e-9)
    assert float(laws.nutrient_after(level.balances[1], level.start, 900.0)) == 0.0


# What is told


def test_what_is_silent_is_assumed_with_its_source() -> None:
    one = packed(load("2 kg"), cut("1 kg", more='dry = "12 %"'))
    said = {each.key: each for section in one.sections for each in section.assumptions}
    assert said["adsorbers.gfh.binds"].value == "0.5 % (0.2 to 1)"
    assert said["adsorbers.gfh.binds"].source == granulate("ferric-hydroxide").figure("binds").source
    assert "harvests.screen.dry" not in said
    assert said["harvests.screen.nitrogen"].source == algae().figure("nitrogen_low").source
    told = packed(load("2 kg", more='binds = "0.5 %"'))
    assert not [each for section in told.sections for each in section.assumptions if "adsorbers" in each.key]
    figures = {each.id: each for section in one.sections for each in section.figures}
    assert "granulates and harvested algae" in figures["water.nutrients.phosphate.taken"].what
    assert "harvested algae" in figures["water.nutrients.nitrate.taken"].what


@pytest.mark.parametrize(
    ("part", "where", "word"),
    [
        (load("2 kg").replace('"sump"', '"sumpf"'), "adsorbers.gfh.vessel", "sump"),
        (load("2 kg").replace("ferric-hydroxide", "iron"), "adsorbers.gfh.kind", "ferric-hydroxide"),
        (load("-2 kg"), "adsorbers.gfh.mass", ""),
        (load("2"), "adsorbers.gfh.mass", "kg"),
        (load("2 kg", "0 days"), "adsorbers.gfh.every", ""),
        (load("2 kg", more='binds = "120 %"'), "adsorbers.gfh.binds", ""),
        (cut("1 kg").replace('"sump"', '"attic"'), "harvests.screen.vessel", ""),
        (cut("1 kg", more='phosphorus = "lots"'), "harvests.screen.phosphorus", ""),
        (cut("1 kg", more='nitrogn = "2 %"'), "harvests.screen.nitrogn", "nitrogen"),
    ],
)
def test_what_cannot_be_is_refused_where_it_stands(part: str, where: str, word: str) -> None:
    with pytest.raises(PlanError) as refused:
        packed(part)
    (fault,) = refused.value.faults
    assert fault.where == where
    assert fault.line is not None
    assert word in f"{fault.allowed} {fault.advice}"
