"""Forms show every key of the model once, say what was typed as it was typed, and put faults where they belong."""

from __future__ import annotations

import re
import tomllib
from collections import Counter
from collections.abc import Iterator
from functools import cache
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.laws.plan_texts import SOUND, broken_plans
from tests.many import many
from tidestead.core.errors import PlanError
from tidestead.plan import json_schema
from tidestead.plan.editing import path_of, with_value
from tidestead.plan.edits import edited
from tidestead.plan.forms import (
    Draft,
    Field,
    Form,
    Sheet,
    blank_form,
    edit_typed,
    field_at,
    form_at,
    part_typed,
    sheet_of,
)
from tidestead.plan.forms.groups import GATHERINGS, gatherings
from tidestead.plan.forms_echo import echoes
from tidestead.plan.model import Plan

SKERRY = next(text for text in SOUND if "Skerry" in text)


def fields_of(sheet: Sheet) -> Iterator[Field]:
    for form in sheet.all_forms:
        yield from form.fields


def pattern(key: str, names: set[str]) -> str:
    return ".".join("*" if part in names else part for part in key.split("."))


def schema_leaves(node: dict[str, Any], schema: dict[str, Any], path: str = "") -> Iterator[str]:
    """Every leaf key of the published JSON Schema, `*` for a name of the user's: read without the model's classes."""
    node = schema["$defs"][node["$ref"].rpartition("/")[2]] if "$ref" in node else node
    if "properties" in node:
        for key, inner in node["properties"].items():
            yield from schema_leaves(inner, schema, f"{path}.{key}" if path else key)
    elif node.get("type") == "object":
        inner = next(iter(node.get("patternProperties", {}).values()), None) or node.get(
            "additionalProperties"
        )
        if isinstance(inner, dict):
            yield from schema_leaves(inner, schema, f"{path}.*")
    else:
        yield path


def filled(node: dict[str, Any], schema: dict[str, Any], depth: int = 0) -> Any:
    """A value for every key of the schema, sound or not."""
    if "$ref" in node:
        node = schema["$defs"][node["$ref"].rpartition("/")[2]]
    if "properties" in node:
        return {key: filled(inner, schema, depth + 1) for key, inner in node["properties"].items()}
    inner = next(iter(node.get("patternProperties", {}).values()), None)
    if inner is not None:
        return {"part-x": filled(inner, schema, depth + 1)}
    return "?"


def whole_text() -> str:
    """A plan text in which every key of the model stands, with a value that is wrong nearly everywhere."""
    schema = json_schema()
    values = filled(schema, schema)
    del values["yours"]
    lines = []

    def write(table: dict[str, Any], path: str) -> None:
        plain = {key: value for key, value in table.items() if not isinstance(value, dict)}
        if path and plain:
            lines.append(f"[{path}]")
        lines.extend(f'{key} = "{value}"' for key, value in plain.items())
        for key, value in table.items():
            if isinstance(value, dict):
                write(value, f"{path}.{key}" if path else key)

    write(values, "")
    return "\n".join(lines) + "\n"


def test_every_leaf_key_of_the_model_stands_in_exactly_one_group() -> None:
    schema = json_schema()
    wanted = {leaf for leaf in schema_leaves(schema, schema) if not leaf.startswith("yours")}
    sheet = sheet_of(Draft.of(whole_text()))
    shown = Counter(pattern(field.key, {"part-x"}) for field in fields_of(sheet))
    assert set(shown) == wanted
    assert set(shown.values()) == {1}
    assert len(wanted) > 250


def test_a_key_that_no_group_names_goes_into_more() -> None:
    groups = gatherings((*Plan.model_fields, "tides"))
    assert groups[-1].name == "more"
    assert groups[-1].keys == ("tides",)
    assert not any(not group.keys for group in groups)
    named = [key for group in GATHERINGS for key in group.keys]
    assert len(named) == len(set(named))
    assert set(Plan.model_fields) <= set(named)
    assert [group.name for group in gatherings(tuple(Plan.model_fields))][-1] != "more"


FEW = 4
"""Rows of a price book that are tried: all are alike, and every edit reads the whole text again."""


@pytest.mark.parametrize("text", SOUND, ids=["metric", "us", "one", "other"])
def test_what_is_typed_round_trips(text: str) -> None:
    """A field taken as typed and written back makes the same plan, byte for byte where it is one value."""
    draft, rows = Draft.of(text), Counter[str]()
    for field in fields_of(sheet_of(draft)):
        edit = edit_typed(draft, field.key, field.typed)
        standing = draft.at(path_of(field.key))
        assert edit.value == standing, field.key
        alike = re.sub(r"^book\.[^.]+", "book", field.key)
        if field.typed and field.kind != "list" and not isinstance(standing, float):
            rows[alike] += 1
            assert rows[alike] > FEW or edited(text, [edit]) == text


