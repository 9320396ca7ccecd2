"""Will it stay warm, and not get too warm? Years of weather run through house and water."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from functools import partial

import numpy as np

from tidestead.catalog import table
from tidestead.core.answer import Answer
from tidestead.core.dims import Array
from tidestead.core.errors import ImpossibleInput
from tidestead.core.months import MONTH_DAYS, MONTHS
from tidestead.core.weather import MONTH_OF_HOUR, Spell, Weather, WeatherYear
from tidestead.physics.climate import spells
from tidestead.physics.heat import cooling, engine
from tidestead.physics.heat.engine import HeatYear
from tidestead.studies.flow.facts import FlowFacts
from tidestead.studies.heat import cases
from tidestead.studies.heat.assembly import Basis, assemble, basis_of
from tidestead.studies.heat.assumptions import assumptions_of
from tidestead.studies.heat.doubts import Doubt, doubt_of
from tidestead.studies.heat.facts import HeatFacts, SpellFacts, Spread, Typical, Winter, YearFacts
from tidestead.studies.heat.holding import holdings_of
from tidestead.studies.heat.machines import fights
from tidestead.studies.heat.rates import rates_of, spread_of
from tidestead.studies.heat.running import KEPT, Runner, YearKept, day_means, kept_of, over_years, run_all
from tidestead.studies.heat.shell import solid_layers
from tidestead.studies.heat.told import tell
from tidestead.studies.house import House, house_of
from tidestead.studies.inputs import Inputs
from tidestead.studies.light.facts import LightFacts
from tidestead.studies.years import Ensemble, ensemble_of, tenths

_DAYS_OF = np.array(MONTH_DAYS)
TRIED_CHILLER = 2000.0
"""Cooling that is tried in the heat wave, W. Own choice."""

YOURS_SAID = "yours"
"""Of a spell that the plan states."""

_BOILS = "the water boils or freezes through: look at the power of heaters and chillers, and at the size of the vessels"
_APART = "No line joins it to the display: its water is left out, and so are heaters in it."

_TIMBER = ("softwood", "plywood", "wood-siding")
_RSI = 0.13
"""Film at a wall inside, m2 K/W. Source: ISO 6946, as quoted."""


def find(inputs: Inputs, flow: FlowFacts, light: LightFacts) -> HeatFacts:
    """Everything, or why nothing can be told."""
    house = house_of(inputs.plan)
    weather, missing = inputs.weather, _missing(inputs, house)
    ensemble = None
    if weather is not None and not missing:
        try:
            ensemble = ensemble_of(weather, inputs.plan.weather.years)
        except ImpossibleInput as error:
            missing.append(f"no years can be made from the monthly means: {error}")
    if weather is None or ensemble is None:
        return _nothing(inputs, house, missing or ["the weather has neither years enough nor monthly means"])
    basis = basis_of(inputs.plan, house, flow, light, weather.sun)
    if not basis.waters:
        return _nothing(inputs, house, ["no vessel holds seawater whose size is known"])
    return _Finding(inputs, house, weather, ensemble, basis).facts()


def judge(inputs: Inputs, facts: HeatFacts) -> Answer:
    """Checks, sentence, working, tables, charts."""
    return tell(inputs, facts)


def _missing(inputs: Inputs, house: House) -> list[str]:
    found = []
    if inputs.weather is None:
        found.append(inputs.no_weather or "there is no weather: add some under [weather]")
    found += [f"{one.key} is not in the plan: {one.why}" for one in (*house.missing, *house.bare)]
    return found


def _nothing(inputs: Inputs, house: House, missing: list[str]) -> HeatFacts:
    weather = inputs.weather
    return HeatFacts(
        tuple(missing),
        "" if weather is None else weather.words,
        None if weather is None else weather.source,
        () if weather is None else (*weather.notes, *weather.tried),
        house.assumptions,
    )


@dataclass(frozen=True, eq=False)
class _Finding:
    """One plan with its weather, on the way to facts."""

    inputs: Inputs
    house: House
    weather: Weather
    ensemble: Ensemble
    basis: Basis

    def facts(self) -> HeatFacts:
        """All of them."""
        plan, basis = self.inputs.plan, self.basis
        capacity = sum(body.stores for body in assemble(basis).bodies)
        bench = cases.Bench(basis, self.wanted_c, cases.steps_for(basis, capacity))
        kept = run_all(self.runner(bench), self.ensemble.years, bench.steps, self.inputs.tick)
        if not all(one.finite for one in kept):
            return _nothing(self.inputs, self.house, [_BOILS])
        typical = _median([one.heater for one in kept], [float(one.mean.mean()) for one in kept])
        warmest = int(np.argmax([float(one.warmest.max()) for one in kept]))
        middle, hot = self.ensemble.years[typical], self.ensemble.years[warmest]
        cold_spell, wave = self.spells()
        cold = spells.with_cold_spell(middle, cold_spell)
        year = bench.run(middle, steps=engine.STEPS)
        rates = rates_of(basis, year, middle)
        doubt = doubt_of(bench, middle, (cold, cold_spell), spread_of(rates))
        spell = _doubted(cases.spell_facts(bench, self.ensemble.years, cold_spell, capacity), doubt)
        limits = table("heat_limits")["cold"]
        heated = spell.installed > 0.0
        return HeatFacts(
            (),
            self.weather.words,
            self.weather.source,
            self.notes(_no_news(cold_spell, wave, middle, hot)),
            tuple(assumptions_of(plan, self.house, basis, self.weather, (cold_spell, wave))),
            basis.keys,
            basis.groups,
            basis.apart,
            capacity,
            sum(water.volume for water in basis.waters),
            sum(water.surface for water in basis.waters),
            basis.given,
            self.factor,
            _doubted_years(self.years(kept, year, middle), doubt),
            _with_stuck(spell, bench, hot),
            cases.stuck_facts(bench, hot),
            cases.cut_facts(
                bench, self.ensemble.years, cold_spell, capacity, (limits.si("act"), limits.si("harm"))
            ),
            wave,
            cases.wave_tried(bench, spells.with_heat_wave(hot, wave, self.weather.sun), wave, TRIED_CHILLER),
            cases.ranks_of(bench, middle) if heated else (),
            cases.improvements_of(bench, middle) if heated else (),
            rates,
            self.winter(year, middle),
            basis.heater_power,
            not self.house.open,
            holdings_of(bench, cold, spells.with_heat_wave(hot, wave, self.weather.sun)),
        )

    @property
    def wanted_c(self) -> float:
        """What the heaters keep, else the middle of what is wanted."""
        found = [one.setpoint for one in self.inputs.plan.heaters.values() if one.vessel in self.basis.keys]
        if found:
            return max(found)
        keep = self.inputs.plan.water.keep
        return sum(keep) / 2.0 if keep is not None else 25.0

    @property
    def factor(self) -> float:
        """Temperature factor of the weakest wall with timber in it, f = 1 - U*Rsi; that of timber in the room is 1."""
        worst = 1.0
        for face in self.house.faces:
            if face.behind == "outdoors" and any(layer.material in _TIMBER for layer in face.layers):
                through = 1.0 / (sum(layer.ohms for layer in solid_layers(face.layers)) + 0.17)
                worst = min(worst, 1.0 - through * _RSI)
        return worst

    def runner(self, bench: cases.Bench) -> Runner:
        """The plan as it stands, over years."""
        prepared = bench.prepared()
        limit = table("heat_limits")["timber"].si("humidity")
        keep = partial(kept_of, factor=self.factor, limit=limit)
        return Runner(prepared, bench.temps(prepared), self.wanted_c - 4.0, keep)

    def spells(self) -> tuple[Spell, Spell]:
        """Cold spell and heat wave: the plan's, else by what the years or the normals say."""
        plan, years, normals = self.inputs.plan.weather, self.weather.years, self.weather.normals
        if plan.cold_spell is not None:
            cold = Spell(plan.cold_spell.lasts / 86400.0, plan.cold_spell.mean, YOURS_SAID)
        elif years:
            cold = spells.cold_spell_of_years(years)
        else:
            assert normals is not None, "an ensemble was found, so there are years or normals"
            cold = spells.cold_spell_of_normals(normals)
        if plan.heat_wave is not None:
            return cold, Spell(plan.heat_wave.lasts / 86400.0, plan.heat_wave.mean, YOURS_SAID)
        if years:
            return cold, spells.heat_wave_of_years(years)
        assert normals is not None, "an ensemble was found, so there are years or normals"
        return cold, spells.heat_wave_of_normals(normals)

    def notes(self, spells_said: Iterable[str]) -> tuple[str, ...]:
        """What was taken for granted of vessels, those of a kind together; what is odd in the plan and its weather."""
        said: dict[str, list[str]] = {}
        for water in self.basis.waters:
            for note in water.notes:
                said.setdefault(note, []).append(water.key)
        for key in self.basis.left_out:
            said.setdefault(_APART, []).append(key)
        vessels = (f"{', '.join(keys)}: {note}" for note, keys in said.items())
        odd = fights(self.inputs.plan, self.basis.keys)
        return (*vessels, *odd, *spells_said, *self.weather.notes, *self.weather.tried)

    def years(self, kept: list[YearKept], year: HeatYear, weather: WeatherYear) -> YearFacts:
        """The ensemble boiled down."""
        keep = self.inputs.plan.water.keep
        low, high = keep if keep is not None else (-1e9, 1e9)
        fan = self.inputs.plan.building.vents
        watts = 0.0 if fan is None or fan.fan is None else fan.fan
        return YearFacts(
            self.ensemble.words,
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
            _typical(year, weather, np.array([body.stores for body in assemble(self.basis).bodies])),
            over_years([float((one.coldest < low).sum()) for one in kept]),
            over_years([float((one.warmest > high).sum()) for one in kept]),
        )

    def winter(self, year: HeatYear, weather: WeatherYear) -> Winter:
        """The back of the envelope for the month with the coldest mean."""
        means = np.bincount(MONTH_OF_HOUR, weights=weather.temp_c) / (24.0 * _DAYS_OF)
        month = int(np.argmin(means))
        hours = MONTH_OF_HOUR == month  # noqa: SIM300 - an array is asked
        seconds = 3600.0 * hours.sum()
        gain = float((year["w_sun"] + year["w_machines"] + year["w_lamps"])[hours].sum() / seconds)
        lost = float(
            (year["w_evaporation"] + year["w_air"] + year["w_rays"] + year["w_sides"] + year["w_topped_up"])[
                hours
            ].sum()
            / seconds
        )
        water = float(year.water_c[0][hours].mean())
        apart = max(water - float(means[month]), 0.1)
        idle = float(cooling.idle_loss(max(gain, 0.0), self.wanted_c, float(means[month])))
        return Winter(MONTHS[month], gain, self.wanted_c, float(means[month]), idle, -lost / apart)


