"""Three climates that pvlib brings along and Denver, through the whole intake, against figures from the files."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest

from tests.house.tree import ROOT
from tests.journeys.climates import FILES, NAMES, bundled, climate
from tidestead.core.weather import HOURS

MEANS = {
    "sand_point": (
        (0.6, 1.2, 1.7, 2.1, 3.2, 8.1, 11.8, 11.9, 7.9, 4.5, 0.4, -0.6),
        (24, 44, 77, 127, 137, 159, 209, 113, 127, 67, 31, 19),
        (4.4, -10.6, 19.4, 829),
    ),
    "greensboro": (
        (0.3, 5.0, 11.4, 14.7, 19.0, 23.6, 25.4, 24.8, 20.1, 13.1, 10.8, 4.2),
        None,
        (14.4, -16.7, 35.6, 1566),
    ),
    "miami": (None, None, (24.3, 3.3, None, 1793)),
}
"""Monthly temperature (degC) and sun (W/m2), then mean, least and most of the year and kWh/m2 of sun: worked out from
the same files with another program."""


@pytest.mark.parametrize("place", MEANS)
def test_monthly_means(place: str) -> None:
    weather = climate(place)
    assert weather.normals is not None
    temps, suns, (mean, least, most, sun) = MEANS[place]
    (year,) = weather.years
    if temps:
        np.testing.assert_allclose(weather.normals.temp_c, temps, atol=0.0501)
    if suns:
        np.testing.assert_allclose(weather.normals.sun, suns, atol=0.501)
    assert year.temp_c.mean() == pytest.approx(mean, abs=0.0501)
    assert year.temp_c.min() == pytest.approx(least)
    assert most is None or year.temp_c.max() == pytest.approx(most)
    assert year.total.sum() / 1000.0 == pytest.approx(sun, abs=0.501)


@pytest.mark.parametrize("place", NAMES)
def test_sound_files_need_no_mending(place: str) -> None:
    weather = climate(place)
    assert weather.notes == ()
    assert weather.tried == ()
    assert weather.typical
    assert weather.origin == "file"
    (year,) = weather.years
    assert np.isfinite(year.sky).all() == (place == "denver")
    for column in (year.temp_c, year.humidity, year.pressure, year.wind, year.beam, year.diffuse, year.total):
        assert column.shape == (HOURS,)
        assert np.isfinite(column).all()


def test_denver_is_told() -> None:
    weather = climate("denver")
    assert weather.words == "file 725650TYCST.epw: EPW, Denver Intl AP, typical year, 39.83 N 104.65 W"
    assert weather.utc_offset == -7.0


def test_a_known_place_loads_no_large_library(tmp_path: Path) -> None:
    """A new process, the sun's path kept: neither what finds the sun nor what reads tables is loaded."""
    file = FILES["greensboro"][0]
    (tmp_path / file).write_bytes((bundled() / file).read_bytes())
    words = (
        "import sys; from pathlib import Path; from tidestead.intake.choosing import weather_of;"
        "from tidestead.intake.wanted import Site, Wanted\n"
        "place = Site(36.1, -79.95, 273.0, 'America/New_York')\n"
        f"weather_of(place, Wanted({file!r}), Path({str(tmp_path)!r}))\n"
        "print('pvlib' in sys.modules, 'pandas' in sys.modules)"
    )
    climate("greensboro")
    done = subprocess.run([sys.executable, "-c", words], cwd=ROOT, capture_output=True, text=True, check=True)
    assert done.stdout.split() == ["False", "False"]
