"""The answer put together: sentence, checks, figures, tables, drawings, assumptions, cautions."""

from __future__ import annotations

from collections.abc import Sequence

from tidestead.core.answer import Answer, Verdict, worst
from tidestead.studies.inputs import Inputs
from tidestead.studies.sentences import (
    HEADS,
    failing_words,
    named,
    near_words,
    percent,
    ranked,
    silent_words,
)
from tidestead.studies.structure.assumptions import assumptions_of
from tidestead.studies.structure.cautions import cautions_of
from tidestead.studies.structure.drawings import scenes_of
from tidestead.studies.structure.facts import StructureFacts, VesselJudged
from tidestead.studies.structure.figures import figures_of
from tidestead.studies.structure.level_words import level_sentence
from tidestead.studies.structure.tables import tables_told

QUESTION = "Will it hold?"


def tell(inputs: Inputs, facts: StructureFacts, judged: Sequence[VesselJudged]) -> Answer:
    """The whole answer."""
    every = [one for vessel in judged for one in vessel.judged]
    checks = tuple(one.check for one in every)
    verdict = worst([check.verdict for check in checks])
    return Answer(
        "structure",
        QUESTION,
        sentence(inputs, verdict, judged),
        checks,
        figures_of(facts),
        assumptions_of(inputs, facts),
        tuple(one.working for one in every if one.steps),
        tables_told(inputs, judged),
        (),
        scenes_of(inputs, [vessel for vessel in judged if vessel.facts.subject.vessel.made == "built"]),
        cautions_of(inputs, facts),
    )


def sentence(inputs: Inputs, verdict: Verdict, judged: Sequence[VesselJudged]) -> str:
    """What governs, by how much, what to do."""
    checks = [one.check for vessel in judged for one in vessel.judged]
    if not checks:
        return "Not proved yet. The plan describes no vessel that is built."
    failing = ranked(checks, Verdict.FAILS)
    words = [HEADS[verdict]]
    if failing:
        words.append(failing_words(failing, inputs.system))
        words += [
            level_sentence(vessel.facts, inputs.system)
            for vessel in judged
            if any(one.check.verdict is Verdict.FAILS and one.by_level for one in vessel.judged)
        ]
    near = ranked(checks, Verdict.NEAR)
    silent = [check for check in checks if check.verdict is Verdict.UNPROVEN]
    if silent:
        words.append(silent_words(silent))
    if not failing and near:
        words.append(near_words(near))
    if not failing and not near and not silent:
        governing = max(checks, key=lambda check: check.use or 0.0)
        words.append(f"{named(governing)} comes first, at {percent(governing)} of what is allowed.")
    return " ".join(words)
