"""Files that are no plan at all, or mean harm: each is answered at once, in words."""

from __future__ import annotations

import codecs
import time
from pathlib import Path

import pytest

from tests.journeys.planted import SOUND, expected_lines, faults_of, planted
from tidestead.core.errors import PlanError
from tidestead.plan import load
from tidestead.plan.text import LARGEST, MOST_LINES

BYTES = {
    "empty": (b"", "empty"),
    "blank": (b" \n\t\n", "empty"),
    "UTF-16": (SOUND.encode("utf-16"), "UTF-16"),
    "UTF-16 without mark": (SOUND.encode("utf-16-le"), "UTF-16"),
    "UTF-32": (codecs.BOM_UTF32_LE + SOUND.encode("utf-32-le"), "UTF-32"),
    "a picture": (b"\x89PNG\r\n\x1a\n" + bytes(range(256)) * 20, "UTF-8"),
    "Windows letters": (SOUND.replace("Test", "Tést").encode("cp1252"), "not UTF-8"),
    "NUL": (SOUND.replace("Test", "Te\0st").encode(), "U+0000"),
    "escape": (SOUND.replace("Test", "Te\x1b[31mst").encode(), "U+001B"),
    "old Mac": (SOUND.replace("\n", "\r").encode(), "carriage return"),
    "too large": (SOUND.encode() + b"#" * LARGEST, "larger than"),
    "too many lines": (SOUND.encode() + b"\n" * (MOST_LINES + 1), "lines"),
}


@pytest.mark.parametrize(("data", "words"), BYTES.values(), ids=BYTES)
def test_bytes_that_are_no_plan(data: bytes, words: str, tmp_path: Path) -> None:
    path = tmp_path / "plan.toml"
    path.write_bytes(data)
    with pytest.raises(PlanError) as raised:
        load(path)
    assert any(words in str(fault) for fault in raised.value.faults)
    assert str(raised.value).isprintable() or "\n" in str(raised.value)


def test_a_wrong_letter_hides_no_other_fault(tmp_path: Path) -> None:
    path = tmp_path / "plan.toml"
    path.write_bytes(planted().replace("Test basin", "Tést basin").encode("cp1252"))
    with pytest.raises(PlanError) as raised:
        load(path)
    found = {fault.where: fault.line for fault in raised.value.faults}
    assert found.pop("plan.toml") == 3
    assert found == expected_lines(planted())


def test_a_utf8_mark_and_comments_in_any_script_are_taken(tmp_path: Path) -> None:
    path = tmp_path / "plan.toml"
    path.write_bytes(codecs.BOM_UTF8 + (SOUND + "# 水槽 – ½ bassin\n").encode())
    assert load(path).plan.name == "Test basin"


@pytest.mark.parametrize("path", ["nowhere.toml", ".", "a\0b.toml", "x" * 5000])
def test_paths_that_are_no_plan(path: str, tmp_path: Path) -> None:
    with pytest.raises(PlanError) as raised:
        load(str(tmp_path) + "/" + path)
    assert raised.value.faults[0].advice


HOSTILE = {
    "lists in lists": "a = " + "[" * 500_000,
    "headings in headings": "[" * 900_000,
    "tables in tables": "a = " + "{a=" * 300_000,
    "dotted key": ".".join("a" * 400_000) + " = 1",
    "dotted heading": "[" + ".".join("a" * 400_000) + "]",
    "long number": "tidestead = " + "9" * 900_000,
    "long hexadecimal": "tidestead = 0x" + "f" * 900_000,
    "long key": "a" * 900_000 + " = 1",
    "long text": 'name = "' + "a" * 900_000 + '"',
    "open texts": 'name = """' + 'a"\n' * 15_000,
    "open lists": "a = [\n" * 19_000,
    "items without commas": "a = [" + '"1" ' * 220_000 + "]",
    "quotes": '"' * 900_000,
    "words": "x\n" * 19_000,
    "one key again": "a = 1\n" * 19_000,
    "one heading again": "[a]\n" * 19_000,
    "list of tables": "[[a]]\n" * 19_000,
    "unknown keys": "".join(f"k{n} = 1\n" for n in range(19_000)),
    "vessels": "".join(f"[vessels.v{n}]\n" for n in range(19_000)),
    "windows": '[vessels.v]\nshape="box"\nlength="1 m"\nwidth="1 m"\nheight="1 m"\n'
    + "".join(f'[vessels.v.walls.all.windows.w{n}]\nwidth="1 m"\n' for n in range(9_000)),
    "own rows": "".join(f'[yours.clear.k{n}]\nmodulos = "3"\n' for n in range(9_000)),
    "control characters": "\x01a\n" * 19_000,
    "commas": "a = [" + "," * 800_000,
    "a long moment": "a = 2026-08-01T00:00:00." + "9" * 800_000,
    "powers": 'name = "x"\nvessels.a.height = "9**9**9**9"',
}  # fmt: skip


@pytest.mark.parametrize("text", HOSTILE.values(), ids=HOSTILE)
def test_hostile_text_is_answered_at_once(text: str) -> None:
    begun = time.process_time()
    faults = faults_of(text)
    assert time.process_time() - begun < 5.0
    assert 0 < len(faults) <= 201
    assert all(len(str(fault)) < 1500 for fault in faults)
