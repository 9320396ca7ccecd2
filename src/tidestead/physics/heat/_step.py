"""One step of the year: every chain eliminated down to its near face, films, rays and vapour made straight lines.

The step is implicit (backward Euler), so that it never swings and the heat of a step closes to the last digits.
What does not go in straight lines (films, rays, vapour) is taken at the step's beginning; vents and wetness at its
end. Compiled.
"""

from __future__ import annotations

from tidestead.core.compiled import compiled, joined
from tidestead.core.dims import Array
from tidestead.physics import _air_laws
from tidestead.physics.heat import _laws
from tidestead.physics.heat._tables import (
    ACTIVITY,
    AIR,
    AREA,
    AT_WATER,
    B_STAR,
    COVER_RESISTANCE,
    COVERED,
    CURRENT,
    DEW,
    DIAGONAL,
    EMITS,
    EVAPORATES,
    FAN_ABOVE,
    FAN_SPEED,
    FAR,
    FAR_AT,
    FAR_FILM,
    FAR_HEAT,
    FAR_LEADS,
    FILM,
    FIRST,
    GROUND,
    GROUND_C,
    INVERSE,
    KEPT,
    KEPT_C,
    L_AIR,
    L_GIVEN,
    L_RATIO,
    L_RAYS,
    L_TEMP,
    L_TOP,
    LAST,
    LATENT,
    LEADS,
    LOCAL_WIND,
    LOOKS_UP,
    NEAR,
    NEAR_AT,
    NEAR_DIAGONAL,
    NEAR_FILM,
    NEAR_SOURCE,
    NOTHING,
    ONWARD,
    OUT_C,
    PACE,
    PACED,
    PASSING,
    PRESSURE,
    RAYS,
    RHS,
    SKY_C,
    SKY_VIEW,
    SOURCE,
    STAR,
    STEEP,
    STILL,
    STORES,
    SUN,
    SURFACE,
    TEMP,
    THERE,
    TIED,
    TOPS_UP,
    TURNED,
    WALL,
    WATER,
    WEATHER,
    WET,
    WETS,
    WIND_FILM,
    A,
    B,
    R,
    W,
)

saturation = compiled(_air_laws.saturation_pressure)
climb = joined(_air_laws.saturation_climb)
ratio_of = joined(_air_laws.humidity_ratio)
vapour_of = joined(_air_laws.vapour_of_ratio)
film_wall = joined(_laws.film_wall)
film_up = joined(_laws.film_up)
film_down = joined(_laws.film_down)
film_wind = joined(_laws.film_wind)
film_water = joined(_laws.film_water)
film_with_vapour = joined(_laws.film_with_vapour)
rays = joined(_laws.radiation_film)
shah = compiled(_laws.evaporation_shah)

KELVIN, STEFAN, LIGHTER, MOVING = _laws.KELVIN, _laws.STEFAN, _laws.LIGHTER, _laws.MOVING

WATER_HEAT = 4000.0
"""J/(kg K) of seawater; 3998 by TEOS-10 for salinity 35 at 24 degC."""
CALM = 0.1
"""W/(m2 K): no film is less, where air and face are as warm as each other."""
WEAK = _laws.DRIVEN / 3600.0
"""kg/(m2 s Pa): evaporation where hardly anything drives it, by Shah's form for small differences."""
_HARDLY = 1.0
"""Pa of difference under which that form stands in, lest it be divided by nothing. Own choice."""


@joined
def far_side(chains: Array, at: int, nodes: Array, room: Array) -> None:
    """Conductance and source at the far face of a chain, W/K and W; weather's rays are a tangent."""
    kind, area = chains[at, FAR], chains[at, AREA]
    if kind == WEATHER:
        face_k = nodes[int(chains[at, FIRST]), TEMP] + KELVIN
        out_k, sky_k = room[OUT_C] + KELVIN, room[SKY_C] + KELVIN
        view, emit = chains[at, SKY_VIEW], chains[at, EMITS] * STEFAN * area
        around = view * sky_k**4 + (1.0 - view) * out_k**4
        chains[at, FAR_LEADS] = area * room[WIND_FILM] + 4.0 * emit * face_k**3
        tangent = around + 3.0 * face_k**4 - 4.0 * face_k**3 * KELVIN
        chains[at, FAR_HEAT] = area * room[WIND_FILM] * room[OUT_C] + emit * tangent
        return
    chains[at, FAR_LEADS] = 0.0 if kind == NOTHING else chains[at, FAR_FILM]
    temp = 0.0
    if kind == AIR:
        temp = room[OUT_C]
    elif kind == GROUND:
        temp = room[GROUND_C]
    elif kind == KEPT:
        temp = chains[at, KEPT_C]
    chains[at, FAR_HEAT] = chains[at, FAR_LEADS] * temp if kind != WATER else 0.0


