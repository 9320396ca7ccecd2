"""The water of a plan, matter by matter, without a year of weather: examples with words changed, and a bare tank."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cache

from tests.journeys.flow_plans import EXAMPLES
from tidestead.core.answer import Check
from tidestead.plan import loads
from tidestead.studies import flow, foam, light
from tidestead.studies.flow.facts import FlowFacts
from tidestead.studies.foam.facts import FoamFacts
from tidestead.studies.heat import yearly
from tidestead.studies.heat.facts import Spread
from tidestead.studies.inputs import Inputs
from tidestead.studies.water.alkalinity import AlkalinityFacts, alkalinity_of
from tidestead.studies.water.alkalinity_checks import alkalinity_section
from tidestead.studies.water.ammonia import AmmoniaFacts, ammonia_of, ammonia_section
from tidestead.studies.water.new_filter import new_filter_of, new_filter_section
from tidestead.studies.water.nutrient_checks import nutrient_section
from tidestead.studies.water.nutrients import NutrientFacts, NutrientLevel, nutrients_of
from tidestead.studies.water.ramp import RampFacts, ramp_of
from tidestead.studies.water.ramp_checks import ramp_section
from tidestead.studies.water.section import Section
from tidestead.studies.water.setting import Setting, setting_of
from tidestead.studies.water.stock_checks import stock_section
from tidestead.studies.water.stock_facts import StockFacts
from tidestead.studies.water.stocking import stock_of

DAY, GRAMS = 86400.0, 1000.0
EVAPORATES = Spread((1.2e-4,) * 12, (1.8e-4,) * 12, (2.7e-4,) * 12)
Swap = tuple[str, str]

BARE = """
tidestead = 1
name = "bare"

[vessels.tank]
role = "display"
made = "bought"
shape = "box"
length = "3 m"
width = "2 m"
height = "1.2 m"
water = "1 m"
place = { x = "0 m", y = "0 m", floor = "0 m" }
"""


UNBOUND: tuple[Swap, ...] = (
    ('binds = "0.6 %"', 'binds = "0 %"'),
    (
        'mass = "1.2 kg"\nevery = "7 days"',
        'mass = "1.2 kg"\nevery = "7 days"\nnitrogen = "0 %"\nphosphorus = "0 %"',
    ),
)
"""The skerry's granulate and algae that take nothing."""


@dataclass(frozen=True, eq=False)
class Found:
    """One plan's water, matter by matter."""

    inputs: Inputs
    setting: Setting
    stock: StockFacts
    nutrients: NutrientFacts
    alkalinity: AlkalinityFacts
    ammonia: AmmoniaFacts
    ramp: RampFacts

    @property
    def sections(self) -> tuple[Section, ...]:
        at, of = self.inputs, self.setting
        return (
            stock_section(at, of, self.stock),
            nutrient_section(at, of, self.nutrients),
            alkalinity_section(at, of, self.alkalinity),
            ammonia_section(at, of, self.ammonia, self.stock),
            new_filter_section(at, of, new_filter_of(at, of)),
            ramp_section(at, of, self.ramp, self.stock),
        )

    @property
    def checks(self) -> dict[str, Check]:
        return {one.check.id: one.check for section in self.sections for one in section.judged}

    @property
    def nitrate(self) -> NutrientLevel:
        assert self.nutrients.nitrate is not None
        return self.nutrients.nitrate


@cache
def circulation(name: str) -> tuple[FlowFacts, FoamFacts]:
    inputs = _inputs(_text(name))
    running = flow.find(inputs)
    return running, foam.find(inputs, running)


def _text(name: str) -> str:
    return BARE if name == "bare" else (EXAMPLES / f"{name}.toml").read_text(encoding="utf-8")


def _inputs(text: str) -> Inputs:
    return Inputs(loads(text).plan, "metric", None, "no weather")


def found(name: str, *swaps: Swap) -> Found:
    """An example with words of its plan changed; the circulation is that of the unchanged."""
    text = _text(name)
    for old, new in swaps:
        assert old in text, old
        text = text.replace(old, new)
    return _found(name, text)


@cache
def _found(name: str, text: str) -> Found:
    inputs, (running, towers) = _inputs(text), circulation(name)
    warmth = yearly.find(inputs, running, light.find(inputs))
    setting = replace(setting_of(inputs.plan, running, warmth), evaporation=EVAPORATES)
    stock, nutrients = stock_of(inputs, setting, running, towers), nutrients_of(inputs, setting)
    return Found(
        inputs,
        setting,
        stock,
        nutrients,
        alkalinity_of(inputs, setting, nutrients),
        ammonia_of(inputs, setting, stock),
        ramp_of(inputs, setting, stock),
    )


FED = ('daily = "35 g/day"\nprotein = "48 %"', 'daily = "200 g/day"\nprotein = "45 %"')
UNFED = ('[feed]\ndaily = "35 g/day"\nprotein = "48 %"\n', "")
