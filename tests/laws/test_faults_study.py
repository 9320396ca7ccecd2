"""What must hold of faults: levels in order, drains, bottles and barrels by hand, the film, what dies at once."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from tests.journeys.fault_plans import BATTERY, LIVED, found, likely, soonest
from tests.journeys.flow_plans import changed
from tidestead.catalog import table
from tidestead.core.answer import Estimate
from tidestead.core.source import YOURS
from tidestead.physics import oxygen
from tidestead.plan import loads
from tidestead.plan.water_fields import OnCircuit
from tidestead.studies.faults import at_once, glass
from tidestead.studies.faults.case import Case, runs_for
from tidestead.studies.faults.cases import faults_of
from tidestead.studies.faults.knobs import LIKELY, NAMES, Knobs, all_at, only
from tidestead.studies.faults.normal import air_oxygen, system_of
from tidestead.studies.faults.refuge import refuges_of
from tidestead.studies.faults.thresholds import thresholds_of
from tidestead.studies.faults.waters import exchange
from tidestead.studies.faults.wording import hours_words
from tidestead.studies.power.facts import Dying
from tidestead.studies.water.aeration import Stone

NEVER = math.inf


def levels(said: str, sal_psu: float = 35.0) -> dict[str, tuple[float, float, float]]:
    text = LIVED + (f"\n[thresholds]\n{said}\n" if said else "")
    return {key: one.levels for key, one in thresholds_of(loads(text).plan, sal_psu).items()}


def test_levels_of_the_catalogue() -> None:
    plain = levels("")
    assert plain["oxygen"] == pytest.approx((5.0, 4.0, 3.0))
    assert plain["ammonia"] == pytest.approx((0.025, 0.035, 0.09))
    assert plain["salt"] == pytest.approx((36.5, 38.0, 42.0))
    assert plain["fresh"] == pytest.approx((33.5, 32.0, 28.0))
    assert plain["floor"] == pytest.approx((0.001, 0.01, 0.15))
    assert plain["cold"][0] == pytest.approx(24.0)  # a kelvin under what is kept
    assert plain["hot"][0] == pytest.approx(27.0)


def test_levels_of_the_plan_win() -> None:
    own = levels(
        'oxygen_harm = "2 mg/L"\nammonia_act = "0.05 mg/L"\ncold_harm = "12 degC"\nsalinity_harm = "9 psu"'
    )
    assert own["oxygen"] == pytest.approx((5.0, 4.0, 2.0))
    assert own["ammonia"] == pytest.approx((0.025, 0.05, 0.09))
    assert own["cold"][2] == pytest.approx(12.0)
    assert own["salt"][2] == pytest.approx(44.0)
    assert own["fresh"][2] == pytest.approx(26.0)
    sources = thresholds_of(loads(LIVED + '\n[thresholds]\noxygen_harm = "2 mg/L"\n').plan, 35.0)
    assert sources["oxygen"].source == YOURS
    assert sources["ammonia"].source != YOURS


@pytest.mark.parametrize(
    "said",
    [
        "", 'oxygen_harm = "6 mg/L"', 'oxygen_act = "2 mg/L"', 'oxygen_warn = "3.5 mg/L"', 'ammonia_harm = "0.01 mg/L"',
        'cold_act = "26 degC"', 'cold_harm = "25 degC"', 'hot_act = "22 degC"', 'hot_harm = "24 degC"',
        'salinity_act = "1 psu"', 'salinity_harm = "1 psu"',
    ],
)  # fmt: skip
def test_levels_stand_in_order_whatever_the_plan_says(said: str) -> None:
    found_levels = levels(said)
    for name in ("oxygen", "cold", "fresh", "low"):
        assert list(found_levels[name]) == sorted(found_levels[name], reverse=True), name
    for name in ("ammonia", "hot", "salt", "floor"):
        assert list(found_levels[name]) == sorted(found_levels[name]), name


def test_knobs_turn_as_they_are_told() -> None:
    assert all(LIKELY.end(name) == "likely" for name in NAMES)
    assert LIKELY.factor("heat", 0.2) == 1.0
    assert all_at("adverse").factor("heat", 0.2) == pytest.approx(1.2)
    assert all_at("mild").factor("heat", 0.2) == pytest.approx(0.8)
    assert all_at("adverse").factor("heat", 0.2, adverse=-1.0) == pytest.approx(0.8)
    one = only("acid")
    assert [name for name in NAMES if one.end(name) == "adverse"] == ["acid"]


def test_the_adverse_end_breathes_more_and_lets_less_in() -> None:
    """Uptake at its high end; what a still surface lets in at its low end."""
    basis = found(LIVED).basis

    def parts(knobs: Knobs) -> tuple[float, float]:
        body = system_of(basis, Case("winter", cut=True), knobs).bodies[0]
        assert body.air.surface_course is not None
        return body.life.uptake + body.life.fixed, body.air.exchange * float(body.air.surface_course[-1])

    mild, usual, adverse = (parts(knobs) for knobs in (all_at("mild"), LIKELY, all_at("adverse")))
    assert mild[0] < usual[0] < adverse[0]
    assert mild[1] > usual[1] > adverse[1]
    still = exchange("still-surface")
    assert (adverse[1], usual[1], mild[1]) == pytest.approx((still.low, still.likely, still.high))


@pytest.mark.parametrize(
    ("hours", "words"),
    [
        (NEVER, "never in the time followed"), (0.0, "no time at all"), (0.01, "less than a minute"), (0.2, "12 min"),
        (3.44, "3.4 h"), (17.2, "17 h"), (47.6, "48 h"), (100.8, "4.2 days"), (288.0, "12 days"),
    ],
)  # fmt: skip
def test_times_as_one_says_them(hours: float, words: str) -> None:
    assert hours_words(hours) == words


def test_a_vessel_that_fills_as_worked_by_hand() -> None:
    """A tenth of a cubic metre of room and two litres a second: 50 s to the brim, then a litre in half a second."""
    floor = thresholds_of(loads(LIVED).plan, 35.0)["floor"]
    filling = at_once.Filling(0.1, Estimate.exact(0.002), 0.05)
    hours = at_once._hours(filling, 0.002, floor)
    assert (hours.warn * 3600.0, hours.act * 3600.0) == pytest.approx((50.5, 55.0))
    assert hours.harm == NEVER  # only 50 L may come over it
    assert at_once._hours(filling, 0.0, floor).all_three == (NEVER, NEVER, NEVER)


def test_an_emptied_sump_leaves_the_float_to_go_on_by_hand() -> None:
    """The pump has 105 L to give at two litres a second; after 52.5 s a float lets in 0.1 L/s, from a line."""
    floor = thresholds_of(loads(LIVED).plan, 35.0)["floor"]
    filling = at_once.Filling(0.1, Estimate.exact(0.002), NEVER, 0.105, 0.0001)
    hours = at_once._hours(filling, 0.002, floor)
    by_float = [52.5 + (0.1 + level - 0.105) / 0.0001 for level in (0.01, 0.15)]
    assert [3600.0 * one for one in hours.all_three] == pytest.approx([50.5, *by_float])
    shut = at_once._hours(replace(filling, after=0.0), 0.002, floor)
    assert (shut.act, shut.harm) == (NEVER, NEVER)


def test_a_comb_blocked_over_a_slow_endless_float_takes_hours() -> None:
    """Skerry's comb with a float from the mains: what the sump cannot give comes as slowly as the float lets it."""
    endless = changed(LIVED, ('flow = "2 L/min"\nstock = "300 L"', 'flow = "0.1 L/min"'))
    quick, slow = (likely(found(text).at_once("comb")).harm for text in (LIVED, endless))
    assert slow >= quick
    basis = found(endless).basis
    own = next(drain for drain in basis.flow.drains if drain.vessel == "tank").held
    gives = sum(one.volume for one in own.sunk.values())
    room = 6.0 * (1.88 - basis.flow.levels["tank"])
    wanted = room + 0.15
    flow = basis.flow.over(lambda running: running.inflow["tank"]).likely
    by_hand = wanted / flow if wanted <= gives else gives / flow + (wanted - gives) / (1e-4 / 60.0)
    assert slow * 3600.0 == pytest.approx(by_hand, rel=1e-6)


