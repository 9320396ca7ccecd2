"""The year of heat: hour after hour, in a few steps each, of everything that a system is.

Implicit steps (backward Euler) of a quarter of an hour; a step's heat closes to the last digits whatever its length.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from tidestead.core.dims import Array, Celsius, Count, Kelvin, Ratio
from tidestead.core.errors import ImpossibleInput
from tidestead.core.weather import HOURS, SunPath, WeatherYear
from tidestead.physics import _refuse
from tidestead.physics.heat import _checked
from tidestead.physics.heat._count import BODIES_AT, COLUMNS
from tidestead.physics.heat._hour import GROUND_ROW
from tidestead.physics.heat._layout import laid_out, timed, warmed
from tidestead.physics.heat._rows import rows_of
from tidestead.physics.heat._tables import B, Place, Tables
from tidestead.physics.heat._year import run_hours
from tidestead.physics.heat.system import System

STEPS: Count = 4
"""Of an hour, as a rule."""

WARM_UP: Count = 30
"""Days that are run before the year, so that walls and water forget how they began."""


@dataclass(frozen=True, eq=False)
class HeatYear:
    """What a run gave. `columns` by name are hours; energies in J into the thing named, water in kg.

    Names that begin with w are heat into the water, with h into the whole house. `water_c` has the temperature of
    each body at the end of every hour, (bodies, hours). `end` is the state to go on from.
    """

    columns: Mapping[str, Array]
    water_c: Array
    end: Tables

    def __getitem__(self, name: str) -> Array:
        """One column."""
        return self.columns[name]

    @property
    def closure(self) -> Ratio:
        """The worst gap of any step's balance, as a share of the heat that moved in it."""
        return float(np.max(self.columns["closure"]))


@dataclass(frozen=True, eq=False)
class Prepared:
    """A system laid out for one place, ready to run."""

    system: System
    tables: Tables
    place: Place

    def rows(self, year: WeatherYear) -> Array:
        """A year of weather for this place."""
        return rows_of(year, self.place.top)


def prepare(system: System, sun: SunPath, power: Array | None = None) -> Prepared:
    """Lay a system out for a place; `power` (8760) is 1 in hours with electricity, 0 in those without.

        a layer becomes pieces, each as thick as sqrt(3*k*900 s/(rho*c)), six at most

    Source: the depth that warmth reaches in a step; that it sets the pieces is own choice.
    Valid:  walls through which heat goes straight; corners and studs are left out.
    """
    _checked.share_hours(power=power)
    return Prepared(system, *laid_out(system, sun, power))


def begin(prepared: Prepared, temps: Sequence[Celsius], air_c: Celsius, ratio: Ratio = 0.007) -> Tables:
    """A state to begin from: bodies at their temperatures, everything else at that of the air.

        sides of a vessel at the mean of its water and the air

    Source: own choice; the warm-up of `run_year` makes it forgotten.
    Valid:  any; `ratio` is kg of water in a kg of dry air.
    """
    _refuse.endless(air=air_c, ratio=ratio, water=temps)  # type: ignore[arg-type]  # takes lists of numbers too
    if len(temps) != len(prepared.system.bodies):
        raise ImpossibleInput(
            f"{len(prepared.system.bodies)} bodies need as many temperatures, got {len(temps)}"
        )
    state = timed(prepared.tables, STEPS)
    warmed(state, temps, air_c, ratio)
    return state


def run(
    prepared: Prepared,
    rows: Array,
    state: Tables,
    hours: Count = HOURS,
    first: Count = 0,
    steps: Count = STEPS,
) -> HeatYear:
    """Run hours of weather from a state on; `rows` as `Prepared.rows` gives them, `first` the hour it begins with.

        C*(T - T0)/dt = sum of heat flows at the step's end

    Raises ImpossibleInput where the weather is not finite, or rows or state do not fit.
    Source: heat balances; backward Euler, films and rays as named in the engine's parts.
    Valid:  water mixed in each body, air mixed in the room; walls conduct straight through.
    """
    _refuse_run(prepared, rows, state, hours, steps)
    out = np.empty((hours, BODIES_AT + len(prepared.system.bodies)))
    end = timed(state, steps)
    run_hours(end, prepared.place, np.ascontiguousarray(rows, dtype=np.float64), out, first)
    return HeatYear(dict(zip(COLUMNS, out.T, strict=False)), out.T[BODIES_AT:], end)


def shifted(state: Tables, warmer: Kelvin) -> Tables:
    """A copy of a state with all bodies of water so much warmer, walls and air as they are.

        T = T0 + dT      for every body

    Source: definition.
    Valid:  to learn what a run owes to the water's own temperature; the walls follow in the run.
    """
    _refuse.endless(warmer=warmer)
    copy = Tables(*(np.array(part) for part in state))
    copy.core[B:, len(copy.core) + 1] += warmer
    return copy


def _refuse_run(prepared: Prepared, rows: Array, state: Tables, hours: int, steps: int) -> None:
    """What the compiled hours would read without asking."""
    if np.shape(rows) != (GROUND_ROW + 1, HOURS):
        raise ImpossibleInput(f"weather has {GROUND_ROW + 1} rows of {HOURS} hours, got {np.shape(rows)}")
    if not np.all(np.isfinite(rows)):
        raise ImpossibleInput("the weather has an hour that is no number")
    if steps < 1 or hours < 1:
        raise ImpossibleInput(f"at least one step and one hour are run, got {steps} and {hours}")
    if any(one.shape != own.shape for one, own in zip(state, prepared.tables, strict=True)):
        raise ImpossibleInput("the state to go on from is that of another system")


def run_year(
    prepared: Prepared, rows: Array, temps: Sequence[Celsius], air_c: Celsius = 20.0, steps: Count = STEPS
) -> HeatYear:
    """A whole year, after its own December has warmed everything up.

        30 days before 1 January are run first, from the temperatures given

    Source: as `run`; the warm-up is own choice.
    Valid:  as `run`.
    """
    before = 24 * WARM_UP
    ready = run(prepared, rows, begin(prepared, temps, air_c), before, HOURS - before, steps)
    return run(prepared, rows, ready.end, HOURS, 0, steps)
