"""What is round the vessel of a first plan, and what lives in it: place, weather, house, warmth, light."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import chain

from tidestead.plan.first_lines import Line, answer, assumed, derived, typed, typed_or
from tidestead.plan.first_said import Said
from tidestead.plan.first_sizes import area_words, year_between
from tidestead.plan.model.plan import VERSION

_JULY, _JUNE, _HALF_A_YEAR = 6, 5, 6
_VENTED = 0.1
"""Share of the floor that the vents open. Own choice."""
_SOLID = {"lean-to": ("back", "left", "right"), "gable": ("back", "left", "right")}
"""Sides of a glazed house that are not glazed."""
_ROOM = ("front", "back", "left", "right", "roof", "roof-back")


def setting_lines(said: Said) -> Iterator[Line]:
    """Everything that stands before the vessel in the file."""
    return chain.from_iterable(part(said) for part in (_named, _site, _weather, _house, _water))


def life_lines(said: Said) -> Iterator[Line]:
    """Heaters, corals, lamps."""
    where = "sump" if said.text("sump") == "yes" else "basin"
    if said.text("heater"):
        yield from derived("heaters.first.vessel", where, "heater_place", "sump")
        yield from typed(said, "heaters.first.power", "heater")
        yield from typed_or(said, "heaters.first.count", "heater_count")
        yield from derived("heaters.first.setpoint", _setpoint(said), "heater_setpoint", "keep")
    if said.text("depth"):
        yield from typed(said, "corals.first.kind", "life")
        yield Line("corals.first.vessel", "basin", ("life",))
        yield from typed(said, "corals.first.depth", "depth")
    if said.text("lamps"):
        yield Line("lamps.first.over", "basin", ("lamps",))
        yield from typed(said, "lamps.first.power", "lamps")
        yield from assumed(said, "lamps.first.hours", "lamp_hours")


def _named(said: Said) -> Iterator[Line]:
    yield Line("tidestead", VERSION)
    yield from typed(said, "name", "name")
    yield from typed(said, "show", "show")
    if said.gallon:
        yield from typed(said, "gallons", "gallons")


def _site(said: Said) -> Iterator[Line]:
    for key in ("place", "latitude", "longitude", "elevation"):
        yield from typed(said, f"site.{key}", key)


def _weather(said: Said) -> Iterator[Line]:
    if said.text("weather") == "fetch":
        yield from assumed(said, "weather.pvgis", "years")
    for key in ("cold_spell", "heat_wave"):
        yield from typed(said, f"weather.{key}.mean", key)
        if said.text(key):
            yield from assumed(said, f"weather.{key}.lasts", f"{key}_lasts")
    normals = "weather.normals"
    temps = _year(said, ("winter", "summer"), _JULY, "temperature")
    yield from derived(f"{normals}.temperature", temps, "months", "winter", "summer")
    suns = _year(said, ("dark_sun", "bright_sun"), _JUNE, "daily_irradiation")
    yield from derived(f"{normals}.sun", suns, "months_of_sun", "dark_sun", "bright_sun")


def _year(said: Said, ends: tuple[str, str], northern: int, dimension: str) -> list[str] | None:
    """Twelve months between the least and the most, both as they were typed; None where one is missing or they fall."""
    low, high, latitude = said.size(ends[0]), said.size(ends[1]), said.degrees("latitude")
    if low is None or high is None or latitude is None or low > high:
        return None
    most = northern if latitude >= 0.0 else (northern + _HALF_A_YEAR) % 12
    months = year_between(low, high, most, dimension, said.system)
    months[most], months[(most + _HALF_A_YEAR) % 12] = said.text(ends[1]), said.text(ends[0])
    return months


def _house(said: Said) -> Iterator[Line]:
    kind = said.text("house")
    yield from assumed(said, "building.warmest_wood", "warmest_wood")
    yield from assumed(said, "building.humidity", "humidity")
    if kind in ("", "later"):
        return
    yield Line("building.shape", "gable" if kind == "room" else kind, ("house",))
    yield from typed(said, "building.length", "house_length")
    yield from typed(said, "building.width", "house_width")
    yield from typed(said, "building.eaves", "eaves")
    yield from _room(said) if kind == "room" else _glazed(said, kind)


def _glazed(said: Said, kind: str) -> Iterator[Line]:
    """A house whose roof and front are clear sheet."""
    yield from typed(said, "building.ridge", "ridge")
    yield from typed(said, "building.faces", "faces")
    yield from typed(said, "building.glazing", "glazing")
    length, width = said.size("house_length"), said.size("house_width")
    if length is not None and width is not None:
        vents = area_words(said, _VENTED * length * width)
        yield from derived("building.vents.area", vents, "vents", "house_length", "house_width")
        yield from assumed(said, "building.vents.opens_at", "vents_open")
    for side in _SOLID[kind]:
        yield from assumed(said, f"building.sides.{side}.wall", "solid_wall")


def _room(said: Said) -> Iterator[Line]:
    """A room without glass, in a house that is kept warm."""
    if said.text("eaves"):
        yield Line("building.ridge", said.text("eaves"), ("eaves",))
    yield from assumed(said, "building.faces", "room_faces")
    for side in _ROOM:
        yield from assumed(said, f"building.sides.{side}.wall", "room_wall")
        yield Line(f"building.sides.{side}.behind", "building", ("house",))
        yield from typed_or(said, f"building.sides.{side}.beyond", "room")
    yield from typed_or(said, "building.air_heater.to", "room")


def _water(said: Said) -> Iterator[Line]:
    yield from assumed(said, "water.salinity", "salinity")
    yield from typed_or(said, "water.keep", "keep")


def _setpoint(said: Said) -> str | None:
    """The middle of the band that is wanted."""
    keep = said.reading("keep", answer(said, "keep"))
    if not isinstance(keep, tuple):
        return None
    middle = (keep[0] + keep[1]) / 2.0
    return f"{middle * 1.8 + 32.0:.1f} degF" if said.system == "us" else f"{middle:.1f} degC"
