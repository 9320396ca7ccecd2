"""From patterns to bars: marks on the pieces, nothing cut twice, the shortest length of one price that does."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import groupby

import numpy as np

from tidestead.build.cutting.knapsack import Problem
from tidestead.build.cutting.lengths import NANOMETRES, Bar, Need, Saw, Stock
from tidestead.build.cutting.rounding import Cut


@dataclass(frozen=True)
class _Single:
    """One length: its stock's place and the pieces of each row."""

    stock: int
    counts: tuple[int, ...]


def bars_of(
    cut: Cut, problem: Problem, stocks: tuple[Stock, ...], needs: tuple[Need, ...], saw: Saw
) -> tuple[Bar, ...]:
    """All bars, in the order of the stocks, those with the longest pieces first, alike ones as one."""
    singles = _restocked(_without_surplus(cut, problem), problem)
    singles = _last_one_emptied(singles, problem, round((saw.useful + saw.kerf) * NANOMETRES))
    singles.sort(key=lambda single: (single.stock, [-many for many in single.counts]))
    return tuple(
        replace(bar, times=sum(1 for _ in alike))
        for bar, alike in groupby(_marked(singles, problem, stocks, needs, saw))
    )


def _without_surplus(cut: Cut, problem: Problem) -> list[_Single]:
    """Each length for itself; pieces that nobody wants come off the emptiest ones."""
    rows = np.repeat(cut.patterns.counts, cut.times, axis=0)
    stocks = np.repeat(cut.patterns.stocks, cut.times)
    for row in np.flatnonzero(rows.sum(axis=0) > problem.wanted):
        surplus = int(rows[:, row].sum() - problem.wanted[row])
        for at in np.argsort(rows @ problem.widths - problem.rooms[stocks], kind="stable"):
            off = min(surplus, int(rows[at, row]))
            rows[at, row] -= off
            surplus -= off
    return [
        _Single(int(stock), tuple(int(many) for many in counts))
        for stock, counts in zip(stocks, rows, strict=True)
        if counts.any()
    ]


def _restocked(singles: list[_Single], problem: Problem) -> list[_Single]:
    """Each length from the cheapest stock that does, the shortest of those, as far as there is of it."""
    there = problem.limits - np.bincount([single.stock for single in singles], minlength=len(problem.limits))
    order = sorted(range(len(problem.prices)), key=lambda at: (problem.prices[at], problem.rooms[at], at))
    found = []
    for single in singles:
        there[single.stock] += 1
        used = _used(single, problem)
        free = (at for at in order if problem.limits[at] < 0 or there[at] > 0)
        best = next(at for at in free if used <= problem.rooms[at])
        there[best] -= 1
        found.append(_Single(best, single.counts))
    return found


def _used(single: _Single, problem: Problem) -> int:
    return int(np.array(single.counts) @ problem.widths)


def _last_one_emptied(singles: list[_Single], problem: Problem, useful: int) -> list[_Single]:
    """Pieces of the emptiest length go where what is left is too short to keep: at the same cost its off-cut grows.

    Moves nothing where the emptiest length leaves nothing worth keeping even then.
    """
    rests = [int(problem.rooms[single.stock]) - _used(single, problem) for single in singles]
    last = max(range(len(singles)), key=lambda at: (rests[at], -at))
    counts, tables = list(singles[last].counts), [list(single.counts) for single in singles]
    room = rests[last]
    for row in reversed(range(len(counts))):
        width = int(problem.widths[row])
        for at in sorted((at for at in range(len(rests)) if at != last), key=lambda at: (rests[at], at)):
            while counts[row] and width <= rests[at] < useful:
                tables[at][row] += 1
                counts[row] -= 1
                rests[at] -= width
                room += width
    if room < useful or not any(counts):
        return singles
    tables[last] = counts
    return [_Single(single.stock, tuple(table)) for single, table in zip(singles, tables, strict=True)]


def _marked(
    singles: list[_Single], problem: Problem, stocks: tuple[Stock, ...], needs: tuple[Need, ...], saw: Saw
) -> Iterator[Bar]:
    """Bars of one length each, with marks given out in the order of the needs."""
    kerf = round(saw.kerf * NANOMETRES)
    rows = {int(width) - kerf: row for row, width in enumerate(problem.widths)}
    queues: list[list[str]] = [[] for _ in rows]
    for need in reversed(needs):
        queues[rows[round(need.length * NANOMETRES)]] += [need.mark] * int(need.count)
    for single in singles:
        marks = tuple(queues[row].pop() for row, many in enumerate(single.counts) for _ in range(many))
        rest = int(problem.rooms[single.stock]) - _used(single, problem) - kerf
        yield Bar(stocks[single.stock], marks, 1, max(0, rest) / NANOMETRES)
