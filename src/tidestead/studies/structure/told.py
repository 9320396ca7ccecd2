"""The answer put together: sentence, checks, figures, tables, drawings, assumptions, cautions."""

from __future__ import annotations

from collections.abc import Sequence

from tidestead.core.answer import Answer, Verdict
from tidestead.studies.inputs import Inputs
from tidestead.studies.sentences import told_of
from tidestead.studies.structure.assumptions import assumptions_of
from tidestead.studies.structure.cautions import cautions_of
from tidestead.studies.structure.drawings import scenes_of
from tidestead.studies.structure.facts import StructureFacts, VesselJudged
from tidestead.studies.structure.figures import figures_of
from tidestead.studies.structure.level_words import level_sentence
from tidestead.studies.structure.round_view import rounds_of
from tidestead.studies.structure.tables import tables_told

QUESTION = "Will it hold?"


def tell(inputs: Inputs, facts: StructureFacts, judged: Sequence[VesselJudged]) -> Answer:
    """The whole answer."""
    every = [one for vessel in judged for one in vessel.judged]
    checks = tuple(one.check for one in every)
    return Answer(
        "structure",
        QUESTION,
        sentence(inputs, judged),
        checks,
        figures_of(facts),
        assumptions_of(inputs, facts),
        tuple(one.working for one in every if one.steps),
        tables_told(inputs, judged),
        (),
        scenes_of(inputs, judged),
        cautions_of(inputs, facts),
        rounds=rounds_of(inputs, facts),
    )


def sentence(inputs: Inputs, judged: Sequence[VesselJudged]) -> str:
    """What governs, by how much, what to do."""
    checks = [one.check for vessel in judged for one in vessel.judged]
    if not checks:
        return "Not proved yet. The plan describes no vessel that is built."
    mending = [
        level_sentence(vessel.facts, inputs.system)
        for vessel in judged
        if any(one.check.verdict is Verdict.FAILS and one.by_level for one in vessel.judged)
    ]
    return " ".join(told_of(checks, inputs.system, mending=mending))
