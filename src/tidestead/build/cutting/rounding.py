"""Whole numbers from the linear program: fixing what it is sure of, step by step, then a small whole program.

What is fixed changes the prices, and new patterns are made for what is left; so hardly a plan ends above the bound.
Further tries choose a little otherwise. Where none reaches the bound, all patterns that a cheaper plan could use are
listed, and a whole program over them settles it.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Protocol

import numpy as np

from tidestead.build.cutting.columns import OutOfTime, Proof, Watch, settle
from tidestead.build.cutting.knapsack import Patterns, Problem, Real, Whole
from tidestead.build.cutting.listing import all_patterns
from tidestead.build.cutting.master import Master, Relaxed, missing_price, whole

HAIR = 1e-7
"""Prices closer than this, as a share of the dearest stock's, are the same."""

TAILS = (4.0, 7.0, 10.0)
"""Bars' worth of pieces from which on the rest is left to a whole program, in turn from try to try."""

NEAR = 100
"""Patterns of the least reduced price that such a program is given: of those there are, and of all there could be."""

ROUNDS = 5
"""Rounds of new patterns after each step."""

LACK = 1e-6
"""Pieces or lengths below which a share is nothing."""

POOLED = {3, 6}
"""Before which tries all patterns there are go into one whole program."""

MENDED = (6, 8, 10)
"""How many lengths are cut anew, in turn."""

SPREAD = 0.4
"""By how much of its share a pattern may be passed over in a later try."""

NODES = 200
"""Branches a whole program may follow."""

ALL_NODES = 10_000_000
"""The same where all patterns are there and time alone ends it."""

SLACKS = (0.3, 0.1, 0.03, 0.01, 0.003)
"""By how much patterns may cost more than they are worth, until they are few enough to be listed."""

MOST_POOLED = 400
"""Patterns that go into one whole program from those that were found."""

FEW_LISTED = 4_000
MOST_LISTED = 20_000
"""Patterns above which a list is given up, for a rest and for the whole."""

TAIL_SECONDS = 1.0
POOL_SECONDS = 1.5
"""Seconds a whole program may take."""


@dataclass(frozen=True)
class Cut:
    """A plan in whole numbers: patterns, how often each, and what it costs."""

    patterns: Patterns
    times: Whole
    cost: float


@dataclass(frozen=True)
class Goal:
    """`bound` is what no plan can be below; `enough` what is close enough to stop at; plans' costs differ by `step`.

    `tries` at whole numbers, each choosing a little otherwise, and after each so many `mends`.
    """

    bound: float
    enough: float
    step: float
    tries: int
    mends: int


@dataclass(frozen=True)
class Found:
    """The best plan there is, or none; no plan costs less than `bound`, and `settled` says that none is better."""

    cut: Cut | None
    settled: bool
    bound: float


class Firmer(Protocol):
    """Knows more about whole lengths, and takes a moment to tell it."""

    def firmer(self, goal: Goal) -> Goal:
        """The goal with a better bound."""

    def mix(self, goal: Goal) -> Whole | None:
        """How many of each stock could be enough at a price that is near enough; None where none are known."""


def whole_plan(
    master: Master, relaxed: Relaxed, proof: Proof, goal: Goal, more: Firmer, watch: Watch
) -> Found:
    """The cheapest plan that could be found in the time; none, settled, where the linear program lacks pieces.

    `more` is asked once, where the first try misses the goal.
    """
    best = greedy(master.problem, master.problem.wanted, master.problem.limits)
    if best is None and relaxed.missing > LACK:
        return Found(None, True, goal.bound)
    best = _better(best, _rounded_down(master, relaxed))
    try:
        for attempt in range(goal.tries):
            if _enough(best, goal):
                break
            best = _tried(master, proof, best, goal, attempt, watch)
            if attempt == 0 and not _enough(best, goal):
                goal = more.firmer(goal)
                best = _better(best, _of_mix(master, more.mix(goal), best, goal, watch))
            best = _mended_often(master, proof, best, goal, attempt, watch)
    except OutOfTime:
        return Found(best, False, goal.bound)
    if best is not None and _enough(best, goal):
        return Found(best, best.cost <= goal.bound + HAIR, goal.bound)
    return _listed(master, proof, best, goal, watch)


