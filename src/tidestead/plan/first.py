"""From nothing to a first plan: answers to plain questions become a commented plan, with all that is assumed listed."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from itertools import chain

from tidestead.core.errors import Fault
from tidestead.plan.editing import Value
from tidestead.plan.first_circuit import circuit_lines
from tidestead.plan.first_lines import Line, file_of
from tidestead.plan.first_said import Said
from tidestead.plan.first_setting import life_lines, setting_lines
from tidestead.plan.first_vessel import vessel_lines
from tidestead.plan.reading import judged

WHOLE = "plan"
"""The place of a fault that belongs to no answer by itself."""
_HEAD = (
    "A first plan, written from answers to plain questions. Change whatever is different.",
    "Lines marked \"assumed\" were not asked: look at each, and change it when you know better.",
    "Sizes, grades, supports, thicknesses and depths are yours as you typed them; none was made up.",
    "An answer of this program does not replace a licensed engineer or electrician; local codes govern.",
    "Structure is checked for still water only, unless more is stated.",
)
_RISING = (
    ("winter", "summer", "is colder than the mean of the coldest month."),
    ("dark_sun", "bright_sun", "is less sun than in the darkest month."),
    ("cold_spell", "heat_wave", "is colder than the coldest days."),
)
"""Pairs of answers that rise, with what is said where they do not."""


@dataclass(frozen=True)
class Assumed:
    """One key of the plan that nobody was asked for: its value, and why it was taken."""

    key: str
    value: Value
    why: str


@dataclass(frozen=True)
class FirstPlan:
    """A first plan. Where there are faults, by blank, there is no text; `assumed` is what would be taken so far."""

    text: str
    assumed: tuple[Assumed, ...]
    faults: Mapping[str, tuple[Fault, ...]]


def plan_text(answers: Mapping[str, str]) -> FirstPlan:
    """The plan that follows from answers, by the ids of blanks; or every fault of the answers, all at once."""
    said = Said(answers)
    lines = list(chain(setting_lines(said), vessel_lines(said), circuit_lines(said), life_lines(said)))
    text = file_of(lines, _HEAD)
    faults = {**_misfits(said, text, lines), **said.faults}
    assumed = tuple(Assumed(line.key, line.value, line.why) for line in lines if line.why)
    return FirstPlan("" if faults else text, assumed, faults)


def _misfits(said: Said, text: str, lines: list[Line]) -> dict[str, tuple[Fault, ...]]:
    """What is wrong with answers beside each other, by blank; only of answers that are good by themselves."""
    found: dict[str, list[Fault]] = {}
    for low, high, words in _RISING:
        one, other = said.size(low), said.size(high)
        if one is not None and other is not None and other < one:
            found.setdefault(high, []).append(_fault(said, high, words, "Look at both."))
    if said.faults and not lines:
        return {}
    for fault in judged(text, WHOLE)[1]:
        blank = _blank_of(fault, lines, said)
        if blank:
            found.setdefault(blank, []).append(_fault(said, blank, fault.allowed, fault.advice))
        elif not said.faults and not found:
            found.setdefault(WHOLE, []).append(fault)
    return {blank: tuple(dict.fromkeys(faults)) for blank, faults in found.items()}


def _blank_of(fault: Fault, lines: list[Line], said: Said) -> str:
    """The answer that a fault of the plan speaks of; empty where there is none, or it has faults of its own."""
    for line in lines:
        if fault.where == line.key or fault.where.startswith((f"{line.key}[", f"{line.key}.")):
            return next((blank for blank in line.blanks if blank not in said.faults), "")
    return ""


def _fault(said: Said, blank: str, allowed: str, advice: str) -> Fault:
    return Fault(said.asked[blank].words, None, f'"{said.text(blank)}"', allowed, advice)
