"""Blends against TEOS-10's own mixing, conductivity against PSS-78 written out from the report of 1983."""

from __future__ import annotations

import gsw
import numpy as np
import pytest

from tests.arrays import broadcast
from tidestead.physics.water import changes, readings, salts
from tidestead.physics.water.salts import Body

WATERS = [
    (Body(18.0, 35.0, 26.0), Body(2.0, 0.0, 15.0)),
    (Body(10.0, 35.0, 26.0), Body(10.0, 33.0, 20.0)),
    (Body(0.5, 5.0, 30.0), Body(9.0, 38.0, 12.0)),
]


def mixed(one: Body, other: Body) -> tuple[float, float, float]:
    """Volume, salinity and temperature: absolute salinity and conservative temperature mix by weight."""
    salt = [float(gsw.SR_from_SP(body.sal_psu)) for body in (one, other)]
    warm = [float(gsw.CT_from_t(s, b.temp_c, 0.0)) for s, b in zip(salt, (one, other), strict=True)]
    heavy = [b.volume * float(gsw.rho(s, t, 0.0)) for s, t, b in zip(salt, warm, (one, other), strict=True)]
    together = float(np.average(salt, weights=heavy))
    warmth = float(np.average(warm, weights=heavy))
    density = float(gsw.rho(together, warmth, 0.0))
    return (
        sum(heavy) / density,
        float(gsw.SP_from_SR(together)),
        float(gsw.t_from_CT(together, warmth, 0.0)),
    )


@pytest.mark.parametrize(("one", "other"), WATERS)
def test_blend(one: Body, other: Body) -> None:
    """Ours leaves the heat of mixing out: 0.003 K where much salt meets little."""
    ours = salts.blend(one, other)
    volume, salinity, warmth = mixed(one, other)
    assert ours.volume == pytest.approx(volume, rel=1e-6)
    assert ours.sal_psu == pytest.approx(salinity, rel=1e-6)
    assert ours.temp_c == pytest.approx(warmth, abs=0.003)


@pytest.mark.parametrize("share", [0.0, 0.05, 0.3, 1.0])
def test_change_of_water(share: float) -> None:
    tank = Body(20.0, 35.0, 26.0)
    ours = changes.changed_water(tank, 33.0, 20.0, share)
    _, salinity, warmth = mixed(Body(20.0 * (1.0 - share), 35.0, 26.0), Body(20.0 * share, 33.0, 20.0))
    assert ours.sal_psu == pytest.approx(salinity, rel=1e-6)
    assert ours.temp_c == pytest.approx(warmth, abs=0.001)


def practical(conductivity: float, temp_c: float) -> float:
    """PSS-78 at the pressure of the air, mS/cm and degC on the scale of 1990."""
    t = temp_c * 1.00024
    rt = 0.6766097 + 2.00564e-2 * t + 1.104259e-4 * t**2 - 6.9698e-7 * t**3 + 1.0031e-9 * t**4
    root = np.sqrt(conductivity / 42.914 / rt)
    a = (0.0080, -0.1692, 25.3851, 14.0941, -7.0261, 2.7081)
    b = (0.0005, -0.0056, -0.0066, -0.0375, 0.0636, -0.0144)
    spread = (t - 15.0) / (1.0 + 0.0162 * (t - 15.0))
    return float(sum((x + spread * y) * root**power for power, (x, y) in enumerate(zip(a, b, strict=True))))


@pytest.mark.parametrize("temp_c", [5.0, 15.0, 20.0, 25.0, 30.0])
@pytest.mark.parametrize("sal_psu", [5.0, 20.0, 33.0, 35.0, 40.0])
def test_conductivity(sal_psu: float, temp_c: float) -> None:
    conducted = readings.conductivity(sal_psu, temp_c)
    assert practical(10.0 * conducted, temp_c) == pytest.approx(sal_psu, abs=1e-6)
    assert readings.salinity_from_conductivity(conducted, temp_c) == pytest.approx(sal_psu, abs=1e-9)


def test_arrays_run_through() -> None:
    temps = broadcast([15.0, 20.0, 26.0])
    conducted = readings.conductivity(35.0, temps)
    assert np.asarray(readings.salinity_from_conductivity(conducted, temps)) == pytest.approx([35.0] * 3)
    shown = readings.uncompensated_reading(35.0, temps)
    assert np.all(np.diff(np.asarray(shown)) < 0.0)
    indices = readings.refractive_index(broadcast([0.0, 20.0, 35.0]), 20.0)
    back = readings.salinity_from_refractive_index(indices, 20.0)
    assert np.asarray(back) == pytest.approx([0.0, 20.0, 35.0], abs=1e-9)


def test_a_line_for_seawater_is_right_at_its_temperature_only() -> None:
    """Two percent a kelvin, led to 25 degC: right at 25, an eighth of a unit too much at 20; taken back it is exact."""
    for temp_c, error in ((25.0, 0.0), (20.0, 0.127)):
        conducted = readings.conductivity(35.0, temp_c)
        shown = readings.compensated_conductivity(conducted, temp_c, 25.0, 0.02)
        assert readings.salinity_from_conductivity(shown, 25.0) - 35.0 == pytest.approx(error, abs=5e-4)
        assert readings.salinity_from_compensated(shown, temp_c, 25.0, 0.02) == pytest.approx(35.0)
