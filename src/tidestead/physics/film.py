"""Film of algae on windows: how it grows, when a magnet no longer lifts it, and the last safe day to clean.

Growth is that of anything with a limit. That patches set and stay after wiping is a fact of the trade without any
source: its constants are a first guess, until logged cleanings have moved them.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from math import exp, inf, log, log1p, sqrt
from typing import Literal

import numpy as np

from tidestead.core.dims import Array, Celsius, Day, GramPerM3, LightFlow, PerDay, Ratio
from tidestead.core.errors import ImpossibleInput
from tidestead.physics import _refuse

Seen = Literal["clean", "some", "many"]
"""What a caretaker sees after wiping."""

_SEEN: tuple[Seen, ...] = ("clean", "some", "many")

_BOUNDS: tuple[Ratio, Ratio] = (0.075, 0.30)
"""Shares of a window at which "clean" becomes "some" and "some" becomes "many": midway from none to 15 %, and 30 %.
Source: common practice, no source."""

_EYE: Ratio = 0.07
"""Spread of a caretaker's eye, as a share of the window. Own choice."""

_SPREAD: Ratio = 0.5
"""Of the logarithm of a constant before anything is logged: two thirds to one and a half of it. Own choice."""

_NINETY: Ratio = 1.6448536269514722
"""Standard deviations to either side that hold nine of ten. Source: normal distribution."""

_LEAST = 1e-9
"""Chance that anything may be seen by mistake."""

_STARTS = (0.0, -1.2, 1.2)
"""Of logarithms from the first guess: where a log is all but impossible it says nothing of the way to go."""

_STEP = 1e-3
"""By which logarithms are moved to find how sharply the constants are known."""


@dataclass(frozen=True)
class Growing:
    """What a film grows in: photons at the pane, nitrogen and phosphorus of nitrate and phosphate, temperature."""

    light: LightFlow
    nitrogen: GramPerM3
    phosphorus: GramPerM3
    temp_c: Celsius

    def __post_init__(self) -> None:
        _refuse.negative(light=self.light, nitrogen=self.nitrogen, phosphorus=self.phosphorus)


@dataclass(frozen=True)
class Habit:
    """How a film answers: its growth at 20 degC with plenty of everything, and where each want halves it."""

    most: PerDay
    half_light: LightFlow
    half_nitrogen: GramPerM3
    half_phosphorus: GramPerM3
    q10: Ratio = 2.0

    def __post_init__(self) -> None:
        _refuse.negative(growth=self.most)
        _refuse.not_positive(
            half_light=self.half_light, half_nitrogen=self.half_nitrogen, half_phosphorus=self.half_phosphorus
        )
        _refuse.not_positive(q10=self.q10)


@dataclass(frozen=True)
class Setting:
    """When patches set: none before `wait`, then most within `time`; `shape` says how suddenly. Effective days."""

    wait: Day = 1.5
    time: Day = 4.0
    shape: Ratio = 1.5

    def __post_init__(self) -> None:
        _refuse.negative(wait=self.wait)
        _refuse.not_positive(time=self.time, shape=self.shape)


@dataclass(frozen=True)
class Cleaning:
    """A logged cleaning by magnet: effective days since the one before, and what was seen after.

    `before` are the ages at cleanings by magnet alone since the window was scraped: their patches are there still.
    """

    age: Day
    seen: Seen
    before: tuple[Day, ...] = ()

    def __post_init__(self) -> None:
        _refuse.negative(age=self.age, age_before=self.before)  # type: ignore[arg-type]  # takes lists of numbers too
        if self.seen not in _SEEN:
            raise ImpossibleInput(f"a window is clean, some or many patches are left; got '{self.seen}'")


@dataclass(frozen=True)
class Eye:
    """How patches are judged: shares at which "some" and "many" begin, and the spread of the judge."""

    bounds: tuple[Ratio, Ratio] = _BOUNDS
    spread: Ratio = _EYE

    def __post_init__(self) -> None:
        _refuse.not_positive(spread=self.spread, lower_bound=self.bounds[0])
        if not self.bounds[0] < self.bounds[1] < 1.0:
            raise ImpossibleInput(f"some patches are fewer than many, got {self.bounds}")


@dataclass(frozen=True, eq=False)
class Calibrated:
    """Constants after so many cleanings, with the ends between which nine of ten lie.

    `known` is the covariance of the logarithms of wait and time.
    """

    setting: Setting
    wait_between: tuple[Day, Day]
    time_between: tuple[Day, Day]
    known: Array


