"""The first fill as one timetable: water, tests, salt, warmth, cycling; every source of the plan side by side."""

from __future__ import annotations

from dataclasses import replace

from tidestead.core.answer import Estimate
from tidestead.core.source import YOURS
from tidestead.physics.structure.filling import HOLD_FULL
from tidestead.physics.water import changes as laws
from tidestead.physics.water.salts import Body
from tidestead.plan.model import Plan
from tidestead.studies.checks import At, unproven
from tidestead.studies.heat.wording import price_of_heat
from tidestead.studies.inputs import Inputs
from tidestead.studies.judged import Judged
from tidestead.studies.vessels import plan_area
from tidestead.studies.water.costs import JOULE_KWH, Cost, cost_of
from tidestead.studies.water.fill_facts import Course, FillingFacts, SourceFill, Test
from tidestead.studies.water.fill_steps import course_of, no_timetable, paid_water, schedule
from tidestead.studies.water.filling_told import (
    assumptions_of,
    cautions_of,
    charts_of,
    figures_of,
    tables_of,
    told_of,
    workings_of,
)
from tidestead.studies.water.rounds import stirring_of
from tidestead.studies.water.salting import NO_SOURCE, impossible
from tidestead.studies.water.section import Section
from tidestead.studies.water.setting import Setting
from tidestead.studies.water.waters import Supply, factor_of, recipe_of, supplies_of

AT = At("fill", "first fill", "water", "sources")
_HOUR = 3600.0
_PAST = ("filled", "stocked")


def filling_of(inputs: Inputs, setting: Setting, cycling_days: Estimate | None = None) -> FillingFacts:
    """Every source of the plan; `cycling_days` as the filter's growth has them, in days."""
    plan = inputs.plan
    factor, _ = factor_of(plan)
    supplies = supplies_of(plan)
    display = plan.vessels.get(setting.display)
    past = display is not None and display.stage in _PAST
    missing = impossible(factor, setting) or ("" if supplies else NO_SOURCE)
    if missing:
        return FillingFacts(missing, past)
    tests, untested = _tests(plan, setting)
    power = sum(
        float(one.power) * one.count for one in plan.heaters.values() if one.vessel in setting.volumes
    )
    fills = tuple(_fill(inputs, setting, one, (tests, power, cycling_days)) for one in supplies.values())
    return FillingFacts("", past, tests, untested, fills, power, cycling_days)


def _tests(plan: Plan, setting: Setting) -> tuple[tuple[Test, ...], tuple[str, ...]]:
    """Tests of the vessels that the builder makes, and those that have none."""
    tests, without = [], []
    for key in setting.volumes:
        vessel = plan.vessels.get(key)
        if vessel is None or vessel.made == "bought":
            continue
        if vessel.test.level is None:
            without.append(key)
            continue
        lasts = vessel.test.lasts
        stands = HOLD_FULL * _HOUR if lasts is None else float(lasts)
        volume = plan_area(vessel) * float(vessel.test.level)
        tests.append(Test(key, volume, stands, vessel.test.water == "fresh", lasts is not None))
    return tuple(tests), tuple(without)


def _fill(
    inputs: Inputs, setting: Setting, supply: Supply, given: tuple[tuple[Test, ...], float, Estimate | None]
) -> SourceFill:
    """The timetable of one source, its money and what hinders."""
    plan, (tests, power, cycling) = inputs.plan, given
    factor, _ = factor_of(plan)
    goal = Body(setting.volume, setting.sal_psu, setting.temp_c)
    recipe = recipe_of(goal, supply, factor)
    cold = Body(setting.volume, setting.sal_psu, supply.temp_c)
    heat = laws.heat_to_warm(cold, setting.temp_c) if power > 0.0 else 0.0
    warming = laws.hours_to_warm(cold, setting.temp_c, power) * _HOUR if power > 0.0 else 0.0
    course = course_of(plan, supply, recipe, tests, (stirring_of(plan.changes), warming))
    missing = no_timetable(course)
    cost = _cost(plan, course, heat)
    if missing:
        return SourceFill(supply, missing, recipe, heat=heat, cost=cost)
    steps = schedule(course, cycling)
    filled = max((one.end for one in schedule(course, None)), default=0.0)
    ready = None if cycling is None else _after(filled, cycling)
    salted = None if course.reused else _salted(inputs, setting, supply, given)
    return SourceFill(
        supply, "", recipe, steps, course.water, course.loads, heat, filled, ready, cost, course, salted
    )


def _salted(
    inputs: Inputs, setting: Setting, supply: Supply, given: tuple[tuple[Test, ...], float, Estimate | None]
) -> SourceFill:
    """The same with the salt water itself for the tests."""
    tests, power, cycling = given
    return _fill(inputs, setting, supply, (tuple(replace(one, fresh=False) for one in tests), power, cycling))


def _after(filled: float, cycling: Estimate) -> Estimate:
    low, likely, high = (filled + 24.0 * _HOUR * one for one in (cycling.low, cycling.likely, cycling.high))
    return Estimate(low, likely, high, cycling.basis)


def _cost(plan: Plan, course: Course, heat: float) -> Cost:
    """Salt, water of both sources that are used, heat at what the heaters burn. A tanker's load is paid whole."""
    supply, other, price = course.supply, course.other, price_of_heat(plan)
    cost = cost_of(
        plan,
        supply,
        course.recipe,
        0.0,
        supply.taken(paid_water(supply, course.water) - course.recipe.source),
    )
    water, unpriced = cost.water, cost.unpriced
    if other is not None and other.price is not None:
        taken = other.taken(paid_water(other, course.other_water))
        water = (water or 0.0) + taken * float(other.price.amount)
    elif other is not None and course.other_water > 0.0:
        unpriced = (*unpriced, f"sources.{other.key}.price")
    energy = None if price is None else heat / JOULE_KWH * float(price[0])
    if price is None and heat > 0.0:
        unpriced = (*unpriced, "supplies.tariff")
    return replace(cost, water=water, energy=energy, unpriced=unpriced)


def filling_section(inputs: Inputs, setting: Setting, facts: FillingFacts) -> Section:
    """A timetable for each source, the comparison, what is cheapest and quickest."""
    why = facts.missing
    if not why and not facts.told:
        why = "; ".join(dict.fromkeys(one.missing for one in facts.fills))
    if why and facts.past:
        return Section()
    if why:
        return Section(
            (Judged(unproven(AT, "time", "time until fish may come", "s", why, YOURS), by_level=False),)
        )
    return Section(
        (),
        tuple(figures_of(facts)),
        tuple(tables_of(inputs, setting, facts)),
        tuple(charts_of(inputs, facts)),
        tuple(assumptions_of(inputs, facts)),
        tuple(workings_of(setting, facts)),
        tuple(cautions_of(inputs, facts)),
        () if facts.past else tuple(told_of(inputs, facts)),
    )
