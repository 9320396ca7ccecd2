"""Judging what leaves a vessel by its own weight: each way blocked, each way alone."""

from __future__ import annotations

import math

from tidestead.core.answer import Estimate
from tidestead.core.source import PRACTICE, STATICS, Known, Source
from tidestead.studies.checks import At, Limit, above, given, unproven
from tidestead.studies.flow.drains import DrainFacts
from tidestead.studies.flow.facts import FlowFacts
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
            left = tuple(other for other in drain.lines if other != line)
            words = f"freeboard with {' and '.join(left)} alone, {line} blocked"
            found.append(_freeboard(at, drain, ("blocked", line), left, words))
        if len(drain.lines) > 2:
            for line in drain.alone:
                words = f"freeboard with {line} alone"
                found.append(_freeboard(at, drain, ("alone", line), (line,), words))
        if len(drain.lines) == 1:
            found.append(_pumped_dry(at, drain))
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
    of = "level" if tight.vessel == drain.vessel else f"level of {tight.vessel}, which is backed up,"
    numbers = (given("Q", drain.flow, "m3/s"), given("z_brim", tight.brim, "m", "fine"))
    steps = (
        step(
            "z",
            f"{of} with {' and '.join(left)} carrying all of it; Q_out of what is left",
            "Q_out(z) = Q, solved with the whole network",
            numbers,
            (tight.level, "m"),
            _NETWORK,
        ),
        step(
            "z_high",
            "highest it may come to: all on the way there looser, all else stiffer, valves that set its level set "
            "again, and the most that the head over its crest may be",
            "Q_out(z_high) = Q_high, solved with the whole network",
            (given("Q_high", tight.most, "m3/s"), given("z", tight.level, "m", "fine")),
            (tight.highest, "m"),
            _NETWORK,
        ),
    )
    basis = "most water by what fittings, valves and guessed pumps differ, range of the head over its crest"
    room = Estimate(tight.brim - tight.highest, tight.brim - tight.level, tight.brim - tight.level, basis)
    if tight.vessel != drain.vessel:
        words = words.replace("freeboard", f"freeboard of {tight.vessel}", 1)
    limit = Limit(LEAST, PRACTICE, near=0.0)
    advice = _advice(drain, left)
    return Judged(above(at, name, words, room, "m", limit, style="level", advice=advice), steps)


def _advice(drain: DrainFacts, left: tuple[str, ...]) -> str:
    """What is wrong with the ways that are left: they start too high, or they are too narrow."""
    high = [line for line in left if drain.tops[line] > drain.brim - LEAST]
    if len(high) == len(left):
        return f"a lower lip for {' and '.join(high)}: it stands at the brim or over it"
    low = [line for line in left if line not in high]
    wider = " or ".join(f"a wider {line}" for line in low)
    return f"{wider} (its lip, its weir, its pipe), or a brim that stands higher over it"


def _pumped_dry(at: At, drain: DrainFacts) -> Judged:
    """One way out only: the pumps lift what the sump has, and then draw air."""
    words = f"freeboard with {drain.lines[0]} blocked and the sump pumped dry"
    if drain.doubt:
        return Judged(unproven(at, "one_blocked", words, "m", drain.doubt, _NETWORK))
    numbers = (
        given("z", drain.level, "m", "fine"),
        given("V", drain.reserve, "m3"),
        given("A", drain.area, "m2"),
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
    left = drain.brim - drain.pumped_dry
    advice = "a second drain that nothing can block with the first, or less water over the pump's suction"
    limit = Limit(LEAST, PRACTICE, near=0.0)
    return Judged(above(at, "one_blocked", words, left, "m", limit, style="level", advice=advice), steps)
