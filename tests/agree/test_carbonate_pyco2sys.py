"""Carbonate, scales of pH and ammonia against the library PyCO2SYS, which stands beside the round robin's print.

The library's own constants are used where it has the same ones. Water, phosphate and silicate are printed by
Dickson, Sabine and Christian (2007) with a rounded step between scales; there it is handed ours, and the gap that
its own step makes is judged apart.
"""

from __future__ import annotations

from functools import cache
from typing import Any

import numpy as np
import PyCO2SYS as referee
import pytest
from numpy.typing import NDArray

from tests.arrays import broadcast
from tidestead.physics import ammonia, ph
from tidestead.physics.ph import PHScale
from tidestead.physics.water import carbonate, constants, contents
from tidestead.physics.water.carbonate import Carbonate, Seawater
from tidestead.physics.water.contents import BorateLaw

SALT = np.array([20.0, 28.0, 35.0, 40.0])
WARM = np.array([10.0, 18.0, 26.0, 32.0])
ALKALINITY, CARBON, PH, AIR = 1, 2, 3, 4
Numbers = NDArray[np.float64]

NAMES = {
    "ph": "pH_total", "dic": "dic", "alkalinity": "alkalinity", "pco2": "pCO2", "co2": "CO2", "bicarbonate": "HCO3",
    "carbonate": "CO3", "aragonite": "saturation_aragonite", "calcite": "saturation_calcite",
}  # fmt: skip
OPTIONS = {
    "opt_k_carbonic": 10,
    "opt_k_bisulfate": 1,
    "opt_k_fluoride": 2,
    "opt_total_borate": 2,
    "opt_buffers_mode": 0,
}
CODES = {PHScale.TOTAL: 1, PHScale.SEAWATER: 2, PHScale.FREE: 3, PHScale.NBS: 4}


def drawn(many: int) -> tuple[list[Seawater], Numbers, Numbers]:
    """Random waters of a tank, an alkalinity for each and the carbon dioxide of the air above."""
    draw = np.random.default_rng(20)
    waters = [
        Seawater(
            float(draw.uniform(19.0, 43.0)),
            float(draw.uniform(4.0, 34.0)),
            phosphate=float(draw.uniform(0.0, 5.0)),
            silicate=float(draw.uniform(0.0, 60.0)),
            ammonia=float(draw.uniform(0.0, 150.0)),
            borate_law=BorateLaw.LEE if draw.random() < 0.5 else BorateLaw.UPPSTROM,
        )
        for _ in range(many)
    ]
    return waters, draw.uniform(800.0, 5000.0, many), draw.uniform(100.0, 5000.0, many)


WATERS, ALKALINITIES, AIRS = drawn(40)


def rounded(sal_psu: float, temp_c: float, scale: PHScale) -> dict[str, Any]:
    """Our constants that print has with a rounded step, on the scale of the pH: so the library wants them."""
    ours = {
        "k_water": constants.water_ions(sal_psu, temp_c),
        "k_phosphoric_1": constants.phosphoric_first(sal_psu, temp_c),
        "k_phosphoric_2": constants.phosphoric_second(sal_psu, temp_c),
        "k_phosphoric_3": constants.phosphoric_third(sal_psu, temp_c),
        "k_silicate": constants.silicic(sal_psu, temp_c),
    }
    return {
        name: 10.0 ** -ph.on_scale(-np.log10(value), PHScale.TOTAL, scale, sal_psu, temp_c)
        for name, value in ours.items()
    }


def theirs(
    waters: list[Seawater], pair: tuple[Any, Any, int, int], scale: PHScale = PHScale.TOTAL, own: bool = False
) -> dict[str, Any]:
    """What the library makes of waters and two figures of each; `own`: with its own step between scales."""
    sal, temp = np.array([one.sal_psu for one in waters]), np.array([one.temp_c for one in waters])
    handed = {} if own else rounded(broadcast(sal), broadcast(temp), scale)
    calcium = [one.calcium if one.calcium is not None else contents.calcium(one.sal_psu) for one in waters]
    options = OPTIONS | {
        "opt_total_borate": np.array([2 if one.borate_law is BorateLaw.LEE else 1 for one in waters]),
        "opt_pH_scale": CODES[scale],
    }
    found: dict[str, Any] = referee.sys(
        *pair,
        salinity=sal,
        temperature=temp,
        total_phosphate=np.array([one.phosphate for one in waters]),
        total_silicate=np.array([one.silicate for one in waters]),
        total_ammonia=np.array([one.ammonia for one in waters]),
        total_calcium=np.array(calcium),
        **(options | handed),
    )
    return found


