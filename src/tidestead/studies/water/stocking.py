"""Finding what the stock breathes and leaves, what air and filter make good, and how many fish the water carries."""

from __future__ import annotations

import math
from dataclasses import dataclass

from tidestead.catalog import table
from tidestead.core.answer import Estimate
from tidestead.core.source import Source
from tidestead.physics import oxygen
from tidestead.physics.water import nutrients as films
from tidestead.physics.water import stock as laws
from tidestead.physics.water.nutrients import Film
from tidestead.physics.water.stock import Feeding
from tidestead.plan.model import Plan
from tidestead.plan.model.keeping import Fish
from tidestead.studies.flow.facts import FlowFacts
from tidestead.studies.foam.facts import FoamFacts
from tidestead.studies.inputs import Inputs
from tidestead.studies.levels import own_or
from tidestead.studies.water.aeration import Air, exchanges_of
from tidestead.studies.water.ammonia_share import share_of, steps_of
from tidestead.studies.water.carrying import FILMS, Carried, capacities_of
from tidestead.studies.water.exports import exports_of
from tidestead.studies.water.nutrients import NO_FEED, ammonia_made, feed_row, nitrate_target, protein_of
from tidestead.studies.water.setting import Setting
from tidestead.studies.water.spans import DAY, GRAMS, HOUR, NOTHING, moved, summed, three
from tidestead.studies.water.stock_facts import Load, StockFacts

_HOURS = 24.0
_TOGETHER = "fish, ammonia and what lives on the feed, each at its ends, as squares; at most all that the feed can burn"
NO_FISH = "say which fish are kept: [fish.NAME] with vessel, mass and each"
NO_FILTER = "say what surface turns ammonia: [filters.NAME] with vessel and surface"


@dataclass(frozen=True)
class _Rest:
    """What is the same for the fish of now and the grown ones."""

    protein: float
    corals: Estimate
    area: float
    temp_c: float
    exchange: Estimate
    saturation: float
    measured: float | None


def stock_of(inputs: Inputs, setting: Setting, flow: FlowFacts, foam: FoamFacts) -> StockFacts:
    """Everything about the stock of the vessels that share the display's water."""
    plan = inputs.plan
    fish = {key: one for key, one in plan.fish.items() if one.vessel in setting.volumes}
    corals, unsized = corals_uptake(plan, setting)
    areas = areas_of(plan, setting)
    area = sum(areas.values())
    air = _air(plan, setting, foam)
    exchanges = exchanges_of(plan, setting, flow, foam, air)
    exchange = summed([one.clears for one in exchanges])
    protein = protein_of(plan)[0]
    rest = _Rest(protein, corals, area, setting.temp_c, exchange, air.saturation, _measured(plan))
    now = _load(fish, False, None if plan.feed is None else plan.feed.daily, rest)
    grown = _load(fish, True, _grown_feed(plan, fish), rest)
    if rest.measured is not None and grown.mass > now.mass:
        grown = _beyond(grown, now, rest)
    share = share_of(plan, setting)
    spare = Carried(
        exchange,
        air.saturation,
        corals,
        grown,
        protein,
        area,
        setting.temp_c,
        steps_of(plan, share)[0].total,
        exports_of(plan, setting),
        setting.volume,
        nitrate_target(plan)[0],
        warn_level(plan)[0],
    )
    return StockFacts(
        now,
        grown,
        protein,
        corals,
        area,
        _clearance(now),
        films.SEA_CEILING * area / _HOURS,
        exchanges,
        exchange,
        air.saturation,
        capacities_of(spare),
        rest.measured is not None,
        (*_missing(plan, fish, area), *unsized),
        areas,
    )


def warn_level(plan: Plan) -> tuple[float, Source]:
    """Oxygen under which somebody should be told, g/m3, and who says so."""
    level, source = own_or(table("fault_limits")["oxygen"], "warn", plan.thresholds.oxygen_warn)
    return GRAMS * level, source


def fish_now(fish: Fish, grown: bool) -> tuple[float, float]:
    """Weight of all of one sort and of each, kg; as many small ones now as grown ones later."""
    full = fish.grown if fish.grown is not None else (fish.mass or 0.0)
    if grown:
        return full, fish.each
    mass = fish.mass or 0.0
    return mass, fish.each * min(1.0, mass / full) if full > 0.0 and mass > 0.0 else fish.each


