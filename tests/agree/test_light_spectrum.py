"""Photons of daylight against the reference spectrum that pvlib brings; water and readings against sums by hand."""

from __future__ import annotations

import math

import numpy as np
import pvlib
import pytest

from tidestead.intake.sun import sun_path
from tidestead.physics.light import attenuation, lamps, photons
from tidestead.physics.light.lamps import LampLight

PLANCK, LIGHT, AVOGADRO = 6.62607015e-34, 2.99792458e8, 6.02214076e23


def spectrum(kind: str) -> tuple[float, float, float]:
    """Power of all light and from 400 to 700 nm, W/m2, and photons of the latter, umol/(m2 s), of ASTM G173."""
    table = pvlib.spectrum.get_reference_spectra(standard="ASTM G173-03")[kind]
    length, power = table.index.to_numpy(), table.to_numpy()
    inside = (length >= 400.0) & (length <= 700.0)
    energy = PLANCK * LIGHT * AVOGADRO / (length * 1e-9)
    return (
        float(np.trapezoid(power, length)),
        float(np.trapezoid(power[inside], length[inside])),
        float(np.trapezoid((power / energy)[inside], length[inside]) * 1e6),
    )


def test_the_reference_sun_has_the_photons_we_reckon_with() -> None:
    """1000.4 W/m2, 43.0 % of it between 400 and 700 nm, 1977.9 umol: 4.602 a joule of these, 1.977 of all."""
    whole, part, flow = spectrum("global")
    assert whole == pytest.approx(1000.4, abs=0.2)
    assert part == pytest.approx(429.8, abs=0.3)
    assert flow == pytest.approx(1977.9, abs=1.5)
    assert photons.photon_flow(part, photons.OF_PAR) == pytest.approx(flow, rel=0.008)
    low, high = (photons.photon_flow(whole, k) for k in (photons.DAYLIGHT_LOW, photons.DAYLIGHT_HIGH))
    assert low * 0.998 <= flow <= high
    assert photons.photon_flow(whole) == pytest.approx(flow, rel=0.035)


def test_the_direct_beam_is_a_little_redder() -> None:
    whole, part, flow = spectrum("direct")
    assert flow / part == pytest.approx(4.629, abs=0.003)
    assert flow / whole == pytest.approx(1.928, abs=0.003)


def test_a_day_is_the_sum_of_its_hours() -> None:
    hours = np.array([max(0.0, 900.0 * math.sin(math.pi * (hour - 5.5) / 13.0)) for hour in range(24)])
    assert photons.daily_light(float(hours.mean())) == pytest.approx(float(np.sum(hours * 3600.0)) / 1e6)


@pytest.mark.parametrize("depth", [0.0, 0.5, 2.0])
def test_the_sky_under_water_by_rings(depth: float) -> None:
    """Two thousand rings of one light each."""
    angle = np.arcsin(np.sqrt((np.arange(2000) + 0.5) / 2000))
    rings = [attenuation.sun_under_water(float(one), depth, 0.25) for one in angle]
    assert attenuation.sky_under_water(depth, 0.25) == pytest.approx(float(np.mean(rings)), rel=1e-3)


def test_readings_by_polynomial_fit() -> None:
    depths, lights = (0.1, 0.5, 1.0, 1.3), (520.0, 470.0, 415.0, 390.0)
    slope, start = np.polyfit(depths, np.log(lights), 1)
    fit = attenuation.fitted_rate(depths, lights)
    assert fit.rate == pytest.approx(-slope)
    assert fit.surface == pytest.approx(math.exp(start))
    scattered = attenuation.fitted_rate(depths, (520.0, 400.0, 450.0, 300.0))
    (_, _), covariance = np.polyfit(depths, np.log((520.0, 400.0, 450.0, 300.0)), 1, cov=True)
    assert scattered.error == pytest.approx(math.sqrt(covariance[0, 0]))


def test_lamps_there_and_back() -> None:
    """The power that makes up a shortfall gives just that light."""
    lamp = LampLight(2.3, 0.75, 2.0, attenuation.straight_share(0.9, 0.2))
    power = lamps.lamp_power(2.4, lamp, 11.0)
    assert photons.daily_light(lamps.lamp_flow(power, lamp) * 11.0 / 24.0) == pytest.approx(2.4)
    assert lamps.lamp_heat_in_water(power, 2.3, 0.75) < power * 0.75


@pytest.mark.parametrize(
    ("latitude", "day", "printed"),
    [(35.0, 171, 14.51), (35.0, 354, 9.80), (35.0, 79, 12.16), (55.0, 171, 17.38), (55.0, 354, 7.17)],
)  # fmt: skip
def test_day_length_of_the_suns_path(latitude: float, day: int, printed: float) -> None:
    """Day lengths by NREL's SPA count from the sun's upper edge, the path from its middle, 0.27 degrees lower: that is
    2*0.27/15/(cos L * cos d * sin w), 0.04 to 0.1 h here."""
    hours = float(sun_path(latitude, 0.0, 0.0, 0.0).up[24 * day : 24 * day + 24].sum())
    assert 0.03 < printed - hours < 0.12
