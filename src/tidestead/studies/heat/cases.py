"""Single years with something turned, added or broken: spells, heaters stuck or dead, power cuts, what decides it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import partial

import numpy as np

from tidestead.catalog import table
from tidestead.core.weather import HOURS, Spell, WeatherYear
from tidestead.physics.climate.spells import with_cold_spell
from tidestead.physics.heat import cooling, engine
from tidestead.physics.heat.engine import HeatYear, Prepared
from tidestead.studies.heat.assembly import Basis, assemble
from tidestead.studies.heat.dials import AS_PLANNED, Dials
from tidestead.studies.heat.facts import CutFacts, Improvement, Rank, SpellFacts, StuckFacts, Tried
from tidestead.studies.heat.running import on_all_cores, over_years

CASE_STEPS = 2
"""Steps of an hour where only differences count."""

_MOVES = 0.1
"""Kelvin that a heater or chiller may move the water in a step; else thermostats overshoot, and steps are halved."""

_NOTHING = 1e-3
"""Share of the heaters' energy below which a change of it is none."""

_SPELL_YEARS = 10
"""Years that the cold spell is laid over."""

_CUT_HOURS = 120
_COVER = 0.9
_FAN = 1.0
_MOST_HEATERS = 4
"""Hours that a power cut is followed; share of the display under the cover tried, speed of air of the fan tried, m/s;
heaters among which the power is parted at the most. Own choices."""
_TRIED_WARMING = 3600.0
"""Seconds in which the heater that is tried warms the water by a kelvin: more than any spell asks for."""

_VARIED = (
    ("evaporation", "30 % less", "30 % more", Dials(evaporation=0.7), Dials(evaporation=1.3)),
    ("heat through the glazing", "30 % less", "30 % more", Dials(glazing=0.7), Dials(glazing=1.3)),
    ("the sun", "30 % less", "30 % more", Dials(sun=0.7), Dials(sun=1.3)),
    ("air through cracks", "30 % less", "30 % more", Dials(draughts=0.7), Dials(draughts=1.3)),
    ("heat of pumps and lamps", "30 % less", "30 % more", Dials(machines=0.7), Dials(machines=1.3)),
    ("heat through the vessels' sides", "30 % less", "30 % more", Dials(sides=0.7), Dials(sides=1.3)),
    ("heat into the ground", "30 % less", "30 % more", Dials(ground=0.7), Dials(ground=1.3)),
    ("volume of water", "30 % less", "30 % more", Dials(volume=0.7), Dials(volume=1.3)),
    ("wind at the building", "30 % less", "30 % more", Dials(wind=0.7), Dials(wind=1.3)),
    ("setpoint", "2 K lower", "2 K higher", Dials(setpoint=-2.0), Dials(setpoint=2.0)),
    ("outdoor temperature", "3 K colder", "3 K warmer", Dials(warmer=-3.0), Dials(warmer=3.0)),
)

_IMPROVED = (
    ("a cover on nine tenths of the display at night", Dials(night_cover=_COVER)),
    ("glazing that lets 40 % less heat through", Dials(glazing=0.6)),
    ("half the draughts", Dials(draughts=0.5)),
    ("50 mm of foam round the vessels", Dials(insulated=1.4)),
    ("half the heat into the ground", Dials(ground=0.5)),
    ("setpoint 1 K lower", Dials(setpoint=-1.0)),
    ("all but the setpoint", Dials(night_cover=_COVER, glazing=0.6, draughts=0.5, insulated=1.4, ground=0.5)),
)


@dataclass(frozen=True)
class Span:
    """Hours of a year: the first, and how many."""

    first: int
    hours: int


def extreme(weather: WeatherYear, days: float, sign: float) -> Span:
    """The coldest (`sign` -1) or warmest (+1) days on end with three days round them, from a midnight on."""
    span = max(1, round(days))
    means = sign * weather.temp_c.reshape(-1, 24).mean(axis=1)
    sums = np.convolve(np.concatenate([means, means[:span]]), np.ones(span), "valid")[: len(means)]
    return Span(24 * ((int(np.argmax(sums)) - _ROUND) % len(means)), 24 * (span + 2 * _ROUND))


_ROUND = 3
_SUMMER_DAYS = 60.0
"""Days before and after a spell that are run with it; days of the summer. Own choices."""


