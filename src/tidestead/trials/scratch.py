"""A scratch copy of a plan: edits made on its text, the touched subjects asked anew, nothing saved."""

from __future__ import annotations

import hashlib
import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import TypeAlias

from tidestead import desk
from tidestead.core.answer import Answer, Check
from tidestead.core.errors import PlanError, TidesteadError
from tidestead.plan import LoadedPlan, loads
from tidestead.plan.edits import Edit, edited
from tidestead.trials.answered import Answered, Key, States
from tidestead.trials.pricing import Costed, costed, costed_upon, difference
from tidestead.trials.remedy import Effect, Priced, State

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
"""Keys of timbers and of what holds them: only strength, the room that holes find and money hang on these."""
_OF_FRAME = ("structure", "flow", "cost")


def touched(edits: Sequence[Edit]) -> tuple[str, ...]:
    """The subjects whose answer may change with these edits, in the order of the questions."""
    if of_frame(edits):
        return _OF_FRAME
    tables = {edit.key.split(".", 1)[0].split("[", 1)[0] for edit in edits}
    return tuple(entry.name for entry in desk.SUBJECTS if entry.built and tables & reads(entry.name))


def edits_of(subject: str, edits: Sequence[Edit]) -> tuple[Edit, ...]:
    """Those of the edits that the answer on a subject may change with."""
    return tuple(edit for edit in edits if subject in touched((edit,)))


def of_frame(edits: Sequence[Edit]) -> bool:
    """Whether they change timbers and what holds them, and nothing else: no year of heat need be asked again."""
    return all(_FRAME.match(edit.key) for edit in edits)


