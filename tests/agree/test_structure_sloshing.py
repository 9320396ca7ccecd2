"""Housner's box of water against the exact small waves of a frictionless liquid (linear potential theory)."""

from __future__ import annotations

import math

import pytest

from tidestead.core.dims import G
from tidestead.physics.structure import sloshing

SLENDER = [1.0, 1.5, 2.0, 3.0, 4.0]
"""Length over depth; boxes builders make."""

TERMS = 200


def _wave(along: float, depth: float, number: int) -> tuple[float, float]:
    """Wave number times depth, and share of the mass in the odd slosh `number` (Ibrahim, Liquid Sloshing)."""
    odd = 2 * number - 1
    k = odd * math.pi * depth / along
    return k, 8.0 * math.tanh(k) * along / (odd**3 * math.pi**3 * depth)


@pytest.mark.parametrize("slender", SLENDER)
def test_period_of_the_first_wave(slender: float) -> None:
    """Housner's 3.16 stands for pi: half a percent."""
    exact = 2.0 * math.pi / math.sqrt(math.pi * G / slender * math.tanh(math.pi / slender))
    assert sloshing.slosh_period(slender, 1.0) == pytest.approx(exact, rel=0.006)


@pytest.mark.parametrize("slender", SLENDER)
def test_mass_of_the_first_wave(slender: float) -> None:
    """0.264 stands for 8/pi**3 = 0.258 and 3.16 for pi: Housner is 2.3 to 2.8 % on the heavy side."""
    ratio = sloshing.convective_share(slender, 1.0) / _wave(slender, 1.0, 1)[1]
    assert 1.02 < ratio < 1.03


@pytest.mark.parametrize("slender", SLENDER)
def test_mass_that_moves_with_the_walls(slender: float) -> None:
    """What no wave takes. Housner's parabola is 6 to 11 % heavier, never lighter."""
    rigid = 1.0 - sum(_wave(slender, 1.0, number)[1] for number in range(1, TERMS))
    assert 1.06 < sloshing.impulsive_share(slender, 1.0) / rigid < 1.11


@pytest.mark.parametrize("slender", SLENDER)
def test_height_of_the_first_wave(slender: float) -> None:
    k, _ = _wave(slender, 1.0, 1)
    exact = 1.0 - (math.cosh(k) - 1.0) / (k * math.sinh(k))
    assert sloshing.convective_height(slender, 1.0) == pytest.approx(exact, rel=0.006)


@pytest.mark.parametrize("slender", SLENDER)
def test_lever_of_the_first_wave_with_the_floor(slender: float) -> None:
    k, _ = _wave(slender, 1.0, 1)
    exact = 1.0 - (math.cosh(k) - 2.0) / (k * math.sinh(k))
    assert sloshing.convective_height_with_floor(slender, 1.0) == pytest.approx(exact, rel=0.012)


@pytest.mark.parametrize("slender", SLENDER)
def test_rise_bounds_all_waves_together(slender: float) -> None:
    """Waves of all lengths, each pushed alike, raise the end wall by L/2 a/g: the steady tilt."""
    waves = sum(4.0 / (math.pi * (2 * number - 1)) ** 2 for number in range(1, 20000))
    assert sloshing.slosh_rise(slender, G) == pytest.approx(slender * waves, rel=1e-4)