def summer(weather: WeatherYear) -> Span:
    """The warmest two months of a year, north or south."""
    return extreme(weather, _SUMMER_DAYS, 1.0)


@dataclass(frozen=True, eq=False)
class Bench:
    """What cases are run on: the plan's basis, the temperatures a year begins with."""

    basis: Basis
    wanted_c: float
    steps: int = CASE_STEPS

    def run(self, weather: WeatherYear, dials: Dials = AS_PLANNED, steps: int | None = None) -> HeatYear:
        """A year with dials turned."""
        steps = steps or self.steps
        prepared = self.prepared(dials)
        rows = prepared.rows(turned(weather, dials))
        return engine.run_year(prepared, rows, self.temps(prepared), self.wanted_c - 4.0, steps)

    def stretch(
        self, weather: WeatherYear, span: Span, dials: Dials = AS_PLANNED, steps: int | None = None
    ) -> HeatYear:
        """Some days of a year with dials turned, after the days before them have warmed everything up."""
        steps = steps or self.steps
        prepared = self.prepared(dials)
        rows = prepared.rows(turned(weather, dials))
        begin = engine.begin(prepared, self.temps(prepared), self.wanted_c - 4.0)
        before = 24 * engine.WARM_UP
        ready = engine.run(prepared, rows, begin, before, (span.first - before) % HOURS, steps)
        return engine.run(prepared, rows, ready.end, span.hours, span.first, steps)

    def prepared(self, dials: Dials = AS_PLANNED) -> Prepared:
        ready = engine.prepare(assemble(self.basis, dials), self.basis.sun)
        if dials.sun == 1.0:
            return ready
        place = ready.place._replace(top=ready.place.top * dials.sun)
        return Prepared(ready.system, ready.tables, place)

    def temps(self, prepared: Prepared) -> tuple[float, ...]:
        return (self.wanted_c,) * len(prepared.system.bodies)


def steps_for(basis: Basis, capacity: float) -> int:
    """Steps of an hour of many years: more where a heater or chiller moves the water fast."""
    plan = basis.plan
    powers = [one.power for one in plan.heaters.values()] + [one.cooling for one in plan.chillers.values()]
    moved = max(powers, default=0.0) * 3600.0 / CASE_STEPS / capacity
    return CASE_STEPS if moved <= _MOVES else 2 * CASE_STEPS


def turned(weather: WeatherYear, dials: Dials) -> WeatherYear:
    """A year so much warmer in every hour, as damp in per cent as before, and its sun so much stronger.

    The sky is as cloudy as it was, for the sun above the air is made stronger with it.
    """
    if dials.warmer == 0.0 and dials.sun == 1.0:
        return weather
    return replace(
        weather,
        temp_c=weather.temp_c + dials.warmer,
        beam=weather.beam * dials.sun,
        diffuse=weather.diffuse * dials.sun,
        total=weather.total * dials.sun,
    )


def spell_facts(bench: Bench, years: Sequence[WeatherYear], spell: Spell, capacity: float) -> SpellFacts:
    """Heaters for the cold spell laid over each of some years, and how they do in it: one is sunny, another dull."""
    margin = table("heat_limits")["heaters"].si("margin")
    tried = [partial(_in_spell, bench, year, spell, capacity) for year in years[:_SPELL_YEARS]]
    loads, lows, fewer = zip(*on_all_cores(tried), strict=True)
    load = over_years(loads)
    return SpellFacts(
        spell,
        load,
        over_years([float(cooling.heater_power(one, margin)) for one in loads]),
        margin,
        bench.basis.heater_power,
        over_years(lows),
        over_years(fewer),
        (),
    )


def _in_spell(bench: Bench, year: WeatherYear, spell: Spell, capacity: float) -> tuple[float, float, float]:
    """Of one year: mean heat of the day that asks for most, W; lowest water as planned, and with the largest dead."""
    cold = with_cold_spell(year, spell)
    installed, largest = bench.basis.heater_power, _largest(bench.basis)
    share = 1.0 - largest / installed if installed > 0.0 else 0.0
    tried = (Dials(heater_most=capacity / _TRIED_WARMING), AS_PLANNED, Dials(heaters=share))
    span = extreme(cold, spell.days, -1.0)
    ideal, planned, fewer = (bench.stretch(cold, span, dials, engine.STEPS) for dials in tried)
    given, stored = (ideal[name].reshape(-1, 24).sum(axis=1) for name in ("w_heaters", "w_stored"))
    load = float(np.where(given > 0.0, given - stored, 0.0).max()) / 86400.0
    return max(load, 0.0), float(planned.water_c[0].min()), float(fewer.water_c[0].min())


