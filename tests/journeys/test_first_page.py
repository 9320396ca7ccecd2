"""The first questions on the page: from a starter to a plan of one's own, by keyboard, kept over a reload."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Page

from tests.journeys.browser import Watched, chromium, served, watched
from tests.journeys.first_answers import METRIC, US
from tests.journeys.page_parts import bench_at, client_of
from tidestead.plan import load, starter_text
from tidestead.plan.first import plan_text
from tidestead.plan.first_questions import asked, questions

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
        told = client.post("/api/first", json={"answers": METRIC, "base": base}).json()
        assert told["opened"]
        assert told["digest"] == client.get("/api/plan").json()["digest"] != base
        assert starter.read_text(encoding="utf-8") == plan_text(METRIC).text
        assert bench.history.undoes == "the first plan"
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
        "../x.toml",
        "/tmp/x.toml",
        "a/b.toml",
        ".hidden.toml",
        "x.txt",
        "x",
        "a\\b.toml",
        "c:x.toml",
        "x\n.toml",
        "mine.toml",
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


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    with chromium() as found:
        yield found


def ready(seen: Watched, address: str) -> Page:
    """The page of questions, when it has begun."""
    seen.page.goto(f"{address}start")
    seen.until("document.getElementById('first').dataset.ready")
    return seen.page


def at(seen: Watched, question: str) -> None:
    """Wait until a question is the one that is shown."""
    seen.until(f"document.querySelector('[data-question={question}]:not([hidden])')")


def shown(page: Page) -> str:
    return page.locator("section.question:not([hidden])").get_attribute("data-question") or ""


def fill(page: Page, question: str, answers: dict[str, str]) -> None:
    """Answer all that a question asks, in its order, as blanks appear."""
    section = page.locator(f"[data-question={question}]")
    for name in asked(answers):
        blank = section.locator(f"[data-blank={name}]")
        if not blank.count():
            continue
        blank.wait_for(state="visible")
        if blank.locator("input[type=radio]").count():
            blank.locator(f'input[value="{answers[name]}"]').check()
        elif blank.locator("select").count():
            blank.locator(f'option[value="{answers[name]}"]:not([disabled])').wait_for(state="attached")
            blank.locator("select").select_option(answers[name])
        else:
            blank.locator("input").fill(answers[name])


def accessible(page: Page) -> None:
    told = [
        (one["id"], [node["html"][:160] for node in one["nodes"][:3]])
        for one in Axe().run(page).response["violations"]
    ]
    assert told == []


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
        assert page.locator("#taken tr").count() == len(plan_text(METRIC).assumed)
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


def test_a_fault_holds_the_step_and_nothing_is_lost_on_reload(browser: Browser, starter: Path) -> None:
    with (
        served(starter, starter.parent / "cache") as open_plan,
        watched(browser, open_plan, width=360, height=740) as seen,
    ):
        page = ready(seen, open_plan.address)
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
        assert starter.read_text(encoding="utf-8") == starter_text("metric")
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
        kept = {"answers": US, "at": "review", "reached": []}
        page.evaluate("(kept) => sessionStorage.setItem('tidestead first mine.toml', kept)", json.dumps(kept))
        page.reload()
        at(seen, "review")
        accessible(page)
        page.locator("#beside").fill("mine.toml")
        page.locator("#next").click()
        seen.until("document.getElementById('fault-beside').textContent.includes('there already')")
        page.locator("#beside").fill("barn.toml")
        page.locator("#beside").press("Enter")
        seen.until("document.getElementById('written').textContent.includes('tidestead open')")
        assert starter.with_name("barn.toml").read_text(encoding="utf-8") == plan_text(US).text
    assert starter.read_bytes() == before