def growth_rate(growing: Growing, habit: Habit) -> PerDay:
    """Specific growth of a thin film.

        r = rmax * I/(I + Ik) * N/(N + KN) * P/(P + KP) * Q10**((T - 20)/10)

    Source: Monod's law for each want; thin films are sated at far less phosphorus than thick ones (Bothwell 1989).
    Valid:  0.2 to 0.7 a day, doubling in 1 to 3.5 days (from memory); all constants are of fresh water: calibrate.
    """
    fed = growing.nitrogen / (growing.nitrogen + habit.half_nitrogen)
    fed *= growing.phosphorus / (growing.phosphorus + habit.half_phosphorus)
    lit = growing.light / (growing.light + habit.half_light)
    rate: PerDay = habit.most * lit * fed * habit.q10 ** ((growing.temp_c - 20.0) / 10.0)
    return rate


def doubling_rate(doubles: Day) -> PerDay:
    """Specific growth of what doubles in so many days.

        r = ln(2)/t

    Source: definition.
    Valid:  while the film is thin.
    """
    _refuse.not_positive(doubling_time=doubles)
    return log(2.0) / doubles


def film_amount(start: Ratio, most: Ratio, rate: PerDay, after: Day) -> Ratio:
    """Amount of film after a time, in whatever it is counted.

        B = K/(1 + (K/B0 - 1)*exp(-r*t))

    Source: logistic growth, dB/dt = r*B*(1 - B/K), solved.
    Valid:  even conditions. Arrays broadcast.
    """
    _refuse.not_positive(start=start, most=most)
    _refuse.negative(time=after)
    amount: Ratio = most / (1.0 + (most / start - 1.0) * np.exp(-rate * after))
    return amount


def effective_age(rates: Array, reference: PerDay, each: Day = 1.0) -> Day:
    """Age of a film as if it had grown at the reference rate all the time; `rates` one for each span of `each` days.

        a = sum(r*dt)/r_ref

    Source: integral of growth since the last cleaning; that patches set by growth, not by the clock, is own choice.
    Valid:  rates that hold over each span.
    """
    _refuse.negative(rates=rates)  # type: ignore[arg-type]  # an array is meant
    _refuse.not_positive(reference_rate=reference, span=each)
    return float(np.sum(rates)) * each / reference


def set_share(age: Day, setting: Setting) -> Ratio:
    """Share of a window whose film has set so that a magnet no longer lifts it. Arrays broadcast.

        u = 1 - exp(-(max(0, a - a0)/theta)**k)

    Source: common practice, no source: 1.5, 4 days and 1.5 put into numbers what the trade says.
    Valid:  a first guess until calibrated; `age` in effective days.
    """
    _refuse.negative(age=age)
    past = np.maximum(0.0, np.subtract(age, setting.wait)) / setting.time
    share: Ratio = -np.expm1(-(past**setting.shape))
    return share


def set_after(ages: Sequence[Day], setting: Setting, already: Ratio = 0.0) -> Ratio:
    """Share set after cleanings by magnet alone, each at an age since the one before.

        U' = U + (1 - U)*u(a)

    Source: balance of the clear part; set patches stay until they are scraped.
    Valid:  as `set_share`; patches fall anywhere on what was clear.
    """
    _refuse.not_a_share(already_set=already)
    share = already
    for age in ages:
        share += (1.0 - share) * float(set_share(age, setting))
    return share


def last_safe_day(limit: Ratio, setting: Setting, already: Ratio = 0.0, pace: Ratio = 1.0) -> Day:
    """Days after a cleaning by which the next one keeps the share that has set within a limit, or inf.

        u = (limit - U)/(1 - U);  t = (a0 + theta*(-ln(1 - u))**(1/k))/pace      pace: r/r_ref

    Source: `set_share` and `set_after` read backwards.
    Valid:  as those; 0 where the limit is passed already: scrape first.
    """
    _refuse.not_a_share(limit=limit, already_set=already)
    _refuse.negative(pace=pace)
    if already >= limit and already > 0.0:
        return 0.0
    if limit >= 1.0 or pace == 0.0:
        return inf
    left = (limit - already) / (1.0 - already)
    age: Day = setting.wait + setting.time * (-log1p(-left)) ** (1.0 / setting.shape)
    return age / pace


