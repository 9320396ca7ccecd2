"""What a study is given. A study reads nothing else: no clock, no log, no network."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import date
from typing import TypeAlias

from tidestead.core.units import System
from tidestead.core.weather import Weather
from tidestead.plan.model import Plan

Tick: TypeAlias = Callable[[int, int], None]
"""Called now and then in long work with how many of how many parts are done."""


@dataclass(frozen=True)
class Inputs:
    """The plan, how its owner wants numbers worded, and the weather where a subject is given it.

    Where there is no weather, `no_weather` says why in a sentence. `tick` hears how long work goes on; nothing that is
    found hangs on it. `as_of` is the day on which it is asked, for what grows old; None where no day counts.
    `no_prices` says why a price book beside the plan could not be read.
    """

    plan: Plan
    system: System
    weather: Weather | None = None
    no_weather: str = ""
    tick: Tick | None = field(default=None, compare=False)
    as_of: date | None = None
    no_prices: str = ""
