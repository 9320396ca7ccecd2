"""Judging the seal of a window: how far it must follow as the edge turns on its seat or a corner lifts off it."""

from __future__ import annotations

from tidestead.core.source import COMPUTED, PRACTICE
from tidestead.studies.checks import Limit, below, given, unproven
from tidestead.studies.judged import Judged, step
from tidestead.studies.structure.window_facts import WindowFacts
from tidestead.studies.structure.window_steps import PLATE

_TURNING = ("seat", "held", "rim")


def seal_checks(facts: WindowFacts) -> list[Judged]:
    """Opening of the bed at the outer lip of a seat, and at a corner that lifts, against what the bed follows."""
    seat = facts.window.seat
    if facts.seal is None or seat.bed_thickness is None or seat.width is None:
        why = f"say what seals it and how thick: {facts.at.path}.seat.bed, .bed_thickness and .width"
        check = unproven(facts.at, "seal", "how far the seal must follow", "m", why, PRACTICE)
        return [Judged(check, by_level=False)]
    allowed = facts.seal.si("travel_share") * seat.bed_thickness
    limit = Limit(allowed, facts.seal.figure("travel_share").source, "share of the bed's thickness")
    return [_turn(facts, seat.width, limit), _lift(facts, limit)]


def _turn(facts: WindowFacts, width: float, limit: Limit) -> Judged:
    turns = facts.state.edge_rotations
    sides = zip((turns.left, turns.right, turns.bottom, turns.top), facts.edges, strict=True)
    turn = max((turn for turn, edge in sides if edge in _TURNING), default=0.0) / facts.worst_creep
    opening = turn * width
    numbers = (given("theta", turn, "1"), given("b", width, "m", "sheet"))
    creep = (given("theta0", turn * facts.worst_creep, "1"), given("r", facts.worst_creep, "1"))
    how = "theta = theta0/r, theta0 from the plate, r: creep ratio; angles in radians"
    steps = (
        step("theta", "edge turns, with creep", how, creep, (turn, "1"), PLATE),
        step("u", "outer lip opens", "u = theta*b", numbers, (opening, "m"), COMPUTED),
    )
    words = "seal stretched as the edge turns"
    advice = "a thicker bed, a narrower seat, or a thicker sheet, which turns less"
    check = below(facts.at, "seal.turn", words, opening, "m", limit, style="bow", advice=advice)
    return Judged(check, steps)


def _lift(facts: WindowFacts, limit: Limit) -> Judged:
    worst = facts.worst_creep
    lift = facts.state.corner_lift / worst
    numbers = (
        given("u0", facts.state.corner_lift, "m"),
        given("r", worst, "1"),
        given("share of the seat pressed", facts.state.contact_share, "1"),
    )
    how = "u = u0/r, u0 from the plate on seats that only push, r: creep ratio"
    steps = (step("u", "corner lifts off its seat, with creep", how, numbers, (lift, "m"), PLATE),)
    words = "seal stretched where a corner lifts"
    advice = "corners that are held down, a thicker bed, or a thicker sheet, which lifts less"
    check = below(facts.at, "seal.lift", words, lift, "m", limit, style="bow", advice=advice)
    return Judged(check, steps)
