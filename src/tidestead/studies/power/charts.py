"""One plot of power: load against rating by circuit."""

from __future__ import annotations

from collections.abc import Iterator

from tidestead.core.charts import BarChart, Bars, Chart
from tidestead.core.units import System, show
from tidestead.studies.power.facts import PowerFacts
from tidestead.studies.power.rules import loading


def charts_of(facts: PowerFacts, system: System) -> Iterator[Chart]:
    """Running current beside what each breaker carries for hours."""
    supply = facts.supply
    if supply is None or not facts.circuits:
        return
    share = loading(facts.us).si("share")
    found = [(one.key, one.running, one.worst, one.breaker) for one in facts.circuits]
    found.append(("supply", supply.running, supply.worst, supply.amps))
    groups = (
        Bars(
            "running",
            tuple(running.likely for _, running, _, _ in found),
            tuple(running.low for _, running, _, _ in found),
            tuple(running.high for _, running, _, _ in found),
        ),
        Bars("while the largest starts", tuple(worst.likely for _, _, worst, _ in found)),
        Bars("carried for hours", tuple(share * rating for _, _, _, rating in found)),
    )
    fullest = max(found, key=lambda one: one[1].likely / one[3])
    now, carries = (
        show(value, "A", system, "", (share * fullest[3],))
        for value in (fullest[1].likely, share * fullest[3])
    )
    told = f"The fullest is {fullest[0]}: {now} where {carries} are carried for hours."
    yield BarChart(
        "power.loads",
        "Load against rating by circuit",
        told,
        "current",
        "A",
        groups,
        tuple(name for name, _, _, _ in found),
        ribbon="power factors at their ends",
    )
