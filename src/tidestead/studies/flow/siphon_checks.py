"""Judging full siphons: their inlet stays covered, and their flow carries the air out at a start."""

from __future__ import annotations

from tidestead.core.dims import G
from tidestead.core.source import PRACTICE, Known, Source
from tidestead.physics.flow import siphons
from tidestead.plan.model import Plan
from tidestead.studies.checks import At, Limit, above, given, unproven
from tidestead.studies.flow.facts import FlowFacts, Line
from tidestead.studies.flow.heights import floor_of, port_of
from tidestead.studies.judged import Judged, step

SET_BY_LEVEL = (
    "Set its valve by the level before it, not by the handle: makes differ by a factor of two where they are part "
    "open. This check is of the valve as the plan has it."
)

DRY = "no water comes to it as the plan runs: see what the pumps move, and which valves are shut"

_NETWORK = Source("balance of the network", known=Known.COMPUTED)
_ENERGY = Source("energy equation of a full pipe", known=Known.COMPUTED)


def siphon_checks(plan: Plan, facts: FlowFacts, line: Line, doubt: str) -> list[Judged]:
    """It stays full: its inlet covered, its flow enough to carry the air out at a start."""
    found = port_of(plan, line.circuit.start)
    assert found is not None
    key, vessel, port = found
    name = line.circuit.start.partition(".")[2]
    at = At(f"{key}.{name}", f"{key}, {name}", "flow", f"vessels.{key}.ports.{name}")
    bore, flow = line.bore, max(facts.flows[line.key], 0.0)
    if bore <= 0.0 or key not in facts.levels:
        why = f"put its pipe into circuits.{line.key}.route"
        return [Judged(unproven(at, "stays_full", "siphon stays full", "m", why, _ENERGY))]
    if doubt or facts.inflow.get(key, 0.0) <= 0.0:
        return [Judged(unproven(at, "stays_full", "siphon stays full", "m", doubt or DRY, _NETWORK))]
    over = facts.levels[key] - floor_of(vessel) - port.level
    cover = Judged(
        above(
            at,
            "cover",
            "water over the siphon's inlet",
            over,
            "m",
            Limit(bore, PRACTICE, "one bore"),
            style="level",
            advice="closing its valve a little, so that the water stands higher before it",
            cautions=(SET_BY_LEVEL,) if _is_throttled(plan, line) else (),
        ),
        (
            step(
                "h",
                "level at which what comes in goes out, less that of the siphon's inlet",
                "h = z - z_inlet",
                (
                    given("z", facts.levels[key], "m", "fine"),
                    given("z_inlet", floor_of(vessel) + port.level, "m", "fine"),
                ),
                (over, "m"),
                _ENERGY,
            ),
        ),
    )
    return [cover, _primes(at, bore, flow)]


def _primes(at: At, bore: float, flow: float) -> Judged:
    source = Source("Davies and Taylor (1950)", known=Known.RECALLED)
    least = float(siphons.priming_flow(bore))
    steps = (
        step(
            "Q",
            "flow that carries air down an upright pipe",
            "Q = pi*D**2/4*0.345*sqrt(g*D)",
            (given("D", bore, "m", "fine"), given("g", G, "m/s2")),
            (least, "m3/s"),
            source,
        ),
    )
    advice = "a narrower siphon, or more flow: below this it does not start by itself"
    return Judged(
        above(at, "primes", "flow, to start by itself", flow, "m3/s", Limit(least, source), advice=advice),
        steps,
    )


def _is_throttled(plan: Plan, line: Line) -> bool:
    """Whether a part-open valve sets what the line carries."""
    return any(run.item.kind == "valve" and plan.valves[run.item.name].open < 1.0 for run in line.runs)