def _tried(
    master: Master, proof: Proof, best: Cut | None, goal: Goal, attempt: int, watch: Watch
) -> Cut | None:
    """The best after one more try."""
    if attempt in POOLED:
        best = _better(best, _pooled(master, proof, best, goal, watch))
    return best if _enough(best, goal) else _better(best, _dive(master, attempt, goal, watch))


def _of_mix(master: Master, mix: Whole | None, best: Cut | None, goal: Goal, watch: Watch) -> Cut | None:
    """A plan out of so many lengths of each stock and no more, however they are priced."""
    if mix is None or _enough(best, goal):
        return None
    there = mix[master.patterns.stocks] > 0
    given = Master(replace(master.problem, limits=mix))
    given.add(Patterns(master.patterns.stocks[there], master.patterns.counts[there]))
    return _dive(given, 1, goal, watch)


def _mended_often(
    master: Master, proof: Proof, best: Cut | None, goal: Goal, attempt: int, watch: Watch
) -> Cut | None:
    for turn in range(goal.mends):
        if best is not None and not _enough(best, goal):
            number = attempt * goal.mends + turn
            best = _better(best, _mended(master, proof, best, goal, number, watch))
    return best


def _rounded_down(master: Master, relaxed: Relaxed) -> Cut | None:
    """What the linear program cuts in whole lengths, and the rest filled up."""
    problem = master.problem
    times = np.floor(relaxed.times + 1e-6).astype(np.int64)
    patterns = Patterns(master.patterns.stocks[: len(times)], master.patterns.counts[: len(times)])
    spent = Cut(patterns, times, float(problem.prices[patterns.stocks] @ times))
    left, limits = _left(problem, patterns, times), _limits_left(problem, spent)
    end = None if limits is None else greedy(problem, left, limits)
    return None if end is None else _joined(spent, end)


def _enough(cut: Cut | None, goal: Goal) -> bool:
    return cut is not None and cut.cost <= goal.enough + HAIR


def _better(one: Cut | None, other: Cut | None) -> Cut | None:
    if one is None or other is None:
        return one or other
    return other if other.cost < one.cost - HAIR else one


def _dive(master: Master, attempt: int, goal: Goal, watch: Watch) -> Cut | None:
    """Fix what the linear program is sure of, or else the surest pattern, until little is left.

    Every second attempt looks for patterns more closely, which takes longer.
    """
    problem = master.problem
    chance = np.random.default_rng(attempt)
    fixed = np.zeros(len(master.patterns), dtype=np.int64)
    relaxed = None
    try:
        while (left := _left(problem, master.patterns, fixed)).any():
            relaxed = settle(master, left, ROUNDS, attempt % 2, watch)
            fixed = np.append(fixed, np.zeros(len(master.patterns) - len(fixed), dtype=np.int64))
            over = np.maximum(relaxed.times - fixed, 0.0)
            if over.sum() <= TAILS[attempt % len(TAILS)] or over.max(initial=0.0) < LACK:
                break
            fixed += _surest(over, attempt, chance)
            master.fix(fixed)
    finally:
        master.fix(np.zeros(len(master.patterns), dtype=np.int64))
    spent = Cut(master.patterns, fixed, float(problem.prices[master.patterns.stocks] @ fixed))
    return spent if relaxed is None or not left.any() else _with_tail(problem, spent, relaxed, goal, watch)


