"""Viscosity and vapour pressure of fresh water and seawater against print."""

from __future__ import annotations

import pytest

from tests.published.case import PSI, Case
from tidestead.physics import water_viscosity as water

SHARQAWY = "M. Sharqawy, J. Lienhard and S. Zubair, Desalination and Water Treatment 16 (2010) 354-380"
IAPWS = "IAPWS R12-08, release on the viscosity of ordinary water substance (2008)"
CRC = "CRC Handbook of Chemistry and Physics, vapour pressure of water below 100 degC"
CRANE = "Crane TP-410 (2009), as an open library's notebooks of its examples quote it"
TEOS = "TEOS-10, chemical potential of water in seawater of S = 35"

CENTIPOISE = 1e-3
FAHRENHEIT_60 = (60.0 - 32.0) / 1.8


def seawater(temp_c: float, printed: float, to: float, known: str = "computed") -> Case:
    return Case(
        f"seawater of S = 35 at {temp_c:g} degC",
        water.dynamic_viscosity, {"sal_psu": 35.0, "temp_c": temp_c}, printed, to, SHARQAWY,
        "equations 22 and 23, worked", known, unit=CENTIPOISE,
    )  # fmt: skip


CASES = [
    seawater(20.0, 1.077, 0.0005),
    seawater(25.0, 0.9592, 0.00005),
    seawater(28.0, 0.898, 0.0005),
    Case(
        "seawater at 25 degC in a table of liquids, 0.959 cP",
        water.dynamic_viscosity, {"sal_psu": 35.0, "temp_c": 25.0}, 0.959, 0.0005,
        "course notes of applied fluids citing Sharqawy et al. (2010)", "table of liquids, sea water", "read",
        unit=CENTIPOISE,
    ),
    Case(
        "another formula for S = 40 at 25 degC",
        water.dynamic_viscosity, {"sal_psu": 40.0, "temp_c": 25.0}, 9.6541e-4, 5e-6,
        "F. Millero, The Sea 5 (1974) 3-80", "check value of its formula", "read",
        why="a second formula, 0.5 % from Sharqawy's, whose stated accuracy is 1.5 %",
    ),
    Case(
        "fresh water at 20 degC, 1.0016 mPa s",
        water.fresh_viscosity, {"temp_c": 20.0}, 1.0016, 0.0005, IAPWS, "table of values at 0.1 MPa", "recalled",
        unit=CENTIPOISE, why="the formula is a fit to it, within 0.05 %",
    ),
    Case(
        "fresh water at 25 degC, 0.8900 mPa s",
        water.fresh_viscosity, {"temp_c": 25.0}, 0.8900, 0.00045, IAPWS, "table of values at 0.1 MPa", "recalled",
        unit=CENTIPOISE, why="the formula is a fit to it, within 0.05 %",
    ),
    Case(
        "seawater of S = 35 at 25 degC, kinematic",
        water.kinematic_viscosity, {"sal_psu": 35.0, "temp_c": 25.0}, 0.937, 0.0005, SHARQAWY,
        "equation 22 over density by TEOS-10, worked", "computed", unit=1e-6,
    ),
    Case(
        "fresh water boils at 25 degC under 3.1699 kPa",
        water.fresh_vapour_pressure, {"temp_c": 25.0}, 3.1699, 0.001, CRC, "25 degC", "recalled", unit=1000.0,
        why="a second formula, within 0.03 %",
    ),
    Case(
        "fresh water boils at 20 degC under 2.3393 kPa",
        water.fresh_vapour_pressure, {"temp_c": 20.0}, 2.3393, 0.001, CRC, "20 degC", "recalled", unit=1000.0,
        why="a second formula, within 0.03 %",
    ),
    Case(
        "water of 60 degF boils under 0.256 psi",
        water.fresh_vapour_pressure, {"temp_c": FAHRENHEIT_60}, 0.256, 0.0005, CRANE, "example 7-32", "quoted",
        unit=PSI,
    ),
    Case(
        "seawater of S = 35 at 25 degC boils at 0.9813 of the pressure of fresh water",
        water.vapour_pressure, {"sal_psu": 35.0, "temp_c": 25.0}, 0.9813 * 3169.2, 1.0, TEOS,
        "activity of water 0.9813 at 20 to 28 degC, times pure water's pressure", "computed",
        why="a second formula, within 0.03 %",
    ),
]  # fmt: skip


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_printed_value(case: Case) -> None:
    assert case.holds(), f"{case.ours()} against printed {case.printed}"


@pytest.mark.parametrize("temp_c", [-11.0, 100.0, float("nan")])
def test_ice_and_steam_are_refused(temp_c: float) -> None:
    with pytest.raises(ValueError, match="liquid water"):
        water.dynamic_viscosity(35.0, temp_c)


def test_negative_salinity_is_refused() -> None:
    with pytest.raises(ValueError, match="salinity"):
        water.vapour_pressure(-1.0, 20.0)
