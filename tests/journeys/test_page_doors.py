"""What the page's door lets in and what it refuses: hosts, origins, paths, sizes, stale saves, half-typed values."""

from __future__ import annotations

import os
import time
from collections.abc import Iterator
from pathlib import Path

import pytest
from httpx2 import Response
from starlette.testclient import TestClient

from tests.journeys.page_parts import PORT, bench_at, client_of
from tidestead.report import as_json
from tidestead.web.bench import Bench
from tidestead.web.guard import BODY_LIMIT

THICKNESS = "vessels.reef.walls.south.windows.long.thickness"


@pytest.fixture(autouse=True)
def _own_cache(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))


@pytest.fixture
def bench(plan: Path) -> Bench:
    return bench_at(plan)


@pytest.fixture
def client(bench: Bench) -> Iterator[TestClient]:
    with client_of(bench) as found:
        yield found


def save(
    client: TestClient, bench: Bench, value: object, key: str = THICKNESS, base: str | None = None
) -> Response:
    body = {"edits": [{"key": key, "value": value}], "base": bench.digest if base is None else base}
    return client.post("/api/save", json=body)


# ---- who is let in -----------------------------------------------------------------------------


@pytest.mark.parametrize(
    "host",
    [
        "evil.example",
        f"evil.example:{PORT}",
        "127.0.0.1",
        f"127.0.0.1:{PORT + 1}",
        f"127.0.0.1.evil.example:{PORT}",
        "",
    ],
)
def test_another_host_is_refused(client: TestClient, host: str) -> None:
    reply = client.get("/", headers={"host": host})
    assert reply.status_code == 400
    assert "Packhouse" not in reply.text


@pytest.mark.parametrize("host", [f"127.0.0.1:{PORT}", f"localhost:{PORT}", f"LOCALHOST:{PORT}"])
def test_our_own_hosts_are_let_in(client: TestClient, host: str) -> None:
    assert client.get("/api/plan", headers={"host": host}).status_code == 200


@pytest.mark.parametrize(
    "origin",
    [
        "http://evil.example",
        f"http://evil.example:{PORT}",
        "null",
        f"https://127.0.0.1:{PORT}",
        "http://127.0.0.1",
    ],
)
def test_a_change_from_another_site_is_refused(client: TestClient, bench: Bench, origin: str) -> None:
    before = bench.path.read_bytes()
    reply = client.post(
        "/api/save",
        json={"edits": [{"key": THICKNESS, "value": "4 in"}], "base": bench.digest},
        headers={"origin": origin},
    )
    assert reply.status_code == 403
    assert bench.path.read_bytes() == before


def test_a_form_of_another_kind_is_refused(client: TestClient, bench: Bench) -> None:
    """A form in another tab can only send plain text or form fields; it never gets as far as the origin."""
    for kind in ("text/plain", "application/x-www-form-urlencoded", "multipart/form-data"):
        assert client.post("/api/undo", content="{}", headers={"content-type": kind}).status_code == 415


def test_a_change_without_origin_from_a_page_elsewhere_is_refused(bench: Bench) -> None:
    with client_of(bench) as client:
        del client.headers["origin"]
        body = {"base": bench.digest}
        assert (
            client.post("/api/undo", json=body, headers={"sec-fetch-site": "cross-site"}).status_code == 403
        )
        assert client.post("/api/undo", json=body).status_code == 409, "a program on this machine may"


@pytest.mark.parametrize(
    "path",
    [
        "/static/../app.py",
        "/static/%2e%2e/app.py",
        "/static/..%2fapp.py",
        "/static//etc/passwd",
        "/question/../../etc/passwd",
        "/question/structure/picture/../../../etc/passwd.svg",
        "/question/structure/table/%2e%2e%2fetc%2fpasswd.csv",
        "/plan/part/..%2f..%2fetc",
        "/question/STRUCTURE",
        "/%00",
    ],
)
def test_a_path_leads_nowhere_else(client: TestClient, path: str) -> None:
    reply = client.get(path)
    assert reply.status_code in (400, 404, 422)
    assert "root:" not in reply.text
    assert "import" not in reply.text


