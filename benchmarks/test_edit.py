"""An edit in a process that has answered before: from the plan as it now reads to its answer on structure.

Run with `pytest benchmarks/test_edit.py`. Times are of the processor, and nothing is asserted about them: a machine
with other work to do is slower. The figure to compare with: a median under 0.2 s over the sorts of edit, so that the
page can show the new answer within 0.3 s. Each round takes an edit back and makes it again with another value, so that
no answer is met twice.
"""

from __future__ import annotations

import gc
import time
from collections.abc import Iterator
from itertools import count
from pathlib import Path
from typing import Any

import pytest

from tidestead import desk
from tidestead.core.kept import forget
from tidestead.plan import LoadedPlan, loads
from tidestead.plan.editing import path_of, with_value

EXAMPLES = Path(__file__).parents[1] / "examples"
ROUNDS = 7

REEF = {
    "name": "Reef number {}",
    "site.place": "shed number {}",
    "vessels.reef.lining.ends_above_water": "3.{} in",
    "vessels.reef.water": "4 ft 2.{} in",
    "vessels.reef.walls.south.windows.long.thickness": "3.{} in",
    "vessels.reef.walls.south.windows.long.seat.width": "2.{} in",
    "vessels.reef.walls.east.studs.spacing": "12.{} in",
    "vessels.reef.walls.all.studs.spacing": "8.{} in",
    "vessels.reef.walls.all.rim.section": "{}-2x10",
    "vessels.reef.ties.cross.end_joint.count": "#1{}",
    "vessels.reef.ties.cross.at[2]": "6 ft 0.{} in",
    "vessels.sump.length": "5.{} ft",
    "water.salinity": "34.{} ppt",
}
BASIN = {
    "name": "Skerry number {}",
    "site.place": "shore number {}",
    "vessels.basin.lining.coats": "#1{}",
    "vessels.basin.water": "1.16{} m",
    "vessels.basin.walls.south.windows.long.thickness": "6{} mm",
    "vessels.basin.walls.west.windows.end.thickness": "5{} mm",
    "vessels.basin.walls.north.studs.spacing": "29{} mm",
    "vessels.basin.walls.all.studs.spacing": "28{} mm",
    "vessels.basin.walls.all.rim.section": "3 of 47 x 18{} mm",
    "vessels.basin.ties.cross.end_joint.count": "#1{}",
    "vessels.basin.ties.cross.at[2]": "2.0{} m",
    "vessels.tower.rings.spacing": "24{} mm",
    "vessels.tower.walls.6.windows.eye.thickness": "13.{} mm",
    "vessels.sump.length": "1.7{} m",
    "water.salinity": "34.{} psu",
}
CASES = [("packhouse", *pair) for pair in REEF.items()] + [("skerry", *pair) for pair in BASIN.items()]


def edits(text: str, key: str, pattern: str) -> Iterator[LoadedPlan]:
    """Plans with one value changed, each another one; a pattern that begins with # is of whole numbers."""
    for number in count(1):
        value = pattern.format(number)
        yield loads(with_value(text, path_of(key), int(value[1:]) if value.startswith("#") else value))


@pytest.mark.parametrize(("name", "key", "pattern"), CASES)
@pytest.mark.benchmark(group="edit to answer on structure", timer=time.process_time)
def test_edit(benchmark: Any, name: str, key: str, pattern: str) -> None:
    text = (EXAMPLES / f"{name}.toml").read_text(encoding="utf-8")
    changed = edits(text, key, pattern)
    forget()
    first = desk.answer(loads(text), ["structure"])["structure"]
    gc.collect()

    def next_plan() -> tuple[tuple[LoadedPlan, list[str]], dict[str, Any]]:
        return (next(changed), ["structure"]), {}

    found = benchmark.pedantic(desk.answer, setup=next_plan, rounds=ROUNDS, warmup_rounds=1)
    assert len(found["structure"].checks) >= len(first.checks) // 2
