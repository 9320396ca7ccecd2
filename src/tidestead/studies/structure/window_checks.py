"""Judging a window: stress on either face, seat, seal, room to grow; its bow is judged beside this."""

from __future__ import annotations

from tidestead.core.answer import Estimate
from tidestead.core.source import COMPUTED, PRACTICE, YOURS
from tidestead.core.units import System, show
from tidestead.physics.structure import acrylic, seals
from tidestead.studies.checks import Limit, above, below, given, unproven
from tidestead.studies.judged import Judged, step
from tidestead.studies.structure.timber import Piece
from tidestead.studies.structure.window_bow import bow_checks, thicker
from tidestead.studies.structure.window_facts import WindowFacts
from tidestead.studies.structure.window_glass import glass_checks
from tidestead.studies.structure.window_seal import seal_checks
from tidestead.studies.structure.window_steps import (
    PLATE,
    load_steps,
    moment_step,
    stress_step,
    thin,
    worst_stress_step,
)

GLASS_WARMS = 50.0
"""Kelvin that a glass sheet may warm above the day it was set. Common practice, no source."""

LEAST_FREEBOARD = 0.010
"""Least height of a free edge over the water, whatever the level. Source: common practice, no source."""


RUNS_OVER = (
    "The water would stand above the free upper edge of this sheet and run over it: the vessel cannot be filled so "
    "high. All else is reckoned as if it stood there, and nothing is counted to press above the sheet."
)


def judge_window(facts: WindowFacts, system: System, seat_timber: Piece | None) -> list[Judged]:
    """Every check of one window under one load case."""
    found = stress_checks(facts, system)
    found += bow_checks(facts)
    found += seat_checks(facts, seat_timber)
    found += clamp_checks(facts)
    found += seal_checks(facts)
    found += growth_checks(facts)
    found += freeboard_checks(facts)
    return found


def freeboard_checks(facts: WindowFacts) -> list[Judged]:
    """Water must stay below a free upper edge."""
    if facts.edges[3] != "free":
        return []
    over = facts.height - facts.head
    numbers = (given("b", facts.height, "m", "sheet"), given("h", facts.head, "m", "sheet"))
    steps = (step("f", "free edge above the water", "f = b - h", numbers, (over, "m"), COMPUTED),)
    limit, words = Limit(LEAST_FREEBOARD, PRACTICE), "free edge above the water"
    advice = "a higher sheet or sill, or a lower water level and brim"
    over_it = (RUNS_OVER,) if over < 0.0 else ()
    check = above(
        facts.at, "freeboard", words, over, "m", limit, style="sheet", advice=advice, cautions=over_it
    )
    return [Judged(check, steps)]


def stress_checks(facts: WindowFacts, system: System) -> list[Judged]:
    """Tension on the water side and on the air side against what the sheet may bear for good."""
    row = facts.row
    if not row.tag("window", True):
        why = " ".join(facts.cautions)
        return [
            Judged(unproven(facts.at, "stress", "stress in the sheet", "Pa", why, PRACTICE), by_level=False)
        ]
    if facts.too_hot:
        why = f"the sheet stays hotter than {show(row.si('service_temperature_max'), 'degC', system)}"
        return [Judged(unproven(facts.at, "stress", "stress in the sheet", "Pa", why, PLATE), by_level=False)]
    if row.tag("kind") == "glass":
        return glass_checks(facts)
    warm, most = facts.window.temperature, "stress_temperature_max"
    if warm is not None and row.has(most) and warm > row.si(most):
        why = f"what the sheet may bear for good is known for rooms, not above {show(row.si(most), 'degC', system)}"
        source = row.figure(most).source
        return [
            Judged(unproven(facts.at, "stress", "stress in the sheet", "Pa", why, source), by_level=False)
        ]
    found = []
    for side in ("water", "air"):
        moment = _peak(facts, side)
        stress = pull_on(facts, side)
        limit = Limit(
            pull_allowed(facts, side), row.figure(f"stress_{side}_side").source, "for good, in water"
        )
        check = below(
            facts.at,
            f"stress.{side}",
            f"pull on the {side} side",
            stress,
            "Pa",
            limit,
            cautions=facts.cautions,
            advice=f"{thicker(facts)}, or a lower water level",
        )
        found.append(
            Judged(
                check,
                (
                    *load_steps(facts),
                    moment_step(facts, side, moment),
                    stress_step(facts, moment),
                    *worst_stress_step(facts, stress),
                ),
            )
        )
    return found


def _peak(facts: WindowFacts, side: str) -> float:
    """The greatest moment that pulls on one side, N m/m."""
    return (facts.state.peak_water if side == "water" else facts.state.peak_air).value