@joined
def factor(chains: Array, at: int, nodes: Array, room: Array) -> None:
    """The part of the elimination that temperatures do not change."""
    first, last = int(chains[at, FIRST]), int(chains[at, LAST])
    before, diagonal = 0.0, 1.0
    tied = chains[at, FAR_LEADS] if chains[at, FAR] == WATER else 0.0
    for node in range(first, last + 1):
        nodes[node, PACED] = nodes[node, STORES] * room[PACE]
        diagonal = nodes[node, PACED] + nodes[node, LEADS]
        if node == first:
            diagonal += chains[at, FAR_LEADS]
        else:
            nodes[node, PASSING] = before * nodes[node - 1, INVERSE]
            diagonal += before - before * nodes[node, PASSING]
            tied *= nodes[node, PASSING]
        nodes[node, INVERSE] = 1.0 / diagonal
        nodes[node, ONWARD] = nodes[node, LEADS] * nodes[node, INVERSE]
        nodes[node, TIED] = tied
        before = nodes[node, LEADS]
    chains[at, DIAGONAL] = diagonal


@joined
def sweep(chains: Array, at: int, nodes: Array) -> None:
    """Right sides from the far face to the near one."""
    first = int(chains[at, FIRST])
    carried = chains[at, FAR_HEAT]
    for node in range(first, int(chains[at, LAST]) + 1):
        if node > first:
            carried *= nodes[node, PASSING]
        carried += nodes[node, PACED] * nodes[node, TEMP] + nodes[node, SUN]
        nodes[node, RHS] = carried
    chains[at, SOURCE] = carried


@joined
def near_side(chains: Array, at: int, nodes: Array, core: Array, room: Array) -> None:
    """Films of air and rays at the near face, and how vapour would settle there."""
    if chains[at, NEAR] == AT_WATER:
        chains[at, FILM] = chains[at, NEAR_FILM]
        return
    old = core.shape[0] + 1
    area, face = chains[at, AREA], nodes[int(chains[at, LAST]), TEMP]
    chains[at, FILM] = area * near_film(chains[at, TURNED], face - core[A, old])
    chains[at, RAYS] = area * rays(face, core[R, old], chains[at, STAR])
    if chains[at, WETS] > 0.0:
        vapour = saturation(face)
        chains[at, STEEP] = vapour * climb(face) * LIGHTER * room[PRESSURE] / (room[PRESSURE] - vapour) ** 2
        chains[at, DEW] = ratio_of(vapour, room[PRESSURE]) - chains[at, STEEP] * face


@joined
def near_film(turned: float, difference: float) -> float:
    """Film of still air at a face so much warmer than the air."""
    if turned == WALL:
        film = film_wall(difference)
    elif (difference > 0.0) == (turned == LOOKS_UP):
        film = film_up(difference)
    else:
        film = film_down(difference)
    return max(film, CALM)


@joined
def air_speed(bodies: Array, at: int, temp: float, room: Array) -> float:
    """Of the air over a body of water: still, its fan's, or in the open the wind."""
    speed = bodies[at, STILL]
    if room[THERE] == 0.0:
        speed = max(speed, room[LOCAL_WIND])
    if temp > bodies[at, FAN_ABOVE] and room[CURRENT] > 0.0:
        speed = max(speed, bodies[at, FAN_SPEED])
    return speed


@joined
def water_films(
    bodies: Array, at: int, temp: float, air_c: float, radiant_c: float, speed: float
) -> tuple[float, float]:
    """Film and rays at a water surface for its whole area, W/K, with what its cover takes off."""
    film = max(film_water(temp - air_c), film_with_vapour(speed))
    if speed > MOVING:
        film = max(film, film_wind(speed))
    ray = rays(temp, radiant_c, bodies[at, B_STAR])
    under = 1.0 / (1.0 / (film + ray) + bodies[at, COVER_RESISTANCE]) / (film + ray)
    share = bodies[at, SURFACE] * (1.0 - bodies[at, COVERED] + bodies[at, COVERED] * under)
    return film * share, ray * share


