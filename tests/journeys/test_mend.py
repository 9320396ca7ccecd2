"""Remedies as a user meets them: found, told, written, asked anew, taken back."""

from __future__ import annotations

import json
import math
import shutil
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from tests.journeys.structure_plans import VAT
from tests.journeys.weak_vat import FEET, weak_vat
from tidestead import desk
from tidestead.cli import main
from tidestead.core.answer import Check, Verdict
from tidestead.core.kept import forget
from tidestead.plan import load, loads
from tidestead.plan.edits import Edit
from tidestead.plan.toml import values_in
from tidestead.trials.applying import undone, written
from tidestead.trials.mending import Search, checks_to_mend, mended
from tidestead.trials.patience import Patience
from tidestead.trials.remedy import Mended, Remedy
from tidestead.trials.scratch import Scratch, states_in, touched
from tidestead.trials.whole import whole_design

PACKHOUSE = Path(__file__).parents[2] / "examples" / "packhouse.toml"
FAILING = (
    "structure.reef.south.base.wood",
    "structure.reef.ties.cross.end_joint.force",
    "structure.reef.south.long.bow.long",
    "structure.reef.east.sheathing.rolling",
)
BRIEF = Search(fully=False, workers=1, sorts=2)
"""Two sorts of change for each check, side effects in its own subject: what a quick run can bear."""


@pytest.fixture(scope="module")
def scratch() -> Scratch:
    return Scratch(load(PACKHOUSE))


@pytest.fixture(scope="module")
def found(scratch: Scratch) -> dict[str, Mended]:
    checks = checks_to_mend(scratch, ["structure"], FAILING)
    return {one.check.id: one for one in mended(scratch, checks, BRIEF)}


def _asked(path: Path) -> dict[str, Check]:
    return {check.id: check for check in desk.answer(load(path), ["structure"])["structure"].checks}


@pytest.mark.parametrize("name", FAILING)
def test_a_failing_check_gets_a_remedy_that_harms_nothing(found: dict[str, Mended], name: str) -> None:
    best = found[name].remedies[0]
    assert found[name].check.verdict is Verdict.FAILS
    assert best.after.verdict is Verdict.SOUND
    assert not best.harms


@pytest.mark.parametrize("name", FAILING)
def test_written_and_asked_anew_it_is_what_was_shown(found: dict[str, Mended], name: str, plan: Path) -> None:
    before = plan.read_bytes()
    remedy = found[name].remedies[0]
    kept = written(load(plan), remedy.edits)
    after = _asked(plan)
    _same_as_shown(remedy, after)
    assert kept.read_bytes() == before
    undone(plan)
    assert plan.read_bytes() == before
    undone(plan)
    assert _asked(plan).keys() == after.keys()


def _same_as_shown(remedy: Remedy, after: dict[str, Check]) -> None:
    for state in (remedy.after, *(effect.after for effect in remedy.effects if effect.after)):
        use = after[state.id].use
        assert after[state.id].verdict is state.verdict
        assert use is not None
        assert state.use is not None
        assert math.isclose(use, state.use, rel_tol=1e-9)
    gone = [effect.id for effect in remedy.effects if effect.after is None]
    assert not set(gone) & set(after)


def test_the_plan_says_nothing_else_anew(scratch: Scratch, found: dict[str, Mended]) -> None:
    before = values_in(scratch.loaded.text)
    for one in found.values():
        for remedy in one.remedies:
            plan = scratch.with_edits(remedy.edits)
            assert plan is not None
            keys = {edit.key for edit in remedy.edits}
            changed = set(_differences(before, values_in(plan.text)))
            assert changed
            assert all(any(key == own or key.startswith(own + ".") for own in keys) for key in changed)


def _differences(one: Any, other: Any, at: str = "") -> list[str]:
    if isinstance(one, dict) and isinstance(other, dict):
        return [
            key
            for name in {*one, *other}
            for key in _differences(one.get(name), other.get(name), f"{at}.{name}" if at else name)
        ]
    return [] if one == other else _leaves(other if one is None else one, at)


def _leaves(value: Any, at: str) -> list[str]:
    if isinstance(value, dict):
        return [leaf for name, inner in value.items() for leaf in _leaves(inner, f"{at}.{name}")]
    return [at]


def test_numbers_follow_each_other_and_a_second_search_is_the_same(
    scratch: Scratch, found: dict[str, Mended]
) -> None:
    again = mended(scratch, [one.check for one in found.values()], BRIEF)
    assert again == tuple(found.values())
    numbers = [remedy.number for one in again for remedy in one.remedies]
    assert numbers == list(range(1, len(numbers) + 1))


def test_the_whole_of_it_is_sound_together(scratch: Scratch, found: dict[str, Mended]) -> None:
    whole = whole_design(scratch, [one.check for one in found.values()], BRIEF)
    plan = scratch.with_edits(whole.edits)
    assert plan is not None
    desk.answering._ANSWERS.clear()
    desk.answering._FACTS.clear()
    forget()
    after = {check.id: check for check in desk.answer(plan, ["structure"])["structure"].checks}
    assert not [check for check in after.values() if check.verdict is Verdict.FAILS]
    assert all(after[name].verdict is Verdict.SOUND for name in FAILING if name in after)
    assert not [state for state in whole.left if state.id in FAILING]
    assert "no proof over all designs" in whole.proof


