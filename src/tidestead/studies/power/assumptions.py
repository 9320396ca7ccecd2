"""What is taken for granted of power where the plan is silent."""

from __future__ import annotations

from collections.abc import Iterator

from tidestead.core.answer import Assumption
from tidestead.core.source import PRACTICE
from tidestead.core.units import System, show
from tidestead.plan.model import Plan
from tidestead.studies.power.backing import peak_of
from tidestead.studies.power.facts import LoadFacts, PowerFacts
from tidestead.studies.power.rules import limit_row


def assumptions_of(plan: Plan, facts: PowerFacts, system: System) -> Iterator[Assumption]:
    """Every default that was used."""
    if plan.supply is None:
        return
    rules = "those of the US code" if facts.us else "those of IEC standards"
    yield Assumption(
        "rules that hold", rules, "by the voltage of supply.volts; your own code governs", PRACTICE
    )
    yield from _factors(plan, [load for one in facts.circuits for load in one.loads])
    if any(circuit.cable is not None for circuit in plan.electrics.values()):
        warm = limit_row("warm-house")
        air, hottest = (show(warm.si(key), "degC", system) for key in ("air", "conductor"))
        words = f"copper at {air} to {hottest}" + (
            "" if facts.us else f", bears {100.0 * warm.si('share'):.0f} % of what it bears in cool air"
        )
        yield Assumption(
            "cables", words, "they lie in the warm house, each by itself", warm.figure("share").source
        )
    yield Assumption(
        "what runs", "everything at once, at the far end of its cable", "a bound on the high side", PRACTICE
    )
    for key, backup in plan.backups.items():
        if backup.peak is None and backup.power is not None:
            row = limit_row("generator-petrol" if backup.kind == "generator" else "inverter")
            peak = peak_of(backup)
            words = f"{peak.low:g}" + (f" to {peak.high:g}" if peak.high > peak.low else "")
            why = "times its power for a start; its maker's sheet knows better"
            yield Assumption(f"backups.{key}.peak", words, why, row.figure("peak").source)


def _factors(plan: Plan, loads: list[LoadFacts]) -> Iterator[Assumption]:
    """Power factors, and what a start takes, by sort."""
    told: set[str] = set()
    for load in loads:
        known = load.item.kind == "device" and plan.devices[load.item.name].power_factor is not None
        row = load.sort.factor
        if not known and row.name not in told and row.si("low") < 1.0:
            told.add(row.name)
            words = f"{row.si('likely'):g} ({row.si('low'):g} to {row.si('high'):g})"
            why = "its plate or sheet knows better; devices may say power_factor"
            yield Assumption(f"power factor: {row.title.lower()}", words, why, row.figure("likely").source)
        start = load.sort.starting
        if start.name not in told and start.si("high") > 2.0:
            told.add(start.name)
            words = f"{start.si('likely'):g} times its running current ({start.si('low'):g} to {start.si('high'):g})"
            why = "its maker's sheet knows better; what starts softly takes far less"
            yield Assumption(f"start: {start.title.lower()}", words, why, start.figure("likely").source)
