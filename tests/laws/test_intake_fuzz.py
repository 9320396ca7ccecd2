"""Whatever the bytes of a weather file, what comes is weather that is whole, or a clear word: no trace, no hang."""

from __future__ import annotations

import gzip
import math
import random
from pathlib import Path

import numpy as np
import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from tests.laws import weather_texts as texts
from tests.many import many
from tidestead.core.weather import HOURS, Weather
from tidestead.intake.choosing import weather_of
from tidestead.intake.wanted import NoWeather, Wanted

SORTS = {
    "epw": texts.epw(),
    "tmy3": texts.tmy3(),
    "csv": texts.table(),
    "typical-json": texts.pvgis_json(texts.typical_rows()),
    "typical-csv": texts.pvgis_csv(texts.typical_rows()),
    "series-json": texts.pvgis_json(texts.level_series()),
    "series-csv": texts.pvgis_csv(texts.level_series()),
}
SOME = settings(
    max_examples=many(40, 20),
    deadline=None,
    suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow],
)
"""Health checks are silenced: each example writes its own file into the folder it shares, and reads a whole year."""
MANY = settings(SOME, max_examples=400)
ODD = [
    "",
    ",",
    "\n",
    "\x00",
    "9" * 400,
    "-",
    "nan",
    "inf",
    "1e308",
    "2019-13-45",
    '"',
    "{",
    "}]",
    "é",
    "\ufeff",
    "٣",
    "1_0",
]


def check_whole_or_told(folder: Path, data: bytes) -> None:
    """The one law."""
    (folder / "hours.txt").write_bytes(data)
    found = weather_of(texts.SITE, Wanted("hours.txt"), folder)
    if isinstance(found, NoWeather):
        assert found.reason
        assert found.tried
        assert "Traceback" not in found.reason
        assert len(found.reason) < 6000
        return
    check_whole(found)


def check_whole(found: Weather) -> None:
    assert found.words
    assert found.years
    for year in found.years:
        for column in year.columns[:-1]:  # the sky's longwave may be unknown
            assert column.shape == (HOURS,)
            assert np.isfinite(column).all()
        assert (year.temp_c.min() >= -70.0) & (year.temp_c.max() <= 60.0)
        assert (year.humidity > 0.0).all()
        assert (year.humidity <= 1.0).all()
        assert min(year.beam.min(), year.diffuse.min(), year.total.min(), year.wind.min()) >= 0.0
        assert (year.total <= found.sun.top + 20.0 + 1e-9).all()


@SOME
@given(data=st.binary(max_size=400))
@example(data=b"LOCATION,")
@example(data=b"LOCATION,a,b,c,d,e,1,2,3,4\nDATA PERIODS,1,0,")
@example(data=b"LOCATION,a,b,c,d,e,1,2,3,4\nDATA PERIODS,1,\xb2,x\n1,2,3\n")
@example(data=b"{}")
@example(data=b'{"inputs":{"location":{}},"outputs":{"hourly":[]}}')
@example(data=b"time,temperature [degC],sun [W/m2]\n\n")
@example(data=b"time,temperature [degC],sun [W/m2]\n2019-01-01,1,2")
@example(data=b"Latitude (decimal degrees): x\ntime(UTC),T2m\n20190101:0000,1\n")
def test_any_bytes(tmp_path: Path, data: bytes) -> None:
    check_whole_or_told(tmp_path, data)
    check_whole_or_told(tmp_path, gzip.compress(data))


@SOME
@given(
    sort=st.sampled_from(sorted(SORTS)),
    place=st.floats(0.0, 1.0),
    length=st.integers(0, 3000),
    put=st.one_of(st.sampled_from(ODD), st.text(max_size=20)),
)
def test_a_sound_file_with_a_hurt(tmp_path: Path, sort: str, place: float, length: int, put: str) -> None:
    check_hurt(tmp_path, sort, place, length, put)


@pytest.mark.long
@MANY
@given(
    sort=st.sampled_from(sorted(SORTS)),
    place=st.floats(0.0, 1.0),
    length=st.integers(0, 200_000),
    put=st.one_of(st.sampled_from(ODD), st.text(max_size=20)),
)
def test_a_sound_file_with_a_hurt_many(
    tmp_path: Path, sort: str, place: float, length: int, put: str
) -> None:
    check_hurt(tmp_path, sort, place, length, put)


def check_hurt(folder: Path, sort: str, place: float, length: int, put: str) -> None:
    """A part of it is taken out and something else put there; half of the hurts lie in the heading."""
    text = SORTS[sort]
    at = math.floor(place * 2 * 700) if place < 0.5 else math.floor((place - 0.5) * 2 * len(text))
    check_whole_or_told(folder, (text[:at] + put + text[at + length :]).encode("utf-8", "surrogatepass"))


@SOME
@given(sort=st.sampled_from(sorted(SORTS)), seed=st.integers(0, 2**32), number=st.integers(1, 40))
def test_flipped_bytes(tmp_path: Path, sort: str, seed: int, number: int) -> None:
    data, chance = bytearray(SORTS[sort].encode()), random.Random(seed)
    for _ in range(number):
        data[chance.randrange(len(data))] = chance.randrange(256)
    check_whole_or_told(tmp_path, bytes(data))


@SOME
@given(sort=st.sampled_from(sorted(SORTS)), end=st.floats(0.0, 1.0))
def test_file_cut_anywhere(tmp_path: Path, sort: str, end: float) -> None:
    check_whole_or_told(tmp_path, SORTS[sort][: int(end * len(SORTS[sort]))].encode())


@SOME
@given(
    sort=st.sampled_from(["epw", "tmy3", "csv", "typical-csv"]),
    field=st.integers(0, 21),
    value=st.one_of(st.sampled_from(ODD), st.floats().map(str), st.integers().map(str)),
)
def test_one_column_all_wrong(tmp_path: Path, sort: str, field: int, value: str) -> None:
    heading, rows = (
        SORTS[sort].replace("\r\n", "\n").split("\n")[:18],
        SORTS[sort].replace("\r\n", "\n").split("\n")[18:],
    )
    changed = []
    for row in rows:
        fields = row.split(",")
        if field < len(fields):
            fields[field] = value
        changed.append(",".join(fields))
    check_whole_or_told(tmp_path, "\n".join([*heading, *changed]).encode("utf-8", "surrogatepass"))


@pytest.mark.parametrize(
    "text",
    [
        texts.epw().replace("DATA PERIODS,1,1,", "DATA PERIODS,1,\u00b2,"),
        texts.pvgis_csv(texts.level_series()).replace("Slope: 0", "Slope: 1.2.3"),
        texts.table().replace("temperature [degC]", "temperature" + " " * 15_000 + "]"),
        texts.table().replace("2019-06-16T13:00", "2019-06-16T13:00" + " " * 15_000 + "x"),
        texts.table().replace("T13:00,", "T13:00+99:99,"),
        texts.epw().replace("COMMENTS 2,", "COMMENTS 2,Irradiance Time Offset (h):-0.-8"),
        texts.pvgis_json(texts.typical_rows()).replace("0.1666", "1" + "0" * 5000),
        texts.pvgis_json(texts.typical_rows()).replace('"T2m": 1.0', '"T2m": [1]'),
    ],
    ids=[
        "rows an hour",
        "slope",
        "spaces in a heading",
        "spaces in a stamp",
        "far clock",
        "offset",
        "great number",
        "list",
    ],
)
def test_hurts_once_thought_of(tmp_path: Path, text: str) -> None:
    check_whole_or_told(tmp_path, text.encode())
