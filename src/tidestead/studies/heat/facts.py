"""What the heat study finds: years of temperature and energy, the spells that must be stood, what decides it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from tidestead.core.answer import Assumption, Estimate
from tidestead.core.source import Source
from tidestead.core.weather import Spell
from tidestead.studies.heat.machines import Given

Months = tuple[float, ...]
Days = tuple[float, ...]


@dataclass(frozen=True)
class Spread:
    """P10, median and P90 of the years, by month or by day."""

    low: tuple[float, ...]
    likely: tuple[float, ...]
    high: tuple[float, ...]
    basis: str = "P10 to P90 of the years"

    @property
    def parts(self) -> tuple[tuple[float, ...], ...]:
        """Low, likely, high."""
        return self.low, self.likely, self.high

    def at(self, number: int, factor: float = 1.0) -> Estimate:
        """One month or day with its range, times a factor."""
        low, likely, high = (factor * part[number] for part in self.parts)
        return Estimate(low, likely, high, self.basis)

    def whole(self, factor: float = 1.0) -> Estimate:
        """The sums over all, times a factor."""
        low, likely, high = (factor * sum(part) for part in self.parts)
        return Estimate(low, likely, high, "sums of P10, median and P90 by month")


@dataclass(frozen=True)
class SpellFacts:
    """The cold spell that must be stood, laid over several years. `load` is the mean heat of the day that asks for most
    to hold the setpoint, W, `needed` that with the margin of the trade; `lowest` water with the plan's heaters,
    `without_one` with the largest one dead.
    """

    spell: Spell
    load: Estimate
    needed: Estimate
    margin: float
    installed: float
    lowest: Estimate
    without_one: Estimate
    stuck: tuple[tuple[int, float, float], ...]
    """For 1 to 4 heaters that share the most that is needed: how many, power of each, highest water with one stuck."""


@dataclass(frozen=True)
class StuckFacts:
    """The largest heater stuck on through the warmest of the years: its power, W, and the highest water, degC."""

    power: float
    highest: float


@dataclass(frozen=True)
class CutFacts:
    """The power fails in the coldest night of the spell. Temperatures by hour, (hours + 1); `covered` with a cover of
    nine tenths laid on at once; `formula` by Newton's law. Hours until levels of harm, None where never in that time;
    `harm` with the range of the years, the whole time shown where never.
    """

    start_c: float
    outdoors_c: float
    water: tuple[float, ...]
    covered: tuple[float, ...]
    formula: tuple[float, ...]
    loss: float
    fading: float
    to_act: float | None
    to_harm: float | None
    covered_to_harm: float | None
    harm: Estimate


@dataclass(frozen=True)
class Tried:
    """Something tried in the heat wave: the highest water, degC, the water at the end of every hour round it, and the
    warmest mean of the air inside over as many days as the wave has.
    """

    name: str
    highest: float
    water: tuple[float, ...] = ()
    air: float = 0.0


@dataclass(frozen=True)
class Rank:
    """One cause: heater energy of a year, J, where it is less and where it is more; `step` says by how much."""

    name: str
    step: str
    less_words: str
    more_words: str
    less: float
    more: float


@dataclass(frozen=True)
class Improvement:
    """Something that would save heat: what a year then needs, J, and the warmest water, degC."""

    name: str
    heater: float
    hottest: float


@dataclass(frozen=True)
class Rates:
    """Evaporation by three correlations for the whole open surface, kg/s, in the mean of a month."""

    month: str
    temp_w: float
    temp_a: float
    vapour_a: float
    shah: float
    handbook: float
    busy: float


@dataclass(frozen=True)
class Typical:
    """The year of median energy, by day: balance of the water, W, mean by day; water at the end of each day, degC."""

    label: str
    balance: Mapping[str, Days]
    end_c: Days
    start_c: float
    air: Days


@dataclass(frozen=True)
class Winter:
    """The back of the envelope for the coldest month: gains, W, wanted and outdoor temperature, UA to be idle and UA
    there is, W/K.
    """

    month: str
    gain: float
    wanted_c: float
    outdoors_c: float
    idle: float
    loss: float


@dataclass(frozen=True)
class YearFacts:
    """The ensemble. Energies in J a year, temperatures in degC, water in kg/s, hours by month."""

    words: str
    count: int
    coldest: Estimate
    hottest: Estimate
    nights: Estimate
    heater: Estimate
    chiller: Estimate
    air_heater: Estimate
    fan: Estimate
    days: Spread
    evaporation: Spread
    condensed: Estimate
    wet: Spread
    damp: Spread
    humidity: Spread
    warm_air: Estimate
    balance: Mapping[str, Months]
    closure: float
    typical: Typical
    cold_days: Estimate
    warm_days: Estimate


@dataclass(frozen=True)
class Holding:
    """Surroundings of all the water from one evening on, by hour: watts = gain - loss*T, vapour = even + warm*T, kg/s.

    `power`: pumps, lamps and fans run on, heaters and chillers never; `covered`: a cover of nine tenths lies on the
    display. `at` is the hour of the day it begins with, `stores` J/K of all the water, `water` what the year of heat
    itself gives.
    """

    season: str
    power: bool
    covered: bool
    start_c: float
    at: float
    gain: tuple[float, ...]
    loss: tuple[float, ...]
    even: tuple[float, ...]
    warm: tuple[float, ...]
    stores: float
    water: tuple[float, ...]
    outdoors_c: float


@dataclass(frozen=True)
class Ran:
    """Of the years that were run: the typical one and the warmest by number, heat that leaves the water of the typical
    one, and how far the doubt in evaporation moves the heaters needed in the cold spell, as factors."""

    typical: int
    warmest: int
    rates: tuple[Rates, ...]
    load: tuple[float, float]


@dataclass(frozen=True)
class HeatYears:
    """The years alone. `missing` says why nothing could be told; then the rest is None."""

    missing: tuple[str, ...]
    years: YearFacts | None = None
    ran: Ran | None = None


@dataclass(frozen=True, eq=False)
class HeatFacts:
    """All of it. `missing` says why nothing could be told; then the rest is None or empty."""

    missing: tuple[str, ...]
    weather_words: str
    weather_source: Source | None
    notes: tuple[str, ...]
    assumptions: tuple[Assumption, ...]
    keys: tuple[str, ...] = ()
    groups: tuple[tuple[str, ...], ...] = ()
    apart: float | None = None
    capacity: float = 0.0
    volume: float = 0.0
    surface: float = 0.0
    given: tuple[Given, ...] = ()
    factor: float = 0.0
    years: YearFacts | None = None
    spell: SpellFacts | None = None
    stuck: StuckFacts | None = None
    cut: CutFacts | None = None
    wave: Spell | None = None
    tried: tuple[Tried, ...] = ()
    ranks: tuple[Rank, ...] = ()
    improvements: tuple[Improvement, ...] = ()
    rates: tuple[Rates, ...] = ()
    winter: Winter | None = None
    heater_power: float = 0.0
    indoors: bool = True
    holdings: tuple[Holding, ...] = ()

    def holding(self, season: str, power: bool = False, covered: bool = False) -> Holding | None:
        """The surroundings of one season."""
        wanted = (season, power, covered)
        return next((one for one in self.holdings if (one.season, one.power, one.covered) == wanted), None)
