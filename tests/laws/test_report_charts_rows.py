"""Charts of hours and of grids: every value stands in picture or table, in place, and apart without colour."""

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

from tests.laws.chart_samples_rows import DAY, HOUR, NEVER, film, many_stops, stops, wide_grid
from tests.laws.test_report_json import CLOSED, faults
from tests.laws.test_report_svg import SVG, texts
from tidestead.core.answer import Answer
from tidestead.core.charts import GridChart, GridRow, HoursChart, HoursRow, Moment, Step
from tidestead.report import as_json, times
from tidestead.report.chart_tables import table_of
from tidestead.report.svg_chart import draw_chart
from tidestead.report.svg_chart_grid import STEPS
from tidestead.report.svg_words import Box, fitted, width
from tidestead.report.terminal import print_answers
from tidestead.report.terminal_sheet import console

Charts = HoursChart | GridChart
LARGE: list[Charts] = [many_stops(), wide_grid()]
ROWS = 25


def drawn(chart: Charts) -> ET.Element:
    return ET.fromstring(draw_chart(chart, "metric"))


def begins(root: ET.Element, attribute: str, value: str) -> list[tuple[float, float]]:
    """Where the paths with an attribute begin, those of the key apart, which stand in a group of their own."""
    paths = [path for path in root.findall(f"{SVG}path") if path.get(attribute) == value]
    found = [re.match(r"M(\S+) ([-\d.]+)", path.get("d", "")) for path in paths]
    return [(float(one[1]), float(one[2])) for one in found if one]


def on_one_row(
    moments: tuple[float, ...], response: float | None = None, followed: float = 1000.0 * HOUR
) -> HoursChart:
    answered = None if response is None else Moment.exact(response)
    row = HoursRow("one", tuple(map(Moment.exact, moments)), answered)
    return HoursChart("h", "t", "d", "w", (row,), followed)


@pytest.mark.parametrize("chart", LARGE, ids=lambda chart: chart.id)
def test_twenty_five_rows_keep_clear_of_one_another_and_inside_the_sheet(chart: Charts) -> None:
    root = drawn(chart)
    left, top, wide, tall = map(float, root.get("viewBox", "").split())
    sheet = Box(left, top, left + wide, top + tall)
    found = texts(root)
    assert len(chart.rows) == ROWS
    assert len([words for words, _ in found if words.startswith(("fault", "week"))]) == ROWS
    for words, box in found:
        assert box.overlap(sheet) == pytest.approx((box.right - box.left) * (box.bottom - box.top)), words
    for (one, first), (other, second) in itertools.combinations(found, 2):
        assert first.overlap(second) < 4.0, (one, other)


def test_a_tall_chart_says_so_and_a_low_one_does_not() -> None:
    """A page gives the tall one more height, so that its words stay as large."""
    assert "tall" in drawn(many_stops()).get("class", "").split()
    assert "tall" not in drawn(stops()).get("class", "").split()


@given(st.text("ilmWM@é 05.-…", min_size=1, max_size=200), st.floats(20.0, 200.0), st.integers(1, 3))
def test_words_that_are_fitted_are_never_wider_than_their_room(text: str, room: float, most: int) -> None:
    lines = fitted(text, room, 12.5, most)
    assert 1 <= len(lines) <= most
    assert all(width(line, 12.5) <= room for line in lines)


def test_moments_stand_in_order_where_their_logarithm_says() -> None:
    chart = on_one_row((HOUR, 10.0 * HOUR, 100.0 * HOUR), 10.0 * HOUR)
    root = drawn(chart)
    places = [begins(root, "data-moment", str(which))[0] for which in range(3)]
    across = [x for x, _ in places]
    assert across[1] - across[0] == pytest.approx(across[2] - across[1], abs=0.2)
    [(answer, height)] = begins(root, "data-response", "")
    assert answer == pytest.approx(across[1], abs=0.1)
    assert height < places[1][1] + 5.0
    bands = [rect for rect in root.findall(f"{SVG}rect") if rect.get("data-band")]
    assert [float(rect.get("x", "")) for rect in bands] == pytest.approx(across, abs=0.1)


