"""The power study from plan to answer: numbers worked by hand, what changes what, guards, what stays unproven."""

from __future__ import annotations

import math
import pickle
import re

import pytest

from tests.journeys.flow_plans import changed
from tests.journeys.power_plans import (
    SHED,
    answer_of,
    check_of,
    circuit_of,
    example_answer,
    example_facts,
    facts_of,
    leak_of,
)
from tests.journeys.worked import off
from tidestead.core.answer import Assumption, Verdict
from tidestead.core.charts import BarChart
from tidestead.core.source import Known
from tidestead.plan.water_fields import OnCircuit
from tidestead.report.svg_chart import draw_chart
from tidestead.report.wording import governing

PUMP, STONES = OnCircuit("pump", "return"), OnCircuit("air", "stones")
HEATERS = OnCircuit("heater", "tank")
US = changed(
    SHED,
    ('"230 V"', '"120 V"'),
    ('residual = "30 mA"', 'residual = "6 mA"'),
    ('cable = "6 mm2"', 'cable = "AWG 4"'),
    ('cable = "2.5 mm2"', 'cable = "AWG 12"'),
    ('cable = "1.5 mm2"', 'cable = "AWG 14"'),
)


@pytest.mark.parametrize("name", ["skerry", "packhouse"])
def test_examples_are_answered_with_working_sources_tables_and_a_plot(name: str) -> None:
    answer = example_answer(name)
    assert answer.verdict is not Verdict.UNPROVEN
    assert off(answer) == []
    assert all(check.source for check in answer.checks)
    assert len({check.id for check in answer.checks}) == len(answer.checks)
    assert {table.id for table in answer.tables} == {
        f"power.{one}" for one in ("loads", "things", "together", "leakage", "backups", "energy")
    }
    (chart,) = answer.charts
    assert isinstance(chart, BarChart)
    assert draw_chart(chart, "us").startswith("<svg")
    assert any("licensed electrician" in words for words in answer.cautions)
    assert "kWh" in answer.sentence
    assert pickle.loads(pickle.dumps(example_facts(name))).dying == example_facts(name).dying


def test_packhouse_is_judged_by_the_us_code_and_skerry_by_the_international_ones() -> None:
    """3 x 1300 W on 120 V are 32.5 A, of a breaker of 40 A 80 % may be drawn for hours; 3600 W on 230 V are 15.7 A."""
    packhouse, skerry = example_answer("packhouse"), example_answer("skerry")
    load = check_of(packhouse, "heat.load")
    assert load.estimate is not None
    assert load.estimate.likely == pytest.approx(32.5)
    assert load.limit == pytest.approx(32.0)
    assert load.verdict is Verdict.FAILS
    load = check_of(skerry, "heat.load")
    assert load.estimate is not None
    assert load.estimate.likely == pytest.approx(3600.0 / 230.0)
    assert load.limit == pytest.approx(20.0)
    assert check_of(packhouse, "heat.branch").verdict is not Verdict.UNPROVEN
    assert not any(check.id.endswith(".branch") for check in skerry.checks)


def test_volts_lost_as_worked_by_hand() -> None:
    """Heaters of 2300 W on 230 V draw 10 A. Copper of 2.5 mm2 has 7.41 ohm/km at 20 degC and 7.9923 at 40 degC
    (0.393 % for each kelvin): 2*10*7.9923e-3*20 = 3.197 V. All of it, 2760 W, is 12 A of work in the cable of 6 mm2,
    3.08 ohm/km, 3.3221 at 40 degC: 2*12*3.3221e-3*40 = 3.189 V. Together 6.386 V, of which 5 % of 230 V is 11.5 V.
    """
    check = check_of(answer_of(SHED), "heat.drop")
    assert check.estimate is not None
    assert check.estimate.likely == pytest.approx(3.197 + 3.189, abs=2e-3)
    assert check.limit == pytest.approx(11.5)
    # at 70 degC copper has 1.1965 times its resistance at 20 degC; reactance of the supply's cable adds less than 0.5 %
    assert check.estimate.high == pytest.approx(6.386 / 1.0786 * 1.1965, rel=5e-3)


