"""What of the sun comes straight and what from the whole sky, where a source gives only some of it."""

from __future__ import annotations

import numpy as np

from tidestead.core.dims import Array, Ratio
from tidestead.core.weather import SunPath
from tidestead.intake.notes import Notes

_LOW_SUN = 0.065
"""Sine of the height under which all is taken as diffuse: a beam worked out by it would be arbitrary."""
_MORE = 20.0
"""W/m2 by which an hour may exceed what reaches the top of the air: twilight, and clocks some minutes apart."""


def diffuse_share(clearness: Array) -> Ratio | Array:
    """Share of the sun on level ground that is diffuse, hour by hour.

        f = 1 - 0.09*k                                                        k <= 0.22
        f = 0.9511 - 0.1604*k + 4.388*k**2 - 16.638*k**3 + 12.336*k**4         k <= 0.80
        f = 0.165                                                             above

    Source: Erbs, Klein and Duffie (1982), Solar Energy 28:293; k is the sun against that outside the air.
    Valid:  hours; made from measurements between 30 and 43 degrees north.
    """
    k = np.clip(clearness, 0.0, 1.0)
    middle = 0.9511 - 0.1604 * k + 4.388 * k**2 - 16.638 * k**3 + 12.336 * k**4
    share: Array = np.where(k <= 0.22, 1.0 - 0.09 * k, np.where(k <= 0.8, middle, 0.165))
    return share


def parted(columns: dict[str, Array], total: Array, sun: SunPath, notes: Notes) -> tuple[Array, Array, Array]:
    """Direct sun on a plane that faces it, diffuse and total sun on level ground, each complete.

    What of the parts is known stays; the rest follows from the complete total and the sun's height, or by Erbs where
    only the total is known.
    """
    total = _capped(total, sun.top, notes)
    height = _height(sun)
    none = np.full(len(total), np.nan)
    beam, level, diffuse = (columns.get(key, none) for key in ("beam", "beam_level", "diffuse"))
    beam = np.where(np.isfinite(beam), beam, _beam(level, height))
    given = np.isfinite(beam)
    diffuse = np.where(np.isfinite(diffuse) | ~given, diffuse, np.maximum(total - beam * height, 0.0))
    unknown = ~np.isfinite(diffuse)
    guessed = int((unknown & (total > 0.0)).sum())
    notes.count("hours had no direct or diffuse sun; both follow from the total by Erbs (1982)", guessed)
    by_erbs = total * np.where(height > _LOW_SUN, diffuse_share(total / np.maximum(sun.top, 1.0)), 1.0)
    diffuse = np.where(unknown, by_erbs, diffuse)
    beam = np.where(given, beam, _beam(np.maximum(total - diffuse, 0.0), height))
    strongest = np.where(sun.up > 0.0, sun.top / np.maximum(height, _LOW_SUN), 0.0)
    return np.minimum(beam, strongest), diffuse, total


def total_of(columns: dict[str, Array], sun: SunPath) -> Array:
    """The sun on level ground, from its parts where it is not given itself."""
    none = np.full(len(sun.top), np.nan)
    level = columns.get("beam_level", none)
    level = np.where(np.isfinite(level), level, columns.get("beam", none) * _height(sun))
    total: Array = columns.get("total", none)
    return np.where(np.isfinite(total), total, level + columns.get("diffuse", none))


def _height(sun: SunPath) -> Array:
    """Sine of the sun's height, none while it is down."""
    return np.where(sun.up > 0.0, np.cos(sun.zenith_rad), 0.0)


def _beam(level: Array, height: Array) -> Array:
    """Direct sun facing it from that on level ground; none where the sun is too low to tell."""
    facing: Array = np.where(height > _LOW_SUN, level / np.maximum(height, _LOW_SUN), 0.0 * level)
    return facing


def _capped(total: Array, top: Array, notes: Notes) -> Array:
    most = top + _MORE
    notes.count("hours had more sun than reaches the top of the air there, and were set to that",
                int((total > most).sum()))  # fmt: skip
    return np.minimum(total, most)
