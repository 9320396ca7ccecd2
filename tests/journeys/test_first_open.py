"""What a first plan takes where a blank is left open: from the user's own answers, or listed, or not at all."""

from __future__ import annotations

import tomllib

import pytest

from tests.journeys.first_answers import METRIC, NEEDED, NEEDED_US
from tests.journeys.first_parts import BOTH, NEVER_TAKEN, at, leaves, varied, written_by
from tidestead import desk
from tidestead.core.answer import Verdict
from tidestead.plan import loads
from tidestead.plan.first import plan_text
from tidestead.plan.first_questions import asked

SIMPLE = pytest.mark.parametrize("answers", [NEEDED, NEEDED_US], ids=["metric", "us"])
USERS_OWN = {
    "vessels.basin.brim": None,
    "vessels.basin.test.level": None,
    "vessels.basin.ties.cross.section": "studs",
    "vessels.basin.walls.all.base.tie.section": "studs",
    "vessels.basin.walls.all.base.spacing": "spacing",
    "vessels.basin.walls.south.windows.front.opening.sill.section": "rim",
    "vessels.basin.walls.south.windows.front.opening.header.section": "rim",
    "vessels.basin.walls.south.windows.front.opening.jambs.section": None,
}
"""What is taken of sections and depths where it is left open, with the answer that it repeats."""
OF_USE = {"sill_held_by", "bears_on", "capacity", "bed_thickness", "slab_thickness"}
"""Of what else carries: taken where left open, from the file of what is assumed."""


@SIMPLE
def test_what_is_needed_leads_to_an_answer_on_structure(answers: dict[str, str]) -> None:
    """Nobody need know more than what is needed: the rest is taken, listed, and can be judged."""
    assert set(answers) == {name for name, blank in asked(answers).items() if not blank.optional}
    plan = written_by(answers)
    answer = desk.answer(loads(plan.text), ["structure"])["structure"]
    lost = [(check.where, check.what) for check in answer.checks if check.verdict is Verdict.UNPROVEN]
    assert len(answer.checks) > 50
    assert not lost
    assert answer.verdict is not Verdict.UNPROVEN


@SIMPLE
def test_what_is_left_open_is_taken_from_the_users_own_timber_and_walls(answers: dict[str, str]) -> None:
    for change in varied(answers):
        both = {**change, "bears_on": "", "tie_count": "2"}
        taken = {one.key: one.value for one in written_by(both).assumed}
        carrying = {
            key: value
            for key, value in taken.items()
            if key.rpartition(".")[2] in NEVER_TAKEN - OF_USE or key.endswith((".water", ".level"))
        }
        carrying.pop("vessels.basin.test.water")
        assert set(carrying) <= set(USERS_OWN)
        for key, value in carrying.items():
            blank = USERS_OWN[key]
            assert blank is None or value == answers[blank], key
        assert taken["vessels.basin.brim"] == taken["vessels.basin.test.level"]
    brim = {"metric": "98 cm", "us": "35.25 in"}[answers["show"]]
    jambs = {"metric": "3 of 47 x 120 mm", "us": "2-2x6"}[answers["show"]]
    plain = {one.key: one.value for one in written_by(answers).assumed}
    assert plain["vessels.basin.brim"] == brim
    assert plain["vessels.basin.walls.south.windows.front.opening.jambs.section"] == jambs


@pytest.mark.parametrize("water", ["0.98 m", "0.981 m", "1 m"])
def test_a_brim_that_is_left_open_is_never_under_the_water(water: str) -> None:
    values = tomllib.loads(written_by({**NEEDED, "water": water}).text)
    assert at(values, "vessels.basin.brim") == ("98 cm" if water == "0.98 m" else "1 m")


@BOTH
def test_each_detail_may_be_left_open_alone_or_is_told_with_what_it_belongs_to(
    answers: dict[str, str],
) -> None:
    known = asked(answers)
    silent = {
        name for name in ("life", "sump") if answers[name] in ("fish", "no")
    }  # nothing is written of these
    for name in {name for name, blank in known.items() if blank.optional} - silent:
        plan = plan_text({**answers, name: ""})
        assert set(plan.faults) <= {name}, name
        if plan.faults:
            assert "says nothing without it" in str(plan.faults[name][0])
        else:
            full, open_ = (dict(leaves(tomllib.loads(one.text))) for one in (written_by(answers), plan))
            changed = [key for key in full if full[key] != open_.get(key)]
            listed = {one.key for one in plan.assumed}
            assert all(key in listed or key not in open_ for key in changed), name
            assert changed or name in {one.blank for one in plan.assumed}, name


def test_what_says_nothing_alone_is_told_at_what_is_missing() -> None:
    """No answer is lost without a word: a figure that needs another asks for it."""
    for typed, missing in (
        ({"latitude": "57.2"}, {"longitude"}),
        ({"heater_count": "2"}, {"heater"}),
        ({"house": "room", "weather": "figures", "winter": "4 degC"}, {"summer", "latitude"}),
    ):
        assert set(plan_text({**NEEDED, **typed}).faults) == missing
    sump = {name: METRIC[name] for name in METRIC if name.startswith("sump")}
    plan = plan_text({**NEEDED, **sump, "pipe": "pvc-63-pn10"})
    assert set(plan.faults) == {"drain", "pump_flow", "pump_lift"}
    assert not plan_text({**NEEDED, **sump}).faults


def test_what_is_left_open_is_named_with_its_blank() -> None:
    taken = {one.blank for one in written_by(NEEDED).assumed if one.blank}
    assert taken == {
        "brim", "coats", "seams", "seat_width", "bed", "sill_held_by", "crosspiece", "jambs", "slab", "soil",
        "foot_spacing", "capacity", "anchor", "bears_on", "keep",
    }  # fmt: skip
    assert not {one.blank for one in written_by(METRIC).assumed} - {""}


def test_nothing_open_is_described_that_nobody_can_know() -> None:
    """Weather, corals, pumps and heaters are never made up: their questions stay unproven."""
    plan = written_by({**NEEDED, "house": "lean-to", "weather": "figures", "life": "soft"})
    assert not set(tomllib.loads(plan.text)) & {"weather", "corals", "pumps", "heaters", "circuits"}
    answers = desk.answer(loads(plan.text), ["flow", "heat", "light"])
    assert {answer.verdict for answer in answers.values()} == {Verdict.UNPROVEN}


@pytest.mark.parametrize(
    "change",
    [
        {"stands_on": "ground", "carried_by": "ledger"},
        {"stands_on": "joists", "carried_by": "floor ties"},
        {"ties": "yes", "tie_count": "2"},
        {"edges": "free", "window_height": "0.78 m"},
        {"lining": "epdm-45-mil"},
        {"window": "no"},
    ],
    ids=lambda change: ", ".join(change.values()),
)
def test_what_is_needed_leads_to_an_answer_whatever_was_picked(change: dict[str, str]) -> None:
    answer = desk.answer(loads(written_by({**NEEDED, **change}).text), ["structure"])["structure"]
    assert not [(check.where, check.what) for check in answer.checks if check.verdict is Verdict.UNPROVEN]


def test_an_anchor_that_is_left_open_fits_the_slab_that_is_left_open() -> None:
    for answers in (NEEDED, NEEDED_US):
        vessel = loads(written_by(answers).text).plan.vessels["basin"]
        base = vessel.walls["all"].base
        assert base is not None
        assert base.embedment is not None
        assert vessel.stands_on.slab_thickness is not None
        assert 0.0 < base.embedment < vessel.stands_on.slab_thickness
