"""A real browser on a real server: the page as its user has it. Chromium is the system's own."""

from __future__ import annotations

import json
import os
import re
import shutil
import signal
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass, field
from importlib.metadata import version
from pathlib import Path
from urllib.error import HTTPError
from urllib.parse import urlsplit
from urllib.request import Request as Asking
from urllib.request import urlopen

import pytest
from playwright.sync_api import Browser, ConsoleMessage, Dialog, Page, Request, ViewportSize, sync_playwright

from tidestead.core.cache_folder import cache_folder
from tidestead.core.compiled import kept_in

CHROMIUM = next(
    (found for name in ("chromium", "chromium-browser", "google-chrome") if (found := shutil.which(name))),
    None,
)
FLAGS = [
    "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
    "--disable-component-update", "--disable-sync", "--enable-unsafe-swiftshader",
]  # fmt: skip
PATIENCE = 60_000
"""Milliseconds: these machines are busy at times. No test times anything by it."""


def needs_browser() -> None:
    """Skips where there is no Chromium; where it must be there, which CI says, fails."""
    if CHROMIUM is None:
        if os.environ.get("CI"):
            pytest.fail("Chromium is missing: install Debian's package chromium.")
        pytest.skip("Chromium is not on this machine (Debian: apt install chromium)")


@contextmanager
def chromium() -> Iterator[Browser]:
    """The system's browser, without a window."""
    needs_browser()
    with sync_playwright() as play:
        browser = play.chromium.launch(executable_path=CHROMIUM, args=FLAGS)
        yield browser
        browser.close()


@dataclass
class Served:
    """A plan that is open at an address."""

    plan: Path
    address: str
    process: subprocess.Popen[str]

    @property
    def host(self) -> str:
        return urlsplit(self.address).netloc


def lend(cache: Path) -> None:
    """Give a cache of one's own what costs long to make: compiled laws and suns, also those that are made in it.

    What has been seen of plans is not lent.
    """
    cache.mkdir(parents=True, exist_ok=True)
    for common in (kept_in(version("numba")), cache_folder() / "sun"):
        common.mkdir(parents=True, exist_ok=True)
        if not (cache / common.name).exists():
            (cache / common.name).symlink_to(common)


@contextmanager
def served(plan: Path, cache: Path) -> Iterator[Served]:
    """`tidestead open PLAN`, run as a user runs it, until the test is done."""
    command = [sys.executable, "-m", "tidestead", "open", str(plan), "--no-browser"]
    lend(cache / "tidestead")
    settings = {**os.environ, "XDG_CACHE_HOME": str(cache)}
    process = subprocess.Popen(command, stdout=subprocess.PIPE, text=True, env=settings)
    try:
        assert process.stdout is not None
        line = process.stdout.readline()
        found = re.search(r"http://\S+", line)
        assert found, f"no address was printed: {line!r}"
        yield Served(plan, found[0], process)
    finally:
        process.send_signal(signal.SIGINT)
        try:
            process.wait(15)
        except subprocess.TimeoutExpired:
            process.kill()
            raise


@dataclass
class Watched:
    """A page, and everything that a user should never have to see of it."""

    page: Page
    host: str
    errors: list[str] = field(default_factory=list)
    outside: list[str] = field(default_factory=list)
    dialogs: list[str] = field(default_factory=list)

    def heard(self, message: ConsoleMessage) -> None:
        if message.type in ("error", "warning"):
            self.errors.append(message.text)

    def asked(self, request: Request) -> None:
        if urlsplit(request.url).netloc != self.host and not request.url.startswith(("data:", "blob:")):
            self.outside.append(request.url)

    def stopped(self, dialog: Dialog) -> None:
        self.dialogs.append(dialog.type)
        dialog.accept()

    def clean(self) -> None:
        """Nothing was told to the console, nobody outside was asked, and no window of the browser stood in the way."""
        assert self.errors == []
        assert self.outside == []
        assert self.dialogs == []

    def until(self, script: str) -> None:
        """Wait until a script is true in the page; the page's own policy forbids waiting inside it."""
        deadline = time.monotonic() + PATIENCE / 1000.0
        while not self.page.evaluate(f"!!({script})"):
            assert time.monotonic() < deadline, f"never true: {script}"
            time.sleep(0.03)


def until(page: Page, wanted: Callable[[], bool], times: float = 1.0) -> None:
    """Wait until something is so, in the page or in the file; so many times as long as a page may take."""
    deadline = time.monotonic() + times * PATIENCE / 1000.0
    while not wanted():
        assert time.monotonic() < deadline, "it never came to be so"
        page.wait_for_timeout(50)


@contextmanager
def watched(
    browser: Browser,
    served_at: Served,
    *,
    width: int = 1280,
    height: int = 900,
    dark: bool = False,
    calm: bool = False,
) -> Iterator[Watched]:
    """A page of its own, watched from its first request on."""
    context = browser.new_context(
        viewport=ViewportSize(width=width, height=height),
        color_scheme="dark" if dark else "light",
        reduced_motion="reduce" if calm else "no-preference",
        accept_downloads=True,
    )
    page = context.new_page()
    page.set_default_timeout(PATIENCE)
    found = Watched(page, served_at.host)
    page.on("console", found.heard)
    page.on("pageerror", lambda error: found.errors.append(str(error)))
    page.on("request", found.asked)
    page.on("dialog", found.stopped)
    yield found
    context.close()


def leave_trial(address: str) -> None:
    """Try nothing more, if anything was tried."""
    headers = {"Content-Type": "application/json", "Origin": address.rstrip("/")}
    with (
        suppress(HTTPError),
        urlopen(Asking(f"{address}api/trial/drop", b"{}", headers)),
    ):  # 409 where nothing is
        return


def settled(address: str, subject: str = "structure", patience: float = PATIENCE / 1000.0) -> None:
    """Wait until the answer to one question is there."""

    deadline = time.monotonic() + patience
    while time.monotonic() < deadline:
        with urlopen(f"{address}api/standing") as reply:
            questions = json.load(reply)["questions"]
        if next(one["state"] for one in questions if one["subject"] == subject) in ("done", "fault"):
            return
        time.sleep(0.1)
    raise AssertionError(f"{subject} was not answered in time")
