"""A small plan with circuits, to be changed one thing at a time; its answer without weather, and of the examples."""

from __future__ import annotations

from functools import cache

from tests.journeys.flow_plans import example
from tidestead import desk
from tidestead.core.answer import Answer, Check
from tidestead.core.units import System
from tidestead.plan import loads
from tidestead.studies import flow, light, power
from tidestead.studies.heat import yearly
from tidestead.studies.inputs import Inputs
from tidestead.studies.power.facts import CircuitFacts, LeakFacts, PowerFacts

SHED = """
tidestead = 1
name = "shed"
currency = "EUR"

[vessels.tank]
role = "display"
made = "bought"
shape = "box"
length = "3 m"
width = "2 m"
height = "1.2 m"
water = "1.1 m"

[pumps.return]
curve = ["0 m3/h at 5 m", "10 m3/h at 0 m"]
power = "184 W"

[heaters.tank]
vessel = "tank"
power = "1150 W"
count = 2
setpoint = "25 degC"

[lamps.bars]
over = "tank"
power = "230 W"
hours = "10 h"

[airpumps.stones]
vessel = "tank"
flow = "20 L/min"
depth = "0.9 m"
power = "23 W"

[supply]
volts = "230 V"
amps = "25 A"
distance = "40 m"
cable = "6 mm2"

[electrics.water]
breaker = "16 A"
residual = "30 mA"
cable = "2.5 mm2"
length = "20 m"
feeds = ["pump return", "air stones"]

[electrics.heat]
breaker = "16 A"
residual = "30 mA"
cable = "2.5 mm2"
length = "20 m"
feeds = ["heater tank"]

[electrics.light]
breaker = "10 A"
residual = "30 mA"
cable = "1.5 mm2"
length = "20 m"
feeds = ["lamp bars", "device router"]

[devices.router]
power = "23 W"
power_factor = 1.0
must_run = true

[backups.battery]
kind = "battery"
energy = "2.4 kWh"
power = "1 kW"
carries = ["pump return", "air stones", "device router"]

[response]
looks = ["08:00", "20:00"]
travel = "10 min"
does = "30 min"
alarm = { watches = ["power"], power = "battery", network = "mobile" }

[supplies]
tariff = "0.30 EUR/kWh"
"""


def facts_of(text: str) -> PowerFacts:
    """What is found without weather."""
    inputs = Inputs(loads(text).plan, "metric", None, "no weather here")
    found = flow.find(inputs)
    lit = light.find(inputs)
    return power.find(inputs, found, lit, yearly.find(inputs, found, lit))


def answer_of(text: str, system: System = "metric") -> Answer:
    """The answer without weather."""
    return power.judge(Inputs(loads(text).plan, system), facts_of(text))


@cache
def example_answer(name: str) -> Answer:
    """The answer of one of the examples, with its own weather."""
    return desk.answer(loads(example(name)), ["power"])["power"]


@cache
def example_facts(name: str) -> PowerFacts:
    """What is found of one of the examples."""
    found: PowerFacts = desk.facts(loads(example(name)), "power")
    return found


def circuit_of(facts: PowerFacts, key: str) -> CircuitFacts:
    """One circuit."""
    found = facts.circuit(key)
    assert found is not None
    return found


def leak_of(facts: PowerFacts, key: str) -> LeakFacts:
    """One residual-current device."""
    return next(leak for leak in facts.leaks if leak.key == key)


def check_of(answer: Answer, ident: str) -> Check:
    """One check by its id."""
    return next(check for check in answer.checks if check.id == f"power.{ident}")
