"""How many random cases a property is held against: enough of each in every run, all of them in the long one."""

from __future__ import annotations

from hypothesis import settings

ENOUGH = 50
"""Cases of a property in a run before every change: each branch of what is drawn comes up in them."""

WHOLE = 100
"""Cases where a test of a long run says no number of its own."""


def many(count: int, enough: int = ENOUGH) -> int:
    """The `count` cases of a long run (`--hypothesis-profile=long`, or random), or as many of them as are enough."""
    whole = settings.default is not None and settings.default.max_examples > ENOUGH
    return count if whole else min(count, enough)
