"""Whether building, heaters, covers, lamps, corals and readings of light fit the rest: names, sizes, depths.

Whether it is warm or light enough is for the studies. These work on what could be read, as `shape` does.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from tidestead.catalog.rows import nearest
from tidestead.core.errors import Fault, QuantityError
from tidestead.core.units import Gallon, parse, parse_band
from tidestead.plan.climate_fields import LightAt, read_light
from tidestead.plan.fields import MOST_ITEMS
from tidestead.plan.lines import Lines
from tidestead.plan.model.building import FACES
from tidestead.plan.seen import HAIR, Misfit, Seen
from tidestead.plan.statements import dotted

_VESSEL_KEYS = {
    "heaters": "vessel",
    "chillers": "vessel",
    "covers": "over",
    "fans": "over",
    "lamps": "over",
    "corals": "vessel",
}
"""For each table of parts that belong to a vessel, the key that names it."""

_MOST_SQUARE = 1.0 + 1e-6
_DAY = 86400.0


def indoor_faults(values: Mapping[str, Any], lines: Lines, gallon: Gallon) -> list[Fault]:
    """Every part of house, heat and light that does not fit the rest."""
    whole = Seen((), values, gallon)
    found = [
        *_vessels(whole),
        *_faces(whole),
        *_roof(whole),
        *_corals(whole),
        *_lamps(whole),
        *_readings(whole),
    ]
    return [
        Fault(dotted(one.path), lines.line(one.path), lines.typed(one.path), one.allowed, one.advice)
        for one in found
    ]


def _vessels(whole: Seen) -> Iterator[Misfit]:
    """Names of vessels that there are."""
    vessels = tuple(name for name, _ in whole.parts("vessels"))
    for table, key in _VESSEL_KEYS.items():
        for _, part in whole.parts(table):
            name = part.word(key)
            if name and name not in vessels:
                allowed = f"names no vessel; there is no vessel called {name[:40]}."
                yield Misfit((*part.path, key), allowed, _close(name, vessels))


def _close(name: str, known: tuple[str, ...]) -> str:
    close = nearest(name, known, 1)
    if close:
        return f'Did you mean "{close[0]}"?'
    return f"Vessels: {', '.join(known[:20])}." if known else "Describe it under [vessels.NAME]."


def _faces(whole: Seen) -> Iterator[Misfit]:
    """Faces that the building has."""
    building = whole.under("building")
    lean = building.word("shape") == "lean-to"
    known = tuple(name for name in FACES if not (lean and name == "roof-back"))
    for name, side in building.parts("sides"):
        if name in known:
            continue
        close = nearest(name, known, 1)
        if name == "roof-back":
            advice = "A lean-to has one slope: roof."
        else:
            advice = f"Did you mean {close[0]}? " if close else ""
            advice += f"Its faces: {', '.join(known)}."
        yield Misfit(side.path, "is not a face of this building.", advice)


def _roof(whole: Seen) -> Iterator[Misfit]:
    """The ridge is no lower than the eaves."""
    building = whole.under("building")
    eaves, ridge = building.length("eaves"), building.length("ridge")
    if eaves is not None and ridge is not None and ridge < eaves - HAIR:
        words = "is lower than the eaves."
        advice = "It is the height of the ridge, or of a lean-to's back wall; swap the two, or turn front and back."
        yield Misfit((*building.path, "ridge"), words, advice)


def _corals(whole: Seen) -> Iterator[Misfit]:
    """Corals sit in the water."""
    vessels = dict(whole.parts("vessels"))
    for _, coral in whole.parts("corals"):
        vessel, depth = vessels.get(coral.word("vessel")), coral.word("depth")
        water = None if vessel is None else vessel.length("water")
        if water is None or not depth:
            continue
        try:
            deepest = parse_band(depth, "length", coral.gallon)[1]
        except QuantityError:
            continue
        if deepest > water + HAIR:
            advice = "Count depth from the water's surface down; it is at most the water of its vessel."
            yield Misfit(
                (*coral.path, "depth"), f"is deeper than the water of {coral.word('vessel')}.", advice
            )


def _lamps(whole: Seen) -> Iterator[Misfit]:
    """Lamps burn for a day at most, and light no more than there is water."""
    vessels = dict(whole.parts("vessels"))
    for _, lamp in whole.parts("lamps"):
        hours = _quantity(lamp, "hours", "time")
        if hours is not None and hours > _DAY:
            yield Misfit((*lamp.path, "hours"), "is more than a day has.", 'Write hours of a day: "11 h".')
        if _quantity(lamp, "reaches", "ratio") == 0.0:
            advice = (
                'Write the share of their light that enters the water, such as "70 %"; or take the lamps out.'
            )
            yield Misfit((*lamp.path, "reaches"), "is no light at all.", advice)
        lights, vessel = _quantity(lamp, "lights", "area"), vessels.get(lamp.word("over"))
        water = None if vessel is None else _box_area(vessel)
        if lights is not None and water is not None and lights > water * _MOST_SQUARE:
            advice = (
                "Write the part of the water that they light, or leave it out where they light all of it."
            )
            yield Misfit((*lamp.path, "lights"), f"is more than the water of {lamp.word('over')}.", advice)


def _box_area(vessel: Seen) -> float | None:
    length, width = vessel.length("length"), vessel.length("width")
    return None if length is None or width is None else length * width


def _quantity(part: Seen, key: str, dimension: str) -> float | None:
    try:
        return parse(part.word(key), dimension, part.gallon) if part.word(key) else None
    except QuantityError:
        return None


def _readings(whole: Seen) -> Iterator[Misfit]:
    """Two readings of light at least, each at a depth of its own."""
    measured = whole.under("measured")
    items = measured.values.get("light")
    lights = [(place, _light(item, measured)) for place, item in enumerate(_listed(items))]
    read = [(place, found) for place, found in lights if found is not None]
    if isinstance(items, list) and len(items) == 1 and read:
        advice = 'Add a second one at another depth, taken within a minute: "240 umol/m2/s at 1.0 m".'
        yield Misfit(
            (*measured.path, "light", 0), "is one reading; alone it tells nothing of the water.", advice
        )
    seen: dict[int, int] = {}
    for place, one in read:
        if seen.setdefault(round(one.depth / HAIR), place) != place:
            advice = "Light that dies away is told by readings at different depths."
            yield Misfit((*measured.path, "light", place), "is at the depth of another reading.", advice)


def _listed(items: Any) -> list[Any]:
    return items[:MOST_ITEMS] if isinstance(items, list) else []


def _light(item: Any, measured: Seen) -> LightAt | None:
    try:
        return read_light(item, measured.gallon) if isinstance(item, str) else None
    except QuantityError:
        return None
