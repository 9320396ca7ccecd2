"""The core of a step: air, mean of the surfaces, humidity, and the bodies of water. Compiled."""

from __future__ import annotations

import math

from tidestead.core.compiled import joined, kernel
from tidestead.core.dims import Array
from tidestead.physics import _air_laws
from tidestead.physics.heat._step import vapour_of
from tidestead.physics.heat._tables import (
    AT_WATER,
    B_STORES,
    B_SUN,
    BODY_OF,
    CHANGES,
    COOL_MOST,
    COOL_TO,
    COOLED,
    COOLS,
    CURRENT,
    DIAGONAL,
    FAR,
    FAR_AT,
    FILM,
    FIRST,
    FOG,
    FOG_DEW,
    FOG_STEEP,
    FOGGY,
    GAINS,
    HALF,
    HEAT_MOST,
    HEAT_TO,
    HEATERS_HERE,
    INFILTRATION,
    INVERSE,
    KEEPS_AIR,
    KEEPS_HEAT,
    L_AIR,
    L_GIVEN,
    L_RATIO,
    L_RAYS,
    L_TEMP,
    L_TOP,
    LAMPS,
    LAST,
    LATENT,
    LINKS,
    MOVES_AIR,
    MOVES_HEAT,
    NEAR,
    NEAR_AT,
    NEAR_DIAGONAL,
    NEAR_SOURCE,
    NEW,
    ON,
    ONWARD,
    OPENING,
    OUT_C,
    OUT_RATIO,
    PACE,
    POWER,
    PRESSURE,
    RAYS,
    RHS,
    ROOM_GAINS,
    ROOM_HEAT,
    ROOM_LAMPS,
    ROOM_RADIANT,
    SETPOINT,
    SKY_C,
    SOURCE,
    STORES_AS,
    THERE,
    THERMOSTAT,
    TIED,
    VENT_AREA,
    VENT_HEIGHT,
    VENT_OPENS,
    VENT_OVER,
    VENT_POWERED,
    VENT_RATE,
    VOLUME,
    WARMED,
    WATER,
    WET,
    A,
    B,
    R,
    W,
)

dry_density = joined(_air_laws.dry_air_density)

_KELVIN = 273.15
DRY_HEAT, VAPOUR_HEAT = 1006.0, 1860.0
"""J/(kg K) of dry air and of vapour. Source: ASHRAE Handbook, Fundamentals (2017), chapter 1."""
_DISCHARGE, _FALL = 0.6, 9.80665
"""Coefficient of a sharp opening, common practice; acceleration of free fall."""
_TRIES = 20
"""Steps of the search for the vents' opening: false position, the end that stays counted half."""
FOG_FALLS = 60.0
"""Seconds in which air that holds too much lets most of it fall. Own choice."""
_CLOSE = 1e-4
"""Share of the vents' opening that does not count."""
_TRIAL = 1000.0
"""Watts by which the room's answer to heat is found; it is a straight line, so any would do."""


@joined
def switch(heatings: Array, bodies: Array, core: Array, room: Array) -> None:
    """Thermostats, and the heat that heaters and chillers then give to each body and to the room."""
    old = core.shape[0] + 1
    bodies[:, WARMED] = 0.0
    bodies[:, COOLED] = 0.0
    room[HEATERS_HERE] = 0.0
    for row in range(heatings.shape[0]):
        one = heatings[row]
        body = int(one[BODY_OF])
        sense = -1.0 if one[COOLS] > 0.0 else 1.0
        short = sense * (one[SETPOINT] - core[B + body, old])
        if short > one[HALF]:
            one[ON] = 1.0
        elif short < -one[HALF]:
            one[ON] = 0.0
        running = one[ON] * room[CURRENT]
        if one[COOLS] > 0.0:
            bodies[body, COOLED] -= running * one[POWER]
        else:
            bodies[body, WARMED] += running * one[POWER]
        room[HEATERS_HERE] += running * one[ROOM_HEAT] * room[THERE]


