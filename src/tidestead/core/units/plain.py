"""Numbers with a unit beside them, as catalog files hold them: value here, unit there."""

from __future__ import annotations

import math
from collections.abc import Iterable
from fractions import Fraction
from itertools import islice

from tidestead.core.errors import QuantityError
from tidestead.core.units.dimensions import Unit
from tidestead.core.units.registry import DIMENSIONS, takers
from tidestead.core.units.symbols import canonical
from tidestead.core.units.typed import excerpt, plain

MEANT = ("density", "line_load", "force", "mass")
"""What a table means that does not name the dimension: "lb" and "lb/ft" of strength and load are forces."""


def to_si(value: float, unit: str, dimension: str | None = None) -> float:
    """The SI value (temperature: degree Celsius) of a number in a unit such as "psi" or "lb-in2/ft".

    Without a dimension, a pound in "lb", "lb/ft", "lb/in" is a pound-force; "K" and "degF", which may be a
    temperature or a step, are refused. Raises `QuantityError`.
    """
    return float(_unit(unit, dimension).to_si(_finite(value)))


def from_si_unit(value: float, unit: str, dimension: str | None = None) -> float:
    """The number that stands before the unit for an SI value: the reverse of `to_si`."""
    return float(_unit(unit, dimension).from_si(_finite(value)))


def _finite(value: float) -> Fraction:
    if not math.isfinite(value):
        raise QuantityError(f'"{value}"', "is not a finite number.", "Give a number.")
    return Fraction(repr(float(value)))


def _unit(unit: str, dimension: str | None) -> Unit:
    symbol = canonical(plain(unit))
    if dimension is not None:
        known = DIMENSIONS[dimension].units
        if symbol not in known:
            raise QuantityError(
                excerpt(unit), f"is no unit of {DIMENSIONS[dimension].words}.", f"Use {_some(known)}."
            )
        return known[symbol]
    taking = takers(symbol)
    if not taking:
        raise QuantityError(
            excerpt(unit), "is no unit known here.", 'Use one like "MPa", "psi" or "lb-in/ft".'
        )
    first = next((DIMENSIONS[name] for name in MEANT if symbol in DIMENSIONS[name].units), None)
    sizes = {(taker.units[symbol].factor, taker.units[symbol].zero) for taker in taking}
    if first is None and len(sizes) > 1:
        words = " or ".join(taker.words for taker in taking)
        raise QuantityError(excerpt(unit), f"could be {words}.", "Say which dimension is meant.")
    return (first or taking[0]).units[symbol]


def _some(known: Iterable[str]) -> str:
    return ", ".join(islice(known, 8))
