"""What is taken for granted of light where the plan is silent."""

from __future__ import annotations

from collections.abc import Iterator

from tidestead.core.answer import Assumption
from tidestead.core.source import PRACTICE, Known, Source
from tidestead.physics.light import photons
from tidestead.plan.model import Plan
from tidestead.studies.house import House
from tidestead.studies.light.facts import Clarity
from tidestead.studies.light.lighting import BURNS, EFFICACY, REACHES

_PHOTONS = Source(
    "R. Thimijan and R. Heins (1983), HortScience 18:818", "and others, as quoted", Known.QUOTED
)


def assumptions_of(plan: Plan, house: House, clarity: Clarity) -> Iterator[Assumption]:
    """Every default that was used."""
    yield from house.assumptions
    yield Assumption(
        "photons of daylight",
        f"{photons.DAYLIGHT:g} umol/J ({photons.DAYLIGHT_LOW:g} to {photons.DAYLIGHT_HIGH:g})",
        "light for plants in the sun's power; cloud raises it",
        _PHOTONS,
    )
    if plan.water.clarity is None and not clarity.readings:
        rate = clarity.rate
        words = f"{rate.likely:g} 1/m ({rate.low:g} to {rate.high:g})"
        yield Assumption(
            "water.clarity", words, "nobody has measured yours; two readings under measured win", PRACTICE
        )
    for key, lamp in plan.lamps.items():
        if lamp.efficacy is None:
            yield Assumption(f"lamps.{key}.efficacy", f"{EFFICACY:g} umol/J", "a fair white lamp", PRACTICE)
        if lamp.reaches is None:
            yield Assumption(
                f"lamps.{key}.reaches", f"{100.0 * REACHES:.0f} %", "of its light enters the water", PRACTICE
            )
    unlit = {coral.vessel for coral in plan.corals.values()} - {lamp.over for lamp in plan.lamps.values()}
    for vessel in sorted(unlit):
        words = f"{EFFICACY:g} umol/J, {100.0 * REACHES:.0f} % reaches the water, {BURNS:g} h a day"
        yield Assumption(
            f"lamps over {vessel}", words, "for what lamps would have to make up; the plan has none", PRACTICE
        )
