"""Is the water right? Salt, changes, what evaporates, nutrients, alkalinity, ammonia, stock, the first fill."""

from tidestead.studies.water.study import find, judge

__all__ = ["find", "judge"]
