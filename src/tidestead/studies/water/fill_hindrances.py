"""What stands in the way of a source, or must be done with its water before animals come."""

from __future__ import annotations

from collections.abc import Iterator

from tidestead.core.units import System, show
from tidestead.studies.inputs import Inputs
from tidestead.studies.water.fill_facts import Course, SourceFill
from tidestead.studies.water.setting import Setting
from tidestead.studies.water.waters import Supply

_LITTLE = 0.05
"""Salinity off what is kept that needs nothing, psu. Own choice."""


def hindrances_of(inputs: Inputs, setting: Setting, one: SourceFill) -> Iterator[str]:
    """In the order that they are met with."""
    course = one.course
    if course is None:
        return
    system, supply, recipe = inputs.system, course.supply, course.recipe
    if course.loads > 1 and supply.every is not None:
        yield f"{course.loads} loads, one every {show(supply.every, 's', system)}"
    if course.other is not None and not course.reused:
        yield f"the test wants fresh water, which comes from {course.other.key} and is drained"
    elif supply.salty and any(one.fresh for one in course.tests):
        yield "the test wants fresh water and no source of the plan gives it in time: the test is made with this water"
    if supply.salty and abs(supply.sal_psu - setting.sal_psu) > _LITTLE:
        off = show(abs(supply.sal_psu - setting.sal_psu), "psu", system)
        yield (
            f"{off} too fresh: {show(recipe.mix.likely, 'kg', system)} of salt mix goes in"
            if recipe.mix.likely > 0.0
            else f"{off} too salty: {show(recipe.fresh, 'm3', system)} of fresh water goes in"
        )
    yield from _of_the_water(inputs, setting, course)
    if one.salted is not None and not one.salted.missing:
        yield _own_water(one.salted, course, inputs.system)


def _of_the_water(inputs: Inputs, setting: Setting, course: Course) -> Iterator[str]:
    """What it brings with it."""
    system, supply = inputs.system, course.supply
    yield from chlorine_words(supply, system)
    if supply.kind == "sea":
        yield "brings what lives and drifts in it: take it at a calm high water, let it settle, filter it"
    if supply.kind in ("mains", "well"):
        yield "what else it holds (nitrate, phosphate, copper) stays in: have it analysed first"
    if course.warming == 0.0 and supply.temp_c < setting.temp_c:
        yield f"comes at {show(supply.temp_c, 'degC', system)}, and the plan has no heater to warm it"


def chlorine_words(supply: Supply, system: System) -> Iterator[str]:
    """What has to be done about the chlorine that a source brings; nothing where it brings none."""
    if supply.chlorine_left:
        level = show(1000.0 * supply.chlorine_left, "mg/L", system)
        yield f"{level} of chlorine to be gone before animals come: carbon, or days of stirring and a test strip"
    if supply.chlorine is None and (supply.carbon or supply.thiosulfate):
        yield (
            "what its carbon and thiosulfate take is not known: write what a strip shows ahead of them, "
            f"sources.{supply.key}.chlorine"
        )


def _own_water(salted: SourceFill, course: Course, system: System) -> str:
    """What a test with the salt water itself would come to."""
    words = (
        f'tested with its own water (vessels.{course.tests[0].vessel}.test.water = "seawater") it would be salted and '
        f"warm after {show(salted.filled, 's', system)}"
    )
    total = None if salted.cost is None else salted.cost.total
    if total is None or salted.cost is None:
        return words
    return f"{words}, for {show(total.likely, salted.cost.currency, system)}"
