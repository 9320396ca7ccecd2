"""Calibration of the film beside sums over a grid of all constants, and its interval beside the grid's shares."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest
from scipy.stats import norm

from tests.laws.film_logs import logged
from tidestead.core.dims import Array
from tidestead.physics.film import Cleaning, Setting, calibrated, safe_between

BOUNDS, EYE, SPREAD = (0.075, 0.30), 0.07, 0.5


def logarithm_of_chance(log_: list[Cleaning], wait: Array, time: Array) -> Array:
    """Of the log and the first guess (1.5 d, 4 d), over a grid; shape 1.5."""
    total = -0.5 * ((np.log(wait / 1.5) / SPREAD) ** 2 + (np.log(time / 4.0) / SPREAD) ** 2)
    edges = {"clean": (-np.inf, BOUNDS[0]), "some": BOUNDS, "many": (BOUNDS[1], np.inf)}
    for one in log_:
        clear = np.ones_like(total)
        for age in (one.age, *one.before):
            clear *= np.exp(-((np.clip(age - wait, 0.0, None) / time) ** 1.5))
        low, high = edges[one.seen]
        chance = norm.cdf((high - (1.0 - clear)) / EYE) - norm.cdf((low - (1.0 - clear)) / EYE)
        total += np.log(np.maximum(chance, 1e-9))
    return np.asarray(total)


@pytest.mark.parametrize("count", [0, 6, 40])
def test_constants_are_the_likeliest_of_a_grid(count: int) -> None:
    log_ = logged(Setting(2.0, 5.0), count, seed=3)
    found = calibrated(log_).setting
    waits, times = found.wait * np.linspace(0.7, 1.4, 281), found.time * np.linspace(0.7, 1.4, 281)
    wait, time = np.meshgrid(waits, times, indexing="ij")
    row, column = np.unravel_index(np.argmax(logarithm_of_chance(log_, wait, time)), wait.shape)
    assert found.wait == pytest.approx(waits[row], rel=0.003)
    assert found.time == pytest.approx(times[column], rel=0.003)


def test_interval_of_the_last_safe_day_holds_nine_tenths_of_the_grid() -> None:
    log_ = logged(Setting(2.0, 5.0), 150, seed=5)
    found = calibrated(log_)
    waits, times = (
        np.exp(np.linspace(np.log(low), np.log(high), 260)) for low, high in ((1.0, 3.5), (3.0, 8.0))
    )
    wait, time = np.meshgrid(waits, times, indexing="ij")
    weight = logarithm_of_chance(log_, wait, time)
    weight = np.exp(weight - weight.max())
    day = wait + time * (-np.log(1.0 - 0.15)) ** (1.0 / 1.5)
    order = np.argsort(day.ravel())
    share = np.cumsum(weight.ravel()[order]) / weight.sum()
    meant = [float(day.ravel()[order][np.searchsorted(share, at)]) for at in (0.05, 0.95)]
    for ours, theirs in zip(safe_between(found, 0.15), meant, strict=True):
        assert ours == pytest.approx(theirs, rel=0.01)
    assert all(one < other for one, other in pairwise(meant))
