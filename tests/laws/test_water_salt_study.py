"""Salt, changes, evaporation and the first fill: worked by hand, conserved, and honest where a plan is silent."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import fields, is_dataclass, replace
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.journeys.worked import misses, not_given
from tidestead.core.answer import Check, Estimate, Verdict
from tidestead.physics.water import salts
from tidestead.physics.water.salts import Body
from tidestead.plan import load, loads
from tidestead.plan.model import Plan
from tidestead.studies.heat.facts import Spread
from tidestead.studies.inputs import Inputs
from tidestead.studies.water.changing import changing_of, changing_section, effect_of
from tidestead.studies.water.evaporating import evaporating_of, evaporating_section
from tidestead.studies.water.filling import filling_of, filling_section
from tidestead.studies.water.salting import salting_of, salting_section
from tidestead.studies.water.section import Section
from tidestead.studies.water.setting import Setting
from tidestead.studies.water.waters import supplies_of

DAY = 86400.0
EXAMPLES = Path(__file__).parents[2] / "examples"
CYCLING = Estimate(21.0, 35.0, 60.0, "as filters grow")

TANK = """
tidestead = 1
name = "tank"
currency = "EUR"
[water]
salinity = "35 psu"
keep = "24 to 26 degC"
nitrate = "40 mg/L"
[vessels.tank]
role = "display"
stage = "planned"
shape = "box"
length = "5 m"
width = "4 m"
height = "1.2 m"
water = "1 m"
[vessels.tank.test]
level = "1.1 m"
water = "fresh"
lasts = "7 days"
[heaters.tank]
vessel = "tank"
power = "2 kW"
count = 3
setpoint = "25 degC"
"""
KEPT = """
[salt]
factor = 1.1
price = "2 EUR/kg"
[sources.membrane]
kind = "osmosis"
flow = "100 L/h"
recovery = "25 %"
temperature = "10 degC"
chlorine = "0.1 mg/L"
price = "3 EUR/m3"
[sources.tanker]
kind = "tanker"
load = "8 m3"
every = "7 days"
temperature = "10 degC"
[sources.sea]
kind = "sea"
flow = "2 m3/h"
temperature = "10 degC"
salinity = "33 psu"
[changes]
share = "10 %"
every = "14 days"
source = "membrane"
holds = "500 L"
heater = "2 kW"
pump = "2 m3/h"
[losses]
skimmate = "15 L/day"
splash = "5 L/day"
[vessels.tank.top_off]
level = "1 m"
flow = "1 L/min"
stock = "300 L"
[response]
looks = ["08:00"]
travel = "10 min"
absent = "1 days"
[targets]
nitrate = "20 mg/L"
[supplies]
tariff = "0.30 EUR/kWh"
"""


def spread(daily: float) -> Spread:
    """So many kilograms off every day of the year, half and one and a half times that as its range."""
    rate = daily / DAY
    return Spread((0.5 * rate,) * 12, (rate,) * 12, (1.5 * rate,) * 12, "made up")


def setting(daily: float | None = 80.0, volume: float = 20.0) -> Setting:
    known = None if daily is None else spread(daily)
    why = "" if known is not None else "there is no weather"
    return Setting("tank", {"tank": volume}, {"tank": 20.0}, 35.0, 25.0, False, False, known, why)


def asked(*changed: tuple[str, str], text: str = TANK + KEPT) -> Inputs:
    for old, new in changed:
        assert old in text
        text = text.replace(old, new)
    return Inputs(loads(text).plan, "metric")


def sections(inputs: Inputs, place: Setting) -> tuple[Section, ...]:
    return (
        salting_section(inputs, place, salting_of(inputs, place)),
        changing_section(inputs, place, changing_of(inputs, place)),
        evaporating_section(inputs, place, evaporating_of(inputs, place)),
        filling_section(inputs, place, filling_of(inputs, place, CYCLING)),
    )


def checks(inputs: Inputs, place: Setting) -> dict[str, Check]:
    return {one.check.id: one.check for part in sections(inputs, place) for one in part.judged}


# Salt


def test_salt_of_all_the_water_by_hand() -> None:
    """35.99 kg of salt in a cubic metre at 35 psu and 25 degC, times 1.1 for the bound water, times 20."""
    facts = salting_of(asked(), setting())
    assert facts.whole is not None
    assert facts.whole.recipe.mix.likely == pytest.approx(1.1 * 20.0 * 35.99, rel=1e-3)
    assert facts.whole.cost.salt is not None
    assert facts.whole.cost.salt.likely == pytest.approx(2.0 * 791.8, rel=1e-3)


def test_hours_of_the_membrane_and_its_waste_by_hand() -> None:
    """A load of 500 L: 491.7 L of fresh water at 58.5 L/h, for 100 L/h at 25 degC gives 0.585 of it at 10; a quarter is
    good, so that three times as much runs off.
    """
    load_ = salting_of(asked(), setting()).load
    assert load_ is not None
    assert load_.making is not None
    fresh = (0.5 * 1023.34 - 1.1 * 0.5 * 35.99) / 999.7
    assert load_.recipe.source == pytest.approx(fresh, rel=1e-3)
    assert load_.making / 3600.0 == pytest.approx(fresh / 0.0585, rel=2e-3)
    assert load_.reject == pytest.approx(3.0 * load_.recipe.source)


def test_without_a_factor_the_mix_has_the_range_of_the_trade() -> None:
    mix = salting_of(asked(("factor = 1.1\n", "")), setting()).whole
    assert mix is not None
    low, high = mix.recipe.mix.low, mix.recipe.mix.high
    assert (low / high) == pytest.approx(1.05 / 1.15, rel=1e-6)


@given(st.floats(20.0, 34.9))
@settings(max_examples=20)
def test_salt_is_kept_where_sea_is_made_up(psu: float) -> None:
    """What the sea brings and what the mix brings is what the finished water holds."""
    inputs = asked(('"33 psu"', f'"{psu:.3f} psu"'), ('source = "membrane"', 'source = "sea"'))
    whole = salting_of(inputs, setting()).whole
    assert whole is not None
    brought = whole.recipe.source_mass * salts.grams_of_salt(float(f"{psu:.3f}")) / 1000.0
    brought += whole.recipe.mix.likely / 1.1
    assert brought == pytest.approx(float(salts.salt_mass(whole.recipe.goal)), rel=1e-9)


def test_a_salty_source_is_thinned() -> None:
    whole = salting_of(
        asked(('"33 psu"', '"38 psu"'), ('source = "membrane"', 'source = "sea"')), setting()
    ).whole
    assert whole is not None
    assert whole.recipe.mix.high == 0.0
    assert whole.recipe.source_mass == pytest.approx(
        float(salts.water_mass(whole.recipe.goal)) * 35.0 / 38.0, rel=1e-9
    )
    assert whole.recipe.fresh > 1.0


def test_mistaken_scales_are_two_to_three_off() -> None:
    """A hydrometer for 60 degF taken for one of 77, and a refractometer for table salt."""
    scales = {one.words: one.thought_psu - 35.0 for one in salting_of(asked(), setting()).instruments}
    sixty = next(off for words, off in scales.items() if "60 °F" in words)
    table_salt = next(off for words, off in scales.items() if "sodium chloride" in words)
    assert -3.0 < sixty < -2.0
    assert 1.2 < table_salt < 1.8
    assert scales["practical salinity, which this program counts in"] == 0.0


# Changes


def test_loads_and_what_they_replace_by_hand() -> None:
    """2 m3 by loads of 500 L are four; each takes a fortieth of what is there: 1 - 0.975**4."""
    facts = changing_of(asked(), setting())
    assert facts.usual is not None
    assert facts.big is not None
    assert facts.usual.loads == 4
    assert facts.usual.replaced == pytest.approx(1.0 - 0.975**4)
    assert facts.big.loads == 20
    assert facts.big.replaced == pytest.approx(1.0 - 0.975**20)
    assert facts.big.loads_for_all == math.ceil(math.log(0.5) / math.log(0.975))


def test_heat_and_hours_of_a_load_by_hand() -> None:
    """500 kg and a little more by 15 K: 8.5 kWh, 4.3 h of 2 kW; stirred a day meanwhile; pumped at 2 m3/h twice."""
    one = changing_of(asked(), setting()).usual
    assert one is not None
    assert one.heat / 3.6e6 == pytest.approx(0.5 * 1026.9 * 3.99e3 * 15.0 / 3.6e6, rel=2e-3)
    assert one.warming is not None
    assert one.warming == pytest.approx(one.heat / 2000.0)
    assert one.making is not None
    assert one.one == pytest.approx(one.making + DAY + 2 * 0.25 * 3600.0)
    assert one.whole == pytest.approx(4 * (one.making + DAY + 1800.0))


@given(st.floats(1.0, 40.0), st.floats(15.0, 30.0), st.floats(0.02, 1.0))
@settings(max_examples=40)
def test_salt_is_conserved_through_a_change(psu: float, keep: float, share: float) -> None:
    place = replace(setting(), sal_psu=psu, temp_c=keep)
    inputs = asked(('heater = "2 kW"\n', ""))
    effect = effect_of(inputs.plan, place, supplies_of(inputs.plan)["membrane"], share)
    kept = Body(effect.tank.volume * (1.0 - share), psu, keep)
    before = float(salts.salt_mass(kept)) + float(salts.salt_mass(effect.new))
    assert float(salts.salt_mass(effect.after)) == pytest.approx(before, rel=1e-9)


def test_unheated_water_warms_nothing_and_fails() -> None:
    """A fifth of the water 15 K colder: 3 K at once, where 1 K is allowed."""
    cold = checks(asked(('share = "10 %"', 'share = "20 %"'), ('heater = "2 kW"\n', "")), setting())
    check = cold["water.change.warms"]
    assert check.verdict is Verdict.FAILS
    assert check.estimate is not None
    assert check.estimate.likely == pytest.approx(15.0 * (1.0 - 0.975**8), rel=0.01)
    assert "changes.heater" in check.advice
    assert checks(asked(), setting())["water.change.warms"].verdict is Verdict.SOUND


def test_nitrate_series_by_hand() -> None:
    """From 40 to 20 mg/L by halves: one change. By a tenth: ln 0.5/ln 0.9 = 6.6, so seven."""
    series = changing_of(asked(), setting()).series
    assert series is not None
    assert series.now
    by_share = {round(path.share, 2): path.likely for path in series.paths}
    assert by_share[0.5] == 1.0
    assert by_share[0.2] == 4.0
    assert by_share[0.1] == math.ceil(math.log(0.5) / math.log(0.975**4))


def test_nitrate_that_new_water_holds_is_never_reached() -> None:
    """Tap water may hold 50 mg/L, and no number of changes brings 40 to 20 with it."""
    inputs = asked(('kind = "osmosis"', 'kind = "mains"'), ('recovery = "25 %"\n', ""))
    series = changing_of(inputs, setting()).series
    assert series is not None
    assert all(math.isinf(path.worst) for path in series.paths)
    found = next(one for one in changing_section(inputs, setting(), changing_of(inputs, setting())).tables
                 if one.id == "water.change.nitrate")  # fmt: skip
    assert all("never" in str(row[2]) for row in found.rows)


def test_chlorine_of_mains_by_hand() -> None:
    """150 L with 1 mg/L bring 20 m3 to 7.5 ug/L: just what marine life bears for days."""
    inputs = asked(('"0.1 mg/L"', '"1 mg/L"'))
    check = checks(inputs, setting(daily=100.0))["water.chlorine.topoff"]
    assert check.estimate is not None
    assert check.estimate.high == pytest.approx(7.5)
    assert check.use == pytest.approx(1.0)
    change = checks(inputs, setting())["water.chlorine.change"]
    assert change.estimate is not None
    assert change.estimate.likely == pytest.approx(100.0)
    assert change.verdict is Verdict.FAILS


def test_a_larger_vat_shortens_a_change() -> None:
    small, large = (
        changing_of(asked(('"500 L"', f'"{litres} L"')), setting()).usual for litres in (250, 1000)
    )
    assert small is not None
    assert large is not None
    assert small.whole is not None
    assert large.whole is not None
    assert large.loads < small.loads
    assert large.whole < small.whole
    assert large.replaced > small.replaced


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
    assert drift.settled == pytest.approx(35.0 * (1.0 - math.exp(-0.014)) / (1.0 - 0.975**4))
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
    assert any("wants fresh water" in words for words in sea.hinders)
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
    """Every number in what was handed up."""
    if isinstance(found, float):
        yield found
    elif isinstance(found, tuple | list):
        for one in found:
            yield from numbers(one)
    elif is_dataclass(found):
        for field in fields(found):
            yield from numbers(getattr(found, field.name))


@pytest.mark.parametrize("name", ["skerry", "packhouse"])
def test_both_examples_give_finite_numbers_and_followed_working(name: str) -> None:
    inputs, place = example(name)
    found = sections(inputs, place)
    assert all(math.isfinite(one) for one in numbers(found))
    assert not [one.check.id for part in found for one in part.judged if one.check.missing]
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
