"""How much of the light on level ground falls on the water of a vessel, hour by hour.

Before the water's own surface throws some back. Covers and shade that are drawn come on top, by whoever asks.
Light that walls and floor throw on, and shade of the vessel's own walls while the sun is low, are left out.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from tidestead.core.dims import Array
from tidestead.core.weather import HOURS, MONTH_OF_HOUR, SunPath
from tidestead.physics import sunlit
from tidestead.physics.sunlit import ConvexHouse
from tidestead.plan.model import Vessel
from tidestead.plan.model.building import Shade
from tidestead.studies.house.geometry import House, HouseFace
from tidestead.studies.house.glazing import sun_through

_ANGLES: Array = np.radians(np.arange(91.0))
_QUARTER = math.pi / 2.0


@dataclass(frozen=True, eq=False)
class WaterLight:
    """Share of sun (`beam`, by hour of the year) and of an evenly bright sky (`diffuse`) on level ground that falls
    on the water's surface. `missing` says why they are not known; then both are nothing. `notes` are whole sentences.
    """

    beam: Array
    diffuse: float
    missing: str = ""
    notes: tuple[str, ...] = ()


def water_light(house: House, vessel: Vessel, sun: SunPath) -> WaterLight:
    """The daylight on a vessel's water."""
    if house.open:
        return WaterLight(np.where(sun.up > 0.0, 1.0, 0.0), 1.0)
    if house.missing:
        first = house.missing[0]
        return _unknown(f"{first.key} is not in the plan: {first.why}")
    points, notes = _surface(house, vessel)
    body = convex_house(house)
    if np.any(body.offsets - points @ body.normals.T < 0.0):
        return _unknown("its water is not inside the building by its place and the building's measures")
    directions = sunlit.direction(sun.zenith_rad, sun.azimuth_rad, house.facing_rad)  # type: ignore[arg-type]  # numbers or arrays
    beam = np.where(sun.up > 0.0, sunlit.share_through(points, directions, body), 0.0)
    return WaterLight(beam, float(sunlit.sky_share(points, body)), "", notes)


def drawn_for_light(shade: Shade | None) -> Array:
    """Share of the sun that shade keeps out by hour of the year where it is drawn by month, whatever the warmth."""
    if shade is None:
        return np.zeros(HOURS)
    return np.where(np.isin(MONTH_OF_HOUR, shade.months), shade.share, 0.0)


def convex_house(house: House) -> ConvexHouse:
    """The faces as planes, each with the share of light that gets past sheet, bars and dirt, averaged over its area."""
    return ConvexHouse(
        np.array([face.normal for face in house.faces]),
        np.array([face.offset for face in house.faces]),
        np.array([_through(house, face) for face in house.faces]),
    )


def _through(house: House, face: HouseFace) -> Array:
    """By whole degrees of angle. What stands against another building is dark."""
    if face.glazing is None or face.behind == "building":
        return np.zeros(len(_ANGLES))
    share = face.clear / face.area * (1.0 - house.dirt) * (1.0 - house.bars)
    return share * sun_through(face.glazing, _ANGLES)


def _unknown(why: str) -> WaterLight:
    return WaterLight(np.zeros(HOURS), 0.0, why)


def _surface(house: House, vessel: Vessel) -> tuple[Array, tuple[str, ...]]:
    """Six points of the water's surface in the building's axes, and what was taken for granted of its place."""
    turns = quarter_turns(house.facing_rad)
    east, north = _outline(vessel)
    across, deep = _spun(east, north, turns)
    notes: list[str] = []
    if vessel.place.x is None or vessel.place.y is None:
        middle = (house.length / 2.0, house.width / 2.0)
        notes.append("It is taken to stand in the middle of the building, for its place is not in the plan.")
    else:
        middle = _placed(house, vessel, turns)
        notes.append(_sides_words(turns))
    level = (vessel.place.floor or 0.0) + (vessel.water if vessel.water is not None else vessel.height)
    if level < 0.0:
        notes.append("Its water lies below the building's floor and is taken as level with it.")
    height = np.full(len(across), max(level, 0.0))
    return np.stack([middle[0] + across, middle[1] + deep, height], axis=1), tuple(notes)


def _outline(vessel: Vessel) -> tuple[Array, Array]:
    """Points of the surface, east and north of its middle: six fields of a box, or a ring that halves a round."""
    if vessel.shape == "box":
        east, north = np.meshgrid(np.array([-1.0, 0.0, 1.0]) / 3.0, np.array([-0.25, 0.25]))
        return east.ravel() * (vessel.length or 0.0), north.ravel() * (vessel.width or 0.0)
    ring = np.arange(6) * (math.pi / 3.0)
    half = (vessel.across or 0.0) / 2.0 / math.sqrt(2.0)
    return half * np.cos(ring), half * np.sin(ring)


def quarter_turns(facing_rad: float) -> int:
    """How many right angles the front is turned from south towards west: 0 where it looks to anywhere from south-east
    to south-west. A vessel's sides keep the names of the compass, so the nearest of them is meant.
    """
    turned = (facing_rad - math.pi) / _QUARTER
    nearest = round(turned)
    if abs(abs(turned - nearest) - 0.5) < 1e-6:  # half way between two: the southern, else the northern one
        nearest = 2 * round(turned / 2.0)
    return nearest % 4


def _spun(east: Array, north: Array, turns: int) -> tuple[Array, Array]:
    """From east and north to along the front and to the back."""
    for _ in range(turns):
        east, north = -north, east
    return east, north


def _placed(house: House, vessel: Vessel, turns: int) -> tuple[float, float]:
    """Middle of a vessel: its corner (of a box) or middle (of a tower) counts from the building's south-west corner."""
    box = vessel.shape == "box"
    east = (vessel.place.x or 0.0) + ((vessel.length or 0.0) / 2.0 if box else 0.0)
    north = (vessel.place.y or 0.0) + ((vessel.width or 0.0) / 2.0 if box else 0.0)
    along, deep = (house.length, house.width) if turns % 2 == 0 else (house.width, house.length)
    x, y = _spun(np.array([east - along / 2.0]), np.array([north - deep / 2.0]), turns)
    return house.length / 2.0 + float(x[0]), house.width / 2.0 + float(y[0])


def _sides_words(turns: int) -> str:
    side = ("south", "west", "north", "east")[turns]
    return (
        f"The building's front counts as its {side} side, and the vessel's place is counted from the building's "
        "south-west corner inside."
    )
