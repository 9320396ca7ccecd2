"""Tables of power: loads, what stops together, leakage, what stands in, energy of a year."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TypeAlias

from tidestead.core.answer import Column, Estimate, Table
from tidestead.core.units import Price
from tidestead.physics.power.cables import far_voltage
from tidestead.physics.power.leakage import leakage_ceiling, leakage_room
from tidestead.plan.model import Plan
from tidestead.studies.power.facts import Dying, LoadFacts, PowerFacts
from tidestead.studies.power.rules import limit_row
from tidestead.studies.power.wording import cost_of, items_words, level_words, listed

Cells: TypeAlias = tuple[float | str | None, ...]


def tables_of(plan: Plan, facts: PowerFacts) -> tuple[Table, ...]:
    """Those that have rows."""
    found = [_loads(facts), *_things(facts), _together(facts), _leaks(facts), _backups(facts)]
    found.append(_energy(facts, plan.supplies.tariff))
    return tuple(one for one in found if one.rows)


def _loads(facts: PowerFacts) -> Table:
    columns = (
        Column("circuit"), Column("on it"), Column("power", "W"), Column("running", "A"),
        Column("largest start last", "A"), Column("all start at once", "A"), Column("breaker", "A"),
        Column("lost", "V"), Column("left at the far end", "V"),
    )  # fmt: skip
    rows: list[Cells] = []
    for one in facts.circuits:
        lost = _lost(one.volts, one.drop_share)
        hung = listed([load.words for load in one.loads]) or "nothing"
        currents = (one.running.likely, one.worst.likely, one.together)
        rows.append((one.key, hung, one.power, *currents, one.breaker, *lost))
    supply = facts.supply
    if supply is not None:
        lost = _lost(supply.volts, supply.drop)
        named = "all" if supply.phases == 1 else "its busiest phase"
        currents = (supply.running.likely, supply.worst.likely, supply.together)
        rows.append(("the supply", named, supply.power, *currents, supply.amps, *lost))
    note = "Everything runs at once: a bound on the high side. What is lost counts the cable to the building."
    return Table("power.loads", "Loads, running and at worst", columns, tuple(rows), note)


def _lost(volts: float, share: Estimate | None) -> tuple[float | None, float | None]:
    """Volts lost on the way, and what is left at its end."""
    if share is None:
        return None, None
    lost = volts * share.likely
    return lost, float(far_voltage(volts, lost))


def _things(facts: PowerFacts) -> Iterator[Table]:
    columns = (
        Column("thing"), Column("circuit"), Column("power", "W"), Column("running", "A"), Column("its start", "A"),
        Column("leaks as new", "A"), Column("aged", "A"),
        Column("standards allow", "A"),
    )  # fmt: skip
    rows: list[Cells] = [
        (
            load.words, one.key, load.power, load.running.likely,
            load.running.likely / load.count + load.extra.likely, load.count * load.leaks.likely,
            load.count * load.leaks.high, load.count * _ceiling(load),
        )
        for one in facts.circuits
        for load in one.loads
    ]  # fmt: skip
    note = (
        "Starts are of one, all else of all of a kind. Plates and makers' sheets know better. The last column is what "
        "standards allow fixed heaters and motors, new and whole; of what is plugged in they allow less."
    )
    yield Table("power.things", "What hangs where", columns, tuple(rows), note)


def _ceiling(load: LoadFacts) -> float:
    """What the standard of its sort allows one of it to leak."""
    kind = {"heating": "ceiling-heating", "motor": "ceiling-motor", "compressor": "ceiling-motor"}
    row = limit_row(kind.get(load.sort.factor.name.removeprefix("factor-"), "ceiling-portable"))
    ends = (row.si("least"), row.si("most"))
    return float(leakage_ceiling(load.power / load.count, row.si("per_power"), *ends))


def _together(facts: PowerFacts) -> Table:
    columns = (
        Column("when it opens"),
        Column("stops"),
        Column("carried on by a battery"),
        Column("shared with"),
    )
    alike = {one.key: one.items for one in facts.dying if one.device == "breaker"}
    rows: list[Cells] = []
    for one in facts.dying:
        both = one.device == "residual" and alike.get(circuit_of(one)) == one.items
        if one.device == "breaker" and _has_own(one, facts):
            continue  # told with the residual-current device, which stops the same
        words = f"the breaker or {one.words}" if both else one.words
        carried = items_words(one.carried) if one.carried else None
        rows.append((words, items_words(one.items), carried, listed(one.shared_with) or None))
    note = "Each of these is a fault like any other: what it does to the water is for the question after this one."
    return Table("power.together", "What stops together", columns, tuple(rows), note)


def circuit_of(dying: Dying) -> str:
    """The circuit that a residual-current device belongs to."""
    return dying.key.partition(".")[0]


def _has_own(breaker: Dying, facts: PowerFacts) -> bool:
    """Whether a residual-current device stops just the same as this breaker."""
    return any(
        one.device == "residual" and (circuit_of(one), one.items) == (breaker.key, breaker.items)
        for one in facts.dying
    )


def _leaks(facts: PowerFacts) -> Table:
    columns = (
        Column("residual-current device"), Column("trips at"), Column("may trip from", "A"),
        Column("may leak for good", "A"), Column("as new", "A"), Column("one aged", "A"), Column("then left", "A"),
        Column("all aged", "A"),
    )  # fmt: skip
    rows: list[Cells] = [
        (
            f"circuit {' and '.join(one.circuits)}", level_words(one.rated), one.trip_low, one.standing,
            one.leakage.likely, one.leakage.high, float(leakage_room(one.leakage.high, one.trip_low)), one.aged,
        )
        for one in facts.leaks
    ]  # fmt: skip
    note = "A bound: leaks of one sort and another partly cancel. An electrician measures it with a clamp in a minute."
    return Table("power.leakage", "What leaks to earth", columns, tuple(rows), note)


def _backups(facts: PowerFacts) -> Table:
    columns = (
        Column("backup"), Column("carries"), Column("starts"), Column("load", "W"), Column("largest start", "W"),
        Column("hardest", "W"), Column("gives for a start, at least", "W"), Column("at worst lasts", "s"),
        Column("likely", "s"),
    )  # fmt: skip
    rows: list[Cells] = [
        (
            one.key, items_words(one.carries), "by itself" if one.starts_by_itself else "by hand", one.load,
            one.starting.likely, one.starting.high, None if one.peak is None else one.peak.low,
            None if one.hours is None else one.hours.low,
            None if one.hours is None else one.hours.likely,
        )
        for one in facts.backups
    ]  # fmt: skip
    return Table("power.backups", "What goes on when the power fails", columns, tuple(rows))


def _energy(facts: PowerFacts, tariff: Price | None) -> Table:
    columns = [Column("thing"), Column("a year", "J"), Column("low", "J"), Column("high", "J")]
    if tariff is not None:
        columns.append(Column(f"cost, {tariff.currency}"))
    rows: list[Cells] = []
    for one in facts.energy:
        row: Cells = (one.words, one.year.likely, one.year.low, one.year.high)
        rows.append((*row, f"{cost_of(one.year, tariff).likely:.0f}") if tariff is not None else row)
    left = f" Not counted: {listed(facts.uncounted)}." if facts.uncounted else ""
    note = f"Pumps and devices run all year; heaters and chillers by the years of heat; lamps by their hours.{left}"
    return Table("power.energy", "Energy of a year", tuple(columns), tuple(rows), note)
