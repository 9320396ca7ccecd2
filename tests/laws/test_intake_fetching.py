"""Years from the PVGIS service, with stand-ins for the two functions of pvlib that ask it; no network is touched."""

from __future__ import annotations

import gzip
import os
from collections.abc import Callable
from pathlib import Path
from typing import Any

import numpy as np
import pandas as pd
import pvlib
import pytest
import requests
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.laws import weather_texts as texts
from tests.laws.test_intake_fuzz import SOME, check_whole
from tests.laws.weather_texts import LATITUDE, LONGITUDE, SITE
from tests.many import many
from tidestead.core.errors import WeatherError
from tidestead.core.weather import HOURS, Weather
from tidestead.intake.choosing import weather_of
from tidestead.intake.fetching import fetch
from tidestead.intake.wanted import Monthly, NoWeather, Site, Wanted

YEARS = (2019, 2020)
WANTED = Wanted(years=YEARS, stem="reef")
KEPT = "reef.pvgis-2019-2020.csv.gz"
MEANS = Monthly(temp_c=(5.0,) * 12, sun=(20.0,) * 12)
DEPRESSION = 3.0


def series(years: tuple[int, int] = YEARS, minute: int = 10) -> pd.DataFrame:
    """Hours in the shape that pvlib gives: stamps of UTC ten minutes past, parts of the sun, no humidity."""
    index = pd.date_range(
        f"{years[0]}-01-01 00:{minute}", f"{years[1]}-12-31 23:{minute}", freq="h", tz="UTC", name="time"
    )
    seconds = index.as_unit("s").asi8.astype(float)
    total = texts.clear(seconds)
    day = 2.0 * np.pi * seconds / 86400.0
    return pd.DataFrame(
        {
            "poa_direct": 0.5 * total, "poa_sky_diffuse": 0.5 * total, "poa_ground_diffuse": 0.0 * total,
            "solar_elevation": 0.0 * total, "temp_air": 10.0 - 4.0 * np.cos(day), "wind_speed": 3.0 + 0.0 * total,
            "Int": np.zeros(len(index), dtype=int),
        },
        index=index,
    )  # fmt: skip


def typical() -> pd.DataFrame:
    """A typical year in the shape that pvlib gives: its dew point lies 3 K under its temperature."""
    index = pd.date_range("1990-01-01", periods=HOURS, freq="h", tz="UTC", name="time(UTC)")
    temp = 10.0 + 5.0 * np.sin(np.arange(HOURS) / 500.0)
    a, b = 17.625, 243.04
    dew = temp - DEPRESSION
    humidity = 100.0 * np.exp(a * dew / (b + dew) - a * temp / (b + temp))
    none = np.zeros(HOURS)
    return pd.DataFrame(
        {"temp_air": temp, "relative_humidity": humidity, "ghi": none, "dni": none, "dhi": none, "IR(h)": none + 300.0,
         "wind_speed": none + 3.0, "wind_direction": none, "pressure": none + 98_900.0},
        index=index,
    )  # fmt: skip


ABOUT = {
    "inputs": {
        "location": {"latitude": LATITUDE, "longitude": LONGITUDE, "elevation": 230.0},
        "meteo_data": {
            "radiation_db": "PVGIS-SARAH3",
            "meteo_db": "ERA5",
            "year_min": 2019,
            "year_max": 2020,
        },
    }
}


class Service:
    """Stands in for the two functions; counts how often it is asked."""

    def __init__(self, patch: pytest.MonkeyPatch) -> None:
        self.asked = 0
        self.given: dict[str, Any] = {}
        self.series: Callable[[], Any] = series
        self.typical: Callable[[], Any] = typical
        patch.setattr(pvlib.iotools, "get_pvgis_hourly", self.hourly)
        patch.setattr(pvlib.iotools, "get_pvgis_tmy", self.tmy)

    def hourly(self, *place: float, **given: Any) -> tuple[Any, Any]:
        self.asked += 1
        self.given = {"place": place, **given}
        return self.series(), ABOUT

    def tmy(self, *place: float, **given: Any) -> tuple[Any, Any]:
        assert given["timeout"] == 30
        return self.typical(), ABOUT


@pytest.fixture
def service(monkeypatch: pytest.MonkeyPatch) -> Service:
    return Service(monkeypatch)


def had(folder: Path | None, wanted: Wanted = WANTED, site: Site = SITE) -> Weather:
    found = weather_of(site, wanted, folder)
    assert isinstance(found, Weather), found
    return found


