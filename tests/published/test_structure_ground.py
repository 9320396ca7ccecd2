"""Wall lines on footings and slabs, floor classes, against print."""

from __future__ import annotations

import pytest

from tests.published.case import (
    FOOT,
    INCH,
    LBF,
    PCF,
    PSF,
    PSI,
    Case,
    marked,
)
from tidestead.physics.structure import ground

MANUAL = "TM 5-809-12 / AFM 88-3 chapter 15 (1987), now UFC 3-320-06A"
PLF = LBF / FOOT
PCI = LBF / INCH**3

FLEXURAL = (550.0, 600.0, 650.0, 700.0)
"""Flexural strength of the columns of table 3-2, psi; nine times the root of the compressive strength."""

TABLE_3_2 = {
    4: (425, 455, 485, 510),
    5: (565, 600, 640, 675),
    6: (710, 755, 805, 850),
    7: (860, 920, 975, 1030),
    8: (1015, 1080, 1150, 1215),
    9: (1175, 1255, 1330, 1410),
    10: (1340, 1430, 1520, 1605),
}
"""Line load in lb/ft by slab thickness in inches."""

OFF = {
    (6, 650.0): "the manual's own equation gives 802 lb/ft; the table prints 805",
    (7, 600.0): "the manual's own equation gives 916 lb/ft; the table prints 920",
}
"""Two of 28 entries that the manual's equation does not give to its rounding."""


def _slab(thickness_in: float, flexural_psi: float, subgrade_pci: float = 100.0) -> ground.GroundSlab:
    return ground.GroundSlab(
        thickness=thickness_in * INCH,
        concrete_strength=(flexural_psi / 9.0) ** 2 * PSI,
        subgrade=subgrade_pci * PCI,
    )


CASES = [
    Case(
        f"wall line inside a slab of {thickness} in, flexural strength {strength:g} psi",
        of=ground.slab_line_load,
        given={"slab": _slab(thickness, strength)},
        printed=float(printed),
        to=2.6,
        why="the table is rounded to 5 lb/ft",
        unit=PLF,
        source=MANUAL,
        place="table 3-2, subgrade modulus 100 lb/in3",
        known="read",
        differs=OFF.get((thickness, strength), ""),
    )
    for thickness, row in TABLE_3_2.items()
    for strength, printed in zip(FLEXURAL, row, strict=True)
] + [
    Case(
        "wall line at the free edge of a slab of 4 in",
        of=ground.slab_edge_line_load,
        given={"slab": _slab(4, 550.0)},
        printed=330.5,
        to=0.05,
        unit=PLF,
        source=MANUAL,
        place="9.9256 sqrt(fc) t2 (k/(19000 sqrt(fc) t3))^0.25 by hand; the equation was read, not table 3-3",
        known="computed",
    ),
    Case(
        "footing of 24 inches under 3,000 lb/ft",
        of=ground.line_footing_pressure,
        given={"line_load": 3000 * PLF, "width": 24 * INCH},
        printed=1500.0,
        to=0.5,
        unit=PSF,
        source="elementary statics",
        place="3,000 lb/ft over two feet",
        known="computed",
    ),
    Case(
        "footing on clay of 1,500 psf under 3,000 lb/ft",
        of=ground.footing_width,
        given={"line_load": 3000 * PLF, "bearing": 1500 * PSF},
        printed=24.0,
        to=0.05,
        unit=INCH,
        source="International Building Code 2012, Table 1806.2, clay",
        place="1,500 psf; the width follows by hand",
        known="computed",
    ),
    Case(
        "wall plate of 5.5 in on a slab of 5 in",
        of=ground.spread_width,
        given={"contact": 5.5 * INCH, "slab_thickness": 5 * INCH, "free_sides": 2.0},
        printed=15.5,
        to=0.05,
        unit=INCH,
        source="common practice, no source",
        place="45 degrees to both sides",
        known="practice",
    ),
    Case(
        "the same at the edge of the slab",
        of=ground.spread_width,
        given={"contact": 5.5 * INCH, "slab_thickness": 5 * INCH, "free_sides": 1.0},
        printed=10.5,
        to=0.05,
        unit=INCH,
        source="common practice, no source",
        place="45 degrees to one side",
        known="practice",
    ),
    Case(
        "wall line of 210 lb/ft on that strip beside four feet of water",
        of=ground.edge_strip_pressure,
        given={"line_load": 210 * PLF, "width": 10.5 * INCH, "spread": 256 * PSF},
        printed=496.0,
        to=0.5,
        unit=PSF,
        source="hand sum",
        place="240 psf from the wall and 256 psf from the water; compare 500 psf for very soft clay",
        known="computed",
    ),
    Case(
        "depth that uses up a house floor",
        of=ground.depth_for_class,
        given={"live_load": 40 * PSF, "density": 64 * PCF},
        printed=7.5,
        to=0.05,
        unit=INCH,
        source="ASCE 7-22, Table 4.3-1",
        place="40 psf over 64 lb/ft3",
        known="quoted",
    ),
    Case(
        "depth that uses up heavy storage",
        of=ground.depth_for_class,
        given={"live_load": 250 * PSF, "density": 64 * PCF},
        printed=3.9,
        to=0.05,
        unit=FOOT,
        source="ASCE 7-22, Table 4.3-1",
        place="250 psf over 64 lb/ft3",
        known="quoted",
    ),
]


@pytest.mark.parametrize("case", [marked(case) for case in CASES])
def test_printed_value(case: Case) -> None:
    assert case.holds()


@pytest.mark.parametrize(("subgrade", "printed"), [(25, 1.3), (50, 1.1), (100, 1.0), (200, 0.9), (300, 0.8)])
def test_thickness_for_other_ground(subgrade: float, printed: float) -> None:
    """TM 5-809-12, note to table 3-2: thickness times the fifth root of 100/k, printed to one digit."""
    bears = ground.slab_line_load(_slab(6 * (100 / subgrade) ** 0.2, 600.0, subgrade))
    assert bears == pytest.approx(ground.slab_line_load(_slab(6, 600.0)), rel=1e-12)
    assert round((100 / subgrade) ** 0.2, 1) == pytest.approx(printed, abs=0.051)
