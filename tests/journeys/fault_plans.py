"""Plans to let things stop in: the examples over two made years, and a small one without weather, edited at will."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cache

from tests.journeys.flow_plans import SMALL, changed, example
from tests.journeys.heat_plans import brief
from tidestead.core.answer import Answer, Check
from tidestead.desk.weather import weather_for
from tidestead.plan import LoadedPlan, loads
from tidestead.plan.parts import removed
from tidestead.studies import faults, flow, foam, heat, light, power, water
from tidestead.studies.faults.at_once import blocked_faults, doser_faults
from tidestead.studies.faults.cases import Fault, faults_of
from tidestead.studies.faults.facts import FaultFacts, FaultsFacts, Hours, Quantity, Threshold
from tidestead.studies.faults.running import Settled, facts_of
from tidestead.studies.faults.thresholds import thresholds_of
from tidestead.studies.faults.waters import Basis, basis_of
from tidestead.studies.heat import yearly
from tidestead.studies.heat.facts import HeatFacts, HeatYears
from tidestead.studies.inputs import Inputs
from tidestead.studies.light.facts import LightFacts
from tidestead.studies.water.facts import WaterFacts

LIVED = (
    SMALL
    + """
[feed]
daily = "30 g/day"
protein = "45 %"

[fish.shoal]
vessel = "tank"
mass = "0.8 kg"
grown = "1.2 kg"
each = "50 g"

[quarantine]
volume = "300 L"
keeps = "6 weeks"
most = "250 g"

[filters.rock]
vessel = "tank"
surface = "30 m2"

[vessels.sump.top_off]
level = "0.40 m"
flow = "2 L/min"
stock = "300 L"

[dosers.soda]
vessel = "sump"
reagent = "sodium-carbonate"
strength = "100 g/L"
daily = "200 mL/day"
bottle = "5 L"

[airpumps.stones]
vessel = "tank"
flow = "2 L/min"
depth = "0.6 m"
power = "10 W"

[supply]
volts = "230 V"
amps = "25 A"

[electrics.wet]
breaker = "16 A"
residual = "30 mA"
cable = "2.5 mm2"
length = "20 m"
feeds = ["pump lift", "air stones", "device router"]

[devices.router]
power = "12 W"
must_run = true

[response]
looks = ["08:00", "19:30"]
travel = "10 min"
does = "30 min"
answers = "30 min"
alarm = { watches = ["temperature", "power"], power = "battery", network = "mobile", after = "10 min" }

[cleaning]
every = "3 days"
"""
)
"""A tank and a sump with everything that may stop in them, and no weather."""

BATTERY = """
[backups.battery]
kind = "battery"
energy = "1.2 kWh"
power = "600 W"
carries = ["device router"]
"""


@dataclass(frozen=True, eq=False)
class Found:
    """A plan, the waters that its faults are run on, and the levels."""

    loaded: LoadedPlan
    inputs: Inputs
    basis: Basis
    light: LightFacts
    water: WaterFacts
    levels: dict[Quantity, Threshold]
    settled: Settled

    def fault(self, key: str) -> Fault:
        """A fault that is run, by its key with its season."""
        return next(one for one in faults_of(self.basis) if one.key == key)

    def run(self, key: str, covered: bool = False, watched: tuple[Quantity, ...] = ()) -> FaultFacts:
        """What comes of a fault, with a cover laid on or without; nothing is tried against it."""
        fault = self.fault(key)
        case = replace(fault.case, covered=covered)
        bare = replace(fault, case=case, tries=(), watched=watched or fault.watched)
        return facts_of(self.settled, self.levels, bare)

    def at_once(self, key: str) -> FaultFacts:
        """A fault that needs no run."""
        every = [*blocked_faults(self.basis, self.levels["floor"]), *doser_faults(self.basis)]
        return next(facts for fault, facts in every if fault.key == key)

    @property
    def whole(self) -> FaultsFacts:
        """All that the study finds."""
        basis = self.basis
        return faults.find(self.inputs, basis.flow, self.light, basis.heat, self.water, basis.power)


def warmed(name: str) -> str:
    """An example whose weather is two made years, which take a tenth of the time."""
    text = example(name)
    if "years = 20" in text:
        return changed(text, ("years = 20", "years = 2"))
    return changed(text, ("[weather]\n", "[weather]\nyears = 2\n"))


def calm(name: str) -> str:
    """An example without weather."""
    return removed(example(name), "weather")


@cache
def heat_of(text: str) -> HeatFacts:
    """What the heat study finds, without what saves energy."""
    return brief(text).facts


@cache
def found(text: str, warm: str = "") -> Found:
    """A plan's text. `warm` is a text whose heat is taken: for edits that leave the surroundings as they are."""
    loaded = loads(text)
    plan = loaded.plan
    told = weather_for(loads(warm)) if warm else None
    inputs = Inputs(
        plan, "metric", told.weather if told else None, told.reason if told else "no weather here"
    )
    moved, lit = flow.find(inputs), light.find(inputs)
    if warm:
        warmth = heat_of(warm)
        years = HeatYears(warmth.missing, warmth.years)
    else:
        years = yearly.find(inputs, moved, lit)
        warmth = heat.find(inputs, moved, lit, years)
    wet = water.find(inputs, moved, foam.find(inputs, moved), years)
    fed = power.find(inputs, moved, lit, years)
    basis = basis_of(plan, wet.setting, (moved, warmth, wet.stock, fed))
    assert basis is not None
    levels = thresholds_of(plan, wet.setting.sal_psu)
    return Found(loaded, inputs, basis, lit, wet, levels, Settled(basis))


@cache
def whole(text: str, warm: str = "") -> FaultsFacts:
    """All that the study finds of a plan."""
    return found(text, warm).whole


@cache
def answer(text: str, warm: str = "") -> Answer:
    """What the study says of a plan."""
    one = found(text, warm)
    return faults.judge(one.inputs, whole(text, warm))


def example_found(name: str) -> Found:
    """An example over two years."""
    return found(warmed(name), warmed(name))


def one_of(facts: FaultsFacts, key: str) -> FaultFacts:
    """One fault by its key."""
    return next(one for one in facts.faults if one.key == key)


def check_of(told: Answer, ident: str) -> Check:
    """One check by its id without the subject."""
    return next(check for check in told.checks if check.id == f"faults.{ident}")


def likely(facts: FaultFacts) -> Hours:
    """Hours of the likely run, which must be there."""
    assert facts.likely is not None, facts.unproven
    return facts.likely


def soonest(facts: FaultFacts) -> Hours:
    """Hours of the adverse run, which must be there."""
    assert facts.soonest is not None, facts.unproven
    return facts.soonest
