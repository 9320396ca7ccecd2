"""The faults study from plan to answer: every fault is there, emergency figures follow the plan, odd plans answer."""

from __future__ import annotations

import json
import math
from collections.abc import Iterator
from dataclasses import replace

import jsonschema
import pytest

from tests.journeys.fault_plans import (
    LIVED,
    answer,
    calm,
    check_of,
    example_found,
    found,
    likely,
    one_of,
    soonest,
    warmed,
    whole,
)
from tests.journeys.first_answers import METRIC
from tests.journeys.flow_plans import changed
from tests.journeys.power_plans import SHED
from tests.journeys.worked import off
from tests.laws.test_report_json import CLOSED, explained
from tests.laws.test_report_json import faults as misfits
from tidestead import desk
from tidestead.core.answer import Answer, Figure, Verdict
from tidestead.core.charts import HoursChart
from tidestead.core.source import YOURS
from tidestead.plan import loads, starter_text
from tidestead.plan.first import plan_text
from tidestead.plan.parts import removed
from tidestead.report import as_json
from tidestead.studies.faults.facts import FaultFacts, FaultsFacts, Hours
from tidestead.studies.faults.study import NO_PEOPLE

EACH = pytest.mark.parametrize("name", ["skerry", "packhouse"])
ONE_QUICKLY = pytest.mark.parametrize("name", ["skerry", pytest.param("packhouse", marks=pytest.mark.long)])
RANK = {Verdict.SOUND: 0, Verdict.NEAR: 1, Verdict.UNPROVEN: 2, Verdict.FAILS: 3}

ALWAYS = {
    "power-winter", "power-summer", "pump.return", "heater-off", "heater-on", "top-off-shut", "leak", "seal", "foam",
    "hose", "filter", "death", "overfed", "absent", "device.heat", "comb", "drain", "doser.soda",
    "glass",
}  # fmt: skip
"""Faults of both examples: their keys are pointed at and never change."""

OWN = {
    "skerry": {"air", "device.water", "device.light"},
    "packhouse": {"chiller", "top-off-open", "top-off-lime", "device.a", "device.b"},
}
"""What only one of them has."""


def figure_of(told: Answer, ident: str) -> Figure:
    return next(one for one in told.figures if one.id == f"faults.{ident}")


def hours_of(told: Answer, ident: str) -> tuple[float, float, float]:
    """A time to harm: low, likely, high, h."""
    one = figure_of(told, f"{ident}.harm").estimate
    assert one is not None
    return one.low / 3600.0, one.likely / 3600.0, one.high / 3600.0


def no_sooner(one: Hours | None, other: Hours | None, near: float = 1e-9) -> bool:
    """Whether one run comes to no level sooner than another does, but for a share."""
    assert one is not None
    assert other is not None
    pairs = zip(one.all_three, other.all_three, strict=True)
    return all(after >= before * (1.0 - near) for after, before in pairs)


def endless(told: Answer) -> Iterator[str]:
    """Numbers of an answer that are none, by the name of what has them."""
    for check in told.checks:
        if check.estimate is not None:
            assert isinstance(check.limit, float), check.id
            numbers = (check.estimate.low, check.estimate.likely, check.estimate.high, check.limit)
            yield from (check.id for one in numbers if not math.isfinite(one))
        elif check.verdict is not Verdict.UNPROVEN:
            yield check.id
    for figure in told.figures:
        one = figure.estimate
        if one is None or not all(map(math.isfinite, (one.low, one.likely, one.high))):
            yield figure.id
    for table in told.tables:
        cells = [cell for row in table.rows for cell in row if isinstance(cell, float)]
        yield from (table.id for cell in cells if not math.isfinite(cell))


def document_of(told: Answer) -> None:
    """What `--json` prints, which the schema must take."""
    text = as_json.dump({"faults": told}, "reef.toml")
    document = json.loads(text, parse_constant=lambda word: pytest.fail(f"{word} is not JSON"))
    assert not misfits(document, jsonschema.Draft202012Validator(as_json.answers_schema()))
    assert not misfits(document, CLOSED)
    explained(document)


