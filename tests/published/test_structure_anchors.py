"""Anchors near the edge of a slab against an anchor maker's worked examples."""

from __future__ import annotations

import pytest

from tests.published.case import INCH, LBF, PSI, Case
from tidestead.physics.structure import anchors

GUIDE = "anchor maker's design guide for concrete breakout in shear, ACI 318-19"


def _anchor(diameter: float, embedment: float, edge: float, strength: float) -> anchors.EdgeAnchor:
    """Inches and psi; a thick slab, anchors far apart."""
    return anchors.EdgeAnchor(
        diameter=diameter * INCH,
        embedment=embedment * INCH,
        edge=edge * INCH,
        spacing=100.0 * INCH,
        slab_thickness=100.0 * INCH,
        concrete_strength=strength * PSI,
    )


def _thickness(page: int, slab: float, edge: float, printed: float) -> Case:
    return Case(
        f"slab of {slab:g} in with the edge at {edge:g} in",
        of=anchors.thin_slab_factor,
        given={"slab_thickness": slab, "edge": edge},
        printed=printed,
        to=0.006,
        why="the guide cuts off the third digit in places (1.225 as 1.23, 1.095 as 1.10)",
        unit=slab / (1.5 * edge),
        source=GUIDE,
        place=f"page {page}: thickness factor beside the area ratio h/(1.5 c)",
        known="read",
    )


CASES = [
    Case(
        "3/4 in anchor, 6 in to the edge, 5,000 psi",
        of=anchors.single_breakout,
        given={"anchor": _anchor(0.75, 10.0, 6.0, 5000.0)},
        printed=9353.0,
        to=0.5,
        unit=LBF,
        source=GUIDE,
        place="page 98: min of 9549 and 9353 lb",
        known="read",
    ),
    Case(
        "1/2 in anchor, 5 in to the edge, 3,000 psi",
        of=anchors.single_breakout,
        given={"anchor": _anchor(0.5, 3.25, 5.0, 3000.0)},
        printed=4407.0,
        to=0.5,
        unit=LBF,
        source=GUIDE,
        place="page 157: min of 4407 and 5511 lb",
        known="read",
    ),
    _thickness(149, 6.0, 6.0, 1.23),
    _thickness(78, 15.0, 14.0, 1.18),
    _thickness(99, 12.0, 18.0, 1.5),
    _thickness(88, 10.0, 8.0, 1.10),
    Case(
        "anchors at half the width of their cones",
        of=anchors.row_factor,
        given={"spacing": 9.0, "edge": 6.0},
        printed=0.5,
        to=0.005,
        source="ACI 318-19, 17.7.2.1",
        place="9 in of a cone 18 in wide, by hand",
        known="computed",
    ),
    Case(
        "row in a thin slab",
        of=anchors.row_breakout,
        given={
            "anchor": anchors.EdgeAnchor(0.75 * INCH, 10 * INCH, 6 * INCH, 9 * INCH, 6 * INCH, 5000 * PSI)
        },
        printed=3818.0,
        to=0.5,
        unit=LBF,
        source=GUIDE,
        place="9353 lb times the root of 6/9 times 9/18, by hand",
        known="computed",
    ),
    Case(
        "design breakout of a row",
        of=anchors.lasting_shear,
        given={"nominal": 25089.0},
        printed=17562.0,
        to=0.5,
        unit=1.0 / 1.4,
        source=GUIDE,
        place="page 90: 0.70 times 25,089 lb, before the load factor of 1.4",
        known="read",
    ),
    Case(
        "edge for a torqued expansion anchor of half an inch",
        of=anchors.least_edge,
        given={"diameter": 0.5, "sort": "torqued"},
        printed=4.0,
        to=0.05,
        source="anchor maker's guide, ACI 318-14 section 17.7.3",
        place="torque-controlled anchors 8 d",
        known="read",
    ),
    Case(
        "edge for an adhesive anchor of 12 mm",
        of=anchors.least_edge,
        given={"diameter": 12.0, "sort": "adhesive"},
        printed=72.0,
        to=0.5,
        source="anchor maker's guide, ACI 318-14 section 17.7.3",
        place="adhesive anchors 6 d",
        known="read",
    ),
    Case(
        "edge at which a cone four inches deep is whole",
        of=anchors.full_cone_edge,
        given={"embedment": 4.0},
        printed=6.0,
        to=0.05,
        source="anchor maker's guide, ACI 318-19 section 17.6.2.1.4",
        place="edge distance of at least 1.5 h_ef",
        known="read",
    ),
]


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_printed_value(case: Case) -> None:
    assert case.holds()
