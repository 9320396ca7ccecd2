"""Column generation: new patterns as long as the prices of the linear program ask for them, and what they prove.

    least price >= sum(worth * wanted) + sum(scarcity * limit)

for any worths of pieces at which no pattern is worth more than its length costs. Worths are scaled until that is so,
stock of which there is an end may cost its scarcity more. So the bound is sure wherever the search stops.
"""

from __future__ import annotations

import math
import time
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from tidestead.build.cutting.knapsack import (
    CELLS,
    Asked,
    Patterns,
    Problem,
    Real,
    Whole,
    best_patterns,
    best_worth,
    by_cells,
    frontiers,
    with_gain,
)
from tidestead.build.cutting.master import Master, Relaxed

AT_ONCE = 30
"""Patterns taken into the program in one round, at least."""

SMOOTH = 0.5
"""How far worths are drawn towards those of the best bound so far; they would swing from round to round otherwise."""

WORTH_IT = 1e-4
"""Gain, as a share of the dearest stock, from which on a pattern is taken in while whole numbers are sought."""

CLOSE = 2e-5
"""The program may stop this share above its bound, unless told otherwise."""


class OutOfTime(Exception):
    """The time given is up; what is there by then is what there is."""


@dataclass
class Watch:
    """How long the search may go on. `turn` is called in every round and may raise to stop it."""

    deadline: float
    turn: Callable[[], None]

    def left(self) -> float:
        """Seconds left."""
        return self.deadline - time.monotonic()

    def look(self) -> None:
        """Tell that it goes on; raise OutOfTime where the time is up."""
        self.turn()
        if self.left() <= 0.0:
            raise OutOfTime

    def part(self, share: float) -> Watch:
        """The same for a share of the time left."""
        return Watch(self.deadline - (1.0 - share) * self.left(), self.turn)


@dataclass(frozen=True)
class Proof:
    """No plan is cheaper than `bound`; the worths of pieces and scarcities of stock that show it.

    `most` is what a length of each stock can be worth with them, at the most.
    """

    bound: float
    worth: Real
    scarcity: Real
    most: Real


def raised(bound: float, step: float) -> float:
    """The least multiple of the step at or above the bound; the bound itself where prices have no common step."""
    return math.ceil(bound / step - 1e-6) * step if step > 0.0 else bound


def material_proof(problem: Problem) -> Proof:
    """The bound by material alone: every width at the least price of its room."""
    endless = problem.limits < 0
    share = float((problem.prices / problem.rooms)[endless].min()) if endless.any() else 0.0
    return _proof(problem, share * problem.widths.astype(float), share * problem.rooms.astype(float))


def proof_of(problem: Problem, worth: Real, most: Real) -> Proof:
    """The sure bound that the worths of a round give, at which a length of each stock is worth no more than `most`."""
    bought = (problem.limits < 0) & (most > 0.0)
    over = max(1.0, float((most[bought] / problem.prices[bought]).max(initial=0.0)))
    return _proof(problem, worth / over, most / over)


def _proof(problem: Problem, worth: Real, most: Real) -> Proof:
    """The bound of worths at which a length of each stock is worth no more than `most`."""
    endless = problem.limits < 0
    scarcity = np.where(endless, 0.0, np.minimum(0.0, problem.prices - most))
    held = scarcity @ np.where(endless, 0, problem.limits)
    return Proof(float(worth @ problem.wanted + held), worth, scarcity, most)


def first_patterns(problem: Problem) -> Patterns:
    """Of each stock as many pieces of one row as it takes."""
    stocks, counts = [], []
    for stock, room in enumerate(problem.rooms):
        most = np.minimum(problem.wanted, room // problem.widths)
        fits = np.flatnonzero(most)
        stocks.append(np.full(len(fits), stock))
        counts.append(np.diag(most)[fits])
    return Patterns(np.concatenate(stocks), np.concatenate(counts))


def generate(master: Master, step: float, watch: Watch, close: float = CLOSE) -> tuple[Relaxed, Proof]:
    """Patterns until none is worth more than its price; the linear program then, and the best bound on the way.

    In few cells while that still finds some, then in many, exactly then. Stops quietly when time is up: the bound is
    sure at any round.
    """
    problem, last = master.problem, len(CELLS)
    best = material_proof(problem)
    at_once = max(AT_ONCE, len(problem.widths) // 2)
    relaxed, look = master.solve(), 0
    while not _closed(relaxed, best, step, close) and watch.left() > 0.0:
        watch.turn()
        toward = SMOOTH if look < last else 0.0
        worth = toward * best.worth + (1.0 - toward) * relaxed.worth
        scarcity = toward * best.scarcity + (1.0 - toward) * relaxed.scarcity
        asked = Asked(problem.wanted, worth, problem.prices - scarcity, at_once)
        most, found = _in_cells(problem, asked, look) if look < last else _exactly(problem, asked)
        best = max(best, proof_of(problem, worth, most), key=lambda proof: proof.bound)
        if master.add(with_gain(found, relaxed.worth, problem.prices - relaxed.scarcity)):
            relaxed, look = master.solve(), min(look, 1)
        elif look == last:
            break
        else:
            look += 1
    return relaxed, best


def _in_cells(problem: Problem, asked: Asked, look: int) -> tuple[Real, Patterns]:
    """What a length of each stock can be worth at the most, told a little high, and patterns that hardly miss it."""
    loose, snug = problem.loose[look], problem.snug[look]
    told = by_cells(loose, asked.wanted, asked.worth)
    made = told if (loose.widths == snug.widths).all() else by_cells(snug, asked.wanted, asked.worth)
    return best_worth(loose, told), best_patterns(snug, asked, made)


def _exactly(problem: Problem, asked: Asked) -> tuple[Real, Patterns]:
    suffixes = frontiers(problem, asked.wanted, asked.worth)
    return best_worth(problem, suffixes), best_patterns(problem, asked, suffixes)


def _closed(relaxed: Relaxed, proof: Proof, step: float, close: float) -> bool:
    """Whether better prices could not raise the bound any more, or hardly."""
    return relaxed.cost <= raised(proof.bound, step) or relaxed.cost - proof.bound <= close * relaxed.cost


def settle(master: Master, wanted: Whole, rounds: int, look: int, watch: Watch) -> Relaxed:
    """The linear program after a few rounds of new patterns for what is still wanted, in few cells or many (`look`)."""
    problem = master.problem
    for _ in range(rounds):
        relaxed = master.solve()
        watch.look()
        asked = Asked(wanted, relaxed.worth, problem.prices - relaxed.scarcity, AT_ONCE // 3)
        snug = problem.snug[look]
        found = best_patterns(snug, asked, by_cells(snug, wanted, relaxed.worth))
        if not master.add(with_gain(found, asked.worth, asked.price, WORTH_IT)):
            return relaxed
    return master.solve()
