"""Drawings of cut plans: lengths true to scale, pieces that do not overlap, every word on the drawing and in words."""

from __future__ import annotations

import re
from collections import Counter
from itertools import pairwise

import pytest

from tests.laws.cut_samples import PIECES, plans
from tidestead.build.cut_plans import scenes_of
from tidestead.build.cutting.bar_pictures import DEPTH, MOST, Bars, bar_scenes
from tidestead.build.cutting.lengths import Bar, LengthPlan, Need, Saw, Stock
from tidestead.build.cutting.sheet_pictures import Sheets, sheet_scenes
from tidestead.build.cutting.sheets import Rect, SheetSaw, SheetStock, cut_sheets
from tidestead.core.scene import Area, Note, Scene, Stroke
from tidestead.core.units import System
from tidestead.report.svg import draw

PLANS = plans()
SCENES = scenes_of(PLANS, "metric")
KERF = 0.003
LENGTH = {piece.mark: piece.length for piece in PIECES}


def timbers(scene: Scene) -> list[tuple[float, float, float, str]]:
    """Left end, right end, lower edge and mark of every piece drawn."""
    found = [shape for shape in scene.shapes if isinstance(shape, Area) and shape.stuff == "timber"]
    return [(one.outline[0][0], one.outline[1][0], one.outline[0][1], one.part) for one in found]


NEEDS = (Need("a", 1.0, 0), Need("b", 0.4, 0), Need("c", 0.1, 0))
LONG = Stock("long", 3.0, 10.0)


def bars(
    count: int, marks: tuple[str, ...] = ("a", "b", "b"), times: int = 2, trim: float = 0.0
) -> tuple[Scene, ...]:
    sizes = {need.mark: need.length for need in NEEDS}
    left = 3.0 - trim - sum(sizes[mark] + KERF for mark in marks)
    found = tuple(Bar(LONG, marks, times, left) for _ in range(count))
    plan = LengthPlan(found, 1.0, 1.0, True, 0.0, NEEDS, Saw(KERF, trim, 0.3))
    return bar_scenes(plan, Bars("t", "timber", "metric", first=5))


def test_pieces_of_a_bar_are_as_long_as_they_are_with_a_kerf_between() -> None:
    (scene,) = bars(1)
    drawn = timbers(scene)
    assert [mark for *_, mark in drawn] == ["a", "b", "b"]
    assert [right - left for left, right, _, _ in drawn] == pytest.approx([1.0, 0.4, 0.4])
    gaps = [after[0] - before[1] for before, after in pairwise(drawn)]
    assert gaps == pytest.approx([KERF, KERF])
    cuts = [
        shape.points[0][0] for shape in scene.shapes if isinstance(shape, Stroke) and shape.stuff == "dotted"
    ]
    assert cuts == pytest.approx([right + KERF / 2.0 for _, right, _, _ in drawn])


def test_what_is_left_of_a_bar_reaches_to_its_end() -> None:
    (scene,) = bars(1)
    (left,) = [shape for shape in scene.shapes if isinstance(shape, Area) and shape.stuff == "ghost"]
    assert left.outline[1][0] == pytest.approx(3.0)
    assert left.outline[1][0] - left.outline[0][0] == pytest.approx(3.0 - 1.8 - 3.0 * KERF)


def test_what_is_trimmed_comes_off_before_the_first_piece() -> None:
    (scene,) = bars(1, trim=0.02)
    assert timbers(scene)[0][0] == pytest.approx(0.02)
    left = [shape.outline for shape in scene.shapes if isinstance(shape, Area) and shape.stuff == "ghost"]
    assert [one[1][0] - one[0][0] for one in left] == pytest.approx([0.02, 3.0 - 0.02 - 1.8 - 3.0 * KERF])


def test_bars_are_numbered_on_and_no_drawing_holds_too_many() -> None:
    scenes = bars(MOST + 2)
    rows = [{low for _, _, low, _ in timbers(scene)} for scene in scenes]
    assert [len(found) for found in rows] == [MOST, 2]
    assert "no. 5 to 6: 3000 mm" in draw(scenes[0], "metric")
    last = 5 + 2 * (MOST + 2) - 1
    assert f"no. {last - 1} to {last}: 3000 mm" in draw(scenes[1], "metric")


def test_rows_of_bars_stand_clear_of_one_another() -> None:
    (scene,) = bars(4)
    lows = sorted({low for _, _, low, _ in timbers(scene)})
    assert all(upper - lower > 1.5 * DEPTH * 3.0 for lower, upper in pairwise(lows))


