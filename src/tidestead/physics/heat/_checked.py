"""Refusing a system that cannot be laid out: tables and hours of another length, parts that hang on nothing.

No formulas here. Shapes are asked where a system is made, so that the compiled engine never reads past a table.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

import numpy as np

from tidestead.core.dims import Array
from tidestead.core.errors import ImpossibleInput
from tidestead.core.weather import HOURS
from tidestead.physics import _refuse

if TYPE_CHECKING:
    from tidestead.physics.heat.system import Sheet, System

_DEGREES = 91
_LAST_DIGIT = 1e-9


def hours(**given: Array | None) -> None:
    """Raise ImpossibleInput where what is told by the hour is not a year of finite numbers."""
    for name, values in given.items():
        if values is None:
            continue
        if np.shape(values) != (HOURS,):
            raise ImpossibleInput(f"{name.replace('_', ' ')} has {HOURS} hours, got {np.shape(values)}")
        if not np.all(np.isfinite(values)):
            raise ImpossibleInput(f"{name.replace('_', ' ')} has an hour that is no number")


def share_hours(**given: Array | None) -> None:
    """Raise ImpossibleInput where hours of a share are not from 0 to 1."""
    hours(**given)
    for name, values in given.items():
        if values is not None and not (np.min(values) >= 0.0 and np.max(values) <= 1.0):
            raise ImpossibleInput(f"{name.replace('_', ' ')} must be from 0 to 1 in every hour")


def sheet(given: Sheet) -> None:
    """Raise ImpossibleInput where the tables of a clear sheet do not fit its panes, or it makes light."""
    wide = given.panes + 1
    if np.shape(given.beam) != (_DEGREES, wide) or np.shape(given.diffuse) != (wide,):
        raise ImpossibleInput(
            f"a sheet of {given.panes} panes has tables of ({_DEGREES}, {wide}) and ({wide},), "
            f"got {np.shape(given.beam)} and {np.shape(given.diffuse)}"
        )
    for values in (given.beam, given.diffuse):
        if not (np.min(values) >= 0.0 and np.max(np.sum(values, axis=-1)) <= 1.0 + _LAST_DIGIT):
            raise ImpossibleInput("what passes a sheet and what its panes take is from 0 to 1 together")
    for gap in given.gaps:
        _refuse.not_positive(conductance_between_panes=gap)


def system(given: System) -> None:
    """Raise ImpossibleInput where a part hangs on nothing."""
    for fault in _loose_ends(given):
        raise ImpossibleInput(fault)


def _loose_ends(given: System) -> Iterator[str]:
    count = len(given.bodies)
    for heating in given.heatings:
        if not 0 <= heating.body < count:
            yield f"a heater in body {heating.body}, but there are {count}"
    for link in given.links:
        if not (0 <= link.one < count and 0 <= link.other < count) or link.one == link.other:
            yield f"a link between bodies {link.one} and {link.other}, but there are {count}"
    sides = [side for body in given.bodies for side in body.sides]
    if given.room is None:
        if given.walls or given.windows:
            yield "walls and windows need a room"
        if any(side.onto == "room" for side in sides):
            yield "a vessel in the open has no side onto a room; say weather"
    elif not _sees(given):
        yield "a room has a wall, a window or open water at least"


def _sees(given: System) -> bool:
    """Whether rays in the room have anything to fall on."""
    waters = any(body.surface > 0.0 for body in given.bodies)
    sides = any(side.onto == "room" for body in given.bodies for side in body.sides)
    return bool(given.walls or given.windows or waters or sides)
