"""A drawing of a power stop: the level of every vessel against time, one strip under the other."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from tidestead.core.scene import Note, Point, Scene, Shape, Stroke, Stuff
from tidestead.core.units import System, show
from tidestead.plan.model import Plan
from tidestead.studies.flow.courses import Course
from tidestead.studies.flow.facts import FlowFacts
from tidestead.studies.flow.heights import brim_of, floor_of
from tidestead.studies.flow.stops import StopFacts

POINTS = 49
"""Times at which a course is read off."""

_SHOWN_OVER = 1.3
"""The time axis goes on for so many times the time at which the sump is highest."""

_TICK = (15.0, 30.0, 60.0, 120.0, 180.0, 300.0, 600.0, 900.0, 1800.0, 3600.0, 7200.0, 10800.0, 21600.0)
_TICKS = 4
"""Seconds between two times on the axis, and how many such steps it has."""

_WIDE, _HIGH, _GAP, _ASIDE, _UNDER = 2.4, 0.5, 0.28, 0.06, 0.16
"""Metres of the drawing: a strip, what lies between two, how far words stand off, and times under the axis."""

_OVER = 0.12
"""Metres from the top of a strip to its name."""

_NEAR = 1.5
"""A brim that is no further over the highest level than so many times what the level moves is drawn to scale."""

_STUFFS: tuple[Stuff, Stuff, Stuff] = ("solid", "dashed", "dotted")
"""How the courses are drawn, in their order."""

_FLAT = 5e-4
"""A vessel that moves less, metres, has no strip."""


def shown_until(stop: StopFacts) -> float:
    """Where the time axis ends: a while after the sump is highest, in the slower of the courses, at a round time."""
    latest = max((course.time_highest(stop.sump) for course in stop.courses), default=0.0)
    step = next((one for one in _TICK if _TICKS * one >= _SHOWN_OVER * latest), _TICK[-1])
    return _TICKS * step


def shown_courses(stop: StopFacts) -> tuple[Course, ...]:
    """The courses at even times, as far as they are shown."""
    return tuple(course.at_even_times(POINTS, shown_until(stop)) for course in stop.courses)


@dataclass(frozen=True)
class _Strip:
    """One vessel's strip: its lower left corner, the levels at its foot and head, the time at its right end."""

    foot: float
    low: float
    high: float
    until: float

    def at(self, time: float, level: float) -> Point:
        return _WIDE * time / self.until, self.foot + _HIGH * (level - self.low) / (self.high - self.low)


def stop_scenes(plan: Plan, facts: FlowFacts, system: System) -> tuple[Scene, ...]:
    """The drawing of every sump's water, where levels against time are known."""
    return tuple(one for stop in facts.stops for one in _scene(plan, stop, facts.stops, system))


def _scene(plan: Plan, stop: StopFacts, among: Sequence[StopFacts], system: System) -> tuple[Scene, ...]:
    if not stop.courses:
        return ()
    courses, until = shown_courses(stop), shown_until(stop)
    moving = [key for key in courses[0].levels if _swing(courses, key) > _FLAT]
    shapes: list[Shape] = []
    for number, key in enumerate(moving):
        shapes += _strip(plan, courses, key, (-number * (_HIGH + _GAP), until), system)
    if not shapes:
        return ()
    foot = -(len(moving) - 1) * (_HIGH + _GAP) - _UNDER
    shapes += [
        Note((_WIDE * number / _TICKS, foot), show(until * number / _TICKS, "s", system, "", (until,)))
        for number in range(_TICKS + 1)
    ]
    shapes += [
        Note((_WIDE / 2.0, foot - _UNDER * (2.0 * number + 0.3)), f"{name}: as {other}")
        for number, (name, other) in enumerate(stop.alike.items(), start=1)
    ]
    return (
        Scene(
            stop.ident("flow.stop", among),
            stop.titled("Power stop: levels against time", among),
            _told(plan, stop, courses, system),
            tuple(shapes),
        ),
    )


def _swing(courses: tuple[Course, ...], key: str) -> float:
    levels = [level for course in courses for level in course.levels[key]]
    return max(levels) - min(levels)


def _strip(
    plan: Plan, courses: tuple[Course, ...], key: str, place: tuple[float, float], system: System
) -> list[Shape]:
    """Frame, brim where it is near, one line for each course, depths at foot and head."""
    foot, until = place
    levels = [level for course in courses for level in course.levels[key]]
    low, high, brim = min(levels), max(levels), brim_of(plan.vessels[key])
    near = brim - high < _NEAR * (high - low)
    strip = _Strip(foot, low, max(high, brim) if near else high, until)
    right, top = strip.at(until, strip.high)
    shapes: list[Shape] = [
        Stroke(((0.0, top), (0.0, foot), (right, foot)), "outline", key),
        Note((0.4 * _WIDE, top + _OVER), f"depth in {key}", key),
    ]
    shapes += [
        Note((-_ASIDE, strip.at(0.0, mark)[1]), _depth(plan, key, mark, system), key) for mark in (low, high)
    ]
    words = f"brim {'' if near else 'higher, '}{_depth(plan, key, brim, system)}"
    shapes.append(Note((0.86 * _WIDE, top + _OVER), words, key))
    if near:
        shapes.append(Stroke((strip.at(0.0, brim), strip.at(until, brim)), "outline", key))
    for course, stuff in zip(courses, _STUFFS, strict=False):
        points = tuple(strip.at(*at) for at in zip(course.times, course.levels[key], strict=True))
        shapes.append(Stroke(points, stuff, key, course.name))
    return shapes


def _told(plan: Plan, stop: StopFacts, courses: tuple[Course, ...], system: System) -> str:
    """The same in words."""
    parts = []
    for course, whole in zip(courses, stop.courses, strict=True):
        ends = "; ".join(
            f"{key} {_depth(plan, key, levels[0], system)} to {_depth(plan, key, whole.levels[key][-1], system)}"
            for key, levels in _moving(course.levels).items()
        )
        when = show(whole.time_highest(stop.sump), "s", system)
        parts.append(f"{course.name}: {ends}; {stop.sump} is highest after {when}")
    parts += [f"{name}: as with {other}" for name, other in stop.alike.items()]
    return (
        "Depths from the stop until they rest. " + ". ".join(one[0].upper() + one[1:] for one in parts) + "."
    )


def _moving(levels: Mapping[str, tuple[float, ...]]) -> dict[str, tuple[float, ...]]:
    return {key: one for key, one in levels.items() if max(one) - min(one) > _FLAT}


def _depth(plan: Plan, key: str, level: float, system: System) -> str:
    return show(level - floor_of(plan.vessels[key]), "m", system, "bow")
