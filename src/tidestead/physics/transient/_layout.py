"""A system laid out as the tables of a run."""

from __future__ import annotations

from math import ceil, inf, log

import numpy as np

from tidestead.core.dims import Array
from tidestead.physics.transient import _tables as at
from tidestead.physics.transient._tables import Tables
from tidestead.physics.transient.system import Body, Forcing, Heater, Inflow, System, TopOff

_HOUR, _DAY, _HOURS_A_DAY = 3600.0, 86400.0, 24
_HEEL = 1e-3
"""Of the brim's volume, that never leaves a body."""
_MODES = {"auto": at.AUTO, "off": at.OFF, "on": at.ON}
_CONSTANT = 0
"""The first course: all hours whole."""


def laid_out(system: System, steps: int, step_s: float) -> Tables:
    """The tables at the start of a run of so many steps."""
    hours = max(ceil(steps * step_s / _HOUR), 1)
    courses = [np.ones(hours)]
    count = len(system.bodies)
    bodies = np.array([_body_row(one, courses) for one in system.bodies])
    moves = _moves(system, courses)
    for body in range(count):
        rows = np.flatnonzero(moves[:, at.FROM] == body)
        bodies[body, at.FIRST], bodies[body, at.LAST] = rows[0], rows[-1] + 1

    room = (count, at.INTEGRATED)
    masses = np.zeros(room)
    masses[:, : at.MASSES] = [_masses(one) for one in system.bodies]
    return Tables(
        run=np.array([step_s, system.heat_stored, system.air_share, _warm_from(system.forcing), 0.0]),
        bodies=bodies,
        moves=moves,
        inflows=_table([_inflow_row(one, courses) for one in system.inflows], 6),
        heaters=_table([_heater_row(one, courses) for one in system.heaters], 7),
        flows=np.zeros((count, count)),
        solve=np.zeros((count, count + 2)),
        masses=masses,
        trial=np.zeros(room),
        slope=np.zeros(room),
        total=np.zeros(room),
        given=np.zeros((count, 5)),
        courses=np.array([_held_on(one, hours) for one in courses]),
        surroundings=_surroundings(system.forcing, count, hours),
    )


def _held_on(course: Array, hours: int) -> Array:
    """A course for as many hours, its last one held."""
    return np.asarray(course, dtype=np.float64)[np.minimum(np.arange(hours), len(course) - 1)]


def _surroundings(forcing: Forcing | None, count: int, hours: int) -> Array:
    """Layers of surroundings by body and hour, the last day repeated."""
    if forcing is None:
        return np.zeros((4, count, hours))
    layers = np.array([forcing.gain, forcing.loss, forcing.even, forcing.warm], dtype=np.float64)
    there = layers.shape[2]
    day = min(_HOURS_A_DAY, there)
    hour = np.arange(hours)
    return np.ascontiguousarray(
        layers[:, :, np.where(hour < there, hour, there - day + (hour - there) % day)]
    )


def _warm_from(forcing: Forcing | None) -> float:
    return forcing.reference_c if forcing is not None else 0.0


def _course(course: Array | None, courses: list[Array]) -> int:
    """The row of a course, put into the list where it is none that is there."""
    if course is None:
        return _CONSTANT
    courses.append(course)
    return len(courses) - 1


def _table(rows: list[list[float]], columns: int) -> Array:
    return np.array(rows, dtype=np.float64).reshape(len(rows), columns)


def _masses(body: Body) -> list[float]:
    each = [body.sal_psu, body.temp_c, body.oxygen, body.tan]
    return [body.volume * one for one in each] + [body.organic.nitrogen]


