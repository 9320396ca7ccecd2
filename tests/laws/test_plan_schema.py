"""The published schema takes every plan that loads, and refuses what an editor can see is wrong."""

from __future__ import annotations

import json
import tomllib
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from tests.laws.plan_texts import SOUND
from tidestead.catalog import table
from tidestead.plan import json_schema, loads

SCHEMA = json_schema()
VALIDATOR = Draft202012Validator(SCHEMA)


def test_it_is_a_schema_of_2020_12_and_plain_json() -> None:
    Draft202012Validator.check_schema(SCHEMA)
    assert SCHEMA["$schema"] == "https://json-schema.org/draft/2020-12/schema"
    assert json.loads(json.dumps(SCHEMA)) == SCHEMA


@pytest.mark.parametrize("text", SOUND)
def test_it_takes_every_plan_that_loads(text: str) -> None:
    assert loads(text).plan
    assert not list(VALIDATOR.iter_errors(tomllib.loads(text)))


@pytest.mark.parametrize(
    ("key", "value"),
    [
        ("vessels.basin.water", "24"),
        ("vessels.basin.water", 24),
        ("vessels.basin.wather", "1 m"),
        ("vessels.basin.shape", "cube"),
        ("vessels.basin.lining.coats", "5"),
        ("vessels.basin.lining.product", "treacle"),
        ("vessels.basin.ties.cross.at", "1 m"),
        ("vessels.basin.walls.all.studs.section", ""),
        ("site.latitude", 91),
        ("currency", "euro"),
        ("tidestead", 2),
    ],
)
def test_it_refuses_what_an_editor_can_see(key: str, value: Any) -> None:
    plan = tomllib.loads(SOUND[0])
    *way, last = key.split(".")
    here = plan
    for part in way:
        here = here.setdefault(part, {})
    here[last] = value
    assert list(VALIDATOR.iter_errors(plan))


def test_names_of_parts_are_bound_there_too() -> None:
    plan = tomllib.loads(SOUND[0])
    plan["vessels"]["Big Tank"] = plan["vessels"].pop("basin")
    assert list(VALIDATOR.iter_errors(plan))


def test_the_users_own_rows_pass() -> None:
    plan = tomllib.loads(SOUND[0])
    plan["vessels"]["basin"]["lining"]["product"] = "yours:my-rubber"
    plan["yours"] = {"linings": {"my-rubber": {"like": "liquid-rubber", "elongation": "300 %"}}}
    assert not list(VALIDATOR.iter_errors(plan))


def test_it_says_what_fields_mean_and_offers_what_may_be_written() -> None:
    parts = SCHEMA["$defs"]
    assert parts["Vessel"]["properties"]["water"]["description"] == "Depth in service."
    assert "4 ft 6 in" in parts["Vessel"]["properties"]["water"]["examples"]
    lumber = parts["Studs"]["properties"]["grade"]
    assert lumber["anyOf"][0]["enum"] == list(table("lumber").names)
    assert parts["Rim"]["properties"]["lies"]["enum"] == ["flat", "on edge"]
    assert parts["Site"]["properties"]["latitude"]["description"] == "Degrees, north positive."


def test_no_field_with_words_in_the_source_loses_them() -> None:
    described = sum(
        "description" in field
        for part in SCHEMA["$defs"].values()
        for field in part.get("properties", {}).values()
    )
    assert described > 50


def test_toml_has_no_null() -> None:
    assert '"null"' not in json.dumps(SCHEMA)
