"""The plan as forms on the page, and as JSON: what is shown, what is saved, what is refused, what is never lost."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from httpx2 import Response
from starlette.testclient import TestClient

from tests.journeys.form_pages import NoAnswers, fields_of, typed
from tests.journeys.page_parts import client_of
from tidestead.plan.editing import path_of
from tidestead.plan.forms import Draft, sheet_of
from tidestead.web.bench import Bench

EXAMPLES = Path(__file__).parents[2] / "examples"
WATER = "vessels.basin.water"
LONG = "vessels.basin.walls.south.windows.long"


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


def save(client: TestClient, bench: Bench, *fields: dict[str, Any], base: str | None = None) -> Response:
    body = {"fields": list(fields), "base": bench.digest if base is None else base}
    return client.post("/api/forms/save", json=body)


def preview(client: TestClient, *fields: dict[str, Any]) -> dict[str, Any]:
    reply = client.post("/api/forms/preview", json={"fields": list(fields)})
    assert reply.status_code == 200
    found: dict[str, Any] = reply.json()
    return found


def table_of(key: str, plan: Path) -> bool:
    """Whether the table that a key stands in is in the plan's file."""
    above = path_of(key)[:-1]
    return not above or Draft.of(plan.read_text(encoding="utf-8")).at(above) is not None


# ---- what is shown -----------------------------------------------------------------------------


def test_every_typed_value_of_the_plan_can_be_reached_and_is_shown_once(
    client: TestClient, plan: Path
) -> None:
    """From the front page of the plan by links alone."""
    seen: dict[str, str] = {}
    pages, done = ["/plan"], set()
    while pages:
        path = pages.pop()
        if path in done:
            continue
        done.add(path)
        reply = client.get(path)
        assert reply.status_code == 200, path
        found = fields_of(reply.text)
        assert len(found.ids) == len(set(found.ids)), path
        assert found.inline == [], path
        seen |= found.shown
        assert {key for key in found.shown if table_of(key, plan)} == found.there, path
        pages += [link for link in re.findall(r'href="(/plan/[^"?#]+)"', reply.text) if "/new/" not in link]
    wanted = {
        field.key: field.typed
        for form in sheet_of(Draft.of(plan.read_text(encoding="utf-8"))).all_forms
        for field in form.fields
        if field.typed
    }
    assert {key: value for key, value in seen.items() if value} == wanted
    assert len(done) > 40


@pytest.mark.parametrize("path", ["/plan/site", f"/plan/part/{LONG}", "/plan/new/heaters?name=new"])
def test_every_field_has_its_label_and_says_what_describes_it(client: TestClient, path: str) -> None:
    found = fields_of(client.get(path).text)
    assert found.shown
    for key, ids in found.described.items():
        assert set(ids) <= set(found.ids), key
        assert found.own[key] in found.labels, key


def test_page_and_twin_show_the_same(client: TestClient) -> None:
    twin = client.get(f"/api/forms/part/{LONG}").json()

    def values(form: dict[str, Any]) -> dict[str, str]:
        own = {field["key"]: field["typed"] for field in form["fields"]}
        return own | {key: value for part in form["parts"] for key, value in values(part).items()}

    assert fields_of(client.get(f"/plan/part/{LONG}").text).shown == values(twin)
    groups = client.get("/api/forms").json()
    assert [group["name"] for group in groups][:5] == ["plan", "site", "building", "water", "vessels"]
    vessels = client.get("/api/forms/group/vessels").json()
    assert {part["key"] for part in vessels["forms"][0]["parts"]} == {
        "vessels.basin", "vessels.tower", "vessels.sump", "vessels.weirbox"
    }  # fmt: skip
    assert {part["key"] for part in groups[4]["parts"]} >= {"vessels.basin", LONG}


def test_a_value_leads_to_the_table_it_stands_in(client: TestClient) -> None:
    reply = client.get(f"/plan/part/{WATER}?for=structure", follow_redirects=False)
    assert reply.status_code == 303
    assert reply.headers["location"] == "/plan/part/vessels.basin?for=structure"
    assert 'href="/question/structure"' in client.get(reply.headers["location"]).text
    assert "javascript" not in client.get("/plan/part/vessels.basin?for=javascript:x").text


@pytest.mark.parametrize(
    "path",
    [
        "/plan/nowhere", "/plan/part/nowhere", "/plan/part/..%2F..%2Fetc", "/plan/new/nowhere?name=x",
        "/plan/new/site.place", "/plan/new/vessels.basin.water", "/plan/new/a..b?name=x",
        "/plan/new/vessels?name=x&like=pumps.return", "/plan/new/vessels?name=x&like=vessels.nowhere",
        "/api/forms/group/nowhere", "/api/forms/part/nowhere", "/api/forms/part/%22",
    ],
)  # fmt: skip
def test_what_is_not_there_is_told_so(client: TestClient, path: str) -> None:
    assert client.get(path).status_code == 404


