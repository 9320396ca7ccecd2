"""What every circuit and the supply carry: currents running and starting, voltage lost in cables."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from math import sqrt

from tidestead.catalog import Row
from tidestead.core.answer import Estimate
from tidestead.physics.power import cables, loads
from tidestead.physics.power.loads import Load
from tidestead.plan.model import Plan
from tidestead.plan.model.electrics import ElectricCircuit, Supply
from tidestead.plan.water_fields import OnCircuit
from tidestead.studies.power.facts import CableFacts, CircuitFacts, LoadFacts, SupplyFacts
from tidestead.studies.power.rules import cable_of
from tidestead.studies.power.things import Thing, rows_of

_FACTORS = "power factors at their ends"
_STARTS = "what a start takes, low to high; at worst everything starts at once when the power comes back"


@dataclass(frozen=True)
class Carried:
    """What one conductor carries: A running, A at the worst moment with all starts as its high end, W, power factor."""

    running: Estimate
    worst: Estimate
    together: float
    power: float
    factor: float


def circuits_of(
    plan: Plan, supply: Supply, things: Mapping[OnCircuit, Thing], us: bool
) -> list[CircuitFacts]:
    """Every circuit by itself; the share lost in the supply comes later."""
    return [_circuit(key, one, supply, things, us) for key, one in plan.electrics.items()]


def _circuit(
    key: str, circuit: ElectricCircuit, supply: Supply, things: Mapping[OnCircuit, Thing], us: bool
) -> CircuitFacts:
    known = [load_of(things[item], supply.volts) for item in circuit.feeds if item in things]
    hung = tuple(load for load in known if load is not None)
    carried = carried_by(hung)
    cable = cable_of(circuit.cable, circuit.length, us, indoors=True)
    drop = _drop(carried, cable, supply.volts)
    return CircuitFacts(
        key,
        circuit.breaker,
        circuit.residual,
        supply.volts,
        carried.running,
        carried.worst,
        carried.together,
        carried.power,
        carried.factor,
        cable,
        drop,
        None,
        leaks_of(hung),
        hung,
    )


def load_of(thing: Thing, volts: float) -> LoadFacts | None:
    """Currents of one thing; None where the plan does not say what it draws."""
    if thing.power is None:
        return None
    sort = rows_of(thing.sort)
    ends = [thing.factor or sort.factor.si(end) for end in ("high", "likely", "low")]
    low, likely, high = (float(loads.single_phase_current(thing.power, volts, end)) for end in ends)
    running = Estimate(low, likely, high, _FACTORS)
    more = _by_end(sort.starting)
    extra = Estimate(
        low / thing.count * (more.low - 1.0),
        likely / thing.count * (more.likely - 1.0),
        high / thing.count * (more.high - 1.0),
    )
    together = float(loads.starting_current(high, more.high))
    leaks = _by_end(sort.leakage)
    return LoadFacts(
        thing.item, thing.words, thing.power, thing.count, sort, ends[1], running, extra, together, leaks
    )


def _by_end(row: Row) -> Estimate:
    """Low, likely and high of a row."""
    return Estimate(row.si("low"), row.si("likely"), row.si("high"))


def carried_by(hung: Sequence[LoadFacts]) -> Carried:
    """All of some loads together."""
    likely, high = (
        [
            Load(end(load.running) / load.count, end(load.running) / load.count + end(load.extra))
            for load in hung
            for _ in range(load.count)
        ]
        for end in (_likely, _high)
    )
    running = summed((load.running for load in hung), _FACTORS)
    together = loads.all_starting(tuple(high))
    least = running.low + max((load.extra.low for load in hung), default=0.0)
    worst = Estimate(least, loads.worst_moment(tuple(likely)), together, _STARTS)
    power = sum(load.power for load in hung)
    volt_amps = sum(load.power / load.factor for load in hung)
    return Carried(running, worst, together, power, power / volt_amps if volt_amps else 1.0)


def _likely(found: Estimate) -> float:
    return found.likely


def _high(found: Estimate) -> float:
    return found.high


def summed(found: Iterable[Estimate], basis: str) -> Estimate:
    """End by end."""
    ends = [(one.low, one.likely, one.high) for one in found]
    low, likely, high = (sum(one[at] for one in ends) for at in range(3))
    return Estimate(low, likely, high, basis)


def _drop(carried: Carried, cable: CableFacts, volts: float) -> Estimate | None:
    """Share of the voltage lost in a single-phase cable; all hangs at its far end."""
    if cable.resistance is None or cable.length is None:
        return None
    ends = (cable.resistance.low, cable.resistance.likely, cable.resistance.high)
    low, likely, high = (_lost(carried, one, cable.length, volts) for one in ends)
    more = float(cables.reactance_left_out(cable.resistance.low, carried.factor))
    basis = f"{cable.resistance.basis}, its reactance counted at worst"
    return Estimate(low, likely, high * (1.0 + more), basis)


def _lost(carried: Carried, resistance: float, length: float, volts: float) -> float:
    lost = cables.single_phase_drop(carried.running.likely, resistance, length, carried.factor)
    return float(cables.drop_share(lost, volts))


def supply_of(supply: Supply, circuits: Sequence[CircuitFacts], us: bool) -> SupplyFacts:
    """Main device and cable to the building; of three phases the busiest, circuits spread as evenly as may be."""
    lines = [list[LoadFacts]() for _ in range(supply.phases)]
    for circuit in sorted(circuits, key=lambda one: -one.running.likely):
        min(lines, key=lambda line: sum(load.running.likely for load in line)).extend(circuit.loads)
    busiest = max(lines, key=lambda line: sum(load.running.likely for load in line))
    carried = carried_by(busiest)
    running = carried.running
    if supply.phases > 1:
        even = _even(supply, [load for line in lines for load in line])
        running = replace(
            running, low=min(even, running.low), basis="from an even share of the phases to the fullest"
        )
    cable = cable_of(supply.cable, supply.distance, us, indoors=False)
    return SupplyFacts(
        supply.volts,
        supply.amps,
        supply.phases,
        running,
        carried.worst,
        carried.together,
        carried.power,
        carried.factor,
        cable,
        _drop(carried, cable, supply.volts),
    )


def _even(supply: Supply, hung: Sequence[LoadFacts]) -> float:
    """Current of each line if the three phases were loaded alike; between them lies the root of three more."""
    whole = carried_by(hung)
    return float(loads.three_phase_current(whole.power, sqrt(3.0) * supply.volts, whole.factor))


def leaks_of(hung: Sequence[LoadFacts]) -> Estimate:
    """What some loads leak: all at their least, all as new, and as new but one that has aged most."""
    low = sum(load.count * load.leaks.low for load in hung)
    likely = sum(load.count * load.leaks.likely for load in hung)
    more = max((load.leaks.high - load.leaks.likely for load in hung), default=0.0)
    return Estimate(low, likely, likely + more, "at worst one of them aged, the rest as new")
