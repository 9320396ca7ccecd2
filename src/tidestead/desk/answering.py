"""Ask studies for answers, in order, and keep what was answered for as long as its inputs stand."""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Sequence
from importlib import import_module

from tidestead import __version__
from tidestead.core.answer import Answer
from tidestead.core.units import System
from tidestead.desk.subjects import SUBJECTS, SubjectEntry
from tidestead.plan import LoadedPlan
from tidestead.plan.model import Plan
from tidestead.studies.inputs import Inputs

Progress = Callable[[str, int, int], None]
"""Called with the subject about to be worked out, its number and how many there are."""

_KEPT: dict[str, Answer] = {}
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
    known = {entry.name: entry for entry in SUBJECTS}
    wanted = [known[name] for name in (subjects if subjects else known)]
    wanted.sort(key=SUBJECTS.index)
    inputs = Inputs(loaded.plan, system or loaded.plan.show)
    answers: dict[str, Answer] = {}
    for number, entry in enumerate(wanted, start=1):
        if progress is not None:
            progress(entry.name, number, len(wanted))
        answers[entry.name] = _answer_one(entry, inputs)
    return answers


def _answer_one(entry: SubjectEntry, inputs: Inputs) -> Answer:
    if not entry.built:
        return Answer(entry.name, entry.question, entry.reason)
    key = _key(entry, inputs)
    if key not in _KEPT:
        study = import_module(entry.study)
        if len(_KEPT) >= _KEEP_AT_MOST:
            _KEPT.pop(next(iter(_KEPT)))
        _KEPT[key] = study.judge(inputs, study.find(inputs))
    return _KEPT[key]


def _key(entry: SubjectEntry, inputs: Inputs) -> str:
    """Changes when, and only when, something the study reads changes."""
    used: Plan = inputs.plan
    content = used.model_dump_json(include=set(entry.uses))
    return hashlib.sha256("\n".join((entry.name, __version__, inputs.system, content)).encode()).hexdigest()
