"""What if something stops? Every fault of the plan against the hours until somebody has acted."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from functools import partial

from tidestead.core.answer import Answer, Assumption
from tidestead.core.source import PRACTICE
from tidestead.studies.faults.assumptions import assumptions_of
from tidestead.studies.faults.at_once import blocked_faults, doser_faults, glass_fault, limewater_faults
from tidestead.studies.faults.buying import sized
from tidestead.studies.faults.cases import Fault, faults_of
from tidestead.studies.faults.facts import FaultFacts, FaultsFacts, Floor
from tidestead.studies.faults.glass import film_of
from tidestead.studies.faults.refuge import refuges_of
from tidestead.studies.faults.response import chain_of
from tidestead.studies.faults.running import Levels, Settled, facts_of, with_helps
from tidestead.studies.faults.thresholds import moved_words, thresholds_of
from tidestead.studies.faults.told import tell
from tidestead.studies.faults.untouched import untouched_words
from tidestead.studies.faults.waters import Basis, basis_of
from tidestead.studies.flow.facts import FlowFacts
from tidestead.studies.heat.facts import HeatFacts
from tidestead.studies.heat.running import on_all_cores
from tidestead.studies.inputs import Inputs
from tidestead.studies.light.facts import LightFacts
from tidestead.studies.power.facts import PowerFacts
from tidestead.studies.power.people import Pace, pace_of
from tidestead.studies.water.facts import WaterFacts

NO_PEOPLE = "the plan does not say who looks when: write [response] with looks and travel"


def find(
    inputs: Inputs, flow: FlowFacts, light: LightFacts, heat: HeatFacts, water: WaterFacts, power: PowerFacts
) -> FaultsFacts:
    """Every fault with its hours, and who would have acted by then."""
    plan = inputs.plan
    basis = basis_of(plan, water.setting, (flow, heat, water.stock, power))
    if basis is None:
        return FaultsFacts(
            ('no display of a known size: give a vessel role = "display", with its size and water',)
        )
    levels = thresholds_of(plan, water.setting.sal_psu)
    pace = pace_of(plan)
    settled = Settled(basis)
    ran = list(faults_of(basis))
    done = on_all_cores([partial(_found, settled, levels, pace, one) for one in ran])
    at_once = (*blocked_faults(basis, levels["floor"]), *doser_faults(basis), *limewater_faults(basis))
    faults = (*done, *(sized(_with_chain(basis, fault, found, pace), basis) for fault, found in at_once))
    film = film_of(basis, light)
    faults = (*faults, *glass_fault(film))
    return FaultsFacts(
        (),
        _worst_season(faults),
        levels,
        film,
        tuple(refuges_of(basis, levels["oxygen"])),
        (*assumptions_of(basis, light, inputs.system), *_people_assumed(pace)),
        (
            *basis.stock.missing,
            *moved_words(plan, levels, water.setting.sal_psu, inputs.system),
            *untouched_words(faults),
        ),
        "" if pace is not None else NO_PEOPLE,
        _floor(basis),
    )


def _floor(basis: Basis) -> Floor:
    """The floor that the vessels leave free, and how it falls under the display."""
    building, stands = basis.plan.building, basis.plan.vessels[basis.setting.display].stands_on
    area = None
    if building.length is not None and building.width is not None:
        area = max(building.length * building.width - sum(pool.area for pool in basis.pools), 1.0)
    falls = "" if not stands.drop or stands.falls_to is None else str(stands.falls_to)
    return Floor(area, falls)


def judge(inputs: Inputs, facts: FaultsFacts) -> Answer:
    """Checks, sentence, matrix, curves, calendar."""
    return tell(inputs, facts)


def _found(settled: Settled, levels: Levels, pace: Pace | None, fault: Fault) -> FaultFacts:
    """A fault that is run: its hours, who acts when, and what would help until then."""
    chained = _with_chain(settled.basis, fault, facts_of(settled, levels, fault), pace)
    return sized(with_helps(settled, levels, fault, chained), settled.basis)


def _with_chain(basis: Basis, fault: Fault, found: FaultFacts, pace: Pace | None) -> FaultFacts:
    return found if pace is None else replace(found, chain=chain_of(basis, fault, found, pace))


def _worst_season(faults: tuple[FaultFacts, ...]) -> tuple[FaultFacts, ...]:
    """Of a fault that was run in both seasons, the one that harms sooner; a power cut is told in both."""
    kept: dict[str, FaultFacts] = {}
    for one in faults:
        name = (
            one.key
            if one.key.startswith("power")
            else one.key.removesuffix("-winter").removesuffix("-summer")
        )
        before = kept.get(name)
        if before is None or _rank(one) < _rank(before):
            kept[name] = replace(one, key=name)
    return tuple(kept.values())


def _rank(found: FaultFacts) -> tuple[float, float, float]:
    """The sooner the worse: harm, then act, then warn, at worst."""
    hours = found.soonest
    return (float("inf"),) * 3 if hours is None else (hours.harm, hours.act, hours.warn)


def _people_assumed(pace: Pace | None) -> Iterator[Assumption]:
    if pace is None:
        return
    for key, hours, words in pace.assumed:
        low, likely, high = (60.0 * end for end in (hours.low, hours.likely, hours.high))
        yield Assumption(key, f"{likely:.0f} min ({low:.0f} to {high:.0f} min)", words, PRACTICE)
