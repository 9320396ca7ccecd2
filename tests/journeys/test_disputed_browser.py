"""What two have changed at once: nobody writes over the other but on purpose, and what was typed stays to be seen."""

from __future__ import annotations

import pytest
from playwright.sync_api import Browser, Page, Route

from tests.journeys.browser import Served, until, watched
from tests.journeys.tried_pages import TEMPERATURE, THICKNESS, WINDOW, field, saved, to_try, tried

HEATER = "heaters.sump"
SETPOINT, COUNT = f"{HEATER}.setpoint", f"{HEATER}.count"
STAGE = "vessels.reef.stage"


def told(page: Page, key: str) -> str:
    return field(page, key, "-faults").inner_text()


def written(packhouse: Served) -> str:
    return packhouse.plan.read_text("utf-8")


def theirs(packhouse: Served, mine: str, other: str) -> None:
    """Another program writes something else in the plan, wherever it stands."""
    text = written(packhouse)
    assert mine in text
    packhouse.plan.write_text(text.replace(mine, other), "utf-8")


@pytest.mark.parametrize("mode", ["save", "try"])
def test_leaving_a_field_never_writes_over_anothers_change(
    browser: Browser, packhouse: Served, mode: str
) -> None:
    with watched(browser, packhouse) as seen:
        page = seen.page
        page.goto(f"{packhouse.address}plan/part/{WINDOW}")
        page.locator(f'[data-mode] [value="{mode}"]').check()
        field(page, THICKNESS).fill("4")
        theirs(packhouse, 'thickness = "3 in"', 'thickness = "3.5 in"')
        until(page, lambda: "the plan has “3.5 in” now" in told(page, THICKNESS))
        field(page, THICKNESS).fill("4 in")
        field(page, THICKNESS).press("Tab")
        page.locator("h1").click()
        page.wait_for_timeout(500)
        assert 'thickness = "3.5 in"' in written(packhouse)
        assert page.locator("#trial").count() == 0
        assert field(page, THICKNESS).input_value() == "4 in"
        if mode == "save":
            page.get_by_role("button", name="Save mine over it").click()
            until(page, lambda: 'thickness = "4 in"' in written(packhouse))
            until(page, lambda: page.locator(".unsaved").count() == 0 and told(page, THICKNESS) == "")
        else:
            page.get_by_role("button", name="Try mine in its place").click()
            until(page, lambda: "4 in" in tried(page))
            assert 'thickness = "3.5 in"' in written(packhouse)
        seen.clean()


def test_what_another_changed_is_taken_by_button_and_a_change_taken_back_is_no_dispute(
    browser: Browser, packhouse: Served
) -> None:
    with watched(browser, packhouse) as seen:
        page = seen.page
        page.goto(f"{packhouse.address}plan/part/{WINDOW}")
        field(page, THICKNESS).fill("thick")
        theirs(packhouse, 'thickness = "3 in"', 'thickness = "3.5 in"')
        until(page, lambda: "the plan has “3.5 in” now" in told(page, THICKNESS))
        theirs(packhouse, 'thickness = "3.5 in"', 'thickness = "3 in"')
        until(page, lambda: "Changed meanwhile" not in told(page, THICKNESS))
        assert field(page, THICKNESS).input_value() == "thick"
        theirs(packhouse, 'thickness = "3 in"', 'thickness = "3.5 in"')
        until(page, lambda: "the plan has “3.5 in” now" in told(page, THICKNESS))
        page.get_by_role("button", name="Take that").click()
        until(page, lambda: field(page, THICKNESS).input_value() == "3.5 in" and told(page, THICKNESS) == "")
        assert 'thickness = "3.5 in"' in written(packhouse)
        seen.clean()


def test_a_choice_that_is_disputed_is_decided_by_enter(browser: Browser, packhouse: Served) -> None:
    with watched(browser, packhouse) as seen:
        page = seen.page
        page.goto(f"{packhouse.address}plan/part/vessels.reef")

        def never(route: Route) -> None:
            page.wait_for_timeout(400)
            route.continue_()

        was = field(page, STAGE).input_value()
        assert was == "planned"
        page.route("**/api/forms/save", never)
        field(page, STAGE).select_option("building")
        theirs(packhouse, f'stage = "{was}"', 'stage = "testing"')
        until(page, lambda: "the plan has “testing” now" in told(page, STAGE))
        assert 'stage = "testing"' in written(packhouse)
        field(page, STAGE).press("Enter")
        until(page, lambda: 'stage = "building"' in written(packhouse))
        seen.errors.clear()  # the browser's own word for the first refusal
        seen.clean()


