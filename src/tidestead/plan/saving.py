"""Edits that keep comments, and saves that lose nothing."""

from __future__ import annotations

import tomlkit
from tomlkit import TOMLDocument


def document(text: str) -> TOMLDocument:
    """A document of the text, for editing with its comments kept."""
    return tomlkit.parse(text)
