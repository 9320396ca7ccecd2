"""The part of the circulation that runs full, as plain numbers: for export to programs that know closed pipes only."""

from __future__ import annotations

import math
from collections.abc import Sequence

from tidestead.core.pipework import ClosedNetwork, ClosedPipe, ClosedPump, FixedHead
from tidestead.physics.flow.fittings import FittingLaw
from tidestead.physics.flow.laws import Link, SeriesLaw
from tidestead.physics.flow.pipes import PipeLaw
from tidestead.physics.flow.pumps import PowerPumpLaw, PumpLaw, pump_head
from tidestead.physics.flow.valves import CheckLaw
from tidestead.plan.model import Plan
from tidestead.studies.flow.facts import Line, Running
from tidestead.studies.flow.water_kind import WaterKind

_STUB = 1e-3
"""Length of a pipe that stands for a fitting, metres."""

_SMOOTH = 1.5e-6
"""Roughness of such a pipe, metres."""

_POINTS = 40


class _Builder:
    """Joins elements one after the other and keeps the names of places."""

    def __init__(self, running: Running) -> None:
        self.running = running
        self.fixed: dict[str, float] = {}
        self.joints: dict[str, None] = {}
        self.pipes: list[ClosedPipe] = []
        self.pumps: list[ClosedPump] = []

    def place(self, node: str, name: str) -> str:
        """The name of a node: a fixed head where it is a surface or a lip, else a joint."""
        if node in self.running.levels:
            self.fixed[name] = self.running.levels[node]
        else:
            self.joints[name] = None
        return name

    def add(self, name: str, ends: tuple[str, str], law: object, one_way: bool) -> None:
        """One element."""
        start, end = ends
        if isinstance(law, PumpLaw | PowerPumpLaw):
            self.pumps.append(ClosedPump(name, start, end, _points(law)))
        elif isinstance(law, PipeLaw):
            self.pipes.append(
                ClosedPipe(name, start, end, law.length, law.bore, law.roughness, law.sum_k, one_way)
            )
        elif isinstance(law, FittingLaw | CheckLaw):
            self.pipes.append(ClosedPipe(name, start, end, _STUB, law.bore, _SMOOTH, law.k, one_way))
        else:
            self.pipes.append(ClosedPipe(name, start, end, _STUB, 0.05, _SMOOTH, shut=True))


def closed_network(plan: Plan, lines: Sequence[Line], running: Running, water: WaterKind) -> ClosedNetwork:
    """Every link that runs full from end to end. Where it ends in a free fall, the fall's level is its head."""
    made = _Builder(running)
    left: list[str] = []
    for line in lines:
        for at, link in enumerate(line.links):
            if link.through is None or link.over is not None or not _runs(running, link):
                left.append(link.name)
                continue
            _chain(made, line, at)
    joints = tuple(name for name in made.joints if name not in made.fixed)
    return ClosedNetwork(
        plan.name,
        water.kinematic_viscosity,
        tuple(FixedHead(name, head) for name, head in made.fixed.items()),
        joints,
        tuple(made.pipes),
        tuple(made.pumps),
        tuple(left),
    )


def _runs(running: Running, link: Link) -> bool:
    heads = (running.state.heads.get(link.start, math.nan), running.state.heads.get(link.end, math.nan))
    return all(math.isfinite(head) for head in heads)


def _chain(made: _Builder, line: Line, at: int) -> None:
    """The parts of one link between its two nodes."""
    link = line.links[at]
    laws = link.through.parts if isinstance(link.through, SeriesLaw) else (link.through,)
    start = _named(made, line, link.start)
    last = _named(made, line, link.end)
    checked = any(isinstance(law, CheckLaw) for law in laws)
    for number, law in enumerate(laws):
        end = last if number == len(laws) - 1 else f"{line.key}.{at}.{number + 1}"
        if end != last:
            made.joints[end] = None
        one_way = isinstance(law, CheckLaw) or (link.one_way and not checked and isinstance(law, PipeLaw))
        made.add(f"{line.key}.{at}.{number}p", (start, end), law, one_way)
        start = end


def _named(made: _Builder, line: Line, node: str) -> str:
    """A surface keeps the vessel's name; a place with a crest behind it has the head found there."""
    name = node.replace("~", ".").replace("#", ".")
    own = [link for link in line.links if link.start == node and link.over is not None]
    if own:
        made.fixed[name] = made.running.state.heads[node]
        return name
    return made.place(node, name)


def _points(law: PumpLaw | PowerPumpLaw) -> tuple[tuple[float, float], ...]:
    """The curve in small steps, down to where it has no head left."""
    most = law.points[-1].flow * law.speed if isinstance(law, PumpLaw) else _end(law)
    flows = [most * number / _POINTS for number in range(_POINTS + 1)]
    return tuple((flow, max(float(pump_head(law, flow)), 0.0)) for flow in flows)


def _end(law: PowerPumpLaw) -> float:
    return float((law.shut_off_head / law.coefficient) ** (1.0 / law.exponent) * law.speed)
