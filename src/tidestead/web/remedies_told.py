"""Remedies in words: what each changes, costs, makes of its check and of others."""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import dataclass

from markupsafe import Markup

from tidestead.core.answer import Estimate
from tidestead.core.units import System
from tidestead.plan.edits import Edit
from tidestead.report import wording
from tidestead.trials.remedy import BADNESS, Effect, Mended, Priced, State, Whole
from tidestead.web.bench import Bench
from tidestead.web.bodies import as_sent
from tidestead.web.finding import WHOLE, Sought, progress
from tidestead.web.frame import drawn

_NAMED = 6
"""Other checks that are named; the rest are counted."""


@dataclass(frozen=True)
class StateTold:
    """What a check comes to."""

    verdict: str
    sign: Markup
    words: str


@dataclass(frozen=True)
class RemedyTold:
    """One change that may be tried or done. `steps` are its parts where it has several; `after` its check then."""

    number: int
    words: str
    steps: tuple[str, ...]
    price: str
    before: StateTold | None
    after: StateTold | None
    instead: str
    worse: tuple[str, ...]
    better: tuple[str, ...]
    rest: str
    edits: str
    tried: bool


@dataclass(frozen=True)
class Panel:
    """What stands on the page of one search: how it stands, what it found, what it says of the search itself."""

    id: str
    state: str
    progress: str
    heading: str
    remedies: tuple[RemedyTold, ...]
    further: tuple[str, ...]
    goes_on: bool = False


def panel(bench: Bench, check: str) -> Panel:
    """The search for the remedies of a check, or for the whole."""
    sought = bench.finding.sought(bench.digest, check)
    system = bench.system
    tried = bench.trial.edits if bench.trial is not None else ()
    remedies: tuple[RemedyTold, ...] = ()
    further: tuple[str, ...] = ()
    if isinstance(sought.found, Mended):
        remedies = tuple(_remedies(sought, sought.found, system, tried))
        further = _of_search(sought.found, system)
    elif isinstance(sought.found, Whole):
        remedies = tuple(_whole(sought.found, tried))
        further = _of_whole(sought.found, system)
    return Panel(check, sought.state, progress(sought), _heading(sought), remedies, further, sought.unended)


def _heading(sought: Sought) -> str:
    """What was found, in a line."""
    found = sought.found
    if isinstance(found, Whole):
        together = f"{wording.many(len(found.moves), 'change')}, done together"
        return together if found.moves else "No change was found that helps"
    if not isinstance(found, Mended):
        return ""
    count = len(found.remedies)
    if count:
        return "1 remedy found" if count == 1 else f"{count} remedies found, cheapest first"
    return "Nothing that was tried mends it"


def _remedies(sought: Sought, found: Mended, system: System, tried: tuple[Edit, ...]) -> list[RemedyTold]:
    told = []
    for number, one in enumerate(found.remedies, start=1):
        waits = sought.state == "working" and one.price is None
        worse, better, rest = _effects(one.effects, one.subjects)
        told.append(
            RemedyTold(
                number,
                one.words,
                (),
                "being worked out" if waits else money(one.price),
                state_told(one.before, system),
                state_told(one.after, system),
                "" if one.after.id == one.check else one.after.what,
                worse,
                better,
                "what else it moves is being worked out" if waits else rest,
                sent(one.edits),
                bool(tried) and tuple(tried) == tuple(one.edits),
            )
        )
    return told


def _whole(found: Whole, tried: tuple[Edit, ...]) -> list[RemedyTold]:
    if not found.moves:
        return []
    wanted = {state.id for state in found.before}
    effects = tuple(one for one in found.effects if one.id not in wanted)
    worse, better, rest = _effects(effects, found.subjects)
    steps = tuple(move.words for move in found.moves)
    mended = len(found.before) - sum(state.id in wanted for state in found.left)
    words = f"Mends {mended} of {wording.many(len(found.before), 'check')} that fail or are near"
    is_tried = bool(tried) and tried == found.edits
    price = money(found.price)
    return [
        RemedyTold(1, words, steps, price, None, None, "", worse, better, rest, sent(found.edits), is_tried)
    ]


def _of_search(found: Mended, system: System) -> tuple[str, ...]:
    """What was tried, where nothing mends."""
    if found.remedies:
        return (f"{wording.many(found.tried, 'change')} tried.",)
    if not found.tried:
        return ("No change is known here that could be tried.",)
    lines = [f"None of {wording.many(found.tried, 'change')} tried makes it sound."]
    if found.best is not None:
        words, state = found.best
        lines.append(f"The nearest was: {words}, which leaves it at {at(state, system)}.")
    return tuple(lines)


