"""Judging drains and power stops: each way blocked, each way alone, what runs back, the start after it."""

from __future__ import annotations

import math

from tidestead.core.source import PRACTICE, STATICS, YOURS, Known, Source
from tidestead.core.units import System, show
from tidestead.physics.flow.runback import Runback
from tidestead.studies.checks import At, Limit, above, below, given, unproven
from tidestead.studies.flow.drains import DrainFacts
from tidestead.studies.flow.facts import FlowFacts
from tidestead.studies.flow.stops import StopFacts
from tidestead.studies.judged import Judged, step

LEAST = 0.01
"""Freeboard with a way blocked, metres. Common practice, no source."""

_NETWORK = Source("balance of the network", known=Known.COMPUTED)

_CASES = (
    ("working", "every guard works", "all"),
    ("break_blocked", "the siphon breaks are blocked", "break"),
    ("check_failed", "the check valves have failed", "check"),
)


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


def stop_checks(facts: FlowFacts, system: System) -> list[Judged]:
    """The sump holds what comes down, by the worst single failure; the next start finds water."""
    stop = facts.stop
    if stop is None:
        return []
    at = At("power_stop", "power stop", "flow")
    if stop.cases is None:
        words = "what runs back into the sump"
        why = stop.missing or "the sump is not known"
        return [Judged(unproven(at, "runback", words, "m3", why, STATICS))]
    sump = At(stop.sump, stop.sump, "flow", f"vessels.{stop.sump}")
    found = [_runback(sump, stop, (field, words, name), system) for field, words, name in _CASES]
    start = _start(sump, stop)
    return found + ([start] if start is not None else [])


def _runback(at: At, stop: StopFacts, which: tuple[str, str, str], system: System) -> Judged:
    field, words, name = which
    case: Runback = getattr(stop.cases, field)
    numbers = (given("V_vessels", case.from_vessels, "m3"), given("V_pipes", case.from_pipes, "m3"))
    rests = ", ".join(
        f"{key} comes to rest {show(fall.running - rest, 'm', system, 'bow')} lower"
        for key, fall, rest in zip(
            stop.vessels, stop.stop.vessels if stop.stop else (), case.rests, strict=True
        )
        if fall.running - rest > 5e-4
    )
    steps = (
        step(
            "V",
            f"what comes down when {words}" + (f": {rests}" if rests else ""),
            "V = sum of A*(z - z_rest) + pipes above the sump",
            numbers,
            (case.total, "m3"),
            STATICS,
        ),
        step(
            "V_free",
            "room in the sump up to its brim",
            "V_free = A*(z_brim - z)",
            (given("z", stop.stop.sump_level if stop.stop else 0.0, "m", "fine"),),
            (stop.free, "m3"),
            STATICS,
        ),
    )
    advice = {
        "all": "less water in the sump, a larger sump, or outlets nearer the surface",
        "break": "an outlet nearer the surface, a second break, or less water in the sump",
        "check": "a siphon break just under the surface, an outlet nearer to it, or less water in the sump",
    }[name]
    limit = Limit(stop.free, YOURS, "the sump to its brim", near=0.1)
    check = below(at, f"runback.{name}", f"run-back when {words}", case.total, "m3", limit, advice=advice)
    return Judged(check, steps)


def _start(at: At, stop: StopFacts) -> Judged | None:
    """What waits over siphons that are not yet full is missing in the sump."""
    if stop.start is None or stop.suction is None:
        return None
    numbers = (given("V", stop.start.waiting, "m3"),)
    left = stop.start.sump_level - stop.suction
    steps = (
        step(
            "z",
            "sump at its lowest after a start, over the suction",
            "z = level of (V_sump - V)",
            numbers,
            (left, "m"),
            STATICS,
        ),
    )
    limit = Limit(0.05, PRACTICE, "50 mm over the middle of the suction")
    advice = "more water in the sump, or a lower suction"
    words = "water over the suction after a start"
    return Judged(above(at, "restart", words, left, "m", limit, style="level", advice=advice), steps)
