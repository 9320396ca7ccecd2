"""Tables of the answer: runs, where the head goes, levels, drains, power stop, shutting off, lowering, lists."""

from __future__ import annotations

import math
from collections.abc import Sequence

from tidestead.catalog import table as catalog_table
from tidestead.core.answer import Column, Table
from tidestead.core.dims import G
from tidestead.core.units import System, show
from tidestead.plan.model import Plan
from tidestead.studies.flow.facts import FlowFacts, RunFlow
from tidestead.studies.flow.heads import heads_table
from tidestead.studies.flow.heights import floor_of
from tidestead.studies.flow.lamps import lamp_doses
from tidestead.studies.flow.lists import list_tables
from tidestead.studies.flow.lowering import lowering_table
from tidestead.studies.flow.stops import StopFacts

Rows = tuple[tuple[float | str | None, ...], ...]


def tables_told(plan: Plan, facts: FlowFacts, system: System) -> tuple[Table, ...]:
    """Every table that has rows."""
    found = [_holes(facts), *list_tables(plan, facts)]
    if facts.solved:
        found = [
            _runs(facts),
            heads_table(plan, facts),
            _levels(plan, facts),
            _drains(plan, facts),
            *_stops(facts),
            _shutting(plan, facts, system),
            lowering_table(plan, facts, system),
            _lamps(plan, facts),
            *found,
        ]
    return tuple(table for table in found if table.rows)


def _runs(facts: FlowFacts) -> Table:
    columns = (
        Column("line"),
        Column("part"),
        Column("flow", "m3/s"),
        Column("bore", "m", "fine"),
        Column("velocity", "m/s"),
        Column("f or K", "1"),
        Column("head lost", "m", "bow"),
    )
    rows: Rows = tuple(
        (
            line.key,
            _words(one.run.words, one.run.item.count, one.run.item.kind),
            one.flow,
            one.run.bore or None,
            one.velocity or None,
            _factor(one),
            one.head,
        )
        for line in facts.lines
        for one in facts.passed[line.key]
    )
    note = (
        "What a pipe loses grows with its friction factor f (by Colebrook's formula), its length over its bore and the "
        "square of the velocity; what all else loses, with K, for as many as stand there, and the square of the "
        "velocity: the working has the formulas. A pump gives head: its loss is below nothing. Drains that run open to "
        "the air are shown as if full. A weir has no bore and no velocity."
    )
    return Table("flow.runs", "Flow, velocity and head lost in every part", columns, rows, note)


def _factor(one: RunFlow) -> float | None:
    """Friction factor of a pipe, velocity heads of all else but pumps: what the head lost comes from."""
    if one.run.item.kind == "pump" or one.velocity <= 0.0 or one.run.bore <= 0.0:
        return None
    heads = one.head / (one.velocity**2 / (2.0 * G))
    return heads * one.run.bore / one.run.item.length if one.run.item.kind == "pipe" else heads


def _words(words: str, count: int, kind: str) -> str:
    return f"{words}, {count} of them" if kind == "fitting" and count > 1 else words


def _levels(plan: Plan, facts: FlowFacts) -> Table:
    columns = (
        Column("vessel"),
        Column("depth found", "m", "level"),
        Column("depth in the plan", "m", "level"),
        Column("comes in", "m3/s"),
        Column("water", "m3"),
        Column("replaced each hour", "1"),
    )
    rows: Rows = tuple(
        (
            key,
            level - floor_of(plan.vessels[key]),
            plan.vessels[key].water,
            facts.inflow[key],
            facts.volumes[key],
            3600.0 * facts.inflow[key] / facts.volumes[key] if facts.volumes[key] > 0.0 else None,
        )
        for key, level in facts.levels.items()
    )
    note = (
        "A sump's depth is taken from the plan; the others follow from the flow. Levels in the working, of risers and "
        "of outfalls count from the datum of the plan: the zero that every vessel's place.floor counts from."
    )
    return Table("flow.levels", "Levels while the pumps run", columns, rows, note)


def _drains(plan: Plan, facts: FlowFacts) -> Table:
    columns = (
        Column("vessel"),
        Column("way out"),
        Column("carries now", "m3/s"),
        Column("depth with it blocked", "m", "level"),
        Column("depth with it alone", "m", "level"),
        Column("depth at the brim", "m", "level"),
    )
    rows: Rows = tuple(
        (
            drain.vessel,
            line,
            facts.flows[line],
            _depth(plan, drain.vessel, drain.blocked.get(line)),
            _depth(plan, drain.vessel, drain.alone.get(line)),
            _depth(plan, drain.vessel, drain.brim),
        )
        for drain in facts.drains
        for line in drain.lines
    )
    return Table("flow.drains", "Drains, each blocked and each alone", columns, rows)


def _depth(plan: Plan, key: str, level: float | None) -> float | None:
    return None if level is None or not math.isfinite(level) else level - floor_of(plan.vessels[key])