def test_a_range_reaches_from_the_earliest_to_the_latest_with_its_sign_at_what_is_likely() -> None:
    spread = Moment(HOUR, 20.0 * HOUR, 100.0 * HOUR)
    exact = tuple(map(Moment.exact, (HOUR, 20.0 * HOUR, 100.0 * HOUR)))
    rows = (HoursRow("exact", exact), *(HoursRow("r", (None,) * at + (spread,), spread) for at in range(3)))
    root = drawn(HoursChart("h", "t", "d", "w", rows, 1000.0 * HOUR))
    low, likely, high = (begins(root, "data-moment", str(which))[0][0] for which in range(3))
    found = [
        re.match(r"M(\S+) \S+?v[46]m0 -[23]H([\d.]+)m", path.get("d", ""))
        for path in root.findall(f"{SVG}path")
    ]
    ranges = [(float(one[1]), float(one[2])) for one in found if one]
    assert len(ranges) >= 6, "three moments and three answers"
    assert ranges == [pytest.approx((low, high), abs=0.1)] * len(ranges)
    signs = [x for which in range(3) for x, _ in begins(root, "data-moment", str(which))[1:]]
    answers = [x for x, _ in begins(root, "data-response", "")]
    assert [*signs, *answers] == pytest.approx([likely] * 6, abs=0.1)


def test_a_range_that_may_never_end_is_an_arrow() -> None:
    """It goes on behind the scale, and no foot closes it."""
    row = HoursRow("r", (None, None, Moment(HOUR, 10.0 * HOUR, math.inf)))
    root = drawn(HoursChart("h", "t", "d", "w", (row,), 1000.0 * HOUR))
    last = begins(drawn(on_one_row((1000.0 * HOUR,))), "data-moment", "0")[0][0]
    paths = [path.get("d", "") for path in root.findall(f"{SVG}path")]
    open_ends = [float(one[1]) for path in paths if (one := re.search(r"v6m0 -3H([\d.]+)$", path))]
    assert open_ends
    assert all(end > last for end in open_ends)


def test_the_word_of_an_arrow_never_lies_on_a_sign() -> None:
    taken = [text for text, _ in texts(drawn(on_one_row((500.0 * HOUR, math.inf))))]
    assert taken.count("not within 41.7 days") == 1, "in the key alone"


def test_marks_stand_at_the_times_they_name() -> None:
    scale = times.times_of(stops(), 0.0, 100.0)
    assert [words for _, words in scale.marks] == ["≤ 1 min", "10 min", "1 h", "6 h", "1 day", "1 week"]
    assert [at for at, _ in scale.marks] == [60.0, 600.0, HOUR, 6.0 * HOUR, DAY, 7.0 * DAY]
    assert scale.x(600.0) == pytest.approx(100.0 * math.log(10.0) / math.log(10.0 * DAY / 60.0))
    assert (scale.x(1.0), scale.x(11.0 * DAY)) == (0.0, 100.0)


def test_what_never_comes_is_an_arrow_with_its_word_and_no_sign() -> None:
    chart = on_one_row((math.inf,), None, 10.0 * DAY)
    root = drawn(chart)
    assert not begins(root, "data-moment", "0")
    assert [text for text, _ in texts(root)].count("not within 10 days") == 2, "in its row and in the key"
    comes = on_one_row((HOUR,), None, 10.0 * DAY)
    assert "not within 10 days" not in [text for text, _ in texts(drawn(comes))]
    assert len(begins(drawn(comes), "data-moment", "0")) == 1


def test_signs_are_told_apart_by_shape() -> None:
    root = drawn(on_one_row((HOUR, 10.0 * HOUR, 100.0 * HOUR), 10.0 * HOUR))
    signs = [
        re.sub(r"^M\S+ \S+?(?=[ml])", "", path.get("d", ""))
        for path in root.findall(f"{SVG}path")
        if path.get("data-moment") or path.get("data-response") is not None
    ]
    assert len(signs) == len(set(signs)) == 4


def test_every_row_stands_in_its_order_with_its_verdict() -> None:
    found = texts(drawn(stops()))
    words = [text for text, _ in found]
    for row in stops().rows:
        assert words.count(row.verdict) == sum(other.verdict == row.verdict for other in stops().rows)
    firsts = [row.name.split()[0] for row in stops().rows]
    named = [text.split()[0] for text, box in found if box.left == 19.0]  # behind the sign of the verdict
    assert [word for word in named if word in firsts][: len(firsts)] == firsts
    assert "no valve is described" in words


