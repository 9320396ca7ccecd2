"""Files that commands write: the example, a new plan, drawings, answers and schemas, whole or not at all."""

from __future__ import annotations

import os
import re
import tomllib
import xml.etree.ElementTree as ET
from collections.abc import Callable
from pathlib import Path

import pytest

from tests.laws.report_samples import ANSWER
from tidestead import desk
from tidestead.cli import main, outfile
from tidestead.cli.ending import WrongInputError
from tidestead.cli.export import file_names
from tidestead.core.answer import Answer, Verdict
from tidestead.plan import load

EXAMPLES = Path(__file__).parents[2] / "examples"
PACKHOUSE = EXAMPLES / "packhouse.toml"

Fake = Callable[[Answer], None]
SKERRY = EXAMPLES / "skerry.toml"


def test_demo_answers_the_example_and_a_thicker_window_changes_the_verdict(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], answered: Fake
) -> None:
    assert main(["demo", "--no-page", str(tmp_path)]) == 0
    out = capsys.readouterr().out
    copied = tmp_path / "packhouse.toml"
    assert copied.read_bytes() == PACKHOUSE.read_bytes()
    assert "Will it hold?" in out
    assert "fails" in out
    hint = re.search(r"line (\d+) \((thickness = .*)\)", out)
    assert hint is not None
    lines = copied.read_text("utf-8").splitlines()
    assert lines[int(hint[1]) - 1].startswith(hint[2])

    def failing() -> set[str]:
        answer = desk.answer(load(copied), ["structure"])["structure"]
        return {
            check.id for check in answer.checks if check.verdict is Verdict.FAILS and "south.long" in check.id
        }

    before = failing()
    assert before
    lines[int(hint[1]) - 1] = 'thickness = "4 in"'
    copied.write_text("\n".join(lines) + "\n", "utf-8")
    assert failing() < before
    answered(ANSWER)  # what is answered has been seen above; that nothing is written over is seen without
    assert main(["demo", "--no-page", str(tmp_path)]) == 0
    again = capsys.readouterr().out
    assert "used as it stands" in again
    assert 'thickness = "4 in"' in copied.read_text("utf-8")


@pytest.mark.parametrize("units", ["metric", "us"])
def test_new_writes_a_plan_that_can_be_asked_at_once(
    units: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "mine.toml"
    assert main(["new", str(path), "--units", units]) == 0
    assert tomllib.loads(path.read_text("utf-8"))["show"] == units
    assert "#" in path.read_text("utf-8")
    assert main(["ask", str(path), "structure"]) == 0
    assert "Will it hold?" in capsys.readouterr().out


# ---- export ---------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "example", [PACKHOUSE, pytest.param(SKERRY, marks=pytest.mark.long)], ids=lambda path: path.stem
)  # one whole answer shows it; the other example's drawings are drawn by the tests of its studies
def test_export_writes_every_drawing_and_drawings_know_the_checks(
    example: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    answers = desk.answer(load(example))
    drawn = [one.id for answer in answers.values() for one in (*answer.scenes, *answer.charts)]
    drawn += [
        f"{view.id}{by}" for answer in answers.values() for view in answer.rounds for by in ("", ".use")
    ]
    assert main(["export", str(example), "--to", "svg", "-o", str(tmp_path / "out")]) == 0
    files = sorted((tmp_path / "out").iterdir())
    assert len(files) == len(drawn) > 3
    assert any(answer.charts for answer in answers.values())
    assert sorted(capsys.readouterr().out.split()) == [str(file) for file in files]
    parts: set[str] = set()
    for file in files:
        root = ET.parse(file).getroot()
        parts |= {element.get("data-part", "") for element in root.iter()}
    named = {check.part for check in answers["structure"].checks if check.part}
    assert len(named & parts) > 3


def test_export_writes_into_a_folder_named_for_the_plan(
    plan: Path, monkeypatch: pytest.MonkeyPatch, answered: Fake
) -> None:
    answered(ANSWER)
    monkeypatch.chdir(plan.parent)
    assert main(["export", plan.name, "--to", "svg"]) == 0
    assert len(list(Path("reef-drawings").glob("*.svg"))) == len(ANSWER.scenes) + 2 * len(ANSWER.rounds)


def test_file_names_are_safe_and_each_its_own() -> None:
    names = file_names(["structure.a/b", "structure.a b", "../../etc/x", "", "Structure.A-B"])
    assert len(set(names)) == 5
    assert all(re.fullmatch(r"[a-z0-9_][a-z0-9._-]*\.svg", name) for name in names)


def test_an_interrupted_write_leaves_the_old_file_and_no_scrap(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "answers.json"
    path.write_text("old", "utf-8")

    def interrupted(descriptor: int) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(os, "fsync", interrupted)
    with pytest.raises(KeyboardInterrupt):
        outfile.write(path, "new " * 100000)
    with pytest.raises(KeyboardInterrupt):
        outfile.create(tmp_path / "other.json", "new")
    assert path.read_text("utf-8") == "old"
    assert list(tmp_path.iterdir()) == [path]


def test_create_never_replaces_and_works_without_links(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "plan.toml"
    assert outfile.create(path, "mine")
    assert not outfile.create(path, "other")

    def no_links(*names: object) -> None:
        raise PermissionError

    monkeypatch.setattr(os, "link", no_links)
    assert not outfile.create(path, "other")
    assert outfile.create(tmp_path / "second.toml", "two")
    assert (path.read_text("utf-8"), (tmp_path / "second.toml").read_text("utf-8")) == ("mine", "two")
    assert len(list(tmp_path.iterdir())) == 2


def test_write_follows_a_link_to_the_file_it_names(tmp_path: Path) -> None:
    real = tmp_path / "real.json"
    real.write_text("old", "utf-8")
    (tmp_path / "link.json").symlink_to(real)
    outfile.write(tmp_path / "link.json", "new")
    assert (tmp_path / "link.json").is_symlink()
    assert real.read_text("utf-8") == "new"
    with pytest.raises(WrongInputError):
        outfile.write(tmp_path, "new")
