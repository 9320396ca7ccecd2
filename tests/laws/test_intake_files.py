"""Weather files of every sort give back the year they were written from."""

from __future__ import annotations

import gzip
from pathlib import Path

import numpy as np
import pytest

from tests.laws import weather_texts as texts
from tests.laws.weather_texts import MADE, SITE, weather
from tidestead.core.weather import HOURS, Weather
from tidestead.intake.wanted import Monthly, Site


def check_made(found: Weather, apart: float = 1e-9) -> None:
    """The one year is the made one."""
    (year,) = found.years
    np.testing.assert_allclose(year.temp_c, MADE.temp_c, atol=apart)
    np.testing.assert_allclose(year.humidity, MADE.humidity / 100.0, atol=apart)
    np.testing.assert_allclose(year.pressure, MADE.pressure, atol=1e-6)
    np.testing.assert_allclose(year.wind, MADE.wind, atol=apart)
    np.testing.assert_allclose(year.total, MADE.total, atol=apart)
    np.testing.assert_allclose(year.diffuse, MADE.diffuse, atol=apart)
    np.testing.assert_allclose(year.beam, MADE.beam, atol=apart)
    assert found.origin == "file"


def test_epw(tmp_path: Path) -> None:
    found = weather(tmp_path, texts.epw())
    check_made(found)
    assert found.words == "file hours.txt: EPW, Testham, typical year, 50.00 N 15.00 E"
    assert found.typical
    assert np.isnan(found.years[0].sky).all()
    assert found.notes == ()


def test_epw_of_one_real_year_is_called_by_it(tmp_path: Path) -> None:
    found = weather(tmp_path, texts.epw(year=2015))
    check_made(found)
    assert (found.typical, found.years[0].label) == (False, "2015")


@pytest.mark.parametrize("midnight", ["24:00", "00:00"])
def test_tmy3(tmp_path: Path, midnight: str) -> None:
    check_made(weather(tmp_path, texts.tmy3(midnight=midnight)))


def test_plain_csv(tmp_path: Path) -> None:
    check_made(weather(tmp_path, texts.table()))


@pytest.mark.parametrize(
    ("head", "minutes", "site"),
    [
        ("time [start]", 0, SITE),
        ("time [middle]", 30, SITE),
        ("time [end UTC+1]", 60, SITE),
        ("time [UTC]", 0, SITE),
        ("time [UTC-3:30]", -210, SITE),
        ("time", 60, Site(50.0, 15.0, 200.0, None)),
    ],
)
def test_stamps_of_a_csv_mean_what_their_heading_says(
    tmp_path: Path, head: str, minutes: int, site: Site
) -> None:
    """UTC is an hour less than the site's clock, and the end of the hour an hour more: 0 minutes."""
    text = texts.table(head=texts.CSV_HEAD.replace("time", head, 1), stamp=texts.ended(2019, minutes))
    found = weather(tmp_path, text, site)
    inside = slice(24, HOURS - 24)
    np.testing.assert_allclose(found.years[0].temp_c[inside], MADE.temp_c[inside], atol=1e-9)
    np.testing.assert_allclose(found.years[0].total[inside], MADE.total[inside], atol=1e-9)


@pytest.mark.parametrize("ending", ["+01:00", "+0100", "Z"])
def test_stamps_may_say_their_own_distance_from_utc(tmp_path: Path, ending: str) -> None:
    minutes = 0 if ending == "Z" else 60
    stamp = texts.ended(2019, minutes)
    found = weather(
        tmp_path, texts.table(stamp=lambda at: stamp(at) + ending), Site(50.0, 15.0, 200.0, "UTC")
    )
    inside = slice(24, HOURS - 24)
    np.testing.assert_allclose(found.years[0].temp_c[inside], np.roll(MADE.temp_c, -1)[inside], atol=1e-9)


