"""Whether ports fit their vessel: at a height it has, with what their kind needs, in a wall that exists."""

from __future__ import annotations

from collections.abc import Iterator

from tidestead.plan.seen import HAIR, Misfit, Seen
from tidestead.plan.shape import wall_names
from tidestead.plan.windows import wall_length

OUT_KINDS = ("inlet", "weir", "standpipe", "siphon")
"""Ports through which water leaves a vessel into a line."""

IN_KINDS = ("outlet", "spill")
"""Ports through which it comes in."""

_NEEDS = {
    "weir": ("length", "how long its crest is"),
    "siphon": ("crest", "its highest point above the floor"),
}
"""What each kind cannot be without, and what that says."""

_ONLY = {
    "length": ("weir",),
    "open": ("weir",),
    "teeth": ("weir",),
    "crest": ("siphon",),
    "siphon_break": ("outlet", "siphon"),
}
"""Keys that mean nothing for a port of another kind."""

FLOOR = "floor"


def port_misfits(whole: Seen) -> Iterator[Misfit]:
    """Every port that does not fit."""
    for _, vessel in whole.parts("vessels"):
        for _, port in vessel.parts("ports"):
            yield from _kind(port)
            yield from _heights(vessel, port)
            yield from _bulkhead(vessel, port)
        yield from _diffuser(vessel)
        yield from _float_valve(vessel)


def _kind(port: Seen) -> Iterator[Misfit]:
    kind = port.word("kind")
    key, says = _NEEDS.get(kind, ("", ""))
    if key and not port.has(key):
        level = port.values.get("level")
        example = f'"{level}"' if key == "crest" and isinstance(level, str) else '"1.2 m"'
        advice = f"Add {key}, such as {key} = {example}: {says}."
        yield Misfit((*port.path, key), f"is missing; a {kind} needs it.", advice)
    for key, kinds in _ONLY.items():
        if kind and port.has(key) and kind not in kinds:
            advice = f"Take it out, or change the kind to {' or '.join(kinds)}."
            yield Misfit((*port.path, key), f"means nothing for the kind {kind}.", advice)


def _heights(vessel: Seen, port: Seen) -> Iterator[Misfit]:
    kind, level, top = port.word("kind"), port.length("level"), vessel.length("height")
    if level is None:
        return
    if level < -HAIR:
        yield Misfit((*port.path, "level"), "is below the vessel floor.", "Count up from the floor.")
    if kind in OUT_KINDS and top is not None and level > top + HAIR:
        advice = f"It is at most the vessel's height, {vessel.values.get('height')}."
        yield Misfit((*port.path, "level"), "is above its vessel.", advice)
    brim = vessel.length("brim")
    if kind in ("weir", "standpipe") and brim is not None and top is not None and brim < level <= top + HAIR:
        advice = (
            f"The vessel spills at its brim, {vessel.values.get('brim')}, before water reaches it: lower it."
        )
        yield Misfit((*port.path, "level"), "is above the brim of its vessel.", advice)
    hole = port.under("siphon_break").length("level")
    if hole is not None and top is not None and hole > top + HAIR:
        advice = (
            f"It counts from the floor, and is at most the vessel's height, {vessel.values.get('height')}."
        )
        yield Misfit((*port.path, "siphon_break", "level"), "is above its vessel.", advice)
    crest = port.length("crest")
    if kind == "siphon" and crest is not None and crest < level - HAIR:
        advice = "The crest is the highest point of the siphon, above its inlet."
        yield Misfit((*port.path, "crest"), "is below the siphon's inlet.", advice)


def _float_valve(vessel: Seen) -> Iterator[Misfit]:
    """It shuts at a level that the vessel has."""
    valve, top = vessel.under("top_off"), vessel.length("brim") or vessel.length("height")
    level = valve.length("level")
    if level is not None and top is not None and level > top + HAIR:
        typed = vessel.values.get("brim") or vessel.values.get("height")
        advice = f"It would run for ever: the vessel spills at {typed}."
        yield Misfit((*valve.path, "level"), "is above the brim of its vessel.", advice)


def _diffuser(vessel: Seen) -> Iterator[Misfit]:
    """The diffuser lies in the water."""
    air, water = vessel.under("air"), vessel.length("water")
    depth = air.length("depth")
    if depth is not None and water is not None and depth > water + HAIR:
        advice = "Count down from the surface: on the floor it is as deep as the water."
        yield Misfit((*air.path, "depth"), "is deeper than its water.", advice)


def _bulkhead(vessel: Seen, port: Seen) -> Iterator[Misfit]:
    bulkhead, names = port.under("bulkhead"), wall_names(vessel)
    wall = bulkhead.word("wall")
    if wall and names and wall not in (*names, FLOOR):
        shown = ", ".join(names) if len(names) <= 4 else f"{names[0]} to {names[-1]}"
        yield Misfit(
            (*bulkhead.path, "wall"), "is not a wall of this vessel.", f"Its walls: {shown}; or {FLOOR}."
        )
    left, length = bulkhead.length("from_left"), wall_length(vessel, wall)
    if left is not None and length is not None and not 0.0 < left < length:
        yield Misfit((*bulkhead.path, "from_left"), "is not within its wall.", "Count from its left end.")
