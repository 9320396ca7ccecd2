"""Studies at work in processes of their own, so that whoever waits for them can go on with something else.

A lane is one process. It is handed a plan, answers the subjects of its lane one by one and sends each
answer back as soon as it has it. A newer plan takes the place of one that is still at work. Quick subjects have one
lane and those that need weather another, so that the one never waits for the other.
"""

from __future__ import annotations

import multiprocessing
import threading
from collections.abc import Callable, Sequence
from contextlib import suppress
from dataclasses import dataclass, replace
from datetime import date
from multiprocessing.connection import Connection
from multiprocessing.context import SpawnContext, SpawnProcess
from typing import Literal, TypeAlias

from tidestead.core.answer import Answer
from tidestead.core.units import System
from tidestead.desk.subjects import ENTRIES, SUBJECTS, SubjectEntry
from tidestead.plan import LoadedPlan

Purpose: TypeAlias = Literal["plan", "trial"]


@dataclass(frozen=True)
class Job:
    """A plan to answer for. `number` tells it from others, `purpose` a plan from a trial beside it.

    `wish` are the subjects in the order in which their answers are wished for, `as_of` the day on which it is asked.
    """

    number: int
    purpose: Purpose
    loaded: LoadedPlan
    system: System
    wish: tuple[str, ...]
    as_of: date | None = None


@dataclass(frozen=True)
class News:
    """What a lane tells of one subject of a job: begun, how far, its answer, the same answer as before, or a fault.

    `answer` is None for `same`, where the answer is the one last sent for the plan.
    """

    number: int
    purpose: Purpose
    subject: str
    kind: Literal["begun", "part", "answer", "same", "fault", "compiling"]
    answer: Answer | None = None
    done: int = 0
    of: int = 0
    words: str = ""


def is_slow(entry: SubjectEntry) -> bool:
    """Whether a subject tries many years of weather, or rests on one that does, and so belongs to the slow lane."""
    return entry.weather or bool(entry.compiles) or any(is_slow(ENTRIES[name]) for name in entry.needs)


def lane_subjects(slow: bool) -> tuple[str, ...]:
    """The subjects of a lane, in the order of the twelve questions; those not built are answered by the quick one."""
    return tuple(entry.name for entry in SUBJECTS if is_slow(entry) is slow)


Owed: TypeAlias = dict[tuple[Purpose, str], int]
"""What one process has been asked and not told yet, with the number of the job."""


class Lane:
    """One process at work. `tell` is called with news, from a thread of the lane's own.

    A `patient` lane leaves the cores to whoever else wants them.

    A process that dies is told as a fault of every subject it still owed, and started anew with the next job.
    """

    def __init__(
        self, subjects: Sequence[str], tell: Callable[[News], None], *, patient: bool = False
    ) -> None:
        self.subjects = tuple(subjects)
        self._patient = patient
        self._tell = tell
        self._context: SpawnContext = multiprocessing.get_context("spawn")
        self._process: SpawnProcess | None = None
        self._pipe: Connection | None = None
        self._listener: threading.Thread | None = None
        self._owed: Owed = {}
        self._lock = threading.Lock()

    def start(self) -> None:
        """Start the process, so that it is warm when the first job comes."""
        with self._lock:
            self._running()

    def ask(self, job: Job) -> None:
        """Hand over a job; an earlier one of its purpose is given up."""
        mine = tuple(name for name in job.wish if name in self.subjects)
        if not mine:
            return
        with self._lock:
            pipe = self._running()
            self._owed |= {(job.purpose, name): job.number for name in mine}
            with suppress(OSError):  # it has just died: the listener tells
                pipe.send(replace(job, wish=mine))

    def stop(self) -> None:
        """End the process."""
        with self._lock:
            process, self._process, pipe, self._pipe = self._process, None, self._pipe, None
            self._owed.clear()
            listener = self._listener
        if process is not None:
            process.terminate()
            process.join(5.0)
        if listener is not None and listener is not threading.current_thread():
            listener.join(
                5.0
            )  # it ends with the process; a pipe that is closed while it is read breaks the reader
        if pipe is not None:
            pipe.close()

    @property
    def pid(self) -> int | None:
        """The process at work, where there is one."""
        return self._process.pid if self._process is not None else None

    def _running(self) -> Connection:
        if self._process is None or self._pipe is None or not self._process.is_alive():
            ours, theirs = self._context.Pipe()
            from tidestead.desk.lane_work import work  # noqa: PLC0415 - it is the other process that works

            self._process = self._context.Process(
                target=work, args=(theirs, self._patient), daemon=True, name="studies"
            )
            self._process.start()
            theirs.close()
            self._pipe = ours
            self._owed = {}
            self._listener = threading.Thread(target=self._listen, args=(ours, self._owed), daemon=True)
            self._listener.start()
        return self._pipe

    def _listen(self, pipe: Connection, owed: Owed) -> None:
        """Pass on news until the process ends; then tell what it still owed."""
        while True:
            try:
                news: News = pipe.recv()
            except (EOFError, OSError):
                break
            if news.kind in ("answer", "same", "fault"):
                with self._lock:
                    if owed.get((news.purpose, news.subject)) == news.number:
                        del owed[news.purpose, news.subject]
            self._tell(news)
        with self._lock:
            if self._pipe is pipe:
                self._pipe = self._process = None
            left = dict(owed)
            owed.clear()
        for (purpose, subject), number in left.items():
            self._tell(News(number, purpose, subject, "fault", words="its process ended before it was done"))
