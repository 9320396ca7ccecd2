"""The glazed or insulated house round the vessels: its faces, floor, vents, shade and air heater."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from tidestead.plan.climate_fields import (
    AirChange,
    Area,
    Bearing,
    Conductance,
    Difference,
    GlazingName,
    Layers,
    Months,
    Passing,
    Power,
)
from tidestead.plan.fields import Length, PartName, Share, ShareBand, SoilName, Temperature
from tidestead.plan.model.part import Part

FACES = ("front", "back", "left", "right", "roof", "roof-back")


class Face(Part):
    """One face of the building."""

    glazing: GlazingName | None = None
    """Clear sheet of this face; the building's when left out."""
    clear: Share | None = None
    """Share of the face that is clear sheet. All of it where no wall is said, none where one is."""
    wall: Layers = ()
    """What is not clear, from outside to inside, such as ["18 mm plywood", "100 mm mineral-wool"]."""
    behind: Literal["outdoors", "building"] = "outdoors"
    """building: another one, kept warm, stands against it."""
    beyond: Temperature | None = None
    """How warm that other building is."""


class Vents(Part):
    """Openings or a fan that change the air when it gets too warm."""

    rate: AirChange | None = None
    """Air changes an hour when wide open."""
    area: Area | None = None
    """Of the opening, where no rate is known: half low and half high is meant."""
    height: Length | None = None
    """From the middle of the low openings to the middle of the high ones."""
    opens_at: Temperature
    """Air temperature at which they begin to open."""
    opens_over: Difference | None = None
    """How much warmer until they are wide open; 4 K when left out."""
    fan: Power | None = None
    """What a fan draws that does it, wide open."""


class Shade(Part):
    """Cloth or screens that are drawn against the sun."""

    share: Share
    """Of the light that they keep out."""
    above: Temperature
    """Air temperature above which they are drawn."""
    by: Literal["air", "water"] = "air"
    """Whose temperature is meant."""
    hangs: Literal["inside", "outside"] = "inside"
    """inside: under the glazing, where half of what it keeps out warms the house all the same. outside: over it."""
    months: Months = ()
    """When it is drawn all day, whatever the warmth, for corals that would have too much light: "May to Aug"."""


class Floor(Part):
    """What the building stands on."""

    layers: Layers = ()
    """From below to the top, such as ["80 mm xps", "150 mm concrete"]."""
    soil: SoilName | None = None
    """What lies under it."""


class AirHeater(Part):
    """What keeps the air of the building from freezing, beside the water."""

    to: Temperature
    """Air temperature that it keeps."""
    power: Power | None = None
    """The most it gives."""


class Building(Part):
    """The house round the vessels."""

    warmest_wood: Temperature | None = None
    """The warmest that timber in it stays for days on end."""
    humidity: ShareBand | None = None
    """Driest to dampest air of the year, as relative humidity."""
    shape: Literal["gable", "lean-to"] | None = None
    """gable: the ridge is in the middle. lean-to: the roof rises from the front to the back wall."""
    length: Length | None = None
    """Along the ridge, inside."""
    width: Length | None = None
    """Across it, inside."""
    eaves: Length | None = None
    """Height of the front wall."""
    ridge: Length | None = None
    """Height of the ridge; of a lean-to, of the back wall."""
    faces: Bearing | None = None
    """Where the front looks to."""
    glazing: GlazingName | None = None
    """Clear sheet of every face that says no other."""
    transmittance: Conductance | None = None
    """U-value of the clear sheet, where its maker prints another than the catalogue's."""
    passes: Passing | None = None
    """Share of light that the clear sheet lets through straight on, as its maker prints it."""
    dirt: Share | None = None
    """Share of the light that dirt and age take; 15 % when left out."""
    bars: Share | None = None
    """Share of the light that bars and frame take; 20 % when left out."""
    sides: dict[PartName, Face] = Field(default_factory=dict)
    """front, back, left and right (as seen from before the front), roof; of a gable also roof-back."""
    floor: Floor = Floor()
    infiltration: AirChange | None = None
    """Air changes an hour with everything shut; 0.75 when left out."""
    vents: Vents | None = None
    shade: Shade | None = None
    air_heater: AirHeater | None = None
