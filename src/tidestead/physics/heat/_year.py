"""Hours put after one another: the step repeated. Compiled."""

from __future__ import annotations

from tidestead.core.compiled import joined, kernel
from tidestead.core.dims import Array
from tidestead.physics.heat._core import (
    DRY_HEAT,
    add_air,
    add_bodies,
    back,
    face_of,
    solve_thermostat,
    solve_vents,
    switch,
)
from tidestead.physics.heat._count import (
    BODIES_AT,
    COLDEST,
    OPENED,
    SHADE,
    WARMEST,
    count_house,
    count_open,
    count_water,
    per_step,
)
from tidestead.physics.heat._hour import fill_hour
from tidestead.physics.heat._step import (
    LIGHTER,
    climb,
    factor,
    far_side,
    join_room,
    join_water,
    near_side,
    ratio_of,
    saturation,
    sweep,
    water_side,
)
from tidestead.physics.heat._tables import (
    AT_WATER,
    CLEAR,
    DEW,
    FAR,
    FILM,
    FOG_DEW,
    FOG_STEEP,
    FOGGY,
    KIND,
    LAST,
    LATENT,
    NEAR,
    NEW,
    OPENING,
    PRESSURE,
    SHADE_ABOVE,
    SHADE_BY_WATER,
    SHADED,
    STEEP,
    STEPS,
    TEMP,
    THERE,
    WEATHER,
    WET,
    WETS,
    A,
    B,
    Place,
    Tables,
    W,
)

LEWIS = 0.9
"""Lewis number of air and vapour to the power two thirds; 0.865 to 0.92 in handbooks. From memory."""

_ROUNDS = 4
"""Times that a step is solved anew at the most, where faces become wet or dry in it."""
_SHADE_BAND = 1.0
"""Kelvin under its threshold at which a shade is drawn back. Own choice."""


@kernel
def run_hours(tables: Tables, place: Place, weather: Array, out: Array, first: int) -> None:
    """Hours from `first` on, as many as `out` has rows; the tables go on from where they are.

    `weather` has nine rows: those of a year, and the temperature of the ground.
    """
    chains, nodes, core, room = tables.chains, tables.nodes, tables.core, tables.room
    bodies, heatings = tables.bodies, tables.heatings
    for number in range(out.shape[0]):
        at = (first + number) % weather.shape[1]
        draw_shade(core, room)
        fill_hour(tables, place, weather, at)
        row = out[number]
        row[:] = 0.0
        row[WARMEST], row[COLDEST] = -1e9, 1e9
        for chain in range(chains.shape[0]):
            far_side(chains, chain, nodes, room)
            if number == 0 or chains[chain, FAR] == WEATHER:
                factor(chains, chain, nodes, room)
        for _ in range(int(room[STEPS])):
            switch(heatings, bodies, core, room)
            one_step(chains, nodes, bodies, core, room, row)
        per_step(row, room)
        row[SHADE], row[OPENED] = max(room[SHADED], place.drawn[at]), room[OPENING]
        for body in range(bodies.shape[0]):
            row[BODIES_AT + body] = core[B + body, core.shape[0] + 1]


@joined
def draw_shade(core: Array, room: Array) -> None:
    """Drawn above its temperature, away again a kelvin below."""
    temp = core[A, core.shape[0] + 1]
    if room[SHADE_BY_WATER] > 0.0 and core.shape[0] > B:
        temp = core[B, core.shape[0] + 1]
    if temp > room[SHADE_ABOVE]:
        room[SHADED] = 1.0
    elif temp < room[SHADE_ABOVE] - _SHADE_BAND:
        room[SHADED] = 0.0


@kernel
def one_step(chains: Array, nodes: Array, bodies: Array, core: Array, room: Array, out: Array) -> None:
    """One step: films, elimination, core, back; wetness is tried until it agrees with what comes out."""
    old, new = core.shape[0] + 1, core.shape[0] + 2
    for at in range(chains.shape[0]):
        if chains[at, KIND] == CLEAR:
            far_side(chains, at, nodes, room)
            factor(chains, at, nodes, room)
        sweep(chains, at, nodes)
        near_side(chains, at, nodes, core, room)
        if chains[at, WETS] > 0.0:
            wetted(chains, at, core[W, old], nodes[int(chains[at, LAST]), TEMP], room)
    for body in range(bodies.shape[0]):
        water_side(bodies, body, core[B + body, old], core, room)
    if room[THERE] > 0.0:
        mist_line(core, room)
    settle_core(chains, nodes, bodies, core, room)
    for at in range(chains.shape[0]):
        back(chains, at, nodes, core)
    count_water(chains, nodes, bodies, core, room, out)
    if room[THERE] > 0.0:
        count_house(chains, nodes, bodies, core, room, out)
    else:
        count_open(chains, nodes, bodies, core, room, out)
    for node in range(nodes.shape[0]):
        nodes[node, TEMP] = nodes[node, NEW]
    for row in range(core.shape[0]):
        core[row, old] = core[row, new]
    out[WARMEST] = max(out[WARMEST], core[A, old])
    out[COLDEST] = min(out[COLDEST], core[A, old])


@kernel
def settle_core(chains: Array, nodes: Array, bodies: Array, core: Array, room: Array) -> None:
    """The core with vents, wetness and thermostat in agreement; the last round stands as it was solved."""
    for number in range(_ROUNDS):
        core[:, : core.shape[0] + 1] = 0.0
        for chain in range(chains.shape[0]):
            if chains[chain, NEAR] == AT_WATER:
                join_water(chains, chain, core)
            else:
                join_room(chains, chain, nodes, core)
        add_bodies(bodies, core, room)
        add_air(core, room)
        solve_vents(core, room)
        solve_thermostat(core, room)
        if number == _ROUNDS - 1 or not rewetted(chains, nodes, core, room):
            break


@joined
def mist_line(core: Array, room: Array) -> None:
    """How much the room's air can hold, as a straight line of its temperature, and whether it holds more."""
    air_c, ratio = core[A, core.shape[0] + 1], core[W, core.shape[0] + 1]
    vapour = saturation(air_c)
    steep = vapour * climb(air_c) * LIGHTER * room[PRESSURE] / (room[PRESSURE] - vapour) ** 2
    room[FOG_STEEP], room[FOG_DEW] = steep, ratio_of(vapour, room[PRESSURE]) - steep * air_c
    room[FOGGY] = 1.0 if ratio > room[FOG_DEW] + steep * air_c else 0.0


@joined
def wetted(chains: Array, at: int, ratio: float, face: float, room: Array) -> bool:
    """Let vapour settle on a face that is colder than its dew point; whether that is new."""
    wets = ratio > chains[at, DEW] + chains[at, STEEP] * face
    was = chains[at, WET] > 0.0
    chains[at, WET] = room[LATENT] * chains[at, FILM] / (DRY_HEAT * LEWIS) if wets else 0.0
    return wets != was


@joined
def rewetted(chains: Array, nodes: Array, core: Array, room: Array) -> bool:
    """Whether any face wets or dries by what came out; its films are then changed."""
    ratio = core[W, core.shape[0] + 2]
    fogs = ratio > room[FOG_DEW] + room[FOG_STEEP] * core[A, core.shape[0] + 2] and room[THERE] > 0.0
    changed = fogs != (room[FOGGY] > 0.0)
    room[FOGGY] = 1.0 if fogs else 0.0
    for chain in range(chains.shape[0]):
        if chains[chain, WETS] > 0.0 and wetted(
            chains, chain, ratio, face_of(chains, chain, nodes, core), room
        ):
            changed = True
    return changed
