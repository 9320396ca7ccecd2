"""Curves: the pump against the system, levels against time after a power stop."""

from __future__ import annotations

from tidestead.core.answer import Series
from tidestead.plan.model import Plan
from tidestead.studies.flow.facts import FlowFacts
from tidestead.studies.flow.heights import floor_of
from tidestead.studies.flow.stop_drawing import shown_courses


def series_of(plan: Plan, facts: FlowFacts) -> tuple[Series, ...]:
    """Every curve."""
    found: list[Series] = []
    for pump in facts.pumps:
        for name, words, points in (
            ("curve", f"pump {pump.name}: head it gives", pump.curve),
            ("system", f"pump {pump.name}: head the lines take", pump.system),
        ):
            if len(points) > 1:
                flows, heads = zip(*points, strict=True)
                found.append(
                    Series(f"flow.pumps.{pump.name}.{name}", words, "flow", "m3/s", "m", flows, heads)
                )
    for stop in facts.stops:
        for number, course in enumerate(shown_courses(stop)):
            for key, levels in course.levels.items():
                floor = floor_of(plan.vessels[key])
                found.append(
                    Series(
                        f"flow.stop.{number}.{key}",
                        f"power stop, {course.name}: depth in {key}",
                        "time",
                        "s",
                        "m",
                        course.times,
                        tuple(level - floor for level in levels),
                    )
                )
    return tuple(found)