def apart(ours: list[Carbonate], found: dict[str, Any]) -> list[str]:
    """The figures in which the two differ by more than the last digits of a double."""
    return [
        mine
        for mine, name in NAMES.items()
        if [getattr(one, mine) for one in ours] != pytest.approx(found[name], rel=1e-8)
    ]


def in_air() -> list[Carbonate]:
    return [
        carbonate.from_alkalinity_and_air(water, float(alkalinity), float(pco2))
        for water, alkalinity, pco2 in zip(WATERS, ALKALINITIES, AIRS, strict=True)
    ]


def test_the_referee_holds_to_the_round_robins_print() -> None:
    """TA 2300, pH 8.1 total, S 33, 22 degC, 1000 dbar, with everything that is dissolved there."""
    found = referee.sys(
        2300.0, 8.1, ALKALINITY, PH, salinity=33.0, temperature=22.0, pressure=1000.0, total_silicate=10.0,
        total_phosphate=1.0, total_ammonia=2.0, total_sulfide=3.0, opt_k_carbonic=10, opt_total_borate=2,
    )  # fmt: skip
    printed = {"dic": 1982.2, "pCO2": 312.0, "CO3": 218.1, "HCO3": 1754.5, "CO2": 9.6}
    for name, value in printed.items():
        assert float(found[name]) == pytest.approx(value, abs=0.05)


def test_the_round_robins_water_at_the_surface() -> None:
    water = Seawater(33.0, 22.0, phosphate=1.0, silicate=10.0, ammonia=2.0)
    ours = carbonate.from_alkalinity_and_ph(water, 2300.0, 8.1, PHScale.TOTAL)
    assert apart([ours], theirs([water], (2300.0, 8.1, ALKALINITY, PH))) == []


def test_random_waters_in_air() -> None:
    assert apart(in_air(), theirs(WATERS, (ALKALINITIES, AIRS, ALKALINITY, AIR))) == []


def test_random_waters_of_known_carbon() -> None:
    dic = np.array([1.01 * one.dic for one in in_air()])
    ours = [
        carbonate.from_alkalinity_and_carbon(water, float(alkalinity), float(carbon))
        for water, alkalinity, carbon in zip(WATERS, ALKALINITIES, dic, strict=True)
    ]
    assert apart(ours, theirs(WATERS, (ALKALINITIES, dic, ALKALINITY, CARBON))) == []
    ours = [
        carbonate.from_carbon_and_air(water, float(carbon), float(pco2))
        for water, carbon, pco2 in zip(WATERS, dic, AIRS, strict=True)
    ]
    assert apart(ours, theirs(WATERS, (dic, AIRS, CARBON, AIR))) == []


@pytest.mark.parametrize("scale", PHScale)
def test_random_waters_of_known_ph(scale: PHScale) -> None:
    readings = np.array([one.ph - 0.03 for one in in_air()])
    ours = [
        carbonate.from_alkalinity_and_ph(water, float(alkalinity), float(reading), scale)
        for water, alkalinity, reading in zip(WATERS, ALKALINITIES, readings, strict=True)
    ]
    assert apart(ours, theirs(WATERS, (ALKALINITIES, readings, ALKALINITY, PH), scale)) == []


def test_doses_of_every_alkaline_reagent() -> None:
    water = Seawater(35.0, 26.0, calcium=10900.0)
    before = carbonate.from_alkalinity_and_air(water, 2500.0, 420.0)
    shares = (0.0, 0.5, 1.0)
    after = [carbonate.with_carbon_dosed(water, before, 400.0, share) for share in shares]
    dic = np.array([before.dic + share * 400.0 for share in shares])
    assert apart(after, theirs([water] * 3, (2900.0, dic, ALKALINITY, CARBON))) == []
    assert carbonate.with_alkalinity_added(water, before, 400.0) == after[0]


def test_a_worked_out_step_between_scales_moves_little() -> None:
    """The library's own constants of water, phosphate and silicate: 0.0002 of pH, 0.05 % of what is dissolved."""
    found = theirs(WATERS, (ALKALINITIES, AIRS, ALKALINITY, AIR), own=True)
    assert [one.ph for one in in_air()] == pytest.approx(found["pH_total"], abs=2e-4)
    assert [one.dic for one in in_air()] == pytest.approx(found["dic"], rel=5e-4)


