"""Trials in a browser: what is kept is what was seen, two tabs tell the same, and who types loses nothing."""

from __future__ import annotations

import pytest
from playwright.sync_api import Browser

from tests.journeys.browser import Served, until, watched
from tests.journeys.tried_pages import TEMPERATURE, THICKNESS, field, focused, saved, to_try, tried


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
        assert field(other, THICKNESS).input_value() == "4 in"  # what is tried is shown in every tab
        field(other, THICKNESS).press("Escape")  # and left in every tab
        until(page, lambda: tried(page) == "" and page.locator("#trial").count() == 0)
        assert field(page, THICKNESS).input_value() == "3 in"
        field(page, THICKNESS).fill("4 in")
        field(page, THICKNESS).press("Enter")
        until(other, lambda: field(other, THICKNESS).input_value() == "4 in")
        other.locator('[data-mode] [value="try"]').check()
        field(other, THICKNESS).fill("4 1/2 in")
        field(other, TEMPERATURE).fill("95 degF")
        field(other, TEMPERATURE).press("Enter")
        until(page, lambda: "95 degF" in tried(page, TEMPERATURE))
        assert field(page, TEMPERATURE).input_value() == "95 degF"
        until(page, lambda: "4 1/2 in" in tried(page))
        now = other.evaluate("fetch('/api/trial').then((reply) => reply.json())")["number"]
        until(page, lambda: page.locator("#trial").get_attribute("data-trial") == f"{now}")
        page.locator("[data-act=keep]").click()
        until(other, lambda: other.locator(".unsaved").count() == 0)
        assert field(page, TEMPERATURE).input_value() == "95 degF"
        until(other, lambda: "What was tried is kept" in other.locator("#said").inner_text())
        assert page.locator("#said").inner_text() == "Saved."
        assert 'thickness = "4 1/2 in"' in packhouse.plan.read_text("utf-8")
        until(page, lambda: "the plan has “4 1/2 in” now" in field(page, THICKNESS, "-faults").inner_text())
        assert field(page, THICKNESS).input_value() == "4 in"  # typed here, and never tried since
        field(page, THICKNESS).press("Escape")
        assert field(page, THICKNESS).input_value() == "4 1/2 in"
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


def test_escape_goes_back_to_what_is_tried_and_then_out_of_the_trial(
    browser: Browser, packhouse: Served
) -> None:
    with watched(browser, packhouse) as seen:
        page = to_try(seen, packhouse)
        echo, faults = field(page, THICKNESS, "-echo"), field(page, THICKNESS, "-faults")
        until(page, lambda: "102 mm" in echo.inner_text())
        field(page, THICKNESS).fill("thick")
        until(page, lambda: faults.inner_text() != "")
        assert "4 in" in tried(page)
        field(page, THICKNESS).press("Escape")
        until(page, lambda: "102 mm" in echo.inner_text() and faults.inner_text() == "")
        assert field(page, THICKNESS).input_value() == "4 in"
        field(page, THICKNESS).press("Escape")
        page.locator("#trial").wait_for(state="detached")
        until(page, lambda: "76.2 mm" in echo.inner_text())
        until(page, lambda: tried(page) == "")
        assert page.locator(".unsaved").count() == 0
        field(page, THICKNESS).fill("4 in")
        field(page, THICKNESS).press("Enter")
        until(page, lambda: "4 in" in tried(page) and "102 mm" in echo.inner_text())
        field(page, THICKNESS).fill("thick")
        page.goto(packhouse.address)  # what is tried is not lost by leaving the page, but this would be
        assert seen.dialogs == ["beforeunload"]
        seen.dialogs.clear()
        seen.clean()


def test_what_was_tried_and_left_after_a_reload_is_not_saved_later(
    browser: Browser, packhouse: Served
) -> None:
    with watched(browser, packhouse) as seen:
        page = to_try(seen, packhouse)
        page.reload()
        until(page, lambda: field(page, THICKNESS).input_value() == "4 in")
        field(page, THICKNESS).fill("4 in")
        field(page, THICKNESS).press("Enter")
        page.locator("[data-act=drop]").click()
        until(page, lambda: field(page, THICKNESS).input_value() == "3 in")
        saved(page, packhouse, TEMPERATURE, "85 degF")
        assert 'thickness = "3 in"' in packhouse.plan.read_text("utf-8")
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
