"""The README's way through the page, in a browser: mend, undo, try, follow another program, change units."""

from __future__ import annotations

import json
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any
from urllib.request import Request, urlopen

import pytest
from playwright.sync_api import Browser, Page

from tests.journeys.browser import Served, served, settled, watched
from tests.journeys.conftest import CALM


@pytest.fixture(scope="module")
def packhouse(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Served]:
    folder = tmp_path_factory.mktemp("journey")
    plan = folder / "packhouse.toml"
    plan.write_text(CALM, "utf-8")
    with served(plan, folder / "cache") as found:
        settled(found.address)
        yield found


@pytest.fixture(autouse=True)
def _as_it_was(packhouse: Served) -> Iterator[None]:
    """Each test finds the example as it is shipped, but for its weather."""
    yield
    packhouse.plan.write_text(CALM, "utf-8")
    while twin(packhouse, "api/plan")["text"] != packhouse.plan.read_text("utf-8"):
        time.sleep(0.05)  # the door has not looked yet
    settled(packhouse.address)


def twin(packhouse: Served, path: str) -> dict[str, Any]:
    with urlopen(packhouse.address + path) as reply:
        found: dict[str, Any] = json.load(reply)
    return found


def row(packhouse: Served) -> str:
    """The selector of the row that speaks of the long window's lasting bow."""
    answer = twin(packhouse, "api/question/structure")["answers"]["structure"]
    found = next(check for check in answer["checks"] if check["what"] == "bow for good")
    return f"tr[id='check-{found['id']}']"


def to_the_form(page: Page, packhouse: Served) -> None:
    page.goto(packhouse.address + "question/structure")
    line = page.locator(".advice li", has_text="bow for good")
    line.get_by_role("link", name="Try a change").click()
    page.get_by_role("heading", name="Window long").wait_for()


def test_a_window_is_mended_and_the_mending_undone(browser: Browser, packhouse: Served) -> None:
    before = packhouse.plan.read_bytes()
    bow = row(packhouse)
    with watched(browser, packhouse) as seen:
        page = seen.page
        to_the_form(page, packhouse)
        field = page.get_by_label("Thickness", exact=True)
        field.fill("4 1/2 in")
        page.locator("output", has_text="114").first.wait_for()
        assert packhouse.plan.read_bytes() == before, "nothing is saved while typing"
        field.press("Enter")
        seen.until("document.querySelector('#after')?.textContent.includes('bow for good')")
        assert b'thickness = "4 1/2 in"' in packhouse.plan.read_bytes()
        page.get_by_role("link", name="Back to the question").click()
        seen.until(f"document.querySelector({json.dumps(bow)})?.classList.contains('sound')")
        page.get_by_role("button", name="Undo").click()
        seen.until(f"document.querySelector({json.dumps(bow)})?.classList.contains('fails')")
        assert packhouse.plan.read_bytes() == before
        seen.clean()


def test_a_change_is_tried_and_left_and_tried_and_kept(browser: Browser, packhouse: Served) -> None:
    before = packhouse.plan.read_bytes()
    with watched(browser, packhouse) as seen:
        page = seen.page
        to_the_form(page, packhouse)
        for ending, saved in (("Leave the plan as it is", False), ("Keep it", True)):
            page.get_by_label("Try it first, save nothing").check()
            field = page.get_by_label("Thickness", exact=True)
            field.fill("2 in")
            field.press("Enter")
            seen.until("document.querySelector('#trial-told li')")
            assert "worse" in page.locator("#trial-told").inner_text()
            assert packhouse.plan.read_bytes() == before
            page.get_by_role("button", name=ending).click()
            page.locator("#trial").wait_for(state="detached")
            assert (b'thickness = "2 in"' in packhouse.plan.read_bytes()) is saved
            seen.until("!document.querySelector('.unsaved')")
            assert (field.input_value() == "2 in") is saved
        seen.clean()


def test_an_assumption_is_typed_over_and_assumed_again(browser: Browser, packhouse: Served) -> None:
    before = packhouse.plan.read_bytes()
    with watched(browser, packhouse) as seen:
        page = seen.page
        page.goto(packhouse.address + "question/structure")
        box = page.locator(".assumed li", has_text="vessels.reef.dry_mass_share")
        box.locator("input").fill("15 %")
        box.locator("input").press("Enter")
        seen.until(
            "[...document.querySelectorAll('.assumed li')].some((one) => one.textContent.includes('yours now'))"
        )
        assert b'dry_mass_share = "15 %"' in packhouse.plan.read_bytes()
        mine = page.locator(".assumed li", has_text="yours now").locator("input")
        mine.fill("")
        mine.press("Enter")
        deadline = time.monotonic() + 60.0
        while packhouse.plan.read_bytes() != before and time.monotonic() < deadline:
            page.wait_for_timeout(50)
        assert packhouse.plan.read_bytes() == before
        seen.clean()


def test_another_program_s_edit_appears_and_a_stale_save_is_refused(
    browser: Browser, packhouse: Served
) -> None:
    bow = row(packhouse)
    with watched(browser, packhouse) as seen:
        page = seen.page
        page.goto(packhouse.address + "question/structure")
        base = page.evaluate("document.body.dataset.digest")
        text = packhouse.plan.read_text("utf-8").replace('thickness = "3 in"', 'thickness = "5 in"')
        packhouse.plan.write_text(text, "utf-8")
        page.locator(bow + ".fails").wait_for(state="detached")
        page.locator("details.folded summary").first.click()
        page.locator(bow + ".sound").wait_for()
        body = json.dumps({"edits": [{"key": "name", "value": "Mine"}], "base": base}).encode()
        request = Request(packhouse.address + "api/save", body, {"Content-Type": "application/json"})
        with pytest.raises(OSError, match="409"):
            urlopen(request)
        assert packhouse.plan.read_text("utf-8") == text
        packhouse.plan.write_text(text + "half a line", "utf-8")
        seen.until("document.querySelector('#faulty')")
        assert page.locator(bow).count() == 1, "the last good answer stays"
        seen.clean()


def test_units_are_switched_and_the_button_says_the_other(browser: Browser, packhouse: Served) -> None:
    bow, before = row(packhouse), packhouse.plan.read_bytes()
    with watched(browser, packhouse) as seen:
        page = seen.page
        page.goto(packhouse.address + "question/structure")
        for name, other, unit in (
            ("Metric units", "US units", "\u00a0mm"),
            ("US units", "Metric units", "\u00a0in"),
        ):
            page.get_by_role("button", name=name).click()
            page.get_by_role("button", name=other).wait_for()
            seen.until(
                f"document.querySelector({json.dumps(bow)} + ' td.n')?.textContent.includes({json.dumps(unit)})"
            )
        assert packhouse.plan.read_bytes() == before, "the plan is not changed"
        seen.clean()


def test_the_page_of_a_question_prints_whole(browser: Browser, packhouse: Served, tmp_path: Path) -> None:
    with watched(browser, packhouse) as seen:
        page: Page = seen.page
        page.goto(packhouse.address + "question/structure")
        page.evaluate("dispatchEvent(new Event('beforeprint'))")
        assert page.locator("details.folded[open]").count() == 1
        made = page.pdf(path=tmp_path / "page.pdf", prefer_css_page_size=True)
        page.evaluate("dispatchEvent(new Event('afterprint'))")
        assert page.locator("details.folded[open]").count() == 0
        assert made.startswith(b"%PDF")
        seen.clean()
