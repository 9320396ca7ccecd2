"""An amount of finished water: what goes in, how long its source takes, what runs to waste, what it costs."""

from __future__ import annotations

from tidestead.core.answer import Estimate
from tidestead.core.source import Known, Source
from tidestead.physics.water import osmosis
from tidestead.physics.water.salts import Body
from tidestead.plan.model import Plan
from tidestead.studies.water.costs import cost_of
from tidestead.studies.water.salt_facts import Batch
from tidestead.studies.water.setting import Setting
from tidestead.studies.water.waters import Recipe, Supply, recipe_of

TEOS = Source(
    "TEOS-10, IOC Manuals and Guides 56 (2010)", "density, reference salinity, specific heat", Known.READ
)
BALANCE = Source("balance of salt, water and heat", known=Known.COMPUTED)
MEMBRANE = Source(
    "membrane makers' projections", "exp(3020*(1/298 - 1/T)) below 25 degC, 2640 above", Known.QUOTED
)
_HOUR = 3600.0


def batch_of(plan: Plan, setting: Setting, supply: Supply, factor: Estimate, volume: float) -> Batch:
    """Finished water of the kept salinity at the kept temperature; no heat counted."""
    recipe = recipe_of(Body(volume, setting.sal_psu, setting.temp_c), supply, factor)
    reject = osmosis.reject_water(recipe.source, supply.share) if supply.kind == "osmosis" else 0.0
    return Batch(volume, recipe, making_time(supply, recipe), reject, cost_of(plan, supply, recipe, 0.0))


def making_time(supply: Supply, recipe: Recipe) -> float | None:
    """Seconds until the source has given its part, None where the plan does not say what it gives, or where a tanker
    must come more than once for it.
    """
    if supply.kind == "tanker" and (supply.load is None or recipe.source > supply.load):
        return None
    if supply.kind == "osmosis" and supply.rated is not None:
        hours = osmosis.hours_to_make(recipe.source, supply.rated * 24.0 * _HOUR, supply.temp_c)
        return float(hours) * _HOUR
    return None if supply.flow is None else recipe.source / supply.flow


def no_time(supply: Supply) -> str:
    """Why the time of a source cannot be told."""
    if supply.kind == "tanker":
        return f"write sources.{supply.key}.load and flow: what it brings at a time, and what its hose gives"
    return f"write sources.{supply.key}.flow: what it gives"
