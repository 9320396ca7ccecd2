"""A fault in words for who fills in a form: of fields and choices, not of lines in a file."""

from __future__ import annotations

import re

from tidestead.core.errors import Fault

PICKED = ("choice", "catalogue", "yes_no")
"""Kinds of fields in which one of a list is chosen."""

_ADDED = re.compile(r"Add \S+ = (?P<value>.*)", re.DOTALL)
_QUOTES = re.compile(r",? (?:in|without) quotes(?=[.,])")


def said(fault: Fault, kind: str = "") -> str:
    """A whole sentence for the field of a kind; without one, for a fault that belongs to no field on the page."""
    advice = _QUOTES.sub("", fault.advice)
    added = _ADDED.fullmatch(advice)
    if added is not None:
        advice = "Choose one." if kind in PICKED else f"Write it like {added['value']}"
    subject = fault.given or ("" if fault.allowed[:1].isupper() else "This")
    parts = (subject, _QUOTES.sub("", fault.allowed), advice)
    return " ".join(part for part in parts if part)
