"""One printed value against one of our functions.

`given` and `printed` stand in SI unless `unit` (the SI size of the printed unit) says otherwise.
`to` is the tolerance in the printed unit: half the last printed digit, or larger with a reason in `why`.
A printed value is never replaced by ours: where they differ the case carries `differs`, the reason in words,
and is expected to fail.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any

import pytest


def itself(result: Any) -> float:
    """The result as a plain float."""
    return float(result)


@dataclass(frozen=True)
class Case:
    """One published value: the function it judges, inputs as printed, the answer as printed."""

    name: str
    of: Callable[..., Any]
    given: Mapping[str, Any]
    printed: float
    to: float
    source: str
    place: str
    known: str
    unit: float = 1.0
    pick: Callable[[Any], float] = field(default=itself)
    why: str = ""
    differs: str = ""

    def ours(self, scale: float = 1.0) -> float:
        """Our answer in the printed unit, times `scale` (the mutation check uses 1.02)."""
        return scale * self.pick(self.of(**self.given)) / self.unit

    def holds(self, scale: float = 1.0) -> bool:
        """Whether our answer is within the tolerance of the printed one."""
        return abs(self.ours(scale) - self.printed) <= self.to * (1.0 + 1e-9)


def marked(case: Case) -> Any:
    """A case as a parameter of a test: one that differs from print is expected to fail, and must."""
    marks = [pytest.mark.xfail(strict=True, reason=case.differs)] if case.differs else []
    return pytest.param(case, marks=marks, id=case.name)


PSI = 6894.757293168361
PSF = 47.88025898033584
PCF = 16.018463373960138
LBF = 4.4482216152605
INCH = 0.0254
FOOT = 0.3048
LB_IN = LBF * INCH
LB_PER_IN = LBF / INCH
LB_FT = LBF * FOOT
"""Sizes of the printed US units in SI. Source: NIST SP 811 (2008), appendix B; pound-force 4.4482216152605 N."""
