"""Every pump as it runs: its duty, the system's curve, energy and money, suction, a strainer half blocked."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from decimal import Decimal

from tidestead.core.answer import Estimate
from tidestead.physics.flow.pumps import PowerPumpLaw, PumpDuty, PumpLaw, affinity, beyond_curve, pump_head
from tidestead.plan.model import Plan
from tidestead.studies.flow.elements import STRAINER, Stock, is_guessed, pump_law
from tidestead.studies.flow.facts import Line, RunFlow, Running
from tidestead.studies.flow.intakes import Intake, boiling_of, intake_of
from tidestead.studies.flow.ranges import Ranges
from tidestead.studies.flow.solving import lines_of, tried
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
    stock: Stock
    lines: tuple[Line, ...]
    fixed: Mapping[str, float]
    running: Running
    passed: Mapping[str, tuple[RunFlow, ...]]
    water: WaterKind
    ranges: Ranges


def pump_facts(setting: Setting) -> tuple[PumpFacts, ...]:
    """All pumps that stand in a line."""
    return tuple(_pump(setting, line, line.pump) for line in setting.lines if line.pump is not None)


def _pump(setting: Setting, line: Line, name: str) -> PumpFacts:
    pump = setting.plan.pumps[name]
    law = pump_law(name, pump)
    flow = setting.running.flows[line.key]
    head = float(pump_head(law, flow))
    power = affinity(PumpDuty(flow, head, pump.power), pump.speed).power if pump.power is not None else None
    useful = setting.water.density * 9.80665 * flow * head
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
        _system(setting, name, (flow, head)),
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


def _with_speed(plan: Plan, name: str, share: float) -> Plan:
    pump = plan.pumps[name]
    faster = pump.model_copy(update={"speed": pump.speed * share})
    return plan.model_copy(update={"pumps": {**plan.pumps, name: faster}})


def _system(setting: Setting, name: str, duty: tuple[float, float]) -> tuple[tuple[float, float], ...]:
    """Head the system takes at other flows: the duty of the same pump at other speeds, the rest as it is."""
    found = [duty]
    for share in SPEEDS:
        plan = _with_speed(setting.plan, name, share)
        lines, _ = lines_of(plan, setting.stock)
        running = tried(plan, lines, setting.fixed, setting.running.state)
        line = next((one for one in lines if one.pump == name), None)
        if running is None or line is None:
            continue
        flow = running.flows[line.key]
        if flow > 0.0:
            found.append((flow, float(pump_head(pump_law(name, plan.pumps[name]), flow))))
    return tuple(sorted(found))


def _fouled(setting: Setting, key: str) -> dict[str, float]:
    """Flow of a line with each strainer half blocked, on top of what is blocked now."""
    names = {run.item.name: None for line in setting.lines for run in line.runs if run.kind == STRAINER}
    found = {}
    for name in names:
        lines, _ = lines_of(setting.plan, replace(setting.stock, blocked=name, share=HALF))
        running = tried(setting.plan, lines, setting.fixed, setting.running.state)
        before = setting.running.flows[key]
        if running is not None and abs(running.flows[key] - before) > FELT * abs(before):
            found[name] = running.flows[key]
    return found
