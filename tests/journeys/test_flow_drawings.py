"""Drawings of the circulation: every part is in them, figures agree with the facts, no words lie on others."""

from __future__ import annotations

import math
import re
from itertools import combinations, pairwise

import pytest

from tests.journeys.flow_plans import SMALL, answer_of, changed, example, facts_of
from tidestead.core.scene import Note, Scene, Stroke
from tidestead.core.units import System, show
from tidestead.report import svg
from tidestead.report.svg_words import SIZE, Box, width
from tidestead.studies.flow.clear_places import spread

TEXT = re.compile(r'<text text-anchor="(\w+)"([^>]*)>(.*?)</text>')
SPAN = re.compile(r'<tspan x="([-0-9.]+)" y="([-0-9.]+)">([^<]*)</tspan>')
LETTER_HEIGHT = 0.72
"""Height of capitals as a share of the size of the type."""


def _scenes(text: str, system: System = "metric") -> dict[str, Scene]:
    return {scene.id: scene for scene in answer_of(text, system).scenes}


def _boxes(drawn: str) -> list[tuple[str, Box]]:
    """Every line of text with the room it takes, read from the file."""
    found = []
    for anchor, look, inner in TEXT.findall(drawn):
        own = re.search(r'font-size="([0-9.]+)"', look)
        size = float(own[1]) if own else SIZE
        for x, y, words in SPAN.findall(inner):
            wide = width(words, size)
            left = float(x) - {"start": 0.0, "middle": wide / 2.0, "end": wide}[anchor]
            found.append((words, Box(left, float(y) - LETTER_HEIGHT * size, left + wide, float(y))))
    return found


@pytest.mark.parametrize("system", ["metric", "us"])
@pytest.mark.parametrize("name", ["skerry", "packhouse"])
def test_no_words_lie_on_others(name: str, system: System) -> None:
    for ident, scene in _scenes(example(name), system).items():
        boxes = _boxes(svg.draw(scene, system))
        assert len(boxes) > 3, ident
        for (one, first), (other, second) in combinations(boxes, 2):
            assert first.overlap(second) == 0.0, f"{ident}: {one} on {other}"


@pytest.mark.parametrize("name", ["skerry", "packhouse"])
def test_every_part_has_its_row_with_velocity_and_head(name: str) -> None:
    facts, scenes = facts_of(example(name)), _scenes(example(name))
    for line in facts.lines:
        pages = [scene for ident, scene in scenes.items() if ident.startswith(f"flow.line.{line.key}")]
        pages = [scene for scene in pages if scene.id.split(".")[2] == line.key]
        words = [shape.words for scene in pages for shape in scene.shapes if isinstance(shape, Note)]
        for one in facts.passed[line.key]:
            if one.run.item.kind == "pump":
                assert f"gives {show(-one.head, 'm', 'metric', 'head')}" in words
            else:
                assert any(word.endswith(show(one.head, "m", "metric", "bow")) for word in words)


def test_a_long_line_goes_on_in_a_second_drawing() -> None:
    many = ", ".join(f'"elbow-{90 if at % 2 else 45} x{at + 1}"' for at in range(12))
    scenes = _scenes(changed(SMALL, ('"elbow-90 x3"', many)))
    assert {"flow.line.up.1", "flow.line.up.2"} <= set(scenes)
    assert scenes["flow.line.up.2"].title.endswith("2 of 2")


def test_lines_with_water_have_arrows_and_the_others_are_dashed() -> None:
    facts, scene = facts_of(example("skerry")), _scenes(example("skerry"))["flow.schematic"]
    for line in facts.lines:
        own = [one for one in scene.shapes if isinstance(one, Stroke) and one.part == f"circuits.{line.key}"]
        if facts.flows[line.key] > 0.0:
            assert all(one.stuff == "outline" for one in own)
            assert any(len(one.points) == 3 for one in own), line.key
        else:
            assert [(one.stuff, one.label) for one in own if len(one.points) == 6] == [
                ("ghost", "carries nothing now")
            ]
    drawn = svg.draw(scene, "metric")
    assert "carries nothing now" in drawn
    assert "for comparison" not in drawn
    assert "metal" not in drawn


