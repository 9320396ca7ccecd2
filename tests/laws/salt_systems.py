"""A tank of 20 m3 with all that its salt, changes, top-off and first fill rest on, to be changed bit by bit."""

from __future__ import annotations

from pathlib import Path

from tidestead.core.answer import Check, Estimate
from tidestead.plan import loads
from tidestead.studies.heat.facts import Spread
from tidestead.studies.inputs import Inputs
from tidestead.studies.water.changing import changing_of, changing_section
from tidestead.studies.water.evaporating import evaporating_of, evaporating_section
from tidestead.studies.water.filling import filling_of, filling_section
from tidestead.studies.water.salting import salting_of, salting_section
from tidestead.studies.water.section import Section
from tidestead.studies.water.setting import Setting

DAY = 86400.0
EXAMPLES = Path(__file__).parents[2] / "examples"
CYCLING = Estimate(21.0, 35.0, 60.0, "as filters grow")

TANK = """
tidestead = 1
name = "tank"
currency = "EUR"
[water]
salinity = "35 psu"
keep = "24 to 26 degC"
nitrate = "40 mg/L"
[vessels.tank]
role = "display"
stage = "planned"
shape = "box"
length = "5 m"
width = "4 m"
height = "1.2 m"
water = "1 m"
[vessels.tank.test]
level = "1.1 m"
water = "fresh"
lasts = "7 days"
[heaters.tank]
vessel = "tank"
power = "2 kW"
count = 3
setpoint = "25 degC"
"""
KEPT = """
[salt]
factor = 1.1
price = "2 EUR/kg"
[sources.membrane]
kind = "osmosis"
flow = "100 L/h"
recovery = "25 %"
temperature = "10 degC"
chlorine = "0.1 mg/L"
price = "3 EUR/m3"
[sources.tanker]
kind = "tanker"
load = "8 m3"
every = "7 days"
temperature = "10 degC"
[sources.sea]
kind = "sea"
flow = "2 m3/h"
temperature = "10 degC"
salinity = "33 psu"
[changes]
share = "10 %"
every = "14 days"
source = "membrane"
holds = "500 L"
heater = "2 kW"
pump = "2 m3/h"
[losses]
skimmate = "15 L/day"
splash = "5 L/day"
[vessels.tank.top_off]
level = "1 m"
flow = "1 L/min"
stock = "300 L"
[response]
looks = ["08:00"]
travel = "10 min"
absent = "1 days"
[targets]
nitrate = "20 mg/L"
[supplies]
tariff = "0.30 EUR/kWh"
"""


def spread(daily: float) -> Spread:
    """So many kilograms off every day of the year, half and one and a half times that as its range."""
    rate = daily / DAY
    return Spread((0.5 * rate,) * 12, (rate,) * 12, (1.5 * rate,) * 12, "made up")


def setting(daily: float | None = 80.0, volume: float = 20.0) -> Setting:
    known = None if daily is None else spread(daily)
    why = "" if known is not None else "there is no weather"
    return Setting("tank", {"tank": volume}, {"tank": 20.0}, 35.0, 25.0, False, False, known, why)


def asked(*changed: tuple[str, str], text: str = TANK + KEPT) -> Inputs:
    for old, new in changed:
        assert old in text
        text = text.replace(old, new)
    return Inputs(loads(text).plan, "metric")


def sections(inputs: Inputs, place: Setting) -> tuple[Section, ...]:
    return (
        salting_section(inputs, place, salting_of(inputs, place)),
        changing_section(inputs, place, changing_of(inputs, place)),
        evaporating_section(inputs, place, evaporating_of(inputs, place)),
        filling_section(inputs, place, filling_of(inputs, place, CYCLING)),
    )


def checks(inputs: Inputs, place: Setting) -> dict[str, Check]:
    return {one.check.id: one.check for part in sections(inputs, place) for one in part.judged}
