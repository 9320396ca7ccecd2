"""Sweeps as a user meets them: the command, its files, what it says of bad input and after Ctrl-C."""

from __future__ import annotations

import csv
import json
import os
import re
import signal
import subprocess
import sys
import time
import xml.etree.ElementTree as ET
from pathlib import Path
from typing import Any

import pytest

from tests.journeys.flow_plans import example
from tidestead.cli import main

SUMP = "vessels.sump.length=4..6 ft:5"
WIDE = "vessels.sump.width=3,4 ft"
PRESSURE, VOLUME = "structure.sump.stands_on.pressure", "structure.sump.volume"


@pytest.fixture(autouse=True)
def own_cache(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Nothing is known of earlier sweeps."""
    for name in ("XDG_CACHE_HOME", "LOCALAPPDATA", "HOME"):
        monkeypatch.setenv(name, str(tmp_path / "cache"))


def test_table_has_a_row_for_each_point_and_says_what_was_known(
    plan: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    words = ["vary", str(plan), SUMP, "--show", PRESSURE, "--show", VOLUME]
    assert main(words) == 0
    out = capsys.readouterr().out
    assert re.findall(r"^(\S+ ft) .* sound ", out, re.MULTILINE) == [
        "4 ft",
        "4.5 ft",
        "5 ft",
        "5.5 ft",
        "6 ft",
    ]
    assert "5 sound" in out
    assert "were known" not in out
    assert main(words) == 0
    again = capsys.readouterr().out
    assert "5 of 5 points were known." in again
    assert again.replace("5 of 5 points were known.\n", "") == out
    assert main([*words, "--anew"]) == 0
    assert capsys.readouterr().out == out


def test_files_and_json_tell_the_same_points(
    plan: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    table, plot = tmp_path / "points.csv", tmp_path / "points.svg"
    words = ["vary", str(plan), SUMP, WIDE, "--show", PRESSURE, "--show", VOLUME]
    assert main([*words, "--csv", str(table), "--plot", str(plot), "--json"]) == 0
    found: dict[str, Any] = json.loads(capsys.readouterr().out)
    with table.open(encoding="utf-8", newline="") as stream:
        rows = list(csv.DictReader(stream))
    assert len(rows) == len(found["points"]) == 10
    for row, point in zip(rows, found["points"], strict=True):
        assert [row["vessels.sump.length"], row["vessels.sump.width"]] == point["at"]
        pressure, volume = point["found"]
        assert float(row[f"{PRESSURE} margin"]) == pressure["margin"]
        assert row[f"{PRESSURE} verdict"] == pressure["verdict"]
        assert float(row[f"{VOLUME} (m3)"]) == volume["value"]
    assert float(rows[0]["vessels.sump.length (m)"]) == pytest.approx(1.2192)
    drawn = ET.parse(plot).getroot()
    assert drawn.tag == "{http://www.w3.org/2000/svg}svg"
    assert len([path for path in drawn.iter("{http://www.w3.org/2000/svg}path")]) >= 2


@pytest.mark.parametrize(
    ("keys", "more", "word"),
    [
        (["vessels.sump.length=4..6 ft:7", "vessels.sump.width=3..4 ft:7"], ["--show", PRESSURE], "left"),
        (["vessels.sump.length=4..6 ft:7", "vessels.sump.width=3..4 ft:7"], ["--show", VOLUME], "more"),
        (["vessels.sump.stands_on.soil=clay,sand"], ["--show", PRESSURE], "left"),
        ([SUMP, WIDE], ["--pareto", f"{VOLUME},{PRESSURE}"], "none beats"),
        ([SUMP], ["--show", "structure.sump.stands_on.*"], "pressure"),
        (["vessels.sump.water=12,14,99 in"], ["--show", PRESSURE], "water"),
    ],
)
def test_every_sort_of_plot_is_drawn(
    keys: list[str],
    more: list[str],
    word: str,
    plan: Path,
    tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
) -> None:
    plot = tmp_path / "plot.svg"
    assert main(["vary", str(plan), *keys, *more, "--plot", str(plot)]) == 0
    text = " ".join(ET.parse(plot).getroot().itertext())
    assert word in text
    assert "nan" not in plot.read_text("utf-8")
    assert str(plot) in capsys.readouterr().out.replace("\n", "")


def test_points_that_none_beats_are_listed_and_marked(plan: Path, capsys: pytest.CaptureFixture[str]) -> None:
    words = ["vary", str(plan), SUMP, WIDE, "--pareto", f"{VOLUME},{PRESSURE}"]
    assert main(words) == 0
    listed = capsys.readouterr().out
    assert "Points that no other beats" in listed
    assert main([*words, "--json"]) == 0
    found = json.loads(capsys.readouterr().out)
    rows = [line for line in listed.splitlines() if line.rstrip().endswith("*")]
    assert len(rows) == len(found["best"]) > 0


def test_long_sweep_lists_its_first_points_unless_all_are_asked_for(
    plan: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    words = ["vary", str(plan), "vessels.sump.length=4..6 ft:50", "--show", VOLUME]
    assert main(words) == 0
    assert "10 more (--all lists them" in capsys.readouterr().out
    assert main([*words, "--all"]) == 0
    assert len(re.findall(r"^\S+ ft  ", capsys.readouterr().out, re.MULTILINE)) == 50


def test_point_that_is_no_plan_says_why(plan: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["vary", str(plan), "vessels.sump.water=12,14,99 in", "--show", PRESSURE]) == 0
    out = " ".join(capsys.readouterr().out.split())
    assert "1 of 3 points are no plan" in out
    assert "vessels.sump.water" in out
    assert "99 in" in out


def test_what_is_unproven_says_why(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    packhouse = tmp_path / "packhouse.toml"
    packhouse.write_text(example("packhouse"), "utf-8")
    window = "vessels.reef.walls.south.windows.long.thickness=3 in,90 mm"
    assert main(["vary", str(packhouse), window, "--show", "cost.cash"]) == 0
    out = " ".join(capsys.readouterr().out.split())
    assert "cost.cash: 1 sound, 1 unproven" in out
    why = out[out.index("Why some are unproven") :]
    assert "no price, so the total is incomplete: Cast acrylic sheet, 3 9/16 in (1 point)" in why


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (["vessels.sump.lenth=4..6 ft"], "Did you mean vessels.sump.length?"),
        (["vessels.sump.length=4..6"], "has no unit"),
        (["vessels.sump.length"], "says no key with its values"),
        ([SUMP, "--show", "structure.sump.volum"], f"Did you mean {VOLUME}?"),
        (["vessels.sump.length=4..6 ft:1000000"], "is not a number of values. Write :2 to :10000."),
        ([SUMP, "--pareto", VOLUME], "Name two or more"),
        ([SUMP, "--csv", "nowhere/points.csv"], "there is no folder nowhere"),
        (
            [SUMP, "--show", VOLUME, "--plot", "points.png"],
            "A plot is drawn as SVG, not as .png. Name it FILE.svg.",
        ),
        ([SUMP, WIDE, "vessels.sump.water=12,14 in", "--show", VOLUME, "--plot", "p.svg"], "one key or two"),
    ],
)
def test_bad_input_is_told_with_what_to_write(
    words: list[str],
    told: str,
    plan: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    monkeypatch.chdir(plan.parent)
    assert main(["vary", str(plan), *words]) == 2
    said = capsys.readouterr()
    assert told in said.err
    assert said.out == ""


def test_plan_stays_as_it_is(plan: Path, capsys: pytest.CaptureFixture[str]) -> None:
    before = plan.read_bytes()
    assert main(["vary", str(plan), SUMP, "--show", VOLUME]) == 0
    assert plan.read_bytes() == before
    assert capsys.readouterr().err == "", "no bar where nobody watches"


@pytest.mark.long
@pytest.mark.skipif(sys.platform == "win32", reason="sends the signal of a terminal")
def test_ctrl_c_ends_quietly_and_the_same_command_goes_on(plan: Path) -> None:
    words = [sys.executable, "-m", "tidestead", "vary", str(plan), "vessels.reef.walls.all.studs.spacing=6..16 in:200",
             "--show", "structure.reef.north.studs.bending", "--json"]  # fmt: skip
    running = subprocess.Popen(words, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)
    kept = Path(os.environ["XDG_CACHE_HOME"]) / "tidestead" / "sweeps"
    end = time.monotonic() + 100.0
    while time.monotonic() < end and not any(path.stat().st_size > 5000 for path in kept.glob("*.jsonl")):
        time.sleep(0.05)
    running.send_signal(signal.SIGINT)
    out, err = running.communicate(timeout=100)
    assert (running.returncode, out) == (130, "")
    assert re.fullmatch(r"Stopped\. \d+ of 200 points are kept; the same command goes on\.\n", err), err
    gone_on = subprocess.run(words, capture_output=True, text=True, check=True, timeout=200)
    whole = subprocess.run([*words, "--anew"], capture_output=True, text=True, check=True, timeout=200)
    found, wanted = json.loads(gone_on.stdout), json.loads(whole.stdout)
    assert 0 < found["known"] < 200
    assert found["points"] == wanted["points"]
