"""Pressure under feet of any outline against print."""

from __future__ import annotations

import numpy as np
import pytest

from tests.published.case import Case
from tidestead.core.errors import ImpossibleInput
from tidestead.physics.structure.footings import foot_pressure

MIDDLE_THIRD = "elementary strength of materials, the middle third of a rectangular foot"
ROARK = "W. Young and R. Budynas, Roark's Formulas for Stress and Strain, solid circle that cannot be pulled"

SQUARE = np.array([[0.0, 0.0], [1.0, 0.0], [1.0, 1.0], [0.0, 1.0]])
ANGLES = 2.0 * np.pi * np.arange(720) / 720
ROUND = np.column_stack((np.cos(ANGLES), np.sin(ANGLES)))


def _foot(name: str, off: float, printed: float, to: float, **more: object) -> Case:
    given = {"load": 1.0, "eccentricity": off, "outline": SQUARE} | more
    source, place = MIDDLE_THIRD, "p = N/A*(1 + 6e/B), 2N/(3L(B/2 - e))"
    if "outline" in more:
        source, place = ROARK, "table of k by M/(P*R)"
    return Case(
        name, foot_pressure, given, printed, to, source, place, "recalled", pick=lambda foot: foot.peak
    )


CASES = [
    _foot("square, load over the middle", 0.0, 1.0, 1e-9),
    _foot("square, a tenth off", 0.1, 1.6, 1e-9),
    _foot("square, at the middle third's edge", 1.0 / 6.0, 2.0, 1e-9),
    _foot("square, past the middle third", 0.3, 3.333, 0.0005),
    _foot("round, a quarter of the radius off", 0.25, 2.00, 0.005, outline=ROUND, load=np.pi),
    _foot("round, 0.45 of the radius off", 0.45, 3.11, 0.005, outline=ROUND, load=np.pi),
]


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_printed_value(case: Case) -> None:
    assert case.holds()


@pytest.mark.parametrize("sides", [3, 5, 8, 12])
@pytest.mark.parametrize("share", [0.1, 0.35, 0.6, 0.8])
def test_pressure_balances_its_load(sides: int, share: float) -> None:
    """Summed over a fine grid, what presses is the load and acts where the load does."""
    angles = 2.0 * np.pi * np.arange(sides) / sides
    outline = np.column_stack((np.cos(angles), np.sin(angles)))
    off = share * float(outline[:, 0].max())
    foot = foot_pressure(5.0, off, outline)
    x, y = np.meshgrid(np.linspace(-1.0, 1.0, 1501), np.linspace(-1.0, 1.0, 1501))
    inside = np.ones_like(x, dtype=bool)
    for (ax, ay), (bx, by) in zip(outline, np.roll(outline, -1, axis=0), strict=True):
        inside &= (bx - ax) * (y - ay) - (by - ay) * (x - ax) >= 0.0
    far = float(outline[:, 0].max())
    slope = (foot.peak - foot.least) / foot.contact
    pressure = np.where(inside & (x > far - foot.contact), foot.peak - slope * (far - x), 0.0)
    cell = (2.0 / 1500) ** 2
    assert pressure.sum() * cell == pytest.approx(5.0, rel=5e-3)
    assert (pressure * x).sum() * cell == pytest.approx(5.0 * off, rel=1e-2)


def test_foot_that_tips_and_feet_that_are_none() -> None:
    assert foot_pressure(1.0, 0.5, SQUARE).peak == float("inf")
    assert foot_pressure(1.0, 0.49, SQUARE[::-1]).peak == pytest.approx(2.0 / (3.0 * 0.01), rel=1e-6)
    for outline in (SQUARE[:2], SQUARE[:, :1], np.zeros((4, 2))):
        with pytest.raises(ImpossibleInput, match="foot"):
            foot_pressure(1.0, 0.1, outline)
