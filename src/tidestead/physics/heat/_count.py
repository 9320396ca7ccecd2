"""What flowed in a step, added up by kind: into the water, into the whole house, and how well it closes. Compiled."""

from __future__ import annotations

from tidestead.core.compiled import compiled
from tidestead.core.dims import Array
from tidestead.physics.heat._core import vent_flow
from tidestead.physics.heat._step import saturation, vapour_of
from tidestead.physics.heat._tables import (
    AREA,
    AT_WATER,
    B_STORES,
    B_SUN,
    CLEAR,
    COOLED,
    CURRENT,
    DEW,
    FAR,
    FAR_AT,
    FAR_HEAT,
    FAR_LEADS,
    FILM,
    FIRST,
    GAINS,
    GROUND,
    HEATERS_HERE,
    KEEPS_AIR,
    KEEPS_HEAT,
    KEPT,
    KIND,
    L_AIR,
    L_GIVEN,
    L_RATIO,
    L_RAYS,
    L_TEMP,
    L_TOP,
    LAMPS,
    LAST,
    LATENT,
    MOVES_AIR,
    MOVES_HEAT,
    NEAR,
    NEAR_AT,
    NEW,
    OPENING,
    OUT_C,
    OUT_RATIO,
    PACE,
    PRESSURE,
    ROOM_GAINS,
    ROOM_RADIANT,
    STEEP,
    STORES,
    SUN,
    TEMP,
    THERMOSTAT,
    WARMED,
    WATER,
    WET,
    WETS,
    A,
    B,
    R,
    W,
)

COLUMNS = (
    "air_c", "ratio", "humidity", "glass_c", "wet", "radiant_c",
    "condensate", "evaporated", "open", "shaded", "air_changed",
    "w_sun", "w_machines", "w_lamps", "w_heaters", "w_chillers", "w_evaporation", "w_air", "w_rays", "w_sides",
    "w_topped_up", "w_stored",
    "h_sun", "h_machines", "h_heaters", "h_chillers", "h_air_heater", "h_air_cooler", "h_clear", "h_solid",
    "h_ground", "h_kept", "h_air", "h_vapour", "h_topped_up", "h_stored",
    "closure", "warmest_c", "coldest_c",
)  # fmt: skip
"""What is written for each hour, before the temperatures of the bodies at its end. Energies in J, water in kg."""

(
    AIR_C, RATIO, HUMIDITY, GLASS_C, WETNESS, RADIANT_C,
    CONDENSATE, EVAPORATED, OPENED, SHADE, CHANGED,
    W_SUN, W_MACHINES, W_LAMPS, W_HEATERS, W_CHILLERS, W_EVAPORATION, W_AIR, W_RAYS, W_SIDES, W_TOPPED, W_STORED,
    H_SUN, H_MACHINES, H_HEATERS, H_CHILLERS, H_WARMED, H_COOLED, H_CLEAR, H_SOLID, H_GROUND, H_KEPT, H_AIR, H_VAPOUR,
    H_TOPPED, H_STORED, CLOSURE, WARMEST, COLDEST, BODIES_AT,
) = range(40)  # fmt: skip

MEANS = 6
"""So many columns, the first, are means of the hour; the others are sums or noted at its end."""


@compiled
def per_step(out: Array, steps: float) -> None:
    """Sums over the steps of an hour become means."""
    for column in range(MEANS):
        out[column] /= steps


@compiled
def stored(nodes: Array, bodies: Array, core: Array, room: Array) -> float:
    """What all walls and bodies stored in the step, W."""
    old, new = core.shape[0] + 1, core.shape[0] + 2
    whole = 0.0
    for node in range(nodes.shape[0]):
        whole += nodes[node, STORES] * (nodes[node, NEW] - nodes[node, TEMP])
    for body in range(bodies.shape[0]):
        whole += bodies[body, B_STORES] * (core[B + body, new] - core[B + body, old])
    return whole * room[PACE]


