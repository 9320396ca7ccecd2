"""What a form offers to be picked: rows of the catalogue with their numbers, names of other parts, what is assumed."""

from __future__ import annotations

import re

import pytest

from tests.laws.plan_texts import SOUND
from tidestead.catalog.rows import TABLES, table
from tidestead.core.errors import Fault
from tidestead.core.units import parse
from tidestead.plan.edits import edited
from tidestead.plan.forms import Draft, edit_typed, field_at, form_at, said, sheet_of
from tidestead.plan.forms.choices import choices_of

SKERRY = next(text for text in SOUND if "Skerry" in text)
BARE = 'tidestead = 1\nname = "rows"\nshow = "metric"\n'
PACKHOUSE = next(text for text in SOUND if 'show = "us"' in text and "vessels" in text)


def test_choices_are_those_the_catalogue_has_with_its_own_numbers() -> None:
    field = field_at(Draft.of(SKERRY), "vessels.basin.walls.all.studs.grade")
    assert field is not None
    assert [choice.value for choice in field.choices] == list(table("lumber").names)
    told = {choice.value: choice.told for choice in field.choices}
    bending = table("lumber")["C24"].si("bending")
    assert parse(told["C24"].split(",")[0].removeprefix("bending "), "pressure") == pytest.approx(
        bending, rel=5e-3
    )
    us = field_at(Draft.of(PACKHOUSE), "vessels.any.walls.all.studs.grade")
    assert us is not None
    assert "psi" in us.choices[0].told
    other = field_at(Draft.of(SKERRY), "vessels.basin.walls.all.studs.grade", system="us")
    assert other is not None
    assert "psi" in other.choices[0].told


@pytest.mark.parametrize("name", TABLES)
def test_every_table_that_a_plan_names_tells_numbers_of_its_rows(name: str) -> None:
    rows = choices_of(name, {}, None, "metric")
    assert [row.value for row in rows] == list(table(name).names)
    assert all(row.label for row in rows)
    plain = [
        row
        for row in table(name)
        if any(not isinstance(datum.value, tuple) for datum in row.figures.values())
    ]
    told = {row.value for row in rows if row.told}
    assert len(told) >= 0.5 * len(plain)


def test_rows_of_the_users_own_stand_first_among_the_choices() -> None:
    text = (
        SKERRY
        + '\n[yours.clear.mine]\nlike = "acrylic-cast"\ntitle = "My sheet"\nstress_water_side = "2 MPa"\n'
    )
    draft = Draft.of(text + '[yours.clear.bad]\nlike = "acrylic-cust"\n')
    field = field_at(draft, "vessels.basin.walls.south.windows.long.material")
    assert field is not None
    assert [choice.value for choice in field.choices][:3] == ["yours:mine", "yours:bad", "acrylic-cast"]
    assert "2 MPa" in field.choices[0].told
    assert field.choices[1].told == "has a fault"


def test_forms_of_own_rows_have_the_keys_of_their_table() -> None:
    text = SKERRY + '\n[yours.lumber.mine]\nlike = "C24"\nbending = "20 MPa"\n'
    form = form_at(sheet_of(Draft.of(text)), "yours.lumber.mine")
    assert form is not None
    keys = {field.name for field in form.fields}
    assert {"title", "like", "source", *table("lumber")["C24"].figures, *table("lumber")["C24"].tags} <= keys
    bending = next(field for field in form.fields if field.name == "bending")
    like = next(field for field in form.fields if field.name == "like")
    assert [choice.value for choice in like.choices] == list(table("lumber").names)
    assert (bending.kind, bending.typed, bending.echo) == ("quantity", "20 MPa", "20 MPa ≈ 2,901 psi")


