"""Will the water go round? Pumps, lines, overflows, drains, power stops, fittings through walls, shutting off."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tidestead.core.lazily import lazily

if TYPE_CHECKING:
    from tidestead.studies.flow.study import find, judge

__all__ = ["find", "judge"]

__getattr__ = lazily(__name__, {"find": "study", "judge": "study"})
