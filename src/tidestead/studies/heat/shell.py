"""Walls, windows and floor of the building, as the year of heat takes them."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace

import numpy as np

from tidestead.catalog import table
from tidestead.core.dims import Array
from tidestead.physics.heat import films, ground
from tidestead.physics.heat.system import Layer, Sheet, Wall, Window
from tidestead.plan.climate_fields import Layer as TypedLayer
from tidestead.plan.model import Plan
from tidestead.studies.heat.dials import Dials
from tidestead.studies.house import Glazing, House, HouseFace, sun_absorbed, sun_through

_ANGLES: Array = np.radians(np.arange(91.0))
_EMITS = {True: 0.84, False: 0.9}
"""Emissivity of glass and of plastics. From memory."""

_HEAT = {True: 750.0, False: 1200.0}
"""J/(kg K) of glass and of polycarbonate. From memory."""

_GLASS_INDEX = 1.526
_BARE = 5.7
"""W/(m2 K): a single sheet of this transmittance holds nothing back but by the air on its two faces."""

_SOIL = 0.5
"""Metres of soil under a slab that store heat with it, as ISO 13370 has it."""

_FILMS = 0.17 + 0.04
_OPEN_SLAB = 20.0
"""Square metres of slab that a vessel in the open is taken to stand on. Own choice."""

NEIGHBOUR_C = 15.0
"""Of another building against a wall, where the plan does not say. Own choice."""

GROUND = {"rock": "rock", "sedimentary-rock": "rock", "gravel": "gravel", "sand": "gravel", "clay": "clay"}
"""Soils of the plan and the three kinds of ground that ISO 13370 knows; others are taken as sand or gravel."""


def solid_layers(layers: Sequence[TypedLayer]) -> tuple[Layer, ...]:
    """Typed layers with the catalogue's figures."""
    return tuple(_solid(layer) for layer in layers)


def _solid(layer: TypedLayer) -> Layer:
    if layer.resistance is not None:
        return Layer(resistance=layer.resistance)
    row = table("layers")[layer.material]
    return Layer(layer.thickness, row.si("conductivity"), row.si("density"), row.si("heat"))


def sheet_of(glazing: Glazing, factor: float) -> Sheet:
    """Clear sheet as panes with tables by angle; two panes stand for all walls of a multi-wall sheet.

    `factor` is on its transmittance. A single sheet that holds heat back is two panes too; a bare one is one, and holds
    no less however large the factor.
    """
    glass = abs(glazing.index - _GLASS_INDEX) < 1e-6
    passes = np.minimum(sun_through(glazing, _ANGLES), 1.0)
    # makers print more than plain plates let through, and what is left over is then a hair less than nothing
    keeps = np.clip(sun_absorbed(glazing, _ANGLES), 0.0, 1.0 - passes)
    value = glazing.transmittance * factor
    panes = 1 if glazing.walls == 1 and value >= _BARE else 2
    beam = np.column_stack([passes, *([keeps / panes] * panes)])
    beam[90] = 0.0
    gaps = () if panes == 1 else (float(films.sheet_conductance(min(value, _BARE))),)
    return Sheet(beam, _everywhere(beam), gaps, glazing.mass * _HEAT[glass] / panes, _EMITS[glass])


def _everywhere(beam: Array) -> Array:
    """Mean over light from every direction of half a sphere, by the middle of each degree."""
    middle = np.radians(np.arange(90.0) + 0.5)
    weight = np.sin(2.0 * middle)
    mean: Array = ((beam[:-1] + beam[1:]) / 2.0 * weight[:, None]).sum(axis=0) / weight.sum()
    return mean


def windows_of(house: House, dials: Dials) -> tuple[Window, ...]:
    """The clear part of every face that has one and sees the sky."""
    sheets: dict[str, Sheet] = {}
    found = []
    for face in house.faces:
        if face.glazing is None or face.clear <= 0.0 or face.behind == "building":
            continue
        key = f"{face.glazing.name} {face.glazing.transmittance} {face.glazing.light}"
        if key not in sheets:
            sheets[key] = sheet_of(face.glazing, dials.glazing)
        clean = (1.0 - house.dirt) * (1.0 - house.bars)
        found.append(Window(face.name, face.clear, sheets[key], face.tilt_rad, face.azimuth_rad, clean))
    return tuple(found)


def walls_of(house: House) -> tuple[Wall, ...]:
    """The solid part of every face."""
    return tuple(wall for face in house.faces for wall in _solid_part(face))


def _solid_part(face: HouseFace) -> Iterator[Wall]:
    area = face.area if face.behind == "building" else face.solid
    if area <= 1e-9 * face.area or not face.layers:
        return
    layers = solid_layers(face.layers)
    wall = Wall(face.name, area, layers, "weather", face.tilt_rad, face.azimuth_rad, wets=True)
    if face.behind == "building":
        kept = NEIGHBOUR_C if face.beyond_c is None else face.beyond_c
        wall = replace(wall, outside="kept", kept_c=kept)
    yield wall


def slab_layers(plan: Plan, house: House, over: Sequence[Layer]) -> tuple[Layer, ...]:
    """From deep in the ground up through half a metre of soil to the top of `over`, by ISO 13370."""
    soil = table("layers")[GROUND.get(plan.building.floor.soil or "", "gravel")]
    conductivity = soil.si("conductivity")
    resistance = sum(layer.ohms for layer in over)
    edge = _edge(house) if not house.open else 4.0 * math.sqrt(_OPEN_SLAB)
    area = house.floor_area if not house.open else _OPEN_SLAB
    dimension = ground.floor_dimension(area, edge)
    thickness = ground.equivalent_thickness(0.3, conductivity, resistance + _FILMS)
    value = ground.slab_transmittance(dimension, thickness, conductivity)
    deep = float(ground.virtual_resistance(value, resistance, conductivity))
    below = (Layer(resistance=max(deep, 0.05)),)
    return (*below, Layer(_SOIL, conductivity, soil.si("density"), soil.si("heat")), *over)


def _edge(house: House) -> float:
    """Length of the floor's edge that borders on the outdoors; never less than its shortest side."""
    lengths = {"front": house.length, "back": house.length, "left": house.width, "right": house.width}
    open_sides = sum(
        lengths[face.name] for face in house.faces if face.name in lengths and face.behind == "outdoors"
    )
    return max(open_sides, min(house.length, house.width))


def floor_layers(plan: Plan) -> tuple[Layer, ...]:
    """The building's floor from below, or the slab that is taken where the plan is silent."""
    if plan.building.floor.layers:
        return solid_layers(plan.building.floor.layers)
    thick = table("heat_limits")["silent"].si("slab")
    return solid_layers((TypedLayer("concrete", thick),))


def floor_of(plan: Plan, house: House, covered: float, dials: Dials) -> tuple[Wall, ...]:
    """What of the floor no vessel stands on."""
    free = house.floor_area - covered
    free = max(0.05 * house.floor_area, free)
    layers = loosened(slab_layers(plan, house, floor_layers(plan)), dials.ground)
    return (Wall("floor", free, layers, "ground", math.pi, wets=True),)


def loosened(layers: Sequence[Layer], factor: float) -> tuple[Layer, ...]:
    """Layers that let `factor` times as much heat through and store as before."""
    if factor == 1.0:
        return tuple(layers)
    return tuple(
        replace(one, resistance=one.resistance / factor)
        if one.resistance is not None
        else replace(one, conductivity=one.conductivity * factor)
        for one in layers
    )
