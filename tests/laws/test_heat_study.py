"""The small parts of the heat study: sums by month, hours to a level, the worst days, covers, dials, words."""

from __future__ import annotations

from dataclasses import fields, is_dataclass, replace
from decimal import Decimal
from functools import cache, partial

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.journeys.heat_plans import CHILLER, COLD, COVER, FAN, HEATERS, HOUSE, MONEY, OPEN, ROUND
from tidestead.core.answer import Estimate
from tidestead.core.source import YOURS
from tidestead.core.weather import HOURS, MONTH_DAYS, MONTH_OF_HOUR, WeatherYear
from tidestead.desk.weather import weather_for
from tidestead.intake.sun import sun_path
from tidestead.physics.heat.system import Layer, Side, Wall
from tidestead.plan import loads
from tidestead.plan.model import Cover
from tidestead.studies import flow, light
from tidestead.studies.heat.assembly import Basis, assemble, basis_of
from tidestead.studies.heat.cases import Span, extreme, reached, summer, turned
from tidestead.studies.heat.dials import AS_PLANNED, Dials
from tidestead.studies.heat.running import by_month, day_means, on_all_cores, over_years
from tidestead.studies.heat.shell import loosened, sheet_of
from tidestead.studies.heat.waters import cover_hours
from tidestead.studies.heat.wording import (
    JOULE_KWH,
    between,
    cost,
    count_between,
    hours_words,
    money_between,
    price_of_heat,
)
from tidestead.studies.house import Glazing, house_of
from tidestead.studies.inputs import Inputs

TEMPS = st.lists(st.floats(-20.0, 35.0), min_size=2, max_size=60)


def year_of(temp_c: np.ndarray) -> WeatherYear:
    flat = np.zeros(HOURS)
    return WeatherYear(
        "made up", temp_c, flat + 0.8, flat + 101325.0, flat + 3.0, flat + 100.0, flat + 50.0, flat + 90.0, flat + 300.0
    )  # fmt: skip


@given(st.integers(0, 2**32 - 1))
def test_sums_by_month_keep_the_whole(seed: int) -> None:
    hours = np.random.default_rng(seed).normal(size=HOURS)
    assert by_month(hours).sum() == pytest.approx(hours.sum())
    assert day_means(hours).mean() == pytest.approx(hours.mean())


def test_months_have_their_hours() -> None:
    assert list(by_month(np.ones(HOURS))) == [24 * days for days in MONTH_DAYS]
    first = np.zeros(HOURS)
    first[24 * 31] = 1.0
    assert list(by_month(first).nonzero()[0]) == [1]


@given(TEMPS, st.floats(-20.0, 35.0))
def test_a_level_is_reached_where_the_curve_first_is_at_it(temps: list[float], level: float) -> None:
    """At the hour that is told a line through the points stands at the level, and before it the curve is above."""
    hours = reached(temps, level)
    if hours is None:
        assert min(temps) > level
        return
    whole = int(np.ceil(hours))
    assert all(temp > level for temp in temps[:whole])
    at = float(np.interp(hours, np.arange(len(temps)), temps))
    assert at == pytest.approx(level, abs=1e-9) or hours == 0.0


def test_hours_to_a_level_by_hand() -> None:
    assert reached((24.0, 23.0, 21.0), 22.0) == pytest.approx(1.5)
    assert reached((24.0, 23.0), 23.0) == pytest.approx(1.0)
    assert reached((20.0, 19.0), 22.0) == 0.0
    assert reached((24.0, 23.0), 10.0) is None


@given(st.integers(0, 364), st.integers(1, 20), st.sampled_from([-1.0, 1.0]))
def test_the_worst_days_are_found_wherever_they_lie(day: int, days: int, sign: float) -> None:
    """Days that stand out by ten kelvin, over the turn of the year too; three days are kept on both sides."""
    daily = np.zeros(365)
    daily[(day + np.arange(days)) % 365] = 10.0 * sign
    span = extreme(year_of(np.repeat(daily, 24)), days, sign)
    assert span == Span(24 * ((day - 3) % 365), 24 * (days + 6))


