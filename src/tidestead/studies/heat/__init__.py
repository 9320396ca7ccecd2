"""Warmth: years of water, air and glazing, spells that must be stood, what decides the energy."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tidestead.core.lazily import lazily

if TYPE_CHECKING:
    from tidestead.studies.heat.study import find, judge

__all__ = ["find", "judge"]

__getattr__ = lazily(__name__, {"find": "study", "judge": "study"})
