"""The plan file's layout as JSON Schema (2020-12), for editors that complete and check while one types."""

from __future__ import annotations

import ast
import inspect
import sys
from functools import cache
from typing import Any

from pydantic import BaseModel

from tidestead.plan.model import VERSION, Part, Plan

DIALECT = "https://json-schema.org/draft/2020-12/schema"


def json_schema() -> dict[str, Any]:
    """What a plan may hold: every key with what it means, the form of quantities, catalogue names."""
    schema = Plan.model_json_schema()
    described = _described(Plan.__name__, schema)
    described["$defs"] = {name: _described(name, part) for name, part in schema.get("$defs", {}).items()}
    described["properties"]["tidestead"] |= {"const": VERSION}
    title = {"$schema": DIALECT, "title": f"Tidestead plan, layout {VERSION}"}
    return title | {key: value for key, value in described.items() if key != "title"}


def _described(name: str, schema: dict[str, Any]) -> dict[str, Any]:
    """The schema of one class with the words that stand under its fields in the source."""
    words = _field_words().get(name, {})
    properties = {
        key: _plain(value) | ({"description": words[key]} if key in words else {})
        for key, value in schema.get("properties", {}).items()
    }
    return schema | {"properties": properties} if properties else schema


def _plain(field: dict[str, Any]) -> dict[str, Any]:
    """A field without what TOML has no word for: null, and a default that only says nothing."""
    choices = [choice for choice in field.get("anyOf", ()) if choice != {"type": "null"}]
    if "anyOf" in field and len(choices) < len(field["anyOf"]):
        rest = {key: value for key, value in field.items() if key not in ("anyOf", "default")}
        field = rest | (choices[0] if len(choices) == 1 else {"anyOf": choices})
    if "patternProperties" in field:
        field = field | {"additionalProperties": False}
    return {key: value for key, value in field.items() if key != "title" and not _empty_default(key, value)}


def _empty_default(key: str, value: Any) -> bool:
    return key == "default" and (value is None or isinstance(value, list | dict))


@cache
def _field_words() -> dict[str, dict[str, str]]:
    """For each class of the model: field name -> the text under it."""
    modules = {part.__module__ for part in _parts(Part)}
    found: dict[str, dict[str, str]] = {}
    for module in sorted(modules):
        for node in ast.parse(inspect.getsource(sys.modules[module])).body:
            if isinstance(node, ast.ClassDef):
                found[node.name] = _words_in(node)
    return found


def _parts(base: type[BaseModel]) -> set[type[BaseModel]]:
    return {base}.union(*(_parts(part) for part in base.__subclasses__()))


def _words_in(node: ast.ClassDef) -> dict[str, str]:
    words: dict[str, str] = {}
    for field, text in zip(node.body, node.body[1:], strict=False):
        if (
            isinstance(field, ast.AnnAssign)
            and isinstance(field.target, ast.Name)
            and isinstance(text, ast.Expr)
            and isinstance(text.value, ast.Constant)
            and isinstance(text.value.value, str)
        ):
            words[field.target.id] = " ".join(text.value.value.split())
    return words
