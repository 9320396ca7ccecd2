"""Refusing waters that cannot be: courses that are no shares, parts that hang on nothing, levels above a brim.

No formulas here.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

import numpy as np

from tidestead.core.dims import Array
from tidestead.core.errors import ImpossibleInput
from tidestead.physics import _refuse

if TYPE_CHECKING:
    from tidestead.physics.transient.system import System


def numbers(**given: Array | None) -> None:
    """Raise ImpossibleInput where a course is not a row of finite numbers."""
    for name, values in given.items():
        if values is None:
            continue
        if np.ndim(values) != 1 or not np.size(values):
            raise ImpossibleInput(f"{name.replace('_', ' ')} is one number for every hour")
        _refuse.endless(**{name: values})  # type: ignore[arg-type]  # takes arrays too


def course(**given: Array | None) -> None:
    """Raise ImpossibleInput where a course is not a row of finite numbers from nothing up."""
    numbers(**given)
    for name, values in given.items():
        if values is not None:
            _refuse.negative(**{name: values})  # type: ignore[arg-type]  # takes arrays too


def filled(volume: float, brim: float) -> None:
    """Raise ImpossibleInput where there is more water than fits."""
    if volume > brim:
        raise ImpossibleInput(f"a body of {volume} m3 does not fit under a brim of {brim} m3")


def one_of(given: str, known: tuple[str, ...]) -> None:
    """Raise ImpossibleInput where a word is none of those known."""
    if given not in known:
        raise ImpossibleInput(f"'{given}' is none of {', '.join(known)}")


def one_way(flow: float, hole: float) -> None:
    """Raise ImpossibleInput where a leak is told in two ways."""
    if flow > 0.0 and hole > 0.0:
        raise ImpossibleInput("a leak is an even flow or a hole, not both")


def alike(**given: Array) -> None:
    """Raise ImpossibleInput where tables of bodies by hours differ in shape or are not finite."""
    shapes = {np.shape(values) for values in given.values()}
    if len(shapes) != 1 or len(next(iter(shapes))) != 2 or 0 in next(iter(shapes)):
        raise ImpossibleInput(f"surroundings are tables of (bodies, hours), all alike, got {sorted(shapes)}")
    for name, values in given.items():
        _refuse.endless(**{name: values})  # type: ignore[arg-type]  # takes arrays too


def system(given: System) -> None:
    """Raise ImpossibleInput where a part hangs on nothing or a level lies above a brim."""
    for fault in _loose_ends(given):
        raise ImpossibleInput(fault)
    for fault in _high_levels(given):
        raise ImpossibleInput(fault)


def _loose_ends(given: System) -> Iterator[str]:
    count = len(given.bodies)
    if not count:
        yield "there is one body of water at least"
    if given.forcing is not None and len(given.forcing.gain) != count:
        yield f"surroundings of {len(given.forcing.gain)} bodies, but there are {count}"
    ends = [(f"{kind} from", one.source) for kind, one in _ways(given)]
    ends += [
        (f"{kind} to", one.target) for kind, one in _ways(given) if kind == "overflow" or one.target != -1
    ]
    ends += [(kind, one.body) for kind, one in _hanging(given)]
    for name, at in ends:
        if not 0 <= at < count:
            yield f"{name} body {at}, but there are {count}"
    for kind, one in _ways(given):
        if one.source == one.target:
            yield f"{kind} from body {one.source} into itself"


def _ways(given: System) -> list[tuple[str, System.pumps]]:
    return [("pump", one) for one in given.pumps] + [("overflow", one) for one in given.overflows]


def _hanging(given: System) -> list:
    parts = (
        ("leak", given.leaks),
        ("top-off", given.top_offs),
        ("inflow", given.inflows),
        ("heater", given.heaters),
    )
    return [(kind, one) for kind, group in parts for one in group]


def _high_levels(given: System) -> Iterator[str]:
    levels = [("the intake of a pump", one.source, one.intake) for one in given.pumps]
    levels += [("the crest of an overflow", one.source, one.crest) for one in given.overflows]
    levels += [("the lowest level of a leak", one.body, one.low) for one in given.leaks]
    levels += [("the level a top-off holds", one.body, one.holds) for one in given.top_offs]
    for name, at, level in levels:
        brim = given.bodies[at].brim
        if level > brim:
            yield f"{name} at {level} m3 lies above the brim of body {at}, {brim} m3"
