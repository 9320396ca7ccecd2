"""What a study is given. A study reads nothing else: no clock, no log, no network."""

from __future__ import annotations

from dataclasses import dataclass

from tidestead.core.units import System
from tidestead.core.weather import Weather
from tidestead.plan.model import Plan


@dataclass(frozen=True)
class Inputs:
    """The plan, how its owner wants numbers worded, and the weather where a subject is given it.

    Where there is no weather, `no_weather` says why in a sentence.
    """

    plan: Plan
    system: System
    weather: Weather | None = None
    no_weather: str = ""
