"""The steps of the first fill in time: water for the tests, the tests, the rest, salt, warmth, the filter."""

from __future__ import annotations

import math

from tidestead.core.answer import Estimate
from tidestead.physics.structure.filling import HOLD_BETWEEN, SHARES
from tidestead.plan.model import Plan
from tidestead.studies.water.batches import no_time
from tidestead.studies.water.fill_facts import Course, FillStep, Test
from tidestead.studies.water.waters import DAY, Recipe, Supply, supplies_of

_HOUR = 3600.0
_HOLDS = HOLD_BETWEEN * (len(SHARES) - 1) * _HOUR
_WHOLE = 1e-9


def course_of(
    plan: Plan, supply: Supply, recipe: Recipe, tests: tuple[Test, ...], lasts: tuple[float, float]
) -> Course:
    """Tests that ask for fresh water use another source where this one is salty; their water is then drained."""
    fresh = bool(tests) and all(one.fresh for one in tests)
    tested = sum(one.volume for one in tests)
    other = _quickest_fresh(plan, tested + recipe.fresh) if supply.salty else None
    apart = fresh and supply.salty and other is not None
    water = recipe.source if apart else max(recipe.source, tested)
    other_water = recipe.fresh + (tested if apart else 0.0)
    pump = None if plan.changes is None or plan.changes.pump is None else float(plan.changes.pump)
    return Course(
        supply,
        recipe,
        tests,
        water,
        0 if not supply.load else math.ceil(water / supply.load - _WHOLE),
        other if other_water > 0.0 else None,
        other_water,
        not apart,
        tested / pump if apart and pump is not None else 0.0,
        lasts[0] if recipe.mix.high > 0.0 or recipe.fresh > 0.0 else 0.0,
        lasts[1],
    )


def time_for(supply: Supply, volume: float) -> float | None:
    """Seconds until so much of a source's water is there, from when it begins; None where the plan does not say."""
    if volume <= 0.0:
        return 0.0
    running = 0.0 if supply.flow is None else volume / supply.flow
    if supply.kind == "tanker" or (supply.flow is None and supply.load):
        if not supply.load:
            return None
        waits = math.ceil(volume / supply.load - _WHOLE) - 1
        if waits > 0 and supply.every is None:
            return None
        return waits * (supply.every or 0.0) + running
    return None if supply.flow is None else running


def paid_water(supply: Supply, volume: float) -> float:
    """What is paid of a source for so much of its water: whole loads where it comes by the load."""
    if not supply.load or supply.kind != "tanker":
        return volume
    return supply.load * math.ceil(volume / supply.load - _WHOLE)


def no_timetable(course: Course) -> str:
    """What to write so that there is one; empty where there is."""
    supply = course.supply
    if time_for(supply, course.water) is not None:
        other = course.other
        if other is None or time_for(other, course.other_water) is not None:
            return ""
        return f"the fresh water from {other.key} has no time: {no_time(other)}"
    if supply.kind == "tanker":
        return f"write sources.{supply.key}.load and every: what comes at a time, and how often"
    return no_time(supply)


def schedule(course: Course, cycling: Estimate | None) -> tuple[FillStep, ...]:
    """In order. `cycling` is in days."""
    steps: list[FillStep] = []
    now = _test_steps(course, steps)
    now = _rest_steps(course, steps, now)
    begin = now
    if course.stirring > 0.0:
        steps.append(FillStep(_stirred(course), begin, begin + course.stirring))
        now = max(now, begin + course.stirring)
    if course.warming > 0.0:
        steps.append(FillStep("warm it with the plan's heaters", begin, begin + course.warming))
        now = max(now, begin + course.warming)
    if cycling is not None:
        steps.append(FillStep("the filter grows, likely", now, now + cycling.likely * DAY))
    return tuple(steps)


def _stirred(course: Course) -> str:
    if course.recipe.fresh > 0.0:
        return "thin it with fresh water and stir"
    return "salt it and stir" if course.supply.sal_psu == 0.0 else "make up its salt and stir"


def _test_steps(course: Course, steps: list[FillStep]) -> float:
    """Fill by quarters with a hold at each, stand full, drain where the water is not kept."""
    if not course.tests:
        return 0.0
    source = course.supply if course.reused else course.other
    if source is None:
        return 0.0
    names = ", ".join(one.vessel for one in course.tests)
    filled = (time_for(source, course.tested) or 0.0) + _HOLDS
    steps.append(FillStep(f"fill {names} by quarters from {source.key}, a day's hold at each", 0.0, filled))
    stands = filled + max(one.lasts for one in course.tests)
    steps.append(FillStep("stand full and measure", filled, stands))
    if course.draining > 0.0:
        steps.append(FillStep("drain the test water", stands, stands + course.draining))
    return stands + course.draining


def _rest_steps(course: Course, steps: list[FillStep], now: float) -> float:
    """What is still to come of the source; loads of a tanker have gone on coming meanwhile."""
    supply = course.supply
    there = course.tested if course.reused and course.tests else 0.0
    rest = max(course.water - there, 0.0)
    key = supply.key
    if rest > 0.0:
        if there > 0.0 and supply.load:
            end = max(now, time_for(supply, course.water) or 0.0)
        else:
            end = now + (time_for(supply, rest) or 0.0)
        words = f"fill the rest from {key}" if there > 0.0 else f"fill from {key}"
        steps.append(FillStep(words, now, end))
        now = end
    if course.recipe.fresh > 0.0 and course.other is not None:
        end = now + (time_for(course.other, course.recipe.fresh) or 0.0)
        steps.append(FillStep(f"fresh water from {course.other.key}", now, end))
        now = end
    return now


def _quickest_fresh(plan: Plan, volume: float) -> Supply | None:
    """The fresh source that has so much water there first."""
    found = [
        (time, one)
        for one in supplies_of(plan).values()
        if not one.salty and (time := time_for(one, volume)) is not None
    ]
    return min(found, key=lambda pair: pair[0], default=(0.0, None))[1]