@joined
def water_side(bodies: Array, at: int, temp: float, core: Array, room: Array) -> None:
    """What leaves the surface of a body, as straight lines; its temperature is `temp`."""
    old = core.shape[0] + 1
    air_c, ratio = core[A, old], core[W, old]
    speed = air_speed(bodies, at, temp, room)
    over, vapour = bodies[at, ACTIVITY] * saturation(temp), vapour_of(ratio, room[PRESSURE])
    lost = bodies[at, EVAPORATES] * shah(temp, air_c, over, vapour, room[PRESSURE], speed)
    pull, steep = over - vapour, over * climb(temp)
    rate = lost / pull if abs(pull) > _HARDLY else WEAK * bodies[at, EVAPORATES]
    moist = LIGHTER * room[PRESSURE] / (LIGHTER + ratio) ** 2
    open_area = bodies[at, SURFACE] * (1.0 - bodies[at, COVERED])
    size = room[LATENT] * open_area * rate
    bodies[at, L_GIVEN] = size * (pull - steep * temp + moist * ratio)
    bodies[at, L_TEMP], bodies[at, L_RATIO] = size * steep, size * moist
    bodies[at, L_TOP] = bodies[at, TOPS_UP] * max(lost, 0.0) * open_area * WATER_HEAT
    bodies[at, L_AIR], bodies[at, L_RAYS] = water_films(bodies, at, temp, air_c, core[R, old], speed)


@joined
def join_water(chains: Array, at: int, core: Array) -> None:
    """A chain whose near face is wetted by a body."""
    row, film, right = B + int(chains[at, NEAR_AT]), chains[at, FILM], core.shape[0]
    diagonal = chains[at, DIAGONAL] + film
    core[row, row] += film - film * film / diagonal
    core[row, right] += film * chains[at, SOURCE] / diagonal


@joined
def join_room(chains: Array, at: int, nodes: Array, core: Array) -> None:
    """A chain whose near face looks into the room; its far face may be wetted by a body."""
    film, ray, wet, right = chains[at, FILM], chains[at, RAYS], chains[at, WET], core.shape[0]
    chains[at, NEAR_DIAGONAL] = chains[at, DIAGONAL] + film + ray + wet * chains[at, STEEP]
    chains[at, NEAR_SOURCE] = chains[at, SOURCE] - wet * chains[at, DEW]
    core[A, A] += film
    core[R, R] += ray
    eliminate(chains, at, core, A, film)
    eliminate(chains, at, core, R, ray)
    if wet > 0.0:
        core[W, W] += wet
        core[W, right] += wet * chains[at, DEW]
        eliminate(chains, at, core, W, wet * chains[at, STEEP])
    if chains[at, FAR] == WATER:
        tie_body(chains, at, nodes, core)


@joined
def eliminate(chains: Array, at: int, core: Array, row: int, enters: float) -> None:
    """Put the near face's equation into a row of the core that it enters with a coefficient."""
    share = enters / chains[at, NEAR_DIAGONAL]
    core[row, A] -= share * chains[at, FILM]
    core[row, R] -= share * chains[at, RAYS]
    core[row, W] -= share * chains[at, WET]
    core[row, core.shape[0]] += share * chains[at, NEAR_SOURCE]


@joined
def tie_body(chains: Array, at: int, nodes: Array, core: Array) -> None:
    """The body behind a chain that looks into the room: symmetric elimination of all its nodes."""
    row, last = B + int(chains[at, FAR_AT]), int(chains[at, LAST])
    stiff, given = chains[at, FAR_LEADS], 0.0
    for node in range(int(chains[at, FIRST]), last):
        stiff -= nodes[node, TIED] * nodes[node, TIED] * nodes[node, INVERSE]
        given += nodes[node, TIED] * nodes[node, RHS] * nodes[node, INVERSE]
    tied = nodes[last, TIED]
    share = tied / chains[at, NEAR_DIAGONAL]
    core[row, row] += stiff - tied * share
    core[row, core.shape[0]] += given
    eliminate(chains, at, core, row, tied)
    core[A, row] -= chains[at, FILM] * share
    core[R, row] -= chains[at, RAYS] * share
    core[W, row] -= chains[at, WET] * chains[at, STEEP] * share
