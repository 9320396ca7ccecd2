"""Fittings through walls: what stands in the way of a hole on boxes and towers, measured by hand off the plan."""

from __future__ import annotations

import math
import re

import pytest

from tests.journeys.flow_plans import answer_of, changed, check_of, example, loaded
from tidestead.core.answer import Verdict
from tidestead.studies.flow.faces import Face, evenly, face_of, ring_levels
from tidestead.studies.structure.drawings_tower import ring_heights

JET = next(line for line in example("skerry").splitlines() if line.startswith("jet = { kind"))
OUTLET = 'level = "140 mm"                       # over the bottom plate, between the corner rib and the middle one'
OLD_TOWER = (
    ("sides = 6\n", "sides = 12\n"),
    (OUTLET, 'level = "120 mm"'),
    (
        'fitting = "metric-50", wall = "3", from_left = "92 mm"',
        'fitting = "metric-63", wall = "3", from_left = "86 mm"',
    ),
)


def with_jet(wall: str, left: str, level: str, fitting: str = "metric-63") -> str:
    """Skerry with its jet let in through a wall of the basin."""
    hole = f'bulkhead = {{ fitting = "{fitting}", wall = "{wall}", from_left = "{left}", seat = "membrane" }}'
    moved = (
        re.sub(r'level = "[^"]*"', f'level = "{level}"', JET, count=1).rstrip().removesuffix("}")
        + f", {hole} }}"
    )
    return changed(example("skerry"), (JET, moved))


def basin(wall: str) -> Face:
    return face_of(loaded(example("skerry")).plan.vessels["basin"], wall)


def test_a_hole_through_the_rib_of_a_tower_fails_and_says_so() -> None:
    """Twelve faces of 640 mm flat to flat are 171.5 mm wide: 86 mm from the left is where the rib stands."""
    check = check_of(answer_of(changed(example("skerry"), *OLD_TOWER)), "flow.tower.outlet.bulkhead.stud")
    assert check.verdict is Verdict.FAILS
    assert check.what.endswith("rib")
    assert "goes through the rib" in check.advice
    assert check.estimate is not None
    assert check.estimate.likely == 0.0


def test_ends_of_a_towers_face_are_edges() -> None:
    """Six faces: 640 mm * tan(30 deg) = 369.5 mm. 30 mm from the left end is 30 mm from the edge of the sheet."""
    face = face_of(loaded(example("skerry")).plan.vessels["tower"], "3")
    assert face.length == pytest.approx(0.640 * math.tan(math.pi / 6.0))
    text = changed(example("skerry"), ('from_left = "92 mm"', 'from_left = "30 mm"'))
    answer = answer_of(text)
    edge = check_of(answer, "flow.tower.outlet.bulkhead.edge")
    assert edge.verdict is Verdict.FAILS
    assert edge.estimate is not None
    assert edge.estimate.likely == pytest.approx(0.030)
    assert check_of(answer, "flow.tower.outlet.bulkhead.stud").what.endswith("corner rib")


@pytest.mark.parametrize(
    ("left", "level", "words", "away"),
    [
        (0.092, 0.60, "ring", 0.0),  # rings every 300 mm, 70 mm high: 565 to 635 mm
        (0.092, 0.50, "ring", 0.065),
        (0.092, 0.75, "corner rib", 0.078),  # 28 mm wide on the corner: 14 mm of it on this face
        (0.150, 0.75, "rib", 0.18475 - 0.014 - 0.150),
        (0.092, 0.10, "bottom plate", 0.030),
        (0.092, 1.40, "top plate", 0.030),
    ],
)
def test_what_is_nearest_on_a_face_of_the_tower(left: float, level: float, words: str, away: float) -> None:
    face = face_of(loaded(example("skerry")).plan.vessels["tower"], "3")
    near = min(face.timbers, key=lambda bar: bar.gap(left, level))
    assert near.words == words
    assert near.gap(left, level) == pytest.approx(away, abs=5e-5)


def test_a_window_takes_the_place_of_the_rib_from_ring_to_ring() -> None:
    face = face_of(loaded(example("skerry")).plan.vessels["tower"], "6")
    ribs = [(bar.low, bar.high) for bar in face.timbers if bar.words == "rib"]
    assert ribs == [(0.0, pytest.approx(0.9)), (pytest.approx(1.2), 1.5)]
    beside = [bar for bar in face.timbers if bar.words == "timber beside window eye"]
    assert [bar.low for bar in beside] == pytest.approx([0.9, 0.9])
    assert [bar.high for bar in beside] == pytest.approx([1.2, 1.2])
    assert beside[0].left == pytest.approx(0.18475 - 0.060 + 0.015 - 0.045, abs=1e-4)


def test_studs_stand_at_both_ends_and_no_further_apart_than_they_may() -> None:
    """4.0 m at 300 mm: fourteen bays of 285.7 mm. The third stud stands at 571 mm, not at 600."""
    middles = [
        (bar.left + bar.right) / 2.0 for bar in basin("north").timbers if bar.words in ("stud", "corner post")
    ]
    assert middles == pytest.approx([4.0 * number / 14 for number in range(15)])
    check = check_of(answer_of(with_jet("north", "0.571 m", "0.80 m")), "flow.basin.jet.bulkhead.stud")
    assert check.verdict is Verdict.FAILS
    assert "goes through the stud" in check.advice
    assert check_of(
        answer_of(with_jet("north", "0.714 m", "0.80 m")), "flow.basin.jet.bulkhead.stud"
    ).verdict in (
        Verdict.SOUND,
        Verdict.NEAR,
    )


