"""How fast a side stream cleans a whole system: what is left, how long it takes, where it settles.

The water of the system is taken as mixed. That a fractionator catches everything that passes through it is the
flattering case; a part of what is dissolved is never caught.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from tidestead.core.dims import (
    CubicMetre,
    CubicMetrePerSecond,
    GramPerHour,
    GramPerM3,
    Metre,
    PerSecond,
    Ratio,
    Second,
)
from tidestead.physics import _refuse
from tidestead.physics.foam._arrays import choose

_SECONDS: Second = 3600.0
"""Seconds in an hour. Source: definition."""


@dataclass(frozen=True)
class SideStream:
    """Water that is led out of a mixed system, cleaned by a share (`efficiency`) in one pass, and led back.

    `fixed` is the share of the matter that no pass ever takes.
    """

    flow: CubicMetrePerSecond
    volume: CubicMetre
    efficiency: Ratio = 1.0
    fixed: Ratio = 0.0

    def __post_init__(self) -> None:
        """Refuse what no side stream is."""
        _refuse.negative(flow=self.flow)
        _refuse.not_positive(volume=self.volume)
        _refuse.not_a_share(efficiency=self.efficiency, share_never_caught=self.fixed)


def turnovers(stream: SideStream, time: Second) -> Ratio:
    """How often the system's water has gone through the side stream, counted by volume.

        N = Q*t / V

    Source: definition.
    Valid:  steady flow. After one turnover of mixed water a third of it has not been through yet.
    """
    _refuse.negative(time=time)
    return stream.flow * time / stream.volume


def removal_pace(stream: SideStream) -> PerSecond:
    """Share of what can be caught that goes in a second.

        k = E*Q / V

    Source: Gage and Bidwell (1926), as quoted; with E: Simmonds et al., Water 13 (2021) 2350.
    Valid:  mixed water, steady flow, efficiency that does not change with concentration.
    """
    return stream.efficiency * stream.flow / stream.volume


def efficiency_by_surface(efficiency: Ratio, usual: Metre, bubble: Metre) -> Ratio:
    """Share of the matter that a pass takes with another size of bubble, at the same flow of air.

        E = E0*min(1, d0/d)          air of bubbles d has a surface of 6/d by volume; d0, E0: of the usual bubble

    Source: geometry of balls. That the surface made is what limits a pass is common practice, no source.
    Valid:  bubbles larger than the usual one; smaller ones are not credited with more.
    """
    _refuse.not_a_share(efficiency=efficiency)
    _refuse.not_positive(usual_bubble=usual, bubble=bubble)
    share: Ratio = efficiency * np.minimum(1.0, np.divide(usual, bubble))
    return share


def share_left(stream: SideStream, time: Second) -> Ratio:
    """Share of the matter that is still there after a time without new input.

        C/C0 = f + (1 - f)*exp(-E*Q*t/V)          f: share that is never caught

    Source: Gage and Bidwell (1926), as quoted; E: Simmonds et al., Water 13 (2021) 2350; f: Feldman and
            others (2009, 2010), who saw 20 to 30 % of a reef tank's organic carbon go before it levelled off.
    Valid:  mixed water, steady flow. Dead corners and old water in the sand come out slower.
    """
    _refuse.negative(time=time)
    left: Ratio = stream.fixed + (1.0 - stream.fixed) * np.exp(-np.multiply(removal_pace(stream), time))
    return left


def removal_time(stream: SideStream, removed: Ratio) -> Second:
    """Time until a share of what can be caught has gone; endless where nothing flows or nothing is caught.

        t = ln(1/(1 - p)) * V/(E*Q)          4.605 V/Q for 99 %, 9.210 V/Q for 99.99 %, at E = 1

    The share that is never caught does not count; see `share_left` for all the matter together.

    Source: Gage and Bidwell (1926), as quoted; "9.2 V/F" of the trade is the second figure.
    Valid:  as `share_left`; 100 % takes for ever.
    """
    _refuse.not_a_share(removed=removed)
    left = np.subtract(1.0, removed)
    pace = removal_pace(stream)
    never = np.equal(left, 0.0) | (np.equal(pace, 0.0) & np.greater(removed, 0.0))
    factor = -np.log(choose(np.equal(left, 0.0), 1.0, left))
    return choose(never, np.inf, factor / choose(np.equal(pace, 0.0), 1.0, pace))


def steady_concentration(source: GramPerHour, stream: SideStream) -> GramPerM3:
    """Where the concentration settles while matter that can be caught comes in steadily; endless without removal.

        C = G / (E*Q)

    Source: balance of mass.
    Valid:  mixed water; the side stream is the only way out. Bacteria take far more of it than any skimming.
    """
    _refuse.negative(source=source)
    cleaned = np.multiply(stream.efficiency, stream.flow)
    idle = np.equal(cleaned, 0.0)
    concentration = np.divide(source, _SECONDS) / choose(idle, 1.0, cleaned)
    return choose(idle & np.greater(source, 0.0), np.inf, concentration)


def concentration_after(start: GramPerM3, source: GramPerHour, stream: SideStream, time: Second) -> GramPerM3:
    """Concentration after a time while matter that can be caught comes in steadily.

        C = C_steady + (C0 - C_steady)*exp(-E*Q*t/V);   C0 + G*t/V where nothing is removed

    Source: balance of mass, V dC/dt = G - E*Q*C.
    Valid:  as `steady_concentration`. `fixed` does not enter: count only what can be caught.
    """
    _refuse.negative(start=start, time=time)
    pace = removal_pace(stream)
    grown = np.divide(source, _SECONDS) * time / stream.volume
    idle = np.equal(pace, 0.0)
    fading = np.exp(-np.multiply(pace, time))
    settled = choose(idle, 0.0, steady_concentration(source, stream))
    return choose(idle, np.add(start, grown), settled + (start - settled) * fading)
