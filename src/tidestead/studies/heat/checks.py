"""Judging warmth: coldest and warmest of the years, the spell, heaters, what timber and top-off rely on."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from tidestead.catalog import table
from tidestead.core.source import YOURS
from tidestead.core.units import System, show
from tidestead.plan.model import Plan
from tidestead.studies.checks import At, Limit, above, below, unproven
from tidestead.studies.heat.facts import HeatFacts, YearFacts
from tidestead.studies.heat.steps import (
    evaporation_steps,
    extreme_steps,
    heater_steps,
    humidity_steps,
    spell_steps,
    stuck_steps,
)
from tidestead.studies.heat.wording import temp
from tidestead.studies.judged import Judged

WATER = At("water", "water", "heat", "water.keep")
HEATERS = At("heaters", "heaters", "heat", "heaters")
BUILDING = At("building", "building", "heat", "building")

_LEAST_ROOM, _NO_KEEP = 3.0, 27.0
"""Kelvin of room that use is counted over at least; warmest kept where the plan says nothing. Own choice."""

_MILD = "Years made from means are too mild at their ends: the cold spell and the heat wave are what counts there."


def judged(plan: Plan, facts: HeatFacts, system: System) -> list[Judged]:
    """Every check; where nothing could be worked out, why."""
    if facts.years is None:
        return [_silent(why) for why in facts.missing]
    found = [*_kept(plan, facts, facts.years, system), *_heaters(plan, facts, system)]
    return [*found, *_timber(plan, facts, facts.years), *_top_off(plan, facts.years)]


def _silent(why: str) -> Judged:
    return Judged(unproven(WATER, "coldest", "coldest of a year", "degC", why, YOURS))


def _kept(plan: Plan, facts: HeatFacts, years: YearFacts, system: System) -> Iterator[Judged]:
    """The band that is wanted, at its two ends, over the years and in the spells. Room counts by the band's width."""
    hot = table("heat_limits")["hot"]
    if plan.water.keep is None:
        why = "say how warm the water is to be kept: water.keep"
        yield Judged(unproven(WATER, "coldest", "coldest of a year", "degC", why, YOURS))
        yield Judged(unproven(WATER, "warmest", "warmest of a year", "degC", why, YOURS))
        return
    low, high = plan.water.keep
    wide = high - low
    cautions = (_MILD,) if "made" in years.words else ()
    cold_limit = Limit(low, YOURS, "coolest that you want to keep")
    warm_limit = Limit(high, YOURS, "warmest that you want to keep")
    check = above(
        WATER, "coldest", "coldest of a year", years.coldest, "degC", cold_limit, datum=low - wide,
        advice=_warmer(plan, facts, system), cautions=cautions,
    )  # fmt: skip
    yield Judged(check, extreme_steps(years, cold=True))
    check = below(
        WATER, "warmest", "warmest of a year", years.hottest, "degC", warm_limit, datum=high - 2.0 * wide,
        advice=_cooler(plan, facts), cautions=cautions,
    )  # fmt: skip
    yield Judged(check, extreme_steps(years, cold=False))
    if facts.spell is not None:
        spell = facts.spell.spell
        words = f"coldest in the cold spell ({spell.days:g} days of {temp(spell.mean_c, system)})"
        check = above(
            WATER,
            "spell",
            words,
            facts.spell.lowest,
            "degC",
            cold_limit,
            datum=low - wide,
            advice=_warmer(plan, facts, system),
        )
        yield Judged(check, spell_steps(facts))
    if facts.wave is not None and facts.tried:
        words = f"warmest in the heat wave ({facts.wave.days:g} days of {temp(facts.wave.mean_c, system)})"
        limit = Limit(hot.si("act"), hot.figure("act").source, "3 °C (5.4 °F) below where fish die")
        found = facts.tried[0].highest
        yield Judged(
            below(WATER, "wave", words, found, "degC", limit, datum=_below(high), advice=_cooler(plan, facts))
        )


def _below(high: float) -> float:
    """Where use begins to count against the heat that is acted on: the warmest kept, or some kelvin below that heat."""
    return min(high, table("heat_limits")["hot"].si("act") - _LEAST_ROOM)


def _warmer(plan: Plan, facts: HeatFacts, system: System) -> str:
    """A higher setpoint where the heaters are large enough, else larger ones, and less loss."""
    spell = facts.spell
    if spell is None or not plan.heaters:
        first = "heaters" if spell is None else f"heaters of {show(spell.needed.high, 'W', system)} in all"
    else:
        first = "a higher setpoint" if spell.installed >= spell.needed.high else "larger heaters"
    glazing = ["tighter or better glazing"] if facts.indoors else []
    cover = [] if plan.covers else ["a cover at night"]
    return ", ".join([first, *cover, *glazing, "or foam round the vessels"])


