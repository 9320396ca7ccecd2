"""Forms and the editor in a browser: by keyboard, on a phone, while another program writes to the same file."""

from __future__ import annotations

import json
import time
from collections.abc import Iterator
from pathlib import Path
from urllib.request import urlopen

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Locator, Page

from tests.journeys.browser import Served, served, until, watched
from tidestead.plan.parts import removed

SKERRY = Path(__file__).parents[2] / "examples" / "skerry.toml"
SOUND = removed(SKERRY.read_text("utf-8"), "weather")
"""The example without its weather: nothing here asks for what twenty years of it do."""
WATER = "vessels.basin.water"
PAGES = [
    "plan", "plan/plan", "plan/site", "plan/circuits", "plan/yours", "plan/part/vessels.basin",
    "plan/part/vessels.basin.walls.south.windows.long", "plan/new/heaters?name=new", "file",
]  # fmt: skip


@pytest.fixture(scope="module")
def open_plan(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Served]:
    folder = tmp_path_factory.mktemp("forms")
    plan = folder / "skerry.toml"
    plan.write_text(SOUND, "utf-8")
    with served(plan, folder / "cache") as found:
        yield found


@pytest.fixture
def skerry(open_plan: Served) -> Served:
    """The example as it comes, whatever an earlier test has made of it."""
    if text_of(open_plan) != SOUND:
        open_plan.plan.write_text(SOUND, encoding="utf-8")
    deadline = time.monotonic() + 60.0
    while _seen_by_the_door(open_plan) != SOUND:
        assert time.monotonic() < deadline, "the door never saw the example put back"
        time.sleep(0.05)
    return open_plan


def _seen_by_the_door(at: Served) -> str:
    with urlopen(at.address + "api/plan") as reply:
        return str(json.load(reply)["text"])


def text_of(at: Served) -> str:
    return at.plan.read_text(encoding="utf-8")


def field(page: Page, key: str) -> Locator:
    return page.locator(f'[data-key="{key}"]')


def told(page: Page, key: str, what: str = "faults") -> str:
    return page.locator(f'[id="f-{key}-{what}"]').inner_text()


@pytest.mark.parametrize("dark", [False, True], ids=["light", "dark phone"])
@pytest.mark.parametrize("path", PAGES)
def test_every_page_of_forms_is_sound(browser: Browser, skerry: Served, path: str, dark: bool) -> None:
    width = 360 if dark else 1280
    with watched(browser, skerry, width=width, height=740, dark=dark) as seen:
        seen.page.goto(skerry.address + path)
        seen.page.evaluate("document.querySelectorAll('details').forEach((one) => { one.open = true; })")
        results = Axe().run(seen.page)
        assert [(one["id"], one["nodes"][0]["html"][:120]) for one in results.response["violations"]] == []
        assert seen.page.evaluate("document.documentElement.scrollWidth") <= width
        seen.clean()


def test_a_half_typed_value_stays_in_its_field_and_escape_puts_back_what_was(
    browser: Browser, skerry: Served
) -> None:
    with watched(browser, skerry) as seen:
        page, before = seen.page, text_of(skerry)
        page.goto(skerry.address + "plan/part/vessels.basin")
        water = field(page, WATER)
        water.fill("1.2")
        until(seen.page, lambda: "has no unit" in told(page, WATER))
        assert water.get_attribute("aria-invalid") == "true"
        water.press("Enter")
        until(seen.page, lambda: "Not saved" in told(page, WATER))
        water.press("Tab")
        page.wait_for_timeout(400)
        assert water.input_value() == "1.2"
        assert text_of(skerry) == before
        water.press("Escape")
        until(seen.page, lambda: told(page, WATER) == "")
        assert water.input_value() == "1.18 m"
        assert told(page, WATER, "echo") == "1.18 m ≈ 3 ft 10 7/16 in"
        seen.clean()


def test_a_value_is_read_back_while_typing_saved_by_enter_and_undone(
    browser: Browser, skerry: Served
) -> None:
    with watched(browser, skerry) as seen:
        page, before = seen.page, text_of(skerry)
        page.goto(skerry.address + "plan/part/vessels.basin")
        water = field(page, WATER)
        water.fill("3 ft 9 in")
        until(seen.page, lambda: told(page, WATER, "echo") == "1.143 m = 3 ft 9 in")
        assert text_of(skerry) == before
        water.press("Enter")
        until(seen.page, lambda: 'water = "3 ft 9 in"' in text_of(skerry))
        page.locator("[data-act=undo]:not(:disabled)").click()
        until(seen.page, lambda: text_of(skerry) == before)
        until(seen.page, lambda: water.input_value() == "1.18 m")
        seen.clean()


