"""Lists for a yard and a saw: sizes and order as the trade has them, sums, files that hold numbers and no formulas."""

from __future__ import annotations

import csv
import io
import math
from itertools import product

import pytest
from openpyxl import load_workbook
from openpyxl.utils import get_column_letter
from openpyxl.worksheet.worksheet import Worksheet

from tests.laws.cut_samples import FOOT, MITRE, PARTS, PIECES, PLY, SAWN, TAKEN, TWO_BY_SIX, plans
from tidestead.build.cut_lists import assembly, cut_list, quantities
from tidestead.build.cut_plans import CutPlans, is_there, stock_numbers
from tidestead.build.cutting.numbering import numbers, ranges, short_marks
from tidestead.build.merchant_lists import bars_list, merchant_list
from tidestead.build.shed_list import shed_list
from tidestead.build.sheet_lists import clear_list, sheets_list
from tidestead.core.answer import Column, Table
from tidestead.core.units import System
from tidestead.report.plain import clean
from tidestead.report.sheets_csv import MARK, csv_text
from tidestead.report.sheets_xlsx import workbook

PLANS = plans()
INCH = FOOT / 12.0
MERCHANT = merchant_list(PLANS, "us", "USD")
CUT = cut_list(TAKEN, stock_numbers(PLANS))
EVERY = (
    MERCHANT,
    CUT,
    sheets_list(PLANS, "USD"),
    clear_list(PARTS),
    bars_list(PLANS, "us"),
    quantities(PIECES),
)


def column(table: Table, head: str) -> list[float | str | None]:
    index = [one.head for one in table.columns].index(head)
    return [row[index] for row in table.rows]


def row_of(table: Table, mark: str) -> dict[str, float | str | None]:
    heads = [one.head for one in table.columns]
    return next(dict(zip(heads, row, strict=True)) for row in table.rows if row[0] == mark)


def figures(table: Table, head: str) -> list[float]:
    return [value for value in column(table, head) if isinstance(value, float)]


def test_every_piece_and_part_stands_once_in_the_cut_list_with_its_finished_size() -> None:
    assert sorted(map(str, column(CUT, "mark"))) == sorted([one.mark for one in (*PIECES, *PARTS)])
    stud = row_of(CUT, "reef N1")
    assert (stud["qty"], stud["T"], stud["W"], stud["L"]) == pytest.approx(
        (9.0, 1.5 * INCH, 5.5 * INCH, 1.168)
    )
    assert stud["assembly"] == "reef, north wall"
    assert stud["done"] == ""


def test_length_runs_along_the_grain_even_where_it_is_shorter() -> None:
    narrow = row_of(CUT, "reef S2")
    assert (narrow["W"], narrow["L"]) == (1.1, 0.5)
    assert narrow["grain"] == "along L"
    assert row_of(CUT, "reef W1")["grain"] == "none"


def test_end_cuts_are_told_of_timber_alone() -> None:
    ring, sheet = row_of(CUT, "reef R1"), row_of(CUT, "reef S1")
    assert (ring["end cut, left"], ring["end cut, right"]) == (MITRE, MITRE)
    assert sheet["end cut, left"] is None


def test_stock_numbers_lead_back_to_lengths_that_hold_the_piece() -> None:
    """Expanding both lists by hand: every mark comes out as often as it is wanted, from just the numbers told."""
    held: dict[int, list[str]] = {}
    bars = bars_list(PLANS, "us")
    for name, order in zip(column(bars, "no."), column(bars, "pieces in order"), strict=True):
        first, _, last = str(name).partition(" to ")
        pieces = []
        for words in str(order).split(", "):
            count, times, mark = words.partition(" x ")
            pieces += [mark] * int(count) if times else [words]
        held |= {number: pieces for number in range(int(first), int(last or first) + 1)}
    for piece in PIECES:
        cut_from = {number for number, marks in held.items() if piece.mark in marks}
        assert row_of(CUT, piece.mark)["from stock no."] == ranges(cut_from)
        assert sum(marks.count(piece.mark) for marks in held.values()) == piece.count


