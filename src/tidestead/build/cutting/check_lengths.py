"""Whether a plan of how lengths are cut holds, from needs, stock and saw alone: nothing of the search is used here."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import pairwise

from tidestead.build.cutting.lengths import Bar, LengthPlan, Need, Saw, Stock

ROUNDED = 1e-9
"""Metres that each length of a bar may be rounded by."""

MONEY = 1e-9
"""Share of the cost that sums of prices may differ by."""


def check_lengths(
    plan: LengthPlan, needs: Sequence[Need], stocks: Sequence[Stock], saw: Saw
) -> tuple[str, ...]:
    """What is wrong with the plan, a sentence for each; nothing where it holds."""
    lengths = {need.mark: need.length for need in needs}
    faults = [*_count_faults(plan, needs), *_stock_faults(plan, stocks)]
    for number, bar in enumerate(plan.bars, start=1):
        faults += [f"Bar {number} ({bar.stock.name}): {fault}" for fault in _bar_faults(bar, lengths, saw)]
    return (*faults, *_cost_faults(plan))


def _count_faults(plan: LengthPlan, needs: Sequence[Need]) -> Iterator[str]:
    cut: Counter[str] = Counter()
    for bar in plan.bars:
        for mark in bar.marks:
            cut[mark] += bar.times
    for need in needs:
        if cut[need.mark] != need.count:
            yield f"{need.mark} is cut {cut[need.mark]} times, and wanted {need.count} times."
    for mark in cut.keys() - {need.mark for need in needs}:
        yield f"{mark} is cut and not wanted."


def _stock_faults(plan: LengthPlan, stocks: Sequence[Stock]) -> Iterator[str]:
    taken: Counter[Stock] = Counter()
    for bar in plan.bars:
        taken[bar.stock] += bar.times
    for stock, times in taken.items():
        if stock not in stocks:
            yield f"{stock.name} is not among the stock."
        elif stock.on_hand is not None and times > stock.on_hand:
            yield f"{stock.name} is cut {times} times, and {stock.on_hand} are on hand."


def _bar_faults(bar: Bar, lengths: dict[str, float], saw: Saw) -> Iterator[str]:
    if bar.times < 1 or bar.times != int(bar.times):
        yield f"is cut {bar.times:g} times."
    if not bar.marks:
        yield "nothing is cut of it."
    pieces = [lengths[mark] for mark in bar.marks if mark in lengths]
    if any(later > earlier + ROUNDED for earlier, later in pairwise(pieces)):
        yield "its pieces are not cut longest first."
    within = ROUNDED * (len(pieces) + 1)
    rest = bar.stock.length - saw.trim - math.fsum(pieces) - saw.kerf * (len(pieces) - 1)
    if rest < -within:
        yield f"its pieces and cuts are {-rest:.6f} m longer than it is."
    offcut = max(0.0, rest - saw.kerf)
    if not abs(bar.offcut - offcut) <= within:
        yield f"its off-cut is told as {bar.offcut:.6f} m and is {offcut:.6f} m."


def _cost_faults(plan: LengthPlan) -> Iterator[str]:
    cost = math.fsum(bar.times * bar.stock.price for bar in plan.bars)
    if not abs(plan.cost - cost) <= MONEY * max(1.0, cost):
        yield f"Its cost is told as {plan.cost:g} and is {cost:g}."
    if not plan.bound <= plan.cost + MONEY * max(1.0, cost):
        yield f"It costs {plan.cost:g}, less than the {plan.bound:g} that no plan is below."
    gap = (plan.cost - plan.bound) / plan.bound if plan.bound > 0.0 else math.inf if plan.cost > 0.0 else 0.0
    if not (plan.gap == gap or abs(plan.gap - gap) <= MONEY):
        yield f"Its gap is told as {plan.gap:.6f} and is {gap:.6f}."
    if plan.proven and plan.gap > MONEY:
        yield "It is called proven, and there is a gap."