@EACH
def test_every_fault_is_there_with_hours_or_a_reason(name: str) -> None:
    facts = whole(warmed(name), warmed(name))
    assert {one.key for one in facts.faults} == ALWAYS | OWN[name]
    for one in facts.faults:
        assert (one.likely is not None) != bool(one.unproven), one.key
        assert len(one.acts) == 3, one.key
        assert one.never, one.key
        if one.likely is not None:
            assert one.until > 0.0
            assert not any(map(math.isnan, one.likely.all_three))
            assert one.chain is not None


@EACH
def test_numbers_are_numbers_and_json_takes_them(name: str) -> None:
    told = answer(warmed(name), warmed(name))
    assert list(endless(told)) == []
    ran = [step for one in told.working for step in one.steps if "= run(" in step.formula]
    assert ran
    plain = [replace(one, steps=tuple(step for step in one.steps if step not in ran)) for one in told.working]
    assert off(replace(told, working=tuple(plain))) == []
    assert len({check.id for check in told.checks}) == len(told.checks)
    document_of(told)


@ONE_QUICKLY
def test_runs_stand_in_order(name: str) -> None:
    for one in whole(warmed(name), warmed(name)).faults:
        if one.harm is None:
            continue
        assert one.harm.low <= one.harm.likely <= one.harm.high, one.key
        assert likely(one).warn <= likely(one).act <= likely(one).harm, one.key
        assert no_sooner(one.likely, one.soonest), one.key
        assert no_sooner(one.latest, one.likely), one.key


@ONE_QUICKLY
def test_devices_that_stop_the_same_are_told_once(name: str) -> None:
    one = found(warmed(name), warmed(name))
    told = [fault.dies for fault in map(one.fault, _devices(one.whole))]
    assert len(set(told)) == len(told)
    assert set(told) == {frozenset(dying.items) for dying in one.basis.power.dying if dying.device != "main"}


def _devices(facts: FaultsFacts) -> list[str]:
    return [f"{one.key}-winter" for one in facts.faults if one.key.startswith("device.")]


@EACH
@pytest.mark.parametrize("season", ["winter", "summer"])
def test_a_cover_lengthens_the_cold_and_never_the_oxygen(name: str, season: str) -> None:
    one = example_found(name)
    bare, lid = (one.run(f"power-{season}", covered, ("oxygen",)) for covered in (False, True))
    assert no_sooner(bare.likely, lid.likely)
    assert no_sooner(bare.soonest, lid.soonest)
    assert no_sooner(bare.latest, lid.latest)
    cold, kept = (one.run(f"power-{season}", covered, ("cold",)) for covered in (False, True))
    # a lid that lies on by day too keeps out a little sun: the first steps may come some minutes sooner
    assert no_sooner(kept.likely, cold.likely, 0.01)
    assert no_sooner(kept.soonest, cold.soonest, 0.01)
    if season == "winter":
        assert likely(kept).harm > likely(cold).harm + 0.5
        assert soonest(kept).harm > soonest(cold).harm + 0.5


def test_a_cover_off_the_plan_moves_both_figures_its_way() -> None:
    """Oxygen has more time without it, the cold less."""
    lid, bare = warmed("skerry"), removed(warmed("skerry"), "covers")
    with_lid, without = answer(lid, lid), answer(bare, bare)
    assert hours_of(without, "power-winter")[0] > hours_of(with_lid, "power-winter")[0]
    assert hours_of(without, "power-winter")[1] > hours_of(with_lid, "power-winter")[1] + 0.5
    assert hours_of(without, "heater-off")[1] < hours_of(with_lid, "heater-off")[1] - 0.5


MORE = (('mass = "0.6 kg"', 'mass = "1.8 kg"'), ('grown = "1.1 kg"', 'grown = "1.8 kg"'))
FED = (('daily = "35 g/day"', 'daily = "100 g/day"'),)


@pytest.mark.parametrize(
    ("changes", "moved"),
    [(FED, ("power-winter", "power-summer", "filter")),
     ((*MORE, *FED), ("power-winter", "filter"))],
)  # fmt: skip
def test_more_stock_and_more_food_shorten_the_figures(
    changes: tuple[tuple[str, str], ...], moved: tuple[str, ...]
) -> None:
    warm = warmed("skerry")
    few, many = answer(warm, warm), answer(changed(warm, *changes), warm)
    for ident in moved:
        assert hours_of(many, ident)[0] < 0.97 * hours_of(few, ident)[0], ident
        assert hours_of(many, ident)[1] <= hours_of(few, ident)[1], ident


