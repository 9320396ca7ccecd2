"""What is told of life in the water: warnings, what a silent plan is asked for, both examples worked through."""

from __future__ import annotations

import math
import re
from collections.abc import Callable
from dataclasses import replace

import pytest

from tests.journeys.worked import misses, not_given
from tests.laws.water_life import UNBOUND, found
from tidestead.catalog import table
from tidestead.core.answer import Estimate, Step, Verdict
from tidestead.studies.heat.facts import Spread
from tidestead.studies.water.dosing import limewater_of
from tidestead.studies.water.evaporating import evaporating_of
from tidestead.studies.water.spans import moved, summed

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
        assert all(math.isfinite(value) for curve in chart.curves for value in curve.values)  # type: ignore[union-attr]  # all of them are line charts


AT_THE_EDGE: dict[str, tuple[tuple[str, str], ...]] = {
    "nothing fed": (('daily = "35 g/day"', 'daily = "0 g/day"'),),
    "no nitrate wanted": (('nitrate = "15 mg/L"', 'nitrate = "0 mg/L"'),),
    "all of it changed": (('share = "6 %"', 'share = "100 %"'),),
    "in and out at once": (('way = "drain-first"', 'way = "both-at-once"'),),
    "fish all grown": (('mass = "0.6 kg"', 'mass = "1.1 kg"'), ('grown = "1.2 kg"', 'mass = "1.2 kg"')),
    "acid": (('ph = "8.15 NBS"', 'ph = "7.2 total"'),),
    "soft": (('alkalinity = "8 dKH"', 'alkalinity = "0.1 dKH"'), ('ph = "8.15 NBS"', 'ph = "9.4 total"')),
    "a stock that is all fish": (('grown = "1.1 kg"', 'grown = "900 kg"'),),
    "no bottle runs": (('daily = "250 mL/day"', 'daily = "0 L/day"'),),
}


@pytest.mark.parametrize("case", AT_THE_EDGE)
def test_plans_at_the_edge_are_answered(case: str) -> None:
    """No check is without a value and without a reason; none that fails or passes rests on a number without end."""
    one = found("skerry", *AT_THE_EDGE[case])
    assert len(one.checks) > 15
    for ident, check in one.checks.items():
        if check.verdict is Verdict.UNPROVEN:
            assert check.missing, ident
        else:
            assert check.estimate is not None
            assert check.estimate.finite, ident
    for section in one.sections:
        assert all(figure.estimate.finite for figure in section.figures)
        steps = [step for each in section.judged for step in each.steps]
        assert not [(step.formula, misses(step)) for step in steps if misses(step)]


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


# Remedies hold by the end that the check is judged by, with room

SODA = 'daily = "250 mL/day"\nbottle = "{}"\n\n[dosers.lime]'


@pytest.mark.parametrize(
    ("name", "fed", "nutrient", "target"),
    [
        ("packhouse", "2.6 oz/day", "nitrate", ("[targets]\n", '[targets]\nnitrate = "180 mg/L"\n')),
        ("packhouse", "2.6 oz/day", "phosphate", ("[targets]\n", '[targets]\nphosphate = "20 mg/L"\n')),
        ("skerry", "35 g/day", "nitrate", ('nitrate = "15 mg/L"', 'nitrate = "40 mg/L"')),
        ("skerry", "35 g/day", "phosphate", ('phosphate = "0.12 mg/L"', 'phosphate = "8 mg/L"')),
    ],
)
def test_the_feed_that_is_said_to_hold_a_level_holds_it_at_its_most(
    name: str, fed: str, nutrient: str, target: tuple[str, str]
) -> None:
    """Where a fifth of the feed or more would do; far under that nothing could live of it, and it is no advice."""
    bare = UNBOUND if name == "skerry" else ()
    strict = found(name, *bare).checks[f"water.nutrients.{nutrient}"].advice
    assert "feed of" not in strict
    bare = (*bare, target)
    advice = found(name, *bare).checks[f"water.nutrients.{nutrient}"].advice
    less = re.search(r"feed of ([\d.]+ \S+) with", advice)
    assert less is not None, advice
    again = found(name, *bare, (f'daily = "{fed}"', f'daily = "{less[1]}"'))
    assert again.checks[f"water.nutrients.{nutrient}"].verdict is Verdict.SOUND
    level = again.nutrients.nitrate if nutrient == "nitrate" else again.nutrients.phosphate
    assert level is not None
    room = 0.8 * level.target
    assert 0.98 * room < level.judged.high <= room


def test_filters_without_air_that_are_said_to_hold_the_nitrate_hold_it_at_its_most() -> None:
    advice = found("skerry").checks["water.nutrients.nitrate"].advice
    pace = re.search(r"take ([\d.]+) of the nitrate a day", advice)
    assert pace is not None, advice
    again = found("skerry", ('denitrifies = "0.008 1/day"', f'denitrifies = "{pace[1]} 1/day"')).nitrate
    room = 0.8 * again.target
    assert 0.9 * room < again.judged.high <= room


