"""What `--json` and the exported schemas promise, held on both examples."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import jsonschema
import pytest

from tests.laws.test_report_json import CLOSED, explained, faults
from tidestead.cli import main
from tidestead.report.as_json import answers_schema

EXAMPLES = Path(__file__).parents[2] / "examples"
EACH = pytest.mark.parametrize("name", ["packhouse", "skerry"])
ONE_QUICKLY = pytest.mark.parametrize("name", ["packhouse", pytest.param("skerry", marks=pytest.mark.long)])
"""All questions of an example: the other's documents are held by the tests of its faults, flow and structure."""


def asked(args: list[str], capsys: pytest.CaptureFixture[str]) -> Any:
    assert main(args) == 0
    shown = capsys.readouterr()
    assert shown.err == ""
    return json.loads(shown.out, parse_constant=lambda word: pytest.fail(f"{word} is not JSON"))


@ONE_QUICKLY
def test_json_satisfies_the_published_schema(name: str, capsys: pytest.CaptureFixture[str]) -> None:
    document = asked(["ask", str(EXAMPLES / f"{name}.toml"), "--json"], capsys)
    assert not faults(document, jsonschema.Draft202012Validator(answers_schema()))
    assert not faults(document, CLOSED)
    explained(document)
    answer = document["answers"]["structure"]
    for part in ("checks", "working", "assumptions", "scenes", "cautions", "tables"):
        assert answer[part], part


@EACH
def test_verdicts_follow_from_the_numbers_given(name: str, capsys: pytest.CaptureFixture[str]) -> None:
    """A reader can judge every check anew from its own value, limit, datum and near."""
    document = asked(["ask", str(EXAMPLES / f"{name}.toml"), "structure", "--json"], capsys)
    checks = document["answers"]["structure"]["checks"]
    assert len({check["id"] for check in checks}) == len(checks)
    judged = 0
    for check in checks:
        if check["use"] is None or isinstance(check["limit"], list):
            continue
        room, high, low = (
            check["limit"] - check["datum"],
            check["high"] - check["datum"],
            check["low"] - check["datum"],
        )
        use = high / room if check["must_be"] == "below" else room / low
        assert check["use"] == pytest.approx(max(use, 0.0))
        assert check["margin"] == pytest.approx(1.0 - check["use"])
        expected = (
            "fails" if check["use"] > 1.0 else "near" if check["use"] > 1.0 - check["near"] else "sound"
        )
        assert check["verdict"] == expected
        judged += 1
    assert judged > 10


@EACH
def test_values_do_not_depend_on_the_units_shown(name: str, capsys: pytest.CaptureFixture[str]) -> None:
    plan = str(EXAMPLES / f"{name}.toml")
    metric = asked(["ask", plan, "structure", "--json", "--units", "metric"], capsys)
    us = asked(["ask", plan, "structure", "--json", "--units", "us"], capsys)
    pick = ("id", "value", "low", "high", "unit", "limit", "use", "verdict")
    rows = [
        [[check[key] for key in pick] for check in one["answers"]["structure"]["checks"]]
        for one in (metric, us)
    ]
    assert rows[0] == rows[1]


def test_exported_json_is_what_ask_prints(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    plan = str(EXAMPLES / "packhouse.toml")
    assert main(["export", plan, "--to", "json", "-o", str(tmp_path / "answers.json")]) == 0
    assert capsys.readouterr().out == f"{tmp_path / 'answers.json'}\n"
    exported = json.loads((tmp_path / "answers.json").read_text("utf-8"))
    assert exported == asked(["ask", plan, "--json"], capsys)
    assert exported == asked(["export", plan, "--to", "json"], capsys)


def test_schemas_are_published(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """JSON Schema 2020-12, both of plans and of answers."""
    assert main(["export", "--to", "schema", "-o", str(tmp_path / "schemas")]) == 0
    assert len(capsys.readouterr().out.split()) == 2
    for name in ("plan.schema.json", "answers.schema.json"):
        schema = json.loads((tmp_path / "schemas" / name).read_text("utf-8"))
        assert schema["$schema"] == "https://json-schema.org/draft/2020-12/schema"
        jsonschema.Draft202012Validator.check_schema(schema)
    assert schema == answers_schema()
