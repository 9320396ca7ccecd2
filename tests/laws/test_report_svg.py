"""Drawings as SVG: well-formed, accessible, true to scale, every part named, words clear of one another."""

from __future__ import annotations

import itertools
import math
import re
import xml.etree.ElementTree as ET

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.laws.report_samples import elevation, section, stress
from tidestead.core.answer import Verdict
from tidestead.core.scene import Area, Contours, Measure, Note, Scene, Stroke, Stuff
from tidestead.core.units import System, show
from tidestead.report import svg, svg_sign
from tidestead.report.svg_paint import DARK, LIGHT, PAINTS
from tidestead.report.svg_shapes import Frame, edges
from tidestead.report.svg_words import SIZE, Box, broken, width

SVG = "{http://www.w3.org/2000/svg}"
SCENES = [elevation(), section(), stress()]
BOTH: list[tuple[Scene, System]] = list(itertools.product(SCENES, ("metric", "us")))
EACH = pytest.mark.parametrize(("scene", "system"), BOTH, ids=lambda value: getattr(value, "id", value))


def texts(root: ET.Element) -> list[tuple[str, Box]]:
    """Every text in the drawing with the room it takes."""
    found = []
    for element in root.iter(f"{SVG}text"):
        size = float(element.get("font-size", SIZE))
        spans = list(element)
        lines = [span.text or "" for span in spans]
        wide = max(width(line, size) for line in lines)
        x, first, last = (
            float(spans[0].get("x", "0")),
            float(spans[0].get("y", "0")),
            float(spans[-1].get("y", "0")),
        )
        left = {"start": x, "middle": x - wide / 2, "end": x - wide}[element.get("text-anchor", "start")]
        box = Box(left, first - 0.75 * size, left + wide, last + 0.2 * size)
        turn = re.match(r"rotate\((\S+) (\S+) (\S+)\)", element.get("transform", ""))
        if turn and abs(float(turn[1])) > 45:
            cx, cy = float(turn[2]), float(turn[3])
            tall = (last - first + size) / 2
            box = Box(cx - tall, cy - wide / 2, cx + tall, cy + wide / 2)
        found.append((" ".join(lines), box))
    return found


@EACH
def test_well_formed_and_told_to_those_who_cannot_see_it(scene: Scene, system: System) -> None:
    root = ET.fromstring(svg.draw(scene, system))
    assert root.get("role") == "img"
    title, told = root[0], root[1]
    assert (title.tag, title.text) == (f"{SVG}title", scene.title)
    assert (told.tag, told.text) == (f"{SVG}desc", scene.told)
    assert root.get("aria-labelledby") == f"{title.get('id')} {told.get('id')}"


@EACH
def test_every_part_is_there_to_point_at(scene: Scene, system: System) -> None:
    root = ET.fromstring(svg.draw(scene, system))
    parts = {element.get("data-part") for element in root.iter() if element.get("data-part")}
    assert parts == {part for shape in scene.shapes if (part := getattr(shape, "part", ""))}
    names = {element.text for element in root.iter(f"{SVG}title")}
    assert {label for shape in scene.shapes if (label := getattr(shape, "label", ""))} <= names


@EACH
def test_every_dimension_is_said_in_the_units_chosen(scene: Scene, system: System) -> None:
    words = [text for text, _ in texts(ET.fromstring(svg.draw(scene, system)))]
    for shape in scene.shapes:
        if isinstance(shape, Measure):
            length = show(math.dist(shape.start, shape.end), "m", system, shape.style)
            assert f"{shape.words} {length}".strip() in words
        if isinstance(shape, Note):
            assert shape.words in words
    if scene.exaggerated != 1.0:
        assert any("20 times larger" in text for text in words)


@EACH
def test_words_keep_clear_of_words_and_inside_the_sheet(scene: Scene, system: System) -> None:
    root = ET.fromstring(svg.draw(scene, system))
    left, top, wide, tall = map(float, root.get("viewBox", "").split())
    sheet = Box(left, top, left + wide, top + tall)
    found = texts(root)
    for words, box in found:
        assert box.overlap(sheet) == pytest.approx((box.right - box.left) * (box.bottom - box.top)), words
    for (one, first), (other, second) in itertools.combinations(found, 2):
        assert first.overlap(second) < 4.0, (one, other)


@EACH
def test_fits_a_phone_and_a_page(scene: Scene, system: System) -> None:
    root = ET.fromstring(svg.draw(scene, system))
    _, _, wide, tall = map(float, root.get("viewBox", "").split())
    assert svg.LEAST_WIDTH <= wide <= svg.WIDTH + 40.0
    assert tall < 1.6 * svg.TALLEST
    assert root.get("width") is None


