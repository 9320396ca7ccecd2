"""Real years from the PVGIS service of the European Commission, by the client in pvlib. Asked once, never waited for.

The hours of real years hold no humidity there. A typical year of the same place does: how far its dew point lies under
the temperature, by month and hour, is taken over.
"""

from __future__ import annotations

from datetime import date
from typing import Any

import numpy as np

from tidestead.core.dims import Array, Degree
from tidestead.core.errors import WeatherError
from tidestead.intake.air import dew_point
from tidestead.intake.hours import Flags, Whole
from tidestead.intake.kept import Fetched, first_hour_of
from tidestead.intake.rows import no_weather_in

WAIT = 30
"""Seconds that the service may be silent."""
_NAME = "PVGIS"
_ADVICE = (
    "It is asked for again next time. Until then name a weather file beside the plan, or type monthly figures under "
    "weather, normals."
)
_SHAPE = "The service answered with something that is not laid out as it should be"


def fetch(latitude: Degree, longitude: Degree, years: tuple[int, int]) -> Fetched:
    """The hours of these years. Raises a WeatherError with one clear sentence, whatever goes wrong."""
    try:
        from pvlib import iotools  # noqa: PLC0415 - takes most of a second, and only when years are fetched

        series, about = iotools.get_pvgis_hourly(
            latitude, longitude, start=years[0], end=years[1], components=True, surface_tilt=0, timeout=WAIT
        )
        typical, _ = iotools.get_pvgis_tmy(latitude, longitude, timeout=WAIT)
    except (
        OSError,
        ImportError,
        ValueError,
        LookupError,
        TypeError,
        AttributeError,
        ArithmeticError,
    ) as error:
        raise no_weather_in(_NAME, _why(error), _ADVICE) from error
    try:
        return _fetched((latitude, longitude), years, series, typical, about)
    except WeatherError:
        raise
    except (ValueError, LookupError, TypeError, AttributeError, ArithmeticError) as error:
        raise no_weather_in(_NAME, f"{_SHAPE} ({type(error).__name__}).", _ADVICE) from error


def _fetched(
    place: tuple[float, float], years: tuple[int, int], series: Any, typical: Any, about: Any
) -> Fetched:
    stamps = np.asarray(series.index.as_unit("s").asi8, dtype=np.int64) // 60
    begins = first_hour_of(years[0])
    number = first_hour_of(years[1] + 1) - begins
    at = stamps // 60 - begins
    inside = (at >= 0) & (at < number)
    if int(inside.sum()) < number // 2:
        raise no_weather_in(
            _NAME, f"The service has too few hours of {years[0]} to {years[1]}.", "Ask for others."
        )
    late = float(np.median(stamps % 60)) / 60.0 - 0.5
    columns = {
        "beam_level": _on_grid(series["poa_direct"], at, inside, number),
        "diffuse": _on_grid(series["poa_sky_diffuse"] + series["poa_ground_diffuse"], at, inside, number),
        "temp_c": _on_grid(series["temp_air"], at, inside, number),
        "wind": _on_grid(series["wind_speed"], at, inside, number),
    }
    depression, pressure = _typical(typical)
    inputs = about["inputs"]
    height = inputs.get("location", inputs).get("elevation", 0.0)
    database = str(inputs.get("meteo_data", {}).get("radiation_db", "") or "PVGIS")[:40]
    today = date.today().isoformat()
    return Fetched(*place, float(height), database, today, begins, late, columns, depression, pressure)


def _on_grid(values: Any, at: Whole, inside: Flags, number: int) -> Array:
    grid = np.full(number, np.nan)
    grid[at[inside]] = np.asarray(values, dtype=float)[inside]
    return grid


def _typical(typical: Any) -> tuple[Array, Array]:
    """Dew-point depression by month and hour of UTC, K, and pressure by month, Pa."""
    temp_c = np.asarray(typical["temp_air"], dtype=float)
    humidity = np.asarray(typical["relative_humidity"], dtype=float) / 100.0
    month, hour = np.asarray(typical.index.month) - 1, np.asarray(typical.index.hour)
    under = np.maximum(temp_c - dew_point(temp_c, np.clip(humidity, 0.01, 1.0)), 0.0)
    number = np.bincount(month * 24 + hour, minlength=288)
    if not (number > 0).all() or not np.isfinite(under).all():
        raise no_weather_in(
            _NAME, "The typical year of the service, which holds the humidity, is not whole.", _ADVICE
        )
    depression = np.bincount(month * 24 + hour, under, 288) / number
    pressure = np.bincount(month, np.asarray(typical["pressure"], dtype=float), 12) / np.bincount(
        month, minlength=12
    )
    return depression.reshape(12, 24), pressure


def _why(error: Exception) -> str:
    """What went wrong, for people."""
    kind = type(error).__name__
    if isinstance(error, ImportError):
        return "pvlib, which knows how to ask the service, is not installed."
    if "Timeout" in kind or isinstance(error, TimeoutError):
        return f"The service did not answer within {WAIT} seconds."
    if kind == "HTTPError":
        return f'The service refused: "{" ".join(str(error).split())[:160]}".'
    if isinstance(error, OSError):
        return "The service cannot be reached from here: no network, or it is down."
    return f"{_SHAPE} ({kind})."
