"""The transient: heat, oxygen, ammonia, levels and salinity of coupled waters, step by step.

Water moves evenly within a step, so that volumes are exact and floats, crests and intakes are met without chatter;
what the water holds follows by the classic rule of Runge and Kutta.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import ceil
from typing import Literal

import numpy as np

from tidestead.core.dims import Array, Count, Hour, Ratio, Second
from tidestead.core.errors import ImpossibleInput
from tidestead.physics import _refuse
from tidestead.physics.transient import _laws
from tidestead.physics.transient import _tables as at
from tidestead.physics.transient._layout import laid_out, shown_columns
from tidestead.physics.transient._run import run_steps
from tidestead.physics.transient._tables import Tables
from tidestead.physics.transient.system import System

_HOUR = 3600.0
_WHOLE = 1e-9

Quantity = Literal["volume", "temp_c", "sal_psu", "oxygen", "tan", "nh3", "organic"]


@dataclass(frozen=True, eq=False)
class Ledgers:
    """What came and went in a run, by body: water in m3, salt in m3 times salinity, heat in J, the others in g.

    Heat carried by water counts from 0 degC; evaporated water takes its own with it (`heat_lost`).
    """

    evaporated: Array
    leaked: Array
    spilled: Array
    pumped_out: Array
    topped_up: Array
    came_in: Array
    salt_in: Array
    salt_lost: Array
    heat_in: Array
    heat_lost: Array
    heat_air: Array
    heat_heaters: Array
    excreted: Array
    nitrified: Array
    tan_lost: Array
    oxygen_in: Array
    oxygen_air: Array
    oxygen_animals: Array
    oxygen_bacteria: Array
    oxygen_lost: Array


@dataclass(frozen=True, eq=False)
class Course:
    """What a run gave: `hours` (n + 1), each quantity (bodies, n + 1).

    Volumes in m3, concentrations in g/m3: `tan` is nitrogen, `nh3` the weight of un-ionised ammonia itself; `organic`
    is g of nitrogen. `flood` (n + 1) is m3 on the floor, `spilled` what went over each brim; `stock` (top-offs, n + 1)
    is m3 left, `pump_flow` (pumps, n + 1) m3/s in the step that ends there.
    """

    hours: Array
    volume: Array
    temp_c: Array
    sal_psu: Array
    oxygen: Array
    tan: Array
    nh3: Array
    organic: Array
    flood: Array
    spilled: Array
    stock: Array
    pump_flow: Array
    ledgers: Ledgers


def run(system: System, hours: Hour, step_s: Second = 120.0) -> Course:
    """Run the waters on from their beginning.

        V' = in - out;  M' = sum(q*C) in - q*C out + what lives, air, heaters and surroundings give and take

    Raises ImpossibleInput where steps do not divide an hour, or rates outrun every step.
    Source: balances of water, salt, heat, oxygen and nitrogen; classic Runge-Kutta, flows even within a step.
    Valid:  bodies well mixed; heads of pumps and weirs left out (they run or are at their level); fourth order in the
            step where flows are even, second where evaporation or a hole goes with what happens, first over an event.
    """
    _refuse.not_positive(hours=hours, step=step_s)
    _refuse.endless(hours=hours, step=step_s)
    per_hour = round(_HOUR / step_s)
    if per_hour < 1 or abs(per_hour * step_s - _HOUR) > _WHOLE * _HOUR:
        raise ImpossibleInput(f"an hour is cut into whole steps, which {step_s} s are not")
    steps = max(ceil(hours * per_hour - _WHOLE), 1)
    tables = laid_out(system, steps, step_s)
    out = np.zeros((steps + 1, shown_columns(system)))
    with np.errstate(
        all="ignore"
    ):  # the plain fallback warns of what is asked about, and refused, just below
        run_steps(tables, out, per_hour)
    if not np.all(np.isfinite(out[:, : len(system.bodies) * at.SHOWN_OF_BODY])):
        raise ImpossibleInput(
            "something in these waters goes faster than any step: a body is too small for it"
        )
    return _course(system, tables, out.T, np.arange(steps + 1) / per_hour)


def _course(system: System, tables: Tables, out: Array, hours: Array) -> Course:
    """The output taken apart."""
    count = len(system.bodies)
    shown = out[: count * at.SHOWN_OF_BODY].reshape(count, at.SHOWN_OF_BODY, len(hours))
    volume, temp, sal, oxygen, tan, organic, spilled = (shown[:, row] for row in range(at.SHOWN_OF_BODY))
    ph = np.array([[one.ph] for one in system.bodies])
    first = count * at.SHOWN_OF_BODY + 1
    tops = first + len(system.top_offs)
    pump_flow = out[tops:]
    pump_flow[:, 0] = pump_flow[:, 1]
    return Course(
        hours=hours,
        volume=volume,
        temp_c=temp,
        sal_psu=sal,
        oxygen=oxygen,
        tan=tan,
        nh3=_laws.ammonia(tan, temp, sal, ph),
        organic=organic,
        flood=out[first - 1],
        spilled=spilled,
        stock=out[first:tops],
        pump_flow=pump_flow,
        ledgers=_ledgers(tables),
    )


def _ledgers(tables: Tables) -> Ledgers:
    """Sums of the run."""
    stored = tables.run[at.STORED]
    masses, given = tables.masses.T, tables.given.T

    def moved(kind: int, end: int) -> Array:
        chosen = (tables.moves[:, at.KIND] == kind) & (tables.moves[:, at.TO] == end)
        bodies = tables.moves[chosen, at.FROM].astype(int)
        sums: Array = np.zeros(len(tables.bodies))
        np.add.at(sums, bodies, tables.moves[chosen, at.MOVED])
        return sums

    return Ledgers(
        evaporated=moved(at.EVAPORATION, at.INTO_AIR),
        leaked=moved(at.LEAK, at.ONTO_FLOOR),
        spilled=moved(at.SPILL, at.ONTO_FLOOR),
        pumped_out=moved(at.PUMP, at.ONTO_FLOOR),
        topped_up=-moved(at.TOP_OFF, at.FROM_STOCK),
        came_in=given[at.GIVEN_WATER],
        salt_in=given[at.GIVEN_SALT],
        salt_lost=masses[at.SALT_LOST],
        heat_in=stored * given[at.GIVEN_HEAT],
        heat_lost=stored * masses[at.HEAT_LOST],
        heat_air=stored * masses[at.HEAT_AIR],
        heat_heaters=stored * masses[at.HEAT_HEATERS],
        excreted=given[at.EXCRETED],
        nitrified=masses[at.NITRIFIED],
        tan_lost=masses[at.TAN_LOST],
        oxygen_in=given[at.GIVEN_OXYGEN],
        oxygen_air=masses[at.OXYGEN_AIR],
        oxygen_animals=masses[at.OXYGEN_ANIMALS],
        oxygen_bacteria=masses[at.OXYGEN_BACTERIA],
        oxygen_lost=masses[at.OXYGEN_LOST],
    )


def carried(system: System, course: Course) -> System:
    """The same parts with the waters and stocks that a run left, to change and run on.

        state at the end = state at the beginning

    Source: definition.
    Valid:  courses and surroundings begin anew with their first hour: cut them where they should go on.
    """
    bodies = tuple(
        replace(
            body,
            volume=min(float(course.volume[row, -1]), body.brim),
            temp_c=float(course.temp_c[row, -1]),
            sal_psu=max(float(course.sal_psu[row, -1]), 0.0),
            oxygen=float(course.oxygen[row, -1]),
            tan=max(float(course.tan[row, -1]), 0.0),
            organic=replace(body.organic, nitrogen=float(course.organic[row, -1])),
        )
        for row, body in enumerate(system.bodies)
    )
    tops = tuple(replace(top, stock=float(course.stock[row, -1])) for row, top in enumerate(system.top_offs))
    return replace(system, bodies=bodies, top_offs=tops)


def hours_until(course: Course, body: Count, quantity: Quantity, level: Ratio, rising: bool) -> Hour | None:
    """Hours until a quantity of a body has risen or fallen to a level; None where it does not in the run.

        straight between the steps; 0 where it is there already

    `level` is in the unit of the quantity.
    Source: definition.
    Valid:  the first time only.
    """
    series: Array = getattr(course, quantity)[body]
    reached = series >= level if rising else series <= level
    if not np.any(reached):
        return None
    first = int(np.argmax(reached))
    if first == 0:
        return 0.0
    before, after = float(series[first - 1]), float(series[first])
    share = (level - before) / (after - before)
    return float(course.hours[first - 1] + share * (course.hours[first] - course.hours[first - 1]))
