"""Judging fittings through walls: what the nut clamps, the room round it, what its flange presses on."""

from __future__ import annotations

from dataclasses import dataclass, replace

from tidestead.core.source import PRACTICE
from tidestead.studies.checks import At, Limit, above, below, given, unproven
from tidestead.studies.flow.facts import FlowFacts
from tidestead.studies.flow.holes import HoleFacts
from tidestead.studies.judged import Judged, step

WRENCH = 0.010
"""Room round the flange and the nut for a tool, metres. Common practice, no source."""

RIM = 0.020
"""Sheet that should be left between a flange and its sheet's edge, metres. Common practice, no source."""

SEATS = {"coating": "membrane", "sheet": "liner"}
"""What a flange presses on in a vessel with each kind of lining."""


def hole_checks(facts: FlowFacts) -> list[Judged]:
    """Every fitting."""
    found: list[Judged] = []
    for hole in facts.holes:
        at = At(
            f"{hole.vessel}.{hole.port}.bulkhead",
            f"{hole.vessel}, {hole.port}, bulkhead",
            "flow",
            f"vessels.{hole.vessel}.ports.{hole.port}.bulkhead",
        )
        found.append(_clamp(at, hole))
        found += _distances(at, hole)
        found += _seat(at, hole)
    return found


def _clamp(at: At, hole: HoleFacts) -> Judged:
    words, source = "wall that its nut clamps", hole.row.figure("clamps_to").source
    if hole.missing:
        return Judged(unproven(at, "clamp", words, "m", hole.missing, source))
    size = hole.size
    numbers = tuple(given(name, thick, "m", "sheet") for name, thick in hole.layers)
    layers = " + ".join(name for name, _ in hole.layers)
    steps = (step("t", "between flange and nut", f"t = {layers}", numbers, (hole.wall, "m"), source),)
    advice = "a fitting with a longer thread, or a thinner place in the wall"
    limit = Limit((size.clamps_from, size.clamps_to), source, near=0.0)
    made = below(at, "clamp", words, hole.wall, "m", limit, style="sheet", advice=advice)
    return Judged(replace(made, must_be="within", cautions=_cautions(hole)), steps)


def _cautions(hole: HoleFacts) -> tuple[str, ...]:
    told = hole.row.tag("cautions", ())
    return tuple(told) if isinstance(told, tuple) else ()


def _distances(at: At, hole: HoleFacts) -> list[Judged]:
    if hole.unplaced:
        why = f"say where it goes through its wall: {at.path}.from_left"
        return [Judged(unproven(at, "place", "distance to timbers and edges", "m", why, PRACTICE))]
    half = hole.size.flange / 2.0
    rows: list[_Room] = []
    if hole.timber is not None:
        words = f"distance to the nearest timber, {hole.timber.words}"
        rows.append(
            _Room("stud", words, hole.timber.away, half + WRENCH, "half the flange and room for a tool")
        )
    if hole.window is not None:
        words = f"distance to the nearest clear sheet, {hole.window.words}"
        rows.append(_Room("window", words, hole.window.away, half + RIM, "half the flange and some wall"))
    if hole.to_edge is not None:
        words = "distance to the edge of its sheet"
        rows.append(_Room("edge", words, hole.to_edge, half + RIM, "half the flange and some sheet"))
    if hole.other is not None:
        words = f"distance to the next hole, {hole.other.words}"
        wanted = half + hole.other.flange / 2.0 + WRENCH
        rows.append(
            _Room("other", words, hole.other.away, wanted, "half of both flanges and room for a tool")
        )
    return [_room(at, hole, row) for row in rows]


@dataclass(frozen=True)
class _Room:
    """A distance from the middle of a hole, what it should be, and what that holds."""

    name: str
    words: str
    there: float
    wanted: float
    includes: str


def _room(at: At, hole: HoleFacts, row: _Room) -> Judged:
    steps = (
        step(
            "a",
            "wanted from the middle of the hole",
            "a = flange/2 + room",
            (
                given("flange", hole.size.flange, "m", "sheet"),
                given("room", row.wanted - hole.size.flange / 2.0, "m", "sheet"),
            ),
            (row.wanted, "m"),
            PRACTICE,
        ),
    )
    limit = Limit(row.wanted, PRACTICE, row.includes, near=0.05)
    advice = "another place for the hole, or a smaller fitting"
    if row.there <= 0.0:
        advice = f"another place for the hole: it goes through the {row.words.rpartition(', ')[2]}"
    return Judged(above(at, row.name, row.words, row.there, "m", limit, style="sheet", advice=advice), steps)


def _seat(at: At, hole: HoleFacts) -> list[Judged]:
    wanted = SEATS.get(hole.lining or "", "rigid")
    if hole.seat == wanted:
        return []
    said = "does not say" if hole.seat is None else f'says "{hole.seat}"'
    why = (
        f'what its flange presses on decides its gasket: the plan {said}, and the wall there wants "{wanted}": '
        f"{at.path}.seat"
    )
    return [Judged(unproven(at, "seat", "seat of its flange", "1", why, PRACTICE))]
