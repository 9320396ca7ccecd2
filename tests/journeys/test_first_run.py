"""From nothing to a first answer: answers to plain questions become a plan, and the plan is answered."""

from __future__ import annotations

import tomllib
from typing import Any

import pytest

from tests.journeys.first_answers import METRIC, NEEDED, NEEDED_US, OTHERWISE, US
from tests.journeys.first_parts import BOTH, NEVER_TAKEN, TO_THE_TOP, at, leaves, varied, written_by
from tidestead import desk
from tidestead.core.answer import Verdict
from tidestead.core.units import System
from tidestead.plan import loads, starter_text
from tidestead.plan.editing import written
from tidestead.plan.first import plan_text, untouched
from tidestead.plan.first_questions import asked, blanks, questions

WRITTEN_IN = {1, "display", "box", "gable", "width", "sheet", "coating", "building", "sump", "bought", "basin",
              "sump.suction", "basin.jet", "basin.edge", "basin.spare", "sump.from_edge", "sump.from_spare", "inlet",
              "outlet", "spill", "weir", "standpipe", "seat", "free", "rim"}  # fmt: skip
"""Words of the plan that follow from a question itself, and are no figure."""


@BOTH
def test_structure_is_proven(answers: dict[str, str]) -> None:
    answer = desk.answer(loads(written_by(answers).text), ["structure"])["structure"]
    lost = [(check.where, check.what) for check in answer.checks if check.verdict is Verdict.UNPROVEN]
    assert len(answer.checks) > 50
    assert not lost
    assert answer.verdict in (Verdict.SOUND, Verdict.NEAR)


def test_one_journey_through_every_question_that_can_be_answered() -> None:
    """Water, warmth and light are told too, with figures, and what was typed decides them."""
    loaded = loads(
        written_by(METRIC).text.replace("[weather.normals]", "[weather]\nyears = 2\n\n[weather.normals]")
    )
    answers = desk.answer(loaded, ["flow", "heat", "light"])
    for name, answer in answers.items():
        lost = [check.what for check in answer.checks if check.verdict is Verdict.UNPROVEN]
        assert len(answer.checks) > 3, name
        assert not lost, name
    lift = {**METRIC, "pump_flow": "16 m3/h"}
    more = desk.answer(loads(written_by(lift).text), ["flow"])["flow"]
    turnover = {
        check.id: check.estimate.likely
        for check in (*answers["flow"].checks, *more.checks)
        if check.estimate is not None and "turnover" in check.id
    }
    assert len(turnover) == 1
    assert max(turnover.values()) > 1.25


def test_what_was_not_asked_is_unproven_with_its_reason() -> None:
    answers = desk.answer(loads(written_by(US).text), ["flow", "light"])
    assert answers["flow"].verdict is answers["light"].verdict is Verdict.UNPROVEN
    assert "describes no circuit" in answers["flow"].sentence
    assert "names no corals" in answers["light"].sentence


def test_weather_and_house_may_be_left_for_later() -> None:
    """What holds is told all the same; what stays open is unproven, with what it waits for."""
    plan = written_by({**METRIC, "weather": "later", "house": "later", "life": "fish"})
    values = tomllib.loads(plan.text)
    assert "weather" not in values
    assert set(values["building"]) == {"warmest_wood", "humidity"}
    answers = desk.answer(loads(plan.text), ["structure", "heat"])
    assert answers["structure"].verdict is Verdict.SOUND
    assert answers["heat"].verdict is Verdict.UNPROVEN
    assert "names no source of weather" in answers["heat"].sentence


@BOTH
def test_what_was_typed_stands_in_the_file_as_typed(answers: dict[str, str]) -> None:
    text = written_by(answers).text
    for blank in asked(answers).values():
        typed = answers[blank.id]
        if blank.kind in ("words", "quantity"):
            inside = (
                f" at {typed}"
                if blank.id == "pump_lift"
                else f"{typed} at "
                if blank.id == "pump_flow"
                else ""
            )
            assert inside in text if inside else f" {written(typed)}" in text.replace("[", " "), blank.id
        elif blank.kind == "degrees":
            assert f"{blank.id} = {typed}\n" in text
    values = tomllib.loads(text)
    assert at(values, "heaters.first.count") == int(answers["heater_count"])
    assert len(at(values, "vessels.basin.ties.cross.at")) == int(answers["tie_count"])


