"""From what the models refuse to faults a builder can mend: where, which line, as typed, allowed, advice."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from pydantic import ValidationError
from pydantic_core import ErrorDetails

from tidestead.catalog.rows import nearest
from tidestead.core.errors import Fault
from tidestead.core.units import System
from tidestead.plan.lines import Lines
from tidestead.plan.outline import known_keys, spot_at
from tidestead.plan.statements import Path, dotted, shown

MOST = 200
"""Faults told at once; a file with more is not a plan."""

_KINDS: Mapping[str, tuple[str, str]] = {
    "string_type": ("must be text in quotes.", "Write {example}."),
    "string_too_short": ("is empty.", "Write {example}."),
    "string_too_long": ("is too long.", "Write it shorter."),
    "string_pattern_mismatch": ("has the wrong form.", "{form}"),
    "int_type": ("must be a whole number without quotes.", "Write {example}."),
    "int_from_float": ("must be a whole number.", "Write {example}."),
    "float_type": ("must be a number without quotes.", "Write 58.4."),
    "bool_type": ("must be true or false, without quotes.", "Write true or false."),
    "too_long": ("holds too many values.", "Take some out."),
    "too_short": (
        "holds too few values.",
        "Give them all, in square brackets: twelve for months, January first.",
    ),
    "tuple_type": ("must be a list in square brackets.", "Write {example}."),
    "model_type": ("must be a table of keys.", "Write [{where}] and its keys under it."),
    "dict_type": ("must be a table of named parts.", "Write [{where}.NAME] and its keys under it."),
}
_BOUNDS = {
    "greater_than_equal": ("must be {limit:g} or more.", "ge"),
    "less_than_equal": ("must be {limit:g} or less.", "le"),
}
_FORMS = {
    "currency": 'Write three capital letters: "EUR".',
    "timezone": 'Write it like "Europe/London".',
}
_NAMES = "A name has only small letters, digits, - and _."


def faults_of(error: ValidationError, lines: Lines, system: System | None = None) -> list[Fault]:
    """Every fault the models found; a key is not called missing where it was only misspelt."""
    details = error.errors(include_url=False)[: 2 * MOST]
    strange = {tuple(detail["loc"]) for detail in details if detail["type"] == "extra_forbidden"}
    return [
        _fault(detail, lines, system)
        for detail in details
        if not (detail["type"] == "missing" and misspelt(tuple(detail["loc"]), strange))
    ]


def misspelt(path: Path, strange: Iterable[Path]) -> bool:
    """Whether one of the strange keys beside it was plainly meant to be this one."""
    beside = [str(other[-1]) for other in strange if other[:-1] == path[:-1]]
    known = known_keys(path[:-1]) if beside else ()
    return any(nearest(word, known, 1) == [path[-1]] for word in beside[:20])


def ordered(faults: list[Fault]) -> tuple[Fault, ...]:
    """Each fault once, from the top of the file down."""
    unique = sorted(dict.fromkeys(faults), key=lambda fault: fault.line or 0)
    if len(unique) <= MOST:
        return tuple(unique)
    rest = len(unique) - MOST
    return (*unique[:MOST], Fault("this file", None, "", f"{rest} more faults are not listed.", ""))


def _fault(detail: ErrorDetails, lines: Lines, system: System | None) -> Fault:
    kind, path = detail["type"], tuple(detail["loc"])
    if path and path[-1] == "[key]":
        return _bad_name(path[:-1], lines)
    if kind == "extra_forbidden":
        return unknown_key(path, lines)
    if kind == "missing":
        return missing_key(path, lines, system)
    given, context = lines.typed(path), detail.get("ctx", {})
    if kind == "refused":
        given = given or context["given"]
        return Fault(dotted(path), lines.line(path), given, context["allowed"], context["advice"])
    allowed, advice = _told(detail, path, system)
    return Fault(dotted(path), lines.line(path), given, allowed, advice)


def _told(detail: ErrorDetails, path: Path, system: System | None) -> tuple[str, str]:
    """What is allowed and what to write, for the kinds of fault that pydantic itself finds."""
    kind, here = detail["type"], spot_at(path)
    context: dict[str, Any] = detail.get("ctx", {})
    if kind == "literal_error" and here:
        choices = " or ".join(f'"{word}"' for word in here.words)
        close = nearest(str(detail.get("input", "")), here.words)
        sure = close and close[0][:2] == str(detail.get("input", ""))[:2].lower()
        return f"must be {choices}.", f'Write "{close[0]}".' if sure else "Write one of these, in quotes."
    if kind in _BOUNDS:
        words, key = _BOUNDS[kind]
        return words.format(limit=context[key]), f"Write it like {context[key]:g}."
    if kind == "dict_type" and here and (inner := here.under("")) and inner.annotation is Any:
        kind = "model_type"
    if kind == "model_type" and (keys := known_keys(path)):
        return _KINDS[kind][0], f"Write {path[-1]} = {{ KEY = VALUE, ... }}; its keys: {', '.join(keys)}."
    allowed, advice = _KINDS.get(kind, (f"cannot stand here: {detail['msg']}.", "Write {example}."))
    form = _FORMS.get(str(path[-1]) if path else "", "Look at the example plan.")
    example = here.example_in(system) if here else '"..."'
    return allowed, advice.format(example=example, where=dotted(path), form=form)


def unknown_key(path: Path, lines: Lines) -> Fault:
    """A key nobody knows, with the nearest that is known."""
    known = known_keys(path[:-1])
    close = nearest(str(path[-1]), known, 1)
    some = ", ".join(known[:20]) + (", ..." if len(known) > 20 else "")
    advice = f"Did you mean {close[0]}? " if close else ""
    allowed, told = "is not a key known here.", f"{advice}Known here: {some}."
    return Fault(dotted(path), lines.line(path), lines.key_typed(path), allowed, told)


def missing_key(path: Path, lines: Lines, system: System | None = None) -> Fault:
    """A key that must be there; its line is that of the table that lacks it."""
    here = spot_at(path)
    example = here.example_in(system, str(path[-1])) if here else '"..."'
    return Fault(dotted(path), lines.line(path[:-1]), "", "is missing.", f"Add {path[-1]} = {example}.")


def _bad_name(path: Path, lines: Lines) -> Fault:
    name = shown(str(path[-1]))
    plain = "".join(char if char.isalnum() and char.isascii() else "_" for char in name.lower())[:40].strip(
        "_"
    )
    advice = f"{_NAMES} Write {plain}." if plain else _NAMES
    return Fault(dotted(path), lines.line(path), f'"{name}"', "cannot be the name of a part.", advice)
