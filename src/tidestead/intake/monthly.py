"""Twelve monthly means from the plan: whether they are enough, and what is assumed where they are silent."""

from __future__ import annotations

import numpy as np

from tidestead.core.weather import MONTH_OF_HOUR, MONTHS, Normals, SunPath
from tidestead.intake.notes import Notes
from tidestead.intake.rows import no_weather_in
from tidestead.intake.wanted import Monthly
from tidestead.intake.years import USUAL_WIND

WHERE = "weather.normals"
USUAL_HUMIDITY = 0.75
"""Where nobody said. Common practice, no source: between a dry inland summer and a wet coast."""
_CLEAREST = 0.80
"""Share of the sun outside the air that no month's mean reaches anywhere below the high mountains. Recalled."""
_DARK = 2.0
"""W/m2; under it a month is night."""


def monthly_normals(monthly: Monthly, sun: SunPath, notes: Notes) -> Normals:
    """Normals with a figure for everything. Raises a WeatherError that says what must be added."""
    temp_c, sunshine = monthly.temp_c, monthly.sun
    lost = [word for word, values in (("temperature", temp_c), ("sun", sunshine)) if values is None]
    if temp_c is None or sunshine is None:
        example = (
            'temperature = ["4 degC", ...]' if "temperature" in lost else 'sun = ["2.1 kWh/m2/day", ...]'
        )
        raise no_weather_in(
            WHERE, f"The monthly means have no {' and no '.join(lost)}.", f"Add twelve: {example}."
        )
    _compare_sun(sunshine, sun, notes)
    humidity, wind = monthly.humidity, monthly.wind
    if humidity is None:
        humidity = (USUAL_HUMIDITY,) * 12
        notes.say(
            f"The plan gives no humidity: {100.0 * USUAL_HUMIDITY:.0f} % is taken all year "
            "(common practice, no source)."
        )
    if wind is None:
        wind = (USUAL_WIND,) * 12
        notes.say(
            f"The plan gives no wind: {USUAL_WIND:g} m/s is taken all year (common practice, no source)."
        )
    if monthly.swing is None:
        notes.say("The plan gives no swing of a day: it is estimated from the sun.")
    return Normals(temp_c, sunshine, humidity, wind, monthly.swing)


def _compare_sun(sunshine: tuple[float, ...], sun: SunPath, notes: Notes) -> None:
    """No month may have more sun than reaches the top of the air there."""
    top = np.array([sun.top[month == MONTH_OF_HOUR].mean() for month in range(12)])
    given = np.asarray(sunshine)
    over = np.flatnonzero(given > top + _DARK)
    if len(over):
        month = int(over[0])
        raise no_weather_in(
            WHERE,
            f"{MONTHS[month]} has more sun ({_a_day(given[month])}) than reaches the top of the air at this latitude "
            f"({_a_day(top[month])}).",
            "Look at the unit, the order of the months, and the sign of the latitude.",
        )
    bright = np.flatnonzero(given > _CLEAREST * top + _DARK)
    if len(bright):
        names = ", ".join(MONTHS[month] for month in bright)
        notes.say(f"More sun than clear months have anywhere is given for {names}: look at the unit.")


def _a_day(watts: float) -> str:
    return f"{watts * 0.024:.1f} kWh/m2/day"
