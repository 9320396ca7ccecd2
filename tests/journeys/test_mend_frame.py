"""What a remedy of timbers leaves out when it asks for side effects hangs on no timber."""

from __future__ import annotations

from pathlib import Path

import pytest

from tidestead import desk
from tidestead.plan import load, loads
from tidestead.plan.edits import Edit, edited
from tidestead.trials.scratch import touched

PACKHOUSE = Path(__file__).parents[2] / "examples" / "packhouse.toml"
REEF = "vessels.reef"
FRAME = (
    Edit(f"{REEF}.walls.east.studs.spacing", "7 in"),
    Edit(f"{REEF}.walls.all.studs.section", "2x8"),
    Edit(f"{REEF}.walls.all.rim.section", "4-2x8"),
    Edit(f"{REEF}.walls.south.base.spacing", "6 in"),
    Edit(f"{REEF}.ties.cross.end_joint.count", 20),
    Edit(f"{REEF}.corners.joint.count", 12),
    Edit(f"{REEF}.walls.south.windows.long.edges.top", "rim"),
    Edit(f"{REEF}.walls.south.windows.long.seat.width", "2 1/2 in"),
    Edit(f"{REEF}.walls.south.windows.long.opening.jambs.section", "5-2x6"),
)
"""One of each sort."""


@pytest.fixture(scope="module")
def texts() -> tuple[str, str]:
    few = load(PACKHOUSE).text.replace("[weather]\n", "[weather]\nyears = 2\n")
    return few, edited(few, FRAME)


def test_each_of_them_asks_structure_flow_and_cost_alone() -> None:
    assert {touched((edit,)) for edit in FRAME} == {("structure", "flow", "cost")}
    assert touched(FRAME) == ("structure", "flow", "cost")


@pytest.mark.parametrize(
    "more", [f"{REEF}.walls.south.windows.long.thickness", f"{REEF}.height", "pumps.return.power"]
)
def test_anything_else_asks_more(more: str) -> None:
    assert len(touched((*FRAME, Edit(more, "1 m")))) > 2


def test_heat_is_the_same_with_other_timbers(texts: tuple[str, str]) -> None:
    before, after = (desk.answer(loads(text), ["foam", "heat"]) for text in texts)
    assert before["foam"] == after["foam"]
    assert before["heat"].checks == after["heat"].checks
    assert before["heat"].figures == after["heat"].figures


@pytest.mark.long
def test_all_else_is_the_same_with_other_timbers(texts: tuple[str, str]) -> None:
    subjects = ["light", "water", "power", "faults"]
    before, after = (desk.answer(loads(text), subjects) for text in texts)
    assert {name: before[name].checks for name in subjects} == {name: after[name].checks for name in subjects}
