"""Judging what circuits and the supply carry: for hours, while things start, in their cables, volts lost on the way."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from tidestead.catalog import Row
from tidestead.core.source import YOURS
from tidestead.core.units import System, advised, show
from tidestead.physics.power.cables import longest_run
from tidestead.studies.checks import ENOUGH, At, Limit, below, unproven
from tidestead.studies.judged import Judged
from tidestead.studies.power import steps
from tidestead.studies.power.facts import CableFacts, CircuitFacts, LoadFacts, PowerFacts, SupplyFacts
from tidestead.studies.power.rules import ampacity_source, limit_row, loading, magnet
from tidestead.studies.power.wording import cautions_of, copper

_FOR_HOURS = "current for hours on end"
_STARTING = "current while things start"
_BEARS = "breaker against what its cable bears"
_LOST = "volts lost up to the far end"
_LIGHTS = "3 % where lights hang on it, 5 % else, from where the supply begins"
_TOGETHER = "advice for the way to the building and the circuit together"
_SOFTER = (
    "things that start one after another (plug-in delays), pumps that start softly, or a breaker of a slower sort, "
    "which the electrician chooses"
)
_BOTH = "Heaters and chillers are counted together: only a thermostat that sticks brings that about."


def at_circuit(key: str) -> At:
    """The place of a circuit."""
    return At(key, f"circuit {key}", "power", f"electrics.{key}")


def circuit_checks(circuit: CircuitFacts, facts: PowerFacts, system: System) -> Iterator[Judged]:
    """Load, start, cable and voltage of one circuit."""
    at, us = at_circuit(circuit.key), facts.us
    yield _load(at, circuit, circuit.breaker, us, _fewer(circuit, system))
    yield _start(at, circuit, circuit.breaker, us)
    yield _cable(at, circuit.cable, circuit.breaker, us, f"electrics.{circuit.key}.cable")
    if us:
        yield _branch(at, circuit, system)
    yield _drop(at, circuit, facts)


def supply_checks(supply: SupplyFacts, facts: PowerFacts, system: System) -> Iterator[Judged]:
    """Load, start and cable of the supply; the voltage that it loses counts with every circuit."""
    at = At("supply.main", "the supply", "power", "supply")
    most = max(
        (load for one in facts.circuits for load in one.loads), key=lambda load: load.power, default=None
    )
    advice = "fewer or smaller things at once, or a stronger supply, which the network's company and an electrician set"
    if most is not None:
        advice += f"; {most.words} draws most, {show(most.power, 'W', system)}"
    found = _load(at, supply, supply.amps, facts.us, advice)
    kinds = {load.item.kind for one in facts.circuits for load in one.loads}
    if {"heater", "chiller"} <= kinds:
        found = replace(found, check=replace(found.check, cautions=(*found.check.cautions, _BOTH)))
    yield found
    yield _start(at, supply, supply.amps, facts.us)
    yield _cable(at, supply.cable, supply.amps, facts.us, "supply.cable")


def _load(at: At, carried: CircuitFacts | SupplyFacts, rating: float, us: bool, advice: str) -> Judged:
    row = loading(us)
    share = row.si("share")
    held = f"{100.0 * share:.0f} % of the {'breaker' if at.key != 'supply.main' else 'main device'}'s rating"
    limit = Limit(share * rating, row.figure("share").source, held)
    check = below(
        at, "load", _FOR_HOURS, carried.running, "A", limit, advice=advice, cautions=cautions_of(row)
    )
    return Judged(check, steps.load_steps(carried, rating, share, row.figure("share").source))


def _start(at: At, carried: CircuitFacts | SupplyFacts, rating: float, us: bool) -> Judged:
    row = magnet(us)
    times = row.si("times")
    held = f"{times:g} times the rating, where it opens at once at the earliest; less it bears for seconds"
    limit = Limit(times * rating, row.figure("times").source, held)
    check = below(
        at, "start", _STARTING, carried.worst, "A", limit, advice=_SOFTER, cautions=cautions_of(row)
    )
    return Judged(check, steps.start_steps(carried, rating, times, row.figure("times").source))


def _cable(at: At, cable: CableFacts, rating: float, us: bool, key: str) -> Judged:
    source = ampacity_source(cable)
    if cable.area is None:
        why = f'say what copper it has: {key}, such as "{"AWG 12" if us else "2.5 mm2"}"'
        return Judged(unproven(at, "cable", _BEARS, "A", why, YOURS))
    if cable.row is None or cable.ampacity is None:
        why = "its copper is thinner than any that houses are wired with; the electrician says what it bears"
        return Judged(unproven(at, "cable", _BEARS, "A", why, source))
    if us:
        held = "what the code lets such copper carry at its terminals; as much as that is allowed"
    else:
        share = f", of which a warm house leaves {100.0 * cable.derated:.0f} %" if cable.derated < 1.0 else ""
        held = f"three loaded conductors clipped to a wall, which is the low side of two{share}"
    limit = Limit(cable.ampacity, source, held, near=0.0 if us else 0.20)
    cautions = cautions_of(limit_row("warm-house"))
    advice = "thicker copper, or a smaller breaker: the electrician decides; never a larger breaker on the same cable"
    check = below(at, "cable", _BEARS, rating, "A", limit, advice=advice, cautions=cautions)
    return Judged(check, steps.cable_steps(cable, rating))


def _branch(at: At, circuit: CircuitFacts, system: System) -> Judged:
    """What US advice allows in the circuit alone."""
    row = limit_row("drop-branch-us")
    words = "volts lost in the circuit's own cable"
    if circuit.drop is None:
        return Judged(unproven(at, "branch", words, "V", _wanted(circuit.key, circuit.cable), YOURS))
    limit = _volts_allowed(
        row, circuit.volts, "advice for the circuit alone, without the cable to the building"
    )
    check = below(
        at,
        "branch",
        words,
        circuit.drop.times(circuit.volts),
        "V",
        limit,
        advice=f"{_thicker(circuit.cable)}, or less on it at once{_reach(circuit, limit, system)}",
        cautions=cautions_of(row),
    )
    return Judged(check, steps.own_drop_steps(circuit))


def _drop(at: At, circuit: CircuitFacts, facts: PowerFacts) -> Judged:
    """What is lost from where the supply begins up to the far end."""
    us, supply = facts.us, facts.supply
    if circuit.drop is None:
        return Judged(unproven(at, "drop", _LOST, "V", _wanted(circuit.key, circuit.cable), YOURS))
    if supply is None or supply.drop is None or circuit.drop_share is None:
        why = "say how the power comes to the building: supply.distance and supply.cable"
        return Judged(unproven(at, "drop", _LOST, "V", why, YOURS))
    row = limit_row("drop-total-us" if us else "drop-lights" if circuit.lit else "drop-other")
    limit = _volts_allowed(row, circuit.volts, _TOGETHER if us else _LIGHTS)
    outside = supply.drop.high > circuit.drop.high
    thicker = f"{_thicker(supply.cable)} to the building" if outside else _thicker(circuit.cable)
    check = below(
        at,
        "drop",
        _LOST,
        circuit.drop_share.times(circuit.volts),
        "V",
        limit,
        advice=f"{thicker}, or less on it at once",
        cautions=cautions_of(row),
    )
    return Judged(check, steps.drop_steps(circuit, supply))


def _reach(circuit: CircuitFacts, limit: Limit, system: System) -> str:
    """How long its cable may be at most with this load, warm, by what it may lose alone."""
    cable, now = circuit.cable, circuit.running.likely
    if cable.resistance is None or not isinstance(limit.value, float) or now <= 0.0:
        return ""
    most = float(longest_run(now, cable.resistance.high, circuit.factor, ENOUGH * limit.value))
    return f"; as it is it may be {advised(most, 'm', system, 'down', 'hose')} long at most, with a fifth to spare"


def _volts_allowed(row: Row, volts: float, held: str) -> Limit:
    share = row.figure("share")
    words = f"{100.0 * row.si('share'):.0f} % of {volts:g} V: {held}"
    return Limit(row.si("share") * volts, share.source, words)


def _wanted(key: str, cable: CableFacts) -> str:
    lacking = [name for name, there in (("cable", cable.area), ("length", cable.length)) if there is None]
    return f"say what its cable is: {' and '.join(f'electrics.{key}.{name}' for name in lacking)}"


def _thicker(cable: CableFacts) -> str:
    return "thicker copper" if cable.area is None else f"thicker copper than {copper(cable)}"


def _fewer(circuit: CircuitFacts, system: System) -> str:
    """What to take off a circuit: never a larger breaker."""
    if not circuit.loads:
        return ""
    most: LoadFacts = max(circuit.loads, key=lambda load: load.running.likely)
    power = show(most.power, "W", system)
    if len(circuit.loads) == 1 and most.count > 1:
        return f"half of {most.words} ({power} in all) on a circuit of its own, described under a name of its own"
    if len(circuit.loads) == 1:
        return f"a circuit made for {most.words} ({power}) by the electrician, cable and breaker together"
    return f"{most.words} ({power}) on a circuit of its own; never a larger breaker on the same cable"
