"""What each bottle brings: by the day, and at once where its pump sticks; limewater by what evaporates."""

from __future__ import annotations

from dataclasses import dataclass

from tidestead.catalog import Row, table
from tidestead.core.answer import Estimate
from tidestead.core.errors import ImpossibleInput
from tidestead.physics import seawater
from tidestead.physics.water import carbonate as chemistry
from tidestead.physics.water import dosing as laws
from tidestead.physics.water.carbonate import Carbonate, Seawater
from tidestead.physics.water.dosing import Reagent, Stock
from tidestead.plan.model import Plan
from tidestead.plan.model.keeping import Doser
from tidestead.studies.water.drawn import drawn
from tidestead.studies.water.reactors import ReactorFacts
from tidestead.studies.water.setting import Setting
from tidestead.studies.water.spans import DAY, GRAMS, NOTHING

MICRO = 1e6


@dataclass(frozen=True)
class DoserFacts:
    """One bottle. `stock` by m3 of it; `daily` m3/day, `brings` a day: alkalinity mol, calcium and magnesium g.

    `strength` and `solubility` kg/m3; `rise` of alkalinity where the bottle runs out at once, mol/m3, `safe` the
    largest bottle that stays under the step that is borne, m3 (None where it brings no alkalinity); `after` the water
    then, None where the plan tells too little of it; `carbon` moles of it for each equivalent.
    """

    key: str
    vessel: str
    row: Row
    strength: float
    solubility: float
    stock: Stock
    daily: float | None
    bottle: float
    brings: Stock
    rise: float
    calcium_rise: float
    safe: float | None
    carbon: float
    after: Carbonate | None

    @property
    def alkaline(self) -> bool:
        return self.stock.alkalinity > 0.0

    @property
    def has_calcium(self) -> bool:
        return self.stock.calcium > 0.0


@dataclass(frozen=True)
class Limewater:
    """Limewater in the top-off: share of it, all top-off m3/day, what it brings a day: alkalinity mol, calcium g.

    Ranges run from the month that draws least to the one that draws most.
    """

    share: float
    topped_up: Estimate
    alkalinity: Estimate
    calcium: Estimate


def reagents(plan: Plan) -> dict[str, Row]:
    """The catalogue's reagents and the plan's own."""
    rows = table("reagents")
    if "reagents" in plan.yours:
        rows = rows.with_yours(plan.yours["reagents"], plan.gallons)
    return dict(rows.rows)


def dosers_of(
    plan: Plan, setting: Setting, water: Seawater | None, before: Carbonate | None
) -> tuple[DoserFacts, ...]:
    """Every bottle that goes into the water that is shared."""
    rows = reagents(plan)
    found = []
    for key, doser in plan.dosers.items():
        if doser.vessel in setting.volumes and setting.volume > 0.0:
            found.append(_doser(key, doser, rows[doser.reagent], setting, (water, before)))
    return tuple(found)


def stock_of_reagent(row: Row, strength: float) -> Stock:
    """What a cubic metre of a solution of so many kg/m3 brings."""
    reagent = Reagent(
        GRAMS * row.si("molar_mass"), row.si("equivalents"), row.si("calcium"), row.si("magnesium")
    )
    return laws.stock(reagent, strength, 1.0)


def _doser(
    key: str, doser: Doser, row: Row, setting: Setting, state: tuple[Seawater | None, Carbonate | None]
) -> DoserFacts:
    stock = stock_of_reagent(row, doser.strength)
    daily = None if doser.daily is None else doser.daily * DAY
    given = daily or 0.0
    rise = laws.bottle_rise(doser.bottle, stock.alkalinity, setting.volume)
    step = table("water_limits")["carbonate"].si("rise")
    carbon = 1.0 / row.si("equivalents") if row.tag("kind") == "carbonate" and row.si("equivalents") else 0.0
    alkaline = stock.alkalinity > 0.0
    return DoserFacts(
        key,
        doser.vessel,
        row,
        doser.strength,
        row.si("solubility"),
        stock,
        daily,
        doser.bottle,
        Stock(given * stock.alkalinity, given * stock.calcium, given * stock.magnesium),
        rise,
        doser.bottle * stock.calcium / setting.volume,
        laws.largest_bottle(step, setting.volume, stock.alkalinity) if alkaline else None,
        carbon,
        _after(setting, state, rise, carbon) if alkaline else None,
    )


def _after(
    setting: Setting, state: tuple[Seawater | None, Carbonate | None], rise: float, carbon: float
) -> Carbonate | None:
    """The water with all the bottle in it, before the air takes or gives carbon dioxide."""
    water, before = state
    if water is None or before is None:
        return None
    try:
        return chemistry.with_carbon_dosed(water, before, per_kg(rise, setting), carbon)
    except ImpossibleInput:
        return None


def per_kg(moles: float, setting: Setting) -> float:
    """umol/kg of mol/m3."""
    return MICRO * moles / float(seawater.density(setting.sal_psu, setting.temp_c))


def limewater_of(plan: Plan, setting: Setting) -> Limewater | None:
    """What limewater brings; None where the plan has none or nothing is known to evaporate."""
    daily = drawn(plan, setting)
    if plan.kalkwasser is None or daily is None:
        return None
    strength = table("water_limits")["carbonate"].si("limewater")
    share = plan.kalkwasser.share
    calcium = float(laws.calcium_with_alkalinity(strength))
    return Limewater(share, daily, daily.times(share * strength), daily.times(share * calcium))


def brought(
    dosers: tuple[DoserFacts, ...], lime: Limewater | None, reactors: tuple[ReactorFacts, ...] = ()
) -> tuple[Estimate, Estimate, Estimate]:
    """All that is given a day: alkalinity mol, calcium g, magnesium g."""
    alkalinity = NOTHING if lime is None else lime.alkalinity
    calcium = NOTHING if lime is None else lime.calcium
    brings = [*(one.brings for one in dosers), *(one.brings for one in reactors)]
    sums = [sum(getattr(one, name) for one in brings) for name in ("alkalinity", "calcium", "magnesium")]
    basis = "what the pumps are set to"
    if lime is not None:
        basis = f"limewater by what the top-off takes, {lime.topped_up.basis}"
    return (
        Estimate(alkalinity.low + sums[0], alkalinity.likely + sums[0], alkalinity.high + sums[0], basis),
        Estimate(calcium.low + sums[1], calcium.likely + sums[1], calcium.high + sums[1], basis),
        Estimate.exact(sums[2]),
    )