def _count(basis: Basis) -> int:
    return sum(one.count for one in basis.plan.heaters.values() if one.vessel in basis.keys)


def _largest(basis: Basis) -> float:
    return max((one.power for one in basis.plan.heaters.values() if one.vessel in basis.keys), default=0.0)


def stuck_facts(bench: Bench, warm: WeatherYear) -> StuckFacts | None:
    """The largest heater never switches off in the warmest of the years."""
    if not _count(bench.basis):
        return None
    number, at, largest = 0, 0, 0.0
    for heater in bench.basis.plan.heaters.values():
        if heater.vessel in bench.basis.keys:
            if heater.power > largest:
                largest, at = heater.power, number
            number += heater.count
    run = bench.stretch(warm, summer(warm), Dials(stuck=at))
    return StuckFacts(largest, float(run.water_c[0].max()))


def stuck_shares(bench: Bench, warm: WeatherYear, needed: float) -> tuple[tuple[int, float, float], ...]:
    """How hot one of several heaters makes the water that share the power needed, when it is stuck on."""
    counts, span = range(1, _MOST_HEATERS + 1), summer(warm)
    tried = [Dials(heater_most=needed / count, stuck=0) for count in counts]
    highest = on_all_cores([partial(_hottest, bench, warm, span, dials) for dials in tried])
    return tuple((count, needed / count, hot) for count, hot in zip(counts, highest, strict=True))


