"""From the event until somebody has acted, for every hour of the day at which it may begin."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Literal

from tidestead.catalog import Row, table
from tidestead.core.answer import Estimate
from tidestead.plan.model import Plan
from tidestead.plan.model.response import Alarm, Response
from tidestead.plan.water_fields import OnCircuit
from tidestead.studies.faults.cases import Fault
from tidestead.studies.faults.facts import STEPS, Chain, FaultFacts, Hours, Quantity
from tidestead.studies.faults.waters import Basis

NIGHT = (22.0, 7.0)
"""Hours between which a call wakes somebody. Common practice, no source."""

_HOUR = 3600.0
_DAY = 24.0

EYES: Mapping[str, tuple[Quantity, ...]] = {
    "temperature": ("cold", "hot"),
    "oxygen": ("oxygen",),
    "leak": ("floor",),
    "level": ("floor", "low"),
}
"""Quantities that an alarm's eyes see once they have passed the level to warn."""


SEEN_AT: Mapping[Quantity, int] = {"oxygen": 1, "ammonia": 2}
"""Step at which who looks can see what no thermometer and no wet floor shows: fish hang at the surface once oxygen is
down to the level to act, ammonia shows once it harms. All else is seen at the level to warn. Common practice.
"""


@dataclass(frozen=True)
class Seeing:
    """Hours until an alarm has something to tell, until who looks could see it; `back`: until somebody comes at all."""

    heard: float
    seen: float
    back: float | None = None


@dataclass(frozen=True)
class People:
    """Hours: from the event to the message, until a call by night is answered, on the way, for the acts."""

    message: float
    answers: float
    travel: float
    does: float
    looks: tuple[float, ...]


@dataclass(frozen=True)
class Pace:
    """The same people at their quickest, as is usual and at their slowest: what the plan says has no range.

    `assumed` are the keys on which it is silent, the hours taken, low to high, and what they are for.
    """

    quick: People
    usual: People
    slow: People
    assumed: tuple[tuple[str, Estimate, str], ...] = ()


_ASKED: Mapping[str, tuple[str, str]] = {
    "message": ("response.alarm.after", "to a message"),
    "answers": ("response.answers", "until a call by night is answered"),
    "does": ("response.does", "for the first three acts"),
}
"""Keys of the plan by figures of the catalogue, and what they are for."""


def pace_of(plan: Plan) -> Pace | None:
    """Who looks when and how fast they are; None where the plan does not say."""
    said = plan.response
    if said is None or not said.looks:
        return None
    row, alarm = table("fault_limits")["people"], said.alarm
    own = {"message": None if alarm is None else alarm.after, "answers": said.answers, "does": said.does}
    spans = {name: _span(row, name, value) for name, value in own.items()}
    assumed = tuple(
        (key, spans[name], words)
        for name, (key, words) in _ASKED.items()
        if own[name] is None and not (name == "message" and alarm is None)
    )
    looks = tuple(sorted(said.looks))

    def at(end: Literal["low", "likely", "high"]) -> People:
        message, answers, does = (getattr(spans[name], end) for name in _ASKED)
        return People(message, answers, said.travel / _HOUR, does, looks)

    return Pace(at("low"), at("likely"), at("high"), assumed)


def _span(row: Row, name: str, own: float | None) -> Estimate:
    """Hours of the plan, else of the catalogue with their range."""
    if own is not None:
        return Estimate.exact(own / _HOUR, "your plan")
    low, likely, high = (row.si(f"{name}{end}") / _HOUR for end in ("_low", "", "_high"))
    return Estimate(low, likely, high, "a guess of how fast people are")


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
    quick, mean, acted = (_by_hour(people, worst) for people in (pace.quick, pace.usual, pace.slow))
    hour = max(range(24), key=acted.__getitem__)
    by, parts = _parts(pace.slow, hour, worst)
    unheard = replace(worst, heard=math.inf)
    return Chain(
        min(quick), sum(mean) / len(mean), acted[hour], by, parts, acted,
        _chance(said, pace.usual, usual, found), deaf or _blind(said.alarm, worst.heard),
        max(_by_hour(pace.slow, unheard)),
    )  # fmt: skip


