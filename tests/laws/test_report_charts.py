"""Plots as SVG, JSON and text: well-formed, told in words, told apart without colour, marks round in either system."""

from __future__ import annotations

import dataclasses
import io
import itertools
import json
import math
import re
import xml.etree.ElementTree as ET

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.laws.chart_samples import (
    balance,
    charts,
    cooling,
    day_curves,
    long_costs,
    long_words,
    month_bars,
    ranking,
    sun_map,
    water_year,
)
from tests.laws.test_report_json import CLOSED, faults
from tests.laws.test_report_svg import SVG, texts
from tidestead.core.answer import Answer
from tidestead.core.charts import BarChart, Bars, Chart, Curve, LineChart, Mark, Wanted
from tidestead.core.units import System, scale
from tidestead.report import as_json, svg_chart_looks
from tidestead.report.svg_chart import draw_chart
from tidestead.report.svg_words import Box
from tidestead.report.terminal import print_answers
from tidestead.report.terminal_sheet import console

BOTH: list[tuple[Chart, System]] = list(itertools.product(charts(), ("metric", "us")))
EACH = pytest.mark.parametrize(("chart", "system"), BOTH, ids=lambda value: getattr(value, "id", value))


def drawn(chart: Chart, system: System = "metric") -> ET.Element:
    return ET.fromstring(draw_chart(chart, system))


def words_of(chart: Chart, system: System = "metric") -> list[str]:
    return [text for text, _ in texts(drawn(chart, system))]


@EACH
def test_well_formed_and_told_to_those_who_cannot_see_it(chart: Chart, system: System) -> None:
    root = drawn(chart, system)
    assert root.get("role") == "img"
    assert (root[0].tag, root[0].text) == (f"{SVG}title", chart.title)
    assert (root[1].tag, root[1].text) == (f"{SVG}desc", chart.told)
    assert root.get("aria-labelledby") == f"{root[0].get('id')} {root[1].get('id')}"


@EACH
def test_words_keep_clear_of_words_and_inside_the_sheet(chart: Chart, system: System) -> None:
    root = drawn(chart, system)
    left, top, wide, tall = map(float, root.get("viewBox", "").split())
    sheet = Box(left, top, left + wide, top + tall)
    found = texts(root)
    for words, box in found:
        assert box.overlap(sheet) == pytest.approx((box.right - box.left) * (box.bottom - box.top)), words
    for (one, first), (other, second) in itertools.combinations(found, 2):
        assert first.overlap(second) < 4.0, (one, other)


@EACH
def test_fits_a_phone_and_a_page(chart: Chart, system: System) -> None:
    _, _, wide, tall = map(float, drawn(chart, system).get("viewBox", "").split())
    assert 470.0 <= wide <= 520.0
    assert tall < 1.2 * wide


@EACH
def test_asks_no_outside_host_and_names_only_what_it_defines(chart: Chart, system: System) -> None:
    text = draw_chart(chart, system)
    assert re.findall(r"https?://[^\"' ]+", text) == ["http://www.w3.org/2000/svg"]
    ids = [element.get("id") for element in ET.fromstring(text).iter() if element.get("id")]
    assert len(ids) == len(set(ids))
    assert set(re.findall(r"url\(#([^)]+)\)", text)) <= set(ids)


def test_every_line_bar_and_part_is_named_in_the_key() -> None:
    for chart, names in (
        (
            month_bars(),
            ["shallowest", "deepest", "P10 to P90 of 20 years", "wanted by stony corals with small polyps"],
        ),
        (water_year(), ["basin (P10 to P90 shaded)", "air of the building"]),
        (day_curves(), ["21 Dec", "21 Mar", "21 Jun", "22 Sep"]),
        (balance(), ["heaters", "sun", "air (both ways)", "change of water"]),
        (sun_map(), ["over 700 µmol/(m² s)"]),
        (ranking(), ["30 % less", "30 % more", "now 4100 kWh"]),
    ):
        assert set(names) <= set(words_of(chart))


