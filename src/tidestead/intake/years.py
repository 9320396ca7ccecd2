"""A year of weather out of raw hours: gaps filled or told, what is missing derived, what is odd noted."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from tidestead.core.dims import Array
from tidestead.core.errors import Fault, WeatherError
from tidestead.core.weather import HOURS, MONTH_OF_HOUR, Normals, SunPath, WeatherYear
from tidestead.intake.air import humidity_at, station_pressure
from tidestead.intake.gaps import LONGEST, TURN, filled, gaps, moment, months_missing, turned
from tidestead.intake.layout import RawYear
from tidestead.intake.notes import Notes
from tidestead.intake.parts import parted, total_of
from tidestead.intake.rows import no_weather_in

USUAL_WIND = 3.0
"""m/s, where nobody said. Common practice, no source."""
_LEAST_HUMIDITY = 0.02
"""Air drier than this is a meter's zero. Own choice."""
_AS_GIVEN = ("beam", "beam_level", "diffuse", "pressure", "sky")
_ASKED = "Give a file with all twelve months, or a longer one."


@dataclass(frozen=True)
class Setting:
    """What stands in for what a source does not hold: the sun's path, the height of the place, normals of the plan."""

    sun: SunPath
    elevation: float
    humidity: tuple[float, ...] | None = None
    wind: tuple[float, ...] | None = None


def finished(name: str, raw: list[RawYear], setting: Setting, notes: Notes) -> tuple[WeatherYear, ...]:
    """Every year that is whole enough. Raises a WeatherError that names the months where none is."""
    years, lost = [], []
    for one in (turned(year, notes) for year in raw if year.ring or year.rows > TURN):
        columns = _mended(name, one, setting, notes)
        missing = _missing(columns)
        if any(missing.values()):
            lost.append((one, missing, columns))
        else:
            years.append(_year(one.label, columns, setting, notes))
    if not years:
        raise WeatherError(
            _lacking(name, *max(lost, key=lambda entry: entry[0].rows)) if lost else _nothing(name)
        )
    for one, missing, _ in lost:
        what = next(what for what, months in missing.items() if months)
        notes.say(f"{one.label} is left out: no {what} in {missing[what]}.")
    return tuple(years)


def _mended(name: str, year: RawYear, setting: Setting, notes: Notes) -> dict[str, Array]:
    """The columns a year is made of, short gaps filled; long ones are still not a number."""
    raw = year.columns
    if "temp_c" not in raw:
        raise no_weather_in(name, "There is no temperature in this file.", "Give a file that has it.")
    found: dict[str, Array] = {key: raw[key] for key in _AS_GIVEN if key in raw}
    found["temp_c"] = filled(raw["temp_c"], year.ring, "temperature", notes)
    found["humidity"] = _humidity(name, raw, year.ring, setting, notes)
    found["wind"] = _wind(raw, year.ring, setting, notes)
    found["total"] = _total(total_of(raw, setting.sun), year.ring, setting.sun, notes)
    return found


def _humidity(name: str, raw: dict[str, Array], ring: bool, setting: Setting, notes: Notes) -> Array:
    share = raw.get("humidity", np.full(HOURS, np.nan))
    if "dew_c" in raw:
        share = np.where(np.isfinite(share), share, humidity_at(raw["temp_c"], raw["dew_c"]))
    if not np.isfinite(share).any():
        if setting.humidity is None:
            raise no_weather_in(
                name, "There is no humidity in this file.",
                "Add twelve of them to the plan, under [weather.normals]: humidity = [...].",
            )  # fmt: skip
        notes.say("The file has no humidity: the monthly means of your plan stand in for every hour.")
        return np.asarray(setting.humidity)[MONTH_OF_HOUR]
    return np.clip(filled(share, ring, "humidity", notes), _LEAST_HUMIDITY, 1.0)


def _wind(raw: dict[str, Array], ring: bool, setting: Setting, notes: Notes) -> Array:
    wind = raw.get("wind", np.full(HOURS, np.nan))
    if np.isfinite(wind).any():
        return filled(wind, ring, "wind", notes)
    if setting.wind is not None:
        notes.say("The file has no wind: the monthly means of your plan stand in for every hour.")
        return np.asarray(setting.wind)[MONTH_OF_HOUR]
    notes.say(
        f"The file has no wind: {USUAL_WIND:g} m/s is taken for every hour (common practice, no source)."
    )
    return np.full(HOURS, USUAL_WIND)


