"""The two lanes are given plans and trials in the order in which they were asked, whatever is held back meanwhile."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from pathlib import Path

import pytest

from tidestead.desk.lanes import Job, News, Purpose, lane_subjects
from tidestead.plan import load
from tidestead.web import workers
from tidestead.web.workers import Lanes

PACKHOUSE = load(Path(__file__).parents[2] / "examples" / "packhouse.toml")
QUICK, SLOW = lane_subjects(False), lane_subjects(True)


class Lane:
    """A lane that only notes what it is given."""

    made: list[Lane]

    def __init__(
        self, subjects: Sequence[str], tell: Callable[[News], None], *, patient: bool = False
    ) -> None:
        self.subjects, self.tell, self.patient = tuple(subjects), tell, patient
        self.given: list[int] = []
        Lane.made.append(self)

    def start(self) -> None:
        return None

    def ask(self, job: Job) -> None:
        self.given.append(job.number)

    def stop(self) -> None:
        return None


@pytest.fixture
def lanes(monkeypatch: pytest.MonkeyPatch) -> Lanes:
    Lane.made = []
    monkeypatch.setattr(workers, "Lane", Lane)
    monkeypatch.setattr(workers, "_HELD", 600.0)
    made = Lanes()
    made.start(lambda _: None)
    return made


def job(number: int, first: str, purpose: Purpose = "plan") -> Job:
    wish = tuple(sorted((*QUICK, *SLOW), key=lambda name: name != first))
    return Job(number, purpose, replace(PACKHOUSE), "us", wish)


def both() -> tuple[Lane, Lane]:
    quick, slow = sorted(Lane.made, key=lambda lane: lane.patient)
    return quick, slow


def answered(lane: Lane, number: int, subject: str) -> None:
    lane.tell(News(number, "plan", subject, "same"))


def test_the_slow_lane_begins_when_the_first_wish_is_answered(lanes: Lanes) -> None:
    quick, slow = both()
    lanes.ask(job(1, QUICK[0]))
    assert (quick.given, slow.given) == ([1], [])
    answered(quick, 1, QUICK[1])
    assert slow.given == []
    answered(quick, 1, QUICK[0])
    assert slow.given == [1]
    lanes.stop()


def test_a_held_plan_is_dropped_for_a_later_one_that_the_slow_lane_answers_first(lanes: Lanes) -> None:
    """Else the older plan would reach the slow lane last, and its answers would stand for those of the plan of now."""
    quick, slow = both()
    lanes.ask(job(1, QUICK[0]))
    lanes.ask(job(2, SLOW[0]))
    answered(quick, 1, QUICK[0])
    assert (quick.given, slow.given) == ([1, 2], [2])
    lanes.stop()


def test_a_trial_waits_for_the_plan_it_is_beside(lanes: Lanes) -> None:
    """Else the plan, given later, would put an end to it."""
    quick, slow = both()
    lanes.ask(job(1, QUICK[0]))
    lanes.ask(job(2, QUICK[0], "trial"))
    lanes.ask(job(3, QUICK[0], "trial"))
    assert (quick.given, slow.given) == ([1, 2, 3], [])
    answered(quick, 1, QUICK[0])
    assert slow.given == [1, 3]
    lanes.ask(job(4, QUICK[0], "trial"))
    assert slow.given == [1, 3, 4]
    lanes.stop()


def test_after_the_end_nothing_is_handed_on(lanes: Lanes) -> None:
    quick, slow = both()
    lanes.ask(job(1, QUICK[0]))
    lanes.stop()
    answered(quick, 1, QUICK[0])
    assert slow.given == []