@pytest.mark.parametrize("text", SOUND, ids=["metric", "us", "one", "other"])
def test_every_key_of_the_file_stands_in_a_field(text: str) -> None:
    def leaves(values: Any, path: tuple[str, ...] = ()) -> Iterator[str]:
        if isinstance(values, dict):
            for key, value in values.items():
                yield from leaves(value, (*path, key))
        else:
            yield ".".join(path)

    typed = {field.key for field in fields_of(sheet_of(Draft.of(text))) if field.typed}
    assert typed == set(leaves(tomllib.loads(text)))


@cache
def quantities(text: str) -> list[Field]:
    found = fields_of(sheet_of(Draft.of(text)))
    return [field for field in found if field.kind == "quantity" and field.examples]


@settings(max_examples=many(40, 25), deadline=None)
@given(st.data(), st.sampled_from(SOUND))
def test_edits_by_forms_are_edits_by_hand(data: st.DataObject, text: str) -> None:
    draft = Draft.of(text)
    field = data.draw(st.sampled_from(quantities(text)))
    words = data.draw(st.sampled_from(field.examples))
    by_form = edited(text, [edit_typed(draft, field.key, f"  {words} ")])
    assert by_form == with_value(text, path_of(field.key), words)
    again = field_at(Draft.of(by_form), field.key)
    assert again is not None
    assert again.typed == words
    if again.typed and field.typed:
        assert edited(by_form, [edit_typed(Draft.of(by_form), field.key, field.typed)]) == text


ECHOED = [
    ("vessels.basin.length", "4.0 m", "4 m ≈ 13 ft 1 1/2 in"),
    ("vessels.basin.walls.all.studs.section", "2x6", "38.1 mm by 139.7 mm"),
    ("water.keep", "24 to 27 degC", "75.2 °F to 80.6 °F"),
    ("building.infiltration", "0.6 1/h", "0.6 an hour"),
    ("building.faces", "south-east", "135°"),
    ("building.shade.share", "50 %", "50 %"),
    ("covers.lid.months", "Nov to Feb", "November to February, 4 months"),
    ("supplies.tariff", "0.32 EUR/kWh", "0.32 EUR for one kWh"),
    ("circuits.jet.route", "elbow-90 x3", "Elbow 90 degrees, 3 of them"),
    ("building.floor.layers", "50 mm xps", "50 mm ≈ 1.97 in"),
    ("pumps.return.curve", "6 m3/h at 6.1 m", "1,585 US gal/h, at a head of 6.1 m"),
    ("weather.normals.sun", "2.1 kWh/m2/day", "2.1 kWh/m² a day"),
    ("vessels.basin.lining.product", "epdm-45-mil", "1.14 mm thick"),
    ("water.phosphate", "0.06 mg/L", "0.06 mg/L"),
    ("water.calcium", "420 mg/L", "420 mg/L"),
    ("dosers.soda.strength", "100 g/L", "100 g/L"),
    ("losses.skimmate", "1.2 L/day", "1.2 L/day ≈ 0.317 US gal/day"),
    ("supply.cable", "10 mm2", "10 mm² of copper"),
    ("vessels.basin.length", "4", ""),
    ("vessels.basin.length", "half", ""),
]


@pytest.mark.parametrize(("key", "words", "echo"), ECHOED)
def test_a_value_is_read_back_in_both_systems(key: str, words: str, echo: str) -> None:
    draft = Draft.of(SKERRY)
    text = edited(SKERRY, [edit_typed(draft, key, words)])
    field = field_at(Draft.of(text), key)
    assert field is not None
    assert echo in field.echo
    assert bool(field.echo) is bool(echo)
    assert echoes(text, [key, "no such key", "[]"]) == ({key: field.echo} if echo else {})


@pytest.mark.parametrize(
    ("key", "wanted"),
    [("changes.source", "osmosis"), ("electrics.heat.shares", "water"), ("changes.vat", "sump")],
)
def test_names_that_may_be_picked_are_those_of_their_own_table(key: str, wanted: str) -> None:
    field = field_at(Draft.of(SKERRY), key)
    assert field is not None
    named = [choice.value for choice in field.choices]
    assert wanted in named
    assert ("basin" in named) is (key == "changes.vat")


@pytest.mark.parametrize("text", SOUND, ids=["metric", "us", "one", "other"])
def test_every_sound_quantity_is_read_back(text: str) -> None:
    for field in fields_of(sheet_of(Draft.of(text))):
        if field.kind in ("quantity", "catalogue", "price") and field.typed:
            assert field.echo, field.key