def cut_facts(
    bench: Bench, years: Sequence[WeatherYear], spell: Spell, capacity: float, levels: tuple[float, float]
) -> CutFacts:
    """The power fails at the beginning of the coldest three days of the spell, laid over each of some years.

    What is shown is the year in the middle by how cold the water gets; the hours to harm have the range of them all.
    """
    colds = [with_cold_spell(year, spell) for year in years[:_SPELL_YEARS]]
    curves = on_all_cores([partial(_cooled, bench, cold, AS_PLANNED) for cold in colds])
    order = sorted(range(len(curves)), key=lambda at: min(curves[at]))
    middle = order[len(order) // 2]
    hours = [_CUT_HOURS if found is None else found for found in (reached(one, levels[1]) for one in curves)]
    cold, water = colds[middle], curves[middle]
    covered = _cooled(bench, cold, Dials(cover=_COVER))
    first = _coldest_hour(cold)
    outdoors = float(np.take(cold.temp_c, range(first, first + 72), mode="wrap").mean())
    fell = max(water[0] - water[12], 1e-6)
    loss = capacity * fell / (12 * 3600.0) / max((water[0] + water[12]) / 2.0 - outdoors, 0.1)
    fading = float(cooling.fading_time(capacity, loss))
    formula = tuple(
        float(cooling.temperature_after(water[0], outdoors, fading, 3600.0 * hour))
        for hour in range(_CUT_HOURS + 1)
    )
    act, harm = levels
    return CutFacts(
        water[0], outdoors, water, covered, formula, loss, fading, reached(water, act), reached(water, harm),
        reached(covered, harm), over_years(hours),
    )  # fmt: skip


def _coldest_hour(cold: WeatherYear) -> int:
    """The hour with which the coldest three days begin."""
    sums = np.convolve(np.concatenate([cold.temp_c, cold.temp_c[:72]]), np.ones(72), "valid")[:HOURS]
    return int(np.argmin(sums))


def _cooled(bench: Bench, cold: WeatherYear, dials: Dials) -> tuple[float, ...]:
    """The water at the end of every hour after the power has failed; the first is that of the moment before."""
    prepared, first, before = bench.prepared(), _coldest_hour(cold), 24 * engine.WARM_UP
    rows = prepared.rows(cold)
    begin = engine.begin(prepared, bench.temps(prepared), bench.wanted_c - 4.0)
    start = engine.run(prepared, rows, begin, before, (first - before) % HOURS)
    other = bench.prepared(dials)
    dark = Prepared(other.system, other.tables, other.place._replace(power=np.zeros(HOURS)))
    run = engine.run(dark, rows, start.end, _CUT_HOURS, first)
    return (float(start.water_c[0][-1]), *map(float, run.water_c[0]))


def reached(curve: Sequence[float], level: float) -> float | None:
    """Hours until a falling curve is at a level, between its points; None where it never is."""
    if curve[0] <= level:
        return 0.0
    for hour in range(1, len(curve)):
        if curve[hour] <= level:
            step = curve[hour - 1] - curve[hour]
            return hour - (level - curve[hour]) / step if step > 0.0 else float(hour)
    return None


def wave_tried(bench: Bench, hot: WeatherYear, wave: Spell, chills: float) -> tuple[Tried, ...]:
    """The heat wave with and without what keeps it cool."""
    plan = bench.basis.plan
    options = [("as planned", AS_PLANNED)]
    if plan.building.shade is not None:
        options.append(("without the shade", Dials(shade=False)))
    if plan.building.vents is not None:
        options.append(("with the vents shut", Dials(vents=False)))
    if plan.chillers:
        options.append(("with the chiller dead", Dials(chiller=False)))
    options += [
        ("with a fan of 1 m/s over the water", Dials(fan=_FAN)),
        ("with a further chiller" if plan.chillers else "with a chiller", Dials(chills=chills)),
        ("with both", Dials(fan=_FAN, chills=chills)),
    ]
    span = extreme(hot, wave.days, 1.0)
    runs = on_all_cores([partial(bench.stretch, hot, span, dials) for _, dials in options])
    waters = [tuple(map(float, run.water_c[0])) for run in runs]
    airs = [_warmest_days(run, wave.days) for run in runs]
    return tuple(
        Tried(name, max(water), water, air)
        for (name, _), water, air in zip(options, waters, airs, strict=True)
    )


def _warmest_days(run: HeatYear, days: float) -> float:
    """Warmest mean of the air inside over as many days as the wave has, degC."""
    span = max(1, round(days))
    means = run["air_c"].reshape(-1, 24).mean(axis=1)
    return float(np.convolve(means, np.ones(span) / span, "valid").max())


def ranks_of(bench: Bench, weather: WeatherYear) -> tuple[Rank, ...]:
    """What moves the energy of the heaters, the greatest first; what moves nothing is left out."""
    tried = [dials for _, _, _, less, more in _VARIED for dials in (less, more)]
    found = on_all_cores([partial(_year_energy, bench, weather, dials) for dials in tried])
    rows = [
        Rank(name, _step(less), less, more, found[2 * at], found[2 * at + 1])
        for at, (name, less, more, _, _) in enumerate(_VARIED)
    ]
    moving = [row for row in rows if abs(row.more - row.less) > _NOTHING * max(found)]
    return tuple(sorted(moving, key=lambda row: -abs(row.more - row.less)))


def _step(less: str) -> str:
    """ "30 % less" as "±30 %"."""
    return f"±{less.rpartition(' ')[0]}"


def improvements_of(bench: Bench, weather: WeatherYear) -> tuple[Improvement, ...]:
    """What each improvement would leave of the heaters' energy, the plan as it stands first.

    What changes nothing is left out: the plan has it already, or has no use for it.
    """
    options = [("as planned", AS_PLANNED), *_IMPROVED]
    found = on_all_cores([partial(_energy_and_heat, bench, weather, dials) for _, dials in options])
    first, *others = (Improvement(name, *pair) for (name, _), pair in zip(options, found, strict=True))
    return first, *(one for one in others if abs(one.heater - first.heater) > _NOTHING * first.heater)


def _hottest(bench: Bench, weather: WeatherYear, span: Span, dials: Dials) -> float:
    """The warmest that the display is at the end of an hour, degC."""
    return float(bench.stretch(weather, span, dials).water_c[0].max())


def _year_energy(bench: Bench, weather: WeatherYear, dials: Dials) -> float:
    """Heat that the heaters give in a year, J."""
    return float(bench.run(weather, dials, bench.steps // 2)["w_heaters"].sum())


def _energy_and_heat(bench: Bench, weather: WeatherYear, dials: Dials) -> tuple[float, float]:
    """Heat that the heaters give in a year, J, and the warmest water, degC."""
    run = bench.run(weather, dials, bench.steps // 2)
    return float(run["w_heaters"].sum()), float(run.water_c[0].max())
