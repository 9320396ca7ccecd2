"""Faults run through the transient: hours to each level, likely and at both ends, what drives them, what would help."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import partial
from threading import Lock

import numpy as np

from tidestead.catalog import table
from tidestead.core.answer import Estimate
from tidestead.core.dims import Array
from tidestead.physics.transient.engine import Course, hours_until, run
from tidestead.physics.transient.engine import Quantity as CourseQuantity
from tidestead.physics.transient.system import System
from tidestead.plan.water_fields import OnCircuit
from tidestead.studies.faults.case import Case
from tidestead.studies.faults.cases import FIVE_DAYS, Fault, acts_of
from tidestead.studies.faults.facts import (
    Bought,
    Curves,
    Driver,
    FaultFacts,
    Hours,
    Quantity,
    Season,
    Threshold,
)
from tidestead.studies.faults.knobs import LIKELY, NAMES, End, Knobs, all_at, only
from tidestead.studies.faults.normal import air_oxygen, system_of
from tidestead.studies.faults.waters import Basis
from tidestead.studies.water.aeration import Stone

Levels = Mapping[Quantity, Threshold]

HoursOf = Callable[[Course], Hours]

MOVED_BY: Mapping[Quantity, tuple[str, ...]] = {
    "oxygen": ("uptake", "still", "stirred", "lid", "bubbles"), "cold": ("heat",), "hot": ("heat",),
    "ammonia": ("ammonia", "filter", "acid"), "salt": ("vapour",), "fresh": ("leak", "vapour"), "floor": ("leak",),
    "low": ("leak",),
}  # fmt: skip
"""Knobs that bear on each quantity."""

_BEFORE = 36.0
_SETTLING = 300.0
"""Hours that the waters run as usual before something stops, and the step for that. Own choices."""

_FELT = 0.03
"""Share by which an assumption must shorten the hours to be told as what drives them. Own choice."""

HELD_IN = Knobs({**dict.fromkeys(NAMES, "adverse"), "heat": "mild"})
"""All adverse, but heat passes slowly: what a heater that never stops gives to the water then stays in it."""

_OF_COURSE: Mapping[Quantity, CourseQuantity] = {
    "oxygen": "oxygen", "cold": "temp_c", "hot": "temp_c", "ammonia": "nh3", "salt": "sal_psu", "fresh": "sal_psu",
}  # fmt: skip


@dataclass
class Settled:
    """Waters as they are before anything stops, kept by season, ends and stock."""

    basis: Basis
    kept: dict[tuple[object, ...], System] = field(default_factory=dict)
    courses: dict[tuple[object, ...], Course] = field(default_factory=dict)
    lock: Lock = field(default_factory=Lock)

    def system(self, case: Case, knobs: Knobs) -> System:
        """The system of a case, holding the oxygen and the ammonia of the water as it was before."""
        own = system_of(self.basis, case, knobs)
        before = self._before(case.season, knobs, case.breathes, case.eats)
        bodies = tuple(
            replace(body, oxygen=old.oxygen, tan=old.tan)
            for body, old in zip(own.bodies, before.bodies, strict=True)
        )
        return replace(own, bodies=bodies)

    def quiet(self, fault: Fault, knobs: Knobs) -> Course:
        """The course of the water over the time that a fault is followed, with nothing wrong."""
        case = Case(fault.case.season, by_hand=fault.until > FIVE_DAYS)
        key = (case.season, case.by_hand, fault.until, fault.step, tuple(sorted(knobs.ends.items())))
        with self.lock:
            found = self.courses.get(key)
        if found is None:
            found = run(self.system(case, knobs), fault.until, fault.step)
            with self.lock:
                self.courses[key] = found
        return found

    def _before(self, season: Season, knobs: Knobs, breathes: float, eats: float) -> System:
        """As usual; whoever eats nothing from now on has eaten till now, who is fewer has been fewer."""
        eaten = 1.0 if eats <= 0.0 else eats
        key = (season, tuple(sorted(knobs.ends.items())), breathes, eaten)
        with self.lock:
            found = self.kept.get(key)
        if found is None:
            usual = system_of(self.basis, Case(season, breathes=breathes, eats=eaten), knobs)
            course = run(usual, _BEFORE, _SETTLING)
            bodies = tuple(
                replace(body, oxygen=float(course.oxygen[at, -1]), tan=max(float(course.tan[at, -1]), 0.0))
                for at, body in enumerate(usual.bodies)
            )
            found = replace(usual, bodies=bodies)
            with self.lock:
                self.kept[key] = found
        return found


def facts_of(settled: Settled, levels: Levels, fault: Fault) -> FaultFacts:
    """Everything about one fault but who acts when."""
    acts, never = acts_of(fault)
    blank = FaultFacts(
        fault.key,
        fault.title,
        fault.case.season,
        acts,
        never,
        fault.part,
        words=fault.words,
        numbers=fault.numbers,
    )
    silent = _silent(settled.basis, fault)
    watched = _told(fault, silent)
    untold = "; ".join(dict.fromkeys(silent[one] for one in fault.watched if one in silent))
    if fault.needs or not watched:
        return replace(blank, unproven=fault.needs or untold or "nothing in the plan can come to harm by it")
    blank = replace(blank, untold=untold)
    course = _run(settled, fault, fault.case, LIKELY)
    hours = partial(_hours, levels=levels, watched=watched)
    likely = hours(course)
    ends = [_run(settled, fault, fault.case, knobs) for knobs in (all_at("adverse"), HELD_IN, all_at("mild"))]
    hasty, held_in, latest = (hours(one) for one in ends)
    soonest = _least(hasty, held_in)
    quiet = [hours(settled.quiet(fault, knobs)) for knobs in (LIKELY, all_at("adverse"), HELD_IN)]
    return replace(
        blank,
        likely=likely,
        soonest=_least(soonest, likely),
        latest=_most(latest, likely),
        quiet=_least(_least(quiet[1], quiet[2]), quiet[0]),
        quiet_likely=quiet[0],
        until=fault.until,
        driver=_driver(settled, fault, hours, (likely, soonest)),
        spills=_spilled(course, ends),
        drains=float(course.volume[0, -1] / course.volume[0, 0]),
        curves=_curves(course, settled.basis.pools[-1].area),
    )


def with_helps(settled: Settled, levels: Levels, fault: Fault, found: FaultFacts) -> FaultFacts:
    """A fault with what was tried against it; what must be fed is fed for a day, or until somebody has acted where that
    is later.
    """
    if found.likely is None or not fault.tries:
        return found
    watched = _told(fault, _silent(settled.basis, fault))
    hours = partial(_hours, levels=levels, watched=watched)
    worst = _DAY if found.chain is None or math.isinf(found.chain.worst) else found.chain.worst
    held = min(max(_DAY, float(math.ceil(worst))), fault.until)
    return replace(found, bought=tuple(_bought(settled, fault, hours, (found.likely.harm, held))))


def _told(fault: Fault, silent: Mapping[Quantity, str]) -> tuple[Quantity, ...]:
    """What is watched and can be told."""
    return tuple(one for one in fault.watched if one not in silent)


def _silent(basis: Basis, fault: Fault) -> dict[Quantity, str]:
    """What cannot be told, and why: warmth and vapour need the weather, breath needs something that breathes."""
    found: dict[Quantity, str] = {}
    if not basis.heat.holdings:
        why = next(iter(basis.heat.missing), "there is no weather")
        found |= dict.fromkeys(("cold", "hot"), f"how cold or warm it gets is not known: {why}")
        if fault.until > FIVE_DAYS:
            found["salt"] = f"what evaporates is not known: {why}"
    stock = next(iter(basis.stock.missing), "write [fish.NAME], [feed] or [corals.NAME]")
    if basis.stock.uptake.likely <= 0.0:
        found["oxygen"] = f"nothing in the plan breathes: {stock}"
    if basis.stock.ammonia is None:
        found["ammonia"] = f"what ammonia is given is not known: {stock}"
    return found


def _run(settled: Settled, fault: Fault, case: Case, knobs: Knobs) -> Course:
    return run(settled.system(case, knobs), fault.until, fault.step)


def _hours(course: Course, levels: Levels, watched: Sequence[Quantity]) -> Hours:
    """Hours to the three levels, each by whatever reaches it first."""
    reached: dict[Quantity, tuple[float, float, float]] = {}
    for one in watched:
        warn, act, harm = (_until(course, levels[one], level) for level in levels[one].levels)
        reached[one] = warn, act, harm
    first = [min(found[step] for found in reached.values()) for step in range(3)]
    deepest = max((step for step in range(3) if math.isfinite(first[step])), default=None)
    by = None if deepest is None else min((reached[one][deepest], one) for one in watched)[1]
    return Hours(first[0], first[1], first[2], by, reached, _sunk(course))


def _sunk(course: Course) -> float:
    """Hours until the sump has lost so much of its water that it is seen."""
    if len(course.volume) < _TWO:
        return math.inf
    share = table("fault_acts")["sizes"].si("seen_share")
    found = _first(course.hours, -course.volume[1] / course.volume[1, 0], share - 1.0)
    return math.inf if found is None else found


_TWO = 2
"""Bodies where there is a sump."""


def _until(course: Course, threshold: Threshold, level: float) -> float:
    """Hours until one level; endless where it is not reached."""
    if threshold.quantity in _OF_COURSE:
        quantity = _OF_COURSE[threshold.quantity]
        found = hours_until(course, 0, quantity, level, threshold.rising)
    elif threshold.quantity == "floor":
        found = _first(course.hours, course.flood, level)
    else:
        found = _first(course.hours, -course.volume[0] / course.volume[0, 0], -level)
    return math.inf if found is None else found


def _first(hours: Array, values: Array, level: float) -> float | None:
    """When a rising curve is at a level."""
    over = np.nonzero(values >= level)[0]
    if not len(over):
        return None
    at = int(over[0])
    if at == 0:
        return 0.0
    share = (level - values[at - 1]) / max(values[at] - values[at - 1], 1e-12)
    return float(hours[at - 1] + share * (hours[at] - hours[at - 1]))


def _least(one: Hours, other: Hours) -> Hours:
    """Step by step the earlier."""
    warn, act, harm = map(min, one.all_three, other.all_three)
    by = other.by if one.by is None or other.harm < one.harm else one.by
    reached = _each(min, one, other)
    return Hours(warn, act, harm, by, reached, min(one.sunk, other.sunk))


def _most(one: Hours, other: Hours) -> Hours:
    warn, act, harm = map(max, one.all_three, other.all_three)
    reached = _each(max, one, other)
    return Hours(warn, act, harm, one.by, reached, max(one.sunk, other.sunk))


def _each(
    of: Callable[[float, float], float], one: Hours, other: Hours
) -> dict[Quantity, tuple[float, float, float]]:
    """The earlier or the later of every quantity and step."""
    found: dict[Quantity, tuple[float, float, float]] = {}
    for key in one.reached.keys() & other.reached.keys():
        warn, act, harm = map(of, one.reached[key], other.reached[key])
        found[key] = warn, act, harm
    return found


def _driver(settled: Settled, fault: Fault, hours: HoursOf, runs: tuple[Hours, Hours]) -> Driver | None:
    """The knob that alone shortens the hours most, to the deepest level that is reached at worst."""
    likely, soonest = runs
    step = max((at for at in range(3) if math.isfinite(soonest.all_three[at])), default=None)
    if step is None or soonest.by is None:
        return None
    found = {
        name: hours(_run(settled, fault, fault.case, only(name))).all_three[step]
        for name in MOVED_BY[soonest.by]
    }
    name = min(found, key=found.__getitem__)
    before = min(likely.all_three[step], fault.until)
    if found[name] >= before * (1.0 - _FELT):
        return None
    return Driver(name, NAMES[name], found[name])


def _spilled(course: Course, ends: Sequence[Course]) -> Estimate | None:
    """Water on the floor at the end, m3; None where it stays dry."""
    likely = float(course.flood[-1])
    values = [likely, *(float(one.flood[-1]) for one in ends)]
    if max(values) < _A_CUP:
        return None
    return Estimate(min(values), likely, max(values), "adverse and mild ends together")


_A_CUP = 2e-4
"""m3 of water that is none."""


def _curves(course: Course, area: float) -> Curves:
    """By the hour, or as often as there are steps where these are fewer. `area` is that of the last body, m2."""
    per = max(round(1.0 / (course.hours[1] - course.hours[0])), 1) if len(course.hours) > 1 else 1
    stride = per if course.hours[-1] > _DAY else 1

    def row(values: Array) -> tuple[float, ...]:
        return tuple(map(float, values[::stride]))

    return Curves(
        row(course.hours), row(course.temp_c[0]), row(course.oxygen[0]), row(course.nh3[0]), row(course.sal_psu[0]),
        row(course.volume[0]), row(course.flood), row((course.volume[-1] - course.volume[-1, 0]) / area),
    )  # fmt: skip


_DAY = 24.0


def _bought(settled: Settled, fault: Fault, hours: HoursOf, known: tuple[float, float]) -> Iterator[Bought]:
    """What is tried against the fault, each by itself, likely, or at the adverse end where only that comes to harm.

    `known` are the likely hours to harm, and those for which what must be fed is fed.
    """
    (before, held), knobs = known, LIKELY
    if math.isinf(before):
        ends = [
            (hours(_run(settled, fault, fault.case, one)).harm, one) for one in (all_at("adverse"), HELD_IN)
        ]
        before, knobs = min(ends, key=lambda pair: pair[0])
    for name in fault.tries:
        tried = _tried(settled.basis, fault.case, name, (held, knobs.end("bubbles")))
        if tried is not None:
            case, help_ = tried
            harm = hours(_run(settled, fault, case, knobs)).harm
            yield replace(help_, harm=harm, before=before, at_worst=knobs is not LIKELY)


def _tried(basis: Basis, case: Case, name: str, fed: tuple[float, End]) -> tuple[Case, Bought] | None:
    """A case with one help, and the help with the numbers that belong to it; None where it is there already.

    `fed` are the hours for which what must be fed is fed, and the end at which bubbles give oxygen.
    """
    held, end = fed
    sizes, blank = table("fault_acts")["sizes"], Bought(name, math.inf)
    if name == "air":
        flow, depth, watts = (sizes.si(one) for one in ("tried_air", "tried_depth", "tried_power"))
        gain = air_oxygen(basis, Stone(flow, depth, "fine"), end)
        numbers = ((flow, "m3/s air"), (depth, "m"))
        return replace(case, air=gain, air_for=held), replace(blank, numbers=numbers, draws=watts, hours=held)
    if name == "pump":
        pump = _main(basis)
        if pump is None or basis.backed(pump) >= held:
            return None
        watts = basis.plan.pumps[pump.name].power or 0.0
        devices = basis.plan.devices
        more = (devices[one.name].power for one in basis.power.must_run if one.kind == "device")
        watts += sum(more)
        told = replace(blank, numbers=((watts * _A_DAY, "J"),), part=pump.name, draws=watts, hours=held)
        return replace(case, kept={pump: held}), told
    if name == "stock":
        return _smaller_stock(basis, case, blank)
    if name == "switch":
        at = sizes.si("tried_switch")
        return replace(case, switch=at), replace(blank, numbers=((at, "m3"),))
    simple = {
        "cover": replace(case, covered=True),
        "half": replace(case, eats=0.5 * case.eats, breathes=0.5),
        "hungry": replace(case, eats=0.0),
        "split": replace(case, halved=True),
    }
    return simple[name], replace(blank, part=case.stuck_on)


_A_DAY = 86400.0


def _smaller_stock(basis: Basis, case: Case, blank: Bought) -> tuple[Case, Bought] | None:
    """A reservoir so small that all of it moves salinity no further than to the level to act, and fits the sump."""
    act = table("fault_limits")["salinity"].si("act")
    sal, volume = basis.setting.sal_psu, basis.setting.volume
    if sal <= act:
        return None
    safe = volume * act / (sal - act)
    sump = basis.sump
    room = safe if sump is None else min(safe, sump.brim - sump.volume)
    return replace(case, stock=room), replace(blank, numbers=((room, "m3"),))


def _main(basis: Basis) -> OnCircuit | None:
    """The pump that lifts most into the display."""
    fed = {name: into for name, into in basis.feeds.items() if into > 0.0}
    return OnCircuit("pump", max(fed, key=fed.__getitem__)) if fed else None
