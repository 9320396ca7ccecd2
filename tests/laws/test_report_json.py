"""Answers as JSON: strict whatever the numbers, every null explained, every key in the published schema."""

from __future__ import annotations

import copy
import dataclasses
import json
import math
from collections.abc import Callable
from typing import Any

import jsonschema
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.laws.report_samples import ANSWER, BOOK, CHECKS
from tidestead.core.answer import (
    Answer,
    Check,
    Column,
    Estimate,
    Figure,
    Given,
    Series,
    Step,
    Table,
    Verdict,
    Working,
)
from tidestead.core.scene import Area, Contours, Measure, Note, Scene, Stroke
from tidestead.core.solids import Round, Solid, Span, Tag, Wire
from tidestead.core.source import Known
from tidestead.report import as_json

VALID = jsonschema.Draft202012Validator(as_json.answers_schema())


def closed_schema() -> dict[str, Any]:
    """The published schema, but with no key allowed that it does not describe."""
    schema = copy.deepcopy(as_json.answers_schema())

    def close(node: Any) -> None:
        if isinstance(node, dict):
            if node.get("type") == "object" and "properties" in node:
                node["additionalProperties"] = False
            for value in node.values():
                close(value)
        elif isinstance(node, list):
            for value in node:
                close(value)

    close(schema)
    return schema


CLOSED = jsonschema.Draft202012Validator(closed_schema())


def faults(document: Any, schema: jsonschema.Draft202012Validator) -> list[str]:
    """What the schema finds wrong, each with its place."""
    return [f"{error.json_path}: {error.message}" for error in schema.iter_errors(document)]


def refuse(word: str) -> None:
    raise AssertionError(f"{word} is not JSON")


def read(answer: Answer, ascii_only: bool = False) -> Any:
    text = as_json.dump({"structure": answer}, "reef.toml", ascii_only=ascii_only)
    return json.loads(text, parse_constant=refuse)


def test_schema_is_a_schema() -> None:
    jsonschema.Draft202012Validator.check_schema(as_json.answers_schema())


def test_sample_satisfies_the_schema_and_every_key_is_described() -> None:
    assert not faults(read(ANSWER), CLOSED)
    assert not faults({"format": 1, "tidestead": "1", "plan": "p", "answers": {}}, VALID)


def test_schema_refuses_what_it_should() -> None:
    spoilers: list[Callable[[dict[str, Any]], object]] = [
        lambda document: document.update(format=2),
        lambda document: document["answers"]["structure"].update(verdict="fine"),
        lambda document: document["answers"]["structure"]["checks"][0].pop("unit"),
        lambda document: document["answers"]["structure"]["checks"][0]["source"].update(known="sworn"),
        lambda document: document["answers"]["structure"]["scenes"][0]["shapes"][0].update(kind="blob"),
        lambda document: document["answers"]["structure"]["tables"][0]["rows"][0].append([1]),
        lambda document: document["answers"]["structure"]["rounds"][0]["solids"][0]["points"][0].pop(),
    ]
    for spoil in spoilers:
        document = read(ANSWER)
        spoil(document)
        with pytest.raises(jsonschema.ValidationError):
            VALID.validate(document)


def test_keys_promised_are_there_in_the_words_promised() -> None:
    document = read(ANSWER)
    assert list(document) == ["format", "tidestead", "plan", "answers"]
    answer = document["answers"]["structure"]
    promised = [
        "question",
        "verdict",
        "sentence",
        "checks",
        "assumptions",
        "working",
        "tables",
        "series",
        "figures",
        "scenes",
        "cautions",
    ]
    assert set(promised) <= set(answer)
    check = answer["checks"][0]
    promised = [
        "what",
        "where",
        "value",
        "low",
        "high",
        "unit",
        "limit",
        "must_be",
        "margin",
        "verdict",
        "source",
        "cautions",
    ]
    assert set(promised) <= set(check)
    assert check["source"]["known"] == "read"
    assert check["verdict"] == "fails"
    assert check["margin"] == pytest.approx(1.0 - 0.024 / 0.009)
    assert {known.name.lower() for known in Known} == set(
        as_json.answers_schema()["$defs"]["source"]["properties"]["known"]["enum"]
    )
    assert {verdict.value for verdict in Verdict} == set(as_json.answers_schema()["$defs"]["verdict"]["enum"])


def test_values_are_si_and_unrounded() -> None:
    checks = {check["id"]: check for check in read(ANSWER)["answers"]["structure"]["checks"]}
    for check in CHECKS:
        written = checks[check.id]
        assert check.estimate is not None
        assert (written["low"], written["value"], written["high"]) == (
            check.estimate.low,
            check.estimate.likely,
            check.estimate.high,
        )
        limit = list(check.limit) if isinstance(check.limit, tuple) else check.limit
        assert written["limit"] == limit
        assert written["use"] == check.use


