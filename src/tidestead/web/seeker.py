"""A search for remedies at work in a process of its own, so that the page goes on meanwhile."""

from __future__ import annotations

import multiprocessing
import threading
from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass
from multiprocessing.connection import Connection
from multiprocessing.context import SpawnProcess
from typing import Literal, Protocol, TypeAlias

from tidestead.plan import LoadedPlan
from tidestead.trials.remedy import Mended, Whole

Stage: TypeAlias = Literal["begun", "trying", "pricing", "done", "fault"]


@dataclass(frozen=True)
class Quest:
    """What is sought: remedies of the check of this id, or for no id the changes that make everything sound.

    `number` tells one search from another.
    """

    number: int
    loaded: LoadedPlan
    check: str


@dataclass(frozen=True)
class Word:
    """What a search tells: how far it is, and what it has found so far. All of it is found at `done` only."""

    number: int
    stage: Stage
    done: int = 0
    of: int = 0
    found: Mended | Whole | None = None
    words: str = ""


class Seeks(Protocol):
    """Whoever searches for a page."""

    def start(self, hear: Callable[[Word], None]) -> None:
        """Begin; `hear` is told words, from any thread."""

    def ask(self, quest: Quest) -> None:
        """Search; an earlier quest is given up."""

    def give_up(self) -> None:
        """Search no more, and forget what the plan was."""


class Seeker:
    """One patient process, started with the first quest and ended when nothing is sought in its plan any more.

    It keeps what it worked out, so that the next quest in the same plan begins where this one ended.
    """

    def __init__(self) -> None:
        self._hear: Callable[[Word], None] = lambda _: None
        self._process: SpawnProcess | None = None
        self._pipe: Connection | None = None
        self._owed = 0
        self._lock = threading.Lock()

    def start(self, hear: Callable[[Word], None]) -> None:
        """Note who is told. No process is started yet."""
        self._hear = hear

    def ask(self, quest: Quest) -> None:
        """Hand over a quest."""
        with self._lock:
            pipe = self._running()
            self._owed = quest.number
            with suppress(OSError):  # it has just died: the listener tells
                pipe.send(quest)

    def give_up(self) -> None:
        """End the process; nobody waits for that."""
        with self._lock:
            process, self._process, self._pipe, self._owed = self._process, None, None, 0
        if process is not None:
            process.terminate()

    @property
    def pid(self) -> int | None:
        """The process at work, where there is one."""
        return self._process.pid if self._process is not None else None

    def _running(self) -> Connection:
        if self._process is None or self._pipe is None or not self._process.is_alive():
            context = multiprocessing.get_context("spawn")
            ours, theirs = context.Pipe()
            from tidestead.web.seeking import seek  # noqa: PLC0415 - it is the other process that works

            self._process = context.Process(target=seek, args=(theirs,), daemon=True, name="remedies")
            self._process.start()
            theirs.close()
            self._pipe = ours
            threading.Thread(target=self._listen, args=(ours, self._process), daemon=True).start()
        return self._pipe

    def _listen(self, pipe: Connection, process: SpawnProcess) -> None:
        """Pass on words until the process ends; then tell that a quest it still owed is lost."""
        while True:
            try:
                word: Word = pipe.recv()
            except (EOFError, OSError):
                break
            with self._lock:
                if pipe is self._pipe and word.stage in ("done", "fault") and word.number == self._owed:
                    self._owed = 0
            self._hear(word)
        process.join()
        pipe.close()
        with self._lock:
            lost = self._owed if pipe is self._pipe else 0
            if pipe is self._pipe:
                self._process, self._pipe, self._owed = None, None, 0
        if lost:
            self._hear(Word(lost, "fault", words="its process ended before it was done"))
