"""What a file may lack or have wrong and is mended, and that each mending is told."""

from __future__ import annotations

import re
from pathlib import Path

import numpy as np
import pytest

from tests.laws import weather_texts as texts
from tests.laws.weather_texts import MADE, weather
from tidestead.core.weather import HOURS, Weather
from tidestead.intake.wanted import Monthly, Site

NOON = 4000 - 4000 % 24 + 12


def told(found: Weather, words: str) -> bool:
    return any(re.search(words, note) for note in found.notes)


def without(*hours: int) -> texts.Change:
    """The rows but for some hours."""
    gone = set(hours)
    return lambda rows: [row for at, row in enumerate(rows) if at not in gone]


def with_field(hour: int, place: int, value: str) -> texts.Change:
    """The rows with one field changed."""

    def change(rows: list[str]) -> list[str]:
        fields = rows[hour].split(",")
        fields[place] = value
        return [*rows[:hour], ",".join(fields), *rows[hour + 1 :]]

    return change


@pytest.mark.parametrize("write", [texts.epw, texts.table])
@pytest.mark.parametrize("first", [0, NOON - 3, HOURS - 4])
def test_gap_of_four_hours_is_filled(tmp_path: Path, write: object, first: int) -> None:
    """On a straight line, the sun by its share of clear sky; a real year's ends are taken from the day beside them."""
    assert callable(write)
    found = weather(tmp_path, write(without(*range(first, first + 4))))
    (year,) = found.years
    lost = slice(first, first + 4)
    at_turn = write is texts.table and first != NOON - 3
    words = "hours at the turn of a year were taken" if at_turn else "hours without temperature were filled"
    assert told(found, f"^4 {words}")
    assert np.ptp(year.temp_c[lost]) > 0.1
    np.testing.assert_allclose(year.temp_c[lost], MADE.temp_c[lost], atol=2.0)
    np.testing.assert_allclose(year.total[lost], MADE.total[lost], atol=4.0)
    others = np.delete(np.arange(HOURS), np.arange(first, first + 4))
    np.testing.assert_allclose(year.temp_c[others], MADE.temp_c[others], atol=1e-9)


@pytest.mark.parametrize(("write", "place", "mark"), [
    (texts.epw, 6, "99.9"), (texts.tmy3, 5, "-9900"), (texts.table, 1, ""), (texts.table, 1, "n/a"),
])  # fmt: skip
def test_marks_of_missing_values_are_gaps(tmp_path: Path, write: object, place: int, mark: str) -> None:
    assert callable(write)
    found = weather(tmp_path, write(with_field(NOON, place, mark)))
    assert told(found, "^1 hour without temperature was filled between its neighbours")
    assert found.years[0].temp_c[NOON] == pytest.approx((MADE.temp_c[NOON - 1] + MADE.temp_c[NOON + 1]) / 2.0)


def test_missing_pressure_is_that_of_the_height(tmp_path: Path) -> None:
    """ISO 2533: 98.95 kPa at 200 m."""
    head = "time,temperature [degC],humidity [%],sun [W/m2],beam [W/m2],diffuse [W/m2],wind [m/s]"
    found = weather(tmp_path, texts.table(head=head))
    np.testing.assert_allclose(found.years[0].pressure, 98945.0, atol=10.0)
    assert told(found, "^8,760 hours had no air pressure")


def test_missing_parts_of_the_sun_follow_by_erbs(tmp_path: Path) -> None:
    head = "time,temperature [degC],humidity [%],sun [W/m2],wind [m/s],pressure [hPa]"
    found = weather(tmp_path, texts.table(head=head))
    (year,) = found.years
    assert told(found, "by Erbs")
    np.testing.assert_allclose(year.total, MADE.total)
    level = year.diffuse + year.beam * np.cos(found.sun.zenith_rad)
    up = found.sun.up > 0.0
    np.testing.assert_allclose(level[up], year.total[up], atol=1e-6)
    assert (year.beam[~up] == 0.0).all()
    clear = found.sun.top > 500.0
    np.testing.assert_allclose(year.diffuse[clear] / year.total[clear], 0.2439, atol=0.003)


@pytest.mark.parametrize("lost", ["beam", "diffuse", "sun"])
def test_one_part_of_the_sun_follows_from_the_others(tmp_path: Path, lost: str) -> None:
    head = ",".join(field for field in texts.CSV_HEAD.split(",") if not field.startswith(lost))
    found = weather(tmp_path, texts.table(head=head))
    (year,) = found.years
    high = np.cos(found.sun.zenith_rad) > 0.1
    np.testing.assert_allclose(year.beam[high], MADE.beam[high], atol=10.0)
    np.testing.assert_allclose(year.diffuse[high], MADE.diffuse[high], atol=2.0)
    np.testing.assert_allclose(year.total[high], MADE.total[high], atol=2.0)
    assert not told(found, "Erbs")


