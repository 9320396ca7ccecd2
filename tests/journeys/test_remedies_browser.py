"""Remedies in a browser: found while the page is read, tried, kept, undone, done; by mouse, by key, on a phone."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Page

from tests.journeys.browser import Served, Watched, leave_trial, served, settled, until, watched
from tests.journeys.structure_plans import VAT

FOOT = "structure.vat.north.studs.foot.force"
WEAK = VAT.replace("count = 3", "count = 1")
"""One screw at the foot of each stud, where more are needed."""


@pytest.fixture(scope="module")
def open_vat(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Served]:
    folder = tmp_path_factory.mktemp("vat")
    plan = folder / "vat.toml"
    plan.write_text(WEAK, "utf-8")
    with served(plan, folder / "cache") as found:
        yield found


@pytest.fixture
def vat(open_vat: Served) -> Served:
    """The vat as it comes, answered; what was found of it before is known still."""
    if open_vat.plan.read_text("utf-8") != WEAK:
        open_vat.plan.write_text(WEAK, "utf-8")
    settled(open_vat.address)
    leave_trial(open_vat.address)
    return open_vat


def panel(page: Page) -> str:
    return f'[id="remedies-{FOOT}"]'


def found(seen: Watched, vat: Served) -> Page:
    """The question with the remedies of a check on it, sought by the button beside the check."""
    page = seen.page
    page.goto(f"{vat.address}question/structure")
    place = page.locator(panel(page))
    until(page, lambda: place.count() == 1 and page.locator("article.stale").count() == 0)
    if place.get_attribute("data-state") == "none":
        page.locator(f'[id="check-{FOOT}"] [data-find]').click()
    until(
        page, lambda: place.get_attribute("data-state") == "done", times=3.0
    )  # a search works every change out
    return page


def focused_in(page: Page, where: str) -> bool:
    return bool(page.evaluate("where => document.activeElement.closest(where) !== null", where))


def test_a_remedy_is_found_tried_kept_and_undone(browser: Browser, vat: Served) -> None:
    with watched(browser, vat) as seen:
        page = found(seen, vat)
        assert focused_in(page, panel(page))  # the button led there
        until(page, lambda: "remed" in page.locator("#said").inner_text())
        item = page.locator(f"{panel(page)} ol > li").first
        words = item.locator(".what").inner_text()
        assert "sound" in item.inner_text()
        bars = "all => all.map(one => getComputedStyle(one).borderLeftWidth)"
        assert set(page.locator(f"{panel(page)} ol > li").evaluate_all(bars)) == {"4px"}  # the last one too
        item.locator("[data-try]").click()
        page.locator("#trial").wait_for()
        until(page, lambda: focused_in(page, "#trial"))
        until(page, lambda: "better" in page.locator("#trial-told").inner_text())
        assert vat.plan.read_text("utf-8") == WEAK
        assert "being tried" in page.locator(panel(page)).inner_text()
        page.locator("[data-act=keep]").click()
        page.locator("#trial").wait_for(state="detached")
        until(page, lambda: vat.plan.read_text("utf-8") != WEAK)
        page.locator("[data-act=undo]").click()
        until(page, lambda: vat.plan.read_text("utf-8") == WEAK)
        until(page, lambda: words in page.locator(panel(page)).inner_text())  # known still
        seen.clean()


def test_a_search_for_everything_is_begun_and_stopped(browser: Browser, vat: Served) -> None:
    with watched(browser, vat) as seen:
        page = seen.page
        page.goto(vat.address)
        page.locator("main [data-find]").click()
        page.locator("main [data-stop]").click()
        until(page, lambda: "The search is given up." in page.locator("#said").inner_text())
        page.locator("main [data-find]").wait_for()
        assert page.locator("main [data-stop]").count() == 0
        assert vat.plan.read_text("utf-8") == WEAK
        seen.clean()


def test_a_remedy_is_done_by_key_and_said(browser: Browser, vat: Served) -> None:
    with watched(browser, vat) as seen:
        page = found(seen, vat)
        page.locator(f"{panel(page)} [data-do]").first.focus()
        page.keyboard.press("Enter")
        until(page, lambda: vat.plan.read_text("utf-8") != WEAK)
        until(page, lambda: "Undo brings the plan back" in page.locator("#said").inner_text())
        until(page, lambda: page.locator("[data-act=undo]").is_enabled())
        assert page.evaluate("document.activeElement !== document.body")
        page.locator("main").focus()
        page.keyboard.press("Control+z")
        until(page, lambda: vat.plan.read_text("utf-8") == WEAK)
        seen.clean()


@pytest.mark.parametrize("dark", [False, True])
def test_found_remedies_are_accessible_and_stay_within_a_phone(
    browser: Browser, vat: Served, dark: bool
) -> None:
    with watched(browser, vat, width=390, height=800, dark=dark, calm=True) as seen:
        page = found(seen, vat)
        seen.until("document.getElementById('said').classList.contains('shown') === false")
        results = Axe().run(page)
        assert not results.response["violations"], results.generate_report()
        assert page.evaluate("document.documentElement.scrollWidth") <= 390
        page.emulate_media(media="print")
        assert page.locator(f"{panel(page)} .what").first.is_visible()
        assert not page.locator(f"{panel(page)} [data-do]").first.is_visible()
        assert page.locator(f'[id="check-{FOOT}"] .points').is_visible()  # a check prints with its name
        page.emulate_media(media="screen")
        seen.clean()
