"""Judging power stops: what runs back, the start after it."""

from __future__ import annotations

import math
from collections.abc import Mapping

from tidestead.core.answer import Estimate, Step
from tidestead.core.source import PRACTICE, STATICS, YOURS, Known, Source
from tidestead.core.units import System, show
from tidestead.physics.flow.draining import volume_at
from tidestead.physics.flow.runback import Runback
from tidestead.studies.checks import At, Limit, above, below, given, unproven
from tidestead.studies.flow.break_checks import break_checks
from tidestead.studies.flow.drain_checks import LEAST
from tidestead.studies.flow.facts import FlowFacts
from tidestead.studies.flow.high_point_checks import high_point_checks
from tidestead.studies.flow.levels_told import level_of
from tidestead.studies.flow.stops import StopFacts
from tidestead.studies.flow.top_off_checks import top_off_checks
from tidestead.studies.judged import Judged, step

_SEEN = 5e-4
"""Least change of a level that is told, metres."""

_STEPS = Source(
    "L. Shampine and M. Reichelt, SIAM Journal on Scientific Computing 18 (1997)", "ode23s", Known.RECALLED
)

_ROOM = ("The sump's room is that of an empty box: filter socks, sponges and rock in it take room away.",)

_CASES = (
    ("working", "every guard works", "all"),
    ("break_blocked", "the siphon breaks are blocked", "break"),
    ("check_failed", "the check valves have failed", "check"),
)


def stop_checks(facts: FlowFacts, system: System) -> list[Judged]:
    """Power stops and the start after them, highest points, float valves."""
    found = [one for stop in facts.stops for one in _stop_checks(facts, stop, system)]
    return [*found, *high_point_checks(facts), *top_off_checks(facts, system)]


def _stop_checks(facts: FlowFacts, stop: StopFacts, system: System) -> list[Judged]:
    """The sump holds what comes down, by the worst single failure; no vessel spills; the next start finds water."""
    at = At(stop.ident("power_stop", facts.stops), stop.titled("power stop", facts.stops), "flow")
    if stop.cases is None or stop.stop is None:
        words = "what runs back into the sump"
        why = stop.missing or "the sump is not known"
        return [Judged(unproven(at, "runback", words, "m3", why, STATICS))]
    sump = At(stop.sump, stop.sump, "flow", f"vessels.{stop.sump}")
    more = _spread(facts, stop)
    found = [
        _runback(sump, stop, (name, words, getattr(stop.cases, field), more), system)
        for field, words, name in _CASES
    ]
    found += break_checks(stop, system)
    found += _peaks(at, stop)
    start = _start(sump, facts, stop)
    return found + ([start] if start is not None else [])


def _spread(facts: FlowFacts, stop: StopFacts) -> tuple[float, float]:
    """How much less and more may stand over crests than is likely, by the range of their heads."""
    assert stop.stop is not None
    less = more = 0.0
    for key in stop.vessels:
        level, area = level_of(facts, key), stop.stop.vessels[key].basin.surfaces[-1]
        less += area * (level.likely - level.low)
        # what would stand over the brim has run off elsewhere
        more += area * max(min(level.high, stop.stop.vessels[key].basin.brim) - level.likely, 0.0)
    return less, more


def _runback(
    at: At, stop: StopFacts, which: tuple[str, str, Runback, tuple[float, float]], system: System
) -> Judged:
    name, words, case, (less, more) = which
    assert stop.stop is not None
    fresh = {
        key: valve.stock
        for key, valve in stop.fresh.items()
        if key in case.rests and case.rests[key] < valve.level - _SEEN
    }
    if why := _not_told(stop, fresh):
        return Judged(unproven(at, f"runback.{name}", f"run-back when {words}", "m3", why, STATICS))
    likely = case.total + sum(fresh.values())
    total = Estimate(max(likely - less, 0.0), likely, likely + more, "range of the heads over crests")
    bare = _bare(stop, case) if total.high > stop.free else []
    check = below(
        at,
        f"runback.{name}",
        f"run-back when {words}" + (f" ({_none_at(bare)})" if bare else ""),
        total,
        "m3",
        Limit(stop.free, YOURS, "the sump to its brim", near=0.1),
        advice=_more_room(name, stop, case, bare),
        cautions=_ROOM,
    )
    return Judged(check, _runback_steps(stop, (words, case, fresh), system))


def _runback_steps(
    stop: StopFacts, which: tuple[str, Runback, Mapping[str, float]], system: System
) -> tuple[Step, ...]:
    """What comes, with the float valves that open meanwhile, and the room for it."""
    words, case, fresh = which
    assert stop.stop is not None
    before = {key: one.level for key, one in stop.stop.vessels.items()}
    added = sum(fresh.values())
    numbers = [given("V_vessels", case.from_vessels, "m3"), given("V_pipes", case.from_pipes, "m3")]
    if fresh:
        numbers.append(given("V_fresh", added, "m3"))
    rests = ", ".join(
        f"{key} comes to rest {show(before[key] - rest, 'm', system, 'bow')} lower"
        for key, rest in case.rests.items()
        if before[key] - rest > _SEEN
    )
    sump = stop.stop.vessels[stop.sump].basin
    return (
        step(
            "V",
            f"what comes down when {words}, of pipes what runs out{_opened(fresh)}"
            + (f": {rests}" if rests else ""),
            "V = V_vessels + V_pipes" + (" + V_fresh" if fresh else ""),
            numbers,
            (case.total + added, "m3"),
            STATICS,
        ),
        step(
            "V_free",
            "room in the sump up to its brim",
            "V_free = A*(z_brim - z)",
            (
                given("A", sump.surfaces[-1], "m2"),
                given("z_brim", sump.brim, "m", "fine"),
                given("z", before[stop.sump], "m", "fine"),
            ),
            (stop.free, "m3"),
            STATICS,
        ),
    )