@pytest.mark.parametrize("name", TABLES)
def test_a_row_typed_like_the_examples_is_sound(name: str) -> None:
    """Every example beside a figure can be typed as it stands."""
    text = f'{BARE}\n[yours.{name}.mine]\nlike = "{table(name).names[0]}"\n'
    draft = Draft.of(text)
    form = form_at(sheet_of(draft), f"yours.{name}.mine")
    assert form is not None
    words = {
        field.name: field.examples[0] for field in form.fields if field.examples and field.kind == "quantity"
    }
    assert words or not any(
        not isinstance(datum.value, tuple) for row in table(name) for datum in row.figures.values()
    )
    edits = [edit_typed(draft, f"yours.{name}.mine.{key}", typed) for key, typed in words.items()]
    assert Draft.of(edited(text, edits)).faults == ()


def test_rows_can_be_added_to_every_table_that_a_plan_names() -> None:
    form = form_at(sheet_of(Draft.of(SKERRY)), "yours")
    assert form is not None
    offered = {more.key.removeprefix("yours.") for more in form.can_add}
    assert {"lumber", "clear", "fasteners", "pipes", "glazings", "corals"} <= offered
    assert offered < set(TABLES)
    assert "timber_factors" not in offered


def test_names_of_other_parts_are_offered() -> None:
    draft = Draft.of(SKERRY)

    def offered(key: str) -> list[str]:
        field = field_at(draft, key)
        assert field is not None
        return [choice.value for choice in field.choices]

    assert offered("heaters.sump.vessel") == ["basin", "tower", "sump", "weirbox"]
    assert {"sump.suction", "manifold"} <= set(offered("circuits.jet.start"))
    assert offered("vessels.basin.stands_on.falls_to") == ["north", "south", "east", "west"]
    assert offered("vessels.weirbox.ports.siphon.bulkhead.wall")[-1] == "floor"
    assert {"valve main", "pump return", "elbow-90"} <= set(offered("circuits.main.route"))


def test_what_is_assumed_is_told() -> None:
    draft = Draft.of(SKERRY)
    told = {
        field.key: field.assumed
        for form in sheet_of(draft, {"vessels.basin.brim": "1.3 m"}).all_forms
        for field in form.fields
    }
    assert told["vessels.basin.brim"] == "1.3 m"
    assert told["vessels.tower.stage"] == "planned"
    assert told["vessels.basin.walls.south.base.embedment"] == "100 mm, as said of all its walls"
    assert told["targets.quiet"] == "yes"
    assert told["pumps.return.speed"] == "100 %"
    assert told["vessels.basin.length"] == ""


@pytest.mark.parametrize(("text", "wanted"), [(PACKHOUSE, "0.15 USD/kWh"), (SKERRY, "0.32 EUR/kWh")])
def test_a_price_is_asked_for_in_the_money_of_the_plan(text: str, wanted: str) -> None:
    """Made-up amounts; a plan that names no money has that of its units."""
    for plan in (text, re.sub(r"(?m)^currency = .*\n", "", text)):
        field = field_at(Draft.of(plan), "supplies.tariff")
        assert field is not None
        assert field.examples == (wanted,)


@pytest.mark.parametrize(
    ("fault", "kind", "words"),
    [
        (
            Fault("x", 3, '"a"', "must be text in quotes.", 'Write "mine".'),
            "text",
            '"a" must be text. Write "mine".',
        ),
        (
            Fault("x", 3, "", "is missing.", 'Add x = "1 m".'),
            "quantity",
            'This is missing. Write it like "1 m".',
        ),
        (Fault("x", 3, "", "is missing.", 'Add x = "slab".'), "choice", "This is missing. Choose one."),
        (
            Fault("x", 3, "04", "must be a whole number without quotes.", ""),
            "whole",
            "04 must be a whole number.",
        ),
        (
            Fault("x", 3, "b", "is odd.", "Write one of these, in quotes."),
            "",
            "b is odd. Write one of these.",
        ),
        (
            Fault("x", 3, "true", "must be true or false, without quotes.", ""),
            "yes_no",
            "true must be true or false.",
        ),
    ],
)
def test_a_fault_speaks_of_fields_to_who_fills_in_a_form(fault: Fault, kind: str, words: str) -> None:
    assert said(fault, kind) == words
