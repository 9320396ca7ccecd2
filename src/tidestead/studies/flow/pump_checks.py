"""Judging pumps: that they move water, stay on their curve, get water without boiling, bear a fouled strainer."""

from __future__ import annotations

from tidestead.core.answer import Step
from tidestead.core.source import PRACTICE, STATICS, YOURS, Known, Source
from tidestead.physics.flow.pipes import pipe_velocity, velocity_head
from tidestead.plan.model import Plan
from tidestead.studies.checks import At, Limit, above, below, given, unproven
from tidestead.studies.flow.facts import FlowFacts
from tidestead.studies.flow.heads import LIFT, head_shares
from tidestead.studies.flow.intake_checks import cover_checks, npsh_check, prime_check
from tidestead.studies.flow.pumping import PumpFacts
from tidestead.studies.flow.shut_ways import named, shut_beyond
from tidestead.studies.judged import Judged, step

LEAST = 0.05
"""Share of a pump's last flow under which it hardly moves water and heats what it holds. Common practice."""

KEPT = 0.7
"""Share of its flow that should be left with a strainer half blocked. Common practice, no source."""

GUESSED = (
    "Only two numbers of this pump are known: real curves lie up to a fifth of the greatest head away. Get the maker's "
    "points."
)
_BALANCE = Source("balance of the network", "global gradient method, see the theory of flow", Known.COMPUTED)


def pump_checks(plan: Plan, facts: FlowFacts) -> list[Judged]:
    """Every check of every pump."""
    found: list[Judged] = [] if facts.pumps else [_none(plan)]
    for pump in facts.pumps:
        at = At(f"pumps.{pump.name}", f"pump {pump.name}", "flow", f"pumps.{pump.name}")
        found += [_delivers(at, plan, facts, pump), _on_curve(at, plan, pump), npsh_check(at, plan, pump)]
        primes = prime_check(at, pump)
        found += [primes] if primes is not None else []
        found += cover_checks(at, plan, facts, pump)
        found += _fouled(at, facts, pump)
        if pump.efficiency is not None and pump.efficiency > 1.0:
            found.append(_impossible(at, pump))
    return found


def _impossible(at: At, pump: PumpFacts) -> Judged:
    """More goes into the water than comes out of the wall: curve or watts are wrong, and with them energy and flow."""
    share = f"{100.0 * (pump.efficiency or 0.0):.0f} %"
    why = (
        f"it would put {share} of its power into the water, which no pump does: curve or watts are wrong, "
        f"pumps.{pump.name}.curve or pumps.{pump.name}.power"
    )
    return Judged(unproven(at, "power", "share of its power in the water", "1", why, STATICS))


def _none(plan: Plan) -> Judged:
    """No pump drives any of the water."""
    at = At("pumps", "pumps", "flow", "pumps")
    names = ", ".join(plan.pumps)
    why = "no pump stands in any circuit, so nothing lifts the water: " + (
        f'put "pump NAME" into a circuit\'s route, with one of yours: {names}'
        if names
        else 'add [pumps.NAME] with its curve, and "pump NAME" to a circuit\'s route'
    )
    return Judged(unproven(at, "none", "flow of the pumps", "m3/s", why, YOURS))


def _delivers(at: At, plan: Plan, facts: FlowFacts, pump: PumpFacts) -> Judged:
    estimate, unit = pump.spread, "m3/s"
    limit = Limit(LEAST * pump.last_flow, PRACTICE)
    shares = head_shares(plan, facts, pump.name)
    lift = sum(one.head for one in shares if one.words == LIFT)
    lost = sum(one.head for one in shares if one.words != LIFT)
    numbers = tuple(
        given(symbol, value, "m", "fine")
        for symbol, value in (("H", pump.head), ("lift", lift), ("losses", lost))
    )
    steps = (
        step(
            "Q",
            "flow at which the head of the pump's curve is the lift and the losses, found by trial; see the table "
            "Where the head goes",
            "H(Q) = lift + losses(Q)",
            numbers,
            (pump.flow, unit),
            _BALANCE,
        ),
    )
    cautions = (GUESSED,) if pump.guessed else ()
    shut = shut_beyond(plan, facts.lines, facts.line(pump.line))
    advice = (
        f"opening {named(shut)}: shut in the plan" if shut else "a pump with more head, or a lower outlet"
    )
    return Judged(
        above(at, "delivers", "flow it moves", estimate, unit, limit, advice=advice, cautions=cautions), steps
    )


def _on_curve(at: At, plan: Plan, pump: PumpFacts) -> Judged:
    words = "flow against the end of its curve"
    if pump.beyond:
        why = (
            "it runs beyond the points of its curve, where its head is a guess: give more points of "
            f"pumps.{pump.name}.curve, or throttle it"
        )
        return Judged(unproven(at, "curve", words, "m3/s", why, YOURS))
    estimate, unit = pump.spread, "m3/s"
    speed = plan.pumps[pump.name].speed
    numbers = (given("n", speed, "1"), given("Q_last", pump.last_flow / speed, "m3/s"))
    steps = (
        step(
            "Q_end",
            "last flow the curve shows, at its speed",
            "Q_end = n*Q_last",
            numbers,
            (pump.last_flow, unit),
            YOURS,
        ),
    )
    limit, advice = (
        Limit(pump.last_flow, YOURS, near=0.05),
        "a curve with more points, or a valve that throttles it",
    )
    return Judged(below(at, "curve", words, estimate, unit, limit, advice=advice), steps)


def _half_blocked_steps(facts: FlowFacts, name: str, flow: float) -> tuple[Step, ...]:
    """What the strainer loses with half of its openings, and the flow that the pump then moves."""
    passed = next(one for line in facts.lines for one in facts.passed[line.key] if one.run.item.name == name)
    clean = abs(passed.head) / (velocity_head(pipe_velocity(abs(passed.flow), passed.run.bore)) or 1.0)
    blocked = clean / (1.0 - 0.5) ** 2
    speed = float(pipe_velocity(flow, passed.run.bore))
    return (
        step(
            "K",
            "velocity heads it takes with a share s of its openings blocked",
            "K = K_clean/(1 - s)**2",
            (given("K_clean", clean, "1"), given("s", 0.5, "1")),
            (blocked, "1"),
            _BALANCE,
        ),
        step(
            "Q_half",
            "flow of the pump with half of its openings blocked, the whole network solved again with that; v: speed in "
            "the pipe of bore D at the strainer's size",
            "Q_half = pi*D**2/4*v",
            (given("D", passed.run.bore, "m", "fine"), given("v", speed, "m/s")),
            (flow, "m3/s"),
            _BALANCE,
        ),
    )


def _fouled(at: At, facts: FlowFacts, pump: PumpFacts) -> list[Judged]:
    found = []
    for name, flow in pump.fouled.items():
        here = at.below(name, name if "strainer" in name else f"strainer {name}")
        limit = Limit(KEPT * pump.flow, PRACTICE)
        steps = _half_blocked_steps(facts, name, flow)
        advice = "a larger strainer, or none on the suction"
        check = above(here, "half_blocked", "flow with it half blocked", flow, "m3/s", limit, advice=advice)
        found.append(Judged(check, steps))
    return found
