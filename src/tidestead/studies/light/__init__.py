"""Is there light enough to grow? Daylight through the building into the water, corals by their bands, lamps."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tidestead.core.lazily import lazily

if TYPE_CHECKING:
    from tidestead.studies.light.study import find, judge

__all__ = ["find", "judge"]

__getattr__ = lazily(__name__, {"find": "study", "judge": "study"})
