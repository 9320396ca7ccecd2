"""The answer put together: could the sun alone do it, what lamps and shade must do, and how sure that is."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from tidestead.core.answer import Answer, Assumption, Check, Estimate, Figure, Working
from tidestead.core.months import MONTHS
from tidestead.core.source import COMPUTED, YOURS, Source
from tidestead.core.units import System, show
from tidestead.plan.model import Plan
from tidestead.studies.inputs import Inputs
from tidestead.studies.light.charts import charts_of
from tidestead.studies.light.checks import HOPELESS, judged
from tidestead.studies.light.facts import CoralLight, LightFacts
from tidestead.studies.light.steps import clarity_working, lamp_workings, make_up_working, shade_working
from tidestead.studies.light.tables import tables_of
from tidestead.studies.light.wording import (
    day_light,
    in_months,
    money,
    money_words,
    months_words,
    share_words,
)
from tidestead.studies.sentences import governing, told_of

QUESTION = "Is there light enough to grow?"

ALWAYS = (
    "Lamps over seawater: hung so that they cannot fall in, on a residual-current device (ground-fault interrupter), "
    "with drip loops, out of the splash; a licensed electrician installs them; local codes govern.",
    "Strong lamps harm eyes: do not look into them, and shield them from where people stand.",
    "Not counted: shade of hills, trees and buildings around, and of the vessel's own walls at low sun; drops on the "
    "sheet's inside (up to a fifth of the light on plastic); light that walls and sand throw on; ripples. A meter at "
    "the coral decides.",
)

_TOLD = 3
"""Groups of corals that the sentence tells of; the others stand in the tables."""


def tell(inputs: Inputs, facts: LightFacts) -> Answer:
    """The whole answer."""
    plan, system = inputs.plan, inputs.system
    found = judged(plan, facts)
    checks = tuple(one.check for one in found)
    workings = [one.working for one in found if one.steps]
    return Answer(
        "light",
        QUESTION,
        sentence(plan, facts, checks, system),
        checks,
        tuple(_figures(plan, facts)),
        (*facts.assumptions, *_weather(facts)),
        (*_shared(facts), *workings, *_lamp_workings(plan, facts)),
        tables_of(plan, facts, system),
        cautions=(*facts.notes, *ALWAYS),
        extra_sources=_sources(facts),
        charts=tuple(charts_of(facts, system, _governing_group(checks))),
    )


def _governing_group(checks: Sequence[Check]) -> str:
    """The corals that the answer's verdict rests on: their pictures come first."""
    return governing(checks).part.partition(".")[0] if checks else ""


def sentence(plan: Plan, facts: LightFacts, checks: Sequence[Check], system: System) -> str:
    """What the verdict rests on; then what the sun alone does, in which months not, what lamps and shade must add."""
    told = facts.groups[:_TOLD]
    natural = [_natural(group, system) for group in told]
    beside = [words for group in told for words in (_lamps(plan, group, system), _shade(group)) if words]
    left = len(facts.groups) - len(told)
    if left > 0:
        beside.append(f"{left} more {'groups stand' if left > 1 else 'group stands'} in the tables.")
    return " ".join([*told_of(checks, system), *natural, *beside])


def _natural(group: CoralLight, system: System) -> str:
    """Could natural light alone carry these corals here, and in which months not?"""
    least, likely = group.band.least, group.natural.likely
    short = [month for month in range(12) if likely[month] < least]
    dark = min(range(12), key=likely.__getitem__)
    wanted = day_light(least, system)
    if not short:
        now = day_light(likely[dark], system)
        return f"Natural light alone carries corals {group.key} all year: {now} in {MONTHS[dark]}, of {wanted} wanted."
    now = day_light(likely[dark], system, (least,))
    carried = "in no month" if len(short) == 12 else f"except in {months_words(short)}"
    return f"Natural light alone carries corals {group.key} {carried}: {now} in {MONTHS[dark]}, of {wanted} wanted."


