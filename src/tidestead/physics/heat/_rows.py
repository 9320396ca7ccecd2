"""A year of weather as the engine takes it: nine rows of hours, the sky filled in, the ground under it. Compiled."""

from __future__ import annotations

import numpy as np

from tidestead.core.compiled import compiled
from tidestead.core.dims import Array
from tidestead.core.weather import HOURS, WeatherYear
from tidestead.physics import _air_laws, _sky_laws
from tidestead.physics.heat._hour import GROUND_ROW, HUMIDITY_ROW, SKY_ROW, TEMP_ROW, TOTAL_ROW

saturation = compiled(_air_laws.saturation_pressure)
dew_point = compiled(_air_laws.dew_point)
emissivity = compiled(_sky_laws.sky_emissivity_clark)
longwave = compiled(_sky_laws.sky_longwave)

_CLEAR, _DULL = 0.75, 0.20
"""Share of the sun above the air that reaches the ground in a day under a clear and under a closed sky. Common
practice, no source."""

_MONTH = 30 * 24
DEEP = 0.5
"""Share of the year's mean in the temperature of the ground; the rest follows the last thirty days. Own choice."""


@compiled
def fill_sky(rows: Array, top: Array) -> None:
    """Longwave from the sky where it was not measured, by dew point and a cloud that the day's sun tells."""
    for day in range(rows.shape[1] // 24):
        sun, above = 0.0, 0.0
        for at in range(24 * day, 24 * day + 24):
            sun += rows[TOTAL_ROW, at]
            above += top[at]
        clear = sun / above if above > 24.0 else 0.5
        cloud = 10.0 * min(max((_CLEAR - clear) / (_CLEAR - _DULL), 0.0), 1.0)
        for at in range(24 * day, 24 * day + 24):
            if not rows[SKY_ROW, at] > 0.0:
                dew = dew_point(max(rows[HUMIDITY_ROW, at], 0.01) * saturation(rows[TEMP_ROW, at]))
                rows[SKY_ROW, at] = longwave(emissivity(dew, cloud), rows[TEMP_ROW, at])


@compiled
def fill_ground(rows: Array) -> None:
    """The ground as a blend of the year's mean and that of the thirty days before."""
    hours = rows.shape[1]
    mean = 0.0
    for at in range(hours):
        mean += rows[TEMP_ROW, at] / hours
    month = 0.0
    for at in range(hours - _MONTH, hours):
        month += rows[TEMP_ROW, at] / _MONTH
    for at in range(hours):
        month += (rows[TEMP_ROW, at] - rows[TEMP_ROW, at - _MONTH]) / _MONTH
        rows[GROUND_ROW, at] = DEEP * mean + (1.0 - DEEP) * month


def rows_of(year: WeatherYear, top: Array) -> Array:
    """A year of weather as rows; (9, 8760). `top` as of the sun's path."""
    rows = np.empty((9, HOURS))
    rows[:8] = year.columns
    return finished(rows, top)


def finished(rows: Array, top: Array) -> Array:
    """Rows with sky and ground filled in, in place."""
    fill_sky(rows, np.asarray(top, dtype=np.float64))
    fill_ground(rows)
    return rows