def test_the_one_comb_blocked_as_worked_by_hand() -> None:
    """A tank of 6 m2 whose brim is at 0.88 m, fed by the pump until the sump is down at its intake."""
    one = found(LIVED)
    basis, facts = one.basis, one.at_once("comb")
    flow, stands = basis.flow.over(lambda running: running.inflow["tank"]).likely, basis.flow.levels["tank"]
    room = 6.0 * (1.88 - stands)
    times = [3600.0 * hours for hours in likely(facts).all_three]
    sump = next(drain for drain in basis.flow.drains if drain.vessel == "tank").held.sunk["sump"]
    gives = 1.28 * (0.40 - sump.end)
    assert times[:2] == pytest.approx([(room + level) / flow for level in (0.001, 0.01)], rel=1e-6)
    by_float = gives / flow + (room + 0.15 - gives) / (0.002 / 60.0)  # the sump is empty: 2 L/min go on
    assert times[2] == pytest.approx(by_float, rel=1e-6)
    assert facts.spills is not None
    # what the sump gives from 0.40 m down to where the pump starves, and its barrel through the float, less the room
    sunk = next(drain for drain in basis.flow.drains if drain.vessel == "tank").held.sunk["sump"]
    given_up = 1.28 * (0.40 - sunk.end) + 0.3
    assert facts.spills.likely == pytest.approx(given_up - room, rel=0.02)


