"""What an element of a network is: one law from flow to head, and where that head is counted from.

Flow is in m3/s, positive from start to end; heads in metres of the water itself above one datum.

    start head = larger of   end head + through(flow)           an element full of water
                             crest + over(flow)                 an element that spills freely at its crest

An element has one of the two, or both: a pipe has `through`, a weir `over`, a standpipe both, and which one holds
at the solution says how it runs. A law gives head and its slope; it must rise with flow. Where the water at the end
stands above the crest, a law over it that can drown says what head is needed then.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Protocol, runtime_checkable

from tidestead.core.dims import CubicMetrePerSecond, Metre, Ratio, SecondPerSquareMetre


@dataclass(frozen=True)
class HeadAt:
    """Head lost at a flow (negative where a pump gives head), and how fast it grows with flow.

    An endless slope says that nothing passes.
    """

    head: Metre
    slope: SecondPerSquareMetre


class Law(Protocol):
    """Head lost by a flow through or over an element."""

    def at(self, flow: CubicMetrePerSecond) -> HeadAt:
        """Head and slope at a flow of either sign."""
        ...


@dataclass(frozen=True)
class HeadBefore:
    """Head before a crest, how fast it grows with flow, and how far it follows the water behind the crest."""

    head: Metre
    slope: SecondPerSquareMetre
    follows: Ratio


@runtime_checkable
class DrowningLaw(Law, Protocol):
    """A law over a crest that also tells what a flow needs with the water behind it above the crest."""

    def before(self, flow: CubicMetrePerSecond, tail: Metre) -> HeadBefore:
        """Head and slopes at a flow, with the water behind `tail` above the crest (below it: negative)."""
        ...


@dataclass(frozen=True)
class SeriesLaw:
    """Elements one after the other, each passed by the same flow: their heads add up."""

    parts: tuple[Law, ...]

    def at(self, flow: CubicMetrePerSecond) -> HeadAt:
        """Head and slope of all parts together."""
        every = [part.at(flow) for part in self.parts]
        return HeadAt(sum(one.head for one in every), sum(one.slope for one in every))


@dataclass(frozen=True)
class ShutLaw:
    """Nothing passes: a closed valve, a pump that stands behind a check valve."""

    def at(self, flow: CubicMetrePerSecond) -> HeadAt:
        """No head without flow, and an endless slope."""
        return HeadAt(flow * 0.0, flow * 0.0 + math.inf)


@dataclass(frozen=True)
class OutfallLaw:
    """The last stretch of a pipe that ends in the air. Water that rises over its end stands against it."""

    resistance: Law

    def at(self, flow: CubicMetrePerSecond) -> HeadAt:
        """Head and slope while it falls free."""
        return self.resistance.at(flow)

    def before(self, flow: CubicMetrePerSecond, tail: Metre) -> HeadBefore:
        """The same, and what stands above its end."""
        here = self.resistance.at(flow)
        return HeadBefore(here.head + max(tail, 0.0), here.slope, 1.0 if tail > 0.0 else 0.0)


@dataclass(frozen=True)
class Link:
    """An element between two nodes. `one_way` ones (check valves, pumps) and ones with a crest let nothing back."""

    name: str
    start: str
    end: str
    through: Law | None = None
    over: Law | None = None
    crest: Metre = 0.0
    one_way: bool = False