def test_leakage_as_summed_by_hand() -> None:
    """A pump 0.5 mA as new, an air pump 0.1 mA: 0.6 mA; an aged pump leaks 3.5 mA, 3.0 mA more. Two heaters 1 mA, and
    one of them aged 5 mA in place of 0.5: 5.5 mA. A device of 30 mA opens from 15 mA on; 9 mA may stand.
    """
    facts = facts_of(SHED)
    water, heat = leak_of(facts, "water"), leak_of(facts, "heat")
    assert water.leakage.likely == pytest.approx(0.6e-3)
    assert water.leakage.high == pytest.approx(3.6e-3)
    assert (heat.leakage.likely, heat.leakage.high) == pytest.approx((1.0e-3, 5.5e-3))
    assert heat.aged == pytest.approx(10.0e-3)
    assert (heat.trip_low, heat.standing) == pytest.approx((15.0e-3, 9.0e-3))


def test_leaks_of_circuits_that_share_a_device_are_summed_on_it() -> None:
    shared = changed(
        SHED,
        (
            '[electrics.heat]\nbreaker = "16 A"\nresidual = "30 mA"',
            '[electrics.heat]\nbreaker = "16 A"\nshares = "water"',
        ),
    )
    facts, answer = facts_of(shared), answer_of(shared)
    water = leak_of(facts, "water")
    assert water.circuits == ("water", "heat")
    assert water.leakage.likely == pytest.approx(1.6e-3)
    assert check_of(answer, "heat.guard").verdict is Verdict.SOUND
    (device,) = (one for one in facts.dying if one.key == "water.residual")
    assert device.items == (PUMP, STONES, HEATERS)
    assert device.shared_with == ("heat",)
    assert device.carried == (PUMP, STONES)


def test_more_heaters_on_a_device_leak_more_and_may_open_it() -> None:
    many = changed(SHED, ("count = 2", "count = 12"), ('power = "1150 W"', 'power = "150 W"'))
    few, more = leak_of(facts_of(SHED), "heat"), leak_of(facts_of(many), "heat")
    assert more.leakage.likely == pytest.approx(6.0 * few.leakage.likely)
    assert check_of(answer_of(many), "heat.standing").verdict is Verdict.SOUND
    many = changed(many, ("count = 12", "count = 20"))
    assert check_of(answer_of(many), "heat.standing").verdict is Verdict.FAILS


def test_longer_cables_lose_more_thicker_ones_less() -> None:
    def lost(text: str) -> float:
        found = circuit_of(facts_of(text), "heat").drop_share
        assert found is not None
        return found.likely

    plain = lost(SHED)
    assert lost(changed(SHED, ('distance = "40 m"', 'distance = "80 m"'))) > 1.4 * plain
    assert lost(changed(SHED, ('cable = "6 mm2"', 'cable = "16 mm2"'))) < 0.75 * plain
    far = changed(
        SHED, ('length = "20 m"\nfeeds = ["heater tank"]', 'length = "90 m"\nfeeds = ["heater tank"]')
    )
    assert check_of(answer_of(far), "heat.drop").verdict is Verdict.FAILS
    assert "thicker copper than 2.5 mm²" in check_of(answer_of(far), "heat.drop").advice


def test_reach_that_is_advised_is_where_the_check_holds() -> None:
    """The US advice for a circuit alone: cut to the length told, its cable loses what is allowed."""
    long = changed(US, ('length = "20 m"', 'length = "30 m"'))
    check = check_of(answer_of(long), "heat.branch")
    assert check.verdict is Verdict.FAILS
    most = float(check.advice.split("it may be ")[1].split(" m")[0])
    assert 1.0 < most < 30.0
    cut = changed(US, ('length = "20 m"', f'length = "{most:.1f} m"'))
    assert check_of(answer_of(cut), "heat.branch").verdict is Verdict.SOUND


def test_battery_that_is_advised_would_last() -> None:
    short = changed(SHED, ('energy = "2.4 kWh"', 'energy = "0.6 kWh"'))
    check = check_of(answer_of(short), "backups.battery.hours")
    assert check.verdict is Verdict.FAILS
    wanted = float(check.advice.split("a battery of ")[1].split(" kWh")[0])
    enough = changed(SHED, ('energy = "2.4 kWh"', f'energy = "{wanted:.2f} kWh"'))
    assert check_of(answer_of(enough), "backups.battery.hours").verdict is Verdict.SOUND


