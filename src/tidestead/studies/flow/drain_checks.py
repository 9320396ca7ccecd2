"""Judging what leaves a vessel by its own weight: each way blocked, each way alone."""

from __future__ import annotations

import math
from collections.abc import Sequence

from tidestead.core.answer import Estimate, Given, Step
from tidestead.core.source import PRACTICE, STATICS, Known, Source
from tidestead.studies.checks import At, Limit, above, given, unproven
from tidestead.studies.flow.drains import DrainFacts, Tightest
from tidestead.studies.flow.facts import FlowFacts
from tidestead.studies.flow.held_back import Held
from tidestead.studies.flow.levels_told import level_of, level_unset
from tidestead.studies.judged import Judged, step

LEAST = 0.01
"""Freeboard with a way blocked, metres. Common practice, no source."""

_NETWORK = Source("balance of the network", known=Known.COMPUTED)


def drain_checks(facts: FlowFacts) -> list[Judged]:
    """Every vessel with its ways out: one blocked, which is the others alone; and one alone, where there are more."""
    found: list[Judged] = []
    for drain in facts.drains:
        at = At(f"{drain.vessel}.drains", f"{drain.vessel}, drains", "flow", f"vessels.{drain.vessel}.ports")
        for line in drain.blocked:
            left = drain.left[line]
            words = f"freeboard with {' and '.join(left)} alone, {line} blocked"
            found.append(_freeboard(at, drain, ("blocked", line), left, words))
        if len(drain.lines) > 2:
            for line in drain.alone:
                words = f"freeboard with {line} alone"
                found.append(_freeboard(at, drain, ("alone", line), (line,), words))
        if drain.sole:
            found.append(_pumped_dry(at, facts, drain))
    return found


def _freeboard(
    at: At, drain: DrainFacts, trial: tuple[str, str], left: tuple[str, ...], words: str
) -> Judged:
    """`trial` is how and which line, as in `DrainFacts`; `left` are the lines that must carry all of it."""
    how, line = trial
    name, level = f"{line}_{how}", (drain.blocked if how == "blocked" else drain.alone)[line]
    if level is None or not math.isfinite(level):
        ways = " and ".join(left)
        why = (
            f"the flow has no balance with nothing but {ways}: the water rises until something else takes it"
        )
        return Judged(unproven(at, name, words, "m", drain.doubts.get(trial, why), _NETWORK))
    tight = drain.tightest[trial]
    if not math.isfinite(tight.highest):
        why = f"with the most water that may come, {' and '.join(left)} alone have no balance that was found"
        return Judged(unproven(at, name, words, "m", why, _NETWORK))
    basis = "most water by what fittings, valves and guessed pumps differ, range of the head over its crest"
    room = Estimate(tight.brim - tight.highest, tight.brim - tight.level, tight.brim - tight.level, basis)
    if tight.vessel != drain.vessel:
        words = words.replace("freeboard", f"freeboard of {tight.vessel}", 1)
    limit = Limit(LEAST, PRACTICE, near=0.0)
    advice = _advice(drain, left)
    check = above(at, name, words, room, "m", limit, style="bow", advice=advice)
    return Judged(check, _trial_steps(drain, tight, left))


def _trial_steps(drain: DrainFacts, tight: Tightest, left: tuple[str, ...]) -> tuple[Step, ...]:
    """The level likely, the highest it may be, and the room left then."""
    of = "level" if tight.vessel == drain.vessel else f"level of {tight.vessel}, which is backed up,"
    comes, goes = tight.passed
    return (
        step(
            "z",
            f"{of} with {' and '.join(left)} carrying all of it, the whole network solved again",
            "Q_in = Q_out",
            (given("Q_in", comes, "m3/s"), given("Q_out", goes, "m3/s")),
            (tight.level, "m"),
            _NETWORK,
        ),
        step(
            "z_high",
            "highest it may come to, solved again: all on the way there looser, all else stiffer, valves that set its "
            "level set again, and the most that the head over its crest may be",
            "Q_in = Q_out",
            (given("Q_in", tight.most, "m3/s"), given("Q_out", tight.most, "m3/s")),
            (tight.highest, "m"),
            _NETWORK,
        ),
        _room_step("z_high", tight.highest, tight.brim),
    )


def _room_step(symbol: str, level: float, brim: float) -> Step:
    """What is left from a level to the brim."""
    numbers = (given("z_brim", brim, "m", "fine"), given(symbol, level, "m", "fine"))
    return step(
        "f",
        "room left to the brim then",
        f"f = z_brim - {symbol}",
        numbers,
        (brim - level, "m", "bow"),
        STATICS,
    )


