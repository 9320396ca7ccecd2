"""What lives in the water and what it does: sums by hand, matter kept, what is silent said, both examples in full."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import cache

import pytest

from tests.journeys.flow_plans import EXAMPLES
from tests.journeys.worked import misses, not_given
from tidestead.catalog import table
from tidestead.core.answer import Check, Estimate, Step, Verdict
from tidestead.physics.ammonia import pka_bell, share_at
from tidestead.physics.water import nutrients as laws
from tidestead.plan import loads
from tidestead.studies import flow, foam, heat, light
from tidestead.studies.flow.facts import FlowFacts
from tidestead.studies.foam.facts import FoamFacts
from tidestead.studies.heat.facts import Spread
from tidestead.studies.inputs import Inputs
from tidestead.studies.water.alkalinity import AlkalinityFacts, alkalinity_of
from tidestead.studies.water.alkalinity_checks import alkalinity_section
from tidestead.studies.water.ammonia import AmmoniaFacts, ammonia_of, ammonia_section
from tidestead.studies.water.new_filter import LONGEST, cycling_days, new_filter_of, new_filter_section
from tidestead.studies.water.nutrient_checks import nutrient_section
from tidestead.studies.water.nutrients import NutrientFacts, NutrientLevel, nutrients_of
from tidestead.studies.water.ramp import RampFacts, ramp_of
from tidestead.studies.water.ramp_checks import ramp_section
from tidestead.studies.water.section import Section
from tidestead.studies.water.setting import Setting, setting_of
from tidestead.studies.water.spans import moved, summed
from tidestead.studies.water.stock_checks import stock_section
from tidestead.studies.water.stock_facts import StockFacts
from tidestead.studies.water.stocking import stock_of

DAY, GRAMS = 86400.0, 1000.0
EVAPORATES = Spread((1.2e-4,) * 12, (1.8e-4,) * 12, (2.7e-4,) * 12)
Swap = tuple[str, str]

BARE = """
tidestead = 1
name = "bare"

[vessels.tank]
role = "display"
made = "bought"
shape = "box"
length = "3 m"
width = "2 m"
height = "1.2 m"
water = "1 m"
place = { x = "0 m", y = "0 m", floor = "0 m" }
"""


@dataclass(frozen=True, eq=False)
class Found:
    """One plan's water, matter by matter."""

    inputs: Inputs
    setting: Setting
    stock: StockFacts
    nutrients: NutrientFacts
    alkalinity: AlkalinityFacts
    ammonia: AmmoniaFacts
    ramp: RampFacts

    @property
    def sections(self) -> tuple[Section, ...]:
        at, of = self.inputs, self.setting
        return (
            stock_section(at, of, self.stock),
            nutrient_section(at, of, self.nutrients),
            alkalinity_section(at, of, self.alkalinity),
            ammonia_section(at, of, self.ammonia, self.stock),
            new_filter_section(at, of, new_filter_of(at, of)),
            ramp_section(at, of, self.ramp, self.stock),
        )

    @property
    def checks(self) -> dict[str, Check]:
        return {one.check.id: one.check for section in self.sections for one in section.judged}

    @property
    def nitrate(self) -> NutrientLevel:
        assert self.nutrients.nitrate is not None
        return self.nutrients.nitrate


@cache
def circulation(name: str) -> tuple[FlowFacts, FoamFacts]:
    inputs = _inputs(_text(name))
    running = flow.find(inputs)
    return running, foam.find(inputs, running)


def _text(name: str) -> str:
    return BARE if name == "bare" else (EXAMPLES / f"{name}.toml").read_text(encoding="utf-8")


def _inputs(text: str) -> Inputs:
    return Inputs(loads(text).plan, "metric", None, "no weather")


def found(name: str, *swaps: Swap) -> Found:
    """An example with words of its plan changed; the circulation is that of the unchanged."""
    text = _text(name)
    for old, new in swaps:
        assert old in text, old
        text = text.replace(old, new)
    return _found(name, text)


@cache
def _found(name: str, text: str) -> Found:
    inputs, (running, towers) = _inputs(text), circulation(name)
    warmth = heat.find(inputs, running, light.find(inputs))
    setting = replace(setting_of(inputs.plan, running, warmth), evaporation=EVAPORATES)
    stock, nutrients = stock_of(inputs, setting, running, towers), nutrients_of(inputs, setting)
    return Found(
        inputs,
        setting,
        stock,
        nutrients,
        alkalinity_of(inputs, setting, nutrients),
        ammonia_of(inputs, setting, stock),
        ramp_of(inputs, setting, stock),
    )


