"""Fresh water that holds the level: what evaporates, month by month, and what replaces salt water that is lost."""

from __future__ import annotations

from tidestead.core.answer import Estimate
from tidestead.plan.model import Plan
from tidestead.studies.water.exports import exports_of
from tidestead.studies.water.setting import Setting
from tidestead.studies.water.spans import DAY

LITRES = 1000.0
"""Kilograms of water counted for a cubic metre, as the heat study does."""

MONTH_BY_MONTH = "from the month that draws least to the one that draws most, one year in ten each"

Months = tuple[float, ...]


def evaporates(plan: Plan, setting: Setting) -> tuple[Months, Months, Months, str] | None:
    """Low, likely and high by month, m3/s, and what the range rests on: the year of heat, else what the plan says."""
    if setting.evaporation is not None:
        low, likely, high = (tuple(one / LITRES for one in part) for part in setting.evaporation.parts)
        return low, likely, high, setting.evaporation.basis
    said = [vessel.top_off.evaporation for vessel in plan.vessels.values() if vessel.top_off is not None]
    known = next((float(one) for one in said if one is not None), None)
    if known is None:
        return None
    return (known,) * 12, (known,) * 12, (known,) * 12, "what your plan says evaporates, all year"


def drawn(plan: Plan, setting: Setting) -> Estimate | None:
    """m3/day that the top-off draws, losses among it: mean of the year, its ends those of the months."""
    months = evaporates(plan, setting)
    if months is None:
        return None
    low, likely, high, basis = months
    lost = exports_of(plan, setting).lost
    ends = (min(low), sum(likely) / len(likely), max(high))
    least, middle, most = (DAY * one + lost for one in ends)
    return Estimate(least, middle, most, MONTH_BY_MONTH if least < most else basis)
