"""From nothing to a first plan: answers to plain questions become a commented plan, with all that is assumed listed."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from itertools import chain

from tidestead.core.errors import Fault
from tidestead.core.units import System
from tidestead.plan.editing import Value
from tidestead.plan.first_circuit import circuit_lines
from tidestead.plan.first_lines import Line, file_of
from tidestead.plan.first_misfits import answer_fault, clashes, lonely
from tidestead.plan.first_said import Said
from tidestead.plan.first_setting import life_lines, setting_lines
from tidestead.plan.first_vessel import vessel_lines
from tidestead.plan.reading import judged
from tidestead.plan.starter import starter_text

SYSTEMS: tuple[System, ...] = ("metric", "us")
WHOLE = "plan"
"""The place of a fault that belongs to no answer by itself."""
_NO_WORK = {"tidestead", "name", "show", "gallons", "currency"}
"""Keys that are quickly said again."""
_HEAD = (
    "A first plan, written from answers to plain questions. Change whatever is different.",
    'Lines marked "assumed" were not asked, or left open: look at each, and change it when you know better.',
    "What you typed stands as you typed it.",
    "An answer of this program does not replace a licensed engineer or electrician; local codes govern.",
    "Structure is checked for still water only, unless more is stated.",
)


@dataclass(frozen=True)
class Assumed:
    """One key of the plan that nobody said: its value, and why it was taken.

    `blank` is the one that was left open, where it stands for its answer.
    """

    key: str
    value: Value
    why: str
    blank: str = ""


@dataclass(frozen=True)
class FirstPlan:
    """A first plan. Where there are faults, by blank, there is no text; `assumed` is what would be taken so far.

    `echoes` reads typed quantities back in both unit systems, by blank.
    """

    text: str
    assumed: tuple[Assumed, ...]
    faults: Mapping[str, tuple[Fault, ...]]
    echoes: Mapping[str, str]


def plan_text(answers: Mapping[str, str]) -> FirstPlan:
    """The plan that follows from answers, by the ids of blanks; or every fault of the answers, all at once."""
    said = Said(answers)
    sound = Said({name: text for name, text in answers.items() if name not in said.faults})
    lines = list(chain(setting_lines(sound), vessel_lines(sound), circuit_lines(sound), life_lines(sound)))
    text = file_of(lines, _HEAD)
    faults = {**said.faults, **_misfits(sound, text, lines, partial=bool(said.faults))}
    assumed = tuple(Assumed(line.key, line.value, line.why, line.open) for line in lines if line.why)
    return FirstPlan("" if faults else text, assumed, faults, said.echoes)


def untouched(text: str) -> bool:
    """Whether a plan holds no work of its user's: a starter as it was written, or a name and units alone."""
    lines = text.splitlines()
    if any(lines == starter_text(system).splitlines() for system in SYSTEMS):
        return True
    try:
        values = tomllib.loads(text)
    except tomllib.TOMLDecodeError:
        return False
    return set(values) <= _NO_WORK


def _misfits(said: Said, text: str, lines: list[Line], *, partial: bool) -> dict[str, tuple[Fault, ...]]:
    """What is wrong with good answers beside each other, by blank.

    `partial`: some answers are left out, so that what the plan misses for that is no news.
    """
    found = lonely(said) if not partial else {}
    for blank, clash in clashes(said):
        found.setdefault(blank, []).append(clash)
    partial = partial or bool(found)
    told = [(fault, _line_of(fault, lines)) for fault in judged(text, WHOLE)[1]]
    typed = any(line is not None and line.blanks and not line.why for _, line in told)
    for fault, line in told:
        if line is None or not line.blanks:
            lost = [] if partial or typed else [fault]
            found.setdefault(WHOLE, []).extend(lost)
        elif not (typed and line.why):  # what follows from a wrong answer is wrong with it
            found.setdefault(line.blanks[0], []).append(
                answer_fault(said, line.blanks[0], fault.allowed, fault.advice)
            )
    return {blank: tuple(dict.fromkeys(faults)) for blank, faults in found.items() if faults}


def _line_of(fault: Fault, lines: list[Line]) -> Line | None:
    """The line of the plan that a fault speaks of; None where there is none."""
    at = fault.where
    return next(
        (one for one in lines if at == one.key or at.startswith((f"{one.key}[", f"{one.key}."))), None
    )
