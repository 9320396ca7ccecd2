"""What would hold nitrate and phosphate, each way with its size: changes, feed, filters without air, granulates, algae.

All by the most that may be made and the least that may be taken, for that is what the check is judged by, and with
room under what is wanted.
"""

from __future__ import annotations

from collections.abc import Iterator

from tidestead.core.units import System, advised, show
from tidestead.physics.water import binding
from tidestead.physics.water import nutrients as laws
from tidestead.studies.checks import ENOUGH
from tidestead.studies.rounding import two_digits_up
from tidestead.studies.water.nutrients import NutrientFacts, NutrientLevel
from tidestead.studies.water.spans import DAY
from tidestead.studies.water.takings import granulate, wet_share
from tidestead.studies.water.wording import percent

_WEEK = 7.0
_LEAST_FED = 0.2
"""Of what is fed now, which may be advised at least. Own choice."""
_ROUNDED = 5e-3
"""Most that three figures shown lie above the number they stand for, as a share of it."""


def holding_words(facts: NutrientFacts, level: NutrientLevel, system: System) -> str:
    """Every way that would hold the target by itself, with room."""
    worst = level.balances[2]
    leaves = ENOUGH * level.target * (worst.renewed + worst.pace * worst.volume)
    excess = max(worst.made - worst.uptake - leaves, 0.0)
    ways = [
        *_changes(facts, level, system),
        *(_binding(facts, excess, system) if level.name == "phosphate" else ()),
        *_algae(level, excess, system),
        *_feed(facts, level, leaves, system),
        *(_without_air(level) if level.name == "nitrate" else ()),
    ]
    room = f" (each of these leaves {percent(1.0 - ENOUGH, 'up')} of what is wanted)" if excess > 0.0 else ""
    return "; or ".join(ways) + room


def _changes(facts: NutrientFacts, level: NutrientLevel, system: System) -> Iterator[str]:
    """By the most that is made; the likely beside it, where the changes that there are do not hold that either."""
    every = show((facts.exports.every or _WEEK) * DAY, "s", system)
    likely, most = level.roomy.likely, level.roomy.high
    if likely >= 1.0:
        yield f"something beside changes, for even all the water every {every} would not hold it"
    elif most >= 1.0:
        yield f"something beside changes, for with the most made even all the water every {every} would not hold it"
    elif most > 0.0:
        words = f"changes of {percent(most, 'up')} every {every}"
        asked = level.judged.likely > level.target
        yield f"{words} ({percent(likely, 'up')} by the likely numbers)" if asked else words
    elif level.judged.high > level.target:
        yield "any change of water, for nothing adds to it"


def _binding(facts: NutrientFacts, excess: float, system: System) -> Iterator[str]:
    """Granulates: what they must bind in a week, and the loads of both kinds that do."""
    if excess <= 0.0:
        return
    daily = excess / float(laws.phosphate_ion(1.0))
    has = next((one for one in facts.exports.takings if one.path.startswith("adsorbers.")), None)
    iron, white = granulate("ferric-hydroxide"), granulate("aluminium-oxide")
    every = iron.si("renewed") / DAY if has is None else has.every
    loads = [float(binding.binding_load(daily, row.si("binds_low"), every)) for row in (iron, white)]
    first, second = (advised(one, "kg", system, "up") for one in loads)
    weekly = f"{two_digits_up(_WEEK * daily):.2g} g of phosphorus a week{'' if has is None else ' more'}"
    yield (
        f"binding {weekly}: {first} of granular "
        f"ferric hydroxide, or {second} of activated aluminium oxide, renewed every {show(every * DAY, 's', system)} "
        "(adsorbers.NAME; less where you have measured what yours binds)"
    )


def _algae(level: NutrientLevel, excess: float, system: System) -> Iterator[str]:
    """Algae to take out, wet, in a week."""
    if excess <= 0.0:
        return
    nitrate = level.name == "nitrate"
    least = wet_share("nitrogen" if nitrate else "phosphorus").low
    daily = excess / float((laws.nitrate_ion if nitrate else laws.phosphate_ion)(1.0))
    wet = float(binding.harvest_wanted(daily, 1.0, least, _WEEK))
    more = " more" if level.taken.high > 0.0 else ""
    yield f"algae that are taken out, {advised(wet, 'kg', system, 'up')}{more} a week, wet (harvests.NAME)"


def _feed(facts: NutrientFacts, level: NutrientLevel, leaves: float, system: System) -> Iterator[str]:
    """Where it is no less than a fifth of what is fed: nothing lives of less."""
    worst = level.balances[2]
    goes = leaves + worst.uptake
    if facts.feed is not None and _LEAST_FED * worst.made < goes < worst.made:
        fed = show(facts.feed * goes / worst.made * (1.0 - _ROUNDED), "kg/s", system)
        yield f"feed of {fed} with the rest as it is"


def _without_air(level: NutrientLevel) -> Iterator[str]:
    worst = level.balances[2]
    if worst.made > worst.uptake and level.target > 0.0:
        rest = (worst.made - worst.uptake) / (ENOUGH * level.target)
        pace = two_digits_up(max((rest - worst.renewed) / worst.volume, 0.0))
        if pace <= 0.0:
            return
        yield f"filters without air that take {pace:.2g} of the nitrate a day in all (filters.NAME.denitrifies)"
