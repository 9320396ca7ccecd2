"""Density of seawater and fresh water, hydrometer readings and specific weight against print."""

from __future__ import annotations

import pytest

from tests.published.case import PCF, Case
from tidestead.physics import seawater

UNESCO = "UNESCO Technical Papers in Marine Science 44 (1983), Fofonoff and Millard, check values of density"
CIPM = "CIPM (2001), recommended table for the density of water; also in the CRC Handbook of Chemistry"

T68_PER_T90 = 1.00024
"""UNESCO's temperatures are on the scale of 1968. Source: P. Saunders, WOCE Newsletter 10 (1990), p. 10."""

OLDER_EQUATION = "the printed value is of the older equation EOS-80; TEOS-10 differs by less than 0.003"


def _unesco(name: str, sal_psu: float, temp_68: float, printed: float) -> Case:
    return Case(
        name,
        of=seawater.density,
        given={"sal_psu": sal_psu, "temp_c": temp_68 / T68_PER_T90},
        printed=printed,
        to=0.003,
        why=OLDER_EQUATION,
        source=UNESCO,
        place="section 3, check values at zero pressure",
        known="quoted",
    )


def _fresh(temp_c: float, printed: float) -> Case:
    return Case(
        f"fresh water at {temp_c:g} degC",
        of=seawater.fresh_density,
        given={"temp_c": temp_c},
        printed=printed,
        to=0.002,
        why="the table is of another equation, whose stated uncertainty is 0.001 kg/m3",
        source=CIPM,
        place="density at 101.325 kPa",
        known="recalled",
    )


CASES = [
    _unesco("fresh water at 5 degC", 0.0, 5.0, 999.96675),
    _unesco("fresh water at 25 degC", 0.0, 25.0, 997.04796),
    _unesco("standard seawater at 5 degC", 35.0, 5.0, 1027.67547),
    _unesco("standard seawater at 25 degC", 35.0, 25.0, 1023.34306),
    _fresh(4.0, 999.9749),
    _fresh(10.0, 999.7027),
    _fresh(20.0, 998.2067),
    _fresh(30.0, 995.6488),
    Case(
        "hydrometer for 25 degC in standard seawater at 25 degC",
        of=seawater.specific_gravity,
        given={"sal_psu": 35.0, "temp_c": 25.0 / T68_PER_T90, "reference_temp_c": 25.0 / T68_PER_T90},
        printed=1023.34306 / 997.04796,
        to=4e-6,
        why="ratio of two printed densities of EOS-80, each within 0.003 of TEOS-10",
        source=UNESCO,
        place="section 3, seawater at 25 degC over fresh water at 25 degC",
        known="quoted",
    ),
    Case(
        "hydrometer for 5 degC in standard seawater at 25 degC",
        of=seawater.specific_gravity,
        given={"sal_psu": 35.0, "temp_c": 25.0 / T68_PER_T90, "reference_temp_c": 5.0 / T68_PER_T90},
        printed=1023.34306 / 999.96675,
        to=4e-6,
        why="ratio of two printed densities of EOS-80, each within 0.003 of TEOS-10",
        source=UNESCO,
        place="section 3, seawater at 25 degC over fresh water at 5 degC",
        known="quoted",
    ),
    *[
        Case(
            f"standard seawater of {temp:g} degC over water of {reference:g} degC",
            of=seawater.specific_gravity,
            given={"sal_psu": 35.0, "temp_c": temp, "reference_temp_c": reference},
            printed=printed,
            to=5e-6,
            source="TEOS-10, IOC Manuals and Guides 56 (2010)",
            place="ratio of two densities of its library",
            known="computed",
        )
        for temp, reference, printed in ((25.0, 25.0, 1.02637), (26.0, 26.0, 1.02633), (25.0, 15.56, 1.02435))
    ],
    Case(
        "the trade's reading of natural seawater",
        of=seawater.specific_gravity,
        given={"sal_psu": 35.0, "temp_c": 25.0, "reference_temp_c": 25.0},
        printed=1.0264,
        to=0.00005,
        source="R. Holmes-Farley, Specific Gravity: Oh How Complicated (2002)",
        place="natural seawater of S = 35 at 25 degC (77 degF)",
        known="recalled",
    ),
    Case(
        "salinity from the reading of a hydrometer for 25 degC",
        of=seawater.salinity_from_specific_gravity,
        given={
            "gravity": 1023.34306 / 997.04796,
            "temp_c": 25.0 / T68_PER_T90,
            "reference_temp_c": 25.0 / T68_PER_T90,
        },
        printed=35.0,
        to=0.005,
        why="the reading is of EOS-80; 0.003 kg/m3 are 0.004 in salinity",
        source=UNESCO,
        place="section 3, check value turned round",
        known="quoted",
    ),
    Case(
        "salinity from the reading of a hydrometer for 5 degC at 25 degC",
        of=seawater.salinity_from_specific_gravity,
        given={
            "gravity": 1023.34306 / 999.96675,
            "temp_c": 25.0 / T68_PER_T90,
            "reference_temp_c": 5.0 / T68_PER_T90,
        },
        printed=35.0,
        to=0.005,
        why="the reading is of EOS-80; 0.003 kg/m3 are 0.004 in salinity",
        source=UNESCO,
        place="section 3, check value turned round",
        known="quoted",
    ),
    Case(
        "practical salinity from grams in a kilogram",
        of=seawater.practical_from_absolute,
        given={"sal_gkg": 34.711611927085727},
        printed=34.5487,
        to=0.00005,
        source="TEOS-10 documentation page of gsw_SR_from_SP",
        place="first row of the example, turned round",
        known="quoted",
    ),
    Case(
        "specific weight of water at 20 degC",
        of=seawater.specific_weight,
        given={"density": 998.2},
        printed=9.789,
        to=0.0005,
        unit=1000.0,
        source="table of density and specific weight of water in SI units (engineering handbook page)",
        place="20 degC: 998.2 kg/m3, 9.789 kN/m3",
        known="read",
    ),
    Case(
        "specific weight of seawater in pounds a cubic foot",
        of=seawater.specific_weight,
        given={"density": 1025.0},
        printed=64.0,
        to=0.05,
        unit=PCF * 9.80665,
        source="common practice, no source",
        place="seawater of 1025 kg/m3 weighs 64.0 lb/ft3",
        known="practice",
    ),
]


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_printed_value(case: Case) -> None:
    assert case.holds()
