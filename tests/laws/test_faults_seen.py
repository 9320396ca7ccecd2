"""What shows to whom when something stops, and what the waters hold before: by hand, and by what must not change."""

from __future__ import annotations

import math
from dataclasses import replace
from functools import cache

import pytest

from tests.journeys.flow_plans import SMALL
from tidestead.desk.answering import facts
from tidestead.physics.transient.engine import run
from tidestead.plan import loads
from tidestead.studies.faults.at_once import limewater_faults
from tidestead.studies.faults.case import Case
from tidestead.studies.faults.cases import Fault, faults_of
from tidestead.studies.faults.facts import Chain, FaultFacts, Hours, Quantity
from tidestead.studies.faults.knobs import LIKELY, NAMES, Knobs, all_at, only
from tidestead.studies.faults.normal import system_of
from tidestead.studies.faults.response import chain_of
from tidestead.studies.faults.running import HELD_IN, Settled, _least
from tidestead.studies.faults.waters import Basis, basis_of
from tidestead.studies.power.people import pace_of

KEPT = (
    SMALL
    + """
[feed]
daily = "30 g/day"
protein = "45 %"

[fish.shoal]
vessel = "tank"
mass = "0.8 kg"
grown = "1.2 kg"
each = "50 g"

[filters.rock]
vessel = "tank"
surface = "30 m2"

[vessels.sump.top_off]
level = "0.40 m"
flow = "2 L/min"
stock = "300 L"

[kalkwasser]
share = "50 %"

[airpumps.stones]
vessel = "tank"
flow = "2 L/min"
depth = "0.6 m"

[supply]
volts = "230 V"
amps = "25 A"

[electrics.wet]
breaker = "16 A"
residual = "30 mA"
cable = "2.5 mm2"
length = "20 m"
feeds = ["pump lift", "device router"]

[devices.router]
power = "12 W"
must_run = true

[response]
looks = ["08:00", "20:00"]
travel = "1 h"
does = "30 min"
answers = "30 min"
absent = "3 days"
alarm = { watches = ["temperature"], power = "mains", network = "house", after = "10 min" }
"""
)
NEVER = math.inf


@cache
def basis(text: str = KEPT) -> Basis:
    loaded = loads(text)
    flow, heat, water, power = (facts(loaded, name) for name in ("flow", "heat", "water", "power"))
    found = basis_of(loaded.plan, water.setting, (flow, heat, water.stock, power))
    assert found is not None
    return found


def chained(fault: Fault, hours: Hours, text: str = KEPT, likely: Hours | None = None) -> Chain | None:
    pace = pace_of(basis(text).plan)
    assert pace is not None
    blank = FaultFacts(
        fault.key, fault.title, None, (), "", likely=likely or hours, soonest=hours, latest=hours
    )
    return chain_of(basis(text), fault, blank, pace)


HEAT = Fault("heat", "heater-off", "Heat stops", Case("winter"), ("oxygen", "cold"), plain=False)
FILTER = Fault("filter", "filter", "Filter lost", Case("summer"), ("ammonia", "oxygen"), plain=False)


def timed(
    warn: float, act: float, harm: float, by: Quantity, reached: dict[Quantity, tuple[float, float, float]]
) -> Hours:
    return Hours(warn, act, harm, by, reached)


def test_an_alarm_that_feels_warmth_does_not_hear_that_oxygen_is_low() -> None:
    cold: dict[Quantity, tuple[float, float, float]] = {
        "oxygen": (0.0, NEVER, NEVER),
        "cold": (6.0, 13.0, 37.0),
    }
    chain = chained(HEAT, timed(0.0, 13.0, 37.0, "cold", cold))
    assert chain is not None
    assert chain.noticed == "the alarm"
    assert dict(chain.parts)["until the alarm sees it"] == pytest.approx(6.0)


def test_nobody_who_looks_sees_ammonia_before_it_harms() -> None:
    reached: dict[Quantity, tuple[float, float, float]] = {
        "ammonia": (10.0, 15.0, 50.0),
        "oxygen": (1.0, NEVER, NEVER),
    }
    chain = chained(FILTER, timed(1.0, 15.0, 50.0, "ammonia", reached))
    assert chain is not None
    assert chain.best >= 50.0 + 0.5
    gasping: dict[Quantity, tuple[float, float, float]] = {
        "ammonia": (10.0, 15.0, 50.0),
        "oxygen": (1.0, 20.0, NEVER),
    }
    sooner = chained(FILTER, timed(1.0, 15.0, 50.0, "ammonia", gasping))
    assert sooner is not None
    assert 20.5 <= sooner.best < 21.6


def test_the_chance_goes_by_one_run_throughout() -> None:
    soon = timed(1.0, 2.0, 3.0, "cold", {"cold": (1.0, 2.0, 3.0)})
    late = timed(30.0, 40.0, 50.0, "cold", {"cold": (30.0, 40.0, 50.0)})
    own, other = chained(HEAT, late), chained(HEAT, soon, likely=late)
    assert own is not None
    assert other is not None
    assert other.chance == own.chance
    assert other.worst < own.worst


def test_where_nobody_comes_nobody_looks() -> None:
    alone = replace(HEAT, alone=True)
    hours = timed(0.0, 0.0, 400.0, "salt", {"salt": (0.0, 0.0, 400.0)})
    chain = chained(alone, hours)
    assert chain is not None
    assert chain.by_hour == pytest.approx((72.5,) * 24)
    assert chain.noticed == "who comes again"
    assert sum(hours for _, hours in chain.parts) == pytest.approx(72.5)
    assert chained(alone, hours, KEPT.replace('absent = "3 days"\n', "")) is None


