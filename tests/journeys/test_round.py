"""Views in the round of whole plans: every vessel in its place and size, every check at its piece."""

from __future__ import annotations

import html
import itertools
import math
import re
from pathlib import Path

import pytest

from tests.laws.test_report_isometric import volume
from tidestead import desk
from tidestead.core.answer import Answer
from tidestead.core.solids import Round, Solid
from tidestead.plan import load, loads
from tidestead.plan.model import Vessel
from tidestead.report.isometric import draw
from tidestead.report.round_uses import beginnings, uses_of
from tidestead.report.svg_words import Text
from tidestead.studies.flow.faces import face_of

EXAMPLES = Path(__file__).parents[2] / "examples"
NAMES = ("packhouse", "skerry")
EACH = pytest.mark.parametrize("name", NAMES)
UNBUILT = {"footing", "timber", "water", "rules", "solved"}
"""Names in a check's part that stand for no piece of timber: the ground under an edge, or the whole."""

PIECE = (
    "walls",
    "ties",
    "rings",
    "ribs",
    "buttresses",
    "lining",
    "corners",
    "cone",
    "stands_on",
    "sheathing",
)


def answered(name: str) -> tuple[Answer, dict[str, Vessel]]:
    loaded = load(EXAMPLES / f"{name}.toml")
    return desk.answer(loaded, ["structure"])["structure"], dict(loaded.plan.vessels)


@pytest.fixture(scope="module")
def answers() -> dict[str, tuple[Answer, dict[str, Vessel]]]:
    return {name: answered(name) for name in NAMES}


def the_round(answer: Answer) -> Round:
    assert [view.id for view in answer.rounds] == ["structure.round"]
    return answer.rounds[0]


def of(view: Round, part: str) -> list[Solid]:
    return [solid for solid in view.solids if solid.part == part or solid.part.startswith(f"{part}.")]


def ends(solids: list[Solid], axis: int) -> tuple[float, float]:
    places = [point[axis] for solid in solids for point in solid.points]
    return min(places), max(places)


@EACH
def test_every_vessel_is_there_with_its_water(
    name: str, answers: dict[str, tuple[Answer, dict[str, Vessel]]]
) -> None:
    """The water drawn is the water of the figures, in cubic metres, and stands on the plan's floor at its depth."""
    answer, vessels = answers[name]
    view = the_round(answer)
    told = {figure.id: figure.estimate.likely for figure in answer.figures}
    for key, vessel in vessels.items():
        water = [solid for solid in of(view, key) if solid.stuff == "water"]
        assert sum(map(volume, water)) == pytest.approx(told[f"structure.{key}.volume"], rel=1e-4)
        floor, falls = vessel.place.floor or 0.0, vessel.stands_on.drop or 0.0
        assert ends(water, 2) == pytest.approx((floor - falls, floor + (vessel.water or 0.0)))
        assert {tag.words for tag in view.tags} >= {key}
        assert key in view.told


@EACH
def test_boxes_stand_at_their_corner_and_towers_round_their_middle(
    name: str, answers: dict[str, tuple[Answer, dict[str, Vessel]]]
) -> None:
    answer, vessels = answers[name]
    for key, vessel in vessels.items():
        water = [solid for solid in of(the_round(answer), key) if solid.stuff == "water"]
        (west, east), (south, north) = ends(water, 0), ends(water, 1)
        x, y = vessel.place.x or 0.0, vessel.place.y or 0.0
        if vessel.shape == "box":
            inside = (x, x + (vessel.length or 0.0), y, y + (vessel.width or 0.0))
            assert (west, east, south, north) == pytest.approx(inside)
        else:
            assert ((west + east) / 2.0, (south + north) / 2.0) == pytest.approx((x, y))
            assert north - south == pytest.approx(vessel.across, rel=0.01)


