"""The sun's path over a place, by the algorithm of Reda and Andreas as pvlib has it, kept on disk once worked out.

Working it out takes a second and a large library; reading it back takes a few milliseconds and none.
"""

from __future__ import annotations

import hashlib
import importlib.metadata
import os
import secrets
import zipfile
import zlib
from contextlib import suppress
from functools import lru_cache
from pathlib import Path
from typing import NamedTuple

import numpy as np

from tidestead.core.cache_folder import cache_folder
from tidestead.core.dims import Array, Degree, Hour, Metre
from tidestead.core.weather import HOURS, SunPath
from tidestead.intake.air import station_pressure

SOLAR_CONSTANT = 1361.0
"""W/m2 at the mean distance of the earth. Source: Kopp and Lean (2011), Geophysical Research Letters 38:L01706."""

_YEAR_BEGINS = 1672531200
"""Seconds from 1970 to 2023, the year whose sun stands for every year: it lies midway between leap years."""
_STEP = 300
_PARTS = 3600 // _STEP
_DELTA_T = 69.2
"""Seconds by which even time is ahead of the earth's turning, 2023. Source: US Naval Observatory, recalled."""
_MEAN_AIR_C = 12.0
"""For refraction at the horizon only: 10 degC more or less move sunrise by some seconds."""
_HORIZON_SINE = 1e-4
_NAMES = ("zenith_rad", "azimuth_rad", "up", "top")
_KEPT = 200
"""Paths kept on disk; the oldest goes first."""


class Sky(NamedTuple):
    """Where the sun seems to stand at given moments: degrees from straight up and from north through east."""

    zenith: Array
    azimuth: Array


def sky_at(
    seconds: Array, latitude: Degree, longitude: Degree, elevation: Metre, air: tuple[float, float]
) -> Sky:
    """The sun at moments given in seconds since 1970, UTC, as seen through air of a pressure (Pa) and a degC.

    Source: Reda and Andreas (2004), Solar Energy 76:577, as implemented by pvlib.
    Valid:  years -2000 to 6000, 0.0003 degrees; refraction of mean air.
    """
    from pvlib import spa  # noqa: PLC0415 - takes most of a second

    pressure, temp_c = air
    found = spa.solar_position_numpy(
        seconds, latitude, longitude, elevation, pressure / 100.0, temp_c, _DELTA_T, 0.5667, 1
    )
    return Sky(found[0], found[4])


@lru_cache(maxsize=16)
def sun_path(latitude: Degree, longitude: Degree, elevation: Metre, utc_offset: Hour) -> SunPath:
    """The sun over a year at a place, north and east positive; hours of the clock that is `utc_offset` ahead of UTC.

    The place is rounded to a hundred metres or so first, so that a path read back is the path worked out.
    """
    place = (round(latitude, 3), round(longitude, 3), round(elevation, -1), round(utc_offset, 2))
    file = _file_of(place)
    path = _read_back(file)
    if path is None:
        path = _worked_out(*place)
        _keep(file, path)
    return path