def calibrated(
    cleanings: Sequence[Cleaning], prior: Setting = Setting(), spread: Ratio = _SPREAD, eye: Eye = Eye()
) -> Calibrated:
    """Wait and time of setting that a log makes likeliest, from a first guess; shape as it is in that.

        max of sum(ln P(seen|a, a0, theta)) - sum((ln x - ln x0)**2)/(2*spread**2)      x: a0, theta
        P(some) = Phi((b2 - u)/s) - Phi((b1 - u)/s), and so on      b: bounds, s: spread of the eye

    Source: maximum a posteriori with normal logarithms; the interval by the curvature there (Laplace).
    Valid:  eight to ten entries before it outweighs the first guess; windows scraped before each entry.
    """
    from scipy.optimize import minimize  # noqa: PLC0415 - a third of a second, paid by what calibrates

    _refuse.not_positive(spread_of_first_guess=spread, wait=prior.wait)
    centre = np.array([log(prior.wait), log(prior.time)])

    ages, seen = _aged(cleanings), np.array([_SEEN.index(one.seen) for one in cleanings], dtype=int)

    def against(logs: Array) -> float:
        setting = Setting(exp(logs[0]), exp(logs[1]), prior.shape)
        chance = _chances(ages, setting, eye)[seen, np.arange(len(seen))]
        return float(
            0.5 * np.sum(((logs - centre) / spread) ** 2) - np.sum(np.log(np.maximum(chance, _LEAST)))
        )

    tried = [
        minimize(against, centre + far, method="Nelder-Mead", options={"xatol": 1e-6, "fatol": 1e-9})
        for far in _STARTS
    ]
    best: Array = np.asarray(min(tried, key=lambda one: float(one.fun)).x, dtype=np.float64)
    known: Array = np.asarray(np.linalg.inv(_curvature(against, best)), dtype=np.float64)
    ends = [
        (exp(mean - sd), exp(mean + sd))
        for mean, sd in zip(best, _NINETY * np.sqrt(np.diag(known)), strict=True)
    ]
    return Calibrated(Setting(exp(best[0]), exp(best[1]), prior.shape), ends[0], ends[1], known)


def safe_between(found: Calibrated, limit: Ratio, already: Ratio = 0.0, pace: Ratio = 1.0) -> tuple[Day, Day]:
    """Ends between which the last safe day lies in nine cases of ten, as far as the log tells.

        ln t -+ 1.645*sqrt(g'*C*g)      g: slope of ln t with the logarithms of wait and time, C: `known`

    Source: error carried on in a straight line; `last_safe_day`.
    Valid:  as `calibrated`; the earlier end is the one to keep.
    """
    day = last_safe_day(limit, found.setting, already, pace)
    if day in (0.0, inf):
        return day, day
    share = found.setting.wait / pace / day
    slope = np.array([share, 1.0 - share])
    wide = exp(_NINETY * sqrt(float(slope @ found.known @ slope)))
    return day / wide, day * wide


def _aged(cleanings: Sequence[Cleaning]) -> Array:
    """Ages at all wipings since each window was scraped, a row for each entry, filled up with nothing."""
    rows = [(*one.before, one.age) for one in cleanings]
    ages = np.zeros((len(rows), max(map(len, rows), default=1)))
    for number, row in enumerate(rows):
        ages[number, : len(row)] = row
    return ages


def _chances(ages: Array, setting: Setting, eye: Eye) -> Array:
    """Chances of clean, some and many for each entry."""
    from scipy.special import ndtr  # noqa: PLC0415 - as `calibrated`

    clear = np.prod(1.0 - np.asarray(set_share(ages, setting)), axis=1)  # type: ignore[arg-type]  # ages broadcast
    over_some, over_many = (ndtr((1.0 - clear - bound) / eye.spread) for bound in eye.bounds)
    return np.array([1.0 - over_some, over_some - over_many, over_many])


def _curvature(of: Callable[[Array], float], at: Array) -> Array:
    """Second slopes of a function of two numbers, by differences."""
    moves = [_STEP * row for row in np.eye(2)]
    found: Array = np.empty((2, 2))
    for row, one in enumerate(moves):
        for column, other in enumerate(moves):
            corners = (
                of(at + one + other) - of(at + one - other) - of(at - one + other) + of(at - one - other)
            )
            found[row, column] = corners / (4.0 * _STEP**2)
    return found
