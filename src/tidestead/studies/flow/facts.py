"""What the flow study finds: flows, levels, where the head goes, what drains can carry, what runs back."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from functools import cached_property
from typing import TYPE_CHECKING

from tidestead.core.answer import Estimate
from tidestead.core.pipework import ClosedNetwork
from tidestead.physics.flow.laws import Law, Link
from tidestead.physics.flow.network import NetworkState
from tidestead.physics.flow.pumps import PowerPumpLaw, PumpLaw
from tidestead.plan.flow_fields import RouteItem
from tidestead.plan.model import Circuit
from tidestead.studies.flow.water_kind import WaterKind

if TYPE_CHECKING:
    from tidestead.studies.flow.drains import DrainFacts
    from tidestead.studies.flow.high_points import HighPoint
    from tidestead.studies.flow.holes import HoleFacts
    from tidestead.studies.flow.pumping import PumpFacts
    from tidestead.studies.flow.ranges import Ranges
    from tidestead.studies.flow.shutting import ShutFacts
    from tidestead.studies.flow.stops import StopFacts
    from tidestead.studies.flow.top_offs import TopOffFacts


_TRICKLE = 1e-6
"""m3/s at which a part is asked whether it lets anything pass."""


@dataclass(frozen=True)
class Run:
    """One item of a line with its law. `bore` is that of the pipe it sits in; `volume` the water in it."""

    item: RouteItem
    words: str
    law: Law
    bore: float
    volume: float
    checks: bool = False
    kind: str = ""

    @property
    def lets_nothing(self) -> bool:
        """Whether it is shut."""
        return math.isinf(self.law.at(_TRICKLE).slope)


@dataclass(frozen=True)
class Line:
    """A circuit as the network sees it: one or more links, one after the other, that pass one flow.

    Levels above the datum; None at a junction. `lips` are the levels over which water falls on its way.
    """

    key: str
    circuit: Circuit
    links: tuple[Link, ...]
    runs: tuple[Run, ...]
    start_level: float | None
    end_level: float | None
    lips: tuple[float, ...] = ()

    @property
    def bore(self) -> float:
        """The narrowest pipe of the line; nothing where it has none."""
        return min((run.bore for run in self.runs if run.item.kind == "pipe"), default=0.0)

    @property
    def length(self) -> float:
        return sum(run.item.length for run in self.runs)

    @property
    def pump(self) -> str | None:
        """The pump that drives it, where it has one."""
        return next((run.item.name for run in self.runs if run.item.kind == "pump"), None)

    @property
    def pump_law(self) -> PumpLaw | PowerPumpLaw | None:
        """That pump's curve at its speed."""
        return next((run.law for run in self.runs if isinstance(run.law, PumpLaw | PowerPumpLaw)), None)

    @cached_property
    def shut(self) -> bool:
        """Whether something in it lets nothing pass."""
        return any(run.lets_nothing for run in self.runs)

    @property
    def one_way(self) -> bool:
        """Whether a check valve lets nothing back."""
        return any(link.one_way for link in self.links)


@dataclass(frozen=True)
class RunFlow:
    """One item under its flow."""

    run: Run
    flow: float
    velocity: float
    head: float


@dataclass(frozen=True)
class Overflow:
    """A weir or a standpipe as it runs: head over its crest with range, and how.

    `trough` is the level in the trough of a weir with a drain of its own; `tail` how far water stands above the
    crest behind it.
    """

    line: str
    vessel: str
    port: str
    crest: float
    flow: float
    low: float
    likely: float
    high: float
    within: str
    regime: str
    bore: float = 0.0
    trough: float | None = None
    tail: float = 0.0


@dataclass(frozen=True)
class Running:
    """One solution of the network, by circuit and by vessel."""

    state: NetworkState
    flows: Mapping[str, float]
    levels: Mapping[str, float]
    inflow: Mapping[str, float]
    outflow: Mapping[str, float]


@dataclass(frozen=True)
class FlowFacts:
    """The circulation as it runs. Flows in m3/s, heads and levels in metres above the datum.

    `levels` are water surfaces by vessel, `inflow` what enters each. `missing` says why nothing was solved.
    `outs` are lines that end outside the system, shut while it runs.
    `parted_at` are junctions whose tees lose what the flow in them says, `unparted` why none do. `ranges` holds the
    solutions at the ends of what is uncertain. `groups` are vessels that lines join, each group apart from the others;
    `stops` has a power stop for each.
    """

    water: WaterKind
    lines: tuple[Line, ...] = ()
    fixed: Mapping[str, float] = field(default_factory=dict)
    running: Running | None = None
    passed: Mapping[str, tuple[RunFlow, ...]] = field(default_factory=dict)
    volumes: Mapping[str, float] = field(default_factory=dict)
    missing: tuple[str, ...] = ()
    overflows: tuple[Overflow, ...] = ()
    pumps: tuple[PumpFacts, ...] = ()
    drains: tuple[DrainFacts, ...] = ()
    stops: tuple[StopFacts, ...] = ()
    groups: tuple[frozenset[str], ...] = ()
    high_points: tuple[HighPoint, ...] = ()
    top_offs: tuple[TopOffFacts, ...] = ()
    holes: tuple[HoleFacts, ...] = ()
    shutting: tuple[ShutFacts, ...] = ()
    closed: ClosedNetwork | None = None
    outs: tuple[Line, ...] = ()
    parted_at: tuple[str, ...] = ()
    unparted: str = ""
    ranges: Ranges | None = None

    @property
    def solved(self) -> bool:
        return self.running is not None

    @property
    def levels(self) -> Mapping[str, float]:
        """Water surfaces by vessel; none where nothing was solved."""
        return self.running.levels if self.running is not None else {}

    @property
    def inflow(self) -> Mapping[str, float]:
        """What enters each vessel; none where nothing was solved."""
        return self.running.inflow if self.running is not None else {}

    @property
    def outflow(self) -> Mapping[str, float]:
        """What leaves each vessel; none where nothing was solved."""
        return self.running.outflow if self.running is not None else {}

    @property
    def flows(self) -> Mapping[str, float]:
        """Flow by circuit; none where nothing was solved."""
        return self.running.flows if self.running is not None else {}

    @property
    def stop(self) -> StopFacts | None:
        """The power stop of the first group of vessels: of all of them, as a rule."""
        return self.stops[0] if self.stops else None

    def volume_with(self, vessel: str) -> float:
        """All the water that goes round with a vessel's."""
        group = next((one for one in self.groups if vessel in one), frozenset((vessel,)))
        return sum(volume for key, volume in self.volumes.items() if key in group)

    @property
    def system_volume(self) -> float:
        """All the water of the vessels that the circuits join."""
        return sum(self.volumes.values())

    def over(self, find: Callable[[Running], float]) -> Estimate:
        """Any figure of a solution, low, likely and high. Only where something was solved."""
        if self.ranges is not None:
            return self.ranges.over(find)
        if self.running is None:
            raise ValueError("nothing was solved")
        return Estimate.exact(find(self.running))

    def carried(self, line: str) -> Estimate:
        """What a line carries, whichever way, with its range."""
        return self.over(lambda running: abs(running.flows[line]))

    def line(self, key: str) -> Line:
        """The line of a circuit."""
        return next(line for line in self.lines if line.key == key)