def test_the_pumps_curve_the_lines_and_the_fouled_strainer_meet_where_the_pump_runs() -> None:
    """The points drawn lie on the strokes drawn: to half a step of the curve."""
    facts, scene = facts_of(example("skerry")), _scenes(example("skerry"))["flow.pumps.return"]
    pump = facts.pumps[0]
    strokes = {one.stuff: one for one in scene.shapes if isinstance(one, Stroke) and one.label}
    assert set(strokes) == {"solid", "dashed", "dotted"}
    most, top = pump.curve[-1][0], pump.curve[0][1]
    right, high = strokes["solid"].points[-1][0], strokes["solid"].points[0][1]
    duty = (right * pump.flow / most, high * pump.head / top)
    for stuff in ("solid", "dashed"):
        assert _height_at(strokes[stuff], duty[0]) == pytest.approx(duty[1], abs=0.02 * high)
    fouled = right * pump.fouled["strainer"] / most
    assert _height_at(strokes["dotted"], fouled) == pytest.approx(
        _height_at(strokes["solid"], fouled), abs=0.02 * high
    )
    assert _height_at(strokes["dotted"], fouled) > _height_at(strokes["dashed"], fouled)


@pytest.mark.parametrize(("name", "system"), [("skerry", "metric"), ("packhouse", "us")])
def test_the_pumps_axes_are_round_and_named_and_the_lines_begin_without_flow(
    name: str, system: System
) -> None:
    facts, scene = facts_of(example(name)), _scenes(example(name), system)["flow.pumps.return"]
    words = [one.words for one in scene.shapes if isinstance(one, Note)]
    assert {"flow", "head"} <= set(words)
    marks = [word for word in words if re.fullmatch(r"[\d,.]+ (m|ft|m³/h|US gal/h)", word)]
    figures = [float(mark.split(" ")[0].replace(",", "")) for mark in marks]
    assert len(figures) >= 4
    for figure in figures:
        assert figure == int(figure)
    for flow in facts.pumps[0].fouled.values():
        assert f"half blocked {show(flow, 'm3/s', system)}" in words
    curves = [one for one in scene.shapes if isinstance(one, Stroke) and one.label]
    assert len(curves) >= 3
    assert all(one.points[0][0] == 0.0 for one in curves)


def test_the_brim_is_named_on_every_strip() -> None:
    for name in ("skerry", "packhouse"):
        scene = _scenes(example(name))["flow.stop"]
        words = [one for one in scene.shapes if isinstance(one, Note)]
        strips = {one.part for one in words if one.words.startswith("depth in")}
        assert len(strips) >= 3
        assert strips == {one.part for one in words if one.words.startswith("brim ")}


def test_a_failure_that_runs_otherwise_has_a_line_and_one_that_does_not_is_said_to_run_alike() -> None:
    """A break on a siphon by gravity: only with it blocked the weirbox empties so far."""
    own = changed(
        example("skerry"),
        (
            'level = "0.28 m"\ncrest = "0.28 m"',
            'level = "0.28 m"\ncrest = "0.28 m"\nsiphon_break = { level = "0.40 m", hole = "20 mm" }',
        ),
    )
    lines = [one for one in _scenes(own)["flow.stop"].shapes if isinstance(one, Stroke) and one.label]
    assert {(one.stuff, one.label) for one in lines} == {
        ("solid", "every guard working"),
        ("dashed", "siphon breaks blocked"),
        ("dotted", "check valves failed"),
    }
    plain = _scenes(example("skerry"))["flow.stop"]
    assert not [one for one in plain.shapes if isinstance(one, Stroke) and one.stuff == "dotted"]
    assert "siphon breaks blocked: as every guard working" in [
        one.words for one in plain.shapes if isinstance(one, Note)
    ]
    assert "Siphon breaks blocked: as with every guard working" in plain.told


def _segments(stroke: Stroke) -> list[tuple[tuple[float, float], tuple[float, float]]]:
    return list(pairwise(stroke.points))


def _off(place: tuple[float, float], side: tuple[tuple[float, float], tuple[float, float]]) -> float:
    """How far a place lies off an upright or level side."""
    (ax, ay), (bx, by) = side
    x = min(max(place[0], min(ax, bx)), max(ax, bx))
    y = min(max(place[1], min(ay, by)), max(ay, by))
    return math.dist(place, (x, y))