@compiled
def count_water(chains: Array, nodes: Array, bodies: Array, core: Array, room: Array, out: Array) -> None:
    """Heat into the bodies of water in this step, J, and what left as vapour, kg."""
    old, new, time = core.shape[0] + 1, core.shape[0] + 2, 1.0 / room[PACE]
    air_c, radiant_c, ratio = core[A, new], core[R, new], core[W, new]
    for number in range(bodies.shape[0]):
        body, temp = bodies[number], core[B + number, new]
        vapour = (body[L_GIVEN] + body[L_TEMP] * temp - body[L_RATIO] * ratio) * time
        out[W_SUN] += body[B_SUN] * time
        out[W_MACHINES] += body[GAINS] * room[CURRENT] * time
        out[W_LAMPS] += body[LAMPS] * room[CURRENT] * time
        out[W_HEATERS] += body[WARMED] * time
        out[W_CHILLERS] += body[COOLED] * time
        out[W_EVAPORATION] -= vapour
        out[EVAPORATED] += vapour / room[LATENT]
        out[W_AIR] += body[L_AIR] * (air_c - temp) * time
        out[W_RAYS] += body[L_RAYS] * (radiant_c - temp) * time
        out[W_TOPPED] += body[L_TOP] * (core[A, old] - temp) * time
        out[W_STORED] += body[B_STORES] * (temp - core[B + number, old])
    for chain in range(chains.shape[0]):
        out[W_SIDES] += to_water(chains[chain], nodes, core) * time


@compiled
def to_water(chain: Array, nodes: Array, core: Array) -> float:
    """Heat from a chain into the body that it touches, W; nothing where it touches none."""
    new = core.shape[0] + 2
    if chain[FAR] == WATER:
        body = core[B + int(chain[FAR_AT]), new]
        return chain[FAR_LEADS] * (nodes[int(chain[FIRST]), NEW] - body)
    if chain[NEAR] == AT_WATER:
        body = core[B + int(chain[NEAR_AT]), new]
        return chain[FILM] * (nodes[int(chain[LAST]), NEW] - body)
    return 0.0


@compiled
def count_far(chains: Array, nodes: Array, room: Array, out: Array) -> float:
    """Heat that comes in at the far faces, J by kind; returns the sum, W."""
    whole = 0.0
    for number in range(chains.shape[0]):
        chain = chains[number]
        if chain[FAR] == WATER:
            continue
        heat = chain[FAR_HEAT] - chain[FAR_LEADS] * nodes[int(chain[FIRST]), NEW]
        whole += heat
        kind = H_SOLID
        if chain[FAR] == GROUND:
            kind = H_GROUND
        elif chain[FAR] == KEPT:
            kind = H_KEPT
        elif chain[KIND] == CLEAR:
            kind = H_CLEAR
        out[kind] += heat / room[PACE]
    return whole


@compiled
def count_given(nodes: Array, bodies: Array, room: Array, out: Array) -> float:
    """Sun, machines, lamps, heaters and chillers anywhere in the house, J by kind; returns the sum, W."""
    time = 1.0 / room[PACE]
    sun, warmed, cooled = 0.0, 0.0, 0.0
    machines = room[ROOM_GAINS] + room[ROOM_RADIANT] + room[HEATERS_HERE]
    for node in range(nodes.shape[0]):
        sun += nodes[node, SUN]
    for number in range(bodies.shape[0]):
        body = bodies[number]
        sun += body[B_SUN]
        machines += (body[GAINS] + body[LAMPS]) * room[CURRENT]
        warmed += body[WARMED]
        cooled += body[COOLED]
    out[H_SUN] += sun * time
    out[H_MACHINES] += machines * time
    out[H_HEATERS] += warmed * time
    out[H_CHILLERS] += cooled * time
    return sun + machines + warmed + cooled


