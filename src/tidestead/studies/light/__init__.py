"""Is there light enough to grow? Daylight through the building into the water, corals by their bands, lamps."""

from tidestead.studies.light.study import find, judge

__all__ = ["find", "judge"]