any_number = st.floats(allow_nan=True, allow_infinity=True)
odd_text = st.text(max_size=20)


@given(any_number, any_number, any_number, st.one_of(st.none(), any_number), odd_text)
def test_no_number_breaks_the_document(
    low: float, likely: float, high: float, limit: float | None, words: str
) -> None:
    estimate = Estimate(low, likely, high, words)
    point = (low, high)
    scene = Scene(
        "s",
        words,
        words,
        (
            Area((point, (0.0, 1.0)), "timber", words),
            Stroke((point,), "water"),
            Note(point, words),
            Measure(point, (1.0, likely), high),
            Contours((0.0, low), (0.0, 1.0), ((likely, 0.0), (high, 1.0)), "Pa", words, limit),
        ),
        exaggerated=likely,
    )
    answer = Answer(
        "structure",
        words,
        words,
        (
            Check("a", words, words, "m", estimate, limit, BOOK, datum=low),
            Check("b", "w", "w", "m", None, (low, high), BOOK),
        ),
        (Figure("f", words, estimate, "kg", BOOK),),
        (),
        (Working(words, (Step("x", words, "a*b", (Given("a", low, "m"),), likely, "m", BOOK),)),),
        (Table("t", words, (Column("c", "m"), Column("d")), ((low, words), (None, "x"))),),
        (Series("r", words, "time", "s", "m", (0.0, low), (likely, high)),),
        (scene,),
        rounds=(odd_round((low, likely, high), words),),
    )
    document = read(answer)
    assert not faults(document, CLOSED)
    explained(document)


def odd_round(spot: tuple[float, float, float], words: str) -> Round:
    return Round(
        "r",
        words,
        words,
        (Solid((spot, spot, spot), ((0, 1, 2),), "timber", words, words),),
        (Wire((spot,), "ghost", words, words),),
        (Span(spot, spot, spot),),
        (Tag(spot, words),),
    )


def explained(node: Any) -> None:
    """Every null in an object, in its lists and in parts without reasons of their own, has its reason beside it."""
    if isinstance(node, list):
        for value in node:
            explained(value)
    if not isinstance(node, dict):
        return
    if "why_null" in node:
        reasons = node["why_null"]
        places = {place for key, value in node.items() for place in nulls(key, value)}
        assert places == set(reasons)
        assert all(reasons.values())
    for value in node.values():
        explained(value)


def nulls(place: str, value: Any) -> list[str]:
    if value is None:
        return [place]
    if isinstance(value, list):
        return [found for index, item in enumerate(value) for found in nulls(f"{place}/{index}", item)]
    if isinstance(value, dict) and "why_null" not in value:
        return [found for key, item in value.items() for found in nulls(f"{place}/{key}", item)]
    return []


def test_how_far_a_thing_was_followed_stands_beside_its_value_and_only_there() -> None:
    hours = Estimate(1.0, 5.0, 5.0, "", 5.0)
    answer = dataclasses.replace(
        ANSWER,
        checks=(dataclasses.replace(ANSWER.checks[0], estimate=hours), ANSWER.checks[1]),
        figures=(
            Figure("x", "hours", hours, "s", BOOK),
            Figure("y", "hours", Estimate.exact(5.0), "s", BOOK),
        ),
    )
    document = read(answer)
    assert not faults(document, CLOSED)
    told = document["answers"]["structure"]
    assert [one.get("followed") for one in told["figures"]] == [5.0, None]
    checks = {one["id"]: one for one in told["checks"]}
    assert checks[ANSWER.checks[0].id]["followed"] == 5.0
    assert "followed" not in checks[ANSWER.checks[1].id]


def test_endless_margin_says_why_it_is_null() -> None:
    check = Check("a", "what", "where", "m", Estimate.exact(1.0), 0.0, BOOK)
    written = read(dataclasses.replace(ANSWER, checks=(check,)))["answers"]["structure"]["checks"][0]
    assert written["verdict"] == "fails"
    assert math.isinf(check.use or 0.0)
    assert (written["use"], written["margin"]) == (None, None)
    assert written["why_null"]["use"] == "infinite"


def test_text_outside_ascii_survives_both_ways() -> None:
    answer = dataclasses.replace(ANSWER, sentence='25 °C, ½ in, "quoted" \u2028 [\n 1,\n 2\n]')
    for ascii_only in (True, False):
        assert read(answer, ascii_only)["answers"]["structure"]["sentence"] == answer.sentence
    assert as_json.dump({"structure": answer}, "p", ascii_only=True).isascii()
