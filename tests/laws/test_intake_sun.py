"""The sun's path: even about noon and about the equator, day and night at the poles, kept on disk and read back."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.laws.test_intake_fuzz import SOME
from tidestead.core.dims import Array
from tidestead.core.weather import HOURS, SunPath
from tidestead.intake import sun as suns
from tidestead.intake.sun import sun_path

MARCH, SEPTEMBER = 78, 265
"""Days of the equinoxes, 20 March and 23 September, from 0."""


def day(values: Array, number: int) -> Array:
    found: Array = values.reshape(365, 24)[number]
    return found


def fresh(*place: float) -> SunPath:
    """Asked as by another process: nothing in memory."""
    sun_path.cache_clear()
    return sun_path(*place)


@pytest.mark.parametrize("latitude", [0.0, 35.0, -35.0, 58.0])
@pytest.mark.parametrize("number", [MARCH, SEPTEMBER])
def test_equinox_is_even_about_noon(latitude: float, number: int) -> None:
    """The clock is set so that the sun stands highest at 12:00; what is left is a declination that moves."""
    late = {MARCH: 7.4, SEPTEMBER: -7.7}[number] / 60.0
    path = sun_path(latitude, 15.0 * late, 0.0, 0.0)
    for values, share in ((day(path.top, number), 0.01), (day(path.up, number), 0.06)):
        np.testing.assert_allclose(values, values[::-1], atol=share * values.max())
    height, bearing = np.cos(day(path.zenith_rad, number)), day(path.azimuth_rad, number)
    np.testing.assert_allclose(height[7:17], height[7:17][::-1], atol=0.006)
    lit = day(path.up, number) > 0.9
    np.testing.assert_allclose(np.sin(bearing[lit]), -np.sin(bearing[lit])[::-1], atol=0.03)
    assert day(path.up, number).sum() == pytest.approx(12.1, abs=0.12)


@pytest.mark.parametrize("latitude", [20.0, 50.0, 75.0])
def test_the_halves_of_the_earth_mirror_each_other(latitude: float) -> None:
    """Half a year apart; the earth is nearer to the sun in January, so that the south has up to 7 % more of it."""
    north, south = sun_path(latitude, 0.0, 0.0, 0.0), sun_path(-latitude, 0.0, 0.0, 0.0)
    assert day(north.up, 171).sum() == pytest.approx(day(south.up, 354).sum(), abs=0.05)
    ratio = day(south.top, 354).sum() / day(north.top, 171).sum()
    assert ratio == pytest.approx(1.069, abs=0.004)


def test_poles_have_a_day_and_a_night() -> None:
    for latitude, midsummer in ((90.0, 171), (-90.0, 354)):
        path = sun_path(latitude, 0.0, 0.0, 0.0)
        assert (day(path.up, midsummer) == 1.0).all()
        assert (day(path.up, (midsummer + 182) % 365) == 0.0).all()
        assert (day(path.top, (midsummer + 182) % 365) == 0.0).all()
        np.testing.assert_allclose(90.0 - np.degrees(day(path.zenith_rad, midsummer)), 23.44, atol=0.05)


@settings(SOME, max_examples=12)
@given(latitude=st.floats(-90.0, 90.0), longitude=st.floats(-180.0, 180.0), offset=st.floats(-14.0, 14.0))
def test_any_place_has_a_sound_path(latitude: float, longitude: float, offset: float) -> None:
    path = suns._worked_out(round(latitude), round(longitude), 0.0, round(offset))
    assert ((path.up >= 0.0) & (path.up <= 1.0)).all()
    assert ((path.azimuth_rad >= 0.0) & (path.azimuth_rad < 2.0 * np.pi + 1e-12)).all()
    assert (path.top[path.up == 0.0] == 0.0).all()
    assert (np.cos(path.zenith_rad)[path.up > 0.0] > 0.0).all()
    assert (path.top <= 1361.0 * 1.035).all()
    whole = path.up == 1.0
    level = 1361.0 * np.cos(path.zenith_rad[whole])
    np.testing.assert_allclose(path.top[whole], level, rtol=0.05, atol=3.0)
    assert path.up.sum() / HOURS == pytest.approx(0.505, abs=0.02)


def test_path_is_kept_and_read_back(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path))
    monkeypatch.setattr(suns, "cache_folder", lambda: tmp_path / "tidestead")
    first = fresh(51.0, 3.0, 0.0, 1.0)
    (file,) = (tmp_path / "tidestead" / "sun").iterdir()
    assert file.suffix == ".sun"
    monkeypatch.setattr(suns, "_worked_out", lambda *place: pytest.fail("worked out twice"))
    again = fresh(51.0, 3.0, 0.0, 1.0)
    for name in ("zenith_rad", "azimuth_rad", "up", "top"):
        assert (getattr(first, name) == getattr(again, name)).all()
        assert not getattr(again, name).flags.writeable
    assert (fresh(51.0002, 3.0001, 3.0, 1.0).top == first.top).all()


@pytest.mark.parametrize("hurt", ["cut", "empty", "other", "flipped", "folder"])
def test_damaged_path_is_made_anew(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, hurt: str) -> None:
    monkeypatch.setattr(suns, "cache_folder", lambda: tmp_path)
    first = fresh(51.0, 3.0, 0.0, 1.0)
    (file,) = (tmp_path / "sun").iterdir()
    data = file.read_bytes()
    if hurt == "folder":
        file.unlink()
        file.mkdir()
    else:
        middle = len(data) // 2
        flipped = data[:middle] + bytes([data[middle] ^ 255]) + data[middle + 1 :]
        file.write_bytes(
            {"cut": data[:middle], "empty": b"", "other": b"PK rubbish", "flipped": flipped}[hurt]
        )
    again = fresh(51.0, 3.0, 0.0, 1.0)
    assert (again.top == first.top).all()
    if hurt != "folder":
        assert file.read_bytes() == data
    assert [one.name for one in (tmp_path / "sun").iterdir()] == [file.name]


def test_folder_that_may_not_be_made_costs_only_time(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "sun").write_text("a file where the folder should be", encoding="utf-8")
    monkeypatch.setattr(suns, "cache_folder", lambda: tmp_path)
    assert fresh(51.0, 3.0, 0.0, 1.0).top.max() > 1000.0


def test_old_paths_go(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(suns, "cache_folder", lambda: tmp_path)
    monkeypatch.setattr(suns, "_KEPT", 2)
    for longitude in (1.0, 2.0, 3.0):
        fresh(51.0, longitude, 0.0, 0.0)
    assert len(list((tmp_path / "sun").iterdir())) == 2


def test_a_second_process_does_without_the_library(tmp_path: Path) -> None:
    words = (
        "import sys; from tidestead.intake.sun import sun_path; sun_path(44.0, 5.0, 0.0, 1.0);"
        "print('pvlib' in sys.modules, 'pandas' in sys.modules)"
    )
    told = [
        subprocess.run(
            [sys.executable, "-c", words], env={**os.environ, "XDG_CACHE_HOME": str(tmp_path)},
            capture_output=True, text=True, check=True,
        ).stdout.strip()
        for _ in range(2)
    ]  # fmt: skip
    assert told == ["True True", "False False"]
