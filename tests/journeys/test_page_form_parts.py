"""Whole parts on the page of forms: added, copied, renamed, taken out; all at once, or not at all."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator
from pathlib import Path
from typing import Any
from urllib.parse import quote

import pytest
from starlette.testclient import TestClient

from tests.journeys.form_pages import NoAnswers, fields_of, typed
from tests.journeys.page_parts import client_of
from tidestead.web.bench import Bench

EXAMPLES = Path(__file__).parents[2] / "examples"


@pytest.fixture(autouse=True)
def _own_cache(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))


@pytest.fixture
def plan(tmp_path: Path) -> Path:
    path = tmp_path / "skerry.toml"
    path.write_bytes((EXAMPLES / "skerry.toml").read_bytes())
    return path


@pytest.fixture
def bench(plan: Path) -> Bench:
    return Bench(plan, NoAnswers())


@pytest.fixture
def client(bench: Bench) -> Iterator[TestClient]:
    with client_of(bench) as found:
        yield found


def test_a_part_is_added_whole_or_not_at_all(client: TestClient, bench: Bench, plan: Path) -> None:
    before = plan.read_bytes()
    page = client.get("/plan/new/heaters?name=new").text
    assert set(fields_of(page).shown) >= {"heaters.new.vessel", "heaters.new.power", "heaters.new.setpoint"}
    half = [typed("heaters.new.vessel", "basin"), typed("heaters.new.count", "2")]
    told = client.post("/api/forms/new/preview", json={"key": "heaters.new", "fields": half}).json()
    assert not told["sound"]
    assert {fault["where"] for fault in told["others"]} == {"heaters.new.power", "heaters.new.setpoint"}
    body = {"key": "heaters.new", "fields": half, "base": bench.digest}
    assert client.post("/api/forms/new", json=body).status_code == 422
    assert plan.read_bytes() == before
    whole = [*half, typed("heaters.new.power", "500 W"), typed("heaters.new.setpoint", "24 degC")]
    assert client.post("/api/forms/new", json={**body, "fields": whole}).status_code == 200
    assert tomllib.loads(plan.read_text(encoding="utf-8"))["heaters"]["new"]["count"] == 2
    assert client.get("/plan/part/heaters.new").status_code == 200


def test_a_copy_is_made_different_before_it_is_saved(client: TestClient, bench: Bench, plan: Path) -> None:
    """A window copied onto itself overlaps: the copy is saved only once it stands elsewhere."""
    end = "vessels.basin.walls.west.windows.end"
    two = "vessels.basin.walls.west.windows.two"
    page = client.get(f"/plan/new/{quote('vessels.basin.walls.west.windows')}?name=two&like={end}").text
    assert "overlaps" in page
    assert fields_of(page).shown[f"{two}.edges.left"] == "seat"
    body = {"key": two, "like": end, "fields": [], "base": bench.digest}
    assert client.post("/api/forms/new", json=body).status_code == 422
    away = [typed(f"{two}.width", "300 mm"), typed(f"{two}.from_left", "100 mm")]
    told = client.post("/api/forms/new/preview", json={"key": two, "like": end, "fields": away}).json()
    assert told["sound"], told
    assert client.post("/api/forms/new", json={**body, "fields": away}).status_code == 200
    windows = tomllib.loads(plan.read_text(encoding="utf-8"))["vessels"]["basin"]["walls"]["west"]["windows"]
    assert windows["two"] == {**windows["end"], "width": "300 mm", "from_left": "100 mm"}


def test_a_part_taken_out_is_put_back_by_undo(client: TestClient, bench: Bench, plan: Path) -> None:
    before = plan.read_bytes()
    reply = client.post("/api/forms/remove", json={"key": "covers.lid", "base": bench.digest})
    assert reply.status_code == 200
    assert b"[covers" not in plan.read_bytes()
    assert client.get("/plan/part/covers.lid", follow_redirects=False).status_code == 303
    assert client.post("/api/undo", json={"base": bench.digest}).status_code == 200
    assert plan.read_bytes() == before
    needed = client.post("/api/forms/remove", json={"key": "vessels.sump", "base": bench.digest})
    assert needed.status_code == 422
    assert needed.json()["faults"]
    gone = client.post("/api/forms/remove", json={"key": "vessels.nowhere", "base": bench.digest})
    assert gone.status_code == 422


RENAMED = [
    ("vessels.sump", "cellar",
     {'vessel = "cellar"': 5, '"cellar.suction"': 1, '"cellar.from_': 4, "[vessels.cellar": 3, '"vessel cellar"': 1}),
    ("vessels.basin.ports.comb", "crest", {"crest = { kind": 1, 'start = "basin.crest"': 1}),
    ("valves.main", "first", {'"valve first"': 1, "first = { kind": 1}),
    ("pumps.return", "lift", {'"pump lift"': 4, "[pumps.lift]": 1}),
    ("apparatus.lamp", "uv", {'"apparatus uv"': 2, "[apparatus.uv]": 1}),
    ("vessels.basin", "reef", {'over = "reef"': 2, 'vessel = "reef"': 8, '"reef.comb"': 1, '"reef.jet"': 1}),
]  # fmt: skip


@pytest.mark.parametrize(("key", "name", "counts"), RENAMED)
def test_a_part_renamed_is_renamed_wherever_it_is_named(
    client: TestClient, bench: Bench, plan: Path, key: str, name: str, counts: dict[str, int]
) -> None:
    before = plan.read_text(encoding="utf-8")
    reply = client.post("/api/forms/rename", json={"key": key, "name": name, "base": bench.digest})
    assert reply.status_code == 200, reply.json()
    after = plan.read_text(encoding="utf-8")
    for words, count in counts.items():
        assert after.count(words) - before.count(words) == count, words
    assert after.count("\n") == before.count("\n")
    old = key.rpartition(".")[2]
    back = {"key": f"{key.rpartition('.')[0]}.{name}", "name": old, "base": bench.digest}
    assert client.post("/api/forms/rename", json=back).status_code == 200
    assert plan.read_text(encoding="utf-8") == before


@pytest.mark.parametrize("name", ["basin", "Big Tank", " "])
def test_a_name_that_cannot_be_is_refused(client: TestClient, bench: Bench, plan: Path, name: str) -> None:
    before = plan.read_bytes()
    body = {"key": "vessels.sump", "name": name, "base": bench.digest}
    assert client.post("/api/forms/rename", json=body).status_code == 422
    assert plan.read_bytes() == before


@pytest.mark.parametrize(
    ("route", "body"),
    [
        ("remove", {"key": "lamps.ledges"}),
        ("rename", {"key": "lamps.ledges", "name": "others"}),
        ("new", {"key": "lamps.two", "like": "lamps.ledges", "fields": []}),
    ],
)
def test_parts_are_changed_only_on_the_text_that_was_shown(
    client: TestClient, plan: Path, route: str, body: dict[str, Any]
) -> None:
    before = plan.read_bytes()
    assert client.post(f"/api/forms/{route}", json={**body, "base": "0" * 64}).status_code == 409
    assert plan.read_bytes() == before
