"""The mean light round a lamp in a tube, summed ring by ring."""

from __future__ import annotations

import math

import numpy as np
import pytest

from tidestead.physics.uv import tube_intensity


@pytest.mark.parametrize("sleeve", [0.008, 0.014, 0.03])
@pytest.mark.parametrize("tube", [0.04, 0.0625])
def test_light_of_a_tube_is_the_sum_over_its_rings(sleeve: float, tube: float) -> None:
    """P/(2*pi*x*L) in each ring of 2*pi*x*L*dx."""
    power, length = 35.0, 0.9
    places = np.linspace(sleeve, tube, 4001)
    at = power / (2.0 * math.pi * places * length)
    rings = 2.0 * math.pi * places * length
    volume = math.pi * (tube**2 - sleeve**2) * length
    mean = np.trapezoid(at * rings, places) / volume
    assert tube_intensity(power, tube - sleeve, volume) == pytest.approx(float(mean), rel=1e-9)
