"""What can be measured, and in which units each may be typed."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from types import MappingProxyType
from typing import Literal, NamedTuple, TypeAlias

System: TypeAlias = Literal["metric", "us"]
Gallon: TypeAlias = Literal["us", "imperial"] | None
Usage: TypeAlias = Literal["metric", "us", "both", "rare"]


class Unit(NamedTuple):
    """One unit: SI value = (number - zero) * factor. `rare` units are read but never written by us."""

    symbol: str
    factor: Fraction
    usage: Usage
    zero: Fraction = Fraction(0)

    def to_si(self, number: Fraction) -> Fraction:
        return (number - self.zero) * self.factor

    def from_si(self, value: Fraction) -> Fraction:
        return value / self.factor + self.zero


@dataclass(frozen=True)
class Dimension:
    """A sort of quantity: its SI unit, the units it may be typed in (by symbol), an example to copy.

    `bare` says that a plain number is a value (ratios, counts). `sums` says that parts may be added, as in feet
    and inches. `guess` lists, for a number typed without a unit, up to which size which unit was probably meant.
    """

    name: str
    si: str
    units: Mapping[str, Unit]
    example: str
    bare: bool = False
    whole: bool = False
    sums: bool = False
    guess: tuple[tuple[float, str], ...] = ()

    @property
    def words(self) -> str:
        """The name as a person says it."""
        return self.name.replace("_", " ")

    def common(self, system: System) -> tuple[Unit, ...]:
        """The units of one system that we write, in order of preference."""
        return tuple(unit for unit in self.units.values() if unit.usage in (system, "both"))


Row: TypeAlias = tuple[Usage, str, Fraction] | tuple[Usage, str, Fraction, Fraction]
"""Usage, symbols parted by bars, size in SI, and the reading at zero for scales that start elsewhere."""


def units(*rows: Row) -> Mapping[str, Unit]:
    """The rows as a table by symbol."""
    table: dict[str, Unit] = {}
    for usage, symbols, factor, *zero in rows:
        for symbol in symbols.split("|"):
            table[symbol] = Unit(symbol, factor, usage, *zero)
    return MappingProxyType(table)
