"""Siphon breaks: whether each hole lets in air enough for the flow that would run back, and what it spills."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from tidestead.physics.flow import siphons
from tidestead.physics.flow.pipes import pipe_velocity, velocity_head
from tidestead.physics.flow.siphons import SiphonPipe
from tidestead.plan.model import Plan, Port
from tidestead.studies.flow.courses import Basins
from tidestead.studies.flow.facts import Line, Running
from tidestead.studies.flow.heights import port_of
from tidestead.studies.flow.ways_down import LineEnd, StillLine, bore_at_end

AIR = 1.2
"""Density of air in a room, kg/m3. Source: 101325 Pa at 20 degC by the gas law."""


@dataclass(frozen=True)
class BreakFacts:
    """One siphon break. Levels above the datum.

    `back` is what would run out through its pipe with the water down at the hole and no guard at work; `share` the
    air that then comes in, as a share of it; `carries` the flow from which water takes air down with it; `spills`
    what squirts from the hole while the pumps run, under the head `pressed`, which is that of the pipe between hole and
    mouth; `water` the level before it while the pumps run. `bare` is a hole over that water; `beside` one that
    the line, led through the wall below it, may never come to.
    """

    name: str
    vessel: str
    port: str
    level: float
    edge: float
    hole: float
    bore: float
    bare: bool
    beside: bool
    back: float
    share: float
    carries: float
    spills: float
    pressed: float
    density: float
    water: float

    @property
    def too_low(self) -> bool:
        """Whether the mouth draws air before the hole does."""
        return self.level <= self.edge

    @property
    def slow(self) -> bool:
        """Whether the water cannot take air down with it: then any hole stops it."""
        return self.back <= self.carries

    @property
    def works(self) -> bool:
        return not self.beside and (self.slow or self.share >= siphons.PARTS)


@dataclass(frozen=True)
class _Water:
    """What all breaks share: levels as the pumps stop, the flows before, the water's density."""

    levels: Mapping[str, float]
    running: Running
    density: float


def break_facts(
    plan: Plan, still: tuple[StillLine, ...], levels: Mapping[str, float], running: Running, density: float
) -> tuple[BreakFacts, ...]:
    """Every siphon break at the end of a line."""
    water = _Water(levels, running, density)
    return tuple(
        found
        for one in still
        for name, end in ((one.line.circuit.start, one.start), (one.line.circuit.end, one.end))
        if (found := _facts(plan, still, (one, name, end), water)) is not None
    )


def _passes_below(line: Line, port: Port, level: float) -> bool:
    """Whether a line goes through the wall at its port, with nothing said of a place as high as the break."""
    high = line.circuit.high_point
    return port.bulkhead is not None and (high is None or high < level)


def _pressed(line: Line, name: str, end: LineEnd, flow: float) -> float:
    """Head in a pipe at its hole over the water beside it: what the pipe takes from there to its mouth.

    At the mouth it has the head of the water outside; upright from there to the hole at the shortest.
    """
    runs = line.runs if name == line.circuit.start else line.runs[::-1]
    pipe = next((run for run in runs if run.item.kind == "pipe"), None)
    if pipe is None or pipe.item.length <= 0.0 or end.break_at is None:
        return 0.0
    return float(pipe.law.at(abs(flow)).head) / pipe.item.length * max(end.break_at - end.edge, 0.0)


def _facts(
    plan: Plan, still: tuple[StillLine, ...], at: tuple[StillLine, str, LineEnd], water: _Water
) -> BreakFacts | None:
    one, name, end = at
    found, bore = port_of(plan, name), bore_at_end(one.line, name)
    if found is None or found[2].siphon_break is None or end.break_at is None or bore <= 0.0:
        return None
    lowered = {**water.levels, end.place: min(end.break_at, water.levels[end.place])}
    back = Basins(lowered, still).flow_out(name)
    hole = found[2].siphon_break.hole
    suction = max(float(velocity_head(pipe_velocity(back, bore))), 1e-9)
    drawn = siphons.break_hole(SiphonPipe(bore, 1.0), hole, suction, water.density, AIR)
    pressed = _pressed(one.line, name, end, water.running.flows[one.line.key])
    return BreakFacts(
        name,
        found[0],
        name.partition(".")[2],
        end.break_at,
        end.edge,
        hole,
        bore,
        end.break_at >= water.levels[end.place],
        name == one.line.circuit.end and _passes_below(one.line, found[2], end.break_at),
        back,
        drawn.share,
        float(siphons.priming_flow(bore)),
        float(siphons.spill_of_hole(hole, pressed)),
        pressed,
        water.density,
        water.levels[end.place],
    )
