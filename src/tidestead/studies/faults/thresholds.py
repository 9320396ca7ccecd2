"""Levels at which somebody should be told, must act, or animals are harmed: the catalogue's, or the plan's own."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import replace

from tidestead.catalog import Row, table
from tidestead.core.source import YOURS, Source
from tidestead.core.units import System, show
from tidestead.plan.model import Plan
from tidestead.studies.faults.facts import Quantity, Threshold

MG = 1000.0
"""g/m3 (mg/L) in a kg/m3."""

_OWN_BAND = 1.0
"""Kelvin off the limit to act at which somebody should be told, where the plan keeps no band. Own choice."""


def thresholds_of(plan: Plan, sal_psu: float) -> dict[Quantity, Threshold]:
    """Every quantity with its three levels. Levels of the plan that stand in a wrong order are put in order."""
    found = (
        _oxygen(plan), _ammonia(plan), _cold(plan), _hot(plan), *_salinity(plan, sal_psu), _floor(), _low(),
    )  # fmt: skip
    return {one.quantity: replace(one, own=own_steps(plan, one.quantity)) for one in found}


def _oxygen(plan: Plan) -> Threshold:
    row, own = table("fault_limits")["oxygen"], plan.thresholds
    given = (own.oxygen_warn, own.oxygen_act, own.oxygen_harm)
    warn, act, harm = _steps(row, given, MG)
    return Threshold("oxygen", warn, act, harm, False, "g/m3", _source(row, given), row.figure("harm").source)


def _ammonia(plan: Plan) -> Threshold:
    row, own = table("fault_limits")["ammonia"], plan.thresholds
    given = (own.ammonia_warn, own.ammonia_act, own.ammonia_harm)
    warn, act, harm = _steps(row, given, MG)
    return Threshold("ammonia", warn, act, harm, True, "g/m3", _source(row, given), row.figure("harm").source)


def _cold(plan: Plan) -> Threshold:
    row, own, keep = table("heat_limits")["cold"], plan.thresholds, plan.water.keep
    act = row.si("act") if own.cold_act is None else own.cold_act
    harm = row.si("harm") if own.cold_harm is None else own.cold_harm
    warn = act + _OWN_BAND if keep is None else max(keep[0] - _OWN_BAND, act)
    source = _source(row, (own.cold_act, own.cold_harm), "act")
    return Threshold("cold", warn, act, min(harm, act), False, "degC", source, row.figure("act").source)


def _hot(plan: Plan) -> Threshold:
    row, own, keep = table("heat_limits")["hot"], plan.thresholds, plan.water.keep
    act = row.si("act") if own.hot_act is None else own.hot_act
    harm = row.si("harm") if own.hot_harm is None else own.hot_harm
    warn = act - _OWN_BAND if keep is None else min(keep[1] + _OWN_BAND, act)
    source = _source(row, (own.hot_act, own.hot_harm), "act")
    return Threshold("hot", warn, act, max(harm, act), True, "degC", source, row.figure("act").source)


def _salinity(plan: Plan, sal_psu: float) -> tuple[Threshold, Threshold]:
    row, own = table("fault_limits")["salinity"], plan.thresholds
    given = (None, own.salinity_act, own.salinity_harm)
    warn, act, harm = _steps(row, given, 1.0)
    warn, source = min(warn, act), _source(row, given)
    up = Threshold(
        "salt", sal_psu + warn, sal_psu + act, sal_psu + harm, True, "psu", source, row.figure("harm").source
    )
    fresh = [max(sal_psu - one, 0.0) for one in (warn, act, harm)]
    return up, Threshold(
        "fresh", fresh[0], fresh[1], fresh[2], False, "psu", source, row.figure("harm").source
    )


def _floor() -> Threshold:
    row = table("fault_limits")["floor"]
    warn, act, harm = _steps(row, (None,) * 3, 1.0)
    return Threshold("floor", warn, act, harm, True, "m3", _source(row, ()))


def _low() -> Threshold:
    """Share of the display's water that is left."""
    row = table("fault_limits")["low"]
    warn, act, harm = _steps(row, (None,) * 3, 1.0)
    return Threshold("low", warn, act, harm, False, "1", _source(row, ()))


def _steps(row: Row, given: tuple[float | None, ...], times: float) -> tuple[float, float, float]:
    names = ("warn", "act", "harm")
    warn, act, harm = (
        times * (row.si(name) if own is None else own) for name, own in zip(names, given, strict=True)
    )
    worse = max if row.si("harm") < row.si("warn") else min
    act = worse(act, harm)
    return worse(warn, act), act, harm


def _source(row: Row, given: tuple[float | None, ...], named: str = "harm") -> Source:
    return YOURS if any(one is not None for one in given) else row.figure(named).source


_OWN: Mapping[str, tuple[Quantity, int, float]] = {
    "oxygen_warn": ("oxygen", 0, MG), "oxygen_act": ("oxygen", 1, MG), "oxygen_harm": ("oxygen", 2, MG),
    "ammonia_warn": ("ammonia", 0, MG), "ammonia_act": ("ammonia", 1, MG), "ammonia_harm": ("ammonia", 2, MG),
    "cold_act": ("cold", 1, 1.0), "cold_harm": ("cold", 2, 1.0),
    "hot_act": ("hot", 1, 1.0), "hot_harm": ("hot", 2, 1.0),
    "salinity_act": ("salt", 1, 1.0), "salinity_harm": ("salt", 2, 1.0),
}  # fmt: skip
"""Levels of the plan by key: their quantity, their step, and what leads to the unit of the level. Those of salinity
count from what is kept, either way.
"""


def own_steps(plan: Plan, quantity: Quantity) -> tuple[str, ...]:
    """Steps of a quantity that the plan gives."""
    quantity = "salt" if quantity == "fresh" else quantity
    keys = [key for key, (one, _, _) in _OWN.items() if one == quantity]
    return tuple(key.partition("_")[2] for key in keys if getattr(plan.thresholds, key) is not None)


def moved_words(
    plan: Plan, levels: Mapping[Quantity, Threshold], sal_psu: float, system: System
) -> Iterator[str]:
    """Levels of the plan that lie beyond a graver one, or short of a milder one, and what is taken for them.

    `sal_psu` is the salinity that is kept.
    """
    for key, (quantity, step, times) in _OWN.items():
        own, level = getattr(plan.thresholds, key), levels[quantity]
        used = level.levels[step] - (sal_psu if quantity == "salt" else 0.0)
        if own is not None and not math.isclose(own * times, used, rel_tol=1e-9):
            unit = "mg/L" if level.unit == "g/m3" else level.unit
            typed, taken = (show(value, unit, system) for value in (own * times, used))
            yield (
                f"thresholds.{key}: {typed} would stand on the wrong side of the next level; {taken} is taken. "
                "Write the other levels of it too, in their order."
            )
