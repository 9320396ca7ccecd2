"""What surrounds the water when something has stopped, against a general solver and the year of heat's own referee.

The straight lines of the heat study are handed to scipy, which knows nothing of how they were made: it must come to the
water that the year of heat gave. The state with shifted water is run on by the referee of the heat engine.
"""

from __future__ import annotations

from dataclasses import replace
from unittest.mock import patch

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from tests.agree import heat_rates
from tests.agree.heat_rates import Stretch
from tests.agree.test_heat_referee import LIGHT_FLOOR, ON_LEGS
from tests.journeys.climates import climate
from tests.journeys.fault_plans import heat_of, warmed
from tests.journeys.heat_plans import brief
from tests.laws import heat_systems as made
from tidestead.core.dims import Array
from tidestead.core.errors import ImpossibleInput
from tidestead.core.weather import WeatherYear
from tidestead.physics.heat import engine
from tidestead.physics.heat._tables import Tables
from tidestead.studies.heat import cases, holding, study
from tidestead.studies.heat.dials import AS_PLANNED
from tidestead.studies.heat.facts import Holding

EACH = pytest.mark.parametrize("name", ["skerry", pytest.param("packhouse", marks=pytest.mark.long)])
LINES_TO = 0.05
"""Kelvin of any hour in ten days."""
WATER_TO = 0.02
"""Kelvin of any hour between the engine and its referee, as everywhere."""
JANUARY, DAYS = 24 * 30, 3
SECONDS = 3600.0


def integrated(lines: Holding, start_c: float, hours: int | None = None) -> Array:
    """Water at the end of every hour by scipy, the first that before anything stopped."""
    temps = [start_c]
    for gain, loss in list(zip(lines.gain, lines.loss, strict=True))[:hours]:

        def rate(_: float, temp: Array, gain: float = gain, loss: float = loss) -> Array:
            return (gain - loss * temp) / lines.stores

        found = solve_ivp(rate, (0.0, SECONDS), [temps[-1]], rtol=1e-9, atol=1e-9)
        temps.append(float(found.y[0, -1]))
    return np.array(temps)


@EACH
@pytest.mark.parametrize("season", ["winter", "summer"])
@pytest.mark.parametrize("power", [False, True])
@pytest.mark.parametrize("covered", [False, True])
def test_lines_lead_scipy_through_the_water_of_the_year(
    name: str, season: str, power: bool, covered: bool
) -> None:
    lines = heat_of(warmed(name)).holding(season, power, covered)
    assert lines is not None
    days = holding.LONG_DAYS if power and not covered else holding.DAYS
    assert len(lines.water) == len(lines.gain) + 1 == 24 * days + 1
    found = integrated(lines, lines.start_c)
    assert np.max(np.abs(found - lines.water)) < LINES_TO
    assert min(lines.loss) > 0.0
    assert min(lines.warm) >= 0.0


def leanto() -> tuple[engine.Prepared, Array, Tables]:
    """A tank on legs in a glazed house without heaters in January, thirty days old."""
    weather = climate("greensboro")
    plain = made.leanto(made.tank(sides=ON_LEGS), (), shade=None)
    prepared = engine.prepare(replace(plain, walls=(plain.walls[0], LIGHT_FLOOR)), weather.sun)
    rows = prepared.rows(weather.years[0])
    begun = engine.begin(prepared, [22.0], 18.0)
    return prepared, rows, engine.run(prepared, rows, begun, 24, JANUARY - 24).end


def bare(state: Tables) -> list[Array]:
    return [np.array(part) for part in state]


def test_a_shift_moves_the_waters_and_nothing_else() -> None:
    prepared, _, state = leanto()
    before = heat_rates.begun(prepared, state)
    kept = bare(state)
    after = heat_rates.begun(prepared, engine.shifted(state, -3.0))
    moved = np.zeros(len(before))
    moved[len(prepared.tables.nodes) + 2 :] = -3.0
    assert after - before == pytest.approx(moved, abs=1e-12)
    assert all(np.array_equal(one, own) for one, own in zip(state, kept, strict=True))
    with pytest.raises(ImpossibleInput):
        engine.shifted(state, float("nan"))


@pytest.mark.parametrize(
    "warmer", [-3.0, pytest.param(-1.5, marks=pytest.mark.long), pytest.param(2.0, marks=pytest.mark.long)]
)
def test_shifted_water_runs_on_as_the_referee_has_it(warmer: float) -> None:
    prepared, rows, state = leanto()
    moved = engine.shifted(state, warmer)
    ours = engine.run(prepared, rows, moved, 24 * DAYS, JANUARY).water_c[0]
    stretch = Stretch(24 * DAYS, JANUARY, np.zeros(1))
    start = heat_rates.begun(prepared, moved)
    theirs = heat_rates.by_small_steps(prepared, rows, start, stretch).water()
    assert np.max(np.abs(ours - theirs)) < WATER_TO


@pytest.mark.parametrize("warmer", [-3.0, -1.5, 2.0])
def test_lines_tell_a_run_that_they_were_not_made_of(warmer: float) -> None:
    """Made of the water as it is and three kelvin colder; asked about others. A house is no straight line: what is
    borne is a twentieth of the shift."""
    prepared, rows, state = leanto()

    def run(shift: float) -> engine.HeatYear:
        return engine.run(prepared, rows, engine.shifted(state, shift), 24 * DAYS, JANUARY)

    stores = np.array([body.stores for body in prepared.system.bodies])
    season = holding._Season("winter", climate("greensboro").years[0], JANUARY)
    wanted = holding._Wanted(season, False, False)
    first = float(heat_rates.begun(prepared, state)[-1])
    lines = holding._lines(wanted, (run(0.0), run(-3.0)), stores, first)
    told = integrated(lines, first + warmer)[1:]
    assert np.max(np.abs(told - run(warmer).water_c[0])) < 0.05 * abs(warmer)


@EACH
def test_without_power_the_lines_are_the_cut_of_the_heat_study(name: str) -> None:
    """Both run the same house; what differs is which year, for the heat study shows the one in the middle by its
    coldest water and the lines are made in the year of median energy, and the hour, for that begins with the coldest
    three days and this on the evening before them. Begun alike, they are one.
    """
    kept: list[tuple[float, ...]] = []

    def keep(bench: cases.Bench, cold: WeatherYear, hot: WeatherYear) -> tuple[Holding, ...]:
        first = holding._first(cold, -1.0)
        with patch.object(cases, "_coldest_hour", lambda _: first):
            kept.append(cases._cooled(bench, cold, AS_PLANNED))
        return holding.holdings_of(bench, cold, hot)

    with patch.object(study, "holdings_of", keep):
        facts = brief.__wrapped__(warmed(name)).facts
    lines, cut = facts.holding("winter"), facts.cut
    assert lines is not None
    assert cut is not None
    hours = len(kept[0])
    assert kept[0] == pytest.approx(lines.water[:hours], abs=1e-6)
    assert integrated(lines, lines.start_c, hours - 1) == pytest.approx(kept[0], abs=LINES_TO)
    assert lines.start_c == pytest.approx(cut.start_c, abs=1.0)
    fell, fell_there = lines.start_c - lines.water[48], cut.start_c - cut.water[48]
    assert 0.5 < fell / fell_there < 2.0
