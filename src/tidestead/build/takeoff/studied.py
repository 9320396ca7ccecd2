"""What other subjects found, as far as it is there."""

from __future__ import annotations

from dataclasses import dataclass

from tidestead.studies.flow.facts import FlowFacts
from tidestead.studies.heat.facts import HeatYears
from tidestead.studies.light.facts import LightFacts
from tidestead.studies.water.facts import WaterFacts


@dataclass(frozen=True, eq=False)
class Studies:
    """What other subjects found; of what is None here the list says that it is lacking."""

    water: WaterFacts | None = None
    heat: HeatYears | None = None
    light: LightFacts | None = None
    flow: FlowFacts | None = None
