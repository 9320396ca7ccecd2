"""Carbonate, scales of pH and ammonia against the library PyCO2SYS, which stands beside the round robin's print.

The library's own constants are used where it has the same ones. Water, phosphate and silicate are printed by
Dickson, Sabine and Christian (2007) with a rounded step between scales; there it is handed ours, and the gap that
its own step makes is judged apart.
"""

from __future__ import annotations

from typing import Any

import numpy as np
import PyCO2SYS as referee
import pytest

from tests.arrays import broadcast
from tidestead.physics import ammonia, ph
from tidestead.physics.ph import PHScale
from tidestead.physics.water import carbonate, constants, contents
from tidestead.physics.water.carbonate import Carbonate, Seawater
from tidestead.physics.water.contents import BorateLaw

SALT = np.array([20.0, 28.0, 35.0, 40.0])
WARM = np.array([10.0, 18.0, 26.0, 32.0])
ALKALINITY, CARBON, PH, AIR = 1, 2, 3, 4
NAMES = {
    "ph": "pH_total", "dic": "dic", "alkalinity": "alkalinity", "pco2": "pCO2", "co2": "CO2", "bicarbonate": "HCO3",
    "carbonate": "CO3", "aragonite": "saturation_aragonite", "calcite": "saturation_calcite",
}  # fmt: skip
OPTIONS = {"opt_k_carbonic": 10, "opt_k_bisulfate": 1, "opt_k_fluoride": 2, "opt_total_borate": 2}
CODES = {PHScale.TOTAL: 1, PHScale.SEAWATER: 2, PHScale.FREE: 3, PHScale.NBS: 4}


def waters(many: int) -> list[tuple[Seawater, float, float]]:
    """Random waters of a tank with an alkalinity and the carbon dioxide of the air above."""
    draw = np.random.default_rng(20)
    return [
        (
            Seawater(
                float(draw.uniform(19.0, 43.0)),
                float(draw.uniform(4.0, 34.0)),
                phosphate=float(draw.uniform(0.0, 5.0)),
                silicate=float(draw.uniform(0.0, 60.0)),
                ammonia=float(draw.uniform(0.0, 150.0)),
                borate_law=BorateLaw.LEE if draw.random() < 0.5 else BorateLaw.UPPSTROM,
            ),
            float(draw.uniform(800.0, 5000.0)),
            float(draw.uniform(100.0, 5000.0)),
        )
        for _ in range(many)
    ]


def theirs(water: Seawater, *pair: float, **more: Any) -> dict[str, Any]:
    """What the library makes of a water and two of its figures, with our rounded constants."""
    at = (water.sal_psu, water.temp_c)
    handed = {
        "k_water": constants.water_ions(*at),
        "k_phosphoric_1": constants.phosphoric_first(*at),
        "k_phosphoric_2": constants.phosphoric_second(*at),
        "k_phosphoric_3": constants.phosphoric_third(*at),
        "k_silicate": constants.silicic(*at),
    }
    options = OPTIONS | {"opt_total_borate": 2 if water.borate_law is BorateLaw.LEE else 1}
    found: dict[str, Any] = referee.sys(
        *pair, salinity=at[0], temperature=at[1], total_phosphate=water.phosphate, total_silicate=water.silicate,
        total_ammonia=water.ammonia, **(options | handed | more)
    )  # fmt: skip
    return found


def compare(ours: Carbonate, found: dict[str, Any], rel: float = 1e-8) -> None:
    for mine, name in NAMES.items():
        assert getattr(ours, mine) == pytest.approx(float(found[name]), rel=rel), mine


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
    compare(ours, theirs(water, 2300.0, 8.1, ALKALINITY, PH))


@pytest.mark.parametrize(("water", "alkalinity", "pco2"), waters(12))
def test_random_waters_from_every_pair(water: Seawater, alkalinity: float, pco2: float) -> None:
    ours = carbonate.from_alkalinity_and_air(water, alkalinity, pco2)
    compare(ours, theirs(water, alkalinity, pco2, ALKALINITY, AIR))
    dic, reading = ours.dic * 1.01, ours.ph - 0.03
    compare(
        carbonate.from_alkalinity_and_carbon(water, alkalinity, dic),
        theirs(water, alkalinity, dic, ALKALINITY, CARBON),
    )
    compare(carbonate.from_carbon_and_air(water, dic, pco2), theirs(water, dic, pco2, CARBON, AIR))
    for scale, code in CODES.items():
        compare(
            carbonate.from_alkalinity_and_ph(water, alkalinity, reading, scale),
            theirs(water, alkalinity, reading, ALKALINITY, PH, opt_pH_scale=code),
        )