@EACH
def test_asks_no_outside_host_and_names_only_what_it_defines(scene: Scene, system: System) -> None:
    text = svg.draw(scene, system)
    assert re.findall(r"https?://[^\"' ]+", text) == ["http://www.w3.org/2000/svg"]
    root = ET.fromstring(text)
    ids = [element.get("id") for element in root.iter() if element.get("id")]
    assert len(ids) == len(set(ids))
    assert set(re.findall(r"url\(#([^)]+)\)", text)) <= set(ids)
    assert all(ident and ident.startswith("ts-structure-basin-south") for ident in ids)


def test_true_to_scale() -> None:
    """A square metre in a drawing is square, and a dimension line is as long as what it measures."""
    scene = Scene("s", "t", "d", (Area(((0.0, 0.0), (3.0, 0.0), (3.0, 1.0), (0.0, 1.0)), "metal"),))
    path = next(
        p
        for p in ET.fromstring(svg.draw(scene, "metric")).iter(f"{SVG}path")
        if "f-ink" in p.get("class", "")
    )
    numbers = [float(number) for number in re.findall(r"-?[\d.]+", path.get("d", ""))]
    across, down = numbers[0::2], numbers[1::2]
    assert (max(across) - min(across)) / (max(down) - min(down)) == pytest.approx(3.0, rel=2e-3)


@pytest.mark.parametrize(
    ("start", "end"), [((0.0, 0.0), (2.0, 0.0)), ((0.0, 0.0), (0.0, 2.0)), ((0.0, 0.0), (1.0, 1.5))]
)
@pytest.mark.parametrize("aside", [0.3, -0.3])
def test_dimension_stands_on_its_side_with_a_tick_at_each_end(
    start: tuple[float, float], end: tuple[float, float], aside: float
) -> None:
    """Positive `aside` is to the left of the way from start to end."""
    scene = Scene("s", "t", "d", (Stroke((start, end), "outline"), Measure(start, end, aside)))
    paths = [
        path
        for path in ET.fromstring(svg.draw(scene, "metric")).iter(f"{SVG}path")
        if path.get("stroke-width") == "1.5"
    ]
    numbers = [float(number) for number in re.findall(r"-?[\d.]+", paths[-1].get("d", ""))]
    places = list(zip(numbers[0::2], numbers[1::2], strict=True))
    ticks = [tuple(sum(axis) / 2 for axis in zip(*places[k : k + 2], strict=True)) for k in (0, 2)]
    line = next(
        p
        for p in ET.fromstring(svg.draw(scene, "metric")).iter(f"{SVG}path")
        if "s-ink" in p.get("class", "")
    )
    ax, ay, bx, by = (float(number) for number in re.findall(r"-?[\d.]+", line.get("d", ""))[:4])
    assert math.dist(*ticks) == pytest.approx(math.dist((ax, ay), (bx, by)), abs=0.4)
    cross = (bx - ax) * (ticks[0][1] - ay) - (by - ay) * (ticks[0][0] - ax)
    assert (cross < 0) == (aside > 0)


def test_dimensions_side_by_side_keep_a_lane_apart() -> None:
    measures = tuple(Measure((0.0, 0.0), (4.0 - 0.1 * k, 0.0), -0.01 * k - 0.01) for k in range(5))
    found = texts(ET.fromstring(svg.draw(Scene("s", "t", "d", measures), "us")))
    rows = sorted(box.top for words, box in found if "ft" in words)
    assert len(rows) == 5
    assert min(b - a for a, b in itertools.pairwise(rows)) >= SIZE


def test_limit_within_the_field_is_drawn_and_marked_and_beyond_it_only_marked() -> None:
    field = next(shape for shape in stress().shapes if isinstance(shape, Contours))

    def drawn(limit: float | None) -> str:
        shape = Contours(field.across, field.up, field.values, field.unit, field.what, limit)
        return svg.draw(Scene("s", "t", "d", (shape,)), "metric")

    assert "allowed 3.4 MPa" in drawn(3.4e6)
    assert drawn(3.4e6).count('fill="url(#ts-s-over)"') == 2
    for beyond in (6e6, 9e6):
        assert f"allowed {beyond / 1e6:.0f} MPa" in drawn(beyond)
        assert 'fill="url(#ts-s-over)"' not in drawn(beyond)
    assert "far beyond" in drawn(9e6)
    assert "far beyond" not in drawn(6e6)
    assert "allowed" not in drawn(None)
    assert "most 4.2 MPa" in drawn(None)


@given(
    st.lists(st.floats(allow_nan=True, allow_infinity=True), min_size=2, max_size=6),
    st.text(max_size=30),
    st.sampled_from(list(PAINTS)),
)
def test_no_scene_breaks_the_file(numbers: list[float], words: str, stuff: Stuff) -> None:
    points = tuple(zip(numbers, reversed(numbers), strict=True))
    scene = Scene(
        words,
        words,
        words,
        (
            Area(points, stuff, words, words),
            Stroke(points, stuff, words, words),
            Note(points[0], words, words),
            Measure(points[0], points[1], 0.1, "", words),
        ),
    )
    root = ET.fromstring(svg.draw(scene, "metric"))
    assert all(math.isfinite(float(number)) for number in root.get("viewBox", "").split())


