"""What took long to find is met again by the next process, and only where it may be trusted."""

from __future__ import annotations

import os
import sys
from pathlib import Path
from types import SimpleNamespace

import pytest

from tidestead import desk
from tidestead.core import program as core_program
from tidestead.core.answer import Answer
from tidestead.core.cache_folder import cache_folder
from tidestead.desk import answering, keeping
from tidestead.desk.subjects import SubjectEntry
from tidestead.plan import loads
from tidestead.studies.inputs import Inputs

PLAN = 'tidestead = 1\nname = "a shed"\n'


class Study:
    """A made-up study that counts how often it is asked."""

    def __init__(self) -> None:
        self.found = 0

    def find(self, _: Inputs) -> str:
        self.found += 1
        return f"found {self.found} times"

    def judge(self, _: Inputs, facts: str) -> Answer:
        return Answer("warmth", "Is it warm?", facts)


@pytest.fixture
def study(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Study:
    """A desk with one subject, and a cache folder of its own."""
    made = Study()
    entry = SubjectEntry("warmth", "Is it warm?", "warmth", ("name",))
    monkeypatch.setattr(answering, "_KNOWN", {"warmth": entry})
    monkeypatch.setattr(answering, "SUBJECTS", (entry,))
    monkeypatch.setattr(answering, "import_module", {"warmth": made}.__getitem__)
    for name in ("XDG_CACHE_HOME", "LOCALAPPDATA", "HOME"):
        monkeypatch.setenv(name, str(tmp_path))
    monkeypatch.setattr(keeping, "WORTH_IT", 0.0)
    monkeypatch.setattr(keeping, "_STATE", keeping._State())
    return made


def asked(monkeypatch: pytest.MonkeyPatch, text: str = PLAN) -> str:
    """The answer of a process that has found nothing yet."""
    monkeypatch.setattr(answering, "_ANSWERS", {})
    monkeypatch.setattr(answering, "_FACTS", {})
    return str(desk.answer(loads(text), ["warmth"])["warmth"].sentence)


def kept() -> list[Path]:
    return sorted((cache_folder() / "found").glob("*.facts"))


def test_nothing_is_written_unless_a_door_says_so(study: Study, monkeypatch: pytest.MonkeyPatch) -> None:
    assert [asked(monkeypatch), asked(monkeypatch)] == ["found 1 times", "found 2 times"]
    assert kept() == []


def test_the_next_process_meets_what_was_found(study: Study, monkeypatch: pytest.MonkeyPatch) -> None:
    desk.keep_on_disk()
    assert [asked(monkeypatch), asked(monkeypatch)] == ["found 1 times", "found 1 times"]
    assert asked(monkeypatch, PLAN.replace("a shed", "a barn")) == "found 2 times"
    assert asked(monkeypatch) == "found 1 times"
    assert len(kept()) == 2


def test_what_comes_quickly_is_not_kept(study: Study, monkeypatch: pytest.MonkeyPatch) -> None:
    desk.keep_on_disk()
    monkeypatch.setattr(keeping, "WORTH_IT", 60.0)
    assert asked(monkeypatch) == "found 1 times"
    assert kept() == []


def test_who_only_meets_leaves_nothing(study: Study, monkeypatch: pytest.MonkeyPatch) -> None:
    desk.keep_on_disk(keeps=False)
    assert asked(monkeypatch) == "found 1 times"
    assert kept() == []
    desk.keep_on_disk()
    asked(monkeypatch)
    desk.keep_on_disk(keeps=False)
    assert asked(monkeypatch) == "found 2 times"


@pytest.mark.parametrize("spoilt", [b"", b"x", b"\0" * 400, None])
def test_a_spoilt_file_is_found_anew(
    study: Study, monkeypatch: pytest.MonkeyPatch, spoilt: bytes | None
) -> None:
    """Cut short by a full disk, or one bit of it turned."""
    desk.keep_on_disk()
    asked(monkeypatch)
    (path,) = kept()
    whole = path.read_bytes()
    path.write_bytes(whole[:-3] if spoilt is None else spoilt)
    assert asked(monkeypatch) == "found 2 times"
    assert asked(monkeypatch) == "found 2 times", "and kept whole"


def test_another_version_of_the_program_meets_nothing(study: Study, monkeypatch: pytest.MonkeyPatch) -> None:
    desk.keep_on_disk()
    asked(monkeypatch)
    monkeypatch.setattr(keeping, "program", lambda: "another")
    assert asked(monkeypatch) == "found 2 times"


def test_another_file_of_the_program_is_another_program(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    names = ("desk/keeping.py", "catalog/rows.toml", "notes.txt")
    for name in names:
        (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / name).write_text("1")
    monkeypatch.setattr(core_program, "HOME", tmp_path)
    before = core_program.program.__wrapped__()
    seen = [before]
    for name in names:
        (tmp_path / name).write_text("22")
        seen.append(core_program.program.__wrapped__())
    assert len(set(seen[:3])) == 3
    assert seen[3] == seen[2], "notes are no part of it"


@pytest.mark.skipif(sys.platform == "win32", reason="there, rights are not told in these bits")
def test_a_file_that_others_may_write_is_not_met(study: Study, monkeypatch: pytest.MonkeyPatch) -> None:
    desk.keep_on_disk()
    asked(monkeypatch)
    kept()[0].chmod(0o666)
    assert asked(monkeypatch) == "found 2 times"
    assert kept()[0].parent.stat().st_mode & 0o077 == 0


@pytest.mark.skipif(sys.platform == "win32", reason="there, rights are not told in these bits")
def test_a_folder_that_cannot_be_written_stops_nobody(
    study: Study, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    (tmp_path / "taken").write_text("a file where the folder would be")
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "taken"))
    desk.keep_on_disk()
    assert [asked(monkeypatch), asked(monkeypatch)] == ["found 1 times", "found 2 times"]


def test_what_was_not_used_for_longest_goes_first(study: Study, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(keeping, "_AT_MOST", 3)
    monkeypatch.setattr(keeping, "_TIDY_EVERY", 1000)
    monkeypatch.setattr(keeping, "_STATE", keeping._State(meets=True, keeps=True, written=997))
    sheds = [PLAN.replace("a shed", f"shed {number}") for number in range(4)]
    for number, shed in enumerate(sheds[:3]):
        before = set(kept())
        asked(monkeypatch, shed)
        (path,) = set(kept()) - before
        os.utime(path, (1e9 + number, 1e9 + number))
    assert asked(monkeypatch, sheds[0]) == "found 1 times"
    asked(monkeypatch, sheds[3])
    assert len(kept()) == 3
    assert asked(monkeypatch, sheds[0]) == "found 1 times", "met a moment ago"
    assert asked(monkeypatch, sheds[1]) == "found 5 times", "not met for longest"


def test_what_cannot_be_kept_is_answered_all_the_same(study: Study, monkeypatch: pytest.MonkeyPatch) -> None:
    desk.keep_on_disk()
    monkeypatch.setattr(study, "find", lambda _: SimpleNamespace(words=lambda: "not to be pickled"))
    monkeypatch.setattr(study, "judge", lambda _, facts: Answer("warmth", "Is it warm?", facts.words()))
    assert asked(monkeypatch) == "not to be pickled"
    assert kept() == []
    assert list((cache_folder() / "found").iterdir()) == []
