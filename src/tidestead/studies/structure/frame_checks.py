"""Judging what only the whole frame sees: rims that move between their corners, walls that push unequally."""

from __future__ import annotations

from collections.abc import Mapping

from tidestead.core.answer import Estimate
from tidestead.core.source import COMPUTED, PRACTICE
from tidestead.studies.checks import At, Limit, below, given, unproven
from tidestead.studies.judged import Judged, step
from tidestead.studies.structure.ask import Ask
from tidestead.studies.structure.beam_checks import BOW_SHARE, share_step
from tidestead.studies.structure.frame_facts import AGREE
from tidestead.studies.structure.rims import RimFacts, tie_forces

FACING = (("south", "north"), ("west", "east"))


def frame_checks(at: At, rims: Mapping[str, RimFacts], why_not: str, ask: Ask) -> list[Judged]:
    """How far each rim moves; where no frame could be solved, whether hand formulas may stand alone."""
    found = [
        _moves(at.below(name, f"{name} wall").below("rim", "rim"), rim, ask) for name, rim in rims.items()
    ]
    return [one for one in found if one is not None] + (_unequal(at, rims, why_not) if why_not else [])


def _moves(at: At, rim: RimFacts, ask: Ask) -> Judged | None:
    """The rim as a whole, ties and all, against the straight line between its corners."""
    if rim.frame is None:
        return None
    place, moved = rim.frame.farthest
    creep = ask.lasting(rim.piece.creep)
    way = Estimate.exact(abs(moved), "whole frame").times(creep)
    numbers = (
        given("x", place, "m", "level"),
        given("u0", moved, "m", "bow"),
        given("c", rim.frame.corners, "m", "bow"),
        given("k", creep, "1"),
    )
    how = "k*|u0|; u0 outward at x from the left end, beside the line between the corners, which move c"
    allowed = share_step(rim.place.length, BOW_SHARE, "allowed: a share of the length of the wall")
    steps = (
        step("u", "the rim moves, with creep", how, numbers, (way.likely, "m", "bow"), COMPUTED),
        allowed,
    )
    limit = Limit(rim.place.length / BOW_SHARE, PRACTICE, f"length of the wall over {BOW_SHARE:g}")
    advice = "stiffer rims, more ties"
    return Judged(
        below(
            at,
            "moves",
            "the whole rim moving between its corners",
            way,
            "m",
            limit,
            style="bow",
            advice=advice,
        ),
        steps,
    )


def _unequal(at: At, rims: Mapping[str, RimFacts], why_not: str) -> list[Judged]:
    """Rims tied to each other that push unequally bend each other over their whole length: no hand formula sees it."""
    found = []
    for walls in FACING:
        if any(name not in rims for name in walls):
            continue
        one, other = (tie_forces(rims, (name,)) for name in walls)
        apart = [
            abs(one[place] - other[place]) / max(one[place], other[place], 1e-9)
            for place in one
            if place in other
        ]
        if max(apart, default=0.0) > AGREE:
            why = (
                f"{walls[0]} and {walls[1]} rim pull their ties unequally, and only a whole frame shows what that "
                f"does. There is none here: {why_not}"
            )
            here = at.below(f"{walls[0]}.rim", f"{walls[0]} and {walls[1]} rim")
            found.append(Judged(unproven(here, "unequal", "rims that push unequally", "m", why, PRACTICE)))
    return found
