"""The building of a plan as flat faces in space, with what each is made of and what the plan leaves unsaid.

Axes of the building: x along the front, from its left end as seen from before it; y from the front to the back; z
up from the floor. The floor lies at the datum of all levels.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from tidestead.core.answer import Assumption
from tidestead.core.source import PRACTICE
from tidestead.plan.climate_fields import Layer
from tidestead.plan.model import Plan
from tidestead.plan.model.building import Building, Face
from tidestead.studies.house.glazing import Glazing, glazing_of

DIRT = 0.15
BARS = 0.20
"""Shares of the light that dirt and age, and bars and frame, take where the plan is silent. Common practice, no
source."""

WORDS = {
    "front": "the front",
    "back": "the back",
    "left": "the left end",
    "right": "the right end",
    "roof": "the roof",
    "roof-back": "the back slope of the roof",
}

_NEEDED = (
    ("shape", 'say shape = "gable" or "lean-to"'),
    ("length", "say how long it is along the ridge, inside"),
    ("width", "say how wide it is, inside"),
    ("eaves", "say how high its front wall is"),
    ("ridge", "say how high its ridge is, or a lean-to's back wall"),
    ("faces", 'say where its front looks to, such as "south-east"'),
)


@dataclass(frozen=True)
class Unsaid:
    """A key that the plan leaves out, and why nothing can be told without it."""

    key: str
    why: str


@dataclass(frozen=True)
class HouseFace:
    """One flat face. `area` is all of it, `clear` the part that is clear sheet, `solid` the rest, m2.

    `tilt_rad` is from lying flat (0) to upright (a right angle), `azimuth_rad` the bearing it looks to, from north
    through east. A point of the house is inside it where normal * point <= offset, in the building's axes.
    `behind` says what stands against it, `beyond_c` how warm that is.
    """

    name: str
    words: str
    area: float
    clear: float
    tilt_rad: float
    azimuth_rad: float
    normal: tuple[float, float, float]
    offset: float
    glazing: Glazing | None
    layers: tuple[Layer, ...]
    behind: Literal["outdoors", "building"]
    beyond_c: float | None

    @property
    def solid(self) -> float:
        return self.area - self.clear


@dataclass(frozen=True)
class House:
    """The building. Where `open` there is none, and vessels stand under the sky.

    `missing` are keys without which neither its shape nor its light is known; then it has no faces. `bare` are solid
    parts of faces whose layers nobody said: dark for light, unknown for heat.
    """

    open: bool
    faces: tuple[HouseFace, ...] = ()
    shape: str = ""
    length: float = 0.0
    width: float = 0.0
    eaves: float = 0.0
    ridge: float = 0.0
    facing_rad: float = 0.0
    dirt: float = DIRT
    bars: float = BARS
    missing: tuple[Unsaid, ...] = ()
    bare: tuple[Unsaid, ...] = ()
    assumptions: tuple[Assumption, ...] = ()

    @property
    def floor_area(self) -> float:
        return self.length * self.width

    @property
    def volume(self) -> float:
        """Of the air with nothing in it."""
        return self.floor_area * (self.eaves + self.ridge) / 2.0

    def face(self, name: str) -> HouseFace:
        """A face by its name; KeyError where the house has none of it."""
        return {face.name: face for face in self.faces}[name]


def house_of(plan: Plan) -> House:
    """The building as the plan describes it."""
    building = plan.building
    if building == Building():
        return House(open=True, assumptions=(_in_the_open(),))
    missing = tuple(_missing(building))
    if missing:
        return House(open=False, missing=missing)
    sides = tuple(_sides(plan))
    return House(
        False,
        sides,
        building.shape or "",
        building.length or 0.0,
        building.width or 0.0,
        building.eaves or 0.0,
        building.ridge or 0.0,
        building.faces or 0.0,
        DIRT if building.dirt is None else building.dirt,
        BARS if building.bars is None else building.bars,
        (),
        tuple(_bare(sides)),
        tuple(_assumptions(building, sides)),
    )


def face_names(shape: str | None) -> tuple[str, ...]:
    """The faces that a building of a shape has."""
    names = ("front", "back", "left", "right", "roof")
    return (*names, "roof-back") if shape != "lean-to" else names


def _in_the_open() -> Assumption:
    return Assumption(
        "building", "none", "the plan describes no building: vessels stand under the sky", PRACTICE
    )


def _missing(building: Building) -> Iterator[Unsaid]:
    for key, why in _NEEDED:
        if getattr(building, key) is None:
            yield Unsaid(f"building.{key}", why)
    for name in face_names(building.shape):
        face = building.sides.get(name, Face())
        if building.glazing is None and face.glazing is None and _clear_share(face) > 0.0:
            yield Unsaid("building.glazing", "say what clear sheet it has: a catalogue name")
            return


def _clear_share(face: Face) -> float:
    """All of a face where no wall is said, none where one is or another building stands against it."""
    if face.clear is not None:
        return face.clear
    return 0.0 if face.wall or face.behind == "building" else 1.0


def _sides(plan: Plan) -> Iterator[HouseFace]:
    building = plan.building
    for name in face_names(building.shape):
        face = building.sides.get(name, Face())
        share, (area, normal, offset) = _clear_share(face), _plane(building, name)
        sheet = face.glazing or building.glazing
        yield HouseFace(
            name,
            "the front slope of the roof" if name == "roof" and building.shape == "gable" else WORDS[name],
            area,
            share * area,
            math.acos(normal[2]),
            _bearing(normal, building.faces or 0.0),
            normal,
            offset,
            None if sheet is None or share == 0.0 else glazing_of(plan, sheet, face.glazing is None),
            tuple(face.wall),
            face.behind,
            face.beyond,
        )


def _plane(building: Building, name: str) -> tuple[float, tuple[float, float, float], float]:
    """Area, outward normal and distance of a face."""
    length, width = building.length or 0.0, building.width or 0.0
    eaves, ridge = building.eaves or 0.0, building.ridge or 0.0
    lean = building.shape == "lean-to"
    rise, run = ridge - eaves, width if lean else width / 2.0
    slope = math.hypot(rise, run)
    up, out = run / slope, rise / slope
    end = width * (eaves + ridge) / 2.0
    planes = {
        "front": (length * eaves, (0.0, -1.0, 0.0), 0.0),
        "back": (length * (ridge if lean else eaves), (0.0, 1.0, 0.0), width),
        "left": (end, (-1.0, 0.0, 0.0), 0.0),
        "right": (end, (1.0, 0.0, 0.0), length),
        "roof": (length * slope, (0.0, -out, up), up * eaves),
        "roof-back": (length * slope, (0.0, out, up), up * eaves + out * width),
    }
    return planes[name]


def _bearing(normal: tuple[float, float, float], facing: float) -> float:
    """Bearing of an outward normal; the front's own where a face lies flat."""
    if math.hypot(normal[0], normal[1]) < 1e-12:
        return facing
    return (facing + math.atan2(-normal[0], -normal[1])) % (2.0 * math.pi)


def _bare(sides: tuple[HouseFace, ...]) -> Iterator[Unsaid]:
    for face in sides:
        if face.solid > 1e-9 * face.area and not face.layers:
            why = f"say what {face.words} is made of where it is not clear"
            yield Unsaid(f"building.sides.{face.name}.wall", why)


def _assumptions(building: Building, sides: tuple[HouseFace, ...]) -> Iterator[Assumption]:
    if building.dirt is None:
        yield Assumption("building.dirt", f"{100.0 * DIRT:.0f} %", "light that dirt and age take", PRACTICE)
    if building.bars is None:
        yield Assumption("building.bars", f"{100.0 * BARS:.0f} %", "light that bars and frame take", PRACTICE)
    whole = [
        face.words
        for face in sides
        if face.clear == face.area and building.sides.get(face.name, Face()).clear is None
    ]
    if whole:
        why = f"no wall is said for {', '.join(whole)}"
        yield Assumption("building.sides", "clear sheet all over", why, PRACTICE)
