"""Older layouts are brought to the newest, step by step; newer ones are not guessed at."""

from __future__ import annotations

from typing import Any

import pytest

from tidestead.plan.lines import Lines
from tidestead.plan.migration import STEPS, Step, migrated
from tidestead.plan.model import VERSION

OLD = 'tidestead = -1\ntitle = "Old basin"\n[tank]\ndeep_mm = 900\n'


def _named(values: dict[str, Any]) -> dict[str, Any]:
    """A made-up layout -1 called the name a title."""
    return {("name" if key == "title" else key): value for key, value in values.items()}


def _with_units(values: dict[str, Any]) -> dict[str, Any]:
    """A made-up layout 0 had bare millimetres and one tank."""
    tank = {"height": f"{values['tank']['deep_mm']} mm"}
    return {key: value for key, value in values.items() if key != "tank"} | {"vessels": {"tank": tank}}


STEPS_MADE_UP: dict[int, Step] = {-1: _named, 0: _with_units}


def test_each_step_is_taken_in_order() -> None:
    old = {"tidestead": -1, "title": "Old basin", "tank": {"deep_mm": 900}}
    values, faults = migrated(old, Lines.of(OLD), STEPS_MADE_UP, newest=1)
    assert values == {"tidestead": 1, "name": "Old basin", "vessels": {"tank": {"height": "900 mm"}}}
    assert not faults
    assert old == {"tidestead": -1, "title": "Old basin", "tank": {"deep_mm": 900}}


def test_a_plan_begins_where_its_own_version_is() -> None:
    values, faults = migrated({"tidestead": 0, "tank": {"deep_mm": 5}}, Lines.of(""), STEPS_MADE_UP, newest=1)
    assert values == {"tidestead": 1, "vessels": {"tank": {"height": "5 mm"}}}
    assert not faults


def test_the_newest_layout_is_left_as_it_is() -> None:
    values = {"tidestead": VERSION, "name": "x"}
    assert migrated(values, Lines.of("")) == (values, [])


def test_there_is_a_step_from_every_version_that_was_left_behind() -> None:
    assert sorted(STEPS) == list(range(VERSION - len(STEPS), VERSION))


@pytest.mark.parametrize(("version", "words"), [(2, "newer layout"), (-2, "no layout there ever was")])
def test_what_is_not_between_is_refused_on_its_line(version: int, words: str) -> None:
    text = f"# a plan\ntidestead = {version}\n"
    values, (fault,) = migrated({"tidestead": version}, Lines.of(text), STEPS_MADE_UP, newest=1)
    assert (fault.where, fault.line, fault.given) == ("tidestead", 2, str(version))
    assert words in fault.allowed
    assert (values is None) == (version > 1)
