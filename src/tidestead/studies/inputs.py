"""What a study is given. A study reads nothing else: no clock, no log, no network."""

from __future__ import annotations

from dataclasses import dataclass

from tidestead.core.units import System
from tidestead.plan.model import Plan


@dataclass(frozen=True)
class Inputs:
    """The plan and how its owner wants numbers worded."""

    plan: Plan
    system: System
