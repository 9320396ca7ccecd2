"""What helps against faults: a switch and a drain that are tried, batteries and money by hand, levels to act."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from tests.journeys.fault_plans import LIVED, calm, check_of, found, one_of, whole
from tests.journeys.flow_plans import changed
from tidestead.catalog import table
from tidestead.core.answer import Estimate, Verdict
from tidestead.physics.transient.engine import hours_until, run
from tidestead.plan.water_fields import OnCircuit
from tidestead.studies import faults
from tidestead.studies.faults.buying import sized
from tidestead.studies.faults.case import Case
from tidestead.studies.faults.cases import faults_of
from tidestead.studies.faults.checks import judged
from tidestead.studies.faults.facts import Bought, Chain, FaultFacts, FaultsFacts, Hours
from tidestead.studies.faults.knobs import LIKELY, all_at
from tidestead.studies.faults.normal import air_oxygen, system_of
from tidestead.studies.faults.running import facts_of, with_helps
from tidestead.studies.faults.untouched import untouched_words
from tidestead.studies.faults.wording import help_words, silent_words
from tidestead.studies.power.backing import battery_wanted
from tidestead.studies.water.aeration import Stone

NEVER = math.inf
PRICED = (
    LIVED
    + """
[prices]
battery = "400 EUR/kWh"
air_pump = "85 EUR/piece"
leak_switch = "55 EUR/piece"
"""
)
CHAIN = Chain(1.0, 5.0, 10.0, "the minder's look", (), (10.0,) * 24, None)


def help_of(facts: FaultFacts, name: str) -> Bought:
    return next(one for one in facts.bought if one.name == name)


def test_a_leak_switch_lets_a_burst_hose_give_what_it_trips_at_and_no_more() -> None:
    """Five litres on the floor, and the pump stands; without it the sump empties down to the intake."""
    basis = found(LIVED).basis
    burst = Case("winter", burst=True)
    plain = run(system_of(basis, burst), 2.0, 60.0)
    shut = run(system_of(basis, replace(burst, switch=0.005)), 2.0, 60.0)
    sump = basis.pools[1]
    assert plain.flood[-1] > 10.0 * 0.005
    assert shut.flood[-1] == pytest.approx(0.005, rel=1e-6)
    assert shut.volume[1, -1] == pytest.approx(sump.volume - 0.005, rel=1e-3)
    one = found(LIVED)
    hose = facts_of(one.settled, one.levels, one.fault("hose"))
    hose = with_helps(one.settled, one.levels, one.fault("hose"), hose)
    assert hose.likely is not None
    assert help_of(hose, "switch").harm > hose.likely.harm


def test_a_leak_switch_shuts_the_fresh_water_of_a_float_that_sticks() -> None:
    """The sump fills to its brim, five litres run over, and the line is shut: no more comes however long it runs."""
    basis = found(changed(LIVED, ('stock = "300 L"\n', ""))).basis
    stuck = Case("winter", top_off="open")
    endless = run(system_of(basis, stuck), 48.0, 300.0)
    shut = run(system_of(basis, replace(stuck, switch=0.005)), 48.0, 300.0)
    assert endless.flood[-1] > 1.0
    assert 0.0 < shut.flood[-1] <= 0.005 + 1e-9


def test_what_is_tried_against_a_blocked_comb() -> None:
    """A switch leaves a bucket's worth on the floor, under the level of harm; a second comb carries all as now."""
    comb = found(LIVED).at_once("comb")
    assert comb.likely is not None
    assert math.isfinite(comb.likely.harm)
    assert help_of(comb, "switch").harm == NEVER
    drain = help_of(comb, "drain")
    assert drain.harm == NEVER
    assert drain.part.startswith("tank.")
    own = next(one for one in found(LIVED).basis.flow.drains if one.vessel == "tank")
    assert own.level < own.brim  # which is why one like it is enough


def test_batteries_last_until_somebody_has_acted_and_cost_what_the_plan_says() -> None:
    """12 W for ten hours in an old cold lead-acid battery, and an air pump for 85: by hand from the same battery."""
    tried = (
        Bought("air", 30.0, draws=12.0, hours=10.0),
        Bought("switch", 9.0),
        Bought("half", 9.0),
        Bought("cover", 9.0),
    )
    blank = FaultFacts(
        "x", "X", "winter", (), "", likely=Hours(1.0, 2.0, 3.0, "oxygen"), chain=CHAIN, bought=tried
    )
    air, switch, half, cover = sized(blank, found(PRICED).basis).bought
    wanted = battery_wanted(12.0, 36000.0)
    energy = 3.6e6 * math.ceil(wanted / 3.6e4) / 100.0  # to two digits of its 0.39 kWh, upwards
    assert 12.0 * 36000.0 < wanted <= energy < 1.03 * wanted
    assert [need.key for need in air.needs] == ["air_pump", "battery"]
    assert air.cost == pytest.approx(85.0 + 400.0 * energy / 3.6e6)
    assert air.currency == "EUR"
    assert switch.cost == pytest.approx(55.0)
    assert half.cost == 0.0
    assert not half.needs
    assert cover.cost is None
    assert cover.unpriced == ("prices.cover",)
    assert "write prices.cover" in help_words(cover, "metric")[1]
    assert "55 EUR" in help_words(replace(switch, numbers=((0.005, "m3"),)), "metric")[1]


