"""Rates of change of what a body holds, and how fast the fastest of them goes. Compiled."""

from __future__ import annotations

import math

from tidestead.core.compiled import compiled, joined, kernel
from tidestead.core.dims import Array
from tidestead.physics.transient import _laws
from tidestead.physics.transient._tables import (
    AIR_SHARE,
    AUTO,
    BACTERIA_HALF,
    BRANCH,
    BRANCH_THEN,
    BUBBLES_NOW,
    CEILING_NOW,
    CHANGE,
    CLEARED_NOW,
    DECAY,
    DECAY_OXYGEN,
    EXCRETED_NOW,
    FIXED_NOW,
    GAIN,
    HALF,
    HEAT,
    HEAT_AIR,
    HEAT_HEATERS,
    HEAT_IN,
    HEAT_LOST,
    LOG_Q10,
    LOSS,
    MASSES,
    NITRIFIED,
    ORGANIC,
    OXYGEN,
    OXYGEN_AIR,
    OXYGEN_ANIMALS,
    OXYGEN_BACTERIA,
    OXYGEN_IN,
    OXYGEN_LOST,
    PARTS,
    REFERENCE,
    SALT,
    SALT_IN,
    SALT_LOST,
    STEP,
    STORED,
    SURFACE_NOW,
    TAN,
    TAN_LOST,
    TO_AIR,
    TO_FLOOR,
    UPTAKE,
    VOLUME,
    VOLUME_THEN,
    W_BAND,
    W_BODY,
    W_MODE,
    W_NOW,
    W_SETPOINT,
    Tables,
)

held = compiled(_laws.oxygen_held)
left_of = joined(_laws.left_of)
heater_share = joined(_laws.heater_share)

_NITRIFIED_OXYGEN = _laws.NITRIFIED_OXYGEN
_AT_MOST = 2.0
"""Of a step times the fastest rate; the integrator holds to 2.7, and what decays never turns its sign."""
_HELD_AT_LEAST = 4.5
"""g/m3 of oxygen that warm and salty water still holds."""
_ALIKE = 0.05
"""Share of its volume by which a body may change before the parts of a step are found anew."""
_HOUR = 3600.0
_PARTS = 5000
"""Of a step, at most."""


@joined
def rates(tables: Tables, at: float) -> None:
    """Rates of everything integrated for the masses on trial, a share `at` of the step from its beginning."""
    run, bodies, heaters, flows = tables.run, tables.bodies, tables.heaters, tables.flows
    masses, slope = tables.trial, tables.slope
    run, bodies, heaters, flows = tables.run, tables.bodies, tables.heaters, tables.flows
    masses, slope = tables.trial, tables.slope
    count = bodies.shape[0]
    for body in range(count):
        live(run, bodies[body], masses[body], slope[body], at)
    for row in range(heaters.shape[0]):
        body = int(heaters[row, W_BODY])
        power = heaters[row, W_NOW]
        if heaters[row, W_MODE] == AUTO:
            temp = masses[body, HEAT] / (bodies[body, VOLUME] + at * bodies[body, CHANGE])
            cools = power < 0.0
            share = heater_share(temp, heaters[row, W_SETPOINT], heaters[row, W_BAND])
            power *= 1.0 - share if cools else share
        slope[body, HEAT_HEATERS] += power / run[STORED]
        slope[body, HEAT] += power / run[STORED]
    for body in range(count):
        volume = bodies[body, VOLUME] + at * bodies[body, CHANGE]
        for other in range(count):
            carried = flows[body, other] / volume
            if carried > 0.0:
                for kind in range(MASSES - 1):
                    slope[body, kind] -= carried * masses[body, kind]
                    slope[other, kind] += carried * masses[body, kind]


