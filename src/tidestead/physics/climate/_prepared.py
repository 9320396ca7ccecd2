"""What a climate is before chance comes in: figures of months and of hours, from normals and the sun's path."""

from __future__ import annotations

from statistics import NormalDist
from typing import cast

import numpy as np

from tidestead.core.dims import Array
from tidestead.core.weather import HOURS, MONTH_OF_HOUR, Normals, SunPath
from tidestead.physics import _air_laws, _sky_laws
from tidestead.physics.climate import _kernel, _laws
from tidestead.physics.climate.clearness import day_shape
from tidestead.physics.climate.temperature import (
    daily_wave,
    month_position,
    swing_of_clearness,
    through_months,
)

_DULL, _BRIGHT = 0.30, 0.75
"""Mean clearness that the spread of days is made for. Source: Bendt and others (1981); darker or brighter months
take the shape of the nearest and are scaled."""

_DARK = 0.5
"""Sun above the air, W/m2, mean of a month, below which there is no sun to speak of."""

_TWILIGHT = 10.0
_HALVINGS = 32
_DRIEST = 60.0
_LEAST_SWING, _MOST_SWING = 2.0, 18.0
"""Clear sun of a day that tells nothing of cloud, W/m2; depression of the dew point at most, K; swing, K."""

_WARM = (0.6, 0.06)
_COLD = (0.7, 0.08, 1.9)
_SEASONS = 9.0
"""Spread of days, K: in the warm season a + b*R, in the cold one a + b*R + c*min(1, R/9 K), R from the coldest to the
warmest month. Common practice, no source: by eye to typical years of three stations, Alaska to Florida."""

_CLEARS = [NormalDist().inv_cdf((place + 0.5) / 9.0) for place in range(9)]
_OTHERS = [NormalDist().inv_cdf((place + 0.5) / 5.0) for place in range(5)]
"""Nine days from dull to clear, and five of other chance, that stand for all."""


