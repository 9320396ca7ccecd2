"""Lists of what plans take, and what other subjects found of the examples without weather."""

from __future__ import annotations

from functools import cache

from tests.journeys.flow_plans import example
from tidestead.build.lists import Line, TakenOff
from tidestead.build.takeoff.rest import Studies, rest_taken
from tidestead.plan import loads
from tidestead.plan.model import Plan
from tidestead.studies import flow, foam, light, water
from tidestead.studies.heat import yearly
from tidestead.studies.inputs import Inputs

NOTHING = Studies()


@cache
def plan_of(name: str) -> Plan:
    """An example."""
    return loads(example(name)).plan


@cache
def without_weather(name: str) -> Studies:
    """What subjects find of an example where there is no weather."""
    inputs = Inputs(plan_of(name), "metric", None, "no weather here")
    flows, lit = flow.find(inputs), light.find(inputs)
    warm = yearly.find(inputs, flows, lit)
    return Studies(water.find(inputs, flows, foam.find(inputs, flows), warm), warm, lit, flows)


@cache
def taken_of(name: str) -> TakenOff:
    """The list of an example by its plan alone."""
    return rest_taken(plan_of(name), NOTHING)


def sums(taken: TakenOff, sort: str, *, yearly: bool = False) -> dict[str, float]:
    """Likely amounts by the name of the item, of one sort."""
    found: dict[str, float] = {}
    for line in taken.lines:
        if line.item.sort == sort and line.yearly is yearly:
            found[line.item.name] = found.get(line.item.name, 0.0) + likely(line)
    return found


def likely(line: Line) -> float:
    """The likely amount of a line that has one."""
    assert line.amount is not None, line.what
    return line.amount.likely
