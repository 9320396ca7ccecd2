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


def is_far(place: tuple[float, float], station: Station) -> bool:
    """Whether a source is of another place than the site: more than two degrees off, or on the other half."""
    return _apart(place, station) > _FAR


def _apart(place: tuple[float, float], station: Station) -> float:
    """Degrees of latitude, or of as long a way east or west; none where a source does not say."""
    if station.latitude is None or station.longitude is None:
        return 0.0
    across = abs((station.longitude - place[1] + 180.0) % 360.0 - 180.0)
    return max(abs(station.latitude - place[0]), across * math.cos(math.radians(place[0])))


def _compare_places(place: tuple[float, float], station: Station, notes: Notes) -> None:
    if not is_far(place, station):
        return
    latitude, longitude = place
    there = f"latitude {station.latitude:g}, longitude {station.longitude:g}"
    here = f"your site has {latitude:g}, {longitude:g}"
    half = ", on the other half of the earth" if (station.latitude or 0.0) * latitude < 0.0 else ""
    notes.say(
        f"The weather is of another place{half}: {there}; {here}; north and east are positive. Its hours are taken by "
        "the sun's time there, to the nearest hour; the sun's path is that of your site."
    )


def _compare_parts(years: tuple[WeatherYear, ...], sun: SunPath, notes: Notes) -> None:
    """Direct and diffuse sun against the total."""
    height = np.where(sun.up > 0.0, np.cos(sun.zenith_rad), 0.0)
    whole = sum(float(year.total.sum()) for year in years)
    made = sum(float((year.beam * height + year.diffuse).sum()) for year in years)
    if whole > 0.0 and abs(made / whole - 1.0) > _UNLIKE:
        notes.say(
            f"Direct and diffuse sun of this weather make {100.0 * made / whole:.0f} % of its total at your site: "
            "look at the place, the clock and the units."
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
