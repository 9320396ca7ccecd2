"""A small heated house over one tank, to be changed one thing at a time; what the heat study finds and says of it."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache
from unittest.mock import patch

from tests.journeys.flow_plans import EXAMPLES, SMALL
from tidestead import desk
from tidestead.core.answer import Answer, Check, Figure, Series
from tidestead.core.units import System
from tidestead.desk.weather import weather_for
from tidestead.plan import LoadedPlan, load, loads
from tidestead.studies import flow, heat, light
from tidestead.studies.heat import cases, yearly
from tidestead.studies.heat.facts import HeatFacts, YearFacts
from tidestead.studies.inputs import Inputs

PLACE = """
tidestead = 1
name = "house"
currency = "EUR"

[site]
latitude = 52.0
longitude = 5.0
elevation = "5 m"
timezone = "Europe/Amsterdam"
"""

WEATHER = """
[weather]
years = 2
cold_spell = { lasts = "4 days", mean = "-8 degC" }
heat_wave = { lasts = "4 days", mean = "26 degC" }

[weather.normals]
temperature = ["3 degC", "3.5 degC", "6 degC", "9.5 degC", "13.5 degC", "16 degC", "18 degC", "17.8 degC", "15 degC", "11 degC", "6.8 degC", "4 degC"]
sun = ["0.7 kWh/m2/day", "1.4 kWh/m2/day", "2.6 kWh/m2/day", "4.2 kWh/m2/day", "5.2 kWh/m2/day", "5.4 kWh/m2/day", "5.1 kWh/m2/day", "4.4 kWh/m2/day", "3.1 kWh/m2/day", "1.8 kWh/m2/day", "0.8 kWh/m2/day", "0.5 kWh/m2/day"]
humidity = ["87 %", "84 %", "80 %", "75 %", "74 %", "75 %", "77 %", "78 %", "82 %", "85 %", "88 %", "89 %"]
wind = ["5 m/s", "5 m/s", "5 m/s", "4 m/s", "4 m/s", "4 m/s", "4 m/s", "4 m/s", "4 m/s", "4 m/s", "5 m/s", "5 m/s"]
"""  # noqa: E501 - twelve months of a plan stand on one line

BUILDING = """
[building]
shape = "gable"
length = "7 m"
width = "4 m"
eaves = "2.3 m"
ridge = "3.3 m"
faces = "south"
glazing = "pc-8-twin"
infiltration = "0.75 1/h"
vents = { rate = "30 1/h", opens_at = "24 degC" }
shade = { share = "60 %", above = "25 degC" }

[building.sides]
back = { wall = ["18 mm plywood", "100 mm mineral-wool", "12 mm plywood"] }

[building.floor]
layers = ["50 mm xps", "150 mm concrete"]
soil = "sand"
"""

TANK = """
[water]
salinity = "35 psu"
keep = "24 to 28 degC"

[vessels.tank]
role = "display"
made = "bought"
shape = "box"
length = "3.7 m"
width = "2 m"
height = "1.6 m"
water = "1.5 m"
place = { x = "1.6 m", y = "1 m" }

