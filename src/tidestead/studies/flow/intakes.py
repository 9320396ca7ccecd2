"""Where pumps draw from, at the worst: thin air, the warmest water kept, the highest flow, the pump where it stands."""

from __future__ import annotations

import math
from dataclasses import dataclass

from tidestead.core.answer import Estimate
from tidestead.physics import seawater, water_viscosity
from tidestead.physics.flow import suction
from tidestead.plan.model import Plan
from tidestead.studies.flow.facts import Line, Running
from tidestead.studies.flow.ranges import SPREAD
from tidestead.studies.flow.water_kind import WaterKind

WEATHER = 4000.0
"""Pascal that a deep low takes from the mean pressure of the air. Common practice, no source."""


@dataclass(frozen=True)
class Boiling:
    """What decides where water boils. Pressures in Pa, absolute: air on average and in a deep low, vapour."""

    air: float
    low_air: float
    vapour: float
    density: float
    warmest_c: float


@dataclass(frozen=True)
class Intake:
    """A pump's inlet: as it likely is, and at the worst; None where the highest flow was not found.

    `level` is that of the pump above the datum; `said` whether the plan says it.
    """

    likely: suction.Suction
    worst: suction.Suction | None
    level: float
    said: bool

    @property
    def available(self) -> Estimate:
        """Net positive suction head with its range."""
        likely = float(suction.npsh_available(self.likely))
        least = -math.inf if self.worst is None else float(suction.npsh_available(self.worst))
        basis = "a deep low, and the highest flow through fittings a third worse than their tables"
        return Estimate(min(least, likely), likely, likely, basis)


def boiling_of(plan: Plan, water: WaterKind) -> Boiling:
    """Air of the place, and the vapour of the water at its warmest; at sea level where the plan names no height."""
    warmest = plan.water.keep[1] if plan.water.keep else water.temp_c
    air = float(suction.air_pressure(plan.site.elevation or 0.0))
    vapour = float(water_viscosity.vapour_pressure(water.sal_psu, warmest))
    density = float(seawater.density(water.sal_psu, warmest))
    return Boiling(air, air - WEATHER, vapour, density, warmest)


def intake_of(plan: Plan, line: Line, running: Running, most: float, boiling: Boiling) -> Intake | None:
    """The inlet of a line's pump; None where the line starts at a junction and the plan gives the pump no level."""
    assert line.pump is not None
    said = plan.pumps[line.pump].level
    level = said if said is not None else line.start_level
    before = running.state.heads[line.links[0].start]
    if level is None or not math.isfinite(before):
        return None
    flow = max(running.flows[line.key], 0.0)

    def drawn(air: float, moved: float, stiffer: float) -> suction.Suction:
        loss = max(stiffer * _lost(line, moved), 0.0)
        return suction.Suction(air, boiling.vapour, boiling.density, level - before, loss)

    worst = drawn(boiling.low_air, max(most, flow), 1.0 + SPREAD) if math.isfinite(most) else None
    return Intake(drawn(boiling.air, flow, 1.0), worst, level, said is not None)


def _lost(line: Line, flow: float) -> float:
    """Head lost from the line's start to its pump."""
    total = 0.0
    for run in line.runs:
        if run.item.kind == "pump":
            break
        total += float(run.law.at(flow).head)
    return total
