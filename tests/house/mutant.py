"""A plugin for pytest that makes one formula give two percent too much, to see whether its referee notices.

TIDESTEAD_MUTANT=tidestead.physics.structure.walls.stud_moment pytest -p tests.house.mutant tests/agree/...
"""

from __future__ import annotations

import copy
import dataclasses
import functools
import importlib
import os
import sys
from typing import Any

import numpy as np

OFF = 1.02
SETTING = "TIDESTEAD_MUTANT"


def scaled(result: Any, by: float = OFF) -> Any:
    """The result with every real number in it scaled; counts, words and switches stay."""
    if isinstance(result, np.ndarray):
        return result * by if result.dtype.kind == "f" else result
    if isinstance(result, float):
        return result * by
    if isinstance(result, (tuple, list)) and type(result) in (tuple, list):
        return type(result)(scaled(item, by) for item in result)
    if dataclasses.is_dataclass(result) and not isinstance(result, type):
        made = copy.copy(result)
        for field in dataclasses.fields(result):
            object.__setattr__(made, field.name, scaled(getattr(result, field.name), by))
        return made
    return result


def spoil(address: str) -> None:
    """Put a spoiled function in the place of a formula, wherever it has been imported to."""
    home, _, name = address.rpartition(".")
    right = getattr(importlib.import_module(home), name)

    @functools.wraps(right)
    def wrong(*given: Any, **named: Any) -> Any:
        return scaled(right(*given, **named))

    for module in [module for key, module in sys.modules.items() if key.split(".")[0] == "tidestead"]:
        for bound, value in list(vars(module).items()):
            if value is right:
                setattr(module, bound, wrong)


if os.environ.get(SETTING):
    spoil(os.environ[SETTING])
