"""Both examples, and files a user has spoilt, through the command line: verdicts, reasons, exit codes, JSON."""

from __future__ import annotations

import json
import re
from functools import lru_cache
from pathlib import Path
from typing import Any

import jsonschema
import pytest

from tests.journeys.planted import TEN, expected_lines, planted
from tests.journeys.structure_plans import PLAIN, SHEET, TOWER, VAT, asked, changed
from tests.laws.test_report_json import faults
from tidestead.cli import main
from tidestead.core.answer import Answer, Check, Verdict
from tidestead.core.scene import Area, Measure
from tidestead.report.as_json import answers_schema

EXAMPLES = Path(__file__).parents[2] / "examples"
ADDRESS = re.compile(r"structure(\.[a-z0-9_]+){2,}")
NO_CHECK = re.compile(r"\.(walls|water|load|frame|buttresses)$")
"""Drawn for the eye: outlines, water, its push, the frame as a whole; buttresses of a tower count in its standing."""

LIFTING = changed(TOWER, ('mass = "8 kg"', 'mass = "8 kg"\nwater = "30 cm"'))
"""A tower with every kind of check a tower can have."""


@lru_cache(maxsize=4)
def example(name: str) -> Answer:
    return asked((EXAMPLES / f"{name}.toml").read_text(encoding="utf-8"))


@pytest.fixture(params=["packhouse", "skerry", "vat", "lifting"])
def answer(request: pytest.FixtureRequest) -> Answer:
    texts = {"vat": VAT, "lifting": LIFTING}
    return asked(texts[request.param]) if request.param in texts else example(request.param)


def of(answer: Answer, verdict: Verdict) -> list[Check]:
    return [check for check in answer.checks if check.verdict is verdict]


# ---- the two examples ----------------------------------------------------------------------------


def test_skerry_holds() -> None:
    answer = example("skerry")
    assert not of(answer, Verdict.FAILS)
    assert not of(answer, Verdict.UNPROVEN)
    assert len(answer.checks) > 100
    assert {check.id.split(".")[1] for check in answer.checks} >= {"basin", "tower", "sump"}


def test_packhouse_fails_in_the_four_places_left_in_on_purpose() -> None:
    answer = example("packhouse")
    assert {check.id for check in of(answer, Verdict.FAILS)} == {
        "structure.reef.ties.cross.end_joint.force",
        "structure.reef.south.long.bow.long",
        "structure.reef.south.base.wood",
        "structure.reef.east.sheathing.rolling",
    }
    assert not of(answer, Verdict.UNPROVEN)
    assert answer.verdict is Verdict.FAILS
    assert all(check.advice for check in of(answer, Verdict.FAILS))


def test_sentence_names_what_governs() -> None:
    for name in ("packhouse", "skerry"):
        answer = example(name)
        worst = max(of(answer, answer.verdict), key=lambda check: check.use or 0.0)
        assert worst.where.lower() in answer.sentence.lower()
        assert worst.what in answer.sentence
    sound = asked(VAT)
    first = max(sound.checks, key=lambda check: check.use or 0.0)
    assert first.what in sound.sentence
    assert first.use is not None
    assert f"{100 * (1.0 - first.use):.0f} % to spare" in sound.sentence


# ---- every answer --------------------------------------------------------------------------------


def test_every_check_has_an_address_of_its_own(answer: Answer) -> None:
    idents = [check.id for check in answer.checks]
    assert len(set(idents)) == len(idents)
    assert not [ident for ident in idents if not ADDRESS.fullmatch(ident)]
    for check in answer.checks:
        assert check.id.startswith(f"structure.{check.part}."), check.id


def test_every_number_is_worked(answer: Answer) -> None:
    shown = {working.check: working for working in answer.working}
    for check in answer.checks:
        if check.estimate is not None:
            steps = shown[check.id].steps
            assert steps, check.id
            assert all(step.formula and step.source.work for step in steps), check.id
    assert not set(shown) - {check.id for check in answer.checks}


def test_working_ends_at_the_value_of_its_check(answer: Answer) -> None:
    """Some line of the working gives the check's likely value, or its limit: the reader can follow it there."""
    shown = {working.check: working for working in answer.working}
    for check in answer.checks:
        if check.estimate is None or not isinstance(check.limit, float):
            continue
        results = [step.result for step in shown[check.id].steps]
        wanted = (check.estimate.likely, check.limit)
        assert any(result == pytest.approx(value) for result in results for value in wanted), (
            check.id,
            results,
            wanted,
        )


def test_every_limit_has_a_source(answer: Answer) -> None:
    assert len(answer.sources) > 5
    for check in answer.checks:
        assert check.source.work
        assert check.source in answer.sources


def test_drawings_and_checks_point_at_each_other(answer: Answer) -> None:
    checked = {check.part for check in answer.checks}
    shapes = [shape for scene in answer.scenes for shape in scene.shapes]
    drawn = {shape.part for shape in shapes if not isinstance(shape, Measure) and shape.part}
    solid = {
        shape.part
        for shape in shapes
        if isinstance(shape, Area) and shape.part and shape.stuff in ("timber", "sheet", "clear")
    }
    lost = [
        part
        for part in solid
        if not NO_CHECK.search(part) and not any(_kin(part, other) for other in checked)
    ]
    assert not lost
    for check in answer.checks:
        last = check.part.rsplit(".", 1)[-1]
        if last in ("sheathing", "studs", "rim", "jambs", "sill", "header", "rings", "cone"):
            assert any(_kin(check.part, other) for other in drawn), check.part
    assert all(scene.told and scene.title for scene in answer.scenes)