def test_merchant_is_asked_for_lengths_by_section_longest_first() -> None:
    sizes = list(zip(column(MERCHANT, "section"), figures(MERCHANT, "length"), strict=True))
    for section in {name for name, _ in sizes}:
        lengths = [length for name, length in sizes if name == section]
        assert lengths == sorted(lengths, reverse=True)
    bars = sum(bar.times for cut in PLANS.lengths for bar in cut.plan.bars if not is_there(bar.stock))
    assert sum(figures(MERCHANT, "qty")) == bars + sum(figures(MERCHANT, "of it spare"))


def test_merchant_counts_board_feet_by_the_nominal_size_and_volume_by_the_finished() -> None:
    """A 2x6 holds a board foot in every foot; 1 1/2 by 5 1/2 in of it are wood."""
    both = merchant_list(PLANS, "metric", "USD")
    for row in both.rows:
        told = dict(zip([one.head for one in both.columns], row, strict=True))
        running = told["running length"]
        assert isinstance(running, float)
        if told["section"] == "2x6":
            assert told["board ft"] == pytest.approx(running / FOOT)
            assert told["m³, finished"] == pytest.approx(8.25 * INCH**2 * running)
        else:
            assert told["board ft"] is None
            assert told["m³, finished"] == pytest.approx(0.047 * 0.145 * running)


def test_a_yard_is_told_the_measure_it_sells_by() -> None:
    """Cubic metres say nothing to a yard in feet, board feet nothing to one that has no section in inches."""
    metres = CutPlans(tuple(cut for cut in PLANS.lengths if cut.item == SAWN))
    heads = [[one.head for one in table.columns] for table in (MERCHANT, merchant_list(metres, "metric"))]
    assert ["board ft" in one for one in heads] == [True, False]
    assert ["m³, finished" in one for one in heads] == [False, True]
    assert all(len(row) == len(MERCHANT.columns) for row in MERCHANT.rows)


def test_what_is_there_costs_nothing_and_what_is_bought_its_price_each() -> None:
    heads = ("qty", "unit price", "total", "from")
    for qty, price, total, source in zip(*(column(MERCHANT, head) for head in heads), strict=True):
        if source == "on hand":
            assert price is total is None
        else:
            assert isinstance(qty, float)
            assert isinstance(price, float)
            assert total == pytest.approx(qty * price)


def test_sheets_are_asked_for_by_product_size_and_bond() -> None:
    (row,) = sheets_list(PLANS, "USD").rows
    assert row[0] == PLANS.sheets[0].plan.count
    assert "Plywood 23/32 in" in str(row[1])
    assert row[2:5] == pytest.approx((23.0 / 32.0 * INCH, 8.0 * FOOT, 4.0 * FOOT))
    assert "PS 1" in row
    assert "Exterior" in row


def test_a_clear_sheet_is_told_with_its_tolerance() -> None:
    """Cast acrylic 60 mm: 0.4 mm and a tenth of the thickness."""
    told = row_of(clear_list(PARTS), "reef W1")
    assert told["tolerance, plus or minus"] == pytest.approx(0.0064)
    assert (told["width"], told["height"], told["made"], told["edges"]) == (
        2.1336,
        1.1684,
        "cast",
        "machined",
    )


def test_quantities_of_a_mitred_piece() -> None:
    """Two triangles less: each as wide as the piece and as long as its width times the tangent."""
    told = row_of(quantities(PIECES), "reef R1")
    thick, wide = TWO_BY_SIX.sizes
    assert told["GrossVolume, m³"] == pytest.approx(thick * wide * 0.62)
    assert told["NetVolume, m³"] == pytest.approx(thick * wide * (0.62 - wide * math.tan(MITRE)))
    assert told["GrossSurfaceArea, m²"] == pytest.approx(2.0 * (thick + wide) * 0.62 + 2.0 * thick * wide)
    assert told["GrossWeight, kg"] == pytest.approx(548.0 * thick * wide * 0.62, rel=0.01)


