"""Will it hold? Plates, walls, rims, ties, towers, linings and ground under still water."""

from tidestead.studies.structure.sought import sought
from tidestead.studies.structure.study import find, judge

__all__ = ["find", "judge", "sought"]