def test_summer_is_warm_on_both_halves_of_the_earth() -> None:
    hours = np.arange(HOURS)
    north = year_of(10.0 - 10.0 * np.cos(2.0 * np.pi * (hours - 24 * 20) / HOURS))
    south = year_of(10.0 + 10.0 * np.cos(2.0 * np.pi * (hours - 24 * 20) / HOURS))
    for weather, middle in ((north, 20 + 182.5), (south, 20 + 365)):
        span = summer(weather)
        assert span.hours == 24 * 66
        assert ((span.first + span.hours / 2) / 24 - middle) % 365 == pytest.approx(0.0, abs=2.0) or (
            middle - (span.first + span.hours / 2) / 24
        ) % 365 == pytest.approx(0.0, abs=2.0)


def test_a_year_turned_is_warmer_and_brighter_and_else_the_same() -> None:
    plain = year_of(np.linspace(-5.0, 25.0, HOURS))
    assert turned(plain, AS_PLANNED) is plain
    other = turned(plain, Dials(warmer=3.0, sun=1.3))
    assert other.temp_c - plain.temp_c == pytest.approx(np.full(HOURS, 3.0))
    for name in ("beam", "diffuse", "total"):
        assert getattr(other, name) == pytest.approx(1.3 * getattr(plain, name))
    assert other.humidity is plain.humidity
    assert other.sky is plain.sky


def cover(**said: object) -> Cover:
    return Cover.model_validate({"over": "tank", "share": "80 %", **said})


def test_covers_lie_when_they_are_said_to() -> None:
    """All day in its months; by night only in hours in which the sun is down all through; of two the larger."""
    sun = sun_path(52.0, 5.0, 5.0, 1.0)
    always = cover_hours([cover()], sun)
    assert set(always) == {0.8}
    winter = cover_hours([cover(months="Nov to Feb")], sun)
    assert set(MONTH_OF_HOUR[winter > 0.0]) == {10, 11, 0, 1}
    night = cover_hours([cover(when="night")], sun)
    assert np.all(night[sun.up > 0.0] == 0.0)
    assert np.all(night[sun.up <= 0.0] == 0.8)
    both = cover_hours([cover(when="night"), cover(share="30 %")], sun)
    assert set(both) == {0.3, 0.8}
    assert not np.any(cover_hours([], sun))


def test_a_polar_winter_s_night_is_covered_all_day() -> None:
    night = cover_hours([cover(when="night")], sun_path(78.0, 15.0, 5.0, 1.0))
    assert np.all(night[MONTH_OF_HOUR == 11] == 0.8)
    assert np.all(night[MONTH_OF_HOUR == 5] == 0.0)


@cache
def basis(text: str) -> Basis:
    loaded = loads(text)
    told = weather_for(loaded)
    inputs = Inputs(loaded.plan, "metric", told.weather, told.reason)
    assert told.weather is not None
    house = house_of(loaded.plan)
    return basis_of(loaded.plan, house, flow.find(inputs), light.find(inputs), told.weather.sun)


PLANS = pytest.mark.parametrize("text", [HOUSE, COLD, OPEN, ROUND, HOUSE + COVER + CHILLER + FAN])


def same(one: object, other: object) -> bool:
    """Whether two parts of a system are alike to the last digit, arrays and all."""
    if isinstance(one, np.ndarray) and isinstance(other, np.ndarray):
        return bool(np.array_equal(one, other))
    if isinstance(one, tuple) and isinstance(other, tuple):
        return len(one) == len(other) and all(map(same, one, other))
    if is_dataclass(one):
        return type(one) is type(other) and all(
            same(getattr(one, each.name), getattr(other, each.name)) for each in fields(one)
        )
    return one == other


@PLANS
def test_dials_in_their_rest_are_the_plan(text: str) -> None:
    assert same(assemble(basis(text)), assemble(basis(text), AS_PLANNED))
    assert Dials() == AS_PLANNED
    assert {getattr(AS_PLANNED, each.name) for each in fields(Dials)} == {0.0, 1.0, None}


TURNED = [
    Dials(glazing=0.7), Dials(draughts=0.7), Dials(evaporation=0.7), Dials(machines=0.7), Dials(sides=0.7),
    Dials(ground=0.7), Dials(volume=0.7), Dials(wind=0.7), Dials(setpoint=-2.0), Dials(cover=0.9),
    Dials(night_cover=0.9), Dials(insulated=1.4), Dials(vents=False), Dials(shade=False), Dials(chiller=False),
    Dials(fan=2.0), Dials(chills=900.0), Dials(heaters=0.5), Dials(stuck=0), Dials(heater_most=100.0),
]  # fmt: skip
"""Every dial that changes the system, turned alone; `warmer` and `sun` change the weather."""


