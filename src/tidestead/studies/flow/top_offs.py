"""Float valves that make up what evaporates: what one that sticks open does, and whether it keeps up."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from tidestead.physics import seawater
from tidestead.physics.flow import top_off
from tidestead.physics.flow.runback import free_volume
from tidestead.physics.flow.top_off import StuckFill
from tidestead.plan.model import Plan
from tidestead.studies.flow.heights import brim_of, brimful_basin, floor_of
from tidestead.studies.flow.water_kind import WaterKind

FALL = 2.0
"""Fall of salinity that corals and fish bear from one day to the next, psu. Common practice, no source."""


@dataclass(frozen=True)
class TopOffFacts:
    """One float valve, stuck open. Volumes in m3, times in seconds, endless where the stock runs out first.

    `over` is how far the vessel's water stands over the level that the valve keeps, metres.
    `room` is that of the vessel the water ends in, `after` the salinity once the stock has run in, None without one.
    """

    vessel: str
    ends_in: str
    flow: float
    stock: float | None
    room: float
    spills: float
    dilutes: float
    before: float
    after: float | None
    evaporation: float | None
    over: float


def top_off_facts(
    plan: Plan,
    levels: Mapping[str, float],
    fixed: Mapping[str, float],
    volumes: Mapping[str, float],
    water: WaterKind,
) -> tuple[TopOffFacts, ...]:
    """Every float valve. What runs into a vessel of the circuit ends in the sump, which has no way out."""
    found = []
    for key, vessel in plan.vessels.items():
        valve = vessel.top_off
        if valve is None or key not in levels:
            continue
        ends = key if key in fixed or not fixed else min(fixed, key=lambda one: fixed[one])
        level = min(levels[ends], brim_of(plan.vessels[ends]))
        room = float(free_volume(brimful_basin(plan.vessels[ends]), level))
        fresh = float(seawater.density(0.0, water.temp_c))
        stock = valve.stock if valve.stock is not None else math.inf
        fill = StuckFill(valve.flow, sum(volumes.values()), room, water.sal_psu, water.density, fresh, stock)
        wanted = max(water.sal_psu - FALL, 0.0)
        found.append(
            TopOffFacts(
                key,
                ends,
                valve.flow,
                valve.stock,
                room,
                float(top_off.flooding_time(fill)),
                float(top_off.dilution_time(fill, wanted)) if wanted > 0.0 else math.inf,
                water.sal_psu,
                None if valve.stock is None else float(top_off.stuck_salinity(fill, stock / valve.flow)),
                valve.evaporation,
                levels[key] - floor_of(vessel) - valve.level,
            )
        )
    return tuple(found)