def _by_hour(people: People, seeing: Seeing) -> tuple[float, ...]:
    """Hours until somebody has acted, for each hour of the day at which it may begin."""
    return tuple(_acted(people, at, seeing.heard, seeing.seen, seeing.back) for at in range(24))


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
    return min(seen, default=hours.warn)


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
    if not fault.case.cut and alarm.hangs_on:
        gone = any(one in fault.dies and basis.backed(one) <= 0.0 for one in alarm.hangs_on)
        return "what it hangs on dies with this device" if gone else ""
    if fault.case.cut and alarm.hangs_on:
        dead = [one for one in alarm.hangs_on if basis.backed(one) <= 0.0]
        return f"{dead[0].kind} {dead[0].name}, which it hangs on, dies with the power" if dead else ""
    if not fault.case.cut and _controls_die(basis, fault):
        if alarm.power == "mains" or alarm.network == "house":
            return "what it hangs on dies with this device"
        return ""
    dark = fault.case.cut
    if dark and alarm.power == "mains":
        return "the alarm dies with the power"
    if dark and alarm.network == "house" and not _router_lives(basis):
        return "the network dies with the power"
    return ""


def _controls_die(basis: Basis, fault: Fault) -> bool:
    """Whether a breaker takes with it what must run: controller and router are meant to be among those."""
    devices = basis.plan.devices
    gone = [one for one in fault.dies if one.kind == "device" and devices[one.name].must_run]
    return any(basis.backed(one) <= 0.0 for one in gone)


def _router_lives(basis: Basis) -> bool:
    """Whether something that must run goes on by itself: the router is meant to be among those."""
    must = [OnCircuit("device", key) for key, one in basis.plan.devices.items() if one.must_run]
    return any(basis.backed(item) > 0.0 for item in must)


def _blind(alarm: Alarm | None, heard: float) -> str:
    return "the plan's alarm does not watch for this" if alarm is not None and math.isinf(heard) else ""


def _heard(fault: Fault, runs: tuple[Hours, Hours | None], alarm: Alarm | None) -> float:
    """Hours until an alarm has something to tell; endless where it sees nothing of this, as that nobody comes."""
    hours, quiet = runs
    if alarm is None or fault.alone:
        return math.inf
    if any(eye in fault.sees for eye in alarm.watches):
        return 0.0
    sees: set[Quantity] = set().union(*(EYES.get(eye, ()) for eye in alarm.watches))
    return min((tells(hours, quiet, one, 0) for one in hours.reached if one in sees), default=math.inf)


def _acted(people: People, begins: int, heard: float, seen: float, back: float | None = None) -> float:
    """Hours from the event until somebody has acted."""
    return min(
        _looked(people, begins, seen, back) + people.does,
        _called(people, begins, heard) + people.travel + people.does,
    )


def _looked(people: People, begins: int, seen: float, back: float | None = None) -> float:
    """Hours until the minder looks and there is something to see; where nobody comes, until somebody does again."""
    if back is not None:
        return back
    if math.isinf(seen):
        return math.inf
    at = begins + seen
    waits = min((look - at) % _DAY for look in people.looks)
    return seen + waits


def _called(people: People, begins: int, heard: float) -> float:
    """Hours until a call has been taken."""
    if math.isinf(heard):
        return math.inf
    at = (begins + heard + people.message) % _DAY
    night = at >= NIGHT[0] or at < NIGHT[1]
    return heard + people.message + (people.answers if night else 0.0)


def _parts(people: People, begins: int, seeing: Seeing) -> tuple[str, tuple[tuple[str, float], ...]]:
    """Who it is in the worst hour, and the links of the chain."""
    heard, seen = seeing.heard, seeing.seen
    looked, called = _looked(people, begins, seen, seeing.back), _called(people, begins, heard)
    if looked <= called + people.travel:
        if math.isinf(looked):
            return "nobody", ()
        if seeing.back is not None:
            return "who comes again", (("until somebody comes again", looked), ("to act", people.does))
        return "the minder's look", (("until there is something to see", seen), ("until the next look", looked - seen),
                                     ("to act", people.does))  # fmt: skip
    return "the alarm", (
        ("until the alarm sees it", heard), ("to the message", people.message),
        ("until the call is taken", called - heard - people.message), ("on the way", people.travel),
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
    called = heard + people.message + people.answers + away + people.does
    late = sum(1 for at in begins if min(max(absent - at, seen) + people.does, called) > harm)
    return late / len(begins)