@pytest.mark.parametrize("path", ["/plan/new/vessels?name=basin", "/plan/new/vessels.basin.lining"])
def test_a_part_that_is_there_already_is_shown(client: TestClient, path: str) -> None:
    reply = client.get(path, follow_redirects=False)
    assert reply.status_code == 303
    assert reply.headers["location"].startswith("/plan/part/vessels.basin")


def test_numbers_of_the_catalogue_follow_the_units_shown(client: TestClient) -> None:
    grade = "/plan/part/vessels.basin.walls.all"
    assert "bending 24 MPa" in client.get(grade).text
    assert client.post("/api/units", json={"system": "us"}).status_code == 200
    assert "bending 3,481 psi" in client.get(grade).text


def test_a_row_of_ones_own_is_added_by_table_and_name(client: TestClient, bench: Bench, plan: Path) -> None:
    reply = client.get("/plan/new?table=yours.lumber&name=mine")
    assert reply.url.path == "/plan/new/yours.lumber"
    assert fields_of(reply.text).shown["yours.lumber.mine.bending"] == ""
    fields = [typed("yours.lumber.mine.like", "C24"), typed("yours.lumber.mine.bending", "20 MPa")]
    body = {"key": "yours.lumber.mine", "fields": fields, "base": bench.digest}
    assert client.post("/api/forms/new", json=body).status_code == 200
    assert 'value="yours:mine"' in client.get("/plan/part/vessels.basin.walls.all.studs").text
    assert "[yours.lumber.mine]" in plan.read_text(encoding="utf-8")


def test_hostile_words_stand_on_the_page_as_words(client: TestClient, bench: Bench) -> None:
    bad = '"><script>alert(1)</script><img src=x onerror=alert(1)>'
    assert save(client, bench, typed("site.place", bad)).status_code == 200
    for path in ("/plan", "/plan/site", "/plan/part/site", "/file"):
        text = client.get(path).text
        assert "<script>alert" not in text
        assert "<img" not in text
    assert fields_of(client.get("/plan/site").text).shown["site.place"] == bad


# ---- what is typed -----------------------------------------------------------------------------


def test_what_is_typed_is_read_back_and_nothing_is_saved(client: TestClient, plan: Path) -> None:
    before = plan.read_bytes()
    told = preview(client, typed(WATER, "3 ft 9 in"))
    assert told["sound"]
    assert told["fields"][WATER] == {
        "echo": "1.143 m = 3 ft 9 in",
        "shows": "3 ft 9 in",
        "now": "1.18 m",
        "gone": False,
        "faults": [],
    }
    half = preview(client, typed(WATER, "1.2"))
    assert not half["sound"]
    assert "has no unit" in half["fields"][WATER]["faults"][0]["allowed"]
    assert plan.read_bytes() == before


def test_what_would_break_elsewhere_is_told(client: TestClient) -> None:
    told = preview(client, typed("vessels.basin.height", "1.2 m"))
    assert not told["sound"]
    assert {fault["where"] for fault in told["others"]} >= {"vessels.basin.brim"}
    both = preview(client, typed("vessels.basin.height", "1.5 m"), typed("vessels.basin.brim", "1.4 m"))
    assert both["sound"]


def test_saved_words_are_those_of_a_hand_edit(client: TestClient, bench: Bench, plan: Path) -> None:
    before = plan.read_text(encoding="utf-8")
    reply = save(client, bench, typed(WATER, " 1.1 m ", "1.18 m"), typed("heaters.sump.count", "3", "4"))
    assert reply.status_code == 200
    after = before.replace('water = "1.18 m"', 'water = "1.1 m"').replace("\ncount = 4\n", "\ncount = 3\n")
    assert plan.read_text(encoding="utf-8") == after
    assert reply.json()["digest"] == bench.digest
    assert client.post("/api/undo", json={"base": bench.digest}).status_code == 200
    assert plan.read_text(encoding="utf-8") == before
    assert "vessels.basin.water 1.1 m" in bench.history.redoes


@pytest.mark.parametrize("words", ["1.", "1.2", "1.2 m2", "x", "1.2 m'", "9**9**9"])
def test_a_half_typed_value_is_never_saved(client: TestClient, bench: Bench, plan: Path, words: str) -> None:
    before = plan.read_bytes()
    reply = save(client, bench, typed(WATER, words, "1.18 m"))
    assert reply.status_code == 422
    assert reply.json()["faults"][0]["where"] == WATER
    assert plan.read_bytes() == before


def test_a_save_on_another_text_is_refused(client: TestClient, bench: Bench, plan: Path) -> None:
    base = bench.digest
    plan.write_text(plan.read_text(encoding="utf-8") + "# theirs\n", encoding="utf-8")
    reply = save(client, bench, typed(WATER, "1.1 m", "1.18 m"), base=base)
    assert reply.status_code == 409
    assert "# theirs" in plan.read_text(encoding="utf-8")
    assert 'water = "1.18 m"' in plan.read_text(encoding="utf-8")