def _body_row(body: Body, courses: list[Array]) -> Array:
    row = np.zeros(42)
    air, life, bacteria = body.air, body.life, body.nitrifiers
    row[at.AREA], row[at.VOLUME], row[at.BEFORE], row[at.BEFORE_C] = (
        body.area,
        body.volume,
        body.volume,
        body.temp_c,
    )
    row[at.SURFACE], row[at.EXCHANGE], row[at.BUBBLES] = air.surface, air.exchange, air.bubbles / _HOUR
    row[at.SURFACE_COURSE] = _course(air.surface_course, courses)
    row[at.BUBBLE_COURSE] = _course(air.bubble_course, courses)
    row[at.UPTAKE], row[at.REFERENCE], row[at.LOG_Q10] = (
        life.uptake / _HOUR,
        life.reference_c,
        log(life.q10) / 10.0,
    )
    row[at.HALF], row[at.FIXED], row[at.EXCRETION] = life.half, life.fixed / _HOUR, life.excretion / _HOUR
    row[at.FIXED_COURSE] = _course(life.fixed_course, courses)
    row[at.EXCRETION_COURSE] = _course(life.excretion_course, courses)
    row[at.CLEARANCE], row[at.CEILING] = bacteria.clearance / _HOUR, bacteria.ceiling / _HOUR
    row[at.BACTERIA_HALF] = bacteria.half
    row[at.BACTERIA_COURSE] = _course(bacteria.course, courses)
    row[at.DECAY], row[at.DECAY_OXYGEN] = body.organic.decay / _DAY, body.organic.oxygen
    return row


def _inflow_row(one: Inflow, courses: list[Array]) -> list[float]:
    return [one.body, one.flow, one.temp_c, one.sal_psu, one.oxygen, _course(one.course, courses)]


def _heater_row(one: Heater, courses: list[Array]) -> list[float]:
    power = -one.power if one.cools else one.power
    power = 0.0 if one.mode == "off" else power
    return [one.body, power, one.setpoint_c, one.band, _MODES[one.mode], _course(one.course, courses), 0.0]


def _moves(system: System, courses: list[Array]) -> Array:
    """All moves, those of a body together, its lower levels first."""
    heels = [_HEEL * one.brim for one in system.bodies]
    shown = len(system.bodies) * at.SHOWN_OF_BODY + 1
    rows = []
    for body, one in enumerate(system.bodies):
        rows.append(_move(at.EVAPORATION, body, at.INTO_AIR, heels[body]))
        rows.append(_move(at.SPILL, body, at.ONTO_FLOOR, one.brim, inf))
    for number, top in enumerate(system.top_offs):
        rows.append(_top_off_move(top, shown + number))
    shown += len(system.top_offs)
    for number, pump in enumerate(system.pumps):
        row = _move(at.PUMP, pump.source, pump.target, max(pump.intake, heels[pump.source]), pump.flow)
        row[at.COURSE], row[at.SHOWN] = _course(pump.course, courses), shown + number
        rows.append(row)
    for fall in system.overflows:
        row = _move(at.OVERFLOW, fall.source, fall.target, max(fall.crest, heels[fall.source]), fall.capacity)
        row[at.COURSE] = _course(fall.course, courses)
        rows.append(row)
    for leak in system.leaks:
        row = _move(at.LEAK, leak.body, at.ONTO_FLOOR, max(leak.low, heels[leak.body]), leak.flow)
        row[at.HOLE] = leak.hole
        rows.append(row)
    return np.array(sorted(rows, key=lambda row: (row[at.FROM], row[at.LEVEL])))


def _move(kind: int, source: int, target: int, level: float, most: float = 0.0) -> Array:
    row = np.zeros(16)
    row[[at.KIND, at.FROM, at.TO, at.LEVEL, at.MOST]] = kind, source, target, level, most
    return row


def _top_off_move(top: TopOff, shown: int) -> Array:
    level = inf if top.mode == "open" else top.holds
    row = _move(at.TOP_OFF, top.body, at.FROM_STOCK, level, 0.0 if top.mode == "shut" else top.flow)
    row[[at.STOCK, at.M_TEMP, at.M_SAL, at.M_OXYGEN]] = top.stock, top.temp_c, top.sal_psu, top.oxygen
    row[at.SHOWN] = shown
    return row


def shown_columns(system: System) -> int:
    """Columns of output."""
    return len(system.bodies) * at.SHOWN_OF_BODY + 1 + len(system.top_offs) + len(system.pumps)
