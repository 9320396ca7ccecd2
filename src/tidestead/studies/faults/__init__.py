"""What if something stops? Every fault run through the coupled waters, against the hours until somebody has acted."""

from tidestead.studies.faults.study import find, judge

__all__ = ["find", "judge"]