def test_constants_and_contents() -> None:
    """Over a grid of salinity and temperature at once, so that arrays run through."""
    sal, temp = (axis.ravel() for axis in np.meshgrid(SALT, WARM))
    found = referee.sys(salinity=sal, temperature=temp, **OPTIONS)
    s, t = broadcast(sal), broadcast(temp)
    ours = {
        "k_CO2": constants.co2_solubility(s, t),
        "k_carbonic_1": constants.carbonic_first(s, t),
        "k_carbonic_2": constants.carbonic_second(s, t),
        "k_borate": constants.boric(s, t),
        "k_bisulfate": ph.bisulphate_constant(s, t),
        "k_fluoride": ph.hydrogen_fluoride_constant(s, t),
        "k_calcite": constants.calcite_product(s, t),
        "k_aragonite": constants.aragonite_product(s, t),
        "fugacity_factor": constants.co2_fugacity(t),
        "k_ammonia": 10.0 ** -ammonia.pka_clegg_whitfield(s, t) * (1.0 - 0.001005 * s),
        "total_sulfate": ph.sulphate(s) * 1e6,
        "total_fluoride": ph.fluoride(s) * 1e6,
        "total_calcium": contents.calcium(s),
        "total_borate": contents.borate(s),
    }
    for name, value in ours.items():
        assert np.asarray(value) == pytest.approx(found[name], rel=1e-9), name


def test_constants_told_with_a_rounded_step_between_scales() -> None:
    """Less 0.015 in print, 0.015 to 0.026 worked out: up to 1.1 % of a constant apart."""
    sal, temp = (axis.ravel() for axis in np.meshgrid(SALT, WARM))
    found = referee.sys(salinity=sal, temperature=temp, **OPTIONS)
    s, t = broadcast(sal), broadcast(temp)
    step = 2.302585093 * np.asarray(ph.on_scale(0.0, PHScale.SEAWATER, PHScale.TOTAL, s, t))
    ours = {
        "k_water": constants.water_ions(s, t),
        "k_phosphoric_1": constants.phosphoric_first(s, t),
        "k_phosphoric_2": constants.phosphoric_second(s, t),
        "k_phosphoric_3": constants.phosphoric_third(s, t),
        "k_silicate": constants.silicic(s, t),
    }
    for name, value in ours.items():
        assert np.log(value) == pytest.approx(np.log(found[name]) + step - 0.015, abs=1e-8), name


@cache
def read_at(reading: float, read_on: PHScale, places: tuple[tuple[float, float], ...]) -> dict[str, Any]:
    """What the library makes of a pH read in waters of several salinities and temperatures, all in one call."""
    sal, temp = np.array(places).T
    found: dict[str, Any] = referee.sys(
        2300.0, reading, ALKALINITY, PH, salinity=sal, temperature=temp, total_ammonia=100.0,
        opt_pH_scale=CODES[read_on], **OPTIONS
    )  # fmt: skip
    return found


GRID = tuple((float(sal), float(temp)) for temp in WARM for sal in SALT)


@pytest.mark.parametrize("read_on", PHScale)
@pytest.mark.parametrize(("sal_psu", "temp_c"), GRID)
def test_scales(read_on: PHScale, sal_psu: float, temp_c: float) -> None:
    found = read_at(8.05, read_on, GRID)
    names = {
        PHScale.TOTAL: "pH_total", PHScale.SEAWATER: "pH_sws", PHScale.FREE: "pH_free", PHScale.NBS: "pH_nbs",
    }  # fmt: skip
    for wanted, name in names.items():
        ours = ph.on_scale(8.05, read_on, wanted, sal_psu, temp_c)
        assert ours == pytest.approx(float(found[name][GRID.index((sal_psu, temp_c))]), abs=1e-9)


def test_activity_of_hydrogen() -> None:
    """NBS against seawater scale is nothing but the activity."""
    found = referee.sys(2300.0, 8.05, ALKALINITY, PH, salinity=SALT, temperature=WARM, **OPTIONS)
    ours = ph.hydrogen_activity(broadcast(SALT), broadcast(WARM))
    assert np.asarray(ours) == pytest.approx(10.0 ** (found["pH_sws"] - found["pH_nbs"]), rel=1e-9)


THREE = ((20.0, 10.0), (35.0, 25.0), (40.0, 32.0))


@pytest.mark.parametrize("scale", PHScale)
@pytest.mark.parametrize(("sal_psu", "temp_c"), THREE)
def test_unionised_ammonia(scale: PHScale, sal_psu: float, temp_c: float) -> None:
    """NH3 of 100 umol/kg of ammonia in the library's own count."""
    found = read_at(8.2, scale, THREE)
    ours = ammonia.unionised_share_total(8.2, scale, sal_psu, temp_c)
    assert 100.0 * ours == pytest.approx(float(found["NH3"][THREE.index((sal_psu, temp_c))]), rel=1e-8)
