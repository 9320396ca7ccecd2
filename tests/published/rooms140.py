"""The rooms of ANSI/ASHRAE Standard 140, put together for the year of heat.

Build-up of 600 and 900, their infiltration, gains and glass of 3.175 mm: as the validation data print them. Walls and
roof of 680 and 980, fan of 650, glass of 3.048 mm, thermostats and the cases' windows: as a public library of building
models quotes the edition of 2020. Everything else is our engine's own.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace
from functools import cache

import numpy as np
from scipy.optimize import brentq

from tests.arrays import broadcast
from tidestead.core.dims import Array
from tidestead.core.weather import HOURS
from tidestead.physics import optics
from tidestead.physics.heat import films
from tidestead.physics.heat.system import Layer, Room, Sheet, System, Thermostat, Wall, Window
from tidestead.physics.optics import PlatePile

WOOD = Layer(0.009, 0.14, 530.0, 900.0)
LIGHT = (WOOD, Layer(0.066, 0.04, 12.0, 840.0), Layer(0.012, 0.16, 950.0, 840.0))
HEAVY = (WOOD, Layer(0.0615, 0.04, 10.0, 1400.0), Layer(0.1, 0.51, 1400.0, 1000.0))
ROOF = (Layer(0.019, 0.14, 530.0, 900.0), Layer(0.1118, 0.04, 12.0, 840.0), Layer(0.010, 0.16, 950.0, 840.0))
LIGHT_FLOOR = (Layer(resistance=1.003 / 0.04), Layer(0.025, 0.14, 650.0, 1200.0))
HEAVY_FLOOR = (Layer(resistance=1.007 / 0.04), Layer(0.08, 1.13, 1400.0, 1000.0))
THICK = {
    False: (LIGHT[0], Layer(0.25, 0.04, 10.0, 1400.0), LIGHT[2]),
    True: (HEAVY[0], Layer(0.2452, 0.04, 10.0, 1400.0), HEAVY[2]),
}
THICK_ROOF = (ROOF[0], Layer(0.4, 0.04, 12.0, 840.0), ROOF[2])
FACES = {"north": (21.6, 0.0), "east": (16.2, 0.5), "south": (21.6, 1.0), "west": (16.2, 1.5)}
"""Area, m2, and bearing in half turns."""

SOUTH, EAST_WEST = {"south": 12.0}, {"east": 6.0, "west": 6.0}
PRINTED_THROUGH, PRINTED_BACK, GLASS_INDEX = 0.86156, 0.0434, 1.526
QUOTED_THROUGH, QUOTED_BACK = 0.834, 0.075
GLASS_EMITS, AIR_CONDUCTS = 0.84, 0.0247
"""Of glass; W/(m K) of air at 10 degC. From memory."""

GLASS_HEAT = 2500.0 * 840.0
"""J/(m3 K). From memory; handbooks have 750 to 840 J/(kg K)."""


@cache
def printed_glass() -> PlatePile:
    """A pane as the validation data print it. The reflectance can only be that of one surface: it is that of index
    1.526, and no glass with two surfaces throws back so little."""
    return optics.fitted_pile(1, GLASS_INDEX, PRINTED_THROUGH)


@cache
def quoted_glass() -> PlatePile:
    """A pane as the edition of 2020 is quoted: index and absorption that give both its figures."""

    def off(index: float) -> float:
        pane = optics.fitted_pile(1, index, QUOTED_THROUGH)
        return float(optics.pile_reflectance(0.0, pane)) - QUOTED_BACK

    return optics.fitted_pile(1, float(brentq(off, 1.3, 1.6)), QUOTED_THROUGH)


def gap(width: float) -> float:
    """W/(m2 K) of air between panes: rays at 10 degC, and air that lies still."""
    pair = 1.0 / (2.0 / GLASS_EMITS - 1.0)
    return float(films.radiation_film(10.0, 10.0, pair)) + AIR_CONDUCTS / width


def panes(pane: PlatePile, count: int, thickness: float, width: float) -> Sheet:
    """One pane or two. What both take together is the pile's; it is shared as the mean of light would be."""
    angles = np.radians(np.arange(91.0))
    beam = _parts(angles, pane, count)

    def share(column: int) -> Callable[[float], float]:
        return lambda angle: broadcast(_parts(np.asarray(angle), pane, count)[:, column])

    diffuse = np.array([float(optics.hemispherical_mean(share(column))) for column in range(count + 1)])
    return Sheet(beam, diffuse, (gap(width),) * (count - 1), thickness * GLASS_HEAT, GLASS_EMITS)