@EACH
def test_every_body_is_closed_and_looks_outward(
    name: str, answers: dict[str, tuple[Answer, dict[str, Vessel]]]
) -> None:
    """Bodies hold a positive volume by their faces' sense; those left open above say so by being bare shells."""
    for solid in the_round(answers[name][0]).solids:
        assert volume(solid) > 0.0
        sides = [side for face in solid.faces for side in zip(face, (*face[1:], face[0]), strict=True)]
        assert len(set(sides)) == len(sides)
        if solid.stuff != "outline":
            assert {(there, here) for here, there in sides} == set(sides)


@EACH
def test_every_check_of_a_piece_finds_that_piece(
    name: str, answers: dict[str, tuple[Answer, dict[str, Vessel]]]
) -> None:
    answer = answers[name][0]
    view = the_round(answer)
    parts = {solid.part for solid in view.solids}
    placed = 0
    for check in answer.checks:
        names = check.part.split(".")
        if len(names) < 2 or names[1] in UNBUILT:
            continue
        home = next(begin for begin in beginnings(check.part) if begin in parts)
        assert home.count(".") >= 1, check.id
        if names[1] in PIECE:
            assert home.split(".")[1] == names[1]
        elif names[1] in ("north", "south", "east", "west"):
            assert home.split(".")[:3] == names[:3], check.id
        placed += 1
    assert placed > 40
    uses = uses_of(view, answer.checks)
    worst = max(check.use or 0.0 for check in answer.checks)
    assert max(use.use or 0.0 for use in uses.values()) == worst


@EACH
def test_pieces_of_a_wall_keep_clear_of_its_windows_and_of_each_other(
    name: str, answers: dict[str, tuple[Answer, dict[str, Vessel]]]
) -> None:
    """In each wall the bodies together hold what each holds: none lies in another. By sampling places."""
    answer, vessels = answers[name]
    view = the_round(answer)
    for key, vessel in vessels.items():
        if vessel.made != "built" or vessel.shape != "box":
            continue
        timber = [s for s in of(view, key) if s.stuff in ("timber", "sheet", "clear", "membrane")]
        boxes = [[ends([solid], axis) for axis in range(3)] for solid in timber]
        for (one, first), (other, second) in itertools.combinations(zip(timber, boxes, strict=True), 2):
            common = [min(a[1], b[1]) - max(a[0], b[0]) for a, b in zip(first, second, strict=True)]
            mitred = {"sheathing", "lining", "base"} & {one.part.split(".")[-1], other.part.split(".")[-1]}
            assert min(common) < 1e-4 or (mitred and sorted(common)[1] < 0.2), (one.part, other.part, common)


def test_uprights_of_a_tower_stand_where_the_pipes_are_kept_clear_of_them() -> None:
    """The same ribs by a second way: those that holes for pipes must miss."""
    loaded = load(EXAMPLES / "skerry.toml")
    view = the_round(desk.answer(loaded, ["structure"])["structure"])
    bars = [bar for bar in face_of(loaded.plan.vessels["tower"], "1").timbers if bar.words == "rib"]
    behind = (loaded.plan.vessels["tower"].place.y or 0.0) - (0.32 + 0.012)  # half across, and the sheet
    ribs = [
        solid
        for solid in of(view, "tower.ribs")
        if ends([solid], 1) == pytest.approx((behind - 0.045, behind))
    ]
    middle = loaded.plan.vessels["tower"].place.x or 0.0
    side = (loaded.plan.vessels["tower"].across or 0.0) / 3**0.5
    drawn = {(round(ends([rib], 0)[0], 4), round(ends([rib], 0)[1], 4)) for rib in ribs}
    assert drawn == {
        (round(middle - side / 2.0 + bar.left, 4), round(middle - side / 2.0 + bar.right, 4)) for bar in bars
    }


@EACH
@pytest.mark.parametrize("by_use", [False, True])
def test_the_still_picture_shows_every_vessel(
    name: str, by_use: bool, answers: dict[str, tuple[Answer, dict[str, Vessel]]]
) -> None:
    answer, vessels = answers[name]
    view = the_round(answer)
    text = draw(view, "metric", uses=uses_of(view, answer.checks) if by_use else None)
    for key in vessels:
        assert f'data-part="{key}' in text
        assert f">{key}</tspan>" in text