@joined
def live(run: Array, body: Array, mass: Array, slope: Array, at: float) -> None:
    """Rates of one body by itself: what lives in it, air, surroundings, floor."""
    volume = body[VOLUME] + at * body[CHANGE]
    temp, oxygen, tan = mass[HEAT] / volume, mass[OXYGEN] / volume, mass[TAN] / volume
    full = run[AIR_SHARE] * held(mass[SALT] / volume, temp)
    there, bacteria = left_of(oxygen, body[HALF]), left_of(oxygen, body[BACTERIA_HALF])
    animals = body[FIXED_NOW] * (there if body[FIXED_NOW] > 0.0 else 1.0)
    if body[UPTAKE] > 0.0:
        animals += body[UPTAKE] * math.exp(body[LOG_Q10] * (temp - body[REFERENCE])) * there
    cleared = min(body[CLEARED_NOW] * max(tan, 0.0), body[CEILING_NOW]) * bacteria
    decayed = body[DECAY] * mass[ORGANIC]
    used = _NITRIFIED_OXYGEN * cleared + body[DECAY_OXYGEN] * decayed * there
    from_air = body[SURFACE_NOW] * (full - oxygen) + body[BUBBLES_NOW] * (1.0 - oxygen / full)
    warmth = (body[GAIN] - body[LOSS] * temp) / run[STORED]
    floor = body[TO_FLOOR] / volume
    slope[SALT_LOST] = floor * mass[SALT]
    slope[HEAT_LOST] = (body[TO_FLOOR] + body[TO_AIR]) * temp
    slope[OXYGEN_LOST] = floor * mass[OXYGEN]
    slope[TAN_LOST] = floor * mass[TAN]
    slope[HEAT_AIR], slope[HEAT_HEATERS] = warmth, 0.0
    slope[NITRIFIED] = cleared
    slope[OXYGEN_AIR], slope[OXYGEN_ANIMALS], slope[OXYGEN_BACTERIA] = from_air, animals, used
    slope[SALT] = body[SALT_IN] - slope[SALT_LOST]
    slope[HEAT] = body[HEAT_IN] + warmth - slope[HEAT_LOST]
    slope[OXYGEN] = body[OXYGEN_IN] + from_air - animals - used - slope[OXYGEN_LOST]
    slope[TAN] = body[EXCRETED_NOW] + decayed - cleared - slope[TAN_LOST]
    slope[ORGANIC] = -decayed


@kernel
def parts_of_step(run: Array, bodies: Array, heaters: Array, flows: Array, masses: Array) -> int:
    """Into how many parts a step is cut; found anew where an hour begins or bodies are not what they were."""
    same = run[PARTS] > 0.0
    for body in range(bodies.shape[0]):
        one = bodies[body]
        near = abs(one[VOLUME] + one[CHANGE] - one[VOLUME_THEN]) < _ALIKE * one[VOLUME_THEN]
        same = same and near and one[BRANCH] == one[BRANCH_THEN]
    if not same:
        fastest = 0.0
        for body in range(bodies.shape[0]):
            one = bodies[body]
            one[VOLUME_THEN], one[BRANCH_THEN] = one[VOLUME] + one[CHANGE], one[BRANCH]
            heat = one[LOSS]
            for row in range(heaters.shape[0]):
                if int(heaters[row, W_BODY]) == body:
                    heat += abs(heaters[row, W_NOW]) / heaters[row, W_BAND]
            out = one[TO_FLOOR] + one[TO_AIR]
            for other in range(bodies.shape[0]):
                out += 2.0 * flows[body, other]
            fastest = max(fastest, fastest_rate(one, masses[body], out, heat / run[STORED]))
        run[PARTS] = min(math.floor(fastest * run[STEP] / _AT_MOST) + 1.0, _PARTS)
    return int(run[PARTS])


@kernel
def fastest_rate(body: Array, mass: Array, out: float, heat: float) -> float:
    """How fast anything in a body may go within the hour, 1/s: `out` water and `heat` that leave it, m3/s."""
    least = min(body[VOLUME], body[VOLUME] + body[CHANGE])
    warm = mass[HEAT] / body[VOLUME] - body[REFERENCE]
    animals = body[UPTAKE] * math.exp(body[LOG_Q10] * warm) + max(body[FIXED_NOW], 0.0)
    bacteria = _NITRIFIED_OXYGEN * min(
        body[CLEARED_NOW] * max(mass[TAN], 0.0) / body[VOLUME], body[CEILING_NOW]
    )
    oxygen = max((mass[OXYGEN] - _HOUR * (animals + bacteria)) / body[VOLUME], 0.0)
    gas = body[SURFACE_NOW] + body[BUBBLES_NOW] / _HELD_AT_LEAST
    if body[HALF] > 0.0:
        gas += animals * body[HALF] / (oxygen + body[HALF]) ** 2
    gas += bacteria * body[BACTERIA_HALF] / (oxygen + body[BACTERIA_HALF]) ** 2
    rate: float = max((out + max(gas, body[CLEARED_NOW], heat)) / least, body[DECAY])
    return rate
