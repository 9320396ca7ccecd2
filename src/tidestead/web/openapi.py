"""The published description of the door, with the schema of answers in it."""

from __future__ import annotations

import json
from functools import cache
from typing import Any

from fastapi import FastAPI
from fastapi.openapi.utils import get_openapi

from tidestead.report.as_json import answers_schema

_PREFIX = "Answers_"
_GUARDED = "The guard lets nobody in who is not on our own page."
_FORM = "What was sent does not have the form it must have."
_TWINS = ("/api/question/{subject}", "/api/answers")


def described(app: FastAPI) -> dict[str, Any]:
    """The description, made once."""
    if app.openapi_schema is None:
        made = get_openapi(
            title=app.title, version=app.version, description=app.description, routes=app.routes
        )
        schemas = made.setdefault("components", {}).setdefault("schemas", {})
        schemas |= _answers()
        for twin in _TWINS:
            reply = made["paths"][twin]["get"]["responses"]["200"]
            reply["content"] = {
                "application/json": {"schema": {"$ref": f"#/components/schemas/{_PREFIX}document"}}
            }
        for path, methods in made["paths"].items():
            for method, operation in methods.items():
                _with_refusals(operation, page=not path.startswith("/api"), sends=method == "post")
        app.openapi_schema = made
    return app.openapi_schema


def _with_refusals(operation: dict[str, Any], *, page: bool, sends: bool) -> None:
    """What the guard and a wrong form lead to, for every operation; a page is refused as a page."""
    replies = operation["responses"]
    why = {"400": _GUARDED, "422": _FORM} if "422" in replies else {"400": _GUARDED}
    if sends:
        why |= {"403": _GUARDED, "413": "What was sent is too large.", "415": "JSON is wanted."}
    for status, words in why.items():
        told = replies.setdefault(status, {"description": words})
        if status != "413" and "Refused" not in str(told.get("content", "")):
            told["content"] = {"application/json": {"schema": {"$ref": "#/components/schemas/Refused"}}}
    for status in ("404", "503"):
        if page and status in replies:
            replies[status].setdefault("content", {})["text/html"] = {"schema": {"type": "string"}}


@cache
def _answers() -> dict[str, Any]:
    """The schema of answers, its parts moved to where this description keeps parts."""
    text = json.dumps(answers_schema()).replace("#/$defs/", f"#/components/schemas/{_PREFIX}")
    whole: dict[str, Any] = json.loads(text)
    parts = {f"{_PREFIX}{name}": part for name, part in whole.pop("$defs", {}).items()}
    whole = {key: value for key, value in whole.items() if not key.startswith("$")}
    return {**parts, f"{_PREFIX}document": whole}
