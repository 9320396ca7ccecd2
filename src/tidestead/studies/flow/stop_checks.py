"""Judging power stops: what runs back, the start after it."""

from __future__ import annotations

from tidestead.core.source import PRACTICE, STATICS, YOURS
from tidestead.core.units import System, show
from tidestead.physics.flow.runback import Runback
from tidestead.studies.checks import At, Limit, above, below, given, unproven
from tidestead.studies.flow.facts import FlowFacts
from tidestead.studies.flow.stops import StopFacts
from tidestead.studies.judged import Judged, step

_CASES = (
    ("working", "every guard works", "all"),
    ("break_blocked", "the siphon breaks are blocked", "break"),
    ("check_failed", "the check valves have failed", "check"),
)


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
