"""Solid timber and glulam by Eurocode 5 against print."""

from __future__ import annotations

import math
import operator

import pytest

from tests.published.case import Case
from tidestead.physics.structure import eurocode

EC5 = "EN 1995-1-1"
KVH = "Ueberwachungsgemeinschaft KVH, example of a timber beam ceiling"
PORTEOUS = "J. Porteous and A. Kermani, Structural Timber Design to Eurocode 5"
BENOIT = "Y. Benoit, B. Legrand, V. Tastet, Calcul des structures en bois (2008)"
NOTES = "open notebook of an engineer on Eurocode 5 connections"
BY_HAND = "the formula as quoted, worked by hand"
MM = 1e-3
MPA = 1e6

C24 = eurocode.LumberStrength(
    bending=24 * MPA,
    tension=14.5 * MPA,
    shear=4.0 * MPA,
    compression_across=2.5 * MPA,
    compression=21 * MPA,
    modulus=11e9,
    modulus_fifth=7.4e9,
    density=350.0,
)


def _use(kmod: float, depth: float, system: float = 1.0, glulam: bool = False) -> eurocode.EcConditions:
    return eurocode.EcConditions(
        kmod=kmod, gamma_m=1.3, kdef=0.8, depth=depth, widest=depth, system=system, glulam=glulam
    )


