"""Words that are on their way, typed on, copied or refused: what is told is what is so, and stays until it is not."""

from __future__ import annotations

from playwright.sync_api import Browser, Page, Route

from tests.journeys.browser import Served, until, watched
from tests.journeys.test_disputed_browser import HEATER, SETPOINT, theirs, told, written
from tests.journeys.tried_pages import TEMPERATURE, THICKNESS, WINDOW, field, to_try, tried


def late(page: Page, route: str, milliseconds: int = 900) -> None:
    """Lets a reply wait."""

    def wait(one: Route) -> None:
        reply = one.fetch()
        page.wait_for_timeout(milliseconds)
        one.fulfill(response=reply)

    page.route(route, wait)


def test_what_is_typed_again_after_enter_is_saved_on_leaving(browser: Browser, packhouse: Served) -> None:
    """Back to what stood there when the field was entered, too, which is no change to the browser."""
    with watched(browser, packhouse) as seen:
        page = seen.page
        page.goto(f"{packhouse.address}plan/part/{WINDOW}")
        field(page, THICKNESS).click()
        field(page, THICKNESS).fill("4 in")
        field(page, THICKNESS).press("Enter")
        until(page, lambda: 'thickness = "4 in"' in written(packhouse))
        field(page, THICKNESS).fill("3 in")
        field(page, THICKNESS).press("Tab")
        until(page, lambda: 'thickness = "3 in"' in written(packhouse))
        page.locator('[data-mode] [value="try"]').check()
        field(page, THICKNESS).click()
        field(page, THICKNESS).fill("4 in")
        field(page, THICKNESS).press("Enter")
        until(page, lambda: "4 in" in tried(page))
        field(page, THICKNESS).fill("3 in")
        field(page, THICKNESS).press("Tab")
        page.locator("#trial").wait_for(state="detached")
        until(page, lambda: tried(page) == "")
        seen.clean()


def test_ones_own_save_is_not_told_as_anothers(browser: Browser, packhouse: Served) -> None:
    with watched(browser, packhouse) as seen:
        page = seen.page
        page.goto(f"{packhouse.address}plan/part/{WINDOW}")
        late(page, "**/api/forms/save")
        field(page, THICKNESS).fill("4 in")
        field(page, THICKNESS).press("Enter")
        field(page, THICKNESS).fill("5 in")
        page.wait_for_timeout(500)
        assert "Changed meanwhile" not in told(page, THICKNESS)
        field(page, THICKNESS).press("Tab")
        until(page, lambda: 'thickness = "5 in"' in written(packhouse))
        until(page, lambda: page.locator(".unsaved").count() == 0 and told(page, THICKNESS) == "")
        seen.clean()


def test_words_that_are_being_typed_are_not_saved_along_with_another_field(
    browser: Browser, packhouse: Served
) -> None:
    height, brim, water = (f"vessels.reef.{one}" for one in ("height", "brim", "water"))
    with watched(browser, packhouse) as seen:
        page = seen.page
        page.goto(f"{packhouse.address}plan/part/vessels.reef")
        for key, words in ((water, "5 ft"), (brim, "5 ft 3 in")):
            field(page, key).fill(words)
            field(page, key).press("Tab")
            until(page, lambda key=key: "Not saved" in told(page, key))  # type: ignore[misc]  # this turn's key
        late(page, "**/api/forms/preview")
        field(page, height).fill("5 ft 6 in")
        field(page, height).press("Enter")
        page.wait_for_timeout(200)
        field(page, water).fill("5 ft 2 in")
        until(page, lambda: 'brim = "5 ft 3 in"' in written(packhouse))
        assert 'water = "5 ft 2 in"' not in written(packhouse)
        assert field(page, water).input_value() == "5 ft 2 in"
        seen.clean()


def test_an_error_goes_with_the_words_it_spoke_of(browser: Browser, packhouse: Served) -> None:
    with watched(browser, packhouse) as seen:
        page = seen.page
        page.goto(f"{packhouse.address}plan/part/{WINDOW}")
        field(page, THICKNESS).fill("5")
        field(page, THICKNESS).press("Enter")
        until(page, lambda: "Not saved" in told(page, THICKNESS))
        field(page, THICKNESS).fill("3 in")
        field(page, THICKNESS).press("Enter")
        until(page, lambda: told(page, THICKNESS) == "")
        assert field(page, THICKNESS).get_attribute("aria-invalid") == "false"
        seen.clean()


def test_a_choice_that_is_not_offered_can_be_taken(browser: Browser, packhouse: Served) -> None:
    vessel = f"{HEATER}.vessel"
    with watched(browser, packhouse) as seen:
        page = seen.page
        page.goto(f"{packhouse.address}plan/part/{HEATER}")
        page.route("**/api/forms/save", lambda route: route.abort())
        field(page, vessel).select_option("reef")
        field(page, vessel).press("Tab")
        packhouse.plan.write_text(
            written(packhouse).replace("[vessels.sump", "[vessels.tub").replace('"sump"', '"tub"'), "utf-8"
        )
        until(page, lambda: "the plan has “tub” now" in told(page, vessel))
        page.get_by_role("button", name="Take that").click()
        until(page, lambda: field(page, vessel).input_value() == "tub")
        until(page, lambda: page.locator(".unsaved").count() == 0)
        assert field(page, vessel).locator("option:checked").inner_text() == "tub (not known)"
        seen.errors.clear()  # the save that was cut off