@BOTH
def test_what_is_assumed_is_listed_and_stands_in_the_plan(answers: dict[str, str]) -> None:
    plan = written_by(answers)
    values = tomllib.loads(plan.text)
    assert len({one.key for one in plan.assumed}) == len(plan.assumed) > 30
    assert plan.text.count("# assumed: ") == len(plan.assumed)
    for one in plan.assumed:
        assert at(values, one.key) == one.value, one.key
        assert f"# assumed: {one.why}; change it when you know" in plan.text


@BOTH
def test_nothing_but_what_was_typed_or_is_listed_stands_in_the_plan(answers: dict[str, str]) -> None:
    plan = written_by(answers)
    listed = tuple(one.key for one in plan.assumed)
    typed = set(answers.values())
    for key, value in leaves(tomllib.loads(plan.text)):
        if key.startswith(listed):
            continue
        said = value if isinstance(value, str) else written(value)
        assert said in typed or value in WRITTEN_IN, key


@BOTH
def test_where_all_is_answered_nobody_but_the_user_says_what_carries_or_how_deep_it_is(
    answers: dict[str, str],
) -> None:
    for change in varied(answers):
        plan = plan_text(change)
        assert not plan.faults
        taken = {one.key for one in plan.assumed if one.key.rpartition(".")[2] in NEVER_TAKEN}
        assert not taken
        depths = {
            one.key: one.value
            for one in plan.assumed
            if one.key.endswith((".water", "slab_thickness", ".test.level"))
        }
        assert depths.pop("vessels.basin.test.level") == answers["brim"]
        assert depths.pop("vessels.sump.stands_on.slab_thickness", answers["slab"]) == answers["slab"]
        assert depths == {"vessels.basin.test.water": "fresh"}
    suggested = {blank.id for blank in blanks() if blank.suggest}
    assert suggested == {"show", "gallons", "weather", "house"}


@pytest.mark.parametrize(
    "change",
    [
        {"stands_on": "ground", "carried_by": "ledger"},
        {"stands_on": "joists", "carried_by": "floor ties"},
        {"bears_on": "wood"},
        {"ties": "no", "window": "no"},
        {"edges": "free", "window_height": "0.90 m"},
        {"edges": "rim", "window_height": "0.90 m"},
        {"pane": "glass-toughened", "thickness": "15 mm"},
        {"lining": "epdm-45-mil"},
        {"rules": "NDS", "grade": "spf-no2", "sheathing": "plywood-23/32", "show": "us"},
    ],
    ids=lambda change: ", ".join(change.values()),
)
def test_structure_is_proven_whatever_was_picked(change: dict[str, str]) -> None:
    answer = desk.answer(loads(written_by({**METRIC, **change}).text), ["structure"])["structure"]
    assert not [(check.where, check.what) for check in answer.checks if check.verdict is Verdict.UNPROVEN]


def test_every_answer_changes_the_plan() -> None:
    before = written_by(METRIC).text
    ledger = {**METRIC, "carried_by": "ledger"}
    same = [
        name
        for name, typed in OTHERWISE.items()
        if name in asked(METRIC)
        and name != "stands_on"
        and written_by({**METRIC, name: typed}).text == before
    ]
    assert written_by(ledger).text != written_by({**ledger, "stands_on": OTHERWISE["stands_on"]}).text
    assert set(asked(METRIC)) - set(OTHERWISE) == {"rules"}
    assert not same


def test_answers_that_are_not_asked_count_for_nothing() -> None:
    before = written_by(US).text
    for name in set(US) - set(asked(US)):
        assert written_by({**US, name: "nonsense"}).text == before


def test_the_year_is_turned_round_south_of_the_equator() -> None:
    north, south, written_out = (
        tomllib.loads(written_by({**METRIC, "latitude": latitude}).text)["weather"]["normals"]
        for latitude in ("57.2", "-34.5", "34°30′S")
    )
    assert (north["temperature"][0], north["temperature"][6]) == ("4 degC", "14.5 degC")
    assert written_out == south
    assert (south["temperature"][0], south["temperature"][6]) == ("14.5 degC", "4 degC")
    assert north["temperature"] == south["temperature"][6:] + south["temperature"][:6]
    assert north["sun"] == south["sun"][6:] + south["sun"][:6]


def test_weather_to_be_fetched_names_years_and_no_months() -> None:
    weather = tomllib.loads(written_by({**METRIC, "weather": "fetch"}).text)["weather"]
    assert set(weather) == {"pvgis", "cold_spell", "heat_wave"}


