"""What tests of the page share: a bench whose studies run in the test's own process, and the app round it."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from starlette.testclient import TestClient

from tidestead import desk
from tidestead.core.answer import Answer, Check, Estimate
from tidestead.core.source import PRACTICE
from tidestead.desk.lanes import Job, News
from tidestead.plan import loads
from tidestead.web.app import build
from tidestead.web.bench import Bench

PORT = 8340
OURS = f"http://127.0.0.1:{PORT}"

Answering = Callable[[Job, str], Answer]


class Still:
    """Answers at once, in this process: for the subjects named by the desk, for others with one made-up check."""

    def __init__(self, real: tuple[str, ...] = ()) -> None:
        self.real, self.jobs = real, list[Job]()
        self._hear: Callable[[News], None] = lambda _: None

    def start(self, hear: Callable[[News], None]) -> None:
        self._hear = hear

    def ask(self, job: Job) -> None:
        self.jobs.append(job)
        for subject in job.wish:
            self._hear(News(job.number, job.purpose, subject, "answer", self._answer(job, subject)))

    def _answer(self, job: Job, subject: str) -> Answer:
        if subject in self.real:
            return desk.answer(job.loaded, [subject], job.system)[subject]
        thickness = _thickness(job.loaded.text)
        check = Check(
            f"{subject}.made.up", "bow", "reef, made up for a test", "m", Estimate.exact(0.02), thickness, PRACTICE,
            part="reef.south.long", advice="a thicker sheet",
        )  # fmt: skip
        return Answer(subject, f"{subject}?", f"{subject}: {thickness:g}", (check,))

    def stop(self) -> None:
        return None


def _thickness(text: str) -> float:
    vessels = loads(text).plan.vessels.values()
    windows = [
        window for vessel in vessels for wall in vessel.walls.values() for window in wall.windows.values()
    ]
    if not windows:
        return 0.01
    assert windows[0].thickness is not None
    return windows[0].thickness


def client_of(bench: Bench, **more: str) -> TestClient:
    """A client that speaks as the page itself does."""
    return TestClient(build(bench, PORT), base_url=OURS, headers={"origin": OURS, **more})


def bench_at(path: Path, *real: str) -> Bench:
    """A bench on a plan, its studies still."""
    return Bench(path, Still(real))
