"""Plywood reckoned from its veneers against the printed values of whole sheets."""

from __future__ import annotations

import operator
from collections.abc import Callable
from typing import Any

import pytest

from tests.published.case import Case
from tidestead.physics.structure import plywood

HANDBOOK = "Finnish Forest Industries Federation, Handbook of Finnish Plywood (2002, 2007)"
PORTEOUS = "J. Porteous and A. Kermani, Structural Timber Design to Eurocode 5"
MM = 1e-3
MPA = 1e6

VENEER_MODULUS = 17.5e9
VENEER_BENDING = 70 * MPA
VENEER_ROLLING = 2.5 * MPA
VENEER_COMPRESSION = 52 * MPA
"""Birch veneer along the grain, found from the printed sheets: two numbers give all sheets of the table."""


def birch(plies: int) -> plywood.Makeup:
    """Birch plywood: veneers of 1.4 mm, faces sanded to 1.1 mm."""
    return plywood.Makeup((1.1 * MM, *([1.4 * MM] * (plies - 2)), 1.1 * MM), VENEER_MODULUS)


def spruce(*veneers: float) -> plywood.Makeup:
    """Conifer plywood of thick veneers."""
    return plywood.Makeup(tuple(veneer * MM for veneer in veneers), 12e9)


def _strip(name: str, makeup: plywood.Makeup, along: bool, printed: float, to: float = 0.5) -> Case:
    return Case(
        f"modulus of {name} {'along' if along else 'across'} the face grain",
        of=plywood.strip_section,
        given={"makeup": makeup, "along_face": along},
        printed=printed,
        to=to,
        unit=MPA,
        pick=operator.attrgetter("modulus"),
        source=HANDBOOK,
        place="section 3.1, mean modulus in bending",
        known="recalled",
    )


def _of_strip(name: str, of: Callable[..., Any], plies: int, along: bool, **more: Any) -> Case:
    said: dict[str, Any] = {"source": HANDBOOK, "place": "section 3.1", "known": "recalled"} | more
    section = plywood.strip_section(birch(plies), along)
    given = {"section": section} | said.pop("given", {})
    way = "along" if along else "across"
    return Case(f"{name}, birch of {plies} plies, {way}", of=of, given=given, **said)


def _bending(plies: int, along: bool, printed: float) -> Case:
    thickness = sum(birch(plies).veneers)
    return _of_strip(
        "bending strength",
        plywood.bending_capacity,
        plies,
        along,
        given={"veneer_strength": VENEER_BENDING},
        printed=printed,
        to=0.05,
        unit=MPA * thickness**2 / 6,
    )


def _planar(plies: int, along: bool, printed: float) -> Case:
    return _of_strip(
        "planar shear strength",
        plywood.plain_planar_strength,
        plies,
        along,
        given={"rolling_strength": VENEER_ROLLING},
        printed=printed,
        to=0.005,
        unit=MPA,
    )


STIFF = [
    _strip("birch 12 mm", birch(9), True, 10719),
    _strip("birch 12 mm", birch(9), False, 6781),
    _strip("birch 15 mm", birch(11), True, 10316),
    _strip("birch 15 mm", birch(11), False, 7184),
    _strip("birch 18 mm", birch(13), True, 10048),
    _strip("birch 18 mm", birch(13), False, 7452),
    _strip("birch 21 mm", birch(15), True, 9858),
    _strip("birch 24 mm", birch(17), False, 7783),
    _strip("spruce 9 mm", spruce(3, 3, 3), True, 11556),
    _strip("spruce 9 mm", spruce(3, 3, 3), False, 444),
    _strip("spruce 12 mm", spruce(3, 6, 3), True, 10500),
    _strip("spruce 15 mm", spruce(3, 3, 3, 3, 3), True, 9504),
    _strip("spruce 15 mm", spruce(3, 3, 3, 3, 3), False, 2496),
]

STRONG = [
    _bending(9, True, 42.9),
    _bending(9, False, 33.2),
    _bending(11, True, 41.3),
    _bending(11, False, 33.8),
    _bending(13, True, 40.2),
    _bending(13, False, 34.1),
    _bending(15, False, 34.3),
    _bending(17, True, 38.9),
    _planar(9, True, 2.78),
    _planar(9, False, 2.22),
    _planar(11, True, 2.62),
    _planar(11, False, 2.39),
    _planar(13, True, 2.67),
    _planar(13, False, 2.34),
    _planar(15, False, 2.41),
    _of_strip(
        "compression strength",
        plywood.axial_share,
        9,
        True,
        printed=27.7,
        to=0.05,
        unit=MPA / VENEER_COMPRESSION,
        source=PORTEOUS,
        place="example 10.13.2, 12 mm birch plywood of the Finnish handbook",
        known="read",
    ),
    _of_strip(
        "compression strength",
        plywood.axial_share,
        9,
        False,
        printed=24.3,
        to=0.05,
        unit=MPA / VENEER_COMPRESSION,
        source=PORTEOUS,
        place="example 10.13.2, 12 mm birch plywood of the Finnish handbook",
        known="read",
    ),
    _of_strip(
        "force that rolls a veneer",
        plywood.rolling_capacity,
        13,
        True,
        given={"rolling_strength": VENEER_ROLLING},
        printed=2.67,
        to=0.005,
        unit=MPA * 17.6 * MM / 1.5,
    ),
    _of_strip(
        "moment of the printed strength",
        plywood.plain_bending_capacity,
        13,
        True,
        given={"strength": 40.2 * MPA},
        printed=2075.4,
        to=0.05,
        place="40.2 MPa on 17.6 mm, worked by hand",
        known="computed",
    ),
    Case(
        "force of the printed planar shear strength, 18 mm birch",
        of=plywood.plain_planar_capacity,
        given={"planar_strength": 2.67 * MPA, "thickness": 17.6 * MM},
        printed=31328.0,
        to=0.5,
        source=HANDBOOK,
        place="2.67 MPa on 17.6 mm, worked by hand",
        known="computed",
    ),
]

CASES = STIFF + STRONG


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_plywood_from_veneers_agrees_with_print(case: Case) -> None:
    assert case.holds(), case.ours()
