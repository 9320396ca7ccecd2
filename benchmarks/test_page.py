"""From an edit to its new answer on the page, beside the study alone; start-up; memory of the page's process; weight.

The page is a real one in the system's Chromium. An edit is sent as a form sends it; the clock stops when the new
figure stands in the table. The study alone is what the page waits for: the same edits, asked of the desk here.
"""

from __future__ import annotations

import itertools
import re
import shutil
import statistics
import time
from collections.abc import Callable, Iterator
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
CASES = {
    ("packhouse", "structure"): (
        ("vessels.reef.walls.south.windows.long.thickness", "{:.2f} in", 3.0, 0.05),
        ("vessels.reef.walls.east.studs.spacing", "{:.1f} in", 14.0, 0.1),
        ("vessels.reef.water", "{:.2f} in", 50.0, 0.05),
        ("vessels.reef.lining.ends_above_water", "{:.2f} in", 3.0, 0.05),
        ("vessels.reef.walls.north.base.spacing", "{:.1f} in", 15.0, 0.1),
        ("vessels.sump.length", "{:.1f} in", 71.0, 0.1),
        ("vessels.reef.corners.joint.row_spacing", "{:.2f} in", 4.0, 0.05),
    ),
    ("packhouse", "flow"): (
        ("vessels.reef.ports.comb.open", "{:.1f} %", 58.0, 0.2),
        ("pumps.return.power", "{:.0f} W", 170.0, 1.0),
        ("valves.main.open", "{:.1f} %", 28.0, 0.2),
        ("vessels.reef.ports.spare.level", "{:.2f} in", 51.2, 0.02),
        ("vessels.sump.water", "{:.2f} in", 16.0, 0.05),
    ),
    ("skerry", "structure"): (
        ("vessels.basin.walls.south.windows.long.thickness", "{:.1f} mm", 60.0, 0.5),
        ("vessels.basin.walls.west.windows.end.thickness", "{:.1f} mm", 45.0, 0.5),
        ("vessels.basin.water", "{:.3f} m", 1.15, 0.002),
        ("vessels.tower.water", "{:.3f} m", 1.33, 0.002),
        ("vessels.sump.length", "{:.3f} m", 1.7, 0.005),
        ("vessels.basin.walls.north.base.spacing", "{:.0f} mm", 200.0, 1.0),
        ("vessels.tower.rings.spacing", "{:.0f} mm", 240.0, 1.0),
    ),
    ("skerry", "flow"): (
        ("vessels.basin.ports.comb.open", "{:.1f} %", 58.0, 0.2),
        ("pumps.return.power", "{:.0f} W", 150.0, 1.0),
        ("valves.main.open", "{:.1f} %", 60.0, 0.2),
        ("vessels.sump.water", "{:.3f} m", 0.44, 0.002),
        ("vessels.tower.water", "{:.3f} m", 1.33, 0.002),
    ),
}
"""Edits of many sorts, gone round in turn: a key, how its value is written, where it begins, by how much it goes on."""

EDIT = """async ([key, value]) => {
  const base = document.body.dataset.digest, begun = performance.now();
  const reply = await fetch("/api/save", {method: "POST", headers: {"Content-Type": "application/json"},
    body: JSON.stringify({edits: [{key, value}], base})});
  if (!reply.ok) throw new Error(await reply.text());
  while (document.body.dataset.digest === base) await new Promise((done) => setTimeout(done, 2));
  while (document.querySelector("article.stale")) await new Promise((done) => setTimeout(done, 2));
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


def edits_of(name: str, subject: str) -> Iterator[tuple[str, str]]:
    """Edits of every sort in turn; their values go on, so that none has been met before."""
    for number in itertools.count(1):
        for key, pattern, begin, step in CASES[name, subject]:
            yield key, pattern.format(begin + step * number)


def settle(example: Served) -> None:
    """A person looks at an answer before the next edit: all work on the last one is over by then."""
    for subject in ("structure", "flow", "foam", "light", "heat"):
        settled(example.address, subject)
    time.sleep(0.3)


def page_at(browser: Browser, address: str) -> Page:
    page = browser.new_page()
    page.goto(address)
    return page


def in_rounds(
    benchmark: BenchmarkFixture,
    action: Callable[[], None],
    rounds: int,
    warmup: int = 0,
    setup: Callable[[], None] | None = None,
) -> None:
    """An action timed as often as said, each time once, after rounds that warm up and are not counted."""
    benchmark.pedantic(action, setup=setup, rounds=rounds, warmup_rounds=warmup)  # type: ignore[no-untyped-call]  # the library leaves it without types


@pytest.mark.parametrize("subject", ["structure", "flow"])
def test_edit_to_answer_on_the_page(
    benchmark: BenchmarkFixture, browser: Browser, example: Served, subject: str
) -> None:
    page = page_at(browser, f"{example.address}question/{subject}")
    edits = edits_of(example.plan.stem, subject)
    spans: list[float] = []

    def edit() -> None:
        spans.append(page.evaluate(EDIT, list(next(edits))))

    sorts = len(CASES[example.plan.stem, subject])
    in_rounds(benchmark, edit, 2 * sorts, sorts, setup=lambda: settle(example))
    benchmark.extra_info["median_ms_in_the_page"] = statistics.median(spans[sorts:])
    page.close()


@pytest.mark.parametrize(("name", "subject"), CASES)
def test_the_study_alone(benchmark: BenchmarkFixture, name: str, subject: str) -> None:
    text = (EXAMPLES / f"{name}.toml").read_text("utf-8")
    desk.answer(loads(text), [subject])
    edits, sorts = edits_of(name, subject), len(CASES[name, subject])

    def study() -> None:
        nonlocal text
        text = edited(text, [Edit(*next(edits))])
        desk.answer(loads(text), [subject])

    in_rounds(benchmark, study, 2 * sorts, sorts)


def test_start_to_first_page(benchmark: BenchmarkFixture, tmp_path: Path) -> None:
    plan = Path(shutil.copy(EXAMPLES / "packhouse.toml", tmp_path))
    spans: list[float] = []

    def start() -> None:
        begun = time.perf_counter()
        with served(plan, tmp_path / f"cache{len(spans)}") as found:
            with urlopen(found.address) as reply:
                reply.read()
            spans.append(time.perf_counter() - begun)

    in_rounds(benchmark, start, 3)
    benchmark.extra_info["seconds_to_first_page"] = min(spans)


def test_memory_of_the_page_process(benchmark: BenchmarkFixture, example: Served, browser: Browser) -> None:
    """Resident memory after every question has been looked at."""

    def look() -> None:
        for subject in ("structure", "flow", "foam", "heat", "light"):
            page_at(browser, f"{example.address}question/{subject}").close()

    in_rounds(benchmark, look, 1)
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

    in_rounds(benchmark, visit, 1)
    page.wait_for_timeout(500)
    benchmark.extra_info["kilobytes"] = sum(sizes.values()) / 1000.0
    page.close()
