"""Tables of changes: the steps of one in order, and how many bring nitrate down."""

from __future__ import annotations

import math

from tidestead.core.answer import Column, Table
from tidestead.core.units import System, show
from tidestead.plan.model import Plan
from tidestead.studies.water.changing_steps import ROUNDS
from tidestead.studies.water.salt_facts import ChangingFacts, NitrateSeries, Round
from tidestead.studies.water.setting import Setting

_WAYS = {
    "both-at-once": "the drained water runs out while the load is pumped over: both take one time",
    "all-the-time": "new water runs in and old water out all the time: the hours are those of a load made ready",
}


def round_table(name: str, one: Round, facts: ChangingFacts, system: System, way: str) -> Table:
    """What is done for a load, in order, and when the last load has it behind it."""
    columns = (
        Column("step"), Column("one load", "s"), Column("done, first load", "s"), Column("done, last load", "s"),
        Column("heat, all loads", "J"),
    )  # fmt: skip
    before = None if one.one is None else (one.loads - 1) * one.one
    rows: list[tuple[float | str | None, ...]] = []
    passed: float | None = 0.0
    for words, takes, heat in _steps(one, facts):
        passed = None if passed is None or takes is None else passed + takes
        last = None if passed is None or before is None else before + passed
        rows.append((words, takes, passed, last, heat))
    note = _note(one, facts, system, _WAYS.get(way, ""))
    return Table(f"water.change.{name}", _title(name, one, system), columns, tuple(rows), note)


def _title(name: str, one: Round, system: System) -> str:
    loads = "one load" if one.loads == 1 else f"{one.loads} loads"
    each = "" if one.loads == 1 else f" of {show(one.load, 'm3', system)}"
    head = ROUNDS[name][0].upper() + ROUNDS[name][1:]
    return f"{head}, {show(one.amount, 'm3', system)}: {loads}{each}, step by step"


def _steps(one: Round, facts: ChangingFacts) -> list[tuple[str, float | None, float | None]]:
    """Words, seconds for one load, heat for all."""
    supply = facts.supply
    from_where = "" if supply is None else f" from {supply.key}"
    stand = "stir the salt in" if one.warming is None else "stir the salt in, warming it meanwhile"
    found: list[tuple[str, float | None, float | None]] = [
        (f"fill the vat{from_where}", one.making, None),
        (stand, one.stirring, None if one.warming is None else one.loads * one.heat),
    ]
    longer = one.standing - one.stirring
    if longer > 0.0:
        found.append(("go on warming until it is as warm as the tank", longer, None))
    found.append(
        ("measure salinity, temperature, chlorine; then drain as much from the tank", one.draining, None)
    )
    found.append(("pump the load over", one.pumping, None))
    return found


def _note(one: Round, facts: ChangingFacts, system: System, plan_way: str) -> str:
    gone = f"{100.0 * one.replaced:.0f} % of the old water is gone after it"
    words = gone if one.loads == 1 else f"One vat, so that one load follows the other. {gone}"
    if one.loads > 1 and math.isfinite(one.loads_for_all) and one.loads_for_all > one.loads:
        words += (
            f": each load takes out some of what those before it brought; {one.loads_for_all:.0f} full loads would "
            f"take out {100.0 * one.share:.0f} %"
        )
    words += "."
    if one.warming is not None and math.isfinite(one.warming):
        words += f" The heater alone takes {show(one.warming, 's', system)} for a load, losses of the vat left out."
    elif facts.supply is not None:
        words += f" Nothing warms it: it goes in at {show(facts.supply.temp_c, 'degC', system)} if the air does not."
    if plan_way:
        words += f" In this plan {plan_way}."
    if one.making is None:
        words += " The time to fill the vat is not known, nor what follows from it."
    return words


def series_table(plan: Plan, setting: Setting, series: NitrateSeries, system: System) -> Table:
    """By share: changes, days at the plan's interval, water."""
    columns = (
        Column("old water that goes each time", "1", "share"), Column("changes"), Column("changes, at worst"),
        Column("time, at the plan's interval", "s"), Column("new water in all", "m3"),
    )  # fmt: skip
    every = 0.0 if plan.changes is None else float(plan.changes.every)
    rows: list[tuple[float | str | None, ...]] = []
    for path in series.paths:
        reached = math.isfinite(path.likely)
        rows.append(
            (
                path.share,
                _count(path.likely),
                _count(path.worst),
                every * path.likely if reached else None,
                path.likely * path.share * setting.volume if reached else None,
            )
        )
    start, goal, worst = (
        show(one, "mg/L", system) for one in (series.start, series.goal, series.incoming.high)
    )
    first = (
        f"From {start}, as read, to {goal}." if series.now else f"As an example, from {start} down to {goal}."
    )
    note = (
        f"{first} New water holds no nitrate; at worst {worst} ({series.incoming.basis}). What food adds meanwhile "
        "comes on top. The first line is the plan's change."
    )
    return Table("water.change.nitrate", "Changes that bring nitrate down", columns, tuple(rows), note)


def _count(changes: float) -> str:
    return f"{changes:.0f}" if math.isfinite(changes) else "never: new water holds as much"
