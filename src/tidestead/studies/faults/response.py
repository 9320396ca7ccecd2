"""From the event until somebody has acted, for every hour of the day at which it may begin."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import replace

from tidestead.plan.model.response import Alarm, Response
from tidestead.plan.water_fields import OnCircuit
from tidestead.studies.faults.cases import Fault
from tidestead.studies.faults.facts import STEPS, Chain, FaultFacts, Hours, Quantity
from tidestead.studies.faults.waters import Basis
from tidestead.studies.power.people import (
    Pace,
    People,
    Seeing,
    acted,
    by_hour,
    called,
    dead_in_a_cut,
    looked,
    worst_begin,
)

_HOUR = 3600.0

EYES: Mapping[str, tuple[Quantity, ...]] = {
    "temperature": ("cold", "hot"),
    "oxygen": ("oxygen",),
    "leak": ("floor",),
    "level": ("low",),
}
"""Quantities that an alarm's eyes see once they have passed the level to warn."""


SEEN_AT: Mapping[Quantity, int] = {"oxygen": 1, "ammonia": 2}
"""Step at which who looks can see what no thermometer and no wet floor shows: fish hang at the surface once oxygen is
down to the level to act, ammonia shows once it harms. All else is seen at the level to warn. Common practice.
"""


def chain_of(basis: Basis, fault: Fault, found: FaultFacts, pace: Pace) -> Chain | None:
    """Best with quick people, mean with usual ones, worst with slow ones; None where the fault has no hours."""
    said, hours = basis.plan.response, found.soonest
    if said is None or hours is None:
        return None
    if fault.alone and said.absent is None:
        return None
    deaf = _deaf(basis, fault, said.alarm)
    worst = _seeing(fault, (hours, found.quiet), said, deaf)
    usual = _seeing(fault, (found.likely or hours, found.quiet_likely), said, deaf)
    mean, hour = by_hour(pace.usual, worst), worst_begin(pace.slow, worst)
    by, parts = _parts(pace.slow, hour, worst)
    unheard = replace(worst, heard=math.inf)
    return Chain(
        min(by_hour(pace.quick, worst)), sum(mean) / len(mean), acted(pace.slow, hour, worst), by, parts,
        by_hour(pace.slow, worst), _chance(said, pace.usual, usual, found),
        deaf or _blind(said.alarm, worst.heard), acted(pace.slow, worst_begin(pace.slow, unheard), unheard),
    )  # fmt: skip


def _seeing(fault: Fault, runs: tuple[Hours, Hours | None], said: Response, deaf: str) -> Seeing:
    """What can be seen and heard of a run, beside the same water with nothing wrong."""
    return Seeing(
        math.inf if deaf else _heard(fault, runs, said.alarm),
        0.0 if fault.plain else _seen(*runs),
        said.absent / _HOUR if fault.alone and said.absent is not None else None,
    )


def _seen(hours: Hours, quiet: Hours | None) -> float:
    """When somebody who looks would see it; what never comes so far is not seen.

    Where the water passes a level by itself, the next one shows that something is wrong.
    """
    seen = (
        tells(hours, quiet, quantity, step)
        for quantity in hours.reached
        for step in range(SEEN_AT.get(quantity, 0), len(STEPS))
    )
    return min(min(seen, default=hours.warn), _sunk(hours, quiet))


def _sunk(hours: Hours, quiet: Hours | None) -> float:
    """Hours until a low sump tells of a fault."""
    own = math.inf if quiet is None else quiet.sunk
    return hours.sunk if hours.sunk + _EARLIER <= own else math.inf


def tells(hours: Hours, quiet: Hours | None, quantity: Quantity, step: int) -> float:
    """Hours until a level tells of a fault; endless where the water passes it by itself no later than an hour after."""
    found = hours.reached[quantity][step]
    own = math.inf if quiet is None or quantity not in quiet.reached else quiet.reached[quantity][step]
    return found if found + _EARLIER <= own else math.inf


_EARLIER = 1.0
"""Hours by which a fault must pass a level before the water does by itself, for that to tell of it. Own choice."""


def _deaf(basis: Basis, fault: Fault, alarm: Alarm | None) -> str:
    """Why an alarm that there is cannot call; empty where it can."""
    if alarm is None:
        return "the plan names no alarm"
    if fault.case.cut:
        return dead_in_a_cut(basis.plan, alarm, basis.backed)
    hangs = alarm.hangs_on or _controls(basis, alarm)
    gone = any(one in fault.dies and basis.backed(one) <= 0.0 for one in hangs)
    return "what it hangs on dies with this device" if gone else ""


def _controls(basis: Basis, alarm: Alarm) -> tuple[OnCircuit, ...]:
    """What must run, where an alarm needs the mains or the house's network: controller and router are meant by that."""
    if alarm.power == "battery" and alarm.network == "mobile":
        return ()
    return tuple(OnCircuit("device", key) for key, one in basis.plan.devices.items() if one.must_run)


def _blind(alarm: Alarm | None, heard: float) -> str:
    return "the plan's alarm does not watch for this" if alarm is not None and math.isinf(heard) else ""


def _heard(fault: Fault, runs: tuple[Hours, Hours | None], alarm: Alarm | None) -> float:
    """Hours until an alarm has something to tell; endless where it sees nothing of this, as that nobody comes."""
    hours, quiet = runs
    if alarm is None or fault.alone:
        return math.inf
    at_once = [fault.late.get(eye, 0.0) for eye in alarm.watches if eye in fault.sees]
    if "level" in alarm.watches:
        at_once.append(_sunk(hours, quiet))
    sees: set[Quantity] = set().union(*(EYES.get(eye, ()) for eye in alarm.watches))
    return min(
        (*at_once, *(tells(hours, quiet, one, 0) for one in hours.reached if one in sees)), default=math.inf
    )


def _parts(people: People, begins: float, seeing: Seeing) -> tuple[str, tuple[tuple[str, float], ...]]:
    """Who it is in the worst hour, and the links of the chain."""
    heard, seen = seeing.heard, seeing.seen
    look, call = looked(people, begins, seeing), called(people, begins, heard)
    if look <= call + people.travel:
        if math.isinf(look):
            return "nobody", ()
        if seeing.back is not None:
            return "who comes again", (("until somebody comes again", look), ("to act", people.does))
        return "the minder's look", (("until there is something to see", seen), ("until the next look", look - seen),
                                     ("to act", people.does))  # fmt: skip
    return "the alarm", (
        ("until the alarm sees it", heard), ("to the message", people.message),
        ("until the call is taken", call - heard - people.message), ("on the way", people.travel),
        ("to act", people.does),
    )  # fmt: skip


def _chance(said: Response, people: People, seeing: Seeing, found: FaultFacts) -> float | None:
    """Chance that a fault which begins at any hour of the longest time that nobody may look ends in harm, likely hours.

    In that time nobody looks; an alarm fetches the owner, or the minder where the plan names no owner.
    """
    if said.absent is None or found.likely is None:
        return None
    heard, seen = seeing.heard, seeing.seen
    absent = said.absent / _HOUR
    away = people.travel if said.owner is None else said.owner / _HOUR
    harm = found.likely.harm
    begins = [absent * (step + 0.5) / 200.0 for step in range(200)]
    fetched = heard + people.message + people.answers + away + people.does
    late = sum(1 for at in begins if min(max(absent - at, seen) + people.does, fetched) > harm)
    return late / len(begins)
