"""How fish may come: lot by lot through quarantine, week by week as the filter grows, to the grown stock."""

from __future__ import annotations

import math
from dataclasses import dataclass

from tidestead.catalog import table
from tidestead.core.answer import Estimate
from tidestead.core.errors import ImpossibleInput
from tidestead.physics.water import stock as laws
from tidestead.physics.water.stock import Stocking
from tidestead.plan.model import Plan
from tidestead.plan.model.keeping import Quarantine
from tidestead.studies.inputs import Inputs
from tidestead.studies.water.alkalinity import SILENT_PH
from tidestead.studies.water.ammonia_share import share_of, steps_of
from tidestead.studies.water.nutrients import NO_FEED, feed_row
from tidestead.studies.water.setting import Setting
from tidestead.studies.water.spans import DAY
from tidestead.studies.water.stock_facts import Capacity, StockFacts
from tidestead.studies.water.stocking import NO_FILTER, NO_FISH, feeding_of, settled_tan

WEEK = 7.0
FIRST = 0.1
"""Share of the grown stock that comes first into a tank without fish. Common practice, no source."""

MOST_WEEKS = 520
MOST_ROWS = 40
_RANGE = "from the usual feed on quick films to the most that feed makes on slow ones"
NOTHING_TO_DO = "the fish are all there: nothing is to be added"


@dataclass(frozen=True)
class RampWeek:
    """One week: fish after it and what is added, kg; total ammonia at its highest, g/m3 N, from the usual feed on quick
    films to the most that feed makes on slow ones, and what of its likely value is the lot's `peak`; oxygen of a dark
    night, g/m3.
    """

    week: int
    mass: float
    added: float
    tan: Estimate
    peak: float
    oxygen: float | None


@dataclass(frozen=True)
class QuarantineFacts:
    """A lot in quarantine: its weight kg, what it makes g N/day, hours until its water must be acted on."""

    lot: float
    made: Estimate
    to_act: Estimate | None


@dataclass(frozen=True)
class RampFacts:
    """`weeks` by week (empty where `why` says why), `lots` weeks from one lot to the next, `largest` a lot may be kg.

    `made` is ammonia nitrogen by the fish's weight, g/(kg day), `volume` all the water, m3.
    `capacity` is the smaller of what oxygen and the filter carry, of their likely values; `warn` total ammonia, g/m3.
    """

    weeks: tuple[RampWeek, ...]
    why: str
    lots: int
    largest: float
    growth: float
    warn: float | None
    capacity: Capacity | None
    quarantine: QuarantineFacts | None
    made: float
    volume: float


def ramp_of(inputs: Inputs, setting: Setting, stock: StockFacts) -> RampFacts:
    """From the fish of now to the grown stock."""
    plan = inputs.plan
    growth = table("water_limits")["nitrifiers"].si("weekly")
    warn, act = (one.total for one in steps_of(plan, share_of(plan, setting))[:2])
    keeps = plan.quarantine
    lots = 1 if keeps is None else max(1, math.ceil(keeps.keeps / DAY / WEEK - 1e-9))
    largest = math.inf if keeps is None or keeps.most is None else keeps.most
    held = None if keeps is None else _quarantine(keeps, stock, act)
    told = [one for one in stock.capacities if one.by in ("oxygen", "filter") and one.mass is not None]
    least = min(told, key=lambda one: one.mass.likely if one.mass else 0.0, default=None)
    why = _why(plan, stock, warn)
    weeks: tuple[RampWeek, ...] = ()
    if not why and warn is not None:
        try:
            weeks, why = _weeks(_stocking(setting, stock, growth, warn), setting, stock, (lots, largest)), ""
        except ImpossibleInput as refused:
            why = str(refused)
    return RampFacts(
        weeks, why, lots, largest, growth, warn, least, held, _made(stock, "ammonia"), setting.volume
    )


def _made(stock: StockFacts, share: str) -> float:
    """Ammonia nitrogen by the grown fish's weight, g/(kg day), by a share of the catalogue."""
    return float(laws.made_ammonia(feeding_of(stock.grown, stock.protein, feed_row().si(share))))