def test_lines_and_bars_are_told_apart_without_colour() -> None:
    """Dashes of lines and hatches of bars are all different; those without a hatch differ in darkness."""
    dashes = [line.dashes for line in svg_chart_looks.LINES]
    assert len(set(dashes)) == len(dashes)
    looks = [re.sub(r"#[0-9a-f]{6}", "", svg_chart_looks.filled("u", index)) for index in range(10)]
    assert len(set(looks)) == 10
    tiles = [(hatch.lines, hatch.size) for name, hatch in svg_chart_looks.HATCHES.items() if name != "over"]
    assert len(set(tiles)) == len(tiles)


def test_limits_are_lines_with_their_words_and_figures() -> None:
    assert {"warmest 27 °C", "coolest 24 °C"} <= set(words_of(water_year()))
    assert {"warmest 80.6 °F", "coolest 75.2 °F"} <= set(words_of(water_year(), "us"))
    far = dataclasses.replace(day_curves(), limits=(Mark(9000.0, "never over"),))
    assert any("never over 9000 µmol/(m² s), beyond this scale" in words for words in words_of(far))


def test_a_bar_is_as_high_as_its_value() -> None:
    """By the marks: the bar of 10 ends where the level line of 10 runs."""
    chart = BarChart("b", "t", "d", "w", "W", (Bars("one", (10.0, 5.0)),), ("a", "b"))
    root = drawn(chart)
    rects = [rect for rect in root.iter(f"{SVG}rect") if rect.get("stroke-width") == "0.8"][:2]
    tops = [float(rect.get("y", "")) for rect in rects]
    heights = [float(rect.get("height", "")) for rect in rects]
    assert heights[0] == pytest.approx(2.0 * heights[1], abs=0.2)
    level = {text: (box.top + box.bottom) / 2.0 for text, box in texts(root)}
    assert tops[0] == pytest.approx(level["10"], abs=2.5)


def test_bars_under_long_words_lie_and_temperatures_are_dots() -> None:
    """No bar from nothing degrees: a dot stands where its value is on the scale, every label is told."""
    root = drawn(long_words())
    dots = [float(dot.get("cx", "")) for dot in root.iter(f"{SVG}circle")]
    assert len(dots) == 4
    marks = {text: (box.left + box.right) / 2.0 for text, box in texts(root)}
    per_kelvin = (marks["28"] - marks["26"]) / 2.0
    assert dots[2] - dots[0] == pytest.approx((26.1 - 27.2) * per_kelvin, abs=0.5)
    assert {"as planned", "with a fan of 1 m/s over the water"} <= set(words_of(long_words()))
    rects = [rect for rect in drawn(long_costs()).iter(f"{SVG}rect") if rect.get("stroke-width") == "0.8"]
    widths = [float(rect.get("width", "")) for rect in rects if rect.get("height") == "9"]
    assert widths[3] == pytest.approx(1.3 * widths[0], abs=0.3)


def test_stacks_add_up_over_and_under_nothing() -> None:
    """Parts of every month touch: heights over the zero line sum to the gains, those under it to the losses."""
    chart = balance()
    rects = [rect for rect in drawn(chart).iter(f"{SVG}rect") if rect.get("stroke-width") == "0.8"]
    bars = [rect for rect in rects if rect.get("height") != "12"]
    by_place: dict[str, float] = {}
    for rect in bars:
        by_place[rect.get("x", "")] = by_place.get(rect.get("x", ""), 0.0) + float(rect.get("height", ""))
    sums = [sum(abs(part.values[month]) for part in chart.parts) for month in range(12)]
    ratios = [height / total for height, total in zip(by_place.values(), sums, strict=True)]
    assert ratios == pytest.approx([ratios[0]] * 12, rel=0.01)


def test_a_map_marks_what_lies_over_its_limit() -> None:
    chart = sun_map()
    text = draw_chart(chart, "metric")
    assert 'fill="url(#ts-light-reef-map-over)"' in text
    calm = dataclasses.replace(chart, limit=5000.0)
    assert "over)" not in draw_chart(calm, "metric")


def test_a_gap_stays_a_gap() -> None:
    text = draw_chart(cooling(), "metric")
    covered = next(re.finditer(r'<path d="(M[^"]+)"[^>]*stroke-dasharray="9 4"', text))[1]
    assert covered.count("M") == 2


