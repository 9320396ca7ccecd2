"""What the journeys share: a copy of an example plan, a browser, and a desk that gives one made-up answer."""

from __future__ import annotations

import shutil
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser

from tests.journeys.browser import Served, chromium, leave_trial, served, settled
from tidestead import desk
from tidestead.core.answer import Answer
from tidestead.plan import starter_text
from tidestead.plan.parts import removed

PACKHOUSE = Path(__file__).parents[2] / "examples" / "packhouse.toml"
CALM = removed(PACKHOUSE.read_text("utf-8"), "weather")
"""The example without its weather: heat and light are unproven at once, so that no walk waits beside their years."""


@pytest.fixture
def plan(tmp_path: Path) -> Path:
    """A plan of one's own to change."""
    return Path(shutil.copy(PACKHOUSE, tmp_path / "reef.toml"))


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    """The system's browser, begun once for each file of walks."""
    with chromium() as found:
        yield found


@pytest.fixture(scope="session")
def open_packhouse(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Served]:
    """The example, open for all files of walks that change it."""
    folder = tmp_path_factory.mktemp("packhouse")
    plan = folder / PACKHOUSE.name
    plan.write_text(CALM, "utf-8")
    with served(plan, folder / "cache") as found:
        yield found


@pytest.fixture(scope="session")
def open_starter(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Served]:
    """A new plan, open for all walks through the first questions that write none: each keeps its answers to itself."""
    folder = tmp_path_factory.mktemp("starter")
    plan = folder / "mine.toml"
    plan.write_text(starter_text("metric"), "utf-8")
    with served(plan, folder / "cache") as found:
        yield found


@pytest.fixture
def packhouse(open_packhouse: Served) -> Served:
    """The example as it comes, answered, whatever an earlier test has made of it."""
    if not open_packhouse.plan.exists() or open_packhouse.plan.read_text("utf-8") != CALM:
        open_packhouse.plan.write_text(CALM, "utf-8")
    settled(open_packhouse.address)
    leave_trial(open_packhouse.address)
    return open_packhouse


@pytest.fixture
def answered(monkeypatch: pytest.MonkeyPatch) -> Callable[[Answer], None]:
    """Makes the desk give one answer, whatever it is asked."""

    def give(answer: Answer) -> None:
        monkeypatch.setattr(desk, "answer", lambda *asked, **more: {"structure": answer})

    return give
