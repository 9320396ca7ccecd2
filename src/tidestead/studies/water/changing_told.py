"""Changes told in sentences."""

from __future__ import annotations

import math
from collections.abc import Iterator

from tidestead.core.units import show
from tidestead.studies.inputs import Inputs
from tidestead.studies.water.salt_facts import ChangingFacts, NitrateSeries, Round
from tidestead.studies.water.wording import between


def told_of(inputs: Inputs, facts: ChangingFacts) -> Iterator[str]:
    """One change, half the water, nitrate."""
    system = inputs.system
    if facts.usual is not None:
        share, amount = f"{100.0 * facts.usual.share:.3g} %", show(facts.usual.amount, "m3", system)
        yield f"One change of {share} ({amount}) {_takes(inputs, facts.usual)}."
    big = facts.big
    if big is not None:
        words = f"Half of all the water {_takes(inputs, big)}"
        if big.loads > 1 and big.replaced < big.share:
            words += f", and then {100.0 * big.replaced:.0f} % of the old water is gone"
            if math.isfinite(big.loads_for_all):
                words += f", not half: that would take {big.loads_for_all:.0f} loads"
        yield f"{words}."
    if facts.series is not None:
        yield from _nitrate(inputs, facts.series)


def _takes(inputs: Inputs, one: Round) -> str:
    system = inputs.system
    loads = "one load of the vat" if one.loads == 1 else f"{one.loads} loads of the vat"
    words = f"takes {loads}"
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
