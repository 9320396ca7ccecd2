"""The vessels as bodies of water: how much they store, their surfaces, their sides by what they are made of."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Literal

import numpy as np

from tidestead.catalog import table
from tidestead.core.dims import Array
from tidestead.core.weather import HOURS, MONTH_OF_HOUR, SunPath
from tidestead.physics import optics
from tidestead.physics.heat.system import Layer, Side
from tidestead.plan.climate_fields import Layer as TypedLayer
from tidestead.plan.merging import wall_of
from tidestead.plan.model import BOX_WALLS, Cover, Plan, Vessel, Window
from tidestead.studies.flow.facts import FlowFacts
from tidestead.studies.heat.dials import Dials
from tidestead.studies.heat.shell import floor_layers, loosened, slab_layers, solid_layers
from tidestead.studies.house import House, water_light
from tidestead.studies.vessels import plan_area

_WATER_INDEX = 1.34
_BOUGHT = (TypedLayer("polyethylene", 0.008),)
"""Walls of bought vessels. Own choice; they hardly keep warmth in."""

_PLY, _THIN = 0.018, 0.03
"""Metres of a wall's sheet and of a window where the plan does not say. Own choice."""
_SMALL = 0.1
"""Share of all open water below which a vessel's own sun is not worked out."""


@dataclass(frozen=True, eq=False)
class Water:
    """One vessel: volume, open surface, footprint, sides, windows in them; the sun's shares and its covers by hour."""

    key: str
    volume: float
    surface: float
    footprint: float
    sides: tuple[Side, ...]
    panes: tuple[Side, ...]
    sun_beam: Array
    sun_diffuse: float
    cover: Array
    passes: float
    notes: tuple[str, ...] = ()


def waters_of(
    plan: Plan, house: House, flow: FlowFacts, sun: SunPath, floor_heat: Mapping[str, float]
) -> list[Water]:
    """Every vessel that holds seawater and whose size is known."""
    held = {
        key: vessel
        for key, vessel in plan.vessels.items()
        if vessel.holds == "seawater" and plan_area(vessel) > 0.0
    }
    whole = sum(plan_area(vessel) for vessel in held.values())
    found = []
    for key, vessel in held.items():
        area = plan_area(vessel)
        depth = vessel.water if vessel.water is not None else vessel.height
        lit = area >= _SMALL * whole
        beam, diffuse, notes = _sun(house, vessel, sun, floor_heat.get(key, 0.0)) if lit else _dark()
        covers = [cover for cover in plan.covers.values() if cover.over == key]
        found.append(
            Water(
                key,
                flow.volumes.get(key, area * depth),
                area,
                area,
                tuple(_sides(plan, house, vessel, depth)),
                tuple(_panes(house, vessel, depth)),
                beam,
                diffuse,
                cover_hours(covers, sun),
                max((cover.passes for cover in covers), default=0.0),
                notes,
            )
        )
    return found


def _dark() -> tuple[Array, float, tuple[str, ...]]:
    return np.zeros(HOURS), 0.0, ("Sun that falls into it is left out, for it is small.",)


def _sun(house: House, vessel: Vessel, sun: SunPath, to_floor: float) -> tuple[Array, float, tuple[str, ...]]:
    """Shares of sun and sky on level ground that become heat in the water."""
    light = water_light(house, vessel, sun)
    kept = 1.0 - to_floor * (1.0 - table("heat_limits")["silent"].si("floor_keeps"))
    zenith = np.minimum(sun.zenith_rad, math.radians(89.9))
    enters = 1.0 - np.asarray(optics.fresnel_reflectance(zenith, _WATER_INDEX))  # type: ignore[arg-type]  # numbers or arrays
    everywhere = 1.0 - float(
        optics.hemispherical_mean(lambda angle: optics.fresnel_reflectance(angle, _WATER_INDEX))
    )
    return light.beam * enters * kept, light.diffuse * everywhere * kept, light.notes


def cover_hours(covers: Sequence[Cover], sun: SunPath) -> Array:
    """Covered share of a vessel by hour of the year; of several covers the largest."""
    hours = np.zeros(HOURS)
    for cover in covers:
        used = np.isin(MONTH_OF_HOUR, cover.months)
        if cover.when == "night":
            used &= sun.up <= 0.0
        hours = np.maximum(hours, np.where(used, cover.share, 0.0))
    return hours


