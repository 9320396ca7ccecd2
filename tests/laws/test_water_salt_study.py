"""Salt and changes: worked by hand, salt conserved, and other figures where the plan is another."""

from __future__ import annotations

import math
import re
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.laws.salt_systems import DAY, asked, checks, setting
from tidestead.core.answer import Verdict
from tidestead.physics.water import salts
from tidestead.physics.water.salts import Body
from tidestead.studies.water.changing import changing_of, changing_section, effect_of
from tidestead.studies.water.salting import salting_of
from tidestead.studies.water.waters import supplies_of

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


def test_the_largest_change_that_is_told_is_sound_wherever_the_tank_stands_in_its_band() -> None:
    """All at once out of one vat, unwarmed: the warmest tank steps most, and its step leaves a fifth."""
    cold = (('heater = "2 kW"\n', ""), ('holds = "500 L"', 'holds = "20 m3"'))
    check = checks(asked(*cold), setting())["water.change.warms"]
    told = re.search(r"no more than ([\d.]+) % at once", check.advice)
    assert check.verdict is Verdict.FAILS
    assert told is not None, check.advice
    small = checks(asked(*cold, ('share = "10 %"', f'share = "{told[1]} %"')), setting())
    assert small["water.change.warms"].verdict is Verdict.SOUND
    large = checks(asked(*cold, ('share = "10 %"', f'share = "{1.03 * float(told[1]):.2f} %"')), setting())
    assert large["water.change.warms"].verdict is Verdict.NEAR


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
    """150 L with 1 mg/L bring 20 m3 to 7.5 ug/L: just what marine life bears for days. Of them 20 L replace what is
    lost with skimmate and splash.
    """
    inputs = asked(('"0.1 mg/L"', '"1 mg/L"'))
    check = checks(inputs, setting(daily=130.0 / 1.5))["water.chlorine.topoff"]
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


def test_old_water_that_runs_out_meanwhile_takes_no_time_and_leaves_more() -> None:
    """Both at once: 1 - exp(-0.1) of the old water goes, and the drained water takes no hours of its own."""
    one = changing_of(
        asked(('source = "membrane"', 'source = "membrane"\nway = "both-at-once"')), setting()
    ).usual
    assert one is not None
    assert one.replaced == pytest.approx(1.0 - math.exp(-0.1))
    assert one.draining == 0.0