WRONG = [
    ("height", "1100", "has no unit"),
    ("height", "3 kg", "a mass"),
    ("height", "-1 m", "more than"),
    ("water", "1.2 m", "deeper than the brim"),
    ("brim", "1.3 m", "higher than the wall"),
    ("window_width", "3.4 m", "sideways"),
    ("window_height", "1.2 m", "above wall south"),
    ("sill", "0.5 m", "above wall south"),
    ("depth", "0.5 to 1.0 m", "deeper than the water"),
    ("depth", "0.5 m", "not a band"),
    ("ridge", "2.0 m", "lower than the eaves"),
    ("sump_water", "0.9 m", "deeper than the height"),
    ("summer", "1 degC", "colder than the mean of the coldest month"),
    ("bright_sun", "0.2 kWh/m2/day", "less sun"),
    ("heat_wave", "-10 degC", "colder than the coldest days"),
    ("latitude", "57.2 E", "does not lie N or S"),
    ("latitude", "north", "not a number of degrees"),
    ("latitude", "91", "must be from 90 S to 90 N"),
    ("longitude", "1e2", "not a number of degrees"),
    ("coats", "2.5", "whole number"),
    ("tie_count", "21", "from 1 to 20"),
    ("grade", "dfl-no2", "not one of the choices"),
    ("rules", "BS", "not one of the choices"),
    ("ties", "maybe", "not one of the choices"),
    ("studs", "2x6 mm", "5 mm"),
    ("keep", "27 to 24 degC", "does not rise"),
    ("stands_on", "ground", "need a slab, and you said that under the vessel is the ground alone"),
    ("edges", "free", "under the water, which stands at 96 cm"),
    ("pump_flow", "8 m", "is a length"),
    ("pump_flow", "9 gal/h\n]\nx = [", "cannot be seen"),
    ("name", 'a\n[vessels.basin]\nlength = "9 m"', "cannot be seen"),
    ("name", "x" * 301, "longer than 300"),
    ("length", '3 m"\n[x]', "cannot be seen"),
    ("length", '3 m", width = "9 m', "no sums are worked out"),
    ("length", "", "not answered yet"),
    ("name", "   ", "not answered yet"),
]


@pytest.mark.parametrize(("name", "typed", "told"), WRONG)
def test_a_bad_answer_is_told_at_its_question_and_makes_no_plan(name: str, typed: str, told: str) -> None:
    plan = plan_text({**METRIC, name: typed})
    assert plan.text == ""
    at_blanks = {
        "rules": {"rules", "grade", "sheathing"},
        "stands_on": {"carried_by"},
        "edges": {"window_height"},
    }
    assert set(plan.faults) == at_blanks.get(name, {name})
    place = name if name in plan.faults else next(iter(plan.faults))
    fault = plan.faults[place][0]
    assert told in str(fault)
    assert fault.where == next(blank.words for blank in blanks() if blank.id == place)
    assert fault.advice


def test_every_fault_is_told_at_once_those_of_two_answers_too() -> None:
    plan = plan_text({**METRIC, "length": "3", "name": "", "window_height": "2 m", "latitude": "north"})
    assert set(plan.faults) == {"length", "name", "window_height", "latitude"}


def test_nothing_answered_asks_for_everything_that_is_needed() -> None:
    plan = plan_text({})
    needed = {name for name, blank in asked({}).items() if not blank.optional}
    assert set(plan.faults) == needed


def test_an_answer_to_no_question_is_told() -> None:
    assert "is not asked here" in str(plan_text({**METRIC, "colour": "blue"}).faults["colour"][0])


def test_words_keep_their_quotes_and_brackets() -> None:
    for name in ('the "big" one', "Ann's", "both ' and \"", "[x] # y = z", "\\", "C:\\tank", "Größe 水"):
        assert tomllib.loads(written_by({**METRIC, "name": name}).text)["name"] == name


@BOTH
def test_quantities_are_read_back_in_both_systems(answers: dict[str, str]) -> None:
    plan = written_by(answers)
    typed = {name for name, blank in asked(answers).items() if blank.kind == "quantity" and answers[name]}
    assert set(plan.echoes) == typed | {"latitude", "longitude"}
    shown = {"metric": "3.2 m ≈ 10 ft 6 in", "us": "10 ft = 3.048 m"}[answers["show"]]
    assert plan.echoes["length"] == shown
    rims = {
        "metric": "2 of 47 mm by 170 mm ≈ 1 7/8 in by 6 11/16 in",
        "us": "3 of 1 1/2 in by 7 1/4 in ≈ 38.1 mm by 184.2 mm",
    }
    assert plan.echoes["rim"] == rims[answers["show"]]


