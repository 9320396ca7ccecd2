"""Faults that need no transient: overflows and drains that are blocked, a bottle that is emptied at once."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from tidestead.catalog import table
from tidestead.core.answer import Estimate
from tidestead.physics.water import dosing
from tidestead.studies.faults.case import Case
from tidestead.studies.faults.cases import Fault, acts_of
from tidestead.studies.faults.facts import (
    STEPS,
    Bought,
    Chain,
    FaultFacts,
    FilmFacts,
    Hours,
    Quantity,
    Season,
    Threshold,
)
from tidestead.studies.faults.waters import Basis
from tidestead.studies.flow.drains import DrainFacts
from tidestead.studies.vessels import plan_area
from tidestead.studies.water.dosing import reagents, stock_of_reagent

_HOUR = 3600.0
_SEASON: Season = "winter"


@dataclass(frozen=True)
class Filling:
    """A vessel that fills: m3 of room to its brim, flow that nothing takes away, water that may come over it.

    The pump has `stored` m3 to give; what comes `after` is as fast as floats let in, m3/s.
    """

    room: float
    flow: Estimate
    over: float
    stored: float = math.inf
    after: float = 0.0


def blocked_faults(basis: Basis, floor: Threshold) -> Iterator[tuple[Fault, FaultFacts]]:
    """The display's way over blocked, and the worst of the other drains."""
    display = basis.setting.display
    drains = {one.vessel: one for one in basis.flow.drains}
    own = drains.get(display)
    yield _blocked("comb", "Overflow of the display blocked", basis, [own] if own else [], floor)
    others = [one for key, one in drains.items() if key != display and key in basis.setting.volumes]
    if others or own is None:
        yield _blocked("drain", "A drain further on blocked", basis, others, floor)


def _blocked(
    key: str, title: str, basis: Basis, drains: list[DrainFacts], floor: Threshold
) -> tuple[Fault, FaultFacts]:
    fault = Fault(key, key, title, Case(_SEASON), ("floor",), sees=("leak", "level"), plain=False)
    found = [(one, _worst(basis, one)) for one in drains]
    missing = "; ".join(basis.flow.missing) or "no drain of it is known"
    doubt = next((one.doubt for one in drains if one.doubt), "")
    if not found or doubt:
        return fault, _facts(
            fault, None, _More(unproven=doubt or f"the circulation is not solved: {missing}")
        )
    spilling = [(one, filling) for one, filling in found if filling is not None]
    if not spilling:
        never = Hours(math.inf, math.inf, math.inf, None)
        words = "every way out that is blocked alone leaves others that carry all of it"
        return fault, _facts(fault, (never, never, never), _More(words, part=drains[0].vessel))
    drain, filling = min(spilling, key=lambda pair: pair[1].room / max(pair[1].flow.high, 1e-12))
    flow = filling.flow
    hours = (
        _hours(filling, flow.likely, floor), _hours(filling, flow.high, floor), _hours(filling, flow.low, floor),
    )  # fmt: skip
    over = filling.over
    switch = table("fault_acts")["sizes"].si("tried_switch")
    shut = _hours(replace(filling, over=min(filling.over, switch)), flow.likely, floor).harm
    before = hours[0].harm
    helps = [Bought("switch", shut, ((switch, "m3"),), before=before)]
    if drain.level < drain.brim:
        line = f"{drain.vessel}.{drain.sole or drain.lines[0]}"
        helps.append(Bought("drain", math.inf, part=line, before=before))
    words = (
        "water that comes from a line goes on running"
        if math.isinf(over)
        else "then the pump has drawn the sump down"
    )
    spills = Estimate(over, over, over) if math.isfinite(over) else None
    more = _More(words, part=drain.vessel, spills=spills, bought=tuple(helps))
    return fault, _facts(fault, hours, more)