def test_a_part_that_is_gone_is_not_written_again_by_its_fields(browser: Browser, packhouse: Served) -> None:
    with watched(browser, packhouse) as seen:
        page = seen.page
        page.goto(f"{packhouse.address}plan/part/{HEATER}")
        field(page, SETPOINT).fill("7")
        theirs(packhouse, '"heater sump"', '"heater tank"')
        theirs(packhouse, f"[{HEATER}]", "[heaters.tank]")
        until(page, lambda: "no longer in the plan" in told(page, SETPOINT))
        field(page, SETPOINT).fill("79 degF")
        for key in ("Enter", "Tab"):
            field(page, SETPOINT).press(key)
        page.wait_for_timeout(500)
        assert f"[{HEATER}]" not in written(packhouse)
        assert "cannot be saved here" in told(page, SETPOINT)
        theirs(packhouse, '"heater tank"', '"heater sump"')
        theirs(packhouse, "[heaters.tank]", f"[{HEATER}]")
        until(page, lambda: told(page, SETPOINT) == "")
        field(page, SETPOINT).press("Enter")
        until(page, lambda: 'setpoint = "79 degF"' in written(packhouse))
        field(page, SETPOINT).fill("7")
        theirs(packhouse, '"heater sump"', '"heater tank"')
        theirs(packhouse, f"[{HEATER}]", "[heaters.tank]")
        until(page, lambda: "no longer in the plan" in told(page, SETPOINT))
        page.get_by_role("button", name="Let it go").click()
        page.wait_for_url(f"{packhouse.address}plan")
        seen.clean()


def test_a_trial_can_be_left_on_a_page_whose_part_is_gone(browser: Browser, packhouse: Served) -> None:
    with watched(browser, packhouse) as seen:
        page = to_try(seen, packhouse)
        page.goto(f"{packhouse.address}plan/part/{HEATER}")
        field(page, COUNT).fill("many")
        theirs(packhouse, '"heater sump"', '"heater tank"')
        theirs(packhouse, f"[{HEATER}]", "[heaters.tank]")
        until(page, lambda: "no longer in the plan" in told(page, COUNT))
        page.locator("[data-act=drop]").click()
        page.locator("#trial").wait_for(state="detached")
        assert field(page, COUNT).input_value() == "many"
        seen.clean()


def test_a_name_that_is_being_typed_outlives_a_change_of_the_plan(
    browser: Browser, packhouse: Served
) -> None:
    with watched(browser, packhouse) as seen:
        page = seen.page
        page.goto(f"{packhouse.address}plan/part/{HEATER}")
        page.locator("#rename").fill("boiler")
        theirs(packhouse, "Packhouse reef", "Another name")
        until(page, lambda: "Another name" in page.locator(".top").inner_text())
        page.wait_for_timeout(300)
        assert page.locator("#rename").input_value() == "boiler"
        page.locator("[data-rename] button").click()
        page.wait_for_url("**/plan/part/heaters.boiler")
        until(page, lambda: "now called boiler" in page.locator("#said").inner_text())
        page.goto(f"{packhouse.address}plan/equipment")
        page.locator("[id='new-heaters']").fill("second")
        page.locator("h1").click()
        theirs(packhouse, "Another name", "A third name")
        until(page, lambda: "A third name" in page.locator(".top").inner_text())
        page.wait_for_timeout(300)
        assert page.locator("[id='new-heaters']").input_value() == "second"
        seen.clean()


def test_what_is_typed_on_after_enter_is_not_sent_with_it(browser: Browser, packhouse: Served) -> None:
    with watched(browser, packhouse) as seen:
        page = seen.page
        page.goto(f"{packhouse.address}plan/part/{WINDOW}")

        def late(route: Route) -> None:
            page.wait_for_timeout(400)
            route.continue_()

        page.route("**/api/forms/save", late)
        field(page, TEMPERATURE).fill("90 degF")
        field(page, TEMPERATURE).press("Enter")
        field(page, THICKNESS).fill("4 in")
        field(page, THICKNESS).press("Enter")
        field(page, THICKNESS).press("End")
        page.keyboard.type("ches")
        until(page, lambda: 'thickness = "4 in"' in written(packhouse))
        page.wait_for_timeout(500)
        assert 'thickness = "4 in"' in written(packhouse)
        assert field(page, THICKNESS).input_value() == "4 inches"
        until(page, lambda: page.locator("#said").inner_text() == "Saved: Thickness 4 in.")
        seen.clean()


def test_the_plans_own_value_typed_over_what_is_tried_leaves_the_trial(
    browser: Browser, packhouse: Served
) -> None:
    before = written(packhouse)
    with watched(browser, packhouse) as seen:
        page = to_try(seen, packhouse)
        for words in ("3 in", "3 in  "):
            field(page, THICKNESS).fill(words)
            field(page, THICKNESS).press("Enter")
            page.locator("#trial").wait_for(state="detached")
            until(page, lambda: tried(page) == "" and page.locator(".unsaved").count() == 0)
            assert field(page, THICKNESS).input_value() == "3 in"
            field(page, THICKNESS).fill("4 in")
            field(page, THICKNESS).press("Enter")
            page.locator("#trial").wait_for()
            until(page, lambda: "4 in" in tried(page))
        assert written(packhouse) == before
        seen.clean()


