"""The page of a question in a browser: what is typed over and emptied, pressed, tried; what has the focus stays."""

from __future__ import annotations

from functools import partial
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from tests.journeys.browser import Served, served, settled, until, watched
from tests.journeys.conftest import CALM

PACKHOUSE = Path(__file__).parents[2] / "examples" / "packhouse.toml"
BRIM, THICKNESS = "vessels.sump.brim", "vessels.reef.walls.south.windows.long.thickness"


def test_an_assumption_typed_over_and_emptied_again_brings_the_first_answer_back(
    browser: Browser, packhouse: Served
) -> None:
    settled(packhouse.address, "flow")
    with watched(browser, packhouse) as seen:
        page = seen.page
        page.goto(packhouse.address + "question/flow")
        answer = page.locator(":is(.sentence, .further)")
        first = answer.all_inner_texts()
        brim = page.locator(f'[id="f-{BRIM}"]')
        brim.fill("24 in")
        brim.press("Enter")
        until(page, lambda: answer.all_inner_texts() != first)
        brim.fill("")
        brim.press("Enter")
        until(page, lambda: answer.all_inner_texts() == first)
        until(page, lambda: page.locator("article.stale").count() == 0)
        assert page.evaluate("document.activeElement.id") == f"f-{BRIM}"
        assert packhouse.plan.read_text("utf-8") == CALM
        seen.clean()


def test_a_pressed_check_brings_the_drawing_that_shows_its_part(browser: Browser, packhouse: Served) -> None:
    settled(packhouse.address, "structure")
    with watched(browser, packhouse) as seen:
        page = seen.page
        page.goto(packhouse.address + "question/structure")
        shown = page.locator("figure.picture").first
        until(page, lambda: shown.get_attribute("data-picture") == "structure.reef.south.elevation")
        east = page.locator('[data-points="reef.east.sheathing"]').first
        east.press("Enter")
        until(page, lambda: shown.get_attribute("data-picture") == "structure.reef.east.elevation")
        until(page, lambda: page.locator('.drawn .lit[data-part="reef.east.sheathing"]').count() > 0)
        assert east.get_attribute("aria-pressed") == "true"
        assert page.evaluate("document.activeElement.dataset.points") == "reef.east.sheathing"
        page.reload()
        until(page, lambda: shown.get_attribute("data-picture") == "structure.reef.east.elevation")
        seen.clean()


def test_a_trial_counts_all_it_would_change_and_tells_the_worse_before_the_better(
    browser: Browser, packhouse: Served
) -> None:
    settled(packhouse.address, "structure")
    with watched(browser, packhouse) as seen:
        page = seen.page
        page.goto(packhouse.address + "plan/part/vessels.reef")
        page.locator('[data-mode] [value="try"]').check()
        field = page.locator('[id="f-vessels.reef.water"]')
        field.fill("4 ft 3 1/2 in")
        field.press("Enter")
        told = page.locator("#trial-told li")

        def counted() -> bool:
            """Whether the list counts all changes known, those of structure among them; slow answers may come later."""
            trial = page.evaluate("fetch('/api/trial').then((reply) => reply.json())")
            found = sum(len(one["changes"]) for one in trial["questions"])
            known = any(one["subject"] == "structure" and one["changes"] for one in trial["questions"])
            return known and told.count() == 11 and told.last.inner_text() == f"and {found - 10} more"

        until(page, counted)
        lines = told.all_inner_texts()
        worse = [number for number, words in enumerate(lines) if "(worse)" in words]
        better = [number for number, words in enumerate(lines) if "(better)" in words]
        assert worse
        assert not better or max(worse[1:], default=0) < min(number for number in better if number > 0)
        page.locator('[data-act="drop"]').click()
        until(page, lambda: page.locator("#trial").count() == 0)
        until(page, lambda: field.input_value() == "4 ft 3 in")
        assert page.locator(".unsaved").count() == 0
        seen.clean()


