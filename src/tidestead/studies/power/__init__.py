"""Is there power enough, and is it safe? Loads, starts, voltage, leakage, what dies together, what stands in."""

from tidestead.studies.power.study import find, judge

__all__ = ["find", "judge"]
