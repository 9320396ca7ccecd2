"""What is kept of a vessel between two edits never shows: the answer is that of a process which has kept nothing."""

from __future__ import annotations

import sys
from collections.abc import Hashable
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from tests.many import many
from tidestead.core.kept import forget, kept
from tidestead.plan import loads
from tidestead.plan.editing import path_of, with_value
from tidestead.studies.inputs import Inputs
from tidestead.studies.structure import study

EXAMPLES = Path(__file__).parents[2] / "examples"

Edit = dict[str, Any]
"""Values by their keys in the plan."""

PEAT = {"like": "clay", "bearing": "900 lbf/ft2"}
QUAKE = {"horizontal": "0.1 g", "source": "a made-up map"}
REEF: list[Edit] = [
    {"vessels.reef.walls.south.windows.long.thickness": "3.5 in"},
    {"vessels.reef.walls.south.windows.long.as_built.thickness": "2.95 in"},
    {"vessels.reef.walls.south.windows.long.seat.width": "2.5 in"},
    {"vessels.reef.walls.south.windows.long.edges.left": "clamped"},
    {"vessels.reef.walls.south.windows.long.opening.sill_held_by": "base"},
    {"vessels.reef.walls.south.windows.long.temperature": "70 degF"},
    {"vessels.reef.walls.east.studs.spacing": "12 in"},
    {"vessels.reef.walls.east.studs.as_built.lost": "10 %"},
    {"vessels.reef.walls.all.studs.foot.count": 8},
    {"vessels.reef.walls.all.rim.section": "4-2x8"},
    {"vessels.reef.walls.all.rim.lies": "on edge"},
    {"vessels.reef.walls.all.sheathing.layers": 2},
    {"vessels.reef.walls.south.base.spacing": "10 in"},
    {"vessels.reef.walls.north.base.as_built.missing": 1},
    {"vessels.reef.ties.cross.at": ["2 ft", "6 ft", "10 ft"]},
    {"vessels.reef.ties.cross.section": "2-2x8"},
    {"vessels.reef.ties.cross.as_built.cracked": [2]},
    {"vessels.reef.ties.cross.end_joint.count": 8},
    {"vessels.reef.corners.kind": "rigid"},
    {"vessels.reef.corners.joint.count": 8},
    {"vessels.reef.water": "4 ft 2 in"},
    {"vessels.reef.brim": "4 ft 4 in"},
    {"vessels.reef.width": "5 ft 6 in"},
    {"vessels.reef.test.lasts": "30 days"},
    {"vessels.reef.test.water": "seawater"},
    {"vessels.reef.stage": "filled"},
    {"vessels.reef.wood": "dry"},
    {"vessels.reef.warmest_wood": "120 degF"},
    {"vessels.reef.lining.ends_above_water": "1 in"},
    {"vessels.reef.stands_on.drop": "1/8 in"},
    {"vessels.reef.stands_on.slab_thickness": "4 in"},
    {"vessels.reef.stands_on.soil": "yours:peat", "yours.soils.peat": PEAT},
    {"vessels.reef.stands_on.soil": "yours:peat", "yours.soils.peat": PEAT | {"bearing": "300 lbf/ft2"}},
    {"vessels.reef.ports.spare.level": "50 in"},
    {"vessels.reef.place.x": "3 ft"},
    {"vessels.sump.water": "15 in"},
    {"building.humidity": "20 to 95 %"},
    {"building.warmest_wood": "140 degF"},
    {"water.salinity": "30 ppt"},
    {"water.keep": "50 to 80 degF"},
    {"site.earthquake": QUAKE},
    {"site.earthquake": QUAKE | {"horizontal": "0.3 g"}},
    {"show": "metric"},
    {"site.place": "elsewhere"},
]
TOWER: list[Edit] = [
    {"vessels.tower.rings.spacing": "250 mm"},
    {"vessels.tower.rings.section": "80 x 80 mm"},
    {"vessels.tower.rings.corners": "rigid"},
    {"vessels.tower.ribs.section": "28 x 60 mm"},
    {"vessels.tower.buttresses.reach": "200 mm"},
    {"vessels.tower.cone.mass": "20 kg"},
    {"vessels.tower.water": "1.30 m"},
    {"vessels.tower.walls.6.windows.eye.thickness": "15 mm"},
    {"vessels.tower.sides": 8},
    {"vessels.tower.lining.coats": 3},
    {"vessels.basin.walls.west.windows.end.thickness": "50 mm"},
    {"vessels.basin.walls.all.rim.section": "4 of 47 x 195 mm"},
    {"vessels.basin.ties.cross.at": ["0.9 m", "2.0 m", "3.1 m"]},
    {"vessels.basin.timber_rules": "NDS"},
    {"vessels.basin.stands_on.settles": "5 mm"},
    {"building.humidity": "20 to 95 %"},
    {"site.earthquake": QUAKE},
]