def test_a_help_is_tried_at_the_adverse_end_where_only_that_comes_to_harm() -> None:
    """Both runs of it, with the help and without, by the same end; a gain is never told across two ends."""
    one = found(LIVED)
    for fault in (fault for fault in faults_of(one.basis) if fault.tries and not fault.needs):
        facts = facts_of(one.settled, one.levels, fault)
        if facts.likely is None:
            continue
        for tried in with_helps(one.settled, one.levels, fault, facts).bought:
            assert tried.at_worst == math.isinf(facts.likely.harm), fault.key
            if not tried.at_worst:
                assert tried.before == facts.likely.harm, fault.key
            else:
                assert facts.soonest is not None
                assert tried.before == facts.soonest.harm, fault.key


def test_a_heater_of_half_the_power_that_sticks_gives_half_the_heat() -> None:
    """Two halves give as much together as the one did where neither sticks."""
    basis = found(calm("skerry")).basis
    name = next(iter(basis.plan.heaters))
    whole_one, halved = (
        system_of(basis, Case("summer", stuck_on=name, halved=half)).heaters for half in (False, True)
    )
    stuck = [sum(one.power for one in heaters if one.mode == "on") for heaters in (whole_one, halved)]
    assert stuck[1] == pytest.approx(stuck[0] / 2.0)
    assert sum(one.power for one in halved) == pytest.approx(sum(one.power for one in whole_one))


@pytest.mark.parametrize(("worst", "held"), [(3.2, 24.0), (30.5, 31.0), (NEVER, 24.0), (300.0, 120.0)])
def test_what_is_fed_is_fed_for_a_day_or_until_somebody_has_acted(worst: float, held: float) -> None:
    """No gain is told of a battery that is empty: the run has it for as many hours as are bought, and no more."""
    one = found(LIVED)
    fault = one.fault("pump.lift-summer")
    blank = replace(facts_of(one.settled, one.levels, fault), chain=replace(CHAIN, worst=worst))
    air = help_of(with_helps(one.settled, one.levels, fault, blank), "air")
    assert air.hours == held
    knobs = all_at("adverse") if air.at_worst else LIKELY
    gain = air_oxygen(one.basis, Stone(1e-2 / 60.0, 0.6, "fine"), knobs.end("bubbles"))
    ends = [run(one.settled.system(replace(fault.case, air=gain, air_for=hours), knobs), 120.0, 300.0)
            for hours in (held, NEVER)]  # fmt: skip
    at = [hours_until(course, 0, "oxygen", 3.0, False) or NEVER for course in ends]
    assert air.harm == pytest.approx(at[0])
    assert at[0] <= at[1]


def test_a_generator_bears_the_start_of_the_pump_and_what_must_run() -> None:
    """By hand from the load of the circuit: the largest start on all that runs, by the least peak of such sets."""
    basis = found(PRICED + '\ngenerator = "700 EUR/piece"\n').basis
    tried = (Bought("pump", 30.0, part="lift", draws=200.0, hours=10.0), Bought("half", 9.0))
    blank = FaultFacts("x", "X", "winter", (), "", chain=CHAIN, bought=tried)
    pump, half = sized(blank, basis).bought
    assert half.instead is None
    assert pump.instead is not None
    row = table("electric_limits")["generator-petrol"]
    loads_ = [one for circuit in basis.power.circuits for one in circuit.loads]
    hung = [one for one in loads_ if one.item in {OnCircuit("pump", "lift"), OnCircuit("device", "router")}]
    running = sum(one.power for one in hung)
    start = max(230.0 * one.running.likely * (one.sort.starting.si("high") - 1.0) / one.count for one in hung)
    by_start, by_load = (running + start) / row.si("peak_low"), running / row.si("loaded")
    assert pump.instead.power == pytest.approx(max(by_start, by_load))
    assert pump.instead.cost == 700.0
    thirsty = max(200.0, pump.instead.power / 2.0) * 36000.0 * row.si("fuel_high")
    assert pump.instead.fuel == pytest.approx(thirsty)
    assert "petrol" in help_words(replace(pump, numbers=((1e6, "J"),)), "metric")[1]


def in_time(hours: Hours, chain: Chain, until: float = 120.0) -> Verdict:
    """The verdict of a fault that has these hours at every end."""
    fault = FaultFacts(
        "x", "X", "winter", (), "", likely=hours, soonest=hours, latest=hours, chain=chain, until=until
    )
    return judged(FaultsFacts((), (fault,)), "metric")[0].check.verdict


