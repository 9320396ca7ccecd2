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

_FLOOR = -1


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
    for name, at in _ends(given):
        if not 0 <= at < count:
            yield f"{name} body {at}, but there are {count}"
    ways = [(one.source, one.target) for one in given.pumps]
    ways += [(one.source, one.target) for one in given.overflows]
    for source, target in ways:
        if source == target:
            yield f"a pump or an overflow from body {source} into itself"


def _ends(given: System) -> Iterator[tuple[str, int]]:
    """The bodies that parts speak of."""
    for pump in given.pumps:
        yield "a pump from", pump.source
        if pump.target != _FLOOR:
            yield "a pump to", pump.target
    for fall in given.overflows:
        yield "an overflow from", fall.source
        yield "an overflow to", fall.target
    yield from (("a leak of", one.body) for one in given.leaks)
    yield from (("a top-off of", one.body) for one in given.top_offs)
    yield from (("an inflow into", one.body) for one in given.inflows)
    yield from (("a heater in", one.body) for one in given.heaters)


def _high_levels(given: System) -> Iterator[str]:
    levels = [("the intake of a pump", one.source, one.intake) for one in given.pumps]
    levels += [("the crest of an overflow", one.source, one.crest) for one in given.overflows]
    levels += [("the lowest level of a leak", one.body, one.low) for one in given.leaks]
    levels += [("the level a top-off holds", one.body, one.holds) for one in given.top_offs]
    for name, at, level in levels:
        brim = given.bodies[at].brim
        if level > brim:
            yield f"{name} at {level} m3 lies above the brim of body {at}, {brim} m3"
