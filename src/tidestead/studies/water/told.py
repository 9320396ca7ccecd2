"""The water's answer put together from its matters: what governs first, then a sentence of each that matters most."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from tidestead.core.answer import Answer, Check
from tidestead.core.source import COMPUTED
from tidestead.studies.checks import At, unproven
from tidestead.studies.inputs import Inputs
from tidestead.studies.judged import Judged
from tidestead.studies.sentences import governing, told_of
from tidestead.studies.water.alkalinity_checks import alkalinity_section
from tidestead.studies.water.ammonia import ammonia_section
from tidestead.studies.water.changing import changing_section
from tidestead.studies.water.changing_ways import ways_section
from tidestead.studies.water.evaporating import evaporating_section
from tidestead.studies.water.facts import WaterFacts
from tidestead.studies.water.filling import filling_section
from tidestead.studies.water.new_filter import new_filter_section
from tidestead.studies.water.nutrient_checks import nutrient_section
from tidestead.studies.water.ramp_checks import ramp_section
from tidestead.studies.water.salting import salting_section
from tidestead.studies.water.section import Section
from tidestead.studies.water.setting_told import setting_assumed
from tidestead.studies.water.stock_checks import stock_section

QUESTION = "Is the water right?"

ALWAYS = (
    "Limewater, soda and chlorine burn skin and eyes: gloves and goggles, and never two of them in one vessel.",
    "Mains near seawater: vats, heaters and pumps on a residual-current device, leads with drip loops; unplug before a "
    "hand goes in; a licensed electrician builds what is fixed.",
    "Readings decide, not sums: test kits and probes differ, and what lives in the water changes it.",
)


def tell(inputs: Inputs, facts: WaterFacts) -> Answer:
    """The whole answer."""
    sections = _sections(inputs, facts)
    found = [one for section in sections for one in section.judged] or [_nothing(facts)]
    checks = tuple(one.check for one in found)
    shared = [one for section in sections for one in section.workings]
    setting = () if facts.matters is None else setting_assumed(inputs.plan, facts.setting, inputs.system)
    assumptions = (*setting, *(one for section in sections for one in section.assumptions))
    return Answer(
        "water",
        QUESTION,
        sentence(inputs, checks, sections),
        checks,
        tuple(one for section in sections for one in section.figures),
        tuple(dict.fromkeys(assumptions)),
        (*(one.working for one in found if one.steps), *shared),
        tuple(one for section in sections for one in section.tables),
        cautions=tuple(dict.fromkeys((*(one for section in sections for one in section.cautions), *ALWAYS))),
        charts=tuple(one for section in sections for one in section.charts),
        governs=governing(checks).id,
    )


def _nothing(facts: WaterFacts) -> Judged:
    at = At("all", "water", "water", "vessels")
    return Judged(unproven(at, "volume", "how much water there is", "m3", facts.missing, COMPUTED))


def _sections(inputs: Inputs, facts: WaterFacts) -> list[Section]:
    """In the order in which a builder meets them: the first fill, salt, keeping level, stock, what it leaves."""
    matters, setting, stock = facts.matters, facts.setting, facts.stock
    if matters is None:
        return []
    return [
        filling_section(inputs, setting, matters.filling),
        salting_section(inputs, setting, matters.salting),
        evaporating_section(inputs, setting, matters.evaporating),
        changing_section(inputs, setting, matters.changing),
        ways_section(inputs, setting, matters.changing, matters.nutrients),
        stock_section(inputs, setting, stock),
        nutrient_section(inputs, setting, matters.nutrients),
        ammonia_section(inputs, setting, matters.ammonia, stock),
        alkalinity_section(inputs, setting, matters.alkalinity),
        new_filter_section(inputs, setting, matters.new_filter),
        ramp_section(inputs, setting, matters.ramp, stock),
    ]


def sentence(inputs: Inputs, checks: Sequence[Check], sections: Sequence[Section]) -> str:
    """What the verdict rests on; then a sentence each of the first fill, the top-off, nitrate and alkalinity."""
    return " ".join([*told_of(checks, inputs.system), *_first_of_each(sections)])


_TOLD = (0, 2, 6, 8)
"""Places of the matters that the sentence tells of; the figures hold what the others would say."""


def _first_of_each(sections: Sequence[Section]) -> Iterator[str]:
    for place in _TOLD:
        yield from sections[place].told[:1] if place < len(sections) else ()