def test_what_the_plan_leaves_out_is_told() -> None:
    """No place, no measures, vessels in one another: each said in words."""
    text = (EXAMPLES / "packhouse.toml").read_text("utf-8")
    unplaced = text.replace('place = { x = "20 ft", y = "4 ft", floor = "0 ft" }\n', "")
    view = the_round(desk.answer(loads(unplaced), ["structure"])["structure"])
    assert "Laid out in a row, for the plan does not say where they stand: sump." in view.told
    water = [solid for solid in view.solids if solid.part == "sump.water"]
    others = [solid for solid in view.solids if not solid.part.startswith("sump") and solid.stuff != "ground"]
    assert ends(water, 0)[0] > ends(others, 0)[1]
    moved = text.replace('x = "20 ft", y = "4 ft"', 'x = "16 ft", y = "5 ft"')
    assert (
        "reef and sump stand in one another"
        in the_round(desk.answer(loads(moved), ["structure"])["structure"]).told
    )
    assert "stand in one another" not in the_round(desk.answer(loads(text), ["structure"])["structure"]).told


def test_the_building_is_drawn_in_the_axes_of_the_plan() -> None:
    """Turned a quarter, a house of 30 ft by 16 ft is 16 ft from west to east; a lean-to is high at its back."""
    text = (EXAMPLES / "packhouse.toml").read_text("utf-8")
    for faces, size in (("south", (9.144, 4.8768)), ("west", (4.8768, 9.144))):
        turned = text.replace('faces = "south"', f'faces = "{faces}"').replace(
            'shape = "gable"', 'shape = "lean-to"'
        )
        turned = turned.replace("roof-back = {", "# roof-back = {")
        wires = the_round(desk.answer(loads(turned), ["structure"])["structure"]).wires
        edges = [point for wire in wires if wire.part == "building" for point in wire.points]
        assert (max(p[0] for p in edges), max(p[1] for p in edges)) == pytest.approx(size, abs=1e-4)
        assert (min(p[0] for p in edges), min(p[1] for p in edges)) == pytest.approx((0.0, 0.0), abs=1e-4)
        top = [point for point in edges if point[2] == pytest.approx(3.9624, abs=1e-3)]
        axis, far = (1, 4.8768) if faces == "south" else (0, 4.8768)
        assert {round(point[axis], 3) for point in top} == {round(far, 3)}


LABEL = re.compile(
    r'<text text-anchor="middle"[^>]*?(?: font-size="([\d.]+)")?[^>]*><tspan x="([-\d.]+)" y="([-\d.]+)">([^<]+)<'
)


@EACH
@pytest.mark.parametrize("used", [False, True], ids=["stuffs", "use"])
def test_no_label_stands_on_another(
    answers: dict[str, tuple[Answer, dict[str, Vessel]]], name: str, used: bool
) -> None:
    answer, _ = answers[name]
    view = the_round(answer)
    drawn = draw(view, "us", uses=uses_of(view, answer.checks) if used else None)
    boxes = []
    for size, x, y, words in LABEL.findall(drawn):
        middle, high = (
            Text((html.unescape(words),), float(x), 0.0, size=float(size or 14.0)),
            float(size or 14.0),
        )
        boxes.append((words, middle.box._replace(top=float(y) - 0.8 * high, bottom=float(y) + 0.2 * high)))
    assert len(boxes) > 5
    for (one, here), (other, there) in itertools.combinations(boxes, 2):
        assert here.overlap(there) < 1.0, (one, other)


def test_a_dimension_that_is_hidden_is_not_written_over_what_hides_it(
    answers: dict[str, tuple[Answer, dict[str, Vessel]]],
) -> None:
    """The width of the tower lies behind the basin."""
    view = the_round(answers["skerry"][0])
    assert any(math.dist(span.start, span.end) == pytest.approx(0.64) for span in view.spans)
    drawn = draw(view, "metric")
    assert "0.64 m<" not in drawn
    assert "4.00 m<" in drawn
