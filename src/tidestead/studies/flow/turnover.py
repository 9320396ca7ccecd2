"""How often the water of the displays goes round, against what the plan wants."""

from __future__ import annotations

from tidestead.core.answer import Estimate
from tidestead.core.source import YOURS, Known, Source
from tidestead.physics.flow.limits import turnover_rate
from tidestead.plan.model import Plan
from tidestead.studies.checks import At, Limit, above, given, unproven
from tidestead.studies.flow.facts import FlowFacts
from tidestead.studies.flow.heights import port_of
from tidestead.studies.flow.shut_ways import named, shut_towards
from tidestead.studies.judged import Judged, step

_DEFINED = Source("definition", known=Known.COMPUTED)


def turns(facts: FlowFacts, key: str) -> Estimate:
    """Turnovers an hour of one vessel, with the range of what enters it."""
    volume = facts.volumes[key]
    return facts.over(lambda running: float(turnover_rate(running.inflow.get(key, 0.0), volume)) * 3600.0)


def _led_to(plan: Plan, facts: FlowFacts, key: str) -> bool:
    """Whether a line ends at a vessel."""
    return any((end := port_of(plan, line.circuit.end)) and end[0] == key for line in facts.lines)


def _nothing(at: At, plan: Plan, facts: FlowFacts) -> Judged:
    """Lines end there and none brings water: what takes it instead, or a pump that does not reach it."""
    assert plan.targets.turnover is not None
    taking = [
        line.key
        for line in facts.lines
        if facts.flows[line.key] > 0.0
        and port_of(plan, line.circuit.start) is None
        and (end := port_of(plan, line.circuit.end)) is not None
        and end[0] in facts.fixed
    ]
    advice = (
        f"throttling {' and '.join(taking)}, through which the water goes back without passing it"
        if taking
        else "a pump with more head, or a lower outlet: no water comes to it now"
    )
    numbers = (given("Q", 0.0, "m3/s"), given("V", facts.volumes[at.key], "m3"))
    steps = (step("n", "its water replaced", "n = Q/V", numbers, (0.0, "1/h"), _DEFINED),)
    limit = Limit(plan.targets.turnover, YOURS)
    return Judged(above(at, "turnover", "turnovers an hour", 0.0, "1/h", limit, advice=advice), steps)


def turnover_checks(plan: Plan, facts: FlowFacts) -> list[Judged]:
    """Every display that water is sent to."""
    found = []
    for key, vessel in plan.vessels.items():
        if vessel.role != "display":
            continue
        at = At(key, key, "flow", f"vessels.{key}")
        words = "turnovers an hour"
        if facts.inflow.get(key, 0.0) <= 0.0 or facts.volumes.get(key, 0.0) <= 0.0:
            shut = shut_towards(plan, facts.lines, key)
            why = f"no circuit brings water to {key}: end one at a port of it"
            if shut:
                why = f"no water comes to {key}: {named(shut)} stands shut in the plan"
            elif _led_to(plan, facts, key) and plan.targets.turnover is not None and facts.volumes[key] > 0.0:
                found.append(_nothing(at, plan, facts))
                continue
            elif _led_to(plan, facts, key):
                why = f"no water comes to {key}, though lines end there: see what the pumps move"
            found.append(Judged(unproven(at, "turnover", words, "1/h", why, YOURS)))
            continue
        if plan.targets.turnover is None:
            why = "say how often its water should pass the sump: targets.turnover"
            found.append(Judged(unproven(at, "turnover", words, "1/h", why, YOURS)))
            continue
        value = turns(facts, key)
        numbers = (given("Q", facts.inflow[key], "m3/s"), given("V", facts.volumes[key], "m3"))
        steps = (step("n", "its water replaced", "n = Q/V", numbers, (value.likely, "1/h"), _DEFINED),)
        limit = Limit(plan.targets.turnover, YOURS)
        advice = "a stronger pump, wider pipes, or valves further open"
        found.append(Judged(above(at, "turnover", words, value, "1/h", limit, advice=advice), steps))
    return found
