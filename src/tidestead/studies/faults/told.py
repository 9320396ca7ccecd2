"""The answer put together: what harms soonest and who would be there, what buys time, what can empty or flood."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from tidestead.core.answer import Answer, Check, Estimate, Figure, Verdict
from tidestead.core.source import COMPUTED, Source
from tidestead.core.units import System, show
from tidestead.studies.faults.assumptions import CAUTIONS, LEFT_OUT
from tidestead.studies.faults.charts import charts_of
from tidestead.studies.faults.checks import HOUR, judged
from tidestead.studies.faults.facts import FaultFacts, FaultsFacts
from tidestead.studies.faults.tables import tables_of
from tidestead.studies.faults.wording import A_MINUTE, HARMS, after_words, help_words, hours_words
from tidestead.studies.inputs import Inputs
from tidestead.studies.sentences import governing, told_of

QUESTION = "What if something stops?"

IN_TIME = ".in_time"
"""How the ids of checks end that hold a fault against who has acted."""

CAUSES = (".power-winter.in_time", ".power-summer.in_time")
"""What the sentence tells first where it fails: everything else stands still in it too."""


def tell(inputs: Inputs, facts: FaultsFacts) -> Answer:
    """The whole answer."""
    system = inputs.system
    found = judged(facts, system)
    checks = tuple(one.check for one in found)
    in_time = {check.part: check for check in checks if check.id.endswith(IN_TIME)}
    return Answer(
        "faults",
        QUESTION,
        sentence(facts, checks, system),
        checks,
        tuple(_figures(facts)),
        facts.assumptions,
        tuple(one.working for one in found if one.steps),
        tables_of(facts, in_time, system),
        cautions=(*LEFT_OUT, *facts.notes, *CAUTIONS),
        extra_sources=_sources(facts),
        governs=governing(checks, CAUSES).id,
        charts=tuple(charts_of(facts, in_time)),
    )


def sentence(facts: FaultsFacts, checks: Sequence[Check], system: System) -> str:
    """What governs; the soonest harm and who is there; what would buy the most; what floods and empties."""
    words = told_of(checks, system, causes=CAUSES)
    if facts.missing:
        return " ".join(words)
    return " ".join(
        [*words, *_soonest(facts), *_bought(facts, system), *_spilling(facts, system), *_late(facts, checks)]
    )


def _soonest(facts: FaultsFacts) -> Iterator[str]:
    """The fault that harms soonest without being over at once, and until when somebody has acted."""
    told = [one for one in facts.faults if one.likely is not None and A_MINUTE < one.likely.harm < math.inf]
    if not told:
        yield "Nothing that was run comes to harm in the time it was followed."
        return
    first = min(told, key=lambda one: one.likely.harm if one.likely else math.inf)
    by = HARMS[first.likely.by] if first.likely is not None and first.likely.by is not None else "harm"
    after = after_words(first.harm.likely if first.harm else 0.0)
    words = f"Soonest, where anybody could come: {_lower(first.title)}, harm {after}"
    if first.harm is not None and first.harm.low < first.harm.high:
        words += f" ({hours_words(first.harm.low)} to {_over(first.harm, first.harm.high)})"
    words += f" by {by}"
    if first.chain is not None and math.isfinite(first.chain.worst):
        words += f"; somebody has acted after {hours_words(first.chain.worst)} at worst"
    yield f"{words}."


def _over(harm: Estimate, hours: float) -> str:
    """A time as words; over that which was followed."""
    return f"over {hours_words(hours)}" if hours >= harm.followed else hours_words(hours)


def _bought(facts: FaultsFacts, system: System) -> Iterator[str]:
    """The help that lengthens the worst power cut most."""
    cuts = [
        one for one in facts.faults if one.key.startswith("power") and one.likely is not None and one.bought
    ]
    if not cuts:
        return
    cut = min(cuts, key=lambda one: one.likely.harm if one.likely else math.inf)
    best = cut.best_help
    if best is not None and cut.likely is not None:
        then = (
            f"harm {after_words(best.harm)}" if math.isfinite(best.harm) else "no harm in the time followed"
        )
        what, takes = help_words(best, system)
        before = hours_words(best.before)
        yield f"Against {_lower(cut.title)}, {what} buys most: {then} in place of {before}; {takes}."


def _spilling(facts: FaultsFacts, system: System) -> Iterator[str]:
    """Single failures that flood or empty."""
    wet = [one for one in facts.faults if one.spills is not None or _endless(one)]
    if not wet:
        yield "No single failure that was run puts water on the floor."
        return
    worst = max(wet, key=lambda one: math.inf if one.spills is None else one.spills.likely)
    most = "water without end" if worst.spills is None else _amount(worst.spills, system)
    names = ", ".join(_lower(one.title) for one in wet)
    yield f"Single failures that put water on the floor: {names}; the most is {most} ({_lower(worst.title)})."


def _amount(spills: Estimate, system: System) -> str:
    """Water on the floor, and how much it may be."""
    likely, most = show(spills.likely, "m3", system), show(spills.high, "m3", system)
    return likely if likely == most else f"{likely}, or up to {most}"


def _endless(fault: FaultFacts) -> bool:
    return fault.likely is not None and fault.likely.by == "floor" and fault.spills is None and fault.reaches


def _late(facts: FaultsFacts, checks: Sequence[Check]) -> Iterator[str]:
    """Where nobody is there in time."""
    late = [check for check in checks if check.verdict is Verdict.FAILS and check.id.endswith(IN_TIME)]
    if late:
        count = len(late)
        yield (
            f"{count} of {len(facts.faults)} faults would do harm before anybody has acted."
            if count > 1
            else f"One of {len(facts.faults)} faults would do harm before anybody has acted."
        )


def _lower(title: str) -> str:
    return title[:1].lower() + title[1:]


def _figures(facts: FaultsFacts) -> Iterator[Figure]:
    for one in facts.faults:
        value = one.harm_seconds
        if value is not None:
            yield Figure(f"faults.{one.key}.harm", f"{one.title}: time to harm", value, "s", COMPUTED)
        if one.spills is not None:
            yield Figure(
                f"faults.{one.key}.spills", f"{one.title}: water on the floor", one.spills, "m3", COMPUTED
            )
    chances = [
        one.chain.chance for one in facts.faults if one.chain is not None and one.chain.chance is not None
    ]
    if chances:
        words = "chance of harm if one of these begins while nobody may look, each as likely as the next"
        value = Estimate.exact(
            sum(chances) / len(chances), "likely hours; how often each happens is not known"
        )
        yield Figure("faults.absence", words, value, "1", COMPUTED, "share")
    for refuge in facts.refuge:
        still = refuge.still
        span = Estimate(HOUR * still.low, HOUR * still.likely, HOUR * still.high, still.basis)
        words = f"fish in {refuge.name}: time to too little oxygen, nothing stirred"
        yield Figure(f"faults.refuge.{refuge.name.replace(' ', '_')}", words, span, "s", COMPUTED)


def _sources(facts: FaultsFacts) -> tuple[Source, ...]:
    return tuple(dict.fromkeys(one.source for one in (facts.thresholds or {}).values()))