def _parts(angles: Array, pane: PlatePile, count: int) -> Array:
    pile = replace(pane, walls=count)
    many = broadcast(angles)
    through, kept = optics.pile_transmittance(many, pile), optics.pile_absorptance(many, pile)
    if count == 1:
        return np.column_stack([through, kept])
    passes, back = optics.pile_transmittance(many, pane), optics.pile_reflectance(many, pane)
    outer, inner = 1.0 - back**2 + passes * back, passes
    return np.column_stack([through, kept * outer / (outer + inner), kept * inner / (outer + inner)])


@cache
def printed_sheet() -> Sheet:
    """Two panes of 3.175 mm, 13 mm apart."""
    return panes(printed_glass(), 2, 0.003175, 0.013)


@cache
def quoted_sheet(count: int = 2) -> Sheet:
    """Panes of 3.048 mm, 12 mm apart."""
    return panes(quoted_glass(), count, 0.003048, 0.012)


def room140(
    heavy: bool, sheet: Sheet, clear: dict[str, float], thick: bool = False, exposure: float = 0.7
) -> System:
    """The room of 8 by 6 by 2.7 m, its temperature left to itself."""
    layers = THICK[heavy] if thick else (HEAVY if heavy else LIGHT)
    walls = [
        Wall(name, area - clear.get(name, 0.0), layers, azimuth_rad=turns * math.pi)
        for name, (area, turns) in FACES.items()
    ]
    walls.append(Wall("roof", 48.0, THICK_ROOF if thick else ROOF, tilt_rad=0.0))
    floor = HEAVY_FLOOR if heavy else LIGHT_FLOOR
    walls.append(Wall("floor", 48.0, floor, "air", math.pi, far_film=25.0))
    windows = [
        Window(name, area, sheet, azimuth_rad=FACES[name][1] * math.pi, wets=False)
        for name, area in clear.items()
    ]
    room = Room(129.6, 0.414 / 3600.0, gains=80.0, radiant=120.0)
    return System(room, tuple(walls), tuple(windows), albedo=0.2, exposure=exposure)


def kept(system: System, heat_to_c: float, cool_to_c: float) -> System:
    """The same with heating and cooling as strong as need be."""
    assert system.room is not None
    thermostat = Thermostat(heat_to_c=heat_to_c, cool_to_c=cool_to_c)
    return replace(system, room=replace(system.room, thermostat=thermostat))


def aired(system: System) -> System:
    """The same with a fan from 18:00 to 07:00: 1,409 m3 an hour, as a public library quotes it for this altitude."""
    assert system.room is not None
    hour = np.arange(HOURS) % 24
    changes = np.where((hour < 7) | (hour >= 18), 1409.0 / system.room.volume / 3600.0, 0.0)
    return replace(system, room=replace(system.room, changes=changes))


def case140(name: str, exposure: float = 0.7) -> System:
    """A case by its number, with the glass of the edition of 2020. FF: left to itself."""
    number = int(name.removesuffix("FF"))
    heavy, kind = number >= 900, number % 100
    clear = EAST_WEST if kind == 20 else SOUTH
    system = room140(heavy, quoted_sheet(1 if kind == 70 else 2), clear, kind in (80, 95), exposure)
    if kind == 50:
        system = aired(system)
    if name.endswith("FF"):
        return system
    return kept(system, 20.0, 20.0 if kind in (85, 95) else 27.0)
