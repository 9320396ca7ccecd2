"""When the power stops: what runs back, with every guard working and with one failed; and the start after it."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from tidestead.core.errors import ImpossibleInput, SolverError
from tidestead.physics.flow import runback, surge
from tidestead.physics.flow.levels import LevelCourse, Spill
from tidestead.physics.flow.webs import Pipe
from tidestead.plan.model import Plan
from tidestead.studies.flow.breaks import BreakFacts, break_facts
from tidestead.studies.flow.courses import Basins, Course, course_of, run_of
from tidestead.studies.flow.drains import DrainFacts
from tidestead.studies.flow.facts import Line, Running
from tidestead.studies.flow.gravity import drawn_through, gravity_lines
from tidestead.studies.flow.heights import basin_of, brim_of, brimful_basin, floor_of, port_of
from tidestead.studies.flow.lines import falls_free
from tidestead.studies.flow.solving import highest_levels
from tidestead.studies.flow.ways_down import StillLine, held_of, still_lines, unsaid_of, ways_of
from tidestead.studies.vessels import plan_area

PRIMING = 60.0
"""Seconds for which a siphon is taken to carry nothing after a start, where no other drain tells how far the water
rises before it. Common practice, no source."""

WORKING = "every guard working"

_ALIKE = 1e-3
"""Metres: courses that are nowhere further apart are drawn once."""


@dataclass(frozen=True)
class Peak:
    """The highest that a vessel above the sump comes to after a stop, by which failure, and its brim."""

    level: float
    case: str
    brim: float
    before: float


@dataclass(frozen=True)
class Fresh:
    """A float valve: its stock in m3, endless where it is not known, and the level at which it shuts."""

    stock: float
    level: float


@dataclass(frozen=True)
class StopFacts:
    """A power stop. `free` is the room of the sump; `missing` says why nothing could be reckoned.

    `start` is the sump at its lowest after a start, `rise` how far each vessel with a siphon rises meanwhile.
    `courses` are those with all guards working, with the worst single failure, and any other that runs
    otherwise; `peaks` hold for each single one.
    `bare` are outlets under water, fed by a pump, that have no siphon break.
    `unsaid` is apparatus of which nobody says what it holds. `fresh` are float valves outside the sump, by
    vessel.
    `alike` names failures that run as a course that is there. `unsteady` says why levels against time are not known.
    """

    sump: str = ""
    stop: runback.PowerStop | None = None
    vessels: tuple[str, ...] = ()
    cases: runback.RunbackCases | None = None
    free: float = 0.0
    breaks: tuple[BreakFacts, ...] = ()
    courses: tuple[Course, ...] = ()
    peaks: Mapping[str, Peak] | None = None
    start: surge.StartSurge | None = None
    suction: float | None = None
    rise: Mapping[str, float] | None = None
    missing: str = ""
    unsteady: str = ""
    alike: Mapping[str, str] = field(default_factory=dict)
    bare: tuple[str, ...] = ()
    unsaid: tuple[str, ...] = ()
    fresh: Mapping[str, Fresh] = field(default_factory=dict)

    def ident(self, name: str, among: Sequence[StopFacts]) -> str:
        """A name for this stop: with its sump where the plan has several waters apart from each other."""
        return name if len(among) < 2 or not self.sump else f"{name}.{self.sump}"

    def titled(self, words: str, among: Sequence[StopFacts]) -> str:
        """The same in words."""
        return words if len(among) < 2 or not self.sump else f"{words}, {self.sump}"


@dataclass(frozen=True)
class Stopped:
    """What a power stop is found from."""

    plan: Plan
    lines: tuple[Line, ...]
    running: Running
    drains: Sequence[DrainFacts]
    density: float


def stop_facts(setting: Stopped, fixed: Mapping[str, float]) -> StopFacts:
    """The stop of all pumps at once."""
    plan, running = setting.plan, setting.running
    if len(fixed) != 1:
        names = " and ".join(fixed) or "no vessel"
        return StopFacts(
            missing=f"{names} would be the sump of one water: what runs back to which cannot be told. Part their "
            'lines, or give role = "sump" to one of them only'
        )
    ((sump, level),) = fixed.items()
    level = highest_levels(plan, {sump: level})[sump]
    if level > brim_of(plan.vessels[sump]):
        return StopFacts(missing=f"{sump} runs above its brim")
    levels = {sump: level} | {key: _within(plan, key, running) for key in running.levels if key != sump}
    still = still_lines(plan, setting.lines, running)
    breaks = break_facts(plan, still, levels, running, setting.density)
    small = {one.name for one in breaks if not one.works}
    still = still_lines(plan, setting.lines, running, small)
    stop = _power_stop(plan, still, levels, sump, running)
    cases = runback.runback_cases(stop)
    rise = _rises(setting, sump)
    basin = stop.vessels[sump].basin
    basins = Basins(levels, still)
    found, worst, unsteady = _in_time(plan, basins, cases)
    courses, alike = _told_apart(found, worst) if found else ((), {})
    return StopFacts(
        sump,
        stop,
        tuple(key for key in levels if key != sump),
        cases,
        float(runback.free_volume(basin, level)),
        breaks,
        courses,
        _peaks(plan, basins, tuple(found.values())) if found else {},
        _start(plan, sump, fixed[sump], rise),
        highest_suction(plan, setting.lines, sump),
        rise,
        unsteady=unsteady,
        bare=_bare_outlets(setting, sump),
        unsaid=unsaid_of(plan, setting.lines, running),
        fresh=_fresh(plan, levels, sump),
        alike=alike,
    )


def _bare_outlets(setting: Stopped, sump: str) -> tuple[str, ...]:
    """Outlets under water above the sump that no siphon break guards."""
    found = []
    for line in setting.lines:
        end, start = port_of(setting.plan, line.circuit.end), port_of(setting.plan, line.circuit.start)
        driven = line.pump is not None or start is None
        if end is None or end[0] == sump or not driven or falls_free(end[1], end[2]):
            continue
        if end[2].siphon_break is None:
            found.append(line.circuit.end)
    return tuple(found)


def _fresh(plan: Plan, levels: Mapping[str, float], sump: str) -> dict[str, Fresh]:
    """What float valves outside the sump may let in: one opens as its vessel sinks, and runs on as that runs out."""
    return {
        key: Fresh(
            math.inf if valve.stock is None else valve.stock, floor_of(plan.vessels[key]) + valve.level
        )
        for key in levels
        if key != sump and (valve := plan.vessels[key].top_off) is not None
    }


def _within(plan: Plan, key: str, running: Running) -> float:
    basin = basin_of(plan.vessels[key])
    return min(max(running.levels[key], basin.floor), basin.brim)


def highest_suction(plan: Plan, lines: tuple[Line, ...], sump: str) -> float | None:
    """The highest of a sump's mouths that pumps draw from: the first to draw air."""
    drawn = [one for line in lines if line.pump is not None for one in drawn_through(plan, lines, line)]
    levels = [
        line.start_level
        for line in drawn
        if line.start_level is not None and line.circuit.start.partition(".")[0] == sump
    ]
    return max(levels, default=None)


