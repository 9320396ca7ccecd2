"""Every pump as it runs: its duty, the system's curve, energy and money, suction, a strainer half blocked."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from typing import TypeAlias

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
from tidestead.studies.flow.solving import Trial, all_tried
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
    driven = [line for line in setting.lines if line.pump is not None]
    changes = [{id(_law(line)): turned} for line in driven for turned in _turned(_law(line))]
    strainers = _half_blocked(setting)
    solved = _tried(setting, [*changes, *strainers.values()])
    blocked = dict(zip(strainers, solved[len(changes) :], strict=True))
    return tuple(
        _pump(setting, line, (solved[len(SPEEDS) * at : len(SPEEDS) * (at + 1)], blocked))
        for at, line in enumerate(driven)
    )


def _law(line: Line) -> PumpLaw | PowerPumpLaw:
    law = line.pump_law
    assert law is not None  # the line has a pump
    return law


Solved: TypeAlias = Sequence[Running | None]


def _pump(setting: Setting, line: Line, trials: tuple[Solved, Mapping[str, Running | None]]) -> PumpFacts:
    """One pump; `trials` are those at other speeds and, by strainer, those with one half blocked."""
    name, law = line.pump or "", _law(line)
    pump = setting.plan.pumps[name]
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
        _system(line, (flow, head), trials[0]),
        _fouled(setting, line.key, trials[1]),
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


def _tried(setting: Setting, changes: Sequence[Mapping[int, Law]]) -> list[Running | None]:
    """The network with some laws changed for others, told by their `id`; all else, tees too, as it runs."""
    begin = setting.running.state
    lines = [tuple(with_laws(line, laws) for line in setting.lines) for laws in changes]
    return all_tried(setting.plan, [Trial(some, setting.fixed, begin) for some in lines])


def _turned(law: PumpLaw | PowerPumpLaw) -> list[PumpLaw | PowerPumpLaw]:
    """The pump at every speed that is tried."""
    return [replace(law, speed=law.speed * share) for share in SPEEDS]


def _system(line: Line, duty: tuple[float, float], solved: Solved) -> tuple[tuple[float, float], ...]:
    """Head the system takes at other flows: the duty of the same pump at other speeds, the rest as it is."""
    found = [duty]
    for turned, running in zip(_turned(_law(line)), solved, strict=True):
        flow = running.flows[line.key] if running is not None else 0.0
        if flow > 0.0:
            found.append((flow, float(pump_head(turned, flow))))
    return tuple(sorted(found))


def _half_blocked(setting: Setting) -> dict[str, dict[int, Law]]:
    """By strainer its laws with half of it blocked, on top of what is blocked now."""
    strainers: dict[str, dict[int, Law]] = {}
    for run in (run for line in setting.lines for run in line.runs if run.kind == STRAINER):
        if isinstance(run.law, FittingLaw):
            fouled = replace(run.law, k=fouled_k(run.law.k, HALF))
            strainers.setdefault(run.item.name, {})[id(run.law)] = fouled
    return strainers


def _fouled(setting: Setting, key: str, blocked: Mapping[str, Running | None]) -> dict[str, float]:
    """Flow of a line with each strainer half blocked, where the line feels it."""
    before = setting.running.flows[key]
    return {
        name: running.flows[key]
        for name, running in blocked.items()
        if running is not None and abs(running.flows[key] - before) > FELT * abs(before)
    }