def _worked_out(latitude: Degree, longitude: Degree, elevation: Metre, utc_offset: Hour) -> SunPath:
    moments = _YEAR_BEGINS - utc_offset * 3600.0 + _STEP * np.arange(HOURS * _PARTS + 1, dtype=float)
    air = (station_pressure(elevation), _MEAN_AIR_C)
    sky = sky_at(moments, latitude, longitude, elevation, air)
    zenith, azimuth = np.radians(sky.zenith), np.radians(sky.azimuth)
    height = np.cos(zenith)
    lit, centre = _lit(height)
    up = lit.mean(axis=1)
    moment = np.where(up > 0.0, (lit * centre).sum(axis=1) / np.maximum(lit.sum(axis=1), 1e-12), _PARTS / 2.0)
    at = _PARTS * np.arange(HOURS, dtype=float) + moment
    east, north, level = (
        _between(values, at)
        for values in (np.sin(zenith) * np.sin(azimuth), np.sin(zenith) * np.cos(azimuth), height)
    )
    length = np.sqrt(east**2 + north**2 + level**2)
    level = np.where(up > 0.0, np.maximum(level / length, _HORIZON_SINE), level / length)
    steps = np.maximum(height, 0.0)
    level_mean = (0.5 * (steps[:-1] + steps[1:])).reshape(HOURS, _PARTS).mean(axis=1)
    return _frozen(
        np.arccos(np.clip(level, -1.0, 1.0)),
        np.arctan2(east, north) % (2.0 * np.pi),
        up,
        _strength(moments[:-1].reshape(HOURS, _PARTS)[:, _PARTS // 2]) * level_mean,
    )


def _lit(height: Array) -> tuple[Array, Array]:
    """For each step of each hour the share that is lit, and where in the hour the middle of that lies, in steps."""
    before, after = height[:-1], height[1:]
    crossing = before / np.where(before == after, 1.0, before - after)
    rising, setting = (before <= 0.0) & (after > 0.0), (before > 0.0) & (after <= 0.0)
    lit = np.where(rising, 1.0 - crossing, np.where(setting, crossing, np.where(before > 0.0, 1.0, 0.0)))
    inside = np.where(rising, 1.0 - lit / 2.0, np.where(setting, lit / 2.0, 0.5))
    step = np.arange(HOURS * _PARTS, dtype=float) % _PARTS
    return lit.reshape(HOURS, _PARTS), (step + inside).reshape(HOURS, _PARTS)


def _between(values: Array, at: Array) -> Array:
    """Values at places between the samples, on straight lines."""
    first = np.minimum(at.astype(int), len(values) - 2)
    beyond = at - first
    found: Array = values[first] * (1.0 - beyond) + values[first + 1] * beyond
    return found


def _strength(seconds: Array) -> Array:
    """Sunshine outside the air on a plane that faces it, W/m2."""
    from pvlib import spa  # noqa: PLC0415 - takes most of a second

    (distance,) = spa.solar_position_numpy(
        seconds, 0.0, 0.0, 0.0, 1013.25, 12.0, _DELTA_T, 0.5667, 1, esd=True
    )
    strength: Array = SOLAR_CONSTANT / distance**2
    return strength


def _frozen(*columns: Array) -> SunPath:
    for column in columns:
        column.setflags(write=False)
    return SunPath(*columns)


def _file_of(place: tuple[float, ...]) -> Path:
    """Named after the place, the library that worked it out and this text."""
    made_by = importlib.metadata.version("pvlib") + hashlib.sha256(Path(__file__).read_bytes()).hexdigest()
    words = " ".join(f"{value + 0.0:.3f}" for value in place)
    return cache_folder() / "sun" / (hashlib.sha256(f"{made_by} {words}".encode()).hexdigest()[:24] + ".npz")


def _read_back(file: Path) -> SunPath | None:
    """What was kept, or None where nothing was, or where it is damaged."""
    try:
        with np.load(file, allow_pickle=False) as kept:
            columns = [np.asarray(kept[name], dtype=float) for name in _NAMES]
    except (OSError, ValueError, KeyError, EOFError, TypeError, zipfile.BadZipFile, zlib.error):
        return None
    sound = all(column.shape == (HOURS,) and bool(np.isfinite(column).all()) for column in columns)
    return _frozen(*columns) if sound else None


def _keep(file: Path, path: SunPath) -> None:
    """Write it beside its place and move it there; a folder that cannot be written to costs only time."""
    part = file.with_name(f"{file.name}.{os.getpid()}-{secrets.token_hex(4)}.part")
    try:
        file.parent.mkdir(parents=True, exist_ok=True)
        with part.open("wb") as target:
            np.savez(target, **{name: getattr(path, name) for name in _NAMES})
        os.replace(part, file)
        for old in sorted(file.parent.glob("*.npz"), key=lambda one: one.stat().st_mtime)[:-_KEPT]:
            old.unlink()
    except OSError:
        with suppress(OSError):
            part.unlink(missing_ok=True)
