"""Sawn lumber by the American rules against print."""

from __future__ import annotations

import dataclasses
import operator
from collections.abc import Callable
from typing import Any

import pytest

from tests.published.case import INCH, PSI, Case
from tidestead.physics.structure import nds

SUPPLEMENT = "AWC, NDS Supplement (2018)"
RULES = "AWC, NDS-2018"
AWC = "AWC, Structural Wood Design Solved Example Problems (2015/2018)"
HUD = "HUD, Residential Structural Design Guide, 2nd edition (2017)"
STUD = "worked stud, 4 ft of water at 64 lb/ft3, studs 16 in apart, SPF No.2 2x6"

HEM_FIR = nds.LumberReference(
    bending=850 * PSI,
    tension=525 * PSI,
    shear=150 * PSI,
    compression_across=405 * PSI,
    compression=1300 * PSI,
    modulus=1.3e6 * PSI,
    modulus_min=470e3 * PSI,
)
SPF = nds.LumberReference(
    bending=875 * PSI,
    tension=450 * PSI,
    shear=135 * PSI,
    compression_across=425 * PSI,
    compression=1150 * PSI,
    modulus=1.4e6 * PSI,
    modulus_min=510e3 * PSI,
)
JOIST = dataclasses.replace(HEM_FIR, bending=975 * PSI, modulus=1.5e6 * PSI)
TWO_BY_EIGHT = nds.NdsConditions(duration=0.9, thickness=1.5 * INCH, width=7.25 * INCH)
SHORT_WIND = dataclasses.replace(TWO_BY_EIGHT, duration=1.6)
FLOOR = dataclasses.replace(TWO_BY_EIGHT, duration=1.0, repetitive=True)
WET_STUD = nds.NdsConditions(duration=0.9, thickness=1.5 * INCH, width=5.5 * INCH, wet=True, repetitive=True)
Said = tuple[str, str, str]
"""Source, place, how known."""


def _table(name: str, of: Callable[..., Any], given: dict[str, Any], printed: float, place: str) -> Case:
    """A factor of a table, printed with two decimals."""
    return Case(
        name, of=of, given=given, printed=printed, to=0.005, source=SUPPLEMENT, place=place, known="quoted"
    )


def _adjusted(
    name: str, of: tuple[Any, Any], printed: float, pick: Callable[[Any], float], said: Said, **more: Any
) -> Case:
    """An adjusted value of a piece of lumber in psi, or what the case says more."""
    source, place, known = said
    given = dict(zip(("reference", "conditions"), of, strict=True))
    rest = {"to": 0.5, "unit": PSI} | more
    return Case(
        name,
        of=nds.adjusted_lumber,
        given=given,
        printed=printed,
        pick=pick,
        source=source,
        place=place,
        known=known,
        **rest,
    )


BENDING = operator.attrgetter("bending")
TENSION = operator.attrgetter("tension")
SIZES = "Table 4A, size factors"
FLAT = "Table 4A, flat use"
WET = "Table 4A, wet service"
PLANK = {"thickness": 1.5 * INCH}
BEAM = {"thickness": 3.5 * INCH}

