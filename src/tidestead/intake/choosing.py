"""The weather of a place: the first source that can be used, and what was said of those before it."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from tidestead.core.source import Known, Source
from tidestead.core.weather import Weather
from tidestead.intake.clock import site_offset
from tidestead.intake.files import lines_of, read_beside
from tidestead.intake.hours import Hours, Station
from tidestead.intake.kinds import read_hours
from tidestead.intake.layout import laid_out
from tidestead.intake.notes import Notes
from tidestead.intake.oddities import look_at
from tidestead.intake.plausible import checked
from tidestead.intake.sun import sun_path
from tidestead.intake.years import Setting, finished, normals_of


@dataclass(frozen=True)
class Site:
    """Where the weather is wanted: degrees north and east, metres above the sea, and the name of its time zone."""

    latitude: float | None
    longitude: float | None
    elevation: float | None = None
    zone: str | None = None


@dataclass(frozen=True)
class Monthly:
    """Twelve means each, as a plan gives them, January first: degC, W/m2 over day and night, 0 to 1, m/s at 10 m, K."""

    temp_c: tuple[float, ...] | None = None
    sun: tuple[float, ...] | None = None
    humidity: tuple[float, ...] | None = None
    wind: tuple[float, ...] | None = None
    swing: tuple[float, ...] | None = None


@dataclass(frozen=True)
class Wanted:
    """What a plan asks for, in the order in which it is tried: a file, years to fetch, monthly means."""

    file: str | None = None
    years: tuple[int, int] | None = None
    monthly: Monthly = Monthly()


@dataclass(frozen=True)
class NoWeather:
    """Why there is no weather, in whole sentences; `tried` are the sources that could not be used, and why."""

    reason: str
    tried: tuple[str, ...] = ()


def of_file(site: Site, wanted: Wanted, folder: Path | None, name: str) -> Weather:
    """The weather in a file beside the plan. Raises a WeatherError."""
    hours = read_hours(name, lines_of(name, read_beside(folder, name)))
    return of_hours(site, wanted, name, hours)


def of_hours(site: Site, wanted: Wanted, name: str, hours: Hours) -> Weather:
    """Weather out of the hours of a source. Raises a WeatherError."""
    notes, station = Notes(), hours.station
    for said in hours.notes:
        notes.say(said)
    latitude, longitude = _place(site)
    elevation = _elevation(site, station, notes)
    offset = site_offset(site.zone, longitude, station.utc_offset, notes)
    sun = sun_path(latitude, longitude, elevation, offset)
    raw, typical = laid_out(name, checked(name, hours, notes), offset, notes)
    setting = Setting(sun, elevation, wanted.monthly.humidity, wanted.monthly.wind)
    years = finished(name, raw, setting, notes)
    look_at(years, sun, (latitude, longitude), station, notes)
    words = ", ".join(
        filter(None, (f"file {name}: {station.kind}", station.name, _span(years, typical), _at(station)))
    )
    return Weather(
        latitude, longitude, elevation, offset, years, normals_of(years), sun, "file", words,
        Source(f"weather file {name}", station.kind, Known.YOURS), typical, notes.sentences(),
    )  # fmt: skip


def _place(site: Site) -> tuple[float, float]:
    if site.latitude is None or site.longitude is None:
        raise ValueError("the place is asked for before weather is")
    return site.latitude, site.longitude


def _elevation(site: Site, station: Station, notes: Notes) -> float:
    if site.elevation is not None:
        return site.elevation
    if station.elevation is not None:
        notes.say(f"The height above the sea is the file's: {station.elevation:g} m.")
        return station.elevation
    notes.say("The height above the sea is taken as 0 m; write it under [site]: elevation.")
    return 0.0


def _span(years: tuple[object, ...], typical: bool) -> str:
    labels = [str(getattr(year, "label", "")) for year in years]
    if typical or len(labels) == 1:
        return labels[0]
    return f"{len(labels)} years, {labels[0]} to {labels[-1]}"


def _at(station: Station) -> str:
    if station.latitude is None or station.longitude is None:
        return ""
    north, east = ("N" if station.latitude >= 0 else "S"), ("E" if station.longitude >= 0 else "W")
    return f"{abs(station.latitude):.2f} {north} {abs(station.longitude):.2f} {east}"
