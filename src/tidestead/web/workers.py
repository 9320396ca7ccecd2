"""The two lanes that answer for the page, started together and asked together."""

from __future__ import annotations

import threading
from collections.abc import Callable
from dataclasses import dataclass
from typing import Protocol

from tidestead.desk.lanes import Job, Lane, News, lane_subjects

_HELD = 1.0
"""Seconds that the slow lane waits at most."""


class Workers(Protocol):
    """Whoever works answers out for a bench."""

    def start(self, hear: Callable[[News], None]) -> None:
        """Begin; `hear` is told news, from any thread."""

    def ask(self, job: Job) -> None:
        """Take a job."""

    def stop(self) -> None:
        """End."""


@dataclass
class _Held:
    """What the slow lane is not given yet: a plan, what would be tried on it, and the clock that ends the wait."""

    plan: Job
    timer: threading.Timer
    trial: Job | None = None


class Lanes:
    """A quick lane and a patient one for what takes long, each a process of its own.

    The patient one begins when the answer that is wished for first is there, or after a moment. Whatever it is given,
    it is given in the order in which it was asked: a plan that is held gives way to a later one, and what is tried
    waits for its plan.
    """

    def __init__(self) -> None:
        self._quick: Lane | None = None
        self._slow: Lane | None = None
        self._held: _Held | None = None
        self._lock = threading.Lock()

    def start(self, hear: Callable[[News], None]) -> None:
        """Start both processes."""

        def heard(news: News) -> None:
            hear(news)
            if news.kind in ("answer", "same", "fault"):
                self._let_go(news.number, news.subject)

        self._quick = Lane(lane_subjects(False), heard)
        self._slow = Lane(lane_subjects(True), hear, patient=True)
        for lane in (self._quick, self._slow):
            lane.start()

    def ask(self, job: Job) -> None:
        """Hand a job to both; each takes its own subjects of it."""
        with self._lock:
            if self._quick is None or self._slow is None:
                return
            self._quick.ask(job)
            if job.purpose == "plan":
                self._drop()
                if job.wish[0] in self._quick.subjects:
                    self._hold(job)
                else:
                    self._slow.ask(job)
            elif self._held is not None:
                self._held.trial = job
            else:
                self._slow.ask(job)

    def _hold(self, job: Job) -> None:
        timer = threading.Timer(_HELD, self._let_go, (job.number, job.wish[0]))
        timer.daemon = True
        self._held = _Held(job, timer)
        timer.start()

    def _drop(self) -> None:
        if self._held is not None:
            self._held.timer.cancel()
            self._held = None

    def _let_go(self, number: int, subject: str) -> None:
        """Hand on the job that was held, once what was wished for first is answered."""
        with self._lock:
            held = self._held
            if held is None or (held.plan.number, held.plan.wish[0]) != (number, subject):
                return
            self._drop()
            if self._slow is not None:
                self._slow.ask(held.plan)
                if held.trial is not None:
                    self._slow.ask(held.trial)

    def stop(self) -> None:
        """End both processes."""
        with self._lock:
            self._drop()
        for lane in (self._quick, self._slow):
            if lane is not None:
                lane.stop()