FACTORS = [
    _table("size factor of a 2x4", nds.bending_size_factor, {**PLANK, "width": 3.5 * INCH}, 1.5, SIZES),
    _table("size factor of a 2x6", nds.bending_size_factor, {**PLANK, "width": 5.5 * INCH}, 1.3, SIZES),
    _table("size factor of a 2x8", nds.bending_size_factor, {**PLANK, "width": 7.25 * INCH}, 1.2, SIZES),
    _table("size factor of a 2x10", nds.bending_size_factor, {**PLANK, "width": 9.25 * INCH}, 1.1, SIZES),
    _table("size factor of a 2x12", nds.bending_size_factor, {**PLANK, "width": 11.25 * INCH}, 1.0, SIZES),
    _table("size factor of a 2x14", nds.bending_size_factor, {**PLANK, "width": 13.25 * INCH}, 0.9, SIZES),
    _table("size factor of a 4x8", nds.bending_size_factor, {**BEAM, "width": 7.25 * INCH}, 1.3, SIZES),
    _table("size factor of a 4x12", nds.bending_size_factor, {**BEAM, "width": 11.25 * INCH}, 1.1, SIZES),
    _table("size factor of a pulled 2x6", nds.tension_size_factor, {"width": 5.5 * INCH}, 1.3, SIZES),
    _table("size factor of a pulled 2x12", nds.tension_size_factor, {"width": 11.25 * INCH}, 1.0, SIZES),
    _table("size factor of a pressed 2x4", nds.compression_size_factor, {"width": 3.5 * INCH}, 1.15, SIZES),
    _table("size factor of a pressed 2x6", nds.compression_size_factor, {"width": 5.5 * INCH}, 1.1, SIZES),
    _table("size factor of a pressed 2x8", nds.compression_size_factor, {"width": 7.25 * INCH}, 1.05, SIZES),
    _table("flat 2x3", nds.flat_use_factor, {**PLANK, "width": 2.5 * INCH}, 1.0, FLAT),
    _table("flat 2x4", nds.flat_use_factor, {**PLANK, "width": 3.5 * INCH}, 1.1, FLAT),
    _table("flat 2x6", nds.flat_use_factor, {**PLANK, "width": 5.5 * INCH}, 1.15, FLAT),
    _table("flat 2x10", nds.flat_use_factor, {**PLANK, "width": 9.25 * INCH}, 1.2, FLAT),
    _table("flat 4x6", nds.flat_use_factor, {**BEAM, "width": 5.5 * INCH}, 1.05, FLAT),
    _table(
        "wet SPF 2x6 stays under the limit",
        nds.wet_bending_factor,
        {"reference": 875 * PSI, "size_factor": 1.3},
        1.0,
        WET,
    ),
    _table(
        "wet DFL 2x6 passes the limit",
        nds.wet_bending_factor,
        {"reference": 900 * PSI, "size_factor": 1.3},
        0.85,
        WET,
    ),
    _table(
        "wet SPF pressed",
        nds.wet_compression_factor,
        {"reference": 1150 * PSI, "size_factor": 1.1},
        0.8,
        WET,
    ),
    _table(
        "weak wood pressed and wet",
        nds.wet_compression_factor,
        {"reference": 650 * PSI, "size_factor": 1.15},
        1.0,
        WET,
    ),
    Case(
        "bearing of 2 in in the middle of a timber",
        of=nds.bearing_area_factor,
        given={"length": 2.0 * INCH},
        printed=1.19,
        to=0.005,
        source=RULES,
        place="Table 3.10.4",
        known="recalled",
    ),
    Case(
        "bearing of 1 in in the middle of a timber",
        of=nds.bearing_area_factor,
        given={"length": 1.0 * INCH},
        printed=1.38,
        to=0.0051,
        why="1.375 is printed as 1.38",
        source=RULES,
        place="Table 3.10.4",
        known="recalled",
    ),
    Case(
        "bearing of 6 in",
        of=nds.bearing_area_factor,
        given={"length": 6.0 * INCH},
        printed=1.0,
        to=0.005,
        source=RULES,
        place="Table 3.10.4",
        known="recalled",
    ),
    *[
        Case(
            f"{'wet' if wet else 'dry'} wood at {temp_c:g} degC",
            of=nds.temperature_factor,
            given={"temp_c": temp_c, "wet": wet},
            printed=printed,
            to=0.005,
            source=RULES,
            place="Table 2.3.3",
            known="quoted",
        )
        for temp_c, wet, printed in (
            (35.0, False, 1.0),
            (45.0, False, 0.8),
            (60.0, False, 0.7),
            (35.0, True, 1.0),
            (45.0, True, 0.7),
            (60.0, True, 0.5),
        )
    ],
    *[
        Case(
            f"stiffness of wood at {temp_c:g} degC",
            of=nds.stiffness_temperature_factor,
            given={"temp_c": temp_c},
            printed=printed,
            to=0.005,
            source=RULES,
            place="Table 2.3.3",
            known="quoted",
        )
        for temp_c, printed in ((35.0, 1.0), (45.0, 0.9), (60.0, 0.9))
    ],
    Case(
        "all factors on bending of a Hem-Fir 2x8 for good",
        of=nds.lumber_factors,
        given={"reference": HEM_FIR, "conditions": TWO_BY_EIGHT},
        printed=918.0 / 850.0,
        to=0.0006,
        why="quotient of two printed whole numbers",
        pick=lambda factors: factors.bending,
        source=AWC,
        place="example E1.6, load case 3",
        known="quoted",
    ),
]

