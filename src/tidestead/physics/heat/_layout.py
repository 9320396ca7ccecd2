"""From a system to the arrays of the engine."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np

from tidestead.core.dims import Array
from tidestead.core.weather import HOURS, SunPath
from tidestead.physics.heat._sharing import star_shares, sun_shares
from tidestead.physics.heat._tables import (
    AIR,
    AT_ROOM,
    AT_WATER,
    BODY,
    CHAIN,
    CLEAR,
    FAR,
    FAR_AT,
    FIRST,
    GROUND,
    KEPT,
    LAST,
    LINKS,
    LOOKS_DOWN,
    LOOKS_UP,
    NEAR,
    NEAR_AT,
    NOTHING,
    PACE,
    ROOM,
    SIDE,
    STEPS,
    TEMP,
    WALL,
    WATER,
    WEATHER,
    Place,
    Tables,
)
from tidestead.physics.heat.system import Layer, Room, Sheet, Side, System, Wall, Window

_STEP = 900.0
"""Seconds for which walls are cut into pieces: a piece is as thick as warmth goes in that time."""

_MOST_PIECES = 6
_SKIN = 500.0
"""J/(m2 K) that a surface stores at least, so that every surface has a rate of change: paint and the air on it."""

_WATER_FILM = 200.0
"""W/(m2 K) between water and the side that holds it. Common practice, no source; it hardly matters."""

LATENT = 2.442e6
"""Heat to evaporate a kilogram at 25 degC, J/kg; one value for all temperatures so that nothing is lost between
water, air and glazing. From 15 to 35 degC it is within 1 %."""

_FAR = {"weather": WEATHER, "air": AIR, "ground": GROUND, "kept": KEPT, "nothing": NOTHING}


@dataclass
class Drawn:
    """Chains and nodes as they are put together."""

    rows: list[dict[str, float]] = field(default_factory=list)
    stores: list[float] = field(default_factory=list)
    leads: list[float] = field(default_factory=list)
    faces: list[tuple[float, float]] = field(default_factory=list)
    sheets: list[Sheet] = field(default_factory=list)

    def add(self, stores: Sequence[float], leads: Sequence[float], **row: float) -> None:
        """One chain: what its nodes store, the conductances between them, and what it is."""
        blank = dict.fromkeys(CHAIN, 0.0) | {"face": -1.0, "sheet": -1.0, "clean": 1.0}
        ends = {"first": float(len(self.stores)), "last": float(len(self.stores) + len(stores) - 1)}
        self.rows.append(blank | ends | row)
        self.stores += stores
        self.leads += [*leads, 0.0]

    def face(self, tilt: float, azimuth: float) -> float:
        """The number of a direction, new or known."""
        key = (round(tilt, 9), round(azimuth % (2.0 * math.pi), 9))
        if key not in self.faces:
            self.faces.append(key)
        return float(self.faces.index(key))

    def sheet(self, sheet: Sheet) -> float:
        """The number of a kind of clear sheet, new or known."""
        for number, known in enumerate(self.sheets):
            if known is sheet:
                return float(number)
        self.sheets.append(sheet)
        return float(len(self.sheets) - 1)


def pieces(layers: Sequence[Layer], area: float) -> tuple[list[float], list[float]]:
    """Stores of the nodes and conductances between them, of layers one after the other."""
    stores, leads = [_SKIN], []
    for layer in layers:
        if layer.resistance is not None:
            leads.append(1.0 / layer.resistance)
            stores.append(0.0)
            continue
        content = layer.density * layer.heat
        deep = math.sqrt(3.0 * layer.conductivity / content * _STEP) if content > 0.0 else math.inf
        number = max(1, min(_MOST_PIECES, math.ceil(layer.thickness / deep - 1e-9)))
        thick = layer.thickness / number
        for _ in range(number):
            stores[-1] += 0.5 * content * thick
            stores.append(0.5 * content * thick)
            leads.append(layer.conductivity / thick)
    stores[-1] += _SKIN
    return _joined([area * one for one in stores], [area * one for one in leads])


def _joined(stores: list[float], leads: list[float]) -> tuple[list[float], list[float]]:
    """Nodes that store nothing are taken out: their two conductances become one."""
    kept, joined = [stores[0]], []
    waiting = 0.0
    for store, lead in zip(stores[1:], leads, strict=True):
        waiting += 1.0 / lead
        if store > 0.0:
            kept.append(store)
            joined.append(1.0 / waiting)
            waiting = 0.0
    return kept, joined


def laid_out(system: System, sun: SunPath, power: Array | None = None) -> tuple[Tables, Place]:
    """The system as tables, and what the hours bring at its place. `power` by hour: 1 where there is electricity."""
    drawn = Drawn()
    for wall in system.walls:
        _wall(drawn, wall)
    for window in system.windows:
        _window(drawn, window)
    for number, body in enumerate(system.bodies):
        for side in body.sides:
            _side(drawn, side, number)
    inside = [row for row in drawn.rows if row["near"] == AT_ROOM]
    stars, water_stars = star_shares(inside, system.bodies, system.room is not None)
    for row, star, share in zip(inside, stars, sun_shares(system, inside, drawn.sheets), strict=True):
        row["star"], row["sunny"] = star, share
    for row in drawn.rows:
        if row["face"] >= 0.0:
            row["sky_view"] = (1.0 + math.cos(drawn.faces[int(row["face"])][0])) / 2.0
    core = 3 + len(system.bodies)
    tables = Tables(
        _table([[row[name] for name in CHAIN] for row in drawn.rows], len(CHAIN), 32),
        _table([list(pair) for pair in zip(drawn.stores, drawn.leads, strict=True)], 2, 11),
        _bodies(system, water_stars),
        np.zeros((core, 2 * core + 4)),
        _room(system),
        _heatings(system),
        np.zeros((max(len(drawn.faces), 1), 2)),
    )
    return tables, _place(system, drawn, sun, np.ones(HOURS) if power is None else power)


def _table(rows: Sequence[Sequence[float]], given: int, wide: int) -> Array:
    """Rows of what never changes, with room for what does."""
    table = np.zeros((len(rows), wide))
    if rows:
        table[:, :given] = rows
    return table


def _turned(tilt: float) -> float:
    """How the near face of a wall is turned, whose outward normal has this tilt."""
    if tilt < math.pi / 4.0:
        return LOOKS_DOWN
    return LOOKS_UP if tilt > 3.0 * math.pi / 4.0 else WALL


def _wall(drawn: Drawn, wall: Wall) -> None:
    stores, leads = pieces(wall.layers, wall.area)
    drawn.add(
        stores,
        leads,
        far=_FAR[wall.outside],
        near=AT_ROOM,
        area=wall.area,
        far_film=wall.area * (1e4 if wall.outside == "ground" else wall.far_film),
        kept=wall.kept_c,
        absorbs=wall.absorptance,
        emits=wall.emissivity,
        face=drawn.face(wall.tilt_rad, wall.azimuth_rad) if wall.outside == "weather" else -1.0,
        star=wall.inside_emissivity,
        turned=_turned(wall.tilt_rad),
        wets=float(wall.wets),
        sunny=wall.inside_absorptance if wall.sun_share is None else -1.0 - wall.sun_share,
    )


def _window(drawn: Drawn, window: Window) -> None:
    sheet, area = window.sheet, window.area
    drawn.add(
        [area * sheet.stores] * sheet.panes,
        [area * gap for gap in sheet.gaps],
        far=WEATHER,
        near=AT_ROOM,
        area=area,
        emits=sheet.emissivity,
        face=drawn.face(window.tilt_rad, window.azimuth_rad),
        sheet=drawn.sheet(sheet),
        clean=window.clean,
        star=sheet.emissivity,
        turned=_turned(window.tilt_rad),
        wets=float(window.wets),
        kind=CLEAR,
    )


def _side(drawn: Drawn, side: Side, body: int) -> None:
    stores, leads = pieces(side.layers, side.area)
    if side.onto == "room":
        drawn.add(
            stores,
            leads,
            far=WATER,
            far_at=float(body),
            near=AT_ROOM,
            area=side.area,
            far_film=side.area * _WATER_FILM,
            star=0.9,
            turned=_turned(math.pi - side.tilt_rad),
            sunny=side.absorptance,
            kind=SIDE,
        )
        return
    drawn.add(
        stores[::-1],
        leads[::-1],
        far=WEATHER if side.onto == "weather" else GROUND,
        near=AT_WATER,
        near_at=float(body),
        area=side.area,
        far_film=side.area * 1e4,
        near_film=side.area * _WATER_FILM,
        absorbs=side.absorptance,
        emits=0.9,
        face=drawn.face(side.tilt_rad, side.azimuth_rad) if side.onto == "weather" else -1.0,
        kind=SIDE,
    )


def _place(system: System, drawn: Drawn, sun: SunPath, power: Array) -> Place:
    bodies = system.bodies
    beam, diffuse = _sheets(drawn.sheets)
    down = sun.up <= 0.0

    def hours(find: str) -> Array:
        rows = [getattr(body, find) for body in bodies]
        return np.array([_hours(row) for row in rows]).reshape(len(bodies), HOURS)

    return Place(
        _cosines(drawn, sun),
        np.where(down, 0.0, np.maximum(np.cos(sun.zenith_rad), 0.0)),
        np.array(sun.top, dtype=np.float64),
        np.array(power, dtype=np.float64),
        beam,
        diffuse,
        hours("sun_beam"),
        hours("cover"),
        hours("lamps"),
        _hours(None if system.room is None else system.room.lamps),
        _hours(None if system.room is None or system.room.shade is None else system.room.shade.drawn),
        _hours(None if system.room is None else system.room.changes),
    )


def _hours(values: Array | None) -> Array:
    """A copy of what is said by hour; nothing where nothing is said."""
    return np.zeros(HOURS) if values is None else np.array(values, dtype=np.float64)


def _cosines(drawn: Drawn, sun: SunPath) -> Array:
    """Cosine of incidence on every direction, nothing where the sun is behind or down."""
    rows = []
    for tilt, azimuth in drawn.faces:
        level = np.sin(sun.zenith_rad) * math.sin(tilt) * np.cos(sun.azimuth_rad - azimuth)
        cosine = np.cos(sun.zenith_rad) * math.cos(tilt) + level
        rows.append(np.where(sun.up > 0.0, np.maximum(cosine, 0.0), 0.0))
    return np.array(rows, dtype=np.float64).reshape(len(drawn.faces), HOURS)


def _sheets(sheets: Sequence[Sheet]) -> tuple[Array, Array]:
    wide = 1 + max((sheet.panes for sheet in sheets), default=1)
    beam, diffuse = np.zeros((len(sheets), 91, wide)), np.zeros((len(sheets), wide))
    for number, sheet in enumerate(sheets):
        beam[number, :, : 1 + sheet.panes] = sheet.beam
        diffuse[number, : 1 + sheet.panes] = sheet.diffuse
    return beam, diffuse


def _bodies(system: System, stars: Sequence[float]) -> Array:
    table = np.zeros((len(system.bodies), LINKS + len(system.bodies)))
    for row, (body, star) in enumerate(zip(system.bodies, stars, strict=True)):
        values = {
            **{
                name: getattr(body, name)
                for name in ("stores", "surface", "activity", "cover_resistance", "gains")
            },
            **{name: getattr(body, name) for name in ("fan_speed", "evaporates", "tops_up", "sun_diffuse")},
            "star": star,
            "passes": body.cover_passes,
            "fan_above": body.fan_above_c,
            "still": body.still_speed,
        }
        table[row, : len(BODY)] = [float(values[name]) for name in BODY]
    for link in system.links:
        table[link.one, LINKS + link.other] += link.carries
        table[link.other, LINKS + link.one] += link.carries
    return table


def _heatings(system: System) -> Array:
    rows = [
        [one.body, one.power, one.setpoint_c, one.band / 2.0, float(one.cools), one.heats_room]
        for one in system.heatings
    ]
    return _table(rows, 6, 7)


_NEVER = 1e9
"""A temperature or a power that is not reached: what is not there has it."""


def _room(system: System) -> Array:
    room = system.room or Room(1.0, 0.0)
    vents, shade, kept = room.vents, room.shade, room.thermostat
    values = {
        "there": float(system.room is not None),
        **{name: getattr(room, name) for name in ("volume", "stores_as", "infiltration", "gains", "radiant")},
        "vent_opens": vents.opens_c if vents is not None else _NEVER,
        "vent_over": vents.over if vents is not None else 1.0,
        "vent_rate": vents.rate if vents is not None else 0.0,
        "vent_area": vents.area if vents is not None else 0.0,
        "vent_height": vents.height if vents is not None else 0.0,
        "vent_powered": float(vents.powered) if vents is not None else 0.0,
        "shade_share": shade.share if shade is not None else 0.0,
        "shade_above": shade.above_c if shade is not None else _NEVER,
        "shade_by_water": float(shade.by_water) if shade is not None else 0.0,
        "shade_warms": shade.warms if shade is not None else 0.0,
        "heat_to": -_NEVER if kept.heat_to_c is None else kept.heat_to_c,
        "heat_most": min(kept.heat_most, _NEVER),
        "cool_to": _NEVER if kept.cool_to_c is None else kept.cool_to_c,
        "cool_most": min(kept.cool_most, _NEVER),
        "albedo": system.albedo,
        "exposure": system.exposure,
        "latent": LATENT,
    }
    row = np.zeros(50)
    row[: len(ROOM)] = [values[name] for name in ROOM]
    return row


def timed(tables: Tables, steps: int) -> Tables:
    """A copy of the tables for a run of so many steps an hour."""
    copy = Tables(*(np.array(table) for table in tables))
    copy.room[PACE], copy.room[STEPS] = steps / 3600.0, float(steps)
    return copy


def warmed(tables: Tables, temps: Sequence[float], air_c: float, ratio: float) -> None:
    """Set every wall and the air to one temperature, the bodies to theirs, sides between the two."""
    old = len(tables.core) + 1
    tables.core[:, old] = [air_c, air_c, ratio, *temps]
    tables.nodes[:, TEMP] = air_c
    for chain in tables.chains:
        if chain[FAR] == WATER or chain[NEAR] == AT_WATER:
            body = int(chain[FAR_AT] if chain[FAR] == WATER else chain[NEAR_AT])
            tables.nodes[int(chain[FIRST]) : int(chain[LAST]) + 1, TEMP] = (temps[body] + air_c) / 2.0
