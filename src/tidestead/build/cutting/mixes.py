"""How many whole lengths of each stock: what any mix that holds all pieces costs at least, and the one with most room.

Every proof gives a rule: the pieces are worth so much together, a length of each stock can be worth so much at most.
A mix that breaks a rule cannot hold all pieces.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from tidestead.build.cutting.knapsack import Problem, Real, Whole
from tidestead.build.cutting.master import FEASIBLE, NO_PLAN, quiet_highs

if TYPE_CHECKING:
    import highspy

SLIGHT = 1e-6
"""What rules are loosened by, so that no rounding makes a bound that does not hold."""

NODES = 2_000
"""Branches that a search for a mix may follow."""

SECONDS = 1.0
"""That it may take at the most."""


@dataclass(frozen=True)
class Rule:
    """The most that a length of each stock can be worth, and what all pieces are worth."""

    most: Real
    worth: float


def least_lengths(problem: Problem, rules: tuple[Rule, ...], seconds: float) -> float:
    """What whole lengths cost at least that are worth enough by every rule.

        least sum(price * many)     where sum(most * many) >= worth of all pieces, in whole lengths

    No plan is cheaper, for its lengths hold all pieces. With one stock it is the linear program, rounded up.
    """
    solver = _mixes(problem, problem.prices, rules, seconds)
    solver.run()
    return float(solver.getInfo().mip_dual_bound) if int(solver.getModelStatus()) != NO_PLAN else 0.0


def roomiest(problem: Problem, rules: tuple[Rule, ...], enough: float, seconds: float) -> Whole | None:
    """The mix with the most room in all that costs `enough` or less; None where none is found.

    The more is left over, the likelier the pieces go in.
    """
    rooms = problem.rooms / problem.rooms.max()
    solver = _mixes(problem, -rooms, rules, seconds)
    stocks = len(problem.prices)
    solver.addRow(-np.inf, enough, stocks, np.arange(stocks, dtype=np.int32), problem.prices)
    solver.run()
    if solver.getInfo().primal_solution_status != FEASIBLE:
        return None
    mix: Whole = np.rint(np.array(solver.getSolution().col_value)).astype(np.int64)
    return mix


def _mixes(problem: Problem, cost: Real, rules: tuple[Rule, ...], seconds: float) -> highspy.Highs:
    """The program of all mixes that keep the rules, with a cost for a length of each stock."""
    import highspy  # noqa: PLC0415 - a fifth of a second that only cutting needs

    solver = quiet_highs()
    solver.setOptionValue("time_limit", max(0.05, min(SECONDS, seconds)))
    solver.setOptionValue("mip_rel_gap", 0.0)
    solver.setOptionValue("mip_max_nodes", NODES)
    stocks = len(problem.prices)
    at = np.arange(stocks, dtype=np.int32)
    solver.addVars(stocks, np.zeros(stocks), np.where(problem.limits < 0, np.inf, problem.limits))
    solver.changeColsCost(stocks, at, cost)
    solver.changeColsIntegrality(stocks, at, np.full(stocks, highspy.HighsVarType.kInteger))
    for rule in rules:
        solver.addRow(rule.worth - SLIGHT, np.inf, stocks, at, rule.most)
    return solver
