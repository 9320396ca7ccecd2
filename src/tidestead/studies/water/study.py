"""Is the water right? Each matter by itself, put together in the order in which a builder meets them."""

from __future__ import annotations

from tidestead.core.answer import Answer
from tidestead.studies.flow.facts import FlowFacts
from tidestead.studies.foam.facts import FoamFacts
from tidestead.studies.heat.facts import HeatYears
from tidestead.studies.inputs import Inputs
from tidestead.studies.water.alkalinity import alkalinity_of
from tidestead.studies.water.ammonia import ammonia_of
from tidestead.studies.water.changing import changing_of
from tidestead.studies.water.evaporating import evaporating_of
from tidestead.studies.water.facts import Matters, WaterFacts
from tidestead.studies.water.filling import filling_of
from tidestead.studies.water.new_filter import cycling_days, new_filter_of
from tidestead.studies.water.nutrients import nutrients_of
from tidestead.studies.water.ramp import ramp_of
from tidestead.studies.water.salting import salting_of
from tidestead.studies.water.setting import Setting, setting_of
from tidestead.studies.water.stock_facts import StockFacts
from tidestead.studies.water.stocking import stock_of
from tidestead.studies.water.told import tell

NO_WATER = 'no vessel with seawater of a known size: give one role = "display", with its size and water'


def find(inputs: Inputs, flow: FlowFacts, foam: FoamFacts, heat: HeatYears) -> WaterFacts:
    """Everything that can be told of the water."""
    setting = setting_of(inputs.plan, flow, heat)
    stock = stock_of(inputs, setting, flow, foam)
    if setting.volume <= 0.0:
        return WaterFacts(setting, stock, None, NO_WATER)
    return WaterFacts(setting, stock, _matters(inputs, setting, stock))


def judge(inputs: Inputs, facts: WaterFacts) -> Answer:
    """Checks, sentence, working, tables, charts."""
    return tell(inputs, facts)


def _matters(inputs: Inputs, setting: Setting, stock: StockFacts) -> Matters:
    nutrients = nutrients_of(inputs, setting)
    return Matters(
        salting_of(inputs, setting),
        changing_of(inputs, setting),
        evaporating_of(inputs, setting),
        nutrients,
        alkalinity_of(inputs, setting, nutrients),
        ammonia_of(inputs, setting, stock),
        new_filter_of(inputs, setting),
        filling_of(inputs, setting, cycling_days(inputs, setting)),
        ramp_of(inputs, setting, stock),
    )