def test_bodies_are_bounded_whatever_they_claim(client: TestClient, bench: Bench) -> None:
    large = b'{"text":"' + b"x" * (BODY_LIMIT + 10) + b'"}'
    kind = {"content-type": "application/json"}
    assert client.post("/api/preview/text", content=large, headers=kind).status_code == 413
    in_pieces = (large[at : at + 60_000] for at in range(0, len(large), 60_000))
    assert client.post("/api/preview/text", content=in_pieces, headers=kind).status_code == 413


def test_every_reply_keeps_to_itself(client: TestClient) -> None:
    for path in ("/", "/question/structure", "/api/plan", "/static/site.css", "/nowhere"):
        headers = client.get(path).headers
        policy = headers["content-security-policy"]
        assert "default-src 'none'" in policy
        assert "unsafe" not in policy
        assert headers["x-content-type-options"] == "nosniff"
        assert headers["referrer-policy"] == "no-referrer"


# ---- changes -----------------------------------------------------------------------------------


def test_an_edit_reaches_the_file_and_leaves_the_rest(client: TestClient, bench: Bench) -> None:
    before = bench.path.read_text("utf-8")
    reply = save(client, bench, "4 in")
    assert reply.status_code == 200, reply.text
    after = bench.path.read_text("utf-8")
    changed = [
        (old, new) for old, new in zip(before.splitlines(), after.splitlines(), strict=True) if old != new
    ]
    assert changed == [('thickness = "3 in"', 'thickness = "4 in"')]
    assert reply.json()["digest"] == bench.digest


def test_undo_and_redo_go_back_and_forth(client: TestClient, bench: Bench) -> None:
    first = bench.path.read_bytes()
    save(client, bench, "4 in")
    second = bench.path.read_bytes()
    assert (
        client.post("/api/undo", json={"base": bench.digest}).json()["words"]
        == "Vessel reef, wall south, window long: thickness"
    )
    assert bench.path.read_bytes() == first
    assert client.post("/api/redo", json={"base": bench.digest}).status_code == 200
    assert bench.path.read_bytes() == second
    assert client.post("/api/redo", json={"base": bench.digest}).status_code == 409


def test_a_stale_save_is_refused_and_nothing_is_lost(client: TestClient, bench: Bench) -> None:
    old = bench.digest
    assert save(client, bench, "4 in").status_code == 200
    kept = bench.path.read_bytes()
    reply = save(client, bench, "5 in", base=old)
    assert reply.status_code == 409
    assert "Nothing was saved" in reply.json()["words"]
    assert bench.path.read_bytes() == kept


def test_an_edit_elsewhere_is_seen_and_makes_the_tab_stale(client: TestClient, bench: Bench) -> None:
    old = bench.digest
    text = bench.path.read_text("utf-8").replace('thickness = "3 in"', 'thickness = "3 1/2 in"')
    bench.path.write_text(text, "utf-8")
    deadline = time.monotonic() + 5.0
    while client.get("/api/plan").json()["digest"] == old and time.monotonic() < deadline:
        time.sleep(0.05)
    assert '"3 1/2 in"' in client.get("/api/plan").json()["text"]
    assert save(client, bench, "5 in", base=old).status_code == 409
    assert bench.path.read_text("utf-8") == text


def test_an_edit_elsewhere_a_moment_ago_is_not_overwritten(client: TestClient, bench: Bench) -> None:
    """Even before the watch has looked: a save looks first."""
    old = bench.digest
    text = bench.path.read_text("utf-8").replace('thickness = "3 in"', 'thickness = "3 1/2 in"')
    bench.path.write_text(text, "utf-8")
    assert save(client, bench, "5 in", base=old).status_code == 409
    assert bench.path.read_text("utf-8") == text


@pytest.mark.parametrize(
    ("value", "said"), [("4", "no unit"), ("4 kg", ""), ("4 in in", ""), ("thick", ""), (-1, ""), ("", "")]
)
def test_a_half_typed_value_is_never_saved(
    client: TestClient, bench: Bench, value: object, said: str
) -> None:
    before = bench.path.read_bytes()
    reply = save(client, bench, value)
    assert reply.status_code == 422
    fault = reply.json()["faults"][0]
    assert fault["where"] == THICKNESS
    assert fault["line"]
    assert fault["allowed"]
    assert fault["advice"]
    assert said in fault["allowed"] + fault["given"]
    assert bench.path.read_bytes() == before


