"""A fault in one value, as pydantic carries it."""

from __future__ import annotations

from pydantic_core import PydanticCustomError


def refusal(given: str, allowed: str, advice: str) -> PydanticCustomError:
    """What is wrong with a value; `faults` turns it into a Fault with its line."""
    context = {"given": given, "allowed": allowed, "advice": advice}
    return PydanticCustomError("refused", "{allowed} {advice}", context)