def test_a_breaker_may_take_the_alarm_with_it() -> None:
    dies = next(one.dies for one in faults_of(basis()) if one.row == "device")
    hours = timed(6.0, 13.0, 37.0, "cold", {"cold": (6.0, 13.0, 37.0)})
    chain = chained(replace(HEAT, dies=dies), hours)
    assert chain is not None
    assert chain.why_not == "what it hangs on dies with this device"
    kept = KEPT.replace('power = "mains", network = "house"', 'power = "battery", network = "mobile"')
    heard = chained(replace(HEAT, dies=dies), hours, kept)
    assert heard is not None
    assert not heard.why_not


@pytest.mark.parametrize(
    "knobs", [LIKELY, all_at("adverse"), all_at("mild"), only("ammonia"), only("uptake")]
)
def test_everything_breathes_what_the_stock_says_and_no_more(knobs: Knobs) -> None:
    """Fish, all else and the filter at the ammonia it is given: together the uptake of that end."""
    uptake = basis().stock.uptake
    end = {"likely": uptake.likely, "adverse": uptake.high, "mild": uptake.low}[knobs.end("uptake")]
    life = system_of(basis(), Case("summer"), knobs).bodies[0].life
    assert life.uptake + life.fixed + 4.57 * life.excretion == pytest.approx(end, rel=1e-9)


def test_to_stop_feeding_makes_nothing_breathe_more() -> None:
    usual, hungry = (system_of(basis(), Case("summer", eats=eats)).bodies[0].life for eats in (1.0, 0.0))
    assert hungry.uptake == pytest.approx(usual.uptake)
    assert hungry.excretion == 0.0
    settled = Settled(basis())
    courses = [run(settled.system(Case("summer", eats=eats), LIKELY), 48.0, 300.0) for eats in (1.0, 0.0)]
    assert (courses[1].oxygen[0] >= courses[0].oxygen[0] - 1e-6).all()
    assert courses[1].oxygen[0, -1] > courses[0].oxygen[0, -1] + 0.05


def test_air_pumps_give_less_at_the_adverse_end() -> None:
    low, likely, high = (
        system_of(basis(), Case("summer"), Knobs({"bubbles": end})).bodies[0].air.bubbles
        for end in ("adverse", "likely", "mild")
    )
    assert low / likely == pytest.approx((1.0 - 0.97**0.6) / (1.0 - 0.951**0.6), rel=1e-6)
    assert low < likely < high


def test_limewater_by_hand() -> None:
    """40.5 meq/L, half of it limewater: 300 L bring 6.075 eq; half a milliequivalent a litre needs V/40.5 of it."""
    volume = basis().setting.volume
    fault, found = next(limewater_faults(basis()))
    assert fault.watched == ("alkalinity",)
    assert found.numbers[0][0] == pytest.approx(0.3 * 20.25 / volume)
    assert found.likely is not None
    assert found.likely.warn == pytest.approx(0.2 * volume / 20.25 / 0.12)
    full = 6.075 / volume >= 0.5
    assert math.isfinite(found.likely.harm) == full
    line = basis(KEPT.replace('stock = "300 L"\n', ""))
    endless = next(limewater_faults(line))[1]
    assert endless.likely is not None
    assert endless.likely.harm == pytest.approx(0.5 * volume / 20.25 / 0.12)
    assert not list(limewater_faults(basis(KEPT.replace('[kalkwasser]\nshare = "50 %"\n', ""))))


def test_what_goes_on_for_weeks_is_run_in_both_seasons() -> None:
    seasons: dict[str, set[str]] = {}
    for one in faults_of(basis()):
        seasons.setdefault(one.row, set()).add(one.case.season)
    assert seasons["top-off-shut"] == {"winter", "summer"}
    assert seasons["absent"] == {"winter", "summer"}


def test_who_comes_every_day_tops_up() -> None:
    """A filter that is lost is not told by a sump that nobody fills."""
    without = basis(KEPT.replace('level = "0.40 m"\nflow = "2 L/min"\nstock = "300 L"\n', "").replace(
        "[vessels.sump.top_off]\n", ""
    ))  # fmt: skip
    for waters in (basis(), without):
        for one in faults_of(waters):
            if one.row in {"filter", "death", "overfed"}:
                tops = system_of(waters, one.case).top_offs
                assert [top.stock for top in tops] == [NEVER], one.key
    assert not system_of(without, Case("winter")).top_offs


def test_the_soonest_is_the_soonest_of_all_runs() -> None:
    one = timed(1.0, 5.0, 9.0, "oxygen", {"oxygen": (1.0, 5.0, 9.0), "hot": (4.0, NEVER, NEVER)})
    other = timed(2.0, 3.0, 8.0, "hot", {"oxygen": (2.0, 6.0, NEVER), "hot": (3.0, 3.0, 8.0)})
    found = _least(one, other)
    assert found.all_three == (1.0, 3.0, 8.0)
    assert found.by == "hot"
    assert found.reached == {"oxygen": (1.0, 5.0, 9.0), "hot": (3.0, 3.0, 8.0)}
    assert HELD_IN.end("heat") == "mild"
    assert all(HELD_IN.end(name) == "adverse" for name in NAMES if name != "heat")
