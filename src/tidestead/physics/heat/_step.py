"""One step of the year: every chain eliminated down to its near face, films, rays and vapour made straight lines.

The step is implicit (backward Euler), so that it never swings and the heat of a step closes to the last digits.
What does not go in straight lines (films, rays, vapour) is taken at the step's beginning; vents and wetness at its
end. Compiled.
"""

from __future__ import annotations

from tidestead.core.compiled import compiled
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
    OUT_C,
    PACE,
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
slope = compiled(_air_laws.saturation_slope)
ratio_of = compiled(_air_laws.humidity_ratio)
vapour_of = compiled(_air_laws.vapour_of_ratio)
film_wall = compiled(_laws.film_wall)
film_up = compiled(_laws.film_up)
film_down = compiled(_laws.film_down)
film_wind = compiled(_laws.film_wind)
film_water = compiled(_laws.film_water)
rays = compiled(_laws.radiation_film)
shah = compiled(_laws.evaporation_shah)

_KELVIN, _STEFAN = 273.15, 5.670374419e-8
WATER_HEAT = 4000.0
"""J/(kg K) of seawater; 3998 by TEOS-10 for salinity 35 at 24 degC."""
LIGHTER = 0.621945
CALM = 0.1
"""W/(m2 K): no film is less, where air and face are as warm as each other."""
WEAK = 5e-5 / 3600.0
"""kg/(m2 s Pa): evaporation where hardly anything drives it, by Shah's form for small differences."""
_MOVING = 0.15
_HARDLY = 1.0


@compiled
def far_side(chain: Array, nodes: Array, room: Array) -> None:
    """Conductance and source at the far face of a chain, W/K and W; weather's rays are a tangent."""
    kind, area = chain[FAR], chain[AREA]
    if kind == WEATHER:
        face_k = nodes[int(chain[FIRST]), TEMP] + _KELVIN
        out_k, sky_k = room[OUT_C] + _KELVIN, room[SKY_C] + _KELVIN
        view, emit = chain[SKY_VIEW], chain[EMITS] * _STEFAN * area
        around = view * sky_k**4 + (1.0 - view) * out_k**4
        chain[FAR_LEADS] = area * room[WIND_FILM] + 4.0 * emit * face_k**3
        tangent = around + 3.0 * face_k**4 - 4.0 * face_k**3 * _KELVIN
        chain[FAR_HEAT] = area * room[WIND_FILM] * room[OUT_C] + emit * tangent
        return
    chain[FAR_LEADS] = 0.0 if kind == NOTHING else chain[FAR_FILM]
    temp = 0.0
    if kind == AIR:
        temp = room[OUT_C]
    elif kind == GROUND:
        temp = room[GROUND_C]
    elif kind == KEPT:
        temp = chain[KEPT_C]
    chain[FAR_HEAT] = chain[FAR_LEADS] * temp if kind != WATER else 0.0


@compiled
def factor(chain: Array, nodes: Array, room: Array) -> None:
    """The part of the elimination that temperatures do not change."""
    first, last = int(chain[FIRST]), int(chain[LAST])
    before, diagonal = 0.0, 1.0
    tied = chain[FAR_LEADS] if chain[FAR] == WATER else 0.0
    for node in range(first, last + 1):
        diagonal = nodes[node, STORES] * room[PACE] + nodes[node, LEADS]
        if node == first:
            diagonal += chain[FAR_LEADS]
        else:
            nodes[node, PASSING] = before * nodes[node - 1, INVERSE]
            diagonal += before - before * nodes[node, PASSING]
            tied *= nodes[node, PASSING]
        nodes[node, INVERSE] = 1.0 / diagonal
        nodes[node, TIED] = tied
        before = nodes[node, LEADS]
    chain[DIAGONAL] = diagonal


@compiled
def sweep(chain: Array, nodes: Array, room: Array) -> None:
    """Right sides from the far face to the near one."""
    first = int(chain[FIRST])
    carried = chain[FAR_HEAT]
    for node in range(first, int(chain[LAST]) + 1):
        if node > first:
            carried *= nodes[node, PASSING]
        carried += nodes[node, STORES] * room[PACE] * nodes[node, TEMP] + nodes[node, SUN]
        nodes[node, RHS] = carried
    chain[SOURCE] = carried


@compiled
def near_side(chain: Array, nodes: Array, core: Array, room: Array) -> None:
    """Films of air and rays at the near face, and how vapour would settle there."""
    if chain[NEAR] == AT_WATER:
        chain[FILM] = chain[NEAR_FILM]
        return
    old = core.shape[0] + 1
    area, face = chain[AREA], nodes[int(chain[LAST]), TEMP]
    chain[FILM] = area * near_film(chain[TURNED], face - core[A, old])
    chain[RAYS] = area * rays(face, core[R, old], chain[STAR])
    if chain[WETS] > 0.0:
        vapour = saturation(face)
        chain[STEEP] = slope(face) * LIGHTER * room[PRESSURE] / (room[PRESSURE] - vapour) ** 2
        chain[DEW] = ratio_of(vapour, room[PRESSURE]) - chain[STEEP] * face


