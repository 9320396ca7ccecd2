"""Plans as the cost study sees them: the examples with rows of their price books changed, and what is told of them."""

from __future__ import annotations

import re
from datetime import date
from functools import cache

from tests.journeys.flow_plans import example
from tidestead.build.cost.buying import Bought
from tidestead.build.cost.facts import CostFacts
from tidestead.build.cost.finding import found
from tidestead.build.cost.told import tell
from tidestead.build.takeoff.rest import Studies
from tidestead.core.answer import Answer, Table
from tidestead.core.units import System
from tidestead.plan import loads
from tidestead.plan.items import parse_item
from tidestead.studies.inputs import Inputs


@cache
def cost_of(text: str) -> CostFacts:
    """What a plan costs by itself, without what other subjects find."""
    return found(loads(text).plan, Studies())


@cache
def told_of(text: str, system: System = "metric", as_of: date | None = None) -> Answer:
    """The answer on the cost of a plan."""
    return tell(Inputs(loads(text).plan, system, None, "no weather here", as_of=as_of), cost_of(text))


def with_row(name: str, row: str, fields: str | None) -> str:
    """An example with one row of its price book written anew; without the row for None."""
    text = example(name)
    pattern = re.compile(rf"^{re.escape(row)} = \{{.*$", re.MULTILINE)
    assert len(pattern.findall(text)) == 1, row
    return pattern.sub("" if fields is None else f"{row} = {{ {fields} }}", text)


def with_more(name: str, *rows: str) -> str:
    """An example with rows added to its price book."""
    return example(name).replace("[book]\n", "\n".join(("[book]", *rows, "")), 1)


def with_words(name: str, old: str, new: str) -> str:
    """An example with words changed that stand in it once."""
    text = example(name)
    assert text.count(old) == 1, old
    return text.replace(old, new)


def bought(facts: CostFacts, item: str) -> Bought:
    """What is bought of a thing to build with."""
    (one,) = (one for one in facts.purchase.once if one.item == parse_item(item))
    return one


def in_a_year(facts: CostFacts, item: str) -> Bought:
    """What a year uses up of a thing."""
    (one,) = (one for one in facts.yearly if one.item == parse_item(item))
    return one


def table_of(answer: Answer, name: str) -> Table:
    """A table of an answer."""
    (one,) = (one for one in answer.tables if one.id == name)
    return one