def test_the_corner_post_the_rim_and_the_bottom_plate_are_in_the_way_too() -> None:
    """Rim: three of 47 mm lying flat, from 1.159 m to the top at 1.30 m. Plate: as thick as a stud is wide."""
    assert check_of(
        answer_of(with_jet("north", "60 mm", "0.80 m")), "flow.basin.jet.bulkhead.stud"
    ).what.endswith("corner post")
    last = check_of(answer_of(with_jet("north", "3.95 m", "0.80 m")), "flow.basin.jet.bulkhead.stud")
    assert (last.verdict, last.what.rpartition(", ")[2]) == (Verdict.FAILS, "corner post")
    for level, words, away in ((1.10, "rim", 0.059), (0.10, "bottom plate", 0.053)):
        near = min(basin("north").timbers, key=lambda bar: bar.gap(0.714, level))
        assert near.words == words
        assert near.gap(0.714, level) == pytest.approx(away, abs=1e-3)
    assert (
        check_of(answer_of(with_jet("north", "0.714 m", "1.14 m")), "flow.basin.jet.bulkhead.stud").verdict
        is Verdict.FAILS
    )


def test_a_hole_through_a_clear_sheet_fails() -> None:
    """The long window: 2.4 m of the 4.0 m wall, from 0.8 to 3.2 m, and from 0.20 to 1.30 m above the floor."""
    inside = check_of(answer_of(with_jet("south", "2.0 m", "0.80 m")), "flow.basin.jet.bulkhead.window")
    assert inside.verdict is Verdict.FAILS
    assert "goes through the window long" in inside.advice
    beside = check_of(answer_of(with_jet("south", "0.75 m", "0.80 m")), "flow.basin.jet.bulkhead.window")
    assert beside.verdict is Verdict.FAILS
    assert beside.estimate is not None
    assert beside.estimate.likely == pytest.approx(0.05)
    far = answer_of(with_jet("south", "0.30 m", "0.80 m"))
    assert check_of(far, "flow.basin.jet.bulkhead.window").verdict is Verdict.SOUND
    assert not any(bar.words == "stud" and 0.8 < bar.left < 3.1 for bar in basin("south").timbers)


@pytest.mark.parametrize(
    ("left", "level", "words"),
    [
        (0.78, 0.60, "timber beside window long"),  # three of 47 mm: 0.659 to 0.8 m
        (2.00, 0.15, "timber under window long"),  # 0.059 to 0.20 m
    ],
)
def test_the_frame_of_a_window_is_in_the_way(left: float, level: float, words: str) -> None:
    inside = [bar.words for bar in basin("south").timbers if bar.gap(left, level) == 0.0]
    assert words in inside


def test_a_hole_whose_place_is_not_said_is_not_proved() -> None:
    text = changed(example("skerry"), ('wall = "3", from_left = "92 mm", ', 'wall = "3", '))
    answer = answer_of(text)
    check = check_of(answer, "flow.tower.outlet.bulkhead.place")
    assert check.verdict is Verdict.UNPROVEN
    assert "vessels.tower.ports.outlet.bulkhead.from_left" in check.missing
    assert not any(one.id == "flow.tower.outlet.bulkhead.edge" for one in answer.checks)


def test_sheets_in_layers_are_clamped_together() -> None:
    text = changed(
        example("skerry"),
        (
            'sheathing = { sheet = "birch-plywood-12", face_grain = "across studs" }',
            'sheathing = { sheet = "birch-plywood-12", layers = 3, face_grain = "across studs" }',
        ),
    )
    clamp = check_of(answer_of(text), "flow.tower.outlet.bulkhead.clamp")
    assert clamp.estimate is not None
    assert clamp.estimate.likely == pytest.approx(3 * 0.012 + 0.000762, abs=2e-5)
    assert clamp.verdict is Verdict.FAILS


def test_two_holes_keep_both_flanges_apart() -> None:
    """3 in and 1 1/2 in: half of 6 in and of 3 7/8 in, and 10 mm for a tool: 135.4 mm."""
    text = changed(example("packhouse"), ('from_left = "24 in"', 'from_left = "17 in"'))
    check = check_of(answer_of(text), "flow.sump.suction.bulkhead.other")
    assert check.limit == pytest.approx((6.0 / 2.0 + 3.875 / 2.0) * 0.0254 + 0.010)
    assert check.verdict is Verdict.FAILS


def test_rings_and_studs_stand_where_the_structure_has_them() -> None:
    tower = loaded(example("skerry")).plan.vessels["tower"]
    assert ring_levels(tower) == ring_heights(tower)
    assert evenly(4.0, 0.3)[-1] == 4.0
    assert evenly(0.2, 0.3) == (0.0, 0.2)


def test_a_round_vessels_ribs_are_counted_from_one_of_them() -> None:
    """Eight ribs round 640 mm across: 2010.6 mm of girth, 251.3 mm from rib to rib."""
    tower = loaded(example("skerry")).plan.vessels["tower"]
    assert tower.ribs is not None
    vessel = tower.model_copy(
        update={
            "shape": "round",
            "sides": None,
            "walls": {},
            "ribs": tower.ribs.model_copy(update={"per_face": 8}),
        }
    )
    face = face_of(vessel, "1")
    assert face.length is None
    half_way, on_it = (
        min(bar.gap(left, 0.75) for bar in face.timbers if bar.words == "rib") for left in (0.1257, 0.25)
    )
    assert half_way == pytest.approx(0.1257 - 0.014, abs=1e-3)
    assert on_it == 0.0
