"""Ask studies for answers, in order, and keep what was answered for as long as its inputs stand."""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Sequence
from importlib import import_module
from typing import Any

from tidestead import __version__
from tidestead.core.answer import Answer
from tidestead.core.units import System
from tidestead.desk.subjects import SUBJECTS, SubjectEntry
from tidestead.plan import LoadedPlan
from tidestead.studies.inputs import Inputs

Progress = Callable[[str, int, int], None]
"""Called with the subject about to be worked out, its number and how many there are."""

_KNOWN = {entry.name: entry for entry in SUBJECTS}
_ANSWERS: dict[str, Answer] = {}
_FACTS: dict[str, Any] = {}
_KEEP_AT_MOST = 64


def answer(
    loaded: LoadedPlan,
    subjects: Sequence[str] | None = None,
    system: System | None = None,
    progress: Progress | None = None,
) -> dict[str, Answer]:
    """Answers by subject name, in the order of the twelve questions.

    `subjects` None asks all of them. `system` words the sentences; the plan's own choice when None.
    A name that is no subject raises KeyError.
    """
    wanted = [_KNOWN[name] for name in (subjects if subjects else _KNOWN)]
    wanted.sort(key=SUBJECTS.index)
    inputs = Inputs(loaded.plan, system or loaded.plan.show)
    answers: dict[str, Answer] = {}
    for number, entry in enumerate(wanted, start=1):
        if progress is not None:
            progress(entry.name, number, len(wanted))
        answers[entry.name] = _answer_one(entry, inputs)
    return answers


def facts(loaded: LoadedPlan, subject: str) -> Any:
    """What a built subject found, for sweeps and for other subjects."""
    return _facts_of(_KNOWN[subject], Inputs(loaded.plan, loaded.plan.show))


def _answer_one(entry: SubjectEntry, inputs: Inputs) -> Answer:
    if not entry.built:
        return Answer(entry.name, entry.question, entry.reason)
    key = _key(entry, inputs, inputs.system)
    if key not in _ANSWERS:
        found = _facts_of(entry, inputs)
        _keep(_ANSWERS, key, import_module(entry.study).judge(inputs, found))
    return _ANSWERS[key]


def _facts_of(entry: SubjectEntry, inputs: Inputs) -> Any:
    """Facts do not depend on how numbers are worded, so that a change of units finds them again."""
    key = _key(entry, inputs, "")
    if key not in _FACTS:
        earlier = [_facts_of(_KNOWN[name], inputs) for name in entry.needs]
        _keep(_FACTS, key, import_module(entry.study).find(inputs, *earlier))
    return _FACTS[key]


def _keep(kept: dict[str, Any], key: str, value: Any) -> None:
    if len(kept) >= _KEEP_AT_MOST:
        kept.pop(next(iter(kept)))
    kept[key] = value


def _key(entry: SubjectEntry, inputs: Inputs, system: str) -> str:
    """Changes when, and only when, something the study reads changes: its own parts and those of what it needs."""
    used = set(entry.uses).union(*(_KNOWN[name].uses for name in entry.needs))
    content = inputs.plan.model_dump_json(include=used)
    return hashlib.sha256("\n".join((entry.name, __version__, system, content)).encode()).hexdigest()
