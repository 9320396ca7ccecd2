"""What tests of first plans share: plans made of answers, what stands in them, and answers turned one by one."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import product
from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page

from tests.journeys.first_answers import METRIC, US
from tidestead.plan.editing import path_of
from tidestead.plan.first import FirstPlan, plan_text

NEVER_TAKEN = {
    "section", "grade", "thickness", "bed_thickness", "plies", "edges", "lies", "carried_by", "bears_on",
    "sill_held_by", "brim", "spacing", "sheet", "capacity",
}  # fmt: skip
"""Last words of keys that nobody may fill in but the user: section, grade, support, thickness, water level."""
VARIED = [
    {"stands_on": one, "carried_by": two, "bears_on": three, "ties": four, "edges": five}
    for one, two, three, four, five in product(
        ("slab", "ground", "joists"),
        ("anchors", "ledger", "floor ties"),
        ("steel", "wood"),
        ("yes", "no"),
        ("seats", "free"),
    )
    if one == "slab" or two != "anchors"
]
TO_THE_TOP = {"Harbour basin": "0.90 m", "Barn reef": "34 in", "Window seat": "0.80 m", "Porch tank": "28 in"}
"""Height of a window whose free top edge lies at the top of the walls, by the name of the scenario."""
BOTH = pytest.mark.parametrize("answers", [METRIC, US], ids=["metric", "us"])


def written_by(answers: Mapping[str, str]) -> FirstPlan:
    """The first plan that these answers make, which they must."""
    plan = plan_text(answers)
    assert not plan.faults, plan.faults
    return plan


def varied(answers: Mapping[str, str]) -> Iterator[dict[str, str]]:
    """A scenario with all that carries picked otherwise; a free top edge lies as high as the walls."""
    for change in VARIED:
        high = {"window_height": TO_THE_TOP[answers["name"]]} if change["edges"] == "free" else {}
        yield {**answers, **change, **high}


def at(values: Any, key: str) -> Any:
    """What stands at a dotted key."""
    for part in path_of(key):
        values = values[part]
    return values


def leaves(values: Mapping[str, Any], under: str = "") -> Iterator[tuple[str, Any]]:
    """Every dotted key with its value; lists whole."""
    for key, value in values.items():
        if isinstance(value, dict):
            yield from leaves(value, f"{under}{key}.")
        else:
            yield f"{under}{key}", value


def accessible(page: Page) -> None:
    """Nothing on a page is out of reach of who cannot see it."""
    told = [
        (one["id"], [node["html"][:160] for node in one["nodes"][:3]])
        for one in Axe().run(page).response["violations"]
    ]
    assert told == []
