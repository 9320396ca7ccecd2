"""Judging faults: hours to harm against the hours until somebody has acted; days between wipes against the film."""

from __future__ import annotations

import math
from collections.abc import Iterator

from tidestead.core.answer import Step, Verdict
from tidestead.core.source import COMPUTED, YOURS, Known, Source
from tidestead.core.units import System
from tidestead.studies.checks import At, Limit, above, below, given, unproven
from tidestead.studies.faults.facts import FaultFacts, FaultsFacts, FilmFacts
from tidestead.studies.faults.wording import A_MINUTE, HARMS, after_words, help_words, hours_words, more_words
from tidestead.studies.judged import Judged, step

HOUR = 3600.0
DAY = 86400.0
WHAT = "time to harm, against the time until somebody has acted"
_ENGINE = Source(
    "coupled run of heat, oxygen, ammonia, levels and salinity", "physics/transient", Known.COMPUTED
)


def judged(facts: FaultsFacts, system: System) -> list[Judged]:
    """Every fault; then the windows."""
    found = [_in_time(facts, one, system) for one in facts.faults]
    if not found:
        at = At("all", "any fault", "faults", "vessels")
        why = "; ".join(facts.missing) or "nothing in the plan can stop"
        found = [Judged(unproven(at, "in_time", WHAT, "s", why, COMPUTED))]
    return [*found, *_glass(facts)]


def _in_time(facts: FaultsFacts, fault: FaultFacts, system: System) -> Judged:
    at = At(fault.key, fault.title, "faults", fault.part or "response")
    value, chain = fault.harm_seconds, fault.chain
    if fault.unproven or value is None:
        return Judged(
            unproven(at, "in_time", WHAT, "s", fault.unproven or "nothing is known of it", COMPUTED)
        )
    if chain is None:
        why = facts.no_response or "the plan does not say how long nobody may look: write response.absent"
        return Judged(unproven(at, "in_time", WHAT, "s", why, YOURS))
    limit = _limit(fault)
    held = Limit(limit * HOUR, YOURS, "the worst hour of the day to begin")
    check = above(
        at, "in_time", WHAT, value, "s", held, advice=_advice(fault, system), cautions=_said(fault, system)
    )
    if fault.untold and check.verdict is not Verdict.FAILS:
        return Judged(unproven(at, "in_time", WHAT, "s", fault.untold, COMPUTED), tuple(_steps(fault)))
    return Judged(check, tuple(_steps(fault)))


def _limit(fault: FaultFacts) -> float:
    """Hours until somebody has acted; none are needed where not even the level to act is passed.

    Where that is passed and no harm comes, nobody who notices makes it near: it was followed no further.
    """
    chain, soonest = fault.chain, fault.soonest
    if chain is None or soonest is None or not math.isfinite(soonest.act):
        return 0.0
    if fault.reaches:
        return chain.worst if math.isfinite(chain.worst) else fault.until * _NEVER
    return min(chain.worst, fault.until * _UNSEEN)


_NEVER = 10.0
"""Times the time followed that stand for nobody ever noticing."""
_UNSEEN = 0.9
"""Share of the time followed that stands for nobody acting on a level to act which brings no harm. Own choice."""


def _said(fault: FaultFacts, system: System) -> tuple[str, ...]:
    """What belongs to the number: that harm does not come, what drives it, why the alarm does not help."""
    words = []
    if not fault.reaches:
        words.append(f"No harm within {hours_words(fault.until)}, which is as far as it was followed.")
        if fault.soonest is not None and math.isfinite(fault.soonest.act):
            seen = fault.chain is not None and math.isfinite(fault.chain.worst)
            words.append(
                f"The level to act is passed {after_words(fault.soonest.act)} all the same, at worst"
                f"{', so that somebody must act' if seen else ', and nobody notices'}."
            )
    elif fault.likely is not None and math.isinf(fault.likely.harm):
        words.append(
            f"Likely no harm within {hours_words(fault.until)}, which is as far as it was followed: it comes at the "
            "adverse end."
        )
    if fault.untold:
        words.append(f"Not counted: {fault.untold}.")
    if fault.driver is not None:
        words.append(
            f"What moves it most is {fault.driver.words}: at its adverse end alone {hours_words(fault.driver.hours)}."
        )
    if fault.chain is not None and fault.chain.why_not and fault.reaches:
        words.append(f"No call comes: {fault.chain.why_not}.")
    if fault.chain is not None and math.isinf(fault.chain.worst) and fault.reaches:
        words.append(f"Nobody who looks would see it: {hours_words(fault.until * _NEVER)} stand for that.")
    if fault.words:
        words.append(more_words(fault, system))
    return tuple(words)


