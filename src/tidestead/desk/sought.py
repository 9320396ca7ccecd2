"""Checks and figures of a subject without the rest of its answer, for who asks the same of many plans."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from importlib import import_module

from tidestead.core.answer import Check, Figure
from tidestead.desk.answering import answer
from tidestead.desk.lanes import is_slow
from tidestead.desk.subjects import ENTRIES, SUBJECTS, SubjectEntry
from tidestead.desk.weather import weather_for
from tidestead.plan import LoadedPlan
from tidestead.studies.inputs import Inputs


@dataclass(frozen=True)
class Sought:
    """What was sought of one subject, as the whole answer has it."""

    checks: tuple[Check, ...]
    figures: tuple[Figure, ...]


def sought(loaded: LoadedPlan, subject: str, ids: Collection[str] | None = None) -> Sought:
    """The checks and figures of a subject with these ids; all of them for None.

    A study that has a quick way of its own to them (`sought` beside `find` and `judge`) is asked by it. A name that
    is no subject raises KeyError.
    """
    entry = ENTRIES[subject]
    quick = getattr(import_module(entry.study), "sought", None) if entry.built and not entry.weather else None
    if quick is not None:
        return Sought(*quick(Inputs(loaded.plan, loaded.plan.show), ids))
    whole = answer(loaded, [subject])[subject]
    return Sought(
        tuple(one for one in whole.checks if ids is None or one.id in ids),
        tuple(one for one in whole.figures if ids is None or one.id in ids),
    )


def users_of(part: str) -> tuple[str, ...]:
    """The subjects that read a part of the plan themselves, such as vessels: the quick ones, else those there are."""
    using = [entry for entry in SUBJECTS if entry.built and part in entry.uses]
    return tuple(entry.name for entry in using if not is_slow(entry)) or tuple(entry.name for entry in using)


def weather_digest(loaded: LoadedPlan, subjects: Collection[str]) -> str:
    """Changes when the weather does that any of the subjects hangs on; empty where none hangs on it."""
    return weather_for(loaded).digest if any(_weathered(ENTRIES[name]) for name in subjects) else ""


def _weathered(entry: SubjectEntry) -> bool:
    return entry.weather or any(_weathered(ENTRIES[name]) for name in entry.needs)