@pytest.mark.parametrize(
    ("head", "change"),
    [
        ("time;temperature [degC];humidity [%];sun [W/m2];beam [W/m2];diffuse [W/m2];wind [m/s];pressure [hPa]", ";"),
        ("time\ttemperature [degC]\thumidity [%]\tsun [W/m2]\tbeam [W/m2]\tdiffuse [W/m2]\twind [m/s]\tpressure [hPa]",
         "\t"),
    ],
)  # fmt: skip
def test_csv_with_decimal_commas(tmp_path: Path, head: str, change: str) -> None:
    text = texts.table(lambda rows: [row.replace(".", ",") for row in rows], head=head, mark=change)
    check_made(weather(tmp_path, text))


def test_csv_in_other_units_and_words(tmp_path: Path) -> None:
    text = texts.table()
    head = 'Timestamp,"Outdoor Temperature (degF)",RH (%),GHI (W/m^2),DNI (W/m²),DHI [kJ/m2],'
    head += 'Wind Speed [kn],"Pressure [inHg]"'
    rows = [line.split(",") for line in text.split("\n")[1:-1]]
    changed = [
        ",".join([
            f'"{row[0]}"', repr(float(row[1]) * 1.8 + 32.0), row[2], row[3], row[4], repr(3.6 * float(row[5])),
            repr(float(row[6]) / (1852.0 / 3600.0)), repr(float(row[7]) / 33.86388640341),
        ])
        for row in rows
    ]  # fmt: skip
    check_made(weather(tmp_path, "\n".join(["# from my own station", "", head, *changed])), apart=1e-6)


def test_csv_of_ten_minutes_becomes_hours(tmp_path: Path) -> None:
    """Six rows an hour, of which each is a little more than the one before: the mean is the hour's."""
    ended = texts.ended(2019, 0)
    head, *rows = texts.table().strip().split("\n")
    first = np.datetime64("2019-01-01T00:00")
    lines = []
    for at, row in enumerate(rows):
        _, temp, rest = row.split(",", 2)
        for part in range(6):
            stamp = first + np.timedelta64(60 * at + 10 * (part + 1), "m")
            lines.append(f"{stamp},{float(temp) + 0.1 * (part - 2.5):.4f},{rest}")
    found = weather(tmp_path, "\n".join([head, *lines]))
    check_made(found, apart=1e-4)
    assert any("6 rows an hour" in note for note in found.notes)
    assert ended(0) == "2019-01-01T00:00"


def test_summer_time_is_undone(tmp_path: Path) -> None:
    """Stamps of a clock that goes forward on 31 March 2019 at 02:00 and back on 27 October at 03:00."""
    begin, end = (89 * 24 + 2) * 60, (299 * 24 + 2) * 60
    plain = texts.ended(2019)
    summer = texts.ended(2019, 120)
    stamp = lambda at: (summer if begin < 60 * (at + 1) <= end else plain)(at)  # noqa: E731 - one line is plainer
    found = weather(tmp_path, texts.table(stamp=stamp))
    check_made(found)
    assert any("summer time" in note for note in found.notes)


def test_years_of_a_long_csv_stand_side_by_side(tmp_path: Path) -> None:
    """Three years, one of them a leap year without values on the 29th: that day is left out."""
    first = texts.table(year=2019)
    second = texts.table(year=2020, stamp=_leap_stamp).split("\n", 1)[1]
    third = texts.table(lambda rows: rows[:4000], year=2021).split("\n", 1)[1]
    found = weather(tmp_path, first + second + third)
    assert [year.label for year in found.years] == ["2019", "2020"]
    np.testing.assert_allclose(found.years[1].temp_c, MADE.temp_c, atol=1e-9)
    assert not found.typical
    assert "2 years, 2019 to 2020" in found.words
    assert any(note.startswith("2021 is left out: no temperature in Jun (") for note in found.notes)
    assert any("29th of February" in note for note in found.notes)