def fish_oxygen(mass: float, each: float, temp_c: float) -> Estimate:
    """Oxygen that fish of one size take, g/h: resting, fed on the mean of a day, fed at the worst hour."""
    if mass <= 0.0:
        return NOTHING
    resting = float(oxygen.fish_uptake(each, mass, temp_c))
    mean = float(laws.fed_oxygen(each)) * mass / _HOURS
    most = float(laws.most_oxygen(each)) * mass / _HOURS
    return Estimate(min(resting, mean), mean, max(most, mean, resting), "resting, fed, fed at the worst hour")


def corals_uptake(plan: Plan, setting: Setting) -> tuple[Estimate, tuple[str, ...]]:
    """Oxygen that corals take in the dark, g/h, and which of them have no area."""
    breath = three(table("water_limits")["calcifiers"], "breath", GRAMS * HOUR)
    inside = {key: one for key, one in plan.corals.items() if one.vessel in setting.volumes}
    area = sum(one.area or 0.0 for one in inside.values())
    missing = tuple(
        f"corals {key} are not counted: say what they cover, corals.{key}.area"
        for key, one in inside.items()
        if one.area is None
    )
    return breath.times(area, "breath of corals by the ground they cover") if area else NOTHING, missing


def areas_of(plan: Plan, setting: Setting) -> dict[str, float]:
    """Surfaces that turn ammonia, as far as they are grown, m2."""
    return {
        key: one.surface * (1.0 if one.grown is None else one.grown)
        for key, one in plan.filters.items()
        if one.vessel in setting.volumes
    }


def bacteria_oxygen(feed: float, protein: float, fish: Estimate) -> Estimate:
    """Oxygen that bacteria take, g/h: turning ammonia, and eating what fish leave; `feed` kg/s."""
    turned, eaten, most = _of_feed(feed, protein)
    breath = fish.times(_HOURS)
    parts = (
        (turned.low, eaten.low, breath.high),
        (turned.likely, eaten.likely, breath.likely),
        (turned.high, eaten.high, breath.low),
    )
    low, likely, high = (
        min(made + max(eats - takes, 0.0), max(most - takes, 0.0)) / _HOURS for made, eats, takes in parts
    )
    return Estimate(low, likely, high, "solids taken out fast to kept, at most all that the feed can burn")


def fed_oxygen(feed: float, protein: float, fish: Estimate) -> Estimate:
    """Oxygen that fish and the bacteria on their feed take together, g/h: what fish breathe more of it, bacteria find
    less, so that more fish or more feed never take less. At the fish's worst hour bacteria go on as all day.
    """
    turned, eaten, most = _of_feed(feed, protein)
    breath = fish.times(_HOURS)

    def together(made: float, eats: float, takes: float) -> float:
        return made + max(eats, takes)

    mean = Estimate(breath.low, breath.likely, breath.likely)
    hour = breath.high - breath.likely
    free = summed([moved(together, (turned, eaten, mean), ""), Estimate(0.0, 0.0, hour)])
    pairs = zip(_ends(free), (most, most, most + hour), _ends(breath), strict=True)
    low, likely, high = (max(min(whole, burns), takes) / _HOURS for whole, burns, takes in pairs)
    return Estimate(low, likely, high, _TOGETHER)


def _of_feed(feed: float, protein: float) -> tuple[Estimate, Estimate, float]:
    """Oxygen, g/day: to turn the ammonia of the feed, for all that live on it, and the most that it can burn."""
    row, daily = feed_row(), feed * DAY * GRAMS
    turned = ammonia_made(daily, protein).times(films.OXYGEN_PLAIN)
    return turned, three(row, "oxygen", daily), float(films.feed_oxygen(daily, protein))


def settled_tan(load: Estimate, area: float, temp_c: float) -> Estimate | None:
    """Total ammonia that a filter settles at under a load of g/day, g/m3 of nitrogen; inf beyond its ceiling."""
    if area <= 0.0:
        return None
    parts = zip((load.low, load.likely, load.high), reversed(FILMS), strict=True)
    low, likely, high = (float(films.film_ammonia(made, area, temp_c, Film(sea=sea))) for made, sea in parts)
    return Estimate(low, likely, high, "load from least to most, films in seawater 0.6 to 0.41 of fresh")


