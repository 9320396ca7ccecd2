"""What can be measured, and in which units each may be typed."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from typing import Literal, NamedTuple, TypeAlias

from tidestead.core.units.sizes import ZEROS, size

System: TypeAlias = Literal["metric", "us"]
SYSTEMS: tuple[System, ...] = ("metric", "us")
Gallon: TypeAlias = Literal["us", "imperial"] | None


class Unit(NamedTuple):
    """One unit: SI value = (number - zero) * factor."""

    symbol: str
    factor: Fraction
    zero: Fraction = Fraction(0)

    def to_si(self, number: Fraction) -> Fraction:
        return (number - self.zero) * self.factor

    def from_si(self, value: Fraction) -> Fraction:
        return value / self.factor + self.zero


@dataclass(frozen=True)
class Dimension:
    """A sort of quantity: its SI unit, the units it may be typed in, an example to copy.

    `metric` and `us` list the units that are also written, best first; `rare` those that are only read.
    Symbols are canonical (see `symbols.py`), parted by comma and space. `bare`: a plain number is a value.
    `sums`: parts may be added, as in feet and inches. `guess`: for a number without a unit, below which size
    which unit was probably meant. `said`: the name in words where that is not the plain name. `means`: what a
    symbol stands for here; a pound is a force in one field and a mass in another.
    """

    name: str
    si: str
    metric: str
    us: str
    example: str
    rare: str = ""
    said: str = ""
    bare: bool = False
    whole: bool = False
    sums: bool = False
    guess: tuple[tuple[float, str], ...] = ()
    means: tuple[tuple[str, str], ...] = ()

    @property
    def words(self) -> str:
        """The name as a person says it."""
        return self.said or self.name.replace("_", " ")

    @property
    def a(self) -> str:
        """The name as a person says it, with "a" or "an"."""
        return f"{'an' if self.words[0] in 'aeiou' else 'a'} {self.words}"

    @cached_property
    def symbols(self) -> tuple[str, ...]:
        """Every unit symbol taken, best first."""
        listed = ", ".join(names for names in (self.metric, self.us, self.rare) if names)
        return tuple(dict.fromkeys(listed.split(", ")))

    @cached_property
    def units(self) -> Mapping[str, Unit]:
        """Every unit taken, by symbol."""
        return {symbol: self._unit(symbol) for symbol in self.symbols}

    def common(self, system: System) -> tuple[Unit, ...]:
        """The units of one system that we write, in order of preference."""
        names = self.metric if system == "metric" else self.us
        return tuple(self.units[symbol] for symbol in names.split(", "))

    def _unit(self, symbol: str) -> Unit:
        meant, si = dict(self.means).get(symbol, symbol), self.si
        zero = ZEROS.get(symbol, Fraction(0)) if self.name == "temperature" else Fraction(0)
        return Unit(symbol, size(meant) / size(si), zero)
