"""Which patterns to cut how often: the linear program that gives prices, and the whole-number one.

A row for each width wants its pieces, a row for each limited stock allows so many. A piece that is not cut costs more
than any plan: so there always is an answer, and pieces in it that are not cut say that there is no plan.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import numpy as np

from tidestead.build.cutting.knapsack import Patterns, Problem, Real, Whole

if TYPE_CHECKING:
    import highspy

SOLVED = 7
"""What HiGHS says of a model whose optimum is found; where limits of time or nodes ended it, it says another."""

NO_PLAN = 8
"""What it says of a model that has no solution."""

FEASIBLE = 2
"""What it says of a solution that keeps all rows."""


def quiet_highs() -> highspy.Highs:
    """A solver that never writes to the terminal, not even its name while it is made."""
    import highspy  # noqa: PLC0415 - a fifth of a second that only cutting needs

    class Quiet(highspy.Highs):
        def enableCallbacks(self) -> Any:  # noqa: N802 - a name of the library
            self.setOptionValue("output_flag", False)
            return super().enableCallbacks()  # type: ignore[no-untyped-call]  # the library tells no types

    solver = Quiet()  # type: ignore[no-untyped-call]  # as above there
    solver.setOptionValue("output_flag", False)
    solver.setOptionValue("parallel", "off")
    solver.setOptionValue("random_seed", 0)
    return solver


def missing_price(problem: Problem) -> float:
    """What a piece costs that is not cut: more than all pieces together, each from a length of the dearest stock."""
    return float(1 + problem.wanted.sum()) * max(1.0, float(problem.prices.max(initial=0.0)))


@dataclass(frozen=True)
class Relaxed:
    """An optimum of the linear program: what it costs, how often each pattern, pieces that are not cut, and what one
    more piece and one more length are worth.
    """

    cost: float
    times: Real
    missing: float
    worth: Real
    scarcity: Real


class Master:
    """The linear program over the patterns found so far, kept warm from one round to the next."""

    def __init__(self, problem: Problem) -> None:
        self.problem = problem
        self.patterns = Patterns(
            np.zeros(0, dtype=np.int64), np.zeros((0, len(problem.widths)), dtype=np.int64)
        )
        self.limited = np.flatnonzero(problem.limits >= 0)
        self._row_of = {int(stock): len(problem.widths) + at for at, stock in enumerate(self.limited)}
        self._known: set[bytes] = set()
        self._solver = quiet_highs()
        self._solver.setOptionValue("solver", "simplex")
        self._solver.setOptionValue("presolve", "off")
        none, nothing = np.zeros(0, dtype=np.int32), np.zeros(0)
        for wanted in problem.wanted:
            self._solver.addRow(float(wanted), np.inf, 0, none, nothing)
        for limit in problem.limits[self.limited]:
            self._solver.addRow(-np.inf, float(limit), 0, none, nothing)
        for row in range(len(problem.widths)):
            self._solver.addCol(missing_price(problem), 0.0, np.inf, 1, np.array([row], np.int32), np.ones(1))

    def add(self, found: Patterns) -> int:
        """Take in the patterns that are new; says how many were."""
        fresh = []
        for at in range(len(found)):
            key = found.stocks[at].tobytes() + found.counts[at].tobytes()
            if key not in self._known:
                self._known.add(key)
                fresh.append(at)
                self._add_column(int(found.stocks[at]), found.counts[at])
        self.patterns = Patterns(
            np.concatenate((self.patterns.stocks, found.stocks[fresh])),
            np.concatenate((self.patterns.counts, found.counts[fresh])),
        )
        return len(fresh)

    def _add_column(self, stock: int, counts: Whole) -> None:
        rows = np.flatnonzero(counts)
        values = counts[rows].astype(float)
        if stock in self._row_of:
            rows, values = np.append(rows, self._row_of[stock]), np.append(values, 1.0)
        price = float(self.problem.prices[stock])
        self._solver.addCol(price, 0.0, np.inf, len(rows), rows.astype(np.int32), values)

    def fix(self, times: Whole) -> None:
        """Cut each pattern at least so often from now on."""
        many = len(times)
        if many:
            at = np.arange(len(self.problem.widths), len(self.problem.widths) + many, dtype=np.int32)
            self._solver.changeColsBounds(many, at, times.astype(float), np.full(many, np.inf))

    def solve(self) -> Relaxed:
        """The optimum over the patterns so far."""
        self._solver.run()
        solution = self._solver.getSolution()
        rows = len(self.problem.widths)
        duals = np.array(solution.row_dual)
        scarcity = np.zeros(len(self.problem.prices))
        scarcity[self.limited] = np.minimum(duals[rows:], 0.0)
        values = np.array(solution.col_value)
        cost = float(self._solver.getObjectiveValue())
        return Relaxed(
            cost, values[rows:], float(values[:rows].sum()), np.maximum(duals[:rows], 0.0), scarcity
        )


def whole(
    problem: Problem, patterns: Patterns, seconds: float, nodes: int, enough: float
) -> tuple[Whole | None, bool]:
    """Whole times for the patterns, as cheap as may be; and whether there is none cheaper over these patterns.

    Stops after so many seconds or nodes, or at a plan of price `enough`. None where it found no plan that cuts
    everything, for sure where there is none.
    """
    solver = quiet_highs()
    solver.setOptionValue("time_limit", max(0.05, seconds))
    solver.setOptionValue("mip_max_nodes", nodes)
    solver.setOptionValue("mip_rel_gap", 0.0)
    solver.setOptionValue("mip_abs_gap", 1e-7)
    solver.setOptionValue("objective_target", enough)
    limited = np.flatnonzero(problem.limits >= 0)
    _fill(solver, problem, patterns, limited)
    solver.run()
    info = solver.getInfo()
    status = int(solver.getModelStatus())
    if info.primal_solution_status != FEASIBLE:
        return None, status == NO_PLAN
    times = np.rint(np.array(solver.getSolution().col_value)).astype(np.int64)
    if (patterns.counts.T @ times < problem.wanted).any():
        return None, False
    return times, status == SOLVED


def _fill(solver: highspy.Highs, problem: Problem, patterns: Patterns, limited: Whole) -> None:
    rows = [patterns.counts.T, (patterns.stocks[None, :] == limited[:, None]).astype(np.int64)]
    table = np.concatenate(rows)
    columns = len(patterns)
    solver.addVars(columns, np.zeros(columns), np.full(columns, np.inf))
    at = np.arange(columns, dtype=np.int32)
    solver.changeColsCost(columns, at, problem.prices[patterns.stocks])
    import highspy  # noqa: PLC0415 - as above

    solver.changeColsIntegrality(columns, at, np.full(columns, highspy.HighsVarType.kInteger))
    lower = np.concatenate((problem.wanted.astype(float), np.full(len(limited), -np.inf)))
    upper = np.concatenate((np.full(len(problem.wanted), np.inf), problem.limits[limited].astype(float)))
    where, which = np.nonzero(table)
    starts = np.searchsorted(where, np.arange(len(table))).astype(np.int32)
    values = table[where, which].astype(float)
    solver.addRows(len(table), lower, upper, len(values), starts, which.astype(np.int32), values)
