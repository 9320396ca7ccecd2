"""The bench between file, history and answers that come in: nothing stale is current, nothing is lost."""

from __future__ import annotations

import asyncio
import codecs
import errno
import os
import sys
from collections.abc import Callable
from pathlib import Path
from typing import cast

import pytest

from tidestead import desk
from tidestead.core.answer import Answer
from tidestead.core.errors import PlanError
from tidestead.desk.lanes import Job, News
from tidestead.plan import load, loads, saving
from tidestead.plan.edits import Edit
from tidestead.web.bench import Bench, NothingToDo, StaleError
from tidestead.web.events import events

FLOW, NAME = "pumps.return.power", "name"


class Slow:
    """A lane that answers when it is told to, by the rules of the real one: what it last sent is told as the same."""

    def __init__(self) -> None:
        self.jobs: list[Job] = []
        self.sent: dict[str, Answer] = {}
        self.hear: Callable[[News], None] = lambda _: None

    def start(self, hear: Callable[[News], None]) -> None:
        self.hear = hear

    def ask(self, job: Job) -> None:
        self.jobs.append(job)

    def stop(self) -> None:
        return None

    def answer(self, job: Job, subject: str = "flow") -> News:
        answer = desk.answer(job.loaded, [subject], job.system)[subject]
        kind = "same" if job.purpose == "plan" and self.sent.get(subject) is answer else "answer"
        if job.purpose == "plan":
            self.sent[subject] = answer
        return News(
            job.number,
            job.purpose,
            subject,
            "same" if kind == "same" else "answer",
            None if kind == "same" else answer,
        )


@pytest.fixture
def slow() -> Slow:
    return Slow()