def test_missing_humidity_and_wind_come_from_the_plan(tmp_path: Path) -> None:
    months = tuple(0.5 + 0.01 * month for month in range(12))
    winds = tuple(2.0 + month for month in range(12))
    text = texts.table(head="time,temperature [degC],sun [W/m2]")
    found = weather(tmp_path, text, monthly=Monthly(humidity=months, wind=winds))
    assert found.normals is not None
    assert found.normals.humidity == pytest.approx(months)
    assert found.normals.wind == pytest.approx(winds)
    assert told(found, "no humidity: the monthly means of your plan")
    assert told(found, "no wind: the monthly means of your plan")


def test_missing_wind_has_a_stated_default(tmp_path: Path) -> None:
    found = weather(tmp_path, texts.table(head="time,temperature [degC],humidity [%],sun [W/m2]"))
    assert (found.years[0].wind == 3.0).all()
    assert told(found, "no wind: 3 m/s is taken for every hour .common practice, no source")


def test_dew_point_gives_the_humidity(tmp_path: Path) -> None:
    """25 degC and a dew point of 13.9 degC is 50 %: Magnus by hand."""
    head = "time,temperature [degC],dew point [degC],sun [W/m2]"
    rows = [f"{texts.ended(2019)(at)},25.0,13.86,0" for at in range(HOURS)]
    found = weather(tmp_path, "\n".join([head, *rows]))
    np.testing.assert_allclose(found.years[0].humidity, 0.5, atol=0.001)


def test_hours_that_come_twice_become_their_mean(tmp_path: Path) -> None:
    def twice(rows: list[str]) -> list[str]:
        fields = rows[NOON].split(",")
        return [
            *rows[:NOON],
            rows[NOON],
            ",".join([fields[0], f"{float(fields[1]) + 2.0}", *fields[2:]]),
            *rows[NOON + 1 :],
        ]

    found = weather(tmp_path, texts.table(twice))
    assert found.years[0].temp_c[NOON] == pytest.approx(MADE.temp_c[NOON] + 1.0)
    assert told(found, rf"^1 hour stands in the file more than once; its mean.*first: line {NOON + 2}")


def test_epw_of_half_hours_becomes_hours(tmp_path: Path) -> None:
    def halves(rows: list[str]) -> list[str]:
        found = []
        for row in rows:
            fields = row.split(",")
            for minute, more in (("30", -0.5), ("60", 0.5)):
                found.append(
                    ",".join([*fields[:4], minute, fields[5], f"{float(fields[6]) + more:.1f}", *fields[7:]])
                )
        return found

    found = weather(tmp_path, texts.epw(halves).replace("DATA PERIODS,1,1,", "DATA PERIODS,1,2,"))
    np.testing.assert_allclose(found.years[0].temp_c, MADE.temp_c, atol=1e-9)
    assert told(found, "2 rows an hour; their mean")


def test_parts_that_do_not_make_the_whole_are_told(tmp_path: Path) -> None:
    text = texts.table().replace("diffuse [W/m2]", "diffuse [kJ/m2]")
    assert told(
        weather(tmp_path, text),
        "Direct and diffuse sun of this weather make 6. % of its total",
    )


def test_leap_day_of_a_typical_year_is_left_out(tmp_path: Path) -> None:
    def leap(rows: list[str]) -> list[str]:
        day = [row.replace(",2,28,", ",2,29,") for row in rows[58 * 24 : 59 * 24]]
        return [*rows[: 59 * 24], *day, *rows[59 * 24 :]]

    found = weather(tmp_path, texts.epw(leap))
    np.testing.assert_allclose(found.years[0].temp_c, MADE.temp_c)
    assert found.typical
    assert told(found, "29th of February")


def test_one_slip_of_a_year_is_a_gap(tmp_path: Path) -> None:
    found = weather(tmp_path, texts.table(with_field(NOON, 0, "2029-06-16 13:00")))
    assert [year.label for year in found.years] == ["2019"]
    assert told(found, "^1 hour without temperature was filled")


def test_little_less_than_no_sun_is_none(tmp_path: Path) -> None:
    found = weather(tmp_path, texts.table(with_field(NOON - 12, 3, "-4.9")))
    assert found.years[0].total[NOON - 12] == 0.0
    assert told(
        found, rf"^1 hour with a little less than no sun was set to none .first: line {NOON - 12 + 2}"
    )


def test_humidity_a_little_over_all_is_all(tmp_path: Path) -> None:
    found = weather(tmp_path, texts.table(with_field(NOON, 2, "104")))
    assert found.years[0].humidity[NOON] == 1.0
    assert told(found, "over 100 %")


def test_more_sun_than_outside_the_air_is_cut(tmp_path: Path) -> None:
    found = weather(
        tmp_path,
        texts.table(with_field(NOON - 9, 3, "1400"), head="time,temperature [degC],humidity [%],sun [W/m2]"),
    )
    assert found.years[0].total[NOON - 9] == pytest.approx(float(found.sun.top[NOON - 9]) + 20.0)
    assert told(found, "^1 hour had more sun than reaches the top of the air")


def test_odd_longwave_is_not_measured(tmp_path: Path) -> None:
    found = weather(tmp_path, texts.epw(with_field(NOON, 12, "5")))
    assert np.isnan(found.years[0].sky[NOON])
    assert told(found, "longwave")


