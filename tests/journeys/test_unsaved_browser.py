"""What is typed and not saved: nothing is sent unmeant, nothing of another's is written over, nothing is lost."""

from __future__ import annotations

import shutil
from pathlib import Path

from playwright.sync_api import Browser, Route

from tests.journeys.browser import Served, served, until, watched
from tests.journeys.conftest import PACKHOUSE
from tests.journeys.tried_pages import TEMPERATURE, THICKNESS, WINDOW, field, focused, saved, to_try, tried


def test_what_is_left_in_one_way_is_sent_in_that_way(browser: Browser, packhouse: Served) -> None:
    """Typed to be tried, and the choice then switched by a click that leaves the field: it is tried, not saved."""
    before = packhouse.plan.read_bytes()
    with watched(browser, packhouse) as seen:
        page = to_try(seen, packhouse)
        field(page, THICKNESS).fill("5 in")
        page.locator('[data-mode] [value="save"]').check()
        until(page, lambda: "5 in" in tried(page))
        page.wait_for_timeout(300)
        assert packhouse.plan.read_bytes() == before
        seen.clean()


def test_what_another_changed_is_not_written_over_along_with_another_field(
    browser: Browser, packhouse: Served
) -> None:
    with watched(browser, packhouse) as seen:
        page = to_try(seen, packhouse)
        text = packhouse.plan.read_text("utf-8")
        packhouse.plan.write_text(text.replace('thickness = "3 in"', 'thickness = "3.5 in"', 1), "utf-8")
        until(page, lambda: "the plan has “3.5 in” now" in field(page, THICKNESS, "-faults").inner_text())
        saved(page, packhouse, TEMPERATURE, "85 degF")
        assert 'thickness = "3.5 in"' in packhouse.plan.read_text("utf-8")
        assert field(page, THICKNESS).input_value() == "4 in"
        assert "the plan has “3.5 in” now" in field(page, THICKNESS, "-faults").inner_text()
        saved(page, packhouse, THICKNESS, "4 in")
        seen.clean()


def test_words_that_the_plan_writes_otherwise_are_tried_and_kept_as_they_are_meant(
    browser: Browser, packhouse: Served
) -> None:
    count, setpoint = "heaters.sump.count", "heaters.sump.setpoint"
    with watched(browser, packhouse) as seen:
        page = seen.page
        page.goto(f"{packhouse.address}plan/part/heaters.sump")
        page.locator('[data-mode] [value="try"]').check()
        field(page, count).fill("04")
        field(page, count).press("Enter")
        until(page, lambda: "not saved: 4" in tried(page, count))
        page.locator('[data-mode] [value="save"]').check()
        saved(page, packhouse, setpoint, "76 degF")
        assert "count = 3" in packhouse.plan.read_text("utf-8")
        page.locator("[data-act=keep]").click()
        until(page, lambda: "count = 4" in packhouse.plan.read_text("utf-8"))
        until(page, lambda: field(page, count).input_value() == "4" and page.locator(".unsaved").count() == 0)
        field(page, count).fill("05")
        field(page, count).press("Enter")
        field(page, count).fill("06")
        field(page, count).press("Enter")
        until(page, lambda: "count = 6" in packhouse.plan.read_text("utf-8"))
        until(page, lambda: field(page, count).input_value() == "6")
        seen.clean()


def test_a_part_is_taken_out_on_trial(browser: Browser, packhouse: Served) -> None:
    before = packhouse.plan.read_bytes()
    with watched(browser, packhouse) as seen:
        page = seen.page
        page.goto(f"{packhouse.address}plan/part/vessels.reef.ties.cross")
        page.locator('[data-mode] [value="try"]').check()
        page.locator('[data-rename] input[name="name"]').fill("other")
        page.locator("[data-rename] button").click()
        until(page, lambda: "nothing to try" in page.locator(".refused").inner_text())
        page.locator('[data-remove="vessels.reef.ties.cross"]').click()
        page.locator("#trial").wait_for()
        until(page, lambda: "taken out" in page.locator("#trying").inner_text())
        until(page, lambda: page.locator("#trial-told li").count() > 0)
        assert packhouse.plan.read_bytes() == before
        page.locator("[data-act=drop]").click()
        page.locator("#trial").wait_for(state="detached")
        assert packhouse.plan.read_bytes() == before
        seen.clean()


def test_enter_and_escape_at_once_send_nothing_that_was_not_typed(
    browser: Browser, packhouse: Served
) -> None:
    before = packhouse.plan.read_bytes()
    with watched(browser, packhouse) as seen:
        page = seen.page
        page.goto(f"{packhouse.address}plan/part/{WINDOW}")

        def late(route: Route) -> None:
            page.wait_for_timeout(300)
            route.continue_()

        page.route("**/api/forms/preview", late)
        field(page, THICKNESS).fill("6 in")
        field(page, THICKNESS).press("Enter")
        field(page, THICKNESS).press("Escape")
        page.wait_for_timeout(900)
        assert packhouse.plan.read_bytes() == before
        assert page.locator("#said").inner_text() == ""
        assert field(page, THICKNESS).input_value() == "3 in"
        seen.clean()


def test_undo_with_nothing_left_leaves_fields_alone(browser: Browser, tmp_path: Path) -> None:
    copy = Path(shutil.copy(PACKHOUSE, tmp_path))
    with served(copy, tmp_path / "cache") as found, watched(browser, found) as seen:
        page = seen.page
        page.goto(f"{found.address}plan/part/{WINDOW}")
        field(page, THICKNESS).press("Control+a")
        page.keyboard.insert_text("thick")
        field(page, THICKNESS).press("Escape")
        page.locator("h1").click()
        page.keyboard.press("Control+z")
        until(page, lambda: page.locator("#said").inner_text() == "Nothing to undo")
        assert field(page, THICKNESS).input_value() == "3 in"
        assert focused(page) != f"f-{THICKNESS}"
        saved(page, found, THICKNESS, "4 in")
        until(page, lambda: page.locator("[data-act=undo]").is_enabled())
        page.locator("[data-act=undo]").press("Enter")
        until(page, lambda: field(page, THICKNESS).input_value() == "3 in")
        until(page, lambda: page.evaluate("document.activeElement.dataset.act") == "redo")
        seen.clean()


def test_a_page_whose_part_is_gone_keeps_what_was_typed_and_says_so(
    browser: Browser, packhouse: Served
) -> None:
    setpoint = "heaters.sump.setpoint"
    with watched(browser, packhouse) as seen, watched(browser, packhouse) as beside:
        for one in (seen, beside):
            one.page.goto(f"{packhouse.address}plan/part/heaters.sump")
        field(seen.page, setpoint).fill("7")
        text = packhouse.plan.read_text("utf-8")
        text = text.replace('"heater sump"', '"heater tank"')
        packhouse.plan.write_text(text.replace("[heaters.sump]", "[heaters.tank]", 1), "utf-8")
        until(seen.page, lambda: "What you typed stays here" in seen.page.locator("#said").inner_text())
        assert field(seen.page, setpoint).input_value() == "7"
        beside.page.wait_for_url(f"{packhouse.address}plan")
        until(beside.page, lambda: "no longer in the plan" in beside.page.locator("#said").inner_text())
        seen.clean()
        beside.clean()


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
