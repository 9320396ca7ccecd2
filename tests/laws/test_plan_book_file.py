"""A price book beside the plan: its rows stand behind the plan's, and what is wrong with it never breaks the plan."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.laws.plan_texts import PRICED as PLAN
from tidestead.desk.prices import prices_for
from tidestead.plan import load, loads
from tidestead.plan.items import Item


def beside(folder: Path, book: bytes | None, name: str = "prices.toml") -> Path:
    path = folder / "plan.toml"
    own = 'x = { of = "salt", price = "2 EUR/kg" }\n'
    path.write_text(PLAN.replace("[rates]", f'[supplies]\nbook = "{name}"\n[rates]') + own, encoding="utf-8")
    if book is not None:
        (folder / name).write_bytes(book)
    return path


def test_rows_of_a_file_stand_behind_those_of_the_plan(tmp_path: Path) -> None:
    book = b'[book]\nx = { of = "salt", price = "9 EUR/kg" }\ny = { of = "pump return", price = "400 GBP/piece" }\n'
    told = prices_for(load(beside(tmp_path, book)))
    assert told.faults == ()
    price = told.rows["x"].price
    assert price is not None
    assert price.likely == 2
    assert told.rows["y"].of == Item("pump", "return")
    assert told.file == {"y"}
    beside(tmp_path, book + b"# a remark\n")
    assert prices_for(load(tmp_path / "plan.toml")).digest == told.digest
    beside(tmp_path, book.replace(b"400", b"401"))
    assert prices_for(load(tmp_path / "plan.toml")).digest != told.digest


BROKEN = [
    (None, "prices.toml", None, "no such file"),
    (b"", "prices.toml", None, "is empty"),
    (b"\xff\xfe[\x00", "prices.toml", None, "UTF-16"),
    (b'[book]\n\ny = { of = "pump retrun", price = "4 EUR/piece" }\n', "prices.toml: book.y.of", 3, "names no pump"),
    (b'[book]\ny = { of = "salt", price = "4 USD/kg" }\n', "prices.toml: book.y.price", 2, "no rate for USD"),
    (b'[book]\ny = { of = "salt", price = "4 EUR/kg"\n', "prices.toml: book.y", 2, "not closed"),
    (b'[book]\ny = { of = "salt", price = "4 EUR/kg", owned = -1 }\n', "prices.toml: book.y.owned", 2, "less than"),
    (b'currency = "EUR"\n', "prices.toml: currency", 1, "does not belong in a price book"),
    (b"book = 3\n", "prices.toml: book", 1, "must be a table of named parts"),
    (b"#" * 1_000_001, "prices.toml", None, "no price book"),
]  # fmt: skip


@pytest.mark.parametrize(("book", "where", "line", "allowed"), BROKEN)
def test_what_is_wrong_with_the_file_is_told_and_the_plan_stands(
    tmp_path: Path, book: bytes | None, where: str, line: int | None, allowed: str
) -> None:
    told = prices_for(load(beside(tmp_path, book)))
    (fault,) = told.faults
    assert (fault.where, fault.line) == (where, line)
    assert allowed in fault.allowed
    assert fault.advice
    assert set(told.rows) == {"x"}
    assert not told.file


def test_a_link_out_of_the_folder_is_not_followed(tmp_path: Path) -> None:
    (tmp_path / "plans").mkdir()
    (tmp_path / "far.toml").write_text('[book]\ny = { of = "salt", price = "4 EUR/kg" }\n', encoding="utf-8")
    path = beside(tmp_path / "plans", None)
    (tmp_path / "plans" / "prices.toml").symlink_to(tmp_path / "far.toml")
    (fault,) = prices_for(load(path)).faults
    assert "a link that leads out" in fault.allowed
    unsaved = loads(path.read_text(encoding="utf-8"))
    assert "not saved yet" in prices_for(unsaved).faults[0].allowed