def test_battery_whose_hours_were_seen_is_advised_by_hours() -> None:
    """Seen to last a twentieth more than it takes until somebody acts: near, and a quarter more is asked for."""
    seen = 'power = "1 kW"\nlasts = "{}"'
    acting = facts_of(SHED).acting
    assert acting is not None
    short = changed(SHED, ('power = "1 kW"', seen.format(f"{1.05 * acting.seconds / 60.0:.2f} min")))
    check = check_of(answer_of(short), "backups.battery.hours")
    assert check.verdict is Verdict.NEAR
    told = re.search(r"carries this for ([\d.]+ (?:h|min|days)) or more", check.advice)
    assert told is not None, check.advice
    enough = changed(SHED, ('power = "1 kW"', seen.format(told[1])))
    assert check_of(answer_of(enough), "backups.battery.hours").verdict is Verdict.SOUND


@pytest.mark.parametrize("heaters", [4, 7, 9, 12, 20])
def test_devices_that_are_advised_leave_room(heaters: int) -> None:
    """Half a milliampere each as new, 9 mA may stand on 30 mA; one aged leaks 4.5 mA more, 15 mA may open it."""
    many = changed(SHED, ('power = "1150 W"\ncount = 2', f'power = "100 W"\ncount = {heaters}'))
    answer, leak = answer_of(many), leak_of(facts_of(many), "heat")
    advice = check_of(answer, "heat.standing").advice
    told = re.search(r"spread over (\w+)", advice)
    assert told is not None
    devices = 2 if told[1] == "two" else int(told[1])
    each = math.ceil(heaters / devices) * 0.5e-3
    assert each <= 0.8 * leak.standing
    assert each + 4.5e-3 <= 0.8 * leak.trip_low


@pytest.mark.parametrize(("level", "verdict"), [("5 mA", "sound"), ("6 mA", "sound"), ("30 mA", "fails")])
def test_us_device_at_the_water_is_of_the_level_that_protects_people(level: str, verdict: str) -> None:
    """6 mA is the American personal level; 30 mA guards apparatus there, and people elsewhere."""
    check = check_of(answer_of(changed(US, ('residual = "6 mA"', f'residual = "{level}"'))), "heat.level")
    assert check.verdict.value == verdict
    assert check.limit == pytest.approx(6e-3)
    assert "UL 943" in check.source.work
    assert any("guards apparatus only" in words for words in check.cautions) is (verdict == "fails")
    assert "6 mA" in check.advice
    assert "30 mA" not in check.advice


def test_cables_are_taken_by_the_rules_that_hold() -> None:
    def told(text: str) -> Assumption:
        return next(one for one in answer_of(text).assumptions if one.key == "cables")

    assert "IEC" in told(SHED).source.work
    assert "bears 87 %" in told(SHED).value
    assert "IEC" not in told(US).source.work
    assert told(US).source.known is Known.PRACTICE


def test_breaker_over_what_its_cable_bears_fails() -> None:
    """2.5 mm2 bears 24 A, of which a warm house leaves 87 %: 20.9 A."""
    check = check_of(answer_of(changed(SHED, ('breaker = "16 A"', 'breaker = "25 A"'))), "heat.cable")
    assert check.limit == pytest.approx(20.88)
    assert check.verdict is Verdict.FAILS
    assert "never a larger breaker" in check.advice


def test_missing_residual_device_fails_and_is_told_first() -> None:
    bare = changed(
        SHED, ('[electrics.heat]\nbreaker = "16 A"\nresidual = "30 mA"', '[electrics.heat]\nbreaker = "10 A"')
    )
    answer = answer_of(bare)
    check = check_of(answer, "heat.guard")
    assert check.verdict is Verdict.FAILS
    assert "residual-current device of 30 mA" in check.advice
    first = governing(answer)
    assert first is not None
    assert first.id == check.id
    assert "Circuit heat: residual-current devices over it fails" in answer.sentence


def test_missing_residual_device_fails_where_nothing_is_known_of_the_supply() -> None:
    begin, end = SHED.index("[supply]"), SHED.index("[electrics.water]")
    bare = changed(SHED[:begin] + SHED[end:], ('residual = "30 mA"\n', ""))
    answer = answer_of(bare)
    assert check_of(answer, "water.guard").verdict is Verdict.FAILS
    assert check_of(answer, "supply.main.told1").verdict is Verdict.UNPROVEN


