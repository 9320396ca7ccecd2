"""Trials in a browser: what is kept is what was seen, two tabs tell the same, and who types loses nothing."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Locator, Page

from tests.journeys.browser import Served, Watched, served, settled, until, watched

PACKHOUSE = Path(__file__).parents[2] / "examples" / "packhouse.toml"
WINDOW = "vessels.reef.walls.south.windows.long"
THICKNESS, TEMPERATURE = f"{WINDOW}.thickness", f"{WINDOW}.temperature"


@pytest.fixture(scope="module")
def open_plan(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Served]:
    folder = tmp_path_factory.mktemp("tried")
    with served(Path(shutil.copy(PACKHOUSE, folder)), folder / "cache") as found:
        yield found


@pytest.fixture
def packhouse(open_plan: Served) -> Served:
    """The example as it comes, whatever an earlier test has made of it."""
    open_plan.plan.write_text(PACKHOUSE.read_text("utf-8"), "utf-8")
    settled(open_plan.address)
    return open_plan


def field(page: Page, key: str, part: str = "") -> Locator:
    return page.locator(f'[id="f-{key}{part}"]')


def tried(page: Page, key: str = THICKNESS) -> str:
    """What the field says under it of a trial; nothing where it says nothing."""
    return field(page, key, "-tried").text_content() or ""


def focused(page: Page) -> str:
    return str(page.evaluate("document.activeElement.id"))


def to_try(seen: Watched, packhouse: Served, words: str = "4 in") -> Page:
    """The window's form, with another thickness being tried."""
    page = seen.page
    page.goto(f"{packhouse.address}plan/part/{WINDOW}")
    page.locator('[data-mode] [value="try"]').check()
    field(page, THICKNESS).fill(words)
    field(page, THICKNESS).press("Enter")
    until(page, lambda: words in tried(page))
    page.locator("#trial").wait_for()
    return page


def test_what_was_typed_after_the_trial_is_not_kept_unseen(browser: Browser, packhouse: Served) -> None:
    before = packhouse.plan.read_bytes()
    with watched(browser, packhouse) as seen:
        page = to_try(seen, packhouse)
        field(page, THICKNESS).fill("5 in")
        page.locator("[data-act=keep]").click()
        until(page, lambda: "Something else is being tried" in page.locator("#said").inner_text())
        until(page, lambda: "5 in" in page.locator("#trying").inner_text())
        assert packhouse.plan.read_bytes() == before
        assert "5 in" in tried(page)
        page.locator("[data-act=keep]").click()
        page.locator("#trial").wait_for(state="detached")
        assert 'thickness = "5 in"' in packhouse.plan.read_text("utf-8")
        assert field(page, THICKNESS).input_value() == "5 in"
        until(page, lambda: page.locator(".unsaved").count() == 0)
        assert tried(page) == ""
        assert ["409" in words for words in seen.errors] == [True]  # the browser's own word for the refusal
        seen.errors.clear()
        seen.clean()


def test_what_was_typed_after_the_trial_is_left_with_it(browser: Browser, packhouse: Served) -> None:
    before = packhouse.plan.read_bytes()
    with watched(browser, packhouse) as seen:
        page = to_try(seen, packhouse)
        field(page, THICKNESS).fill("5 in")
        page.locator("[data-act=drop]").click()
        until(page, lambda: field(page, THICKNESS).input_value() == "3 in")
        page.locator("#trial").wait_for(state="detached")
        assert packhouse.plan.read_bytes() == before
        assert page.evaluate("fetch('/api/trial').then((reply) => reply.json())")["number"] == 0
        seen.clean()


def test_a_trial_goes_on_when_something_else_changes_and_says_so_when_it_cannot(
    browser: Browser, packhouse: Served
) -> None:
    with watched(browser, packhouse) as seen:
        page = to_try(seen, packhouse)
        text = packhouse.plan.read_text("utf-8")
        packhouse.plan.write_text(text.replace("Packhouse reef", "Another name"), "utf-8")
        until(page, lambda: "Another name" in page.locator(".top").inner_text())
        page.wait_for_timeout(300)
        assert page.locator("#trial").count() == 1
        assert field(page, THICKNESS).input_value() == "4 in"
        packhouse.plan.write_text(text.replace('thickness = "3 in"', 'thickness = "3.5 in"', 1), "utf-8")
        page.locator("#trial").wait_for(state="detached")
        until(page, lambda: "nothing is being tried any more" in page.locator("#said").inner_text())
        until(page, lambda: "the plan has “3.5 in” now" in field(page, THICKNESS, "-faults").inner_text())
        assert field(page, THICKNESS).input_value() == "4 in"
        assert tried(page) == ""
        field(page, THICKNESS).press("Escape")
        assert field(page, THICKNESS).input_value() == "3.5 in"
        seen.clean()


