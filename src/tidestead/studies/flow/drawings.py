"""The drawings of the circulation: all of it, every line, every pump, levels after a power stop."""

from __future__ import annotations

from tidestead.core.scene import Scene
from tidestead.core.units import System
from tidestead.plan.model import Plan
from tidestead.studies.flow.facts import FlowFacts
from tidestead.studies.flow.pump_drawing import pump_scenes
from tidestead.studies.flow.schematic import schematic
from tidestead.studies.flow.stop_drawing import stop_scenes
from tidestead.studies.flow.strips import strips


def scenes_of(plan: Plan, facts: FlowFacts, system: System) -> tuple[Scene, ...]:
    """Every drawing, where the flow is known."""
    if not facts.solved:
        return ()
    return (
        schematic(plan, facts, system),
        *pump_scenes(facts, system),
        *strips(facts, system),
        *stop_scenes(plan, facts, system),
    )