def feeding_of(load: Load, protein: float, share: float) -> Feeding:
    """How the fish of a load are fed."""
    ration = 0.0 if load.feed is None or load.mass <= 0.0 else load.feed * DAY / load.mass
    return Feeding(ration, protein, share)


def _load(fish: dict[str, Fish], grown: bool, feed: float | None, rest: _Rest) -> Load:
    """The fish of one time."""
    sizes = {key: fish_now(one, grown) for key, one in fish.items()}
    by_vessel: dict[str, float] = {}
    for key, one in fish.items():
        by_vessel[one.vessel] = by_vessel.get(one.vessel, 0.0) + sizes[key][0]
    breath = summed([fish_oxygen(mass, each, rest.temp_c) for mass, each in sizes.values()] or [NOTHING])
    bacteria = NOTHING if feed is None else bacteria_oxygen(feed, rest.protein, breath)
    fed = breath if feed is None else fed_oxygen(feed, rest.protein, breath)
    uptake = summed([fed, rest.corals])
    if rest.measured is not None:
        uptake = Estimate.exact(rest.measured, "measured")
    made = None if feed is None else ammonia_made(feed * DAY * GRAMS, rest.protein)
    return Load(
        sum(mass for mass, _ in sizes.values()),
        by_vessel,
        feed,
        breath,
        bacteria,
        uptake,
        None if made is None else made.times(1.0 / _HOURS),
        None if made is None else settled_tan(made, rest.area, rest.temp_c),
        _night(uptake, rest),
    )


def _night(uptake: Estimate, rest: _Rest) -> Estimate | None:
    """Oxygen that a long dark night comes to; None where nothing breathes or nothing brings air."""
    if uptake.high <= 0.0 or rest.exchange.low <= 0.0:
        return None

    def level(taken: float, clears: float) -> float:
        return rest.saturation - taken / clears

    return moved(level, (uptake, rest.exchange), "uptake and exchange, each at its ends, as squares", 0.0)


def _beyond(grown: Load, now: Load, rest: _Rest) -> Load:
    """Grown fish on top of a reading taken with those of now."""
    pairs = zip(_ends(grown.fish), _ends(now.fish), strict=True)
    more = sorted(max(one - other, 0.0) + now.uptake.likely for one, other in pairs)
    uptake = Estimate(more[0], more[1], more[2], "measured, and the growth of the fish")
    return Load(
        grown.mass, grown.by_vessel, grown.feed, grown.fish, grown.bacteria, uptake, grown.ammonia, grown.tan,
        _night(uptake, rest),
    )  # fmt: skip


def _ends(value: Estimate) -> tuple[float, float, float]:
    return value.low, value.likely, value.high


def _grown_feed(plan: Plan, fish: dict[str, Fish]) -> float | None:
    """The plan's feed, or what grown fish are fed by practice where that is more; kg/s."""
    if plan.feed is None:
        return None
    grown = sum(fish_now(one, True)[0] for one in fish.values())
    return max(plan.feed.daily, feed_row().si("ration") * grown / DAY)


def _clearance(now: Load) -> Estimate | None:
    """Water that the filter frees of ammonia, m3/h, at the level it settles at."""
    if now.ammonia is None or now.tan is None or now.tan.low <= 0.0:
        return None
    pairs = zip(_ends(now.ammonia), _ends(now.tan), strict=True)
    found = sorted(made / level if math.isfinite(level) else 0.0 for made, level in pairs)
    return Estimate(
        found[0], found[1], found[2], "the law of films, a straight line through the settled level"
    )


def _measured(plan: Plan) -> float | None:
    """Your own reading of everything's uptake, g/h."""
    return None if plan.measured.uptake is None else plan.measured.uptake * GRAMS * HOUR


def _air(plan: Plan, setting: Setting, foam: FoamFacts) -> Air:
    """Saturation at the warmest that is kept, in the air of the place."""
    warm = plan.water.keep[1] if plan.water.keep else setting.temp_c
    held = float(oxygen.held_mass(setting.sal_psu, warm, foam.gas.air_pressure))
    return Air(held, warm, foam.gas.air_pressure)


def _missing(plan: Plan, fish: dict[str, Fish], area: float) -> tuple[str, ...]:
    found = [] if fish else [NO_FISH]
    found += [] if plan.feed is not None else [NO_FEED]
    return (*found, *(() if area > 0.0 else (NO_FILTER,)))