def test_empty_scene_is_an_empty_drawing() -> None:
    root = ET.fromstring(svg.draw(Scene("s", "Nothing yet", "Nothing to draw.", ()), "metric"))
    assert root[0].text == "Nothing yet"


def test_without_style_sheet_the_light_colours_stand_in_the_shapes() -> None:
    text = svg.draw(elevation(), "metric", titled=False, themed=False)
    assert "<style" not in text
    assert "var(" not in text
    assert LIGHT["timberpale"] in text
    assert ">South wall from outside</tspan>" not in text


def test_both_palettes_colour_every_role_and_ink_stands_out_from_paper() -> None:
    """At least 4.5 to 1 for words on the sheet. Source: WCAG 2.2, success criterion 1.4.3 [from memory]."""
    assert set(LIGHT) == set(DARK)
    for palette in (LIGHT, DARK):
        for role in ("ink", "soft"):
            assert contrast(palette[role], palette["paper"]) >= 4.5
        for role in ("water", "rust", "timber"):
            assert contrast(palette[role], palette["paper"]) >= 3.0


def contrast(one: str, other: str) -> float:
    """Contrast ratio of two colours by the formula of WCAG 2.2."""

    def luminance(colour: str) -> float:
        parts = [int(colour[k : k + 2], 16) / 255.0 for k in (1, 3, 5)]
        linear = [part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts]
        return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]

    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


@pytest.mark.parametrize("verdict", list(Verdict))
def test_sign_says_its_verdict_in_words(verdict: Verdict) -> None:
    use = {Verdict.SOUND: 0.4, Verdict.NEAR: 0.9, Verdict.FAILS: 1.4, Verdict.UNPROVEN: None}[verdict]
    root = ET.fromstring(svg_sign.sign(verdict, use))
    assert root.get("role") == "img"
    assert (root.get("aria-label") or "").startswith(verdict.value)
    assert root.get("height") == "20"
    assert (root.find(f"{SVG}text") is not None) == (verdict is Verdict.UNPROVEN)


def test_signs_differ_in_more_than_the_level() -> None:
    """Near and sound are told apart at a glance: near has the limit drawn through, sound has not."""

    def strokes(verdict: Verdict, use: float | None) -> int:
        return len(ET.fromstring(svg_sign.sign(verdict, use)).findall(f".//{SVG}path"))

    assert strokes(Verdict.NEAR, 0.81) == strokes(Verdict.SOUND, 0.79) + 1


def test_sign_fills_as_the_limit_is_used() -> None:
    def level(use: float, verdict: Verdict) -> float:
        water = ET.fromstring(svg_sign.sign(verdict, use)).find(f"{SVG}rect")
        assert water is not None
        return float(water.get("height", "0"))

    rising = [level(use, Verdict.SOUND) for use in (0.1, 0.3, 0.5, 0.7, 0.79)] + [level(0.95, Verdict.NEAR)]
    assert rising == sorted(rising)
    assert rising[0] < 0.25 * rising[-1]


def test_a_number_stays_on_the_line_of_its_unit() -> None:
    assert broken("runs at 13.3 m³/h at 1.93 m", 26) == ["runs at 13.3 m³/h at", "1.93 m"]
    assert broken("runs all day at 3,433 US gal/h", 24) == ["runs all day at", "3,433 US gal/h"]


def test_words_keep_off_sloping_lines() -> None:
    """A note in the middle of a slope is moved off it; the box round the whole slope is no obstacle."""
    slope = Stroke(((0.0, 0.0), (2.0, 1.0)), "outline")
    frame = Frame(200.0, "x", "metric")
    pieces = edges(frame, slope)
    assert max((one.right - one.left) * (one.bottom - one.top) for one in pieces) < 200.0
    assert min(one.left for one in pieces) == -1.0
    assert max(one.right for one in pieces) == 401.0
    (flat,) = edges(frame, Stroke(((0.0, 0.0), (2.0, 0.0)), "outline"))
    assert (flat.left, flat.right) == (-1.0, 401.0)


def test_words_moved_off_their_place_have_a_leader_wherever_they_went() -> None:
    """Numbers on level lines at many heights: rounding must not take the leader from some of them."""
    for at in range(40):
        line = Stroke(((-1.0, 0.037 * at), (1.0, 0.037 * at)), "outline", "line")
        drawn = svg.draw(
            Scene("lines", "Lines", "Lines.", (line, Note((0.0, 0.037 * at), "5", "line"))), "metric"
        )
        assert drawn.count("<circle") == 1, at
