"""Stress on the faces of acrylic, creep runs, growth, tolerance, against print."""

from __future__ import annotations

import pytest

from tests.published.case import INCH, Case
from tidestead.physics.structure import acrylic

MPA = 1e6
GUIDE = "sheet maker's guideline for workshop practice, aquarium glazing, cast PMMA"
ROARK = "Roark's Formulas for Stress and Strain, Table 11.4 case 1a"
TOLERANCE = "trade page on ISO 7823-1, thickness tolerance of cast sheet"
OWN = "worked panel 1.8 m by 1.2 m by 50 mm, solved by three independent plate methods"
GLAZING = "extruded PMMA sheet maker's glazing text"

LIMITS = acrylic.FaceLimits(water_side=3e6, air_side=5e6, joint=3e6)
CREEP = acrylic.CreepBasis(ratio=0.5, pessimistic=0.33, test_temp_c=23.0, hottest_c=80.0)


def _stress(
    name: str,
    moment: float,
    thickness: float,
    printed: float,
    to: float,
    *,
    source: str = OWN,
    place: str = "",
    known: str = "computed",
    unit: float = MPA,
    why: str = "",
) -> Case:
    return Case(
        name,
        of=acrylic.face_stress,
        given={"largest": moment, "least": -0.25 * moment, "thickness": thickness},
        printed=printed,
        to=to,
        pick=lambda stress: stress.air_side,
        source=source,
        place=place or name,
        known=known,
        unit=unit,
        why=why,
    )


def _thickness(nominal_mm: float, printed_mm: float) -> Case:
    return Case(
        f"a {nominal_mm:g} mm sheet at its thinnest",
        of=acrylic.least_thickness,
        given={"nominal": nominal_mm / 1000.0, "fixed": 0.0004, "share": 0.1},
        printed=printed_mm,
        to=0.005,
        unit=1e-3,
        source=TOLERANCE,
        place="table of common thicknesses",
        known="read",
    )


def _runs(name: str, temp_c: float | None, printed: float) -> Case:
    return Case(
        f"creep ratio that decides, {name}",
        of=acrylic.creep_runs,
        given={"basis": CREEP, "temp_c": temp_c},
        printed=printed,
        to=0.005,
        pick=lambda runs: min(runs.ratios),
        source="own rule: a recalled ratio at 23 degC, a pessimistic one where warmer or nobody has said",
        place="creep of PMMA",
        known="practice",
    )


CASES = [
    _stress("three edges held, top free", 1053.6, 0.05, 2.529, 0.0005),
    _stress("four edges held", 764.8, 0.05, 1.8355, 0.00025, why="the moment is printed to four digits"),
    _stress(
        "square plate under even load, unit thickness",
        0.0479,
        1.0,
        0.2874,
        0.0004,
        why="the moment 0.0479 is printed to three digits",
        source=ROARK,
        place="beta = 0.2874 for a/b = 1; Timoshenko prints the moment 0.0479",
        known="read",
        unit=1.0,
    ),
    Case(
        "a clamped edge is pulled on the water side",
        of=acrylic.face_stress,
        given={"largest": 0.0, "least": -0.0513, "thickness": 1.0},
        printed=0.3078,
        to=0.0003,
        why="the moment is printed to three digits",
        pick=lambda stress: stress.water_side,
        source="Roark's Formulas for Stress and Strain, Table 11.4 case 8a; Timoshenko, clamped square plate",
        place="edge moment -0.0513 q a2, beta1 = 0.3078 for a/b = 1",
        known="recalled",
    ),
    Case(
        "use of the water side",
        of=acrylic.face_use,
        given={"stress": acrylic.FaceStress(water_side=2.4e6, air_side=2.5e6), "limits": LIMITS},
        printed=0.8,
        to=0.0005,
        pick=lambda use: use.worst,
        source=GUIDE,
        place="3 MPa on the water side, 5 MPa on the air side",
        known="read",
    ),
    Case(
        "use of the air side",
        of=acrylic.face_use,
        given={"stress": acrylic.FaceStress(water_side=0.6e6, air_side=2.5e6), "limits": LIMITS},
        printed=0.5,
        to=0.0005,
        pick=lambda use: use.worst,
        source=GUIDE,
        place="3 MPa on the water side, 5 MPa on the air side",
        known="read",
    ),
    Case(
        "lasting modulus",
        of=acrylic.creep_modulus,
        given={"modulus": 3300e6, "ratio": 0.5},
        printed=1650.0,
        to=0.5,
        unit=MPA,
        source="half of the short-term modulus 3300 MPa, ISO 899-1 curves",
        place="creep of PMMA after years at 23 degC",
        known="recalled",
    ),
    _runs("cool window", 20.0, 0.5),
    _runs("window at the test temperature", 23.0, 0.5),
    _runs("warm window", 30.0, 0.33),
    _runs("window of which nobody has said", None, 0.33),
    Case(
        "growth with heat and moisture together",
        of=acrylic.growth_gap,
        given={"length": 1.0, "expansion": 0.0, "temp_rise": 0.0, "moisture_growth": 0.005},
        printed=5.0,
        to=0.05,
        unit=1e-3,
        source="cast PMMA sheet maker's data sheet",
        place="0.5 % possible change of length: 5 mm to the metre",
        known="read",
    ),
    Case(
        "growth of a 48 inch sheet over 100 degF",
        of=acrylic.growth_gap,
        given={"length": 48 * INCH, "expansion": 7.2e-5, "temp_rise": 100 / 1.8, "moisture_growth": 0.0},
        printed=3 / 16,
        to=1 / 64,
        why="printed as approximately 3/16 in",
        unit=INCH,
        source=GLAZING,
        place="expansion and contraction",
        known="read",
    ),
    Case(
        "growth of a sheet from dry to soaked",
        of=acrylic.growth_gap,
        given={"length": 2.0, "expansion": 0.0, "temp_rise": 0.0, "moisture_growth": 0.006},
        printed=12.0,
        to=0.05,
        unit=1e-3,
        source=GLAZING,
        place="0.6 % at 100 % relative humidity",
        known="read",
    ),
    _thickness(10.0, 8.60),
    _thickness(12.0, 10.40),
    _thickness(15.0, 13.10),
    _thickness(20.0, 17.60),
    Case(
        "bow of a sheet one face of which has grown",
        of=acrylic.gradient_bow,
        given={"length": 2.4, "thickness": 0.05, "strain_difference": 7.2e-5 * 10.0},
        printed=10.4,
        to=0.05,
        unit=1e-3,
        source="hand sum: 0.00072 times 2.4 m squared over 8 times 0.05 m",
        place="ten degrees across 50 mm",
        known="computed",
    ),
]


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_printed_value(case: Case) -> None:
    assert case.holds()


def test_a_hot_window_proves_nothing() -> None:
    runs = acrylic.creep_runs(CREEP, 85.0)
    assert runs.too_hot
    assert runs.caution == acrylic.TOO_HOT


def test_an_unsaid_temperature_is_asked_for() -> None:
    runs = acrylic.creep_runs(CREEP, None)
    assert runs.asks_temperature
    assert runs.ratios == (0.5, 0.33)
    assert runs.caution