def test_leap_day_is_left_out(tmp_path: Path) -> None:
    def leap(rows: list[str]) -> list[str]:
        day = [row.replace(",2,28,", ",2,29,").replace("2015,", "2016,") for row in rows[58 * 24 : 59 * 24]]
        return [row.replace("2015,", "2016,") for row in rows[: 59 * 24]] + day + [
            row.replace("2015,", "2016,") for row in rows[59 * 24 :]]  # fmt: skip

    found = weather(tmp_path, texts.epw(leap, year=2015))
    np.testing.assert_allclose(found.years[0].temp_c, MADE.temp_c)
    assert told(found, "29th of February")


def test_file_of_another_clock_is_moved(tmp_path: Path) -> None:
    """A file by UTC+2 read at a site by UTC+1: its hours are an hour earlier there."""
    found = weather(tmp_path, texts.epw(place="50.0,15.0,2.0,200.0"))
    np.testing.assert_allclose(found.years[0].temp_c, np.roll(MADE.temp_c, -1))
    assert found.utc_offset == 1.0


def test_half_hours_of_clocks_share_out(tmp_path: Path) -> None:
    found = weather(tmp_path, texts.epw(place="50.0,15.0,1.5,200.0"))
    np.testing.assert_allclose(found.years[0].temp_c, 0.5 * (MADE.temp_c + np.roll(MADE.temp_c, -1)))
    assert found.years[0].temp_c.mean() == pytest.approx(MADE.temp_c.mean())


@pytest.mark.parametrize(
    ("site", "words"),
    [
        (Site(-50.0, 15.0, 200.0, "Etc/GMT-1"), "other half of the earth"),
        (Site(-50.0, 15.0, 200.0, "Etc/GMT-1"), "strong in the months in which it is low"),
        (
            Site(53.0, 15.0, 200.0, "Etc/GMT-1"),
            "of another place: latitude 50, longitude 15; your site has 53, 15",
        ),
        (
            Site(50.0, 20.0, 200.0, "Etc/GMT-1"),
            "of another place: latitude 50, longitude 15; your site has 50, 20",
        ),
        (Site(50.0, -75.0, 200.0, "Etc/GMT-1"), "6 hours apart: east is positive"),
        (Site(50.0, 15.0, 200.0, "Mars/Crater"), 'time zone "Mars/Crater" is not known'),
        (Site(50.0, 15.0, None, "Etc/GMT-1"), "that of the file, 200 m"),
        (Site(50.0, 15.0, 200.0, None), "clock of the file, UTC.1"),
    ],
)
def test_what_is_odd_is_told(tmp_path: Path, site: Site, words: str) -> None:
    found = weather(tmp_path, texts.epw(), site)
    assert told(found, words), found.notes
    assert found.latitude == site.latitude


@pytest.mark.parametrize(
    ("longitude", "words"), [(-15.0, "h earlier than the sky"), (45.0, "h later than the sky")]
)
def test_sun_of_another_clock_is_told(tmp_path: Path, longitude: float, words: str) -> None:
    assert told(weather(tmp_path, texts.table(), Site(50.0, longitude, 200.0, "Etc/GMT-1")), words)


@pytest.mark.parametrize(
    ("longitude", "zone"), [(-122.0, "Etc/GMT+8"), (179.0, "Etc/GMT-12"), (-179.0, "Etc/GMT+12")]
)
def test_hours_of_another_place_are_those_of_its_own_days(
    tmp_path: Path, longitude: float, zone: str
) -> None:
    """A file of 15 E read far east or west of it: morning stays morning."""
    found = weather(tmp_path, texts.epw(), Site(50.0, longitude, 200.0, zone))
    np.testing.assert_allclose(found.years[0].temp_c, MADE.temp_c)
    assert told(found, "by the sun's time there")
    assert not told(found, "than the sky")


def test_near_place_is_not_told(tmp_path: Path) -> None:
    assert weather(tmp_path, texts.epw(), Site(51.5, 16.0, 200.0, "Etc/GMT-1")).notes == ()


@pytest.mark.parametrize("latitude", [90.0, 78.0, -90.0, 0.0])
def test_any_latitude_gives_a_year(tmp_path: Path, latitude: float) -> None:
    head = "time,temperature [degC],humidity [%],sun [W/m2]"
    found = weather(tmp_path, texts.table(head=head), Site(latitude, 15.0, 0.0, "UTC"))
    (year,) = found.years
    for column in (year.temp_c, year.humidity, year.pressure, year.wind, year.beam, year.diffuse, year.total):
        assert column.shape == (HOURS,)
        assert np.isfinite(column).all()
        assert not column.flags.writeable
    assert (year.beam >= 0.0).all()
    assert (year.total <= found.sun.top + 20.0 + 1e-9).all()


def test_sites_clock_without_zone_or_file_fits_the_longitude(tmp_path: Path) -> None:
    found = weather(tmp_path, texts.table(), Site(50.0, 24.0, 0.0, None))
    assert found.utc_offset == 2.0
    assert told(found, "clock that fits the longitude, UTC.2")