def test_doses_of_every_alkaline_reagent() -> None:
    water = Seawater(35.0, 26.0, calcium=10900.0)
    before = carbonate.from_alkalinity_and_air(water, 2500.0, 420.0)
    for share in (0.0, 0.5, 1.0):
        after = carbonate.with_carbon_dosed(water, before, 400.0, share)
        dic = before.dic + share * 400.0
        compare(after, theirs(water, 2900.0, dic, ALKALINITY, CARBON, total_calcium=10900.0))
    none = carbonate.with_alkalinity_added(water, before, 400.0)
    assert none == carbonate.with_carbon_dosed(water, before, 400.0, 0.0)


@pytest.mark.parametrize(("water", "alkalinity", "pco2"), waters(6))
def test_a_worked_out_step_between_scales_moves_little(
    water: Seawater, alkalinity: float, pco2: float
) -> None:
    """The library's own constants of water, phosphate and silicate: 0.0002 of pH, 0.05 % of what is dissolved."""
    ours = carbonate.from_alkalinity_and_air(water, alkalinity, pco2)
    own = dict.fromkeys(("k_water", "k_phosphoric_1", "k_phosphoric_2", "k_phosphoric_3", "k_silicate"))
    found = theirs(water, alkalinity, pco2, ALKALINITY, AIR, **own)
    assert ours.ph == pytest.approx(float(found["pH_total"]), abs=2e-4)
    assert ours.dic == pytest.approx(float(found["dic"]), rel=5e-4)


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
    """Less 0.015 in print, 0.013 to 0.026 worked out: half a percent to 1.2 % of a constant apart."""
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


@pytest.mark.parametrize("read_on", PHScale)
@pytest.mark.parametrize("sal_psu", SALT)
@pytest.mark.parametrize("temp_c", WARM)
def test_scales(read_on: PHScale, sal_psu: float, temp_c: float) -> None:
    found = referee.sys(
        2300.0, 8.05, ALKALINITY, PH, salinity=sal_psu, temperature=temp_c, opt_pH_scale=CODES[read_on], **OPTIONS
    )  # fmt: skip
    names = {
        PHScale.TOTAL: "pH_total", PHScale.SEAWATER: "pH_sws", PHScale.FREE: "pH_free", PHScale.NBS: "pH_nbs",
    }  # fmt: skip
    for wanted, name in names.items():
        ours = ph.on_scale(8.05, read_on, wanted, sal_psu, temp_c)
        assert ours == pytest.approx(float(found[name]), abs=1e-9)


def test_activity_of_hydrogen() -> None:
    """NBS against seawater scale is nothing but the activity."""
    found = referee.sys(2300.0, 8.05, ALKALINITY, PH, salinity=SALT, temperature=WARM, **OPTIONS)
    ours = ph.hydrogen_activity(broadcast(SALT), broadcast(WARM))
    assert np.asarray(ours) == pytest.approx(10.0 ** (found["pH_sws"] - found["pH_nbs"]), rel=1e-9)


@pytest.mark.parametrize("scale", PHScale)
@pytest.mark.parametrize(("sal_psu", "temp_c"), [(20.0, 10.0), (35.0, 25.0), (40.0, 32.0)])
def test_unionised_ammonia(scale: PHScale, sal_psu: float, temp_c: float) -> None:
    """NH3 of 100 umol/kg of ammonia in the library's own count."""
    found = referee.sys(
        2300.0, 8.2, ALKALINITY, PH, salinity=sal_psu, temperature=temp_c, total_ammonia=100.0,
        opt_pH_scale=CODES[scale], **OPTIONS
    )  # fmt: skip
    ours = ammonia.unionised_share_total(8.2, scale, sal_psu, temp_c)
    assert 100.0 * ours == pytest.approx(float(found["NH3"]), rel=1e-8)
