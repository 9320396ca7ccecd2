"""Will the fractionator earn its place? Bubbles, dwell, flooding, neck, air, clean-up time, oxygen."""

from tidestead.studies.foam.study import find, judge

__all__ = ["find", "judge"]
