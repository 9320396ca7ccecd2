"""The weather of a place: the first source that can be used, and what was said of those before it."""

from __future__ import annotations

import os
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

from tidestead.core.errors import WeatherError
from tidestead.core.source import YOURS, Known, Source
from tidestead.core.weather import Weather
from tidestead.intake import fetching, kept
from tidestead.intake.files import lines_of, read_beside
from tidestead.intake.kinds import read_hours
from tidestead.intake.making import Place, at_words, placed, weather_of_hours
from tidestead.intake.monthly import monthly_normals
from tidestead.intake.notes import Notes
from tidestead.intake.wanted import NoWeather, Site, Wanted

_PVGIS = Source("PVGIS, European Commission, Joint Research Centre", known=Known.READ)
_ADD = (
    "Add one under [weather]: a file beside the plan, years to fetch such as pvgis = \"2005 to 2023\", or twelve "
    "monthly means of temperature and sun under [weather.normals]."
)  # fmt: skip


def weather_of(site: Site, wanted: Wanted, folder: Path | None) -> Weather | NoWeather:
    """The weather from the first source asked for that can be used: file, fetched years, monthly means.

    What is wrong with a source that comes first is told in `tried`, and that another stands in for it in `words`.
    """
    if site.latitude is None or site.longitude is None:
        lost = [word for word in ("latitude", "longitude") if getattr(site, word) is None]
        return NoWeather(f"The site has no {' and no '.join(lost)}: add {' and '.join(lost)} under [site].")
    place = Place(site.latitude, site.longitude, site.elevation, site.zone)
    tried: list[str] = []
    lost_names: list[str] = []
    for name, asked, source in _sources(place, wanted, folder):
        if not asked:
            continue
        try:
            found = source(tried)
        except WeatherError as error:
            tried.append(_said(error))
            lost_names.append(name)
            continue
        instead = f" (in place of {' and '.join(lost_names)}, which cannot be used)" if lost_names else ""
        return replace(found, words=found.words + instead, tried=tuple(tried))
    if tried:
        return NoWeather(f"None of the sources of weather can be used: {' '.join(tried)}", tuple(tried))
    return NoWeather(f"The plan names no source of weather. {_ADD}")


def _sources(
    place: Place, wanted: Wanted, folder: Path | None
) -> tuple[tuple[str, bool, Callable[[list[str]], Weather]], ...]:
    """Each source in its order: its name, whether it is asked for, and how it is had."""
    return (
        (f"the file {wanted.file}", wanted.file is not None, lambda _: of_file(place, wanted, folder)),
        ("PVGIS", wanted.years is not None, lambda tried: _of_years(place, wanted, folder, tried)),
        ("the monthly means", wanted.monthly.said, lambda _: _of_monthly(place, wanted)),
    )


def of_file(place: Place, wanted: Wanted, folder: Path | None) -> Weather:
    """The weather in a file beside the plan. Raises a WeatherError."""
    name = wanted.file or ""
    hours = read_hours(name, lines_of(name, read_beside(folder, name)))
    found = weather_of_hours(place, wanted.monthly, name, hours)
    station = hours.station
    span = "typical year" if found.typical else _span(found)
    words = ", ".join(filter(None, (f"file {name}: {station.kind}", station.name, span, at_words(station))))
    return replace(
        found, origin="file", words=words, source=Source(f"weather file {name}", station.kind, Known.YOURS)
    )


def _of_years(place: Place, wanted: Wanted, folder: Path | None, tried: list[str]) -> Weather:
    """Fetched years, from disk where they are kept. Raises a WeatherError."""
    years = wanted.years or (0, 0)
    name = kept.kept_name(wanted.stem, years)
    if folder is not None and os.path.lexists(folder / name):
        try:
            fetched = kept.read_kept(folder, name)
            if kept.same_place(fetched, place.latitude, place.longitude):
                note = f"The years stand in {name} beside the plan; delete it to have them fetched anew."
                return _of_fetched(place, wanted, fetched, note)
            tried.append(f"{name}: The years kept there are of another place, and are fetched anew.")
        except WeatherError as error:
            tried.append(_said(error))
    fetched = fetching.fetch(place.latitude, place.longitude, years)
    found = _of_fetched(place, wanted, fetched, "")
    return replace(found, notes=(_kept(folder, name, fetched), *found.notes))


def _of_fetched(place: Place, wanted: Wanted, fetched: kept.Fetched, note: str) -> Weather:
    """Weather out of fetched years. Raises a WeatherError."""
    found = weather_of_hours(place, wanted.monthly, "PVGIS", kept.hours_of_fetched(fetched))
    words = (
        f"PVGIS, {_span(found)}, {fetched.latitude:.2f} {fetched.longitude:.2f}, database {fetched.database}, "
        f"fetched on {fetched.date}"
    )
    humid = (
        "The service's hours hold no humidity: the dew point lies under the temperature by as much as in its typical "
        "year, by month and hour."
    )
    notes = tuple(filter(None, (note, humid, *found.notes)))
    return replace(found, origin="fetched", words=words, source=_PVGIS, notes=notes)


def _kept(folder: Path | None, name: str, fetched: kept.Fetched) -> str:
    """Keep what was fetched; what is to be said of it."""
    if folder is None:
        return "The plan is not saved yet, so the years fetched are not kept."
    try:
        kept.keep(folder, name, fetched)
    except OSError as error:
        why = error.strerror or str(error)
        return f"The years fetched could not be kept beside the plan ({why}), and are fetched again."
    return f"The years are kept in {name} beside the plan, and are not fetched again."


def _said(error: WeatherError) -> str:
    return " ".join(str(fault) for fault in error.faults)


def _of_monthly(place: Place, wanted: Wanted) -> Weather:
    """Monthly means alone; years are made of them later. Raises a WeatherError."""
    notes = Notes()
    base = placed(place, None, notes)
    normals = monthly_normals(wanted.monthly, base.sun, notes)
    return replace(
        base, normals=normals, origin="normals", words="twelve monthly means in your plan", source=YOURS,
        notes=notes.sentences(),
    )  # fmt: skip


def _span(weather: Weather) -> str:
    labels = [year.label for year in weather.years]
    return labels[0] if len(labels) == 1 else f"{len(labels)} years, {labels[0]} to {labels[-1]}"