def _advice(fault: FaultFacts, system: System) -> str:
    """What buys the most time, and what shortens the chain."""
    ways = []
    best, chain = fault.best_help, fault.chain
    if best is not None:
        what, takes = help_words(best, system)
        alone = chain is not None and best.harm < chain.worst
        ways.append(
            f"{what}: harm then {after_words(best.harm)}{' at the adverse end' if best.at_worst else ''} ({takes})"
            f"{', not enough alone' if alone else ''}"
        )
    if fault.likely is not None and fault.likely.by == "floor" and best is None:
        ways.append("a leak switch on the floor that stops pump and fresh water, and a bund or floor drain")
    if chain is not None and chain.why_not:
        ways.append(f"an alarm that tells of it: {chain.why_not}")
    elif (
        chain is not None and chain.worst > 1.0 and fault.likely is not None and fault.likely.harm > A_MINUTE
    ):
        ways.append("one look more a day, or help that lives nearer")
    if fault.key == "glass":
        ways = ["wiping more often in the bright months, less light on the windows, or fewer nutrients"]
    if fault.likely is not None and fault.likely.by == "ammonia":
        ways.append("measuring ammonia at every look, for nothing else shows it in time")
    if fault.key == "top-off-lime":
        ways = ["a smaller drum of limewater, or plain fresh water behind the float"]
    if fault.key.startswith("doser"):
        ways = ["a smaller bottle, filled more often, or a weaker stock"]
    return "; ".join(ways)


def _steps(fault: FaultFacts) -> Iterator[Step]:
    """The links of the chain added up, and the hours to harm as the run gives them."""
    likely, curves, chain = fault.likely, fault.curves, fault.chain
    if chain is not None and chain.parts:
        symbols = [f"t_{number}" for number in range(1, len(chain.parts) + 1)]
        told = ", ".join(f"{symbol} {words}" for symbol, (words, _) in zip(symbols, chain.parts, strict=True))
        numbers = [
            given(symbol, HOUR * hours, "s") for symbol, (_, hours) in zip(symbols, chain.parts, strict=True)
        ]
        meaning = f"until somebody has acted, at the worst hour to begin, noticed by {chain.noticed}: {told}"
        yield step(
            "t_acted", meaning, f"t_acted = {' + '.join(symbols)}", numbers, (HOUR * chain.worst, "s"), YOURS
        )
    if likely is not None and fault.harm is not None:
        why = "" if likely.by is None else f", by {HARMS[likely.by]}"
        why += "" if math.isfinite(likely.harm) else ", not within the time followed, which stands for it"
        numbers = [given("t_end", HOUR * fault.until, "s")]
        if curves is not None:
            numbers += [given("T", curves.temp_c[0], "degC"), given("C", curves.oxygen[0], "mg/L"),
                        given("S", curves.sal_psu[0], "psu"), given("V", curves.volume[0], "m3")]  # fmt: skip
        meaning = f"time to harm, likely{why}; followed for t_end from the display's T, C, S and V"
        yield step(
            "t_harm", meaning, "t_harm = run(T, C, S, V)", numbers, (HOUR * fault.harm.likely, "s"), _ENGINE
        )


def _glass(facts: FaultsFacts) -> list[Judged]:
    at = At("glass", "windows of the display", "faults", "cleaning")
    film = facts.film
    if film is None:
        return []
    last = min(film.last, key=lambda one: one.low)
    if film.every is None:
        why = "the plan does not say how often windows are wiped: write [cleaning] with every"
        return [Judged(unproven(at, "every", "days between wipes", "s", why, YOURS))]
    limit = Limit(DAY * last.low, film.source, "the early end of its range, in the month that grows fastest")
    words = "days between wipes, against the last that is safe"
    days = max(math.floor(last.low), 1)
    advice = f"wiping every {'day' if days == 1 else f'{days} days'} in the bright months"
    found = [
        Judged(
            below(at, "every", words, DAY * film.every, "s", limit, advice=advice), tuple(_film_steps(film))
        )
    ]
    if film.patches is not None:
        held = Limit(film.allowed, film.allowed_source, "share of a window that may be under patches")
        words, advice = (
            "share under set patches by the next scrape",
            "wiping more often, or a scrape by the minder",
        )
        found.append(
            Judged(below(at, "patches", words, film.patches, "1", held, style="share", advice=advice))
        )
    return found


def _film_steps(film: FilmFacts) -> Iterator[Step]:
    month = min(range(12), key=lambda at: film.last[at].low)
    last = film.last[month]
    wait, time, shape = film.sets
    numbers = (
        given("t_0", DAY * wait, "s"), given("theta", DAY * time, "s"), given("k", shape, "1"),
        given("u", film.allowed, "1"), given("g", film.growth[month], "1"),
    )  # fmt: skip
    meaning = "last safe day, likely: u the share under set patches that is borne, g the growth against the mean month"
    yield step(
        "t",
        meaning,
        "t = (t_0 + theta*(-ln(1 - u))**(1/k))/g",
        numbers,
        (DAY * last.likely, "s"),
        film.source,
    )