FED = ('daily = "35 g/day"\nprotein = "48 %"', 'daily = "200 g/day"\nprotein = "45 %"')
UNFED = ('[feed]\ndaily = "35 g/day"\nprotein = "48 %"\n', "")


# By hand


def test_feed_of_200_grams_at_45_percent_makes_8_28_grams_of_nitrogen() -> None:
    fed = found("skerry", FED)
    assert fed.nutrients.ammonia is not None
    assert fed.nutrients.ammonia.likely == pytest.approx(8.28)
    assert fed.nutrients.ammonia.high == pytest.approx(12.96)
    assert fed.nutrients.bound == pytest.approx(14.4)
    assert fed.stock.ammonia is not None
    assert 24.0 * fed.stock.ammonia.likely == pytest.approx(8.28)


def test_one_degree_of_alkalinity_takes_7_147_of_calcium() -> None:
    one = found("skerry", UNFED, ('uses_alkalinity = "0.12 dKH"', 'uses_alkalinity = "1 dKH"'))
    used = one.alkalinity.used
    assert used.nitrification.high == 0.0
    assert used.calcium.likely / one.setting.volume == pytest.approx(7.147, abs=5e-4)


def test_soda_of_100_grams_in_a_litre_by_hand() -> None:
    """5 L of it into 11.86 m3: 100/105.988*2*5/11.86."""
    one = found("skerry")
    soda = next(doser for doser in one.alkalinity.dosers if doser.key == "soda")
    assert soda.rise == pytest.approx(100.0 / 105.988 * 2.0 * 5.0 / one.setting.volume)
    assert soda.safe == pytest.approx(0.005 * 0.5 / soda.rise)


def test_nitrifying_area_carries_its_ceiling() -> None:
    one = found("skerry")
    assert one.stock.area == pytest.approx(42.0)
    assert 24.0 * one.stock.ceiling == pytest.approx(0.28 * 42.0)


def test_quarantine_is_full_of_ammonia_when_the_sum_says_so() -> None:
    one = found("skerry")
    held, act = one.ramp.quarantine, one.ammonia.steps[1].total
    assert held is not None
    assert held.to_act is not None
    assert act is not None
    made = 35.0 * 0.48 * 0.092 * 0.25 / 2.3  # g N a day by the lot
    assert held.made.likely == pytest.approx(made)
    assert held.to_act.likely == pytest.approx(24.0 * act * 0.3 / made)


# What is kept


@pytest.mark.parametrize("name", ["skerry", "packhouse"])
def test_nitrogen_is_kept(name: str) -> None:
    """At the settled level as much leaves as is made; on the way, what came less what left is what stands there."""
    level = found(name).nitrate
    for one, settled in zip(
        level.balances, (level.settled.low, level.settled.likely, level.settled.high), strict=True
    ):
        leaves = settled * (one.renewed + one.pace * one.volume)
        assert leaves == pytest.approx(one.made, rel=1e-12)
        now, later = (float(laws.nutrient_after(one, level.start, day)) for day in (30.0, 30.01))
        middle = float(laws.nutrient_after(one, level.start, 30.005))
        flow_in = one.made - (one.renewed + one.pace * one.volume) * middle
        assert one.volume * (later - now) / 0.01 == pytest.approx(flow_in, rel=1e-6)


def test_no_more_nitrate_comes_of_feed_than_nitrogen_is_in_it() -> None:
    one = found("packhouse")
    assert one.nitrate.made.high < float(laws.nitrate_ion(one.nutrients.bound))


def test_nitrogen_of_a_new_filter_is_kept() -> None:
    at = found("skerry")
    facts = new_filter_of(at.inputs, at.setting)
    sums = [sum(three) for three in zip(facts.ammonia, facts.nitrite, facts.nitrate, strict=True)]
    assert sums == pytest.approx([facts.dose] * len(sums), abs=1e-7)
    days = cycling_days(at.inputs, at.setting)
    assert 0.0 < days.low < days.likely < days.high <= LONGEST
    assert facts.days == days


