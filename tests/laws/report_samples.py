"""Invented answers and drawings for the tests of renderers. No figure here is engineering."""

from __future__ import annotations

import math

from tidestead.core.answer import (
    Answer,
    Assumption,
    Check,
    Column,
    Estimate,
    Figure,
    Given,
    Series,
    Step,
    Table,
    Working,
)
from tidestead.core.scene import Area, Contours, Measure, Note, Point, Scene, Stroke
from tidestead.core.solids import Round, Span, Tag, Wire, upright
from tidestead.core.source import COMPUTED, PRACTICE, STATICS, Known, Source

BOOK = Source("An invented handbook of sheets", "table 7", Known.READ, "third printing")
MEMORY = Source("An invented code of timber", "clause 2", Known.RECALLED)


def rectangle(left: float, bottom: float, right: float, top: float) -> tuple[Point, ...]:
    """The outline of an upright rectangle."""
    return ((left, bottom), (right, bottom), (right, top), (left, top))


def elevation() -> Scene:
    """A wall with a window, its water line and its bow."""
    wall = rectangle(0.0, 0.0, 4.0, 1.3)
    sheet = rectangle(0.8, 0.2, 3.2, 1.3)
    studs = tuple(
        Area(
            rectangle(x, 0.0, x + 0.047, 1.3),
            "timber",
            "basin.south.studs",
            "stud 47 x 145 mm",
        )
        for x in (0.0, 0.4, 3.55, 3.953)
    )
    bow = tuple((0.8 + 2.4 * k / 20, 1.3 - 0.25 * math.sin(math.pi * k / 20)) for k in range(21))
    return Scene(
        "structure.basin.south.outside",
        "South wall from outside",
        "A wall four metres long with one window, and the water line above the middle of it.",
        (
            Area(wall, "sheet", "basin.south.sheathing"),
            *studs,
            Area(sheet, "clear", "basin.south.long", "window"),
            Stroke(((0.0, 1.18), (4.0, 1.18)), "water", "basin.water", "water line"),
            Stroke(bow, "bow", "basin.south.long"),
            Note((2.0, 0.6), "bow 9 mm at the free edge", "basin.south.long"),
            Measure((0.8, 0.0), (3.2, 0.0), -0.15, "", "window"),
            Measure((0.0, 0.0), (4.0, 0.0), -0.3, "", "wall"),
            Measure((4.0, 0.0), (4.0, 1.3), -0.15),
            Measure((0.8, 0.2), (0.8, 1.3), 0.1),
            Measure((0.0, 0.0), (0.0, 0.2), 0.12),
        ),
        exaggerated=20.0,
    )


def section() -> Scene:
    """A section through a wall, with the push of the water."""
    return Scene(
        "structure.basin.south.section",
        "Section through the south wall",
        "Sheet, stud, rim and ledger, with the push of the water growing to the floor.",
        (
            Area(rectangle(-0.9, 0.0, 0.0, 1.18), "water", "basin.water"),
            Area(((-0.35, 0.0), (0.0, 0.0), (0.0, 1.18)), "load", "basin.water", "11.9 kPa"),
            Area(rectangle(0.0, 0.0, 0.018, 1.3), "sheet", "basin.south.sheathing", "sheathing"),
            Stroke(((-0.002, 0.0), (-0.002, 1.3)), "membrane", "basin.lining"),
            Area(rectangle(0.018, 0.045, 0.163, 1.255), "timber", "basin.south.studs"),
            Area(rectangle(0.018, 1.255, 0.163, 1.3), "timber", "basin.south.rim", "rim"),
            Area(rectangle(0.163, 0.0, 0.258, 0.047), "timber", "basin.south.base", "ledger"),
            Area(rectangle(-0.9, -0.15, 0.6, 0.0), "ground", "basin.floor", "slab"),
            Area(rectangle(0.2, 0.05, 0.215, -0.1), "metal", "basin.south.base", "anchor"),
            Area(rectangle(0.02, 0.4, 0.03, 0.5), "seal", "basin.south.long.seal", "gasket"),
            Area(rectangle(0.3, 0.2, 0.5, 0.4), "ghost"),
            Area(rectangle(-0.9, -0.15, 0.6, 1.3), "outline"),
            Note((0.3, 1.2), "rim carries 2.5 kN/m"),
            Note((0.3, 1.1), "stud, bending 47 % used", "basin.south.studs"),
            Measure((-0.9, 0.0), (-0.9, 1.18), 0.12, "", "water"),
            Measure((0.018, 1.3), (0.163, 1.3), 0.1),
        ),
    )


def stress() -> Scene:
    """A field over a window, with a limit it passes in two places."""
    across = tuple(2.4 * k / 30 for k in range(31))
    up = tuple(1.1 * k / 16 for k in range(17))
    values = tuple(
        tuple(
            4.2e6 * math.sin(math.pi * x / 2.4) ** 2 * (y / 1.1) ** 1.5 + 1.5e6 * math.exp(-8 * (x + y))
            for x in across
        )
        for y in up
    )
    return Scene(
        "structure.basin.south.long.stress",
        "Stress on the water side of the long window",
        "Greatest at the middle of the free top edge.",
        (
            Contours(across, up, values, "Pa", "stress, water side", 3.4e6, "basin.south.long"),
            Measure((0.0, 0.0), (2.4, 0.0), -0.1),
            Measure((2.4, 0.0), (2.4, 1.1), -0.1),
        ),
    )


