"""What is wrong in one run, and for how long each thing goes on in it."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

import numpy as np

from tidestead.core.answer import Estimate
from tidestead.core.dims import Array
from tidestead.plan.water_fields import OnCircuit
from tidestead.studies.faults.facts import Season
from tidestead.studies.faults.knobs import End
from tidestead.studies.faults.waters import Basis

HOURS = 240
"""For which what goes on longer is told apart by the hour; beyond that it goes on for good."""


@dataclass(frozen=True)
class Leaking:
    """Water that runs out of a body (0 the display, 1 the sump) onto the floor, m3/s."""

    body: int
    flow: Estimate


@dataclass(frozen=True)
class Case:
    """What is wrong. `dead` gives hours after which a thing stops (0: at once); `cut`: the mains are gone.

    `kept` gives hours for which a thing goes on all the same. `covered`: a cover of nine tenths is laid on. `air` is
    oxygen of an air pump that is tried, g/h into empty water, for the hours `air_for`. `eats` scales food and what
    comes of it, `breathes` what the fish use. `no_filter`: nothing clears ammonia. `stuck_on` names a heater of which
    one never switches off, or half of it where it is `halved`. `top_off` is how the float stands; `by_hand`: somebody
    comes every day and makes up for what evaporates. `burst`: what the pumps lift to the display ends on the floor.
    `switch` is the water on the floor, m3, at which a leak switch stops the pumps and shuts the fresh water. `decays`
    is nitrogen that lies in the display and decays, g, with the oxygen each gram takes.
    """

    season: Season
    dead: Mapping[OnCircuit, float] = field(default_factory=dict)
    kept: Mapping[OnCircuit, float] = field(default_factory=dict)
    cut: bool = False
    covered: bool = False
    air: float = 0.0
    air_for: float = math.inf
    eats: float = 1.0
    breathes: float = 1.0
    no_filter: bool = False
    stuck_on: str = ""
    halved: bool = False
    top_off: Literal["hold", "open", "shut"] = "hold"
    stock: float | None = None
    leaking: Leaking | None = None
    burst: bool = False
    switch: float | None = None
    by_hand: bool = False
    decays: tuple[float, float] = (0.0, 0.0)


def runs_for(basis: Basis, case: Case, item: OnCircuit) -> float:
    """Hours for which a thing goes on in a case."""
    if item in case.kept:
        return case.kept[item]
    if item in case.dead:
        return case.dead[item]
    return basis.backed(item) if case.cut else math.inf


def held(hours: float, before: float, after: float) -> Array:
    """One value for so many whole hours, another from then on."""
    whole = min(int(hours) if math.isfinite(hours) else HOURS, HOURS)
    return np.array([before] * whole + [after] * (1 if whole < HOURS else 0) or [after], dtype=float)


def at_end(value: Estimate | None, end: End) -> float:
    """One end of an estimate whose high end is the adverse one; nothing where it is not known."""
    if value is None:
        return 0.0
    return {"likely": value.likely, "adverse": value.high, "mild": value.low}[end]
