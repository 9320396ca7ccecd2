"""Every dimension by name, and every unit by the dimensions that take it."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from tidestead.core.units.dimensions import Dimension
from tidestead.core.units.mechanics import MECHANICS
from tidestead.core.units.processes import PROCESSES

DIMENSIONS: Mapping[str, Dimension] = MappingProxyType(
    {dimension.name: dimension for dimension in (*MECHANICS, *PROCESSES)}
)


def takers(symbol: str) -> tuple[Dimension, ...]:
    """The dimensions that take a unit, commonest first."""
    return tuple(dimension for dimension in DIMENSIONS.values() if symbol in dimension.symbols)


def symbols() -> list[str]:
    """Every unit symbol known to any dimension, commonest first."""
    return list(dict.fromkeys(symbol for dimension in DIMENSIONS.values() for symbol in dimension.symbols))
