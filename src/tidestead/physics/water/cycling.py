"""How a new system learns to eat ammonia: two kinds of bacteria grow, one makes nitrite, one makes nitrate of it.

Amounts are nitrogen, g/m3, which is mg/L. What bacteria can do is told as a capacity: the nitrogen they would turn
in a day if they had plenty. No constant has a default here: they differ from system to system by far more than two.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import inf, isinf

import numpy as np

from tidestead.core.dims import Array, Day, GramPerM3, GramPerM3Day, PerDay, Ratio
from tidestead.core.errors import ImpossibleInput, SolverError
from tidestead.physics import _refuse

_CLOSE = 1e-10
_SMALLEST = 1e-13
_LONGEST_STEP: Day = 1.0


@dataclass(frozen=True)
class Nitrifier:
    """One kind of bacteria.

    `growth` is the share its capacity grows by in a day of plenty, `half` the food at which it works at half its
    capacity, `decay` the share that dies in a day, `most` the capacity that its surfaces have room for (inf: no
    end), `start` the capacity brought in with old media or bottled bacteria.
    """

    growth: PerDay
    half: GramPerM3
    decay: PerDay
    most: GramPerM3Day
    start: GramPerM3Day

    def __post_init__(self) -> None:
        _refuse.negative(growth=self.growth, decay=self.decay, starting_capacity=self.start)
        _refuse.not_positive(half_saturation=self.half, most_capacity=self.most)
        if self.start > self.most:
            raise ImpossibleInput(
                f"bacteria start with {self.start:g} g/m3 a day, more than the {self.most:g} there is room for"
            )


@dataclass(frozen=True)
class NewWater:
    """Nitrogen in the water on the first day, and ammonia that comes in all the time."""

    ammonia: GramPerM3
    nitrite: GramPerM3
    nitrate: GramPerM3
    coming: GramPerM3Day

    def __post_init__(self) -> None:
        _refuse.negative(
            ammonia=self.ammonia, nitrite=self.nitrite, nitrate=self.nitrate, ammonia_coming=self.coming
        )


@dataclass(frozen=True)
class CyclingCurve:
    """Nitrogen in its three shapes and both capacities, day by day."""

    day: Array
    ammonia: Array
    nitrite: Array
    nitrate: Array
    ammonia_capacity: Array
    nitrite_capacity: Array


def monod(food: GramPerM3, half: GramPerM3) -> Ratio:
    """Share of their capacity at which bacteria work.

        C/(K + C)

    Source: Monod, Annual Review of Microbiology 3 (1949) 371-394, recalled.
    Valid:  one food in short supply, oxygen and alkalinity plenty.
    """
    _refuse.not_positive(half_saturation=half)
    return food / (half + food)


def cycling_curve(
    water: NewWater, first: Nitrifier, second: Nitrifier, until: Day, every: Day
) -> CyclingCurve:
    """Ammonia, nitrite and nitrate of a new system, at even steps to a last day.

        dA/dt = coming - c1*m1      dN/dt = c1*m1 - c2*m2      dP/dt = c2*m2      m: `monod` of A and of N
        dc/dt = c*(mu*m*(1 - c/most) - b)

    Source: balance of nitrogen; growth by Monod, with room for so many (logistic).
    Valid:  one temperature, pH held. Left out: nitrogen that bacteria build in (about 2 %, recalled), what algae
            take, and that much ammonia or nitrite slows both kinds, which makes the curve hopeful.
    """
    from scipy.integrate import solve_ivp  # noqa: PLC0415 - only where a curve is asked for

    _refuse.not_positive(last_day=until, step=every)
    days = np.append(np.arange(0.0, until, every), until)

    def rates(_: float, now: Array) -> list[float]:
        return _rates(now, water.coming, first, second)

    start = [water.ammonia, water.nitrite, water.nitrate, first.start, second.start]
    found = solve_ivp(
        rates,
        (0.0, until),
        start,
        method="DOP853",
        t_eval=days,
        rtol=_CLOSE,
        atol=_SMALLEST,
        max_step=_LONGEST_STEP,
    )
    if not found.success:
        raise SolverError(f"the curve of a new system could not be followed: {found.message}")
    return CyclingCurve(days, *found.y)


def days_until_low(curve: CyclingCurve, level: GramPerM3) -> Day:
    """Days until ammonia and nitrite both stay under a level to the end of the curve; inf where they do not.

        the last crossing of the higher of the two, straight between the days of the curve

    Source: definition.
    Valid:  as finely as the curve has days. A short curve cannot tell what comes after it.
    """
    _refuse.not_positive(level=level)
    over = np.maximum(curve.ammonia, curve.nitrite) - level
    high = np.flatnonzero(over >= 0.0)
    if high.size == 0:
        return 0.0
    last = int(high[-1])
    if last + 1 == over.size:
        return inf
    crossings = [
        float(np.interp(0.0, [-before, -after], curve.day[last : last + 2]))
        for before, after in (
            (kind[last] - level, kind[last + 1] - level) for kind in (curve.ammonia, curve.nitrite)
        )
        if before >= 0.0
    ]
    return max(crossings)


def _rates(now: Array, coming: float, first: Nitrifier, second: Nitrifier) -> list[float]:
    """How fast nitrogen changes its shape and bacteria grow."""
    ammonia, nitrite, _, able, able_next = (float(part) for part in now)
    full, full_next = monod(max(ammonia, 0.0), first.half), monod(max(nitrite, 0.0), second.half)
    taken, taken_next = able * full, able_next * full_next
    return [
        coming - taken,
        taken - taken_next,
        taken_next,
        able * (_growth(first, full, able) - first.decay),
        able_next * (_growth(second, full_next, able_next) - second.decay),
    ]


def _growth(kind: Nitrifier, full: float, able: float) -> float:
    room = 1.0 if isinf(kind.most) else 1.0 - able / kind.most
    return kind.growth * full * room