def test_a_bottle_emptied_at_once_as_worked_by_hand() -> None:
    """5 L of 100 g/L are 500 g of Na2CO3, 105.99 g/mol, two equivalents to each: 9.435 eq in all the water."""
    one = found(LIVED)
    rise = 2.0 * 500.0 / 105.99 / one.basis.setting.volume
    facts = one.at_once("doser.soda")
    told, safe = facts.numbers
    assert told[0] == pytest.approx(rise, rel=1e-4)
    assert told[1] == "mol/m3"
    assert safe[0] == pytest.approx(0.5 * 0.005 / rise, rel=1e-4)  # half a meq/L is harm
    assert likely(facts).all_three == (0.0, 0.0, 0.0)
    small = found(changed(LIVED, ('bottle = "5 L"', 'bottle = "0.5 L"')))
    assert likely(small.at_once("doser.soda")).all_three == (NEVER, NEVER, NEVER)
    acid = found(changed(LIVED, ('"sodium-carbonate"', '"calcium-chloride-dihydrate"')))
    assert list(at_once.doser_faults(acid.basis)) == []


OWN_SODA = """
[yours.reagents.soda]
source = "the bag"
kind = "carbonate"
molar_mass = "105.988 g/mol"
equivalents = "2"
calcium = "0"
magnesium = "0"
solubility = "180 g/L"
"""


def test_a_bottle_of_a_reagent_of_ones_own_is_reckoned_alike() -> None:
    own = found(changed(LIVED, ('"sodium-carbonate"', '"yours:soda"')) + OWN_SODA)
    assert own.at_once("doser.soda").numbers == found(LIVED).at_once("doser.soda").numbers


def test_hours_in_a_barrel_by_the_closed_form() -> None:
    """C' = k*(C_s - C)*A/V - U/V from saturation: exponential towards C_s - U/(k*A)."""
    one = found(changed(LIVED, ('mass = "0.8 kg"', 'mass = "3 kg"'), ('grown = "1.2 kg"', 'grown = "3 kg"')))
    basis = one.basis
    (barrel,) = list(refuges_of(basis, one.levels["oxygen"]))
    full = float(oxygen.held_mass(basis.setting.sal_psu, basis.setting.temp_c, basis.air_pressure))
    area, fish, still = 0.3 / 0.6, basis.stock.fish_uptake, exchange("still-surface")

    def hours(speed: float, uptake: float) -> float:
        carries = 3600.0 * speed * area
        rest = full - uptake / carries
        return 0.3 / carries * math.log((full - rest) / (3.0 - rest))

    assert barrel.still.low == pytest.approx(hours(still.low, fish.high), rel=1e-6)
    assert barrel.still.likely == pytest.approx(hours(still.likely, fish.likely), rel=1e-6)
    assert barrel.still.high == pytest.approx(hours(still.high, fish.low), rel=1e-6)
    assert barrel.with_air > barrel.still.likely
    assert air_oxygen(basis, Stone(1e-4, 0.5, "fine")) > air_oxygen(basis, Stone(1e-4, 0.5, "coarse")) > 0.0


def last_days(said: str) -> tuple[float, float, float]:
    text = LIVED + (f"\n[measured]\nfilm = {said}\n" if said else "")
    row = table("fault_limits")["film"]
    last = glass._last(glass._habit(loads(text).plan, row), 0.15, 1.0)
    return last.low, last.likely, last.high


