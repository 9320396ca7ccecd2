"""Tables of light: by month, and what lamps and shade would have to do."""

from __future__ import annotations

from tidestead.core.answer import Column, Table
from tidestead.core.months import MONTHS
from tidestead.core.units import Price, System, show
from tidestead.plan.model import Plan
from tidestead.studies.light.facts import CoralLight, LightFacts
from tidestead.studies.light.wording import DAY, FLOW, money


def tables_of(plan: Plan, facts: LightFacts, system: System) -> tuple[Table, ...]:
    """Two tables for every group."""
    found = []
    for group in facts.groups:
        found += [_months(group, facts), _made_up(group, facts, plan.supplies.tariff, system)]
    return tuple(found)


def _months(group: CoralLight, facts: LightFacts) -> Table:
    columns = [
        Column("month"),
        Column("outdoors", DAY),
        Column("deepest, sun alone", DAY),
        Column("P10", DAY),
        Column("P90", DAY),
        Column("deepest, with lamps", DAY),
        Column("shallowest, with lamps", DAY),
    ]
    natural = group.natural
    runs = [
        group.outside.likely,
        natural.likely,
        natural.low,
        natural.high,
        group.deep.likely,
        group.top.likely,
    ]
    if group.typical:
        columns.append(Column("deepest, sun alone, typical year of the file", DAY))
        runs.append(group.typical)
    rows = tuple(
        tuple[float | str | None, ...]((name, *(run[month] for run in runs)))
        for month, name in enumerate(MONTHS)
    )
    note = (
        f"Light of a day, mean of the month; medians of {facts.years}, P10 and P90 of the deepest without lamps: "
        "one year in ten lies below the first, one in ten above the second."
    )
    return Table(
        f"light.{group.key}.months",
        f"corals {group.key}: light of a day by month",
        tuple(columns),
        rows,
        note,
    )


def _made_up(group: CoralLight, facts: LightFacts, tariff: Price | None, system: System) -> Table:
    made = group.make_up
    columns = [
        Column("month"),
        Column("day", "s"),
        Column("highest hour, shallowest", FLOW),
        Column("lacking, sun alone", DAY),
        Column("lamps", "W"),
        Column("energy", "J"),
        Column("shade", "1", "share"),
    ]
    if tariff is not None:
        columns.insert(6, Column(f"cost, {tariff.currency}"))
    rows: list[tuple[float | str | None, ...]] = []
    for month, name in enumerate(MONTHS):
        row: list[float | str | None] = [name, 3600.0 * facts.day_length[month], group.peaks.likely[month]]
        row += [made.missing[month], made.power[month], made.energy[month]]
        if tariff is not None:
            row.append(str(money(made.energy[month], tariff)))
        rows.append((*row, group.shade[month] if group.shade[month] > 0.0 else None))
    lighting, area = group.lighting, show(group.area, "m2", system)
    note = (
        f"Lamps beside the sun alone, in the median year: {lighting.efficacy:.3g} umol/J, of whose light "
        f"{100.0 * lighting.reaches:.0f} % enters the water, over {area}, {lighting.hours:g} h a day. "
        "Shade beyond the plan's in a bright year (P90). The highest hour counts lamps, and no shade."
    )
    return Table(
        f"light.{group.key}.made_up",
        f"corals {group.key}: what lamps would have to make up, and shade to keep out",
        tuple(columns),
        tuple(rows),
        note,
    )
