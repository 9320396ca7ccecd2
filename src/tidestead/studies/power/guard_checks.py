"""Judging residual-current devices: is there one, does it act early enough for people, does what leaks open it."""

from __future__ import annotations

from collections.abc import Iterator

from tidestead.core.answer import Estimate
from tidestead.physics.power.leakage import devices_wanted
from tidestead.plan.model import Plan
from tidestead.studies.checks import ENOUGH, Limit, above, below
from tidestead.studies.judged import Judged
from tidestead.studies.power import steps
from tidestead.studies.power.facts import LeakFacts, PowerFacts
from tidestead.studies.power.leaking import levels_over
from tidestead.studies.power.load_checks import at_circuit
from tidestead.studies.power.rules import limit_row, personal_row
from tidestead.studies.power.wording import cautions_of, level_words

_EQUIPMENT = (
    "By the US code 6 mA (class A) protects people; 30 mA guards apparatus only, and what hangs in or at the water is "
    "touched. What leaks too much for 6 mA is spread over more devices or renewed, not put behind a later one."
)
_SOME = 3


def guard_checks(plan: Plan, facts: PowerFacts) -> Iterator[Judged]:
    """Every circuit beside seawater has a residual-current device over it, and one that acts early enough."""
    edge, device = limit_row("water-edge"), personal_row(facts.us)
    for key in plan.electrics:
        at, levels = at_circuit(key), levels_over(plan, key)
        limit = Limit(1.0, edge.figure("reach").source, "every circuit beside seawater has one", near=0.0)
        name = "a ground-fault interrupter of 6 mA" if facts.us else "a residual-current device of 30 mA"
        advice = (
            f"{name} over this circuit, put in by the electrician, and electrics.{key}.residual in the plan"
        )
        words = "residual-current devices over it"
        count = float(len(levels))
        yield Judged(
            above(at, "guard", words, count, "count", limit, advice=advice, cautions=cautions_of(edge)[:1])
        )
        if levels:
            most = device.si("trip")
            trip = Limit(most, device.figure("trip").source, "the most that protects people", near=0.0)
            advice = f"a device of {level_words(most)}"
            noted = (_EQUIPMENT,) if facts.us and min(levels) > most else ()
            words = "current to earth that opens its residual-current device"
            yield Judged(below(at, "level", words, min(levels), "A", trip, advice=advice, cautions=noted))


def leak_checks(leak: LeakFacts) -> Iterator[Judged]:
    """What leaks as new against what may stand for good; what leaks with one aged against the earliest trip."""
    at = at_circuit(leak.key)
    likely = leak.leakage.likely
    share, low = leak.row.figure("standing_share"), leak.row.figure("trip_low")
    beside = [one for one in leak.circuits if one != leak.key]
    noted = (f"Counted with circuit {', '.join(beside)}, which hangs on the same device.",) if beside else ()
    advice = _spread(leak)
    limit = Limit(
        leak.standing, share.source, f"{100.0 * leak.row.si('standing_share'):.0f} % of its trip level"
    )
    check = below(
        at, "standing", "leakage to earth, all as new", Estimate(leak.leakage.low, likely, likely, "apparatus as new"),
        "A", limit, advice=advice, cautions=noted,
    )  # fmt: skip
    yield Judged(check, steps.leak_steps(leak, share=True))
    held = f"where a device of {level_words(leak.rated)} may open at the earliest"
    limit = Limit(leak.trip_low, low.source, held)
    check = below(
        at, "trip", "leakage to earth, one aged", leak.leakage, "A", limit, advice=advice,
        cautions=cautions_of(leak.row),
    )  # fmt: skip
    yield Judged(check, steps.leak_steps(leak, share=False))


def _spread(leak: LeakFacts) -> str:
    """Over how many devices, so that both checks are sound; where one aged thing alone is too much, that is said."""
    room, likely = ENOUGH * leak.trip_low, leak.leakage.likely
    count = devices_wanted(likely, leak.rated, ENOUGH * leak.row.si("standing_share"))
    alone = leak.oldest is not None and leak.oldest.si("high") > room
    left = room - (leak.leakage.high - likely)
    if not alone and left > 0.0:
        things = sum(number for _, number in leak.counted)
        count = max(count, min(devices_wanted(likely, leak.rated, left / leak.rated), things))
    over = "two" if count < _SOME else f"{count} or more"
    advice = f"what hangs on it spread over {over} residual-current devices, one of them for the pump that must run"
    if alone and leak.oldest is not None:
        name = leak.oldest.title.lower()
        advice += f"; once aged it takes most of that by itself, to be measured and renewed in time: {name}"
    return advice
