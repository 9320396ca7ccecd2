"""The screens of the first questions: what they keep, what they tell, where they lead."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from playwright.sync_api import Browser

from tests.journeys.browser import Served, Watched, watched
from tests.journeys.first_answers import METRIC, NEEDED
from tests.journeys.first_browser import STORE, answered, at, ready, shown
from tests.journeys.first_parts import accessible
from tests.journeys.page_parts import bench_at, client_of
from tidestead.plan import starter_text
from tidestead.plan.first import plan_text
from tidestead.plan.first_order import BATCHES
from tidestead.plan.first_questions import asked

TITLES = [one.title for one in BATCHES]
"""In the order in which what was assumed is told."""


@pytest.fixture
def starter(tmp_path: Path) -> Path:
    plan = tmp_path / "mine.toml"
    plan.write_text(starter_text("metric"), encoding="utf-8")
    return plan


def test_answers_are_kept_for_one_file_of_a_plan_and_for_no_other(starter: Path, tmp_path: Path) -> None:
    elsewhere = tmp_path / "elsewhere" / "mine.toml"
    elsewhere.parent.mkdir()
    names = []
    for path, text in ((starter, "metric"), (starter, "us"), (elsewhere, "metric")):
        path.write_text(starter_text("us" if text == "us" else "metric"), encoding="utf-8")
        with client_of(bench_at(path)) as client:
            names.append(client.get("/start").text.partition('data-kept="')[2].partition('"')[0])
    assert names[0] == names[1] != names[2]
    assert all(len(name) == 16 for name in names)


def test_a_new_tab_goes_on_and_two_tabs_agree(browser: Browser, open_starter: Served) -> None:
    with watched(browser, open_starter) as seen:
        page = ready(seen, open_starter.address)
        assert page.locator("#anew").is_hidden()
        page.locator("[name=name]").fill("Shed reef")
        page.locator("#next").click()
        at(seen, "place")
        page.close()
        first, second = (Watched(seen.page.context.new_page(), seen.host) for _ in range(2))
        for one in (first, second):
            one.page.on("console", one.heard)
            ready(one, open_starter.address)
            assert shown(one.page) == "place"
            assert one.page.locator("[name=name]").input_value() == "Shed reef"
        first.page.locator("[data-question=place] summary").click()
        first.page.locator("[name=latitude]").fill("57.2")
        second.until("document.querySelector('[name=latitude]').value === '57.2'")
        second.page.locator("[data-question=place] summary").click()
        second.page.locator("[name=longitude]").fill("-6.1")
        first.until("document.querySelector('[data-echo=longitude]').textContent === '57.2° N, 6.1° W'")
        kept = json.loads(first.page.evaluate(f"localStorage.getItem({STORE})"))["answers"]
        assert {name: kept[name] for name in ("name", "latitude", "longitude")} == {
            "name": "Shed reef", "latitude": "57.2", "longitude": "-6.1",
        }  # fmt: skip
        first.page.on("dialog", lambda dialog: dialog.accept())
        first.page.locator("#anew").click()
        for one in (first, second):
            one.until(
                "document.getElementById('first')?.dataset.ready && document.querySelector('[name=name]').value === ''"
            )
            assert one.page.locator("[name=latitude]").input_value() == ""
            assert one.page.evaluate(f"localStorage.getItem({STORE})") is None
            one.clean()


def test_what_is_kept_may_be_spoilt(browser: Browser, open_starter: Served) -> None:
    """Whatever lies in the store, the questions begin, with what can be understood of it."""
    with watched(browser, open_starter) as seen:
        page = ready(seen, open_starter.address)
        for spoilt in (
            "{",
            "[1]",
            '{"answers": 3}',
            '{"answers": {"name": 7, "length": "3 m"}, "at": 4, "reached": {}}',
        ):
            page.evaluate(f"(kept) => localStorage.setItem({STORE}, kept)", spoilt)
            page.goto("about:blank")
            ready(seen, open_starter.address)
            assert shown(page) == "name"
            assert page.locator("[name=name]").input_value() == ""
            assert page.locator("[name=length]").input_value() == ("3 m" if "3 m" in spoilt else "")
        seen.clean()


def test_faults_of_a_screen_are_told_once_at_its_top(browser: Browser, open_starter: Served) -> None:
    with watched(browser, open_starter, width=360, height=740) as seen:
        page = ready(seen, open_starter.address)
        assert page.evaluate("document.activeElement.id") == "q-name"
        assert page.locator("[name=name]").get_attribute("aria-required") == "true"
        answered(seen, open_starter.address, {**NEEDED, "rim_lies": "", "ties": "", "rim": ""}, "top")
        box, toast = page.locator("#faults-told"), page.locator("#said")
        assert box.get_attribute("role") == "alert"
        assert page.locator("fieldset[data-blank=ties]").get_attribute("aria-required") == "true"
        page.locator("#next").click()
        box.locator("li").nth(2).wait_for()
        assert box.locator("li").all_text_contents() == [
            'Size of the rim is not answered yet. Write such as "2 of 47 x 170 mm".',
            "The rim lies is not answered yet. Pick one.",
            "Are there ties over the water? is not answered yet. Pick one.",
        ]
        assert page.evaluate("document.activeElement.name") == "rim"
        assert page.locator("[data-fault=ties]").text_content() == "This is not answered yet. Pick one."
        assert "shown" not in (toast.get_attribute("class") or "")
        accessible(page)
        assert page.evaluate("document.documentElement.scrollWidth") <= 360
        box.locator("[data-blank-to=ties]").click()
        seen.until("document.activeElement.name === 'ties'")
        page.locator("[name=ties][value=no]").check()
        seen.until("document.querySelectorAll('#faults-told li').length === 2")
        page.locator("[name=rim]").fill("47")
        seen.until("document.getElementById('announced').textContent.startsWith('Size of the rim: \"47\"')")
        seen.until("document.querySelectorAll('#faults-told li').length === 1")
        page.locator("[name=rim]").fill("2 of 47 x 170 mm")
        page.locator("[name=rim_lies][value=flat]").check()
        seen.until("document.getElementById('faults-told').textContent === ''")
        seen.until("document.getElementById('announced').textContent === ''")
        page.locator("#next").click()
        at(seen, "window")
        assert box.text_content() == ""
        seen.clean()


def test_a_typed_address_shows_its_question(browser: Browser, open_starter: Served) -> None:
    with watched(browser, open_starter) as seen:
        page = seen.page
        page.goto(f"{open_starter.address}start#size")
        seen.until("document.getElementById('first').dataset.ready")
        assert shown(page) == "size"
        assert page.evaluate("document.activeElement.id") == "q-size"
        page.evaluate("location.hash = '#timber'")
        at(seen, "timber")
        page.evaluate("location.hash = '#nowhere'")
        seen.until("location.hash === '#timber'")
        assert shown(page) == "timber"
        page.go_back()
        seen.until("location.hash === '#timber'")
        page.go_back()
        at(seen, "size")
        assert "Question 3 of" in (page.locator("#progress").text_content() or "")
        seen.clean()


OVERLAPS = """((top, bottom) => {
  const blanks = [...document.querySelectorAll('section.question:not([hidden]) [data-blank]')];
  return blanks.flatMap((blank) => {
    const seen = [...blank.children].filter((one) => one.getBoundingClientRect().height > 0);
    return seen.slice(1).filter((one, at) => top(one) < bottom(seen[at]) - 1)
      .map((one) => `${blank.dataset.blank}: ${one.outerHTML.slice(0, 60)}`);
  });
})((one) => one.getBoundingClientRect().top, (one) => one.getBoundingClientRect().bottom)"""
"""Blanks in which one line lies over another."""


def test_what_is_left_open_is_told_until_it_is_filled_and_lies_over_nothing(
    browser: Browser, open_starter: Served
) -> None:
    with watched(browser, open_starter) as seen:
        page = ready(seen, open_starter.address)
        answered(seen, open_starter.address, {**NEEDED, "house": "lean-to"}, "house")
        page.locator("[data-question=house] summary").click()
        left = page.locator("#open-house_length")
        assert left.text_content() == "Left open: heat and light stay unproven."
        for width in (360, 600, 900, 1500):
            page.set_viewport_size({"width": width, "height": 800})
            for house in ("room", "lean-to"):
                page.locator(f"[name=house][value={house}]").check()
                seen.until(
                    f"document.querySelector('[data-blank=ridge]').hidden === {str(house == 'room').lower()}"
                )
                assert page.evaluate(OVERLAPS) == []
            page.locator("[name=house_length]").fill("3 m")
            left.wait_for(state="hidden")
            assert "open-house_length" not in (
                page.locator("[name=house_length]").get_attribute("aria-describedby") or ""
            )
            seen.until("document.querySelector('[data-echo=house_length]').textContent.startsWith('3 m')")
            assert page.evaluate(OVERLAPS) == []
            page.locator("[name=house_length]").fill("")
            left.wait_for(state="visible")
        seen.clean()


@pytest.mark.parametrize("width", [360, 1500])
def test_the_last_screen_tells_answers_in_words_and_what_carries_load_first(
    browser: Browser, open_starter: Served, width: int
) -> None:
    with watched(browser, open_starter, width=width, height=800) as seen:
        page = ready(seen, open_starter.address)
        answered(seen, open_starter.address, METRIC, "review")
        said = page.locator("#answered")
        known = asked(METRIC)
        for blank in known.values():
            words = next(
                (one.words for one in blank.choices if one.value == METRIC[blank.id]), METRIC[blank.id]
            )
            line = said.locator("dt", has_text=blank.words).locator("xpath=following-sibling::dd[1]")
            assert words in line.all_text_contents(), blank.id
        assert said.locator("dt").count() == len(known)
        heads = page.locator("#taken h4").all_text_contents()
        assert heads == [one for one in TITLES if one in heads]
        assert heads[0] == "The foot of the walls, and the ground"
        assert heads[-1] == "The weather"
        assert page.locator("#taken tbody tr").count() == len(plan_text(METRIC).assumed)
        rows = page.locator("#taken tbody tr").all_text_contents()
        assert len(rows) == len(set(rows))
        boxes = page.evaluate(
            "[...document.querySelectorAll('[data-question=review] *')].filter((one) => one.id !== 'text'"
            " && ['auto', 'scroll'].includes(getComputedStyle(one).overflowY)).map((one) => one.outerHTML.slice(0, 80))"
        )
        assert boxes == []
        assert page.evaluate("document.documentElement.scrollWidth") <= width
        accessible(page)
        said.locator('button[data-to="ground"]').click()
        at(seen, "ground")
        assert page.evaluate("document.activeElement.id") == "q-ground"
        seen.clean()


def test_anchors_without_a_slab_hold_the_step(browser: Browser, open_starter: Served) -> None:
    with watched(browser, open_starter) as seen:
        page = ready(seen, open_starter.address)
        answered(seen, open_starter.address, {**NEEDED, "stands_on": "joists"}, "ground")
        seen.until("document.querySelector('[data-fault=carried_by]').textContent.includes('need a slab')")
        page.locator("#next").click()
        page.locator("#faults-told li").wait_for()
        assert shown(page) == "ground"
        page.locator('[name=carried_by][value="floor ties"]').check()
        seen.until("document.getElementById('faults-told').textContent === ''")
        page.locator("#next").click()
        at(seen, "house")
        seen.clean()