def _no_news(cold: Spell, wave: Spell, middle: WeatherYear, hot: WeatherYear) -> Iterator[str]:
    """Spells of the plan that the years outdo already."""
    if cold.told == YOURS_SAID and cold.mean_c >= spells.coldest_mean(middle, cold.days):
        yield "The cold spell of the plan is no colder than the years are without it: state one that must be stood."
    if wave.told == YOURS_SAID and wave.mean_c <= spells.warmest_mean(hot, wave.days):
        yield "The heat wave of the plan is no warmer than the years are without it: state one that must be stood."


def _doubted(spell: SpellFacts, doubt: Doubt) -> SpellFacts:
    """What the spell asks for, with the doubt in evaporation."""
    return replace(spell, load=doubt.of_load(spell.load), needed=doubt.of_load(spell.needed))


def _doubted_years(years: YearFacts, doubt: Doubt) -> YearFacts:
    """Energy, water and humidity with the doubt in evaporation."""
    return replace(
        years,
        heater=doubt.of_energy(years.heater),
        evaporation=doubt.of_evaporation(years.evaporation),
        humidity=doubt.of_humidity(years.humidity),
    )


def _with_stuck(spell: SpellFacts, bench: cases.Bench, hot: WeatherYear) -> SpellFacts:
    """With how hot one of several heaters would make it that share the power needed."""
    if not (spell.installed > 0.0 and spell.needed.high > 0.0):
        return spell
    return replace(spell, stuck=cases.stuck_shares(bench, hot, spell.needed.high))


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
