"""The answer put together: sentence, checks, figures, tables, drawings, assumptions, cautions."""

from __future__ import annotations

from collections.abc import Sequence

from tidestead.core.answer import Answer, Check, Verdict, worst
from tidestead.core.units import show
from tidestead.studies.inputs import Inputs
from tidestead.studies.structure.assumptions import assumptions_of
from tidestead.studies.structure.cautions import cautions_of
from tidestead.studies.structure.drawings import scenes_of
from tidestead.studies.structure.facts import StructureFacts, VesselJudged
from tidestead.studies.structure.figures import figures_of
from tidestead.studies.structure.level_words import level_sentence
from tidestead.studies.structure.tables import tables_told

QUESTION = "Will it hold?"

_HEAD = {
    Verdict.SOUND: "Yes, by these checks.",
    Verdict.NEAR: "Yes, but with little to spare.",
    Verdict.FAILS: "Not as it stands.",
    Verdict.UNPROVEN: "Not proved yet.",
}


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
    failing = _ranked(checks, Verdict.FAILS)
    words = [_HEAD[verdict]]
    if failing:
        words.append(_failing(inputs, failing))
        words += [
            level_sentence(vessel.facts, inputs.system)
            for vessel in judged
            if any(one.check.verdict is Verdict.FAILS and one.by_level for one in vessel.judged)
        ]
    near = _ranked(checks, Verdict.NEAR)
    silent = [check for check in checks if check.verdict is Verdict.UNPROVEN]
    if silent:
        words.append(_silent(silent))
    if not failing and near:
        words.append(
            f"{_named(near[0])} uses {_percent(near[0])} of what is allowed"
            f"{_rest(near, 'is near its limit', 'are near theirs')}."
        )
    if not failing and not near and not silent:
        governing = max(checks, key=lambda check: check.use or 0.0)
        words.append(f"{_named(governing)} comes first, at {_percent(governing)} of what is allowed.")
    return " ".join(words)


def _ranked(checks: Sequence[Check], verdict: Verdict) -> list[Check]:
    found = [check for check in checks if check.verdict is verdict]
    return sorted(found, key=lambda check: -(check.use or 0.0))


def _failing(inputs: Inputs, failing: list[Check]) -> str:
    first = failing[0]
    estimate, limit = first.estimate, first.limit
    words = f"{_named(first)} fails"
    if estimate is not None and isinstance(limit, float):
        adverse = estimate.high if first.must_be == "below" else estimate.low
        pair = (adverse, limit)
        now, allowed = (show(value, first.unit, inputs.system, first.style, pair) for value in pair)
        needed = f"{allowed} is allowed" if first.must_be == "below" else f"at least {allowed} is needed"
        told = first.unit != "1" and now != allowed
        words += f": {now} where {needed}" if told else f": {_percent(first)} of what is allowed"
    words += f"{_rest(failing, 'fails too', 'fail too')}."
    if first.advice:
        words += f" Try {first.advice}."
    return words


def _rest(checks: list[Check], one: str, many: str) -> str:
    left = len(checks) - 1
    if left == 0:
        return ""
    return f"; one more {one}" if left == 1 else f"; {left} more {many}"


def _silent(silent: list[Check]) -> str:
    first = silent[0]
    count = len(silent)
    head = "One check cannot be made" if count == 1 else f"{count} checks cannot be made"
    return f"{head}; first {first.where}: {(first.missing or 'the value is not finite').rstrip('.')}."


def _named(check: Check) -> str:
    words = f"{check.where}: {check.what}"
    return words[0].upper() + words[1:]


def _percent(check: Check) -> str:
    use = check.use
    return "an unknown share" if use is None else f"{100.0 * use:.0f} %" if use < 100.0 else "many times"