@pytest.mark.parametrize("name", ["skerry", "packhouse"])
def test_a_number_stands_on_its_own_line_and_on_no_other_and_ends_lie_apart(name: str) -> None:
    facts, scene = facts_of(example(name)), _scenes(example(name))["flow.schematic"]
    paths = {
        one.part: one for one in scene.shapes if isinstance(one, Stroke) and len(one.points) == 6
        and one.part.startswith("circuits.")
    }  # fmt: skip
    assert len(paths) == len(facts.lines)
    for number, line in enumerate(facts.lines, start=1):
        part = f"circuits.{line.key}"
        (at,) = (
            one.at
            for one in scene.shapes
            if isinstance(one, Note) and one.part == part and one.words == str(number)
        )
        assert min(_off(at, side) for side in _segments(paths[part])) < 1e-9
        for key, other in paths.items():
            if key != part:
                assert min(_off(at, side) for side in _segments(other)) > 0.1, f"{part} at {key}"
    ends = [one.points[-1] for part, one in paths.items() if "." in facts.line(part[9:]).circuit.end]
    assert min(math.dist(one, other) for one, other in combinations(ends, 2)) > 0.13


@pytest.mark.parametrize("system", ["metric", "us"])
def test_the_schematics_list_gives_flow_greatest_velocity_and_head_lost_of_every_line(
    system: System,
) -> None:
    facts, scene = facts_of(example("skerry")), _scenes(example("skerry"), system)["flow.schematic"]
    notes = [one for one in scene.shapes if isinstance(one, Note) and not one.part]
    for number, line in enumerate(facts.lines, start=1):
        (named,) = (one for one in notes if one.words == f"{number} {line.key}")
        row = [one.words for one in sorted(notes, key=lambda one: one.at) if one.at[1] == named.at[1]]
        passed = facts.passed[line.key]
        fastest = max((one.velocity for one in passed), default=0.0)
        lost = sum(one.head for one in passed if one.run.item.kind != "pump")
        assert row[1] == show(facts.flows[line.key], "m3/s", system)
        if facts.flows[line.key] > 0.0:
            assert row[3] == show(lost, "m", system, "head")
        weir = "over a weir" if facts.flows[line.key] > 0.0 else "none"
        assert row[2] == (show(fastest, "m/s", system) if fastest > 0.0 else weir)


def test_the_key_explains_every_sign_that_is_drawn_and_no_other() -> None:
    scenes = _scenes(example("skerry"))
    drawn = svg.draw(scenes["flow.schematic"], "metric")
    words = ["pump", "valve", "check valve", "apparatus (lamp, strainer)", "junction"]
    assert [sign.words for sign in scenes["flow.schematic"].signs] == words
    assert all(f">{word}<" in drawn for word in words)
    assert "vessels at their true heights, pipes drawn where there is room" in scenes["flow.schematic"].told
    assert "junction" not in [sign.words for sign in _scenes(SMALL)["flow.schematic"].signs]
    assert {sign.words for sign in scenes["flow.line.main"].signs} >= {"pump", "valve", "check valve"}
    assert not scenes["flow.stop"].signs


def test_ends_are_spread_no_further_than_they_must() -> None:
    """By hand: two at one height part evenly; one far off stays; three of one height keep their order."""
    assert spread([("a", 1.0), ("b", 1.0), ("c", 3.0)], 0.2) == pytest.approx({"a": 0.9, "b": 1.1, "c": 3.0})
    assert spread([("a", 1.0), ("b", 1.0), ("c", 1.0)], 0.2) == pytest.approx({"a": 0.8, "b": 1.0, "c": 1.2})
    assert spread([("low", 0.0), ("high", 0.5)], 0.2) == {"low": 0.0, "high": 0.5}


def _height_at(stroke: Stroke, x: float) -> float:
    """The height of a stroke at a place, between its points."""
    for (left, low), (right, high) in zip(stroke.points, stroke.points[1:], strict=False):
        if left <= x <= right:
            return low + (high - low) * (x - left) / (right - left)
    raise AssertionError(f"the stroke does not reach {x}")
