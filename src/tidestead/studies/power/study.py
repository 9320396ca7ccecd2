"""Is there power enough, and is it safe? Bounds for an electrician to look at, and what stops when something opens."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from tidestead.core.answer import Answer, Estimate
from tidestead.plan.model import Plan
from tidestead.studies.flow.facts import FlowFacts
from tidestead.studies.heat.facts import HeatYears
from tidestead.studies.inputs import Inputs
from tidestead.studies.light.facts import LightFacts
from tidestead.studies.power.backing import acting_of, backups_of
from tidestead.studies.power.energy import energy_of, uncounted_of
from tidestead.studies.power.facts import CircuitFacts, PowerFacts, SupplyFacts
from tidestead.studies.power.leaking import leaks_found
from tidestead.studies.power.loading import circuits_of, summed, supply_of
from tidestead.studies.power.rules import is_us
from tidestead.studies.power.things import things_of
from tidestead.studies.power.together import dying_of, must_run_of, unfed_of
from tidestead.studies.power.told import tell

_USUAL_VOLTS = {True: 120.0, False: 230.0}
"""V at which starts on a backup are counted where the plan has no supply."""


def find(inputs: Inputs, flow: FlowFacts, light: LightFacts, heat: HeatYears) -> PowerFacts:
    """Loads of every circuit, what stops together, what goes on, energy of a year."""
    plan, us = inputs.plan, is_us(inputs.plan)
    things = things_of(plan, flow)
    missing = tuple(_missing(plan))
    supply: SupplyFacts | None = None
    circuits: list[CircuitFacts] = []
    if plan.supply is not None and plan.electrics:
        circuits = circuits_of(plan, plan.supply, things, us)
        supply = supply_of(plan.supply, circuits, us)
        circuits = _with_supply(circuits, supply)
    volts = _USUAL_VOLTS[us] if plan.supply is None else plan.supply.volts
    backups = backups_of(plan, things, volts)
    return PowerFacts(
        missing,
        us,
        supply,
        tuple(circuits),
        tuple(leaks_found(plan, circuits)) if circuits else (),
        dying_of(plan),
        backups,
        unfed_of(plan, things),
        tuple(item for item, thing in things.items() if thing.power is None),
        must_run_of(plan, things),
        energy_of(plan, things, light, heat),
        tuple(uncounted_of(plan, things, heat)),
        acting_of(plan, backups),
    )


def judge(inputs: Inputs, facts: PowerFacts) -> Answer:
    """Checks, sentence, working, tables, charts."""
    return tell(inputs, facts)


def _missing(plan: Plan) -> list[str]:
    """Why nothing can be told of currents."""
    found = []
    if plan.supply is None:
        found.append("say what comes to the building under [supply]: volts, amps, distance and cable")
    if not plan.electrics:
        found.append(
            "the plan names no electric circuits: describe each under [electrics.NAME] with breaker, residual, cable, "
            "length and feeds"
        )
    return found


def _with_supply(circuits: Sequence[CircuitFacts], supply: SupplyFacts) -> list[CircuitFacts]:
    """Circuits with the voltage lost up to their far ends, where both ways are known."""
    return [replace(one, drop_share=_both(one.drop, supply.drop)) for one in circuits]


def _both(own: Estimate | None, before: Estimate | None) -> Estimate | None:
    return None if own is None or before is None else summed((own, before), own.basis)
