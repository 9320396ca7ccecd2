"""Warmth: years of water, air and glazing, spells that must be stood, what decides the energy."""

from tidestead.studies.heat.study import find, judge

__all__ = ["find", "judge"]