CHECKS = (
    Check(
        "structure.basin.south.studs.bending",
        "bending of studs",
        "south wall, stud 3",
        "Pa",
        Estimate.exact(3.83e6),
        8.1e6,
        BOOK,
        part="basin.south.studs",
        limit_includes="load for good, wet wood",
    ),
    Check(
        "structure.basin.south.long.bow",
        "bow of window after ten years",
        "south wall, long window",
        "m",
        Estimate(0.018, 0.021, 0.024, "creep figure from memory"),
        0.009,
        BOOK,
        part="basin.south.long",
        case="full to the brim",
        advice="Hold the top edge, or take a thicker sheet",
        cautions=("Keep people clear of a loaded window.",),
    ),
    Check(
        "structure.basin.ties.cross.end",
        "end joint of tie",
        "tie 2 of 3",
        "N",
        Estimate.exact(3070.0),
        3372.0,
        MEMORY,
        part="basin.ties.cross",
        case="service level",
    ),
    Check(
        "structure.basin.floor.soil",
        "pressure on soil",
        "under the basin",
        "Pa",
        Estimate.exact(14e3),
        None,
        STATICS,
        part="basin.floor",
        missing="the plan does not say what the ground carries",
        advice="Write vessels.basin.stands_on.capacity",
    ),
    Check(
        "structure.basin.south.long.seat",
        "seat that holds the window",
        "south wall, long window",
        "m",
        Estimate(0.038, 0.04, 0.042),
        0.025,
        PRACTICE,
        must_be="above",
        part="basin.south.long",
    ),
    Check(
        "structure.basin.wood.moisture",
        "moisture of wood",
        "all walls",
        "%",
        Estimate(11.0, 14.0, 17.0),
        (8.0, 20.0),
        MEMORY,
        must_be="within",
    ),
)


def tank() -> Round:
    """A small tank in the round: floor, four walls one of which is clear, water, an edge of the house."""

    def block(west: float, south: float, east: float, north: float) -> tuple[Point, ...]:
        return ((west, south), (east, south), (east, north), (west, north))

    return Round(
        "structure.round",
        "All of it in the round",
        "A tank two metres by one, its south side clear, filled to 0.8 m.",
        (
            upright(block(-0.2, -0.2, 2.2, 1.2), (-0.1, 0.0), "ground", "basin.stands_on", "slab"),
            upright(block(-0.05, -0.05, 0.0, 1.05), (0.0, 1.0), "timber", "basin.west.studs"),
            upright(block(2.0, -0.05, 2.05, 1.05), (0.0, 1.0), "timber", "basin.east.studs"),
            upright(block(0.0, 1.0, 2.0, 1.05), (0.0, 1.0), "sheet", "basin.north.sheathing"),
            upright(block(0.0, -0.05, 2.0, 0.0), (0.0, 1.0), "clear", "basin.south.long", "window long"),
            upright(block(0.0, 0.0, 2.0, 1.0), (0.0, 0.8), "water", "basin.water"),
        ),
        (Wire(((-0.5, -0.5, 0.0), (-0.5, -0.5, 2.0), (2.5, -0.5, 2.0)), "ghost", "", "edge of the house"),),
        (Span((0.0, -0.05, 0.0), (2.0, -0.05, 0.0), (0.0, -0.3, 0.0), "level"),),
        (Tag((1.0, 0.5, 1.0), "basin", "basin"),),
    )


ANSWER = Answer(
    "structure",
    "Will it hold?",
    "Not yet. The long window of the south wall bows more than twice what its seal can follow.",
    CHECKS,
    figures=(
        Figure(
            "structure.basin.mass",
            "mass of the basin, full",
            Estimate(10300.0, 10650.0, 10900.0, "wet wood"),
            "kg",
            STATICS,
        ),
        Figure("structure.basin.volume", "water in the basin", Estimate.exact(10.38), "m3", COMPUTED),
    ),
    assumptions=(Assumption("vessels.basin.lining.crack", "1 mm", "the product does not say", PRACTICE),),
    working=(
        Working(
            "bow of the long window",
            (
                Step(
                    "p",
                    "pressure at the sill",
                    "rho g h",
                    (Given("rho", 1025.0, "kg/m3"), Given("h", 0.98, "m", "level")),
                    9854.0,
                    "Pa",
                    STATICS,
                ),
                Step(
                    "w",
                    "bow",
                    "alpha p a^4 / (E t^3)",
                    (Given("p", 9854.0, "Pa"), Given("a", 2.4, "m"), Given("t", 0.05, "m")),
                    0.021,
                    "m",
                    BOOK,
                ),
            ),
            "structure.basin.south.long.bow",
        ),
    ),
    tables=(
        Table(
            "structure.first_fill",
            "First fill: what to expect",
            (
                Column("filled", "%"),
                Column("bow of long window", "m"),
                Column("hold", "h"),
                Column("stop if"),
            ),
            (
                (25.0, 0.001, 12.0, "bow over twice this"),
                (50.0, 0.004, 24.0, "a joint opens"),
                (100.0, None, 48.0, "anything creaks"),
            ),
            "Measure at the middle of the top edge.",
        ),
    ),
    series=(
        Series(
            "structure.bow",
            "Bow while filling",
            "depth",
            "m",
            "m",
            (0.0, 0.5, 1.0, 1.18),
            (0.0, 0.002, 0.011, 0.021),
        ),
    ),
    scenes=(elevation(), section(), stress()),
    rounds=(tank(),),
    cautions=("This does not replace a licensed engineer; local codes govern.", "Still water only."),
    extra_sources=(COMPUTED,),
)
