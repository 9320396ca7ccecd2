"""Levels at which somebody should be told, must act, or animals are harmed: the catalogue's, or the plan's own."""

from __future__ import annotations

from tidestead.catalog import Row, table
from tidestead.core.source import YOURS, Source
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
    return {one.quantity: one for one in found}


def _oxygen(plan: Plan) -> Threshold:
    row, own = table("fault_limits")["oxygen"], plan.thresholds
    given = (own.oxygen_warn, own.oxygen_act, own.oxygen_harm)
    warn, act, harm = _steps(row, given, MG)
    return Threshold("oxygen", warn, act, harm, False, "g/m3", _source(row, given))


def _ammonia(plan: Plan) -> Threshold:
    row, own = table("fault_limits")["ammonia"], plan.thresholds
    given = (own.ammonia_warn, own.ammonia_act, own.ammonia_harm)
    warn, act, harm = _steps(row, given, MG)
    return Threshold("ammonia", warn, act, harm, True, "g/m3", _source(row, given))


def _cold(plan: Plan) -> Threshold:
    row, own, keep = table("heat_limits")["cold"], plan.thresholds, plan.water.keep
    act = row.si("act") if own.cold_act is None else own.cold_act
    harm = row.si("harm") if own.cold_harm is None else own.cold_harm
    warn = act + _OWN_BAND if keep is None else max(keep[0] - _OWN_BAND, act)
    source = _source(row, (own.cold_act, own.cold_harm), "act")
    return Threshold("cold", warn, act, min(harm, act), False, "degC", source)


def _hot(plan: Plan) -> Threshold:
    row, own, keep = table("heat_limits")["hot"], plan.thresholds, plan.water.keep
    act = row.si("act") if own.hot_act is None else own.hot_act
    harm = row.si("harm") if own.hot_harm is None else own.hot_harm
    warn = act - _OWN_BAND if keep is None else min(keep[1] + _OWN_BAND, act)
    source = _source(row, (own.hot_act, own.hot_harm), "act")
    return Threshold("hot", warn, act, max(harm, act), True, "degC", source)


def _salinity(plan: Plan, sal_psu: float) -> tuple[Threshold, Threshold]:
    row, own = table("fault_limits")["salinity"], plan.thresholds
    given = (None, own.salinity_act, own.salinity_harm)
    warn, act, harm = _steps(row, given, 1.0)
    warn, source = min(warn, act), _source(row, given)
    up = Threshold("salt", sal_psu + warn, sal_psu + act, sal_psu + harm, True, "psu", source)
    fresh = [max(sal_psu - one, 0.0) for one in (warn, act, harm)]
    return up, Threshold("fresh", fresh[0], fresh[1], fresh[2], False, "psu", source)


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
