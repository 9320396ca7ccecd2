"""The house round the vessels: its faces in space, its clear sheet, and the daylight that falls on water in it."""

from tidestead.studies.house.daylight import WaterLight, drawn_for_light, water_light
from tidestead.studies.house.geometry import House, HouseFace, Unsaid, house_of
from tidestead.studies.house.glazing import Glazing, sun_absorbed, sun_through

__all__ = [
    "Glazing",
    "House",
    "HouseFace",
    "Unsaid",
    "WaterLight",
    "drawn_for_light",
    "house_of",
    "sun_absorbed",
    "sun_through",
    "water_light",
]