def test_the_last_safe_day_of_the_catalogue_by_hand() -> None:
    """1.5 days, then 4*(-ln(1 - 0.15))**(1/1.5): 1.5 + 4*0.2978 = 2.69 days."""
    low, usual, high = last_days("")
    assert usual == pytest.approx(1.5 + 4.0 * (-math.log(0.85)) ** (1.0 / 1.5))
    assert low < usual < high
    row = table("fault_limits")["film"]
    habit = glass._habit(loads(LIVED).plan, row)
    # twice the pace: half the days
    assert glass._last(habit, 0.15, 2.0).likely == pytest.approx(usual / 2.0)


def test_looks_of_ones_own_move_the_last_safe_day_their_way() -> None:
    plain = last_days("")
    clean = last_days(
        '["clean after 5 days", "clean after 6 days", "clean after 7 days", "clean after 8 days"]'
    )
    many = last_days(
        '["many after 2 days", "many after 2.5 days", "many after 3 days", "some after 1.5 days"]'
    )
    assert many[1] < plain[1] < clean[1]
    assert all(one[0] <= one[1] <= one[2] for one in (plain, clean, many))


def test_devices_that_stop_the_same_are_one_fault_each_other_stays() -> None:
    basis = found(LIVED).basis
    pump, air = OnCircuit("pump", "lift"), OnCircuit("air", "stones")
    dying = (
        Dying("a", "the breaker of circuit a", "breaker", (pump, air)),
        Dying("a.residual", "the residual-current device of circuit a", "residual", (air, pump)),
        Dying("b", "the breaker of circuit b", "breaker", (air,)),
        Dying("supply.main", "the main device", "main", (pump, air)),
        Dying("idle", "the breaker of circuit idle", "breaker", ()),
    )
    told = [
        one
        for one in faults_of(replace(basis, power=replace(basis.power, dying=dying)))
        if one.key.startswith("device.")
    ]
    assert [one.key for one in told] == [
        "device.a-winter",
        "device.a-summer",
        "device.b-winter",
        "device.b-summer",
    ]
    assert told[0].dies == {pump, air}
    assert told[0].title == "Circuit a off, winter: its breaker or residual-current device opens"


def test_what_hangs_on_a_battery_goes_on_when_its_device_opens() -> None:
    weak = changed(BATTERY, ('"device router"', '"device router", "pump lift"'))
    carries = changed(weak, ('power = "600 W"', 'power = "800 W"'))
    pump = OnCircuit("pump", "lift")

    def goes_on(text: str) -> float:
        one = found(text)
        return runs_for(one.basis, one.fault("device.wet-winter").case, pump)

    assert goes_on(LIVED) == 0.0
    assert goes_on(LIVED + weak) == 0.0, "1172 W by the likely start, of 1200 W; at the hardest 1572 W"
    held = goes_on(LIVED + carries)
    assert 0.0 < held < NEVER
    assert held == runs_for(found(LIVED + carries).basis, Case("winter", cut=True), pump)


def test_who_eats_nothing_breathes_no_more() -> None:
    """The filter's breath is counted with what it clears; no food leaves the rest as it is."""
    basis = found(LIVED).basis
    fed, hungry = (system_of(basis, Case("summer", eats=eats)).bodies[0].life for eats in (1.0, 0.0))
    assert hungry.uptake == pytest.approx(fed.uptake)
    assert hungry.excretion == 0.0 < fed.excretion


def test_half_the_fish_breathe_half() -> None:
    basis = found(LIVED).basis
    whole, half = (system_of(basis, Case("summer", breathes=share)).bodies[0].life for share in (1.0, 0.5))
    fish = basis.stock.now.fish
    assert fish is not None
    assert half.uptake == pytest.approx(whole.uptake - fish.likely / 2.0)


@pytest.mark.parametrize("key", ["power-summer", "pump.lift-summer", "filter", "hose", "top-off-open"])
def test_adverse_ends_come_no_later_and_mild_ends_no_sooner(key: str) -> None:
    facts = found(LIVED).run(key)
    assert facts.latest is not None
    trios = zip(soonest(facts).all_three, likely(facts).all_three, facts.latest.all_three, strict=True)
    assert all(early <= usual <= late for early, usual, late in trios)
    warn, act, harm = likely(facts).all_three
    assert warn <= act <= harm