def test_pieces_too_narrow_for_a_word_are_told_over_the_bar() -> None:
    (scene,) = bars(1, ("a", *["c"] * 7), times=1)
    assert [shape.words for shape in scene.shapes if isinstance(shape, Note)] == ["a"]
    assert "no. 5: 3000 mm, at the end 7 x c, left over" in draw(scene, "metric")
    assert "7 x c of 100 mm" in scene.told


@pytest.mark.parametrize("scene", SCENES, ids=lambda scene: scene.id)
def test_every_word_of_a_scene_is_drawn(scene: Scene) -> None:
    """No head of a bar, mark or number of a cut is left out for want of room."""
    text = draw(scene, "metric")
    lines = Counter(re.findall(r"<tspan[^>]*>([^<]*)</tspan>", text))
    notes = Counter(shape.words for shape in scene.shapes if isinstance(shape, Note))
    heads = [
        shape.label for shape in scene.shapes if isinstance(shape, Stroke) and shape.label.startswith("no. ")
    ]
    assert not notes - lines
    assert all(lines[head] == 1 for head in heads)


@pytest.mark.parametrize("system", ["metric", "us"])
def test_scenes_tell_the_same_in_words(system: System) -> None:
    told = " ".join(scene.told for scene in scenes_of(PLANS, system))
    for mark in [piece.mark for piece in PIECES]:
        assert mark in told
    assert ("kerf 3 mm" in told) is (system == "metric")


def test_all_pieces_are_drawn_as_often_as_they_are_sawn() -> None:
    """Areas and, for runs of narrow ones, their words: times how many bars are alike."""
    drawn: Counter[str] = Counter()
    for cut in PLANS.lengths:
        for bar in cut.plan.bars:
            for mark in bar.marks:
                drawn[mark] += bar.times
    assert drawn == {piece.mark: piece.count for piece in PIECES}
    names = {mark for scene in SCENES for *_, mark in timbers(scene)}
    assert names == set(LENGTH)


RECTS = (Rect("S1", 0.8, 0.6, 2), Rect("S2", 0.3, 0.39, 3), Rect("S3", 1.2, 0.4, 1, turns=True))
STOCK = SheetStock("eight", 2.44, 1.22, 50.0)
PANELS = cut_sheets(RECTS, [STOCK], SheetSaw(KERF, 0.01))
SAID = Sheets("t", "plywood", {"eight": (2.44, 1.22)}, KERF, "metric")


def test_parts_lie_on_the_sheet_and_not_on_one_another_or_in_a_cut() -> None:
    for scene in sheet_scenes(PANELS, SAID):
        boxes = [
            shape.outline for shape in scene.shapes if isinstance(shape, Area) and shape.stuff == "sheet"
        ]
        for index, one in enumerate(boxes):
            assert 0.0 < one[0][0] < one[2][0] < 2.44
            assert 0.0 < one[0][1] < one[2][1] < 1.22
            for other in boxes[index + 1 :]:
                apart = max(one[0][0] - other[2][0], other[0][0] - one[2][0], one[0][1] - other[2][1],
                            other[0][1] - one[2][1])  # fmt: skip
                assert apart > KERF - 1e-9


def test_cuts_are_numbered_in_order_each_beside_its_line() -> None:
    for scene, sheet in zip(sheet_scenes(PANELS, SAID), PANELS.sheets, strict=True):
        lines = [shape for shape in scene.shapes if isinstance(shape, Stroke) and shape.stuff == "dotted"]
        words = [shape for shape in scene.shapes if isinstance(shape, Note) and shape.words.isdigit()]
        assert [int(note.words) for note in words] == [cut.number for cut in sheet.cuts]
        for line, note in zip(lines, words, strict=True):
            (ax, ay), (bx, by) = line.points
            assert (bx - ax) * (note.at[1] - ay) == pytest.approx((by - ay) * (note.at[0] - ax), abs=1e-9)
            assert f"{note.words} " in scene.told.partition("Cuts in order:")[2]


def test_clear_sheets_are_drawn_as_such_and_without_grain() -> None:
    said = Sheets("t", "acrylic", SAID.sizes, KERF, "metric", grain=False)
    scene = sheet_scenes(PANELS, said)[0]
    stuffs = {shape.stuff for shape in scene.shapes if isinstance(shape, Area | Stroke)}
    assert "clear" in stuffs
    assert not {"sheet", "solid"} & stuffs