@pytest.mark.parametrize(
    ("key", "vessel", "words"),
    [
        ("vessels.reef.walls.south.windows.long", "reef", "reef, south wall, window long"),
        ("vessels.sump.walls.all.studs", "sump", "sump, all walls"),
        ("vessels.tower.walls.6.sheathing", "tower", "tower, face 6"),
        ("vessels.tower.rings.top", "tower", "tower, rings top"),
        ("circuits.main.route", "", "circuit main"),
        ("building.glazing", "", "building.glazing"),
    ],
)
def test_assemblies_are_named_in_words(key: str, vessel: str, words: str) -> None:
    assert assembly(key, vessel) == words


def test_numbers_and_marks_are_short() -> None:
    assert numbers([3, 1, 2], first=4) == ["4 to 6", "7", "8 to 9"]
    assert ranges({9, 1, 2, 3, 7}) == "1 to 3, 7, 9"
    assert short_marks(["reef N1", "reef S2"]) == {"reef N1": "N1", "reef S2": "S2"}
    assert short_marks(["reef N1", "sump N1"]) == {"reef N1": "reef N1", "sump N1": "sump N1"}


def opened(tables: tuple[Table, ...], system: System) -> dict[str, Worksheet]:
    book = load_workbook(
        io.BytesIO(workbook(tables, "reef", system, {"cost.merchant": ("board ft", "total")}))
    )
    return {sheet.title: sheet for sheet in book.worksheets}


def test_workbook_has_a_sheet_for_every_list_that_prints_well() -> None:
    sheets = opened(EVERY, "us")
    assert list(sheets) == ["Merchant", "Cut list", "Sheets", "Clear sheets", "Bars", "Quantities"]
    for sheet in sheets.values():
        assert sheet.freeze_panes == "A2"
        assert sheet.print_title_rows == "$1:$1"
        assert sheet.page_setup.orientation == "landscape"
        assert (sheet.page_setup.fitToWidth, sheet.page_setup.fitToHeight) == (1, 0)
        assert all(one.width >= 6.0 for one in sheet.column_dimensions.values())


def test_rows_are_as_tall_as_their_words_and_money_has_cents() -> None:
    """A row of two lines is twice as tall; 1443.1 is written 1,443.10, whatever a program makes of heights itself."""
    words = "thirty-four letters are the widest, these are more than forty"
    made = Table("x.y", "z", (Column("what"), Column("money", "USD")), ((words, 1443.1), ("short", 2.0)))
    sheet = load_workbook(io.BytesIO(workbook([made], "", "us"))).worksheets[0]
    assert sheet.row_dimensions[2].height == 2.0 * sheet.row_dimensions[3].height
    assert (sheet.row_dimensions[1].height or 0.0) >= (sheet.row_dimensions[3].height or 1.0)
    assert [sheet.cell(row, 2).number_format for row in (2, 3)] == ["#,##0.00"] * 2
    assert [sheet.cell(row, 2).value for row in (2, 3)] == [1443.1, 2.0]


@pytest.mark.parametrize(
    ("system", "head", "size"), [("metric", "L, mm", 1000.0), ("us", "L, in", 1.0 / INCH)]
)
def test_cells_are_numbers_in_the_unit_of_the_head(system: System, head: str, size: float) -> None:
    sheet = opened(EVERY, system)["Cut list"]
    heads = [cell.value for cell in sheet[1]]
    cells = [row[heads.index(head)].value for row in sheet.iter_rows(min_row=2, max_row=1 + len(CUT.rows))]
    assert cells == pytest.approx([size * length for length in figures(CUT, "L")], rel=1e-7)
    assert ("L, in words" in heads) is (system == "us")


def test_a_sum_is_a_formula_over_all_rows_and_nothing_else_is_one() -> None:
    sheet = opened(EVERY, "us")["Merchant"]
    formulas = [cell for row in sheet.iter_rows() for cell in row if cell.data_type == "f"]
    last = 1 + len(MERCHANT.rows)
    assert [cell.row for cell in formulas] == [last + 1] * 2
    for cell in formulas:
        assert cell.column is not None
        letter = get_column_letter(cell.column)
        assert cell.value == f"=SUM({letter}2:{letter}{last})"


