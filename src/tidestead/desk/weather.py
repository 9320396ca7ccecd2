"""The weather that a plan asks for, had once for as long as the plan's words and the files beside it stay the same."""

from __future__ import annotations

import hashlib
import time
from dataclasses import dataclass
from pathlib import Path

from tidestead.core.errors import WeatherError
from tidestead.core.weather import Weather
from tidestead.intake.choosing import weather_of
from tidestead.intake.files import read_beside
from tidestead.intake.kept import kept_name
from tidestead.intake.wanted import Monthly, NoWeather, Site, Wanted
from tidestead.plan import LoadedPlan

_ASK_AGAIN = 600.0
"""Seconds after which a service that could not be reached is asked again."""
_KEEP_AT_MOST = 4
_HAD: dict[str, tuple[float, Told]] = {}


@dataclass(frozen=True, eq=False)
class Told:
    """The weather, or why there is none in `reason`. `digest` changes when, and only when, any of it does."""

    weather: Weather | None
    reason: str
    digest: str


def weather_for(loaded: LoadedPlan) -> Told:
    """What the plan's site and [weather] come to, with the files that lie beside the plan."""
    site, wanted = _site(loaded), _wanted(loaded)
    folder = loaded.path.resolve().parent if loaded.path is not None else None
    key = hashlib.sha256(repr((site, wanted, folder, _files(wanted, folder))).encode()).hexdigest()
    now = time.monotonic()
    until, told = _HAD.get(key, (0.0, None))
    if told is None or now > until:
        told = _told(weather_of(site, wanted, folder))
        while len(_HAD) >= _KEEP_AT_MOST:
            _HAD.pop(next(iter(_HAD)))
        _HAD[key] = (now + _ASK_AGAIN if _may_change(told, wanted) else float("inf"), told)
    return told


def _site(loaded: LoadedPlan) -> Site:
    site = loaded.plan.site
    return Site(site.latitude, site.longitude, site.elevation, site.timezone)


def _wanted(loaded: LoadedPlan) -> Wanted:
    weather = loaded.plan.weather
    means = weather.normals
    monthly = Monthly(means.temperature, means.sun, means.humidity, means.wind, means.swing)
    stem = loaded.path.stem if loaded.path is not None else "plan"
    return Wanted(weather.file, weather.pvgis, monthly, stem)


def _files(wanted: Wanted, folder: Path | None) -> tuple[str, ...]:
    """What the files hold that may be read: their times alone would miss a change."""
    names = [wanted.file] if wanted.file else []
    names += [kept_name(wanted.stem, wanted.years)] if wanted.years else []
    return tuple(_content(folder, name) for name in names)


def _content(folder: Path | None, name: str) -> str:
    try:
        return hashlib.sha256(read_beside(folder, name)).hexdigest()
    except WeatherError as error:
        return str(error)


def _may_change(told: Told, wanted: Wanted) -> bool:
    """Whether the same plan and files may have other weather later: years were asked for and not had."""
    return wanted.years is not None and (told.weather is None or told.weather.origin == "normals")


def _told(found: Weather | NoWeather) -> Told:
    if isinstance(found, NoWeather):
        return Told(None, found.reason, hashlib.sha256(found.reason.encode()).hexdigest())
    content = hashlib.sha256()
    words = (found.latitude, found.longitude, found.elevation, found.utc_offset, found.normals, found.words,
             found.typical, found.notes, found.tried, str(found.source))  # fmt: skip
    content.update(repr(words).encode())
    for year in found.years:
        content.update(year.label.encode())
        for column in year.columns:
            content.update(column.tobytes())
    return Told(found, "", content.hexdigest())
