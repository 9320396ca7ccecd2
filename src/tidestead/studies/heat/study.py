"""Will it stay warm, and not get too warm? Years of weather run through house and water."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

import numpy as np

from tidestead.catalog import table
from tidestead.core.answer import Answer
from tidestead.core.months import MONTH_DAYS, MONTHS
from tidestead.core.weather import MONTH_OF_HOUR, Spell, WeatherYear
from tidestead.physics.climate import spells
from tidestead.physics.heat import cooling, engine
from tidestead.physics.heat.engine import HeatYear
from tidestead.studies.flow.facts import FlowFacts
from tidestead.studies.heat import cases
from tidestead.studies.heat.assumptions import assumptions_of
from tidestead.studies.heat.doubts import stretched
from tidestead.studies.heat.facts import HeatFacts, HeatYears, Ran, SpellFacts, Winter, YearFacts
from tidestead.studies.heat.grounds import YOURS_SAID, Grounds, grounds_of
from tidestead.studies.heat.holding import holdings_of
from tidestead.studies.heat.machines import fights
from tidestead.studies.heat.told import tell
from tidestead.studies.house import House, house_of
from tidestead.studies.inputs import Inputs
from tidestead.studies.light.facts import LightFacts

_DAYS_OF = np.array(MONTH_DAYS)
TRIED_CHILLER = 2000.0
"""Cooling that is tried in the heat wave, W. Own choice."""

_APART = "No line joins it to the display: its water is left out, and so are heaters in it."


def find(inputs: Inputs, flow: FlowFacts, light: LightFacts, years: HeatYears) -> HeatFacts:
    """Everything, or why nothing can be told."""
    house = house_of(inputs.plan)
    if years.years is None or years.ran is None:
        return _nothing(inputs, house, years.missing)
    grounds = grounds_of(inputs, house, flow, light)
    assert isinstance(grounds, Grounds), "years were run on them"
    return _Finding(grounds, years.years, years.ran).facts()


def judge(inputs: Inputs, facts: HeatFacts) -> Answer:
    """Checks, sentence, working, tables, charts."""
    return tell(inputs, facts)


def _nothing(inputs: Inputs, house: House, missing: tuple[str, ...]) -> HeatFacts:
    weather = inputs.weather
    return HeatFacts(
        missing,
        "" if weather is None else weather.words,
        None if weather is None else weather.source,
        () if weather is None else (*weather.notes, *weather.tried),
        house.assumptions,
    )


@dataclass(frozen=True, eq=False)
class _Finding:
    """One plan whose years have been run, on the way to facts."""

    grounds: Grounds
    years: YearFacts
    ran: Ran

    def facts(self) -> HeatFacts:
        """All of them."""
        grounds, basis, bench = self.grounds, self.grounds.basis, self.grounds.bench
        tried, weather = grounds.ensemble.years, grounds.weather
        middle, hot = tried[self.ran.typical], tried[self.ran.warmest]
        cold_spell, wave = grounds.spells()
        cold, heated = (
            spells.with_cold_spell(middle, cold_spell),
            spells.with_heat_wave(hot, wave, weather.sun),
        )
        spell = self.doubted(cases.spell_facts(bench, tried, cold_spell, grounds.capacity))
        limits = table("heat_limits")["cold"]
        levels = (limits.si("act"), limits.si("harm"))
        heaters = spell.installed > 0.0
        return HeatFacts(
            (),
            weather.words,
            weather.source,
            self.notes(_no_news(cold_spell, wave, middle, hot)),
            tuple(assumptions_of(grounds.inputs.plan, grounds.house, basis, weather, (cold_spell, wave))),
            basis.keys,
            basis.groups,
            basis.apart,
            grounds.capacity,
            sum(water.volume for water in basis.waters),
            sum(water.surface for water in basis.waters),
            basis.given,
            grounds.factor,
            self.years,
            _with_stuck(spell, bench, hot),
            cases.stuck_facts(bench, hot),
            cases.cut_facts(bench, tried, cold_spell, grounds.capacity, levels),
            wave,
            cases.wave_tried(bench, heated, wave, TRIED_CHILLER),
            cases.ranks_of(bench, middle) if heaters else (),
            cases.improvements_of(bench, middle) if heaters else (),
            self.ran.rates,
            self.winter(bench.run(middle, steps=engine.STEPS), middle),
            basis.heater_power,
            not grounds.house.open,
            holdings_of(bench, cold, heated),
        )

    def doubted(self, spell: SpellFacts) -> SpellFacts:
        """What the spell asks for, with the doubt in evaporation."""
        load, needed = (stretched(one, self.ran.load) for one in (spell.load, spell.needed))
        return replace(spell, load=load, needed=needed)

    def notes(self, spells_said: Iterable[str]) -> tuple[str, ...]:
        """What was taken for granted of vessels, those of a kind together; what is odd in the plan and its weather."""
        said: dict[str, list[str]] = {}
        for water in self.grounds.basis.waters:
            for note in water.notes:
                said.setdefault(note, []).append(water.key)
        for key in self.grounds.basis.left_out:
            said.setdefault(_APART, []).append(key)
        vessels = (f"{', '.join(keys)}: {note}" for note, keys in said.items())
        odd = fights(self.grounds.inputs.plan, self.grounds.basis.keys)
        return (*vessels, *odd, *spells_said, *self.grounds.weather.notes, *self.grounds.weather.tried)

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
        idle = float(cooling.idle_loss(max(gain, 0.0), self.grounds.wanted_c, float(means[month])))
        return Winter(MONTHS[month], gain, self.grounds.wanted_c, float(means[month]), idle, -lost / apart)


def _no_news(cold: Spell, wave: Spell, middle: WeatherYear, hot: WeatherYear) -> Iterator[str]:
    """Spells of the plan that the years outdo already."""
    if cold.told == YOURS_SAID and cold.mean_c >= spells.coldest_mean(middle, cold.days):
        yield "The cold spell of the plan is no colder than the years are without it: state one that must be stood."
    if wave.told == YOURS_SAID and wave.mean_c <= spells.warmest_mean(hot, wave.days):
        yield "The heat wave of the plan is no warmer than the years are without it: state one that must be stood."


def _with_stuck(spell: SpellFacts, bench: cases.Bench, hot: WeatherYear) -> SpellFacts:
    """With how hot one of several heaters would make it that share the power needed."""
    if not (spell.installed > 0.0 and spell.needed.high > 0.0):
        return spell
    return replace(spell, stuck=cases.stuck_shares(bench, hot, spell.needed.high))