def test_a_trial_left_in_one_tab_is_left_in_the_other(browser: Browser, packhouse: Served) -> None:
    with watched(browser, packhouse) as seen, watched(browser, packhouse) as beside:
        page = seen.page
        page.goto(packhouse.address + f"plan/part/{THICKNESS.rpartition('.')[0]}")
        page.locator('[data-mode] [value="try"]').check()
        field, other = (
            page.locator(f'[id="f-{THICKNESS.rpartition(".")[0]}.{name}"]') for name in ("thickness", "width")
        )
        was = field.input_value()
        field.fill("4 in")
        field.press("Enter")
        until(page, lambda: page.locator("#trial").count() == 1)
        beside.page.goto(packhouse.address)
        other.fill("half")
        beside.page.locator('[data-act="drop"]').click()
        until(page, lambda: field.input_value() == was)
        assert other.input_value() == "half"
        until(page, lambda: page.locator("#trial").count() == 0)
        other.press("Escape")
        seen.clean()
        beside.clean()


def test_what_is_typed_in_stays_where_it_is_when_the_answer_comes(browser: Browser, tmp_path: Path) -> None:
    plan = tmp_path / PACKHOUSE.name
    plan.write_text(CALM, "utf-8")
    with served(plan, tmp_path / "cache") as found:
        settled(found.address, "structure")
        with watched(browser, found, height=700) as seen:
            page = seen.page
            page.goto(found.address + f"plan/part/{THICKNESS.rpartition('.')[0]}")
            field = page.locator(f'[id="f-{THICKNESS}"]')
            field.fill("4 1/2 in")
            top = "document.activeElement.getBoundingClientRect().top"
            before = page.evaluate(top)
            assert page.locator("#after").count() == 0
            field.press("Enter")
            until(page, lambda: page.locator("#after li").count() > 0)
            page.wait_for_timeout(300)
            assert page.evaluate("document.activeElement.id") == f"f-{THICKNESS}"
            assert page.evaluate("scrollY") > 0
            assert page.evaluate(top) == pytest.approx(before, abs=40.0)
            seen.clean()


SHOWN = """() => {
  const shown = document.getElementById("main").cloneNode(true);
  shown.querySelectorAll(".drawn, .caption, noscript, time, details.folded").forEach((one) => one.remove());
  const fields = [...document.querySelectorAll("#main :is(input, select, textarea)")];
  return [shown.textContent.replace(/\\s+/g, " "), ...fields.map((one) => `${one.id} ${one.value} ${one.checked}`)];
}"""
"""All words of a page and what its fields hold, but for what is drawn or fetched only when it is opened."""


def test_a_page_that_follows_edits_is_the_page_that_is_fetched_anew(
    browser: Browser, packhouse: Served
) -> None:
    """What an edit leaves alike is left alone on the page; nothing old may stay for that."""
    paths = ("question/structure", f"plan/part/{THICKNESS.rpartition('.')[0]}")
    settled(packhouse.address, "structure")
    with watched(browser, packhouse) as first, watched(browser, packhouse) as second:
        pages = dict(zip(paths, (first.page, second.page), strict=True))
        for path, page in pages.items():
            page.goto(packhouse.address + path)
        for change in ([THICKNESS, "3.25 in"], ["vessels.reef.water", "4 ft 2 in"], ["", ""]):
            first.page.evaluate(CHANGE, change)
            settled(packhouse.address, "structure")
            for path, page in pages.items():
                with watched(browser, packhouse) as anew:
                    anew.page.goto(packhouse.address + path)
                    until(page, partial(_alike, page, anew.page))
        assert 'thickness = "3.25 in"' in packhouse.plan.read_text("utf-8")
        first.clean()
        second.clean()


def _alike(one: Page, other: Page) -> bool:
    return bool(one.evaluate(SHOWN) == other.evaluate(SHOWN))


CHANGE = """async ([key, value]) => {
  const base = (await (await fetch("/api/plan")).json()).digest;
  const [route, body] = key ? ["/api/save", {edits: [{key, value}], base}] : ["/api/undo", {base}];
  const headers = {"Content-Type": "application/json"};
  const reply = await fetch(route, {method: "POST", headers, body: JSON.stringify(body)});
  if (!reply.ok) throw new Error(await reply.text());
}"""
"""Saves one value, or undoes where no key is given."""
