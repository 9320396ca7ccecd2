"""The page in a browser: each question opens and is sound for keyboard, screen reader, phone and print."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser

from tests.journeys.browser import Served, Watched, served, settled, watched
from tidestead.desk import SUBJECTS

EXAMPLES = Path(__file__).parents[2] / "examples"
BUILT = tuple(entry.name for entry in SUBJECTS if entry.built)
QUESTIONS = [f"question/{entry.name}" for entry in SUBJECTS]
PAGES = ["", *QUESTIONS]
LONG = 240.0
"""Seconds for one question of the whole example, when every core is busy with something else."""


@pytest.fixture(scope="module")
def packhouse(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Served]:
    folder = tmp_path_factory.mktemp("page")
    with served(Path(shutil.copy(EXAMPLES / "packhouse.toml", folder)), folder / "cache") as found:
        for subject in BUILT:
            settled(found.address, subject, LONG)
        yield found


def accessible(watched_page: Watched) -> None:
    """axe finds nothing. Its rules are those of WCAG 2.2 A and AA and its own good practice."""
    results = Axe().run(watched_page.page)
    told = [
        (one["id"], one["impact"], [node["html"][:160] for node in one["nodes"][:3]])
        for one in results.response["violations"]
    ]
    assert told == []


@pytest.mark.timeout(900)
@pytest.mark.parametrize("path", PAGES)
def test_every_page_opens_and_axe_is_content(browser: Browser, packhouse: Served, path: str) -> None:
    with watched(browser, packhouse) as seen:
        seen.page.goto(packhouse.address + path)
        assert seen.page.locator("h1").count() == 1
        seen.page.evaluate(
            "document.querySelectorAll('details:not(.working)').forEach((one) => { one.open = true; })"
        )
        accessible(seen)
        seen.clean()


@pytest.mark.parametrize("path", ["", "question/structure", "question/heat"])
def test_dark_and_phone_are_as_sound(browser: Browser, packhouse: Served, path: str) -> None:
    with watched(browser, packhouse, width=360, height=740, dark=True) as seen:
        seen.page.goto(packhouse.address + path)
        accessible(seen)
        wide = seen.page.evaluate("document.documentElement.scrollWidth")
        assert wide <= 360, f"{path} is {wide} wide on a phone of 360"
        seen.clean()


def test_a_check_lights_its_part_and_a_part_its_check(browser: Browser, packhouse: Served) -> None:
    with watched(browser, packhouse) as seen:
        page = seen.page
        page.goto(packhouse.address + "question/structure")
        page.locator("button[data-points='reef.south.long']").first.focus()
        seen.until("document.querySelector('.drawn [data-part].lit')")
        lit = page.locator(".drawn [data-part].lit").first.get_attribute("data-part")
        assert lit is not None
        assert lit.startswith("reef.south.long")
        page.locator(".drawn [data-part='reef.south.long']").first.hover(force=True)
        seen.until(
            "[...document.querySelectorAll('tr.lit')].some((row) => row.dataset.part.startsWith('reef.south.long'))"
        )
        seen.clean()


def test_working_opens_with_formulas_set_and_sources_linked(browser: Browser, packhouse: Served) -> None:
    with watched(browser, packhouse) as seen:
        page = seen.page
        page.goto(packhouse.address + "question/structure")
        first = page.locator("details.working").first
        first.locator("summary").click()
        seen.until("document.querySelector('details.working math')")
        link = first.locator("a.cite").first
        address = link.get_attribute("href")
        assert address is not None
        target = address.partition("#")[2]
        assert page.locator(f"#{target}").count() == 1
        accessible(seen)
        seen.clean()


def test_another_picture_is_shown_and_downloads(browser: Browser, packhouse: Served) -> None:
    with watched(browser, packhouse) as seen:
        page = seen.page
        page.goto(packhouse.address + "question/structure")
        page.locator(".gallery summary").click()
        link = page.locator(".gallery a:not([aria-current])").nth(1)
        wanted = link.get_attribute("data-shows")
        link.click()
        seen.until(f"document.querySelector('figure.picture').dataset.picture === {wanted!r}")
        with page.expect_download() as download:
            page.locator("figure.picture a.file").click()
        assert Path(download.value.path()).read_text("utf-8").startswith("<svg")
        seen.clean()


def test_a_picture_that_is_chosen_comes_into_sight(browser: Browser, packhouse: Served) -> None:
    with watched(browser, packhouse, width=390, height=700) as seen:
        page = seen.page
        page.goto(packhouse.address + "question/structure")
        page.locator(".gallery summary").click()
        link = page.locator(".gallery a:not([aria-current])").last
        wanted = link.get_attribute(
            "data-shows"
        )  # before the click: the locator means another link once it is current
        link.scroll_into_view_if_needed()
        link.click()
        seen.until(f"document.querySelector('figure.picture').dataset.picture === {wanted!r}")
        seen.until("document.querySelector('figure.picture .drawn svg')")
        top = page.evaluate("document.querySelector('figure.picture').getBoundingClientRect().top")
        assert -5 <= top < 350
        seen.clean()


def test_every_stop_of_the_tab_key_can_be_seen(browser: Browser, packhouse: Served) -> None:
    with watched(browser, packhouse) as seen:
        page = seen.page
        page.goto(packhouse.address + "question/foam")
        stops = set()
        for _ in range(60):
            page.keyboard.press("Tab")
            told = page.evaluate(
                "(() => { const one = document.activeElement; const box = one.getBoundingClientRect();"
                " return [one.tagName, one.textContent.trim().slice(0, 30), box.width > 0 && box.height > 0]; })()"
            )
            if told[0] == "BODY":
                break
            assert told[2], f"the focus is on something unseen: {told}"
            stops.add(tuple(told[:2]))
        assert len(stops) > 20
        seen.clean()


def test_print_shows_the_answer_and_not_the_tools(browser: Browser, packhouse: Served) -> None:
    with watched(browser, packhouse) as seen:
        page = seen.page
        page.goto(packhouse.address + "question/structure")
        page.emulate_media(media="print")
        assert not page.locator(".tools").is_visible()
        assert not page.locator("#questions").is_visible()
        for shown in ("h1", ".sentence", ".drawn svg", ".check-table tbody tr >> nth=0", ".caution"):
            assert page.locator(shown).first.is_visible()
        assert page.evaluate("getComputedStyle(document.body).backgroundColor") == "rgb(255, 255, 255)"
        seen.clean()
