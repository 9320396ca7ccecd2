"""The values of a text are read once and shared; nobody's change of them is seen by the next."""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest

from tidestead.plan import loads
from tidestead.plan.edits import Edit, edited
from tidestead.plan.parts import copied, removed, renamed
from tidestead.plan.toml import own_values, values_in

SKERRY = (Path(__file__).parents[2] / "examples" / "skerry.toml").read_text("utf-8")


def test_own_values_are_nobody_else_s() -> None:
    mine = own_values(SKERRY)
    mine["vessels"]["basin"].clear()
    assert values_in(SKERRY) == own_values(SKERRY) == tomllib.loads(SKERRY)


@pytest.mark.parametrize(
    "change",
    [
        lambda text: loads(text).text,
        lambda text: edited(text, [Edit("vessels.basin.water", "1.1 m"), Edit("name", None)]),
        lambda text: edited(text, [Edit("yours.soils.peat", {"like": "clay"})]),
        lambda text: copied(text, "vessels.sump", "second"),
        lambda text: renamed(text, "vessels.sump", "second"),
        lambda text: removed(text, "vessels.sump"),
    ],
)
def test_no_change_of_a_text_changes_what_was_read_of_it(change: object) -> None:
    values_in(SKERRY)
    assert callable(change)
    change(SKERRY)
    assert values_in(SKERRY) == tomllib.loads(SKERRY)


def test_what_is_not_toml_is_refused_each_time() -> None:
    for _ in range(2):
        with pytest.raises(tomllib.TOMLDecodeError):
            values_in("half a")
