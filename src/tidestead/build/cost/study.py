"""What does it take, and what does it cost?"""

from __future__ import annotations

from tidestead.build.cost.facts import CostFacts
from tidestead.build.cost.finding import found
from tidestead.build.cost.told import tell
from tidestead.build.takeoff.rest import Studies
from tidestead.core.answer import Answer
from tidestead.studies.flow.facts import FlowFacts
from tidestead.studies.heat.facts import HeatYears
from tidestead.studies.inputs import Inputs
from tidestead.studies.light.facts import LightFacts
from tidestead.studies.water.facts import WaterFacts


def find(inputs: Inputs, flow: FlowFacts, light: LightFacts, heat: HeatYears, water: WaterFacts) -> CostFacts:
    """Lists, purchases and sums."""
    return found(inputs.plan, Studies(water, heat, light, flow), inputs.tick)


def judge(inputs: Inputs, facts: CostFacts) -> Answer:
    """Checks, sentence, working, tables, charts."""
    return tell(inputs, facts)