@pytest.mark.parametrize("season", ["winter", "summer"])
def test_more_fish_on_the_same_food_never_lengthen_a_power_cut(season: str) -> None:
    """What breathes is bounded by what is fed, so that fish alone move it less than their food does, or not at all."""
    warm = warmed("skerry")
    few, many = answer(warm, warm), answer(changed(warm, *MORE), warm)
    pairs = [
        (hours_of(many, f"power-{season}")[end], hours_of(few, f"power-{season}")[end]) for end in range(3)
    ]
    assert all(more <= less + 1e-9 for more, less in pairs)
    assert pairs[0][0] < pairs[0][1], "at the adverse end more fish breathe more"


@pytest.mark.parametrize("season", ["winter", "summer"])
def test_a_battery_on_the_air_pump_lengthens_a_power_cut(season: str) -> None:
    warm = warmed("skerry")
    dead = changed(warm, ('starts = "battery"\nlasts = "16 h"\n', ""))
    longer = changed(warm, ('lasts = "16 h"', 'lasts = "48 h"'))
    harm = [hours_of(answer(text, warm), f"power-{season}") for text in (dead, warm, longer)]
    assert harm[0][1] < harm[1][1] - 1.0
    assert harm[1][1] < harm[2][1]
    assert harm[0][0] < harm[1][0] <= harm[2][0]


def test_a_larger_reservoir_makes_a_stuck_float_worse() -> None:
    small, large, line = (
        found(text).run("top-off-open")
        for text in (
            changed(LIVED, ('stock = "300 L"', 'stock = "60 L"')),
            changed(LIVED, ('stock = "300 L"', 'stock = "1000 L"')),
            changed(LIVED, ('stock = "300 L"\n', "")),
        )
    )
    assert small.spills is None
    assert large.spills is not None
    assert line.spills is not None
    assert large.spills.likely > 0.3
    assert line.spills.likely > 5.0 * large.spills.likely
    assert not small.reaches
    assert large.reaches
    assert "fed from a line" in line.words
    assert no_sooner(small.likely, large.likely)
    # two litres a minute into 0.512 m3 of room: the brim after 256 min, harm with 150 L over it after 75 min more
    floor = found(changed(LIVED, ('stock = "300 L"', 'stock = "1000 L"'))).run(
        "top-off-open", watched=("floor",)
    )
    assert likely(floor).harm == pytest.approx((512.0 + 150.0) / 120.0, rel=0.01)


@ONE_QUICKLY
def test_a_slower_minder_never_makes_a_verdict_better(name: str) -> None:
    warm = warmed(name)
    travel = {"skerry": '"10 min"', "packhouse": '"25 min"'}[name]
    slow = changed(warm, (f"travel = {travel}", 'travel = "3 h"'))
    slow = slow.replace('looks = ["08:00", "19:30"]', 'looks = ["08:00"]').replace(
        'does = "30 min"', 'does = "2 h"'
    )
    before = {check.id: check.verdict for check in answer(warm, warm).checks}
    after = {check.id: check.verdict for check in answer(slow, warm).checks}
    assert before.keys() == after.keys()
    assert all(RANK[after[key]] >= RANK[before[key]] for key in before)
    if name == "skerry":
        assert after != before


@pytest.mark.parametrize(
    ("said", "ident"),
    [('oxygen_harm = "3.9 mg/L"', "power-winter"), ('cold_harm = "19.5 degC"', "heater-off"),
     ('ammonia_harm = "0.04 mg/L"', "filter")],
)  # fmt: skip
def test_levels_of_ones_own_change_the_figures(said: str, ident: str) -> None:
    warm = warmed("skerry")
    stricter = answer(f"{warm}\n[thresholds]\n{said}\n", warm)
    assert hours_of(stricter, ident)[1] < hours_of(answer(warm, warm), ident)[1]


SILENT = LIVED[: LIVED.index("[feed]")]


def test_a_plan_that_is_silent_of_life_and_people_is_unproven_with_the_key_to_write() -> None:
    told, facts = answer(SILENT), whole(SILENT)
    assert list(endless(told)) == []
    assert all(check.verdict is Verdict.UNPROVEN for check in told.checks)
    reasons = {check.part: check.missing for check in told.checks}
    assert all(reasons.values())
    assert "[fish.NAME]" in reasons["death"]
    assert "[feed] with daily" in reasons["filter"]
    assert reasons["comb"] == reasons["leak"] == NO_PEOPLE
    assert "[response]" in NO_PEOPLE
    assert {"power-winter", "hose", "absent"} <= {one.key for one in facts.faults}
    document_of(told)


