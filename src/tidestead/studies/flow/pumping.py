"""Every pump as it runs: its duty, the system's curve, energy and money, suction, a strainer half blocked."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from decimal import Decimal

from tidestead.core.answer import Estimate
from tidestead.physics.flow.fittings import FittingLaw, fouled_k
from tidestead.physics.flow.laws import Law
from tidestead.physics.flow.pumps import (
    PowerPumpLaw,
    PumpDuty,
    PumpLaw,
    affinity,
    beyond_curve,
    hydraulic_power,
    pump_head,
)
from tidestead.plan.model import Plan
from tidestead.studies.flow.elements import STRAINER, is_guessed
from tidestead.studies.flow.facts import Line, Running
from tidestead.studies.flow.intakes import Intake, boiling_of, intake_of
from tidestead.studies.flow.lines import with_laws
from tidestead.studies.flow.ranges import Ranges
from tidestead.studies.flow.solving import tried
from tidestead.studies.flow.water_kind import WaterKind

SPEEDS = (0.5, 0.6, 0.7, 0.8, 0.9, 1.1, 1.2)
"""Shares of its speed at which a pump is tried, to trace the curve of the system it works against."""

HALF = 0.5
"""Share of a strainer's openings that is blocked for the trial."""

FELT = 1e-3
"""Change of flow, as a share, from which on a strainer counts as one that the pump feels."""

HOURS_A_MONTH = 730.5
"""365.25 days over twelve months."""

_POINTS = 25


@dataclass(frozen=True)
class PumpFacts:
    """One pump. Flows in m3/s, heads in m, power in W, energy in J a month.

    `curve` and `system` are pairs of flow and head. `intake` is None where its level is not known. `fouled` maps
    strainers to the pump's flow with each half blocked, `spread` is its flow with its range.
    """

    name: str
    line: str
    law: PumpLaw | PowerPumpLaw
    flow: float
    head: float
    guessed: bool
    beyond: bool
    last_flow: float
    power: float | None
    efficiency: float | None
    cost_month: Decimal | None
    intake: Intake | None
    needs: float | None
    curve: tuple[tuple[float, float], ...]
    system: tuple[tuple[float, float], ...]
    fouled: Mapping[str, float]
    spread: Estimate

    @property
    def energy_month(self) -> float | None:
        return None if self.power is None else self.power * HOURS_A_MONTH * 3600.0


@dataclass(frozen=True)
class Setting:
    """What every pump of a plan shares: lines, fixed levels, the state found, the water."""

    plan: Plan
    lines: tuple[Line, ...]
    fixed: Mapping[str, float]
    running: Running
    water: WaterKind
    ranges: Ranges


def pump_facts(setting: Setting) -> tuple[PumpFacts, ...]:
    """All pumps that stand in a line."""
    return tuple(_pump(setting, line, line.pump) for line in setting.lines if line.pump is not None)


def _pump(setting: Setting, line: Line, name: str) -> PumpFacts:
    pump = setting.plan.pumps[name]
    law = line.pump_law
    assert law is not None  # the line has this pump
    flow = setting.running.flows[line.key]
    head = float(pump_head(law, flow))
    power = affinity(PumpDuty(flow, head, pump.power), pump.speed).power if pump.power is not None else None
    useful = hydraulic_power(flow, head, setting.water.density)
    spread = setting.ranges.flow(line.key)
    last = _last_flow(law)
    return PumpFacts(
        name,
        line.key,
        law,
        flow,
        head,
        is_guessed(pump),
        bool(beyond_curve(law, flow)),
        last,
        power,
        useful / power if power else None,
        _cost(setting.plan, power),
        intake_of(setting.plan, line, setting.running, spread.high, boiling_of(setting.plan, setting.water)),
        pump.needs_head,
        tuple((at, float(pump_head(law, at))) for at in (last * n / (_POINTS - 1) for n in range(_POINTS))),
        _system(setting, line, law, (flow, head)),
        _fouled(setting, line.key),
        spread,
    )


def _last_flow(law: PumpLaw | PowerPumpLaw) -> float:
    """Where the pump's curve ends."""
    if isinstance(law, PumpLaw):
        return law.points[-1].flow * law.speed
    return float((law.shut_off_head / law.coefficient) ** (1.0 / law.exponent) * law.speed)


def _cost(plan: Plan, power: float | None) -> Decimal | None:
    tariff = plan.supplies.tariff
    if tariff is None or power is None:
        return None
    return (tariff.amount * Decimal(str(power * HOURS_A_MONTH / 1000.0))).quantize(Decimal("0.01"))


def _tried(setting: Setting, laws: Mapping[int, Law]) -> Running | None:
    """The network with some laws changed for others, told by their `id`; all else, tees too, as it runs."""
    lines = tuple(with_laws(line, laws) for line in setting.lines)
    return tried(setting.plan, lines, setting.fixed, setting.running.state)


def _system(
    setting: Setting, line: Line, law: PumpLaw | PowerPumpLaw, duty: tuple[float, float]
) -> tuple[tuple[float, float], ...]:
    """Head the system takes at other flows: the duty of the same pump at other speeds, the rest as it is."""
    found = [duty]
    for share in SPEEDS:
        turned = replace(law, speed=law.speed * share)
        running = _tried(setting, {id(law): turned})
        flow = running.flows[line.key] if running is not None else 0.0
        if flow > 0.0:
            found.append((flow, float(pump_head(turned, flow))))
    return tuple(sorted(found))


def _fouled(setting: Setting, key: str) -> dict[str, float]:
    """Flow of a line with each strainer half blocked, on top of what is blocked now."""
    strainers: dict[str, dict[int, Law]] = {}
    for run in (run for line in setting.lines for run in line.runs if run.kind == STRAINER):
        if isinstance(run.law, FittingLaw):
            fouled = replace(run.law, k=fouled_k(run.law.k, HALF))
            strainers.setdefault(run.item.name, {})[id(run.law)] = fouled
    found = {}
    for name, laws in strainers.items():
        running = _tried(setting, laws)
        before = setting.running.flows[key]
        if running is not None and abs(running.flows[key] - before) > FELT * abs(before):
            found[name] = running.flows[key]
    return found
