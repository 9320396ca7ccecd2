"""Evaporation, drift and the first fill: worked by hand, and honest where a plan is silent."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import fields, is_dataclass, replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.journeys.worked import misses, not_given
from tests.laws.salt_systems import CYCLING, DAY, EXAMPLES, TANK, asked, checks, sections, setting, spread
from tidestead.core.answer import Verdict
from tidestead.plan import load
from tidestead.plan.model import Plan
from tidestead.studies.inputs import Inputs
from tidestead.studies.water.changing import changing_of
from tidestead.studies.water.evaporating import evaporating_of, evaporating_section
from tidestead.studies.water.filling import filling_of, filling_section
from tidestead.studies.water.salting import salting_of
from tidestead.studies.water.setting import Setting

# Evaporation


def test_stock_by_hand() -> None:
    """300 L against 80 L a day that evaporate and 20 L that are lost: 3 days, at worst 300/140."""
    facts = evaporating_of(asked(), setting())
    assert facts.lasts is not None
    assert facts.lasts.likely == pytest.approx(3.0 * DAY)
    assert facts.lasts.low == pytest.approx(300.0 / 140.0 * DAY)
    assert facts.year is not None
    assert facts.year.likely == pytest.approx(36.5)


def test_failed_top_off_by_hand() -> None:
    """150 L a day out of 20 m3 for three days: 35 becomes 35.81."""
    facts = evaporating_of(asked(), setting(daily=150.0))
    three = next(one for one in facts.without if one.time == 3 * DAY)
    assert three.salinity is not None
    assert three.salinity.likely == pytest.approx(35.81, abs=0.005)


def test_drift_by_hand() -> None:
    """20 L a day lost to fresh water in 20 m3: 0.035 psu a day; in 14 days 0.487, of which the changes take a part."""
    drift = evaporating_of(asked(), setting()).drift
    assert drift is not None
    assert drift.daily == pytest.approx(0.035)
    assert drift.between == pytest.approx(35.0 * (1.0 - math.exp(-0.014)))
    salinity, left = 35.0, math.exp(-0.014)
    for _ in range(400):
        before = salinity * left
        salinity = before + (1.0 - 0.975**4) * (35.0 - before)
    assert drift.settled == pytest.approx(35.0 - before, rel=1e-9)
    assert drift.weekly.likely == pytest.approx(7 * 0.02 * 35.99 * 1.1, rel=1e-3)


def test_salt_added_by_new_water_holds_the_drift() -> None:
    """New water as much saltier as told brings the tank back to what is kept, change after change."""
    drift = evaporating_of(asked(), setting()).drift
    assert drift is not None
    assert drift.saltier is not None
    assert drift.between is not None
    share, psu = 1.0 - 0.975**4, 35.0
    low = psu - drift.between
    assert low + share * (psu + drift.saltier - low) == pytest.approx(psu)


@given(st.floats(5.0, 300.0), st.floats(1.05, 3.0))
@settings(max_examples=30)
def test_more_evaporation_shortens_the_reservoir(daily: float, more: float) -> None:
    less, greater = (evaporating_of(asked(), setting(daily=one)) for one in (daily, daily * more))
    assert less.lasts is not None
    assert greater.lasts is not None
    assert greater.lasts.low < less.lasts.low
    assert greater.lasts.likely < less.lasts.likely


def test_mains_fed_top_off_is_flagged() -> None:
    """1 L/min into 20 m3: 1 psu lower after 20/34 m3 have come."""
    inputs = asked(('stock = "300 L"\n', ""))
    facts = evaporating_of(inputs, setting())
    assert facts.stuck == pytest.approx(20.0 / 34.0 / (1e-3 / 60.0))
    told = evaporating_section(inputs, setting(), facts)
    assert any("no stock that ends" in words and "top_off.stock" in words for words in told.cautions)
    assert "water.topoff.days" not in {one.check.id for one in told.judged}


# The first fill


def test_first_fill_by_the_membrane_by_hand() -> None:
    """22 m3 for the test at 58.5 L/h and three days of holds, seven days full, a day of stirring beside the warming."""
    facts = filling_of(asked(), setting(), CYCLING)
    one = next(fill for fill in facts.fills if fill.supply.key == "membrane")
    filling = 22.0 / 0.0585 * 3600.0 + 3 * DAY
    assert one.steps[0].end == pytest.approx(filling, rel=2e-3)
    assert one.steps[1].end == pytest.approx(filling + 7 * DAY, rel=2e-3)
    warm = 20.0 * 1026.9 * 3.99e3 * 15.0 / 6000.0
    assert one.filled == pytest.approx(filling + 7 * DAY + max(DAY, warm), rel=2e-3)
    assert one.ready is not None
    assert one.ready.likely == pytest.approx(one.filled + 35 * DAY)
    assert one.ready.high - one.ready.low == pytest.approx(39 * DAY)


def test_tanker_comes_in_whole_loads() -> None:
    """22 m3 by loads of 8: three, the last after 14 days; 24 m3 are paid."""
    inputs = asked(('every = "7 days"\ntemperature', 'every = "7 days"\nprice = "50 EUR/m3"\ntemperature'))
    facts = filling_of(inputs, setting(), CYCLING)
    one = next(fill for fill in facts.fills if fill.supply.key == "tanker")
    assert one.loads == 3
    assert one.steps[0].end == pytest.approx((14 + 3) * DAY)
    assert one.cost is not None
    assert one.cost.water == pytest.approx(24.0 * 50.0)


def test_a_fresh_test_before_the_sea_takes_other_water() -> None:
    sea = next(fill for fill in filling_of(asked(), setting(), CYCLING).fills if fill.supply.key == "sea")
    told = {one.id: one.note for one in sections(asked(), setting())[3].tables}["water.fill.sea.steps"]
    assert "wants fresh water" in told
    assert 'test.water = "seawater"' in told
    assert any("drain the test water" in step.words for step in sea.steps)
    own = filling_of(asked(('water = "fresh"', 'water = "seawater"')), setting(), CYCLING)
    other = next(fill for fill in own.fills if fill.supply.key == "sea")
    assert other.filled < sea.filled
    assert not any("drain" in step.words for step in other.steps)


def test_steps_follow_each_other() -> None:
    for one in filling_of(asked(), setting(), CYCLING).fills:
        assert one.steps[0].begin == 0.0
        assert all(step.end >= step.begin for step in one.steps)
        assert all(
            after.begin >= before.begin for before, after in zip(one.steps, one.steps[1:], strict=False)
        )


def test_cheapest_and_quickest_are_told() -> None:
    told = " ".join(filling_section(asked(), setting(), filling_of(asked(), setting(), CYCLING)).told)
    assert "cheapest" in told
    assert "quickest" in told
    assert "fish may come" in told


# Silence, and both examples


def test_a_silent_plan_is_unproven_with_what_to_write() -> None:
    found = checks(asked(text=TANK), setting(daily=None))
    wanted = {
        "water.salt.mix": "[sources.NAME]",
        "water.change.warms": "[changes]",
        "water.change.salts": "[changes]",
        "water.topoff.days": "no weather",
        "water.topoff.source": "no weather",
        "water.drift.between": "losses.skimmate",
        "water.fill.time": "[sources.NAME]",
    }
    assert {name: found[name].verdict for name in wanted} == dict.fromkeys(wanted, Verdict.UNPROVEN)
    assert {name for name, words in wanted.items() if words not in found[name].missing} == set()


@pytest.mark.parametrize(
    ("gone", "name", "key"),
    [
        ('chlorine = "0.1 mg/L"\n', "water.chlorine.change", "sources.membrane.chlorine"),
        ('holds = "500 L"\n', "water.change.time", "changes.holds"),
        ('pump = "2 m3/h"\n', "water.change.time", "changes.pump"),
        ('flow = "100 L/h"\n', "water.change.time", "sources.membrane.flow"),
        ('absent = "1 days"\n', "water.topoff.days", "response.absent"),
        ('flow = "100 L/h"\n', "water.topoff.source", "sources.membrane.flow"),
    ],
)
def test_what_is_left_out_is_asked_for(gone: str, name: str, key: str) -> None:
    check = checks(asked((gone, "")), setting())[name]
    assert check.verdict is Verdict.UNPROVEN
    assert key in check.missing


def test_a_mix_saltier_than_itself_is_refused_in_words() -> None:
    check = checks(asked(("factor = 1.1", "factor = 0.9")), setting())["water.salt.mix"]
    assert check.verdict is Verdict.UNPROVEN
    assert "below 1" in check.missing


def example(name: str) -> tuple[Inputs, Setting]:
    plan: Plan = load(EXAMPLES / f"{name}.toml").plan
    volumes = {
        "skerry": {"basin": 10.39, "sump": 0.81, "tower": 0.48},
        "packhouse": {"reef": 7.22, "sump": 0.68},
    }[name]
    place = Setting(
        next(iter(volumes)), volumes, dict.fromkeys(volumes, 2.0), 35.0, 25.5, False, False, spread(20.0), ""
    )
    return Inputs(plan, plan.show), place


def numbers(found: object) -> Iterator[float]:
    """Every number in what was handed up; `followed` is endless where a thing was not followed for a while only."""
    if isinstance(found, float):
        yield found
    elif isinstance(found, tuple | list):
        for one in found:
            yield from numbers(one)
    elif is_dataclass(found):
        for field in (one for one in fields(found) if one.name != "followed"):
            yield from numbers(getattr(found, field.name))


@pytest.mark.parametrize("name", ["skerry", "packhouse"])
def test_both_examples_give_finite_numbers_and_followed_working(name: str) -> None:
    inputs, place = example(name)
    found = sections(inputs, place)
    assert all(math.isfinite(one) for one in numbers(found))
    by_hand = ["water.topoff.days", "water.topoff.valve"] if name == "skerry" else []
    assert [one.check.id for part in found for one in part.judged if one.check.missing] == by_hand
    steps = [step for part in found for one in part.workings for step in one.steps]
    steps += [step for part in found for one in part.judged for step in one.working.steps]
    assert len(steps) > 20
    assert [words for step in steps if (words := misses(step))] == []
    assert [step.formula for step in steps if not_given(step)] == []


@pytest.mark.parametrize("name", ["skerry", "packhouse"])
def test_every_check_and_table_of_the_examples_is_named_once(name: str) -> None:
    found = sections(*example(name))
    idents = [one.check.id for part in found for one in part.judged]
    idents += [one.id for part in found for one in part.figures]
    idents += [one.id for part in found for one in part.tables]
    assert len(idents) == len(set(idents))
    assert all(one.startswith("water.") for one in idents)
    assert all(part.told for part in found)


def test_facts_hang_on_no_way_of_showing() -> None:
    """They are kept and found again when units change."""
    metric, us = (Inputs(asked().plan, system) for system in ("metric", "us"))
    for find in (salting_of, changing_of, evaporating_of, filling_of):
        assert find(metric, setting()) == find(us, setting())


def with_other(other: dict[str, float]) -> Setting:
    """The usual setting with another salinity or temperature."""
    place = setting()
    psu, warm = other.get("sal_psu", place.sal_psu), other.get("temp_c", place.temp_c)
    return replace(place, sal_psu=psu, temp_c=warm)


ODD: list[tuple[tuple[tuple[str, str], ...], dict[str, float]]] = [
    ((('share = "10 %"', 'share = "100 %"'),), {}),
    ((('"500 L"', '"50 m3"'),), {}),
    ((('"33 psu"', '"60 psu"'), ('source = "membrane"', 'source = "sea"')), {}),
    ((('source = "membrane"', 'source = "tanker"'),), {}),
    ((('every = "7 days"\n', ""),), {}),
    ((), {"sal_psu": 0.0}),
    ((), {"sal_psu": 50.0}),
    ((), {"temp_c": 2.0}),
]


@pytest.mark.parametrize(("changed", "other"), ODD)
def test_odd_plans_give_numbers_or_reasons(
    changed: tuple[tuple[str, str], ...], other: dict[str, float]
) -> None:
    found = sections(asked(*changed), with_other(other))
    assert all(one.check.missing or one.check.use is not None for part in found for one in part.judged)
    steps = [step for part in found for one in part.judged for step in one.working.steps]
    assert [words for step in steps if (words := misses(step))] == []


def test_nothing_evaporates_from_nothing() -> None:
    found = checks(asked(), setting(daily=0.0))
    assert "water.chlorine.topoff" not in found
    assert found["water.topoff.days"].verdict is Verdict.SOUND