def test_a_new_part_does_not_take_the_place_of_one_that_came_meanwhile(
    browser: Browser, packhouse: Served
) -> None:
    with watched(browser, packhouse) as seen, watched(browser, packhouse) as beside:
        for one in (seen, beside):
            one.page.goto(f"{packhouse.address}plan/new/heaters?name=spare&like={HEATER}")
        field(beside.page, "heaters.spare.count").fill("8")
        beside.page.locator("[data-act-new]").click()
        until(beside.page, lambda: "count = 8" in written(packhouse))
        page = seen.page
        field(page, "heaters.spare.count").fill("2")
        page.locator("[data-act-new]").click()
        until(page, lambda: "is there already" in page.locator("#new-faults").inner_text())
        assert "count = 2" not in written(packhouse)
        page.locator("#new-name").fill("third")
        page.locator("[data-act-new]").click()
        page.wait_for_url("**/plan/part/heaters.third")
        assert "count = 2" in written(packhouse)
        assert "count = 8" in written(packhouse)
        told = ("409", "422")  # the plan was another one; the name was taken
        assert [words for words in seen.errors if not any(one in words for one in told)] == []


def test_a_copy_is_saved_as_its_form_shows_it(browser: Browser, packhouse: Served) -> None:
    with watched(browser, packhouse) as seen:
        page = seen.page
        page.goto(f"{packhouse.address}plan/new/heaters?name=spare&like={HEATER}")
        shown = field(page, "heaters.spare.setpoint").input_value()
        theirs(packhouse, f'setpoint = "{shown}"', 'setpoint = "70 degF"')
        page.wait_for_timeout(500)
        late(page, "**/api/forms/new")
        page.locator("[data-act-new]").click()
        page.wait_for_timeout(300)
        assert page.locator("form[data-new]").evaluate(
            "form => form.inert"
        )  # nothing can be typed that is lost
        page.wait_for_url("**/plan/part/heaters.spare")
        assert field(page, "heaters.spare.setpoint").input_value() == shown
        assert 'setpoint = "70 degF"' in written(packhouse)
        seen.clean()


def test_who_renames_and_stays_is_told_what_was_done(browser: Browser, packhouse: Served) -> None:
    with watched(browser, packhouse) as seen:
        page = seen.page
        page.remove_listener("dialog", seen.stopped)
        page.on("dialog", lambda dialog: dialog.dismiss())
        page.goto(f"{packhouse.address}plan/part/{HEATER}")
        field(page, SETPOINT).fill("7")
        field(page, SETPOINT).press("Enter")
        until(page, lambda: "Not saved" in told(page, SETPOINT))
        page.locator("#rename").fill("boiler")
        page.locator("[data-rename] button").click()
        until(page, lambda: "now called boiler" in page.locator("#said").inner_text())
        until(page, lambda: "no longer in the plan" in told(page, SETPOINT))
        assert "[heaters.boiler]" in written(packhouse)
        page.get_by_role("button", name="Let it go").click()
        page.wait_for_url(f"{packhouse.address}plan")
        seen.clean()


def test_a_refusal_stays_until_something_else_is_done(browser: Browser, packhouse: Served) -> None:
    with watched(browser, packhouse) as seen:
        page = seen.page
        page.goto(f"{packhouse.address}plan/part/{HEATER}")
        page.locator("#rename").fill("reef")
        theirs(packhouse, f"[{HEATER}]", f'[heaters.reef]\nvessel = "sump"\n[{HEATER}]')
        page.wait_for_timeout(300)
        page.locator("[data-rename] button").click()
        until(page, lambda: page.locator(".refused").count() == 1)
        theirs(packhouse, "Packhouse reef", "Another name")
        until(page, lambda: page.locator("#faulty").count() == 1)
        page.wait_for_timeout(300)
        assert page.locator(".refused").count() == 1
        seen.errors.clear()


def test_undo_does_not_throw_away_what_another_program_wrote_with_a_fault(
    browser: Browser, packhouse: Served
) -> None:
    with watched(browser, packhouse) as seen:
        page = seen.page
        page.goto(f"{packhouse.address}plan/part/{WINDOW}")
        field(page, TEMPERATURE).fill("85 degF")
        field(page, TEMPERATURE).press("Enter")
        until(page, lambda: "85 degF" in written(packhouse))
        faulty = written(packhouse).replace("count = 3", 'count = "x"')
        packhouse.plan.write_text(faulty, "utf-8")
        until(page, lambda: page.locator("#faulty").count() == 1)
        until(page, lambda: page.locator("[data-act=undo]").is_disabled())
        page.locator("h1").click()
        page.keyboard.press("Control+z")
        until(page, lambda: "mend it first" in page.locator("#said").inner_text())
        assert written(packhouse) == faulty
        page.get_by_role("button", name="Go back to the last sound version").click()
        until(page, lambda: page.locator("#faulty").count() == 0)
        assert "count = 3" in written(packhouse)
        assert packhouse.plan.with_name("packhouse.previous.toml").read_text("utf-8") == faulty
        until(page, lambda: page.locator("[data-act=redo]").is_disabled())  # it would bring the fault back
        seen.clean()


def test_echoes_follow_the_units_in_fields_that_are_not_saved(browser: Browser, packhouse: Served) -> None:
    material = f"{WINDOW}.material"
    with watched(browser, packhouse) as seen:
        page = to_try(seen, packhouse)
        field(page, material).select_option("acrylic-extruded")
        until(page, lambda: "ksi" in field(page, material, "-echo").inner_text())
        page.locator("[data-act=units]").click()
        until(page, lambda: "GPa" in field(page, material, "-echo").inner_text())
        page.locator("[data-act=units]").click()
        until(page, lambda: "ksi" in field(page, material, "-echo").inner_text())
        assert "extruded" in tried(page, material)
        seen.clean()