def test_two_tabs_tell_the_same_of_a_trial(browser: Browser, packhouse: Served) -> None:
    with watched(browser, packhouse) as seen, watched(browser, packhouse) as beside:
        page, other = to_try(seen, packhouse), beside.page
        other.goto(page.url)
        until(other, lambda: "4 in" in tried(other))
        assert field(other, THICKNESS).input_value() == "3 in"
        other.locator('[data-mode] [value="try"]').check()
        field(other, TEMPERATURE).fill("95 degF")
        field(other, TEMPERATURE).press("Enter")
        until(page, lambda: "95 degF" in tried(page, TEMPERATURE))
        assert tried(page) == ""
        assert "in place of what was tried before" in other.locator("#said").inner_text()
        assert field(page, THICKNESS).input_value() == "4 in"
        field(page, THICKNESS).press("Enter")
        until(other, lambda: "4 in" in tried(other) and tried(other, TEMPERATURE) == "")
        now = other.evaluate("fetch('/api/trial').then((reply) => reply.json())")["number"]
        until(page, lambda: page.locator("#trial").get_attribute("data-trial") == f"{now}")
        page.locator("[data-act=keep]").click()
        until(other, lambda: field(other, THICKNESS).input_value() == "4 in")
        until(other, lambda: "What was tried is kept" in other.locator("#said").inner_text())
        assert page.locator("#said").inner_text() == "Saved."
        assert 'thickness = "4 in"' in packhouse.plan.read_text("utf-8")
        seen.clean()
        beside.clean()


@pytest.mark.parametrize("act", ["drop", "keep"])
def test_the_focus_goes_on_where_the_trial_was_begun(browser: Browser, packhouse: Served, act: str) -> None:
    with watched(browser, packhouse) as seen:
        page = to_try(seen, packhouse)
        field(page, THICKNESS, "-tried").locator("a").focus()
        page.keyboard.press("Enter")
        until(page, lambda: focused(page) == "trial")
        page.locator(f"[data-act={act}]").focus()
        page.keyboard.press("Enter")
        page.locator("#trial").wait_for(state="detached")
        until(page, lambda: focused(page) == f"f-{THICKNESS}")
        page.wait_for_timeout(300)
        assert focused(page) == f"f-{THICKNESS}"
        to_try(seen, packhouse, "5 in")
        page.locator(f"[data-act={act}]").click()
        until(page, lambda: focused(page) == "main")
        seen.clean()


def test_a_value_tried_again_is_read_back_again(browser: Browser, packhouse: Served) -> None:
    with watched(browser, packhouse) as seen:
        page = to_try(seen, packhouse)
        echo = field(page, THICKNESS, "-echo")
        until(page, lambda: "102 mm" in echo.inner_text())
        field(page, THICKNESS).press("Escape")
        until(page, lambda: "76.2 mm" in echo.inner_text())
        assert "4 in" in tried(page)
        field(page, THICKNESS).fill("4 in")
        field(page, THICKNESS).press("Enter")
        until(page, lambda: "102 mm" in echo.inner_text())
        field(page, THICKNESS).fill("thick")
        until(page, lambda: field(page, THICKNESS, "-faults").inner_text() != "")
        assert "4 in" in tried(page)
        page.goto(packhouse.address)  # what is tried is not lost by leaving the page, but this fault would be
        assert seen.dialogs
        seen.dialogs.clear()
        seen.clean()


def test_what_is_tried_may_be_left_for_another_page_unasked(browser: Browser, packhouse: Served) -> None:
    with watched(browser, packhouse) as seen:
        page = to_try(seen, packhouse)
        page.goto(f"{packhouse.address}question/structure")
        until(page, lambda: "window long" in page.locator("#trial-told").inner_text())
        page.locator("[data-act=drop]").click()
        page.locator("#trial").wait_for(state="detached")
        assert seen.dialogs == []
        seen.clean()


def test_what_is_only_tried_is_not_saved_along_with_another_field(
    browser: Browser, packhouse: Served
) -> None:
    with watched(browser, packhouse) as seen:
        page = to_try(seen, packhouse)
        page.locator('[data-mode] [value="save"]').check()
        field(page, TEMPERATURE).fill("90 degF")
        field(page, TEMPERATURE).press("Enter")
        until(page, lambda: '"90 degF"' in packhouse.plan.read_text("utf-8"))
        assert 'thickness = "4 in"' not in packhouse.plan.read_text("utf-8")
        until(page, lambda: "4 in" in tried(page) and page.locator("#trial").count() == 1)
        assert field(page, THICKNESS).input_value() == "4 in"
        page.locator("[data-act=keep]").click()
        page.locator("#trial").wait_for(state="detached")
        text = packhouse.plan.read_text("utf-8")
        assert '"90 degF"' in text
        assert 'thickness = "4 in"' in text
        seen.clean()


def test_units_are_switched_in_every_tab(browser: Browser, packhouse: Served) -> None:
    with watched(browser, packhouse) as seen, watched(browser, packhouse) as beside:
        seen.page.goto(packhouse.address)
        beside.page.goto(packhouse.address)
        buttons = [one.page.locator("[data-act=units]") for one in (seen, beside)]
        first, other = buttons[0].inner_text(), ("Metric units", "US units")
        assert first in other
        buttons[0].click()
        now = next(words for words in other if words != first)
        until(beside.page, lambda: buttons[1].inner_text() == now)
        buttons[1].click()
        until(seen.page, lambda: buttons[0].inner_text() == first)
        seen.clean()
        beside.clean()


def test_working_that_stands_open_is_of_the_answer_that_is_shown(browser: Browser, packhouse: Served) -> None:
    with watched(browser, packhouse) as seen:
        page = seen.page
        page.goto(f"{packhouse.address}question/structure")
        working = page.locator("details.working", has_text="window long").first
        working.locator("summary").click()
        until(page, lambda: "3 in" in page.locator("details.working[open]").first.inner_text())
        text = packhouse.plan.read_text("utf-8")
        packhouse.plan.write_text(text.replace('thickness = "3 in"', 'thickness = "4 1/2 in"', 1), "utf-8")
        until(page, lambda: "4 1/2 in" in page.locator("details.working[open]").first.inner_text())
        assert page.locator("details.working[open]").count() == 1
        seen.clean()
