"""The plan that is open on the page: its text, its versions, its answers as they come, and who listens.

All of it belongs to one event loop; only `hear` may be called from elsewhere. The plan's file is the record: a change
is taken only where it was made on the text that stands there, so that two pages, or a page and another program, never
overwrite each other unseen.
"""

from __future__ import annotations

import asyncio
from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from datetime import date
from pathlib import Path
from time import time
from typing import Any

from tidestead.core.answer import Assumption
from tidestead.core.errors import Fault, PlanError, TidesteadError
from tidestead.core.units import System
from tidestead.desk import subjects
from tidestead.desk.lanes import Job, News, Purpose
from tidestead.plan import Document, LoadedPlan, load, loads, save
from tidestead.plan.edits import Edit, edited
from tidestead.plan.forms import Draft, words_of_keys
from tidestead.plan.reading import digest_of, faults_in
from tidestead.plan.text import decode, read_bytes
from tidestead.plan.toml import values_in
from tidestead.web import remembered
from tidestead.web.changes import Change, changes, snapshot
from tidestead.web.finding import Finding
from tidestead.web.history import History
from tidestead.web.listeners import Listeners
from tidestead.web.pictures import Drawings
from tidestead.web.seeker import Seeker, Seeks
from tidestead.web.standing import Standing, current, note_assumed
from tidestead.web.trying import LEFT, Ended, Trial, carried
from tidestead.web.watched import Stamp, stamp_of, stamps_beside
from tidestead.web.workers import Workers

_MEANWHILE = 0.02
"""Seconds after a change at which the studies are at work and the pages have been told."""

_REST = 0.5
"""Seconds after the last answer in which its page is fetched."""


class StaleError(TidesteadError):
    """A change was made on a text that is no longer the plan's."""


class NothingToDo(TidesteadError):
    """There is nothing to undo, redo or try."""


