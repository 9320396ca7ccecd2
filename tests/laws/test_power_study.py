"""What must hold of power for any loads: sums, ends in order, more never less, what stops together."""

from __future__ import annotations

import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.journeys.flow_plans import changed
from tests.journeys.power_plans import SHED, answer_of, circuit_of, facts_of, leak_of
from tidestead.catalog import table
from tidestead.core.answer import Check, Verdict
from tidestead.core.source import Known
from tidestead.plan import loads
from tidestead.plan.water_fields import OnCircuit
from tidestead.studies.power.backup_checks import backup_checks
from tidestead.studies.power.facts import Acting, BackupFacts, PowerFacts
from tidestead.studies.power.together import dying_of
from tidestead.studies.power.wording import cautions_of

HAIR = 1.0 + 1e-12
"""The same watts are summed in two orders: a last bit may differ."""

LOOKS = 'alarm = { watches = ["power"], power = "battery", network = "mobile" }\n'


def backup_of(facts: PowerFacts) -> BackupFacts:
    (backup,) = facts.backups
    return backup


@settings(max_examples=12, deadline=None)
@given(watts=st.integers(50, 1500), count=st.integers(1, 8))
def test_currents_are_in_order_and_add_up(watts: int, count: int) -> None:
    facts = facts_of(changed(SHED, ('power = "1150 W"\ncount = 2', f'power = "{watts} W"\ncount = {count}')))
    for one in facts.circuits:
        assert one.running.low <= one.running.likely <= one.running.high
        assert one.running.likely <= one.worst.likely * HAIR
        assert one.worst.likely <= one.worst.high == one.together
        assert one.power == pytest.approx(sum(load.power for load in one.loads))
    assert facts.supply is not None
    assert facts.supply.running.likely == pytest.approx(sum(one.running.likely for one in facts.circuits))
    assert circuit_of(facts, "heat").running.likely == pytest.approx(watts * count / 230.0)
    assert leak_of(facts, "heat").leakage.likely == pytest.approx(count * 0.5e-3)


@settings(max_examples=10, deadline=None)
@given(sooner=st.integers(5, 45), more=st.integers(1, 50))
def test_a_longer_cable_never_loses_less(sooner: int, more: int) -> None:
    def lost(metres: int) -> float:
        text = changed(SHED, ('distance = "40 m"', f'distance = "{metres} m"'))
        found = circuit_of(facts_of(text), "light").drop_share
        assert found is not None
        assert found.low <= found.likely <= found.high
        return found.likely

    assert lost(sooner + more) > lost(sooner)


def test_three_phases_share_the_load_and_none_carries_less_than_a_third() -> None:
    one, three = (
        facts_of(SHED).supply,
        facts_of(changed(SHED, ('amps = "25 A"', 'amps = "25 A"\nphases = 3'))).supply,
    )
    assert one is not None
    assert three is not None
    assert one.running.likely / 3.0 <= three.running.likely < one.running.likely


def test_each_device_stops_all_that_hangs_on_it_and_the_main_device_all() -> None:
    plan = loads(SHED).plan
    dying = {one.key: one for one in dying_of(plan)}
    assert set(dying) == {*plan.electrics, *(f"{key}.residual" for key in plan.electrics), "supply.main"}
    for key, circuit in plan.electrics.items():
        assert dying[key].items == dying[f"{key}.residual"].items == circuit.feeds
    assert set(dying["supply.main"].items) == {item for one in plan.electrics.values() for item in one.feeds}
    assert OnCircuit("pump", "return") in dying["supply.main"].carried
    assert OnCircuit("heater", "tank") not in dying["supply.main"].carried


def test_generator_that_is_started_by_hand_carries_nothing_by_itself() -> None:
    text = changed(
        SHED,
        ('kind = "battery"\nenergy = "2.4 kWh"', 'kind = "generator"\ntank = "10 L"\nstarts = "by hand"'),
    )
    assert all(one.carried == () for one in dying_of(loads(text).plan))
    assert not backup_of(facts_of(text)).starts_by_itself


