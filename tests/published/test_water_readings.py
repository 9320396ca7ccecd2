"""Conductivity and refraction against print: PSS-78, tables of the index, sodium chloride for sea salt."""

from __future__ import annotations

import pytest

from tests.published.case import Case
from tidestead.core.errors import ImpossibleInput
from tidestead.physics.water import readings

UNESCO = "UNESCO Technical Papers in Marine Science 44 (1983), PSS-78"
LINE = "linear compensation, by hand"
MOBLEY = "Mobley, Light and Water (1994), extreme values after Austin and Halikas (1976)"
QUAN = "Quan and Fry (1995)"
CRC = "CRC Handbook of Chemistry and Physics (102nd edition), aqueous solutions at 20 degC"
ARTICLE = "article on refractometers that reads the CRC Handbook (57th edition, page D-252)"
WATER = "table of the index of water by wavelength and temperature"
MS_PER_CM = 0.1
NM = 1e-9
FIFTEEN = 15.0 / 1.00024
"""15 degC on the scale of 1968, which PSS-78 is made on."""

CASES = [
    Case("standard seawater of 15 degC (1968)", readings.conductivity, {"sal_psu": 35.0, "temp_c": FIFTEEN}, 42.914,
         5e-4, UNESCO, "C(35, 15, 0) in mS/cm", "read", unit=MS_PER_CM),
    Case("standard seawater of 25 degC (1990)", readings.conductivity, {"sal_psu": 35.0, "temp_c": 25.0}, 53.0710,
         5e-5, "TEOS-10's library", "C(35, 25, 0) in mS/cm", "computed", unit=MS_PER_CM),
    Case("back to 35", readings.salinity_from_conductivity, {"conductivity": 4.2914, "temp_c": FIFTEEN}, 35.0, 1e-6,
         UNESCO, "R = 1, 15 degC: S = 35.000000", "read"),
    Case("back to 35 from 25 degC", readings.salinity_from_conductivity, {"conductivity": 5.30710, "temp_c": 25.0},
         35.0, 1e-4, "TEOS-10's library", "C(35, 25, 0) = 53.0710 mS/cm", "computed"),
    Case("47.918 mS/cm at 20 degC led to 25", readings.compensated_conductivity,
         {"conductivity": 4.7918, "temp_c": 20.0, "reference_c": 25.0, "slope": 0.0191}, 52.977, 5e-4, LINE,
         "47.918/(1 - 5*0.0191)", "computed", unit=MS_PER_CM),
    Case("52.977 mS/cm shown for 25, water of 20 degC", readings.salinity_from_compensated,
         {"shown": 5.29773, "temp_c": 20.0, "reference_c": 25.0, "slope": 0.0191}, 35.0, 1e-3, LINE,
         "47.918 mS/cm is 35 at 20 degC", "computed"),
    Case("seawater of 35 at 20 degC", readings.refractive_index, {"sal_psu": 35.0, "temp_c": 20.0}, 1.3394, 5e-5,
         ARTICLE, "35 has 1.3394", "quoted"),
    *[Case(f"pure water of {temp:g} degC", readings.refractive_index, {"sal_psu": 0.0, "temp_c": temp}, printed,
           5e-5, WATER, "589.3 nm", "quoted")
      for temp, printed in ((10.0, 1.3337), (20.0, 1.333), (30.0, 1.3319))],
    *[Case(f"salinity {sal:g}, {temp:g} degC, {wave:g} nm", readings.refractive_index,
           {"sal_psu": sal, "temp_c": temp, "wavelength": wave * NM}, printed, 6e-5, MOBLEY, "ends of the table",
           "recalled", why="the formula is a fit; at the ends of its range it lies up to 0.00005 off")
      for sal, temp, wave, printed in (
          (0.0, 0.0, 400.0, 1.344186), (35.0, 0.0, 400.0, 1.351415), (0.0, 30.0, 400.0, 1.342081),
          (35.0, 30.0, 400.0, 1.348752), (0.0, 0.0, 700.0, 1.331084), (35.0, 0.0, 700.0, 1.337906),
          (0.0, 30.0, 700.0, 1.329128), (35.0, 30.0, 700.0, 1.335316))],
    Case("an index of 1.3394 at 20 degC", readings.salinity_from_refractive_index, {"index": 1.3394, "temp_c": 20.0},
         35.0, 0.3, ARTICLE, "1.3394 is 35", "quoted"),
    Case("warm seawater on a bare instrument", readings.uncompensated_reading, {"sal_psu": 35.0, "temp_c": 26.0}, 31.36,
         0.005, QUAN, "n(35, 26 degC) = 1.338738 on the line 1.333004 + 0.0001829*S", "computed"),
    Case("cool seawater on a bare instrument", readings.uncompensated_reading, {"sal_psu": 35.0, "temp_c": 15.0}, 37.6,
         0.005, QUAN, "n(35, 15 degC) = 1.339881", "computed"),
    *[Case(f"sodium chloride of {salt:g} g/kg", readings.sodium_chloride_index, {"salt_gkg": salt}, printed, 6e-5, CRC,
           f"{salt / 10:g} %", "quoted", why="one straight line through rows printed to 0.0001")
      for salt, printed in ((5.0, 1.3339), (10.0, 1.3347), (20.0, 1.3365), (30.0, 1.3383), (35.0, 1.3391),
                            (40.0, 1.34), (50.0, 1.3418), (60.0, 1.3435))],
    Case("seawater of 35 on a scale for sodium chloride", readings.sodium_chloride_reading, {"sal_psu": 35.0}, 36.5,
         0.05, ARTICLE, "3.65 % of sodium chloride refracts like 35", "quoted"),
    Case("36.5 on a scale for sodium chloride", readings.salinity_from_sodium_chloride_reading, {"shown_gkg": 36.5},
         35.0, 0.05, ARTICLE, "3.65 % of sodium chloride refracts like 35", "quoted"),
]  # fmt: skip


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_readings_hold_to_print(case: Case) -> None:
    assert case.holds()


def test_readings_that_no_water_gives_are_refused() -> None:
    with pytest.raises(ImpossibleInput, match="salinity found"):
        readings.salinity_from_refractive_index(1.33, 20.0)
    with pytest.raises(ImpossibleInput, match="leaves nothing"):
        readings.compensated_conductivity(5.0, -30.0, 25.0, 0.02)
    with pytest.raises(ImpossibleInput, match="conductivity"):
        readings.salinity_from_conductivity(-1.0, 20.0)


def test_pure_water_below_a_bare_scale_shows_nothing() -> None:
    assert readings.uncompensated_reading(0.0, 30.0) == 0.0