def test_every_moment_is_told_in_the_table() -> None:
    table = table_of(stops(), "metric")
    assert table is not None
    assert [column.head for column in table.columns] == [
        "what",
        "warn",
        "act",
        "harm",
        "somebody has acted",
        "verdict",
    ]
    rows = {row[0]: row[1:] for row in table.rows}
    assert list(rows) == [row.name for row in stops().rows]
    assert rows["heater stays on"] == (
        "4 h (2.4 h to 6.8 h)", "9 h (5.4 h to 15.3 h)", "15 h (9 h to 25.5 h)", "20 h (12 h to 34 h)",
        "fails, 133 % used",
    )  # fmt: skip
    assert rows["heater stays off"][2] == "not within 10 days (5 days at the earliest)"
    assert rows["valve of the wash sticks"] == ("-", "-", "-", "-", "unproven, no valve is described")
    assert rows["a joint of the main drain opens"][1] == "no number"
    assert rows["top-up stays on"][3] == "not within 10 days"
    perhaps = dataclasses.replace(stops(), rows=(HoursRow("p", (Moment(HOUR, 2.0 * HOUR, math.inf),)),))
    told = table_of(perhaps, "metric")
    assert told is not None
    assert told.rows == (("p", "2 h (from 1 h on, or not within 10 days)", "-", "-"),)


def test_row_that_was_followed_for_less_says_so_and_ends_there() -> None:
    never = Moment.exact(math.inf)
    short = HoursRow("short", (never,), followed=240.0 * HOUR)
    chart = HoursChart("h", "t", "d", "w", (short, HoursRow("long", (never,))), 1000.0 * HOUR)
    told = table_of(chart, "metric")
    assert told is not None
    assert [row[1] for row in told.rows] == ["not within 10 days", "not within 41.7 days"]
    heads = {
        text: box.right
        for text, box in texts(drawn(chart))
        if text in ("not within 10 days", "not within 41.7 days")
    }
    assert heads["not within 10 days"] < heads["not within 41.7 days"]
    assert "not within the time followed" in [text for text, _ in texts(drawn(chart))]


def test_every_value_of_a_grid_is_told_and_every_cell_has_its_step() -> None:
    chart = film()
    root = drawn(chart)
    cells = [rect.get("data-step") for rect in root.findall(f"{SVG}rect") if rect.get("data-step")]
    wanted = [
        "none" if math.isnan(value) else str(sum(value >= step.least for step in chart.steps) - 1)
        for row in chart.rows for value in row.values
    ]  # fmt: skip
    assert cells == wanted
    assert set(cells) == {"none", "0", "1", "2", "3", "4"}
    figures = [text for text, _ in texts(root)]
    table = table_of(chart, "metric")
    assert table is not None
    for row, cells_told in zip(chart.rows, table.rows, strict=True):
        assert cells_told[0] == row.name
        for value, told in zip(row.values, cells_told[1:], strict=False):
            if math.isnan(value):
                assert told == "no number"
            else:
                assert float(str(told)) == pytest.approx(100.0 * value, rel=0.006)
                assert f"{round(100.0 * value, 1):g}" in figures
    assert [row[-1] for row in table.rows] == [
        "28",
        "21",
        "10",
        "5",
        "5",
        "4",
        "none",
        "5",
        "5",
        "10",
        "21",
        "-",
    ]
    assert {column.head for column in table.columns} == {"month", *chart.columns, chart.mark}


def test_a_mark_stands_behind_its_column() -> None:
    chart = GridChart(
        "g", "t", "d", "w", "kg", ("a", "b", "c", "d"),
        tuple(GridRow("r", (1.0, 2.0, 3.0, 4.0), mark) for mark in (-1, 0, 3, None, 99)), (Step(0.0, "low"),), mark="m",
    )  # fmt: skip
    root = drawn(chart)
    edges = [float(rect.get("x", "")) for rect in root.findall(f"{SVG}rect") if rect.get("data-step")][:4]
    wide = edges[1] - edges[0]
    marks = [
        float(found[1]) for path in root.findall(f"{SVG}path")
        if path.get("data-mark") is not None and (found := re.search(r"H([\d.]+)V", path.get("d", "")))
    ]  # fmt: skip
    assert marks == pytest.approx([edges[0], edges[1], edges[3] + wide, edges[3] + wide], abs=0.2)


