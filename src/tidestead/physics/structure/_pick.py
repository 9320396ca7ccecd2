"""Choosing between two values, one or many at a time. Private to this subject: no formulas here."""

from __future__ import annotations

from typing import Any

import numpy as np


def pick(condition: Any, yes: Any, no: Any) -> Any:
    """`yes` where the condition holds, else `no`. Numbers stay numbers, arrays broadcast."""
    return np.where(condition, yes, no)[()]