def test_years_are_fetched_put_on_the_clock_and_kept(tmp_path: Path, service: Service) -> None:
    found = had(tmp_path)
    assert service.given == {
        "place": (LATITUDE, LONGITUDE), "start": 2019, "end": 2020, "components": True, "surface_tilt": 0, "timeout": 30
    }  # fmt: skip
    assert found.origin == "fetched"
    assert found.words.startswith(
        "PVGIS, 2 years, 2019 to 2020, 50.00 15.00, database PVGIS-SARAH3, fetched on 20"
    )
    assert [year.label for year in found.years] == ["2019", "2020"]
    assert os.listdir(tmp_path) == [KEPT]
    assert any("kept in reef.pvgis" in note for note in found.notes)
    assert any("no humidity: the dew point lies under the temperature" in note for note in found.notes)
    assert any("29th of February" in note for note in found.notes)
    check_whole(found)
    inside = slice(48, HOURS - 48)
    for year in found.years:
        sky = 0.7 * found.sun.top[inside]
        assert abs(float(np.mean(year.total[inside] - sky))) < 1.0
        np.testing.assert_allclose(year.total[inside], sky, atol=25.0)
        np.testing.assert_allclose(year.pressure, 98_900.0)
    assert not any("later" in note or "earlier" in note for note in found.notes)


def test_humidity_has_the_typical_years_depression(tmp_path: Path, service: Service) -> None:
    """10 degC with a dew point of 7 degC: 81.6 %, saturation 1002.1 and 1228.1 Pa in steam tables."""
    year = had(tmp_path).years[0]
    mild = np.abs(year.temp_c - 10.0) < 0.6
    assert mild.sum() > 500
    np.testing.assert_allclose(year.humidity[mild], 1002.1 / 1228.1, atol=0.002)


def test_what_is_kept_is_read_without_asking(tmp_path: Path, service: Service) -> None:
    first = had(tmp_path)
    service.series = lambda: pytest.fail("asked again")
    second = had(tmp_path)
    assert service.asked == 1
    assert second.words == first.words
    assert any("delete it to have them fetched anew" in note for note in second.notes)
    for one, two in zip(first.years, second.years, strict=True):
        np.testing.assert_allclose(two.temp_c, one.temp_c, atol=1e-4)
        np.testing.assert_allclose(two.total, one.total, atol=2e-3)
        np.testing.assert_allclose(two.humidity, one.humidity, atol=1e-5)


def test_heading_of_what_is_kept_tells_where_it_comes_from(tmp_path: Path, service: Service) -> None:
    had(tmp_path)
    text = gzip.decompress((tmp_path / KEPT).read_bytes()).decode()
    heads = "\n".join(line for line in text.split("\n") if line.startswith("#"))
    for words in (
        "PVGIS",
        "fetched: 20",
        "latitude: 50.0",
        "longitude: 15.0",
        "database: PVGIS-SARAH3",
        "hours: 17544",
    ):
        assert words in heads
    assert (tmp_path / KEPT).stat().st_size < 700_000


FAILURES = {
    "did not answer within 30 seconds": requests.exceptions.ReadTimeout("slow"),
    "did not answer within": requests.exceptions.ConnectTimeout("slow"),
    "cannot be reached from here": requests.exceptions.ConnectionError("Name or service not known"),
    'refused: "startyear is not within the range 2005 to 2023"': requests.HTTPError(
        "startyear is not within\n the range 2005 to 2023"
    ),
    "not laid out as it should be": ValueError("Expecting value: line 1 column 1"),
    "laid out as it should be (KeyError)": KeyError("outputs"),
}


@pytest.mark.parametrize("words", FAILURES)
@pytest.mark.parametrize("part", ["series", "typical"])
def test_failure_is_told_and_the_next_source_used(
    tmp_path: Path, service: Service, words: str, part: str
) -> None:
    def fail() -> Any:
        raise FAILURES[words]

    setattr(service, part, fail)
    found = had(tmp_path, Wanted(years=YEARS, monthly=MEANS, stem="reef"))
    assert found.origin == "normals"
    assert found.words == "twelve monthly means in your plan (in place of PVGIS, which cannot be used)"
    (said,) = found.tried
    assert said.startswith("PVGIS: The service")
    assert words in said
    assert os.listdir(tmp_path) == []
    assert service.asked == 1


