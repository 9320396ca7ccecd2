"""Monthly means of a plan: enough for weather or not, what is assumed, and that means of a file are its means."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from tests.laws import weather_texts as texts
from tests.laws.weather_texts import MADE, SITE, weather
from tidestead.core.weather import MONTH_OF_HOUR, Weather
from tidestead.intake.choosing import weather_of
from tidestead.intake.wanted import Monthly, NoWeather, Site, Wanted

TEMPS = (1.0, 2.0, 5.0, 9.0, 14.0, 17.0, 19.0, 18.0, 14.0, 10.0, 5.0, 2.0)
SUNS = (35.0, 65.0, 115.0, 170.0, 215.0, 225.0, 220.0, 190.0, 140.0, 85.0, 40.0, 28.0)
WHOLE = Monthly(TEMPS, SUNS, (0.8,) * 12, (4.0,) * 12, (7.0,) * 12)


def test_whole_means_are_taken_as_they_are() -> None:
    found = weather_of(SITE, Wanted(monthly=WHOLE), None)
    assert isinstance(found, Weather)
    assert (found.origin, found.years, found.notes) == ("normals", (), ())
    assert found.normals is not None
    assert (found.normals.temp_c, found.normals.sun, found.normals.swing) == (TEMPS, SUNS, (7.0,) * 12)
    assert found.words == "twelve monthly means in your plan"


def test_what_is_silent_is_assumed_and_told() -> None:
    found = weather_of(SITE, Wanted(monthly=Monthly(TEMPS, SUNS)), None)
    assert isinstance(found, Weather)
    assert found.normals is not None
    assert (found.normals.humidity, found.normals.wind, found.normals.swing) == (
        (0.75,) * 12,
        (3.0,) * 12,
        None,
    )
    assert [note.split(":")[0] for note in found.notes] == [
        "The plan gives no humidity", "The plan gives no wind", "The plan gives no swing of a day",
    ]  # fmt: skip
    assert all("no source" in note for note in found.notes[:2])


@pytest.mark.parametrize(
    ("monthly", "words"),
    [
        (Monthly(temp_c=TEMPS), 'no sun. Add twelve: sun = ["2.1 kWh/m2/day", ...].'),
        (Monthly(sun=SUNS), 'no temperature. Add twelve: temperature = ["4 degC", ...].'),
        (Monthly(wind=(3.0,) * 12), "no temperature and no sun. Add twelve"),
        (
            Monthly(TEMPS, tuple(10.0 * sun for sun in SUNS)),
            "Jan has more sun (8.4 kWh/m2/day) than reaches the top of",
        ),
    ],
)
def test_means_that_are_not_enough_are_told(monthly: Monthly, words: str) -> None:
    found = weather_of(SITE, Wanted(monthly=monthly), None)
    assert isinstance(found, NoWeather)
    assert "weather.normals: " in found.reason
    assert words in found.reason


def test_means_of_the_other_half_of_the_earth_are_told() -> None:
    """Midsummer sun in June at 50 S: more than there is."""
    found = weather_of(Site(-50.0, 15.0, 200.0, "Etc/GMT-1"), Wanted(monthly=WHOLE), None)
    assert isinstance(found, NoWeather)
    assert "sign of the latitude" in found.reason


def test_brighter_than_anywhere_is_told() -> None:
    suns = (*SUNS[:5], 430.0, *SUNS[6:])
    found = weather_of(
        SITE, Wanted(monthly=Monthly(TEMPS, suns, (0.8,) * 12, (4.0,) * 12, (7.0,) * 12)), None
    )
    assert isinstance(found, Weather)
    assert found.notes == ("More sun than clear months have anywhere is given for Jun: look at the unit.",)


def test_a_wrong_file_is_told_and_the_means_stand_in(tmp_path: Path) -> None:
    (tmp_path / "a.epw").write_text(texts.epw(lambda rows: rows[:99]), encoding="utf-8")
    found = weather_of(SITE, Wanted("a.epw", monthly=WHOLE), tmp_path)
    assert isinstance(found, Weather)
    assert found.origin == "normals"
    assert found.words.endswith("(in place of the file a.epw, which cannot be used)")
    (said,) = found.tried
    assert said.startswith("a.epw (line 107): The hours end here, with 5 Jan, 02:00.")


def test_means_of_a_file_are_its_means(tmp_path: Path) -> None:
    normals = weather(tmp_path, texts.epw()).normals
    assert normals is not None
    assert normals.swing is not None
    for month in range(12):
        own = month == MONTH_OF_HOUR
        assert normals.temp_c[month] == pytest.approx(MADE.temp_c[own].mean())
        assert normals.sun[month] == pytest.approx(MADE.total[own].mean())
        assert normals.wind[month] == pytest.approx(MADE.wind[own].mean())
        days = MADE.temp_c[own].reshape(-1, 24)
        assert normals.swing[month] == pytest.approx(float(np.mean(days.max(axis=1) - days.min(axis=1))))
