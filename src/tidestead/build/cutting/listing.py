"""All patterns that a plan cheaper than the one there is could use, where they are not too many."""

from __future__ import annotations

import numpy as np

from tidestead.build.cutting.knapsack import Frontier, Patterns, Problem, Real, Whole, frontiers


def all_patterns(problem: Problem, worth: Real, price: Real, slack: float, most: int) -> Patterns | None:
    """Every full pattern that costs at most `slack` more than it is worth; None where they are more than `most`.

    A plan is at least the bound and, for each pattern in it, what that one costs more than it is worth. Patterns with
    room for one more wanted piece are left out: with the piece they cost the same.
    """
    suffixes = frontiers(problem, problem.wanted, worth)
    stocks: list[Whole] = []
    lines: list[Whole] = []
    for stock, room in enumerate(problem.rooms):
        if problem.limits[stock] == 0:
            continue
        counts = _listed(problem, worth, suffixes, int(room), float(price[stock]) - slack, most)
        if counts is None or sum(len(line) for line in lines) + len(counts) > most:
            return None
        stocks.append(np.full(len(counts), stock))
        lines.append(counts)
    return Patterns(np.concatenate(stocks), np.concatenate(lines)) if lines else None


def _listed(
    problem: Problem, worth: Real, suffixes: list[Frontier], room: int, least: float, most: int
) -> Whole | None:
    """Counts of every full pattern in a room that is worth at least `least`."""
    rows = len(worth)
    counts = np.zeros((1, rows), dtype=np.int64)
    rest, value = np.array([room]), np.zeros(1)
    for row in range(rows):
        width = int(problem.widths[row])
        copies = np.arange(min(int(problem.wanted[row]), room // width) + 1)[:, None]
        after = rest[None, :] - width * copies
        could = value[None, :] + copies * worth[row] + suffixes[row + 1].most(after) >= least
        if could.sum() > most:
            return None
        many, which = np.nonzero(could)
        counts = counts[which]
        counts[:, row] = many
        rest, value = after[many, which], value[which] + many * worth[row]
    roomy = ((counts < problem.wanted) & (problem.widths[None, :] <= rest[:, None])).any(axis=1)
    return counts[~roomy]
