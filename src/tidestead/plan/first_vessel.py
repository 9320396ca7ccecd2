"""The vessel of a first plan: box, walls, rim, ties, window and what it stands on, out of the answers."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import chain

from tidestead.catalog import table
from tidestead.plan.first_lines import Line, answer, assumed, derived, typed, typed_or
from tidestead.plan.first_said import Said
from tidestead.plan.first_sizes import rounded, side_by_side

VESSEL = "vessels.basin"
_ALL = f"{VESSEL}.walls.all"
_WINDOW = f"{VESSEL}.walls.south.windows.front"
_EDGES = {"seats": "seat", "free": "free", "rim": "rim"}
_PLIES = {"two": 2, "three": 3}
_FINGER = 0.02
"""Metres from the brim to the top of the walls, so that the lining ends above it. Own choice."""
_FEWEST_COATS = 2
_FEWEST_JAMBS = 2
"""On each side of a window. Own choice."""


def vessel_lines(said: Said) -> Iterator[Line]:
    """Everything of the vessel."""
    parts = (_box, _stands, _lining, _walls, _base, _window, _opening, _top)
    return chain.from_iterable(part(said) for part in parts)


def _box(said: Said) -> Iterator[Line]:
    yield Line(f"{VESSEL}.role", "display")
    yield from assumed(said, f"{VESSEL}.stage", "stage")
    yield Line(f"{VESSEL}.shape", "box")
    for key in ("length", "width", "height", "water"):
        yield from typed(said, f"{VESSEL}.{key}", key)
    brim = answer(said, "brim", _brim(said) or "")
    yield from typed_or(said, f"{VESSEL}.brim", "brim", brim)
    yield from typed(said, f"{VESSEL}.timber_rules", "rules")
    yield from assumed(said, f"{VESSEL}.wood", "wood")
    yield from derived(f"{VESSEL}.test.level", brim or None, "test_level", "brim")
    yield from assumed(said, f"{VESSEL}.test.water", "test_water")
    yield from assumed(said, f"{VESSEL}.test.lasts", "test_lasts")


def brim_of(said: Said) -> float | None:
    """The depth at which it spills over, in metres; None where neither it nor the height of the walls is known."""
    found = said.reading("brim", answer(said, "brim", _brim(said) or ""))
    return found if isinstance(found, float) else None


def _brim(said: Said) -> str | None:
    """A brim a little under the top of the walls, where the water leaves room for it; else the top of the walls."""
    height, water = said.size("height"), said.size("water")
    if height is None:
        return None
    under = height - _FINGER
    return rounded(said, under) if water is not None and water <= under else said.text("height")


def _stands(said: Said) -> Iterator[Line]:
    stands = f"{VESSEL}.stands_on"
    yield from typed(said, f"{stands}.kind", "stands_on")
    yield from typed_or(said, f"{stands}.slab_thickness", "slab")
    yield from typed_or(said, f"{stands}.soil", "soil")
    yield from typed_or(said, f"{stands}.floor", "floor")
    yield from assumed(said, f"{stands}.drop", "drop")
    yield from assumed(said, f"{stands}.falls_to", "falls_to")


def _lining(said: Said) -> Iterator[Line]:
    lining, product = f"{VESSEL}.lining", said.text("lining")
    rows = table("linings")
    if product in rows:
        yield Line(f"{lining}.kind", str(rows[product].tag("kind")), ("lining",))
    yield from typed(said, f"{lining}.product", "lining")
    yield from typed_or(said, f"{lining}.coats", "coats", _coats(product))
    if "seams" in said.asked:
        yield from typed_or(said, f"{lining}.seams", "seams")
    else:
        yield from assumed(said, f"{lining}.seams", "seams_of_sheet")
    height, water = said.size("height"), said.size("water")
    carried = (
        rounded(said, height - water) if height is not None and water is not None and height > water else None
    )
    yield from derived(f"{lining}.ends_above_water", carried, "ends_above_water", "height", "water")
    yield from assumed(said, f"{lining}.screws_through", "screws_through")


def _coats(product: str) -> int:
    """Coats that make the least film of a coating, as far as the catalogue knows both."""
    rows = table("linings")
    figures = rows[product].figures if product in rows else {}
    if "dry_film_min" not in figures or "dry_film_per_coat" not in figures:
        return _FEWEST_COATS
    least, one = (rows[product].si(name) for name in ("dry_film_min", "dry_film_per_coat"))
    return max(math.ceil(least / one), _FEWEST_COATS)


def _walls(said: Said) -> Iterator[Line]:
    yield from typed(said, f"{_ALL}.sheathing.sheet", "sheathing")
    yield from assumed(said, f"{_ALL}.sheathing.face_grain", "face_grain")
    yield from typed(said, f"{_ALL}.rim.section", "rim")
    yield from typed(said, f"{_ALL}.rim.grade", "grade")
    yield from typed(said, f"{_ALL}.rim.lies", "rim_lies")
    yield from typed(said, f"{_ALL}.studs.section", "studs")
    yield from typed(said, f"{_ALL}.studs.grade", "grade")
    yield from typed(said, f"{_ALL}.studs.spacing", "spacing")
    yield from assumed(said, f"{_ALL}.studs.top", "stud_top")
    yield from assumed(said, f"{_ALL}.studs.foot", "stud_foot")


def _base(said: Said) -> Iterator[Line]:
    base, carried = f"{_ALL}.base", said.text("carried_by")
    yield from typed(said, f"{base}.carried_by", "carried_by")
    yield from typed_or(said, f"{base}.spacing", "foot_spacing", said.text("spacing"))
    yield from typed_or(said, f"{base}.capacity", "capacity")
    yield from typed_or(said, f"{base}.diameter", "anchor")
    yield from typed_or(said, f"{base}.bears_on", "bears_on")
    if carried == "anchors":
        yield from assumed(said, f"{base}.embedment", "embedment")
        yield from assumed(said, f"{base}.edge_distance", "edge_distance")
    if answer(said, "bears_on") == "wood":
        yield from derived(f"{base}.fastener", _bolt(said), "anchor_bolt", "anchor", "rules")
    if carried == "ledger":
        yield from assumed(said, f"{base}.fastener", "ledger_screw")
    if carried == "floor ties":
        yield from typed_or(said, f"{base}.tie.section", "floor_tie", said.text("studs"))
        yield from typed(said, f"{base}.tie.grade", "grade")
        yield from assumed(said, f"{base}.tie_joint", "floor_tie_joint")


def _bolt(said: Said) -> str | None:
    """The catalogue's bolt whose diameter is nearest to the anchor's, of those that the rules know."""
    diameter, rules = said.reading("anchor", answer(said, "anchor")), said.text("rules")
    if not isinstance(diameter, float) or not rules:
        return None
    known = {
        row.name: abs(row.si("diameter") - diameter)
        for row in table("fasteners")
        if row.tag("kind") == "bolt" and row.tag("stainless") is False and rules in str(row.tag("bases"))
    }
    return min(known, key=known.__getitem__, default=None)


def _window(said: Said) -> Iterator[Line]:
    yield from typed(said, f"{_WINDOW}.material", "pane")
    plies, thickness = _PLIES.get(said.text("plies")), said.text("thickness")
    if plies is not None and thickness:
        yield Line(f"{_WINDOW}.plies", [thickness] * plies, ("thickness", "plies"))
    else:
        yield from typed(said, f"{_WINDOW}.thickness", "thickness")
    yield from typed(said, f"{_WINDOW}.width", "window_width")
    yield from typed(said, f"{_WINDOW}.height", "window_height")
    yield from typed(said, f"{_WINDOW}.sill", "sill")
    top = _EDGES.get(said.text("edges"))
    if top is not None:
        edges = {"left": "seat", "right": "seat", "bottom": "seat", "top": top}
        yield Line(f"{_WINDOW}.edges", edges, ("edges",))
    yield from typed_or(said, f"{_WINDOW}.seat.width", "seat_width")
    yield from typed_or(said, f"{_WINDOW}.seat.bed_thickness", "bed")
    if said.text("window") == "yes":
        yield from assumed(said, f"{_WINDOW}.seat.bed", "seal")
        yield from assumed(said, f"{_WINDOW}.seat.gap", "gap")
        yield from assumed(said, f"{_WINDOW}.seat.membrane", "membrane")
        yield from assumed(said, f"{_WINDOW}.temperature", "sheet_warmth")


def _opening(said: Said) -> Iterator[Line]:
    """The timbers round the window: under it, over it where it ends below the rim, and beside it."""
    if said.text("window") != "yes":
        return
    opening = f"{_WINDOW}.opening"
    yield from typed_or(said, f"{opening}.sill_held_by", "sill_held_by")
    for name in ("sill", "header") if said.text("edges") == "seats" else ("sill",):
        yield from typed_or(said, f"{opening}.{name}.section", "crosspiece", said.text("rim"))
        yield from typed(said, f"{opening}.{name}.grade", "grade")
        yield from assumed(said, f"{opening}.{name}.joint", "crosspiece_joint")
    yield from typed_or(said, f"{opening}.jambs.section", "jambs", _jambs(said))
    yield from typed(said, f"{opening}.jambs.grade", "grade")
    yield from assumed(said, f"{opening}.jambs.top", "jamb_top")
    yield from assumed(said, f"{opening}.jambs.foot", "jamb_foot")


def _jambs(said: Said) -> str | None:
    """Studs side by side that stand for half of those a window takes the place of."""
    width, spacing = said.size("window_width"), said.size("spacing")
    if width is None or spacing is None:
        return None
    return side_by_side(said, "studs", max(math.ceil(width / spacing / 2.0), _FEWEST_JAMBS))


def _top(said: Said) -> Iterator[Line]:
    """Ties over the water, and the corners of the rim."""
    if said.text("ties") == "yes":
        ties = f"{VESSEL}.ties.cross"
        yield Line(f"{ties}.across", "width", ("ties",))
        places = _tie_places(said)
        yield from derived(f"{ties}.at", places, "tie_places", "tie_count", "length")
        yield from typed_or(said, f"{ties}.section", "tie", said.text("studs"))
        yield from typed(said, f"{ties}.grade", "grade")
        yield from assumed(said, f"{ties}.end_joint", "tie_joint")
    yield from assumed(said, f"{VESSEL}.corners.kind", "corner_kind")
    yield from assumed(said, f"{VESSEL}.corners.joint", "corner_joint")


def _tie_places(said: Said) -> list[str] | None:
    """Where ties lie that share the length evenly."""
    length, count = said.size("length"), said.count("tie_count")
    if length is None or count is None or count > said.asked["tie_count"].most:
        return None
    return [rounded(said, length * (place + 1) / (count + 1)) for place in range(count)]
