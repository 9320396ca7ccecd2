"""Is the water right? Salt, changes, what evaporates, nutrients, alkalinity, ammonia, stock, the first fill."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tidestead.core.lazily import lazily

if TYPE_CHECKING:
    from tidestead.studies.water.study import find, judge

__all__ = ["find", "judge"]

__getattr__ = lazily(__name__, {"find": "study", "judge": "study"})