def _total(total: Array, ring: bool, sun: SunPath, notes: Notes) -> Array:
    """The sun on level ground; gaps are filled by the share of what reaches the top of the air, none by night."""
    missing = ~np.isfinite(total)
    if not missing.any():
        return total
    night = missing & (sun.top <= 0.0)
    clear = np.where(sun.top > 1.0, total / np.maximum(sun.top, 1.0), np.nan)
    day = np.flatnonzero(np.isfinite(clear))
    if not len(day):
        return np.where(night, 0.0, total) if bool((sun.top <= 0.0).all()) else total
    mended = np.where(night, 0.0, total)
    short = [(begin, length) for begin, length in gaps(total, ring) if length <= LONGEST]
    places = [hour % HOURS for begin, length in short for hour in range(begin, begin + length)]
    if places:
        mended[places] = np.interp(places, day, clear[day], period=HOURS) * sun.top[places]
        notes.count("hours without sun in the file were filled by the share of clear sky of their neighbours",
                    len(places), moment(places[0]))  # fmt: skip
    for begin, length in gaps(total, ring):
        if length > LONGEST:
            mended[np.arange(begin, begin + length) % HOURS] = np.nan
    return mended


def _missing(columns: dict[str, Array]) -> dict[str, str]:
    """For each thing that must be complete the months in which it is not, in words; empty where it is."""
    needed = {"temperature": "temp_c", "sun": "total", "humidity": "humidity", "wind": "wind"}
    return {what: months_missing(~np.isfinite(columns[key])) for what, key in needed.items()}


def _lacking(
    name: str, year: RawYear, missing: dict[str, str], columns: dict[str, Array]
) -> tuple[Fault, ...]:
    """Where the file ends too early, and each thing that is not complete."""
    faults = []
    if not np.isfinite(columns["temp_c"][year.last + 1 :]).any() and year.last < HOURS - 1 - LONGEST:
        faults.append(
            Fault(
                name, year.line, "", f"The hours end here, with {moment(year.last)}.", "Was the file cut off?"
            )
        )
    alike: dict[str, list[str]] = {}
    for what, months in missing.items():
        alike.setdefault(months, []).append(what)
    faults += [
        Fault(name, None, "", f"{year.label}: no {', no '.join(lost)} in {months}.", _ASKED)
        for months, lost in alike.items() if months
    ]  # fmt: skip
    return tuple(faults)


def _nothing(name: str) -> tuple[Fault, ...]:
    return (Fault(name, None, "", "There is not one hour in this file.", "Give another file."),)


def _year(label: str, columns: dict[str, Array], setting: Setting, notes: Notes) -> WeatherYear:
    beam, diffuse, total = parted(columns, columns["total"], setting.sun, notes)
    pressure = columns.get("pressure", np.full(HOURS, np.nan))
    lost = ~np.isfinite(pressure)
    if bool(lost.any()):
        notes.count("hours had no air pressure; the mean at that height was taken", int(lost.sum()))
    arrays = (
        columns["temp_c"],
        columns["humidity"],
        np.where(lost, station_pressure(setting.elevation), pressure),
        columns["wind"],
        beam,
        diffuse,
        total,
        columns.get("sky", np.full(HOURS, np.nan)),
    )
    own = [np.array(values, dtype=float) for values in arrays]
    for values in own:
        values.setflags(write=False)
    return WeatherYear(label, *own)


def normals_of(years: tuple[WeatherYear, ...]) -> Normals:
    """Means of the twelve months over all years, and the mean swing of a day."""
    return Normals(
        _months([year.temp_c for year in years]),
        _months([year.total for year in years]),
        _months([year.humidity for year in years]),
        _months([year.wind for year in years]),
        _months([np.repeat(np.ptp(year.temp_c.reshape(365, 24), axis=1), 24) for year in years]),
    )


def _months(columns: list[Array]) -> tuple[float, ...]:
    mean = np.mean(columns, axis=0)
    return tuple(float(mean[month == MONTH_OF_HOUR].mean()) for month in range(12))
