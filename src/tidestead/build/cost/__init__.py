"""What it costs: prices on lines, ranges, what drives them."""

from tidestead.build.cost.study import find, judge

__all__ = ["find", "judge"]
