"""What cannot be told leaves a fault unproven; a sunk sump is seen; levels of the plan in a wrong order are told."""

from __future__ import annotations

import math

import pytest

from tests.journeys.fault_plans import LIVED, answer, calm, check_of, found, one_of, whole
from tests.journeys.flow_plans import changed
from tidestead.core.answer import Verdict
from tidestead.core.charts import LineChart
from tidestead.physics.transient.engine import run
from tidestead.plan import loads
from tidestead.studies.faults.case import Case
from tidestead.studies.faults.charts import _chosen
from tidestead.studies.faults.facts import Hours
from tidestead.studies.faults.normal import system_of
from tidestead.studies.faults.running import _sunk
from tidestead.studies.faults.thresholds import moved_words, thresholds_of

NEVER = math.inf
LIFELESS = changed(
    LIVED,
    (LIVED[LIVED.index("[feed]") : LIVED.index("[filters.rock]")], ""),
)


def test_without_weather_no_fault_that_needs_it_is_sound() -> None:
    """A circuit with nothing but heaters on it is no better known than its heaters."""
    told = answer(calm("skerry"))
    for key in ("heater-off", "device.heat", "top-off-shut", "absent", "heater-on"):
        check = check_of(told, f"{key}.in_time")
        assert check.verdict is Verdict.UNPROVEN, key
        assert "not known" in check.missing, key
    cut = check_of(told, "power-winter.in_time")
    assert cut.verdict in (Verdict.UNPROVEN, Verdict.FAILS)


def test_where_nothing_breathes_a_power_cut_is_unproven_and_says_what_to_write() -> None:
    told = answer(LIFELESS)
    check = check_of(told, "power-summer.in_time")
    assert check.verdict is Verdict.UNPROVEN
    assert "nothing in the plan breathes" in check.missing
    assert "[feed]" in check.missing or "[fish" in check.missing


def test_what_harms_by_what_is_known_fails_whatever_is_not() -> None:
    """Oxygen alone shows that nobody is there in time; the cold could only make it worse."""
    rarely = LIVED[: LIVED.index("[response]")] + '[response]\nlooks = ["08:00"]\ntravel = "10 min"\n'
    one = one_of(whole(rarely), "power-summer")
    assert "not known" in one.untold
    assert one.reaches
    check = check_of(answer(rarely), "power-summer.in_time")
    assert check.verdict is Verdict.FAILS
    assert "Not counted: how cold or warm" in " ".join(check.cautions)


def test_a_sump_that_has_lost_a_tenth_is_seen() -> None:
    """Water pumped onto the floor: a tenth of the sump's water is gone after a tenth of its volume over the flow."""
    basis = found(LIVED).basis
    course = run(system_of(basis, Case("winter", burst=True, top_off="shut")), 1.0, 10.0)
    flow = sum(basis.feeds.values())
    assert _sunk(course) * 3600.0 == pytest.approx(0.1 * basis.pools[1].volume / flow, abs=10.0)
    still = run(system_of(basis, Case("winter")), 1.0, 60.0)
    assert _sunk(still) == NEVER


@pytest.mark.parametrize(
    ("said", "key", "taken"),
    [
        ('oxygen_warn = "2 mg/L"', "thresholds.oxygen_warn", "4 mg/L is taken"),
        ('hot_harm = "24 degC"', "thresholds.hot_harm", "31 \N{DEGREE SIGN}C is taken"),
        ('ammonia_act = "0.2 mg/L"', "thresholds.ammonia_act", "0.09 mg/L is taken"),
        ('salinity_act = "9 psu"', "thresholds.salinity_act", "7 psu is taken"),
    ],
)
def test_a_level_in_a_wrong_order_is_told_with_what_is_taken(said: str, key: str, taken: str) -> None:
    plan = loads(LIVED + f"\n[thresholds]\n{said}\n").plan
    (words,) = moved_words(plan, thresholds_of(plan, 35.0), 35.0, "metric")
    assert words.startswith(f"{key}: ")
    assert taken in words


def test_levels_in_order_are_told_by_whose_they_are() -> None:
    said = 'oxygen_harm = "2 mg/L"\nsalinity_act = "2 psu"'
    plan = loads(LIVED + f"\n[thresholds]\n{said}\n").plan
    levels = thresholds_of(plan, 35.0)
    assert not list(moved_words(plan, levels, 35.0, "metric"))
    assert levels["oxygen"].own == ("harm",)
    assert levels["salt"].own == levels["fresh"].own == ("act",)
    assert levels["ammonia"].own == ()
    rows = next(
        one for one in answer(LIVED + f"\n[thresholds]\n{said}\n").tables if one.id == "faults.levels"
    ).rows
    assert any(str(row[-1]).startswith("your plan (harm); else ") for row in rows)


def test_slow_faults_are_not_drawn_where_quick_ones_are() -> None:
    ran = [one for one in whole(LIVED).faults if one.curves is not None]
    chosen = _chosen(ran, "oxygen")
    assert chosen
    assert all(one.until <= 120.0 for one in chosen)
    assert isinstance(chosen[0].soonest, Hours)


def test_the_chance_of_an_absence_is_the_mean_of_its_faults() -> None:
    text = changed(LIVED, ('does = "30 min"', 'does = "30 min"\nabsent = "2 days"'))
    chances = [one.chain.chance for one in whole(text).faults if one.chain is not None]
    known = [one for one in chances if one is not None]
    figure = next(one for one in answer(text).figures if one.id == "faults.absence")
    assert figure.estimate.likely == pytest.approx(sum(known) / len(known))
    assert 0.0 < figure.estimate.likely < 1.0
    assert not any(one.id == "faults.absence" for one in answer(LIVED).figures)


def test_the_level_of_the_sump_is_its_water_over_its_area() -> None:
    """A burst hose draws the sump down to its intake: so much water over so much area, and all of it on the floor."""
    one = found(LIVED)
    hose = one.run("hose")
    sump, curves = one.basis.pools[1], hose.curves
    assert curves is not None
    fallen = -min(curves.level)
    assert fallen == pytest.approx((sump.volume - sump.intake) / sump.area, rel=0.02)
    assert curves.level[0] == 0.0
    assert len(curves.level) == len(curves.hours)


def test_level_and_floor_have_their_pictures() -> None:
    charts = {chart.id: chart for chart in answer(LIVED).charts}
    level, flood = charts["faults.level"], charts["faults.flood"]
    assert isinstance(level, LineChart)
    assert isinstance(flood, LineChart)
    assert level.unit == "m"
    assert "Hose of the main pump bursts" in {curve.name for curve in flood.curves}
    assert [mark.words for mark in flood.limits] == ["warn", "act", "harm"]
    assert not any(
        name.startswith(("Power cut", "Main pump")) for name in (curve.name for curve in level.curves)
    )
