"""A float valve that makes up what evaporates: what it gives, and how long a stuck one takes to do harm."""

from __future__ import annotations

from dataclasses import dataclass
from math import exp, inf, log

from tidestead.core.dims import (
    CubicMetre,
    CubicMetrePerSecond,
    KgPerM3,
    Metre,
    PracticalSalinity,
    Second,
)
from tidestead.core.errors import ImpossibleInput
from tidestead.physics import _refuse


@dataclass(frozen=True)
class StuckFill:
    """Fresh water that runs into a system and does not stop.

    `volume` and `sal_psu` are those of the system before, `free` the room it has before it spills, `supply` the fresh
    water there is (inf on the mains). Densities turn volumes into weights, which is what salt is shared over.
    """

    flow: CubicMetrePerSecond
    volume: CubicMetre
    free: CubicMetre
    sal_psu: PracticalSalinity
    density: KgPerM3
    fresh_density: KgPerM3
    supply: CubicMetre = inf

    def __post_init__(self) -> None:
        _refuse.not_positive(flow=self.flow, volume=self.volume, supply=self.supply)
        _refuse.not_positive(density=self.density, fresh_density=self.fresh_density)
        _refuse.negative(free_volume=self.free, salinity=self.sal_psu)


def float_valve_flow(rated_flow: CubicMetrePerSecond, rated_head: Metre, head: Metre) -> CubicMetrePerSecond:
    """Flow of an open float valve at a head, from one that its maker gives.

        Q = Q_r*sqrt(H/H_r)

    Source: losses grow with the square of flow.
    Valid:  fully open, the pipe to it short and wide; a long thin hose gives less.
    """
    _refuse.not_positive(rated_flow=rated_flow, rated_head=rated_head)
    _refuse.negative(head=head)
    flow: CubicMetrePerSecond = rated_flow * (head / rated_head) ** 0.5
    return flow


def flooding_time(fill: StuckFill) -> Second:
    """Time until a stuck valve makes the system spill; inf where the supply runs out first.

        t = free/Q

    Source: continuity.
    Valid:  evaporation left out, which gains a little time.
    """
    return fill.free / fill.flow if fill.free <= fill.supply else inf


def stuck_salinity(fill: StuckFill, after: Second) -> PracticalSalinity:
    """Salinity after a valve has stuck open for a time, the system well stirred.

        until it spills:  S = S0*m0/(m0 + mf)
        then:             S = S1*exp(-Q*(t - t1)/V1)      m0: weight of salt water, mf: of fresh water added

    Source: balance of salt.
    Valid:  stirred; the pump must run, else fresh water floats on top and corals there get less.
    """
    _refuse.negative(time=after)
    added = min(fill.flow * after, fill.supply)
    salt = fill.volume * fill.density
    filled = min(added, fill.free)
    first = fill.sal_psu * salt / (salt + filled * fill.fresh_density)
    washed: PracticalSalinity = first * exp(-(added - filled) / (fill.volume + fill.free))
    return washed


def dilution_time(fill: StuckFill, sal_psu: PracticalSalinity) -> Second:
    """Time until a stuck valve has brought salinity down to a level; inf where the supply runs out first.

        `stuck_salinity` read backwards

    Source: balance of salt.
    Valid:  as stuck_salinity.
    """
    _refuse.not_positive(salinity=sal_psu)
    if sal_psu > fill.sal_psu:
        raise ImpossibleInput(f"fresh water does not raise salinity from {fill.sal_psu} to {sal_psu}")
    salt = fill.volume * fill.density
    needed = salt * (fill.sal_psu / sal_psu - 1.0) / fill.fresh_density
    if needed > fill.free:
        full = fill.sal_psu * salt / (salt + fill.free * fill.fresh_density)
        needed = fill.free + (fill.volume + fill.free) * log(full / sal_psu)
    return needed / fill.flow if needed <= fill.supply else inf