def test_battery_hours_go_with_its_energy_and_against_its_load() -> None:
    """2.4 kWh, half of it, 88 % through the inverter, for 230 W: 4.59 h."""
    plain = backup_of(facts_of(SHED))
    assert plain.load == pytest.approx(230.0)
    assert plain.hours is not None
    assert plain.hours.likely / 3600.0 == pytest.approx(2400.0 * 0.5 * 0.88 / 230.0)
    assert plain.hours.low < plain.hours.likely < plain.hours.high
    drawn = 230.0 / 0.8  # an old, cold, flooded one at Peukert's 1.25, rated over 20 h
    worst = 2400.0 * 0.5 * 0.8 * 0.8 / drawn * (2400.0 / 20.0 / drawn) ** 0.25
    assert plain.hours.low / 3600.0 == pytest.approx(worst)
    twice = backup_of(facts_of(changed(SHED, ('energy = "2.4 kWh"', 'energy = "4.8 kWh"')))).hours
    assert twice is not None
    assert twice.likely == pytest.approx(2.0 * plain.hours.likely)
    assert twice.low > 2.0 * plain.hours.low, "drawn more slowly, lead-acid gives more"
    seen = backup_of(facts_of(changed(SHED, ('power = "1 kW"', 'power = "1 kW"\nlasts = "3 h"')))).hours
    assert seen is not None
    assert (seen.low, seen.high) == (10800.0, 10800.0)


@pytest.mark.parametrize(("power", "holds"), [("1 kW", True), ("900 W", False), ("600 W", False)])
def test_battery_holds_the_hardest_start_or_not(power: str, holds: bool) -> None:
    """184 W at a factor of 0.8 are 230 VA; a start of six times that is 5*230 on top of all 230 W: 1380.

    At eight times it is 1840: an inverter of 900 W gives 1800 for a moment, enough for the likely start alone.
    """
    backup = backup_of(facts_of(changed(SHED, ('power = "1 kW"', f'power = "{power}"'))))
    assert backup.starting.likely == pytest.approx(1380.0)
    assert backup.starting.high == pytest.approx(1840.0)
    assert backup.holds_start is holds


GENERATOR = ('kind = "battery"\nenergy = "2.4 kWh"\npower = "1 kW"', 'kind = "generator"\npower = "{}"')


def start_of(words: str) -> tuple[BackupFacts, Check]:
    """A set of so much power, and the check of the start on it."""
    facts = facts_of(changed(SHED, (GENERATOR[0], GENERATOR[1].format(words))))
    one = backup_of(facts)
    checks = [each.check for each in backup_checks(one, facts, "metric")]
    return one, next(each for each in checks if each.id.endswith(".start"))


def test_generator_gives_a_tenth_to_a_quarter_more_for_a_moment_and_is_judged_by_the_least() -> None:
    """1.6 kW give 1760 to 2000 W: at the most that such sets give the start of 1840 W would pass."""
    one, check = start_of("1.6 kW")
    assert one.peak is not None
    assert [one.peak.low, one.peak.high] == pytest.approx([1760.0, 2000.0])
    assert check.limit == pytest.approx(1760.0)
    assert check.source.known is Known.PRACTICE
    assert check.verdict is Verdict.FAILS
    assert not one.holds_start
    enough, passed = start_of("1.7 kW")
    assert enough.holds_start
    assert passed.verdict in (Verdict.SOUND, Verdict.NEAR)


def test_generator_that_is_advised_bears_the_start() -> None:
    """What is said to be wanted: 1840/1.1, 1673 W; as much then passes, a little less does not."""
    one, _ = start_of("1 kW")
    assert one.wanted.high == pytest.approx(1840.0 / 1.1)
    assert start_of(f"{one.wanted.high + 0.1:.1f} W")[0].holds_start
    assert not start_of(f"{one.wanted.high - 1.0:.1f} W")[0].holds_start


def advised_watts(advice: str) -> float:
    told = re.search(r"of ([\d.]+) (k?)W or more", advice)
    assert told is not None, advice
    return float(told[1]) * (1000.0 if told[2] else 1.0)