def _mended(master: Master, proof: Proof, best: Cut, goal: Goal, attempt: int, watch: Watch) -> Cut | None:
    """The plan with its worst lengths and some by chance cut anew.

    What a plan costs above the bound is the sum of what its patterns cost more than they are worth.
    """
    watch.look()
    problem, chance = master.problem, np.random.default_rng(attempt)
    price = problem.prices - proof.scarcity
    each = np.repeat(np.arange(len(best.times)), best.times)
    dear = np.round(price[best.patterns.stocks] - best.patterns.counts @ proof.worth, 9)[each]
    worst = np.argsort(-dear, kind="stable")
    many = MENDED[attempt % len(MENDED)]
    anew = np.append(worst[: many // 2], chance.permutation(worst[many // 2 :])[: many - many // 2])
    kept = best.times - np.bincount(each[anew], minlength=len(best.times))
    patterns = Patterns(
        np.concatenate((best.patterns.stocks, master.patterns.stocks)),
        np.concatenate((best.patterns.counts, master.patterns.counts)),
    )
    times = np.append(kept, np.zeros(len(master.patterns), dtype=np.int64))
    spent = Cut(patterns, times, float(problem.prices[best.patterns.stocks] @ kept))
    if not _left(problem, patterns, times).any():
        return spent
    prices = Relaxed(0.0, times.astype(float), 0.0, proof.worth, proof.scarcity)
    return _with_tail(problem, spent, prices, goal, watch)


def _surest(over: Real, attempt: int, chance: np.random.Generator) -> Whole:
    """How often more to cut which pattern for sure: all whole times, or else once the one of the largest share."""
    sure = np.floor(over + 1e-6).astype(np.int64)
    if not sure.any():
        spread = SPREAD * chance.random(len(over)) if attempt else np.zeros(len(over))
        sure[np.argmax(np.round(over * (1.0 - spread), 9))] = 1
    return sure


def _left(problem: Problem, patterns: Patterns, fixed: Whole) -> Whole:
    """Pieces still wanted."""
    return np.maximum(problem.wanted - patterns.counts[: len(fixed)].T @ fixed, 0)


def _limits_left(problem: Problem, spent: Cut) -> Whole | None:
    """How many there are left of each stock; None where more are used than there are."""
    used = np.bincount(spent.patterns.stocks, weights=spent.times, minlength=len(problem.prices)).astype(
        np.int64
    )
    limits = np.where(problem.limits < 0, -1, problem.limits - used)
    return None if (limits < 0)[problem.limits >= 0].any() else limits


def _with_tail(problem: Problem, spent: Cut, relaxed: Relaxed, goal: Goal, watch: Watch) -> Cut | None:
    """The plan of what is fixed and of the best for the rest, from patterns close by or by filling up."""
    left = _left(problem, spent.patterns, spent.times)
    limits = _limits_left(problem, spent)
    if limits is None:
        return None
    rest = Problem(problem.widths, left, problem.rooms, problem.prices, limits)
    patterns = _near(rest, spent.patterns, relaxed)
    end = greedy(problem, left, limits)
    times, _ = whole(rest, patterns, min(watch.left(), TAIL_SECONDS), NODES, goal.enough - spent.cost + HAIR)
    if times is not None:
        end = _better(end, Cut(patterns, times, float(problem.prices[patterns.stocks] @ times)))
    return None if end is None else _joined(spent, end)


def _near(rest: Problem, patterns: Patterns, relaxed: Relaxed) -> Patterns:
    """Patterns for the rest that cost little more than they are worth: from those there are, and from all."""
    price = rest.prices - relaxed.scarcity
    clipped = _distinct(Patterns(patterns.stocks, np.minimum(patterns.counts, rest.wanted)))
    chosen = [_least(clipped, price, relaxed.worth, NEAR)]
    for slack in SLACKS:
        listed = all_patterns(rest, relaxed.worth, price, slack, FEW_LISTED)
        if listed is not None:
            chosen.append(_least(listed, price, relaxed.worth, NEAR))
            break
    stocks, counts = (
        np.concatenate(part) for part in zip(*((one.stocks, one.counts) for one in chosen), strict=True)
    )
    return _distinct(Patterns(stocks, counts))


def _least(patterns: Patterns, price: Real, worth: Real, most: int) -> Patterns:
    reduced = np.round(price[patterns.stocks] - patterns.counts @ worth, 9)
    least = np.argsort(reduced, kind="stable")[:most]
    return Patterns(patterns.stocks[least], patterns.counts[least])


def _joined(one: Cut, other: Cut) -> Cut:
    patterns = Patterns(
        np.concatenate((one.patterns.stocks, other.patterns.stocks)),
        np.concatenate((one.patterns.counts, other.patterns.counts)),
    )
    return Cut(patterns, np.concatenate((one.times, other.times)), one.cost + other.cost)


def _distinct(patterns: Patterns) -> Patterns:
    """Without empty patterns and second ones, in the order they came."""
    lines = np.column_stack((patterns.stocks, patterns.counts))
    _, first = np.unique(lines, axis=0, return_index=True)
    first = np.sort(first)
    first = first[patterns.counts[first].any(axis=1)]
    return Patterns(patterns.stocks[first], patterns.counts[first])


def _pooled(master: Master, proof: Proof, best: Cut | None, goal: Goal, watch: Watch) -> Cut | None:
    """The best over the patterns there are that a cheaper plan could use."""
    problem, patterns = master.problem, master.patterns
    if best is not None:
        price = problem.prices - proof.scarcity
        dear = price[patterns.stocks] - patterns.counts @ proof.worth
        could = dear <= best.cost - goal.step - proof.bound + HAIR
        patterns = Patterns(patterns.stocks[could], patterns.counts[could])
    patterns = _least(patterns, problem.prices - proof.scarcity, proof.worth, MOST_POOLED)
    times, _ = whole(problem, patterns, min(watch.left(), POOL_SECONDS), NODES, goal.enough + HAIR)
    return None if times is None else Cut(patterns, times, float(problem.prices[patterns.stocks] @ times))


def _listed(master: Master, proof: Proof, best: Cut | None, goal: Goal, watch: Watch) -> Found:
    """Settle it over all patterns that a plan cheaper by a step could use, where they can be listed."""
    problem = master.problem
    dearest = missing_price(problem) if best is None else best.cost - goal.step
    slack = dearest - proof.bound + HAIR
    patterns = all_patterns(problem, proof.worth, problem.prices - proof.scarcity, slack, MOST_LISTED)
    if patterns is None:
        return Found(best, False, goal.bound)
    times, settled = whole(problem, patterns, watch.left(), ALL_NODES, goal.bound + HAIR)
    if times is None:
        return Found(best, settled, goal.bound)
    found = Cut(patterns, times, float(problem.prices[patterns.stocks] @ times))
    return Found(_better(best, found), settled, goal.bound)


def greedy(problem: Problem, wanted: Whole, limits: Whole) -> Cut | None:
    """Fill the length that comes cheapest for what it takes, widest pieces first, as often as it repeats.

    None where stock runs out before all is cut.
    """
    cut, left = _filled_up(problem, wanted, limits)
    return None if left.any() else cut


def most_of(problem: Problem) -> Whole:
    """Pieces of each row that stay uncut where all stock is filled up."""
    return _filled_up(problem, problem.wanted, problem.limits)[1]


def _filled_up(problem: Problem, wanted: Whole, limits: Whole) -> tuple[Cut, Whole]:
    left, limits = wanted.copy(), limits.copy()
    stocks, lines, times = [], [], []
    while left.any():
        fills = [
            (
                problem.prices[at] / (fill @ problem.widths),
                int(problem.rooms[at] - fill @ problem.widths),
                at,
                fill,
            )
            for at in np.flatnonzero(limits != 0)
            if (fill := _filled(problem, left, int(problem.rooms[at]))).any()
        ]
        if not fills:
            break
        _, _, at, fill = min(fills, key=lambda one: one[:3])
        often = int((left[fill > 0] // fill[fill > 0]).min())
        often = min(often, int(limits[at])) if limits[at] > 0 else often
        left -= often * fill
        limits[at] -= often if limits[at] > 0 else 0
        stocks.append(int(at))
        lines.append(fill)
        times.append(often)
    patterns = Patterns(
        np.array(stocks, dtype=np.int64), np.array(lines, dtype=np.int64).reshape(-1, len(wanted))
    )
    often_each = np.array(times, dtype=np.int64)
    return Cut(patterns, often_each, float(problem.prices[patterns.stocks] @ often_each)), left


def _filled(problem: Problem, left: Whole, room: int) -> Whole:
    counts = np.zeros(len(left), dtype=np.int64)
    while len(fits := np.flatnonzero((problem.widths <= room) & (left > counts))):
        row = int(fits[0])
        counts[row] = min(int(left[row]), room // int(problem.widths[row]))
        room -= int(counts[row] * problem.widths[row])
    return counts
