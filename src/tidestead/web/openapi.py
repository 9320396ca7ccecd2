"""The published description of the door, with the schema of answers in it."""

from __future__ import annotations

import json
from functools import cache
from typing import Any

from fastapi import FastAPI
from fastapi.openapi.utils import get_openapi

from tidestead.report.as_json import answers_schema

_PREFIX = "Answers_"
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
        for path in made["paths"].values():
            for method in path.values():
                refused = {"description": "The guard lets nobody in who is not on our own page."}
                method["responses"].setdefault("400", refused)
                if "requestBody" in method:
                    for status in ("403", "413", "415"):
                        method["responses"].setdefault(status, refused)
        app.openapi_schema = made
    return app.openapi_schema


@cache
def _answers() -> dict[str, Any]:
    """The schema of answers, its parts moved to where this description keeps parts."""
    text = json.dumps(answers_schema()).replace("#/$defs/", f"#/components/schemas/{_PREFIX}")
    whole: dict[str, Any] = json.loads(text)
    parts = {f"{_PREFIX}{name}": part for name, part in whole.pop("$defs", {}).items()}
    whole = {key: value for key, value in whole.items() if not key.startswith("$")}
    return {**parts, f"{_PREFIX}document": whole}
