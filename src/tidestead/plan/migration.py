"""From older layouts of the plan file to this one: one function for each version that is left behind.

A function takes the values of a plan of its version and returns those of the next. It works on values only:
the user's file is not rewritten.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any, TypeAlias

from tidestead.core.errors import Fault
from tidestead.plan.lines import Lines
from tidestead.plan.model import VERSION

Step: TypeAlias = Callable[[dict[str, Any]], dict[str, Any]]

STEPS: Mapping[int, Step] = {}
"""By the version a step leaves. Version 1 is the first layout, so that there is none yet."""

KEY = "tidestead"


def migrated(
    values: dict[str, Any], lines: Lines, steps: Mapping[int, Step] = STEPS, newest: int = VERSION
) -> tuple[dict[str, Any] | None, list[Fault]]:
    """The values in the newest layout, and what is wrong with their version; None where it is too new."""
    if KEY not in values:
        return {**values, KEY: newest}, [_fault(lines, "is missing.", f"Add {KEY} = {newest} at the top.")]
    version = values[KEY]
    if not isinstance(version, int) or isinstance(version, bool):
        advice = f"Write {KEY} = {newest}."
        return {**values, KEY: newest}, [_fault(lines, "must be a whole number without quotes.", advice)]
    if version > newest:
        allowed = f"is a newer layout than this program knows ({newest})."
        return None, [_fault(lines, allowed, "Bring tidestead up to date.")]
    if version < min(steps, default=newest):
        advice = f"Write {KEY} = {newest} and mend what is told then."
        return {**values, KEY: newest}, [_fault(lines, "is no layout there ever was.", advice)]
    for older in range(version, newest):
        values = {**steps[older](values), KEY: older + 1}
    return values, []


def _fault(lines: Lines, allowed: str, advice: str) -> Fault:
    return Fault(KEY, lines.line((KEY,)), lines.typed((KEY,)), allowed, advice)