E16_DEAD = (AWC, "example E1.6, load case 3", "quoted")
E16_WIND = (AWC, "example E1.6, load case 1", "quoted")
JOIST_51 = (HUD, "example 5.1, adjusted design values", "quoted")


def _worked(place: str) -> Said:
    return STUD, place, "computed"


ADJUSTED = [
    _adjusted("bending of a Hem-Fir 2x8, dead load", (HEM_FIR, TWO_BY_EIGHT), 918.0, BENDING, E16_DEAD),
    _adjusted("tension of a Hem-Fir 2x8, dead load", (HEM_FIR, TWO_BY_EIGHT), 567.0, TENSION, E16_DEAD),
    _adjusted("bending of a Hem-Fir 2x8, wind", (HEM_FIR, SHORT_WIND), 1632.0, BENDING, E16_WIND),
    _adjusted("tension of a Hem-Fir 2x8, wind", (HEM_FIR, SHORT_WIND), 1008.0, TENSION, E16_WIND),
    _adjusted(
        "bending of a floor joist",
        (JOIST, FLOOR),
        1345.0,
        BENDING,
        JOIST_51,
        to=0.6,
        why="the print cuts 1345.5",
    ),
    _adjusted(
        "bearing of a floor joist across the grain",
        (JOIST, FLOOR),
        405.0,
        lambda values: values.compression_across,
        JOIST_51,
    ),
    _adjusted("bending of the worked stud, wet", (SPF, WET_STUD), 1177.0, BENDING, _worked("F_b'")),
    _adjusted(
        "share of bending used by the worked stud",
        (SPF, WET_STUD),
        0.472,
        lambda values: 556.0 * PSI / values.bending,
        _worked("f_b over F_b'"),
        unit=1.0,
        to=0.0005,
    ),
    _adjusted(
        "shear of the worked stud, wet",
        (SPF, WET_STUD),
        117.9,
        lambda values: values.shear,
        _worked("F_v'"),
        to=0.05,
    ),
    _adjusted(
        "share of shear used by the worked stud",
        (SPF, WET_STUD),
        0.702,
        lambda values: 82.745 * PSI / values.shear,
        _worked("f_v over F_v'"),
        unit=1.0,
        to=0.0005,
    ),
    _adjusted(
        "modulus of the worked stud, wet",
        (SPF, WET_STUD),
        1.26,
        lambda values: values.modulus,
        _worked("E' = 0.9 * 1.4e6"),
        unit=1e6 * PSI,
        to=0.005,
    ),
    Case(
        "bow of the worked stud after creep",
        of=nds.long_term_deflection,
        given={"permanent": 0.0376 * INCH, "passing": 0.0, "creep_factor": 2.0},
        printed=0.075,
        to=0.0005,
        unit=INCH,
        source=STUD,
        place="K_cr = 2",
        known="computed",
    ),
    Case(
        "pull and bend of a truss chord, dead load",
        of=nds.tension_bending_use,
        given={"tension": 130.57466 / 567.0, "bending": 6912.0 / 13.140625 / 918.0},
        printed=0.803,
        to=0.0005,
        source=AWC,
        place="example E1.6, load case 3",
        known="quoted",
    ),
]

CASES = FACTORS + ADJUSTED


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_lumber_agrees_with_print(case: Case) -> None:
    assert case.holds(), case.ours()
