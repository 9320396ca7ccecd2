"""Film on windows: share under set patches by day since the wipe, month by month, and the last safe day."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from tidestead.catalog import Row, table
from tidestead.core.answer import Estimate
from tidestead.core.dims import Array
from tidestead.core.months import MONTH_DAYS
from tidestead.core.source import YOURS, Source
from tidestead.physics import film
from tidestead.physics.film import Cleaning, Setting
from tidestead.plan.model import Plan
from tidestead.studies.faults.facts import FilmFacts
from tidestead.studies.faults.waters import Basis
from tidestead.studies.levels import own_or
from tidestead.studies.light.facts import LightFacts

DAYS = 14
_A_DAY = 86400.0
_MOST = 60.0
"""Days since the wipe that are shown, and that a last safe day is told up to."""

_SEEN, _HALF = 1.0 / 3.0, 0.5
"""Share of what is borne at which patches are seen; share of a window that is lost to the view. Own choices."""

_DARK = 1e-6
"""Share of growth that a month without any light keeps, so that paces stay numbers. Own choice."""

ENOUGH = 8
"""Looks from which on the plan's own outweigh the catalogue's guess. Common practice, no source."""


@dataclass(frozen=True)
class Habit:
    """When patches set: likely, and the settings at both ends of what is known; how that is known."""

    soon: Setting
    likely: Setting
    late: Setting
    words: str
    source: Source


def film_of(basis: Basis, light: LightFacts) -> FilmFacts | None:
    """The calendar; nothing where the display has no window to keep clear."""
    plan, display = basis.plan, basis.plan.vessels[basis.setting.display]
    if not any(wall.windows for wall in display.walls.values()):
        return None
    row = table("fault_limits")["film"]
    habit, paces = _habit(plan, row), _paces(basis, light, row)
    cleaning = plan.cleaning
    allowed, allowed_source = own_or(row, "allowed", None if cleaning is None else cleaning.allowed)
    every = None if cleaning is None else cleaning.every / _A_DAY
    scraped = _scraped(plan)
    return FilmFacts(
        tuple(
            tuple(float(film.set_share(day * pace, habit.likely)) for day in range(DAYS + 1))
            for pace in paces
        ),
        tuple(_last(habit, allowed, pace) for pace in paces),
        allowed,
        allowed_source,
        every,
        scraped,
        None if every is None or scraped is None else _patches(habit, every, scraped, max(paces)),
        habit.words,
        tuple(paces),
        habit.source,
        (habit.likely.wait, habit.likely.time, habit.likely.shape),
        (
            _last(habit, _SEEN * allowed, max(paces)),
            _last(habit, allowed, max(paces)),
            _last(habit, max(_HALF, allowed), max(paces)),
        ),
    )


def _habit(plan: Plan, row: Row) -> Habit:
    """The catalogue's guess, or what the plan's own looks make of it."""
    a_day, shape = _A_DAY, row.si("shape")
    ends = [
        Setting(row.si(f"starts{end}") / a_day, row.si(f"scale{end}") / a_day, shape)
        for end in ("_low", "", "_high")
    ]
    looks = plan.measured.film
    if not looks:
        return Habit(
            ends[0], ends[1], ends[2], "a guess of the trade, not yet your own", row.figure("scale").source
        )
    found = film.calibrated([Cleaning(look.after / a_day, look.word) for look in looks], ends[1])
    wait, time = found.wait_between, found.time_between
    fitted = (Setting(wait[0], time[0], shape), found.setting, Setting(wait[1], time[1], shape))
    few = "" if len(looks) >= ENOUGH else f"; {ENOUGH} or more are wanted before they outweigh the guess"
    return Habit(*fitted, f"fitted to {len(looks)} looks of yours{few}", YOURS)


def _paces(basis: Basis, light: LightFacts, row: Row) -> list[float]:
    """Growth of each month against the mean of the year, by the light on the water and the water's warmth."""
    lit = _light(basis, light, row)
    warm = _warmth(basis, row)
    paces = lit * warm
    return [float(pace) for pace in paces / paces.mean()]


def _light(basis: Basis, light: LightFacts, row: Row) -> Array:
    """I/(I + Ik) of the light on the display's water; even where the light study has no corals in it to ask for."""
    group = next((one for one in light.groups if one.vessel == basis.setting.display), None)
    if group is None:
        return np.ones(12)
    surface = np.array(group.surface.likely)
    lit: Array = surface / (surface + row.si("half_light")) + _DARK
    return lit


def _warmth(basis: Basis, row: Row) -> Array:
    years = basis.heat.years
    if years is None:
        return np.ones(12)
    days, ends = np.array(years.days.likely), np.cumsum(MONTH_DAYS)
    means = np.array([days[end - count : end].mean() for end, count in zip(ends, MONTH_DAYS, strict=True)])
    return np.asarray(row.si("warmer") ** ((means - means.mean()) / 10.0))


def _last(habit: Habit, allowed: float, pace: float) -> Estimate:
    days = [
        min(float(film.last_safe_day(allowed, one, pace=pace)), _MOST)
        for one in (habit.soon, habit.likely, habit.late)
    ]
    return Estimate(days[0], days[1], days[2], habit.words)


def _scraped(plan: Plan) -> float | None:
    """Days between scrapes: the plan's, else each visit of the owner."""
    if plan.cleaning is not None and plan.cleaning.scraped is not None:
        return plan.cleaning.scraped / _A_DAY
    away = None if plan.response is None else plan.response.away
    return None if away is None else away / _A_DAY


def _patches(habit: Habit, every: float, scraped: float, pace: float) -> Estimate:
    """Share under set patches at the end of the time between scrapes, wiped in between, in the fastest month."""
    wipes = max(int(scraped / every), 1)
    late, likely, soon = (
        float(film.set_after([every * pace] * wipes, one)) for one in (habit.late, habit.likely, habit.soon)
    )
    return Estimate(min(late, likely), likely, max(soon, likely), habit.words)