@pytest.mark.parametrize(
    ("latitude", "longitude", "told"),
    [
        ("55.95", "-3.2", "55.95° N, 3.2° W"), ("55.95", "3.2", "55.95° N, 3.2° E"),
        ("-34.50", "+18.2", "34.5° S, 18.2° E"), ("0", "-0.0", "0°, 0°"),
        ("55°57′N", "3 W", "55.95° N, 3° W"), ("S 34.5", "18 deg 12 min E", "34.5° S, 18.2° E"),
    ],
)  # fmt: skip
def test_the_place_is_read_back_so_that_a_lost_sign_is_seen(latitude: str, longitude: str, told: str) -> None:
    echoes = plan_text({**METRIC, "latitude": latitude, "longitude": longitude}).echoes
    assert echoes["latitude"] == echoes["longitude"] == told
    alone = plan_text({**METRIC, "latitude": latitude, "longitude": "200"}).echoes
    assert alone["latitude"] == told.partition(",")[0]
    assert "longitude" not in alone


@pytest.mark.parametrize("answers", [METRIC, US, NEEDED, NEEDED_US], ids=lambda one: one["name"])
def test_a_free_top_edge_lies_as_high_as_water_may_stand(answers: dict[str, str]) -> None:
    """With or without a depth at which it spills over; what to do is told in the user's own units."""
    free = {**answers, "edges": "free", "window_height": TO_THE_TOP[answers["name"]]}
    assert not plan_text(free).faults
    us = answers["show"] == "us"
    level, low = ("35 in", "27 in") if us else ("92 cm", "0.72 m")
    found = plan_text(
        {**free, "water": "30 in" if us else "0.75 m", "brim": level, "window_height": "26 in"}
    ).faults
    told = str(found["window_height"][0])
    assert f"under the depth at which it spills over, {level}" in told
    assert ("Make the sheet 1 in higher" if us else "Make the sheet") in told
    assert not plan_text(
        {**free, "water": "30 in" if us else "0.75 m", "brim": level, "window_height": low}
    ).faults
    assert not plan_text({**free, "edges": "seats", "window_height": "20 in"}).faults


@pytest.mark.parametrize("under", ["ground", "joists"])
def test_anchors_are_told_that_they_need_a_slab(under: str) -> None:
    faults = plan_text({**NEEDED, "stands_on": under}).faults
    assert set(faults) == {"carried_by"}
    fault = faults["carried_by"][0]
    assert fault.given == '"anchors into the slab"'
    assert "Pick another way to carry the foot" in fault.advice


def test_no_two_things_that_are_assumed_of_the_weather_say_the_same() -> None:
    told = [one.why for one in written_by(METRIC).assumed if one.key.startswith("weather.")]
    assert len(told) == len(set(told)) == 4


def test_there_are_about_a_dozen_questions_of_a_few_blanks() -> None:
    """A small tank is asked at most a dozen screens and 26 blanks that are needed; others may be left open."""
    assert 12 <= len(questions()) <= 14
    known = asked(NEEDED)
    shown = [one for one in questions() if any(blank.id in known for blank in one.blanks)]
    assert len(shown) <= 12
    assert len([blank for blank in known.values() if not blank.optional]) <= 26
    assert all(len([blank for blank in one.first if blank.id in asked(METRIC)]) <= 8 for one in questions())
    for one in questions():
        assert sorted(blank.id for blank in (*one.first, *one.details)) == sorted(
            blank.id for blank in one.blanks
        )
    ids = [blank.id for blank in blanks()]
    assert len(ids) == len(set(ids))
    for blank in blanks():
        assert bool(blank.choices) == (blank.kind in ("choice", "yes_no")), blank.id
        assert bool(blank.examples) != bool(blank.choices), blank.id
        assert blank.kind != "quantity" or blank.typed is not None, blank.id


def test_examples_of_every_blank_are_good_answers() -> None:
    both: list[tuple[System, dict[str, str]]] = [("metric", METRIC), ("us", US)]
    for system, answers in both:
        examples = {blank.id: blank.example(system) for blank in blanks() if blank.examples}
        own = {name: typed for name, typed in answers.items() if name not in examples}
        assert not plan_text({**examples, **own, "sump": "yes", "house": "lean-to", "life": "soft"}).faults


@pytest.mark.parametrize("system", ["metric", "us"])
def test_a_starter_is_untouched_until_its_user_changes_it(system: Any) -> None:
    text = starter_text(system)
    assert untouched(text)
    assert untouched(text.replace("\n", "\r\n"))
    assert untouched('tidestead = 1\nname = "Nothing yet"\n')
    assert not untouched(text.replace("0.90 m", "0.91 m").replace('"3 ft"', '"3 ft 1 in"'))
    assert not untouched(written_by(METRIC).text)
    assert not untouched("this is not a plan, but it is somebody's")