def test_failure_with_nothing_else_is_no_weather(tmp_path: Path, service: Service) -> None:
    def fail() -> Any:
        raise requests.exceptions.ConnectionError("no route")

    service.series = fail
    found = weather_of(SITE, WANTED, tmp_path)
    assert isinstance(found, NoWeather)
    assert "no network, or it is down" in found.reason


@pytest.mark.parametrize(
    ("wrong", "words"),
    [
        (lambda: series().drop(columns="poa_direct"), "not laid out as it should be (KeyError)"),
        (lambda: series().reset_index(drop=True), "not laid out as it should be (AttributeError)"),
        (lambda: series((2010, 2010)), "too few hours of 2019 to 2020"),
        (lambda: series().iloc[:0], "too few hours"),
        (lambda: None, "not laid out as it should be"),
        (lambda: series().assign(temp_air="warm"), "not laid out as it should be (ValueError)"),
        (lambda: series().assign(temp_air=300.0), "300 is no temperature"),
    ],
)
def test_answer_of_another_shape_is_told(
    tmp_path: Path, service: Service, wrong: Callable[[], Any], words: str
) -> None:
    service.series = wrong
    found = had(tmp_path, Wanted(years=YEARS, monthly=MEANS, stem="reef"))
    assert words in found.tried[0], found.tried


def test_typical_year_with_a_month_missing_is_told(tmp_path: Path, service: Service) -> None:
    service.typical = lambda: typical().iloc[: HOURS // 2]
    found = weather_of(SITE, WANTED, tmp_path)
    assert isinstance(found, NoWeather)
    assert "which holds the humidity, is not whole" in found.reason


def test_plan_without_a_file_fetches_and_keeps_nothing(service: Service) -> None:
    found = had(None)
    assert any("not saved yet" in note for note in found.notes)


def test_folder_that_may_not_be_written_is_told(
    tmp_path: Path, service: Service, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(*given: Any) -> None:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(os, "replace", refuse)
    found = had(tmp_path)
    assert any("could not be kept beside the plan (Permission denied)" in note for note in found.notes)
    assert os.listdir(tmp_path) == []


def test_site_that_moved_is_fetched_anew(tmp_path: Path, service: Service) -> None:
    had(tmp_path)
    moved = had(tmp_path, site=Site(50.2, 15.0, 200.0, "Etc/GMT-1"))
    assert service.asked == 2
    assert "of another place" in moved.tried[0]
    assert had(tmp_path, site=Site(50.2, 15.0, 200.0, "Etc/GMT-1")).tried == ()


def test_damaged_file_is_fetched_anew(tmp_path: Path, service: Service) -> None:
    had(tmp_path)
    data = (tmp_path / KEPT).read_bytes()
    (tmp_path / KEPT).write_bytes(data[: len(data) // 2])
    found = had(tmp_path)
    assert service.asked == 2
    assert "packed file is cut off" in found.tried[0]
    assert (tmp_path / KEPT).read_bytes() == data


PLAIN: list[bytes] = []


@settings(SOME, max_examples=many(60))
@given(place=st.floats(0.0, 1.0), put=st.binary(max_size=12), length=st.integers(0, 400))
def test_any_hurt_of_what_is_kept_is_met(tmp_path: Path, place: float, put: bytes, length: int) -> None:
    """Read as it is, or told; what is read is weather."""
    with pytest.MonkeyPatch.context() as patch:
        service = Service(patch)
        if not PLAIN:
            had(tmp_path)
            PLAIN.append(gzip.decompress((tmp_path / KEPT).read_bytes()))
        at = int(place * 2000) if place < 0.5 else int((place - 0.5) * 2 * len(PLAIN[0]))
        (tmp_path / KEPT).write_bytes(gzip.compress(PLAIN[0][:at] + put + PLAIN[0][at + length :], 1))

        def fail() -> Any:
            raise requests.exceptions.ConnectionError("no route")

        service.series = fail
        found = weather_of(SITE, WANTED, tmp_path)
        if isinstance(found, NoWeather):
            assert found.tried
        else:
            check_whole(found)


def test_what_to_do_without_the_service_is_said_and_holds_where_it_was_the_last_source(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    def down(*_args: Any, **_options: Any) -> None:
        raise requests.ConnectionError("no route")

    monkeypatch.setattr(pvlib.iotools, "get_pvgis_hourly", down)
    with pytest.raises(WeatherError) as raised:
        fetch(LATITUDE, LONGITUDE, (2005, 2006))
    assert "next source" not in str(raised.value)
    assert "name a weather file beside the plan, or type monthly figures" in str(raised.value)
