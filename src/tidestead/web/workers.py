"""The two lanes that answer for the page, started together and asked together."""

from __future__ import annotations

from collections.abc import Callable
from typing import Protocol

from tidestead.desk.lanes import Job, Lane, News, lane_subjects


class Workers(Protocol):
    """Whoever works answers out for a bench."""

    def start(self, hear: Callable[[News], None]) -> None:
        """Begin; `hear` is told news, from any thread."""

    def ask(self, job: Job) -> None:
        """Take a job."""

    def stop(self) -> None:
        """End."""


class Lanes:
    """A quick lane and a patient one for what takes long, each a process of its own."""

    def __init__(self) -> None:
        self._lanes: tuple[Lane, ...] = ()

    def start(self, hear: Callable[[News], None]) -> None:
        """Start both processes."""
        self._lanes = tuple(Lane(lane_subjects(slow), hear, patient=slow) for slow in (False, True))
        for lane in self._lanes:
            lane.start()

    def ask(self, job: Job) -> None:
        """Hand a job to both; each takes its own subjects of it."""
        for lane in self._lanes:
            lane.ask(job)

    def stop(self) -> None:
        """End both processes."""
        for lane in self._lanes:
            lane.stop()
