"""What one hour of weather does at the surfaces: the sun on every face, into the water, the sky, the wind. Compiled."""

from __future__ import annotations

import math

from tidestead.core.compiled import compiled, joined, kernel
from tidestead.core.dims import Array
from tidestead.physics import _air_laws, _sky_laws
from tidestead.physics.heat import _laws
from tidestead.physics.heat._tables import (
    ABSORBS,
    ALBEDO,
    AREA,
    B_SUN,
    CHANGES,
    CLEAN,
    CLEAR_SUN,
    COVERED,
    CURRENT,
    EXPOSURE,
    FACE,
    FAR,
    FIRST,
    GROUND_C,
    LAMPS,
    LAST,
    LOCAL_WIND,
    OUT_C,
    OUT_RATIO,
    PASSES,
    PRESSURE,
    ROOM_LAMPS,
    SHADE_SHARE,
    SHADE_WARMS,
    SHADED,
    SHEET,
    SKY_C,
    SKY_VIEW,
    SOLID_SUN,
    SUN,
    SUN_DIFFUSE,
    SUNNY,
    SURFACE,
    WATER_SUN,
    WEATHER,
    WIND_FILM,
    Place,
    Tables,
)

saturation = compiled(_air_laws.saturation_pressure)
ratio_of = joined(_air_laws.humidity_ratio)
film_wind = joined(_laws.film_wind)
sky_temperature = compiled(_sky_laws.sky_temperature)

TEMP_ROW, HUMIDITY_ROW, PRESSURE_ROW, WIND_ROW, BEAM_ROW, DIFFUSE_ROW, TOTAL_ROW, SKY_ROW, GROUND_ROW = range(
    9
)
"""Rows of a year of weather, and the temperature of the ground."""

_LOW = 0.087
"""Cosine below which a sun near the horizon is not made brighter: 5 degrees of height. Source: Hay and Davies (1980)
as pvlib has it."""


@kernel
def fill_hour(tables: Tables, place: Place, weather: Array, at: int) -> None:
    """All of an hour that does not depend on what happens inside, but for the shade."""
    room = tables.room
    temp, wind = weather[TEMP_ROW, at], weather[WIND_ROW, at] * room[EXPOSURE]
    room[OUT_C], room[PRESSURE] = temp, weather[PRESSURE_ROW, at]
    room[OUT_RATIO] = ratio_of(weather[HUMIDITY_ROW, at] * saturation(temp), weather[PRESSURE_ROW, at])
    room[LOCAL_WIND], room[WIND_FILM] = wind, film_wind(wind)
    room[SKY_C] = sky_temperature(weather[SKY_ROW, at])
    room[GROUND_C], room[CURRENT] = weather[GROUND_ROW, at], place.power[at]
    room[ROOM_LAMPS] = place.room_lamps[at] * room[CURRENT]
    room[CHANGES] = place.changes[at] * room[CURRENT]
    passed = 1.0 - room[SHADE_SHARE] * max(room[SHADED], place.drawn[at])
    fill_faces(tables, place, weather, at)
    fill_water(tables, place, weather, at, passed)
    fill_chains(tables, place, at, passed)


@joined
def fill_faces(tables: Tables, place: Place, weather: Array, at: int) -> None:
    """Sun on every direction: straight, and from the sky and the ground. The bright part round the sun goes with it.

    By Hay and Davies: the sky's light is bright round the sun by the share A = beam/(beam above the air).
    """
    chains, faces = tables.chains, tables.faces
    height, top = place.height[at], place.top[at]
    beam, diffuse, total = weather[BEAM_ROW, at], weather[DIFFUSE_ROW, at], weather[TOTAL_ROW, at]
    bright = 0.0
    if height > 0.01 and top > 0.0:
        bright = min(max(beam * height / top, 0.0), 1.0)
    straight = beam + diffuse * bright / max(height, _LOW)
    for chain in range(chains.shape[0]):
        face = int(chains[chain, FACE])
        if face >= 0:
            sky = chains[chain, SKY_VIEW]
            faces[face, 0] = straight * place.cosine[face, at]
            faces[face, 1] = diffuse * (1.0 - bright) * sky + total * tables.room[ALBEDO] * (1.0 - sky)


@joined
def fill_water(tables: Tables, place: Place, weather: Array, at: int, passed: float) -> None:
    """Sun, cover and lamps of each body of water."""
    bodies, room = tables.bodies, tables.room
    level = max(weather[TOTAL_ROW, at] - weather[DIFFUSE_ROW, at], 0.0)
    room[WATER_SUN] = 0.0
    for body in range(bodies.shape[0]):
        cover = place.body_cover[body, at]
        bodies[body, COVERED], bodies[body, LAMPS] = cover, place.body_lamps[body, at]
        open_share = 1.0 - cover + cover * bodies[body, PASSES]
        sun = level * place.body_sun[body, at] + weather[DIFFUSE_ROW, at] * bodies[body, SUN_DIFFUSE]
        bodies[body, B_SUN] = sun * bodies[body, SURFACE] * open_share * passed
        room[WATER_SUN] += bodies[body, B_SUN]


@joined
def fill_chains(tables: Tables, place: Place, at: int, passed: float) -> None:
    """Sun that outer faces and panes take, and what comes through the windows, shared out inside."""
    chains, nodes, faces = tables.chains, tables.nodes, tables.faces
    through = 0.0
    nodes[:, SUN] = 0.0
    for chain in range(chains.shape[0]):
        face = int(chains[chain, FACE])
        if face < 0 or chains[chain, FAR] != WEATHER:
            continue
        if chains[chain, SHEET] >= 0.0:
            through += fill_panes(tables, place, chain, at)
        else:
            sun = faces[face, 0] + faces[face, 1]
            nodes[int(chains[chain, FIRST]), SUN] += chains[chain, AREA] * chains[chain, ABSORBS] * sun
    tables.room[CLEAR_SUN] = through * passed
    inside = max(through * passed - tables.room[WATER_SUN], 0.0)
    inside += through * (1.0 - passed) * tables.room[SHADE_WARMS]
    for chain in range(chains.shape[0]):
        nodes[int(chains[chain, LAST]), SUN] += inside * chains[chain, SUNNY]
    tables.room[SOLID_SUN] = 0.0
    for node in range(nodes.shape[0]):
        tables.room[SOLID_SUN] += nodes[node, SUN]


@joined
def fill_panes(tables: Tables, place: Place, chain: int, at: int) -> float:
    """Heat that the panes of a window keep; returns the sun that comes through it, W."""
    row = tables.chains[chain]
    face, sheet = int(row[FACE]), int(row[SHEET])
    size = row[AREA] * row[CLEAN]
    beam, diffuse = tables.faces[face, 0] * size, tables.faces[face, 1] * size
    if beam + diffuse <= 0.0:
        return 0.0
    degree = math.acos(min(max(place.cosine[face, at], 0.0), 1.0)) * 57.29577951308232
    line = min(int(degree), 89)
    part = degree - line
    first, last = int(row[FIRST]), int(row[LAST])
    for pane in range(last - first + 1):
        low, high = place.sheet_beam[sheet, line, 1 + pane], place.sheet_beam[sheet, line + 1, 1 + pane]
        taken = beam * (low + part * (high - low)) + diffuse * place.sheet_diffuse[sheet, 1 + pane]
        tables.nodes[first + pane, SUN] += taken
    low, high = place.sheet_beam[sheet, line, 0], place.sheet_beam[sheet, line + 1, 0]
    return beam * (low + part * (high - low)) + diffuse * place.sheet_diffuse[sheet, 0]
