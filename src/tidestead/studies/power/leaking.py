"""Residual-current devices: what each watches, what leaks to earth on it, and from where on it may trip."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from tidestead.catalog import Row
from tidestead.physics.power.leakage import standing_leakage
from tidestead.plan.model import Plan
from tidestead.studies.power.facts import CircuitFacts, LeakFacts, LoadFacts
from tidestead.studies.power.loading import leaks_of
from tidestead.studies.power.rules import residual_row


def hung_on(plan: Plan, key: str) -> tuple[str, ...]:
    """The circuit of a residual-current device and all that share it, near or over another."""
    found = [key]
    for one in found:
        found += [
            name for name, circuit in plan.electrics.items() if circuit.shares == one and name not in found
        ]
    return tuple(found)


def levels_over(plan: Plan, key: str) -> tuple[float, ...]:
    """Trip levels, A, of every residual-current device over a circuit: its own and those that it shares."""
    found: list[float] = []
    seen: set[str] = set()
    at: str | None = key
    while at is not None and at in plan.electrics and at not in seen:
        seen.add(at)
        circuit = plan.electrics[at]
        found += [] if circuit.residual is None else [circuit.residual]
        at = circuit.shares
    return tuple(found)


def leaks_found(plan: Plan, circuits: Sequence[CircuitFacts]) -> Iterator[LeakFacts]:
    """Every residual-current device of the plan."""
    by_key = {circuit.key: circuit for circuit in circuits}
    for key, circuit in plan.electrics.items():
        if circuit.residual is None:
            continue
        keys = hung_on(plan, key)
        loads = [load for one in keys if one in by_key for load in by_key[one].loads]
        row = residual_row(circuit.residual)
        yield LeakFacts(
            key,
            keys,
            circuit.residual,
            circuit.residual * row.si("trip_low") / row.si("trip"),
            circuit.residual * row.si("standing_share"),
            row,
            leaks_of(loads),
            standing_leakage(tuple(load.count * load.leaks.high for load in loads)),
            _counted(loads),
            _oldest(loads),
        )


def _counted(loads: Sequence[LoadFacts]) -> tuple[tuple[Row, int], ...]:
    """How many there are of each sort."""
    found: dict[str, tuple[Row, int]] = {}
    for load in loads:
        row = load.sort.leakage
        found[row.name] = (row, found.get(row.name, (row, 0))[1] + load.count)
    return tuple(found.values())


def _oldest(loads: Sequence[LoadFacts]) -> Row | None:
    """The sort that leaks most on top once it has aged."""
    found = max(loads, key=lambda load: load.leaks.high - load.leaks.likely, default=None)
    return None if found is None else found.sort.leakage