def test_fish_and_bacteria_burn_no_more_than_the_feed_holds() -> None:
    """1.40 kg of oxygen for each kg of feed at 45 % protein."""
    for load in (found("skerry", FED).stock.now, found("skerry", FED).stock.grown):
        assert load.feed is not None
        most = load.feed * DAY * GRAMS * (2.67 * 0.40 + 4.57 * 0.16 * 0.45) / 24.0
        assert most == pytest.approx(200.0 * 1.397 / 24.0, rel=1e-3)
        assert load.bacteria.high + load.fish.low <= most * (1.0 + 1e-12)
        assert load.bacteria.low <= load.bacteria.likely <= load.bacteria.high


# Which way things go


def test_more_feed_makes_more_nitrate_and_ammonia() -> None:
    less, more = found("skerry"), found("skerry", ('daily = "35 g/day"', 'daily = "70 g/day"'))
    assert more.nitrate.settled.likely == pytest.approx(2.0 * less.nitrate.settled.likely)
    assert less.stock.now.tan is not None
    assert more.stock.now.tan is not None
    assert more.stock.now.tan.likely > less.stock.now.tan.likely
    assert more.stock.uptake.likely > less.stock.uptake.likely


def test_more_surface_leaves_less_ammonia() -> None:
    less, more = found("skerry"), found("skerry", ('surface = "30 m2"', 'surface = "90 m2"'))
    assert less.ammonia.standing is not None
    assert more.ammonia.standing is not None
    assert more.ammonia.standing.high < less.ammonia.standing.high
    assert more.stock.ceiling > less.stock.ceiling
    assert more.stock.clearance is not None
    assert less.stock.clearance is not None
    assert more.stock.clearance.likely > less.stock.clearance.likely


def test_too_small_a_filter_fails_and_the_ammonia_is_unproven() -> None:
    one = found(
        "skerry", ('surface = "30 m2"', 'surface = "1 m2"'), ('surface = "12 m2"', 'surface = "1 m2"')
    )
    assert one.checks["water.stock.filter"].verdict is Verdict.FAILS
    assert one.checks["water.ammonia.act"].verdict is Verdict.UNPROVEN
    assert "beyond the filter" in one.checks["water.ammonia.act"].missing


def test_a_reading_of_the_uptake_wins() -> None:
    one = found("skerry", ("[quarantine]", '[measured]\nuptake = "4 g/h"\n\n[quarantine]'))
    uptake = one.stock.uptake
    assert (uptake.low, uptake.likely, uptake.high) == pytest.approx((4.0, 4.0, 4.0))
    assert one.stock.measured
    assert one.stock.grown.uptake.likely > 4.0


def test_covers_take_air_from_the_night_and_stones_bring_it() -> None:
    plan = found("packhouse")
    bare = found("packhouse", ('share = "90 %"\nwhen = "night"', 'share = "1 %"\nwhen = "night"'))
    assert plan.stock.now.oxygen is not None
    assert bare.stock.now.oxygen is not None
    assert plan.stock.now.oxygen.low < bare.stock.now.oxygen.low
    stone = '[airpumps.a]\nvessel = "reef"\nflow = "20 L/min"\ndepth = "1 m"\n\n[salt]'
    aired = found("packhouse", ("[salt]", stone))
    assert aired.stock.now.oxygen is not None
    assert aired.stock.now.oxygen.low > plan.stock.now.oxygen.low


def test_bicarbonate_moves_the_ph_less_than_soda() -> None:
    soda = found("skerry").alkalinity.dosers[0]
    mild = found(
        "skerry",
        (
            'reagent = "sodium-carbonate"\nstrength = "100 g/L"',
            'reagent = "sodium-bicarbonate"\nstrength = "79 g/L"',
        ),
    )
    other = mild.alkalinity.dosers[0]
    assert (soda.carbon, other.carbon) == (0.5, 1.0)
    assert soda.after is not None
    assert other.after is not None
    before = mild.alkalinity.system.middle
    assert before is not None
    assert abs(other.after.ph - before.ph) < 0.5 * abs(soda.after.ph - before.ph)