def _sides(plan: Plan, house: House, vessel: Vessel, depth: float) -> Iterator[Side]:
    """Walls as far as the water wets them, without their windows, and the floor."""
    onto: Literal["room", "weather"] = "weather" if house.open else "room"
    outer = solid_layers(vessel.insulation)
    for name, length in _walls(vessel):
        solid = length * depth - sum(area for area, _ in _clear(vessel, name, depth))
        if solid > 0.0:
            yield Side(solid, (*_wall_layers(vessel, name), *outer), onto)
    under = solid_layers(vessel.floor_insulation)
    if vessel.stands_on.kind == "joists":
        layers = (*_wall_layers(vessel, _walls(vessel)[0][0]), *under)
        yield Side(plan_area(vessel), layers, onto, tilt_rad=math.pi)
    else:
        slab = slab_layers(plan, house, (*floor_layers(plan), *under))
        yield Side(plan_area(vessel), slab[::-1], "ground", tilt_rad=math.pi)


def _walls(vessel: Vessel) -> list[tuple[str, float]]:
    """Names and inside lengths of a vessel's walls; a round one is one wall."""
    if vessel.shape == "box":
        length, width = vessel.length or 0.0, vessel.width or 0.0
        return [(name, length if name in ("north", "south") else width) for name in BOX_WALLS]
    round_ = 4.0 * plan_area(vessel) / (vessel.across or 1.0)
    sides = vessel.sides or 1
    return [(str(number + 1), round_ / sides) for number in range(sides)]


def _panes(house: House, vessel: Vessel, depth: float) -> Iterator[Side]:
    """Windows as far as the water wets them."""
    for name, _ in _walls(vessel):
        for area, layer in _clear(vessel, name, depth):
            yield Side(area, (layer,), "weather" if house.open else "room")


def _clear(vessel: Vessel, name: str, depth: float) -> list[tuple[float, Layer]]:
    """The wetted area of each window of a wall, with its sheet."""
    found = []
    for window in wall_of(vessel, name).windows.values():
        sill = window.sill or 0.0
        area = (window.width or 0.0) * max(min(sill + (window.height or 0.0), depth) - sill, 0.0)
        if area > 0.0:
            found.append((area, _clear_layer(window.material or "", _thickness(window))))
    return found


def _thickness(window: Window) -> float:
    """Of the whole sheet."""
    return window.thickness or sum(window.plies) or _THIN


def _clear_layer(material: str, thickness: float) -> Layer:
    """A window of acrylic or glass."""
    row = table("layers")["glass" if material.startswith("glass") else "acrylic"]
    return Layer(thickness, row.si("conductivity"), row.si("density"), row.si("heat"))


def _wall_layers(vessel: Vessel, name: str) -> tuple[Layer, ...]:
    """The sheets of a built wall, the shell of a bought one; studs and lining are left out."""
    if vessel.made == "bought":
        return solid_layers(_BOUGHT)
    sheathing = wall_of(vessel, name).sheathing
    rows, thick = table("sheathing"), _PLY
    if sheathing is not None and sheathing.sheet is not None and sheathing.sheet in rows:
        thick = rows[sheathing.sheet].si("thickness") * sheathing.layers
    return solid_layers((TypedLayer("plywood", thick),))


def joined_sides(waters: Sequence[Water], dials: Dials) -> tuple[Side, ...]:
    """The sides of several vessels, with what the dials change: those alike put together, and those of one layer of
    one material as one of their mean conductance, which is all that their thicknesses differ in.
    """
    alike: dict[tuple[object, ...], list[Side]] = {}
    for side, layers in (pair for water in waters for pair in _turned(water, dials)):
        one = layers[0]
        single = len(layers) == 1 and one.resistance is None
        key = (one.conductivity, one.density, one.heat) if single else layers
        turned = Side(side.area, layers, side.onto, side.tilt_rad, side.azimuth_rad)
        alike.setdefault((key, side.onto, side.tilt_rad), []).append(turned)
    return tuple(_one_side(sides) for sides in alike.values())


def _one_side(sides: Sequence[Side]) -> Side:
    """Sides of the same layers, or of one layer of the same stuff, as one of the same area and conductance."""
    first, area = sides[0], sum(side.area for side in sides)
    if len({side.layers for side in sides}) == 1:
        return replace(first, area=area)
    thick = area / sum(side.area / side.layers[0].thickness for side in sides)
    return replace(first, area=area, layers=(replace(first.layers[0], thickness=thick),))


def _turned(water: Water, dials: Dials) -> Iterator[tuple[Side, tuple[Layer, ...]]]:
    """Every side and window with its layers as the dials have them; foam goes on walls only."""
    foam = (Layer(resistance=dials.insulated),) if dials.insulated > 0.0 else ()
    for side in water.sides:
        if side.onto == "ground":
            yield side, loosened(side.layers, dials.ground)
        else:
            yield side, (*loosened(side.layers, dials.sides), *foam)
    for side in water.panes:
        yield side, loosened(side.layers, dials.sides)