@pytest.fixture
def bench(plan: Path, slow: Slow, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Bench:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    made = Bench(plan, slow)
    slow.start(made.heard)
    made.look()
    return made


class Clock:
    """A loop whose time goes on when it is told to."""

    def __init__(self) -> None:
        self.later: list[Callable[[], object]] = []

    def call_later(self, delay: float, callback: Callable[..., object], *args: object) -> None:
        self.later.append(lambda: callback(*args))

    def is_closed(self) -> bool:
        return True

    def go_on(self) -> None:
        due, self.later = self.later, []
        for one in due:
            one()


def right(bench: Bench) -> Answer:
    return desk.answer(loads(bench.text), ["flow"], bench.system)["flow"]


def test_the_same_as_last_sent_is_never_an_older_answer(bench: Bench, slow: Slow) -> None:
    """An answer that came too late for its own plan is what the lane means by the same, and not the one before it."""
    bench.heard(slow.answer(slow.jobs[-1]))
    bench.save([Edit(FLOW, "400 W")], bench.digest)
    touching = slow.jobs[-1]
    bench.save([Edit("targets.turnover", "1.1")], bench.digest)
    bench.undo(bench.digest)
    bench.heard(slow.answer(touching))
    assert not bench.standings["flow"].current, "an answer to an earlier text is not current"
    bench.heard(slow.answer(slow.jobs[-1]))
    assert bench.standings["flow"].current
    assert bench.standings["flow"].answer == right(bench)


def test_a_trial_goes_on_when_units_are_switched(bench: Bench, slow: Slow) -> None:
    bench.try_out([Edit(FLOW, "400 W")], bench.digest)
    bench.show_in("metric")
    last = slow.jobs[-1]
    assert (last.purpose, last.system) == ("trial", "metric")
    bench.heard(slow.answer(last))
    assert bench.trial is not None
    assert bench.trial.standings["flow"].current


def test_what_a_save_would_lead_to_is_held_to_all_that_reading_asks(bench: Bench) -> None:
    """A text that could not be read again is refused before the file is touched, and the page goes on."""
    before = bench.path.read_bytes()
    for text in (bench.text + "\n" * 21_000, bench.text + "# " + "\u00e9" * 600_000, bench.text + "# \x07"):
        with pytest.raises(PlanError):
            bench.save_text(text, bench.digest)
        assert bench.path.read_bytes() == before
    bench.save([Edit(NAME, "still here")], bench.digest)
    assert b"still here" in bench.path.read_bytes()


def test_undo_after_a_faulty_text_from_elsewhere_loses_no_version(bench: Bench) -> None:
    bench.save([Edit(NAME, "one")], bench.digest)
    kept = bench.text
    bench.path.write_text(kept.replace('"one"', '"from elsewhere"') + "half a li", "utf-8")
    bench.look()
    assert bench.faults
    bench.undo(bench.digest)
    assert bench.text == kept
    assert not bench.faults
    assert bench.history.after is not None
    assert "from elsewhere" in bench.history.after.text


def test_a_plan_that_cannot_be_written_is_answered_as_it_stands(
    bench: Bench, slow: Slow, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The studies begin while the file is written; where that fails, what they were given is not the plan."""

    def full(*_: object) -> None:
        raise OSError(errno.ENOSPC, "No space left on device")

    bench.heard(slow.answer(slow.jobs[-1]))
    sound, before = bench.text, right(bench)
    monkeypatch.setattr(os, "replace", full)
    with pytest.raises(PlanError, match="No space left"):
        bench.save([Edit(FLOW, "400 W")], bench.digest)
    assert bench.text == sound
    never, again = slow.jobs[-2:]
    assert (never.loaded.plan.pumps["return"].power, again.loaded.text) == (400.0, sound)
    bench.heard(slow.answer(never))
    assert not bench.standings["flow"].current
    bench.heard(slow.answer(again))
    assert bench.standings["flow"].current
    assert bench.standings["flow"].answer == before


def test_units_switched_over_a_faulty_file_ask_for_the_last_sound_plan(bench: Bench, slow: Slow) -> None:
    sound = bench.text
    bench.path.write_text(sound + "half a li", "utf-8")
    bench.look()
    bench.show_in("metric")
    assert slow.jobs[-1].loaded.text == sound


def test_a_trial_made_on_another_text_is_not_kept(bench: Bench) -> None:
    bench.try_out([Edit(FLOW, "400 W")], bench.digest)
    old = bench.digest
    bench.path.write_text(bench.text.replace("Packhouse reef", "Another name"), "utf-8")
    with pytest.raises(StaleError):
        bench.keep_trial(old)
    assert b"400 W" not in bench.path.read_bytes()


def test_what_changed_is_told_over_an_edit_and_over_a_new_day(bench: Bench, slow: Slow, plan: Path) -> None:
    bench.heard(slow.answer(slow.jobs[-1]))
    assert bench.last_changes() == {}
    bench.save([Edit("valves.main.open", "60 %")], bench.digest)
    bench.heard(slow.answer(slow.jobs[-1]))
    told = bench.last_changes()["flow"]
    before, now = (
        desk.answer(loads(bench.history.versions[0].text), ["flow"]),
        desk.answer(loads(bench.text), ["flow"]),
    )
    uses = {check.id: check.use for check in before["flow"].checks}
    moved = {check.id for check in now["flow"].checks if check.id in uses and check.use != uses[check.id]}
    assert {change.check for change in told if change.check in uses} <= moved
    assert any(change.better is not None for change in told)
    for name in bench.standings:
        if name != "flow":
            bench.heard(News(slow.jobs[-1].number, "plan", name, "fault", words="not in this test"))
    again = Bench(plan, Slow())
    assert again.last_changes()["flow"] == told


def test_a_write_between_the_saving_and_the_look_is_seen(
    bench: Bench, slow: Slow, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Another program may write while the folder is put on the disk; the file's stamp is then not that of our text."""
    real = saving._settle

    def raced(folder: Path) -> None:
        real(folder)
        bench.path.write_text(bench.path.read_text("utf-8").replace('"400 W"', '"444 W"'), "utf-8")

    monkeypatch.setattr(saving, "_settle", raced)
    bench.save([Edit(FLOW, "400 W")], bench.digest)
    monkeypatch.undo()
    assert bench.loaded is not None
    assert bench.loaded.plan.pumps["return"].power == 444.0
    assert slow.jobs[-1].loaded.plan.pumps["return"].power == 444.0
    bench.save([Edit(FLOW, "410 W")], bench.digest)
    assert load(bench.path).plan.pumps["return"].power == 410.0


@pytest.mark.parametrize("mark", [b"", codecs.BOM_UTF8])
def test_a_text_that_begins_with_a_mark_is_saved_without_it(
    plan: Path, slow: Slow, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, mark: bytes
) -> None:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    plan.write_bytes(mark + plan.read_bytes())
    bench = Bench(plan, slow)
    slow.start(bench.heard)
    bench.look()
    bench.save_text("\ufeff" + bench.text + "# typed\n", bench.digest)
    assert plan.read_bytes().count(codecs.BOM_UTF8) == (1 if mark else 0)
    assert load(plan).text == bench.text
    bench.save([Edit(FLOW, "400 W")], bench.digest)
    assert load(plan).plan.pumps["return"].power == 400.0


def test_a_changed_file_beside_the_plan_asks_anew(bench: Bench, slow: Slow) -> None:
    beside = bench.path.with_name("hours.epw")
    beside.write_text("one", "utf-8")
    bench.save([Edit("weather.file", beside.name)], bench.digest)
    asked = len(slow.jobs)
    assert not bench.look()
    beside.write_text("another", "utf-8")
    assert bench.look()
    assert len(slow.jobs) == asked + 1
    assert not bench.standings["heat"].current
    assert not bench.look()


def test_undo_and_redo_pass_over_a_faulty_version_that_was_mended_elsewhere(bench: Bench) -> None:
    first = bench.text
    bench.save([Edit(NAME, "one")], bench.digest)
    one = bench.text
    bench.path.write_text(one + "half a li", "utf-8")
    bench.look()
    mended = one.replace('"one"', '"mended"')
    bench.path.write_text(mended, "utf-8")
    bench.look()
    texts = []
    for _ in range(2):
        bench.undo(bench.digest)
        texts.append(bench.text)
    assert texts == [one, first]
    with pytest.raises(NothingToDo):
        bench.undo(bench.digest)
    bench.redo(bench.digest)
    bench.redo(bench.digest)
    assert bench.text == mended


@pytest.mark.skipif(sys.platform == "win32", reason="there files have no such locks")
def test_another_programs_lock_is_not_waited_for(bench: Bench) -> None:
    import fcntl  # noqa: PLC0415 - not on every system

    with bench.path.open("rb") as held:
        fcntl.flock(held, fcntl.LOCK_EX)
        with pytest.raises(PlanError, match="held by another program"):
            bench.save([Edit(FLOW, "400 W")], bench.digest)
    bench.save([Edit(FLOW, "400 W")], bench.digest)
    assert load(bench.path).plan.pumps["return"].power == 400.0


def test_memory_is_swept_once_all_is_answered_and_nobody_waits(bench: Bench, slow: Slow) -> None:
    clock, swept = Clock(), list[str]()
    bench.start(cast(asyncio.AbstractEventLoop, clock))
    bench.at_rest = lambda: swept.append(bench.digest)
    names = list(bench.standings)

    def answered(job: Job, subjects: list[str]) -> None:
        for subject in subjects:
            bench.heard(News(job.number, "plan", subject, "fault", words="made up"))

    bench.save([Edit(FLOW, "171 W")], bench.digest)
    answered(slow.jobs[-1], names[1:])
    clock.go_on()
    assert swept == []  # one is still at work
    answered(slow.jobs[-1], names[:1])
    bench.save([Edit(FLOW, "172 W")], bench.digest)
    clock.go_on()
    assert swept == []  # somebody waits again
    answered(slow.jobs[-1], names)
    clock.go_on()
    assert swept == [bench.digest]


def test_a_page_that_fell_behind_is_sent_away_so_that_it_comes_back_and_reads_anew(bench: Bench) -> None:
    async def heard() -> list[str]:
        stream = (await events(bench)).body_iterator
        lines = [str(await anext(aiter(stream)))]
        for _ in range(600):
            bench.listeners.tell({"kind": "trial"})
        lines += [str(line) async for line in stream]
        return lines

    lines = asyncio.run(asyncio.wait_for(heard(), 30.0))
    assert "hello" in lines[0]
    assert 500 < len(lines) < 600
    assert not any("still here" in line for line in lines)