def _lamps(plan: Plan, group: CoralLight, system: System) -> str:
    """What lamps would have to make up, and what those of the plan do."""
    made = group.make_up
    if max(made.missing) <= 0.0:
        return ""
    month = max(range(12), key=made.power.__getitem__)
    if made.power[month] > HOPELESS:
        return (
            f"No lamps make up the rest at corals {group.key}: the water lets too little of their light down."
        )
    power, energy = show(made.power[month], "W", system), show(made.year.likely, "J", system)
    words = (
        f"Making up the rest takes lamps of {power} over corals {group.key} for {group.lighting.hours:g} h a day in "
        f"{MONTHS[month]}, {energy} a year{money_words(made.year.likely, plan.supplies.tariff)}"
    )
    if not group.lighting.planned:
        return f"{words}; the plan has none over {group.vessel}."
    have = show(group.lighting.power, "W", system)
    return f"{words}; with the plan's {have} the darkest month has {day_light(group.least.likely, system)}."


def _shade(group: CoralLight) -> str:
    bright = [month for month, share in enumerate(group.shade) if share > 0.0]
    if not bright:
        return ""
    return (
        f"For the shallowest of corals {group.key} it is too much {in_months(bright)} of a bright year, without "
        f"further shade of up to {share_words(max(group.shade))}."
    )


def _figures(plan: Plan, facts: LightFacts) -> Iterator[Figure]:
    tariff = plan.supplies.tariff
    yield Figure("light.clarity", "attenuation of the water", facts.clarity.rate, "1/m", facts.clarity.source)
    for group in facts.groups:
        key = f"light.{group.key}"
        year = group.make_up.year
        words = f"{group.key}: energy of a year that lamps would need beside the sun alone"
        yield Figure(f"{key}.make_up", words, year, "J", COMPUTED)
        if tariff is not None:
            ends = [float(money(end, tariff)) for end in (year.low, year.likely, year.high)]
            yield Figure(
                f"{key}.cost",
                f"{group.key}: cost of that",
                Estimate(ends[0], ends[1], ends[2], year.basis),
                tariff.currency,
                YOURS,
            )
    for lamp in facts.lamps:
        key, energy = f"light.lamps.{lamp.key}", Estimate.exact(lamp.energy)
        yield Figure(f"{key}.energy", f"lamps {lamp.key}: energy of a year", energy, "J", YOURS)
        if tariff is not None:
            cost = Estimate.exact(float(money(lamp.energy, tariff)))
            yield Figure(f"{key}.cost", f"lamps {lamp.key}: cost of a year", cost, tariff.currency, YOURS)
        share = Estimate.exact(lamp.water_share)
        yield Figure(
            f"{key}.warms",
            f"lamps {lamp.key}: share of their power that warms the water",
            share,
            "1",
            COMPUTED,
            "share",
        )
    for vessel, share in facts.floor_heat.items():
        yield Figure(
            f"light.{vessel}.floor",
            f"{vessel}: share of the sun's heat in the water that reaches its floor",
            share,
            "1",
            COMPUTED,
            "share",
        )


def _shared(facts: LightFacts) -> list[Working]:
    found = clarity_working(facts.clarity)
    return [] if found is None else [found]


def _lamp_workings(plan: Plan, facts: LightFacts) -> Iterator[Working]:
    for group in facts.groups:
        yield from (
            one for one in (make_up_working(group, facts.clarity), shade_working(group)) if one is not None
        )
    yield from lamp_workings(plan, facts)


def _weather(facts: LightFacts) -> Iterator[Assumption]:
    """Where the weather comes from stands with what the answer rests on."""
    if facts.weather_source is not None:
        yield Assumption(
            "weather",
            f"{facts.weather_words}; {facts.years}" if facts.years else facts.weather_words,
            "",
            facts.weather_source,
        )


def _sources(facts: LightFacts) -> tuple[Source, ...]:
    found: dict[Source, None] = {}
    for group in facts.groups:
        found[group.band.source] = None
    return tuple(found)