@joined
def add_bodies(bodies: Array, core: Array, room: Array) -> None:
    """Surfaces, stores, sources and links of the bodies."""
    right, old = core.shape[0], core.shape[0] + 1
    for at in range(bodies.shape[0]):
        row = B + at
        store = bodies[at, B_STORES] * room[PACE]
        core[row, row] += (
            store + bodies[at, L_AIR] + bodies[at, L_RAYS] + bodies[at, L_TEMP] + bodies[at, L_TOP]
        )
        core[row, A] -= bodies[at, L_AIR]
        core[row, R] -= bodies[at, L_RAYS]
        core[row, W] -= bodies[at, L_RATIO]
        core[A, A] += bodies[at, L_AIR]
        core[A, row] -= bodies[at, L_AIR]
        core[R, R] += bodies[at, L_RAYS]
        core[R, row] -= bodies[at, L_RAYS]
        core[W, W] += bodies[at, L_RATIO]
        core[W, row] -= bodies[at, L_TEMP]
        core[W, right] += bodies[at, L_GIVEN]
        given = (
            (bodies[at, GAINS] + bodies[at, LAMPS]) * room[CURRENT]
            + bodies[at, B_SUN]
            + bodies[at, WARMED]
            + bodies[at, COOLED]
        )
        core[row, right] += (
            store * core[row, old] - bodies[at, L_GIVEN] + bodies[at, L_TOP] * core[A, old] + given
        )
        for other in range(bodies.shape[0]):
            carried = bodies[at, LINKS + other] * room[CURRENT]
            core[row, row] += carried
            core[row, B + other] -= carried


@joined
def add_air(core: Array, room: Array) -> None:
    """What the air stores and is given, without what comes from outdoors."""
    right, old = core.shape[0], core.shape[0] + 1
    air_c, ratio = core[A, old], core[W, old]
    density = dry_density(air_c, vapour_of(ratio, room[PRESSURE]), room[PRESSURE])
    heat = DRY_HEAT + VAPOUR_HEAT * ratio
    room[KEEPS_HEAT] = room[VOLUME] * density * heat * room[STORES_AS]
    room[KEEPS_AIR] = room[LATENT] * room[VOLUME] * density
    room[MOVES_HEAT], room[MOVES_AIR] = density * heat, room[LATENT] * density
    core[A, A] += room[KEEPS_HEAT] * room[PACE]
    core[A, right] += room[KEEPS_HEAT] * room[PACE] * air_c + room[ROOM_GAINS] * room[CURRENT]
    core[A, right] += room[HEATERS_HERE] + room[ROOM_LAMPS]
    core[W, W] += room[KEEPS_AIR] * room[PACE]
    core[W, right] += room[KEEPS_AIR] * room[PACE] * ratio
    room[FOG] = room[FOGGY] * room[KEEPS_AIR] / FOG_FALLS
    if room[FOG] > 0.0:
        core[W, W] += room[FOG]
        core[W, A] -= room[FOG] * room[FOG_STEEP]
        core[W, right] += room[FOG] * room[FOG_DEW]
        core[A, A] += room[FOG] * room[FOG_STEEP]
        core[A, W] -= room[FOG]
        core[A, right] -= room[FOG] * room[FOG_DEW]
    core[R, right] += room[ROOM_RADIANT] * room[CURRENT]


@joined
def vent_flow(room: Array, opening: float, inside: float) -> float:
    """Air that comes in through cracks and open vents, m3/s.

    Of an opening A half is low and half high, one behind the other: Cd*A/2*sqrt(g*H*dT/T).
    """
    driven = room[VENT_RATE] * opening
    if room[VENT_POWERED] > 0.0:
        driven *= room[CURRENT]
    flow = room[VOLUME] * (room[INFILTRATION] + room[CHANGES] + driven)
    if room[VENT_AREA] > 0.0 and opening > 0.0:
        draught = _FALL * room[VENT_HEIGHT] * abs(inside - room[OUT_C]) / (inside + _KELVIN)
        flow += _DISCHARGE * 0.5 * room[VENT_AREA] * opening * math.sqrt(draught)
    return flow


@kernel
def solve_with(core: Array, room: Array, opening: float, extra: float) -> float:
    """The core with vents so far open and so much heat to the air; returns the temperature of the air.

    Where there is no room, outdoor air and sky stand in its place.
    """
    size = core.shape[0]
    trial = size + 3
    for row in range(size):
        for column in range(size + 1):
            core[row, trial + column] = core[row, column]
    if room[THERE] > 0.0:
        flow = vent_flow(room, opening, core[A, size + 1])
        core[A, trial + A] += flow * room[MOVES_HEAT]
        core[A, trial + size] += flow * room[MOVES_HEAT] * room[OUT_C] + extra
        core[W, trial + W] += flow * room[MOVES_AIR]
        core[W, trial + size] += flow * room[MOVES_AIR] * room[OUT_RATIO]
        if core[R, trial + R] == 0.0:
            core[R, trial + R] = 1.0
    else:
        for row in range(3):
            core[row, trial:] = 0.0
            core[row, trial + row] = 1.0
        core[A, trial + size], core[R, trial + size] = room[OUT_C], room[SKY_C]
        core[W, trial + size] = room[OUT_RATIO]
    gauss(core)
    return core[A, size + 2]


