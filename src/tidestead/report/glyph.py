"""The sign of a verdict in a line of text: a small vessel whose water stands as high as the check is used.

Three characters wide everywhere, so that columns stay straight. The word stands beside it always; the sign
only repeats it.
"""

from __future__ import annotations

import math

from tidestead.core.answer import Verdict

WIDTH = 3

_LEVELS = "▁▂▃▄▅▆"
_ASCII_LEVELS = "_-"


def glyph(verdict: Verdict, use: float | None, ascii_only: bool = False) -> str:
    """The vessel: well below its rim, just under it, spilling over, or an empty dashed one."""
    if verdict is Verdict.UNPROVEN or use is None:
        return ":?:" if ascii_only else "┆?┆"
    if verdict is Verdict.FAILS:
        return "~#~" if ascii_only else "~█~"
    if verdict is Verdict.NEAR:
        return "[=]" if ascii_only else "▕▇▏"
    levels = _ASCII_LEVELS if ascii_only else _LEVELS
    inner = levels[_step(use, len(levels))]
    return f"[{inner}]" if ascii_only else f"▕{inner}▏"


def _step(use: float, steps: int) -> int:
    """Which of the steps below the rim the water has reached; a sound check never reaches the near step."""
    return min(steps - 1, max(0, math.floor(use * steps)))