def _of_whole(found: Whole, system: System) -> tuple[str, ...]:
    """What is left, and what was searched."""
    left = [f"Still not sound: {_named(state)}, {at(state, system)}." for state in found.left[:_NAMED]]
    more = len(found.left) - _NAMED
    bound = ""
    if found.bound is not None and found.price is not None:
        least = _round(found.bound, found.price.currency)
        bound = (
            "By the price of each alone, and by what it mends or spoils of its own subject, no set of the changes that "
            "spoil nothing mends as many checks for less than "
            f"{least}; made together they may cost more or less than that."
        )
    searched = (
        f"{wording.many(len(found.before), 'check')} to mend, {wording.many(found.tried, 'change')} tried, "
        f"{found.changes} of them mend a check by themselves."
    )
    lines = (*left, f"And {more} more are not sound." if more > 0 else "", bound, searched, found.proof)
    return tuple(line for line in lines if line)


def state_told(state: State, system: System) -> StateTold:
    """A state with its sign."""
    words = [_value(state, system), "" if state.margin is None else f"margin {wording.percent(state.margin)}"]
    return StateTold(
        state.verdict.value, drawn(state.verdict, state.use, 22.0), ", ".join(one for one in words if one)
    )


def at(state: State, system: System) -> str:
    """A state in a line."""
    told = state_told(state, system)
    return f"{told.words}, {told.verdict}" if told.words else told.verdict


def _value(state: State, system: System) -> str:
    if state.value is None:
        return ""
    return wording.with_worst(state.value, state.worst, state.unit, system, state.style)


def _effects(
    effects: Sequence[Effect], subjects: Sequence[str]
) -> tuple[tuple[str, ...], tuple[str, ...], str]:
    """Checks that get worse, those that get better, and how many move to no other verdict."""
    worse = sorted((one for one in effects if one.worse), key=_weight)
    better = [one for one in effects if one.better]
    count = len(effects) - len(worse) - len(better)
    rest = f"moves {wording.many(count, 'other check')} to no other verdict" if count else ""
    if not effects:
        rest = "moves no other check"
    return _lines(worse), _lines(better), f"{rest} (asked anew: {', '.join(subjects)})" if rest else ""


def _weight(effect: Effect) -> tuple[int, float]:
    after = effect.after
    return (-BADNESS[after.verdict], -(after.use or 0.0)) if after is not None else (0, 0.0)


def _lines(effects: Sequence[Effect]) -> tuple[str, ...]:
    lines = [
        f"{_named(one.after or one.before)}: {_used(one.before)} → {_used(one.after)}"
        for one in effects[:_NAMED]
    ]
    more = len(effects) - _NAMED
    return (*lines, f"and {more} more") if more > 0 else tuple(lines)


def _named(state: State | None) -> str:
    if state is None:
        return ""
    return f"{state.what} ({state.where})" if state.where else state.what


def _used(state: State | None) -> str:
    if state is None:
        return "not asked"
    return (
        state.verdict.value
        if state.use is None
        else f"{state.verdict.value}, {wording.percent(state.use)} used"
    )


def money(price: Priced | None) -> str:
    """What a change adds to the cash still to spend, in round figures with its range, and to a year."""
    if price is None:
        return "no price known"
    if not price.whole:
        return f"no total: the price book has no price of {', '.join(price.unpriced)}"
    words = _span(price.cash, price.currency)
    if price.yearly is not None and abs(price.yearly.likely) >= 1.0:
        words += f", and {_span(price.yearly, price.currency)} a year"
    return words


def _span(cash: Estimate, currency: str) -> str:
    likely, low, high = (_round(value, "") for value in (cash.likely, cash.low, cash.high))
    if likely == low == high == "0":
        return "costs nothing more"
    return f"{likely} {currency}" + ("" if low == high else f" ({low} to {high})")


def _round(value: float, currency: str) -> str:
    """Money in round figures, as the answer on cost tells it, with its sign."""
    size = 1.0 if abs(value) < 100.0 else 10.0 if abs(value) < 10_000.0 else 100.0
    rounded = round(value / size) * size + 0.0
    return f"{rounded:{'+' if rounded else ''},.0f} {currency}".strip()


def sent(edits: Sequence[Edit]) -> str:
    """Edits as the page sends them."""
    return json.dumps([{"key": edit.key, "value": as_sent(edit.value)} for edit in edits])


def whole_panel(bench: Bench) -> Panel:
    """The search for what makes everything sound."""
    return panel(bench, WHOLE)
