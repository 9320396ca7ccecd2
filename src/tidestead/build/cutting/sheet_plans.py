"""From boards with parts to the plan that is given out, in metres, after a second look at it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import replace
from typing import NamedTuple

from tidestead.build.cutting.check_sheets import sheet_faults
from tidestead.build.cutting.saw_cuts import sawn
from tidestead.build.cutting.sheet_bounds import Bound
from tidestead.build.cutting.sheet_job import NANO, Layout, SheetJob, Spot
from tidestead.build.cutting.sheet_types import CutSheet, Placed, Rect, SheetPlan, SheetSaw, SheetStock
from tidestead.core.errors import SolverError

HAIR = 1e-9


class Given(NamedTuple):
    """The job as it was given."""

    rects: Sequence[Rect]
    stocks: Sequence[SheetStock]
    saw: SheetSaw


def cost_of(layouts: Iterable[Layout]) -> float:
    """What the boards cost."""
    return sum(layout.board.price for layout in layouts)


def checked_plan(
    job: SheetJob, layouts: Sequence[Layout], bound: Bound, given: Given, *, guillotine: bool = True
) -> SheetPlan:
    """The plan, its cuts numbered. Raises SolverError if the second look finds a fault."""
    cost = cost_of(layouts)
    proven = cost <= bound.cost + HAIR * (1.0 + cost)
    sheets = cut_alike(job, layouts, given)
    plan = SheetPlan(sheets, cost, cost if proven else bound.cost, bound.basis, proven)
    refuse_faults(sheet_faults(plan, *given, guillotine=guillotine))
    return plan


def refuse_faults(faults: Sequence[str]) -> None:
    """Raise SolverError where there are any."""
    if faults:
        raise SolverError("A plan of sheets did not stand its own check: " + "; ".join(faults[:3]))


def cut_alike(job: SheetJob, layouts: Sequence[Layout], given: Given) -> tuple[CutSheet, ...]:
    """The sheets, those that are cut alike told once. The fullest comes first."""
    ranked = sorted(layouts, key=lambda layout: (-_filled(layout), layout.board.number, layout.spots))
    waiting = [list(reversed(shape.rects)) for shape in job.shapes]
    sheets = Counter(_sheet(layout, given, job.kerf, waiting) for layout in ranked)
    return tuple(replace(sheet, times=times) for sheet, times in sheets.items())


def _filled(layout: Layout) -> float:
    return sum(spot.lay.along * spot.lay.across for spot in layout.spots) / layout.board.area


def _sheet(layout: Layout, given: Given, kerf: int, waiting: list[list[int]]) -> CutSheet:
    """One sheet; its parts are those that wait longest for their shape."""
    stock = given.stocks[layout.board.number]
    placed = tuple(_placed(spot, given, waiting) for spot in layout.spots)
    cutting = sawn(layout, kerf, given.saw)
    share = sum(part.along * part.across for part in placed) / (stock.along * stock.across)
    return CutSheet(stock.name, 1, placed, cutting.cuts, share, cutting.offcuts)


def _placed(spot: Spot, given: Given, waiting: list[list[int]]) -> Placed:
    rect = given.rects[waiting[spot.shape].pop()]
    sides = (rect.across, rect.along) if spot.lay.turned else (rect.along, rect.across)
    x, y = (given.saw.trim + place / NANO for place in (spot.x, spot.y))
    return Placed(rect.mark, x, y, *sides, turned=spot.lay.turned)