def test_a_search_without_time_says_what_it_left_out_and_goes_on_when_asked_again(
    scratch: Scratch, found: dict[str, Mended]
) -> None:
    over = replace(BRIEF, patience=Patience(-60.0, 0.0))
    checks = [one.check for one in found.values()]
    fresh = Scratch(scratch.loaded)
    for one in mended(fresh, checks, over):
        assert not one.remedies
        assert one.cut == BRIEF.sorts
    whole = whole_design(fresh, checks, over)
    assert not whole.moves
    assert "The 1 min given for it were too few: 8 sorts of change were not tried" in whole.proof
    some = Scratch(scratch.loaded, known=dict(scratch.known), prices=dict(scratch.prices))
    assert mended(some, checks, BRIEF) == tuple(found.values())
    assert not any(one.cut for one in found.values())


def test_put_together_each_subject_is_asked_by_what_it_reads_alone(
    scratch: Scratch, found: dict[str, Mended]
) -> None:
    frame = found[FAILING[1]].remedies[0].edits
    together = (*frame, Edit("lamps.bars.power", "800 W"), Edit("supply.amps", "80 A"))
    own = {subject: scratch.plan_for(subject, together) for subject in ("structure", "light", "power")}
    plan = scratch.with_edits(together)
    assert plan is not None
    assert len({one.text for one in (plan, scratch.loaded, *own.values()) if one is not None}) == 5
    for subject in own:
        after = states_in(desk.answer(plan, [subject])[subject].checks)
        assert scratch.states(subject, together) == after
        assert after != scratch.states(subject)


# ---- the command ---------------------------------------------------------------------------------


@pytest.fixture
def vat(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    return weak_vat(tmp_path, monkeypatch)


def test_the_number_shown_is_the_one_written(vat: Path, capsys: pytest.CaptureFixture[str]) -> None:
    before = vat.read_bytes()
    assert main(["mend", str(vat), FEET, "--quick", "--json"]) == 0
    told = json.loads(capsys.readouterr().out)
    remedies = [remedy for check in told["checks"] for remedy in check["remedies"]]
    wanted = next(one for one in remedies if one["number"] == 2)
    assert main(["mend", str(vat), FEET, "--quick", "--write", "2"]) == 0
    assert wanted["words"] in capsys.readouterr().out
    after = _asked(vat)[wanted["after"]["id"]]
    assert after.verdict is Verdict.SOUND
    assert after.use == pytest.approx(wanted["after"]["use"], rel=1e-9)
    assert main(["mend", str(vat), "--undo"]) == 0
    assert vat.read_bytes() == before
    assert main(["mend", str(vat), FEET, "--quick", "--write", "99"]) == 2
    assert f"There are 1 to {len(remedies)}." in capsys.readouterr().err
    assert vat.read_bytes() == before


def test_the_text_names_the_change_and_how_to_write_it(vat: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["mend", str(vat), FEET, "--quick"]) == 0
    out = " ".join(capsys.readouterr().out.split())
    assert "studs, foot: count: " in out
    assert "no price known" in out
    assert "--write N" in out


def test_a_sound_plan_is_told_as_such(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "vat.toml"
    path.write_text(VAT, encoding="utf-8")
    assert main(["mend", str(path), "structure"]) == 0
    assert "Nothing here fails or is near" in capsys.readouterr().out


@pytest.mark.parametrize(
    ("given", "told"),
    [
        (["structure.vat.north.studs.bend"], "Did you mean "),
        (["structur"], 'Did you mean "structure"?'),
        (["--undo"], "no former version is kept"),
    ],
)
def test_what_cannot_be_done_is_told(
    vat: Path, given: list[str], told: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["mend", str(vat), *given]) == 2
    assert told in capsys.readouterr().err


def test_a_plan_with_faults_is_not_searched(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "bad.toml"
    path.write_text(VAT.replace('"2 ft"', '"2"'), encoding="utf-8")
    assert main(["mend", str(path)]) == 2
    assert "Nothing was computed" in capsys.readouterr().err


def test_edits_touch_the_subjects_that_read_them(found: dict[str, Mended]) -> None:
    edits = found[FAILING[0]].remedies[0].edits
    assert touched(edits) == ("structure", "flow", "cost")  # a joint at the foot of a wall warms no water
    thicker = (Edit("vessels.reef.walls.south.windows.long.thickness", "4 in"),)
    assert {"structure", "flow", "heat", "faults"} <= set(touched(thicker))
    assert "power" in touched(thicker)  # by the warmth that it rests on
    assert loads(PACKHOUSE.read_text("utf-8")).plan.name


@pytest.mark.long
@pytest.mark.timeout(1800)
def test_every_remedy_of_the_example_is_sound_when_written(tmp_path: Path) -> None:
    path = Path(shutil.copy(PACKHOUSE, tmp_path / "reef.toml"))
    scratch = Scratch(load(path))
    checks = checks_to_mend(scratch, ["structure", "flow", "foam"])
    told = mended(scratch, checks, Search(fully=False))
    every = [remedy for one in told for remedy in one.remedies]
    assert {remedy.check for remedy in every} >= set(FAILING)
    for remedy in every:
        written(load(path), remedy.edits)
        subject = remedy.check.split(".")[0]
        after = {check.id: check for check in desk.answer(load(path), [subject])[subject].checks}
        _same_as_shown(remedy, after)
        undone(path)
    whole = whole_design(scratch, [one for one in checks if one.id.startswith("structure")])
    assert not [state for state in whole.left if state.id.startswith("structure")]