def _worst(basis: Basis, drain: DrainFacts) -> Filling | None:
    """What spills where one way is blocked; None where the others carry it."""
    flow = basis.flow.over(lambda running: running.inflow.get(drain.vessel, 0.0))
    if drain.sole:
        held = drain.held
        area = held.area
        if math.isfinite(held.level) and held.level <= held.brim:
            return None
        room = _room(held.tightest or drain.vessel, held.risen, held.brim)
        over = math.inf if not math.isfinite(held.level) else area * (held.level - held.brim)
        stored = sum(one.volume for one in held.sunk.values())
        return Filling(room, flow, over, stored, _floats(basis))
    for line in drain.lines:
        tight = drain.tightest.get(("blocked", line))
        if tight is None:
            return Filling(0.0, flow, math.inf, _sump_gives(basis), _floats(basis))
        if tight.highest > tight.brim:
            vessel = basis.plan.vessels[tight.vessel]
            room = max(tight.brim - basis.flow.levels.get(tight.vessel, tight.brim), 0.0) * plan_area(vessel)
            left = max(tight.passed[0] - tight.passed[1], 0.0)
            rest = Estimate.exact(left) if left > 0.0 else flow
            return Filling(room, rest, _sump_gives(basis), _sump_gives(basis))
    return None


def _room(vessel: str, risen: Mapping[str, tuple[float, float]], brim: float) -> float:
    """m3 that a vessel and those it backs up take until it stands at its brim."""
    return sum(
        area * max(brim - before, 0.0)
        for key, (area, before) in risen.items()
        if key == vessel or before < brim
    )


def _sump_gives(basis: Basis) -> float:
    """Water that the pump draws until it starves, m3."""
    sump = basis.sump
    return math.inf if sump is None else max(sump.volume - sump.intake, 0.0)


def _floats(basis: Basis) -> float:
    """What all floats of what goes round let in together, m3/s."""
    vessels = (basis.plan.vessels[key] for pool in basis.pools for key in pool.keys)
    return sum(one.top_off.flow for one in vessels if one.top_off is not None)


def _hours(filling: Filling, flow: float, floor: Threshold) -> Hours:
    """Hours until so much has gone over the brim."""
    if flow <= 0.0:
        return Hours(math.inf, math.inf, math.inf, None)
    times = [_filled(filling, flow, level) / _HOUR for level in floor.levels]
    return Hours(times[0], times[1], times[2], "floor")


def _filled(filling: Filling, flow: float, level: float) -> float:
    """Seconds until so much has gone over: the pump empties the sump first, then only the floats go on."""
    wanted = filling.room + level
    if level > filling.over:
        return math.inf
    if wanted <= filling.stored:
        return wanted / flow
    if filling.after <= 0.0:
        return math.inf
    return filling.stored / flow + (wanted - filling.stored) / min(filling.after, flow)


@dataclass(frozen=True)
class _More:
    """What a fault says beside its hours."""

    words: str = ""
    numbers: tuple[tuple[float, str], ...] = ()
    part: str = ""
    spills: Estimate | None = None
    unproven: str = ""
    bought: tuple[Bought, ...] = ()


def _facts(fault: Fault, hours: tuple[Hours, Hours, Hours] | None, more: _More) -> FaultFacts:
    """The facts of a fault that was not run."""
    acts, never = acts_of(fault)
    likely, soonest, latest = hours if hours is not None else (None, None, None)
    return FaultFacts(
        fault.key, fault.title, None, acts, never, more.part, likely, soonest, latest, until=fault.until,
        spills=more.spills, bought=more.bought, words=more.words, unproven=more.unproven, numbers=more.numbers,
    )  # fmt: skip


def _alkaline_steps() -> tuple[float, ...]:
    """Alkalinity that comes at once, mol/m3: warn, act, harm."""
    row = table("fault_limits")["alkalinity"]
    return tuple(row.si(name) for name in STEPS)