@settings(max_examples=25, deadline=None)
@given(watts=st.integers(150, 2500), kind=st.sampled_from(["battery", "generator"]))
def test_backup_that_is_advised_is_sound_and_larger_than_what_there_is(watts: int, kind: str) -> None:
    """As much as is advised is sound for load and start; nothing advised is as small as what is owned."""

    def both(power: float) -> list[Check]:
        kept = (
            'kind = "battery"\nenergy = "2.4 kWh"\npower = "1 kW"',
            f'kind = "{kind}"\npower = "{power} W"',
        )
        facts = facts_of(changed(SHED, kept))
        found = [one.check for one in backup_checks(backup_of(facts), facts, "metric")]
        return [one for one in found if one.id.endswith((".power", ".start"))]

    for check in both(watts):
        more = advised_watts(check.advice)
        assert more > watts
        assert all(one.verdict is Verdict.SOUND for one in both(more))


def test_own_peak_of_a_generator_wins_and_is_yours() -> None:
    one, check = start_of('1 kW"\npeak = "2')
    assert one.peak is not None
    assert (one.peak.low, one.peak.high) == (2000.0, 2000.0)
    assert check.source.known is Known.YOURS
    assert one.holds_start


def test_generator_burns_no_less_than_at_half_load() -> None:
    """10 L at 0.5 L/kWh: 20 kWh; 230 W of 2 kW counts as 1 kW, 20 h; of 400 W as it is, 87 h."""

    def hours(power: str) -> float:
        text = changed(SHED, ('kind = "battery"\nenergy = "2.4 kWh"\npower = "1 kW"',
                              f'kind = "generator"\ntank = "10 L"\npower = "{power}"'))  # fmt: skip
        found = backup_of(facts_of(text)).hours
        assert found is not None
        return found.likely / 3600.0

    assert hours("2 kW") == pytest.approx(20.0)
    assert hours("400 W") == pytest.approx(20.0 / 0.23)


def acting(text: str) -> Acting:
    found = facts_of(text).acting
    assert found is not None
    return found


def test_time_until_somebody_has_acted() -> None:
    """Message, answer, way and acts, each at the slow end where the plan leaves it open; without an alarm 12 h between
    looks, begun just after one, and the acts.
    """
    alarmed, looked = acting(SHED), acting(changed(SHED, (LOOKS, "")))
    row, said = table("fault_limits")["people"], loads(SHED).plan.response
    assert said is not None
    assert said.alarm is not None
    slow = [
        row.si(f"{name}_high") if own is None else own
        for name, own in (("message", said.alarm.after), ("answers", said.answers), ("does", said.does))
    ]
    assert alarmed.seconds == pytest.approx(sum(slow) + said.travel)
    assert looked.seconds == pytest.approx(12.0 * 3600.0 + slow[2], abs=1.0)
    assert "alarm" in alarmed.words
    assert "look" in looked.words
    mains = acting(changed(SHED, ('power = "battery", network', 'power = "mains", network')))
    assert mains == looked, "an alarm on the mains dies with them"


def test_an_alarm_that_hangs_on_what_dies_calls_nobody_and_one_on_a_battery_does() -> None:
    """The router of this plan is carried by its battery; nothing carries a camera."""
    hung = changed(
        SHED, ('power = "battery", network = "mobile"', 'power = "mains", hangs_on = ["device router"]')
    )
    assert acting(hung).seconds == acting(SHED).seconds
    camera = changed(hung, ('hangs_on = ["device router"]', 'hangs_on = ["device camera"]'))
    camera += '\n[devices.camera]\npower = "5 W"\n'
    assert acting(camera).seconds == acting(changed(SHED, (LOOKS, ""))).seconds


def test_battery_that_is_empty_before_somebody_acts_fails() -> None:
    checks = {check.id: check for check in answer_of(changed(SHED, (LOOKS, ""))).checks}
    assert checks["power.backups.battery.hours"].verdict is Verdict.FAILS
    begin, end = SHED.index("[response]"), SHED.index("[supplies]")
    checks = {check.id: check for check in answer_of(SHED[:begin] + SHED[end:]).checks}
    assert checks["power.backups.battery.hours"].verdict is Verdict.UNPROVEN


def test_every_warning_of_a_backup_names_what_it_is_about() -> None:
    """Read by itself, as it stands under what to take care of."""
    rows = [row for row in table("electric_limits") if row.tag("kind") == "inverter"]
    words = [one for row in rows for one in cautions_of(row)]
    assert words
    assert all("inverter" in one.lower() for one in words)
