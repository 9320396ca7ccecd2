"""Parts, pieces and cut plans of an invented build, for tests of lists and drawings."""

from __future__ import annotations

import math

from tidestead.build.cut_plans import CutPlans, LengthsCut, SheetsCut
from tidestead.build.cutting.lengths import LengthPlan, Need, Saw, Stock, cut_lengths
from tidestead.build.cutting.sheets import Rect, SheetSaw, SheetStock, cut_sheets
from tidestead.build.lists import Hole, Piece, SheetPart, TakenOff
from tidestead.plan.items import Item, parse_item

TWO_BY_SIX = parse_item("lumber 2x6 dfl-no2")
SAWN = parse_item("lumber 47 x 145 mm C24")
PLY = parse_item("sheet plywood-23/32")
ACRYLIC = parse_item("clear acrylic-cast 60 mm")
FOOT = 0.3048

NORTH = "vessels.reef.walls.north.studs"
MITRE = math.radians(22.5)

PIECES = (
    Piece("reef N1", TWO_BY_SIX, 1.168, 9, "stud", NORTH, "reef", holes="bolt 1/2 in at mid-height"),
    Piece("reef N2", TWO_BY_SIX, 2.2, 2, "rim", "vessels.reef.walls.north.rim", "reef"),
    Piece("reef R1", TWO_BY_SIX, 0.62, 8, "ring segment", "vessels.reef.rings.top", "reef", (MITRE, MITRE)),
    Piece("sump E1", SAWN, 0.8, 4, "stud", "vessels.sump.walls.all.studs", "sump"),
)

OPENING = ((0.3, 0.4), (1.0, 0.4), (1.0, 1.6), (0.3, 1.6))
HOLES = (Hole(0.15, 0.2, 0.0889, "drain"), Hole(1.05, 1.9, 0.06, "return"))

PARTS = (
    SheetPart("reef S1", PLY, 2.1, 1.15, 1, "sheathing", "vessels.reef.walls.south.sheathing", "reef",
              level="across", openings=(OPENING,), holes=HOLES),
    SheetPart("reef S2", PLY, 0.5, 1.1, 3, "sheathing", "vessels.reef.walls.south.sheathing", "reef"),
    SheetPart("reef W1", ACRYLIC, 2.1336, 1.1684, 1, "window", "vessels.reef.walls.south.windows.long", "reef",
              turns=True, edges="machined", holes=(Hole(0.4, 0.3, 0.05, ""),)),
)  # fmt: skip

TAKEN = TakenOff((), PIECES, PARTS)
SAW, BOARDS = Saw(0.003, 0.0, 0.3), SheetSaw(0.003, 0.01)
LENGTHS = (
    Stock("spf-12", 12 * FOOT, 14.5),
    Stock("spf-8", 8 * FOOT, 9.0),
    Stock("spf-8 (here)", 8 * FOOT, 0.0, 2),
)
METRES = (Stock("c24-3", 3.0, 11.0),)
SHEETS = (SheetStock("ply-8x4", 8 * FOOT, 4 * FOOT, 62.0),)


def lengths(item: Item, stocks: tuple[Stock, ...]) -> LengthPlan:
    """How the pieces of one sort are cut."""
    needs = [Need(piece.mark, piece.length, piece.count) for piece in PIECES if piece.item == item]
    return cut_lengths(tuple(needs), stocks, SAW)


def plans() -> CutPlans:
    """Every cut plan of the sample."""
    rects = [Rect(part.mark, part.along, part.across, part.count) for part in PARTS if part.item == PLY]
    return CutPlans(
        (
            LengthsCut(TWO_BY_SIX, lengths(TWO_BY_SIX, LENGTHS), {"spf-12": 1, "spf-8": 1}),
            LengthsCut(SAWN, lengths(SAWN, METRES)),
        ),
        (SheetsCut(PLY, SHEETS, BOARDS, cut_sheets(rects, SHEETS, BOARDS)),),
    )
