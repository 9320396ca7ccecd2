"""Files that cannot be used: each is told with its line, what was read, what is allowed and what to do."""

from __future__ import annotations

import gzip
import json
import os
import re
from pathlib import Path

import numpy as np
import pytest

from tests.laws import weather_texts as texts
from tests.laws.test_intake_mending import NOON, with_field, without
from tests.laws.weather_texts import SITE, refusal
from tidestead.core.weather import HOURS
from tidestead.intake import files
from tidestead.intake.choosing import weather_of
from tidestead.intake.wanted import NoWeather, Site, Wanted

LOST = "no temperature, no sun, no humidity, no wind in "
MARCH = range(59 * 24, 90 * 24)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        (texts.epw(lambda rows: rows[: HOURS // 2]), r"hours.txt \(line 4388\): The hours end here, with 2 Jul"),
        (texts.epw(lambda rows: rows[: HOURS // 2]), LOST + r"Jul \(708 of 744 hours\), Aug"),
        (texts.epw(lambda rows: [*rows[:4000], rows[4000][:60]]), r"\(line 4009\): This line ends after 16 fields"),
        (texts.epw(without(*MARCH)), "typical year: " + LOST + r"Mar \(744 of 744 hours\). Give a file"),
        (texts.table(without(*MARCH)), "2019: " + LOST + r"Mar \(744 of 744 hours\)"),
        (texts.table(without(*range(NOON, NOON + 7))), r"no wind in Jun \(7 of 720 hours\)"),
        (texts.epw(with_field(NOON, 6, "85.0")), r"\(line 4005\): 85 is no temperature: from -70 to 60 degC may"),
        (texts.epw(with_field(NOON, 6, "-70.1")), r"-70.1 is no temperature"),
        (texts.epw(with_field(NOON, 8, "111")), r"111 is no humidity: from 0 to 110 %"),
        (texts.epw(with_field(NOON, 13, "-5.1")), r"-5.1 is no sun on level ground: from 0 to 1500 W/m2"),
        (texts.epw(with_field(NOON, 14, "-40")), r"-40 is no direct sun"),
        (texts.epw(with_field(NOON, 9, "990")), r"9.9 is no pressure: from 450 to 1100 hPa"),
        (texts.epw(with_field(NOON, 6, "warm")), r'\(line 4005\): "warm" is no number for the temperature. Write'),
        (texts.epw(with_field(NOON, 2, "31.5")), r'"31.5" is no number for the day'),
        (texts.epw(with_field(NOON, 3, "25")), r'"25" is no hour of an EPW file. Hours go from 1 to 24'),
        (texts.epw(with_field(NOON, 1, "13")), r'\(line 4005\): "20\d\d-13-\d+" is not a date'),
        (texts.epw(place="95.0,15.0,1.0,200.0"), r"\(line 1\): The place in the first line is nowhere on earth"),
        (texts.epw(place="north,15.0,1.0,200.0"), r"\(line 1\): The first line does not end with latitude"),
        (texts.epw(lambda rows: []), r"ends with its heading"),
        ("LOCATION,a,b,c,d,e,1,2,3,4\n", r"no hours after its heading"),
        (texts.tmy3().replace("GHI (W/m^2)", "Something"), r"\(line 2\): The columns GHI \(W/m\^2\) of a TMY3"),
        (texts.tmy3(with_field(NOON, 1, "noon")), r'line 3999\): "\d\d/\d\d/2001,noon" is no date and hour of a TMY3'),
        (texts.table(with_field(NOON, 0, "2019-06-16 25:10")), r'\(line 3998\): "2019-06-16 25:10" is no date'),
        (texts.table(with_field(NOON, 0, "16/06/2019 13:00")), r"Write the year first: 2024-01-31 13:00"),
        (texts.table(with_field(NOON, 0, "2019-02-30 13:00")), r'"2019-02-30 13:00" is not a date'),
        (texts.table(with_field(NOON, 0, "2019-06-16T13:00Z")), r"Some stamps say how far they are from UTC"),
        (texts.table().replace("temperature [degC]", "temperature"), r'\(line 1\): "temperature" has no unit. Write'),
        (texts.table().replace("temperature [degC]", "temperature [kPa]"), r'"temperature \[kPa\]".*Write such as'),
        (texts.table().replace("humidity [%]", "humidity [g]"), r"is no unit of humidity"),
        (texts.table().replace("temperature [degC]", "warmth [degC]"), r'has no column of temperature. Add one'),
        (texts.table().replace("sun [W/m2],beam", "sunshine [W/m2],beams"), r'has no column of sun. Add one'),
        (texts.table().replace("time", "when", 1), r'has no column of time. Head it "time"'),
        (texts.table().replace("time", "time [sundial]", 1), r'says "sundial", which is no clock and no mark'),
        (texts.table().replace("time", "time [UTC+15]", 1), r"more than 14 hours from UTC"),
        (texts.table(lambda rows: rows[::3]), r"The rows are 180 minutes apart. Give hours, or shorter"),
        (texts.table(lambda rows: []), r"This csv ends with its heading"),
        (texts.table(head="time,temperature [degC],sun [W/m2]"), r"no humidity in this file. Add twelve of them"),
        (texts.table(lambda rows: [*rows, rows[-1].replace("2020", "2147")]), r"to 2146-12-31. 61 years"),
        (texts.pvgis_csv(texts.level_series(), slope=30.0), r"for a tilted plane. Ask the service for slope 0"),
        (texts.pvgis_json(texts.level_series(), slope=30.0), r"for a tilted or turning plane. Ask"),
        (texts.pvgis_json(texts.typical_rows())[:-5000], r"This json file is cut off or damaged"),
        (texts.pvgis_csv(texts.typical_rows())[:200000], r"Was the file cut off|ends after"),
        (json.dumps({"inputs": [], "outputs": 3}), r"not laid out like one of PVGIS"),
        ("[" * 100_000, r"no weather file of a sort known here"),
        ('{"a":' * 100_000, r"cut off or damaged"),
        ("", r"This file is empty"),
        ("\n\n  \n", r"This file is empty"),
        ("dear diary,\nit rained\n", r"no weather file of a sort known here. Give an EPW"),
        (b"PK\x03\x04\x00\x00\x00", r"This file is not text"),
        (gzip.compress(texts.epw().encode())[:-2000], r"packed file is (cut off|damaged)"),
        (b"\x1f\x8b\x08rubbish", r"packed file is damaged"),
        (b"\xff\xfea", r"no sound UTF-16 text"),
    ],
)  # fmt: skip
def test_what_is_wrong_is_told(tmp_path: Path, text: str | bytes, words: str) -> None:
    said = refusal(tmp_path, text)
    assert re.search(words, said), said
    assert len(said) < 3000


def test_no_more_than_some_faults_are_told(tmp_path: Path) -> None:
    said = refusal(tmp_path, texts.epw(lambda rows: [row.replace(",99.9,", ",x,") for row in rows]))
    assert said.count("is no number") == 8
    assert "There are 8,752 more faults like these" in said


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("../plan.epw", "not a plain file name"),
        ("/etc/hostname", "not a plain file name"),
        ("a\x00b", "not a plain file name"),
        ("..", "not a plain file name"),
        ("", "not a plain file name"),
        ("nothing.epw", "no such file beside the plan"),
        ("folder", "This is a folder"),
        ("out.epw", "leads out of the plan's folder"),
        ("pipe.epw", "not a plain file"),
        ("x" * 300, "cannot be read"),
    ],
)
def test_only_plain_files_beside_the_plan_are_read(tmp_path: Path, name: str, words: str) -> None:
    beside = tmp_path / "plans"
    (beside / "folder").mkdir(parents=True)
    (tmp_path / "elsewhere.epw").write_text(texts.epw(), encoding="utf-8")
    (beside / "out.epw").symlink_to(tmp_path / "elsewhere.epw")
    if hasattr(os, "mkfifo"):
        os.mkfifo(beside / "pipe.epw")
    found = weather_of(SITE, Wanted(name), beside)
    assert isinstance(found, NoWeather)
    assert words in found.reason


def test_link_inside_the_folder_is_followed(tmp_path: Path) -> None:
    (tmp_path / "real.epw").write_text(texts.epw(), encoding="utf-8")
    (tmp_path / "link.epw").symlink_to("real.epw")
    assert not isinstance(weather_of(SITE, Wanted("link.epw"), tmp_path), NoWeather)


def test_plan_that_is_not_saved_has_no_files(tmp_path: Path) -> None:
    found = weather_of(SITE, Wanted("a.epw"), None)
    assert isinstance(found, NoWeather)
    assert "not saved yet" in found.reason


@pytest.mark.parametrize("packed", [False, True])
def test_size_is_capped(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, packed: bool) -> None:
    monkeypatch.setattr(files, "LARGEST", 1_000_000)
    text = texts.epw().encode()
    said = refusal(tmp_path, gzip.compress(text + text) if packed else text + text)
    assert "larger than 1 MB" in said


def test_lines_are_capped(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(files, "MOST_LINES", 5000)
    assert "more than 5,000 lines" in refusal(tmp_path, texts.epw())


def test_a_long_line_is_no_weather(tmp_path: Path) -> None:
    assert "(line 9): This line is too long" in refusal(
        tmp_path, texts.epw(lambda rows: ["," * 30_000, *rows])
    )


def test_place_is_needed() -> None:
    found = weather_of(Site(None, None), Wanted("a.epw"), None)
    assert found == NoWeather(
        "The site has no latitude and no longitude: add latitude and longitude under [site]."
    )


def test_nothing_asked_is_told_with_what_to_add() -> None:
    found = weather_of(SITE, Wanted(), None)
    assert isinstance(found, NoWeather)
    assert found.reason.startswith("The plan names no source of weather. Add one under [weather]: a file")
    assert found.tried == ()


def test_quiet_numbers_are_not_taken_for_weather(tmp_path: Path) -> None:
    """Not a number, infinity and sums in the hundreds of digits."""
    for value in ("inf", "-Infinity", "1e999", "9" * 400):
        assert "is no number for the temperature" in refusal(tmp_path, texts.epw(with_field(NOON, 6, value)))
    found = texts.weather(tmp_path, texts.epw(with_field(NOON, 6, "nan")))
    assert np.isfinite(found.years[0].temp_c).all()