def _why(plan: Plan, stock: StockFacts, warn: float | None) -> str:
    """What is not told."""
    if stock.mass_grown <= 0.0:
        return NO_FISH
    if stock.grown.feed is None:
        return NO_FEED
    if stock.area <= 0.0:
        return NO_FILTER
    if warn is None:
        return SILENT_PH
    if stock.mass_now >= stock.mass_grown:
        return NOTHING_TO_DO
    tan = stock.grown.tan
    if tan is None or tan.high >= warn:
        return "at worst the filter cannot hold the grown stock's ammonia under the level that warns: see ammonia"
    return "" if plan.fish else NO_FISH


def _stocking(setting: Setting, stock: StockFacts, growth: float, warn: float) -> Stocking:
    """Room for each addition at worst: what is left of the level that warns over the highest that settles on the way,
    with the most ammonia that feed makes and the slowest films.
    """
    settled = 0.0 if stock.grown.tan is None else stock.grown.tan.high
    made = _made(stock, "ammonia_high")
    first = stock.mass_now if stock.mass_now > 0.0 else FIRST * stock.mass_grown
    return Stocking(stock.mass_grown, first, made, growth, setting.volume, warn - settled)


def _weeks(
    stocking: Stocking, setting: Setting, stock: StockFacts, lots: tuple[int, float]
) -> tuple[RampWeek, ...]:
    """Lots as often as quarantine gives them free, each no larger than filter and quarantine let it."""
    apart, largest = lots
    mass = 0.0 if stock.mass_now <= 0.0 else stocking.first
    found = [_week(stocking, setting, stock, 0, (mass, 0.0))] if mass > 0.0 else []
    week = 0
    while mass < stocking.adult * (1.0 - 1e-9):
        week += apart
        if week > MOST_WEEKS:
            raise ImpossibleInput("lots so small, or so seldom, do not bring the full stock within ten years")
        may = stocking.first if mass <= 0.0 else laws.largest_addition(stocking, mass) * mass
        added = min(may, largest, stocking.adult - mass)
        mass += added
        found.append(_week(stocking, setting, stock, week, (mass, added)))
    return tuple(found)


def _week(
    stocking: Stocking, setting: Setting, stock: StockFacts, week: int, fish: tuple[float, float]
) -> RampWeek:
    """Ammonia at its highest after an addition, and the oxygen of a night with so many fish."""
    mass, added = fish
    before = mass - added
    most = laws.addition_peak(stocking, before, added / before) if before > 0.0 else 0.0
    usual = _made(stock, "ammonia")
    peak = most * usual / stocking.made if stocking.made > 0.0 else 0.0
    load = Estimate(usual * mass, usual * mass, stocking.made * mass)
    settled = settled_tan(load, stock.area, setting.temp_c) or Estimate.exact(0.0)
    tan = Estimate(settled.low + peak, settled.likely + peak, settled.high + most, _RANGE)
    return RampWeek(week, mass, added, tan, peak, _night(stock, mass))


def _night(stock: StockFacts, mass: float) -> float | None:
    """With the corals, and with fish and bacteria in proportion to the grown stock's."""
    if stock.exchange.likely <= 0.0 or stock.grown.mass <= 0.0:
        return None
    steady = stock.coral_uptake.likely
    taken = steady + (stock.grown.uptake.likely - steady) * mass / stock.grown.mass
    return max(stock.saturation - taken / stock.exchange.likely, 0.0)


def _quarantine(keeps: Quarantine, stock: StockFacts, act: float | None) -> QuarantineFacts | None:
    """A full lot, fed as the rest, in water with no filter."""
    lot = keeps.most if keeps.most is not None else FIRST * stock.mass_grown
    if stock.grown.feed is None or stock.grown.mass <= 0.0 or lot <= 0.0 or stock.grown.ammonia is None:
        return None
    made = stock.grown.ammonia.times(24.0 * lot / stock.grown.mass)
    if act is None or made.low <= 0.0:
        return QuarantineFacts(lot, made, None)
    hours = [24.0 * act * keeps.volume / one for one in (made.high, made.likely, made.low)]
    return QuarantineFacts(lot, made, Estimate(hours[0], hours[1], hours[2], made.basis))
