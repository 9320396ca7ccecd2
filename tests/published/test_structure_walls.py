"""Cross-sections, push of the water, beams on props, studs, rims and buttresses against print.

The worked wall is one and the same throughout: 4 ft of water at 64 lb/ft3, SPF No.2 studs 16 in apart, panel
48/24, ties every 48 in; its metric twin is 1.2 m of water at 1025 kg/m3 and studs 400 mm apart.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy as np
import pytest

from tests.published.case import FOOT, INCH, LB_FT, LB_IN, LB_PER_IN, LBF, PCF, PSI, Case
from tidestead.core.dims import G
from tidestead.physics.structure import beams, buttresses, members, pressure, walls

AISC = "AISC, Steel Construction Manual, Table 3-23, shears, moments and deflections"
SUPPLEMENT = "AWC, NDS Supplement (2018), Table 1B, section properties of sawn lumber"
TIMOSHENKO = "S. Timoshenko and J. N. Goodier, Theory of Elasticity, 3rd edition (1970)"
WORKED = "worked wall of 4 ft of water, by hand from the beam tables"
METRIC = "worked wall of 1.2 m of water, by hand from the beam tables"
GEOMETRY = "elementary geometry and statics"

LB_PER_FT = LBF / FOOT
DENSITY = 64.0 * PCF
STUD_2X6 = 0.9 * 1.4e6 * PSI * 20.797 * INCH**4
"""EI of a wet SPF No.2 2x6 on edge."""
RIM = 1.4e6 * PSI * 41.6 * INCH**4
"""EI of two dry 2x6 lying flat."""
PANEL = 0.85 * 400e3 * LBF * INCH**2 / FOOT
"""EI per width of a wet 48/24 panel."""
BASE_LOAD = 64.0 / 1728.0 * 48.0 * 16.0 * LB_PER_IN
"""Line load at the foot of a worked stud."""


def field(name: str) -> Callable[[Any], float]:
    """Pick one field of a result."""
    return lambda result: float(getattr(result, name))


def aisc(
    name: str, of: Callable[..., Any], given: dict[str, Any], pick: str, printed: float, to: float
) -> Case:
    """One coefficient of the beam tables, for unit load, length and stiffness."""
    return Case(name, of, given, printed, to, AISC, name, "recalled", pick=field(pick))


def worked(name: str, of: Callable[..., Any], given: dict[str, Any], printed: float, **more: Any) -> Case:
    """One number of the worked wall."""
    more.setdefault("source", WORKED)
    return Case(name, of, given, printed, place=name, known="computed", **more)


def _spans(count: int, moment: float, shear: float, bow: float, reaction: float, to: float) -> list[Case]:
    given = {"line_load": 1.0, "span": 1.0, "spans": count, "stiffness": 1.0}
    rows = (
        ("moment", moment, to),
        ("shear", shear, to),
        ("deflection", bow, 5e-5),
        ("reaction", reaction, to),
    )
    return [
        aisc(f"{count} equal spans, {what}", beams.equal_spans, given, what, printed, step)
        for what, printed, step in rows
    ]


UNIT_STUD = {"length": 1.0, "depth": 1.0, "base_load": 2.0}
TABLES = [
    *_spans(1, 0.125, 0.5, 0.0130, 0.0, 5e-4)[:3],
    *_spans(2, 0.125, 0.625, 0.0054, 1.25, 5e-4),
    *_spans(3, 0.1, 0.6, 0.0069, 1.1, 5e-4),
    *_spans(4, 0.107, 0.607, 0.0065, 1.143, 5e-4),
    aisc("load growing to one end, R1 = W/3", walls.stud_reactions, UNIT_STUD, "top", 0.3333, 5e-5),
    aisc("load growing to one end, R2 = 2W/3", walls.stud_reactions, UNIT_STUD, "bottom", 0.6667, 5e-5),
    aisc("load growing to one end, M = .1283 W l", walls.stud_moment, UNIT_STUD, "moment", 0.1283, 5e-5),
    aisc("load growing to one end, M at .5774 l", walls.stud_moment, UNIT_STUD, "from_top", 0.5774, 5e-5),
    aisc(
        "load growing to one end, bow .01304 W l3/EI",
        walls.stud_deflection, {**UNIT_STUD, "stiffness": 1.0}, "deflection", 0.01304, 5e-6,
    ),
    aisc(
        "load growing to one end, bow at .5193 l",
        walls.stud_deflection, {**UNIT_STUD, "stiffness": 1.0}, "from_top", 0.5193, 5e-5,
    ),
    Case(
        "two unequal spans 3 and 4 under one even load, M = w(l1^3 + l2^3)/(8(l1 + l2))",
        beams.continuous_beam,
        {"spans": np.array([3.0, 4.0]), "line_load": 1.0, "stiffness": 1.0},
        1.625, 5e-4, AISC, "continuous beam, two unequal spans, even load", "recalled",
        pick=lambda state: float(state.hogging[1]),
    ),
    Case(
        "even load on the first half of a span of 4, R1 = wa(2l - a)/(2l)",
        beams.patched_beam,
        {"spans": np.array([4.0]), "patches": [beams.LinePatch(0, 0.0, 2.0, 1.0, 1.0)], "stiffness": 1.0},
        1.5, 0.05, AISC, "simple beam, load over part at one end", "recalled",
        pick=lambda state: float(state.reactions[0]),
    ),
    Case(
        "even load on the first half of a span of 4, M = R1^2/(2w)",
        beams.patched_beam,
        {"spans": np.array([4.0]), "patches": [beams.LinePatch(0, 0.0, 2.0, 1.0, 1.0)], "stiffness": 1.0},
        1.125, 5e-4, AISC, "simple beam, load over part at one end", "recalled",
        pick=field("moment"),
    ),
    Case(
        "upright from floor to water level, bow .01304 W l3/EI",
        beams.hydrostatic_beam,
        {"levels": np.array([0.0, 1.0]), "depth": 1.0, "gradient": 2.0, "stiffness": 1.0},
        0.01304, 5e-6, AISC, "load growing to one end", "recalled",
        pick=lambda state: float(state.deflection[0]),
    ),
]  # fmt: skip

STRIP = {"pressure": 256.0 / 144.0 * PSI, "span": 16 * INCH, "spans": 3, "stiffness": PANEL}
SHORT = {"length": 48 * INCH, "depth": 48 * INCH, "base_load": BASE_LOAD}
TALL = {**SHORT, "length": 54 * INCH}
WALL = {"stud_length": 4 * FOOT, "depth": 4 * FOOT, "density": DENSITY}
TIED = {"line_load": 128.0 / 9.0 * LB_PER_IN, "tie_spacing": 48 * INCH, "spans": 3, "stiffness": RIM}
UNTIED = {**TIED, "tie_spacing": 144 * INCH, "spans": 1}
METRE_STUD = {"length": 1.2, "depth": 1.2, "base_load": 4824.87}

WALL_CASES = [
    worked("strip of sheathing, moment 546.1 lb-in/ft", walls.sheathing_strip, STRIP, 546.1, to=0.05,
           unit=LB_IN / FOOT, pick=field("moment")),
    worked("strip of sheathing, shear 204.8 lb/ft", walls.sheathing_strip, STRIP, 204.8, to=0.05,
           unit=LB_PER_FT, pick=field("shear")),
    worked("strip of sheathing, bow .0284 in", walls.sheathing_strip, STRIP, 0.0284, to=1e-4, unit=INCH,
           pick=field("deflection"), why="worked with the table's rounded .0069; three spans give .00688"),
    worked("line load at the foot of a stud, 28.444 lb/in", walls.stud_line_load,
           {"depth": 4 * FOOT, "density": DENSITY, "spacing": 16 * INCH}, 28.444, to=5e-4, unit=LB_PER_IN),
    worked("stud 48 in, foot 455.1 lb", walls.stud_reactions, SHORT, 455.1, to=0.05, unit=LBF,
           pick=field("bottom")),
    worked("stud 48 in, head 227.6 lb", walls.stud_reactions, SHORT, 227.6, to=0.05, unit=LBF,
           pick=field("top")),
    worked("stud 48 in, moment 4204.1 lb-in", walls.stud_moment, SHORT, 4204.1, to=0.05, unit=LB_IN,
           pick=field("moment")),
    worked("stud 48 in, bow .0376 in", walls.stud_deflection, {**SHORT, "stiffness": STUD_2X6}, 0.0376,
           to=5e-5, unit=INCH, pick=field("deflection")),
    worked("stud 54 in in 48 in of water, head 202.27 lb", walls.stud_reactions, TALL, 202.27, to=5e-3,
           unit=LBF, pick=field("top")),
    worked("stud 54 in in 48 in of water, foot 480.40 lb", walls.stud_reactions, TALL, 480.40, to=5e-3,
           unit=LBF, pick=field("bottom")),
    worked("stud 54 in in 48 in of water, moment 4736.9 lb-in", walls.stud_moment, TALL, 4736.9, to=0.05,
           unit=LB_IN, pick=field("moment")),
    worked("stud 54 in in 48 in of water, at 32.128 in", walls.stud_moment, TALL, 32.128, to=5e-4, unit=INCH,
           pick=field("from_top")),
    worked("stud 54 in in 48 in of water, shear at mid-depth", walls.stud_shear,
           {**TALL, "from_foot": 24 * INCH}, -31.6, to=0.05, unit=LBF),
    worked("rim 14.222 lb/in", walls.rim_line_load, WALL, 14.222, to=5e-4, unit=LB_PER_IN),
    worked("rim 170.7 lb/ft", walls.rim_line_load, WALL, 170.7, to=0.05, unit=LB_PER_FT),
    worked("base 341 lb/ft", walls.base_line_load, WALL, 341.0, to=0.5, unit=LB_PER_FT),
    worked("rim between ties, 3277 lb-in", walls.rim_between_ties, TIED, 3277.0, to=0.5, unit=LB_IN,
           pick=field("moment")),
    worked("tie 751 lb", walls.rim_between_ties, TIED, 751.0, to=0.5, unit=LBF, pick=field("tie_force")),
    worked("rim without ties, 36864 lb-in", walls.rim_between_ties, UNTIED, 36864.0, to=0.5, unit=LB_IN,
           pick=field("moment")),
    worked("rim without ties, bow 1.37 in", walls.rim_between_ties, UNTIED, 1.37, to=5e-3, unit=INCH,
           pick=field("deflection")),
    worked("rim pulled by the end wall, 512 lb", walls.corner_tension,
           {"end_load": 128.0 / 9.0 * LB_PER_IN, "end_length": 72 * INCH}, 512.0, to=0.5, unit=LBF),
    worked("stud 1.2 m, foot 1929.9 N", walls.stud_reactions, METRE_STUD, 1929.9, to=0.05,
           pick=field("bottom"), source=METRIC),
    worked("stud 1.2 m, moment 445.7 N m", walls.stud_moment, METRE_STUD, 445.7, to=0.05,
           pick=field("moment"), source=METRIC),
    worked("rim 2412.4 N/m", walls.rim_line_load, {"stud_length": 1.2, "depth": 1.2, "density": 1025.0},
           2412.4, to=0.05, source=METRIC),
    worked("strip of sheathing over 400 mm, 193.0 N m/m", walls.sheathing_strip,
           {"pressure": 12062.2, "span": 0.4, "spans": 3, "stiffness": 1.0}, 193.0, to=0.05,
           pick=field("moment"), source=METRIC),
    worked("tie at every 1.2 m, 3184 N", walls.rim_between_ties,
           {"line_load": 2412.4, "tie_spacing": 1.2, "spans": 3, "stiffness": 1.0}, 3184.0, to=0.5,
           pick=field("tie_force"), source=METRIC),
]  # fmt: skip

WEDGE = {"start": 0.0, "end": 3.0, "length": 4.0, "density": 1000.0 / G}

PUSH_CASES = [
    worked("pressure under 4 ft, 1.77778 psi", pressure.water_pressure,
           {"depth": 4 * FOOT, "density": DENSITY}, 1.77778, to=5e-6, unit=PSI),
    worked("pressure under 1.2 m, 12062.2 Pa", pressure.water_pressure,
           {"depth": 1.2, "density": 1025.0}, 12062.2, to=0.05, source=METRIC),
    worked("push of 4 ft, 512 lb/ft", pressure.wall_thrust, {"depth": 4 * FOOT, "density": DENSITY}, 512.0,
           to=0.5, unit=LB_PER_FT),
    worked("push of 1.2 m, 7237.3 N/m", pressure.wall_thrust, {"depth": 1.2, "density": 1025.0}, 7237.3,
           to=0.05, source=METRIC),
    worked("push of 4 ft acts 16 in up", pressure.thrust_height, {"depth": 4 * FOOT}, 16.0, to=0.05,
           unit=INCH),
    worked("moment of 4 ft about the foot, 682.7 lb-ft/ft", pressure.wall_base_moment,
           {"depth": 4 * FOOT, "density": DENSITY}, 682.7, to=0.05, unit=LB_FT / FOOT),
    worked("floor 60 mm out of level over 4 m, a quarter along", pressure.sloped_depth,
           {"start": 1.20, "end": 1.14, "length": 4.0, "along": 1.0}, 1.185, to=5e-4, source=GEOMETRY),
    worked("wedge of water, push", pressure.sloped_wall_push, WEDGE, 6000.0, to=0.5, pick=field("force"),
           source=GEOMETRY),
    worked("wedge of water, three quarters along", pressure.sloped_wall_push, WEDGE, 3.0, to=0.005,
           pick=field("along"), source=GEOMETRY, why="an exact fraction"),
    worked("wedge of water, a quarter of the depth up", pressure.sloped_wall_push, WEDGE, 0.75, to=0.005,
           pick=field("above"), source=GEOMETRY),
]  # fmt: skip


def _lumber(name: str, breadth: float, depth: float, printed: tuple[float, ...]) -> list[Case]:
    """Area, and modulus and second moment about either axis, as the table prints them in inches."""
    wide = {"breadth": breadth * INCH, "depth": depth * INCH}
    flat = {"breadth": depth * INCH, "depth": breadth * INCH}
    rows = (
        ("area", members.rectangle_area, wide, 2, 5e-3),
        ("S strong", members.rectangle_modulus, wide, 3, 5e-4),
        ("I strong", members.rectangle_second_moment, wide, 4, 5e-3),
        ("S weak", members.rectangle_modulus, flat, 3, 5e-4),
        ("I weak", members.rectangle_second_moment, flat, 4, 5e-4),
    )
    return [
        Case(f"{name}, {what}", of, given, value, to, SUPPLEMENT, name, "recalled", unit=INCH**power)
        for (what, of, given, power, to), value in zip(rows, printed, strict=True)
    ]


def _torsion(ratio: float, printed: float) -> Case:
    return Case(
        f"torsion of a rectangle {ratio:g} to 1",
        members.rectangle_torsion,
        {"breadth": 1.0, "depth": ratio},
        printed * ratio, 5e-4 * ratio, TIMOSHENKO, "section 109, table of k1", "recalled",
        why="the table prints J/(b t3) to three or four figures",
    )  # fmt: skip


PAIR = {"breadth": 1.5 * INCH, "depth": 5.5 * INCH, "pieces": 2}
SECTION_CASES = [
    *_lumber("2x4", 1.5, 3.5, (5.25, 3.063, 5.36, 1.313, 0.984)),
    *_lumber("2x6", 1.5, 5.5, (8.25, 7.563, 20.80, 2.063, 1.547)),
    _torsion(1.0, 0.1406),
    _torsion(1.5, 0.196),
    _torsion(2.0, 0.229),
    _torsion(4.0, 0.281),
    worked("two 2x6 face to face, I = 41.6 in4", members.plank_section, PAIR, 41.6, to=0.05, unit=INCH**4,
           pick=field("strong")),
    worked("two 2x6 free to slip, I weak = 3.094 in4", members.plank_section, PAIR, 3.094, to=5e-4,
           unit=INCH**4, pick=field("weak"), source=GEOMETRY),
    worked("two 2x6 made one, I weak = 12.375 in4", members.plank_section, {**PAIR, "made_one": True}, 12.375,
           to=5e-4, unit=INCH**4, pick=field("weak"), source=GEOMETRY),
    worked("2x6 with a hole of 9/16 in, 7.406 in2", members.net_area,
           {"area": 8.25 * INCH**2, "holes": 1, "hole": 0.5625 * INCH, "thickness": 1.5 * INCH}, 7.406,
           to=5e-4, unit=INCH**2, source=GEOMETRY),
]  # fmt: skip

EVERY_4_FT = buttresses.ButtressLoad(thrust=2048 * LBF, moment=2730.7 * LB_FT)
RAKING = {"load": EVERY_4_FT, "height": 4 * FOOT, "reach": 2 * FOOT}

BUTTRESS_CASES = [
    worked("buttress every 4 ft, push 2048 lb", buttresses.buttress_load,
           {"depth": 4 * FOOT, "density": DENSITY, "spacing": 4 * FOOT}, 2048.0, to=0.5, unit=LBF,
           pick=field("thrust")),
    worked("buttress every 4 ft, moment 2730.7 lb-ft", buttresses.buttress_load,
           {"depth": 4 * FOOT, "density": DENSITY, "spacing": 4 * FOOT}, 2730.7, to=0.05, unit=LB_FT,
           pick=field("moment")),
    worked("buttress on a base of 2 ft, uplift 1365 lb", buttresses.anchor_uplift,
           {"moment": 2730.7 * LB_FT, "base": 2 * FOOT, "dead_load": 0.0}, 1365.0, to=0.5, unit=LBF),
    worked("buttress on a base of 2 ft under 400 lb, two anchors", buttresses.anchor_uplift,
           {"moment": 2730.7 * LB_FT, "base": 2 * FOOT, "dead_load": 400 * LBF, "anchors": 2}, 582.7, to=0.05,
           unit=LBF),
    worked("buttress, push on each of two anchors", buttresses.anchor_shear,
           {"thrust": 2048 * LBF, "anchors": 2}, 1024.0, to=0.5, unit=LBF),
    worked("strut 4 ft up and 2 ft out, compression", buttresses.raking_strut, RAKING, 1526.5, to=0.05,
           unit=LBF, pick=field("compression")),
    worked("strut 4 ft up and 2 ft out, uplift of the post", buttresses.raking_strut, RAKING, 1365.0, to=0.5,
           unit=LBF, pick=field("post_uplift")),
    worked("strut 4 ft up and 2 ft out, shear at the post's foot", buttresses.raking_strut, RAKING, 1365.0,
           to=0.5, unit=LBF, pick=field("post_shear")),
    Case("post with its strut at the water level, M = .1283 W l", buttresses.raking_post_moment,
         {"depth": 1.0, "density": 2.0 / G, "spacing": 1.0, "height": 1.0}, 0.1283, 5e-5, AISC,
         "load growing to one end", "recalled"),
    worked("post with its strut at half the depth, bends most over the strut", buttresses.raking_post_moment,
           {"depth": 2.0, "density": 6.0 / G, "spacing": 1.0, "height": 1.0}, 1.0, to=0.05, source=GEOMETRY),
]  # fmt: skip

CASES = [*TABLES, *WALL_CASES, *PUSH_CASES, *SECTION_CASES, *BUTTRESS_CASES]


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_case_holds(case: Case) -> None:
    assert case.holds(), f"{case.ours()} against printed {case.printed}"