@compiled
def count_house(chains: Array, nodes: Array, bodies: Array, core: Array, room: Array, out: Array) -> None:
    """The balance of the whole house in this step, J, and how well it closes."""
    old, new, time = core.shape[0] + 1, core.shape[0] + 2, 1.0 / room[PACE]
    air_c, ratio, heat = core[A, new], core[W, new], room[THERMOSTAT]
    flow = vent_flow(room, room[OPENING], core[A, old])
    exchanged = flow * room[MOVES_HEAT] * (room[OUT_C] - air_c)
    vapour = flow * room[MOVES_AIR] * (room[OUT_RATIO] - ratio)
    topped = 0.0
    for body in range(bodies.shape[0]):
        topped += bodies[body, L_TOP] * (core[A, old] - core[B + body, new])
    given = count_given(nodes, bodies, room, out) + heat
    far = count_far(chains, nodes, room, out)
    held = stored(nodes, bodies, core, room) + room[PACE] * (
        room[KEEPS_HEAT] * (air_c - core[A, old]) + room[KEEPS_AIR] * (ratio - core[W, old])
    )
    out[H_WARMED] += max(heat, 0.0) * time
    out[H_COOLED] += min(heat, 0.0) * time
    out[H_AIR] += exchanged * time
    out[H_VAPOUR] += vapour * time
    out[H_TOPPED] += topped * time
    out[H_STORED] += held * time
    out[CHANGED] += flow * time
    moved = abs(given) + abs(far) + abs(exchanged) + abs(vapour) + abs(topped) + abs(held) + 1.0
    gap = given + far + exchanged + vapour + topped - held
    out[CLOSURE] = max(out[CLOSURE], abs(gap) / moved)
    count_air(chains, nodes, core, room, out)


@compiled
def count_air(chains: Array, nodes: Array, core: Array, room: Array, out: Array) -> None:
    """Air, humidity and wetness, as sums over the steps of the hour."""
    new = core.shape[0] + 2
    air_c, ratio = core[A, new], core[W, new]
    out[AIR_C] += air_c
    out[RADIANT_C] += core[R, new]
    out[RATIO] += ratio
    out[HUMIDITY] += vapour_of(ratio, room[PRESSURE]) / saturation(air_c)
    wet, area, glass = 0.0, 0.0, 0.0
    for number in range(chains.shape[0]):
        chain = chains[number]
        if chain[WETS] > 0.0:
            face = nodes[int(chain[LAST]), NEW]
            area += chain[AREA]
            glass += chain[AREA] * face
            if chain[WET] > 0.0:
                wet = 1.0
                settles = chain[WET] * (ratio - chain[DEW] - chain[STEEP] * face)
                out[CONDENSATE] += settles / room[LATENT] / room[PACE]
    out[WETNESS] += wet
    if area > 0.0:
        out[GLASS_C] += glass / area


@compiled
def count_open(chains: Array, nodes: Array, bodies: Array, core: Array, room: Array, out: Array) -> None:
    """The balance of vessels in the open in this step, J, and how well it closes."""
    old, new, time = core.shape[0] + 1, core.shape[0] + 2, 1.0 / room[PACE]
    air_c, radiant_c, ratio = core[A, new], core[R, new], core[W, new]
    given, far = count_given(nodes, bodies, room, out), count_far(chains, nodes, room, out)
    held, lost = stored(nodes, bodies, core, room), 0.0
    for number in range(bodies.shape[0]):
        body, temp = bodies[number], core[B + number, new]
        lost += body[L_GIVEN] + body[L_TEMP] * temp - body[L_RATIO] * ratio + body[L_AIR] * (temp - air_c)
        lost += body[L_RAYS] * (temp - radiant_c) + body[L_TOP] * (temp - core[A, old])
    out[H_AIR] -= lost * time
    out[H_STORED] += held * time
    moved = abs(given) + abs(far) + abs(lost) + abs(held) + 1.0
    out[CLOSURE] = max(out[CLOSURE], abs(given + far - lost - held) / moved)
    out[AIR_C] += air_c
    out[RADIANT_C] += radiant_c
    out[RATIO] += ratio
    out[HUMIDITY] += vapour_of(ratio, room[PRESSURE]) / saturation(air_c)