def test_steps_are_told_apart_without_colour_and_named_with_where_they_begin() -> None:
    tiles = [(hatch.lines, hatch.size) for hatch in STEPS.values()]
    assert len(set(tiles)) == len(tiles) == 3
    words = [text for text, _ in texts(drawn(film()))]
    assert {
        "clean",
        "a haze from 2 %",
        "some patches from 5 %",
        "many patches from 10 %",
        "covered from 20 %",
    } <= set(words)
    assert {"no number", "last day on which it is clean enough"} <= set(words)


def test_figures_that_find_no_room_are_left_to_the_table() -> None:
    words = [text for text, _ in texts(drawn(wide_grid()))]
    assert "936" not in words
    table = table_of(wide_grid(), "metric")
    assert table is not None
    assert table.rows[24][40] == "936"


@given(
    st.lists(
        st.floats(-1e12, 1e15) | st.sampled_from([math.nan, math.inf, -math.inf, 0.0]),
        min_size=1,
        max_size=12,
    ),
    st.sampled_from([10.0 * DAY, math.inf, math.nan, 0.0, 1e15]),
    st.sampled_from(["", "unproven", "sound", "another word"]),
)
def test_any_numbers_can_be_drawn_told_and_written(
    values: list[float], followed: float, verdict: str
) -> None:
    moments = tuple(Moment(values[0], value, values[-1]) for value in values)
    row = HoursRow("one", moments[:3], moments[-1], verdict if verdict != "another word" else "", values[0])
    hours = HoursChart("h", "t", "d", "w", (row, HoursRow("none", verdict=verdict)), followed)
    grid = GridChart(
        "g", "t", "d", "w", "kg", tuple("x" for _ in values), (GridRow("one", tuple(values), 2),),
        (Step(0.0, "low"), Step(1.0, "high")),
    )  # fmt: skip
    for chart in (hours, grid):
        text = draw_chart(chart, "us")
        ET.fromstring(text)
        assert "nan" not in text
        assert "inf" not in text
        table = table_of(chart, "us")
        assert table is not None
        assert all(len(cells) == len(table.columns) for cells in table.rows)
    safe = dataclasses.replace(hours, rows=(row,))
    document = json.loads(as_json.dump({"x": Answer("x", "q?", "s.", charts=(safe, grid))}, "p"))
    assert not faults(document, CLOSED)


def test_nothing_at_all_can_be_drawn() -> None:
    for chart in (HoursChart("h", "t", "d", "w", (), DAY), GridChart("g", "t", "d", "w", "kg", (), (), ())):
        assert drawn(chart).get("role") == "img"
        assert "nan" not in draw_chart(chart, "metric")


def test_json_keeps_never_apart_from_none() -> None:
    document = json.loads(as_json.dump({"x": Answer("x", "q?", "s.", charts=(stops(),))}, "p"))
    chart = document["answers"]["x"]["charts"][0]
    assert chart["rows"][4]["moments"][0] == [{"low": None, "likely": None, "high": None}]
    assert chart["why_null"]["rows/4/moments/0/0/likely"] == "infinite"
    assert chart["rows"][6]["moments"][:2] == [[], []]
    assert chart["rows"][2]["response"] == [{"low": 43200.0, "likely": 72000.0, "high": 122400.0}]
    assert NEVER.likely == math.inf


def test_a_terminal_tells_each_row() -> None:
    out = io.StringIO()
    answer = Answer("x", "q?", "s.", charts=(stops(), film()))
    target = console(out)
    target.width = 200
    print_answers({"x": answer}, "metric", False, target)
    text = out.getvalue()
    assert (
        "heater stays on: warn 4 h (2.4 h to 6.8 h); act 9 h (5.4 h to 15.3 h); harm 15 h (9 h to 25.5 h)"
        in text
    )
    assert "valve of the wash sticks: unproven, no valve is described" in text
    assert re.search(r"\S{10}  Mar  0\.465 to 13 %; last day on which it is clean enough: 10", text)
    assert "some patches from 5 %" in text