@pytest.mark.parametrize(("level", "verdict"), [("10 mA", "sound"), ("30 mA", "sound"), ("100 mA", "fails")])
def test_residual_device_acts_early_enough_for_people(level: str, verdict: str) -> None:
    text = changed(SHED, ('residual = "30 mA"', f'residual = "{level}"'))
    assert check_of(answer_of(text), "water.level").verdict.value == verdict


def test_without_supply_or_circuits_it_is_unproven_with_what_to_write() -> None:
    answer = answer_of(SHED[: SHED.index("[supply]")])
    assert answer.verdict is Verdict.UNPROVEN
    told = " ".join(check.missing for check in answer.checks)
    assert "[supply]" in told
    assert "[electrics.NAME]" in told
    assert "2 checks cannot be made" in answer.sentence


def test_thing_on_no_circuit_is_told() -> None:
    text = changed(SHED, ('feeds = ["pump return", "air stones"]', 'feeds = ["pump return"]'))
    facts, answer = facts_of(text), answer_of(text)
    assert facts.unfed == (STONES,)
    check = check_of(answer, "air.stones.circuit")
    assert check.verdict is Verdict.UNPROVEN
    assert '"air stones"' in check.missing


def test_air_pump_on_a_battery_of_its_own_is_only_noted() -> None:
    facts, answer = example_facts("skerry"), example_answer("skerry")
    assert STONES in facts.unfed
    assert not any(check.id.startswith("power.air.") for check in answer.checks)
    assert any("battery of its own" in words for words in answer.cautions)


def test_pump_without_power_is_unproven_and_named() -> None:
    answer = answer_of(changed(SHED, ('power = "184 W"\n', "")))
    check = check_of(answer, "pump.return.power")
    assert check.verdict is Verdict.UNPROVEN
    assert "pumps.return.power" in check.missing


def test_pump_on_one_device_with_heaters_is_a_caution_and_no_failure() -> None:
    together = changed(
        SHED,
        ('feeds = ["pump return", "air stones"]', 'feeds = ["pump return", "air stones", "heater tank"]'),
        (
            '\n[electrics.heat]\nbreaker = "16 A"\nresidual = "30 mA"\ncable = "2.5 mm2"\nlength = "20 m"\n',
            "\n",
        ),
        ('feeds = ["heater tank"]\n', ""),
        ('carries = ["pump return", "air stones", "device router"]', 'carries = ["device router"]'),
    )
    answer = answer_of(together)
    assert any("better off without what heats" in words for words in answer.cautions)
    assert not any(check.verdict is Verdict.FAILS for check in answer.checks)
    assert not any("better off without" in words for words in answer_of(SHED).cautions)


def test_what_must_run_and_hangs_on_no_backup_fails() -> None:
    text = changed(SHED, (', "device router"]\n\n[response]', "]\n\n[response]"))
    assert check_of(answer_of(SHED), "device.router.backup").verdict is Verdict.SOUND
    assert check_of(answer_of(text), "device.router.backup").verdict is Verdict.FAILS


def test_us_plan_has_a_smaller_share_of_its_breakers_and_devices_of_six_milliampere() -> None:
    """23 W and 184 W at 80 %: 2.16 A; a class A device opens from 4 mA on, a pump that ages leaks 3.5 mA."""
    answer, facts = answer_of(US, "us"), facts_of(US)
    assert facts.us
    assert check_of(answer, "water.load").limit == pytest.approx(0.8 * 16.0)
    assert leak_of(facts, "water").trip_low == pytest.approx(4.0e-3)
    assert check_of(answer, "light.trip").verdict is Verdict.SOUND
    assert check_of(answer, "heat.trip").verdict is Verdict.FAILS
    assert off(answer) == []


def test_energy_and_cost_follow_the_plan() -> None:
    """184 W all year: 1612 kWh, at 0.30 EUR 484 EUR; lamps of 230 W for 10 h a day 840 kWh."""
    facts = facts_of(SHED)
    years = {one.words: one.year.likely / 3.6e6 for one in facts.energy}
    assert years["pump return"] == pytest.approx(0.184 * 8760.0)
    assert years["lamp bars"] == pytest.approx(0.230 * 3650.0)
    assert "heater tank (2)" in facts.uncounted
    whole = next(one for one in answer_of(SHED).figures if one.id == "power.cost")
    assert whole.estimate.likely == pytest.approx(0.30 * sum(years.values()), abs=0.02)
    heated = {one.words: one.year for one in example_facts("skerry").energy}["heater sump"]
    assert heated.low < heated.likely < heated.high