def rest_of(plan: Plan, line: Line) -> float:
    """Level down to which a gravity line empties its vessel for certain: its mouth, its break, or the lip it passes."""
    start = port_of(plan, line.circuit.start)
    mouth = line.start_level if line.start_level is not None else float("-inf")
    if start is None:
        return mouth
    breaks = start[2].siphon_break
    if breaks is not None:
        mouth = max(mouth, floor_of(start[1]) + breaks.level)
    return max([mouth, *line.lips])


def _power_stop(
    plan: Plan, still: tuple[StillLine, ...], levels: Mapping[str, float], sump: str, running: Running
) -> runback.PowerStop:
    vessels = {
        key: runback.Standing((brimful_basin if key == sump else basin_of)(plan.vessels[key]), level)
        for key, level in levels.items()
    }
    return runback.PowerStop(vessels, ways_of(still), held_of(still, running), sump)


def _start(plan: Plan, sump: str, level: float, rise: Mapping[str, float]) -> surge.StartSurge:
    """The sump while everything it must send up waits before the siphons."""
    waiting = sum(height * plan_area(plan.vessels[key]) for key, height in rise.items())
    area = plan_area(plan.vessels[sump])
    return surge.start_surge(waiting / area, area, brimful_basin(plan.vessels[sump]), level)


def _rises(setting: Stopped, sump: str) -> dict[str, float]:
    """How far vessels rise at a start until their siphons carry: to where the other ways take all of it."""
    plan, running = setting.plan, setting.running
    blocked = {drain.vessel: drain.blocked for drain in setting.drains}
    found = {}
    for key, level in running.levels.items():
        ways = gravity_lines(plan, setting.lines, key) if key != sump else ()
        slow = [way for way in ways if _is_siphon(plan, way)]
        if not slow:
            continue
        levels = [blocked.get(key, {}).get(way.key) for way in slow]
        known = [one for one in levels if one is not None and math.isfinite(one)]
        if len(slow) == 1 and known:
            found[key] = max(known[0] - level, 0.0)
            continue
        area = plan_area(plan.vessels[key])
        found[key] = float(surge.waiting_rise(running.inflow[key], 0.0, area, PRIMING))
    return found


def _is_siphon(plan: Plan, line: Line) -> bool:
    start = port_of(plan, line.circuit.start)
    return start is not None and start[2].kind == "siphon"


def _in_time(plan: Plan, basins: Basins, cases: runback.RunbackCases) -> tuple[dict[str, Course], str, str]:
    """The course with every guard working and with each failed, and the worst of these; or why none is known."""
    failures = {
        WORKING: (runback.Guards(), cases.working),
        "siphon breaks blocked": (runback.Guards(breaks_work=False), cases.break_blocked),
        "check valves failed": (runback.Guards(checks_hold=False), cases.check_failed),
    }
    found: dict[str, Course] = {}
    runs: list[tuple[tuple[Spill | Pipe, ...], LevelCourse]] = []
    try:
        for name, (guards, _) in failures.items():
            ways = basins.ways(guards)
            known = next((run for before, run in runs if run.is_of(before, ways)), None)
            run = known if known is not None else run_of(plan, basins, ways)
            runs.append((ways, run))
            found[name] = course_of(basins, run, name)
    except (SolverError, ImpossibleInput) as error:
        return {}, "", str(error)
    worst = max([name for name in failures if name != WORKING], key=lambda name: failures[name][1].total)
    return found, worst, ""


def _told_apart(found: Mapping[str, Course], worst: str) -> tuple[tuple[Course, ...], dict[str, str]]:
    """The courses that are drawn, and the failures that run as one of these."""
    drawn, alike = [found[WORKING], found[worst]], {}
    for name, course in found.items():
        if name in (WORKING, worst):
            continue
        same = next((one.name for one in drawn if course.apart(one) < _ALIKE), None)
        if same is None:
            drawn.append(course)
        else:
            alike[name] = same
    return tuple(drawn), alike


def _peaks(plan: Plan, basins: Basins, courses: tuple[Course, ...]) -> dict[str, Peak]:
    found = {}
    for key, before in list(basins.levels.items())[1:]:
        highest = max(courses, key=lambda course: max(course.levels[key]))
        found[key] = Peak(max(highest.levels[key]), highest.name, brim_of(plan.vessels[key]), before)
    return found