def test_a_preview_tells_faults_and_reads_back_and_saves_nothing(client: TestClient, bench: Bench) -> None:
    before = bench.path.read_bytes()
    told = client.post("/api/preview", json={"edits": [{"key": THICKNESS, "value": "1 1/2 in"}]}).json()
    assert told["sound"] is True
    assert "38.1 mm" in told["echoes"][THICKNESS]
    assert "1 1/2 in" in told["echoes"][THICKNESS]
    told = client.post("/api/preview", json={"edits": [{"key": THICKNESS, "value": "1 1/2"}]}).json()
    assert told["sound"] is False
    assert told["faults"][0]["where"] == THICKNESS
    assert bench.path.read_bytes() == before


def test_a_faulty_file_leaves_the_last_good_answers(client: TestClient, bench: Bench) -> None:
    good = client.get("/api/question/structure").json()
    bench.path.write_text(
        bench.path.read_text("utf-8").replace('thickness = "3 in"', 'thickness = "3"'), "utf-8"
    )
    bench.look()
    standing = client.get("/api/standing").json()
    assert standing["faults"][0]["where"] == THICKNESS
    assert client.get("/api/question/structure").json() == good
    page = client.get("/question/structure").text
    assert "The plan&#39;s file has 1 fault" in page or "The plan's file has 1 fault" in page
    assert client.get("/file").status_code == 200


def test_a_trial_saves_nothing_until_it_is_kept(client: TestClient, bench: Bench) -> None:
    before = bench.path.read_bytes()
    body = {"edits": [{"key": THICKNESS, "value": "0.9 in"}], "base": bench.digest}
    assert client.post("/api/try", json=body).status_code == 200
    trial = client.get("/api/trial").json()
    assert trial["at_work"] is False
    told = [change for question in trial["questions"] for change in question["changes"]]
    assert any(change["better"] is False for change in told)
    assert bench.path.read_bytes() == before
    assert (
        client.post("/api/trial/keep", json={"base": bench.digest, "trial": trial["number"]}).status_code
        == 200
    )
    assert b'"0.9 in"' in bench.path.read_bytes()
    assert client.get("/api/trial").json()["edits"] == []
    assert client.get("/api/standing").json()["questions"][0]["changes"]


def test_a_plan_that_goes_away_is_told_and_comes_back(client: TestClient, bench: Bench) -> None:
    text = bench.path.read_bytes()
    os.rename(bench.path, bench.path.with_suffix(".away"))
    bench.look()
    assert "no such file" in client.get("/api/standing").json()["faults"][0]["allowed"]
    assert client.get("/question/structure").status_code == 200
    bench.path.write_bytes(text)
    bench.look()
    assert client.get("/api/standing").json()["faults"] == []


# ---- twins -------------------------------------------------------------------------------------


def test_the_page_shows_the_figures_of_its_twin(client: TestClient, bench: Bench) -> None:
    twin = client.get("/api/question/structure").json()
    answer = bench.standings["structure"].answer
    assert answer is not None
    assert twin == as_json.document({"structure": answer}, bench.path.name)
    page = client.get("/question/structure").text
    assert twin["answers"]["structure"]["sentence"] in page


def test_units_change_on_the_page_and_not_in_the_plan(client: TestClient, bench: Bench) -> None:
    before = bench.path.read_bytes()
    assert client.get("/api/plan").json()["system"] == "us"
    client.post("/api/units", json={"system": "metric"})
    assert client.get("/api/plan").json()["system"] == "metric"
    assert "20\u00a0mm" in client.get("/question/structure").text
    assert bench.path.read_bytes() == before


def test_a_table_comes_as_csv_with_its_units(plan: Path) -> None:
    bench = bench_at(plan, "structure")
    with client_of(bench) as client:
        answer = bench.standings["structure"].answer
        assert answer is not None
        table = answer.tables[0]
        reply = client.get(f"/question/structure/table/{table.id}.csv")
        lines = reply.content.decode("utf-8-sig").splitlines()
        assert len(lines) == len(table.rows) + 1
        assert all(column.head in lines[0] for column in table.columns)
        assert client.get("/question/structure/table/none.csv").status_code == 404
        for number in range(len(answer.working)):
            assert client.get(f"/question/structure/working/{number}").status_code == 200
        assert client.get(f"/question/structure/working/{len(answer.working)}").status_code == 404
