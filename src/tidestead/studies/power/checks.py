"""Judging power: every check of the supply, the circuits, the residual-current devices and what stands in."""

from __future__ import annotations

from collections.abc import Iterator

from tidestead.core.answer import Check
from tidestead.core.source import YOURS
from tidestead.core.units import System
from tidestead.plan.model import Plan
from tidestead.plan.water_fields import ON_TABLES, OnCircuit
from tidestead.studies.checks import At, Limit, above, unproven
from tidestead.studies.judged import Judged
from tidestead.studies.power.backup_checks import backup_checks
from tidestead.studies.power.facts import PowerFacts
from tidestead.studies.power.guard_checks import guard_checks, leak_checks
from tidestead.studies.power.load_checks import circuit_checks, supply_checks
from tidestead.studies.power.things import words_of
from tidestead.studies.power.together import own_battery

_HUNG = "the circuit that it hangs on"


def judged(plan: Plan, facts: PowerFacts, system: System) -> list[Judged]:
    """Every check; where nothing can be told, one that says why."""
    found = [Judged(_missing(place, why)) for place, why in enumerate(facts.missing)]
    if facts.supply is not None:
        found += supply_checks(facts.supply, facts, system)
    for circuit in facts.circuits:
        found += circuit_checks(circuit, facts, system)
    found += guard_checks(plan, facts)
    for leak in facts.leaks:
        found += leak_checks(leak)
    found += _unfed(plan, facts) if plan.electrics else []
    found += _unknown(facts)
    found += _must_run(plan, facts)
    for backup in facts.backups:
        found += backup_checks(backup, facts, system)
    return found


def _missing(place: int, why: str) -> Check:
    at = At("supply.main", "the supply", "power", "supply")
    return unproven(at, f"told{place + 1}", "load of the building", "A", why, YOURS)


def _at(item: OnCircuit) -> At:
    return At(f"{item.kind}.{item.name}", words_of(item), "power", f"{ON_TABLES[item.kind]}.{item.name}")


def _unfed(plan: Plan, facts: PowerFacts) -> Iterator[Judged]:
    """What hangs on no circuit is in no sum; an air pump on a battery of its own may."""
    alone = own_battery(plan)
    for item in facts.unfed:
        if item not in alone:
            named = f'write "{item.kind} {item.name}" into the feeds of one'
            why = f"it hangs on no circuit, so that it is in no sum: {named}"
            yield Judged(unproven(_at(item), "circuit", _HUNG, "count", why, YOURS))


def _unknown(facts: PowerFacts) -> Iterator[Judged]:
    """What draws power and nobody said how much."""
    for item in facts.unknown:
        why = f"say what it draws: {ON_TABLES[item.kind]}.{item.name}.power, from its plate"
        yield Judged(unproven(_at(item), "power", "the power that it draws", "W", why, YOURS))


def _must_run(plan: Plan, facts: PowerFacts) -> Iterator[Judged]:
    """What the plan says must run has something that carries it."""
    for name, device in plan.devices.items():
        if not device.must_run:
            continue
        item = OnCircuit("device", name)
        limit = Limit(1.0, YOURS, "your plan says that it must run when the power stops", near=0.0)
        advice = f'write "device {name}" into what a battery or a generator carries'
        count = float(len(facts.backed(item)))
        words = "backups that carry it when the power stops"
        yield Judged(above(_at(item), "backup", words, count, "count", limit, advice=advice))