def _cooler(plan: Plan, facts: HeatFacts) -> str:
    """What cools best of what was tried in the heat wave."""
    planned = facts.tried[0].highest if facts.tried else 0.0
    ways = sorted(
        (one for one in facts.tried[1:] if one.highest < planned - 0.2 and one.name.startswith("with a ")),
        key=lambda one: one.highest,
    )
    words = [one.name.removeprefix("with ") for one in ways]
    if plan.building.vents is not None:
        words.append("vents that open earlier or wider")
    if plan.building.shade is not None:
        words.append("more shade, drawn earlier")
    return ", ".join(words[:-1]) + (", or " if len(words) > 1 else "") + words[-1] if words else "a chiller"


def _heaters(plan: Plan, facts: HeatFacts, system: System) -> Iterator[Judged]:
    """Large enough for the spell, and not so large that one stuck on cooks the water."""
    spell, hot = facts.spell, table("heat_limits")["hot"]
    if not plan.heaters:
        return
    if spell is None or spell.installed <= 0.0:
        why = "no heater stands in a vessel that holds seawater: heaters.NAME.vessel"
        yield Judged(unproven(HEATERS, "size", "power for the cold spell", "W", why, YOURS))
        return
    limit = Limit(spell.installed, YOURS, "all heaters of the plan together")
    words = f"power for the cold spell, times {spell.margin:g}"
    check = below(
        HEATERS, "size", words, spell.needed, "W", limit, advice=_larger(spell.needed.high, system),
        cautions=("Two heaters on two circuits: with one dead the other holds life. Mains beside seawater: "
                  "residual-current device, a licensed electrician, local codes.",),
    )  # fmt: skip
    yield Judged(check, heater_steps(spell))
    if facts.stuck is not None:
        limit = Limit(hot.si("act"), hot.figure("act").source, "3 °C (5.4 °F) below where fish die")
        datum = _below(plan.water.keep[1] if plan.water.keep is not None else _NO_KEEP)
        check = below(
            HEATERS, "stuck", "warmest water with one stuck on all summer", facts.stuck.highest, "degC", limit,
            datum=datum, advice=_smaller(facts, system),
        )  # fmt: skip
        yield Judged(check, stuck_steps(facts))


def _larger(needed: float, system: System) -> str:
    return f"heaters of {show(needed, 'W', system)} in all, or less loss"


def _smaller(facts: HeatFacts, system: System) -> str:
    """How many heaters would be few enough watts each."""
    act = table("heat_limits")["hot"].si("act")
    for count, power, hot in facts.spell.stuck if facts.spell else ():
        if hot <= act:
            each = show(power, "W", system)
            words = f"one heater of {each}" if count == 1 else f"{count} heaters of {each} each"
            return f"{words}, or a second thermostat in series with each"
    return "a second thermostat in series with each heater, set a little higher, and smaller heaters"


def _timber(plan: Plan, facts: HeatFacts, years: YearFacts) -> Iterator[Judged]:
    """What the timber was told to stand, against what the building does."""
    building = plan.building
    if building.humidity is not None:
        month = max(range(12), key=years.humidity.high.__getitem__)
        found = years.humidity.at(month)
        limit = Limit(building.humidity[1], YOURS, "dampest air that the timber was sized for", near=0.05)
        words = "humidity of the dampest month"
        advice = "more air changed in winter, a cover on the water, or the dampest air of building.humidity as it is"
        check = below(BUILDING, "humidity", words, found, "1", limit, advice=advice, style="share")
        yield Judged(check, humidity_steps(years))
    if building.warmest_wood is not None:
        limit = Limit(building.warmest_wood, YOURS, "warmest that the timber was sized for")
        words = "warmest five days of the air, mean of day and night"
        advice = "vents that open earlier, more shade, or building.warmest_wood as it is"
        found = years.warm_air
        if facts.tried and facts.tried[0].air > found.high:
            found = replace(found, high=facts.tried[0].air, basis="P10 of the years to the heat wave")
        check = below(BUILDING, "warm_air", words, found, "degC", limit, datum=20.0, advice=advice)
        yield Judged(check)


def _top_off(plan: Plan, years: YearFacts) -> Iterator[Judged]:
    """Evaporation that the top-off was planned for, against what comes out."""
    for key, vessel in plan.vessels.items():
        if vessel.top_off is None or vessel.top_off.evaporation is None:
            continue
        month = max(range(12), key=years.evaporation.likely.__getitem__)
        found = years.evaporation.at(month, 1.0 / 1000.0)
        at = At(f"{key}.top_off", f"{key}, top-off", "heat", f"vessels.{key}.top_off.evaporation")
        limit = Limit(vessel.top_off.evaporation, YOURS, "what the top-off was planned for")
        words = "evaporation in the month with most"
        advice = "a larger figure there and in the stock, or a cover"
        yield Judged(
            below(at, "evaporation", words, found, "m3/s", limit, advice=advice, style="day"),
            evaporation_steps(years),
        )