def test_a_value_that_was_changed_elsewhere_is_not_written_over(
    client: TestClient, bench: Bench, plan: Path
) -> None:
    """Even by a page that has heard of the new text: it still shows the field as it was."""
    assert save(client, bench, typed(WATER, "1.0 m", "1.18 m")).status_code == 200
    reply = save(client, bench, typed(WATER, "1.1 m", "1.18 m"))
    assert reply.status_code == 409
    assert '"1.0 m" now' in reply.json()["words"]
    assert 'water = "1.0 m"' in plan.read_text(encoding="utf-8")
    assert preview(client, typed(WATER, "1.1 m"))["fields"][WATER]["now"] == "1.0 m"
    assert save(client, bench, typed(WATER, "1.1 m", "1.0 m")).status_code == 200


@pytest.mark.parametrize("way", ["save", "try"])
def test_a_field_whose_part_has_gone_writes_nothing(
    client: TestClient, bench: Bench, plan: Path, way: str
) -> None:
    """It would leave a stub of the part behind; a field whose table never was there makes it."""
    field = {**typed("heaters.tank.setpoint", "25 degC", ""), "there": True}
    reply = client.post(f"/api/forms/{way}", json={"fields": [field], "base": bench.digest})
    assert reply.status_code == 409
    assert "no longer in the plan" in reply.json()["words"]
    told = preview(client, field)
    assert told["fields"]["heaters.tank.setpoint"]["gone"]
    assert not told["sound"]
    assert told["others"] == []
    assert "heaters.tank" not in plan.read_text(encoding="utf-8")
    assert bench.trial is None
    assert not preview(client, typed("heaters.tank.setpoint", "25 degC"))["fields"]["heaters.tank.setpoint"][
        "gone"
    ]


def test_a_trial_over_what_was_changed_elsewhere_is_refused_like_a_save(
    client: TestClient, bench: Bench
) -> None:
    fields = [typed(WATER, "1.1 m", "1.0 m")]
    reply = client.post("/api/forms/try", json={"fields": fields, "base": bench.digest})
    assert reply.status_code == 409
    assert '"1.18 m" now' in reply.json()["words"]
    assert bench.trial is None


def test_an_emptied_field_leaves_the_file(client: TestClient, bench: Bench, plan: Path) -> None:
    assert save(client, bench, typed("vessels.basin.brim", "")).status_code == 200
    assert "brim" not in tomllib.loads(plan.read_text(encoding="utf-8"))["vessels"]["basin"]
    assert save(client, bench, typed("vessels.basin.role", "")).status_code == 422


def test_a_list_is_an_item_to_a_line(client: TestClient, bench: Bench, plan: Path) -> None:
    key = "vessels.basin.ties.cross.at"
    told = preview(client, typed(key, "1 m\n6 ft\n"))
    assert told["fields"][key]["echo"].splitlines() == ["1 m ≈ 3 ft 3 3/8 in", "1.829 m ≈ 6 ft"]
    assert save(client, bench, typed(key, "1 m\n6 ft\n", "1.0 m\n2.0 m\n3.0 m")).status_code == 200
    assert 'at = ["1 m", "6 ft"]' in plan.read_text(encoding="utf-8")


def test_a_plan_with_faults_shows_them_beside_their_fields(
    client: TestClient, bench: Bench, plan: Path
) -> None:
    text = plan.read_text(encoding="utf-8")
    plan.write_text(text.replace('water = "1.18 m"', "water = 1.18 m"), encoding="utf-8")
    bench.look()
    page = client.get("/plan/part/vessels.basin").text
    assert fields_of(page).invalid == {WATER}
    assert "must stand in quotes" in page
    assert client.get("/plan").text.count("1 fault") >= 1
    reply = client.post("/api/forms/preview", json={"fields": [typed(WATER, "1.18 m")]})
    assert reply.status_code == 422
    assert "not TOML" in reply.json()["faults"][0]["allowed"]
    plan.write_text(text.replace('water = "1.18 m"', 'water = "1.18"'), encoding="utf-8")
    bench.look()
    assert save(client, bench, typed(WATER, "1.18 m", "1.18")).status_code == 200
    assert plan.read_text(encoding="utf-8") == text


# ---- the file itself ---------------------------------------------------------------------------


def test_the_editor_shows_the_file_with_a_number_to_every_line(client: TestClient, plan: Path) -> None:
    page = client.get("/file").text
    text = plan.read_text(encoding="utf-8")
    lines = text.split("\n")
    assert [f"line-{at}" for at in range(1, len(lines) + 1)] == [
        one for one in fields_of(page).ids if one.startswith("line-")
    ]
    assert f'rows="{len(lines)}"' in page


def test_the_editors_faults_are_those_of_the_forms(client: TestClient, bench: Bench, plan: Path) -> None:
    text = plan.read_text(encoding="utf-8").replace('water = "1.18 m"', 'water = "1.18"')
    told = client.post("/api/preview/text", json={"text": text}).json()
    by_form = preview(client, typed(WATER, "1.18"))
    assert told["faults"] == by_form["fields"][WATER]["faults"]
    plan.write_text(text, encoding="utf-8")
    bench.look()
    page = client.get("/file").text
    assert f'href="/file#line-{told["faults"][0]["line"]}"' in page
