"""Judging the top-off: how long its stock lasts, whether valve and source keep up."""

from __future__ import annotations

from collections.abc import Iterator

from tidestead.catalog import table
from tidestead.core.answer import Estimate, Step
from tidestead.core.months import MONTHS
from tidestead.core.source import COMPUTED, YOURS
from tidestead.core.units import advised, show
from tidestead.studies.checks import At, Limit, above, given, unproven
from tidestead.studies.inputs import Inputs
from tidestead.studies.judged import Judged, step
from tidestead.studies.water.salt_facts import EvaporatingFacts
from tidestead.studies.water.salt_steps import flow_step

AT = At("topoff", "top-off", "water", "vessels")
_DAYS, _VALVE, _SOURCE = "time its stock lasts", "flow of the float valve", "flow of the source"
NO_VALVE = "the plan names no top-off: write vessels.NAME.top_off with level, flow and stock"


def topoff_checks(inputs: Inputs, facts: EvaporatingFacts) -> Iterator[Judged]:
    """Time, valve, source; each unproven with what to write where the plan is silent."""
    draw = facts.draw
    if draw is None:
        for name, what, unit in (
            ("days", _DAYS, "s"),
            ("valve", _VALVE, "m3/s"),
            ("source", _SOURCE, "m3/s"),
        ):
            yield Judged(unproven(AT, name, what, unit, facts.missing, YOURS), by_level=False)
        return
    yield from _days(inputs, facts, draw)
    yield _valve(facts, draw)
    yield _source(facts, draw)


def _days(inputs: Inputs, facts: EvaporatingFacts, draw: Estimate) -> Iterator[Judged]:
    """Held against the longest that nobody looks. What has no stock never runs out: a caution tells of it."""
    if facts.endless:
        return
    response = inputs.plan.response
    absent = None if response is None or response.absent is None else float(response.absent)
    why = ""
    if facts.valves is None:
        why = NO_VALVE
    elif facts.stock is None or facts.lasts is None:
        why = "nothing is drawn from it"
    elif absent is None:
        lasts = show(facts.lasts.low, "s", inputs.system)
        why = f"it lasts {lasts} at worst; write response.absent: the longest that nobody at all may look"
    if why or facts.stock is None or facts.lasts is None or absent is None:
        yield Judged(unproven(AT, "days", _DAYS, "s", why, YOURS), by_level=False)
        return
    needed = advised(1.25 * absent * draw.high, "m3", inputs.system, "up")
    limit = Limit(absent, YOURS, "the longest that nobody at all looks")
    advice = f"a stock of {needed} or more, or a cover: less evaporates"
    check = above(AT, "days", _DAYS, facts.lasts, "s", limit, advice=advice)
    yield Judged(check, (_draw_step(facts, draw), _lasts_step(facts, facts.lasts, draw)), by_level=False)


def _lost(facts: EvaporatingFacts) -> float:
    return 0.0 if facts.drift is None else facts.drift.flow


def _draw_step(facts: EvaporatingFacts, draw: Estimate) -> Step:
    lost = _lost(facts)
    numbers = (given("E", draw.likely - lost, "m3/s", "day"), given("L", lost, "m3/s", "day"))
    meaning = (
        f"fresh water drawn in {MONTHS[facts.worst]}, the worst month: what evaporates and what losses take"
    )
    return step("D", meaning, "D = E + L", numbers, (draw.likely, "m3/s", "day"), COMPUTED)


def _lasts_step(facts: EvaporatingFacts, lasts: Estimate, draw: Estimate) -> Step:
    numbers = (given("R", facts.stock or 0.0, "m3"), given("D", draw.likely, "m3/s", "day"))
    return step("t", "the stock over what is drawn", "t = R/D", numbers, (lasts.likely, "s"), COMPUTED)


def _valve(facts: EvaporatingFacts, draw: Estimate) -> Judged:
    """The valve lets in more than goes off on the worst day of the mean month."""
    if facts.valves is None:
        return Judged(unproven(AT, "valve", _VALVE, "m3/s", NO_VALVE, YOURS), by_level=False)
    limit = Limit(draw.high, COMPUTED, "what is drawn in the worst month, one year in ten")
    advice = "a larger valve"
    check = above(AT, "valve", _VALVE, facts.valves, "m3/s", limit, advice=advice)
    return Judged(check, (_draw_step(facts, draw),), by_level=False)


def _source(facts: EvaporatingFacts, draw: Estimate) -> Judged:
    """The fresh source gives more than is drawn; what changes take besides is told with them."""
    supply = facts.supply
    if supply is None:
        why = "the plan names no source of fresh water: write [sources.NAME] with kind and flow"
        return Judged(unproven(AT, "source", _SOURCE, "m3/s", why, YOURS), by_level=False)
    flow = supply.flow
    if supply.kind == "tanker" and supply.load is not None and supply.every:
        flow = supply.load / supply.every
    if flow is None:
        wanted = "load and every" if supply.kind == "tanker" else "flow"
        why = f"write sources.{supply.key}.{wanted}: what it gives"
        return Judged(unproven(AT, "source", _SOURCE, "m3/s", why, YOURS), by_level=False)
    limit = Limit(draw.high, COMPUTED, "what is drawn in the worst month, one year in ten")
    advice = "a stronger source, or warmer water to the membrane"
    check = above(AT, "source", f"{_SOURCE} {supply.key}", flow, "m3/s", limit, advice=advice, style="day")
    steps = (_draw_step(facts, draw), *((flow_step(supply),) if supply.flow is not None else ()))
    return Judged(check, steps, by_level=False)


def topoff_cautions(inputs: Inputs, facts: EvaporatingFacts) -> Iterator[str]:
    """What nothing ends but a float; what is left out."""
    system = inputs.system
    if facts.endless and facts.stuck is not None:
        after = show(facts.stuck, "s", system)
        fall = show(table("water_limits")["change"].si("salts"), "psu", system)
        yield (
            f"The top-off of {', '.join(facts.endless)} has no stock that ends: if its float sticks open, salinity is "
            f"{fall} lower after {after} and goes on falling. A barrel between "
            f"(vessels.{facts.endless[0]}.top_off.stock) bounds it."
        )
    if facts.endless and facts.stuck is None:
        yield f"The top-off of {', '.join(facts.endless)} draws on what does not end: nothing but its float stops it."
    if not facts.missing:
        yield (
            f"Evaporation is the mean of a month, {facts.basis}: single days go higher, and a fan or an open cover "
            "adds to it. A kilogram is counted as a litre."
        )
