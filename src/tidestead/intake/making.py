"""Weather out of hours: the one way that those of files and those fetched go alike."""

from __future__ import annotations

from dataclasses import dataclass, replace

from tidestead.core.weather import Weather
from tidestead.intake.clock import site_offset
from tidestead.intake.hours import Hours, Station
from tidestead.intake.layout import laid_out
from tidestead.intake.notes import Notes
from tidestead.intake.oddities import is_far, look_at
from tidestead.intake.plausible import checked
from tidestead.intake.sun import sun_path
from tidestead.intake.wanted import Monthly
from tidestead.intake.years import Setting, finished, normals_of


@dataclass(frozen=True)
class Place:
    """A site whose latitude and longitude are known."""

    latitude: float
    longitude: float
    elevation: float | None = None
    zone: str | None = None


def weather_of_hours(place: Place, monthly: Monthly, name: str, hours: Hours) -> Weather:
    """The weather in the hours of a source. Raises a WeatherError.

    Years that are whole enough are kept; `monthly` stands in for humidity and wind that the source has not.
    """
    notes = Notes()
    for said in hours.notes:
        notes.say(said)
    base = placed(place, hours.station, notes)
    later = _later(place, base.utc_offset, hours.station)
    raw, typical = laid_out(name, checked(name, hours, notes), later, notes)
    years = finished(name, raw, Setting(base.sun, base.elevation, monthly.humidity, monthly.wind), notes)
    look_at(years, base.sun, (place.latitude, place.longitude), hours.station, notes)
    return replace(base, years=years, normals=normals_of(years), typical=typical, notes=notes.sentences())


def _later(place: Place, offset: float, station: Station) -> float:
    """Hours that the site's clock shows more than that of a source at the same moment.

    The hours of another place are those of its own days: there it is by how much more the site's clock is ahead of the
    site's sun than the other clock of the other sun.
    """
    if station.utc_offset is None:
        return 0.0
    later = offset - station.utc_offset
    if station.longitude is None or not is_far((place.latitude, place.longitude), station):
        return later
    return float(round((later - (place.longitude - station.longitude) / 15.0 + 12.0) % 24.0 - 12.0))


def placed(place: Place, station: Station | None, notes: Notes) -> Weather:
    """The place, its clock and its sun; no hours yet."""
    elevation = _elevation(place, station, notes)
    offset = site_offset(place.zone, place.longitude, station.utc_offset if station else None, notes)
    sun = sun_path(place.latitude, place.longitude, elevation, offset)
    return Weather(place.latitude, place.longitude, elevation, offset, (), None, sun, "file", "")


def _elevation(place: Place, station: Station | None, notes: Notes) -> float:
    if place.elevation is not None:
        return place.elevation
    if station is not None and station.elevation is not None:
        notes.say(f"The height above the sea is that of the file, {station.elevation:g} m.")
        return station.elevation
    notes.say("The height above the sea is taken as 0 m; write it under [site]: elevation.")
    return 0.0


def at_words(station: Station) -> str:
    """ "39.83 N 104.65 W"; nothing where the file does not say."""
    if station.latitude is None or station.longitude is None:
        return ""
    north, east = ("N" if station.latitude >= 0 else "S"), ("E" if station.longitude >= 0 else "W")
    return f"{abs(station.latitude):.2f} {north} {abs(station.longitude):.2f} {east}"
