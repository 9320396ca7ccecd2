"""What flowed in a step, added up by kind: into the water, into the whole house, and how well it closes. Compiled."""

from __future__ import annotations

from tidestead.core.compiled import joined, kernel
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
    FOG,
    FOG_DEW,
    FOG_STEEP,
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
    PACED,
    PRESSURE,
    ROOM_GAINS,
    ROOM_LAMPS,
    ROOM_RADIANT,
    SOLID_SUN,
    STEEP,
    STEPS,
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
    "air_c", "ratio", "glass_c", "wet", "radiant_c", "humidity",
    "condensate", "evaporated", "open", "shaded", "air_changed",
    "w_sun", "w_machines", "w_lamps", "w_heaters", "w_chillers", "w_evaporation", "w_air", "w_rays", "w_sides",
    "w_topped_up", "w_stored",
    "h_sun", "h_machines", "h_heaters", "h_chillers", "h_air_heater", "h_air_cooler", "h_clear", "h_solid",
    "h_ground", "h_kept", "h_air", "h_vapour", "h_topped_up", "h_stored",
    "closure", "warmest_c", "coldest_c",
)  # fmt: skip
"""What is written for each hour, before the temperatures of the bodies at its end. Energies in J, water in kg."""

(
    AIR_C, RATIO, GLASS_C, WETNESS, RADIANT_C, HUMIDITY,
    CONDENSATE, EVAPORATED, OPENED, SHADE, CHANGED,
    W_SUN, W_MACHINES, W_LAMPS, W_HEATERS, W_CHILLERS, W_EVAPORATION, W_AIR, W_RAYS, W_SIDES, W_TOPPED, W_STORED,
    H_SUN, H_MACHINES, H_HEATERS, H_CHILLERS, H_WARMED, H_COOLED, H_CLEAR, H_SOLID, H_GROUND, H_KEPT, H_AIR, H_VAPOUR,
    H_TOPPED, H_STORED, CLOSURE, WARMEST, COLDEST, BODIES_AT,
) = range(40)  # fmt: skip

MEANS = 5
"""So many columns, the first, are means of the hour; the others are sums or noted at its end."""


@joined
def per_step(out: Array, room: Array) -> None:
    """Sums over the steps of an hour become means; relative humidity is that of the mean air."""
    for column in range(MEANS):
        out[column] /= room[STEPS]
    out[HUMIDITY] = vapour_of(out[RATIO], room[PRESSURE]) / saturation(out[AIR_C])


@joined
def stored(nodes: Array, bodies: Array, core: Array, room: Array) -> float:
    """What all walls and bodies stored in the step, W."""
    old, new = core.shape[0] + 1, core.shape[0] + 2
    whole = 0.0
    for node in range(nodes.shape[0]):
        whole += nodes[node, PACED] * (nodes[node, NEW] - nodes[node, TEMP])
    for body in range(bodies.shape[0]):
        whole += bodies[body, B_STORES] * room[PACE] * (core[B + body, new] - core[B + body, old])
    return whole


@kernel
def count_water(chains: Array, nodes: Array, bodies: Array, core: Array, room: Array, out: Array) -> None:
    """Heat into the bodies of water in this step, J, and what left as vapour, kg."""
    old, new, time = core.shape[0] + 1, core.shape[0] + 2, 1.0 / room[PACE]
    air_c, radiant_c, ratio = core[A, new], core[R, new], core[W, new]
    for at in range(bodies.shape[0]):
        temp = core[B + at, new]
        vapour = (bodies[at, L_GIVEN] + bodies[at, L_TEMP] * temp - bodies[at, L_RATIO] * ratio) * time
        out[W_SUN] += bodies[at, B_SUN] * time
        out[W_MACHINES] += bodies[at, GAINS] * room[CURRENT] * time
        out[W_LAMPS] += bodies[at, LAMPS] * room[CURRENT] * time
        out[W_HEATERS] += bodies[at, WARMED] * time
        out[W_CHILLERS] += bodies[at, COOLED] * time
        out[W_EVAPORATION] -= vapour
        out[EVAPORATED] += vapour / room[LATENT]
        out[W_AIR] += bodies[at, L_AIR] * (air_c - temp) * time
        out[W_RAYS] += bodies[at, L_RAYS] * (radiant_c - temp) * time
        out[W_TOPPED] += bodies[at, L_TOP] * (core[A, old] - temp) * time
        out[W_STORED] += bodies[at, B_STORES] * (temp - core[B + at, old])
    for chain in range(chains.shape[0]):
        out[W_SIDES] += to_water(chains, chain, nodes, core) * time