@pytest.mark.parametrize(
    ("hours", "worst", "verdict"),
    [
        (Hours(1.0, NEVER, NEVER, "oxygen"), NEVER, Verdict.SOUND),  # only a level to warn: nobody need act
        (Hours(1.0, 2.0, NEVER, "oxygen"), 10.0, Verdict.SOUND),  # the level to act is passed, somebody acts
        (Hours(1.0, 2.0, NEVER, "oxygen"), NEVER, Verdict.NEAR),  # ... and nobody ever does
        (Hours(1.0, 2.0, 100.0, "oxygen"), 10.0, Verdict.SOUND),
        (Hours(1.0, 2.0, 11.0, "oxygen"), 10.0, Verdict.NEAR),
        (Hours(1.0, 2.0, 9.0, "oxygen"), 10.0, Verdict.FAILS),
        (Hours(1.0, 2.0, 100.0, "oxygen"), NEVER, Verdict.FAILS),
    ],
)
def test_a_level_to_act_counts_where_no_harm_comes(hours: Hours, worst: float, verdict: Verdict) -> None:
    assert in_time(hours, replace(CHAIN, worst=worst)) is verdict


def test_what_is_not_reached_is_over_what_was_followed() -> None:
    harm = FaultFacts("x", "X", None, (), "", likely=Hours(1.0, 2.0, NEVER, None), soonest=Hours(1.0, 2.0, 30.0, None),
                      latest=Hours(1.0, 2.0, NEVER, None), until=120.0).harm_seconds  # fmt: skip
    assert harm == Estimate(108000.0, 432000.0, 432000.0, harm.basis if harm else "", 432000.0)


def test_water_that_passes_a_level_by_itself_is_told_with_its_season_and_its_deepest_level() -> None:
    quiet = Hours(0.0, 3.0, NEVER, "hot", {"hot": (0.0, 3.0, NEVER), "oxygen": (NEVER,) * 3})
    calm = Hours(5.0, NEVER, NEVER, "hot", {"hot": (5.0, NEVER, NEVER), "oxygen": (NEVER,) * 3})
    one = FaultFacts("x", "X", "summer", (), "", quiet=quiet, quiet_likely=calm)
    (words,) = untouched_words([one, replace(one, season=None)])
    assert "warmest days passes the level to act by itself, at the adverse end, after 3 h: too warm" in words
    assert next(untouched_words([replace(one, quiet=calm, quiet_likely=calm)])).count("likely") == 1
    assert not list(untouched_words([replace(one, quiet=None)]))


def test_faults_that_only_the_call_makes_bearable_are_named() -> None:
    hours = Hours(0.0, 1.0, 8.0, "oxygen")
    called = replace(CHAIN, worst=2.0, unheard=12.0)
    fault = FaultFacts("x", "Pump stops", None, (), "", soonest=hours, chain=called)
    assert "Pump stops" in silent_words(FaultsFacts((), (fault,)))
    assert silent_words(FaultsFacts((), (replace(fault, chain=replace(called, unheard=7.0)),))) == ""
    assert silent_words(FaultsFacts((), (replace(fault, chain=replace(called, worst=9.0)),))) == ""


def test_prices_in_the_plan_reach_the_answer() -> None:
    told = faults.judge(found(PRICED).inputs, whole(PRICED))
    hose = one_of(whole(PRICED), "hose")
    assert help_of(hose, "switch").cost == pytest.approx(55.0)
    rows = next(one for one in told.tables if one.id == "faults.bought")
    takes = {(str(row[0]), str(row[1]).split(" that")[0]): str(row[-1]) for row in rows.rows}
    assert "55 EUR" in takes["Hose of the main pump bursts", "a leak switch"]
    assert check_of(told, "hose.in_time").advice.startswith("a leak switch")


def test_a_fractionators_air_stops_with_its_blower() -> None:
    """By the course of bubbles in the sump: all of it while the blower runs, the falls alone once it does not."""
    basis = found(calm("skerry")).basis
    stops = Case("summer", dead={OnCircuit("device", "air"): 0.0})
    runs, stands = (system_of(basis, case).bodies[1].air for case in (Case("summer"), stops))
    assert runs.bubbles == pytest.approx(stands.bubbles)
    tower = [one for one in basis.stock.exchanges if one.how.startswith("air of the fractionator")]
    lost = basis.stock.saturation * sum(one.clears.likely for one in tower)
    assert lost > 0.0
    assert stands.bubble_course is not None
    assert runs.bubble_course is not None
    assert float(runs.bubble_course[0]) == pytest.approx(1.0)
    assert float(stands.bubble_course[0]) == pytest.approx(1.0 - lost / runs.bubbles)
