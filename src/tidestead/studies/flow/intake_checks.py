"""Judging what pumps draw: that it does not boil on the way in, and that they draw no air."""

from __future__ import annotations

from tidestead.catalog import table
from tidestead.core.answer import Given, Step
from tidestead.core.dims import G
from tidestead.core.source import PRACTICE, STATICS, Known, Source
from tidestead.physics.flow import siphons, suction
from tidestead.physics.flow.pipes import pipe_velocity
from tidestead.physics.flow.suction import COOLER, STANDARD_AIR, WARMTH, Suction
from tidestead.plan.model import Plan
from tidestead.studies.checks import At, Limit, above, given, unproven
from tidestead.studies.flow.facts import FlowFacts, Line
from tidestead.studies.flow.gravity import drawn_through
from tidestead.studies.flow.heights import floor_of, port_of
from tidestead.studies.flow.intakes import Intake
from tidestead.studies.flow.pumping import PumpFacts
from tidestead.studies.judged import Judged, step

_AIR = Source("U.S. Standard Atmosphere (1976)", "the same as ISO 2533", Known.QUOTED)
_NPSH = Source("Crane TP-410 (2009)", "example 7-32", Known.QUOTED)
_COVER = Source("ANSI/HI 9.8, pump intake design", known=Known.RECALLED)


def npsh_check(at: At, plan: Plan, pump: PumpFacts) -> Judged:
    """Net positive suction head at the worst, against 1.3 times what the maker asks."""
    words, row = "suction head (NPSH)", table("flow_limits")["suction-head-margin"]
    source = row.figure("least").source
    if pump.intake is None:
        why = (
            f"its line starts at a junction: say at what level the pump stands, pumps.{pump.name}.level, or let "
            f"circuits.{pump.line} start at the port it draws from"
        )
        return Judged(unproven(at, "npsh", words, "m", why, source))
    if pump.needs is None:
        why = f"say what suction head it needs, from its maker's sheet: pumps.{pump.name}.needs_head"
        return Judged(unproven(at, "npsh", words, "m", why, source))
    wanted = float(suction.npsh_wanted(pump.needs, row.si("least")))
    limit = Limit(wanted, source, "1.3 times what the maker asks")
    advice = "a wider or shorter suction, or a pump that stands lower"
    last = step(
        "NPSH",
        "what its maker wants, with a margin",
        "NPSH = 1.3*NPSHr",
        (given("NPSHr", pump.needs, "m", "fine"),),
        (wanted, "m"),
        source,
    )
    steps = (*_available(pump.intake, plan.site.elevation or 0.0), last)
    found = pump.intake.available
    return Judged(above(at, "npsh", words, found, "m", limit, advice=advice, style="level"), steps)


def _available(intake: Intake, elevation: float) -> list[Step]:
    """Air, what is there as it likely runs, and what is there at the worst."""
    found, drawn, formula = intake.available, intake.likely, "NPSHa = h_air - h_vapour - lift - loss"
    where = "its own level" if intake.said else "the level of its suction port"
    height, scale = given("z", elevation, "m"), given("z_0", WARMTH / COOLER, "m")
    sea = given("p_0", STANDARD_AIR, "Pa", "air")
    words = f"net positive suction head at its inlet, at {where}, the water at its warmest"
    steps = [
        step(
            "p",
            "mean air of the place; z_0 is where the standard atmosphere would be without warmth",
            "p = p_0*(1 - z/z_0)**5.256",
            (sea, height, scale),
            (drawn.surface_pressure, "Pa", "air"),
            _AIR,
        ),
        step("NPSHa", words, formula, _heads(drawn), (found.likely, "m"), _NPSH),
    ]
    if (worst := intake.worst) is not None:
        words = "the same in a deep low, at the highest flow of its range"
        low = formula.replace("NPSHa", "NPSHa_low")
        steps.append(step("NPSHa_low", words, low, _heads(worst), (found.low, "m"), _NPSH))
    return steps


def _heads(at: Suction) -> tuple[Given, ...]:
    """What air and vapour hold up as heights of this water, how far it is lifted, what it loses."""
    weight = at.density * G
    return (
        given("h_air", at.surface_pressure / weight, "m", "fine"),
        given("h_vapour", at.vapour_pressure / weight, "m", "fine"),
        given("lift", at.lift, "m", "fine"),
        given("loss", at.loss, "m", "fine"),
    )


def prime_check(at: At, pump: PumpFacts) -> Judged | None:
    """A plain pump must stand under the water it draws from, or it runs dry after the first stop."""
    if pump.intake is None:
        return None
    over = -pump.intake.likely.lift
    numbers = (given("lift", pump.intake.likely.lift, "m", "fine"),)
    words, where = "water over the pump itself", "its own level" if pump.intake.said else "its suction port"
    steps = (step("h", f"water over {where} while it runs", "h = -lift", numbers, (over, "m"), STATICS),)
    advice = (
        "setting it below the water: a plain pump does not prime itself, and stands dry after every stop; what a pump "
        "that is made to prime itself does is not reckoned here"
    )
    limit = Limit(0.0, PRACTICE, "a plain pump must be full of water to start", near=0.0)
    return Judged(above(at, "primed", words, over, "m", limit, style="level", advice=advice), steps)


def cover_checks(at: At, plan: Plan, facts: FlowFacts, pump: PumpFacts) -> list[Judged]:
    """Water over every suction that the pump draws through, so that none draws air through a swirl."""
    drawn = drawn_through(plan, facts.lines, facts.line(pump.line))
    return [
        one
        for line in drawn
        if (
            one := _cover(at if len(drawn) < 2 else at.below(line.key, f"line {line.key}"), plan, facts, line)
        )
        is not None
    ]


def _cover(at: At, plan: Plan, facts: FlowFacts, line: Line) -> Judged | None:
    found = port_of(plan, line.circuit.start)
    if found is None or line.bore <= 0.0:
        return None
    key, vessel, port = found
    bore = next((run.bore for run in line.runs if run.bore > 0.0), line.bore)
    flow = max(facts.carried(line.key).high, 0.0)
    wanted = float(siphons.covering_depth(bore, flow))
    over = facts.levels[key] - floor_of(vessel) - port.level
    numbers = (
        given("D", bore, "m", "fine"),
        given("v", float(pipe_velocity(flow, bore)), "m/s"),
        given("g", G, "m/s2"),
    )
    steps = (
        step(
            "S",
            "water over an inlet that keeps air out, v at the highest flow of its range",
            "S = D*(1 + 2.3*v/sqrt(g*D))",
            numbers,
            (wanted, "m"),
            _COVER,
        ),
    )
    advice = "a lower suction, a wider suction pipe, an elbow turned down, or more water in the sump"
    words, limit = "water over its suction", Limit(wanted, _COVER)
    return Judged(above(at, "cover", words, over, "m", limit, style="level", advice=advice), steps)