def hour_rows(normals: Normals, sun: SunPath, months: Array) -> Array:
    """Rows for each hour, in the order of the maker's columns; `months` as `month_rows` gives them."""
    base = through_months(np.array(normals.temp_c))
    position = month_position()
    spread, cold = _seasons(base, np.array(normals.temp_c))
    swings = np.interp(
        position, np.arange(-1, 14), np.take(_swings(normals, months), np.arange(-1, 14), mode="wrap")
    )
    noon = _noons(sun.top)
    since: Array = np.arange(HOURS).astype(np.float64) + 0.5 - np.repeat(noon, 24)
    shape = np.empty(HOURS)
    for day in range(HOURS // 24):
        part = slice(24 * day, 24 * day + 24)
        shape[part] = day_shape(since[part] % 24.0, sun.top[part], float(sun.up[part].sum()))
    clear = (clear_hours(sun) * sun.up).reshape(-1, 24).mean(axis=1)
    clear = np.repeat(np.where(clear < _TWILIGHT, 0.0, clear), 24)
    wave = _wave(since + 12.0).reshape(-1, 24)
    wave = (wave - wave.mean(axis=1, keepdims=True)).ravel()
    return np.array(
        [base, spread, cold, swings * wave, position, np.cos(sun.zenith_rad), sun.top, shape, clear]
    )


def clear_hours(sun: SunPath) -> Array:
    """Sun on level ground under a clear sky while the sun is up, W/m2."""
    return np.array([_sky_laws.clear_sun(cosine) for cosine in np.cos(sun.zenith_rad).tolist()])


def month_rows(normals: Normals, sun: SunPath) -> Array:
    """A row for each month: mean clearness, clearest day, steepness, scale, depression of the dew point, wind."""
    days = np.bincount(MONTH_OF_HOUR)
    top = np.bincount(MONTH_OF_HOUR, weights=sun.top) / days
    rows = np.zeros((12, 6))
    for month in range(12):
        mean = normals.sun[month] / top[month] if top[month] > _DARK else 0.0
        inside = min(max(mean, _DULL), _BRIGHT)
        highest = _laws.highest_clearness(inside)
        steep = _laws.steepness(inside, highest)
        rows[month, :4] = mean, highest, steep, mean / _laws.mean_of_days(highest, steep)
    swings = _swings(normals, rows)
    for month in range(12):
        wanted = normals.temp_c[month], swings[month], normals.humidity[month]
        rows[month, 4] = _depression(rows[month, 1], rows[month, 2], wanted)
        rows[month, 5] = normals.wind[month]
    return rows


def _swings(normals: Normals, months: Array) -> Array:
    """From the coldest to the warmest hour of a mean day, K, for each month."""
    if normals.swing is not None:
        return np.array(normals.swing, dtype=float)
    return np.clip([swing_of_clearness(mean) for mean in months[:, 0]], _LEAST_SWING, _MOST_SWING)


def _seasons(base: Array, temp_c: Array) -> tuple[Array, Array]:
    """Spread of daily means, K, and how far the season is the cold one, -1 to 1, for each hour."""
    span = float(np.ptp(temp_c))
    strength = min(1.0, span / _SEASONS)
    middle = 0.5 * (temp_c.max() + temp_c.min())
    season = np.clip((middle - base) / (0.5 * span), -1.0, 1.0) if span > 0.0 else np.zeros(HOURS)
    warm = _WARM[0] + _WARM[1] * span
    cold = _COLD[0] + _COLD[1] * span + _COLD[2] * strength
    return warm + (cold - warm) * 0.5 * (season + 1.0), season * strength


def _wave(hours: Array) -> Array:
    """Temperature of a mean day off its mean, for each kelvin of swing."""
    return cast(Array, daily_wave(cast(float, hours % 24.0)))


def _noons(top: Array) -> Array:
    """Clock hour of the sun's highest stand, for each day; days without sun as the year's middle one."""
    turn = 2.0 * np.pi * (np.arange(HOURS) + 0.5) / 24.0
    east = (top * np.sin(turn)).reshape(-1, 24).sum(axis=1)
    north = (top * np.cos(turn)).reshape(-1, 24).sum(axis=1)
    dark = top.reshape(-1, 24).sum(axis=1) <= 0.0
    usual = np.arctan2(east.sum(), north.sum()) if not dark.all() else np.pi
    angle = np.where(dark, usual, np.arctan2(east, north))
    hours: Array = (angle * 24.0 / (2.0 * np.pi)) % 24.0
    return hours


def _depression(highest: float, steep: float, wanted: tuple[float, float, float]) -> float:
    """How far the dew point must lie below the air's mean, K, for the month's mean relative humidity."""
    temp_c, swing, humidity = wanted
    mean = _laws.mean_of_days(highest, steep)
    wave = _wave(np.arange(24).astype(np.float64) + 0.5)
    wave = wave - wave.mean()
    saturated, weights = [], []
    for clear in _CLEARS:
        day = _laws.clearness_at(NormalDist().cdf(clear), highest, steep) / mean
        scale = min(max(day, _kernel.CALM_SWING), _kernel.WIDE_SWING)
        hourly = [_air_laws.saturation_pressure(temp_c + swing * scale * place) for place in wave.tolist()]
        for other in _OTHERS:
            saturated.append(hourly)
            weights.append(_kernel.drier(clear, other))
    below, above = 0.0, _DRIEST
    held, heavy = np.array(saturated), np.array(weights)
    for _ in range(_HALVINGS):
        middle = 0.5 * (below + above)
        vapour = np.array(
            [_air_laws.saturation_pressure(temp_c - middle * weight) for weight in heavy.tolist()]
        )
        if np.minimum(vapour[:, None] / held, 1.0).mean() > humidity:
            below = middle
        else:
            above = middle
    return 0.5 * (below + above)