SIGNS = "=+-@\t\r\n\",;a1(!&'|"
NASTY = [
    "",
    *SIGNS,
    *map("".join, product(SIGNS, repeat=2)),
    "=1+1",
    "+SUM(A1)",
    "-2+3",
    "@x",
    '=HYPERLINK("a","b")',
]


def test_no_text_becomes_a_formula() -> None:
    """Every pair of signs that spreadsheets and files of values care about, and a few whole formulas."""
    table = Table("x.y", "=1", (Column("what"), Column("length", "m")), tuple((word, 1.0) for word in NASTY))
    sheet = load_workbook(io.BytesIO(workbook([table], "=2", "metric"))).worksheets[0]
    assert [cell.data_type for cell in sheet["A"]].count("f") == 0
    assert [sheet["A"][NASTY.index(word) + 1].value for word in ("=1+1", "-2+3")] == ["=1+1", "-2+3"]
    lines = list(csv.reader(io.StringIO(csv_text(table, "metric").removeprefix(MARK), newline="")))
    assert lines[0] == ["what", "length, m"]
    assert len(lines) == 1 + len(NASTY)
    for line, word in zip(lines[1:], NASTY, strict=True):
        assert line[0][:1] not in {"=", "+", "-", "@", "\t", "\r"}
        assert line[0] in (clean(word), f"'{clean(word)}")
        assert line[1] == "1"


def test_values_file_is_as_the_standard_has_it() -> None:
    """RFC 4180: CR LF at every line's end, quotes where a comma stands, one field for every head."""
    text = csv_text(CUT, "metric")
    assert text.startswith(MARK)
    assert text.count("\r\n") == 1 + len(CUT.rows) == text.count("\n")
    lines = list(csv.reader(io.StringIO(text.removeprefix(MARK), newline="")))
    assert {len(line) for line in lines} == {len(CUT.columns)}
    stud = dict(zip(lines[0], next(line for line in lines if line[0] == "reef N1"), strict=True))
    assert (stud["T, mm"], stud["W, mm"], stud["L, mm"]) == ("38.1", "139.7", "1168")
    ring = dict(zip(lines[0], next(line for line in lines if line[0] == "reef R1"), strict=True))
    assert float(ring["end cut, left, °"]) == pytest.approx(22.5)


def test_gaps_and_what_is_no_number_do_not_stop_a_file() -> None:
    columns = (Column("a", "m"), Column("b", "EUR"), Column("c", "1", "share"))
    table = Table("x.gaps", "gaps", columns, ((None, math.nan, 0.25), (2.0, math.inf, None)))
    lines = list(csv.reader(io.StringIO(csv_text(table, "metric").removeprefix(MARK))))
    assert lines == [["a, m", "b", "c, %"], ["", "no number", "25"], ["2", "endless", ""]]
    assert opened((table,), "metric")["Gaps"]["A3"].value == 2.0


def test_sheets_of_one_sort_hold_every_part() -> None:
    placed = [
        part.mark
        for sheet in PLANS.sheets[0].plan.sheets
        for part in sheet.placed
        for _ in range(sheet.times)
    ]
    assert sorted(placed) == sorted(
        part.mark for part in PARTS if part.item == PLY for _ in range(part.count)
    )


def test_nobody_is_asked_for_what_is_there() -> None:
    """What is bought and what is there are apart, and together they are what the plans use."""
    there, asked_for = shed_list(PLANS, "us"), (*MERCHANT.rows, *sheets_list(PLANS, "USD").rows)
    used = [(is_there(stock), used + spare) for cut in PLANS.lengths for stock, used, spare in cut.used()]
    used += [(is_there(board), used + spare) for cut in PLANS.sheets for board, used, spare in cut.used()]
    shed = [count for here, count in used if here]
    assert shed
    assert [row[0] for row in there.rows] == shed
    assert sum(float(row[0] or 0.0) for row in (*there.rows, *asked_for)) == sum(count for _, count in used)
    assert all(row[-2] for row in asked_for)  # each has what it costs
