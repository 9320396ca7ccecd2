"""Systems and weather for tests of the year of heat: a tank in a lean-to, a pond, a dry box; made and steady weather.

Sizes and figures are our own. The lean-to holds a tank of 11 m3 with sides of plywood, a window and a slab, vents, a
shade and a heater: everything that the engine knows meets in it.
"""

from __future__ import annotations

import math
from dataclasses import replace
from functools import cache
from typing import Any

import numpy as np

from tests.laws.sun_paths import sun_path
from tests.laws.test_climate import COAST
from tidestead.core.dims import Array
from tidestead.core.weather import HOURS, SunPath
from tidestead.physics import _sky_laws, air, optics
from tidestead.physics.climate import years
from tidestead.physics.heat import engine, films
from tidestead.physics.heat._rows import rows_of
from tidestead.physics.heat.system import (
    Body,
    Heating,
    Layer,
    Room,
    Shade,
    Sheet,
    Side,
    System,
    Thermostat,
    Vents,
    Wall,
    Window,
)

LATITUDE = 55.3
UPRIGHT, LEVEL, UNDER = math.pi / 2.0, 0.0, math.pi
PRESSURE = 101325.0
PLY = Layer(0.018, 0.13, 500.0, 1600.0)
FOAM = Layer(0.1, 0.04, 30.0, 1030.0)
ACRYLIC = Layer(0.06, 0.19, 1190.0, 1470.0)
CONCRETE = Layer(0.15, 1.65, 2200.0, 1000.0)
SOIL = Layer(0.5, 2.0, 2000.0, 1000.0)
STORES = 11.2 * 4.09e6


@cache
def clear_sheet(panes: int = 2, passes: float = 0.73, transmittance: float = 2.3) -> Sheet:
    """A sheet of so many panes; what does not pass is half taken by them."""
    angles = np.radians(np.arange(91.0))
    through = np.asarray(optics.sheet_transmittance(angles, panes, 1.585, passes))
    taken = np.repeat(((1.0 - through) * 0.3 / panes)[:, None], panes, axis=1)
    beam = np.column_stack([through, taken])
    beam[90] = 0.0
    weight = np.sin(2.0 * angles)
    diffuse = (beam * weight[:, None]).sum(axis=0) / weight.sum()
    gaps = () if panes == 1 else (float(films.sheet_conductance(transmittance)) * (panes - 1),) * (panes - 1)
    return Sheet(beam, diffuse, gaps, 2.7 * 1200.0 / panes)


def tank(**changes: Any) -> Body:
    """Water of 11.2 m3 with 10.6 m2 of surface."""
    sides = (
        Side(12.0, (PLY,)),
        Side(3.7, (ACRYLIC,)),
        Side(8.8, (CONCRETE, SOIL), "ground", UNDER),
    )
    plain: dict[str, Any] = {
        "sides": sides,
        "activity": 0.981,
        "sun_beam": np.full(HOURS, 0.4),
        "sun_diffuse": 0.38,
        "gains": 150.0,
    }
    return Body("tank", STORES, 10.6, **{**plain, **changes})


def leanto(
    body: Body | None = None, heatings: tuple[Heating, ...] = (Heating(0, 1500.0, 24.5),), **room: Any
) -> System:
    """The tank in a lean-to of 7.2 by 4.6 m, its front to the south-east."""
    sheet, front = clear_sheet(), math.radians(135.0)
    slope = math.atan((3.4 - 2.3) / 4.6)
    windows = (
        Window("front", 16.6, sheet, UPRIGHT, front, 0.68),
        Window("left", 13.1, sheet, UPRIGHT, front - UPRIGHT, 0.68),
        Window("right", 13.1, sheet, UPRIGHT, front + UPRIGHT, 0.68),
        Window("roof", 34.1, sheet, slope, front, 0.68),
    )
    walls = (
        Wall("back", 24.5, (PLY, FOAM, PLY), azimuth_rad=front + math.pi),
        Wall("floor", 24.3, (SOIL, CONCRETE), "ground", UNDER),
    )
    plain: dict[str, Any] = {
        "vents": Vents(26.0, 4.0, rate=30.0 / 3600.0),
        "shade": Shade(0.6, 27.0),
    }
    space = Room(94.4, 0.75 / 3600.0, **{**plain, **room})
    return System(space, walls, windows, (tank() if body is None else body,), heatings)


def pond(**changes: Any) -> System:
    """The tank in the open, its plywood to the weather."""
    sides = (Side(12.0, (PLY,), "weather"), Side(8.8, (CONCRETE, SOIL), "ground", UNDER))
    return System(bodies=(tank(**{"sides": sides, **changes}),), exposure=0.7)


def box(layers: tuple[Layer, ...], area: float = 15.0, walls: int = 4, **room: Any) -> System:
    """A dry room of so many like upright walls to plain outdoor air, and nothing else."""
    made = tuple(Wall(f"wall {n}", area, layers, "air", UPRIGHT, far_film=25.0) for n in range(walls))
    return System(Room(100.0, 0.0, **room), made)


def heated(system: System, heat_to_c: float, cool_to_c: float | None = None) -> System:
    """The same with an ideal thermostat on the air."""
    assert system.room is not None
    return replace(
        system,
        room=replace(system.room, thermostat=Thermostat(heat_to_c=heat_to_c, cool_to_c=cool_to_c)),
    )


def steady(
    temp_c: float,
    humidity: float = 0.5,
    wind: float = 0.0,
    ground_c: float | None = None,
    sky_c: float | None = None,
) -> Array:
    """Weather that never changes and has no sun; sky and ground as warm as the air where not told."""
    sky = _sky_laws.sky_longwave(1.0, temp_c if sky_c is None else sky_c)
    ground = temp_c if ground_c is None else ground_c
    column = [temp_c, humidity, PRESSURE, wind, 0.0, 0.0, 0.0, sky, ground]
    return np.repeat(np.array(column)[:, None], HOURS, axis=1)


@cache
def night() -> SunPath:
    """A sun that never rises."""
    nothing = np.zeros(HOURS)
    return SunPath(nothing + math.pi, nothing, nothing, nothing)


@cache
def coast(number: int = 0) -> Array:
    """A made year of a cool coast as rows of the engine; treat as read-only."""
    sun = sun_path(LATITUDE)
    return rows_of(years.year_of(years.climate_of(COAST, sun), 11, number), sun.top)


def prepared(system: System, power: Array | None = None) -> engine.Prepared:
    """Laid out for the coast."""
    return engine.prepare(system, sun_path(LATITUDE), power)


def at_rest(system: System, rows: Array, start: float = 20.0, days: int = 30) -> engine.HeatYear:
    """Without sun, from one temperature on, until nothing changes any more; the last day of it."""
    ready = engine.prepare(system, night())
    state = engine.begin(ready, [start] * len(system.bodies), start)
    end = engine.run(ready, rows, state, 24 * days, 0, 1).end
    return engine.run(ready, rows, end, 24)


def outdoor_ratio(temp_c: float, humidity: float) -> float:
    """Water in a kilogram of dry air outdoors."""
    vapour = humidity * float(air.saturation_pressure(temp_c))
    return 0.621945 * vapour / (PRESSURE - vapour)
