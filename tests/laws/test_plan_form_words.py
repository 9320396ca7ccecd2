"""Words of forms: hints speak of fields, vessels are picked from those there are, shared walls are called so."""

from __future__ import annotations

import re

import pytest

from tests.laws.test_plan_forms import SKERRY, fields_of, whole_text
from tidestead.plan.forms import Draft, field_at, form_at, sheet_of, words_of_key


def test_hints_speak_of_fields_and_not_of_the_file() -> None:
    for field in fields_of(sheet_of(Draft.of(whole_text()))):
        assert not re.search(
            r'\["|"\]|\[[a-z]+\.|catalogue name, such as|without quotes|in quotes', field.told
        ), (
            field.key,
            field.told,
        )


@pytest.mark.parametrize("key", ["heaters.x.vessel", "chillers.x.vessel", "covers.x.over", "corals.x.vessel"])
def test_a_vessel_is_picked_from_those_there_are(key: str) -> None:
    field = field_at(Draft.of(SKERRY), key)
    assert field is not None
    assert field.kind == "choice"
    assert [one.value for one in field.choices] == ["basin", "tower", "sump", "weirbox"]


def test_what_all_walls_share_is_called_so() -> None:
    form = form_at(sheet_of(Draft.of(SKERRY)), "vessels.basin.walls.all")
    assert form is not None
    assert form.title == "What all walls share"
    assert words_of_key("vessels.basin.walls.all") == "Vessel basin, what all walls share"