def doser_faults(basis: Basis) -> Iterator[tuple[Fault, FaultFacts]]:
    """Every bottle of an alkaline stock, emptied at once: it is done before anybody comes."""
    steps, rows, volume = _alkaline_steps(), reagents(basis.plan), basis.setting.volume
    for key, doser in basis.plan.dosers.items():
        strength = stock_of_reagent(rows[doser.reagent], doser.strength).alkalinity
        if doser.vessel not in basis.setting.volumes or strength <= 0.0:
            continue
        rise = float(dosing.bottle_rise(doser.bottle, strength, volume))
        watched: tuple[Quantity, ...] = ("alkalinity",)
        fault = Fault(
            f"doser.{key}", "doser", f"Doser {key} empties its bottle", Case(_SEASON), watched, plain=False
        )
        at = [0.0 if rise >= step else math.inf for step in steps]
        hours = Hours(at[0], at[1], at[2], "alkalinity" if at[0] == 0.0 else None)
        safe = steps[2] / rise * doser.bottle
        words, numbers = "alkalinity rises by {} at once", [(rise, "mol/m3")]
        if at[2] == 0.0:
            words += "; a bottle of no more than {} cannot do harm"
            numbers.append((safe, "m3"))
        yield (
            fault,
            _facts(fault, (hours, hours, hours), _More(words, tuple(numbers), f"dosers.{key}")),
        )


def limewater_faults(basis: Basis) -> Iterator[tuple[Fault, FaultFacts]]:
    """Limewater behind floats that stick open: alkalinity by what has come in, no more than the reservoirs hold."""
    lime, volume = basis.plan.kalkwasser, basis.setting.volume
    valves = [one.top_off for one in basis.plan.vessels.values() if one.top_off is not None]
    if lime is None or not valves:
        return
    strength = lime.share * table("water_limits")["carbonate"].si("limewater")
    flow = sum(valve.flow for valve in valves)
    most = sum(math.inf if valve.stock is None else valve.stock for valve in valves)
    wanted = [step * volume / strength if strength > 0.0 else math.inf for step in _alkaline_steps()]
    at = [room / flow / _HOUR if room <= most and flow > 0.0 else math.inf for room in wanted]
    hours = Hours(at[0], at[1], at[2], "alkalinity" if math.isfinite(at[0]) else None)
    fault = Fault(
        "top-off-lime", "top-off-open", "Top-off stuck open lets in limewater", Case(_SEASON), ("alkalinity",),
        sees=("level",), plain=False,
    )  # fmt: skip
    words, numbers = "it comes from a line: nothing ends it but somebody who shuts it", []
    if math.isfinite(most):
        words, numbers = (
            "all of the reservoir raises alkalinity by {}",
            [(most * strength / volume, "mol/m3")],
        )
    if math.isfinite(at[2]):
        words += "; {} of limewater can do no harm"
        numbers.append((wanted[2], "m3"))
    yield fault, _facts(fault, (hours, hours, hours), _More(words, tuple(numbers), "kalkwasser"))


_DAY = 24.0


def glass_fault(film: FilmFacts | None) -> Iterator[FaultFacts]:
    """Days of wiping missed, in the month that grows fastest: what is borne passed, then half the window set.

    Somebody has acted at the next wipe of the plan.
    """
    if film is None:
        return
    seen, borne, half = film.missed
    likely = Hours(_DAY * seen.likely, _DAY * borne.likely, _DAY * half.likely, "film")
    soonest = Hours(_DAY * seen.low, _DAY * borne.low, _DAY * half.low, "film")
    latest = Hours(_DAY * seen.high, _DAY * borne.high, _DAY * half.high, "film")
    fault = Fault("glass", "glass", "Windows not wiped, brightest month", Case("summer"), ("film",))
    chain = None
    if film.every is not None:
        wipe = _DAY * film.every
        parts = (("until the next wipe", wipe),)
        chain = Chain(wipe, wipe, wipe, "whoever wipes", parts, (wipe,) * 24, None)
    facts = _facts(fault, (likely, soonest, latest), _More(part="cleaning"))
    until = _DAY * (max(half.high, film.every or 0.0) + 1.0)
    yield replace(facts, chain=chain, until=until)
