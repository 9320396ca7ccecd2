"""The sun's path over a place, by the algorithm of Reda and Andreas as pvlib has it, kept on disk once worked out.

Working it out takes a second and a large library; reading it back takes a few milliseconds and none.
"""

from __future__ import annotations

import hashlib
import importlib.metadata
import os
import secrets
from contextlib import suppress
from functools import lru_cache
from pathlib import Path
from typing import NamedTuple

import numpy as np

from tidestead.core.cache_folder import cache_folder
from tidestead.core.dims import Array, Celsius, Degree, Hour, Metre, Pascal, Second
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
_LOWEST = -1.5
"""Degrees above the horizon down to which the air's lifting is followed."""
_HORIZON_SINE = 1e-4
_NAMES = ("zenith_rad", "azimuth_rad", "up", "top")
_DIGEST = 32
"""Bytes of the sum that stands before what is kept."""
_ENDING = ".sun"
_KEPT = 200
"""Paths kept on disk; the oldest goes first."""


class Sky(NamedTuple):
    """Where the sun stands at given moments: degrees above the horizon as if there were no air, and from north
    through east.
    """

    height: Array
    azimuth: Array


def sky_at(
    seconds: Array, latitude: Degree, longitude: Degree, elevation: Metre, ahead: Second = _DELTA_T
) -> Sky:
    """The sun at moments given in seconds since 1970, UTC; `ahead` is by how much even time is ahead of the earth.

    Source: Reda and Andreas (2004), Solar Energy 76:577, as implemented by pvlib.
    Valid:  years -2000 to 6000, 0.0003 degrees.
    """
    from pvlib import spa  # noqa: PLC0415 - takes most of a second

    found = spa.solar_position_numpy(
        seconds, latitude, longitude, elevation, 1010.0, _MEAN_AIR_C, ahead, 0.0, 1
    )
    return Sky(found[3], found[4])


def lifted(height: Array, pressure: Pascal, temp_c: Celsius) -> Array:
    """Height at which the air lets the sun seem to stand, degrees.

        h = e + (P/1010)*(283/(273 + T))*1.02/(60*tan(e + 10.3/(e + 5.11)))      P in hPa, T in degC

    Source: Reda and Andreas (2004), equation 42.
    Valid:  mean air; it ends with the sun's upper edge there, and goes on to a degree and a half under the horizon
            here, so that sunrise has no step. Further down nothing is lifted.
    """
    seen = np.maximum(height, _LOWEST)
    up = 1.02 / (60.0 * np.tan(np.radians(seen + 10.3 / (seen + 5.11))))
    found: Array = np.where(
        height < _LOWEST, height, height + pressure / 101000.0 * 283.0 / (273.0 + temp_c) * up
    )
    return found


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
    sky = sky_at(moments, latitude, longitude, elevation)
    seen = np.radians(lifted(sky.height, station_pressure(elevation), _MEAN_AIR_C))
    azimuth, height = np.radians(sky.azimuth), np.sin(seen)
    lit, centre = _lit(height)
    up = lit.mean(axis=1)
    moment = np.where(up > 0.0, (lit * centre).sum(axis=1) / np.maximum(lit.sum(axis=1), 1e-12), _PARTS / 2.0)
    at = _PARTS * np.arange(HOURS, dtype=float) + moment
    east, north, level = (
        _between(values, at)
        for values in (np.cos(seen) * np.sin(azimuth), np.cos(seen) * np.cos(azimuth), height)
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
    return cache_folder() / "sun" / (hashlib.sha256(f"{made_by} {words}".encode()).hexdigest()[:24] + _ENDING)


def _read_back(file: Path) -> SunPath | None:
    """What was kept, or None where nothing was, or where it is damaged."""
    try:
        data = file.read_bytes()
    except OSError:
        return None
    told, content = data[:_DIGEST], data[_DIGEST:]
    if hashlib.sha256(content).digest() != told or len(content) != 8 * HOURS * len(_NAMES):
        return None
    return _frozen(*np.frombuffer(content, dtype="<f8").astype(float).reshape(len(_NAMES), HOURS))


def _keep(file: Path, path: SunPath) -> None:
    """Write it beside its place and move it there; a folder that cannot be written to costs only time."""
    content = b"".join(getattr(path, name).astype("<f8").tobytes() for name in _NAMES)
    part = file.with_name(f"{file.name}.{os.getpid()}-{secrets.token_hex(4)}.part")
    try:
        file.parent.mkdir(parents=True, exist_ok=True)
        part.write_bytes(hashlib.sha256(content).digest() + content)
        os.replace(part, file)
        for old in sorted(file.parent.glob(f"*{_ENDING}"), key=lambda one: one.stat().st_mtime)[:-_KEPT]:
            old.unlink()
    except OSError:
        with suppress(OSError):  # the path is known all the same; only keeping it failed
            part.unlink(missing_ok=True)
