"""A few dear parts laid freely, as a router can cut them: by a search that proves what it finds, or says how far off.

Parts need not come apart by cuts from edge to edge here. Up to some 25 parts a proof may be hoped for; beyond that
expect a plan and the bound it stands against.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from math import isfinite
from types import MappingProxyType
from typing import Literal, NamedTuple

from tidestead.build.cutting.check_sheets import sheet_faults
from tidestead.build.cutting.panel_model import Found, PanelModel
from tidestead.build.cutting.sheet_bounds import Bound, least_cost
from tidestead.build.cutting.sheet_job import NANO, Board, Layout, SheetJob, sheet_job
from tidestead.build.cutting.sheet_plans import Given, checked_plan, cost_of, cut_alike, refuse_faults
from tidestead.build.cutting.sheet_types import Rect, SheetPlan, SheetSaw, SheetStock, Tick
from tidestead.build.cutting.sheets import edge_to_edge
from tidestead.core.errors import ImpossibleInput, SolverError, TidesteadError

MOST_PARTS = 60
"""Beyond this the search has no hope of doing better than cuts from edge to edge."""

HAIR = 1e-9

SEARCHED = "a search of every way to lay the parts freely"

Kind = Literal["cost", "worth", "length"]
"""The cheapest sheets for all parts, the parts of most worth out of one sheet, the least length of one sheet."""


@dataclass(frozen=True)
class PanelTerms:
    """`worth` of one part of each rect and the `least` number of it, in their order, where worth is asked for."""

    worth: tuple[float, ...] = ()
    least: tuple[int, ...] = ()
    seconds: float = 20.0


USUAL = PanelTerms()


def place_panels(
    rects: Sequence[Rect],
    stocks: Sequence[SheetStock],
    saw: SheetSaw,
    kind: Kind = "cost",
    terms: PanelTerms = USUAL,
    tick: Tick | None = None,
) -> SheetPlan:
    """The best way found to lay parts freely on sheets, with what is proven of it.

    cost: all parts from the cheapest sheets. worth: of one sheet the parts of most worth, each rect up to its count;
    `reached` is their worth. length: all parts on one sheet, as little of its length used as can be, trims included;
    `reached` is that length. `tick` hears every tenth of a second and may raise to stop the search.
    Raises ImpossibleInput for what cannot be laid.
    """
    job = sheet_job(rects, stocks, saw)
    if job.parts > MOST_PARTS:
        raise ImpossibleInput(
            f"{job.parts} parts are too many to be laid freely; {MOST_PARTS} at most. Cut them from edge to edge."
        )
    if kind != "cost" and len(stocks) != 1:
        raise ImpossibleInput(f"{len(stocks)} sizes of sheet were given where one is asked about. Give one.")
    return _KINDS[kind](job, Given(rects, stocks, saw), terms, tick)


def _cheapest(job: SheetJob, given: Given, terms: PanelTerms, tick: Tick | None) -> SheetPlan:
    """Cuts from edge to edge first: they are a way to lay parts freely too, and often meet the bound."""
    bound = least_cost(job)
    if bound.cost == float("inf"):
        raise ImpossibleInput("The sheets on hand do not suffice by area. Add sheets, or let more be bought.")
    first = edge_to_edge(job, bound, terms.seconds / 2.0)
    if first is not None and cost_of(first) <= bound.cost + HAIR:
        return checked_plan(job, first, bound, given, guillotine=False)
    model = PanelModel(job, _boards_to_try(job, first))
    model.wants_all()
    model.cheapest(cost_of(first) if first is not None else None)
    found = model.solve(terms.seconds, tick)
    layouts = found.layouts or first
    if layouts is None:
        raise _nothing(found)
    least = cost_of(layouts) if found.closed else min(found.bound, cost_of(layouts))
    proof = Bound(least, SEARCHED) if least > bound.cost + HAIR else bound
    return checked_plan(job, layouts, proof, given, guillotine=False)


def _boards_to_try(job: SheetJob, first: Sequence[Layout] | None) -> list[Board]:
    """As many of each size as could be in a plan no dearer than the first, or that there are."""
    tried = []
    for board in job.boards:
        most = job.parts
        if first is not None and board.price > 0.0:
            most = min(most, int(cost_of(first) / board.price + HAIR))
        if board.limit is not None:
            most = min(most, board.limit)
        tried += [board] * most
    return tried


def _most_worth(job: SheetJob, given: Given, terms: PanelTerms, tick: Tick | None) -> SheetPlan:
    _refuse_terms(given.rects, terms)
    least = terms.least or (0,) * len(given.rects)
    model = PanelModel(job, job.boards[:1])
    model.most_worth(terms.worth, least)
    found = model.solve(terms.seconds, tick)
    if not found.layouts:
        raise _nothing(found)
    chosen = Counter(found.rects)
    if any(not low <= chosen[number] <= given.rects[number].count for number, low in enumerate(least)):
        raise SolverError("A plan of panels holds other numbers of parts than it was asked for.")
    taken = [replace(rect, count=chosen[number]) for number, rect in enumerate(given.rects) if chosen[number]]
    cut = Given(taken, given.stocks, given.saw)
    reached = sum(terms.worth[number] * count for number, count in chosen.items())
    return _of_one(
        _renamed(job, found.layouts[0], cut), cut, Goal(reached, max(reached, found.bound), found.closed)
    )


def _renamed(job: SheetJob, layout: Layout, cut: Given) -> tuple[SheetJob, Layout]:
    """The job of the chosen parts alone, and the layout in its terms."""
    fewer = sheet_job(*cut)
    at = {(shape.along, shape.across, shape.turns): number for number, shape in enumerate(fewer.shapes)}
    shapes = [job.shapes[spot.shape] for spot in layout.spots]
    numbers = [at[shape.along, shape.across, shape.turns] for shape in shapes]
    spots = (spot._replace(shape=number) for spot, number in zip(layout.spots, numbers, strict=True))
    return fewer, Layout(layout.board, tuple(spots))


def _least_length(job: SheetJob, given: Given, terms: PanelTerms, tick: Tick | None) -> SheetPlan:
    model = PanelModel(job, job.boards[:1])
    model.wants_all()
    model.shortest()
    found = model.solve(terms.seconds, tick)
    if not found.layouts:
        raise _nothing(found)
    used = max(spot.x + spot.lay.along for spot in found.layouts[0].spots)
    extra = 2.0 * given.saw.trim - job.kerf / NANO
    goal = Goal(used / NANO + extra, min(used, found.bound) / NANO + extra, found.closed)
    return _of_one((job, found.layouts[0]), given, goal)


class Goal(NamedTuple):
    """What was reached, what no other plan could go beyond, and whether the search came to its end."""

    reached: float
    bound: float
    closed: bool


def _of_one(work: tuple[SheetJob, Layout], given: Given, goal: Goal) -> SheetPlan:
    """The plan of one sheet, looked at a second time."""
    job, layout = work
    bound = goal.reached if goal.closed else goal.bound
    sheets = cut_alike(job, [layout], given)
    plan = SheetPlan(sheets, layout.board.price, bound, SEARCHED, goal.closed, goal.reached)
    refuse_faults(sheet_faults(plan, *given, guillotine=False))
    return plan


def _refuse_terms(rects: Sequence[Rect], terms: PanelTerms) -> None:
    if len(terms.worth) != len(rects) or (terms.least and len(terms.least) != len(rects)):
        raise ImpossibleInput(
            "Every part needs its worth, and its least number if any has one. Give one for each."
        )
    for rect, worth in zip(rects, terms.worth, strict=True):
        if not (isfinite(worth) and worth > 0.0):
            raise ImpossibleInput(f'part "{rect.mark}": cannot be worth {worth:g}. Give more than nothing.')
    for rect, low in zip(rects, terms.least, strict=bool(terms.least)):
        if not 0 <= low <= rect.count:
            raise ImpossibleInput(
                f'part "{rect.mark}": at least {low} of {rect.count} cannot be. Give 0 to {rect.count}.'
            )


def _nothing(found: Found) -> TidesteadError:
    """What to say where no plan came out."""
    if found.closed:
        return ImpossibleInput(
            "The parts do not fit on the sheets there are, however they are laid. Add a sheet."
        )
    return SolverError("No plan was found in the time it was given. Give it longer, or add a sheet.")


_KINDS: Mapping[Kind, Callable[[SheetJob, Given, PanelTerms, Tick | None], SheetPlan]] = MappingProxyType(
    {"cost": _cheapest, "worth": _most_worth, "length": _least_length}
)