def edited(text: str, edit: Edit) -> str:
    for key, value in edit.items():
        text = with_value(text, path_of(key), value)
    return text


def told(text: str) -> str:
    """The whole answer to its last digit, drawings too, past the desk, which keeps answers of its own."""
    plan = loads(text).plan
    inputs = Inputs(plan, plan.show)
    return repr(study.judge(inputs, study.find(inputs)))


def nothing_kept() -> None:
    """Of this subject, by ourselves or by the standard library."""
    forget()
    for name, module in sys.modules.items():
        if name.startswith("tidestead.") and ".structure." in name:
            for one in vars(module).values():
                if hasattr(one, "cache_clear"):
                    one.cache_clear()


@cache
def of_itself(text: str) -> str:
    """The answer of a process that has kept nothing."""
    nothing_kept()
    return told(text)


def same_as_fresh(example: str, edits: list[Edit]) -> bool:
    """Edits one on the other, and what the last leaves of each vessel beside the state before them all."""
    first = text = (EXAMPLES / example).read_text(encoding="utf-8")
    alone = of_itself(first)
    told(first)
    for edit in edits:
        text = edited(text, edit)
        warm = told(text)
    again = told(first)
    nothing_kept()
    return told(text) == warm and alone == again


RANDOM = settings(deadline=None, max_examples=many(6, 3), suppress_health_check=[HealthCheck.too_slow])
"""An example is several whole answers: slow by its nature. A long run tries each edit by itself as well."""


@given(st.lists(st.sampled_from(REEF), min_size=1, max_size=3))
@RANDOM
def test_box_is_answered_as_if_nothing_were_kept(edits: list[Edit]) -> None:
    assert same_as_fresh("packhouse.toml", edits)


@given(st.lists(st.sampled_from(TOWER), min_size=1, max_size=3))
@RANDOM
def test_tower_beside_a_box_is_answered_as_if_nothing_were_kept(edits: list[Edit]) -> None:
    assert same_as_fresh("skerry.toml", edits)


@pytest.mark.long
@pytest.mark.parametrize("edit", REEF, ids=str)
def test_each_edit_of_a_box(edit: Edit) -> None:
    assert same_as_fresh("packhouse.toml", [edit])


@pytest.mark.long
@pytest.mark.parametrize("edit", TOWER, ids=str)
def test_each_edit_of_a_tower(edit: Edit) -> None:
    assert same_as_fresh("skerry.toml", [edit])


@pytest.mark.parametrize("example", ["packhouse.toml", "skerry.toml"])
def test_every_edit_is_seen(example: str) -> None:
    """An edit that the study reads may not be met with what was kept of the plan before it."""
    first = (EXAMPLES / example).read_text(encoding="utf-8")
    before = told(first)
    unseen = {"site.place"}
    for edit in REEF if example == "packhouse.toml" else TOWER:
        if not unseen & edit.keys():
            assert told(edited(first, edit)) != before, edit


def test_no_more_is_kept_than_allowed_and_the_longest_unasked_goes() -> None:
    asked: list[int] = []

    @kept(at_most=2)
    def double(number: int) -> int:
        asked.append(number)
        return 2 * number

    assert [double(number) for number in (1, 2, 1, 3, 1, 2)] == [2, 4, 2, 6, 2, 4]
    assert asked == [1, 2, 3, 2]
    assert len(double) == 2
    forget()
    assert len(double) == 0
    double(1)
    assert asked == [1, 2, 3, 2, 1]


def test_a_key_of_our_own_and_words_of_a_call_count() -> None:
    asked: list[tuple[list[int], int]] = []

    def read(numbers: list[int], times: int = 1) -> Hashable:
        return tuple(numbers), times

    @kept(at_most=4, by=read)
    def total(numbers: list[int], times: int = 1) -> int:
        asked.append((numbers, times))
        return times * sum(numbers)

    assert (total([1, 2]), total([1, 2]), total([1, 2], times=2), total([2, 2])) == (3, 3, 6, 4)
    assert asked == [([1, 2], 1), ([1, 2], 2), ([2, 2], 1)]


def test_a_call_that_fails_keeps_nothing() -> None:
    @kept(at_most=4)
    def inverse(number: float) -> float:
        return 1.0 / number

    for _ in range(2):
        with pytest.raises(ZeroDivisionError):
            inverse(0.0)
    assert len(inverse) == 0
