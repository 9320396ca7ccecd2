"""How many fish the water carries, and how fast they may come: oxygen, ammonia, and a filter that grows."""

from __future__ import annotations

import math
from dataclasses import dataclass

from tidestead.core.dims import (
    CubicMetre,
    GramPerDay,
    GramPerKgDay,
    GramPerM3,
    Kilogram,
    Ratio,
)
from tidestead.core.errors import ImpossibleInput
from tidestead.physics import _refuse
from tidestead.physics.water.nutrients import AMMONIA_SHARE, ammonia_from_feed

_GRAMS = 1000.0
_WEEK = 7.0
_CLOSE = 1e-12
_STEPS = 200
_LONGEST = 1040
"""Weeks after which a ramp is given up: twenty years."""


@dataclass(frozen=True)
class Feeding:
    """How fish are fed: dry feed over their weight in a day, its protein, what of that becomes ammonia nitrogen."""

    ration: Ratio
    protein: Ratio
    ammonia: Ratio = AMMONIA_SHARE

    def __post_init__(self) -> None:
        _refuse.negative(ration=self.ration, share_to_ammonia=self.ammonia)
        _refuse.not_a_share(protein=self.protein)


@dataclass(frozen=True)
class Stocking:
    """A tank being stocked week by week.

    `first`: fish that the ripened filter carries when stocking begins; `made`: their ammonia nitrogen by weight;
    `growth`: share by which the filter can grow in a week; `room`: rise of ammonia that each addition may make.
    """

    adult: Kilogram
    first: Kilogram
    made: GramPerKgDay
    growth: Ratio
    volume: CubicMetre
    room: GramPerM3

    def __post_init__(self) -> None:
        _refuse.not_positive(adult_weight=self.adult, first_fish=self.first, volume=self.volume)
        _refuse.not_positive(ammonia_made=self.made, weekly_growth=self.growth, room_for_ammonia=self.room)
        _refuse.endless(adult_weight=self.adult, weekly_growth=self.growth)


def fed_oxygen(fish: Kilogram) -> GramPerKgDay:
    """Oxygen that fed fish use on the mean of a day.

        15.08*W**-0.245      W in g

    Source: Merino, Piedrahita and Conklin, Aquacultural Engineering 41 (2009) 166, abstract.
    Valid:  flatfish of 3 to 166 g, fed 0.7 to 3 % a day; temperature not in the abstract. Livelier fish use more.
    """
    _refuse.not_positive(fish_weight=fish)
    used: GramPerKgDay = 15.08 * (fish * _GRAMS) ** -0.245
    return used


def most_oxygen(fish: Kilogram) -> GramPerKgDay:
    """Oxygen that fed fish use at the worst hour, as if it lasted the day.

        17.27*W**-0.203      W in g

    Source: Merino, Piedrahita and Conklin, Aquacultural Engineering 41 (2009) 166, abstract.
    Valid:  as `fed_oxygen`.
    """
    _refuse.not_positive(fish_weight=fish)
    used: GramPerKgDay = 17.27 * (fish * _GRAMS) ** -0.203
    return used


def made_ammonia(feeding: Feeding) -> GramPerKgDay:
    """Ammonia nitrogen that fish make, by their weight.

        1000*ration*PC*0.092

    Source: `nutrients.ammonia_from_feed`.
    Valid:  as that.
    """
    return ammonia_from_feed(_GRAMS * feeding.ration, feeding.protein, feeding.ammonia)


def carried_by_oxygen(spare: GramPerDay, fish: Kilogram) -> Kilogram:
    """Fish that an amount of oxygen, free for them, carries at their worst hour.

        M = spare/(17.27*W**-0.203)

    Source: `most_oxygen`.
    Valid:  as that; what filters, corals and rock use is taken off before.
    """
    _refuse.negative(spare_oxygen=spare)
    return spare / most_oxygen(fish)


def carried_by_filter(removed: GramPerDay, feeding: Feeding) -> Kilogram:
    """Fish whose ammonia a filter takes; inf where they are not fed.

        M = removed/(1000*ration*PC*0.092)      removed: area times `nutrients.film_rate` at the level allowed

    Source: balance of nitrogen.
    Valid:  as `nutrients.ammonia_from_feed`. No arrays.
    """
    _refuse.negative(ammonia_removed=removed)
    made = made_ammonia(feeding)
    return removed / made if made > 0.0 else math.inf


def carried(spare: GramPerDay, removed: GramPerDay, fish: Kilogram, feeding: Feeding) -> Kilogram:
    """Fish that a tank carries: the smaller of what its oxygen and its filter carry.

        M = min(`carried_by_oxygen`, `carried_by_filter`)

    Source: those two.
    Valid:  as those. Room to swim and temper of the fish ask for less. No arrays.
    """
    return min(carried_by_oxygen(spare, fish), carried_by_filter(removed, feeding))


def addition_peak(stocking: Stocking, before: Kilogram, added: Ratio) -> GramPerM3:
    """How far ammonia rises after fish are added, until the filter has grown to their load.

        dS = made*M/(r*V)*((1 + x)*ln(1 + x) - x)      r = ln(1 + growth)/7 by day, x: added over what was there

    Source: own derivation: the filter takes made*M*exp(r*t), the fish make made*M*(1 + x).
    Valid:  filter not yet at its ceiling, growing as it did; level before the addition on top. No arrays.
    """
    _refuse.negative(fish_before=before, fish_added=added)
    pace = math.log1p(stocking.growth) / _WEEK
    return stocking.made * before / (pace * stocking.volume) * _surplus(added)


def largest_addition(stocking: Stocking, before: Kilogram) -> Ratio:
    """Fish that may be added at once, over those that are there: the filter catches up in a week, ammonia keeps room.

        x = min(growth, x where `addition_peak` is the room)

    Source: `addition_peak` read backwards, by halving.
    Valid:  as that. No arrays.
    """
    _refuse.not_positive(fish_before=before)
    if addition_peak(stocking, before, stocking.growth) <= stocking.room:
        return stocking.growth
    low, high = 0.0, stocking.growth
    for _ in range(_STEPS):
        middle = 0.5 * (low + high)
        if addition_peak(stocking, before, middle) <= stocking.room:
            low = middle
        else:
            high = middle
        if high - low <= _CLOSE * high:
            break
    return low


def stocking_ramp(stocking: Stocking) -> tuple[Kilogram, ...]:
    """Fish in the tank in each week, from the first to the full stock; the step between two is what may be added.

        M(w + 1) = M(w)*(1 + x), at most the adult weight      x: `largest_addition`

    Source: `largest_addition`.
    Valid:  as that; fish counted with the weight they are fed for, and none lost. Raises ImpossibleInput where
            twenty years do not bring the full stock. No arrays.
    """
    weeks = [min(stocking.first, stocking.adult)]
    while weeks[-1] < stocking.adult:
        if len(weeks) > _LONGEST:
            raise ImpossibleInput(
                "a filter that grows so little, or so little room for ammonia, is never stocked"
            )
        weeks.append(min(weeks[-1] * (1.0 + largest_addition(stocking, weeks[-1])), stocking.adult))
    return tuple(weeks)


def _surplus(added: float) -> float:
    """(1 + x)*ln(1 + x) - x, by its series where that would cancel."""
    if added < 1e-3:
        return added**2 * (0.5 - added / 6.0 + added**2 / 12.0)
    return (1.0 + added) * math.log1p(added) - added
