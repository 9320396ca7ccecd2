"""Plots of the answer on cost: what drives the spread, how sure a sum is, who gets how much."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from tidestead.build.cost.ensemble import Throws
from tidestead.build.cost.facts import CostFacts
from tidestead.build.cost.tables import cash_lines, worth_lines
from tidestead.build.cost.totals import summed
from tidestead.build.cost.wording import item_words, money_words
from tidestead.build.materials import rows_of
from tidestead.core.charts import BarChart, Bars, Chart, Curve, LineChart, Mark, RankChart, Ranked
from tidestead.core.errors import QuantityError
from tidestead.plan.items import parse_item
from tidestead.studies.inputs import Inputs

_MOST_CAUSES = 12
"""Causes that a plot has room for. Own choice."""
_MEAN = "mean of the throws"
"""The middle of what moves a sum: neither the sum of likely prices nor what is enough as often as not."""
_POINTS = 60
"""Sums along the curve of chances. Own choice."""


def charts_of(inputs: Inputs, facts: CostFacts) -> Iterator[Chart]:
    """All of them."""
    if facts.totals is None:
        return
    yield from drivers(inputs, facts, facts.cash, "cash", "cash still to spend")
    yield _chances(facts)
    yield from _mishaps(facts)
    yield _trades(facts)
    yield from drivers(inputs, facts, facts.year, "yearly", "cost of a year")


def drivers(inputs: Inputs, facts: CostFacts, throws: Throws, name: str, what: str) -> Iterator[RankChart]:
    """What prices, amounts and rates move a sum by themselves, the greatest first; none where all are fixed."""
    mishaps = {one.name for one in facts.purchase.mishaps}
    moved = [one for one in throws.moved if one[0] not in mishaps][:_MOST_CAUSES]
    if not moved:
        return
    rows = tuple(
        Ranked(cause_words(inputs, cause), throws.mean + less, throws.mean + more)
        for cause, less, more in moved
    )
    first = rows[0]
    told = (
        f"What moves the {what} most: {first.name}, from {money_words(first.less, facts.currency)} to "
        f"{money_words(first.more, facts.currency)} with all else as expected. Prices, amounts and rates go from what "
        "is lower one time in ten to what is higher one time in ten."
    )
    yield RankChart(
        f"cost.{name}.drivers", f"What drives the {what}", told, what, facts.currency, throws.mean, rows,
        "low", "high", middle_is=_MEAN,
    )  # fmt: skip


def _mishaps(facts: CostFacts) -> Iterator[RankChart]:
    """What may go wrong: the cash without it and with it, the dearest first; none where the plan tells of nothing."""
    chances = {one.name: one.chance for one in facts.purchase.mishaps}
    mean = facts.cash.mean
    rows = tuple(
        Ranked(f"{name} ({100.0 * chances[name]:.2g} %)", mean + less, mean + more)
        for name, less, more in facts.cash.moved
        if name in chances
    )[:_MOST_CAUSES]
    if not rows:
        return
    told = (
        f"What would cost most: {rows[0].name}, {money_words(rows[0].more - rows[0].less, facts.currency)} on top of "
        "what is to be spent without it. In brackets how likely each is; each is counted in the cash by that."
    )
    yield RankChart(
        "cost.cash.risks", "What may go wrong, and what the cash is then", told, "cash still to spend", facts.currency,
        mean, rows, "does not come", "comes", middle_is=_MEAN,
    )  # fmt: skip


def cause_words(inputs: Inputs, cause: str) -> str:
    """A cause as the reader names things."""
    sort, found, name = cause.partition(": ")
    if not found:
        return cause
    try:
        words = item_words(parse_item(name), inputs.system, rows_of(inputs.plan))
    except QuantityError:
        words = name
    return words if sort == "price" else f"{sort} of {words}"


def _chances(facts: CostFacts) -> LineChart:
    """How likely a sum is to be enough."""
    shares = np.linspace(0.005, 0.995, _POINTS)
    sums = tuple(float(one) for one in np.quantile(facts.cash.sums, shares))
    at = facts.cash.estimate
    told = (
        f"{money_words(at.likely, facts.currency)} is enough as often as not, "
        f"{money_words(facts.cash.share(0.8), facts.currency)} four times in five, "
        f"{money_words(at.high, facts.currency)} nine times in ten."
    )
    limits = (Mark(80.0, "four times in five"),)
    curves = (Curve("cash still to spend", sums, tuple(100.0 * float(one) for one in shares)),)
    return LineChart(
        "cost.cash.chances", "How likely a sum is to be enough", told, "enough", "%", curves, "number",
        along="cash", along_unit=facts.currency, limits=limits,
    )  # fmt: skip


def _trades(facts: CostFacts) -> BarChart:
    cash = summed(cash_lines(facts), lambda row: row.line.trade)
    worth = summed(worth_lines(facts), lambda row: row.line.trade)
    names = sorted(worth, key=lambda name: -worth[name])
    groups = (
        Bars("cash still to spend", tuple(cash.get(name, 0.0) for name in names)),
        Bars("at today's prices", tuple(worth[name] for name in names)),
    )
    most = names[0]
    told = f"Most goes to {most}: {money_words(worth[most], facts.currency)} at today's prices."
    return BarChart("cost.by_trade", "Who gets how much", told, "money", facts.currency, groups, tuple(names))
