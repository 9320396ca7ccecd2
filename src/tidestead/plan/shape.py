"""Whether the parts of a plan fit each other: sizes for the shape, levels in order, names that exist.

Shape only. Whether a part is strong enough is a check of a study, never a fault of the plan. These work on
what could be read, so that they tell their faults beside those of the models, all at once.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from itertools import chain, pairwise
from typing import Any

from tidestead.core.errors import Fault
from tidestead.core.units import Gallon
from tidestead.plan.faults import misspelt
from tidestead.plan.lines import Lines
from tidestead.plan.merging import SHARED
from tidestead.plan.model import BOX_WALLS
from tidestead.plan.outline import known_keys
from tidestead.plan.seen import HAIR, Misfit, Seen
from tidestead.plan.statements import dotted
from tidestead.plan.windows import window_misfits

_NEEDS = {
    "box": {"length": ('"4 m"', '"12 ft"'), "width": ('"2.2 m"', '"7 ft"')},
    "polygon": {"across": ('"640 mm"', '"25 in"'), "sides": ("12", "12")},
    "round": {"across": ('"640 mm"', '"25 in"')},
}
"""Keys that a shape needs, each with a value to copy, metric and US."""
_ONLY = {
    "length": ("box",),
    "width": ("box",),
    "ties": ("box",),
    "corners": ("box",),
    "across": ("polygon", "round"),
    "sides": ("polygon",),
}
"""Keys that mean nothing for a vessel of another shape."""
MOST_SIDES = 64


def shape_faults(values: Mapping[str, Any], lines: Lines, gallon: Gallon) -> list[Fault]:
    """Every part that does not fit its neighbours."""
    found: list[Misfit] = []
    for _, vessel in Seen((), values, gallon).parts("vessels"):
        found += chain(
            _sizes(vessel, values.get("show") == "us"),
            _levels(vessel),
            _walls(vessel),
            window_misfits(vessel, wall_names(vessel)),
        )
        found += chain(_ties(vessel), _rings(vessel), _cracked(vessel), _cone(vessel))
    return [
        Fault(
            dotted(misfit.path),
            lines.line(misfit.path),
            lines.typed(misfit.path),
            misfit.allowed,
            misfit.advice,
        )
        for misfit in found
    ]


def _sizes(vessel: Seen, us: bool) -> Iterator[Misfit]:
    shape = vessel.word("shape")
    if shape not in _NEEDS:
        return
    known = known_keys(vessel.path)
    for key, examples in _NEEDS[shape].items():
        strange = [(*vessel.path, other) for other in vessel.values if other not in known]
        if not vessel.has(key) and not misspelt((*vessel.path, key), strange):
            yield Misfit(
                (*vessel.path, key), f"is missing; a {shape} needs it.", f"Add {key} = {examples[us]}."
            )
    for key, shapes in _ONLY.items():
        if vessel.has(key) and shape not in shapes:
            advice = f"Take it out, or change the shape to {' or '.join(shapes)}."
            yield Misfit((*vessel.path, key), f"means nothing for a {shape}.", advice)
    sides = vessel.number("sides")
    if shape == "polygon" and sides is not None and not 3 <= sides <= MOST_SIDES:
        yield Misfit(
            (*vessel.path, "sides"), f"must be 3 to {MOST_SIDES}.", 'For more sides write shape = "round".'
        )


def _levels(vessel: Seen) -> Iterator[Misfit]:
    """Water below the brim, the brim below the top of the wall."""
    height, brim, water = (vessel.length(key) for key in ("height", "brim", "water"))
    if height is not None and brim is not None and brim > height + HAIR:
        yield Misfit((*vessel.path, "brim"), "is higher than the wall.", "It is at most the height.")
    top, name = (brim, "brim") if brim is not None else (height, "height")
    if top is not None and water is not None and water > top + HAIR:
        yield Misfit((*vessel.path, "water"), f"is deeper than the {name}.", f"It is at most the {name}.")
    lower = vessel.length("lower_to")
    if lower is not None and water is not None and lower > water - HAIR:
        advice = "Write a depth below that of its water, or leave it out."
        yield Misfit((*vessel.path, "lower_to"), "is not lower than the water.", advice)
    test = vessel.under("test")
    level = test.length("level")
    if height is not None and level is not None and level > height + HAIR:
        yield Misfit((*test.path, "level"), "is deeper than the height.", "It is at most the height.")


def wall_names(vessel: Seen) -> tuple[str, ...]:
    """The walls a vessel of this shape has; empty where the shape cannot be told."""
    shape, sides = vessel.word("shape"), vessel.number("sides")
    if shape == "box":
        return BOX_WALLS
    if shape == "round":
        return ("1",)
    if shape == "polygon" and sides is not None and 3 <= sides <= MOST_SIDES:
        return tuple(str(number) for number in range(1, sides + 1))
    return ()


def _walls(vessel: Seen) -> Iterator[Misfit]:
    names = wall_names(vessel)
    if not names:
        return
    known = f"{names[0]} to {names[-1]}" if len(names) > len(BOX_WALLS) else ", ".join(names)
    for name, wall in vessel.parts("walls"):
        if name not in (SHARED, *names):
            yield Misfit(
                wall.path, "is not a wall of this vessel.", f"Its walls: {known}; {SHARED} for all of them."
            )
    stands = vessel.under("stands_on")
    low = stands.word("falls_to")
    if low and low not in names:
        yield Misfit((*stands.path, "falls_to"), "is not a wall of this vessel.", f"Its walls: {known}.")


def _ties(vessel: Seen) -> Iterator[Misfit]:
    for _, tie in vessel.parts("ties"):
        along = {"length": "width", "width": "length"}.get(tie.word("across"))
        spans = [vessel.length(key) for key in ((along,) if along else ("length", "width"))]
        room = max((span for span in spans if span is not None), default=None)
        seen: dict[int, int] = {}
        for place, at in tie.lengths("at"):
            path = (*tie.path, "at", place)
            if room is not None and not 0.0 < at < room:
                inside = f"the vessel's {along}" if along else "the vessel"
                yield Misfit(path, f"is not within {inside}.", "Count from the west or the south end.")
            if seen.setdefault(round(at / HAIR), place) != place:
                yield Misfit(path, "is the place of another tie too.", "Keep one of them.")


def _rings(vessel: Seen) -> Iterator[Misfit]:
    rings, height = vessel.under("rings"), vessel.length("height")
    if rings.has("at") and rings.has("spacing"):
        yield Misfit(
            (*rings.path, "spacing"), "says again where the rings are.", "Keep spacing or at, not both."
        )
    places = rings.lengths("at")
    for place, at in places:
        if height is not None and at > height + HAIR:
            yield Misfit(
                (*rings.path, "at", place), "is higher than the wall.", "Count from the bottom plate up."
            )
    for (_, lower), (place, upper) in pairwise(places):
        if upper <= lower:
            yield Misfit(
                (*rings.path, "at", place),
                "is not above the ring before it.",
                "List them from the bottom up.",
            )


def _cone(vessel: Seen) -> Iterator[Misfit]:
    cone = vessel.under("cone")
    height, water, neck = (cone.length(key) for key in ("height", "water", "neck"))
    spans = [span for key in ("across", "length", "width") if (span := vessel.length(key)) is not None]
    if height is not None and water is not None and water > height + HAIR:
        yield Misfit((*cone.path, "water"), "is higher than the cone.", "It is at most the cone's height.")
    if neck is not None and spans and neck > min(spans) + HAIR:
        yield Misfit((*cone.path, "neck"), "is wider than the vessel.", "A cone gets narrower upward.")


def _cracked(vessel: Seen) -> Iterator[Misfit]:
    """Numbers of pieces that there are, where their count follows from the plan."""
    counted: list[tuple[Seen, int | None]] = [
        (tie, len(tie.values["at"]) if isinstance(tie.values.get("at"), list) else None)
        for _, tie in vessel.parts("ties")
    ]
    counted.append((vessel.under("rings"), _ring_count(vessel)))
    counted += [
        (wall.under("studs"), _stud_count(vessel, wall, name))
        for name, wall in vessel.parts("walls")
        if name != SHARED
    ]
    for part, count in counted:
        measured = part.under("as_built")
        for place, number in measured.numbers("cracked"):
            if count is not None and number > count:
                allowed = f"is the number of no piece; there are {count}."
                yield Misfit((*measured.path, "cracked", place), allowed, "Count from 1.")


def _ring_count(vessel: Seen) -> int | None:
    rings, height = vessel.under("rings"), vessel.length("height")
    spacing = rings.length("spacing")
    if isinstance(rings.values.get("at"), list):
        return len(rings.values["at"])
    return math.floor(height / spacing) + 2 if height and spacing else None


def _stud_count(vessel: Seen, wall: Seen, name: str) -> int | None:
    """The most studs the wall can have: one at each end, and one for every spacing begun."""
    length = vessel.length("length" if name in ("north", "south") else "width")
    spacing = wall.over(vessel.under("walls").under(SHARED)).under("studs").length("spacing")
    if vessel.word("shape") != "box" or not length or not spacing:
        return None
    return math.ceil(length / spacing) + 1
