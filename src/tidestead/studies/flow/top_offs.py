"""Float valves that make up what evaporates: what one that sticks open does, and whether it keeps up."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TypeAlias

from tidestead.physics import seawater
from tidestead.physics.flow import top_off
from tidestead.physics.flow.runback import free_volume
from tidestead.physics.flow.top_off import StuckFill
from tidestead.plan.model import Plan
from tidestead.studies.flow.facts import Line, Running
from tidestead.studies.flow.heights import brim_of, brimful_basin, floor_of
from tidestead.studies.flow.solving import tried
from tidestead.studies.flow.water_kind import WaterKind

FALL = 2.0
"""Fall of salinity that corals and fish bear from one day to the next, psu. Common practice, no source."""


Solved: TypeAlias = tuple[Sequence[Line], Mapping[str, float], Running]
"""Lines, levels that are fixed, and the solution."""

SUNK = 0.02
"""Metres by which a sump is let down to see what follows it."""


@dataclass(frozen=True)
class TopOffFacts:
    """One float valve, stuck open. Volumes in m3, times in seconds, endless where the stock runs out first.

    `follows` is how far its vessel sinks for each metre that the one it `ends_in` does, None where that was not found.
    `fill` is what runs in, `open_by` how far its vessel's water stands under `shuts_at`, its level. `room`
    is that of the vessel the water ends in, `after` the salinity once the stock has run in, None without one.
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
    follows: float | None
    fill: StuckFill
    open_by: float
    shuts_at: float


def top_off_facts(
    plan: Plan,
    solved: Solved,
    parts: tuple[Sequence[frozenset[str]], Mapping[str, float]],
    water: WaterKind,
) -> tuple[TopOffFacts, ...]:
    """Every float valve. What runs into a vessel of the circuit ends in the sump, which has no way out.

    `parts` are groups of places that lines join, and volumes by vessel.
    """
    found = []
    groups, volumes = parts
    _, fixed, running = solved
    levels = running.levels
    for key, vessel in plan.vessels.items():
        valve = vessel.top_off
        if valve is None or key not in levels:
            continue
        group = next((one for one in groups if key in one), frozenset((key,)))
        sumps = {sump: at for sump, at in fixed.items() if sump in group}
        ends = key if key in sumps or not sumps else min(sumps, key=lambda one: sumps[one])
        volume = sum(amount for one, amount in volumes.items() if one in group)
        kept = floor_of(plan.vessels[ends]) + (plan.vessels[ends].water or 0.0)
        level = min(max(levels[ends], kept), brim_of(plan.vessels[ends]))
        room = float(free_volume(brimful_basin(plan.vessels[ends]), level))
        fresh = float(seawater.density(0.0, water.temp_c))
        stock = valve.stock if valve.stock is not None else math.inf
        fill = StuckFill(valve.flow, volume, room, water.sal_psu, water.density, fresh, stock)
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
                1.0 if ends == key else _follows(plan, solved, key, ends),
                fill,
                0.0 if key in fixed else floor_of(vessel) + valve.level - levels[key],
                floor_of(vessel) + valve.level,
            )
        )
    return tuple(found)


def _follows(plan: Plan, solved: Solved, key: str, ends: str) -> float | None:
    """How far a vessel sinks for each metre that the one in which what evaporates is missing does."""
    lines, fixed, running = solved
    lower = tried(plan, lines, {**fixed, ends: fixed[ends] - SUNK}, running.state)
    return None if lower is None else (running.levels[key] - lower.levels[key]) / SUNK