def pull_on(facts: WindowFacts, side: str) -> Estimate:
    """The greatest pull on the "water" or the "air" side, Pa."""
    return thin(facts, 6.0 * _peak(facts, side) / facts.thickness**2, 2)


def pull_allowed(facts: WindowFacts, side: str) -> float | None:
    """What the sheet may bear there for good; a joint in it may bear less. None where its material does not say."""
    name = f"stress_{side}_side"
    if not facts.row.has(name):
        return None
    allowed = facts.row.si(name)
    return min(allowed, facts.row.si("stress_joint")) if facts.window.bonded else allowed


def seat_checks(facts: WindowFacts, seat_timber: Piece | None) -> list[Judged]:
    """The sheet must bear in compression on timber that does not crush."""
    seat = facts.window.seat
    if seat.width is None:
        why = f"say how much of the sheet rests on the frame: {facts.at.path}.seat.width"
        return [
            Judged(unproven(facts.at, "seat", "pressure on the seat", "Pa", why, PRACTICE), by_level=False)
        ]
    found = []
    line = facts.state.peak_seat_load
    if seat_timber is not None:
        pressure = seals.seat_peak(line, seat.width) * seat_timber.load_factor
        limit = Limit(seat_timber.across, seat_timber.source, seat_timber.includes)
        steps = (
            step("q", "most that the edge presses on any place", "from the plate", (), (line, "N/m"), PLATE),
            step(
                "p",
                "at the seat's inner edge",
                "p = g*2*q/b, g: load factor",
                (
                    given("g", seat_timber.load_factor, "1"),
                    given("q", line, "N/m"),
                    given("b", seat.width, "m", "sheet"),
                ),
                (pressure, "Pa"),
                COMPUTED,
            ),
            seat_timber.limits["across"],
        )
        advice = "a wider seat, a soft bed under the sheet, or a timber that bears more across its grain"
        check = below(facts.at, "seat", "pressure on the seat", pressure, "Pa", limit, advice=advice)
        found.append(Judged(check, steps))
    if "held" in facts.edges and seat.membrane != "clamp flange":
        why = "a held edge needs a frame bolted over it: silicone carries no permanent pull"
        found.append(
            Judged(unproven(facts.at, "held", "what holds the edge", "N", why, PRACTICE), by_level=False)
        )
    return found


def clamp_checks(facts: WindowFacts) -> list[Judged]:
    """An edge that cannot turn needs a frame that is shown to carry its moment; a seat is no clamp."""
    if "clamped" not in facts.edges:
        return []
    words, capacity = "moment in the frame that clamps an edge", facts.window.seat.clamp_capacity
    if capacity is None:
        why = (
            f"say what its frame may carry for good, for each unit of its length: {facts.at.path}.seat.clamp_capacity; "
            "a sheet that only leans on timber is not clamped"
        )
        return [Judged(unproven(facts.at, "clamp", words, "N m/m", why, PRACTICE), by_level=False)]
    moment = facts.state.peak_water
    steps = (moment_step(facts, "water", moment.value),)
    advice = "a frame that bears more, or an edge that leans on a seat"
    check = below(facts.at, "clamp", words, moment.value, "N m/m", Limit(capacity, YOURS), advice=advice)
    return [Judged(check, steps)]


def growth_checks(facts: WindowFacts) -> list[Judged]:
    """Room round the sheet to grow with heat and water. It stands on its lower edge: all its height grows upward."""
    row, seat = facts.row, facts.window.seat
    if seat.gap is None:
        why = f"say how much room the sheet has at each edge: {facts.at.path}.seat.gap"
        return [Judged(unproven(facts.at, "gap", "room to grow", "m", why, PRACTICE), by_level=False)]
    wide, high = facts.window.width or 0.0, facts.window.height or 0.0
    grows = max(wide / 2.0, 0.0 if facts.edges[3] == "free" else high)
    if row.has("growth_allowance"):
        share, source = row.si("growth_allowance"), row.figure("growth_allowance").source
    else:
        share, source = row.si("expansion") * GLASS_WARMS, row.figure("expansion").source
    need = acrylic.growth_gap(grows, 0.0, 0.0, share)
    numbers = (given("s", share, "1"), given("L", grows, "m", "sheet"))
    formula = "g = s*L, L: half the width, or the whole height where the upper edge is held"
    steps = (step("g", "growth at the tightest edge", formula, numbers, (need, "m"), source),)
    limit = Limit(seat.gap, source, "", near=0.05)
    words, advice = "growth at the tightest edge", "more room round the sheet, or a smaller sheet"
    check = below(facts.at, "gap", words, need, "m", limit, style="bow", advice=advice)
    return [Judged(check, steps, by_level=False)]
