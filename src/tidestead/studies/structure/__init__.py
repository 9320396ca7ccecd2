"""Will it hold? Plates, walls, rims, ties, towers, linings and ground under still water."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tidestead.core.lazily import lazily

if TYPE_CHECKING:
    from tidestead.studies.structure.seeking import sought
    from tidestead.studies.structure.study import find, judge

__all__ = ["find", "judge", "sought"]

__getattr__ = lazily(__name__, {"find": "study", "judge": "study", "sought": "seeking"})