[pumps.mover]
power = "200 W"
"""

HEATERS = """
[heaters.tank]
vessel = "tank"
power = "1.5 kW"
count = 4
setpoint = "25 degC"
"""

MONEY = """
[supplies]
tariff = "0.30 EUR/kWh"
"""

HOUSE = PLACE + WEATHER + BUILDING + TANK + HEATERS + MONEY
COLD = PLACE + WEATHER + BUILDING + TANK + MONEY
"""The same without heaters."""

OPEN = PLACE + WEATHER + TANK + HEATERS + MONEY
"""The same tank under the sky."""

ROUND = (
    PLACE
    + WEATHER
    + BUILDING.replace('"7 m"', '"9 m"').replace('"4 m"', '"6 m"')
    + SMALL[SMALL.index("[water]") :]
    + HEATERS.replace('"tank"', '"sump"')
    + MONEY
)
"""Tank and sump with water that goes round between them; the heaters hang in the sump."""

COVER = '\n[covers.lid]\nover = "tank"\nshare = "90 %"\nwhen = "night"\n'
CHILLER = '\n[chillers.out]\nvessel = "tank"\ncooling = "2 kW"\ndraws = "700 W"\nsetpoint = "26 degC"\n'
FAN = '\n[fans.over]\nover = "tank"\nspeed = "1 m/s"\npower = "40 W"\nabove = "25.5 degC"\n'


@dataclass(frozen=True, eq=False)
class Found:
    """What was found of a plan, and what is said of it."""

    facts: HeatFacts
    answer: Answer

    @property
    def years(self) -> YearFacts:
        """The ensemble, which must be there."""
        assert self.facts.years is not None, self.facts.missing
        return self.facts.years

    @property
    def energy(self) -> float:
        """Heat of the heaters in a median year, kWh."""
        return self.years.heater.likely / 3.6e6

    @property
    def coldest(self) -> float:
        return self.years.coldest.likely

    @property
    def warmest(self) -> float:
        return self.years.hottest.likely

    @property
    def evaporated(self) -> float:
        """Mean of the median months, kg a day."""
        return sum(self.years.evaporation.likely) / 12.0 * 86400.0

    @property
    def needed(self) -> float:
        """Heaters for the cold spell, median of the years, W."""
        assert self.facts.spell is not None
        return self.facts.spell.needed.likely

    @property
    def wave(self) -> float:
        """The warmest water in the heat wave."""
        return self.facts.tried[0].highest

    def check(self, ident: str) -> Check:
        """One check by its id."""
        return next(check for check in self.answer.checks if check.id == ident)

    def figure(self, ident: str) -> Figure:
        """One figure by its id."""
        return next(figure for figure in self.answer.figures if figure.id == ident)

    def series(self, ident: str) -> Series:
        """One series by its id."""
        return next(series for series in self.answer.series if series.id == ident)


@cache
def found(text: str, system: System = "metric") -> Found:
    """Facts and answer of a plan's text with its own weather, worked out once."""
    return found_of(loads(text), system)


@cache
def brief(text: str) -> Found:
    """The same without ranks and improvements, which take half the time: for what does not ask for them."""
    with patch.object(cases, "ranks_of", _none), patch.object(cases, "improvements_of", _none):
        return found_of(loads(text))


def _none(*_: object) -> tuple[()]:
    return ()


def found_of(loaded: LoadedPlan, system: System = "metric") -> Found:
    """Facts and answer of a plan."""
    told = weather_for(loaded)
    inputs = Inputs(loaded.plan, system, told.weather, told.reason)
    below = (flow.find(inputs), light.find(inputs))
    facts = heat.find(inputs, *below, yearly.find(inputs, *below))
    return Found(facts, heat.judge(inputs, facts))


def example_found(name: str, system: System | None = None) -> Found:
    """An example as the desk answers it, which keeps what it found."""
    loaded = load(EXAMPLES / f"{name}.toml")
    return Found(desk.facts(loaded, "heat"), desk.answer(loaded, ["heat"], system)["heat"])


def without(text: str, key: str) -> str:
    """The text without the lines of a key, which must be there."""
    rest = re.sub(rf"(?m)^{re.escape(key)} = .*\n", "", text)
    assert rest != text, key
    return rest


def months_turned(text: str) -> str:
    """The monthly means half a year on, as south of the equator."""

    def turn(line: re.Match[str]) -> str:
        items = re.findall(r'"[^"]+"', line[2])
        return f"{line[1]}[{', '.join(items[6:] + items[:6])}]"

    return re.sub(r"(?m)^((?:temperature|sun|humidity|wind) = )\[(.*)\]$", turn, text)


def normals_set(text: str, key: str, values: str) -> str:
    """The text with other monthly means: values with blanks between them, the last word the unit."""
    *numbers, unit = values.split()
    assert len(numbers) == 12
    listed = ", ".join(f'"{number} {unit}"' for number in numbers)
    return re.sub(rf"(?m)^{key} = \[.*\]$", f"{key} = [{listed}]", text)