def test_a_value_that_was_not_said_is_said_and_keeps_the_focus(browser: Browser, skerry: Served) -> None:
    with watched(browser, skerry) as seen:
        page = seen.page
        page.goto(skerry.address + "plan/part/vessels.basin")
        page.locator("[id='silent-vessels.basin'] > summary").press("Enter")
        lower = field(page, "vessels.basin.lower_to")
        lower.fill("40 cm")
        lower.press("Enter")
        until(seen.page, lambda: 'lower_to = "40 cm"' in text_of(skerry))
        until(seen.page, lambda: page.locator('details [data-key="vessels.basin.lower_to"]').count() == 0)
        assert page.evaluate("document.activeElement.dataset.key") == "vessels.basin.lower_to"
        seen.clean()


def test_two_values_that_fit_only_together_are_saved_together(browser: Browser, skerry: Served) -> None:
    with watched(browser, skerry) as seen:
        page = seen.page
        page.goto(skerry.address + "plan/part/vessels.basin")
        brim, height = field(page, "vessels.basin.brim"), field(page, "vessels.basin.height")
        brim.fill("1.5 m")
        brim.press("Enter")
        until(seen.page, lambda: "higher than the wall" in told(page, "vessels.basin.brim"))
        height.fill("1.6 m")
        height.press("Enter")
        until(seen.page, lambda: '\nheight = "1.6 m"' in text_of(skerry))
        assert 'brim = "1.5 m"' in text_of(skerry)
        until(seen.page, lambda: told(page, "vessels.basin.brim") == "")
        seen.clean()


def test_what_another_program_wrote_is_not_written_over_unasked(browser: Browser, skerry: Served) -> None:
    with watched(browser, skerry) as seen:
        page = seen.page
        page.goto(skerry.address + "plan/part/vessels.basin")
        water, stage = field(page, WATER), field(page, "vessels.basin.stage")
        water.fill("1.1")
        theirs = text_of(skerry).replace('water = "1.18 m"', 'water = "1.0 m"')
        skerry.plan.write_text(theirs.replace('stage = "building"', 'stage = "testing"'), encoding="utf-8")
        until(seen.page, lambda: stage.input_value() == "testing")
        assert water.input_value() == "1.1"
        water.fill("1.1 m")
        until(seen.page, lambda: "Changed meanwhile" in told(page, WATER))
        assert 'water = "1.0 m"' in text_of(skerry)
        water.press("Escape")
        until(seen.page, lambda: water.input_value() == "1.0 m")
        seen.clean()


def test_a_part_is_added_by_keyboard_alone(browser: Browser, skerry: Served) -> None:
    with watched(browser, skerry) as seen:
        page = seen.page
        page.goto(skerry.address + "plan/equipment")
        page.locator("[id='new-heaters']").focus()
        page.keyboard.type("second")
        page.keyboard.press("Enter")
        page.wait_for_url("**/plan/new/heaters?name=second")
        field(page, "heaters.second.vessel").focus()
        page.keyboard.type("basin")
        assert field(page, "heaters.second.vessel").input_value() == "basin"
        field(page, "heaters.second.count").focus()
        page.keyboard.press("Enter")
        until(seen.page, lambda: "This is missing. Write it like" in told(page, "heaters.second.power"))
        assert page.evaluate("document.activeElement.dataset.key") == "heaters.second.power"
        page.keyboard.type("500 W")
        field(page, "heaters.second.setpoint").focus()
        page.keyboard.type("24 degC")
        page.keyboard.press("Enter")
        page.wait_for_url("**/plan/part/heaters.second")
        assert "[heaters.second]" in text_of(skerry)
        seen.clean()


def test_a_part_is_taken_out_and_its_page_left(browser: Browser, skerry: Served) -> None:
    with watched(browser, skerry) as seen:
        seen.page.goto(skerry.address + "plan/part/covers.lid")
        seen.page.get_by_role("button", name="Remove it").click()
        seen.page.wait_for_url("**/plan/part/covers")
        assert "covers.lid" not in text_of(skerry)
        seen.clean()


def test_a_part_that_others_need_says_beside_its_button_why_it_stays(
    browser: Browser, skerry: Served
) -> None:
    with watched(browser, skerry) as seen:
        page, before = seen.page, text_of(skerry)
        page.goto(skerry.address + "plan/vessels")
        page.get_by_role("button", name="Remove Vessel sump").click()
        alert = page.get_by_role("alert")
        alert.wait_for()
        until(seen.page, lambda: "Change or remove that first." in alert.inner_text())
        assert "Circuit main: start" in alert.inner_text()
        assert "circuits." not in alert.inner_text()
        assert "[vessels" not in alert.inner_text()
        assert text_of(skerry) == before