def test_the_bottle_that_is_advised_is_sound() -> None:
    """A bottle of 15 L of the skerry's soda is too much, and so much less is not near any more."""
    large = found("skerry", ('daily = "250 mL/day"\nbottle = "5 L"\n\n[dosers.lime]', SODA.format("15 L")))
    check = large.checks["water.dosers.soda.bottle"]
    assert check.verdict is Verdict.FAILS
    most = re.search(r"at most ([\d.]+ m?L)", check.advice)
    assert most is not None, check.advice
    less = found("skerry", ('daily = "250 mL/day"\nbottle = "5 L"\n\n[dosers.lime]', SODA.format(most[1])))
    assert less.checks["water.dosers.soda.bottle"].verdict is Verdict.SOUND


@pytest.mark.parametrize(
    ("name", "fed", "less", "share"),
    [("packhouse", "2.6 oz/day", "0.3 oz/day", "10 %"), ("skerry", "35 g/day", "15 g/day", "6 %")],
)
def test_the_changes_that_are_said_to_hold_the_nitrate_hold_it_at_its_most(
    name: str, fed: str, less: str, share: str
) -> None:
    fewer = (f'daily = "{fed}"', f'daily = "{less}"')
    advice = found(name, fewer).checks["water.nutrients.nitrate"].advice
    most = re.search(r"changes of (\d+) % every ", advice)
    assert most is not None, advice
    swap = (f'[changes]\nshare = "{share}"', f'[changes]\nshare = "{most[1]} %"')
    assert found(name, fewer, swap).checks["water.nutrients.nitrate"].verdict is Verdict.SOUND


@pytest.mark.parametrize("name", ["packhouse", "skerry"])
def test_what_is_said_to_bind_the_phosphate_is_enough_at_its_most(name: str) -> None:
    facts = found(name, *(UNBOUND if name == "skerry" else ()))
    level = facts.nutrients.phosphate
    assert level is not None
    words = facts.checks["water.nutrients.phosphate"].advice
    bound = re.search(r"binding ([\d.]+) g of phosphorus a week", words)
    assert bound is not None
    ion = float(bound[1]) / 7.0 * (30.974 + 4.0 * 15.999) / 30.974
    left = (level.made.high - ion) / level.balances[2].renewed
    assert left <= 0.8 * level.target
    assert ion == pytest.approx(level.made.high, rel=0.06)


def test_limewater_that_is_said_to_bring_all_the_calcium_brings_it() -> None:
    advice = found("packhouse").checks["water.calcium.daily"].advice
    share = re.search(r"limewater in (\d+) % of the top-off", advice)
    assert share is not None, advice
    swaps = (('daily = "350 mL/day"', 'daily = "0 mL/day"'), ('share = "100 %"', f'share = "{share[1]} %"'))
    facts = found("packhouse", *swaps).alkalinity
    assert facts.given[1].likely + facts.changes[1] == pytest.approx(facts.used.calcium.likely, rel=0.02)


def test_limewater_runs_from_the_month_that_draws_least_to_the_one_that_draws_most() -> None:
    """2, 3 and 5 L of every month but July and January, which draw twice and half as much."""
    one = found("packhouse")
    months = [1.0] * 12
    months[6], months[0] = 2.0, 0.5
    low, likely, high = (tuple(rate * month / 86400.0 for month in months) for rate in (2.0, 3.0, 5.0))
    place = replace(one.setting, evaporation=Spread(low, likely, high))
    lime = limewater_of(one.inputs.plan, place)
    draw = evaporating_of(one.inputs, place).draw
    lost = 0.6 * 3.785411784e-3
    assert lime is not None
    assert draw is not None
    assert lime.topped_up.high == pytest.approx(0.010 + lost) == pytest.approx(86400.0 * draw.high)
    assert lime.topped_up.likely == pytest.approx(0.003 * 12.5 / 12.0 + lost)
    assert lime.topped_up.low == pytest.approx(0.001 + lost)
    assert "month" in lime.topped_up.basis


def test_limewater_replaces_lost_salt_water_too() -> None:
    """0.6 US gallons a day of skimmate and splash come back through the same float valve."""
    whole = found("packhouse").alkalinity.lime
    dry = (
        ('skimmate = "0.5 gal/day"', 'skimmate = "0 gal/day"'),
        ('splash = "0.1 gal/day"', 'splash = "0 gal/day"'),
    )
    less = found("packhouse", *dry).alkalinity.lime
    assert whole is not None
    assert less is not None
    assert whole.topped_up.likely - less.topped_up.likely == pytest.approx(0.6 * 3.785411784e-3)
    assert whole.alkalinity.likely - less.alkalinity.likely == pytest.approx(0.6 * 3.785411784e-3 * 40.5)


def test_a_use_that_was_measured_is_yours_and_no_paper_s() -> None:
    def source(*swaps: tuple[str, str]) -> str:
        figures = (one for section in found("skerry", *swaps).sections for one in section.figures)
        return next(one for one in figures if one.id == "water.alkalinity.used").source.work

    assert source() == "your plan"
    assert "Kinsey" in source(('uses_alkalinity = "0.12 dKH"', "#"))
