"""The page of every key that a plan may hold, made from the words under the fields of the model."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, get_args, get_origin

from tidestead.plan.fields import Named, Typed
from tidestead.plan.model import Plan
from tidestead.plan.outline import Spot, spot
from tidestead.plan.schema import json_schema

HEAD = """# Every key of a plan

What each table of a plan may hold. A name in capitals is yours to choose: small letters, digits, `-` and `_`. Every key
that stands under a table may also stand in braces on one line: `rim = { section = "2x6", lies = "flat" }`. A quantity
carries its unit, in metric or US units as you think of it. What you leave out is never guessed silently: its answer
is *unproven*, or lists what was assumed.

`tidestead export --to schema` writes the same for editors that complete and check while you type.
"""

NAMES = {"walls": "WALL", "yours": "TABLE"}
"""What the user's own name stands for, where it is not simply a name."""


def plan_keys() -> str:
    """The page."""
    schema = json_schema()
    parts = {"Plan": schema, **schema["$defs"]}
    told: dict[str, str] = {}
    sections = [_section(path, model, parts, told) for path, model in _tables((), spot(Plan))]
    return "\n".join([HEAD, *(section for section in sections if section)])


def _tables(path: tuple[str, ...], here: Spot) -> Iterator[tuple[tuple[str, ...], Spot]]:
    """Every table under a place, with the path that leads to it, outermost first."""
    yield path, here
    for key in here.keys:
        inner, named = _table_of(here.under(key))
        if inner is not None:
            yield from _tables((*path, key, *((NAMES.get(key, "NAME"),) if named else ())), inner)


def _table_of(here: Spot | None) -> tuple[Spot | None, bool]:
    """The table that a key holds, if it holds one, and whether its parts are named by the user."""
    if here is None or here.model is not None:
        return here, False
    if get_origin(here.annotation) is dict:
        inner = spot(get_args(here.annotation)[1])
        return (inner, True) if inner.model is not None else (None, True)
    return None, False


def _section(path: tuple[str, ...], here: Spot, parts: dict[str, Any], told: dict[str, str]) -> str:
    """One table with its keys; a sort of table that was told before is only pointed at."""
    if here.model is None:
        return ""
    name = here.model.__name__
    heading = f"`[{'.'.join(path)}]`" if path else "The plan itself"
    about = " ".join((here.model.__doc__ or "").split())
    if name in told:
        return f"## {heading}\n\n{about} Its keys are those of {told[name]}.\n"
    told[name] = heading
    rows = ["| key | takes | meaning |", "|---|---|---|"]
    for key in here.keys:
        inner = here.under(key)
        if inner is not None:
            words = parts[name]["properties"][key].get("description", "") or _own_words(inner)
            required = "; must be there" if here.keys[key].is_required() else ""
            rows.append(f"| `{key}` | {_takes(key, inner)}{required} | {_cell(words)} |")
    return f"## {heading}\n\n{about}\n\n" + "\n".join(rows) + "\n"


def _own_words(here: Spot) -> str:
    """What a table is, where nothing is said of the key that holds it."""
    inner, _ = _table_of(here)
    return "" if inner is None or inner.model is None else " ".join((inner.model.__doc__ or "").split())


def _takes(key: str, here: Spot) -> str:
    """The values a key takes, as they are written."""
    inner, named = _table_of(here)
    if inner is not None:
        return "tables by name" if named else "a table"
    if isinstance(here.typed, Named):
        return f"a name from the catalogue of {here.typed.table}, or `yours:`"
    if here.words:
        return ", ".join(f'`"{word}"`' for word in here.words)
    if isinstance(here.typed, Typed):
        if here.typed.whole:
            return "a whole number"
        both = (here.example_in("metric", key), here.example_in("us", key))
        return ", ".join(f"`{example}`" for example in dict.fromkeys(both))
    if get_origin(here.annotation) is tuple:
        each = spot(get_args(here.annotation)[0])
        if each.words:
            return "a list of " + ", ".join(f'`"{word}"`' for word in each.words)
        return f"a list: `[{each.example_in(None)}, ...]`"
    return {bool: "`true` or `false`", int: "a whole number", float: "a number", str: "text in quotes"}.get(
        here.annotation, "tables of your own rows" if named else "text in quotes"
    )


def _cell(words: str) -> str:
    return words.replace("|", "\\|")
