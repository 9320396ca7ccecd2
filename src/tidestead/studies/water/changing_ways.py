"""The same new water given in other ways: a batch at once, in while the old runs out, a trickle all the time."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from tidestead.core.answer import Column, Step, Table, Working
from tidestead.core.units import System, show
from tidestead.physics.water import changes as laws
from tidestead.plan.model import Plan
from tidestead.studies.checks import given
from tidestead.studies.inputs import Inputs
from tidestead.studies.judged import step
from tidestead.studies.water.batches import BALANCE
from tidestead.studies.water.nutrients import NutrientFacts
from tidestead.studies.water.salt_facts import ChangingFacts, NitrateSeries
from tidestead.studies.water.section import Section
from tidestead.studies.water.setting import Setting
from tidestead.studies.water.spans import DAY

BATCH = "drained, then filled, at once"
BOTH = "new in while old runs out"
TRICKLE = "a trickle in and out, all the time"


@dataclass(frozen=True)
class Way:
    """One way: share of the old water that is gone when the water of one change has gone in; days and water (m3) until
    nitrate is down, inf where never; the highest and the lowest that nitrate settles at by changes alone, g/m3, nothing
    where no feed is told.
    """

    words: str
    gone: float
    days: float
    water: float
    ends: tuple[float, ...]


@dataclass(frozen=True)
class Ways:
    """`share` of the volume (m3) changed every so many days; `made` g/m3 of nitrate a day beside what granulates and
    algae take, None where no feed is told; `series` says where nitrate stands and where it should.
    """

    share: float
    every: float
    volume: float
    made: float | None
    series: NitrateSeries

    @property
    def pace(self) -> float:
        """Volumes of the tank that come in a day."""
        return self.share / self.every

    def all(self) -> tuple[Way, ...]:
        """Batch, both at once, trickle."""
        return self.changed(BATCH, self.share), self.changed(BOTH, self._together), self.trickle()

    @property
    def _together(self) -> float:
        return float(laws.share_together(self.share))

    def changed(self, words: str, gone: float) -> Way:
        """One change each time, by the share of the old water that it takes."""
        one, new = self.series, self.series.incoming.likely
        count = laws.changes_to_reach(one.start, new, one.goal, gone)
        ends = () if self.made is None else (
            laws.settled_before(new, self.made, self.every, gone),
            laws.settled_after(new, self.made, self.every, gone),
        )  # fmt: skip
        return Way(words, gone, count * self.every, count * self.share * self.volume, ends)

    def trickle(self) -> Way:
        """As much in the same days, in and out evenly."""
        one, new = self.series, self.series.incoming.likely
        turned = laws.flow_to_reach(one.start, new, one.goal)
        level = None if self.made is None else laws.settled_flow(new, self.made, self.pace)
        ends = () if level is None else (level, level)
        return Way(TRICKLE, self._together, turned / self.pace, turned * self.volume, ends)


def ways_of(plan: Plan, setting: Setting, changing: ChangingFacts, nutrients: NutrientFacts) -> Ways | None:
    """None where the plan tells no changes."""
    changes, series = plan.changes, changing.series
    if changes is None or series is None or setting.volume <= 0.0 or float(changes.share) <= 0.0:
        return None
    level = nutrients.nitrate
    made = None if level is None else max(level.made.likely - level.taken.likely, 0.0) / setting.volume
    return Ways(float(changes.share), float(changes.every) / DAY, setting.volume, made, series)


def ways_section(
    inputs: Inputs, setting: Setting, changing: ChangingFacts, nutrients: NutrientFacts
) -> Section:
    """A table of the ways and the working of the trickle."""
    found = ways_of(inputs.plan, setting, changing, nutrients)
    if found is None:
        return Section()
    return Section(
        tables=(_table(found, inputs.system),),
        workings=(
            Working("the same water as a trickle: dilution and where it settles", tuple(_steps(found))),
        ),
    )


def _table(found: Ways, system: System) -> Table:
    columns = (
        Column("way"), Column("old water gone after one change's water"),
        Column("time until nitrate is down", "s"), Column("new water until then", "m3"),
        Column("nitrate settles at, highest", "mg/L"), Column("lowest", "mg/L"),
    )  # fmt: skip
    rows = tuple(_row(way) for way in found.all())
    start, goal = (show(one, "mg/L", system) for one in (found.series.start, found.series.goal))
    flow = show(found.pace * found.volume / DAY, "m3/s", system, "day")
    note = (
        f"Down from {start} to {goal}, with nothing made meanwhile; settled by changes alone, for skimmate, splash "
        f"and filters without air take their part besides. The trickle is {flow}: by V of it in a tank of V0, "
        "exp(-V/V0) of the old water stays. It settles where batches of as much stand just before a change, and never "
        "steps."
    )
    title = f"The same water in other ways: {100.0 * found.share:.3g} % every {show(found.every * DAY, 's', system)}"
    return Table("water.change.ways", title, columns, rows, note)


def _row(way: Way) -> tuple[float | str | None, ...]:
    reached = math.isfinite(way.days)
    never = "never: new water holds as much"
    return (
        way.words,
        f"{100.0 * way.gone:.3g} %",
        DAY * way.days if reached else never,
        way.water if reached else None,
        *(way.ends or (None, None)),
    )


def _steps(found: Ways) -> Iterator[Step]:
    """Dilution, time and steady state of the trickle."""
    one, way, new = found.series, found.trickle(), found.series.incoming.likely
    f, every = given("f", found.share, "1"), given("D", DAY * found.every, "s")
    meaning = "old water gone once the water of one change has run through; f: that water over all, V/V0"
    yield step("g", meaning, "g = 1 - exp(-f)", (f,), (way.gone, "1"), BALANCE)
    levels = (given("C0", one.start, "mg/L"), given("C", one.goal, "mg/L"), given("C1", new, "mg/L"))
    if math.isfinite(way.days) and one.start > one.goal:
        meaning = "until nitrate is down, C1 in the new water, nothing made meanwhile"
        formula = "t = ln((C0 - C1)/(C - C1))*D/f"
        yield step("t", meaning, formula, (*levels, every, f), (DAY * way.days, "s"), BALANCE)
    if found.made is not None:
        days = given("d", found.every, "count")
        made = given("p", found.made, "mg/L")
        meaning = "where a trickle settles; p: made in a day, d: days from change to change"
        numbers = (levels[2], made, days, f)
        yield step("C_s", meaning, "C_s = C1 + p*d/f", numbers, (way.ends[0], "mg/L"), BALANCE)
