"""A scratch copy of a plan: edits made on its text, the touched subjects asked anew, nothing saved."""

from __future__ import annotations

import hashlib
import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import TypeAlias

from tidestead import desk
from tidestead.core.answer import Answer, Check
from tidestead.core.errors import PlanError, TidesteadError
from tidestead.plan import LoadedPlan, loads
from tidestead.plan.edits import Edit, edited
from tidestead.trials.remedy import Effect, State

Checks: TypeAlias = Mapping[str, Check]
Ask: TypeAlias = Callable[[LoadedPlan, Sequence[str]], Mapping[str, Answer]]
"""Asks the desk; a test or another desk may stand in."""

SAME = 1e-9
"""Uses that differ by no more are the same."""


def reads(subject: str) -> frozenset[str]:
    """The tables of a plan that a subject reads, with those that it needs."""
    entry = desk.ENTRIES[subject]
    return frozenset(entry.uses).union(*(reads(name) for name in entry.needs))


_FRAME = re.compile(
    r"vessels\.[^.]+\.(?:ties|corners|rings|ribs|buttresses"
    r"|walls\.[^.]+\.(?:studs|rim|base|buttresses|windows\.[^.]+\.(?:edges|seat|opening|edge_work)))(?:\.|$)"
)
"""Keys of timbers and of what holds them: only strength and the room that holes find hang on these, and money."""
_OF_FRAME = ("structure", "flow")


def touched(edits: Sequence[Edit]) -> tuple[str, ...]:
    """The subjects whose answer may change with these edits, in the order of the questions.

    What timbers alone do to the cost is told by the price of the change, which asks for no year of heat.
    """
    if all(_FRAME.match(edit.key) for edit in edits):
        return _OF_FRAME
    tables = {edit.key.split(".", 1)[0].split("[", 1)[0] for edit in edits}
    return tuple(entry.name for entry in desk.SUBJECTS if entry.built and tables & reads(entry.name))


@dataclass
class Scratch:
    """One plan and what changes of it lead to; the same text and subject is asked once."""

    loaded: LoadedPlan
    ask: Ask = desk.answer
    known: dict[tuple[str, str], Checks] = field(default_factory=dict)
    asked: int = 0
    plans: dict[str, LoadedPlan | None] = field(default_factory=dict)

    def with_edits(self, edits: Sequence[Edit]) -> LoadedPlan | None:
        """The changed plan; None where the edits cannot be made or the plan would have faults."""
        key = repr(tuple(edits))
        if key not in self.plans:
            self.plans[key] = self._changed(edits)
        return self.plans[key]

    def _changed(self, edits: Sequence[Edit]) -> LoadedPlan | None:
        try:
            text = edited(self.loaded.text, edits)
            name = self.loaded.path.name if self.loaded.path is not None else "plan"
            return replace(loads(text, name), path=self.loaded.path)
        except PlanError:
            return None

    def checks(self, subject: str, edits: Sequence[Edit] = ()) -> Checks | None:
        """The checks of a subject after the edits, by id; None where that plan has no answer."""
        plan = self.with_edits(edits) if edits else self.loaded
        if plan is not None and edits and subject not in touched(edits):
            plan = self.loaded
        return None if plan is None else self.checks_of(plan, subject)

    def checks_of(self, plan: LoadedPlan, subject: str) -> Checks | None:
        """The checks of a subject for a changed plan, by id."""
        key = _key(plan, subject)
        if key not in self.known:
            self.asked += 1
            try:
                answer = self.ask(plan, [subject])[subject]
            except TidesteadError:
                return None
            self.known[key] = {check.id: check for check in answer.checks}
        return self.known[key]

    def answered(self, plan: LoadedPlan, subject: str) -> dict[tuple[str, str], Checks]:
        """What was kept of a plan and subject, for another scratch copy of the same plan."""
        key = _key(plan, subject)
        return {key: self.known[key]} if key in self.known else {}


def _key(plan: LoadedPlan, subject: str) -> tuple[str, str]:
    return hashlib.sha256(plan.text.encode()).hexdigest(), subject


def effects(before: Checks, after: Checks, leave_out: str = "") -> tuple[Effect, ...]:
    """What moved between two answers, but for one check."""
    found = []
    for name in dict.fromkeys((*before, *after)):
        if name == leave_out:
            continue
        was, now = before.get(name), after.get(name)
        if was is None or now is None or not alike(was, now):
            found.append(Effect(_state(was), _state(now)))
    return tuple(found)


def alike(one: Check, other: Check) -> bool:
    """Whether two runs of a check say the same."""
    if one.use is None or other.use is None:
        return one.use is other.use and one.verdict is other.verdict
    return one.verdict is other.verdict and abs(one.use - other.use) <= SAME * max(1.0, abs(one.use))


def _state(check: Check | None) -> State | None:
    return None if check is None else State.of(check)


def standing_for(check: Check, after: Checks, before: Checks) -> Check | None:
    """The check after a change, or, where it is made no more, the worst of its part if others took its place.

    A check that went and left nothing new in its place is not mended: None.
    """
    own = after.get(check.id)
    if own is not None:
        return own
    kin = [one for one in after.values() if check.part and one.part == check.part]
    if all(one.id in before for one in kin):
        return None
    return max(kin, key=lambda one: (State.of(one).verdict != "sound", _use(one)))


def _use(check: Check) -> float:
    return float("inf") if check.use is None else check.use
