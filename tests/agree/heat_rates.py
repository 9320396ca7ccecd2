"""The same physics as the year's engine, written once more as rates of change, for a general solver to go through.

No step, no tangent, no elimination: every flow at the temperatures of the moment. The mean of the surfaces is found
so that rays neither come nor go; vents follow the air at once; wetness is where the air is moister than the face.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from scipy.integrate import solve_ivp

from tidestead.core.compiled import compiled
from tidestead.core.dims import Array
from tidestead.physics import _air_laws
from tidestead.physics.heat import _laws
from tidestead.physics.heat import _tables as at
from tidestead.physics.heat._core import DRY_HEAT, VAPOUR_HEAT, vent_flow, wanted_opening
from tidestead.physics.heat._hour import fill_hour
from tidestead.physics.heat._layout import timed
from tidestead.physics.heat._step import near_film, water_films
from tidestead.physics.heat._year import LEWIS
from tidestead.physics.heat.engine import Prepared

saturation = compiled(_air_laws.saturation_pressure)
ratio_of = compiled(_air_laws.humidity_ratio)
vapour_of = compiled(_air_laws.vapour_of_ratio)
dry_density = compiled(_air_laws.dry_air_density)
shah = compiled(_laws.evaporation_shah)

KELVIN, STEFAN = 273.15, 5.670374419e-8
WATER_HEAT = 4000.0


@compiled
def mean_of_surfaces(y: Array, tables: at.Tables, rays: Array) -> float:
    """Temperature at which rays between all surfaces and the mean balance, degC; `rays` are conductances of waters."""
    chains, bodies, room = tables.chains, tables.bodies, tables.room
    nodes = tables.nodes.shape[0]
    weight, sent = 0.0, room[at.ROOM_RADIANT] / STEFAN
    for c in range(chains.shape[0]):
        if chains[c, at.NEAR] == at.AT_ROOM:
            share = chains[c, at.AREA] * chains[c, at.STAR]
            weight += share
            sent += share * (y[int(chains[c, at.LAST])] + KELVIN) ** 4
    for b in range(bodies.shape[0]):
        weight += rays[b]
        sent += rays[b] * (y[nodes + 2 + b] + KELVIN) ** 4
    return (sent / weight) ** 0.25 - KELVIN if weight > 0.0 else room[at.SKY_C]


@compiled
def chain_rates(  # noqa: C901 - one branch for each far side; compiled as one
    y: Array, dy: Array, tables: at.Tables, radiant: float, air: float, ratio: float
) -> tuple[float, float]:
    """Walls, windows and sides; returns heat from their near faces into the air, W, and vapour out of it, kg/s."""
    chains, nodes, room = tables.chains, tables.nodes, tables.room
    count = nodes.shape[0]
    heat, settled = 0.0, 0.0
    for c in range(chains.shape[0]):
        first, last = int(chains[c, at.FIRST]), int(chains[c, at.LAST])
        area, far = chains[c, at.AREA], chains[c, at.FAR]
        for n in range(first, last + 1):
            dy[n] += nodes[n, at.SUN]
            if n < last:
                flow = nodes[n, at.LEADS] * (y[n + 1] - y[n])
                dy[n] += flow
                dy[n + 1] -= flow
        face = y[first]
        if far == at.WEATHER:
            view = chains[c, at.SKY_VIEW]
            around = view * (room[at.SKY_C] + KELVIN) ** 4 + (1.0 - view) * (room[at.OUT_C] + KELVIN) ** 4
            dy[first] += area * room[at.WIND_FILM] * (room[at.OUT_C] - face)
            dy[first] += area * chains[c, at.EMITS] * STEFAN * (around - (face + KELVIN) ** 4)
        elif far == at.AIR:
            dy[first] += chains[c, at.FAR_FILM] * (room[at.OUT_C] - face)
        elif far == at.GROUND:
            dy[first] += chains[c, at.FAR_FILM] * (room[at.GROUND_C] - face)
        elif far == at.KEPT:
            dy[first] += chains[c, at.FAR_FILM] * (chains[c, at.KEPT_C] - face)
        elif far == at.WATER:
            body = count + 2 + int(chains[c, at.FAR_AT])
            flow = chains[c, at.FAR_FILM] * (y[body] - face)
            dy[first] += flow
            dy[body] -= flow
        near = y[last]
        if chains[c, at.NEAR] == at.AT_WATER:
            body = count + 2 + int(chains[c, at.NEAR_AT])
            flow = chains[c, at.NEAR_FILM] * (y[body] - near)
            dy[last] += flow
            dy[body] -= flow
            continue
        film = near_film(chains[c, at.TURNED], near - air)
        dy[last] += area * film * (air - near)
        heat += area * film * (near - air)
        dy[last] += area * chains[c, at.STAR] * STEFAN * ((radiant + KELVIN) ** 4 - (near + KELVIN) ** 4)
        if chains[c, at.WETS] > 0.0:
            over = ratio - ratio_of(saturation(near), room[at.PRESSURE])
            if over > 0.0:
                vapour = area * film / (DRY_HEAT * LEWIS) * over
                settled += vapour
                dy[last] += vapour * room[at.LATENT]
    return heat, settled


@compiled
def rates(  # noqa: C901 - all that happens in an hour, in one place on purpose
    t: float, y: Array, tables: at.Tables, place: at.Place, weather: Array, hour: int
) -> Array:
    """Rates of change of every node, the air, its humidity, and the bodies, within one hour of weather."""
    nodes, bodies, room = tables.nodes, tables.bodies, tables.room
    count = nodes.shape[0]
    dy = np.zeros(y.shape[0])
    air, ratio = y[count], y[count + 1]
    if room[at.THERE] == 0.0:
        air, ratio = room[at.OUT_C], room[at.OUT_RATIO]
    rays = np.zeros(bodies.shape[0])
    radiant = room[at.SKY_C]
    for _ in range(4):
        for b in range(bodies.shape[0]):
            temp = y[count + 2 + b]
            film, ray = water_films(bodies, b, temp, air, radiant, bodies[b, at.STILL])
            one, other = temp + KELVIN, radiant + KELVIN
            rays[b] = ray / (STEFAN * (one * one + other * other) * (one + other))
        if room[at.THERE] > 0.0:
            radiant = mean_of_surfaces(y, tables, rays)
    heat, settled = chain_rates(y, dy, tables, radiant, air, ratio)
    vapour = -settled
    for b in range(bodies.shape[0]):
        temp = y[count + 2 + b]
        speed = bodies[b, at.STILL]
        if room[at.THERE] == 0.0:
            speed = max(speed, room[at.LOCAL_WIND])
        if temp > bodies[b, at.FAN_ABOVE]:
            speed = max(speed, bodies[b, at.FAN_SPEED])
        film, ray = water_films(bodies, b, temp, air, radiant, speed)
        over = bodies[b, at.ACTIVITY] * saturation(temp)
        lost = bodies[b, at.EVAPORATES] * shah(
            temp, air, over, vapour_of(ratio, room[at.PRESSURE]), room[at.PRESSURE], speed
        )
        lost *= bodies[b, at.SURFACE] * (1.0 - bodies[b, at.COVERED])
        vapour += lost
        heat += film * (temp - air)
        gains = bodies[b, at.GAINS] + bodies[b, at.LAMPS] + bodies[b, at.B_SUN] + bodies[b, at.WARMED]
        topped = bodies[b, at.TOPS_UP] * max(lost, 0.0) * WATER_HEAT * (air - temp)
        row = count + 2 + b
        dy[row] += gains - film * (temp - air) - ray * (temp - radiant) - lost * room[at.LATENT] + topped
        for other in range(bodies.shape[0]):
            dy[row] += bodies[b, at.LINKS + other] * (y[count + 2 + other] - temp)
        dy[row] /= bodies[b, at.B_STORES]
    for n in range(count):
        dy[n] /= nodes[n, at.STORES]
    if room[at.THERE] > 0.0:
        density = dry_density(air, vapour_of(ratio, room[at.PRESSURE]), room[at.PRESSURE])
        moist = DRY_HEAT + VAPOUR_HEAT * ratio
        opening = wanted_opening(room, air) if room[at.VENT_RATE] + room[at.VENT_AREA] > 0.0 else 0.0
        flow = vent_flow(room, opening, air)
        heat += room[at.ROOM_GAINS] + flow * density * moist * (room[at.OUT_C] - air)
        dy[count] = heat / (room[at.VOLUME] * density * moist * room[at.STORES_AS])
        dy[count + 1] = (vapour + flow * density * (room[at.OUT_RATIO] - ratio)) / (room[at.VOLUME] * density)
    return dy


@dataclass(frozen=True)
class Stretch:
    """Hours to go through: how many, from which on, with heaters that give so many watts all the time."""

    hours: int
    first: int
    heaters: Array


def through(prepared: Prepared, rows: Array, y: Array, stretch: Stretch, method: str = "LSODA") -> Array:
    """Values at the end of every hour, (hours, states), by scipy."""
    tables = timed(prepared.tables, 1)
    found = np.empty((stretch.hours, len(y)))
    for number in range(stretch.hours):
        hour = (stretch.first + number) % 8760
        fill_hour(tables, prepared.place, rows, hour)
        tables.bodies[:, at.WARMED] = stretch.heaters
        solved = solve_ivp(
            rates, (0.0, 3600.0), y, method=method, rtol=1e-8, atol=1e-7, args=(tables, prepared.place, rows, hour),
            t_eval=[3600.0],
        )  # fmt: skip
        y = solved.y[:, -1]
        found[number] = y
    return found
