"""The house round the vessels: clear sheet and its bars, layers of its walls and floor; insulation of vessels."""

from __future__ import annotations

import math
from collections.abc import Iterator

from tidestead.build.lists import Line
from tidestead.build.takeoff.findings import Finding, Gap
from tidestead.build.takeoff.wetted import Inside, inside_of
from tidestead.core.answer import Estimate
from tidestead.core.source import PRACTICE
from tidestead.core.units import show
from tidestead.plan.climate_fields import Layer
from tidestead.plan.items import OWN, Item
from tidestead.plan.model import Plan
from tidestead.studies.house import House, HouseFace, house_of

BAR_SPACING = (1.2, 1.05, 0.7)
"""Centre to centre of bars under clear sheet, metres: fewest, usual, most bars. Common practice, no source."""


def house_taken(plan: Plan) -> Iterator[Finding]:
    """Faces of the building, its floor, shade and vents, then what vessels are wrapped in."""
    house = house_of(plan)
    if not house.open:
        yield from _house(plan, house)
    yield from _wrapping(plan)


def _house(plan: Plan, house: House) -> Iterator[Finding]:
    for one in house.missing:
        yield Gap(one.key, f"Of the building, {one.why}: its faces cannot be measured without.")
    for one in house.bare:
        yield Gap(one.key, f"Of the building, {one.why}: nothing of it is listed.")
    for face in house.faces:
        if face.glazing is not None and face.clear > 0.0:
            yield from _glazed(plan, house, face)
        key = f"building.sides.{face.name}.wall"
        yield from _layers(plan, face.layers, (face.solid, key, face.words), "")
    if house.faces:
        floor = (house.floor_area, "building.floor.layers", "the floor of the building")
        yield from _layers(plan, plan.building.floor.layers, floor, "")
    yield from _extras(plan, house)


def _glazed(plan: Plan, house: House, face: HouseFace) -> Iterator[Line]:
    """Clear sheet of a face, and the bars that it lies on."""
    glazing, system = face.glazing, plan.show
    key = f"building.sides.{face.name}" if face.name in plan.building.sides else "building.glazing"
    area = show(face.area, "m2", system)
    width = house.width if face.name in ("left", "right") else house.length
    tall = face.clear / width
    sides = [show(one, "m", system, "sheet") for one in (width, tall)]
    basis = f"{100.0 * face.clear / face.area:.0f} % of {area}, {sides[0]} wide, {sides[1]} high on the mean"
    name = "" if glazing is None else glazing.name
    yield Line(Item("glazing", name), Estimate.exact(face.clear), "m2", f"clear sheet of {face.words}", key,
               "building", "house", "", basis, face=(width, tall))  # fmt: skip
    low, likely, high = (width * 2.0 + (math.ceil(width / one - 1e-9) + 1) * tall for one in BAR_SPACING)
    bars = Estimate(low, likely, high, "by how close its bars are")
    words = f"rails along {show(width, 'm', system)} and bars of {show(tall, 'm', system)} "
    words += f"every {show(BAR_SPACING[2], 'm', system)} to {show(BAR_SPACING[0], 'm', system)}; allowance"
    yield Line(Item("frame"), bars, "m", f"bars of {face.words}", key,
               "building", "house", "", words, PRACTICE)  # fmt: skip


def _layers(
    plan: Plan, layers: tuple[Layer, ...], of: tuple[float, str, str], vessel: str
) -> Iterator[Finding]:
    """Layers by their volume and thickness: boards make a thickness in whole layers, what is loose fills it."""
    area, key, words = of
    if area <= 1e-9:
        return
    for layer in layers:
        if layer.resistance is not None or not layer.material:
            yield Gap(key, f"A layer of {words} has a resistance and no material: it is not listed.")
            continue
        thick = show(layer.thickness, "m", plan.show)
        basis = f"{show(area, 'm2', plan.show)} of {thick}"
        yield Line(Item("layer", layer.material), Estimate.exact(area * layer.thickness), "m3",
                   f"{layer.material} {thick}, {words}", key, "building", "house", vessel, basis,
                   thick=layer.thickness)  # fmt: skip


def _extras(plan: Plan, house: House) -> Iterator[Line]:
    """Shade, vents and the air's own heater, as one each: nothing says more of them."""
    building = plan.building
    clear = sum(face.clear for face in house.faces)
    if building.shade is not None and clear > 0.0:
        yield Line(Item(OWN, "shade cloth"), Estimate.exact(clear), "m2", f"shade, {building.shade.hangs}",
                   "building.shade", "building", "house", "", "as much as there is clear sheet", PRACTICE)  # fmt: skip
    for key, words, there in (
        ("vents", "vents", building.vents is not None),
        ("air_heater", "air heater", building.air_heater is not None),
    ):
        if there:
            yield Line(Item(OWN, words), Estimate.exact(1.0), "1", f"{words} of the building", f"building.{key}",
                       "building", "house", "", "1 set", PRACTICE)  # fmt: skip


def _wrapping(plan: Plan) -> Iterator[Finding]:
    """Insulation round vessels and under them, by their inside measures."""
    for key, vessel in plan.vessels.items():
        if not vessel.insulation and not vessel.floor_insulation:
            continue
        inside = inside_of(key, vessel)
        if not isinstance(inside, Inside):
            yield inside
            continue
        walls = (inside.girth * vessel.height, f"vessels.{key}.insulation", f"the walls of {key}")
        yield from _layers(plan, vessel.insulation, walls, key)
        floor = (inside.floor, f"vessels.{key}.floor_insulation", f"the floor of {key}")
        yield from _layers(plan, vessel.floor_insulation, floor, key)
