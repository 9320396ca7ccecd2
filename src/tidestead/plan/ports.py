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

_NEEDS = {"weir": {"length": '"1.2 m"'}, "siphon": {"crest": '"1.25 m"'}}
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


def _kind(port: Seen) -> Iterator[Misfit]:
    kind = port.word("kind")
    for key, example in _NEEDS.get(kind, {}).items():
        if not port.has(key):
            yield Misfit((*port.path, key), f"is missing; a {kind} needs it.", f"Add {key} = {example}.")
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
        yield Misfit((*port.path, "level"), "is above its vessel.", "It is at most the vessel's height.")
    crest = port.length("crest")
    if kind == "siphon" and crest is not None and crest < level - HAIR:
        advice = "The crest is the highest point of the siphon, above its inlet."
        yield Misfit((*port.path, "crest"), "is below the siphon's inlet.", advice)


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