def _stops(facts: FlowFacts) -> list[Table]:
    """What runs back, for every sump."""
    return [_stop(stop, facts.stops) for stop in facts.stops]


def _stop(stop: StopFacts, among: Sequence[StopFacts]) -> Table:
    columns = (
        Column("what fails"),
        Column("from vessels", "m3"),
        Column("from pipes", "m3"),
        Column("together", "m3"),
        Column("room left in the sump", "m3"),
    )
    cases = stop.cases
    rows: Rows = ()
    if cases is not None:
        named = (
            ("nothing", cases.working),
            ("siphon breaks blocked", cases.break_blocked),
            ("check valves", cases.check_failed),
            ("both", cases.both_failed),
        )
        rows = tuple(
            (words, case.from_vessels, case.from_pipes, case.total, case.spare) for words, case in named
        )
    note = (
        "Judged by the worst single failure. Below nothing in the last column, the sump spills that much. Water goes "
        "by every line that is full, from branch to branch too, down to the lower edges of mouths. How high a junction "
        "stands is not in the plan: what meets one is counted as hung above all water. Curves leave out what pipes "
        "hold."
    )
    title = stop.titled("When the power stops: what runs back", among)
    return Table(stop.ident("flow.stop", among), title, columns, rows, note)


def _shutting(plan: Plan, facts: FlowFacts, system: System) -> Table:
    columns = (
        Column("to take out"),
        Column("shut the valves"),
        Column("switch off the pumps"),
        Column("wait until it has run down"),
        Column("water lost", "m3"),
        Column("runs out"),
        Column("flow that remains", "1", "share"),
    )
    rows: Rows = tuple(
        (
            one.words,
            ", ".join(one.shut) or None,
            ", ".join(one.off) or None,
            _depths(plan, one.first, system) or None,
            one.lost,
            _depths(plan, one.falls, system) or None,
            one.remains,
        )
        for one in facts.shutting
    )
    note = (
        "Do it in this order: pumps off, valves shut, wait. What is told as lost comes out when the part is opened "
        "at its lowest point. What runs out is held by no valve: the part cannot be taken out without it. Check valves "
        "are not trusted to hold. What remains is the displays' inflow as a share of today's. Electricity and water: "
        "unplug a pump before its union is opened."
    )
    return Table(
        "flow.shutting", "Shutting off: what to stop, what is lost, what still runs", columns, rows, note
    )


def _depths(plan: Plan, levels: tuple[tuple[str, float], ...], system: System) -> str:
    return ", ".join(
        f"{key} to {show(max(level - floor_of(plan.vessels[key]), 0.0), 'm', system, 'level')}"
        for key, level in levels
    )


def _holes(facts: FlowFacts) -> Table:
    columns = (
        Column("fitting"),
        Column("size"),
        Column("hole", "m", "sheet"),
        Column("flange", "m", "sheet"),
        Column("wall", "m", "sheet"),
        Column("clamps from", "m", "sheet"),
        Column("to", "m", "sheet"),
        Column("water over it, to the brim", "m", "level"),
        Column("push when shut", "N"),
    )
    rows: Rows = tuple(
        (
            f"{hole.vessel}.{hole.port}",
            hole.row.title,
            hole.size.hole,
            hole.size.flange,
            None if hole.missing else hole.wall,
            hole.size.clamps_from,
            hole.size.clamps_to,
            hole.head,
            hole.load.push if hole.load is not None else None,
        )
        for hole in facts.holes
    )
    note = "Makers differ: measure the fitting in hand before a hole is cut."
    return Table("flow.bulkheads", "Fittings through walls", columns, rows, note)


def _lamps(plan: Plan, facts: FlowFacts) -> Table:
    columns = (
        Column("lamp"),
        Column("germ"),
        Column("dose wanted", "J/m2"),
        Column("dose it gets", "J/m2"),
        Column("enough"),
        Column("flow at which it would be", "m3/s"),
    )
    rows: list[tuple[float | str | None, ...]] = []
    for lamp in lamp_doses(plan, facts):
        if lamp.dose is None:
            continue
        for row in catalog_table("uv_targets"):
            if row.tag("kind") != "target":
                continue
            wanted = row.si("dose")
            enough = "yes" if lamp.dose.low >= wanted else "perhaps" if lamp.dose.high >= wanted else "no"
            rows.append(
                (lamp.name, row.title, wanted, lamp.dose.likely, enough, lamp.flow * lamp.dose.low / wanted)
            )
    note = (
        "What it gets is the likely mean dose. Enough, and the flow, are judged by its low end: yellow water, the "
        "greatest flow, and half of the mean, which is what a badly mixed chamber gives to some of the water. Only "
        "what passes the lamp is hit: in the whole system germs go as anything else that a side stream takes out."
    )
    return Table("flow.lamps", "Ultraviolet: what the dose is enough for", columns, tuple(rows), note)
