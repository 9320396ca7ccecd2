"""The share of ammonia that harms, by the pH that the plan keeps; and the levels it is held against."""

from __future__ import annotations

from dataclasses import dataclass

from tidestead.catalog import table
from tidestead.core.answer import Estimate
from tidestead.core.source import Source
from tidestead.physics import ammonia as laws
from tidestead.physics.ph import PHScale
from tidestead.plan.model import Plan
from tidestead.studies.levels import own_or
from tidestead.studies.water.setting import Setting
from tidestead.studies.water.spans import GRAMS

STEPS = ("warn", "act", "harm")


@dataclass(frozen=True)
class AmmoniaStep:
    """One level of un-ionised ammonia, g/m3 of NH3, and the total ammonia of g/m3 nitrogen that makes it, if told."""

    name: str
    level: float
    source: Source
    total: float | None


def share_of(plan: Plan, setting: Setting) -> Estimate | None:
    """Un-ionised share from the coolest to the warmest kept, by the form the limits were made with."""
    if plan.water.ph is None:
        return None
    coolest = plan.water.keep[0] if plan.water.keep else setting.temp_c
    scale = PHScale(plan.water.ph.scale)
    low, likely, high = (
        float(laws.unionised_share(plan.water.ph.value, scale, setting.sal_psu, temp_c))
        for temp_c in (coolest, setting.temp_c, warmest(plan, setting))
    )
    return Estimate(low, likely, high, "coolest to warmest water kept")


def warmest(plan: Plan, setting: Setting) -> float:
    """The warmest water kept, at which most of the ammonia is un-ionised."""
    return plan.water.keep[1] if plan.water.keep else setting.temp_c


def steps_of(plan: Plan, share: Estimate | None) -> tuple[AmmoniaStep, ...]:
    """The three levels, your own where the plan has them; total ammonia by the warmest water kept."""
    row = table("fault_limits")["ammonia"]
    found = []
    for name in STEPS:
        plain, source = own_or(row, name, getattr(plan.thresholds, f"ammonia_{name}"))
        level = GRAMS * plain
        total = None if share is None else float(laws.total_that_holds(level, share.high))
        found.append(AmmoniaStep(name, level, source, total))
    return tuple(found)