CASES = [
    Case(
        "permanent load on a ceiling",
        of=eurocode.design_action,
        given={"characteristic": 1.75, "load_factor": 1.35},
        printed=2.36,
        to=0.005,
        source=KVH,
        place="2, combination 1",
        known="read",
    ),
    Case(
        "bending strength of C24 under medium-term load",
        of=eurocode.design_strength,
        given={"characteristic": 24 * MPA, "kmod": 0.8, "gamma_m": 1.3},
        printed=14.8,
        to=0.05,
        unit=MPA,
        source=KVH,
        place="5, preliminary estimate",
        known="read",
    ),
    Case(
        "shear strength of C24 for good",
        of=eurocode.design_strength,
        given={"characteristic": 4.0 * MPA, "kmod": 0.6, "gamma_m": 1.3},
        printed=1.846,
        to=0.0005,
        unit=MPA,
        source="test file of an open Eurocode 5 checker",
        place="rectangular section 60 by 140 mm",
        known="read",
    ),
    Case(
        "pull-through of a screw's head for good",
        of=eurocode.design_strength,
        given={"characteristic": 857.5, "kmod": 0.6, "gamma_m": 1.3},
        printed=395.77,
        to=0.005,
        source=NOTES,
        place="screw 5 mm, head 10 mm, C24, service class 2",
        known="read",
    ),
    Case(
        "depth factor at 100 mm",
        of=eurocode.solid_depth_factor,
        given={"depth": 0.100, "density": 350.0},
        printed=1.08,
        to=0.005,
        source=EC5,
        place="3.2(3), handbook tables of k_h",
        known="recalled",
    ),
    Case(
        "depth factor at 40 mm stops at 1.3",
        of=eurocode.solid_depth_factor,
        given={"depth": 0.038, "density": 350.0},
        printed=1.3,
        to=0.005,
        source=EC5,
        place="3.2(3)",
        known="quoted",
    ),
    Case(
        "no depth factor for dense hardwood",
        of=eurocode.solid_depth_factor,
        given={"depth": 0.100, "density": 750.0},
        printed=1.0,
        to=0.005,
        source=EC5,
        place="3.2(3)",
        known="quoted",
    ),
    Case(
        "depth factor of glulam at 400 mm",
        of=eurocode.glulam_depth_factor,
        given={"depth": 0.400},
        printed=1.04,
        to=0.005,
        source=EC5,
        place="3.3(3), handbook tables of k_h",
        known="recalled",
    ),
    Case(
        "modulus of C24 after creep, class 2",
        of=eurocode.final_modulus,
        given={"modulus": 11e9, "kdef": 0.8},
        printed=6111.0,
        to=0.5,
        unit=MPA,
        source=BY_HAND,
        place="2.3.2.2, equation 2.7",
        known="computed",
    ),
    Case(
        "bow after creep of a bow half permanent",
        of=eurocode.final_deflection,
        given={"permanent": 5.0 * MM, "passing": 5.0 * MM, "kdef": 0.8, "quasi_permanent": 0.3},
        printed=15.2,
        to=0.05,
        unit=MM,
        source=BY_HAND,
        place="2.2.3(5), equations 2.3 and 2.4",
        known="computed",
    ),
    Case(
        "bending of wet C24 for good",
        of=eurocode.design_lumber,
        given={"strength": C24, "conditions": _use(0.5, 0.150)},
        printed=9.23,
        to=0.005,
        unit=MPA,
        pick=operator.attrgetter("bending"),
        source=EC5,
        place="k_mod of Table 3.1, EN 338:2016 C24",
        known="computed",
    ),
    Case(
        "share of bending used by a floor joist 75 by 200",
        of=eurocode.design_lumber,
        given={"strength": C24, "conditions": _use(0.8, 0.200, system=1.1)},
        printed=0.4557,
        to=0.00005,
        pick=lambda timber: 0.5 * (1.35 * 500 + 1.5 * 1500) * 4.5**2 / 8 / 500e-6 / timber.bending,
        source=BENOIT,
        place="example 2.3.1",
        known="quoted",
    ),
    Case(
        "glulam takes its own depth factor",
        of=eurocode.design_lumber,
        given={"strength": C24, "conditions": _use(0.6, 0.400, glulam=True)},
        printed=1.041,
        to=0.0005,
        pick=operator.attrgetter("bending_depth_factor"),
        source=BY_HAND,
        place="3.3(3), equation 3.2",
        known="computed",
    ),
    Case(
        "bearing of 100 mm at the end of a timber",
        of=eurocode.bearing_length,
        given={"contact": 0.100, "end": 0.0, "gap": 3.0},
        printed=130.0,
        to=0.5,
        unit=MM,
        source=EC5,
        place="6.1.5(1), amendment A1",
        known="recalled",
    ),
    Case(
        "bearing of 100 mm in the middle of a timber",
        of=eurocode.bearing_length,
        given={"contact": 0.100, "end": 1.0, "gap": 3.0},
        printed=160.0,
        to=0.5,
        unit=MM,
        source=EC5,
        place="6.1.5(1), amendment A1",
        known="recalled",
    ),
    Case(
        "pull and bend about both axes",
        of=eurocode.tension_bending_use,
        given={"tension": 0.3, "strong": 0.4, "weak": 0.2},
        printed=0.84,
        to=0.005,
        source=BY_HAND,
        place="6.2.3, equations 6.17 and 6.18",
        known="computed",
    ),
    Case(
        "slenderness of a column 100 mm thick and 3.75 m high",
        of=eurocode.relative_slenderness,
        given={"length": 3.75, "depth": 0.100, "compression": 21 * MPA, "modulus_fifth": 7.4e9},
        printed=129.9,
        to=0.05,
        pick=lambda relative: relative * math.pi / math.sqrt(21 / 7400),
        source=PORTEOUS,
        place="example 5.7.3, lambda_z",
        known="read",
    ),
    Case(
        "push and bend of a slender column",
        of=eurocode.compression_bending_use,
        given={"compression": 0.5, "bending": 0.3, "slenderness": 1.0},
        printed=0.8,
        to=0.005,
        source=BY_HAND,
        place="6.3.2, equation 6.23",
        known="computed",
    ),
    Case(
        "push and bend of a stocky column",
        of=eurocode.compression_bending_use,
        given={"compression": 0.5, "bending": 0.3, "slenderness": 0.2},
        printed=0.55,
        to=0.005,
        source=BY_HAND,
        place="6.2.4, equation 6.19",
        known="computed",
    ),
]


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_timber_of_eurocode_agrees_with_print(case: Case) -> None:
    assert case.holds(), case.ours()