@compiled
def near_film(turned: float, difference: float) -> float:
    """Film of still air at a face so much warmer than the air."""
    if turned == WALL:
        film = film_wall(difference)
    elif (difference > 0.0) == (turned == LOOKS_UP):
        film = film_up(difference)
    else:
        film = film_down(difference)
    return max(film, CALM)


@compiled
def air_speed(body: Array, temp: float, room: Array) -> float:
    """Of the air over a body of water: still, its fan's, or in the open the wind."""
    speed = body[STILL]
    if room[THERE] == 0.0:
        speed = max(speed, room[LOCAL_WIND])
    if temp > body[FAN_ABOVE] and room[CURRENT] > 0.0:
        speed = max(speed, body[FAN_SPEED])
    return speed


@compiled
def water_films(
    body: Array, temp: float, air_c: float, radiant_c: float, speed: float
) -> tuple[float, float]:
    """Film and rays at a water surface for its whole area, W/K, with what its cover takes off."""
    film = max(film_water(temp - air_c), CALM)
    if speed > _MOVING:
        film = max(film, film_wind(speed))
    ray = rays(temp, radiant_c, body[B_STAR])
    under = 1.0 / (1.0 / (film + ray) + body[COVER_RESISTANCE]) / (film + ray)
    share = body[SURFACE] * (1.0 - body[COVERED] + body[COVERED] * under)
    return film * share, ray * share


@compiled
def water_side(body: Array, temp: float, core: Array, room: Array) -> None:
    """What leaves the surface of a body, as straight lines; its temperature is `temp`."""
    old = core.shape[0] + 1
    air_c, ratio = core[A, old], core[W, old]
    speed = air_speed(body, temp, room)
    over, vapour = body[ACTIVITY] * saturation(temp), vapour_of(ratio, room[PRESSURE])
    lost = body[EVAPORATES] * shah(temp, air_c, over, vapour, room[PRESSURE], speed)
    pull, steep = over - vapour, body[ACTIVITY] * slope(temp)
    rate = lost / pull if abs(pull) > _HARDLY else WEAK * body[EVAPORATES]
    moist = LIGHTER * room[PRESSURE] / (LIGHTER + ratio) ** 2
    open_area = body[SURFACE] * (1.0 - body[COVERED])
    size = room[LATENT] * open_area * rate
    body[L_GIVEN] = size * (pull - steep * temp + moist * ratio)
    body[L_TEMP], body[L_RATIO] = size * steep, size * moist
    body[L_TOP] = body[TOPS_UP] * max(lost, 0.0) * open_area * WATER_HEAT
    body[L_AIR], body[L_RAYS] = water_films(body, temp, air_c, core[R, old], speed)


@compiled
def join_water(chain: Array, core: Array) -> None:
    """A chain whose near face is wetted by a body."""
    row, film, right = B + int(chain[NEAR_AT]), chain[FILM], core.shape[0]
    diagonal = chain[DIAGONAL] + film
    core[row, row] += film - film * film / diagonal
    core[row, right] += film * chain[SOURCE] / diagonal


@compiled
def join_room(chain: Array, nodes: Array, core: Array) -> None:
    """A chain whose near face looks into the room; its far face may be wetted by a body."""
    film, ray, wet, right = chain[FILM], chain[RAYS], chain[WET], core.shape[0]
    chain[NEAR_DIAGONAL] = chain[DIAGONAL] + film + ray + wet * chain[STEEP]
    chain[NEAR_SOURCE] = chain[SOURCE] - wet * chain[DEW]
    core[A, A] += film
    core[R, R] += ray
    eliminate(chain, core, A, film)
    eliminate(chain, core, R, ray)
    if wet > 0.0:
        core[W, W] += wet
        core[W, right] += wet * chain[DEW]
        eliminate(chain, core, W, wet * chain[STEEP])
    if chain[FAR] == WATER:
        tie_body(chain, nodes, core)


@compiled
def eliminate(chain: Array, core: Array, row: int, enters: float) -> None:
    """Put the near face's equation into a row of the core that it enters with a coefficient."""
    share = enters / chain[NEAR_DIAGONAL]
    core[row, A] -= share * chain[FILM]
    core[row, R] -= share * chain[RAYS]
    core[row, W] -= share * chain[WET]
    core[row, core.shape[0]] += share * chain[NEAR_SOURCE]


@compiled
def tie_body(chain: Array, nodes: Array, core: Array) -> None:
    """The body behind a chain that looks into the room: symmetric elimination of all its nodes."""
    row, last = B + int(chain[FAR_AT]), int(chain[LAST])
    stiff, given = chain[FAR_LEADS], 0.0
    for node in range(int(chain[FIRST]), last):
        stiff -= nodes[node, TIED] * nodes[node, TIED] * nodes[node, INVERSE]
        given += nodes[node, TIED] * nodes[node, RHS] * nodes[node, INVERSE]
    tied = nodes[last, TIED]
    share = tied / chain[NEAR_DIAGONAL]
    core[row, row] += stiff - tied * share
    core[row, core.shape[0]] += given
    eliminate(chain, core, row, tied)
    core[A, row] -= chain[FILM] * share
    core[R, row] -= chain[RAYS] * share
    core[W, row] -= chain[WET] * chain[STEEP] * share
