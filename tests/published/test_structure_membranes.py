"""What linings can follow, against print."""

from __future__ import annotations

import pytest

from tests.published.case import Case
from tidestead.physics.structure import membranes

CASES = [
    Case(
        "a film as thick as tested bridges what was tested",
        of=membranes.bridgeable_opening,
        given={"tested": 3.2e-3, "tested_film": 1.5e-3, "film": 1.5e-3},
        printed=3.2,
        to=0.05,
        unit=1e-3,
        source="ASTM C1305",
        place="3.2 mm at a film of 1.5 mm",
        known="recalled",
    ),
    Case(
        "half the film bridges half",
        of=membranes.bridgeable_opening,
        given={"tested": 3.2e-3, "tested_film": 1.5e-3, "film": 0.75e-3},
        printed=1.6,
        to=0.05,
        unit=1e-3,
        source="common practice, no source",
        place="in proportion to the film",
        known="practice",
    ),
    Case(
        "twice the film is credited with no more",
        of=membranes.bridgeable_opening,
        given={"tested": 3.2e-3, "tested_film": 1.5e-3, "film": 3.0e-3},
        printed=3.2,
        to=0.05,
        unit=1e-3,
        source="common practice, no source",
        place="not above what was tested",
        known="practice",
    ),
    Case(
        "a quarter of the two-way elongation of EPDM",
        of=membranes.allowed_strain,
        given={"elongation": 1.0, "safety": 4.0},
        printed=0.25,
        to=0.0005,
        source="ASTM D7465 minima for EPDM geomembrane",
        place="two-way elongation 100 %, with a stated safety of 4",
        known="practice",
    ),
    Case(
        "opening over a free strip of 25 mm",
        of=membranes.free_width_opening,
        given={"strain": 0.25, "free_width": 0.025},
        printed=6.25,
        to=0.005,
        unit=1e-3,
        source="definition of strain",
        place="a quarter of 25 mm",
        known="computed",
    ),
    Case(
        "sheet over a joint that opens 6 mm, free over 100 mm",
        of=membranes.bridging_strain,
        given={"opening": 0.006, "free_length": 0.1},
        printed=0.06,
        to=0.0005,
        why="the printed share is exact",
        source="definition of strain",
        place="6 mm over 100 mm",
        known="computed",
    ),
]


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_printed_value(case: Case) -> None:
    assert case.holds()
