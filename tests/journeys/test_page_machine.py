"""Whatever is done in whatever order, an answer that is told as current is the answer for the file as it stands.

The bench and its lanes are the real ones; the two processes are played, so that every order of their news can come.
"""

from __future__ import annotations

import os
import shutil
import threading
from collections import deque
from collections.abc import Callable, Sequence
from contextlib import AbstractContextManager, suppress
from dataclasses import replace
from pathlib import Path
from tempfile import mkdtemp

import pytest
from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, invariant, precondition, rule

from tests.many import many
from tidestead.core.answer import Answer, Check, Estimate
from tidestead.core.errors import PlanError, TidesteadError
from tidestead.core.source import PRACTICE
from tidestead.core.units import System
from tidestead.desk import subjects
from tidestead.desk.lanes import Job, News
from tidestead.plan import LoadedPlan, load, saving
from tidestead.plan.edits import Edit
from tidestead.web import workers
from tidestead.web.bench import Bench
from tidestead.web.workers import Lanes

BUILT = {entry.name for entry in subjects.SUBJECTS if entry.built}

PACKHOUSE = Path(__file__).parents[2] / "examples" / "packhouse.toml"
READS = {
    "structure": {"vessels"},
    "flow": {"vessels", "pumps"},
    "heat": {"site"},
    "light": {"site", "vessels"},
}
"""What the played studies read of a plan; all others read its name."""
EDITS = st.sampled_from(
    [
        Edit("pumps.return.power", "400 W"),
        Edit("pumps.return.power", "410 W"),
        Edit("vessels.reef.water", "4 ft 2 in"),
        Edit("vessels.reef.water", "9 ft"),
        Edit("site.elevation", "40 m"),
        Edit("name", "another"),
        Edit("show", "metric"),
        Edit("show", None),
    ]
)
GIVEN: dict[tuple[str, str, str], Answer] = {}


def answer(loaded: LoadedPlan, subject: str, system: System) -> Answer:
    """A played answer: the same object for the same of what is read, as the desk gives it."""
    read = loaded.plan.model_dump_json(include=READS.get(subject, set()))
    key = (subject, system if subject in READS else "", read)
    if key not in GIVEN:
        size = float(len(GIVEN) + 1)
        check = Check(f"{subject}.played", "size", "", "m", Estimate.exact(size), 1e6, PRACTICE)
        GIVEN[key] = Answer(subject, f"{subject}?", f"{size}", (check,))
    return GIVEN[key]


class Played:
    """A lane by the rules of the real one: the newest plan first, what was last sent is told as the same."""

    made: list[Played]

    def __init__(
        self, subjects: Sequence[str], tell: Callable[[News], None], *, patient: bool = False
    ) -> None:
        self.subjects, self.tell, self.patient = tuple(subjects), tell, patient
        self.waiting: dict[str, Job] = {}
        self.sent: dict[str, Answer] = {}
        self.at: Job | None = None
        self.left: list[str] = []
        self.out = deque[News]()
        Played.made.append(self)

    def start(self) -> None:
        return None

    def stop(self) -> None:
        return None

    def ask(self, job: Job) -> None:
        if job.purpose == "plan":
            self.waiting.clear()
        mine = tuple(name for name in job.wish if name in self.subjects)
        self.waiting[job.purpose] = replace(job, wish=mine)

    def step(self) -> bool:
        """Work on for a bit; whether there was anything to do."""
        if self.at is not None and ("plan" in self.waiting or self.at.purpose in self.waiting):
            self.at = None
        if self.at is None:
            if not self.waiting:
                return False
            self.at = self.waiting.pop("plan", None) or self.waiting.pop("trial")
            self.left = list(self.at.wish)
        if not self.left:
            self.at = None
            return True
        self._answer(self.at, self.left.pop(0))
        return True

    def _answer(self, job: Job, subject: str) -> None:
        found = answer(job.loaded, subject, job.system)
        if job.purpose == "plan" and self.sent.get(subject) is found:
            self.out.append(News(job.number, job.purpose, subject, "same"))
            return
        if job.purpose == "plan":
            self.sent[subject] = found
        self.out.append(News(job.number, job.purpose, subject, "answer", found))

    def deliver(self) -> bool:
        """Let one piece of news arrive; whether there was any."""
        if not self.out:
            return False
        self.tell(self.out.popleft())
        return True


class Clock:
    """A timer that rings when the machine says so."""

    made: list[Clock]

    def __init__(self, _: float, ring: Callable[..., None], args: tuple[object, ...]) -> None:
        self.ring, self.args, self.off = ring, args, False
        Clock.made.append(self)

    def start(self) -> None:
        return None

    def cancel(self) -> None:
        self.off = True

    def rings(self) -> None:
        if not self.off:
            self.off = True
            self.ring(*self.args)


