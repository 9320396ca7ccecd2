"""A plan to start from: one vessel, every line explained, in the units its owner thinks in."""

from __future__ import annotations

from pathlib import Path

from tidestead.core.units import System

_FOLDER = Path(__file__).with_name("starters")


def starter_text(system: System = "metric") -> str:
    """The text of a commented starter plan, which has no faults."""
    return (_FOLDER / f"{system}.toml").read_text(encoding="utf-8")
