"""The part that a check names is found in the plan: its own table, and never one that happens to bear the name."""

from __future__ import annotations

from copy import deepcopy
from typing import Any

import pytest

from tidestead.plan.places import key_finder, key_of_part

PLAN: dict[str, Any] = {
    "building": {"floor": {"thickness": "100 mm"}, "sides": {"south": {}}},
    "corals": {"floor": {"depth": "1 m"}},
    "vessels": {
        "reef": {
            "walls": {
                "all": {
                    "studs": {"section": "45 x 95 mm", "foot": {"count": 4}},
                    "base": {"spacing": "200 mm"},
                },
                "south": {"windows": {"long": {"thickness": "60 mm"}}},
                "east": {"studs": {"spacing": "300 mm"}},
            },
            "ties": {"cross": {"at": ["1 m"]}},
        }
    },
}


@pytest.mark.parametrize(
    ("part", "key"),
    [
        ("floor", "corals.floor"),
        ("reef", "vessels.reef"),
        ("building", "building"),
        ("building.floor", "building.floor"),
        ("reef.south", "vessels.reef.walls.south"),
        ("reef.south.long", "vessels.reef.walls.south.windows.long"),
        ("reef.south.base", "vessels.reef.walls.all.base"),
        ("reef.south.studs", "vessels.reef.walls.all.studs"),
        ("reef.east.studs", "vessels.reef.walls.east.studs"),
        ("reef.east.studs.foot", "vessels.reef.walls.all.studs.foot"),
        ("reef.east.rim", "vessels.reef.walls.east"),
        ("reef.ties.cross", "vessels.reef.ties.cross"),
        ("nothing", ""),
        ("", ""),
    ],
)
def test_the_key_of_a_part(part: str, key: str) -> None:
    assert key_of_part(PLAN, part) == key
    assert key_finder(PLAN)(part) == key


def test_a_table_that_is_renamed_is_found_under_its_new_name_and_a_value_changes_nothing() -> None:
    plan = deepcopy(PLAN)
    walls = plan["vessels"]["reef"]["walls"]
    walls["south"]["windows"]["long"]["thickness"] = "70 mm"
    assert key_finder(plan) is key_finder(PLAN)
    walls["south"]["windows"]["wide"] = walls["south"]["windows"].pop("long")
    find = key_finder(plan)
    assert find("reef.south.wide") == "vessels.reef.walls.south.windows.wide"
    assert find("reef.south.long") == key_of_part(plan, "reef.south.long")