def refused() -> AbstractContextManager[None]:
    """Whatever a step asks for may be refused in good order; what the bench then shows is what is looked at."""
    return suppress(TidesteadError)  # a refusal is an answer too; any other exception fails the step


class Threading:
    """What the lanes use of threads, with clocks that are rung by hand."""

    Lock, Timer = threading.Lock, Clock


class Page(RuleBasedStateMachine):
    """All that a person, another program and the lanes can do to a bench."""

    def __init__(self) -> None:
        super().__init__()
        self.patched = pytest.MonkeyPatch()
        self.folder = Path(mkdtemp())
        self.patched.setenv("XDG_CACHE_HOME", str(self.folder / "cache"))
        self.patched.setattr(workers, "Lane", Played)
        self.patched.setattr(workers, "threading", Threading)
        Played.made, Clock.made = [], []
        lanes = Lanes()
        self.bench = Bench(Path(shutil.copy(PACKHOUSE, self.folder)), lanes)
        lanes.start(self.bench.heard)
        self.bench.look()

    def teardown(self) -> None:
        self.patched.undo()
        shutil.rmtree(self.folder)

    @rule(edit=EDITS)
    def save(self, edit: Edit) -> None:
        with refused():
            self.bench.save([edit], self.bench.digest)

    @rule(edit=EDITS)
    def save_on_a_full_disk(self, edit: Edit) -> None:
        def full(*_: object) -> None:
            raise OSError(28, "No space left on device")

        with pytest.MonkeyPatch.context() as broken, refused():
            broken.setattr(os, "replace", full)
            self.bench.save([edit], self.bench.digest)

    @rule(edit=EDITS)
    def save_while_another_program_writes(self, edit: Edit) -> None:
        real = saving._settle

        def raced(folder: Path) -> None:
            real(folder)
            self._write(self.bench.path.read_bytes() + b"# raced\n")

        with pytest.MonkeyPatch.context() as racing, refused():
            racing.setattr(saving, "_settle", raced)
            self.bench.save([edit], self.bench.digest)

    @rule(back=st.booleans())
    def go(self, back: bool) -> None:
        with refused():
            (self.bench.undo if back else self.bench.redo)(self.bench.digest)

    @rule(edit=EDITS)
    def try_out(self, edit: Edit) -> None:
        with refused():
            self.bench.try_out([edit], self.bench.digest)

    @rule()
    def keep(self) -> None:
        with refused():
            self.bench.keep_trial(self.bench.digest)

    @rule(words=st.sampled_from(["# a remark\n", "half a li", 'name = "twice"\n']))
    def another_program(self, words: str) -> None:
        self._write(self.bench.path.read_bytes() + words.encode())

    @rule()
    def another_program_mends(self) -> None:
        self._write(PACKHOUSE.read_bytes())

    @rule(system=st.sampled_from(["us", "metric"]))
    def units(self, system: System) -> None:
        self.bench.show_in(system)

    @rule(subject=st.sampled_from(["structure", "flow", "heat", "water"]))
    def look_at(self, subject: str) -> None:
        self.bench.looked_at = subject

    @rule(lane=st.integers(0, 1), times=st.integers(1, 6))
    def work(self, lane: int, times: int) -> None:
        for _ in range(times):
            Played.made[lane].step()

    @rule(lane=st.integers(0, 1), times=st.integers(1, 6))
    def arrive(self, lane: int, times: int) -> None:
        for _ in range(times):
            Played.made[lane].deliver()

    @precondition(lambda self: bool(Clock.made))
    @rule()
    def ring(self) -> None:
        Clock.made.pop(0).rings()

    @rule()
    def come_to_rest(self) -> None:
        """When all work is done, every answer is there and current."""
        self.bench.look()
        while Clock.made or any([lane.step() or lane.deliver() for lane in Played.made]):
            while Clock.made:
                Clock.made.pop(0).rings()
        assert self.bench.loaded is not None
        assert all(one.current for one in self.bench.standings.values())
        if self.bench.trial is not None:
            assert all(one.current for one in self.bench.trial.standings.values())

    @invariant()
    def what_is_current_is_right(self) -> None:
        self.bench.look()
        try:
            now = load(self.bench.path)
        except PlanError:
            assert self.bench.faults
            return
        assert not self.bench.faults
        assert self.bench.text == now.text
        for name, one in self.bench.standings.items():
            if name in BUILT:  # what no study answers yet says so before anything is heard
                assert not one.current or one.answer == answer(now, name, self.bench.system)
        trial = self.bench.trial
        for name, one in trial.standings.items() if trial is not None else ():
            system = self.bench._chosen or trial.loaded.plan.show if trial is not None else "us"
            assert not one.current or (trial and one.answer == answer(trial.loaded, name, system))

    def _write(self, data: bytes) -> None:
        self.bench.path.write_bytes(data)


Page.TestCase.settings = settings(max_examples=many(60, 25), stateful_step_count=40, deadline=None)
TestPage = Page.TestCase
