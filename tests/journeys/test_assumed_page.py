"""What a first plan took without having asked: listed on a page of its own, and typed over there."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from playwright.sync_api import Browser

from tests.journeys.browser import served, watched
from tests.journeys.first_answers import METRIC, NEEDED, NEEDED_US, US
from tests.journeys.first_parts import accessible
from tests.journeys.form_pages import fields_of, typed
from tests.journeys.page_parts import bench_at, client_of
from tidestead.plan import load, starter_text
from tidestead.plan.first import plan_text
from tidestead.plan.first_order import BATCHES, loads_first, title_for

TITLES = [one.title for one in BATCHES]
"""In the order in which what was assumed is told."""


@pytest.fixture
def first(tmp_path: Path) -> Path:
    plan = tmp_path / "mine.toml"
    plan.write_text(plan_text(NEEDED).text, encoding="utf-8")
    return plan


@pytest.mark.parametrize("answers", [METRIC, US, NEEDED, NEEDED_US], ids=lambda one: one["name"])
def test_every_assumed_value_is_listed_with_its_reason_and_a_field(
    tmp_path: Path, answers: dict[str, str]
) -> None:
    plan = plan_text(answers)
    path = tmp_path / "mine.toml"
    path.write_text(plan.text, encoding="utf-8")
    with client_of(bench_at(path)) as client:
        told = client.get("/api/assumed").json()
        page = client.get("/assumed").text
        home = client.get("/").text
    listed = {one["key"]: one for batch in told["batches"] for one in batch["taken"]}
    assert {key: one["why"] for key, one in listed.items()} == {one.key: one.why for one in plan.assumed}
    assert told["left"] == len(plan.assumed)
    fields = fields_of(page)
    assert len(fields.ids) == len(set(fields.ids))
    assert not fields.inline
    for one in plan.assumed:
        keys = [f"{one.key}.{name}" for name in one.value] if isinstance(one.value, dict) else [one.key]
        assert [field["key"] for field in listed[one.key]["fields"]] == keys
        assert set(keys) <= set(fields.shown)
        assert all(not field["faults"] and field["label"] for field in listed[one.key]["fields"])
        if isinstance(one.value, str):
            assert fields.shown[one.key] == one.value
    assert f"Look at what was assumed ({len(plan.assumed)})" in home
    assert 'href="/assumed"' in home


def test_what_carries_load_comes_first_and_weather_last() -> None:
    keys = [one.key for one in plan_text(METRIC).assumed]
    order = [title_for(key) for key in loads_first(keys)]
    assert order == sorted(order, key=TITLES.index)
    assert sorted(loads_first(keys)) == sorted(keys)
    assert order[0] == "The foot of the walls, and the ground"
    assert order[-1] == "The weather"
    assert "Everything else" not in order
    assert title_for("vessels.basin.walls.all.base.capacity") == TITLES[0]
    assert title_for("vessels.basin.walls.south.windows.front.opening.jambs.top") == "The window"
    assert (
        title_for("vessels.basin.walls.all.studs.foot")
        == title_for("vessels.basin.corners.joint")
        == TITLES[2]
    )
    assert title_for("vessels.basin.ports.edge.level") == "How the water goes round"


def test_a_plan_without_such_remarks_has_no_link_to_them(tmp_path: Path) -> None:
    path = tmp_path / "mine.toml"
    path.write_text(starter_text("metric"), encoding="utf-8")
    with client_of(bench_at(path)) as client:
        assert client.get("/api/assumed").json() == {"left": 0, "batches": []}
        assert 'href="/assumed"' not in client.get("/").text
        assert "Nothing in this plan" in client.get("/assumed").text


def test_a_plan_that_cannot_be_read_still_has_the_page(first: Path) -> None:
    first.write_text(first.read_text(encoding="utf-8") + "\nx = [\n", encoding="utf-8")
    with client_of(bench_at(first)) as client:
        assert client.get("/assumed").status_code == client.get("/api/assumed").status_code == 200


def test_typed_over_it_is_yours_and_undo_makes_it_assumed_again(first: Path) -> None:
    before = first.read_text(encoding="utf-8")
    bench = bench_at(first)
    key = "vessels.basin.walls.all.base.capacity"
    with client_of(bench) as client:
        left = client.get("/api/assumed").json()["left"]
        order = [
            one["key"] for batch in client.get("/api/assumed").json()["batches"] for one in batch["taken"]
        ]
        fields = [typed(key, "6.5 kN", "5 kN")]
        saved = client.post("/api/forms/save", json={"fields": fields, "base": bench.digest})
        assert saved.status_code == 200, saved.text
        told = client.get("/api/assumed").json()
        listed = [one for batch in told["batches"] for one in batch["taken"]]
        assert told["left"] == left - 1
        assert [one["key"] for one in listed] == order
        assert [one["key"] for one in listed if one["yours"]] == [key]
        after = first.read_text(encoding="utf-8")
        lost = [line for line in before.splitlines() if line not in after.splitlines()]
        assert len(lost) == 2
        assert 'capacity = "6.5 kN"' in after.splitlines()
        assert "a low figure for one anchor" not in after
        client.post("/api/undo", json={"base": bench.digest})
        assert client.get("/api/assumed").json()["left"] == left
    assert first.read_text(encoding="utf-8") == before


def test_a_trial_that_is_kept_takes_the_remark_along(first: Path) -> None:
    bench = bench_at(first)
    fields = [typed("vessels.basin.wood", "dry")]
    with client_of(bench) as client:
        assert client.post("/api/forms/try", json={"fields": fields, "base": bench.digest}).status_code == 200
        assert "wet is hardest" in first.read_text(encoding="utf-8")
        kept = {"base": bench.digest, "trial": client.get("/api/trial").json()["number"]}
        assert client.post("/api/trial/keep", json=kept).status_code == 200
    text = first.read_text(encoding="utf-8")
    assert "wet is hardest" not in text
    assert 'wood = "dry"' in text


# In a browser


@pytest.mark.parametrize(("width", "dark"), [(360, True), (1500, False)])
def test_typed_over_in_place(browser: Browser, first: Path, width: int, dark: bool) -> None:
    with (
        served(first, first.parent / "cache") as open_plan,
        watched(browser, open_plan, width=width, height=800, dark=dark) as seen,
    ):
        page = seen.page
        page.goto(open_plan.address)
        link = page.locator("#taken-notice a")
        many = int(re.findall(r"\d+", link.text_content() or "")[0])
        assert many == len(plan_text(NEEDED).assumed)
        link.click()
        page.wait_for_url(f"{open_plan.address}assumed")
        accessible(page)
        assert page.evaluate("document.documentElement.scrollWidth") <= width
        assert page.locator(".taken-list > li").count() == many
        capacity = page.locator('[data-key="vessels.basin.walls.all.base.capacity"]')
        capacity.fill("6500 N")
        echo = f"document.getElementById('{capacity.get_attribute('id')}-echo').textContent"
        seen.until(f"{echo}.includes('6.5 kN')")
        capacity.press("Enter")
        seen.until(f"document.getElementById('assumed-left').textContent.startsWith('{many - 1} values')")
        seen.until("document.querySelector('.taken-list .yours')")
        assert page.evaluate("document.activeElement.dataset.key") == "vessels.basin.walls.all.base.capacity"
        assert "assumed: a low figure" not in first.read_text(encoding="utf-8")
        assert load(first).plan.vessels["basin"].walls["all"].base is not None
        count = page.locator('[data-key="vessels.basin.walls.all.studs.foot.count"]')
        count.fill("none")
        count.press("Enter")
        page.locator(".not-saved").wait_for()
        accessible(page)
        seen.clean()
