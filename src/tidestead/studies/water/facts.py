"""What the water study finds, matter by matter, as its answer and other studies read it."""

from __future__ import annotations

from dataclasses import dataclass

from tidestead.studies.water.setting import Setting
from tidestead.studies.water.stock_facts import StockFacts


@dataclass(frozen=True, eq=False)
class WaterFacts:
    """All of it."""

    setting: Setting
    stock: StockFacts
