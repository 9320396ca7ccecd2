"""Ask studies for answers, in order, and keep what was answered for as long as its inputs stand."""

from __future__ import annotations

import hashlib
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from datetime import date
from functools import cached_property, partial
from importlib import import_module
from typing import TYPE_CHECKING, Any, TypeVar

from tidestead import __version__
from tidestead.core.answer import Answer
from tidestead.core.compiled import waits_for_compiler
from tidestead.core.units import System
from tidestead.desk import keeping
from tidestead.desk.subjects import ENTRIES, SUBJECTS, SubjectEntry
from tidestead.plan import LoadedPlan
from tidestead.studies.inputs import Inputs

if TYPE_CHECKING:
    from tidestead.desk.prices import Told as Prices
    from tidestead.desk.weather import Told

Progress = Callable[[str, int, int], None]
"""Called with the subject about to be worked out, its number and how many there are."""

Kept = TypeVar("Kept")

_KNOWN = ENTRIES
_ANSWERS: dict[str, Answer] = {}
_FACTS: dict[str, Any] = {}
_KEEP_AT_MOST = 24
"""A user goes back and forth between a few plans; an answer takes a megabyte or more."""


def answer(
    loaded: LoadedPlan,
    subjects: Sequence[str] | None = None,
    system: System | None = None,
    progress: Progress | None = None,
    within: Progress | None = None,
    as_of: date | None = None,
) -> dict[str, Answer]:
    """Answers by subject name, in the order of the twelve questions.

    `subjects` None asks all of them. `system` words the sentences; the plan's own choice when None. `within` is called
    with a subject at long work, and how many of how many parts of it are done, from any thread.
    `as_of` is the day on which it is asked; without one nothing is told to be old. A name that is no subject raises
    KeyError.
    """
    wanted = [_KNOWN[name] for name in subjects] if subjects else list(SUBJECTS)
    wanted.sort(key=SUBJECTS.index)
    asked = _Asked(_with_prices(loaded), system or loaded.plan.show, within, as_of)
    answers: dict[str, Answer] = {}
    for number, entry in enumerate(wanted, start=1):
        if progress is not None:
            progress(entry.name, number, len(wanted))
        answers[entry.name] = _answer_one(entry, asked)
    return answers


def must_compile(subjects: Sequence[str] | None = None) -> bool:
    """Whether a subject, or one that it needs, has laws to compile first, which takes half a minute once."""
    entries = [_KNOWN[name] for name in (subjects if subjects else _KNOWN)]
    laws = {below.compiles for entry in entries for below in _with_needs(entry) if below.compiles}
    return any(waits_for_compiler(law) for law in laws)


def facts(loaded: LoadedPlan, subject: str) -> Any:
    """What a built subject found, for sweeps and for other subjects."""
    return _facts_of(_KNOWN[subject], _Asked(_with_prices(loaded), loaded.plan.show))


def _with_prices(loaded: LoadedPlan) -> LoadedPlan:
    """The plan with the prices of the file that it names."""
    if loaded.plan.supplies.book is None:
        return loaded
    from tidestead.desk.prices import with_prices  # noqa: PLC0415 - only where a plan names a file of prices

    return with_prices(loaded)


@dataclass(frozen=True)
class _Asked:
    """A plan that is asked about, and how numbers are worded. Its weather is had when a subject first wants it."""

    loaded: LoadedPlan
    system: System
    within: Progress | None = None
    as_of: date | None = None

    @cached_property
    def told(self) -> Told:
        from tidestead.desk.weather import weather_for  # noqa: PLC0415 - only where a subject wants weather

        return weather_for(self.loaded)

    @cached_property
    def prices(self) -> Prices:
        from tidestead.desk.prices import prices_for  # noqa: PLC0415 - only where a subject wants prices

        return prices_for(self.loaded)

    def inputs(self, entry: SubjectEntry) -> Inputs:
        """What one subject is given."""
        found = self._without_prices(entry)
        if "book" not in entry.uses or self.loaded.plan.supplies.book is None:
            return found
        return replace(found, no_prices="; ".join(map(str, self.prices.faults)))

    def _without_prices(self, entry: SubjectEntry) -> Inputs:
        tick = None if self.within is None else partial(self.within, entry.part_of or entry.name)
        as_of = self.as_of if entry.dated else None
        if not entry.weather:
            return Inputs(self.loaded.plan, self.system, tick=tick, as_of=as_of)
        return Inputs(self.loaded.plan, self.system, self.told.weather, self.told.reason, tick, as_of)


def _answer_one(entry: SubjectEntry, asked: _Asked) -> Answer:
    if not entry.built:
        return Answer(entry.name, entry.question, entry.reason)
    key = _key(entry, asked, asked.system)
    if key not in _ANSWERS:
        found = _facts_of(entry, asked)
        _keep(_ANSWERS, key, import_module(entry.study).judge(asked.inputs(entry), found))
    return _met(_ANSWERS, key)


def _facts_of(entry: SubjectEntry, asked: _Asked) -> Any:
    """Facts do not depend on how numbers are worded, so that a change of units finds them again."""
    key = _key(entry, asked, "")
    if key not in _FACTS:
        found = keeping.met(key)
        _keep(_FACTS, key, _found(entry, asked, key) if found is None else found)
    return _met(_FACTS, key)


def _found(entry: SubjectEntry, asked: _Asked, key: str) -> Any:
    """Found anew, and kept for the next process where it took long."""
    earlier = [_facts_of(_KNOWN[name], asked) for name in entry.needs]
    study = import_module(entry.study)
    began = time.perf_counter()
    found = study.find(asked.inputs(entry), *earlier)
    if time.perf_counter() - began > keeping.WORTH_IT:
        keeping.keep(key, found)
    return found


def _met(kept: dict[str, Kept], key: str) -> Kept:
    """What is kept under a key, which is then the last to be dropped: whoever tries changes asks for the plan again."""
    kept[key] = kept.pop(key)
    return kept[key]


def _keep(kept: dict[str, Any], key: str, value: Any) -> None:
    if len(kept) >= _KEEP_AT_MOST:
        kept.pop(next(iter(kept)))
    kept[key] = value


def _key(entry: SubjectEntry, asked: _Asked, system: str) -> str:
    """Changes when, and only when, something the study reads changes: its own parts and those of what it needs."""
    entries = _with_needs(entry)
    used = set[str]().union(*(one.uses for one in entries))
    content = asked.loaded.plan.model_dump_json(include=used, exclude_unset=True)
    weather = asked.told.digest if any(one.weather for one in entries) else ""
    day = str(asked.as_of) if system and entry.dated else ""
    beside = asked.loaded.plan.supplies.book is not None and any("book" in one.uses for one in entries)
    day += asked.prices.digest if beside else ""
    return hashlib.sha256(
        "\n".join((entry.name, __version__, system, weather, day, content)).encode()
    ).hexdigest()


def _with_needs(entry: SubjectEntry) -> list[SubjectEntry]:
    """The subject and all that its facts rest on."""
    return [entry, *(below for name in entry.needs for below in _with_needs(_KNOWN[name]))]
