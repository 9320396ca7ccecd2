"""The answer put together: sentence, checks, figures, tables, curves, drawing, assumptions, cautions."""

from __future__ import annotations

from collections.abc import Sequence

from tidestead.core.answer import Answer, Check
from tidestead.core.source import YOURS
from tidestead.core.units import show
from tidestead.studies.checks import At, unproven
from tidestead.studies.flow.assumptions import assumptions_of
from tidestead.studies.flow.cautions import cautions_of
from tidestead.studies.flow.drain_checks import drain_checks
from tidestead.studies.flow.drawings import scenes_of
from tidestead.studies.flow.facts import FlowFacts
from tidestead.studies.flow.figures import figures_of
from tidestead.studies.flow.hole_checks import hole_checks
from tidestead.studies.flow.lamps import lamp_checks
from tidestead.studies.flow.line_checks import line_checks
from tidestead.studies.flow.overflow_checks import overflow_checks
from tidestead.studies.flow.pump_checks import pump_checks
from tidestead.studies.flow.series import series_of
from tidestead.studies.flow.stop_checks import stop_checks
from tidestead.studies.flow.tables import tables_told
from tidestead.studies.flow.turnover import turnover_checks
from tidestead.studies.inputs import Inputs
from tidestead.studies.judged import Judged
from tidestead.studies.sentences import governing, told_of

_CAUSES = (".delivers", ".lift", ".primed", ".npsh", ".turnover", ".drain", ".stack", ".siphon_break")
"""Ends of checks that bring others down with them: a pump that does not reach, water that goes elsewhere, pipes too
narrow, a guard that does not work."""

QUESTION = "Will the water go round?"


def tell(inputs: Inputs, facts: FlowFacts) -> Answer:
    """The whole answer."""
    plan, system = inputs.plan, inputs.system
    judged = judge_flow(inputs, facts)
    checks = tuple(one.check for one in judged)
    return Answer(
        "flow",
        QUESTION,
        sentence(inputs, facts, checks),
        checks,
        figures_of(plan, facts),
        assumptions_of(plan, facts, system),
        tuple(one.working for one in judged if one.steps),
        tables_told(plan, facts, system),
        series_of(plan, facts),
        scenes_of(plan, facts, system),
        cautions_of(plan, facts),
        governs=governing(checks, _CAUSES).id if checks else "",
    )


def judge_flow(inputs: Inputs, facts: FlowFacts) -> list[Judged]:
    """Every check. Holes are judged whether the water goes round or not."""
    plan = inputs.plan
    if not facts.solved:
        return [*_unsolved(facts), *hole_checks(facts)]
    return [
        *pump_checks(plan, facts),
        *turnover_checks(plan, facts),
        *overflow_checks(plan, facts),
        *drain_checks(facts),
        *stop_checks(facts, inputs.system),
        *line_checks(plan, facts),
        *hole_checks(facts),
        *lamp_checks(plan, facts),
    ]


def _unsolved(facts: FlowFacts) -> list[Judged]:
    """One check that says why nothing could be found."""
    found = []
    for number, why in enumerate(facts.missing or ("the plan describes no circuit",)):
        at = At("circulation", "circulation", "flow", "circuits")
        name = "flow" if number == 0 else f"flow.{number}"
        found.append(Judged(unproven(at, name, "whether the water goes round", "m3/s", why, YOURS)))
    return found


def sentence(inputs: Inputs, facts: FlowFacts, checks: Sequence[Check]) -> str:
    """How much goes round, what governs, what to do."""
    moved = []
    for pump in facts.pumps:
        flow, head = show(pump.flow, "m3/s", inputs.system), show(pump.head, "m", inputs.system, "head")
        moved.append(f"Pump {pump.name} moves {flow} against {head}.")
    words = told_of(checks, inputs.system, opening=moved, causes=_CAUSES)
    for stop in facts.stops:
        ident = f"flow.{stop.sump}.runback."
        back = [one.estimate.high for one in checks if one.id.startswith(ident) and one.estimate is not None]
        if back:
            most, room = (show(value, "m3", inputs.system) for value in (max(back), stop.free))
            into = f"into {stop.sump}, which has room for {room}"
            words.append(f"At a power stop, with one guard failed, up to {most} run back {into}.")
    return " ".join(words)