@dataclass
class Scratch:
    """One plan and what changes of it lead to; the same text and subject is asked once."""

    loaded: LoadedPlan
    ask: Ask = desk.answer
    known: dict[Key, States | None] = field(default_factory=dict)
    based: dict[str, Checks | None] = field(default_factory=dict)
    asked: int = 0
    plans: dict[str, LoadedPlan | None] = field(default_factory=dict)
    prices: dict[str, Priced | None] = field(default_factory=dict)
    store: Answered | None = None

    @classmethod
    def resumed(cls, loaded: LoadedPlan, ask: Ask = desk.answer) -> Scratch:
        """A scratch copy that begins with what an earlier search in this very plan found, and keeps what it finds."""
        store = Answered.of(loaded)
        known, prices = store.read()
        return cls(loaded, ask, known=known, prices=prices, store=store)

    def with_edits(self, edits: Sequence[Edit]) -> LoadedPlan | None:
        """The changed plan; None where the edits cannot be made or the plan would have faults."""
        key = repr(tuple(edits))
        if key not in self.plans:
            self.plans[key] = self._changed(edits)
        return self.plans[key]

    def plan_for(self, subject: str, edits: Sequence[Edit]) -> LoadedPlan | None:
        """The plan with those edits alone that a subject reads, so that what others change is not asked again.

        All of them where those alone make no plan; None where all of them make none.
        """
        changed = self.with_edits(edits) if edits else self.loaded
        if changed is None:
            return None
        own = edits_of(subject, edits)
        if not own:
            return self.loaded
        return self.with_edits(own) or changed

    def _changed(self, edits: Sequence[Edit]) -> LoadedPlan | None:
        try:
            text = edited(self.loaded.text, edits)
            name = self.loaded.path.name if self.loaded.path is not None else "plan"
            return replace(loads(text, name), path=self.loaded.path)
        except PlanError:
            return None

    def checks(self, subject: str) -> Checks | None:
        """The checks of a subject of the plan as it is, by id; None where it has no answer."""
        if subject not in self.based:
            self.asked += 1
            try:
                answer = self.ask(self.loaded, [subject])[subject]
                self.based[subject] = {check.id: check for check in answer.checks}
            except TidesteadError:
                self.based[subject] = None
        return self.based[subject]

    def states(self, subject: str, edits: Sequence[Edit] = ()) -> States | None:
        """What the checks of a subject come to after the edits, by id; None where that plan has no answer."""
        plan = self.plan_for(subject, edits)
        if plan is None:
            return None
        key = self.key(plan, subject)
        if key not in self.known:
            if subject == "cost" and plan is not self.loaded and of_frame(edits_of(subject, edits)):
                self.price(edits)
            if key not in self.known:  # not told with the price, or that alone is kept from an earlier search
                self.learn({key: self._found(plan, subject)})
        return self.known[key]

    def price(self, edits: Sequence[Edit]) -> Priced | None:
        """What edits add to the cost, as the answer on it has it, first fill and year with it; None where unknown.

        Where they change the frame alone the studies of the plan as it is are taken; its cost is asked either way.
        """
        plan = self.plan_for("cost", edits)
        if plan is None:
            return None
        key = self.key(plan, "cost")
        if key[0] not in self.prices:
            frame = of_frame(edits_of("cost", edits))
            found = costed_upon(self.loaded, plan) if frame else self._costed(plan)
            base = self._costed(self.loaded)
            price = None if found is None or base is None else difference(base.price, found.price)
            self.learn({key: None if found is None else states_in(found.checks)}, {key[0]: price})
        return self.prices[key[0]]

    def _costed(self, plan: LoadedPlan) -> Costed | None:
        """The cost of a plan, where whoever asks for this scratch copy lets it be asked."""
        try:
            self.ask(plan, ["cost"])
        except TidesteadError:
            return None
        return costed(plan)

    def _found(self, plan: LoadedPlan, subject: str) -> States | None:
        if plan is self.loaded:
            checks = self.checks(subject)
            return None if checks is None else states_in(checks.values())
        self.asked += 1
        try:
            return states_in(self.ask(plan, [subject])[subject].checks)
        except TidesteadError:
            return None

    def learn(
        self, answered: Mapping[Key, States | None], prices: Mapping[str, Priced | None] | None = None
    ) -> None:
        """Take over what was answered here or by another scratch copy of the same plan."""
        new = {key: states for key, states in answered.items() if key not in self.known}
        dear = {key: price for key, price in (prices or {}).items() if key not in self.prices}
        self.known |= new
        self.prices |= dear
        if self.store is not None:
            self.store.add(new, dear)

    def key(self, plan: LoadedPlan, subject: str) -> Key:
        """What an answer is known by."""
        return hashlib.sha256(plan.text.encode()).hexdigest(), subject


def states_in(checks: Iterable[Check]) -> dict[str, State]:
    """What checks come to, by id."""
    return {check.id: State.of(check) for check in checks}


def effects(before: States, after: States, leave_out: str = "") -> tuple[Effect, ...]:
    """What moved between two answers, but for one check."""
    found = []
    for name in dict.fromkeys((*before, *after)):
        if name == leave_out:
            continue
        was, now = before.get(name), after.get(name)
        if was is None or now is None or not alike(was, now):
            found.append(Effect(was, now))
    return tuple(found)


def alike(one: State, other: State) -> bool:
    """Whether two runs of a check say the same."""
    if one.use is None or other.use is None:
        return one.use is other.use and one.verdict is other.verdict
    return one.verdict is other.verdict and abs(one.use - other.use) <= SAME * max(1.0, abs(one.use))


def standing_for(check: str, part: str, after: States, before: States) -> State | None:
    """The check after a change, or, where it is made no more, the worst of its part if others took its place.

    A check that went and left nothing new in its place is not mended: None.
    """
    own = after.get(check)
    if own is not None:
        return own
    kin = [one for one in after.values() if part and one.part == part]
    if all(one.id in before for one in kin):
        return None
    return max(kin, key=lambda one: (one.verdict != "sound", _use(one)))


def _use(state: State) -> float:
    return float("inf") if state.use is None else state.use
