"""Changes told in sentences."""

from __future__ import annotations

import math
from collections.abc import Iterator

from tidestead.core.units import show
from tidestead.studies.inputs import Inputs
from tidestead.studies.water.salt_facts import ChangingFacts, NitrateSeries, Round
from tidestead.studies.water.wording import between


def told_of(inputs: Inputs, facts: ChangingFacts) -> Iterator[str]:
    """One change and half the water, then nitrate."""
    system, usual = inputs.system, facts.usual
    if usual is not None:
        share, amount = f"{100.0 * usual.share:.3g} %", show(usual.amount, "m3", system)
        words = f"One change of {share} ({amount}) takes {_takes(inputs, usual)}"
        yield f"{words}; {_half(inputs, facts.big)}." if facts.big is not None else f"{words}."
    if facts.series is not None:
        yield from _nitrate(inputs, facts.series)


def _half(inputs: Inputs, big: Round) -> str:
    """What half of all the water takes, and that it is not half of the old that is gone."""
    words = f"half of all the water takes {_takes(inputs, big)}"
    if big.loads > 1 and big.replaced < big.share:
        words += f", and then {100.0 * big.replaced:.0f} % of the old water is gone, not half"
    return words


def _takes(inputs: Inputs, one: Round) -> str:
    system = inputs.system
    loads = "one load of the vat" if one.loads == 1 else f"{one.loads} loads of the vat"
    words = loads
    if one.whole is not None:
        words += f", {show(one.whole, 's', system)} from start to end"
    total = one.cost.total
    if total is not None:
        words += f" and {between(total, one.cost.currency, system)}"
    return words


def _nitrate(inputs: Inputs, series: NitrateSeries) -> Iterator[str]:
    """Only where there is something to bring down."""
    if not series.now:
        return
    system, path = inputs.system, series.paths[0]
    start, goal = (show(one, "mg/L", system) for one in (series.start, series.goal))
    if not math.isfinite(path.likely):
        worst = show(series.incoming.likely, "mg/L", system)
        yield f"No number of changes brings nitrate from {start} to {goal}: the new water itself holds {worst}."
        return
    every = 0.0 if inputs.plan.changes is None else float(inputs.plan.changes.every)
    yield (
        f"{path.likely:.0f} changes bring nitrate from {start} to {goal}, in {show(path.likely * every, 's', system)}, "
        "if food added none meanwhile."
    )
