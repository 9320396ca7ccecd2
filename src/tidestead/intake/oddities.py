"""What is odd about a year of weather as a whole: another place, another clock, another half of the earth."""

from __future__ import annotations

import math

import numpy as np

from tidestead.core.dims import Array
from tidestead.core.weather import SunPath, WeatherYear
from tidestead.intake.hours import Station
from tidestead.intake.notes import Notes

_FAR = 2.0
"""Degrees of latitude or longitude from the site past which a file is told to be of elsewhere."""
_LATE = 0.75
"""Hours by which the middle of the day's sun may lie beside noon: clouds of one half of the day move it by half."""
_UNLIKE = 0.08
"""Share by which the parts of the sun may differ from its total; sound files are within one percent."""
_SEASONS = 20.0
"""Degrees of latitude past which the sun's seasons tell the halves of the earth apart."""


def look_at(
    years: tuple[WeatherYear, ...], sun: SunPath, place: tuple[float, float], station: Station, notes: Notes
) -> None:
    """Say what is odd."""
    _compare_places(place, station, notes)
    total = np.mean([year.total for year in years], axis=0)
    _compare_parts(years, sun, notes)
    _compare_noons(total, sun, notes)
    if abs(place[0]) > _SEASONS and _lag_of_seasons(total, sun) < 0.0:
        notes.say(
            "The sun of this weather is strong in the months in which it is low at your latitude: "
            "north is positive, south is negative."
        )


def _compare_places(place: tuple[float, float], station: Station, notes: Notes) -> None:
    if station.latitude is None or station.longitude is None:
        return
    latitude, longitude = place
    across = abs((station.longitude - longitude + 180.0) % 360.0 - 180.0)
    east = across * math.cos(math.radians(latitude))
    if station.latitude * latitude < 0.0 and abs(station.latitude - latitude) > _FAR:
        notes.say(
            f"The weather is of latitude {station.latitude:g}, on the other half of the earth than your site "
            f"({latitude:g}): north is positive, south is negative. The sun is that of your site."
        )
    elif abs(station.latitude - latitude) > _FAR or east > _FAR:
        far = 111.0 * math.hypot(station.latitude - latitude, east)
        notes.say(
            f"The weather is of a place some {far:.0f} km from your site (latitude {station.latitude:g}, "
            f"longitude {station.longitude:g}). The sun is that of your site."
        )


def _compare_parts(years: tuple[WeatherYear, ...], sun: SunPath, notes: Notes) -> None:
    """Direct and diffuse sun against the total."""
    height = np.where(sun.up > 0.0, np.cos(sun.zenith_rad), 0.0)
    whole = sum(float(year.total.sum()) for year in years)
    made = sum(float((year.beam * height + year.diffuse).sum()) for year in years)
    if whole > 0.0 and abs(made / whole - 1.0) > _UNLIKE:
        notes.say(
            f"Direct and diffuse sun of this weather make {100.0 * made / whole:.0f} % of its total at your site: look at the "
            "place, the clock and the units."
        )


def _compare_noons(total: Array, sun: SunPath, notes: Notes) -> None:
    """The middle of the sun's day in the weather against that of the sky."""
    ours, sky = _middle(total), _middle(sun.top)
    if ours is None or sky is None:
        return
    late = (ours - sky + 12.0) % 24.0 - 12.0
    if abs(late) >= _LATE:
        notes.say(
            f"The sun of this weather is {abs(late):.1f} h {'later' if late > 0 else 'earlier'} than the sky of your "
            "site. Look at the time zone, the longitude, and whether stamps mark the end of the hour."
        )


def _middle(sunshine: Array) -> float | None:
    """The hour round which a mean day's sun is even; None where there is no such hour."""
    day = sunshine.reshape(365, 24).mean(axis=0)
    turned = np.sum(day * np.exp(2j * np.pi * (np.arange(24) + 0.5) / 24.0))
    if abs(turned) < 0.05 * day.sum() or day.sum() <= 0.0:
        return None
    return float(np.angle(turned) * 24.0 / (2.0 * np.pi) % 24.0)


def _lag_of_seasons(total: Array, sun: SunPath) -> float:
    """How well the days' sun follows the days' sky, -1 to 1."""
    ours, sky = total.reshape(365, 24).mean(axis=1), sun.top.reshape(365, 24).mean(axis=1)
    if float(np.std(ours)) == 0.0 or float(np.std(sky)) == 0.0:
        return 0.0
    return float(np.corrcoef(ours, sky)[0, 1])