@given(
    st.lists(st.floats(-1e12, 1e12) | st.sampled_from([math.nan, math.inf]), min_size=1, max_size=40),
    st.sampled_from(["degC", "J", "W", "m", "s", "1", "mol/(m2 day)"]),
    st.sampled_from(["metric", "us"]),
)
def test_any_numbers_can_be_drawn(values: list[float], unit: str, system: System) -> None:
    at = tuple(float(index) for index in range(len(values)))
    limits = (Mark(values[0] if math.isfinite(values[0]) else 1.0, "limit"),)
    wanted = Wanted(1.0, 2.0, "wanted")
    line = LineChart("l", "t", "d", "w", unit, (Curve("c", at, tuple(values)),), limits=limits, wanted=wanted)
    bar = BarChart(
        "b", "t", "d", "w", unit, (Bars("c", tuple(values)),), tuple("x" for _ in values), wanted=wanted
    )
    for chart in (line, bar):
        text = draw_chart(chart, system)
        ET.fromstring(text)
        assert "nan" not in text
        assert "inf" not in text.replace("info", "")


@given(
    st.floats(-1e9, 1e9),
    st.floats(1e-6, 1e9),
    st.sampled_from(["degC", "J", "W", "m", "s", "umol/(m2 s)", "W/m2"]),
    st.sampled_from(["metric", "us"]),
)
def test_scales_are_round_hold_their_values_and_have_few_marks(
    low: float, span: float, unit: str, system: System
) -> None:
    found = scale([low, low + span], unit, system)
    slack = 1e-9 * max(abs(low), span, 1.0)
    assert found.low <= low + slack
    assert found.high >= low + span - slack
    assert 2 <= len(found.marks) <= 8
    figures = [text for _, text in found.marks]
    assert len(set(figures)) == len(figures)
    steps = [b - a for (a, _), (b, _) in itertools.pairwise(found.marks)]
    assert steps == pytest.approx([steps[0]] * len(steps), rel=1e-3)


@pytest.mark.parametrize(
    ("values", "unit", "system", "word", "figures"),
    [
        ([18.2, 29.1], "degC", "us", "°F", ["60", "65", "70", "75", "80", "85"]),
        ([0.0, 3.3e9], "J", "metric", "kWh", ["0", "200", "400", "600", "800", "1000"]),
        ([0.0, 172800.0], "s", "metric", "h", ["0", "12", "24", "36", "48"]),
        ([0.0, 1.2], "m", "us", "ft", ["0", "1", "2", "3", "4"]),
    ],
)  # fmt: skip
def test_marks_in_the_readers_unit(
    values: list[float], unit: str, system: System, word: str, figures: list[str]
) -> None:
    found = scale(values, unit, system)
    assert (found.word, [text for _, text in found.marks]) == (word, figures)


def test_json_has_every_chart_as_the_schema_describes_it() -> None:
    answer = Answer("light", "Is there light?", "Yes.", charts=tuple(charts()))
    document = json.loads(as_json.dump({"light": answer}, "reef.toml"))
    assert not faults(document, CLOSED)
    kinds = [chart["kind"] for chart in document["answers"]["light"]["charts"]]
    assert kinds == [
        "bars",
        "lines",
        "lines",
        "lines",
        "stacks",
        "year",
        "ranks",
        "bars",
        "bars",
        "hours",
        "grid",
    ]
    gap = document["answers"]["light"]["charts"][3]
    assert gap["curves"][1]["values"][7] is None
    assert gap["why_null"]["curves/1/values/7"] == "not a number"


def test_a_terminal_tells_from_where_to_where() -> None:
    answer = Answer("light", "Is there light?", "Yes.", charts=tuple(charts()))
    out = io.StringIO()
    print_answers({"light": answer}, "metric", False, console(out))
    text = out.getvalue()
    assert "basin: 23.5 °C to 26.7 °C" in text
    assert "evaporation and cover: 30 % less 2900 kWh, 30 % more 5300 kWh" in text
    assert "Drawings and plots" in text
