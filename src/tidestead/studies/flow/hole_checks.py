"""Judging fittings through walls: what the nut clamps, the room round it, what its flange presses on."""

from __future__ import annotations

from dataclasses import replace

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
    flange = hole.size.flange
    rows = (
        (
            "stud",
            "to the nearest stud",
            hole.to_stud,
            flange / 2.0 + WRENCH,
            "half the flange and room for a tool",
        ),
        (
            "edge",
            "to the edge of its sheet",
            hole.to_edge,
            flange / 2.0 + RIM,
            "half the flange and some sheet",
        ),
        ("other", "to the next hole", hole.to_other, flange + WRENCH, "a flange and room for a tool"),
    )
    found = []
    for name, words, there, wanted, includes in rows:
        if there is None:
            continue
        steps = (
            step(
                "a",
                "wanted from the middle of the hole",
                "a = flange/2 + room",
                (given("flange", flange, "m", "sheet"),),
                (wanted, "m"),
                PRACTICE,
            ),
        )
        limit = Limit(wanted, PRACTICE, includes, near=0.05)
        advice = "another place for the hole"
        check = above(at, name, f"distance {words}", there, "m", limit, style="sheet", advice=advice)
        found.append(Judged(check, steps))
    return found


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
