"""From needs and stock to whole numbers, through the search, and back to bars that are checked."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from tidestead.build.cutting.bars import bars_of
from tidestead.build.cutting.check_lengths import check_lengths
from tidestead.build.cutting.columns import (
    CLOSE,
    Proof,
    Watch,
    first_patterns,
    generate,
    material_proof,
    raised,
)
from tidestead.build.cutting.knapsack import Problem, Whole
from tidestead.build.cutting.lengths import NANOMETRES, LengthPlan, Need, Saw, Stock
from tidestead.build.cutting.lengths_refused import both, refuse
from tidestead.build.cutting.master import Master
from tidestead.build.cutting.mixes import Rule, least_lengths, roomiest
from tidestead.build.cutting.rounding import Found, Goal, greedy, most_of, whole_plan
from tidestead.core.errors import ImpossibleInput, SolverError

NEAR_ENOUGH = 9.5e-4
"""How far above the bound, as a share of it, the search may stop where prices differ."""

COARSE = 5e-5
"""Prices whose common step is a larger share of the bound than this add up to few sums."""

NEARLY = 1e-4
"""Where prices lie close, the program may stop this share above its bound."""

FEW = 40
"""Pieces up to which the search goes on until it is settled."""

FOR_PATTERNS = 0.5
"""The share of the time for patterns; the rest is for whole numbers."""

CENTS = 1e4
"""Prices that are whole in this part of the money have a common step."""

SLOWING = 0.96
"""What a round leaves of the way that is shown as still to go: nobody knows how many there will be."""


@dataclass(frozen=True)
class Counted:
    """The problem in whole numbers: its rows' lengths, the stocks that can be cut, and what prices are shares of."""

    problem: Problem
    rows: tuple[int, ...]
    stocks: tuple[Stock, ...]
    scale: float


def solved(
    needs: tuple[Need, ...],
    stocks: tuple[Stock, ...],
    saw: Saw,
    tick: Callable[[int, int], None] | None,
    deadline: float,
) -> LengthPlan:
    """The plan, checked; raises as `cut_lengths` says."""
    refuse(needs, stocks, saw)
    if not needs:
        return LengthPlan((), 0.0, 0.0, True, 0.0, needs, saw)
    counted = _counted(needs, stocks, saw)
    problem = counted.problem
    step = _price_step(counted.stocks) / counted.scale
    watch = Watch(deadline, _turn(tick))
    master = Master(problem)
    master.add(first_patterns(problem))
    first = greedy(problem, problem.wanted, problem.limits)
    if first is not None:
        master.add(first.patterns)
    least = material_proof(problem).bound
    fine = problem.wanted.sum() > FEW and step < COARSE * least
    relaxed, proof = generate(master, step, watch.part(FOR_PATTERNS), NEARLY if fine else CLOSE)
    bounds = Bounds(problem, proof, step, watch)
    found = whole_plan(master, relaxed, proof, bounds.first(), bounds, watch)
    if found.cut is None:
        raise _none_found(counted, needs, found.settled)
    plan = _plan(counted, found, needs, saw)
    if tick is not None:
        tick(100, 100)
    faults = check_lengths(plan, needs, stocks, saw)
    if faults:
        raise SolverError("The plan of how lengths are cut does not hold: " + " ".join(faults))
    return plan


def _counted(needs: tuple[Need, ...], stocks: tuple[Stock, ...], saw: Saw) -> Counted:
    kerf, trim = round(saw.kerf * NANOMETRES), round(saw.trim * NANOMETRES)
    wanted: dict[int, int] = {}
    for need in needs:
        length = round(need.length * NANOMETRES)
        wanted[length] = wanted.get(length, 0) + int(need.count)
    rows = tuple(sorted(wanted, reverse=True))
    usable = {stock: round(stock.length * NANOMETRES) - trim for stock in stocks}
    cut = tuple(stock for stock in stocks if stock.on_hand != 0 and usable[stock] >= rows[-1])
    scale = max((stock.price for stock in cut), default=0.0) or 1.0
    total = sum(wanted.values())
    limits = [-1 if stock.on_hand is None else min(int(stock.on_hand), total) for stock in cut]
    problem = Problem(
        np.array(rows, dtype=np.int64) + kerf,
        np.array([wanted[length] for length in rows], dtype=np.int64),
        np.array([usable[stock] for stock in cut], dtype=np.int64) + kerf,
        np.array([stock.price for stock in cut]) / scale,
        np.array(limits, dtype=np.int64),
    )
    return Counted(problem, rows, cut, scale)


