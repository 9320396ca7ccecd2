"""A new system's first weeks: ammonia and nitrite until bacteria have grown that eat both."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cache

from tidestead.catalog import Row, table
from tidestead.core.answer import Assumption, Estimate, Figure
from tidestead.core.charts import Curve, LineChart, Mark
from tidestead.core.source import PRACTICE
from tidestead.core.units import System, show
from tidestead.physics.water import cycling as laws
from tidestead.physics.water.cycling import CyclingCurve, NewWater, Nitrifier
from tidestead.physics.water.nutrients import SEA_CEILING
from tidestead.studies.inputs import Inputs
from tidestead.studies.water.section import Section
from tidestead.studies.water.setting import Setting
from tidestead.studies.water.spans import DAY, GRAMS
from tidestead.studies.water.stocking import areas_of

VARIED = 0.3
"""Share by which growth may be quicker or slower than is told. Own choice: works differ by more."""

_EVERY = 1.0
"""Days between two points of the curve."""
_SLOW = (
    "In seawater a filter may take 22 weeks (154 days) until it is grown, with nitrite standing high: read ammonia and "
    "nitrite, not the calendar."
)
_RATE = "growth of bacteria by a third more and less; in seawater it may take 22 weeks"


@dataclass(frozen=True)
class NewFilterFacts:
    """`days` until ammonia and nitrite stay under `done`, g/m3, from a `dose` of ammonia; the likely curve by day.

    `longest` is how far it was followed: an end of the range there says that it took longer. `stocked` says that the
    display is past it.
    """

    days: Estimate
    longest: float
    dose: float
    done: float
    day: tuple[float, ...]
    ammonia: tuple[float, ...]
    nitrite: tuple[float, ...]
    nitrate: tuple[float, ...]
    stocked: bool


def new_filter_of(inputs: Inputs, setting: Setting) -> NewFilterFacts:
    """The curve of the plan's filters, and how long it takes."""
    row, room = _row(), _room(inputs, setting)
    curve = _curve(1.0, room)
    display = inputs.plan.vessels.get(setting.display)
    runs = (curve.day, curve.ammonia, curve.nitrite, curve.nitrate)
    day, ammonia, nitrite, nitrate = (tuple(float(one) for one in run) for run in runs)
    stocked = display is not None and display.stage == "stocked"
    dose, done = GRAMS * row.si("dose"), GRAMS * row.si("done")
    return NewFilterFacts(_days(room), _longest(), dose, done, day, ammonia, nitrite, nitrate, stocked)


def cycling_days(inputs: Inputs, setting: Setting) -> Estimate:
    """Days that a new filter takes until fish may come."""
    return _days(_room(inputs, setting))


def _days(room: float) -> Estimate:
    level = GRAMS * _row().si("done")
    quick, likely, slow = (
        min(laws.days_until_low(_curve(pace, room), level), _longest())
        for pace in (1.0 + VARIED, 1.0, 1.0 - VARIED)
    )
    return Estimate(quick, likely, slow, _RATE)


def _row() -> Row:
    return table("water_limits")["nitrifiers"]


def _longest() -> float:
    """Days that are followed: as long as a filter in seawater took."""
    return _row().si("longest") / DAY


def _room(inputs: Inputs, setting: Setting) -> float:
    """Most nitrogen that the plan's surfaces turn in a day, g/m3 of the water; inf where the plan has none."""
    area = sum(areas_of(inputs.plan, setting).values())
    return SEA_CEILING * area / setting.volume if area > 0.0 and setting.volume > 0.0 else math.inf


@cache
def _curve(pace: float, room: float) -> CyclingCurve:
    """From one dose of ammonia and a seed of both bacteria."""
    row = _row()
    kinds = []
    for kind in ("ammonia", "nitrite"):
        growth = pace * DAY * row.si(f"growth_{kind}")
        seed = GRAMS * row.si("seed") * growth / row.si(f"yield_{kind}")
        half = GRAMS * row.si(f"half_{kind}")
        kinds.append(Nitrifier(growth, half, DAY * row.si("decay"), room, min(seed, room)))
    water = NewWater(GRAMS * row.si("dose"), 0.0, 0.0, 0.0)
    return laws.cycling_curve(water, kinds[0], kinds[1], _longest(), _EVERY)


def new_filter_section(inputs: Inputs, _setting: Setting, facts: NewFilterFacts) -> Section:
    """The curve and the days."""
    if facts.stocked:
        return Section()
    row = _row()
    source = row.figure("growth_ammonia").source
    time = facts.days
    days = Estimate(DAY * time.low, DAY * time.likely, DAY * time.high, time.basis)
    words = f"{facts.dose:g} mg/L of ammonia nitrogen, and old media or bottled bacteria as a seed"
    return Section(
        figures=(
            Figure(
                "water.new_filter.days",
                "until ammonia and nitrite are both eaten, new filter",
                days,
                "s",
                source,
            ),
        ),
        charts=(_chart(facts, inputs.system),),
        assumptions=(
            Assumption("first dose", words, "what a new filter is fed", PRACTICE),
            Assumption("growth of bacteria", "0.4 and 0.3 a day at most", "in water kept warm", source),
        ),
        cautions=(_SLOW,),
        told=(
            f"A new filter takes about {time.likely:.0f} days until fish may come "
            f"({time.low:.0f} to {_end(time.high, facts.longest)}).",
        ),
    )


def _end(days: float, longest: float) -> str:
    return f"more than {days:.0f}" if days >= longest else f"{days:.0f}"


def _chart(facts: NewFilterFacts, system: System) -> LineChart:
    at = tuple(DAY * day for day in facts.day)
    curves = tuple(
        Curve(name, at, values)
        for name, values in (
            ("ammonia", facts.ammonia),
            ("nitrite", facts.nitrite),
            ("nitrate", facts.nitrate),
        )
    )
    top = max(facts.nitrite)
    worst = facts.day[facts.nitrite.index(top)]
    told = (
        f"From {show(facts.dose, 'mg/L', system)} of ammonia on the first day; nitrite is highest about day "
        f"{worst:.0f} ({show(top, 'mg/L', system)}); both are under {facts.done:g} mg/L after "
        f"about {facts.days.likely:.0f} days."
    )
    return LineChart(
        "water.new_filter",
        "A new filter: ammonia, nitrite and nitrate",
        told,
        "nitrogen",
        "mg/L",
        curves,
        along="from the first dose",
        along_unit="s",
        limits=(Mark(facts.done, "done under:"),),
    )
