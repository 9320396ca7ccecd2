"""Will the water go round? Pumps, lines, overflows, drains, power stops, fittings through walls, shutting off."""

from tidestead.studies.flow.study import find, judge

__all__ = ["find", "judge"]
