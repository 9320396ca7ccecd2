"""Design strength of glass for lasting load and laminates of sliding plies, against print."""

from __future__ import annotations

import pytest

from tests.published.case import Case
from tidestead.physics.structure import glass

EN = "EN 16612:2019"
MPA = 1e6

SECOND, MINUTE, DAY = 1.0 / 3600.0, 1.0 / 60.0, 24.0

ANNEALED = glass.GlassKind(annealed=45e6, characteristic=45e6)
STRENGTHENED = glass.GlassKind(annealed=45e6, characteristic=70e6)
TOUGHENED = glass.GlassKind(annealed=45e6, characteristic=120e6)


def _duration(name: str, hours: float, printed: float) -> Case:
    return Case(
        f"load duration factor, {name}",
        of=glass.load_duration_factor,
        given={"duration": hours},
        printed=printed,
        to=0.005,
        source=EN,
        place="table of kmod, as two open texts quote it",
        known="quoted",
    )


def _strength(name: str, kind: glass.GlassKind, printed: float, digits: float) -> Case:
    return Case(
        f"design strength for a permanent load, {name}",
        of=glass.design_strength,
        given={"kind": kind, "duration_factor": 0.29},
        printed=printed,
        to=digits,
        unit=MPA,
        source=EN,
        place="design value of bending strength, kmod 0.29, factors 1.8 and 1.2, before the load factor",
        known="quoted",
    )


CASES = [
    _duration("5 seconds", 5 * SECOND, 1.0),
    _duration("30 seconds", 30 * SECOND, 0.89),
    _duration("5 minutes", 5 * MINUTE, 0.77),
    _duration("10 minutes", 10 * MINUTE, 0.74),
    _duration("30 minutes", 30 * MINUTE, 0.69),
    _duration("5 hours", 5.0, 0.60),
    _duration("a week", 7 * DAY, 0.48),
    _duration("a month", 30 * DAY, 0.44),
    _duration("three months", 90 * DAY, 0.41),
    _duration("fifty years", glass.FIFTY_YEARS, 0.29),
    _strength("annealed", ANNEALED, 7.25, 0.005),
    _strength("heat-strengthened", STRENGTHENED, 28.1, 0.05),
    _strength("toughened", TOUGHENED, 69.75, 0.005),
    Case(
        "design strength of annealed glass over the load factor",
        of=glass.design_strength,
        given={"kind": ANNEALED, "duration_factor": 0.29},
        printed=5.4,
        to=0.05,
        unit=1.35 * MPA,
        source=EN,
        place="the same over 1.35 for a permanent action",
        known="quoted",
    ),
    Case(
        "edges neither polished nor seamed weaken annealed glass",
        of=glass.design_strength,
        given={"kind": glass.GlassKind(45e6, 45e6, edge=0.8), "duration_factor": 0.29},
        printed=5.8,
        to=0.05,
        unit=MPA,
        source=EN,
        place="ke = 0.8",
        known="quoted",
    ),
    Case(
        "glass toughened hanging from tongs",
        of=glass.design_strength,
        given={"kind": glass.GlassKind(45e6, 120e6, toughening=0.6), "duration_factor": 0.29},
        printed=44.75,
        to=0.005,
        unit=MPA,
        source=EN,
        place="kv = 0.6",
        known="quoted",
    ),
    Case(
        "two plies of 10 mm that slide",
        of=glass.laminate_thickness,
        given={"plies": (0.010, 0.010)},
        printed=12.6,
        to=0.05,
        unit=1e-3,
        source="plate theory",
        place="10 mm times the cube root of 2",
        known="computed",
    ),
    Case(
        "a ply of 10 mm among two, for stress",
        of=glass.ply_shares,
        given={"plies": (0.010, 0.010)},
        printed=14.1,
        to=0.05,
        unit=1e-3,
        pick=lambda shares: shares[0].thickness_for_stress,
        source="plate theory",
        place="10 mm times the square root of 2",
        known="computed",
    ),
    Case(
        "the thick ply of 12 and 6 mm takes eight ninths",
        of=glass.ply_shares,
        given={"plies": (0.012, 0.006)},
        printed=0.889,
        to=0.0005,
        pick=lambda shares: shares[0].share,
        source="plate theory",
        place="8/9, stiffness as the cube of the thickness",
        known="computed",
    ),
    Case(
        "one ply of three alike breaks",
        of=glass.broken_ply_rise,
        given={"plies": (0.010, 0.010, 0.010)},
        printed=1.5,
        to=0.005,
        source="plate theory",
        place="two plies bear what three bore",
        known="computed",
    ),
    Case(
        "the thick ply of 12 and 6 mm breaks",
        of=glass.broken_ply_rise,
        given={"plies": (0.012, 0.006)},
        printed=9.0,
        to=0.05,
        source="plate theory",
        place="the thin ply bore a ninth",
        known="computed",
    ),
]


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_printed_value(case: Case) -> None:
    assert case.holds()
