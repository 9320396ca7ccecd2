"""From an edit to its new answer on the page, beside the study alone; start-up; memory of the page's process; weight.

The page is a real one in the system's Chromium. An edit is sent as a form sends it; the clock stops when the new
figure stands in the table. The study alone is what the page waits for: the same edits, asked of the desk here.
"""

from __future__ import annotations

import itertools
import re
import shutil
import time
from collections.abc import Iterator
from pathlib import Path
from urllib.request import urlopen

import pytest
from playwright.sync_api import Browser, Page
from pytest_benchmark.fixture import BenchmarkFixture

from tests.journeys.browser import Served, chromium, served, settled
from tidestead import desk
from tidestead.plan import loads
from tidestead.plan.edits import Edit, edited

EXAMPLES = Path(__file__).parents[1] / "examples"
ROUNDS = 12
CASES = {
    "packhouse-structure": (
        "packhouse",
        "structure",
        "vessels.reef.walls.south.windows.long.thickness",
        "{:.2f} in",
        3.0,
        0.05,
    ),
    "packhouse-flow": ("packhouse", "flow", "vessels.reef.ports.comb.open", "{:.1f} %", 58.0, 0.2),
    "skerry-structure": (
        "skerry",
        "structure",
        "vessels.basin.walls.south.windows.long.thickness",
        "{:.1f} mm",
        50.0,
        0.5,
    ),
    "skerry-flow": ("skerry", "flow", "vessels.basin.ports.comb.open", "{:.1f} %", 58.0, 0.2),
}
"""Of each case: the example, the subject, a key, how its value is written, where it begins, by how much it goes on."""

EDIT = """async ([key, value]) => {
  const text = () => document.querySelector("main").textContent;
  const before = text(), base = document.body.dataset.digest, begun = performance.now();
  const reply = await fetch("/api/save", {method: "POST", headers: {"Content-Type": "application/json"},
    body: JSON.stringify({edits: [{key, value}], base})});
  if (!reply.ok) throw new Error(await reply.text());
  while (text() === before || document.querySelector("article.stale")) await new Promise((done) => setTimeout(done, 2));
  return performance.now() - begun;
}"""
"""Puts one edit to the door and waits until the answer on the page is new and no longer grey."""


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    with chromium() as found:
        yield found


@pytest.fixture(scope="module", params=["packhouse", "skerry"])
def example(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Served]:
    folder = tmp_path_factory.mktemp(request.param)
    plan = Path(shutil.copy(EXAMPLES / f"{request.param}.toml", folder))
    with served(plan, folder / "cache") as found:
        for subject in ("structure", "flow", "foam", "light", "heat"):
            settled(found.address, subject)
        yield found


def values(pattern: str, begin: float, step: float) -> Iterator[str]:
    """Values that go on, so that none has been met before."""
    return (pattern.format(begin + step * number) for number in itertools.count(1))


def settle(example: Served) -> None:
    """A person looks at an answer before the next edit: all work on the last one is over by then."""
    for subject in ("structure", "flow", "foam", "light", "heat"):
        settled(example.address, subject)
    time.sleep(0.3)


def page_at(browser: Browser, address: str) -> Page:
    page = browser.new_page()
    page.goto(address)
    return page


@pytest.mark.parametrize("case", CASES)
def test_edit_to_answer_on_the_page(
    benchmark: BenchmarkFixture, browser: Browser, example: Served, case: str
) -> None:
    name, subject, key, pattern, begin, step = CASES[case]
    if example.plan.stem != name:
        pytest.skip("the other example is open")
    page = page_at(browser, f"{example.address}question/{subject}")
    series = values(pattern, begin, step)
    spans: list[float] = []

    def edit() -> None:
        spans.append(page.evaluate(EDIT, [key, next(series)]))

    benchmark.pedantic(edit, setup=lambda: settle(example), rounds=ROUNDS, warmup_rounds=2)
    benchmark.extra_info["median_ms_in_the_page"] = sorted(spans[2:])[ROUNDS // 2]
    page.close()


@pytest.mark.parametrize("case", CASES)
def test_the_study_alone(benchmark: BenchmarkFixture, case: str) -> None:
    name, subject, key, pattern, begin, step = CASES[case]
    text = (EXAMPLES / f"{name}.toml").read_text("utf-8")
    desk.answer(loads(text), [subject])
    series = values(pattern, begin, step)

    def study() -> None:
        desk.answer(loads(edited(text, [Edit(key, next(series))])), [subject])

    benchmark.pedantic(study, rounds=ROUNDS, warmup_rounds=2)


def test_start_to_first_page(benchmark: BenchmarkFixture, tmp_path: Path) -> None:
    plan = Path(shutil.copy(EXAMPLES / "packhouse.toml", tmp_path))
    spans: list[float] = []

    def start() -> None:
        begun = time.perf_counter()
        with served(plan, tmp_path / f"cache{len(spans)}") as found:
            with urlopen(found.address) as reply:
                reply.read()
            spans.append(time.perf_counter() - begun)

    benchmark.pedantic(start, rounds=3)
    benchmark.extra_info["seconds_to_first_page"] = min(spans)


def test_memory_of_the_page_process(benchmark: BenchmarkFixture, example: Served, browser: Browser) -> None:
    """Resident memory after every question has been looked at."""

    def look() -> None:
        for subject in ("structure", "flow", "foam", "heat", "light"):
            page_at(browser, f"{example.address}question/{subject}").close()

    benchmark.pedantic(look, rounds=1)
    status = Path(f"/proc/{example.process.pid}/status").read_text("ascii")
    found = re.search(r"VmRSS:\s+(\d+) kB", status)
    assert found
    benchmark.extra_info["resident_mb"] = int(found[1]) / 1000.0


def test_weight_of_a_page(benchmark: BenchmarkFixture, example: Served, browser: Browser) -> None:
    """All that a first visit to the heaviest question fetches, as compressed as the door sends it."""
    page = browser.new_page()
    sizes: dict[str, int] = {}
    page.on(
        "requestfinished", lambda request: sizes.update({request.url: request.sizes()["responseBodySize"]})
    )

    def visit() -> None:
        page.goto(f"{example.address}question/structure", wait_until="load")

    benchmark.pedantic(visit, rounds=1)
    page.wait_for_timeout(500)
    benchmark.extra_info["kilobytes"] = sum(sizes.values()) / 1000.0
    page.close()
