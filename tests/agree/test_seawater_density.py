"""Our density of seawater against published examples of TEOS-10 and against a second equation of state."""

from __future__ import annotations

import gsw
import numpy as np
import pytest

from tidestead.physics import seawater

T68_PER_T90 = 1.00024


def _eos80(sal_psu: float, temp_68: float) -> float:
    """One-atmosphere equation of state of 1980: Millero and Poisson, Deep-Sea Research 28A (1981) 625-629."""
    t, s = temp_68, sal_psu
    water = np.polyval(
        [6.536332e-9, -1.120083e-6, 1.001685e-4, -9.095290e-3, 6.793952e-2, 999.842594],
        t,
    )
    first = np.polyval([5.3875e-9, -8.2467e-7, 7.6438e-5, -4.0899e-3, 8.24493e-1], t)
    second = np.polyval([-1.6546e-6, 1.0227e-4, -5.72466e-3], t)
    return float(water + first * s + second * s**1.5 + 4.8314e-4 * s**2)


def test_the_second_equation_is_the_printed_one() -> None:
    """Check values of UNESCO Technical Papers in Marine Science 44 (1983), quoted in several libraries."""
    assert _eos80(0.0, 5.0) == pytest.approx(999.96675, abs=5e-6)
    assert _eos80(0.0, 25.0) == pytest.approx(997.04796, abs=5e-6)
    assert _eos80(35.0, 5.0) == pytest.approx(1027.67547, abs=5e-6)
    assert _eos80(35.0, 25.0) == pytest.approx(1023.34306, abs=5e-6)


@pytest.mark.parametrize("sal_psu", [0.0, 5.0, 20.0, 30.0, 35.0, 40.0])
@pytest.mark.parametrize("temp_c", [0.0, 10.0, 20.0, 25.0, 30.0, 35.0])
def test_two_equations_of_state_agree(sal_psu: float, temp_c: float) -> None:
    """Within 0.012 kg/m3 (ten parts in a million), the known distance between EOS-80 and TEOS-10 here."""
    ours = seawater.density(sal_psu, temp_c)
    assert ours == pytest.approx(_eos80(sal_psu, temp_c * T68_PER_T90), abs=0.012)


@pytest.mark.parametrize(
    ("sa", "temp_c", "pressure", "printed"),
    [
        (34.7118, 28.7856, 10.0, 1021.840173185531),
        (34.8915, 28.4329, 50.0, 1022.262689926782),
        (35.0256, 22.8103, 125.0, 1024.427715941676),
        (34.8472, 10.2600, 250.0, 1027.790201811623),
        (34.7366, 6.8863, 600.0, 1029.837714725961),
        (34.7324, 4.4036, 1000.0, 1032.002404116447),
    ],
)
def test_the_library_gives_the_printed_examples(
    sa: float, temp_c: float, pressure: float, printed: float
) -> None:
    """Example on the TEOS-10 page of gsw_rho_t_exact: that the library built here is the published one."""
    assert gsw.rho_t_exact(sa, temp_c, pressure) == pytest.approx(printed, abs=1e-8)


@pytest.mark.parametrize(
    ("sal_psu", "printed"), [(34.5487, 34.711611927085727), (34.7275, 34.891255045714303)]
)
def test_reference_salinity_is_the_printed_one(sal_psu: float, printed: float) -> None:
    """Example on the TEOS-10 page of gsw_SR_from_SP; our density uses this salinity."""
    assert gsw.SR_from_SP(sal_psu) == pytest.approx(printed, abs=1e-12)
    assert seawater.density(sal_psu, 20.0) == pytest.approx(gsw.rho_t_exact(printed, 20.0, 0.0), abs=1e-9)


def test_a_hydrometer_reading_is_a_ratio_of_two_densities() -> None:
    ratio = _eos80(33.0, 24.0 * T68_PER_T90) / _eos80(0.0, 15.0 * T68_PER_T90)
    assert seawater.specific_gravity(33.0, 24.0, 15.0) == pytest.approx(ratio, abs=1e-5)
    assert seawater.salinity_from_specific_gravity(ratio, 24.0, 15.0) == pytest.approx(33.0, abs=0.01)
    assert seawater.fresh_density(15.0) == pytest.approx(_eos80(0.0, 15.0 * T68_PER_T90), abs=0.003)
