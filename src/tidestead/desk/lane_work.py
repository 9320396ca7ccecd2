"""The work of a lane's own process: take the newest job, answer its subjects, send each answer back."""

from __future__ import annotations

import gc
import os
import signal
import threading
from multiprocessing.connection import Connection
from typing import TYPE_CHECKING

from tidestead.core.errors import TidesteadError
from tidestead.core.threads import one_for_matrices
from tidestead.desk.lanes import Job, News, Purpose

if TYPE_CHECKING:
    from tidestead.core.answer import Answer

_PATIENCE = 15
"""Steps down in priority, of the nineteen there are."""


class _Superseded(Exception):
    """A newer job has come: what is at work is wanted no more."""


def work(pipe: Connection, patient: bool) -> None:
    """Answer until the other end is closed. The process is the lane's; Ctrl-C is for the one that started it.

    A patient lane leaves the cores to whoever else wants them.
    """
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    if patient and hasattr(os, "nice"):
        os.nice(_PATIENCE)
    one_for_matrices()
    try:
        _Desk(pipe).serve()
    except (EOFError, OSError):
        return  # the door has closed


class _Desk:
    """The jobs that wait, the newest of each purpose, and what was last sent for the plan.

    A thread of its own always reads the pipe, so that who hands over a job never waits for a study.
    """

    def __init__(self, pipe: Connection) -> None:
        self._pipe = pipe
        self._waiting: dict[Purpose, Job] = {}
        self._sent: dict[str, Answer] = {}
        self._news = threading.Condition()
        self._sending = threading.Lock()
        self._at: Job | None = None
        self._swept = False

    def serve(self) -> None:
        """Answer job after job. The process ends when the other end is closed."""
        from tidestead import desk  # noqa: PLC0415 - warm before the first job comes

        desk.keep_on_disk()
        gc.disable()
        threading.Thread(target=self._read, daemon=True).start()
        while True:
            with self._news:
                while not self._waiting:
                    self._news.wait()
                self._at = job = self._waiting.pop("plan", None) or self._waiting.pop("trial")
            try:
                self._answer_all(job)
            except _Superseded:
                continue
            finally:
                self._at = None
            self._tidy()

    def _read(self) -> None:
        """Take jobs as they come; when nobody is left who could send one, nobody waits for an answer either."""
        while True:
            try:
                job: Job = self._pipe.recv()
            except (EOFError, OSError):
                os._exit(0)
            with self._news:
                if job.purpose == "plan":
                    self._waiting.clear()
                self._waiting[job.purpose] = job
                self._news.notify()

    def _tidy(self) -> None:
        """Clear memory away between jobs and never within one: a sweep of all there is takes as long as an answer."""
        if not self._swept:
            gc.collect()
            gc.freeze()
            self._swept = True
        elif not self._waiting:
            gc.collect()

    def _give_way(self) -> None:
        """Raise where what is at work is wanted no more. Any thread may ask."""
        at = self._at
        if "plan" in self._waiting or (at is not None and at.purpose in self._waiting):
            raise _Superseded

    def _answer_all(self, job: Job) -> None:
        for subject in job.wish:
            self._give_way()
            try:
                self._tell(job, subject, "compiling" if self._compiles(subject) else "begun")
                self._answer_one(job, subject)
            except _Superseded:
                raise
            except Exception as error:  # one subject that breaks must not take the others with it
                kind = "" if isinstance(error, TidesteadError) else f"{type(error).__name__}: "
                self._tell(job, subject, "fault", words=f"{kind}{error}"[:300])

    def _answer_one(self, job: Job, subject: str) -> None:
        from tidestead import desk  # noqa: PLC0415 - warmed by serve

        answer = desk.answer(
            job.loaded, [subject], job.system, within=lambda *part: self._part(job, *part), as_of=job.as_of
        )[subject]
        if job.purpose == "plan":
            before = self._sent.get(subject)
            if before is answer or (not answer.checks and before == answer):
                self._tell(job, subject, "same")
                return
            self._sent[subject] = answer
        self._pipe_out(News(job.number, job.purpose, subject, "answer", answer))

    def _part(self, job: Job, subject: str, done: int, of: int) -> None:
        self._give_way()
        self._pipe_out(News(job.number, job.purpose, subject, "part", done=done, of=of))

    def _compiles(self, subject: str) -> bool:
        from tidestead import desk  # noqa: PLC0415 - warmed by serve

        return desk.must_compile([subject])

    def _tell(self, job: Job, subject: str, kind: str, words: str = "") -> None:
        self._pipe_out(News(job.number, job.purpose, subject, kind, words=words))  # type: ignore[arg-type] # one of its words

    def _pipe_out(self, news: News) -> None:
        with self._sending:
            self._pipe.send(news)
