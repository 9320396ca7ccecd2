"""The same physics as the year's engine, written once more as rates of change, for a general solver to go through.

No step, no tangent, no elimination: every flow at the temperatures of the moment. The mean of the surfaces is found
vents follow the air at once; wetness is where the air is moister than the face, fog where it holds too much of it.
Films, evaporation and the hour's sun are the engine's own laws: print holds those, this how they are put together.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, TypeAlias

import numpy as np
from scipy.integrate import solve_ivp

from tidestead.core.compiled import compiled
from tidestead.core.dims import Array
from tidestead.physics import _air_laws
from tidestead.physics.heat import _laws
from tidestead.physics.heat import _tables as at
from tidestead.physics.heat._core import DRY_HEAT, FOG_FALLS, VAPOUR_HEAT, vent_flow, wanted_opening
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

Method: TypeAlias = Literal["LSODA", "RK45"]

KELVIN, STEFAN = 273.15, 5.670374419e-8
WATER_HEAT = 4000.0
AWAY = 1.0
"""Kelvin below its temperature at which the shade is drawn away again."""


@compiled
def mean_of_surfaces(y: Array, tables: at.Tables, rays: Array) -> float:
    """Temperature at which rays between all surfaces and the mean balance, degC; `rays` are conductances of waters."""
    chains, bodies, room = tables.chains, tables.bodies, tables.room
    nodes = tables.nodes.shape[0]
    weight = 0.0
    sent: float = room[at.ROOM_RADIANT] * room[at.CURRENT] / STEFAN
    sky: float = room[at.SKY_C]
    for c in range(chains.shape[0]):
        if chains[c, at.NEAR] == at.AT_ROOM:
            share = chains[c, at.AREA] * chains[c, at.STAR]
            weight += share
            sent += share * (y[int(chains[c, at.LAST])] + KELVIN) ** 4
    for b in range(bodies.shape[0]):
        weight += rays[b]
        sent += rays[b] * (y[nodes + 2 + b] + KELVIN) ** 4
    mean: float = (sent / weight) ** 0.25 - KELVIN if weight > 0.0 else sky
    return mean


@compiled
def far_rates(y: Array, dy: Array, tables: at.Tables) -> None:
    """Sun and conduction within walls, windows and sides, and what passes their far faces."""
    chains, nodes, room = tables.chains, tables.nodes, tables.room
    count = nodes.shape[0]
    for c in range(chains.shape[0]):
        first, last = int(chains[c, at.FIRST]), int(chains[c, at.LAST])
        for n in range(first, last + 1):
            dy[n] += nodes[n, at.SUN]
            if n < last:
                flow = nodes[n, at.LEADS] * (y[n + 1] - y[n])
                dy[n] += flow
                dy[n + 1] -= flow
        area, far, face = chains[c, at.AREA], chains[c, at.FAR], y[first]
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


@compiled
def near_rates(
    y: Array, dy: Array, tables: at.Tables, radiant: float, air: float, ratio: float
) -> tuple[float, float]:
    """The near faces; returns heat from them into the air, W, and vapour out of it, kg/s."""
    chains, room, count = tables.chains, tables.room, tables.nodes.shape[0]
    heat, settled = 0.0, 0.0
    for c in range(chains.shape[0]):
        area, last = chains[c, at.AREA], int(chains[c, at.LAST])
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
def air_speed(bodies: Array, b: int, temp: float, room: Array) -> float:
    """Over a body of water, m/s."""
    speed: float = bodies[b, at.STILL]
    if room[at.THERE] == 0.0:
        speed = max(speed, room[at.LOCAL_WIND])
    if temp > bodies[b, at.FAN_ABOVE] and room[at.CURRENT] > 0.0:
        speed = max(speed, bodies[b, at.FAN_SPEED])
    return speed


@compiled
def water_rates(
    y: Array, dy: Array, tables: at.Tables, radiant: float, air: float, ratio: float
) -> tuple[float, float]:
    """The bodies of water; returns heat from them into the air, W, and vapour into it, kg/s."""
    bodies, room, count = tables.bodies, tables.room, tables.nodes.shape[0]
    heat, vapour = 0.0, 0.0
    for b in range(bodies.shape[0]):
        row = count + 2 + b
        temp = y[row]
        speed = air_speed(bodies, b, temp, room)
        film, ray = water_films(bodies, b, temp, air, radiant, speed)
        over = bodies[b, at.ACTIVITY] * saturation(temp)
        lost = bodies[b, at.EVAPORATES] * shah(
            temp, air, over, vapour_of(ratio, room[at.PRESSURE]), room[at.PRESSURE], speed
        )
        lost *= bodies[b, at.SURFACE] * (1.0 - bodies[b, at.COVERED])
        vapour += lost
        heat += film * (temp - air)
        gains = (bodies[b, at.GAINS] + bodies[b, at.LAMPS]) * room[at.CURRENT]
        gains += bodies[b, at.B_SUN] + bodies[b, at.WARMED]
        topped = bodies[b, at.TOPS_UP] * max(lost, 0.0) * WATER_HEAT * (air - temp)
        dy[row] += gains - film * (temp - air) - ray * (temp - radiant) - lost * room[at.LATENT] + topped
        for other in range(bodies.shape[0]):
            carried = bodies[b, at.LINKS + other] * room[at.CURRENT]
            dy[row] += carried * (y[count + 2 + other] - temp)
    return heat, vapour


@compiled
def balanced_mean(y: Array, tables: at.Tables, air: float) -> float:
    """The mean of the surfaces, found in rounds: the conductance of rays at waters hangs on it a little."""
    bodies, room = tables.bodies, tables.room
    radiant: float = room[at.SKY_C]
    if room[at.THERE] == 0.0:
        return radiant
    rays = np.zeros(bodies.shape[0])
    for _ in range(4):
        for b in range(bodies.shape[0]):
            temp = y[tables.nodes.shape[0] + 2 + b]
            _, ray = water_films(bodies, b, temp, air, radiant, air_speed(bodies, b, temp, room))
            one, other = temp + KELVIN, radiant + KELVIN
            rays[b] = ray / (STEFAN * (one * one + other * other) * (one + other))
        radiant = mean_of_surfaces(y, tables, rays)
    return radiant


@compiled
def rates(t: float, y: Array, tables: at.Tables, place: at.Place, weather: Array, hour: int) -> Array:
    """Rates of change of every node, the air, its humidity, and the bodies, within one hour of weather."""
    nodes, bodies, room = tables.nodes, tables.bodies, tables.room
    count: int = nodes.shape[0]
    dy = np.zeros(y.shape[0])
    air: float = y[count]
    ratio: float = y[count + 1]
    if room[at.THERE] == 0.0:
        air, ratio = room[at.OUT_C], room[at.OUT_RATIO]
    radiant = balanced_mean(y, tables, air)
    far_rates(y, dy, tables)
    heat, settled = near_rates(y, dy, tables, radiant, air, ratio)
    more, vapour = water_rates(y, dy, tables, radiant, air, ratio)
    over = ratio - ratio_of(saturation(air), room[at.PRESSURE])
    for n in range(count):
        dy[n] /= nodes[n, at.STORES]
    for b in range(bodies.shape[0]):
        dy[count + 2 + b] /= bodies[b, at.B_STORES]
    if room[at.THERE] > 0.0:
        density = dry_density(air, vapour_of(ratio, room[at.PRESSURE]), room[at.PRESSURE])
        moist = DRY_HEAT + VAPOUR_HEAT * ratio
        opening = wanted_opening(room, air) if room[at.VENT_RATE] + room[at.VENT_AREA] > 0.0 else 0.0
        flow = vent_flow(room, opening, air)
        heat += more + room[at.ROOM_GAINS] * room[at.CURRENT] + room[at.ROOM_LAMPS]
        heat += flow * density * moist * (room[at.OUT_C] - air)
        dry = room[at.VOLUME] * density
        if over > 0.0:
            settled += over * dry / FOG_FALLS
            heat += over * dry / FOG_FALLS * room[at.LATENT]
        dy[count] = heat / (dry * moist * room[at.STORES_AS])
        dy[count + 1] = (vapour - settled + flow * density * (room[at.OUT_RATIO] - ratio)) / dry
    return dy


@dataclass(frozen=True)
class Stretch:
    """Hours to go through: how many, from which on, with heaters that give so many watts all the time."""

    hours: int
    first: int
    heaters: Array


@dataclass(frozen=True)
class Found:
    """Values of all states at the end of every quarter of every hour, (hours, 4, states)."""

    values: Array
    nodes: int

    @property
    def air(self) -> Array:
        """Of the room, as the mean of the quarters' ends."""
        mean: Array = self.values[:, :, self.nodes].mean(axis=1)
        return mean

    def water(self, body: int = 0) -> Array:
        """Of a body at the end of every hour."""
        return self.values[:, -1, self.nodes + 2 + body]