def _leap_stamp(at: int) -> str:
    """The end of an hour of 2020, over the 29th of February."""
    first = np.datetime64("2020-01-01T00:00")
    return str(first + np.timedelta64(60 * (at + 1 + (24 if at >= 59 * 24 else 0)), "m"))


def test_a_year_from_summer_to_summer_counts(tmp_path: Path) -> None:
    """No calendar year is whole, twelve months are there."""
    order = [*range(5000, HOURS), *range(5000)]
    years = {at: (2022 if at >= 5000 else 2023) for at in order}
    text = texts.table(lambda rows: [rows[at].replace("2019-", f"{years[at]}-", 1) for at in order])
    found = weather(tmp_path, text.replace("2022-01-01T00:00", "2023-01-01T00:00").replace("2020-", "2023-"))
    check_made(found)
    assert found.years[0].label == "Jul 2022 to Jul 2023"


def test_packed_file(tmp_path: Path) -> None:
    check_made(weather(tmp_path, gzip.compress(texts.epw().encode())))


@pytest.mark.parametrize("encoding", ["utf-8-sig", "utf-16", "cp1252"])
def test_encodings(tmp_path: Path, encoding: str) -> None:
    text = texts.epw().replace("TESTHAM", "KÖLN").replace("\n", "\r\n")
    found = weather(tmp_path, text.encode(encoding))
    check_made(found)
    assert "Köln" in found.words


@pytest.mark.parametrize("write", [texts.pvgis_json, texts.pvgis_csv])
@pytest.mark.parametrize("minute", [10, 30, 55])
def test_typical_year_of_pvgis_is_put_on_the_clock(tmp_path: Path, write: object, minute: int) -> None:
    """The sun of a moment of each hour of UTC becomes that of hours of UTC+1: like the sun's path, not an hour off."""
    assert callable(write)
    found = weather(tmp_path, write(texts.typical_rows(minute), offset=minute / 60.0))
    check_on_the_clock(found)
    assert found.typical
    np.testing.assert_allclose(found.years[0].humidity, 0.8)
    np.testing.assert_allclose(found.years[0].sky, 300.0)


@pytest.mark.parametrize("write", [texts.pvgis_json, texts.pvgis_csv])
@pytest.mark.parametrize("minute", [10, 30, 55])
def test_series_of_pvgis_is_put_on_the_clock(tmp_path: Path, write: object, minute: int) -> None:
    assert callable(write)
    found = weather(tmp_path, write(texts.level_series(minute)), monthly=Monthly(humidity=(0.7,) * 12))
    check_on_the_clock(found)
    assert (found.typical, found.years[0].label) == (False, "2019")
    assert any("no humidity: the monthly means" in note for note in found.notes)
    np.testing.assert_allclose(found.years[0].humidity, 0.7)


def test_epw_of_pvgis_is_read_as_utc(tmp_path: Path) -> None:
    """Its csv and its EPW of one place, looked at side by side, have the same row at 11:00 UTC and in hour 12."""
    found = weather(tmp_path, texts.pvgis_epw())
    check_on_the_clock(found)
    assert not any("later" in note or "earlier" in note for note in found.notes)


def check_on_the_clock(found: Weather) -> None:
    """Sun as the sky's but for the bend at sunrise; temperature as the mean of those at both ends of the hour."""
    (year,) = found.years
    inside = slice(24, HOURS - 24)
    np.testing.assert_allclose(year.total[inside], 0.7 * found.sun.top[inside], atol=20.0)
    assert abs(float(np.mean(year.total[inside] - 0.7 * found.sun.top[inside]))) < 0.5
    level = year.diffuse + year.beam * np.cos(found.sun.zenith_rad)
    high = (found.sun.up > 0.99) & (np.cos(found.sun.zenith_rad) > 0.1)
    np.testing.assert_allclose(level[high], year.total[high], atol=12.0)
    ends = 0.5 * (MADE.temp_c + np.roll(MADE.temp_c, -1))
    np.testing.assert_allclose(year.temp_c[inside], ends[inside], atol=1e-6)