def test_a_name_that_cannot_be_is_told_in_our_own_words(browser: Browser, skerry: Served) -> None:
    with watched(browser, skerry) as seen:
        page = seen.page
        page.goto(skerry.address + "plan/vessels")
        name = page.locator("[id='new-vessels']")
        name.fill("My Tank")
        name.press("Enter")
        asked = "A name has only small letters, digits, - and _. Write my-tank."
        assert page.evaluate("document.getElementById('new-vessels').validationMessage") == asked
        name.fill("my-tank")
        name.press("Enter")
        page.wait_for_url("**/plan/new/vessels?name=my-tank")
        seen.clean()


def test_the_editor_tells_faults_goes_to_their_line_and_saves_sound_text_only(
    browser: Browser, skerry: Served
) -> None:
    with watched(browser, skerry) as seen:
        page, before = seen.page, text_of(skerry)
        page.goto(skerry.address + "file")
        text = page.locator("#text")
        assert text.input_value() == before
        text.fill(before.replace('water = "1.18 m"', "water = 1.18 m"))
        until(seen.page, lambda: "must stand in quotes" in page.locator("#file-faults").inner_text())
        page.keyboard.press("Control+s")
        page.wait_for_timeout(400)
        assert text_of(skerry) == before
        page.locator("#file-faults a").first.click()
        picked = page.evaluate(
            "((one) => one.value.slice(one.selectionStart, one.selectionEnd))(document.activeElement)"
        )
        assert picked.startswith("water = 1.18 m ")
        text.fill(before.replace('water = "1.18 m"', 'water = "1.1 m"'))
        until(seen.page, lambda: "Sound" in page.locator("#file-told").inner_text())
        page.keyboard.press("Control+s")
        until(seen.page, lambda: 'water = "1.1 m"' in text_of(skerry))
        seen.clean()


def test_the_editor_never_writes_over_another_program(browser: Browser, skerry: Served) -> None:
    with watched(browser, skerry) as seen:
        page, before = seen.page, text_of(skerry)
        page.goto(skerry.address + "file")
        text = page.locator("#text")
        text.fill(f"{before}# mine\n")
        skerry.plan.write_text(f"{before}# theirs\n", encoding="utf-8")
        until(seen.page, lambda: "changed meanwhile" in page.locator("#file-told").inner_text())
        with page.expect_response("**/api/preview/text"):
            text.fill(f"{before}# mine\n\n")
        with page.expect_response("**/api/preview/text"):
            text.fill(f"{before}# mine\n")
        page.wait_for_timeout(100)  # for the page to read the reply
        assert "changed meanwhile" in page.locator("#file-told").inner_text()
        page.keyboard.press("Control+s")
        until(seen.page, lambda: "Not saved" in page.locator("#said").inner_text())
        assert text_of(skerry) == f"{before}# theirs\n"
        assert text.input_value() == f"{before}# mine\n"
        page.get_by_role("button", name="Put back what is in the file").click()
        until(seen.page, lambda: text.input_value() == f"{before}# theirs\n")
        page.get_by_role("button", name="Bring back what you typed").click()
        until(seen.page, lambda: "changed meanwhile" in page.locator("#file-told").inner_text())
        until(seen.page, lambda: page.locator("#file-save").is_disabled())
        text.press("Control+s")
        page.wait_for_timeout(300)
        assert text_of(skerry) == f"{before}# theirs\n"  # what was brought back was typed on an older text
        assert text.input_value() == f"{before}# mine\n"
        page.get_by_role("button", name="Put back what is in the file").click()
        text.press("End")
        text.fill(f"{before}# theirs\n# and mine\n")
        page.keyboard.press("Control+s")
        until(seen.page, lambda: text_of(skerry) == f"{before}# theirs\n# and mine\n")
        text.fill(f"{before}# mine alone\n")
        skerry.plan.write_text(f"{before}# theirs again\n", encoding="utf-8")
        line = before.count("\n") + 1
        until(seen.page, lambda: f"line {line} of it" in page.locator("#file-told").inner_text())
        page.get_by_role("button", name="Save mine over it").click()
        until(seen.page, lambda: text_of(skerry) == f"{before}# mine alone\n")
        assert page.get_by_role("button", name="Save mine over it").is_hidden()
        seen.clean()