class Bench:
    """One plan file, open."""

    def __init__(
        self, path: Path, workers: Workers, system: System | None = None, seeker: Seeks | None = None
    ) -> None:
        self.path, self.workers, self.finding = path, workers, Finding(seeker or Seeker())
        self.text, self.digest, self.faults = "", "", tuple[Fault, ...]()
        self.count = 0
        """Texts that the plan has had since it was opened, so that a page knows a later one from an earlier one."""
        self.loaded: LoadedPlan | None = None
        self.history = History()
        self.standings = {entry.name: Standing.first(entry) for entry in subjects.SUBJECTS}
        self.trial: Trial | None = None
        self._trials = int(time() * 1000)
        """The number of the last trial; later than any of an earlier run, so that pages that were open then know."""
        self.trial_ended = Ended(self._trials)
        self.listeners, self.drawings = Listeners(), Drawings()
        self.looked_at = ""
        self.overridden: dict[str, dict[str, Assumption]] = {}
        self.remembered = remembered.recall(path)
        self.at_rest: Callable[[], None] = lambda: None
        """Called a moment after every question has been answered."""
        self._chosen = system
        self._number = self._plan_number = 0
        self._stamp: Stamp | None = None
        self._beside: Stamp = ()
        self._loop: asyncio.AbstractEventLoop | None = None

    # Beginning and end

    def start(self, loop: asyncio.AbstractEventLoop) -> None:
        """Read the plan and begin to answer."""
        self._loop = loop
        self.workers.start(self.hear)
        self.finding.start(self._in_loop, self.listeners.tell)
        self._read("opened")

    def stop(self) -> None:
        """End the work, and tell every page so."""
        self.workers.stop()
        self.finding.give_up()
        self.listeners.tell({"kind": "closing"})

    @property
    def system(self) -> System:
        """The units shown: as chosen on the page, else as the plan says."""
        return self._chosen or (self.loaded.plan.show if self.loaded else "metric")

    def show_in(self, system: System) -> None:
        """Show in other units. The plan is not changed."""
        if system != self.system:
            self._chosen = system
            self.listeners.tell({"kind": "units", "system": system})
            self._ask()

    @property
    def values(self) -> Mapping[str, Any]:
        """The last sound plan as plain values, by key."""
        if self.loaded is None:
            return {}
        return values_in(self.loaded.text)

    # The file

    @property
    def missing(self) -> bool:
        """Whether the plan's file was found to be gone."""
        return bool(self.faults) and not self.path.exists()

    def write_again(self, base: str) -> None:
        """Write the last sound text again where the file is gone. Raises as `save`, NothingToDo where it is there."""
        self._based_on(base)
        if not self.missing or self.loaded is None:
            raise NothingToDo("The plan's file is there; nothing was written.")
        save(Document(self.loaded.text, marked=self.loaded.marked), self.path)
        self.look()

    def look(self) -> bool:
        """Read the file again if another program has changed it, or a file that it names; whether it was so."""
        if stamp_of(self.path) != self._stamp:
            return self._read("changed in another program")
        if stamps_beside(self.path, self.loaded) == self._beside:
            return False
        self.finding.forget()
        self._tell_plan()
        self._ask()
        return True

    def _read(self, why: str) -> bool:
        """Take what stands in the file; a file with faults leaves the last sound answers as they are."""
        self._stamp = stamp_of(self.path)
        try:
            data = read_bytes(self.path)
        except PlanError as error:
            return self._faulty(self.text, self.digest, error.faults)
        try:
            text = decode(data, self.path.name).text
        except PlanError as error:
            return self._faulty("", digest_of(data), error.faults)
        if digest_of(data) == self.digest and not self.faults:
            return False
        try:
            loaded = load(self.path)
        except PlanError as error:
            return self._faulty(text, digest_of(data), error.faults)
        self._take(loaded, why)
        return True

    def _faulty(self, text: str, digest: str, faults: tuple[Fault, ...]) -> bool:
        changed = (text, digest, faults) != (self.text, self.digest, self.faults)
        if text != self.text:
            self.history.add(text, "what another program wrote, with faults", sound=False)
        if changed:
            self._stands(text, digest, faults)
        return changed

    def _stands(self, text: str, digest: str, faults: tuple[Fault, ...]) -> None:
        """What the plan's file says now; every page is told."""
        self.count += digest != self.digest
        self.text, self.digest, self.faults = text, digest, faults
        self.finding.plan_is(digest)
        self._tell_plan()

    def _tell_plan(self) -> None:
        news = {"kind": "plan", "digest": self.digest, "count": self.count, "faults": len(self.faults)}
        self.listeners.tell({**news, "missing": self.missing})

    def _take(self, loaded: LoadedPlan, why: str, handed: int | None = None) -> None:
        self.loaded = loaded
        self.history.add(loaded.text, why)
        self._stands(loaded.text, loaded.digest, ())
        if self.trial is not None:
            self._now_tried(carried(self.trial, self.text, self.path.name))
        self._ask(handed)
        if self._loop is not None:
            self._loop.call_later(_MEANWHILE, self._read_ahead)

    def _read_ahead(self) -> None:
        """What every page reads of the plan, read while the studies are at work."""
        if self.loaded is not None:
            Draft.of(self.text, self.path.name)

    # Changes

    def scratch(self, edits: Sequence[Edit]) -> str:
        """The text that edits lead to. Raises a PlanError where one cannot be made."""
        return edited(self.text, edits)

    def save(self, edits: Sequence[Edit], base: str, why: str = "") -> None:
        """Make edits in the file. Raises StaleError, or a PlanError with every fault the plan would then have."""
        self._based_on(base)
        self._write(self.scratch(edits), why or words_of_keys([edit.key for edit in edits]))

    def save_text(self, text: str, base: str, why: str = "the file") -> None:
        """Put a whole text in place of the plan's. Raises as `save`."""
        self._based_on(base)
        self._write(text, why)

    def undo(self, base: str) -> str:
        """Go back to the version before; what was undone, in words."""
        self._based_on(base)
        why = self.history.undoes
        self._go(-1, "There is nothing to undo.")
        return why

    def redo(self, base: str) -> str:
        """Go on to the version that was undone; what was done again, in words."""
        self._based_on(base)
        why = self.history.redoes
        self._go(1, "There is nothing to do again.")
        return why

    def _go(self, step: int, else_words: str) -> None:
        """To the next version that way; one with faults, which another program wrote, is passed over."""
        move = step
        while (version := self.history.version(move)) is not None:
            if not faults_in(version.text, self.path.name):
                return self._write(version.text, "", move=move)
            move += step
        raise NothingToDo(else_words)

    def _based_on(self, base: str) -> None:
        self.look()
        if base != self.digest:
            raise StaleError(
                "The plan has changed since this was typed. Nothing was saved; what you typed is still there."
            )

    def _write(self, text: str, why: str, move: int = 0) -> None:
        marked = self.loaded.marked if self.loaded else False
        judged = loads(text, self.path.name)
        document = Document(judged.text, self.path, self.digest, marked)
        loaded = LoadedPlan(judged.plan, judged.text, self.path, digest_of(document.data), marked)
        handed = self._hand(loaded)  # the studies begin while the file is written
        try:
            save(document, self.path)
        except TidesteadError:
            self._stamp = None  # whatever stands there now is read at the next look
            self._ask()
            raise
        self.history.at += move
        self._stamp = stamp_of(self.path)
        self._take(loaded, why, handed)
        self._read("changed in another program")  # it may have come between the writing and the stamp

    # Answers

    def _ask(self, handed: int | None = None) -> None:
        """Ask for every answer anew, where that was not `handed` on already; what needs no new work comes at once."""
        if self.loaded is None:
            return
        self._beside = stamps_beside(self.path, self.loaded)
        self._plan_number = self._hand(self.loaded) if handed is None else handed
        built = {entry.name for entry in subjects.SUBJECTS if entry.built}
        self.standings = {
            name: standing.waiting() if name in built or standing.answer is None else standing
            for name, standing in self.standings.items()
        }
        if self.trial is not None:
            self._ask_trial(self.trial)

    def _hand(self, loaded: LoadedPlan, purpose: Purpose = "plan") -> int:
        """Hand a plan to who answers; the number of that job."""
        self._number += 1
        names = [entry.name for entry in subjects.SUBJECTS]
        names.sort(key=lambda name: name != self.looked_at)
        system = self._chosen or loaded.plan.show
        there = replace(loaded, path=self.path.resolve())
        self.workers.ask(Job(self._number, purpose, there, system, tuple(names), date.today()))
        return self._number

    def try_out(self, edits: Sequence[Edit], base: str) -> None:
        """Answer for edits on a scratch copy, in place of what was tried. Raises as `save`; nothing is saved.

        Raises NothingToDo where the plan has all of it already; what was tried before goes on then.
        """
        self._based_on(base)
        self._trials += 1
        trial = Trial.on(self.text, self.path.name, edits, self._trials)
        if trial is None:
            raise NothingToDo("The plan has this already; there is nothing to try.")
        self._now_tried(trial)
        self._ask_trial(trial)

    def _ask_trial(self, trial: Trial) -> None:
        standings = {name: standing.waiting() for name, standing in self.standings.items()}
        self.trial = replace(trial, job=self._hand(trial.loaded, "trial"), standings=standings)

    def keep_trial(self, base: str, number: int | None = None) -> None:
        """Save what is being tried, where it is the trial of that number. Raises as `save`."""
        if self.trial is None:
            raise NothingToDo(self.trial_ended.words or "Nothing is being tried.")
        if number is not None and number != self.trial.number:
            raise StaleError(
                "Something else is being tried by now. Nothing was saved; look at what it would change, then keep it."
            )
        self._based_on(base)
        if self.faults:
            raise StaleError(
                "The plan's file has faults. Nothing was saved; mend it first, the trial waits for that."
            )
        self.save(self.trial.edits, base)

    def drop_trial(self, keys: Sequence[str] = ()) -> None:
        """Forget what is tried at some keys, or the whole trial. Raises NothingToDo where nothing is tried.

        Raises a PlanError where the rest does not fit the plan by itself; the trial goes on then.
        """
        self.look()
        if self.trial is None:
            raise NothingToDo(self.trial_ended.words or "Nothing is being tried.")
        left = [edit for edit in self.trial.edits if keys and edit.key not in keys]
        if left:
            self.try_out(left, self.digest)
        else:
            self._now_tried(Ended(self.trial.number, "left", LEFT))

    def _now_tried(self, trial: Trial | Ended) -> None:
        """What is being tried, or how that ended; every page is told."""
        if isinstance(trial, Ended):
            self.trial, self.trial_ended = None, trial
        else:
            self.trial = trial
        self.listeners.tell({"kind": "trial"})

    def trial_changes(self) -> dict[str, tuple[Change, ...]]:
        """What the trial would change, of the subjects that are answered both ways."""
        if self.trial is None:
            return {}
        return changes(snapshot(current(self.standings)), snapshot(current(self.trial.standings)))

    def last_changes(self) -> dict[str, tuple[Change, ...]]:
        """What is not as it was before the plan last changed, be it today or long ago."""
        return changes(self.remembered.before, self.remembered.now)

    def hear(self, news: News) -> None:
        """News from a lane, from any thread."""
        self._in_loop(self.heard, news)

    def _in_loop(self, call: Callable[..., object], *told: object) -> None:
        if self._loop is not None and not self._loop.is_closed():
            self._loop.call_soon_threadsafe(call, *told)

    def heard(self, news: News) -> None:
        """News, in the event loop."""
        if news.purpose == "trial":
            if self.trial is None or news.number != self.trial.job:
                return
            self.trial.standings[news.subject] = self.trial.standings[news.subject].after(news)
        elif news.number == self._plan_number:
            self._heard_of_plan(news)
        else:
            # An answer to an earlier text is the last there is, and what a later "same" means; it is not current.
            if news.kind == "answer" and not self.standings[news.subject].current:
                self.standings[news.subject] = replace(self.standings[news.subject], answer=news.answer)
            return
        told = {"kind": news.kind, "purpose": news.purpose, "subject": news.subject}
        self.listeners.tell({**told, "done": news.done, "of": news.of})

    def forget_before(self) -> None:
        """Compare with nothing: what the plan was before is not the user's."""
        self.remembered = remembered.Remembered()

    def _heard_of_plan(self, news: News) -> None:
        before, rested = self.standings[news.subject], self._rests()
        standing = before.after(news)
        self.standings[news.subject] = standing
        if before.answer is not None and standing.current:
            kept = self.overridden.setdefault(before.subject, {})
            note_assumed(kept, before.answer, standing.answer)
        if standing.current and standing.answer is not None and self.loaded is not None:
            self.remembered.take(snapshot({news.subject: standing.answer}), self.loaded.digest)
        if self._rests() and not rested:
            remembered.keep(self.path, self.remembered)
            if self._loop is not None:
                self._loop.call_later(_REST, self._rest, self._plan_number)

    def _rests(self) -> bool:
        """Whether every question has been answered."""
        return all(one.state in ("done", "fault") for one in self.standings.values())

    def _rest(self, number: int) -> None:
        if number == self._plan_number and self._rests():
            self.at_rest()
