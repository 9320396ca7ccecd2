"""What the journeys share: a copy of an example plan, a browser, and a desk that gives one made-up answer."""

from __future__ import annotations

import shutil
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser

from tests.journeys.browser import chromium
from tidestead import desk
from tidestead.core.answer import Answer

PACKHOUSE = Path(__file__).parents[2] / "examples" / "packhouse.toml"


@pytest.fixture
def plan(tmp_path: Path) -> Path:
    """A plan of one's own to change."""
    return Path(shutil.copy(PACKHOUSE, tmp_path / "reef.toml"))


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    """The system's browser, begun once for each file of walks."""
    with chromium() as found:
        yield found


@pytest.fixture
def answered(monkeypatch: pytest.MonkeyPatch) -> Callable[[Answer], None]:
    """Makes the desk give one answer, whatever it is asked."""

    def give(answer: Answer) -> None:
        monkeypatch.setattr(desk, "answer", lambda *asked, **more: {"structure": answer})

    return give
