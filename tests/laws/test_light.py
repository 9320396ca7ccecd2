"""What light must keep to, whatever the numbers: no energy is made, more stuff lets less through, deeper is darker."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tidestead.core.errors import ImpossibleInput
from tidestead.physics import optics
from tidestead.physics.light import attenuation, lamps, photons
from tidestead.physics.light.lamps import LampLight
from tidestead.physics.optics import PlatePile

ANGLE = st.floats(0.0, math.pi / 2.0)
PILE = st.builds(PlatePile, st.integers(1, 6), st.floats(1.05, 2.5), st.floats(0.0, 0.6))


@given(ANGLE, PILE)
def test_what_comes_goes_through_back_or_stays(angle: float, pile: PlatePile) -> None:
    through, back = optics.pile_transmittance(angle, pile), optics.pile_reflectance(angle, pile)
    kept = optics.pile_absorptance(angle, pile)
    assert through + back + kept == pytest.approx(1.0)
    assert min(through, back, kept) >= -1e-9


@given(ANGLE, PILE)
def test_more_plates_or_darker_ones_let_less_through(angle: float, pile: PlatePile) -> None:
    through = optics.pile_transmittance(angle, pile)
    assert optics.pile_transmittance(angle, replace(pile, walls=pile.walls + 1)) <= through + 1e-12
    darker = replace(pile, absorbed=min(1.0, pile.absorbed + 0.1))
    assert optics.pile_transmittance(angle, darker) <= through + 1e-12


@given(st.floats(0.001, 1.57), PILE)
def test_the_same_pile_by_a_system_of_equations(angle: float, pile: PlatePile) -> None:
    """Flows to and fro in every gap as unknowns, one way of swinging after the other, solved at once."""
    bent = math.asin(math.sin(angle) / pile.index)
    left = (1.0 - pile.absorbed) ** (1.0 / math.cos(bent))
    found = []
    for once in _ways(angle, bent):
        through = left * (1.0 - once) ** 2 / (1.0 - (once * left) ** 2)
        back = once * (1.0 + left * through)
        found.append(_solved(through, back, pile.walls))
    assert optics.pile_transmittance(angle, pile) == pytest.approx(
        sum(one[0] for one in found) / 2.0, abs=1e-9
    )
    assert optics.pile_reflectance(angle, pile) == pytest.approx(sum(one[1] for one in found) / 2.0, abs=1e-9)


def _ways(angle: float, bent: float) -> tuple[float, float]:
    """Fresnel's equations in sines and tangents."""
    across = (math.sin(angle - bent) / math.sin(angle + bent)) ** 2
    along = (math.tan(angle - bent) / math.tan(angle + bent)) ** 2
    return across, along


def _solved(through: float, back: float, walls: int) -> tuple[float, float]:
    """Down- and upward flows over and under every plate: unknowns d0 (given as 1) .. dN, u0 .. uN (uN is 0)."""
    size = 2 * walls
    matrix, right = np.zeros((size, size)), np.zeros(size)
    for plate in range(walls):
        # d[plate + 1] = through*d[plate] + back*u[plate + 1]; u[plate] = back*d[plate] + through*u[plate + 1]
        down, up = plate, walls + plate
        matrix[down, plate] = 1.0
        matrix[up, walls + plate] = 1.0
        if plate:
            matrix[down, plate - 1] = -through
            matrix[up, plate - 1] = -back
        else:
            right[down], right[up] = through, back
        if plate + 1 < walls:
            matrix[down, walls + plate + 1] = -back
            matrix[up, walls + plate + 1] = -through
    flows = np.linalg.solve(matrix, right)
    return float(flows[walls - 1]), float(flows[walls])


@given(st.integers(1, 5), st.floats(1.3, 1.7), st.floats(0.2, 1.0), ANGLE)
def test_a_sheet_lets_through_what_its_maker_prints_and_no_more(
    walls: int, index: float, printed: float, angle: float
) -> None:
    assert float(optics.sheet_transmittance(0.0, walls, index, printed)) == pytest.approx(printed, rel=1e-6)
    share = float(optics.sheet_transmittance(angle, walls, index, printed))
    assert -1e-9 <= share <= printed * 1.08


@given(st.floats(0.0, 1.55), st.floats(0.0, 3.0), st.floats(0.0, 3.0), st.floats(0.0, 2.0))
def test_deeper_is_darker(angle: float, depth: float, more: float, rate: float) -> None:
    share = attenuation.sun_under_water(angle, depth, rate)
    assert attenuation.sun_under_water(angle, depth + more, rate) <= share + 1e-12
    assert 0.0 <= share <= 0.98
    straight = (1.0 - optics.fresnel_reflectance(0.0, 1.34)) * attenuation.straight_share(depth, rate)
    assert share <= straight + 1e-12


@given(
    st.floats(0.05, 2.0),
    st.floats(100.0, 2000.0),
    st.lists(st.floats(0.05, 2.5), min_size=2, max_size=6, unique=True),
)
def test_readings_of_a_clean_decay_give_it_back(rate: float, surface: float, depths: list[float]) -> None:
    if max(depths) - min(depths) < 0.01:
        return
    fit = attenuation.fitted_rate(depths, [surface * math.exp(-rate * depth) for depth in depths])
    assert fit.rate == pytest.approx(rate, rel=1e-4, abs=1e-6)
    assert fit.surface == pytest.approx(surface, rel=1e-4)
    assert fit.error > 0.0


@given(
    st.floats(0.0, 5000.0),
    st.floats(0.5, 4.0),
    st.floats(0.05, 1.0),
    st.floats(0.1, 20.0),
    st.floats(1.0, 24.0),
)
def test_lamps_give_back_the_power_they_were_asked_for(
    power: float, efficacy: float, reaches: float, area: float, hours: float
) -> None:
    lamp = LampLight(efficacy, reaches, area, 0.8)
    given_light = photons.daily_light(lamps.lamp_flow(power, lamp) * hours / 24.0)
    assert lamps.lamp_power(given_light, lamp, hours) == pytest.approx(power, abs=1e-9)
    assert 0.0 <= lamps.lamp_heat_in_water(power, efficacy, reaches) <= power


def test_what_nature_does_not_have_is_refused() -> None:
    for call in (
        lambda: optics.fresnel_reflectance(-0.1, 1.5),
        lambda: optics.fresnel_reflectance(0.1, 1.0),
        lambda: optics.refraction_angle(2.0, 1.5),
        lambda: PlatePile(0, 1.5),
        lambda: PlatePile(1, 1.5, 1.5),
        lambda: optics.fitted_pile(2, 1.5, 1.2),
        lambda: photons.photon_flow(-1.0),
        lambda: attenuation.straight_share(-1.0, 0.2),
        lambda: lamps.lamp_power(1.0, LampLight(2.0, 0.7, 1.0), 0.0),
    ):
        with pytest.raises(ImpossibleInput):
            call()
