"""Levels against time after the pumps stop, by the same ways by which the run-back is counted."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from tidestead.core.dims import G
from tidestead.core.kept import kept
from tidestead.physics.flow.draining import Basin, driven_flow
from tidestead.physics.flow.fittings import gathered
from tidestead.physics.flow.levels import LevelCourse, Spill, level_course
from tidestead.physics.flow.pipes import pipe_area
from tidestead.physics.flow.runback import Guards
from tidestead.physics.flow.webs import Pipe, PipeEnd, pipe_flows
from tidestead.plan.model import Plan, Vessel
from tidestead.studies.flow.facts import Line
from tidestead.studies.flow.heights import brim_of, floor_of
from tidestead.studies.flow.ways_down import LineEnd, StillLine
from tidestead.studies.vessels import plan_area

LONGEST = 12.0 * 3600.0
"""Seconds after which a course is left as it is."""

STILL = 2e-7
"""Speed of the fastest level at which a course has come to rest, metres a second: 0.7 mm an hour."""

_TYPICAL = 0.5
"""Metres of head at which the losses of a line are taken; elsewhere they go with the square of the flow."""

_FLOOR, _FILM = 1e4, 1e-3
"""Square metres that water spreads over once a vessel spills, and metres of rise in which it comes to that."""

_REACHED = 0.99
"""Share of its rise at which the sump counts as highest."""


@dataclass(frozen=True)
class Course:
    """Levels of vessels against time, seconds and metres above the datum."""

    name: str
    times: tuple[float, ...]
    levels: Mapping[str, tuple[float, ...]]

    def time_highest(self, key: str) -> float:
        """When a vessel has all but come to its highest."""
        levels = np.array(self.levels[key])
        wanted = levels[0] + _REACHED * (levels.max() - levels[0])
        return self.times[int(np.argmax(levels >= wanted))]

    def apart(self, other: Course) -> float:
        """The most by which a level of one lies off that of the other at any time."""
        times = np.union1d(self.times, other.times)
        return max(
            float(
                np.abs(
                    np.interp(times, self.times, levels) - np.interp(times, other.times, other.levels[key])
                ).max()
            )
            for key, levels in self.levels.items()
        )

    def at_even_times(self, count: int, until: float) -> Course:
        """The same read off at times that are evenly apart, from the stop on; after its end all is at rest."""
        times = np.linspace(0.0, until, count)
        read = {key: tuple(np.interp(times, self.times, one).tolist()) for key, one in self.levels.items()}
        return Course(self.name, tuple(times.tolist()), read)


@dataclass(frozen=True)
class Basins:
    """Vessels and junctions by place, vessels first, with the levels of the vessels."""

    levels: Mapping[str, float]
    still: tuple[StillLine, ...]

    @property
    def places(self) -> dict[str, int]:
        """Place of every vessel and junction."""
        names = [*self.levels]
        names += [end.place for one in self.still for end in (one.start, one.end)]
        return {name: at for at, name in enumerate(dict.fromkeys(names))}

    def ways(self, guards: Guards) -> tuple[Spill | Pipe, ...]:
        """Every line as something that spills, or as a full pipe."""
        places = self.places
        found: list[Spill | Pipe] = []
        for one in self.still:
            first = one.line.links[0]
            if first.over is not None and one.start.place in self.levels:
                crest = max(first.crest, *one.lips, one.end.edge)
                found.append(Spill(places[one.start.place], places[one.end.place], crest, first.over))
            elif (pipe := self._pipe(one, places, guards)) is not None:
                found.append(pipe)
        return tuple(found)

    def _pipe(self, one: StillLine, places: Mapping[str, int], guards: Guards) -> Pipe | None:
        lost = self._lost[one.line.key]
        if lost is None:
            return None
        start, end = (
            PipeEnd(places[side.place], side.bare(guards.breaks_work), _mouth(side, one))
            for side in (one.start, one.end)
        )
        return Pipe(start, end, _TYPICAL, lost, one.line.one_way and guards.checks_hold)

    @cached_property
    def _lost(self) -> dict[str, float | None]:
        """By line the flow at which it loses a typical head."""
        return {one.line.key: loss_at(one.line, _TYPICAL) for one in self.still}

    def flow_out(self, name: str) -> float:
        """The most that runs out of a vessel through the mouth at a port, with no guard at work."""
        ways = self.ways(Guards(checks_hold=False, breaks_work=False))
        pipes = [way for way in ways if isinstance(way, Pipe)]
        piped = [one for one in self.still if self._is_pipe(one)]
        flows = pipe_flows(list(self.levels.values()), pipes)
        out = [0.0]
        for one, flow in zip(piped, flows, strict=True):
            out += [float(flow)] if one.line.circuit.start == name else []
            out += [-float(flow)] if one.line.circuit.end == name else []
        return max(out)

    def _is_pipe(self, one: StillLine) -> bool:
        first = one.line.links[0]
        spills = first.over is not None and one.start.place in self.levels
        return not spills and self._lost[one.line.key] is not None


def _mouth(side: LineEnd, one: StillLine) -> float:
    """Level to which water has to rise at an end to come out of it."""
    return max([side.edge, *one.lips])


def _over_its_brim(vessel: Vessel) -> Basin:
    """A vessel as water sees it, and over its brim the floor of the room, which it does not fill."""
    floor, brim, area = floor_of(vessel), brim_of(vessel), plan_area(vessel)
    return Basin((floor, brim, brim + _FILM, brim + 1.0), (area, area, _FLOOR, _FLOOR))


def run_of(plan: Plan, basins: Basins, ways: tuple[Spill | Pipe, ...]) -> LevelCourse:
    """Levels until they rest. Raises SolverError where the steps do not come to the end."""
    shapes = [_over_its_brim(plan.vessels[key]) for key in basins.levels]
    return _levels(tuple(shapes), tuple(basins.levels.values()), ways)


def course_of(basins: Basins, run: LevelCourse, name: str) -> Course:
    """The levels of vessels by their keys."""
    by_key = {key: tuple(run.levels[:, at].tolist()) for at, key in enumerate(basins.levels)}
    return Course(name, tuple(run.times.tolist()), by_key)


@kept(at_most=32)
def _levels(
    shapes: tuple[Basin, ...], start: tuple[float, ...], ways: tuple[Spill | Pipe, ...]
) -> LevelCourse:
    return level_course(shapes, start, ways, LONGEST, STILL)


def loss_at(line: Line, head: float) -> float | None:
    """Flow at which a line loses a head, pump and check valves open; None where it has no pipe at all."""
    laws = [run.law for run in line.runs if run.item.kind != "pump" and not run.checks]
    bore = line.bore or max((run.bore for run in line.runs), default=0.0)
    if bore <= 0.0:
        return None
    most = float(pipe_area(bore)) * (2.0 * G * head) ** 0.5
    whole = gathered(laws)
    return most if whole.at(most).head <= head else driven_flow(whole, head)