@joined
def gauss(core: Array) -> None:
    """Elimination without exchange of rows: every diagonal outweighs its row."""
    size = core.shape[0]
    trial = size + 3
    for row in range(size):
        turn = 1.0 / core[row, trial + row]
        for below in range(row + 1, size):
            share = core[below, trial + row] * turn
            if share != 0.0:
                for column in range(row + 1, size + 1):
                    core[below, trial + column] -= share * core[row, trial + column]
    for row in range(size - 1, -1, -1):
        value = core[row, trial + size]
        for column in range(row + 1, size):
            value -= core[row, trial + column] * core[column, size + 2]
        core[row, size + 2] = value / core[row, trial + row]


@joined
def wanted_opening(room: Array, inside: float) -> float:
    """How far the vents open at a temperature of the air."""
    return min(max((inside - room[VENT_OPENS]) / room[VENT_OVER], 0.0), 1.0)


@joined
def short_of(core: Array, room: Array, opening: float) -> float:
    """How much further the vents want to open, when they are so far open."""
    return wanted_opening(room, solve_with(core, room, opening, 0.0)) - opening


@joined
def solve_vents(core: Array, room: Array) -> None:
    """Open the vents as far as agrees with the air at the step's end: the wish falls as the opening grows.

    By false position, the end that stays counted half (the Illinois rule).
    """
    vented = room[VENT_RATE] > 0.0 or room[VENT_AREA] > 0.0
    if not vented:
        room[OPENING] = 0.0
    opening = room[OPENING]
    here = short_of(core, room, opening)
    if not vented or abs(here) <= _CLOSE:
        return
    far = 1.0 if here > 0.0 else 0.0
    there = short_of(core, room, far)
    for _ in range(_TRIES):
        if abs(there) <= _CLOSE:
            opening, here = far, there
            break
        guess = (opening * there - far * here) / (there - here)
        value = short_of(core, room, guess)
        if (value > 0.0) == (there > 0.0):
            here *= 0.5
        else:
            opening, here = far, there
        far, there = guess, value
    room[OPENING] = far


@joined
def solve_thermostat(core: Array, room: Array) -> None:
    """Heat to the air (below nothing: taken) that keeps it within its thermostat, as far as its power goes."""
    free = core[A, core.shape[0] + 2]
    room[THERMOSTAT] = 0.0
    if room[CURRENT] == 0.0 or room[HEAT_TO] <= free <= room[COOL_TO]:
        return
    wanted = room[HEAT_TO] if free < room[HEAT_TO] else room[COOL_TO]
    rise = solve_with(core, room, room[OPENING], _TRIAL) - free
    heat = min(max((wanted - free) / rise * _TRIAL, -room[COOL_MOST]), room[HEAT_MOST])
    solve_with(core, room, room[OPENING], heat)
    room[THERMOSTAT] = heat


@joined
def face_of(chains: Array, at: int, nodes: Array, core: Array) -> float:
    """Temperature of the near face of a chain at the step's end."""
    new = core.shape[0] + 2
    if chains[at, NEAR] == AT_WATER:
        body = core[B + int(chains[at, NEAR_AT]), new]
        return (chains[at, SOURCE] + chains[at, FILM] * body) / (chains[at, DIAGONAL] + chains[at, FILM])
    value = chains[at, NEAR_SOURCE] + chains[at, FILM] * core[A, new] + chains[at, RAYS] * core[R, new]
    value += chains[at, WET] * core[W, new]
    if chains[at, FAR] == WATER:
        value += nodes[int(chains[at, LAST]), TIED] * core[B + int(chains[at, FAR_AT]), new]
    return value / chains[at, NEAR_DIAGONAL]


@joined
def back(chains: Array, at: int, nodes: Array, core: Array) -> None:
    """All nodes of a chain, from the near face to the far one."""
    first, last = int(chains[at, FIRST]), int(chains[at, LAST])
    nodes[last, NEW] = face_of(chains, at, nodes, core)
    body = 0.0
    if chains[at, FAR] == WATER:
        body = core[B + int(chains[at, FAR_AT]), core.shape[0] + 2]
    for node in range(last - 1, first - 1, -1):
        own = (nodes[node, RHS] + nodes[node, TIED] * body) * nodes[node, INVERSE]
        nodes[node, NEW] = own + nodes[node, ONWARD] * nodes[node + 1, NEW]
