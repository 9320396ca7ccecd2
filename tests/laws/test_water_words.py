"""What the answer on water says: nothing taken unsaid, advice that does something, prices that are not there."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.laws.salt_systems import CYCLING, KEPT, TANK, asked, sections, setting
from tests.laws.water_life import Swap, circulation, found
from tidestead.catalog import table
from tidestead.core.answer import Answer, Assumption
from tidestead.core.units import System, parse, show
from tidestead.studies import light
from tidestead.studies.heat import yearly
from tidestead.studies.inputs import Inputs
from tidestead.studies.water import study
from tidestead.studies.water.ammonia import ammonia_section
from tidestead.studies.water.filling import filling_of, filling_section
from tidestead.studies.water.setting_told import setting_assumed
from tidestead.studies.water.stock_checks import stock_section
from tidestead.studies.water.wording import percent

# What is taken unsaid


def taken(inputs: Inputs, **silent: bool) -> dict[str, Assumption]:
    place = replace(setting(), **silent)  # type: ignore[arg-type]  # fields by name
    return {one.key: one for one in setting_assumed(inputs.plan, place, "metric")}


def test_salinity_that_nobody_wrote_is_told() -> None:
    told = taken(asked(('salinity = "35 psu"\n', "")), assumed_salinity=True)["water.salinity"]
    assert told.value == "35 psu"
    assert "sea" in told.why
    assert told.source.work == "common practice, no source"


def test_warmth_source_and_way_that_nobody_wrote_are_told() -> None:
    told = taken(asked(('source = "membrane"\n', "")), assumed_temperature=True)
    assert told["water.keep"].value == "25 °C"
    assert told["changes.source"].value == "membrane"
    assert told["changes.way"].value == "drain-first"


def test_what_the_plan_writes_is_not_told_as_taken() -> None:
    plain = asked(('every = "14 days"\n', 'every = "14 days"\nway = "drain-first"\n'))
    assert not taken(plain)


def test_the_answer_lists_the_salinity_that_it_took() -> None:
    """Once, with its key; the example that writes it lists none."""
    whole = [answer("packhouse", *swaps) for swaps in ((), (('salinity = "35 ppt"\n', ""),))]
    listed = [[one.value for one in told.assumptions if one.key == "water.salinity"] for told in whole]
    assert listed == [[], ["35 psu"]]


def answer(name: str, *swaps: Swap) -> Answer:
    """The whole answer on water, without a year of weather."""
    one, (running, towers) = found(name, *swaps), circulation(name)
    warmth = yearly.find(one.inputs, running, light.find(one.inputs))
    return study.judge(one.inputs, study.find(one.inputs, running, towers, warmth))


def test_every_source_that_is_silent_is_told() -> None:
    """The first fill compares them all, not only that of the changes."""
    swaps = (
        ('load = "8 m3"\nevery = "7 days"\ntemperature = "10 degC"\n', 'load = "8 m3"\nevery = "7 days"\n'),
        ('salinity = "33 psu"\n', ""),
    )
    told = {one.key: one.value for one in sections(asked(*swaps), setting())[0].assumptions}
    assert told["sources.tanker.temperature"] == show(
        table("water_limits")["mixing"].si("cold"), "degC", "metric"
    )
    assert told["sources.sea.salinity"] == "35 psu"


def test_no_field_for_a_share_is_shown_a_rate() -> None:
    """What is taken for how much of a filter is grown is a share of it; how quick films are has no field."""
    one = found("skerry")
    parts = (
        stock_section(one.inputs, one.setting, one.stock),
        ammonia_section(one.inputs, one.setting, one.ammonia, one.stock),
    )
    grown = [told for part in parts for told in part.assumptions if told.key.endswith(".grown")]
    assert all(told.value == "all of it" for told in grown)
    assert any("S**0.7" in told.value for part in parts for told in part.assumptions)


# Advice that does something


@given(st.floats(1e-12, 1.0))
def test_a_share_that_is_advice_is_never_nothing_nor_too_little(share: float) -> None:
    up, down = (float(percent(share, way).removesuffix(" %")) / 100.0 for way in ("up", "down"))
    assert 0.0 < down <= share * (1.0 + 1e-9)
    assert up >= share * (1.0 - 1e-9)
    assert up - down <= 0.11 * share


@pytest.mark.parametrize("mass", ["0.5 kg", "1.5 kg", "3 kg", "5 kg", "20 kg"])
def test_no_advice_is_a_share_of_nothing(mass: str) -> None:
    """Granulate takes all of the likely phosphate and not of the most: no change of 0 % is asked for."""
    load = f'[adsorbers.iron]\nvessel = "sump"\nkind = "ferric-hydroxide"\nmass = "{mass}"\nevery = "4 weeks"\n\n[feed]'
    one = found("packhouse", ("[feed]", load))
    words = [check.advice for check in one.checks.values()]
    words += [told for section in one.sections for told in section.told]
    assert not [told for told in words if re.search(r"(?<![\d.])0 %", told)]


@pytest.mark.parametrize("mass", ["1 kg", "3 kg", "5 kg"])
def test_changes_that_are_advised_hold_it(mass: str) -> None:
    """Written into the plan, the share that is advised leaves a check that no longer fails."""
    load = f'[adsorbers.iron]\nvessel = "sump"\nkind = "ferric-hydroxide"\nmass = "{mass}"\nevery = "4 weeks"\n\n[feed]'
    wanted = ("[targets]", '[targets]\nphosphate = "15 mg/L"')
    swaps: tuple[Swap, ...] = (("[feed]", load), wanted)
    check = found("packhouse", *swaps).checks["water.nutrients.phosphate"]
    asked_for = re.match(r"changes of ([\d.]+) %", check.advice)
    assert asked_for is not None, check.advice
    more = ('share = "10 %"\nevery', f'share = "{asked_for[1]} %"\nevery')
    after = found("packhouse", *swaps, more).checks["water.nutrients.phosphate"]
    assert after.estimate is not None
    assert isinstance(after.limit, float)
    assert after.estimate.high <= after.limit * (1.0 + 1e-9)


# The first fill


def test_the_cheapest_says_what_has_no_price() -> None:
    """Neither the sea nor the tanker, whose water the test before it takes, has a price."""
    inputs = asked()
    told = filling_section(inputs, setting(), filling_of(inputs, setting(), CYCLING)).told[0]
    assert "cheapest by the prices in the plan" in told
    assert "by sea, 196 EUR without the water of sea and tanker (no price in the plan)" in told


def test_all_prices_given_leave_nothing_to_say() -> None:
    price = 'price = "0.5 EUR/m3"\n'
    inputs = asked(
        ('salinity = "33 psu"\n', f'salinity = "33 psu"\n{price}'),
        ('load = "8 m3"\n', f'load = "8 m3"\n{price}'),
    )
    told = filling_section(inputs, setting(), filling_of(inputs, setting(), CYCLING)).told[0]
    assert "cheapest" in told
    assert "price" not in told


def test_fresh_water_of_another_source_without_a_price_is_told() -> None:
    """The test before the sea takes the tanker's water, which no price is given for."""
    swaps = (
        ('salinity = "33 psu"\n', 'salinity = "33 psu"\nprice = "0.5 EUR/m3"\n'),
        ('price = "3 EUR/m3"\n', ""),
    )
    inputs = asked(*swaps)
    fill = next(one for one in filling_of(inputs, setting(), CYCLING).fills if one.supply.key == "sea")
    assert fill.course is not None
    assert fill.course.other is not None
    assert fill.cost is not None
    assert f"sources.{fill.course.other.key}.price" in fill.cost.unpriced


def test_chlorine_stands_in_the_sentence() -> None:
    """Only the membrane is left, whose water brings 0.1 mg/L."""
    text = re.sub(r"\[sources\.(tanker|sea)\][^\[]*", "", TANK + KEPT)
    inputs = asked(text=text)
    told = filling_section(inputs, setting(), filling_of(inputs, setting(), CYCLING)).told[0]
    assert "0.1 mg/L of chlorine to be gone before animals come" in told
    assert "test strip" in told


def test_money_of_a_measured_mix_rests_on_prices() -> None:
    figures = {
        one.id: one
        for one in filling_section(asked(), setting(), filling_of(asked(), setting(), CYCLING)).figures
    }
    assert figures["water.fill.membrane.cost"].estimate.basis == "prices of your plan"


# Units


@pytest.mark.parametrize(("system", "unit"), [("us", "US gal/h"), ("metric", "m³/h")])
def test_water_freed_in_an_hour_is_read_in_the_readers_unit(system: System, unit: str) -> None:
    told = show(1.5, "m3/h", system)
    assert told.endswith(unit)
    assert parse(told.replace("³", "3"), "flow") == pytest.approx(1.5 / 3600.0, rel=2e-3)
