"""Lists and parts of a plan as files: written from the command, opened again, refused where there is nothing."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest
from ezdxf.filemanagement import readfile
from openpyxl import load_workbook

from tests.journeys.structure_plans import VAT
from tidestead.cli import main
from tidestead.report.sheets_csv import MARK

BOOK = """
[book]
short = { of = "lumber 2x4 dfl-no2", sold = "8 ft", price = "5 USD/piece" }
long = { of = "lumber 2x4 dfl-no2", sold = "12 ft", price = "8 USD/piece" }
"""
BARE = 'tidestead = 1\nname = "Bare"\nshow = "metric"\n'


@pytest.fixture
def vat(tmp_path: Path) -> Path:
    path = tmp_path / "vat.toml"
    path.write_text(VAT + BOOK, encoding="utf-8")
    return path


def test_workbook_and_values_tell_the_same_cut_list(vat: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(vat.parent)
    assert main(["export", "vat.toml", "--to", "xlsx"]) == 0
    assert main(["export", "vat.toml", "--to", "csv", "-o", "values"]) == 0
    book = load_workbook("vat-lists.xlsx")
    text = Path("values/cut-list.csv").read_text("utf-8")
    assert text.startswith(MARK)
    lines = list(csv.reader(text.removeprefix(MARK).splitlines()))
    rows = [["" if cell is None else cell for cell in row] for row in book["Cut list"].values]
    length = lines[0].index("L, in")
    assert rows[0] == lines[0]
    assert len(lines) > 3
    for row, line in zip(rows[1:], lines[1:], strict=False):
        assert row[0] == line[0]
        assert float(str(row[length])) == pytest.approx(float(line[length]))
    assert not [name for name in book.sheetnames if name.endswith(" 2")]
    assert len(list(Path("values").glob("*.csv"))) == len(book.sheetnames)


def test_parts_are_drawn_one_by_one_and_all_together(vat: Path) -> None:
    folder = vat.parent / "parts"
    assert main(["export", str(vat), "--to", "dxf", "-o", str(folder)]) == 0
    files = sorted(folder.glob("*.dxf"))
    assert folder / "all-parts.dxf" in files
    assert len(files) > 2
    outlines = {path.name: len(readfile(path).modelspace().query('*[layer=="OUTLINE"]')) for path in files}
    assert outlines.pop("all-parts.dxf") == len(outlines)
    assert set(outlines.values()) == {1}


def test_a_plan_without_walls_has_no_parts(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "bare.toml"
    path.write_text(BARE, encoding="utf-8")
    assert main(["export", str(path), "--to", "dxf", "-o", str(tmp_path / "parts")]) == 2
    assert "leads to no part" in capsys.readouterr().err
    assert not (tmp_path / "parts").exists()


def test_a_folder_is_no_place_for_a_workbook(vat: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["export", str(vat), "--to", "xlsx", "-o", str(vat.parent)]) == 2
    assert "is a folder" in capsys.readouterr().err
