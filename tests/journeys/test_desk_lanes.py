"""Studies in processes of their own: the same answers, the newest plan first, and a process that dies is told."""

from __future__ import annotations

import os
import queue
import signal
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest

from tidestead import desk
from tidestead.desk.lanes import Job, Lane, News, Purpose, lane_subjects
from tidestead.plan import loads
from tidestead.plan.parts import removed

PACKHOUSE = Path(__file__).parents[2] / "examples" / "packhouse.toml"
TEXT = removed(PACKHOUSE.read_text("utf-8"), "weather")
"""Without its weather, so that no test waits for years of warmth that it does not ask about."""
PATIENCE = 120.0


class Heard:
    """News in the order they came."""

    def __init__(self) -> None:
        self.news: queue.Queue[News] = queue.Queue()

    def until(self, kind: str, number: int, subject: str = "") -> list[News]:
        """All news up to one of a kind for a job."""
        found = []
        while True:
            found.append(self.news.get(timeout=PATIENCE))
            last = found[-1]
            if last.kind == kind and last.number == number and subject in ("", last.subject):
                return found


@pytest.fixture
def heard() -> Heard:
    return Heard()


@pytest.fixture
def lane(heard: Heard) -> Iterator[Lane]:
    made = Lane(("flow", "water"), heard.news.put)
    yield made
    made.stop()


def job(number: int, text: str = TEXT, *wish: str, purpose: Purpose = "plan") -> Job:
    loaded = replace(loads(text, PACKHOUSE.name), path=PACKHOUSE)
    return Job(number, purpose, loaded, "us", wish or ("flow", "water"))


def test_every_subject_has_one_lane() -> None:
    quick, slow = lane_subjects(False), lane_subjects(True)
    assert sorted((*quick, *slow)) == sorted(entry.name for entry in desk.SUBJECTS)
    assert {"structure", "flow"} <= set(quick)
    assert {"heat", "light"} <= set(slow)


def test_a_lane_gives_the_desk_s_own_answers_and_says_what_stayed(lane: Lane, heard: Heard) -> None:
    lane.ask(job(1))
    answers = {
        news.subject: news.answer for news in heard.until("answer", 1, "water") if news.kind == "answer"
    }
    assert answers == desk.answer(job(1).loaded, ["flow", "water"], "us")
    lane.ask(job(2, TEXT + "# a remark, which no study reads\n"))
    assert [news.kind for news in heard.until("same", 2, "water")] == ["begun", "same"] * 2


def test_a_subject_that_breaks_is_told_and_the_lane_goes_on(heard: Heard) -> None:
    lane = Lane(("flow", "tides"), heard.news.put)
    try:
        lane.ask(job(1, TEXT, "tides", "flow"))
        told = heard.until("answer", 1, "flow")
        assert [news.kind for news in told if news.subject == "tides"][-1] == "fault"
        assert "tides" in next(news.words for news in told if news.kind == "fault")
    finally:
        lane.stop()


def test_a_process_that_is_killed_is_told_for_all_it_owed_and_begun_anew(lane: Lane, heard: Heard) -> None:
    lane.start()
    lane.ask(job(1))
    heard.until("begun", 1)
    assert lane.pid is not None
    os.kill(lane.pid, signal.SIGKILL)
    told = heard.until("fault", 1, "water")
    assert {news.subject for news in told if news.kind in ("fault", "answer")} == {"flow", "water"}
    lane.ask(job(2))
    heard.until("answer", 2, "water")


def test_a_newer_plan_takes_the_place_of_one_at_work(lane: Lane, heard: Heard) -> None:
    for number in range(1, 6):
        lane.ask(job(number, TEXT.replace('open = "60 %"', f'open = "{60 + number} %"')))
    told = heard.until("answer", 5, "water")
    answered = [news.number for news in told if news.kind == "answer" and news.subject == "water"]
    assert answered[-1] == 5
    assert len(answered) < 5


def test_a_trial_waits_for_the_plan_and_tells_its_own_answers(lane: Lane, heard: Heard) -> None:
    lane.ask(job(1))
    lane.ask(job(2, TEXT.replace('open = "60 %"', 'open = "70 %"'), purpose="trial"))
    told = heard.until("answer", 2, "water")
    order = [(news.purpose, news.subject) for news in told if news.kind == "answer"]
    assert order == [("plan", "flow"), ("plan", "water"), ("trial", "flow"), ("trial", "water")]