MISTAKES = [
    ('length = "4.0 m" ', 'length = "4.0" ', "vessels.basin.length"),
    ('width = "2.4 m" ', 'width = "5 m" ', "vessels.basin.walls.south.windows.long.width"),
    ('role = "display"', 'role = "show"', "vessels.basin.role"),
    ('grade = "C24"\nspacing = "300 mm"\ntop', 'grade = "C25"\nspacing = "300 mm"\ntop',
     "vessels.basin.walls.all.studs.grade"),
    ('"2.0 m", "3.0 m"', '"2.0 m", "9.0 m"', "vessels.basin.ties.cross.at"),
    ("latitude = 58.4", "latitude = 158.4", "site.latitude"),
    ("latitude = 58.4", 'latitude = "58.4 E"', "site.latitude"),
    ('height = "1.30 m"', 'heigth = "1.30 m"', "vessels.basin.heigth"),
    ('height = "1.30 m"\n', "\n", "vessels.basin.height"),
    ('edges = { left = "seat", right = "seat", bottom = "seat", top = "rim" }',
     'edges = { left = "seat", right = "seat", bottom = "seat" }', "vessels.basin.walls.south.windows.long.edges.top"),
    ('start = "sump.suction"', 'start = "sump.suctoin"', "circuits.main.start"),
    ('"elbow-90 x3", "apparatus lamp"', '"elbow-90 x3", "apparatus lump"', "circuits.jet.route"),
    ("[vessels.tower.cone]", "[vessels.tower.comb]", "vessels.tower"),
    ("[vessels.basin.walls.west.windows.end]", "[vessels.basin.walls.up.windows.end]", "vessels.basin.walls.up"),
    ('water = "1.18 m"', "water = 1.18 m", "vessels.basin.water"),
    ('tariff = "0.32 EUR/kWh"', 'tariff = "0.32 EUR/month"', "supplies.tariff"),
]  # fmt: skip


@pytest.mark.parametrize(("sound", "planted", "key"), MISTAKES)
def test_a_planted_mistake_is_told_at_its_field(sound: str, planted: str, key: str) -> None:
    assert SKERRY.count(sound) >= 1
    draft = Draft.of(SKERRY.replace(sound, planted, 1))
    sheet = sheet_of(draft)
    assert draft.faults
    assert not draft.sound
    landed = {field.key: field.faults for field in fields_of(sheet) if field.faults}
    landed |= {form.key: form.faults for form in sheet.all_forms if form.faults}
    assert key in landed, sorted(landed)
    field = field_at(draft, key) if "." in key and key != "vessels.basin.heigth" else None
    if field is not None:
        assert field.faults == landed[key]


def test_a_value_without_its_quotes_is_seen_as_typed() -> None:
    field = field_at(Draft.of(SKERRY.replace('water = "1.18 m"', "water = 1.18 m")), "vessels.basin.water")
    assert field is not None
    assert field.typed == "1.18 m"
    assert "quotes" in field.faults[0].allowed


@settings(max_examples=many(40, 25), deadline=None)
@given(broken_plans())
def test_every_fault_of_any_text_is_told_in_exactly_one_place(text: str) -> None:
    draft = Draft.of(text)
    sheet = sheet_of(draft)
    told = [*sheet.faults, *(fault for group in sheet.groups for fault in group.all_faults)]
    assert Counter(told) == Counter(draft.faults)
    keys = Counter(field.key for field in fields_of(sheet))
    assert set(keys.values()) <= {1}


@pytest.mark.parametrize(
    "text", ["", "\0", "x" * 10, "[[vessels]]\nrole = 1\n", "vessels = 3\n", 'vessels.basin = "x"\n']
)
def test_what_is_no_plan_has_forms_all_the_same(text: str) -> None:
    sheet = sheet_of(Draft.of(text))
    assert [group.name for group in sheet.groups][:2] == ["plan", "site"]
    assert sheet.faults or any(group.all_faults for group in sheet.groups)


def test_a_key_that_means_nothing_can_be_taken_out() -> None:
    text = SKERRY.replace('role = "display"', 'role = "display"\ncolour = "blue"')
    draft = Draft.of(text)
    field = next(field for field in fields_of(sheet_of(draft)) if field.key == "vessels.basin.colour")
    assert (field.kind, field.typed) == ("unknown", "blue")
    assert edited(text, [edit_typed(draft, field.key, "")]) == SKERRY


