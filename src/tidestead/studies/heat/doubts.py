"""How far the doubt in evaporation reaches: the year again with the least and the most that three correlations give."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import partial

import numpy as np

from tidestead.core.answer import Estimate
from tidestead.core.dims import Array
from tidestead.core.weather import HOURS, Spell, WeatherYear
from tidestead.physics.heat.engine import HeatYear
from tidestead.studies.heat.cases import Bench, Span, extreme
from tidestead.studies.heat.dials import AS_PLANNED, Dials
from tidestead.studies.heat.facts import Spread
from tidestead.studies.heat.running import by_month, on_all_cores

BASIS = "P10 to P90 of the years, and what three correlations of evaporation differ by"


@dataclass(frozen=True)
class Doubt:
    """What less and more evaporation make of a year: factors on heater energy, on the heaters needed in the spell, and
    by month on evaporation; steps of the mean humidity by month. Pairs: no more than one (or nothing), and no less.
    """

    energy: tuple[float, float]
    load: tuple[float, float]
    evaporation: tuple[tuple[float, ...], tuple[float, ...]]
    humidity: tuple[tuple[float, ...], tuple[float, ...]]

    def of_energy(self, found: Estimate) -> Estimate:
        """Heater energy with its doubt."""
        return stretched(found, self.energy)

    def of_evaporation(self, found: Spread) -> Spread:
        """Evaporation by month with its doubt."""
        low, high = self.evaporation
        return Spread(
            tuple(value * factor for value, factor in zip(found.low, low, strict=True)),
            found.likely,
            tuple(value * factor for value, factor in zip(found.high, high, strict=True)),
            BASIS,
        )

    def of_humidity(self, found: Spread) -> Spread:
        """Humidity by month with its doubt; no more than saturated."""
        low, high = self.humidity
        return Spread(
            tuple(value + step for value, step in zip(found.low, low, strict=True)),
            found.likely,
            tuple(min(value + step, 1.0) for value, step in zip(found.high, high, strict=True)),
            BASIS,
        )


def doubt_of(
    bench: Bench, weather: WeatherYear, cold: tuple[WeatherYear, Spell], factors: tuple[float, float]
) -> Doubt:
    """One year and one spell with evaporation times the two factors, against the same as planned."""
    tried = (AS_PLANNED, *(Dials(evaporation=factor) for factor in factors))
    years = on_all_cores([partial(bench.run, weather, dials) for dials in tried])
    span = extreme(cold[0], cold[1].days, -1.0)
    loads = [_load(bench, cold[0], span, dials) for dials in tried]
    energies = [float(year["w_heaters"].sum()) for year in years]
    water = [_monthly(year, "evaporated") for year in years]
    damp = [_monthly(year, "humidity") / by_month(np.ones(HOURS)) for year in years]
    ratios = [one / np.where(water[0] > 0.0, water[0], 1.0) for one in water[1:]]
    steps = [one - damp[0] for one in damp[1:]]
    return Doubt(_factors(energies), _factors(loads), _months(ratios, 1.0), _months(steps, 0.0))


def _load(bench: Bench, cold: WeatherYear, span: Span, dials: Dials) -> float:
    """Heat that leaves the water in the spell at its temperature, mean of its days, W."""
    most = sum(body.stores for body in bench.prepared().system.bodies) / 3600.0
    run = bench.stretch(cold, span, replace(dials, heater_most=most))
    return float((run["w_heaters"] - run["w_stored"]).sum()) / (3600.0 * span.hours)


def _monthly(year: HeatYear, name: str) -> Array:
    return by_month(year[name])


def _factors(values: list[float]) -> tuple[float, float]:
    first = values[0]
    ratios = [value / first if first > 0.0 else 1.0 for value in values]
    return min(ratios), max(ratios)


def _months(found: list[Array], neutral: float) -> tuple[tuple[float, ...], tuple[float, ...]]:
    low, high = np.minimum(np.min(found, axis=0), neutral), np.maximum(np.max(found, axis=0), neutral)
    return tuple(map(float, low)), tuple(map(float, high))


def stretched(found: Estimate, factors: tuple[float, float]) -> Estimate:
    """A range with its ends moved by two factors."""
    low, high = factors
    return Estimate(found.low * low, found.likely, found.high * high, BASIS)