def _price_step(stocks: tuple[Stock, ...]) -> float:
    """What every sum of prices is a multiple of; nothing where that cannot be said."""
    prices = sorted({stock.price for stock in stocks} - {0.0})
    if len(prices) == 1:
        return prices[0]
    whole = [round(price * CENTS) for price in prices]
    if any(abs(price * CENTS - many) > 1e-6 for price, many in zip(prices, whole, strict=True)):
        return 0.0
    return math.gcd(*whole) / CENTS


@dataclass(frozen=True)
class Bounds:
    """What no plan costs less than, and from that where the search may stop."""

    problem: Problem
    proof: Proof
    step: float
    watch: Watch

    def first(self) -> Goal:
        """By the proof alone; with whole lengths where these are few, or their prices add up to few sums."""
        goal = self._goal(raised(self.proof.bound, self.step))
        few = self.problem.wanted.sum() <= FEW or self.step > COARSE * self.proof.bound
        return self.firmer(goal) if few else goal

    def firmer(self, goal: Goal) -> Goal:
        """With the prices of whole lengths, which takes a moment: they add up to more than the proof alone knows."""
        least = least_lengths(self.problem, self.rules, self.watch.left())
        return self._goal(max(goal.bound, raised(least, self.step)))

    @property
    def rules(self) -> tuple[Rule, ...]:
        """What mixes of whole lengths have to keep."""
        proofs = (self.proof, material_proof(self.problem))
        return tuple(Rule(one.most, float(one.worth @ self.problem.wanted)) for one in proofs)

    def mix(self, goal: Goal) -> Whole | None:
        """How many of each stock could be enough for all pieces, at a price that is near enough."""
        return roomiest(self.problem, self.rules, goal.enough, self.watch.left())

    def _goal(self, bound: float) -> Goal:
        """Where plans' costs lie far apart, or pieces are few, only the bound is enough; else a hair above it is."""
        bound = max(0.0, bound)
        if self.step > NEAR_ENOUGH * bound:
            return Goal(bound, bound, self.step, tries=9, mends=0)
        if self.problem.wanted.sum() <= FEW:
            return Goal(bound, bound, self.step, tries=1, mends=1)
        return Goal(bound, bound * (1.0 + NEAR_ENOUGH), self.step, tries=3, mends=3)


def _turn(tick: Callable[[int, int], None] | None) -> Callable[[], None]:
    rounds = 0

    def turn() -> None:
        nonlocal rounds
        rounds += 1
        if tick is not None:
            tick(int(99 * (1.0 - SLOWING**rounds)), 100)

    return turn


def _plan(counted: Counted, found: Found, needs: tuple[Need, ...], saw: Saw) -> LengthPlan:
    assert found.cut is not None
    bars = bars_of(found.cut, counted.problem, counted.stocks, needs, saw)
    cost = math.fsum(bar.times * bar.stock.price for bar in bars)
    least = cost if found.settled else min(cost, found.bound * counted.scale)
    proven = found.settled or cost - least <= 1e-9 * cost
    gap = 0.0 if proven else (cost - least) / least if least > 0.0 else math.inf
    return LengthPlan(bars, cost, cost if proven else least, proven, gap, needs, saw)


def _none_found(counted: Counted, needs: tuple[Need, ...], settled: bool) -> ImpossibleInput | SolverError:
    """In words: what stays uncut when the stock there is has been filled up."""
    left = most_of(counted.problem)
    marks = {
        row: [need.mark for need in needs if round(need.length * NANOMETRES) == row] for row in counted.rows
    }
    lacking = [
        f"{many} of {both(row / NANOMETRES)} ({', '.join(marks[row])})"
        for row, many in zip(counted.rows, left, strict=True)
        if many
    ]
    told = f"Filled up piece by piece, it leaves {'; '.join(lacking)} uncut. Add stock, or a length that can be bought."
    if settled:
        return ImpossibleInput(f"The stock on hand does not give all pieces. {told}")
    return SolverError(f"No way was found to cut all pieces from the stock on hand. {told}")
