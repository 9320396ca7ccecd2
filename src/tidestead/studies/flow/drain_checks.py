"""Judging what leaves a vessel by its own weight: each way blocked, each way alone."""

from __future__ import annotations

import math

from tidestead.core.source import PRACTICE, STATICS, Known, Source
from tidestead.studies.checks import At, Limit, above, given, unproven
from tidestead.studies.flow.drains import DrainFacts
from tidestead.studies.flow.facts import FlowFacts
from tidestead.studies.judged import Judged, step

LEAST = 0.01
"""Freeboard with a way blocked, metres. Common practice, no source."""

_NETWORK = Source("balance of the network", known=Known.COMPUTED)


def drain_checks(facts: FlowFacts) -> list[Judged]:
    """Every vessel with its ways out, one blocked and one alone."""
    found: list[Judged] = []
    for drain in facts.drains:
        at = At(f"{drain.vessel}.drains", f"{drain.vessel}, drains", "flow", f"vessels.{drain.vessel}.ports")
        for line, level in drain.blocked.items():
            found.append(_freeboard(at, f"{line}_blocked", f"freeboard with {line} blocked", drain, level))
        if len(drain.lines) > 2:
            for line, level in drain.alone.items():
                found.append(_freeboard(at, f"{line}_alone", f"freeboard with {line} alone", drain, level))
        if len(drain.lines) == 1:
            found.append(_pumped_dry(at, drain))
    return found


def _freeboard(at: At, name: str, words: str, drain: DrainFacts, level: float | None) -> Judged:
    if level is None or not math.isfinite(level):
        why = "with that way out the flow has no balance: the water rises until something else takes it"
        return Judged(unproven(at, name, words, "m", why, _NETWORK))
    numbers = (given("Q", drain.flow, "m3/s"), given("z_brim", drain.brim, "m", "fine"))
    steps = (
        step(
            "z",
            "level with the other ways carrying all of it",
            "network solved again",
            numbers,
            (level, "m"),
            _NETWORK,
        ),
    )
    advice = "a wider standby drain, or a brim that stands higher over it"
    left = drain.brim - level
    limit = Limit(LEAST, PRACTICE, near=0.0)
    return Judged(above(at, name, words, left, "m", limit, style="level", advice=advice), steps)


def _pumped_dry(at: At, drain: DrainFacts) -> Judged:
    """One way out only: the pumps lift what the sump has, and then draw air."""
    numbers = (
        given("z", drain.level, "m", "fine"),
        given("V", drain.reserve, "m3"),
        given("z_brim", drain.brim, "m", "fine"),
    )
    steps = (
        step(
            "z_2",
            "level once the sump is pumped down to its suction",
            "z_2 = z + V/A",
            numbers,
            (drain.pumped_dry, "m"),
            STATICS,
        ),
    )
    words = f"freeboard with {drain.lines[0]} blocked and the sump pumped dry"
    left = drain.brim - drain.pumped_dry
    advice = "a second drain that nothing can block with the first, or less water over the pump's suction"
    limit = Limit(LEAST, PRACTICE, near=0.0)
    return Judged(above(at, "one_blocked", words, left, "m", limit, style="level", advice=advice), steps)
