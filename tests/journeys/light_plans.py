"""A small plan with a house and corals, to be changed one thing at a time; its answer in one of the test climates."""

from __future__ import annotations

from pathlib import Path

from tests.journeys.climates import climate
from tidestead.core.answer import Answer, Check
from tidestead.core.units import System
from tidestead.desk.weather import weather_for
from tidestead.plan import load, loads
from tidestead.studies import light
from tidestead.studies.inputs import Inputs
from tidestead.studies.light.facts import LightFacts

EXAMPLES = Path(__file__).parents[2] / "examples"

REEF = """
tidestead = 1
name = "reef"
currency = "EUR"

[building]
shape = "gable"
length = "7 m"
width = "4 m"
eaves = "2.3 m"
ridge = "3.3 m"
faces = "south"
glazing = "pc-8-triple"
passes = "69 %"
dirt = "15 %"
bars = "22 %"

[water]
clarity = "0.15 1/m"

[vessels.tank]
role = "display"
made = "bought"
shape = "box"
length = "3.7 m"
width = "2 m"
height = "1.6 m"
water = "1.5 m"

[corals.reef]
kind = "small-polyp"
vessel = "tank"
depth = "0.3 to 1.4 m"

[supplies]
tariff = "0.30 EUR/kWh"
"""

LAMPS = """
[lamps.bars]
over = "tank"
power = "700 W"
efficacy = "2.2 umol/J"
hours = "12 h"
"""


def facts_of(text: str, name: str = "greensboro") -> LightFacts:
    """What is found in one of the climates."""
    return light.find(Inputs(loads(text).plan, "metric", climate(name)))


def answer_of(text: str, name: str = "greensboro", system: System = "metric") -> Answer:
    """The answer in one of the climates."""
    inputs = Inputs(loads(text).plan, system, climate(name))
    return light.judge(inputs, light.find(inputs))


def answer_without(text: str, why: str) -> Answer:
    """The answer where there is no weather."""
    inputs = Inputs(loads(text).plan, "metric", None, why)
    return light.judge(inputs, light.find(inputs))


def example_answer(name: str, system: System | None = None) -> Answer:
    """The answer of one of the examples, with its own weather."""
    loaded = load(EXAMPLES / f"{name}.toml")
    told = weather_for(loaded)
    inputs = Inputs(loaded.plan, system or loaded.plan.show, told.weather, told.reason)
    return light.judge(inputs, light.find(inputs))


def check_of(answer: Answer, ident: str) -> Check:
    """One check by its id."""
    return next(check for check in answer.checks if check.id == ident)
