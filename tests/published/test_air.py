"""Moist air against print: saturation, humidity ratio, what evaporating takes."""

from __future__ import annotations

from typing import Any

import pytest

from tests.published.case import Case, marked
from tidestead.physics import air, seawater

HANDBOOK = "ASHRAE Handbook, Fundamentals (2017), chapter 1"
STEAM = "steam tables, IAPWS-95, worked out with an open library of them"
CAST = "TEOS-10 check cast, as shipped with the library gsw"
PPM = (
    "the table is of the steam tables; the formula is within 300 parts in a million of it, says the handbook"
)
REAL = "the table is of real air; ideal gases lie up to 0.7 % below it"
KILO = 1e3


def _practical(sal_gkg: float) -> float:
    return float(seawater.practical_from_absolute(sal_gkg))


def _volume(density: Any) -> float:
    return 1.0 / float(density)


CASES = [
    *[Case(f"{temp} degC: {printed} Pa", air.saturation_pressure, {"temp_c": float(temp)}, printed, 3e-4 * printed,
           HANDBOOK, "table 3", "quoted", why=PPM)
      for temp, printed in ((5, 872.6), (25, 3169.7), (50, 12351.3), (100, 101418.0))],
    *[Case(f"{temp} degC by the formula: {printed} Pa", air.saturation_pressure, {"temp_c": float(temp)}, printed, to,
           HANDBOOK, "equation 6, worked", "computed")
      for temp, printed, to in ((5, 872.49, 0.005), (15, 1705.45, 0.005), (20, 2338.8, 0.05), (24, 2985.13, 0.005),
                                (25, 3169.22, 0.005), (30, 4246.03, 0.005), (50, 12349.86, 0.005))],
    *[Case(f"saturated air at {temp} degC holds {printed}", air.humidity_ratio,
           {"vapour": vapour, "pressure": 101325.0}, printed, to, HANDBOOK, "table 2", "quoted", why=REAL)
      for temp, vapour, printed, to in ((25, 3169.22, 0.020173, 1.2e-4), (50, 12349.86, 0.086863, 6e-4))],
    Case("a kilogram of dry air of 25 degC fills 0.8443 m3", air.dry_air_density,
         {"temp_c": 25.0, "vapour": 0.0, "pressure": 101325.0}, 0.8443, 4e-4, HANDBOOK, "table 2", "quoted",
         pick=_volume, why=REAL),
    *[Case(f"{temp} degC: {printed} kJ/kg", air.latent_heat, {"temp_c": temp}, printed, 0.1, STEAM,
           "saturation", "computed", unit=KILO, why="a parabola that lies within 0.05 kJ/kg of them")
      for temp, printed in ((0.01, 2500.9), (10.0, 2477.2), (20.0, 2453.5), (30.0, 2429.8), (40.0, 2406.0))],
    Case("evaporation of the check cast", air.latent_heat, {"temp_c": 27.962}, 2431865.20608594, 5e-9, CAST,
         "SA 34.46823643 g/kg", "read",
         differs="TEOS-10's polynomial lies 0.11 % below the steam tables; salt is less than 0.01 % of it"),
    *[Case(f"specific heat, SA {sal:.2f} g/kg", seawater.specific_heat, {"sal_psu": _practical(sal), "temp_c": temp},
           printed, 5e-9, CAST, "p 0", "read")
      for sal, temp, printed in ((34.46823643, 27.962, 4003.86641439), (6.66990434, 10.046, 4153.06900991))],
    *[Case(f"density, SA {sal:.2f} g/kg", seawater.density, {"sal_psu": _practical(sal), "temp_c": temp}, printed,
           6e-9, CAST, "p 0", "read", why="one last digit is rounded up by less than half")
      for sal, temp, printed in ((34.46823643, 27.962, 1021.88661104), (6.66990434, 10.046, 1004.88170373))],
]  # fmt: skip


@pytest.mark.parametrize("case", [marked(case) for case in CASES])
def test_air_holds_to_print(case: Case) -> None:
    assert case.holds()