def test_ph_8_14_nbs_and_8_00_total_are_one_water() -> None:
    nbs = found("skerry", ('ph = "8.15 NBS"', 'ph = "8.14 NBS"')).ammonia
    total = found("skerry", ('ph = "8.15 NBS"', 'ph = "8.00 total"')).ammonia
    assert nbs.share is not None
    assert total.share is not None
    assert total.share.likely == pytest.approx(nbs.share.likely, rel=0.03)
    assert nbs.other is not None
    bell = float(share_at(pka_bell(35.0, 25.5), 8.14))  # a third form, of the NBS kind as the first
    assert nbs.other == pytest.approx(bell, rel=0.08)
    assert bell < nbs.share.likely  # the form of the limits tells most: the safe side
    wrong = found("skerry", ('ph = "8.15 NBS"', 'ph = "8.14 total"')).ammonia
    assert wrong.share is not None
    assert wrong.share.likely > 1.25 * nbs.share.likely


# What is proposed mends what it is proposed for


def test_changes_that_are_said_to_hold_the_nitrate_hold_it() -> None:
    one = found("skerry").nitrate
    share = 100.0 * one.share.likely
    held = found("skerry", ('share = "6 %"', f'share = "{share:.6f} %"')).nitrate
    assert held.settled.likely == pytest.approx(held.target, rel=1e-5)


def test_doses_that_are_said_to_hold_the_alkalinity_hold_it() -> None:
    one = found("skerry")
    dose = dict(one.alkalinity.hold)["soda"]
    held = found(
        "skerry",
        (
            'strength = "100 g/L"\ndaily = "250 mL/day"',
            f'strength = "100 g/L"\ndaily = "{dose * 1e6:.6f} mL/day"',
        ),
    )
    value = held.checks["water.alkalinity.daily"].estimate
    assert value is not None
    assert value.likely == pytest.approx(1.0, rel=1e-6)
    assert held.checks["water.alkalinity.daily"].verdict is Verdict.SOUND


def test_oxygen_stands_at_what_warns_with_as_many_fish_as_it_carries() -> None:
    stock = found("packhouse").stock
    carried = next(one.mass for one in stock.capacities if one.by == "oxygen")
    assert carried is not None
    load = stock.grown
    taken = stock.coral_uptake.likely + (load.fish.likely + load.bacteria.likely) / load.mass * carried.likely
    assert stock.saturation - taken / stock.exchange.likely == pytest.approx(5.0)


@pytest.mark.parametrize("name", ["skerry", "packhouse"])
def test_fish_come_by_lots_that_the_filter_and_quarantine_bear(name: str) -> None:
    one = found(name)
    ramp, stock = one.ramp, one.stock
    assert ramp.warn is not None
    assert max(week.tan for week in ramp.weeks) <= ramp.warn
    assert ramp.weeks[0].mass == pytest.approx(stock.mass_now)
    assert ramp.weeks[-1].mass == pytest.approx(stock.mass_grown)
    assert sum(week.added for week in ramp.weeks) == pytest.approx(stock.mass_grown - stock.mass_now)
    for before, after in zip(ramp.weeks, ramp.weeks[1:], strict=False):
        assert after.week - before.week == ramp.lots
        assert after.added <= min(ramp.largest, ramp.growth * before.mass) * (1.0 + 1e-9)
    assert ramp.lots == {"skerry": 6, "packhouse": 1}[name]


# What is told


def test_stocks_that_meet_in_one_vessel_are_warned_of() -> None:
    meets, apart = found("packhouse"), found("skerry")
    ident = "water.dosers.same_vessel"
    assert meets.checks[ident].verdict is Verdict.FAILS
    assert "sump" in meets.checks[ident].cautions[0]
    assert "another vessel" in meets.checks[ident].advice
    assert apart.checks[ident].verdict is Verdict.SOUND
    assert not apart.checks[ident].cautions
    said = [caution for section in meets.sections for caution in section.cautions]
    assert any("meet in one vessel" in caution for caution in said)


def test_a_stock_that_does_not_dissolve_fails() -> None:
    strong = found("skerry", ('strength = "100 g/L"', 'strength = "240 g/L"'))
    assert strong.checks["water.dosers.soda.dissolves"].verdict is Verdict.FAILS


