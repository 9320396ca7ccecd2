"""Highest points of lines: whether the pump or the rising water gets over them, and what pressure is left there."""

from __future__ import annotations

import math
from dataclasses import dataclass

from tidestead.core.dims import G
from tidestead.physics.flow import siphons, suction
from tidestead.physics.flow.draining import driven_flow
from tidestead.physics.flow.fittings import FittingLaw
from tidestead.physics.flow.laws import SeriesLaw
from tidestead.physics.flow.pipes import pipe_area
from tidestead.physics.flow.pumps import PowerPumpLaw, PumpLaw, pump_head
from tidestead.physics.flow.suction import PipePlace
from tidestead.plan.model import Plan
from tidestead.studies.flow.facts import Line, Running
from tidestead.studies.flow.heights import brim_of, port_of
from tidestead.studies.flow.intakes import Boiling, boiling_of
from tidestead.studies.flow.stops import StopFacts, Stopped
from tidestead.studies.flow.water_kind import WaterKind
from tidestead.studies.flow.ways_down import carries, high_point_of


@dataclass(frozen=True)
class Lifted:
    """A pump that has to fill a line over its highest point. Heads in metres, flows in m3/s.

    `lift` is from the lowest water it draws from at a start; `filling` what it then moves through this line before
    that runs full, with the `losses` of the full line.
    """

    pump: str
    lift: float
    shut_off: float
    filling: float
    losses: float


@dataclass(frozen=True)
class HighPoint:
    """The highest point of a line, over the water at both its ends. Levels above the datum.

    `behind` is the level it runs out to and `boiling` what the height over that hangs on at which the water in it
    boils; `carries`
    the flow that takes air down its far leg. Filled by a pump (`lifted`), or by the vessel before it rising to
    where its `others` carry all of it, or to its `brim`.
    """

    line: str
    level: float
    bore: float
    behind: float
    boiling: Boiling
    carries: float
    lifted: Lifted | None
    others: float
    brim: float
    runs: bool

    @property
    def reaches(self) -> float:
        """The level a vessel rises to before this line takes anything."""
        return min(self.others, self.brim)

    @property
    def boils(self) -> float:
        """Height over the level it runs out to at which the water in it boils."""
        at = self.boiling
        return float(suction.boiling_height(PipePlace(0.0, 0.0, 0.0), at.low_air, at.vapour, at.density))

    @property
    def over(self) -> float:
        """How far it stands over the level it runs out to: what the air outside has to bear."""
        return self.level - self.behind


def high_points(setting: Stopped, stop: StopFacts, water: WaterKind) -> tuple[HighPoint, ...]:
    """Every line with a highest point over the water at both its ends."""
    found = []
    for line in setting.lines:
        level = high_point_of(setting.plan, line)
        if level is None or line.shut or level <= max(_surfaces(setting, line), default=-math.inf):
            continue
        behind = _behind(setting.plan, setting.running, line)
        bore = max((run.bore for run in line.runs if run.item.kind == "pipe"), default=line.bore)
        found.append(
            HighPoint(
                line.key,
                level,
                bore,
                behind,
                boiling_of(setting.plan, water),
                float(siphons.priming_flow(bore)) if bore > 0.0 else math.nan,
                _lifted(setting, stop, line, (level, behind)),
                *_rising(setting, line),
                carries(setting.running, line.key),
            )
        )
    return tuple(found)


def _surfaces(setting: Stopped, line: Line) -> list[float]:
    ends = (port_of(setting.plan, name) for name in (line.circuit.start, line.circuit.end))
    return [setting.running.levels[found[0]] for found in ends if found is not None]


def _behind(plan: Plan, running: Running, line: Line) -> float:
    """The water it runs out to, or its mouth where that stands higher; the head of a junction."""
    found = port_of(plan, line.circuit.end)
    if found is not None:
        return max(running.levels[found[0]], -math.inf if line.end_level is None else line.end_level)
    head = running.state.heads.get(line.circuit.end, math.nan)
    return head if math.isfinite(head) else min(running.levels.values())


def _rising(setting: Stopped, line: Line) -> tuple[float, float]:
    """The level where a vessel's other ways out carry all of it, its brim where none is known; and its brim."""
    found = port_of(setting.plan, line.circuit.start)
    if found is None:
        return math.nan, math.nan
    blocked = {drain.vessel: drain.blocked for drain in setting.drains}.get(found[0], {}).get(line.key)
    brim = brim_of(found[1])
    return (blocked if blocked is not None and math.isfinite(blocked) else brim), brim


def _lifted(setting: Stopped, stop: StopFacts, line: Line, heights: tuple[float, float]) -> Lifted | None:
    """The pump that drives the line, directly or through junctions."""
    level, behind = heights
    driving = _driving(setting.lines, line)
    law = driving.pump_law if driving is not None else None
    if driving is None or driving.pump is None or law is None:
        return None
    drawn = port_of(setting.plan, driving.circuit.start)
    surface = setting.running.levels[drawn[0]] if drawn is not None else min(setting.running.levels.values())
    lowest = surface
    if drawn is not None and drawn[0] == stop.sump and stop.start is not None:
        lowest = min(lowest, stop.start.sump_level)
    whole = setting.running.flows[driving.key]
    share = setting.running.flows[line.key] / whole if whole > 0.0 else 0.0
    lift = level - lowest
    lost = max(float(pump_head(law, whole)) - (behind - surface), 0.0) / whole**2 if whole > 0.0 else 0.0
    flow = _filling(law, lift, lost)
    return Lifted(driving.pump, lift, float(pump_head(law, 0.0)), share * flow, lost * flow**2)


def _driving(lines: tuple[Line, ...], line: Line) -> Line | None:
    """The line with the pump that sends water into this one."""
    seen: list[Line] = []
    here: Line | None = line
    while here is not None and here not in seen:
        if here.pump is not None:
            return here
        seen.append(here)
        start = here.circuit.start
        feeding = [one for one in lines if one.circuit.end == start and "." not in start]
        here = next((one for one in feeding if one.pump is not None), next(iter(feeding), None))
    return None


def _filling(law: PumpLaw | PowerPumpLaw, lift: float, lost: float) -> float:
    """Flow at which a pump's head is a lift and losses that go with the square of the flow."""
    losses = FittingLaw(2.0 * G * pipe_area(1.0) ** 2 * lost, 1.0)
    return driven_flow(SeriesLaw((law, losses)), -lift)
