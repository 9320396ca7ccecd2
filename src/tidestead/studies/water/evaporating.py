"""What evaporates, how long the top-off lasts, what happens when it fails, and the salt that losses take."""

from __future__ import annotations

from tidestead.catalog import table
from tidestead.core.answer import Estimate
from tidestead.core.months import MONTH_DAYS
from tidestead.physics.water import changes as laws
from tidestead.physics.water import salts
from tidestead.physics.water.salts import Body
from tidestead.plan.model import Plan
from tidestead.studies.inputs import Inputs
from tidestead.studies.water.drawn import evaporates
from tidestead.studies.water.drift_told import (
    drift_cautions,
    drift_checks,
    drift_figures,
    drift_table,
    drift_told,
    drift_working,
)
from tidestead.studies.water.rounds import replaced_by
from tidestead.studies.water.salt_facts import DriftFacts, EvaporatingFacts, Unstopped
from tidestead.studies.water.section import Section
from tidestead.studies.water.setting import Setting
from tidestead.studies.water.topoff_checks import topoff_cautions, topoff_checks
from tidestead.studies.water.topoff_told import topoff_charts, topoff_figures, topoff_tables, topoff_told
from tidestead.studies.water.waters import DAY, factor_of, fresh_supply, vat_of

DAYS_WITHOUT = (1, 3, 7, 14)
_LOSSES = ("skimmate", "splash", "leak")
_MOST_GONE = 0.5
"""Of the water: past it no salinity is told. Own choice."""

_SALTS_MONTH = 30.0
"""Days counted for a month of drift."""


def evaporating_of(inputs: Inputs, setting: Setting) -> EvaporatingFacts:
    """From the year of heat, else from what the plan says evaporates."""
    plan = inputs.plan
    valves = [vessel.top_off for vessel in plan.vessels.values() if vessel.top_off is not None]
    months = evaporates(plan, setting)
    drift, no_drift = _drift(plan, setting)
    stocks = [float(one.stock) for one in valves if one.stock is not None]
    endless = tuple(
        key
        for key, vessel in plan.vessels.items()
        if vessel.top_off is not None and vessel.top_off.stock is None
    )
    flow = sum(float(one.flow) for one in valves)
    supply = fresh_supply(plan)
    stuck = _stuck(setting, flow) if endless and flow > 0.0 else None
    if months is None:
        found = setting.no_evaporation or "the year of heat found none"
        why = f"no evaporation is known: {found}; or write vessels.NAME.top_off.evaporation"
        return EvaporatingFacts(
            why, supply=supply, endless=endless, stuck=stuck, drift=drift, no_drift=no_drift
        )
    low, likely, high, basis = months
    lost = 0.0 if drift is None else drift.flow
    worst = max(range(12), key=high.__getitem__)
    draw = Estimate(low[worst] + lost, likely[worst] + lost, high[worst] + lost, basis)
    stock = sum(stocks) if stocks else None
    return EvaporatingFacts(
        "",
        low,
        likely,
        high,
        basis,
        _year(low, likely, high, lost),
        worst,
        draw,
        stock,
        endless,
        flow if valves else None,
        supply,
        None if stock is None or endless else _lasts(stock, draw),
        tuple(_without(setting, days, (low[worst], likely[worst], high[worst])) for days in DAYS_WITHOUT),
        stuck,
        drift,
        no_drift,
    )


def _year(
    low: tuple[float, ...], likely: tuple[float, ...], high: tuple[float, ...], lost: float
) -> Estimate:
    """m3 of fresh water in a year, what replaces losses among it."""
    least, middle, most = (
        sum(((rate + lost) * days * DAY for rate, days in zip(part, MONTH_DAYS, strict=True)), 0.0)
        for part in (low, likely, high)
    )
    return Estimate(least, middle, most, "sums of P10, median and P90 by month")


def _lasts(stock: float, draw: Estimate) -> Estimate | None:
    """None where nothing is drawn at all."""
    if draw.low <= 0.0:
        return None
    return Estimate(stock / draw.high, stock / draw.likely, stock / draw.low, draw.basis)


def _without(setting: Setting, days: int, rates: tuple[float, float, float]) -> Unstopped:
    """Salinity after some days of the worst month without any top-off."""
    if rates[-1] * days * DAY > _MOST_GONE * setting.volume:
        return Unstopped(days * DAY, None)
    low, likely, high = (
        float(salts.evaporated_salinity(setting.sal_psu, setting.volume, rate * DAY, float(days)))
        for rate in rates
    )
    return Unstopped(days * DAY, Estimate(low, likely, high, "the worst month"))


def _stuck(setting: Setting, flow: float) -> float:
    """Seconds that valves without a stock, stuck open, take to thin the water by what one change may do."""
    step = table("water_limits")["change"].si("salts")
    return setting.volume * step / (setting.sal_psu - step) / flow if setting.sal_psu > step else 0.0


def _drift(plan: Plan, setting: Setting) -> tuple[DriftFacts | None, str]:
    """What salt water that is lost for good does to salinity."""
    said = [(name, getattr(plan.losses, name)) for name in _LOSSES]
    lost = tuple((name, float(flow)) for name, flow in said if flow is not None)
    if not lost:
        return (
            None,
            "the plan says nothing of salt water that is lost: write losses.skimmate and losses.splash",
        )
    if setting.volume <= 0.0:
        return None, "no vessel with seawater has its sizes"
    flow = sum(one for _, one in lost)
    psu, volume, daily = setting.sal_psu, setting.volume, flow * DAY
    factor, _ = factor_of(plan)
    weekly = Body(daily * 7.0, psu, setting.temp_c)
    salt = float(salts.salt_mass(weekly))
    between = settled = saltier = None
    if plan.changes is not None:
        days = float(plan.changes.every) / DAY
        between = psu - float(salts.lost_salt_salinity(psu, volume, daily, days))
        share = _share(plan, setting)
        settled = between / (share + (1.0 - share) * between / psu) if psu > 0.0 else 0.0
        saltier = between * (1.0 - share) / share if share < 1.0 else 0.0
    drift = DriftFacts(
        lost,
        -float(salts.lost_salt_drift(psu, volume, daily)),
        psu - float(salts.lost_salt_salinity(psu, volume, daily, _SALTS_MONTH)),
        between,
        settled,
        Estimate(factor.low * salt, factor.likely * salt, factor.high * salt, factor.basis),
        saltier,
    )
    return drift, ""


def _share(plan: Plan, setting: Setting) -> float:
    """Share of the old water that one change takes."""
    changes, vat = plan.changes, vat_of(plan)
    if changes is None:
        return 0.0
    amount = float(changes.share) * setting.volume
    loads = 1 if vat.missing else laws.vat_loads(amount, vat.volume)
    return replaced_by(changes, float(changes.share), int(loads))


def evaporating_section(inputs: Inputs, setting: Setting, facts: EvaporatingFacts) -> Section:
    """Checks of the top-off and of drift, months, what failing does."""
    system = inputs.system
    return Section(
        (*topoff_checks(inputs, facts), *drift_checks(inputs.plan, setting, facts)),
        (*topoff_figures(inputs.plan, facts), *drift_figures(facts)),
        (*topoff_tables(setting, facts), *drift_table(setting, facts)),
        tuple(topoff_charts(inputs, setting, facts)),
        (),
        tuple(drift_working(inputs.plan, setting, facts)),
        (*topoff_cautions(inputs, facts), *drift_cautions(facts)),
        (*topoff_told(inputs, facts), *drift_told(facts, system)),
    )