@joined
def to_water(chains: Array, at: int, nodes: Array, core: Array) -> float:
    """Heat from a chain into the body that it touches, W; nothing where it touches none."""
    new = core.shape[0] + 2
    if chains[at, FAR] == WATER:
        body = core[B + int(chains[at, FAR_AT]), new]
        return chains[at, FAR_LEADS] * (nodes[int(chains[at, FIRST]), NEW] - body)
    if chains[at, NEAR] == AT_WATER:
        body = core[B + int(chains[at, NEAR_AT]), new]
        return chains[at, FILM] * (nodes[int(chains[at, LAST]), NEW] - body)
    return 0.0


@joined
def count_far(chains: Array, nodes: Array, room: Array, out: Array) -> float:
    """Heat that comes in at the far faces, J by kind; returns the sum, W."""
    whole = 0.0
    for at in range(chains.shape[0]):
        if chains[at, FAR] == WATER:
            continue
        heat = chains[at, FAR_HEAT] - chains[at, FAR_LEADS] * nodes[int(chains[at, FIRST]), NEW]
        whole += heat
        kind = H_SOLID
        if chains[at, FAR] == GROUND:
            kind = H_GROUND
        elif chains[at, FAR] == KEPT:
            kind = H_KEPT
        elif chains[at, KIND] == CLEAR:
            kind = H_CLEAR
        out[kind] += heat / room[PACE]
    return whole


@joined
def count_given(bodies: Array, room: Array, out: Array) -> float:
    """Sun, machines, lamps, heaters and chillers anywhere in the house, J by kind; returns the sum, W."""
    time = 1.0 / room[PACE]
    sun, warmed, cooled = room[SOLID_SUN], 0.0, 0.0
    machines = (room[ROOM_GAINS] + room[ROOM_RADIANT]) * room[CURRENT] + room[HEATERS_HERE] + room[ROOM_LAMPS]
    for at in range(bodies.shape[0]):
        sun += bodies[at, B_SUN]
        machines += (bodies[at, GAINS] + bodies[at, LAMPS]) * room[CURRENT]
        warmed += bodies[at, WARMED]
        cooled += bodies[at, COOLED]
    out[H_SUN] += sun * time
    out[H_MACHINES] += machines * time
    out[H_HEATERS] += warmed * time
    out[H_CHILLERS] += cooled * time
    return sun + machines + warmed + cooled


@kernel
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
    given = count_given(bodies, room, out) + heat
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


@joined
def count_air(chains: Array, nodes: Array, core: Array, room: Array, out: Array) -> None:
    """Air, humidity, wet glazing and what settles anywhere, as sums over the steps of the hour."""
    new = core.shape[0] + 2
    air_c, ratio = core[A, new], core[W, new]
    out[AIR_C] += air_c
    out[RADIANT_C] += core[R, new]
    out[RATIO] += ratio
    out[CONDENSATE] += (
        room[FOG] * (ratio - room[FOG_DEW] - room[FOG_STEEP] * air_c) / room[LATENT] / room[PACE]
    )
    wet, area, glass = 0.0, 0.0, 0.0
    for at in range(chains.shape[0]):
        if chains[at, WETS] > 0.0:
            face = nodes[int(chains[at, LAST]), NEW]
            if chains[at, KIND] == CLEAR:
                area += chains[at, AREA]
                glass += chains[at, AREA] * face
            if chains[at, WET] > 0.0:
                if chains[at, KIND] == CLEAR:
                    wet = 1.0
                settles = chains[at, WET] * (ratio - chains[at, DEW] - chains[at, STEEP] * face)
                out[CONDENSATE] += settles / room[LATENT] / room[PACE]
    out[WETNESS] += wet
    if area > 0.0:
        out[GLASS_C] += glass / area


@kernel
def count_open(chains: Array, nodes: Array, bodies: Array, core: Array, room: Array, out: Array) -> None:
    """The balance of vessels in the open in this step, J, and how well it closes."""
    old, new, time = core.shape[0] + 1, core.shape[0] + 2, 1.0 / room[PACE]
    air_c, radiant_c, ratio = core[A, new], core[R, new], core[W, new]
    given, far = count_given(bodies, room, out), count_far(chains, nodes, room, out)
    held, lost = stored(nodes, bodies, core, room), 0.0
    for at in range(bodies.shape[0]):
        temp = core[B + at, new]
        lost += (
            bodies[at, L_GIVEN]
            + bodies[at, L_TEMP] * temp
            - bodies[at, L_RATIO] * ratio
            + bodies[at, L_AIR] * (temp - air_c)
        )
        lost += bodies[at, L_RAYS] * (temp - radiant_c) + bodies[at, L_TOP] * (temp - core[A, old])
    out[H_AIR] -= lost * time
    out[H_STORED] += held * time
    moved = abs(given) + abs(far) + abs(lost) + abs(held) + 1.0
    out[CLOSURE] = max(out[CLOSURE], abs(given + far - lost - held) / moved)
    out[AIR_C] += air_c
    out[RADIANT_C] += radiant_c
    out[RATIO] += ratio