def turned_dial(dials: Dials) -> str:
    """The name of the one dial that is not as planned."""
    names = [each.name for each in fields(Dials)]
    (name,) = [name for name in names if getattr(dials, name) != getattr(AS_PLANNED, name)]
    return name


@pytest.mark.parametrize("dials", TURNED, ids=turned_dial)
def test_every_dial_changes_the_system(dials: Dials) -> None:
    plan = basis(HOUSE + CHILLER)
    assert not same(assemble(plan), assemble(plan, dials))


def test_every_dial_is_tried() -> None:
    assert {*map(turned_dial, TURNED), "warmer", "sun"} == {each.name for each in fields(Dials)}


@PLANS
def test_dials_scale_what_they_name_and_nothing_else(text: str) -> None:
    plan = basis(text)
    plain, more = assemble(plan), assemble(plan, Dials(volume=1.3))
    for one, other in zip(plain.bodies, more.bodies, strict=True):
        assert other.stores == pytest.approx(1.3 * one.stores)
        assert same(replace(other, stores=one.stores), one)
    assert same(plain.walls, more.walls)
    warm = assemble(plan, Dials(setpoint=2.0))
    for before, after in zip(plain.heatings, warm.heatings, strict=True):
        assert after.setpoint_c == pytest.approx(before.setpoint_c + 2.0)
    cool = assemble(plan, Dials(setpoint=-2.0))
    for before, after in zip(plain.heatings, cool.heatings, strict=True):
        assert after.setpoint_c == pytest.approx(before.setpoint_c - (0.0 if before.cools else 2.0))


def test_heaters_never_agree_and_one_stuck_never_stops() -> None:
    plain = assemble(basis(HOUSE)).heatings
    assert len({one.setpoint_c for one in plain}) == 4
    stuck = assemble(basis(HOUSE), Dials(stuck=2)).heatings
    assert [one.setpoint_c > 90.0 for one in stuck] == [False, False, True, False]
    tried = assemble(basis(HOUSE), Dials(heater_most=9000.0)).heatings
    assert [one.power for one in tried] == [9000.0, 0.0, 0.0, 0.0]
    (bare,) = assemble(basis(COLD), Dials(heater_most=9000.0)).heatings
    assert (bare.power, bare.setpoint_c) == (9000.0, 26.0)


@given(st.floats(0.3, 3.0))
def test_loosened_layers_pass_so_much_more_and_store_the_same(factor: float) -> None:
    layers = (Layer(0.1, 0.04, 30.0, 1400.0), Layer(resistance=0.5), Layer(0.15, 1.7, 2300.0, 900.0))
    loose = loosened(layers, factor)
    assert sum(one.ohms for one in loose) == pytest.approx(sum(one.ohms for one in layers) / factor)
    assert [(one.thickness, one.density, one.heat) for one in loose] == [
        (one.thickness, one.density, one.heat) for one in layers
    ]


def glazing(walls: int, light: float = 0.7) -> Glazing:
    return Glazing("x", "X", 3.4 if walls > 1 else 5.8, light, walls, 1.585, 2.0, YOURS, YOURS)


@given(st.integers(1, 6), st.floats(0.01, 1.0))
def test_no_sheet_makes_light_whatever_its_maker_prints(walls: int, light: float) -> None:
    """More than plain plates could let through is printed at times: then nothing stays in it, and never less."""
    sheet = sheet_of(glazing(walls, light), 1.0)
    assert sheet.beam[0, 0] == pytest.approx(light)
    assert np.min(sheet.beam) >= 0.0
    assert np.max(np.sum(sheet.beam, axis=1)) <= 1.0 + 1e-12


def test_a_second_pane_is_what_less_heat_through_a_single_one_is() -> None:
    assert sheet_of(glazing(1), 1.0).gaps == ()
    assert sheet_of(glazing(1), 1.3).gaps == ()
    less, more = sheet_of(glazing(1), 0.6), sheet_of(glazing(3), 0.6)
    assert len(less.gaps) == len(more.gaps) == 1
    assert less.gaps[0] > more.gaps[0]
    assert less.beam[0, 0] == pytest.approx(sheet_of(glazing(1), 1.0).beam[0, 0])


