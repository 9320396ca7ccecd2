"""The two lanes that answer for the page, started together and asked together."""

from __future__ import annotations

import threading
from collections.abc import Callable
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


class Lanes:
    """A quick lane and a patient one for what takes long, each a process of its own.

    The patient one begins when the answer that is wished for first is there, or after a moment.
    """

    def __init__(self) -> None:
        self._quick: Lane | None = None
        self._slow: Lane | None = None
        self._held: tuple[Job, threading.Timer] | None = None
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
        if self._quick is None or self._slow is None:
            return
        self._quick.ask(job)
        if job.purpose == "plan" and job.wish[0] in self._quick.subjects:
            self._hold(job)
        else:
            self._slow.ask(job)

    def _hold(self, job: Job) -> None:
        timer = threading.Timer(_HELD, self._let_go, (job.number, job.wish[0]))
        timer.daemon = True
        with self._lock:
            if self._held is not None:
                self._held[1].cancel()
            self._held = (job, timer)
        timer.start()

    def _let_go(self, number: int, subject: str) -> None:
        """Hand on the job that was held, once what was wished for first is answered."""
        with self._lock:
            if self._held is None or (self._held[0].number, self._held[0].wish[0]) != (number, subject):
                return
            (job, timer), self._held = self._held, None
            timer.cancel()
        if self._slow is not None:
            self._slow.ask(job)

    def stop(self) -> None:
        """End both processes."""
        with self._lock:
            if self._held is not None:
                self._held[1].cancel()
                self._held = None
        for lane in (self._quick, self._slow):
            if lane is not None:
                lane.stop()