def test_what_means_the_same_is_not_told_as_saved(browser: Browser, packhouse: Served) -> None:
    before = written(packhouse)
    with watched(browser, packhouse) as seen:
        page = seen.page
        page.goto(f"{packhouse.address}plan/part/{HEATER}")
        for mode in ("save", "try"):
            page.locator(f'[data-mode] [value="{mode}"]').check()
            field(page, COUNT).fill("03 ")
            field(page, COUNT).press("Enter")
            until(page, lambda: field(page, COUNT).input_value() == "3")
            until(page, lambda: page.locator(".unsaved").count() == 0)
            assert told(page, COUNT) == ""
        assert page.locator("#said").inner_text() == ""
        assert written(packhouse) == before
        seen.clean()


def test_one_trial_in_place_of_another_says_so_where_the_other_was_typed(
    browser: Browser, packhouse: Served
) -> None:
    cross = "vessels.reef.ties.cross"
    with watched(browser, packhouse) as seen, watched(browser, packhouse) as beside:
        page, other = to_try(seen, packhouse), beside.page
        other.goto(f"{packhouse.address}plan/part/{cross}")
        other.locator('[data-mode] [value="try"]').check()
        other.locator(f'[data-remove="{cross}"]').click()
        until(other, lambda: "in place of what was tried before" in other.locator("#said").inner_text())
        until(other, lambda: "taken out with its part" in tried(other, f"{cross}.across"))
        until(page, lambda: "No longer tried, and not saved." in told(page, THICKNESS))
        assert tried(page) == ""
        assert field(page, THICKNESS).input_value() == "4 in"
        field(page, TEMPERATURE).fill("95 degF")
        field(page, TEMPERATURE).press("Enter")
        until(page, lambda: "95 degF" in tried(page, TEMPERATURE))
        assert tried(page) == ""  # it is not tried along with the next
        other.locator("[data-act=drop]").click()
        other.locator("#trial").wait_for(state="detached")
        until(other, lambda: tried(other, f"{cross}.across") == "")
        page.locator("#trial").wait_for(state="detached")
        saved(page, packhouse, TEMPERATURE, "85 degF")
        assert 'thickness = "3 in"' in written(packhouse)
        seen.clean()
        beside.clean()


def test_who_takes_out_the_part_of_a_page_reads_that_and_not_that_it_is_gone(
    browser: Browser, packhouse: Served
) -> None:
    cross = "vessels.reef.ties.cross"
    with watched(browser, packhouse) as seen:
        page = seen.page
        page.goto(f"{packhouse.address}plan/part/{cross}")
        page.locator('[data-mode] [value="try"]').check()
        page.locator(f'[data-remove="{cross}"]').click()
        page.locator("#trial").wait_for()
        page.locator("[data-act=keep]").click()
        page.wait_for_url(f"{packhouse.address}plan")
        until(page, lambda: page.locator("#said").inner_text().startswith("Saved. What that page showed"))
        page.locator("[data-act=undo]").click()
        until(page, lambda: f"[{cross}]" in written(packhouse))
        page.goto(f"{packhouse.address}plan/part/{cross}")
        page.locator('[data-mode] [value="save"]').check()
        page.locator(f'[data-remove="{cross}"]').click()
        page.wait_for_url(lambda url: cross not in url)
        until(page, lambda: "taken out. Undo puts it back." in page.locator("#said").inner_text())
        assert "no longer in the plan" not in page.locator("#said").inner_text()
        seen.clean()


def test_a_file_that_is_gone_is_told_and_written_again(browser: Browser, packhouse: Served) -> None:
    before = written(packhouse)
    with watched(browser, packhouse) as seen:
        page = seen.page
        page.goto(f"{packhouse.address}plan/part/{WINDOW}")
        packhouse.plan.unlink()
        until(page, lambda: "is gone" in page.locator("#said").inner_text())
        field(page, THICKNESS).fill("4 in")
        field(page, THICKNESS).press("Enter")
        until(page, lambda: "Not saved: the plan's file is gone" in told(page, THICKNESS))
        assert "still has" not in told(page, THICKNESS)
        assert not packhouse.plan.exists()
        page.goto(f"{packhouse.address}file")
        until(page, lambda: "The file is gone" in page.locator("#file-told").inner_text())
        page.get_by_role("button", name="Write it again").click()
        until(page, lambda: packhouse.plan.exists() and written(packhouse) == before)
        until(page, lambda: page.locator("#faulty").count() == 0)
        until(page, lambda: page.locator("#file-told").inner_text() == "As saved.")
        assert seen.dialogs == ["beforeunload"]
        assert ["422" in words for words in seen.errors] == [True]  # the browser's own word for the refusal


def test_a_value_that_cannot_stand_is_not_offered_to_be_saved_over_anothers(
    browser: Browser, packhouse: Served
) -> None:
    with watched(browser, packhouse) as seen:
        page = seen.page
        page.goto(f"{packhouse.address}plan/part/{WINDOW}")
        field(page, THICKNESS).fill("thick")
        theirs(packhouse, 'thickness = "3 in"', 'thickness = "3.5 in"')
        until(page, lambda: "the plan has “3.5 in” now" in told(page, THICKNESS))
        assert page.get_by_role("button", name="Save mine over it").count() == 0
        assert page.get_by_role("button", name="Take that").count() == 1
        seen.clean()
