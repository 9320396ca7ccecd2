"""Who looks when, how fast people are, and the hours until somebody has acted, whenever a thing begins."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Literal

from tidestead.catalog import Row, table
from tidestead.core.answer import Estimate
from tidestead.plan.model import Plan
from tidestead.plan.model.response import Alarm
from tidestead.plan.water_fields import OnCircuit

_HOUR = 3600.0
_DAY = 24.0

NIGHT = (22.0, 7.0)
"""Hours between which a call wakes somebody. Common practice, no source."""


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


def acted(people: People, begins: float, seeing: Seeing) -> float:
    """Hours from the event until somebody has acted."""
    return min(
        looked(people, begins, seeing) + people.does,
        called(people, begins, seeing.heard) + people.travel + people.does,
    )


def looked(people: People, begins: float, seeing: Seeing) -> float:
    """Hours until the minder looks and there is something to see; where nobody comes, until somebody does again."""
    if seeing.back is not None:
        return seeing.back
    if math.isinf(seeing.seen):
        return math.inf
    at = begins + seeing.seen
    return seeing.seen + min((look - at) % _DAY for look in people.looks)


def called(people: People, begins: float, heard: float) -> float:
    """Hours until a call has been taken."""
    if math.isinf(heard):
        return math.inf
    at = (begins + heard + people.message) % _DAY
    night = at >= NIGHT[0] or at < NIGHT[1]
    return heard + people.message + (people.answers if night else 0.0)


def by_hour(people: People, seeing: Seeing) -> tuple[float, ...]:
    """Hours until somebody has acted, for each hour of the day at which it may begin."""
    return tuple(acted(people, at, seeing) for at in range(24))


def worst_begin(people: People, seeing: Seeing) -> float:
    """The hour of the day at which it is longest until somebody has acted: it may be just after a look has passed, or
    once a call would come by night.
    """
    seen = seeing.seen if math.isfinite(seeing.seen) else 0.0
    heard = seeing.heard if math.isfinite(seeing.heard) else 0.0
    edges = [look - seen + _JUST for look in people.looks] + [NIGHT[0] - heard - people.message]
    begins = [*map(float, range(24)), *(edge % _DAY for edge in edges)]
    return max(begins, key=lambda at: acted(people, at, seeing))


_JUST = 1e-6
"""Hours after a look at which it has passed."""


def dead_in_a_cut(plan: Plan, alarm: Alarm, goes_on: Callable[[OnCircuit], float]) -> str:
    """Why a call cannot come once the mains are gone; empty where it can. `goes_on` are hours by battery."""
    if alarm.hangs_on:
        dead = [one for one in alarm.hangs_on if goes_on(one) <= 0.0]
        return f"{dead[0].kind} {dead[0].name}, which it hangs on, dies with the power" if dead else ""
    if alarm.power == "mains":
        return "the alarm dies with the power"
    must = [OnCircuit("device", key) for key, one in plan.devices.items() if one.must_run]
    router_lives = any(goes_on(item) > 0.0 for item in must)  # it is meant to be among what must run
    return "the network dies with the power" if alarm.network == "house" and not router_lives else ""
