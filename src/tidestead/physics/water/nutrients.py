"""From feed to ammonia, nitrate and phosphate: what is made, what filters take away, where it settles.

Nitrogen is counted as N, phosphorus as P, unless a name says the ion. g/m3 is mg/L.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import cast

import numpy as np

from tidestead.core.dims import (
    Celsius,
    CubicMetre,
    CubicMetrePerDay,
    Day,
    GramPerDay,
    GramPerM2Day,
    GramPerM3,
    PerDay,
    Ratio,
    SquareMetre,
)
from tidestead.physics import _refuse

IN_PROTEIN: Ratio = 0.16
"""Nitrogen in protein, by weight. Source: convention of feed analysis (Kjeldahl factor 6.25)."""

AMMONIA_SHARE: Ratio = 0.092
"""Ammonia nitrogen over protein fed: 0.16*0.80*0.80*0.90. Source: Timmons and Ebeling, as quoted."""

AMMONIA_SHARE_MOST: Ratio = 0.144
"""The same where nearly all feed nitrogen comes back. Source: Ebeling et al. (2006), zero exchange, as quoted."""

OXYGEN_PLAIN: Ratio = 4.57
"""g oxygen for each g nitrogen turned to nitrate, no growth of bacteria. Source: stoichiometry, 2 O2 to N."""

OXYGEN_GROWING: Ratio = 4.18
"""The same with growth of bacteria. Source: Ebeling et al. (2006), from memory; Gujer and Jenkins (1974) give 4.32."""

RATE_LEVEL = 0.50
RATE_POWER: Ratio = 0.7
RATE_PER_KELVIN: Ratio = 1.09
_RATE_AT: Celsius = 15.0
"""r = 0.50*S**0.7 g N/(m2 day) at 15 degC, times 1.09 for each kelvin. Source: Rusten et al. (2006), as quoted."""

SEA_FACTOR: Ratio = 0.6
"""Speed of nitrifying films in sea over fresh water. Source: Rusten et al. (2006), as quoted; Nijhof and
Bovendeur: 0.28/0.69 = 0.41."""

SEA_CEILING: GramPerM2Day = 0.28
"""Most that films in seawater of 24 degC took, ammonia in plenty. Source: Nijhof and Bovendeur (1990), abstract."""

FEED_CARBON: Ratio = 0.40
"""Carbon in dry feed. Source: trade article after Boyd."""

_BURNING = 2.67
"""g oxygen that burns a gram of carbon. Source: stoichiometry, 32/12."""

_ATOM_N, _ATOM_P, _ATOM_O = 14.007, 30.974, 15.999
_CHALK = 100.087


@dataclass(frozen=True)
class Balance:
    """What comes into a mixed tank and goes from it: one nutrient.

    `made` and `uptake` (plants, a reactor) are even, `pace` is what denitrification takes in proportion, `renewed`
    the water exchanged and `incoming` what the new water holds.
    """

    volume: CubicMetre
    made: GramPerDay
    pace: PerDay = 0.0
    renewed: CubicMetrePerDay = 0.0
    uptake: GramPerDay = 0.0
    incoming: GramPerM3 = 0.0

    def __post_init__(self) -> None:
        _refuse.not_positive(volume=self.volume)
        _refuse.negative(made=self.made, pace=self.pace, water_renewed=self.renewed)
        _refuse.negative(uptake=self.uptake, incoming=self.incoming)


@dataclass(frozen=True)
class Film:
    """Films of nitrifying bacteria: factor of seawater, and the most a square metre takes."""

    sea: Ratio = SEA_FACTOR
    ceiling: GramPerM2Day = SEA_CEILING

    def __post_init__(self) -> None:
        _refuse.not_positive(sea_factor=self.sea, ceiling=self.ceiling)


# From feed


def ammonia_from_feed(feed: GramPerDay, protein: Ratio, share: Ratio = AMMONIA_SHARE) -> GramPerDay:
    """Ammonia nitrogen that feed becomes.

        P_TAN = F*PC*0.092      0.092 = 0.16*0.80*0.80*0.90

    Source: Ebeling, Timmons and Bisogni, Aquaculture 257 (2006) 346-358, equation 1, as quoted. FAO paper 589
            comes to 0.098.
    Valid:  dry feed, all eaten; up to 0.144 where solids stay and rot.
    """
    _refuse.negative(feed=feed, share_to_ammonia=share)
    _refuse.not_a_share(protein=protein)
    return feed * protein * share


def nitrogen_in_feed(feed: GramPerDay, protein: Ratio) -> GramPerDay:
    """All nitrogen that comes in with feed: no more nitrate can come of it.

        F*PC*0.16

    Source: convention of feed analysis, protein = 6.25 N.
    Valid:  any feed.
    """
    _refuse.negative(feed=feed)
    _refuse.not_a_share(protein=protein)
    return feed * protein * IN_PROTEIN


def phosphorus_from_feed(feed: GramPerDay, content: Ratio, released: Ratio = 1.0) -> GramPerDay:
    """Phosphorus that feed gives to water and solids.

        F*P_content*released

    Source: balance of phosphorus.
    Valid:  content 1.0 to 1.5 % of dry feed (common practice), 40 to 60 % of it released (from memory).
    """
    _refuse.negative(feed=feed)
    _refuse.not_a_share(phosphorus_content=content, share_released=released)
    return feed * content * released


def nitrate_ion(nitrogen: GramPerM3) -> GramPerM3:
    """Nitrate, counted as the ion, for nitrate counted as nitrogen.

        NO3 = (14.007 + 3*15.999)/14.007*N = 4.427*N

    Source: IUPAC standard atomic weights.
    Valid:  anywhere.
    """
    _refuse.negative(nitrogen=nitrogen)
    return nitrogen * (_ATOM_N + 3.0 * _ATOM_O) / _ATOM_N


def phosphate_ion(phosphorus: GramPerM3) -> GramPerM3:
    """Phosphate, counted as the ion, for phosphate counted as phosphorus.

        PO4 = (30.974 + 4*15.999)/30.974*P = 3.066*P

    Source: IUPAC standard atomic weights.
    Valid:  anywhere.
    """
    _refuse.negative(phosphorus=phosphorus)
    return phosphorus * (_ATOM_P + 4.0 * _ATOM_O) / _ATOM_P


def nitrification_oxygen(nitrogen: GramPerDay, each: Ratio = OXYGEN_PLAIN) -> GramPerDay:
    """Oxygen that turning ammonia to nitrate takes.

        4.57*N without growth of bacteria, 4.18*N with it

    Source: stoichiometry (2*31.998/14.007); Ebeling et al. (2006), from memory, for 4.18.
    Valid:  ammonia turned wholly to nitrate; 4.57 is the safe side.
    """
    _refuse.negative(nitrogen=nitrogen, oxygen_for_each=each)
    return nitrogen * each


def nitrification_alkalinity(nitrogen: GramPerDay) -> GramPerDay:
    """Alkalinity, as calcium carbonate, that turning ammonia to nitrate takes.

        2 equivalents to N: 100.087/14.007 = 7.145 g CaCO3 for each g

    Source: stoichiometry.
    Valid:  no growth of bacteria; with it 7.05 (Ebeling et al. 2006, from memory).
    """
    _refuse.negative(nitrogen=nitrogen)
    return nitrogen * _CHALK / _ATOM_N


def denitrification_alkalinity(nitrogen: GramPerDay) -> GramPerDay:
    """Alkalinity, as calcium carbonate, that turning nitrate to nitrogen gas gives back.

        1 equivalent to N: 3.57 g CaCO3 for each g

    Source: stoichiometry.
    Valid:  no growth of bacteria.
    """
    _refuse.negative(nitrogen=nitrogen)
    return nitrogen * 0.5 * _CHALK / _ATOM_N


def feed_oxygen(
    feed: GramPerDay, protein: Ratio, carbon: Ratio = FEED_CARBON, kept: Ratio = 0.0
) -> GramPerDay:
    """Most oxygen that feed can use up: all its carbon burnt, all its nitrogen turned to nitrate.

        O2 = F*(1 - kept)*(2.67*C + 4.57*N)      N = 0.16*PC

    Source: stoichiometry; Boyd et al. use the same sum.
    Valid:  ceiling where `kept` is nothing; what fish keep and solids taken out lower it.
    """
    _refuse.negative(feed=feed)
    _refuse.not_a_share(protein=protein, carbon=carbon, share_kept=kept)
    return feed * (1.0 - kept) * (_BURNING * carbon + OXYGEN_PLAIN * IN_PROTEIN * protein)


# Where a nutrient settles


def settled_nutrient(balance: Balance) -> GramPerM3:
    """Level that a tank comes to; inf where more comes than goes and no loss grows with the level.

        C = (P + Q*Cin - U)/(k*V + Q), at least nothing

    Source: balance of matter, V*dC/dt = P - k*V*C - Q*(C - Cin) - U.
    Valid:  mixed water, even sources; uptake stops where nothing is left. Not a number where nothing comes or goes.
            No arrays.
    """
    gain = balance.made + balance.renewed * balance.incoming - balance.uptake
    loss = balance.pace * balance.volume + balance.renewed
    if loss == 0.0:
        return math.inf if gain > 0.0 else (0.0 if gain < 0.0 else math.nan)
    return max(gain / loss, 0.0)


def nutrient_after(balance: Balance, start: GramPerM3, time: Day) -> GramPerM3:
    """Level after a time, from a level at first.

        C = Cs + (C0 - Cs)*exp(-(k + Q/V)*t), at least nothing; without losses in proportion C0 + (P - U)*t/V

    Source: the balance of `settled_nutrient`, solved.
    Valid:  as that.
    """
    _refuse.negative(start=start, time=time)
    gain, pace = _line(balance)
    days = np.asarray(time)
    gone = pace * days
    mean = np.where(gone > 0.0, -np.expm1(-gone) / np.where(gone > 0.0, gone, 1.0), 1.0)
    return cast(float, np.maximum(start * np.exp(-gone) + gain * days * mean, 0.0)[()])


def days_to_nutrient(balance: Balance, start: GramPerM3, goal: GramPerM3) -> Day:
    """Days until a level is reached, from above or below; inf where it never is.

        `nutrient_after` read backwards

    Source: the balance of `settled_nutrient`, solved.
    Valid:  as that. No arrays.
    """
    _refuse.negative(start=start, goal=goal)
    if start == goal:
        return 0.0
    gain, pace = _line(balance)
    first, last = gain - pace * start, gain - pace * goal
    if first * last <= 0.0 or first * (goal - start) <= 0.0:
        return math.inf
    part = pace * (goal - start) / last
    return (goal - start) / last * (math.log1p(part) / part if part != 0.0 else 1.0)


def days_to_settle(balance: Balance, left: Ratio) -> Day:
    """Days until only a share of the way to the settled level is left; inf where nothing settles.

        t = -ln(left)/(k + Q/V)

    Source: `nutrient_after`.
    Valid:  as that; left over 0 and up to 1. Not where uptake empties the water before. No arrays.
    """
    _refuse.not_positive(share_left=left)
    _refuse.not_a_share(share_left=left)
    pace = _line(balance)[1]
    return -math.log(left) / pace if pace > 0.0 else math.inf


# Films


def film_rate(ammonia: GramPerM3, temp_c: Celsius, film: Film | None = None) -> GramPerM2Day:
    """Ammonia nitrogen that a square metre of ripe film takes in a day.

        r = 0.50*S**0.7 * 1.09**(t - 15) * sea, at most the ceiling      S: ammonia, g N/m3

    Source: Rusten et al., Aquacultural Engineering 34 (2006) 322-331, as quoted; ceiling 0.28 by Nijhof and
            Bovendeur, Aquaculture (1990), abstract.
    Valid:  ripe (125 days), oxygen in plenty; pH 6.7 halves it, C/N 0.5 of rot costs 30 % (Michaud et al. 2006). The
            ceiling was measured at 24 degC and is held for all: flattering in the cold. Levels of a reef, below
            0.1, lie outside what was measured: calibrate.
    """
    _refuse.negative(ammonia=ammonia)
    film = film or Film()
    free = RATE_LEVEL * np.power(ammonia, RATE_POWER) * _quickness(temp_c) * film.sea
    return cast(float, np.minimum(free, film.ceiling)[()])


def film_area(load: GramPerDay, ammonia: GramPerM3, temp_c: Celsius, film: Film | None = None) -> SquareMetre:
    """Area of ripe film that holds the ammonia at a level under a load.

        A = load/r

    Source: `film_rate`.
    Valid:  as that.
    """
    _refuse.negative(load=load)
    _refuse.not_positive(ammonia=ammonia)
    return load / film_rate(ammonia, temp_c, film)


def film_ammonia(load: GramPerDay, area: SquareMetre, temp_c: Celsius, film: Film | None = None) -> GramPerM3:
    """Ammonia that an area of ripe film settles at under a load; inf where the load is beyond its ceiling.

        S = (load/(A*0.50*1.09**(t - 15)*sea))**(1/0.7)

    Source: `film_rate` read backwards.
    Valid:  as that.
    """
    _refuse.negative(load=load)
    _refuse.not_positive(area=area)
    film = film or Film()
    needed = np.divide(load, area)
    level = np.power(needed / (RATE_LEVEL * _quickness(temp_c) * film.sea), 1.0 / RATE_POWER)
    return cast(float, np.where(needed > film.ceiling, np.inf, level)[()])


def _quickness(temp_c: float) -> float:
    return cast(float, np.power(RATE_PER_KELVIN, np.subtract(temp_c, _RATE_AT)))


def _line(balance: Balance) -> tuple[float, float]:
    """dC/dt = gain - pace*C."""
    gain = (balance.made + balance.renewed * balance.incoming - balance.uptake) / balance.volume
    return gain, balance.pace + balance.renewed / balance.volume
