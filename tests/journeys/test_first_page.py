"""The first questions on the page: from a starter to a plan of one's own, by keyboard, kept over a reload."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from tests.journeys.browser import Served, served, watched
from tests.journeys.first_answers import METRIC, NEEDED, US
from tests.journeys.first_browser import answered, at, fill, ready, shown
from tests.journeys.first_parts import accessible
from tests.journeys.page_parts import bench_at, client_of
from tidestead.plan import load, starter_text
from tidestead.plan.first import plan_text
from tidestead.plan.first_questions import asked, questions
from tidestead.web.remembered import Remembered

# The door, without a browser


@pytest.fixture
def starter(tmp_path: Path) -> Path:
    plan = tmp_path / "mine.toml"
    plan.write_text(starter_text("metric"), encoding="utf-8")
    return plan


def test_the_questions_have_a_twin(starter: Path) -> None:
    with client_of(bench_at(starter)) as client:
        page, told = client.get("/start").text, client.get("/api/first").json()
    assert told["untouched"] is True
    assert told["beside"] == "mine-first.toml"
    assert [one["id"] for one in told["questions"]] == [one.id for one in questions()]
    for question in told["questions"]:
        assert question["words"].replace("'", "&#39;") in page
        for blank in question["blanks"]:
            assert f'name="{blank["id"]}"' in page
            assert all(f'value="{choice["value"]}"' in page for choice in blank["choices"])


def test_a_preview_tells_what_the_plan_would_be_and_saves_nothing(starter: Path) -> None:
    before = starter.read_bytes()
    with client_of(bench_at(starter)) as client:
        good = client.post("/api/first/preview", json={"answers": METRIC}).json()
        bad = client.post(
            "/api/first/preview", json={"answers": {**METRIC, "length": "3", "rules": "NDS"}}
        ).json()
    assert good["sound"]
    assert good["text"] == plan_text(METRIC).text
    assert {one["key"]: one["value"] for one in good["assumed"]} == {
        one.key: one.value for one in plan_text(METRIC).assumed
    }
    assert good["asked"] == list(asked(METRIC))
    assert "C24" in good["offered"]["grade"]
    assert (bad["sound"], bad["text"]) == (False, "")
    assert set(bad["faults"]) == {"length", "grade", "sheathing"}
    assert "has no unit" in bad["faults"]["length"][0]["allowed"]
    assert "C24" not in bad["offered"]["grade"]
    assert starter.read_bytes() == before


def test_a_starter_becomes_the_first_plan_and_undo_brings_it_back(starter: Path) -> None:
    bench = bench_at(starter)
    with client_of(bench) as client:
        base = client.get("/api/plan").json()["digest"]
        bench.remembered = Remembered(before={"structure": {}}, now_digest=base, now={"structure": {}})
        told = client.post("/api/first", json={"answers": METRIC, "base": base}).json()
        assert told["opened"]
        assert told["digest"] == client.get("/api/plan").json()["digest"] != base
        assert starter.read_text(encoding="utf-8") == plan_text(METRIC).text
        assert bench.history.undoes == "the first plan"
        assert not bench.last_changes()
        assert not bench.remembered.before
        client.post("/api/undo", json={"base": told["digest"]})
    assert starter.read_text(encoding="utf-8") == starter_text("metric")


def test_a_plan_with_work_in_it_is_never_written_over(starter: Path) -> None:
    starter.write_text(starter_text("metric").replace('"2.4 m"', '"2.5 m"'), encoding="utf-8")
    before = starter.read_bytes()
    with client_of(bench_at(starter)) as client:
        base = client.get("/api/plan").json()["digest"]
        refused = client.post("/api/first", json={"answers": METRIC, "base": base})
        assert refused.status_code == 422
        assert "with your work in it" in refused.json()["faults"][0]["allowed"]
        beside = client.post(
            "/api/first", json={"answers": METRIC, "base": base, "beside": "mine-first.toml"}
        )
        assert "tidestead open" in beside.json()["words"]
        assert client.get("/api/first").json()["beside"] == "mine-first2.toml"
        again = client.post("/api/first", json={"answers": US, "base": base, "beside": "mine-first.toml"})
        assert again.status_code == 422
    assert starter.read_bytes() == before
    assert load(starter.with_name("mine-first.toml")).text == plan_text(METRIC).text


def test_a_starter_changed_meanwhile_is_left_alone(starter: Path) -> None:
    with client_of(bench_at(starter)) as client:
        base = client.get("/api/plan").json()["digest"]
        starter.write_text(starter_text("us"), encoding="utf-8")
        stale = client.post("/api/first", json={"answers": METRIC, "base": base})
    assert stale.status_code == 409
    assert starter.read_text(encoding="utf-8") == starter_text("us")


@pytest.mark.parametrize(
    "name",
    [
        *("../x.toml", "/tmp/x.toml", "a/b.toml", ".hidden.toml", "x.txt", "x"),
        *("a\\b.toml", "c:x.toml", "x\n.toml", "mine.toml"),
    ],
)
def test_a_file_beside_has_a_plain_new_name(starter: Path, name: str) -> None:
    files = sorted(path.name for path in starter.parent.iterdir())
    with client_of(bench_at(starter)) as client:
        reply = client.post("/api/first", json={"answers": METRIC, "base": "", "beside": name})
    assert reply.status_code == 422
    assert reply.json()["faults"][0]["advice"]
    assert sorted(path.name for path in starter.parent.iterdir()) == files


def test_a_link_that_leads_elsewhere_is_no_new_name(
    starter: Path, tmp_path_factory: pytest.TempPathFactory
) -> None:
    elsewhere = tmp_path_factory.mktemp("elsewhere") / "x.toml"
    starter.with_name("link.toml").symlink_to(elsewhere)
    with client_of(bench_at(starter)) as client:
        reply = client.post("/api/first", json={"answers": METRIC, "base": "", "beside": "link.toml"})
    assert reply.status_code == 422
    assert not elsewhere.exists()


def test_answers_with_faults_are_not_written(starter: Path) -> None:
    with client_of(bench_at(starter)) as client:
        base = client.get("/api/plan").json()["digest"]
        reply = client.post("/api/first", json={"answers": {**METRIC, "water": "2 m"}, "base": base})
        huge = client.post("/api/first/preview", json={"answers": {"name": "x" * 5000}})
    assert reply.status_code == huge.status_code == 422
    assert starter.read_text(encoding="utf-8") == starter_text("metric")


# In a browser


def test_from_a_starter_to_answers_of_ones_own(browser: Browser, starter: Path) -> None:
    """Every question in turn, the last field of each left with Enter; then the plan, and where it stands."""
    with served(starter, starter.parent / "cache") as open_plan, watched(browser, open_plan) as seen:
        page = ready(seen, open_plan.address)
        answered = asked(METRIC)
        wanted = [one.id for one in questions() if any(blank.id in answered for blank in one.blanks)]
        for question, following in zip(wanted, [*wanted[1:], "review"], strict=True):
            at(seen, question)
            fill(page, question, METRIC)
            if question in ("name", "timber", "house"):
                accessible(page)
            typed = page.locator(f"[data-question={question}] input[type=text]:visible").last
            typed.press("Enter") if typed.count() else page.locator("#next").click()
            at(seen, following)
        accessible(page)
        assert page.locator("#taken tbody tr").count() == len(plan_text(METRIC).assumed)
        assert page.locator("#text").text_content() == plan_text(METRIC).text
        page.locator("#next").click()
        page.wait_for_url(open_plan.address)
        assert starter.read_text(encoding="utf-8") == plan_text(METRIC).text
        assert page.locator("h1").text_content() == "Harbour basin"
        seen.until(
            "['sound', 'near'].includes(document.querySelector('#line-structure:not(.stale) .verdict')?.textContent)"
        )
        page.goto(f"{open_plan.address}start")
        seen.until("document.getElementById('first').dataset.ready")
        assert page.locator("[name=name]").input_value() == ""


def typed_by_keyboard(page: Page, answers: dict[str, str]) -> int:
    """Answer the needed blanks of the question that is shown, by keyboard alone; how many it has."""
    needed = page.locator('section.question:not([hidden]) [data-blank][data-optional=""]:visible')
    answered = 0
    while answered < needed.count():
        blank = needed.nth(answered)
        name = blank.get_attribute("data-blank") or ""
        if blank.locator("input[type=radio]").count():
            chosen = blank.locator(f'input[value="{answers[name]}"]')
            chosen.focus()
            page.keyboard.press("Space")
            assert chosen.is_checked()
        elif blank.locator("select").count():
            blank.locator(f'option[value="{answers[name]}"]:not([disabled])').wait_for(state="attached")
            chooser = blank.locator("select")
            chooser.focus()
            for _ in range(blank.locator("option").count()):
                if chooser.input_value() != answers[name]:
                    page.keyboard.press("ArrowDown")
            assert chooser.input_value() == answers[name]
        else:
            blank.locator("input").focus()
            page.keyboard.type(answers[name])
        page.wait_for_timeout(350)  # what follows from it is shown
        answered += 1
    return answered


def test_what_is_needed_is_little_and_leads_to_an_answer(browser: Browser, starter: Path) -> None:
    """A small tank, no detail opened: at most 26 blanks on at most 12 screens, then an answer on structure."""
    with served(starter, starter.parent / "cache") as open_plan, watched(browser, open_plan) as seen:
        page = ready(seen, open_plan.address)
        screens = blanks = 0
        while (question := shown(page)) != "review":
            screens += 1
            blanks += typed_by_keyboard(page, NEEDED)
            if question in ("place", "window", "ground", "round"):
                accessible(page)
            page.locator("#next").focus()
            page.keyboard.press("Enter")
            seen.until(f"!document.querySelector('[data-question={question}]:not([hidden])')")
        assert page.locator("details.known[open]").count() == 0
        assert blanks == len([name for name, blank in asked(NEEDED).items() if not blank.optional]) <= 26
        assert screens <= 12
        accessible(page)
        told = plan_text({**NEEDED, "gallons": "none"})
        assert page.locator("#text").text_content() == told.text
        assert page.locator("#taken tbody tr").count() == len(told.assumed)
        page.locator("#next").focus()
        page.keyboard.press("Enter")
        page.wait_for_url(open_plan.address)
        seen.until(
            "['sound', 'near', 'fails'].includes("
            "document.querySelector('#line-structure:not(.stale) .verdict')?.textContent)"
        )
        seen.clean()


def test_details_stand_folded_and_tell_what_is_assumed(browser: Browser, open_starter: Served) -> None:
    with watched(browser, open_starter, width=360, height=740) as seen:
        page = ready(seen, open_starter.address)
        answered(seen, open_starter.address, NEEDED, "ground")
        capacity = page.locator("[name=capacity]")
        assert not capacity.is_visible()
        page.locator("[data-question=ground] summary").focus()
        page.keyboard.press("Enter")
        capacity.wait_for(state="visible")
        assert capacity.get_attribute("placeholder") == "assumed: 5 kN"
        assert page.locator("[name=foot_spacing]").get_attribute("placeholder") == "assumed: 300 mm"
        assert "open-capacity" in (capacity.get_attribute("aria-describedby") or "")
        assert (page.locator("#open-capacity").text_content() or "").startswith("Left open: a low figure")
        assert page.locator("[data-blank=bears_on] input[value='']").is_checked()
        accessible(page)
        assert page.evaluate("document.documentElement.scrollWidth") <= 360
        capacity.fill("5")
        page.locator("[data-question=ground] summary").click()
        page.locator("#next").click()
        seen.until("document.activeElement.name === 'capacity'")
        assert capacity.is_visible()
        capacity.fill("")
        page.locator("#next").click()
        at(seen, "house")
        assert page.locator("[data-question=house] summary").is_hidden()
        page.locator("#next").click()
        at(seen, "life")
        assert page.locator("#progress").text_content() == "Question 10 of 11"
        page.locator("#back").click()
        at(seen, "house")
        page.locator("[name=house][value=room]").check()
        page.locator("[data-question=house] summary").wait_for(state="visible")
        page.locator("#next").click()
        at(seen, "climate")
        seen.clean()


def test_a_fault_holds_the_step_and_nothing_is_lost_on_reload(browser: Browser, open_starter: Served) -> None:
    with watched(browser, open_starter, width=360, height=740) as seen:
        page = ready(seen, open_starter.address)
        assert page.locator("#back").is_hidden()
        page.locator("#next").click()
        seen.until("document.querySelector('[data-fault=name]').textContent")
        assert shown(page) == "name"
        assert page.evaluate("document.activeElement.name") == "name"
        page.locator("[name=name]").fill("Shed reef")
        page.keyboard.press("Enter")
        at(seen, "place")
        assert page.evaluate("document.activeElement.id") == "q-place"
        fill(page, "place", {**METRIC, "elevation": "12"})
        seen.until("document.querySelector('[data-fault=elevation]').textContent.includes('has no unit')")
        page.locator("[name=elevation]").fill("1 1/2 ft")
        seen.until("document.querySelector('[data-echo=elevation]').textContent.includes('457 mm')")
        assert page.evaluate("document.documentElement.scrollWidth") <= 360
        accessible(page)
        page.reload()
        seen.until("document.getElementById('first').dataset.ready")
        assert shown(page) == "place"
        assert page.locator("[name=elevation]").input_value() == "1 1/2 ft"
        page.locator("#back").click()
        at(seen, "name")
        assert page.locator("[name=name]").input_value() == "Shed reef"
        page.go_back()
        at(seen, "place")
        page.locator(".overview summary").click()
        page.locator("#overview [data-to=review]").click()
        at(seen, "review")
        assert page.locator("#next").is_hidden()
        page.locator('#open-faults [data-blank-to="length"]').click()
        at(seen, "size")
        assert page.evaluate("document.activeElement.name") == "length"
        assert page.evaluate("document.documentElement.scrollWidth") <= 360
        assert open_starter.plan.read_text(encoding="utf-8") == starter_text("metric")
        seen.clean()


@pytest.mark.parametrize("dark", [False, True])
def test_beside_a_plan_with_work_in_it(browser: Browser, starter: Path, dark: bool) -> None:
    starter.write_text(starter_text("us").replace('"8 ft"', '"9 ft"'), encoding="utf-8")
    before = starter.read_bytes()
    with (
        served(starter, starter.parent / "cache") as open_plan,
        watched(browser, open_plan, dark=dark) as seen,
    ):
        page = ready(seen, open_plan.address)
        assert page.locator("[name=show][value=us]").is_checked()
        told = "mine.toml has your work in it and is not written over"
        assert told in (page.locator("[data-question=name] .notice").text_content() or "")
        assert "mine-first.toml" in (page.locator("[data-question=name] .notice").text_content() or "")
        answered(seen, open_plan.address, US, "review")
        accessible(page)
        page.locator("#beside").fill("mine.toml")
        page.locator("#next").click()
        seen.until("document.getElementById('fault-beside').textContent.includes('there already')")
        page.locator("#beside").fill("barn.toml")
        page.locator("#beside").press("Enter")
        seen.until("document.getElementById('written').textContent.includes('tidestead open')")
        assert starter.with_name("barn.toml").read_text(encoding="utf-8") == plan_text(US).text
    assert starter.read_bytes() == before