def begun(prepared: Prepared, state: at.Tables) -> Array:
    """The state that the engine begins from, as the solver takes it."""
    old = state.core[:, len(state.core) + 1]
    return np.concatenate([state.nodes[:, at.TEMP], [old[at.A], old[at.W]], old[at.B :]])


def through(
    prepared: Prepared, rows: Array, y: Array, stretch: Stretch, method: Method = "LSODA", rtol: float = 1e-7
) -> Found:
    """The stretch by scipy, hour after hour."""
    tables = timed(prepared.tables, 1)
    nodes = len(tables.nodes)
    found = np.empty((stretch.hours, 4, len(y)))
    for number in range(stretch.hours):
        ready(tables, prepared.place, rows, y, stretch, number)
        solved = solve_ivp(
            rates, (0.0, 3600.0), y, method=method, rtol=rtol, atol=rtol,
            args=(tables, prepared.place, rows, (stretch.first + number) % rows.shape[1]),
            t_eval=[900.0, 1800.0, 2700.0, 3600.0],
        )  # fmt: skip
        y = solved.y[:, -1]
        found[number] = solved.y.T
    return Found(found, nodes)


def ready(tables: at.Tables, place: at.Place, rows: Array, y: Array, stretch: Stretch, number: int) -> None:
    """An hour's weather, the shade drawn or not by the temperature at its beginning, the heaters."""
    room, nodes = tables.room, len(tables.nodes)
    temp = y[nodes + 2] if room[at.SHADE_BY_WATER] > 0.0 and len(tables.bodies) else y[nodes]
    if temp > room[at.SHADE_ABOVE]:
        room[at.SHADED] = 1.0
    elif temp < room[at.SHADE_ABOVE] - AWAY:
        room[at.SHADED] = 0.0
    fill_hour(tables, place, rows, (stretch.first + number) % rows.shape[1])
    tables.bodies[:, at.WARMED] = stretch.heaters * room[at.CURRENT]


def by_small_steps(prepared: Prepared, rows: Array, y: Array, stretch: Stretch, step: float = 30.0) -> Found:
    """The stretch by Runge and Kutta's fourth order in steps of so many seconds."""
    tables = timed(prepared.tables, 1)
    found = np.empty((stretch.hours, 4, len(y)))
    for number in range(stretch.hours):
        ready(tables, prepared.place, rows, y, stretch, number)
        hour = (stretch.first + number) % rows.shape[1]
        for quarter in range(4):
            y = runge_kutta(y, tables, prepared.place, rows, hour, step)
            found[number, quarter] = y
    return Found(found, len(tables.nodes))


@compiled
def runge_kutta(y: Array, tables: at.Tables, place: at.Place, rows: Array, hour: int, step: float) -> Array:
    """A quarter of an hour."""
    for _ in range(int(900.0 / step + 0.5)):
        one = rates(0.0, y, tables, place, rows, hour)
        two = rates(0.0, y + 0.5 * step * one, tables, place, rows, hour)
        three = rates(0.0, y + 0.5 * step * two, tables, place, rows, hour)
        four = rates(0.0, y + step * three, tables, place, rows, hour)
        y = y + step / 6.0 * (one + 2.0 * two + 2.0 * three + four)
    return y
