"""Years of weather run through house and water: energy, temperatures and water by month, without what breaks or may be
made better. Costs, water and power ask for no more.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from tidestead.core.dims import Array
from tidestead.core.months import MONTH_DAYS
from tidestead.core.weather import WeatherYear
from tidestead.physics.climate import spells
from tidestead.physics.heat import engine
from tidestead.physics.heat.engine import HeatYear
from tidestead.studies.flow.facts import FlowFacts
from tidestead.studies.heat.assembly import assemble
from tidestead.studies.heat.doubts import Doubt, doubt_of
from tidestead.studies.heat.facts import HeatYears, Ran, Spread, Typical, YearFacts
from tidestead.studies.heat.grounds import Grounds, grounds_of
from tidestead.studies.heat.rates import rates_of, spread_of
from tidestead.studies.heat.running import KEPT, YearKept, day_means, over_years, run_all
from tidestead.studies.house import house_of
from tidestead.studies.inputs import Inputs
from tidestead.studies.light.facts import LightFacts
from tidestead.studies.years import tenths

_DAYS_OF = np.array(MONTH_DAYS)

_BOILS = "the water boils or freezes through: look at the power of heaters and chillers, and at the size of the vessels"


def find(inputs: Inputs, flow: FlowFacts, light: LightFacts) -> HeatYears:
    """The years, or why nothing can be told."""
    grounds = grounds_of(inputs, house_of(inputs.plan), flow, light)
    if isinstance(grounds, tuple):
        return HeatYears(grounds)
    bench, ensemble = grounds.bench, grounds.ensemble
    kept = run_all(grounds.runner(), ensemble.years, bench.steps, inputs.tick)
    if not all(one.finite for one in kept):
        return HeatYears((_BOILS,))
    typical = _median([one.heater for one in kept], [float(one.mean.mean()) for one in kept])
    warmest = int(np.argmax([float(one.warmest.max()) for one in kept]))
    middle, (cold_spell, _) = ensemble.years[typical], grounds.spells()
    year = bench.run(middle, steps=engine.STEPS)
    rates = rates_of(grounds.basis, year, middle)
    cold = spells.with_cold_spell(middle, cold_spell)
    doubt = doubt_of(bench, middle, (cold, cold_spell), spread_of(rates))
    years = _doubted(_years(grounds, kept, year, middle), doubt)
    return HeatYears((), years, Ran(typical, warmest, rates, doubt.load))


def _years(grounds: Grounds, kept: list[YearKept], year: HeatYear, weather: WeatherYear) -> YearFacts:
    """The ensemble boiled down."""
    keep = grounds.inputs.plan.water.keep
    low, high = keep if keep is not None else (-1e9, 1e9)
    fan = grounds.inputs.plan.building.vents
    watts = 0.0 if fan is None or fan.fan is None else fan.fan
    return YearFacts(
        grounds.ensemble.words,
        len(kept),
        over_years([float(one.coldest.min()) for one in kept]),
        over_years([float(one.warmest.max()) for one in kept]),
        over_years([float(one.nights) for one in kept]),
        over_years([one.heater for one in kept]),
        over_years([one.chiller for one in kept]),
        over_years([one.air_heater for one in kept]),
        over_years([one.opened * watts * 3600.0 for one in kept]),
        _spread(np.array([one.mean for one in kept])),
        _spread(np.array([one.evaporated / (_DAYS_OF * 86400.0) for one in kept])),
        over_years([float(one.condensed.sum()) for one in kept]),
        _spread(np.array([one.wet for one in kept])),
        _spread(np.array([one.damp for one in kept])),
        _spread(np.array([one.humidity for one in kept])),
        over_years([one.warm_air for one in kept]),
        {name: _mean_watts([one.month(name) for one in kept]) for name in KEPT},
        max(*(one.closure for one in kept), year.closure),
        _typical(year, weather, np.array([body.stores for body in assemble(grounds.basis).bodies])),
        over_years([float((one.coldest < low).sum()) for one in kept]),
        over_years([float((one.warmest > high).sum()) for one in kept]),
    )


def _doubted(years: YearFacts, doubt: Doubt) -> YearFacts:
    """Energy, water and humidity with the doubt in evaporation."""
    return replace(
        years,
        heater=doubt.of_energy(years.heater),
        evaporation=doubt.of_evaporation(years.evaporation),
        humidity=doubt.of_humidity(years.humidity),
    )


def _median(energies: list[float], means: list[float]) -> int:
    """The year whose heater energy is in the middle; by its mean temperature where nothing is heated."""
    values = energies if max(energies) > 0.0 else means
    order = np.argsort(values)
    return int(order[len(order) // 2])


def _spread(values: Array) -> Spread:
    low, middle, high = tenths(values)
    return Spread(tuple(map(float, low)), tuple(map(float, middle)), tuple(map(float, high)))


def _mean_watts(months: list[Array]) -> tuple[float, ...]:
    mean = np.mean(months, axis=0) / (_DAYS_OF * 86400.0)
    return tuple(map(float, mean))


def _typical(year: HeatYear, weather: WeatherYear, stores: Array) -> Typical:
    """By day: every part of the water's balance, W, and the mean of all water at the end of the day."""
    balance = {name: tuple(map(float, day_means(year[name]) / 3600.0)) for name in KEPT}
    water = (stores @ year.water_c / stores.sum()).reshape(-1, 24)[:, -1]
    first = float(water[0]) - float(year["w_stored"][:24].sum()) / float(stores.sum())
    air = tuple(map(float, day_means(year["air_c"])))
    return Typical(weather.label, balance, tuple(map(float, water)), first, air)
