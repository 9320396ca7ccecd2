"""The waters that a plan can draw on, the vat it mixes them in, and what goes into finished seawater."""

from __future__ import annotations

from dataclasses import dataclass

from tidestead.catalog import table
from tidestead.core.answer import Estimate
from tidestead.core.errors import ImpossibleInput
from tidestead.core.source import YOURS, Source
from tidestead.core.units import Price
from tidestead.physics import seawater
from tidestead.physics.water import dechlorinating, osmosis, salts
from tidestead.physics.water.salts import Body
from tidestead.plan.model import Plan
from tidestead.plan.model.keeping import WaterSource
from tidestead.studies.salt_scales import salinity_psu
from tidestead.studies.vessels import FALLBACK_PSU, plan_area

DAY = 86400.0
GRAMS = 1000.0


@dataclass(frozen=True)
class Supply:
    """One source as it gives water: `flow` of good water in m3/s, a membrane's slowed by the cold; `rated` at 25 degC.

    `price` is of a cubic metre taken, `share` the part of it that comes out good.
    """

    key: str
    kind: str
    flow: float | None
    rated: float | None
    load: float | None
    every: float | None
    temp_c: float
    assumed_temperature: bool
    sal_psu: float
    assumed_salinity: bool
    share: float
    assumed_share: bool
    chlorine: float | None
    carbon: float
    thiosulfate: float
    price: Price | None

    @property
    def chlorine_left(self) -> float | None:
        """Chlorine, kg/m3, behind carbon and thiosulfate, which is taken to be used up as fast as it can be."""
        if self.chlorine is None:
            return None
        passes = GRAMS * self.chlorine * (1.0 - self.carbon)
        return float(dechlorinating.chlorine_left(passes, GRAMS * self.thiosulfate)) / GRAMS

    @property
    def salty(self) -> bool:
        return self.sal_psu > 0.0

    def taken(self, volume: float) -> float:
        """Water taken for so much good water, m3."""
        return volume / self.share


@dataclass(frozen=True)
class Recipe:
    """What a body of finished water is made of: water of the source and fresh water in m3, dry mix in kg.

    `source_mass` is the source's water by weight. `mix` ranges with the salt's factor.
    """

    goal: Body
    source: float
    source_mass: float
    fresh: float
    mix: Estimate


@dataclass(frozen=True)
class Vat:
    """What new water is mixed in: m3 that can be taken out of it, and its name. `missing` says what to write."""

    volume: float
    words: str
    missing: str = ""


def supplies_of(plan: Plan) -> dict[str, Supply]:
    """Every source of the plan by its name."""
    return {key: _supply(key, source) for key, source in plan.sources.items()}


def change_supply(plan: Plan) -> Supply | None:
    """The source of the water for changes: the one named, else the first."""
    found = supplies_of(plan)
    named = None if plan.changes is None else plan.changes.source
    return found.get(named) if named is not None else next(iter(found.values()), None)


def fresh_supply(plan: Plan) -> Supply | None:
    """Where fresh water for what evaporates comes from: the source of the changes where it is fresh, else the first
    that is.
    """
    first = change_supply(plan)
    if first is not None and not first.salty:
        return first
    return next((one for one in supplies_of(plan).values() if not one.salty), None)


def factor_of(plan: Plan) -> tuple[Estimate, Source]:
    """How much heavier the mix is than its salt: the plan's, else the usual range."""
    if plan.salt.factor is not None:
        return Estimate.exact(float(plan.salt.factor), "by your factor of the mix"), YOURS
    row = table("water_limits")["mixing"]
    low, likely, high = (row.si(key) for key in ("factor_low", "factor", "factor_high"))
    return Estimate(low, likely, high, "mixes as they are sold"), row.figure("factor").source


def vat_of(plan: Plan) -> Vat:
    """What a load is."""
    changes = plan.changes
    if changes is None:
        return Vat(0.0, "", "write changes.holds: what the mixing vat holds, such as 300 L")
    if changes.holds is not None:
        return Vat(float(changes.holds), "the mixing vat")
    vessel = None if changes.vat is None else plan.vessels.get(changes.vat)
    if vessel is not None and vessel.water is not None and plan_area(vessel) > 0.0:
        return Vat(plan_area(vessel) * vessel.water, f"the vat {changes.vat}")
    why = "write changes.holds: what the mixing vat holds, or changes.vat: which vessel it is"
    return Vat(0.0, "", why if vessel is None else f"write vessels.{changes.vat}.water and its sizes")


def recipe_of(goal: Body, supply: Supply, factor: Estimate, fresh_c: float | None = None) -> Recipe:
    """What finished water is made of, by weight: salt for what is too fresh, fresh water for what is too salty."""
    weight = salts.water_mass(goal)
    start = Body(1.0, supply.sal_psu, supply.temp_c)
    each = salts.water_mass(start)
    if supply.sal_psu <= goal.sal_psu:
        mixes = [_raised(start, goal, one) for one in (factor.low, factor.likely, factor.high)]
        low, likely, high = (weight * mix / (each + mix) for mix in mixes)
        source = weight - likely
        return Recipe(goal, source / each, source, 0.0, Estimate(low, likely, high, factor.basis))
    cold = supply.temp_c if fresh_c is None else fresh_c
    added = salts.added_volume(start, Body(1.0, 0.0, cold), goal.sal_psu)
    thinned = added * seawater.fresh_density(cold)
    part = weight / (each + thinned)
    return Recipe(goal, part, part * each, part * added, Estimate.exact(0.0))


def _raised(start: Body, goal: Body, factor: float) -> float:
    """Dry mix for a body, kg; no mix holds more salt than it weighs."""
    if factor < 1.0:
        raise ImpossibleInput(f"a mix cannot hold more salt than it weighs: salt.factor {factor} is below 1")
    return salts.mix_to_raise(start, goal.sal_psu, factor)


def _supply(key: str, source: WaterSource) -> Supply:
    row = table("water_limits")["mixing"]
    temp = source.temperature
    temp_c = row.si("cold") if temp is None else float(temp)
    osmotic = source.kind == "osmosis"
    rated = None if source.flow is None else float(source.flow)
    flow = rated
    if rated is not None and osmotic:
        flow = rated * osmosis.membrane_factor(temp_c)
    share = 1.0
    if osmotic:
        share = row.si("recovery") if not source.recovery else float(source.recovery)
    known = source.salinity
    salty = FALLBACK_PSU if source.kind == "sea" else 0.0
    return Supply(
        key,
        source.kind,
        flow,
        rated,
        None if source.load is None else float(source.load),
        None if source.every is None else float(source.every),
        temp_c,
        temp is None,
        salty if known is None else float(salinity_psu(known)),
        known is None and source.kind == "sea",
        share,
        osmotic and not source.recovery,
        None if source.chlorine is None else float(source.chlorine),
        float(source.carbon or 0.0),
        float(source.thiosulfate or 0.0),
        source.price,
    )