def test_every_square_metre_of_the_vessel_has_a_side() -> None:
    """Walls as far as they are wetted, and the floor: 3.7 by 2 m, 1.5 m of water."""
    (body,) = assemble(basis(HOUSE)).bodies
    walls = sum(side.area for side in body.sides if side.onto == "room")
    floors = sum(side.area for side in body.sides if side.onto == "ground")
    assert walls == pytest.approx(2.0 * (3.7 + 2.0) * 1.5)
    assert floors == pytest.approx(3.7 * 2.0)
    assert {side.onto for side in assemble(basis(OPEN)).bodies[0].sides} == {"weather", "ground"}


def test_the_house_is_closed() -> None:
    """Clear and solid parts of all faces and the free floor make the whole shell: no face is lost or counted twice."""
    system, house = assemble(basis(HOUSE)), basis(HOUSE).house
    shell = sum(face.area for face in house.faces) + house.floor_area - 3.7 * 2.0
    assert area(system.walls) + sum(one.area for one in system.windows) == pytest.approx(shell)


def area(parts: tuple[Wall | Side, ...]) -> float:
    return sum(one.area for one in parts)


KWH = st.floats(10.0, 99000.0)


@given(KWH, KWH)
def test_energy_in_words_is_right_to_three_digits(one: float, other: float) -> None:
    low, high = sorted((one, other))
    words = between(Estimate(low * JOULE_KWH, low * JOULE_KWH, high * JOULE_KWH, ""), "J", "metric")
    assert words.count("kWh") == 1
    told = [
        float(part.replace("\u00a0", "").replace(" ", ""))
        for part in words.removesuffix(" kWh").split(" to ")
    ]
    assert told[0] == pytest.approx(low, rel=0.0051)
    assert told[-1] == pytest.approx(high, rel=0.0051)


def test_words() -> None:
    assert between(Estimate(24.0, 24.5, 25.0, ""), "degC", "metric") == "24 to 25 °C"
    assert between(Estimate(25.0, 25.0, 25.0, ""), "degC", "us") == "77 °F"
    assert count_between(Estimate(3.2, 8.0, 12.9, "")) == "3 to 13"
    assert count_between(Estimate(3.2, 3.2, 3.2, "")) == "3"
    assert [hours_words(hours) for hours in (None, 0.4, 31.0, 47.6, 48.0, 52.3, 72.2)] == [
        "not within 5 days", "0 h", "31 h", "48 h", "2 days", "2 days 4 h", "3 days",
    ]  # fmt: skip


def test_money_by_hand() -> None:
    """2500 kWh of heat at 0.30 are 750; with a yield of 3 they are 250."""
    plan = loads(HOUSE).plan
    assert price_of_heat(plan) == (Decimal("0.30"), "EUR")
    assert cost(2500.0 * JOULE_KWH, (Decimal("0.30"), "EUR")) == Decimal(750)
    pump = loads(HOUSE.replace(HEATERS, HEATERS + "yields = 3\n")).plan
    found = price_of_heat(pump)
    assert found is not None
    assert float(found[0]) == pytest.approx(0.10)
    assert price_of_heat(loads(HOUSE.replace(MONEY, "")).plan) is None
    assert price_of_heat(loads(COLD).plan) is None
    wide = Estimate(2000.0 * JOULE_KWH, 2500.0 * JOULE_KWH, 3333.0 * JOULE_KWH, "")
    assert money_between(wide, (Decimal("0.30"), "EUR"), "metric") == "600 to 1000 EUR"
    assert money_between(wide, (Decimal("0.30"), "USD"), "us") == "600 to 1,000 USD"


def test_tenths_of_years() -> None:
    found = over_years([float(value) for value in range(11)])
    assert (found.low, found.likely, found.high) == (1.0, 5.0, 9.0)


def test_jobs_come_back_in_their_order() -> None:
    jobs = [partial(pow, number, 2) for number in range(50)]
    assert on_all_cores(jobs) == [number * number for number in range(50)]
    assert on_all_cores([lambda: 7]) == [7]
