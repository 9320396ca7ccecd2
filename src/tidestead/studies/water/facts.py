"""What the water study finds, matter by matter, as its answer and other studies read it."""

from __future__ import annotations

from dataclasses import dataclass

from tidestead.studies.water.alkalinity import AlkalinityFacts
from tidestead.studies.water.ammonia import AmmoniaFacts
from tidestead.studies.water.fill_facts import FillingFacts
from tidestead.studies.water.new_filter import NewFilterFacts
from tidestead.studies.water.nutrients import NutrientFacts
from tidestead.studies.water.ramp import RampFacts
from tidestead.studies.water.salt_facts import ChangingFacts, EvaporatingFacts, SaltingFacts
from tidestead.studies.water.setting import Setting
from tidestead.studies.water.stock_facts import StockFacts


@dataclass(frozen=True, eq=False)
class Matters:
    """What hangs on there being water at all."""

    salting: SaltingFacts
    changing: ChangingFacts
    evaporating: EvaporatingFacts
    nutrients: NutrientFacts
    alkalinity: AlkalinityFacts
    ammonia: AmmoniaFacts
    new_filter: NewFilterFacts
    filling: FillingFacts
    ramp: RampFacts


@dataclass(frozen=True, eq=False)
class WaterFacts:
    """All of it. Where no vessel's water is known, `missing` says so and there are no matters."""

    setting: Setting
    stock: StockFacts
    matters: Matters | None
    missing: str = ""
