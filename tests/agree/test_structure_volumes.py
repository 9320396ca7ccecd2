"""Volumes and the push on a window against plain summing of thin slices."""

from __future__ import annotations

import math

import numpy as np
import pytest

from tests.arrays import broadcast
from tidestead.core.dims import G
from tidestead.physics.structure import hydrostatics

SLICES = 200_000


def _middles(top: float) -> np.ndarray:
    return (np.arange(SLICES) + 0.5) * top / SLICES


@pytest.mark.parametrize(("wide", "narrow", "height"), [(0.64, 0.3, 0.5), (1.0, 0.0, 0.7), (0.4, 0.4, 1.2)])
def test_cone_is_the_sum_of_its_slices(wide: float, narrow: float, height: float) -> None:
    at = _middles(height)
    across = wide + (narrow - wide) * at / height
    summed = float(np.sum(hydrostatics.round_area(broadcast(across)))) * height / SLICES
    assert hydrostatics.cone_volume(wide, narrow, height) == pytest.approx(summed, rel=1e-9)


@pytest.mark.parametrize("sides", [3, 5, 8, 12, 31])
def test_polygon_is_the_sum_of_its_triangles(sides: int) -> None:
    corner = 0.5 / math.cos(math.pi / sides)
    angles = 2.0 * math.pi * np.arange(sides) / sides
    x, y = corner * np.cos(angles), corner * np.sin(angles)
    shoelace = 0.5 * abs(float(np.sum(x * np.roll(y, -1) - y * np.roll(x, -1))))
    assert hydrostatics.polygon_area(1.0, sides) == pytest.approx(shoelace, rel=1e-12)


@pytest.mark.parametrize(("head", "height"), [(0.8, 1.2), (1.2, 1.2), (2.5, 1.2), (0.3, 0.9)])
def test_window_push_is_the_sum_of_its_slices(head: float, height: float) -> None:
    at = _middles(height)
    pressure = 1025.0 * G * np.maximum(head - at, 0.0)
    push = float(np.sum(pressure)) * height / SLICES
    moment = float(np.sum(pressure * at)) * height / SLICES
    load = hydrostatics.window_load(1025.0, head, height)
    assert load.push == pytest.approx(push, rel=1e-8)
    assert load.above == pytest.approx(moment / push, rel=1e-8)
