"""Moist air against psychrolib, and seawater's vapour against TEOS-10 (gsw)."""

from __future__ import annotations

import gsw
import numpy as np
import psychrolib
import pytest

from tests.arrays import broadcast
from tidestead.physics import air
from tidestead.physics.heat import evaporation

psychrolib.SetUnitSystem(psychrolib.SI)

TEMPS = [-40.0, -15.0, -0.5, 0.5, 5.0, 15.0, 24.0, 31.0, 55.0]
WET = [0.05, 0.3, 0.65, 1.0]
PLACES = [101325.0, 84560.0]


@pytest.mark.parametrize("temp_c", TEMPS)
def test_saturation(temp_c: float) -> None:
    theirs = psychrolib.GetSatVapPres(temp_c)
    assert air.saturation_pressure(temp_c) == pytest.approx(theirs, rel=1e-12)


@pytest.mark.parametrize("temp_c", TEMPS)
def test_slope(temp_c: float) -> None:
    """Theirs by a difference over 0.02 K."""
    theirs = (psychrolib.GetSatVapPres(temp_c + 0.01) - psychrolib.GetSatVapPres(temp_c - 0.01)) / 0.02
    assert air.saturation_slope(temp_c) == pytest.approx(theirs, rel=1e-6)


@pytest.mark.parametrize("temp_c", TEMPS)
@pytest.mark.parametrize("wet", WET)
def test_humidity_and_back(temp_c: float, wet: float) -> None:
    vapour = psychrolib.GetVapPresFromRelHum(temp_c, wet)
    assert air.vapour_of_humidity(temp_c, wet) == pytest.approx(vapour, rel=1e-12)
    assert air.relative_humidity(temp_c, vapour) == pytest.approx(wet, rel=1e-12)


@pytest.mark.parametrize("temp_c", TEMPS)
@pytest.mark.parametrize("wet", WET)
def test_dew_point(temp_c: float, wet: float) -> None:
    """Theirs stops within 0.001 K."""
    vapour = psychrolib.GetVapPresFromRelHum(temp_c, wet)
    theirs = psychrolib.GetTDewPointFromVapPres(temp_c, vapour)
    assert air.dew_point(vapour) == pytest.approx(theirs, abs=0.002)


@pytest.mark.parametrize("temp_c", [5.0, 24.0, 40.0])
@pytest.mark.parametrize("wet", WET)
@pytest.mark.parametrize("pressure", PLACES)
def test_mixtures(temp_c: float, wet: float, pressure: float) -> None:
    vapour = psychrolib.GetVapPresFromRelHum(temp_c, wet)
    ratio = psychrolib.GetHumRatioFromVapPres(vapour, pressure)
    assert air.humidity_ratio(vapour, pressure) == pytest.approx(ratio, rel=1e-12)
    assert air.vapour_of_ratio(ratio, pressure) == pytest.approx(vapour, rel=1e-12)
    volume = psychrolib.GetMoistAirVolume(temp_c, ratio, pressure)
    assert air.dry_air_density(temp_c, vapour, pressure) == pytest.approx(1.0 / volume, rel=1e-5)


@pytest.mark.parametrize("temp_c", [1.0, 10.0, 25.0, 40.0])
def test_latent_heat_by_clapeyron(temp_c: float) -> None:
    """L = T*(v_gas - v_water)*dp/dT with an ideal gas: within half a percent, as far as vapour is ideal."""
    T = temp_c + 273.15
    pressure = psychrolib.GetSatVapPres(temp_c - 0.01)
    slope = (psychrolib.GetSatVapPres(temp_c + 0.01) - pressure) / 0.02
    theirs = T * (461.52 * T / pressure - 0.001) * slope
    assert air.latent_heat(temp_c) == pytest.approx(theirs, rel=5e-3)


@pytest.mark.parametrize("temp_c", [0.0, 20.0, 28.0, 40.0])
@pytest.mark.parametrize("sal_psu", [0.0, 35.0])
def test_latent_heat_by_the_seawater_library(temp_c: float, sal_psu: float) -> None:
    """TEOS-10's polynomial lies 0.07 to 0.14 % below the steam tables; the salt of the sea hardly counts."""
    theirs = gsw.latentheat_evap_t(gsw.SR_from_SP(sal_psu), temp_c)
    assert 0.0005 < air.latent_heat(temp_c) / float(theirs) - 1.0 < 0.0016


@pytest.mark.parametrize("temp_c", [5.0, 15.0, 25.0])
@pytest.mark.parametrize("sal_psu", [10.0, 35.0])
def test_activity_of_salt_water(sal_psu: float, temp_c: float) -> None:
    salt = gsw.SR_from_SP(sal_psu)
    potential = gsw.chem_potential_water_t_exact(salt, temp_c, 0.0) * 1000.0
    pure = gsw.chem_potential_water_t_exact(1e-9, temp_c, 0.0) * 1000.0
    theirs = float(np.exp((potential - pure) / (461.52 * (temp_c + 273.15))))
    assert evaporation.water_activity(sal_psu, temp_c) == pytest.approx(theirs, abs=4e-4)
    over = evaporation.vapour_over(sal_psu, temp_c)
    assert over == pytest.approx(theirs * psychrolib.GetSatVapPres(temp_c), rel=4e-4)


def test_arrays_run_through() -> None:
    temps = np.array([[5.0, 24.0], [15.0, -10.0]])
    theirs = [[psychrolib.GetSatVapPres(temp) for temp in row] for row in temps.tolist()]
    ours = air.saturation_pressure(broadcast(temps))
    assert np.asarray(ours) == pytest.approx(np.array(theirs), rel=1e-12)
