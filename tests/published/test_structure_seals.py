"""Bearing on the seat, silicone bite and stretch of seals against print."""

from __future__ import annotations

import pytest

from tests.published.case import FOOT, INCH, PSF, PSI, Case
from tidestead.physics.structure import seals

HANDBOOK = "Construction Waterproofing Handbook"
ROARK = "Roark's Formulas for Stress and Strain, Table 11.4 case 1a"

CASES = [
    Case(
        "bite of a pane of 8 by 16 feet under 60 psf",
        of=seals.silicone_bite,
        given={"short_side": 8 * FOOT, "pressure": 60 * PSF, "strength": 20 * PSI},
        printed=1.0,
        to=0.005,
        unit=INCH,
        source=HANDBOOK,
        place="page 5.51, worked example",
        known="read",
    ),
    Case(
        "bite that would hold a window 1.2 m high against its own water",
        of=seals.silicone_bite,
        given={"short_side": 1.2, "pressure": 12.06e3, "strength": 7e3},
        printed=1.03,
        to=0.005,
        source=HANDBOOK,
        place="rule of page 5.51 with the permanent shear of 7 kPa: impossible, so the seat must bear",
        known="computed",
    ),
    Case(
        "seat of 40 mm under the edge of a square pane",
        of=seals.seat_bearing,
        given={"line_load": 0.420 * 10e3 * 1.0, "width": 0.04},
        printed=105.0,
        to=0.5,
        unit=1000.0,
        source=ROARK,
        place="edge reaction 0.420 q b for a/b = 1, over a seat of 40 mm",
        known="computed",
    ),
    Case(
        "the same seat where the sheet turns on it",
        of=seals.seat_peak,
        given={"line_load": 0.420 * 10e3 * 1.0, "width": 0.04},
        printed=210.0,
        to=0.5,
        unit=1000.0,
        source=ROARK,
        place="edge reaction 0.420 q b for a/b = 1, triangle over 40 mm",
        known="computed",
    ),
    Case(
        "bed of 8 mm pulled by a turn of 0.02 at an arm of 50 mm",
        of=seals.rotation_strain,
        given={"rotation_rad": -0.02, "arm": 0.05, "thickness": 0.008},
        printed=0.125,
        to=0.0005,
        source="hand sum: 1 mm over 8 mm",
        place="stretch of a bed",
        known="computed",
    ),
    Case(
        "one millimetre along a bed of eight",
        of=seals.shear_strain,
        given={"movement": -0.001, "thickness": 0.008},
        printed=0.125,
        to=0.0005,
        source="structural silicone approvals",
        place="movement of 12.5 % of the joint's thickness",
        known="quoted",
    ),
    Case(
        "sealant that stretches a quarter follows three quarters in shear",
        of=seals.shear_stretch,
        given={"movement": 0.0075, "thickness": 0.010},
        printed=0.25,
        to=0.0005,
        source="sealant makers' design manuals",
        place="shear of a joint with 25 % movement: the 3-4-5 triangle",
        known="recalled",
    ),
    Case(
        "joint of a sealant that follows a quarter",
        of=seals.joint_width,
        given={"movement": 0.002, "capability": 0.25, "tolerance": 0.0},
        printed=8.0,
        to=0.05,
        unit=1e-3,
        source="sealant maker's page, design for sealant movement",
        place="joints of four times the anticipated movement",
        known="read",
    ),
    Case(
        "joint with the builder's tolerance",
        of=seals.joint_width,
        given={
            "movement": 0.0821 * INCH + 0.125 * INCH + 0.048 * INCH,
            "capability": 0.5,
            "tolerance": INCH / 8,
        },
        printed=0.635,
        to=0.0005,
        unit=INCH,
        source="J. Ochshorn, Cornell University, building technology assignment on sealant joints",
        place="W = (100/X)(e L dT + M) + t with its numbers, worked by hand",
        known="computed",
    ),
]


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_printed_value(case: Case) -> None:
    assert case.holds()
