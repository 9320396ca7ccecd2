"""Judging the bow of a window: at once and for good, likely and at worst, against what is allowed."""

from __future__ import annotations

from dataclasses import dataclass

from tidestead.core.answer import Estimate
from tidestead.core.source import PRACTICE
from tidestead.physics.structure.large_bow import Guard, guard
from tidestead.studies.checks import Limit, below, unproven
from tidestead.studies.judged import Judged
from tidestead.studies.structure.beam_checks import BOW_SHARE, share_step
from tidestead.studies.structure.window_facts import WindowFacts
from tidestead.studies.structure.window_steps import (
    PLATE,
    bow_step,
    creep_step,
    creep_words,
    load_steps,
    stretched_step,
    thin,
    worst_bow_step,
)


@dataclass(frozen=True)
class Bows:
    """How far a sheet bows at once and for good, each with its range, and whether small-bow theory holds there."""

    at_once: Estimate
    lasting: Estimate
    held: Guard


def bows_of(facts: WindowFacts) -> Bows:
    """Bow of one window. Where its load does not last, what is for good is what is at once."""
    ratios = sorted(facts.creep, reverse=True)
    panel, bow = facts.state.panel, facts.state.max_bow
    lasts = 1.0 / ratios[0] if facts.lasting else 1.0
    held = guard(bow * lasts, facts.thickness, panel.edges, facts.width / facts.height, panel.poisson)
    short = thin(facts, bow * held.factor, 3)
    if not facts.lasting:
        return Bows(short, short, held)
    words = creep_words(facts, ratios)
    lasting = Estimate(short.low / ratios[0], short.likely / ratios[0], short.high / ratios[-1], words)
    return Bows(short, lasting, held)


def bow_allowed(facts: WindowFacts) -> float:
    """The lasting bow that is accepted: the plan's, else a share of the span."""
    return facts.window.bow_limit or facts.span / BOW_SHARE


def thicker(facts: WindowFacts) -> str:
    """What makes a sheet bend less; a rim over the upper edge only where that is free."""
    return "a thicker sheet" + (" or a rim over its free upper edge" if facts.edges[3] == "free" else "")


def bow_checks(facts: WindowFacts) -> list[Judged]:
    """Bow at once and for good, and whether plate theory still holds at the lasting bow."""
    bows = bows_of(facts)
    if bows.held.state == "refused":
        name = "bow.long" if facts.lasting else "bow.short"
        return [Judged(unproven(facts.at, name, "bow", "m", bows.held.words, PLATE)), *_temperature(facts)]
    own, advice = facts.window.bow_limit, thicker(facts)
    limit = Limit(bow_allowed(facts), PRACTICE, f"span over {BOW_SHARE:g}" if own is None else "your own")
    allowed = () if own is not None else (share_step(facts.span, BOW_SHARE),)
    steps = (
        *load_steps(facts),
        bow_step(facts, facts.state.max_bow),
        *stretched_step(facts, bows.held),
    )
    check = below(facts.at, "bow.short", "bow at once", bows.at_once, "m", limit, style="bow", advice=advice)
    worst = worst_bow_step(facts, bows.at_once, lasting=False)
    found = [Judged(check, (*steps, *worst, *allowed))]
    if facts.lasting:
        held = bows.held.words if bows.held.state != "linear" else ""
        check = below(
            facts.at,
            "bow.long",
            "bow for good",
            bows.lasting,
            "m",
            limit,
            style="bow",
            advice=advice,
            cautions=tuple(word for word in (facts.creep_caution, held) if word),
        )
        creep = creep_step(facts, bows.at_once.likely, max(facts.creep))
        worst = worst_bow_step(facts, bows.at_once, lasting=True)
        found.append(Judged(check, (*steps, creep, *worst, *allowed)))
    return found + _temperature(facts)


def _temperature(facts: WindowFacts) -> list[Judged]:
    """Acrylic creeps faster when warm: how warm it stays must be said."""
    if not facts.asks_temperature:
        return []
    why = f"say how warm it stays: {facts.at.path}.temperature. Until then the worse creep figure decides"
    source = facts.row.figure("creep_ratio").source
    return [
        Judged(
            unproven(facts.at, "temperature", "how warm the sheet stays", "degC", why, source), by_level=False
        )
    ]