def test_every_field_says_what_it_is() -> None:
    sheet = sheet_of(Draft.of(whole_text()))
    told = [field for field in fields_of(sheet) if field.told]
    assert len(told) > 0.9 * sum(1 for _ in fields_of(sheet))
    assert all(re.match(r"[A-Z]|pH$", field.label) for field in fields_of(sheet))


# Parts to be added


def test_a_new_part_is_judged_whole_and_lands_whole() -> None:
    draft = Draft.of(SKERRY)
    form = blank_form(draft, "heaters.new")
    assert form is not None
    assert form.title == "Heater new"
    assert [field.name for field in form.fields if field.needed] == ["vessel", "power", "setpoint"]
    half = edited(SKERRY, [part_typed(draft, "heaters.new", {"vessel": "basin", "count": "2"})])
    missing = form_at(sheet_of(Draft.of(half)), "heaters.new")
    assert missing is not None
    assert {field.name for field in missing.fields if field.faults} == {"power", "setpoint"}
    words = {"vessel": "basin", "count": "2", "power": '"500 W"', "setpoint": "24 degC", "band": ""}
    whole = edited(SKERRY, [part_typed(draft, "heaters.new", words)])
    assert Draft.of(whole).sound
    table_of = {"vessel": "basin", "count": 2, "power": "500 W", "setpoint": "24 degC"}
    assert tomllib.loads(whole)["heaters"]["new"] == table_of


def test_a_part_that_needs_others_brings_them() -> None:
    form = blank_form(Draft.of(SKERRY), "vessels.basin.walls.north.windows.new")
    assert form is not None
    assert {part.key for part in form.can_add} >= {"vessels.basin.walls.north.windows.new.edges"}
    assert blank_form(Draft.of(SKERRY), "vessels.basin.colour.x") is None
    assert blank_form(Draft.of(SKERRY), "vessels.basin.water") is None
    with pytest.raises(PlanError):
        blank_form(Draft.of(SKERRY), "..")


def test_every_addable_table_has_a_blank_form() -> None:
    draft = Draft.of(SKERRY)
    count = 0
    for form in sheet_of(draft).all_forms:
        for more in form.can_add:
            key = f"{more.key}.{(more.names or ('new',))[0]}" if more.named else more.key
            blank = blank_form(draft, key)
            assert blank is not None, key
            assert blank.fields or blank.can_add, key
            count += 1
    assert count > 60


def test_only_the_walls_a_vessel_has_can_be_added() -> None:
    form = form_at(sheet_of(Draft.of(SKERRY)), "vessels.basin.walls")
    assert form is not None
    assert form.can_add[0].names == ("north", "east")
    assert form.can_add[0].only


def test_forms_say_what_may_be_copied_and_removed() -> None:
    sheet = sheet_of(Draft.of(SKERRY))

    def may(key: str) -> tuple[bool, bool]:
        form = form_at(sheet, key)
        assert isinstance(form, Form)
        return form.can_copy, form.can_remove

    assert may("vessels.basin") == (True, True)
    assert may("vessels.basin.lining") == (False, True)
    assert may("site") == (False, False)
    assert may("vessels") == (False, False)
    assert form_at(sheet, "") is None


@pytest.mark.parametrize(
    ("key", "words", "value"),
    [
        ("heaters.sump.count", "4", 4),
        ("heaters.sump.count", "four", "four"),
        ("site.latitude", "58.40", 58.4),
        ("site.latitude", "58.4 N", "58.4 N"),
        ("site.latitude", "9" * 400, "9" * 400),
        ("targets.quiet", "no", False),
        ("targets.quiet", "perhaps", "perhaps"),
        ("targets.turnover", "0.7", "0.7"),
        ("vessels.basin.length", ' "4 m" ', "4 m"),
        ("vessels.basin.length", '48"', '48"'),
        ("vessels.basin.length", "  ", None),
        ("vessels.basin.ties.cross.at", "1 m\n\n 2 m \n", ["1 m", "2 m"]),
        ("vessels.basin.ties.cross.as_built.cracked", "1\n3", [1, 3]),
        ("vessels.basin.colour", "blue", "blue"),
        ("vessels.basin", "blue", "blue"),
    ],
)
def test_typed_words_become_the_values_a_file_holds(key: str, words: str, value: Any) -> None:
    made = edit_typed(Draft.of(SKERRY), key, words)
    assert made.value == value
    assert type(made.value) is type(value)


def test_a_number_without_a_unit_stays_a_number() -> None:
    text = SKERRY.replace('turnover = "0.7" ', "turnover = 0.7 ", 1)
    assert text != SKERRY
    assert edit_typed(Draft.of(text), "targets.turnover", "0.8").value == 0.8
