"""Will the fractionator earn its place? Bubbles, dwell, flooding, neck, air, clean-up time, oxygen."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tidestead.core.lazily import lazily

if TYPE_CHECKING:
    from tidestead.studies.foam.study import find, judge

__all__ = ["find", "judge"]

__getattr__ = lazily(__name__, {"find": "study", "judge": "study"})
