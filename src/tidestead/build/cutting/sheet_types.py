"""Parts to be cut from sheets, the sheets there are, the saw, and the plan that comes of them. Lengths in metres.

`along` is measured along the grain of the sheet, `across` over it; in a plan x runs along, y across, from a corner.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TypeAlias

Tick: TypeAlias = Callable[[int, int], None]
"""Told what is done, of how much. May raise to stop the work."""


@dataclass(frozen=True)
class Rect:
    """`count` parts of one size, told from others by `mark`. `turns`: its grain may lie across the sheet's."""

    mark: str
    along: float
    across: float
    count: int
    turns: bool = False


@dataclass(frozen=True)
class SheetStock:
    """Sheets of one size, as bought or as they stand in the shed.

    `price` is for one sheet. `on_hand` says how many there are; None means that as many as needed are bought. Only
    what is on hand may cost nothing.
    """

    name: str
    along: float
    across: float
    price: float
    on_hand: int | None = None


@dataclass(frozen=True)
class SheetSaw:
    """`kerf` is what a cut takes away, `trim` what is cut off every edge of a sheet before anything else."""

    kerf: float = 0.0
    trim: float = 0.0


@dataclass(frozen=True)
class Placed:
    """One part on a sheet: its lower left corner from the sheet's own, its sides as it lies there."""

    mark: str
    x: float
    y: float
    along: float
    across: float
    turned: bool = False


@dataclass(frozen=True)
class Cut:
    """A cut from edge to edge of the piece that is left at that moment: upright if x0 is x1, else level.

    The edges are trimmed before number 1. The line is where the piece nearer to the corner ends; the kerf lies beyond.
    """

    number: int
    x0: float
    y0: float
    x1: float
    y1: float


@dataclass(frozen=True)
class OffCut:
    """What is left over of a sheet in one piece."""

    x: float
    y: float
    along: float
    across: float

    @property
    def area(self) -> float:
        """Its face."""
        return self.along * self.across


@dataclass(frozen=True)
class CutSheet:
    """Sheets that are cut alike: `times` of them. `share` is how much of the whole sheet becomes parts.

    `cuts` is empty where parts lie so that no saw could part them from edge to edge. Off-cuts, largest first, are
    what those cuts leave; they are not told where there are none.
    """

    stock: str
    times: int
    placed: tuple[Placed, ...]
    cuts: tuple[Cut, ...]
    share: float
    offcuts: tuple[OffCut, ...] = ()


@dataclass(frozen=True)
class SheetPlan:
    """How all parts are cut, what the sheets cost, and what no other plan could go below.

    `bound` is a lower bound of the cost over every way to lay the parts, `bound_basis` says why in words. `proven`
    says that the plan meets it. Where something other than cost was asked for (the worth of parts, a length),
    `reached` is what came out and `bound` bounds that.
    """

    sheets: tuple[CutSheet, ...]
    cost: float
    bound: float
    bound_basis: str
    proven: bool
    reached: float | None = None

    @property
    def count(self) -> int:
        """Sheets in all."""
        return sum(sheet.times for sheet in self.sheets)
