"""Words of forms: hints speak of fields, vessels are picked from those there are, shared walls are called so."""

from __future__ import annotations

import re

import pytest

from tests.laws.test_plan_forms import SKERRY, fields_of, whole_text
from tidestead.core.errors import PlanError
from tidestead.plan import loads
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


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        ("08:00", "08:00 = 8:00 am"),
        ("00:05", "00:05 = 12:05 am"),
        ("12:30", "12:30 = 12:30 pm"),
        ("23:59", "23:59 = 11:59 pm"),
    ],
)
def test_a_time_of_the_day_is_read_back_as_a_clock_shows_it(typed: str, told: str) -> None:
    text = re.sub(r"looks = \[[^\]]*\]", f'looks = ["{typed}"]', SKERRY)
    field = next(one for one in fields_of(sheet_of(Draft.of(text))) if one.key == "response.looks")
    assert (field.typed, field.echo) == (typed, told)


def test_a_vat_smaller_than_a_bucket_is_refused_with_the_least() -> None:
    """350 mL was taken, and a change of it told in years."""
    with pytest.raises(PlanError) as refused:
        loads(SKERRY.replace('holds = "350 L"', 'holds = "350 mL"'))
    assert "changes.holds" in str(refused.value)
    assert "10 L or more" in str(refused.value)
    changes = loads(SKERRY.replace('holds = "350 L"', 'holds = "10 L"')).plan.changes
    assert changes is not None
    assert changes.holds == pytest.approx(0.01)
