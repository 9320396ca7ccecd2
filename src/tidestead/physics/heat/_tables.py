"""A system laid out as a few tables of plain numbers, which is what the compiled engine is quick with.

Every wall, window and side of a vessel is a chain of nodes. A chain begins at its far side (weather, plain outdoor
air, ground, a kept place, nothing, or a body of water) and ends at the room or at a body. Each table has columns that
never change, then columns that an hour or a step fills.
"""

from __future__ import annotations

from typing import NamedTuple

from tidestead.core.dims import Array

WEATHER, AIR, GROUND, KEPT, NOTHING, WATER = range(6)
"""Far sides of a chain."""

AT_ROOM, AT_WATER = range(2)
"""Near sides of a chain."""

WALL, LOOKS_UP, LOOKS_DOWN = range(3)
"""How the near face of a chain is turned."""

SOLID, CLEAR, SIDE = range(3)
"""Kinds of chain: wall, window, side of a vessel."""

CHAIN = (
    "first", "last", "far", "far_at", "near", "near_at", "area", "far_film", "near_film", "kept", "absorbs", "emits",
    "face", "sheet", "clean", "star", "turned", "wets", "sunny", "kind", "sky_view",
)  # fmt: skip
(
    FIRST, LAST, FAR, FAR_AT, NEAR, NEAR_AT, AREA, FAR_FILM, NEAR_FILM, KEPT_C, ABSORBS, EMITS, FACE, SHEET, CLEAN,
    STAR, TURNED, WETS, SUNNY, KIND, SKY_VIEW,
    FAR_LEADS, FAR_HEAT, FILM, RAYS, WET, DEW, STEEP, DIAGONAL, SOURCE, NEAR_DIAGONAL, NEAR_SOURCE,
) = range(32)  # fmt: skip
"""Columns of a chain. `star` is its share in the exchange of heat rays, per m2, `sunny` its share of the sun inside.

Filled: conductance and source at the far face; film, rays and settling vapour at the near face, W/K and W; saturation
there as a straight line (dew, steep); the near node's equation before and after its films.
"""

(STORES, LEADS, TEMP, NEW, RHS, INVERSE, PASSING, TIED, SUN, ONWARD, PACED) = range(11)
"""Columns of a node: what it stores, J/K, conductance to the next, W/K; temperature; then the
elimination's, of which `ONWARD` and `PACED` are the conductance over the diagonal and the store over the step."""

BODY = (
    "stores", "surface", "activity", "star", "passes", "cover_resistance", "gains", "fan_speed", "fan_above", "still",
    "evaporates", "tops_up", "sun_diffuse",
)  # fmt: skip
(
    B_STORES, SURFACE, ACTIVITY, B_STAR, PASSES, COVER_RESISTANCE, GAINS, FAN_SPEED, FAN_ABOVE, STILL, EVAPORATES,
    TOPS_UP, SUN_DIFFUSE,
    COVERED, LAMPS, B_SUN, L_AIR, L_RAYS, L_GIVEN, L_TEMP, L_RATIO, L_TOP, WARMED, COOLED, LINKS,
) = range(25)  # fmt: skip
"""Columns of a body of water. Filled: cover, lamps and sun of the hour; what leaves its surface as straight lines of
its temperature and the air's humidity ratio; heaters and chillers. From `LINKS` on: heat carried to each body, W/K."""

(BODY_OF, POWER, SETPOINT, HALF, COOLS, ROOM_HEAT, ON) = range(7)
"""Columns of a heater or chiller."""

ROOM = (
    "there", "volume", "stores_as", "infiltration", "vent_opens", "vent_over", "vent_rate", "vent_area", "vent_height",
    "vent_powered",
    "shade_share", "shade_above", "shade_by_water", "shade_warms", "heat_to", "heat_most", "cool_to", "cool_most",
    "gains", "radiant", "albedo", "exposure", "latent",
)  # fmt: skip
(
    THERE, VOLUME, STORES_AS, INFILTRATION, VENT_OPENS, VENT_OVER, VENT_RATE, VENT_AREA, VENT_HEIGHT, VENT_POWERED,
    SHADE_SHARE, SHADE_ABOVE, SHADE_BY_WATER, SHADE_WARMS, HEAT_TO, HEAT_MOST, COOL_TO, COOL_MOST, ROOM_GAINS,
    ROOM_RADIANT, ALBEDO, EXPOSURE, LATENT,
    SHADED, OPENING, OUT_C, OUT_RATIO, PRESSURE, WIND_FILM, SKY_C, LOCAL_WIND, GROUND_C, CLEAR_SUN, WATER_SUN,
    SOLID_SUN,
    CURRENT,
    KEEPS_HEAT, KEEPS_AIR, MOVES_HEAT, MOVES_AIR, HEATERS_HERE, ROOM_LAMPS,
    THERMOSTAT, PACE, STEPS, CHANGES,
    FOGGY, FOG, FOG_DEW, FOG_STEEP,
) = range(50)  # fmt: skip
"""The room as a row of numbers: what it is, then its controls, the hour outside, what its air stores and carries away,
the clock: one over the step (1/s) and the steps of an hour; whether fog falls, how readily, W, and saturation of the
air as a straight line. `there` is 0 where vessels stand in the open."""

A, R, W, B = 0, 1, 2, 3
"""Rows of the core: air, mean of the surfaces, humidity ratio, first body of water. Its columns: the matrix, then the
right side, the values before and after the step, and room for elimination."""


class Place(NamedTuple):
    """What the hours of a year bring that does not change from year to year; used once an hour.

    `cosine` of incidence by face and hour, `height` cosine of the sun from straight up, `top` its strength above the
    air, `power` whether there is electricity; tables of clear sheets; sun, cover and lamps of
    bodies by hour; what lamps give to the air; whether the shade is drawn whatever the warmth; air
    changes that a clock asks for, 1/s.
    """

    cosine: Array
    height: Array
    top: Array
    power: Array
    sheet_beam: Array
    sheet_diffuse: Array
    body_sun: Array
    body_cover: Array
    body_lamps: Array
    room_lamps: Array
    drawn: Array
    changes: Array


class Tables(NamedTuple):
    """The tables of one run; they change as it goes."""

    chains: Array
    nodes: Array
    bodies: Array
    core: Array
    room: Array
    heatings: Array
    faces: Array