@ONE_QUICKLY
def test_without_weather_what_needs_none_is_told(name: str) -> None:
    told, facts = answer(calm(name)), whole(calm(name))
    assert list(endless(told)) == []
    assert one_of(facts, "heater-off").unproven
    assert soonest(one_of(facts, "power-winter")).harm > 0.0
    assert soonest(one_of(facts, "hose")).harm > 0.0
    document_of(told)


ODD = {
    "no circuits": changed(
        calm("packhouse")[: calm("packhouse").index("[circuits.main]")], (', blower = "device blower"', "")
    ),
    "only a display": SHED,
    "no display": changed(SILENT, ('role = "display"', 'role = "vat"')),
    "starter, metric": starter_text("metric"),
    "starter, us": starter_text("us"),
    "a first plan": plan_text(METRIC).text.replace(
        "[weather.cold_spell]", "[weather]\nyears = 2\n\n[weather.cold_spell]"
    ),
    "one line": 'tidestead = 1\nname = "nothing"\n',
}


@pytest.mark.parametrize("text", ODD.values(), ids=ODD.keys())
def test_odd_plans_answer_without_a_trace(text: str) -> None:
    facts = desk.facts(loads(text), "faults")
    told = desk.answer(loads(text), ["faults"])["faults"]
    assert told.checks
    assert told.sentence
    assert list(endless(told)) == []
    assert all(_told(one) for one in facts.faults)
    document_of(told)


def _told(one: FaultFacts) -> bool:
    return one.likely is not None or bool(one.unproven)


def test_no_display_says_what_to_write() -> None:
    told = desk.answer(loads(ODD["no display"]), ["faults"])["faults"]
    (check,) = told.checks
    assert check.verdict is Verdict.UNPROVEN
    assert 'role = "display"' in check.missing


def test_an_alarm_dead_with_the_mains_is_said_and_one_on_a_battery_acts_sooner() -> None:
    warm = warmed("packhouse")
    alive = changed(
        warm,
        ('watches = ["temperature"], power = "mains", network = "house", hangs_on = ["device controller"]',
         'watches = ["temperature", "power"], power = "battery", network = "mobile"'),
    )  # fmt: skip
    dead, lives = (one_of(whole(text, warm), "power-winter").chain for text in (warm, alive))
    assert dead is not None
    assert lives is not None
    died = "device controller, which it hangs on, dies with the power"
    assert dead.why_not == died
    assert lives.worst < dead.worst / 5.0
    assert died in " ".join(check_of(answer(warm, warm), "power-winter.in_time").cautions)


@ONE_QUICKLY
def test_the_month_with_more_light_grows_faster(name: str) -> None:
    film = whole(warmed(name), warmed(name)).film
    assert film is not None
    assert sum(film.growth) == pytest.approx(12.0)
    assert film.growth[5] > film.growth[0]
    assert film.growth[6] > film.growth[11]
    days = [last.likely for last in film.last]
    fastest, slowest = film.growth.index(max(film.growth)), film.growth.index(min(film.growth))
    assert days[fastest] == min(days)
    assert days[slowest] == max(days)
    assert all(list(month) == sorted(month) for month in film.shares)


def test_every_row_of_the_matrix_tells_the_check_of_its_own_fault() -> None:
    warm = warmed("skerry")
    told = answer(warm, warm)
    (matrix,) = [one for one in told.charts if isinstance(one, HoursChart)]
    checks = {check.where: check for check in told.checks if check.id.endswith(".in_time")}
    assert [(row.name, row.verdict, row.use) for row in matrix.rows] == [
        (name, checks[name].verdict.value, checks[name].use) for name in (row.name for row in matrix.rows)
    ]


def test_what_is_borne_on_a_window_names_whose_it_is() -> None:
    warm = warmed("skerry")
    own = changed(warm, ('every = "3 days"', 'every = "3 days"\nallowed = "20 %"'))
    for text, allowed, yours in ((warm, 0.15, False), (own, 0.2, True)):
        (patches,) = [one for one in answer(text, warm).checks if one.id == "faults.glass.patches"]
        assert patches.limit == pytest.approx(allowed)
        assert (patches.source == YOURS) is yours
