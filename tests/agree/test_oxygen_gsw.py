"""Oxygen's saturation and vapour against the library gsw (TEOS-10), and resting fish against measured ones."""

from __future__ import annotations

import gsw
import numpy as np
import pytest

from tests.arrays import broadcast
from tidestead.physics import oxygen, seawater

SALT = [0.0, 10.0, 25.0, 35.0, 40.0]
TEMPS = [2.0, 10.0, 20.0, 26.0, 32.0]


@pytest.mark.parametrize("sal_psu", SALT)
@pytest.mark.parametrize("temp_c", TEMPS)
def test_saturation(sal_psu: float, temp_c: float) -> None:
    """The library has the fit in umol/kg, ours is the one in cm3/dm3: apart by 0.02 % at most in seawater."""
    theirs = gsw.O2sol_SP_pt(sal_psu, temp_c) * seawater.density(sal_psu, temp_c) * 1e-6
    assert oxygen.saturation(sal_psu, temp_c) == pytest.approx(float(theirs), rel=4e-4)


def test_saturation_at_the_librarys_printed_example() -> None:
    """SP, pt and umol/kg as the TEOS-10 page prints them."""
    rows = (
        (34.7118, 28.8099, 194.6825431692940), (34.8915, 28.4392, 195.6135062814438),
        (35.0256, 22.7862, 214.6559360234014), (34.8472, 10.2262, 273.5652832698713),
        (34.7366, 6.8272, 295.1580761415903), (34.7324, 4.3236, 312.9598716631408),
    )  # fmt: skip
    for sal_psu, temp_c, printed in rows:
        ours = oxygen.saturation(sal_psu, temp_c) / seawater.density(sal_psu, temp_c) * 1e6
        assert ours == pytest.approx(printed, rel=4e-4)


def test_arrays_run_through() -> None:
    held = oxygen.saturation_mass(35.0, broadcast([20.0, 30.0]))
    assert np.asarray(held) == pytest.approx([7.395, 6.236], abs=0.001)


@pytest.mark.parametrize("temp_c", [15.0, 25.0])
def test_vapour_falls_with_salt_as_the_waters_activity(temp_c: float) -> None:
    """Activity of water from the library's chemical potentials, R = 461.52 J/(kg K)."""
    salt = gsw.SR_from_SP(35.0)
    potential = gsw.chem_potential_water_t_exact(salt, temp_c, 0.0) * 1000.0
    pure = gsw.chem_potential_water_t_exact(1e-9, temp_c, 0.0) * 1000.0
    activity = np.exp((potential - pure) / (461.52 * (temp_c + 273.15)))
    ours = oxygen.vapour_pressure(35.0, temp_c) / oxygen.vapour_pressure(0.0, temp_c)
    assert ours == pytest.approx(float(activity), abs=4e-4)


def test_resting_fish_are_no_less_than_half_and_no_more_than_twice_a_measured_one() -> None:
    """Turbot of 500 g at 22 degC: standard 66 mg/kg/h, at most 224. A line through all fish lies between."""
    assert 66.0 / 2.0 < oxygen.fish_uptake(0.5, 1.0, 22.0) * 1e3 < 224.0


def test_lively_fish_are_as_fed_flatfish() -> None:
    """Merino et al. (2009): 15.08*W**-0.245 g/kg/d on average, fed; 100 g: 203 mg/kg/h at some 20 degC."""
    fed = 15.08 * 100.0**-0.245 / 24.0 * 1e3
    assert fed == pytest.approx(203.0, abs=0.5)
    assert 1.0 < fed / (oxygen.fish_uptake(0.1, 1.0, 20.0) * 1e3) < 2.0


def test_fine_bubbles_are_as_diffusers() -> None:
    """Mueller et al. (2002): fine 3 to 6 % a metre, coarse 1 to 2 %."""
    for diameter, rise, low, high in ((2e-3, 0.201, 0.03, 0.06), (4e-3, 0.244, 0.01, 0.02)):
        water = oxygen.GasWater(0.937e-6, float(oxygen.diffusivity(0.937e-6, 25.0)), 0.0255)
        assert low < oxygen.bubble_share(oxygen.Bubble(diameter, rise), water, 1.0) < high