def _advice(drain: DrainFacts, left: tuple[str, ...]) -> str:
    """What is wrong with the ways that are left: they start too high, or they are too narrow."""
    high = [line for line in left if drain.tops[line] > drain.brim - LEAST]
    if len(high) == len(left):
        return f"a lower lip for {' and '.join(high)}: it stands at the brim or over it"
    low = [line for line in left if line not in high]
    wider = " or ".join(f"a wider {line}" for line in low)
    return f"{wider} (its lip, its weir, its pipe), or a brim that stands higher over it"


def _pumped_dry(at: At, facts: FlowFacts, drain: DrainFacts) -> Judged:
    """One way out only: the pumps lift what all other vessels have, and then draw air."""
    held = drain.held
    whose = "freeboard" if held.tightest == drain.vessel else f"freeboard of {held.tightest}"
    words = f"{whose} with {drain.sole} blocked and the sump pumped dry"
    why = drain.doubt or _endless(held)
    if why:
        return Judged(unproven(at, "one_blocked", words, "m", why, _NETWORK))
    less, more = _span(facts, held)
    left = held.brim - held.level
    basis = "what fittings, valves, guessed pumps and heads over crests may add before, here and beyond"
    room = Estimate(left - more, left, left + less, basis if more > 0.0 else "")
    advice = "a second drain that nothing can block with the first, or less water over the pump's suction"
    if held.fresh:
        advice += f", or a smaller stock for the float valve of {' and '.join(held.fresh)}"
    limit = Limit(LEAST, PRACTICE, near=0.0)
    check = above(at, "one_blocked", words, room, "m", limit, style="bow", advice=advice)
    return Judged(check, _held_steps(held))


def _held_steps(held: Held) -> tuple[Step, ...]:
    """What each vessel gives, all of it, and the level that it makes."""
    each = [
        step(
            f"V_{key}",
            f"what {key} gives down to z_end, where it lets no more go",
            f"V_{key} = A*(z - z_end)",
            (
                given("A", one.area, "m2"),
                given("z", one.start, "m", "fine"),
                given("z_end", one.end, "m", "fine"),
            ),
            (one.volume, "m3"),
            STATICS,
        )
        for key, one in held.sunk.items()
        if one.volume > 0.0
    ]
    parts = [given(f"V_{key}", one.volume, "m3") for key, one in held.sunk.items() if one.volume > 0.0]
    parts += [given(f"V_fresh_{key}", stock, "m3") for key, stock in held.fresh.items()]
    before = sum(area * level for area, level in held.risen.values()) / held.area
    as_one = "its level" if len(held.risen) == 1 else f"the level of {' and '.join(held.risen)} as one"
    return (
        *each,
        step(
            "V",
            "what comes",
            _sum_of(parts),
            tuple(parts),
            (held.reserve, "m3"),
            STATICS,
        ),
        step(
            "z_2",
            f"{as_one} once the pumps draw air at the lower edge of the lowest suction",
            "z_2 = z + V/A",
            (given("z", before, "m", "fine"), given("V", held.reserve, "m3"), given("A", held.area, "m2")),
            (held.level, "m"),
            STATICS,
        ),
        _room_step("z_2", held.level, held.brim),
    )


def _sum_of(parts: Sequence[Given]) -> str:
    return "V = " + " + ".join(one.symbol for one in parts)


def _endless(held: Held) -> str:
    """Why what comes cannot be told: a float valve with no stock."""
    mains = [key for key, stock in held.fresh.items() if not math.isfinite(stock)]
    if not mains:
        return ""
    return (
        f"the float valve of {mains[0]} opens as it sinks, and the pump sends that water up too: say how much fresh "
        f"water it can draw on, vessels.{mains[0]}.top_off.stock"
    )


def _span(facts: FlowFacts, held: Held) -> tuple[float, float]:
    """How far the level may end below and above what is likely: by all vessels whose level the flow sets."""
    areas = {key: area for key, (area, _) in held.risen.items()}
    areas |= {key: one.area for key, one in held.sunk.items() if key not in facts.fixed and one.volume > 0.0}
    less = more = 0.0
    for key, area in areas.items():
        level = level_of(facts, key) if key in held.valved else level_unset(facts, key)
        share = area / held.area
        less += share * (level.likely - level.low)
        more += share * (level.high - level.likely)
    return less, more