def _not_told(stop: StopFacts, fresh: Mapping[str, float]) -> str:
    """Why what comes down cannot be told; empty where it can."""
    if stop.unsaid:
        keys = ", ".join(f"apparatus.{name}.volume" for name in stop.unsaid)
        return f"say how much water stands in {' and '.join(stop.unsaid)}, which may run out: {keys}"
    endless = [key for key, stock in fresh.items() if not math.isfinite(stock)]
    if endless:
        return (
            f"{endless[0]} sinks at a stop, its float valve opens, and the plan does not say how much fresh water it "
            f"can draw on: vessels.{endless[0]}.top_off.stock, or put the valve into {stop.sump}"
        )
    return ""


def _opened(fresh: Mapping[str, float]) -> str:
    """That float valves open as their vessels sink."""
    return f", and the stock of the float valve in {' and '.join(fresh)}, which opens" if fresh else ""


def _gives_most(stop: StopFacts, case: Runback) -> str:
    """The vessel that most of what comes runs out of; empty where none runs down."""
    assert stop.stop is not None
    gives = {
        key: one.basin.surfaces[-1] * (one.level - case.rests.get(key, one.level))
        for key, one in stop.stop.vessels.items()
        if key != stop.sump
    }
    most = max(gives, key=lambda key: gives[key], default="")
    return most if most and gives[most] > 0.0 else ""


def _bare(stop: StopFacts, case: Runback) -> list[str]:
    """Outlets without a siphon break in the vessel that most of what comes runs out of."""
    most = _gives_most(stop, case)
    return [name for name in stop.bare if name.partition(".")[0] == most]


def _none_at(bare: list[str]) -> str:
    """That outlets have no siphon break."""
    return (
        f"{bare[0]} has no siphon break" if len(bare) == 1 else f"{' and '.join(bare)} have no siphon break"
    )


def _more_room(name: str, stop: StopFacts, case: Runback, bare: list[str]) -> str:
    """What to do where the sump does not hold it: first at the vessel that gives most."""
    most = _gives_most(stop, case)
    weak = [one.name for one in stop.breaks if one.vessel == most and not one.works]
    rest = "outlets nearer the surface, a larger sump, or less water in it"
    if bare:
        none = "which has none" if len(bare) == 1 else "which have none"
        return f"a siphon break just under the surface at {' and '.join(bare)}, {none}, {rest}"
    if weak:
        return f"a siphon break that works at {' and '.join(weak)} (see its own check), {rest}"
    of = f" ({most} gives most of it)" if most else ""
    return {
        "all": f"less water in the sump, a larger sump, or outlets nearer the surface{of}",
        "break": f"an outlet nearer the surface{of}, a second break, or less water in the sump",
        "check": f"a siphon break just under the surface{of}, an outlet nearer to it, or less water in the sump",
    }[name]


def _peaks(at: At, stop: StopFacts) -> list[Judged]:
    """Vessels above the sump that others run into, against their brims."""
    words = "freeboard of vessels that others run into"
    if stop.unsteady:
        return [Judged(unproven(at, "peaks", words, "m", stop.unsteady, _STEPS))]
    found = []
    for key, peak in (stop.peaks or {}).items():
        if peak.level - peak.before < _SEEN:
            continue
        here = At(key, key, "flow", f"vessels.{key}")
        numbers = (given("z", peak.before, "m", "fine"), given("dz", peak.level - peak.before, "m", "bow"))
        meaning = (
            f"highest it comes to after a stop, {peak.case}; dz: its rise, worked out step by step in time"
        )
        steps = (step("z_max", meaning, "z_max = z + dz", numbers, (peak.level, "m", "fine"), _STEPS),)
        limit = Limit(LEAST, PRACTICE, near=0.0)
        advice = "a check valve in the line that runs into it, a higher mouth in the other vessel, or a wider drain"
        what = "freeboard at its highest after a power stop"
        left = peak.brim - peak.level
        check = above(here, "stop_freeboard", what, left, "m", limit, style="level", advice=advice)
        found.append(Judged(check, steps))
    return found


def _start(at: At, facts: FlowFacts, stop: StopFacts) -> Judged | None:
    """What waits over siphons that are not yet full is missing in the sump."""
    if stop.start is None or stop.suction is None or stop.stop is None:
        return None
    basin = stop.stop.vessels[stop.sump].basin
    before = facts.levels[stop.sump]
    numbers = (
        given("z_0", before - stop.suction, "m", "fine"),
        given("V", stop.start.waiting, "m3"),
        given("V_sump", float(volume_at(basin, before)), "m3"),
        given("A", basin.surfaces[-1], "m2"),
    )
    left = stop.start.sump_level - stop.suction
    steps = (
        step(
            "z",
            "sump at its lowest after a start, over the suction",
            "z = z_0 - min(V, V_sump)/A",
            numbers,
            (left, "m"),
            STATICS,
        ),
    )
    limit = Limit(0.05, PRACTICE, "50 mm (2 in) over the middle of the suction")
    advice = "more water in the sump, or a lower suction"
    words = "water over the suction after a start"
    return Judged(above(at, "restart", words, left, "m", limit, style="level", advice=advice), steps)
