"""Cutting parts out of sheets from edge to edge, as a panel saw must.

Many crude rules first (`guillotine`); where the best of them does not meet the bound, sheets cut in stages are made
one by one and the cheapest choice out of all sheets is taken (`sheet_columns`). Every plan is checked before it is
given out (`check_sheets`). Nothing is left to chance; only a budget of time that runs out can change what comes out.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from time import monotonic

from tidestead.build.cutting.guillotine import filled, rules
from tidestead.build.cutting.sheet_bounds import Bound, least_cost
from tidestead.build.cutting.sheet_columns import ROUNDS, Pool, cheapest_choice
from tidestead.build.cutting.sheet_job import Layout, SheetJob, sheet_job
from tidestead.build.cutting.sheet_plans import Given, checked_plan, cost_of
from tidestead.build.cutting.sheet_types import (
    Cut,
    CutSheet,
    OffCut,
    Placed,
    Rect,
    SheetPlan,
    SheetSaw,
    SheetStock,
    Tick,
)
from tidestead.core.errors import ImpossibleInput, SolverError

__all__ = [
    "Cut",
    "CutSheet",
    "OffCut",
    "Placed",
    "Rect",
    "SheetPlan",
    "SheetSaw",
    "SheetStock",
    "Tick",
    "cut_sheets",
]

BUDGET = 10.0
"""Seconds that a plan may take unless told otherwise."""
HAIR = 1e-9


def cut_sheets(
    rects: Sequence[Rect],
    stocks: Sequence[SheetStock],
    saw: SheetSaw,
    tick: Tick | None = None,
    budget_s: float = BUDGET,
) -> SheetPlan:
    """The cheapest plan found that cuts every part with cuts from edge to edge.

    `bound` is the greatest of three bounds that hold for any way to lay parts: by area, by parts of which no two can
    share a sheet, by rounded sides. The relaxed sum over sheets cut in stages, which the search uses, is no bound for
    all that a saw can cut and is never told as one.
    `tick` hears how far the work is and may raise to stop it. Raises ImpossibleInput for what cannot be cut.
    """
    job = sheet_job(rects, stocks, saw)
    bound = least_cost(job)
    if bound.cost == float("inf"):
        raise ImpossibleInput(
            f"The sheets on hand do not suffice: {bound.basis} show it. Add sheets, or let more be bought."
        )
    best = edge_to_edge(job, bound, budget_s, tick)
    if best is None:
        raise SolverError("No plan was found with the sheets on hand. Add a sheet, or let more be bought.")
    return checked_plan(job, best, bound, Given(rects, stocks, saw))


def edge_to_edge(
    job: SheetJob, bound: Bound, budget_s: float, tick: Tick | None = None
) -> list[Layout] | None:
    """The cheapest found, exactly as many parts as wanted on it. None where none was found."""
    ends = monotonic() + budget_s
    pool, ways = Pool(job), rules(job)
    best: list[Layout] | None = None
    of = len(ways) + ROUNDS
    for done, rule in enumerate(ways):
        if tick:
            tick(done, of)
        found = filled(job, rule)
        if found is not None:
            pool.add(found)
            best = found if best is None or cost_of(found) < cost_of(best) - HAIR else best
        if best is not None and (cost_of(best) <= bound.cost + HAIR or monotonic() > ends):
            break
    if best is None or cost_of(best) > bound.cost + HAIR:
        least = float("inf") if best is None else cost_of(best)
        chosen = cheapest_choice(pool, least, ends, lambda turn: tick(len(ways) + turn, of) if tick else None)
        best = best if chosen is None else without_surplus(job, chosen.layouts)
    if tick:
        tick(of, of)
    return best


def without_surplus(job: SheetJob, layouts: Iterable[Layout]) -> list[Layout]:
    """Parts beyond what is wanted taken off again, boards that are then empty left out."""
    left = [shape.count for shape in job.shapes]
    kept = []
    for layout in layouts:
        spots = []
        for spot in layout.spots:
            if left[spot.shape]:
                left[spot.shape] -= 1
                spots.append(spot)
        if spots:
            kept.append(Layout(layout.board, tuple(spots)))
    return kept
