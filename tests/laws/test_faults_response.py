"""From the event until somebody has acted, by hand: who looks when, what calls whom, what is dead with the power."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.journeys.fault_plans import BATTERY, LIVED, found
from tests.journeys.flow_plans import changed
from tidestead.plan import loads
from tidestead.plan.water_fields import OnCircuit
from tidestead.studies.faults.case import Case
from tidestead.studies.faults.cases import Fault
from tidestead.studies.faults.facts import Chain, FaultFacts, Hours, Quantity
from tidestead.studies.faults.response import chain_of
from tidestead.studies.power import people
from tidestead.studies.power.people import People, Seeing, pace_of

PEOPLE = People(message=1.0 / 6.0, answers=0.5, travel=1.0 / 6.0, does=0.5, looks=(8.0, 19.5))
NEVER = math.inf
ALARM = (
    'alarm = { watches = ["temperature", "power"], power = "battery", network = "mobile", after = "10 min" }'
)


def seen_from(hours: dict[Quantity, float]) -> dict[Quantity, tuple[float, float, float]]:
    """Quantities that pass all three levels at one moment."""
    return {one: (at, at, at) for one, at in hours.items()}


def chained(text: str, fault: Fault, hours: Hours, quiet: Hours | None = None) -> Chain:
    """The chain of a fault that has these hours at worst and likely, and the same water with nothing wrong."""
    basis = found(text).basis
    pace = pace_of(basis.plan)
    assert pace is not None
    blank = FaultFacts(
        fault.key, fault.title, None, (), "", likely=hours, soonest=hours, latest=hours,
        quiet=quiet, quiet_likely=quiet, until=120.0,
    )  # fmt: skip
    chain = chain_of(basis, fault, blank, pace)
    assert chain is not None
    return chain


def with_alarm(said: str) -> str:
    return changed(LIVED, (ALARM, said))


CUT = Fault("cut", "power", "Power cut", Case("winter", cut=True), ("oxygen", "cold"), sees=("power",))
STANDS = Fault("pump", "pump", "Pump stops", Case("winter"), ("oxygen", "cold"), sees=("flow",))
COLD = Fault("cold", "heater-off", "Heaters fail", Case("winter"), ("oxygen", "cold"), plain=False)


def test_people_are_read_from_the_plan_and_guessed_where_it_is_silent() -> None:
    told = pace_of(loads(LIVED).plan)
    assert told is not None
    assert told.quick == told.usual == told.slow == pytest.approx(PEOPLE)
    silent = changed(LIVED, ('does = "30 min"\nanswers = "30 min"\n', ""), (', after = "10 min"', ""))
    pace = pace_of(loads(silent).plan)
    assert pace is not None
    people = pace.usual
    assert (people.message, people.answers, people.does) == pytest.approx((1.0 / 6.0, 0.5, 0.5))
    for quick, slow in ((pace.quick, people), (people, pace.slow)):
        assert quick.message < slow.message
        assert quick.answers < slow.answers
        assert quick.does < slow.does
        assert quick.travel == slow.travel
    assert {key for key, _, _ in pace.assumed} == {
        "response.alarm.after",
        "response.answers",
        "response.does",
    }
    assert pace_of(loads(LIVED[: LIVED.index("[response]")]).plan) is None


@pytest.mark.parametrize(
    ("begins", "acted"),
    [
        (8, 0.5),  # somebody looks at that moment
        (9, 11.0),  # 10.5 h to 19:30, half an hour to act
        (19, 1.0),
        (20, 12.5),  # 12 h to 08:00
        (23, 9.5),
        (0, 8.5),
    ],
)
def test_looks_alone_as_worked_by_hand(begins: int, acted: float) -> None:
    assert people.acted(PEOPLE, begins, Seeing(NEVER, 0.0)) == pytest.approx(acted)


@pytest.mark.parametrize(
    ("begins", "heard", "acted"),
    [
        (12, 0.0, 5.0 / 6.0),  # 10 min message, 10 min way, 30 min work
        (22, 0.0, 4.0 / 3.0),  # by night half an hour more until somebody answers
        (6, 0.0, 4.0 / 3.0),  # the message comes at 06:10, still night
        (21, 0.9, 0.9 + 4.0 / 3.0),  # seen at 21:54, told at 22:04
        (20, 0.9, 0.9 + 5.0 / 6.0),
        (7, 3.0, 1.5),  # somebody looks at 08:00, before the alarm sees it
    ],
)
def test_calls_as_worked_by_hand(begins: int, heard: float, acted: float) -> None:
    assert people.acted(PEOPLE, begins, Seeing(heard, 0.0)) == pytest.approx(acted)


def test_what_cannot_be_seen_yet_waits_for_the_look_after() -> None:
    """Seen from two hours on: begun at 07:00 the look at 08:00 sees nothing, the one at 19:30 does."""
    assert people.acted(PEOPLE, 7, Seeing(NEVER, 2.0)) == pytest.approx(13.0)
    assert people.acted(PEOPLE, 6, Seeing(NEVER, 2.0)) == pytest.approx(2.5)
    assert people.acted(PEOPLE, 6, Seeing(NEVER, NEVER)) == NEVER


@pytest.mark.parametrize("fault", [CUT, STANDS, COLD])
def test_the_chain_is_the_sum_of_its_links_and_its_hours_are_in_order(fault: Fault) -> None:
    chain = chained(LIVED, fault, Hours(3.0, 5.0, 9.0, "cold", seen_from({"oxygen": 4.0, "cold": 3.0})))
    assert len(chain.by_hour) == 24
    assert chain.best == min(chain.by_hour) <= chain.mean <= max(chain.by_hour) <= chain.worst
    assert sum(hours for _, hours in chain.parts) == pytest.approx(chain.worst)
    assert all(hours >= 0.0 for _, hours in chain.parts)


def test_an_alarm_that_sees_the_power_calls_at_once() -> None:
    chain = chained(LIVED, CUT, Hours(3.0, 5.0, 9.0, "oxygen", seen_from({"oxygen": 3.0, "cold": NEVER})))
    assert chain.noticed == "the alarm"
    assert chain.worst == pytest.approx(4.0 / 3.0)
    assert chain.why_not == ""


def test_an_alarm_on_the_mains_is_dead_in_a_power_cut_and_in_no_other_fault() -> None:
    mains = with_alarm(ALARM.replace('"battery"', '"mains"'))
    hours = Hours(3.0, 5.0, 9.0, "cold", seen_from({"oxygen": NEVER, "cold": 3.0}))
    chain = chained(mains, CUT, hours)
    assert chain.why_not == "the alarm dies with the power"
    assert chain.worst == pytest.approx(13.0, abs=1e-3)  # begun just after the look at 19:30
    assert chain.noticed == "the minder's look"
    assert chained(mains, COLD, hours).why_not == ""


def test_a_house_network_is_dead_unless_what_must_run_has_a_battery_of_its_own() -> None:
    house = with_alarm(ALARM.replace('"mobile"', '"house"'))
    hours = Hours(3.0, 5.0, 9.0, "oxygen", seen_from({"oxygen": 3.0, "cold": NEVER}))
    assert chained(house, CUT, hours).why_not == "the network dies with the power"
    assert chained(house + BATTERY, CUT, hours).why_not == ""
    assert chained(house + BATTERY, CUT, hours).worst == pytest.approx(4.0 / 3.0)
    by_hand = BATTERY.replace('"battery"', '"generator"').replace("[backups.battery]", "[backups.other]")
    by_hand = by_hand.replace('energy = "1.2 kWh"', 'tank = "5 L"')
    started = house + by_hand + 'starts = "by hand"\n'
    assert chained(started, CUT, hours).why_not == "the network dies with the power"
    carries_pump = BATTERY.replace("device router", "pump lift")
    assert chained(house + carries_pump, CUT, hours).why_not == "the network dies with the power"


def test_an_alarm_hears_only_what_it_watches() -> None:
    """Oxygen is at the level to warn at once, the cold after six hours: a thermometer calls after six."""
    hours = Hours(0.0, 5.0, 9.0, "cold", seen_from({"oxygen": 0.0, "cold": 6.0}))
    chain = chained(with_alarm(ALARM.replace('"temperature", "power"', '"temperature"')), COLD, hours)
    heard = 6.0 + 1.0 / 6.0 + 1.0 / 6.0 + 0.5
    assert chain.by_hour[9] == pytest.approx(heard)  # told at 15:10
    assert chain.by_hour[20] == pytest.approx(heard + 0.5)  # told at 02:10, before the look at 08:00
    deaf = chained(with_alarm(ALARM.replace('"temperature", "power"', '"leak"')), COLD, hours)
    assert deaf.why_not == "the plan's alarm does not watch for this"
    assert chained(with_alarm(""), COLD, hours).why_not == "the plan names no alarm"


@settings(max_examples=40, deadline=None)
@given(
    begins=st.integers(0, 23),
    heard=st.floats(0.0, 30.0),
    seen=st.floats(0.0, 30.0),
    slower=st.floats(0.0, 6.0),
)
def test_slower_people_never_act_sooner(begins: int, heard: float, seen: float, slower: float) -> None:
    plain = people.acted(PEOPLE, begins, Seeing(heard, seen))
    for name in ("travel", "does", "answers"):
        late = replace(PEOPLE, **{name: getattr(PEOPLE, name) + slower})
        assert people.acted(late, begins, Seeing(heard, seen)) >= plain - 1e-9
    fewer = replace(PEOPLE, looks=(8.0,))
    assert people.acted(fewer, begins, Seeing(heard, seen)) >= plain - 1e-9
    assert people.acted(PEOPLE, begins, Seeing(NEVER, seen)) >= plain - 1e-9


@settings(max_examples=40, deadline=None)
@given(begins=st.floats(0.0, 24.0, exclude_max=True), heard=st.floats(0.0, 30.0), seen=st.floats(0.0, 30.0))
def test_no_moment_of_the_day_is_worse_than_the_worst(begins: float, heard: float, seen: float) -> None:
    for seeing in (Seeing(heard, seen), Seeing(NEVER, seen), Seeing(heard, NEVER)):
        worst = people.acted(PEOPLE, people.worst_begin(PEOPLE, seeing), seeing)
        assert people.acted(PEOPLE, begins, seeing) <= worst + 1e-4


def test_the_worst_is_just_after_a_look() -> None:
    """Looks at 08:00 and 19:30: a thing that begins at 19:31 waits for 12 and a half hours."""
    seeing = Seeing(NEVER, 0.0)
    assert people.worst_begin(PEOPLE, seeing) == pytest.approx(19.5, abs=1e-3)
    assert people.acted(PEOPLE, people.worst_begin(PEOPLE, seeing), seeing) == pytest.approx(13.0, abs=1e-3)


@pytest.mark.parametrize(
    ("harm", "chance"), [(10.0, 38.5 / 48.0), (48.0, 0.5 / 48.0), (60.0, 0.0), (0.1, 1.0)]
)
def test_chance_of_harm_while_nobody_looks_as_worked_by_hand(harm: float, chance: float) -> None:
    """Two days away, half an hour to act: whoever comes back acts in time for what began less than H - 0.5 h ago."""
    text = changed(with_alarm(""), ('does = "30 min"', 'does = "30 min"\nabsent = "2 days"'))
    told = chained(text, STANDS, Hours(0.0, 0.0, harm, "oxygen", seen_from({"oxygen": 0.0})))
    assert told.chance == pytest.approx(chance, abs=0.5 / 200.0 + 1e-9)


def test_an_alarm_fetches_the_owner_from_where_the_owner_is() -> None:
    """10 min to the message, 30 to answer, a day on the way, 30 min to act: 25.17 h."""
    text = changed(LIVED, ('does = "30 min"', 'does = "30 min"\nabsent = "20 days"\nowner = "1 day"'))
    acted = 1.0 / 6.0 + 0.5 + 24.0 + 0.5
    in_time = chained(text, CUT, Hours(0.0, 0.0, acted + 0.1, "oxygen", seen_from({"oxygen": 0.0})))
    late = chained(text, CUT, Hours(0.0, 0.0, acted - 0.1, "oxygen", seen_from({"oxygen": 0.0})))
    assert in_time.chance == 0.0
    assert late.chance == pytest.approx(1.0 - (acted - 0.6) / 480.0, abs=0.5 / 200.0 + 1e-9)
    assert chained(LIVED, CUT, Hours(0.0, 0.0, 9.0, "oxygen", seen_from({"oxygen": 0.0}))).chance is None


def test_what_the_water_does_by_itself_is_no_notice() -> None:
    """Warm at six hours with the fault and at six and a half without: no alarm tells the one from the other."""
    hot = Fault("pump", "pump", "Pump stops", Case("summer"), ("oxygen", "hot"), plain=False)
    hours = Hours(6.0, 20.0, 40.0, "hot", {"hot": (6.0, 20.0, 40.0), "oxygen": (NEVER, NEVER, NEVER)})
    by_itself = Hours(6.5, 90.0, NEVER, "hot", {"hot": (6.5, 90.0, NEVER), "oxygen": (NEVER, NEVER, NEVER)})
    heard = chained(LIVED, hot, hours)
    assert heard.by_hour[9] == pytest.approx(6.0 + 5.0 / 6.0)
    unheard = chained(LIVED, hot, hours, by_itself)
    assert unheard.why_not == "the plan's alarm does not watch for this"
    assert unheard.best >= 20.5  # whoever looks sees it at the next level, which the water keeps clear of
    later = Hours(90.0, NEVER, NEVER, "hot", {"hot": (90.0, NEVER, NEVER), "oxygen": (NEVER, NEVER, NEVER)})
    assert chained(LIVED, hot, hours, later).by_hour == heard.by_hour


def test_slow_people_make_the_worst_and_quick_ones_the_best() -> None:
    """Looks at 08:00 and 19:30, nothing else known: 12.5 h and an hour to act at worst, a quarter of one at best."""
    silent = changed(with_alarm(""), ('does = "30 min"\nanswers = "30 min"\n', ""))
    chain = chained(silent, STANDS, Hours(0.0, 0.0, 9.0, "oxygen", seen_from({"oxygen": 0.0})))
    assert chain.best == pytest.approx(0.25)
    assert chain.worst == pytest.approx(12.5 + 1.0, abs=1e-3)
    assert chain.mean == pytest.approx(
        sum(min((look - at) % 24 for look in (8.0, 19.5)) for at in range(24)) / 24 + 0.5
    )


def test_without_its_network_only_looks_are_left() -> None:
    hours = Hours(0.0, 0.0, 9.0, "oxygen", seen_from({"oxygen": 0.0}))
    chain = chained(LIVED, CUT, hours)
    assert chain.worst == pytest.approx(4.0 / 3.0)
    assert chain.unheard == pytest.approx(13.0, abs=1e-3)


def test_an_alarm_dies_with_what_it_hangs_on_and_with_nothing_else() -> None:
    hung = with_alarm(ALARM.replace('after = "10 min"', 'hangs_on = ["device router"], after = "10 min"'))
    hours = Hours(3.0, 5.0, 9.0, "cold", seen_from({"oxygen": NEVER, "cold": 3.0}))
    dead = chained(hung, CUT, hours)
    assert dead.why_not == "device router, which it hangs on, dies with the power"
    assert chained(hung + BATTERY, CUT, hours).why_not == ""
    router = replace(COLD, dies=frozenset({OnCircuit("device", "router")}))
    assert chained(hung, router, hours).why_not == "what it hangs on dies with this device"
    stones = replace(COLD, dies=frozenset({OnCircuit("air", "stones")}))
    assert chained(hung, stones, hours).why_not == ""
