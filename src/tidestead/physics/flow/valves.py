"""Valves at a position, and check valves."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise

from tidestead.core.dims import CubicMetrePerSecond, Metre, Ratio
from tidestead.core.errors import ImpossibleInput
from tidestead.physics import _refuse
from tidestead.physics.flow.fittings import FittingLaw
from tidestead.physics.flow.laws import HeadAt, ShutLaw
from tidestead.physics.flow.pipes import square_loss


@dataclass(frozen=True)
class ValveCurve:
    """Resistance of a kind of valve at positions from shut (0) to open (1), as a table prints it."""

    positions: tuple[Ratio, ...]
    ks: tuple[Ratio, ...]

    def __post_init__(self) -> None:
        if not self.positions or len(self.positions) != len(self.ks):
            raise ImpossibleInput("a valve's curve needs as many resistances as positions, and at least one")
        _refuse.not_positive(position=min(self.positions), k=min(self.ks))
        _refuse.not_a_share(position=max(self.positions))
        for (one, near), (other, far) in pairwise(zip(self.positions, self.ks, strict=True)):
            if other <= one or far > near:
                raise ImpossibleInput(
                    f"a valve must lose less the wider it is open: K {near:g} at {one:g}, K {far:g} at {other:g}"
                )


@dataclass(frozen=True)
class ValveLaw:
    """A valve at a position from 0 (shut) to 1 (open). `open_k` is its resistance when open, in its bore."""

    position: Ratio
    bore: Metre
    open_k: Ratio
    curve: ValveCurve

    def __post_init__(self) -> None:
        _refuse.not_a_share(valve_position=self.position)
        _refuse.not_positive(bore=self.bore, open_k=self.open_k)

    @property
    def resistance(self) -> FittingLaw | ShutLaw:
        """The same as a fitting, or as nothing that passes."""
        k = valve_k(self.position, self.open_k, self.curve)
        return ShutLaw() if math.isinf(k) else FittingLaw(k, self.bore)

    def at(self, flow: CubicMetrePerSecond) -> HeadAt:
        """Head and slope."""
        return self.resistance.at(flow)


def valve_k(position: Ratio, open_k: Ratio, curve: ValveCurve) -> Ratio:
    """Resistance of a valve at a position; endless when shut.

        K = larger of K_open and K_table
        K_table: log K runs straight between printed positions; below the first, K = K1*(p1/p)**2

    Source: the table is the valve's, see the catalogue; below its first position the opening is taken to
            pass in proportion to the position.
    Valid:  one number, no array. Makes of a kind differ by a factor of two when nearly shut.
    """
    _refuse.not_a_share(valve_position=position)
    _refuse.not_positive(open_k=open_k)
    if position == 0.0:
        return math.inf
    places, ks = curve.positions, curve.ks
    if position <= places[0]:
        return max(open_k, ks[0] * (places[0] / position) ** 2)
    for (one, near), (other, far) in pairwise(zip(places, ks, strict=True)):
        if position <= other:
            along = (position - one) / (other - one)
            return max(open_k, math.exp((1.0 - along) * math.log(near) + along * math.log(far)))
    return max(open_k, ks[-1])


@dataclass(frozen=True)
class CheckLaw:
    """A check valve, passed forward: a head that must be there before it opens, and a resistance.

    Its link must be one way.
    """

    k: Ratio
    bore: Metre
    cracking_head: Metre = 0.0

    def __post_init__(self) -> None:
        _refuse.negative(k=self.k, cracking_head=self.cracking_head)
        _refuse.not_positive(bore=self.bore)

    def at(self, flow: CubicMetrePerSecond) -> HeadAt:
        """Head and slope."""
        passed = square_loss(flow, self.bore, self.k)
        return HeadAt(self.cracking_head + passed.head, passed.slope)
