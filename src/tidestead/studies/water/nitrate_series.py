"""Changes until nitrate is where it should be: how many, how long, or never."""

from __future__ import annotations

import math

from tidestead.catalog import table
from tidestead.core.answer import Estimate
from tidestead.core.source import YOURS, Source
from tidestead.physics.water import changes as laws
from tidestead.plan.model import Plan
from tidestead.studies.water.salt_facts import NitrateSeries, Path
from tidestead.studies.water.waters import Supply

GRAMS = 1000.0
"""Of a kilogram: nitrate is kg/m3 in plans and g/m3, which is mg/L, in formulas."""

SHARES = (0.1, 0.2, 0.3, 0.5)
"""Shares tried beside the plan's."""

_TWICE = 2.0
"""Times the goal that is taken to start with where there is nothing to bring down. Own choice."""


def series_of(plan: Plan, supply: Supply, replaced: float) -> NitrateSeries:
    """From the reading of the plan to its target; where that is met, from twice the target as an example."""
    goal, source = goal_of(plan)
    reading = plan.water.nitrate
    now = reading is not None and GRAMS * float(reading) > goal
    start = GRAMS * float(reading) if reading is not None and now else _TWICE * goal
    incoming = incoming_of(supply)
    paths = []
    for share in (replaced, *(one for one in SHARES if not math.isclose(one, replaced, abs_tol=0.005))):
        likely, worst = (
            float(laws.changes_to_reach(start, one, goal, share)) for one in (incoming.likely, incoming.high)
        )
        paths.append(Path(share, likely, worst))
    return NitrateSeries(start, now, goal, source, incoming, tuple(paths))


def goal_of(plan: Plan) -> tuple[float, Source]:
    """Nitrate that is wanted, g/m3: the plan's target, else what is borne."""
    if plan.targets.nitrate is not None:
        return GRAMS * float(plan.targets.nitrate), YOURS
    row = table("water_limits")["nutrients"]
    return GRAMS * row.si("nitrate"), row.figure("nitrate").source


def incoming_of(supply: Supply) -> Estimate:
    """Nitrate of new water, g/m3: none is likely; at worst what drinking water may hold, or what gets through a
    membrane of it; of the sea what reefs have.
    """
    rows = table("water_limits")
    row = rows["change"]
    tap = GRAMS * row.si("nitrate_tap")
    if supply.kind == "sea":
        return Estimate(
            0.0, 0.0, GRAMS * rows["nutrients"].si("nitrate_reef"), "none, at worst as reefs have it"
        )
    if supply.kind == "osmosis":
        return Estimate(
            0.0, 0.0, tap * row.si("nitrate_passes"), "none, at worst a tenth of what tap water may hold"
        )
    return Estimate(0.0, 0.0, tap, "none, at worst what drinking water may hold")
