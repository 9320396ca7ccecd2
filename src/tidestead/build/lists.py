"""What the plan takes, as plain data: lines of a list, pieces and parts to cut, each with where it comes from.

Lengths in metres. The geometry fills these; cutting, cost and exports read them and know nothing else of the plan.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from tidestead.core.answer import Estimate
from tidestead.core.source import COMPUTED, Source
from tidestead.plan.items import Item

Trade = Literal[
    "timber", "sheet goods", "windows", "lining", "fixings", "pipework", "machines", "building", "electrics", "water",
    "other",
]  # fmt: skip
"""Who would sell it or do it, as totals are told apart by."""

Unit = Literal["1", "m", "m2", "m3", "kg", "J"]
"""What an amount is counted in; "1" are pieces."""

Phase = Literal["frame", "lining", "windows", "pipework", "house", "machines", "water"]
"""The stage of the work in which a thing is needed, in this order."""


@dataclass(frozen=True)
class Line:
    """So much of one thing for one part of the plan.

    `key` is the part of the plan that leads to it (vessels.reef.walls.north.studs), `vessel` the vessel it belongs to,
    empty where it serves all. `basis` says how the amount follows, such as "9 x 1.30 m". `amount` is net: without
    waste. `yearly` amounts are used up in a year. `nested` amounts are also pieces or parts of a cut plan, which then
    says what is bought. `missing` says what the plan must tell before there is an amount. `thick`: of a layer, its
    thickness; the amount is an area times that. `face`: of clear sheet on a house, how wide and how tall the face is.
    """

    item: Item
    amount: Estimate | None
    unit: Unit
    what: str
    key: str
    trade: Trade
    phase: Phase
    vessel: str = ""
    basis: str = ""
    source: Source = COMPUTED
    yearly: bool = False
    nested: bool = False
    missing: str = ""
    thick: float = 0.0
    face: tuple[float, float] = (0.0, 0.0)


@dataclass(frozen=True)
class Piece:
    """Timber pieces of one length. `length` is over all, from point to point; `ends` are how far each end is cut off
    square across the wide face, in radians: of one sign where they lean towards each other, as in a ring, of unlike
    sign where they are parallel, as of a raking strut. `holes` in words.
    """

    mark: str
    item: Item
    length: float
    count: int
    what: str
    key: str
    vessel: str
    ends: tuple[float, float] = (0.0, 0.0)
    holes: str = ""


@dataclass(frozen=True)
class Hole:
    """A round hole through a part: its middle from the lower left corner, its diameter, what it is for."""

    x: float
    y: float
    diameter: float
    what: str


Outline = tuple[tuple[float, float], ...]
"""Corner points counter-clockwise, from the lower left corner of the part's bounding rectangle."""


@dataclass(frozen=True)
class SheetPart:
    """Parts of one size cut of a sheet. `along` is the side along the face grain, `across` the other.

    `turns` says whether it may lie the other way too, as clear sheets may. `x` of outlines and holes runs along the
    part's level side as it is built in, `level` says which side that is. An empty outline is the whole rectangle;
    `openings` are cut out of it (a window's clear opening).
    """

    mark: str
    item: Item
    along: float
    across: float
    count: int
    what: str
    key: str
    vessel: str
    turns: bool = False
    level: Literal["along", "across"] = "along"
    outline: Outline = ()
    openings: tuple[Outline, ...] = ()
    holes: tuple[Hole, ...] = ()
    edges: str = ""

    @property
    def width(self) -> float:
        """Its level side as it is built in."""
        return self.along if self.level == "along" else self.across

    @property
    def height(self) -> float:
        """Its other side."""
        return self.across if self.level == "along" else self.along


@dataclass(frozen=True)
class TakenOff:
    """Everything the plan takes. `missing` are sentences of what could not be told, each with the key to write."""

    lines: tuple[Line, ...]
    pieces: tuple[Piece, ...] = ()
    parts: tuple[SheetPart, ...] = ()
    missing: tuple[tuple[str, str], ...] = ()

    def __add__(self, other: TakenOff) -> TakenOff:
        """Both lists as one."""
        return TakenOff(
            self.lines + other.lines,
            self.pieces + other.pieces,
            self.parts + other.parts,
            self.missing + other.missing,
        )