SILENT = {
    "water.stock.oxygen": "fish.NAME",
    "water.stock.filter": "feed.daily",
    "water.nutrients.nitrate": "feed.daily",
    "water.nutrients.phosphate": "feed.daily",
    "water.alkalinity.kept": "water.alkalinity",
    "water.calcium.kept": "water.calcium",
    "water.magnesium.kept": "water.magnesium",
    "water.alkalinity.daily": "water.uses_alkalinity",
    "water.calcium.daily": "water.uses_alkalinity",
    "water.alkalinity.aragonite": "water.ph",
    "water.ammonia.warn": "water.ph",
    "water.ramp.last": "fish.NAME",
    "water.ramp.ammonia": "fish.NAME",
}


def test_a_silent_plan_is_unproven_and_told_what_to_write() -> None:
    checks = found("bare").checks
    assert set(checks) == set(SILENT)
    for ident, key in SILENT.items():
        assert checks[ident].verdict is Verdict.UNPROVEN, ident
        assert key in checks[ident].missing, (ident, checks[ident].missing)


def test_without_a_reading_of_the_use_no_dose_is_judged() -> None:
    one = found("skerry", ('uses_alkalinity = "0.12 dKH"           # in a day, once the corals stand\n', ""))
    check = one.checks["water.alkalinity.daily"]
    assert check.verdict is Verdict.UNPROVEN
    assert "water.uses_alkalinity" in check.missing
    assert one.alkalinity.used.alkalinity.low < one.alkalinity.used.alkalinity.high


@pytest.mark.parametrize("name", ["skerry", "packhouse"])
def test_examples_are_worked_through_and_finite(name: str) -> None:
    one = found(name)
    judged = [each for section in one.sections for each in section.judged]
    idents = [each.check.id for each in judged]
    assert len(set(idents)) == len(idents)
    assert len(idents) > 15
    for each in judged:
        check = each.check
        assert check.id.startswith("water.")
        assert check.source.work
        assert check.estimate is not None, check.id
        assert check.estimate.finite, check.id
        assert check.use is not None, check.id
        assert check.verdict is not Verdict.UNPROVEN
    steps: list[Step] = [step for each in judged for step in each.working.steps]
    assert len(steps) > 40
    assert not [
        (step.formula, misses(step), not_given(step)) for step in steps if misses(step) or not_given(step)
    ]
    figures = [figure for section in one.sections for figure in section.figures]
    assert len({figure.id for figure in figures}) == len(figures)
    assert all(figure.estimate.finite for figure in figures)
    for chart in (chart for section in one.sections for chart in section.charts):
        assert chart.told
        assert all(math.isfinite(value) for curve in chart.curves for value in curve.values)  # type: ignore[union-attr]


@pytest.mark.parametrize("name", ["skerry", "packhouse"])
def test_working_ends_at_what_is_judged(name: str) -> None:
    """The likely value of every worked check is a step's result."""
    for section in found(name).sections:
        for each in section.judged:
            if (
                each.steps
                and each.check.estimate is not None
                and each.check.must_be != "above"
                and each.check.id not in ("water.stock.filter",)
            ):
                results = [step.result for step in each.steps]
                assert any(result == pytest.approx(each.check.estimate.likely) for result in results) or any(
                    result == pytest.approx(each.check.limit) for result in results
                ), each.check.id


# Ranges


@pytest.mark.parametrize("find", [lambda a, b: a + b, lambda a, b: a - b, lambda a, b: a / b])
def test_a_range_of_two_ranges_holds_what_either_does_by_itself(
    find: Callable[[float, float], float],
) -> None:
    one, other = Estimate(1.0, 2.0, 4.0), Estimate(3.0, 5.0, 6.0)
    value = moved(find, (one, other), "both")
    for each in (find(one.low, 5.0), find(one.high, 5.0), find(2.0, other.low), find(2.0, other.high)):
        assert value.low - 1e-12 <= each <= value.high + 1e-12
    whole = summed([one, other])
    assert (whole.low, whole.likely) == pytest.approx((7.0 - math.sqrt(5.0), 7.0))
    assert whole.high == pytest.approx(7.0 + math.sqrt(5.0))


def test_rows_of_the_catalogue_that_stock_rests_on_rise_from_low_to_high() -> None:
    for name, row, key in (
        ("oxygen", "falling-water", "share"),
        ("oxygen", "stirred-surface", "speed"),
        ("water_limits", "calcifiers", "breath"),
        ("water_limits", "calcifiers", "magnesium"),
    ):
        figures = [table(name)[row].si(one) for one in (f"{key}_low", key, f"{key}_high")]
        assert figures == sorted(figures)
