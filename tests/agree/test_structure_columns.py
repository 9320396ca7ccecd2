"""Column factors against what they stand for: a bowed strut whose worst fibre reaches its strength."""

from __future__ import annotations

import math

import pytest
from scipy.optimize import brentq

from tidestead.physics.structure import eurocode, nds_columns


@pytest.mark.parametrize("glulam", [False, True])
@pytest.mark.parametrize("slenderness", [0.35, 0.6, 1.0, 1.5, 2.2, 3.0])
def test_eurocode_column_is_a_bowed_strut(slenderness: float, glulam: bool) -> None:
    """Second order: the bow grows by 1/(1 - p*l**2), p the pressure over the strength."""
    bow = (0.1 if glulam else 0.2) * (slenderness - 0.3)

    def spare(pressure: float) -> float:
        return 1.0 - pressure - bow * pressure / (1.0 - pressure * slenderness**2)

    most = min(1.0, 1.0 / slenderness**2) * (1 - 1e-12)
    expected = brentq(spare, 1e-9, most, xtol=1e-14)
    assert eurocode.column_factor(slenderness, glulam) == pytest.approx(expected, rel=1e-9)


@pytest.mark.parametrize("ratio", [0.05, 0.3, 1.0, 3.0, 30.0])
def test_american_column_solves_its_parabola(ratio: float) -> None:
    """Ylinen: c*C**2 - (1 + r)*C + r = 0, whose lesser root lies below one and below r."""
    factor = nds_columns.column_stability_factor(1e6, ratio * 1e6)
    assert 0.8 * factor**2 - (1 + ratio) * factor + ratio == pytest.approx(0.0, abs=1e-9 * (1 + ratio))
    assert factor < min(1.0, ratio)


def test_a_slender_timber_buckles_as_euler_says() -> None:
    """Far out both rules come near pi**2*E/lambda**2 on the modulus they use."""
    length, depth, modulus = 4.0, 0.1, 7.4e9
    relative = eurocode.relative_slenderness(length, depth, 21e6, modulus)
    euler = math.pi**2 * modulus / (length * math.sqrt(12) / depth) ** 2
    assert 21e6 / relative**2 == pytest.approx(euler, rel=1e-12)
    assert 0.8 * euler < eurocode.column_factor(relative) * 21e6 < euler
