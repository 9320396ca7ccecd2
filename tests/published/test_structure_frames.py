"""The frame in space against closed formulas, and the timber tank that two other programs solved."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from tests.published.case import FOOT, INCH, LB_IN, LBF, PCF, PSI, Case
from tidestead.physics.structure import frames, tank_frame, tank_spec
from tidestead.physics.structure.frames import (
    DIRECTIONS,
    HINGE,
    Bar,
    BarLoad,
    BarSection,
    FrameModel,
    FrameState,
    Node,
    NodeLoad,
    Support,
)
from tidestead.physics.structure.members import plank_section

AISC = "AISC, Steel Construction Manual, Table 3-23, shears, moments and deflections"
KLEINLOGEL = "A. Kleinlogel, Rigid Frame Formulas, frame with clamped feet"
ROARK = "Roark's Formulas for Stress and Strain, Table 8.1, straight beams"
CASTIGLIANO = "S. Timoshenko, Strength of Materials, part I, bent cantilever by Castigliano's theorem"
CULVERT = "three moments round a closed rectangle, as in any text on box culverts"
TANK = "tank of 12 by 6 by 4 ft with two ties, solved by two other frame programs"

STIFF = 1e9
"""So stiff along itself that only bending counts, as the closed formulas have it."""

UNIT = BarSection(1.0, 1.0, STIFF, 1.0, 1.0, 0.5)
UP = (0.0, 0.0, 1.0)
FIXED = DIRECTIONS
IN_PLANE = ("y", "rx", "rz")
"""What keeps a frame in the x-z plane."""


def bent_cantilever() -> FrameModel:
    """One metre out, one metre sideways, a newton down at the tip."""
    nodes = (Node("root", 0, 0, 0), Node("knee", 1, 0, 0), Node("tip", 1, 1, 0))
    bars = (Bar("out", "root", "knee", UNIT, UP), Bar("aside", "knee", "tip", UNIT, UP))
    return FrameModel(nodes, bars, (Support("root", FIXED),), node_loads=(NodeLoad("tip", (0.0, 0.0, -1.0)),))


def portal() -> FrameModel:
    """Square portal with clamped feet under an even load on its beam, all of one section."""
    nodes = (Node("a", 0, 0, 0), Node("b", 0, 0, 1), Node("c", 1, 0, 1), Node("d", 1, 0, 0))
    bars = (
        Bar("ab", "a", "b", UNIT, (1.0, 0.0, 0.0)),
        Bar("bc", "b", "c", UNIT, UP),
        Bar("cd", "c", "d", UNIT, (1.0, 0.0, 0.0)),
    )
    held = (Support("a", FIXED), Support("d", FIXED), Support("b", IN_PLANE), Support("c", IN_PLANE))
    down = (0.0, 0.0, -1.0)
    return FrameModel(nodes, bars, held, bar_loads=(BarLoad("bc", 0.0, 1.0, down, down),))


def closed_rectangle() -> FrameModel:
    """Two by one metre, pressed outward all round."""
    nodes = (Node("a", 0, 0, 0), Node("b", 2, 0, 0), Node("c", 2, 1, 0), Node("d", 0, 1, 0))
    sides = (("a", "b", (0.0, -1.0, 0.0), 2.0), ("b", "c", (1.0, 0.0, 0.0), 1.0),
             ("c", "d", (0.0, 1.0, 0.0), 2.0), ("d", "a", (-1.0, 0.0, 0.0), 1.0))  # fmt: skip
    bars = tuple(Bar(start + end, start, end, UNIT, out) for start, end, out, _ in sides)
    loads = tuple(BarLoad(start + end, 0.0, run, out, out) for start, end, out, run in sides)
    held = (Support("a", ("x", "y", "z", "rx", "ry")), Support("b", ("y", "z")), Support("c", ("z",)),
            Support("d", ("z",)))  # fmt: skip
    return FrameModel(nodes, bars, held, bar_loads=loads)


def span(first: float, last: float, clamped: bool = False) -> FrameModel:
    """One metre, hinged at both ends or clamped at its start alone, under a load growing evenly."""
    bar = Bar("span", "a", "b", UNIT, UP, () if clamped else HINGE, () if clamped else HINGE)
    held = (Support("a", FIXED),) if clamped else (Support("a", FIXED), Support("b", FIXED))
    load = BarLoad("span", 0.0, 1.0, (0.0, 0.0, first), (0.0, 0.0, last))
    return FrameModel((Node("a", 0, 0, 0), Node("b", 1, 0, 0)), (bar,), held, bar_loads=(load,))


def timber_tank(end_bay: float) -> tank_spec.BoxFrameSpec:
    """SPF No.2 2x6 studs 16 in apart, rims of two 2x6 lying flat, ties at thirds, stiff corners."""
    modulus = 0.9 * 1.4e6 * PSI

    def timber(pieces: int) -> BarSection:
        return BarSection.of(plank_section(1.5 * INCH, 5.5 * INCH, pieces), modulus, modulus / 16.0)

    def wall(length: float, spacing: float) -> tank_spec.WallFrame:
        places = tank_spec.stud_places(length, spacing)
        return tank_spec.WallFrame(places, timber(1), timber(2), 4 * FOOT, 4 * FOOT)

    return tank_spec.BoxFrameSpec(
        length=12 * FOOT,
        width=6 * FOOT,
        height=4 * FOOT,
        density=64 * PCF,
        corner_post=timber(2),
        corners="rigid",
        south=wall(12 * FOOT, 16 * INCH),
        north=wall(12 * FOOT, 16 * INCH),
        west=wall(6 * FOOT, end_bay * INCH),
        east=wall(6 * FOOT, end_bay * INCH),
        ties=tuple(tank_spec.TieBar("width", place * FOOT, timber(1)) for place in (4, 8)),
    )


def closed(
    name: str, model: FrameModel, pick: Callable[[FrameState], float], printed: float, to: float, source: str
) -> Case:
    """One number of a closed formula."""
    return Case(
        name, frames.solve_frame, {"model": model}, printed, to, source, name, "recalled",
        pick=lambda state: float(pick(state)),
    )  # fmt: skip


def tank(name: str, end_bay: float, what: Callable[[FrameState], float], printed: float, **more: Any) -> Case:
    """One number of the tank, through the builder and the solver."""
    return Case(
        name, tank_frame.box_frame, {"spec": timber_tank(end_bay)}, printed, source=TANK, place=name,
        known="computed", pick=lambda model: what(frames.solve_frame(model)), **more,
    )  # fmt: skip


JOINTS = "the other programs' corner posts and stud heads are joined a little differently"

CASES = [
    closed("bent cantilever, P(a3 + b3)/3EI + P a b2/GJ", bent_cantilever(),
           lambda s: -s.displacement("tip")[2], 2.6667, 5e-5, CASTIGLIANO),
    closed("square portal, M at the knee = wl2/(6(k + 2))", portal(),
           lambda s: -s.shape("bc").moment_strong[0], 0.0556, 5e-5, KLEINLOGEL),
    closed("square portal, M at the foot = wl2/(12(k + 2))", portal(),
           lambda s: abs(s.reaction("a")[4]), 0.0278, 5e-5, KLEINLOGEL),
    closed("closed rectangle, M at the corner = q(L3 + B3)/(12(L + B))", closed_rectangle(),
           lambda s: abs(s.shape("ab").moment_strong[0]), 0.25, 5e-4, CULVERT),
    closed("closed rectangle, pull of the long side = q B/2", closed_rectangle(), lambda s: s.axial("ab"),
           0.5, 5e-4, CULVERT),
    closed("load growing to one end, M = .1283 W l", span(0.0, 2.0), lambda s: s.moment("span"), 0.1283, 5e-5,
           AISC),
    closed("load growing to one end, bow .01304 W l3/EI", span(0.0, 2.0), lambda s: s.bow("span"), 0.01304,
           5e-6, AISC),
    closed("cantilever, load falling to nothing at its tip, w l4/30EI", span(-1.0, 0.0, clamped=True),
           lambda s: -s.displacement("b")[2], 0.0333, 5e-5, ROARK),
    closed("cantilever, load growing to its tip, 11 w l4/120EI", span(0.0, -1.0, clamped=True),
           lambda s: -s.displacement("b")[2], 0.0917, 5e-5, ROARK),
    tank("tank, tie 619 lb", 14.4, lambda s: s.axial("tie") / LBF, 619.0, to=0.5),
    tank("tank, rim 4943 lb-in", 14.4, lambda s: s.moment("west.rim") / LB_IN, 4943.0, to=10.0, why=JOINTS),
    tank("tank of 66 members, tie 617 lb", 72.0 / 7.0, lambda s: s.axial("tie") / LBF, 617.0, to=0.5),
    tank("tank of 66 members, rim 5044 lb-in", 72.0 / 7.0, lambda s: s.moment("west.rim") / LB_IN, 5044.0,
         to=15.0, why=JOINTS),
    tank("tank, stud 4204.1 lb-in as by hand", 14.4, lambda s: s.moment("south.stud") / LB_IN, 4204.1,
         to=0.05),
    tank("tank, long rim pulled by the end wall, 512 lb", 14.4, lambda s: s.axial("south.rim") / LBF, 512.0,
         to=0.5),
    Case("studs every 400 mm along 2.2 m, how many", tank_spec.stud_places, {"length": 2.2, "spacing": 0.4},
         5.0, to=0.05, source="common practice, no source", place="laying out a wall from one corner",
         known="practice", pick=len),
    Case("studs every 400 mm along 2.0 m, the last at 1.6 m", tank_spec.stud_places,
         {"length": 2.0, "spacing": 0.4}, 1.6, to=5e-3, source="common practice, no source",
         place="laying out a wall from one corner", known="practice", pick=lambda places: places[-1]),
]  # fmt: skip


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_case_holds(case: Case) -> None:
    assert case.holds(), f"{case.ours()} against printed {case.printed}"