def _kin(one: str, other: str) -> bool:
    """The same part, or one a part of the other."""
    return one == other or one.startswith(f"{other}.") or other.startswith(f"{one}.")


def test_the_usual_words_are_always_said(answer: Answer) -> None:
    said = " ".join(answer.cautions)
    for words in ("licensed engineer", "codes govern", "Still water only", "earthquake", "floor", "soil"):
        assert words in said, words


def test_assumptions_name_a_key_and_a_source(answer: Answer) -> None:
    for assumption in answer.assumptions:
        assert re.fullmatch(r"[\w.\-]+", assumption.key)
        assert assumption.value
        assert assumption.source.work


# ---- changing the plan, through the command line -------------------------------------------------

WINDOW = 'thickness = "60 mm"'


def told(args: list[str], capsys: pytest.CaptureFixture[str], code: int = 0) -> Any:
    """The JSON that a command prints."""
    assert main([*args, "--json"]) == code
    shown = capsys.readouterr()
    assert not shown.err
    return json.loads(shown.out)


def verdict(path: Path, ident: str, capsys: pytest.CaptureFixture[str]) -> str:
    document = told(["ask", str(path), "structure"], capsys)
    (found,) = [
        check["verdict"] for check in document["answers"]["structure"]["checks"] if check["id"] == ident
    ]
    return str(found)


def test_a_changed_window_changes_its_verdict_both_ways(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path, ident = tmp_path / "mine.toml", "structure.basin.south.long.bow.long"
    text = (EXAMPLES / "skerry.toml").read_text(encoding="utf-8")
    steps = (("60 mm", "near", 0), ("45 mm", "fails", 1), ("80 mm", "sound", 0), ("60 mm", "near", 0))
    for thickness, expected, code in steps:
        path.write_text(changed(text, (WINDOW, f'thickness = "{thickness}"')), encoding="utf-8")
        assert verdict(path, ident, capsys) == expected
        assert main(["ask", str(path), "structure", "--fail-on", "fails"]) == code
        capsys.readouterr()


def test_exit_code_follows_the_verdict_asked_about(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    sound, open_end = tmp_path / "sound.toml", tmp_path / "open.toml"
    sound.write_text(PLAIN, encoding="utf-8")
    open_end.write_text(changed(PLAIN, ("screws_through = false\n", "")), encoding="utf-8")
    codes = {
        (path.stem, bound): main(["ask", str(path), "structure", "--fail-on", bound])
        for path in (sound, open_end)
        for bound in ("fails", "unproven", "near")
    }
    capsys.readouterr()
    assert codes == {
        ("sound", "fails"): 0,
        ("sound", "unproven"): 0,
        ("sound", "near"): 0,
        ("open", "fails"): 0,
        ("open", "unproven"): 1,
        ("open", "near"): 1,
    }


def test_ten_planted_faults_are_told_at_once_with_their_lines(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "ten.toml"
    path.write_text(planted(), encoding="utf-8")
    assert main(["ask", str(path), "structure"]) == 2
    shown = capsys.readouterr()
    assert not shown.out
    lines = expected_lines(planted())
    assert len(lines) == len(TEN) == 10
    for where, line in lines.items():
        assert re.search(rf"{re.escape(where)}\s+\(line\s+{line}\)", shown.err), where


NO_DEPTH = changed(PLAIN, ('\nwater = "2 ft"\n', "\n"))
FLOODED = changed(VAT, ('top = "seat"', 'top = "free"'))


@pytest.mark.parametrize("system", ["metric", "us"])
@pytest.mark.parametrize(
    "text",
    [(EXAMPLES / "packhouse.toml").read_text(encoding="utf-8"), SHEET, NO_DEPTH, FLOODED, LIFTING],
    ids=["packhouse", "a bare sheet", "no depth", "flooded", "tower"],
)
def test_json_satisfies_the_published_schema_whatever_the_plan(
    text: str, system: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "plan.toml"
    path.write_text(text, encoding="utf-8")
    document = told(["ask", str(path), "structure", "--units", system], capsys)
    assert not faults(document, jsonschema.Draft202012Validator(answers_schema()))
    assert document["answers"]["structure"]["verdict"] == asked(text).verdict


@pytest.mark.parametrize("name", ["packhouse", "skerry"])
@pytest.mark.parametrize(("system", "unit"), [("metric", r"\d mm\b"), ("us", r"\d in\b")])
def test_both_units_are_printed(
    name: str, system: str, unit: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["ask", str(EXAMPLES / f"{name}.toml"), "structure", "--units", system, "--working"]) == 0
    shown = capsys.readouterr()
    assert not shown.err
    assert len(re.findall(unit, shown.out)) > 20
    assert "nan" not in re.findall(r"[a-z]+", shown.out.lower())
