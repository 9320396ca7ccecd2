"""Judging pumps: that they move water, stay on their curve, get water without boiling, bear a fouled strainer."""

from __future__ import annotations

from tidestead.catalog import table
from tidestead.core.source import PRACTICE, YOURS, Known, Source
from tidestead.physics.flow import siphons, suction
from tidestead.plan.model import Plan
from tidestead.studies.checks import At, Limit, above, below, given, unproven
from tidestead.studies.flow.facts import FlowFacts
from tidestead.studies.flow.heights import floor_of, port_of
from tidestead.studies.flow.pumping import PumpFacts
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
    found: list[Judged] = []
    for pump in facts.pumps:
        at = At(f"pumps.{pump.name}", f"pump {pump.name}", "flow", f"pumps.{pump.name}")
        found += [_delivers(at, pump), _on_curve(at, pump), _npsh(at, pump)]
        cover = _cover(at, plan, facts, pump)
        found += [cover] if cover is not None else []
        found += _fouled(at, pump)
    return found


def _delivers(at: At, pump: PumpFacts) -> Judged:
    estimate, unit = pump.spread, "m3/s"
    limit = Limit(LEAST * pump.last_flow, PRACTICE)
    numbers = (given("H", pump.head, "m", "fine"), given("Q_end", pump.last_flow, "m3/s"))
    steps = (
        step(
            "Q",
            "flow at which the pump's head is what the lines lose",
            "h_pump(Q) = rise + losses(Q)",
            numbers,
            (pump.flow, unit),
            _BALANCE,
        ),
    )
    cautions = (GUESSED,) if pump.guessed else ()
    advice = "a pump with more head, or a lower outlet"
    return Judged(
        above(at, "delivers", "flow it moves", estimate, unit, limit, advice=advice, cautions=cautions), steps
    )


def _on_curve(at: At, pump: PumpFacts) -> Judged:
    words = "flow against the end of its curve"
    if pump.beyond:
        why = (
            "it runs beyond the points of its curve, where its head is a guess: give more points of "
            f"pumps.{pump.name}.curve, or throttle it"
        )
        return Judged(unproven(at, "curve", words, "m3/s", why, YOURS))
    estimate, unit = pump.spread, "m3/s"
    numbers = (given("Q", pump.flow, "m3/s"), given("H", pump.head, "m", "fine"))
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
    return Judged(below(at, "curve", words, estimate, unit, Limit(pump.last_flow, YOURS, near=0.05)), steps)


def _npsh(at: At, pump: PumpFacts) -> Judged:
    words, row = "suction head (NPSH)", table("flow_limits")["suction-head-margin"]
    source = row.figure("least").source
    if pump.npsh is None or pump.suction is None:
        why = f"its line starts at a junction; let circuits.{pump.line} start at the port it draws from"
        return Judged(unproven(at, "npsh", words, "m", why, source))
    if pump.needs is None:
        why = f"say what suction head it needs, from its maker's sheet: pumps.{pump.name}.needs_head"
        return Judged(unproven(at, "npsh", words, "m", why, source))
    wanted = float(suction.npsh_wanted(pump.needs, row.si("least")))
    drawn = pump.suction
    numbers = (
        given("p", drawn.surface_pressure, "Pa"),
        given("p_v", drawn.vapour_pressure, "Pa"),
        given("rho", drawn.density, "kg/m3"),
        given("lift", drawn.lift, "m", "fine"),
        given("loss", drawn.loss, "m", "fine"),
    )
    steps = (
        step(
            "NPSHa",
            "net positive suction head at its inlet, taken at the level of its suction port",
            "NPSHa = (p - p_v)/(rho*g) - lift - loss",
            numbers,
            (pump.npsh, "m"),
            Source("Crane TP-410 (2009)", "example 7-32", Known.QUOTED),
        ),
        step(
            "NPSH",
            "what its maker wants, with a margin",
            "NPSH = 1.3*NPSHr",
            (given("NPSHr", pump.needs, "m", "fine"),),
            (wanted, "m"),
            source,
        ),
    )
    limit = Limit(wanted, source, "1.3 times what the maker asks")
    advice = "a wider or shorter suction, or a pump that stands lower"
    return Judged(above(at, "npsh", words, pump.npsh, "m", limit, advice=advice, style="level"), steps)


def _cover(at: At, plan: Plan, facts: FlowFacts, pump: PumpFacts) -> Judged | None:
    """Water over the suction, so that it does not draw air through a swirl."""
    line = facts.line(pump.line)
    found = port_of(plan, line.circuit.start)
    if found is None or line.bore <= 0.0:
        return None
    key, vessel, port = found
    bore = next((run.bore for run in line.runs if run.bore > 0.0), line.bore)
    wanted = float(siphons.covering_depth(bore, max(pump.spread.high, 0.0)))
    over = facts.levels[key] - floor_of(vessel) - port.level
    source = Source("ANSI/HI 9.8, pump intake design", known=Known.RECALLED)
    numbers = (given("D", bore, "m", "fine"), given("Q", pump.spread.high, "m3/s"))
    steps = (
        step(
            "S",
            "water over an inlet that keeps air out",
            "S = D*(1 + 2.3*v/sqrt(g*D))",
            numbers,
            (wanted, "m"),
            source,
        ),
    )
    advice = "a wider suction pipe, a strainer or an elbow turned down, or more water in the sump"
    return Judged(
        above(
            at,
            "cover",
            "water over its suction",
            over,
            "m",
            Limit(wanted, source),
            style="level",
            advice=advice,
        ),
        steps,
    )


def _fouled(at: At, pump: PumpFacts) -> list[Judged]:
    found = []
    for name, flow in pump.fouled.items():
        here = at.below(name, name if "strainer" in name else f"strainer {name}")
        limit = Limit(KEPT * pump.flow, PRACTICE)
        numbers = (given("Q", pump.flow, "m3/s"), given("s", 0.5, "1"))
        steps = (
            step(
                "Q_half",
                "flow with half of its openings blocked",
                "K = K_clean/(1 - s)**2, network solved again",
                numbers,
                (flow, "m3/s"),
                _BALANCE,
            ),
        )
        advice = "a larger strainer, or none on the suction"
        check = above(here, "half_blocked", "flow with it half blocked", flow, "m3/s", limit, advice=advice)
        found.append(Judged(check, steps))
    return found
