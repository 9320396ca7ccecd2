"""The plan's water as two bodies for the transient: the display, and the sump with all else that goes round."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from tidestead.catalog import table
from tidestead.core.answer import Estimate
from tidestead.physics import oxygen
from tidestead.physics.flow import suction
from tidestead.plan.model import Plan
from tidestead.plan.water_fields import OnCircuit
from tidestead.studies.flow.facts import FlowFacts
from tidestead.studies.flow.heights import brim_depth
from tidestead.studies.heat.facts import HeatFacts
from tidestead.studies.power.backing import goes_on
from tidestead.studies.power.facts import PowerFacts
from tidestead.studies.vessels import plan_area
from tidestead.studies.water.setting import Setting
from tidestead.studies.water.stock_facts import StockFacts

SHADE = Estimate(0.3, 0.7, 0.9, "own choice; nine tenths where it lies on the water, as the catalogue says")
"""Share of the exchange that a cover takes: what lies on the rims leaves air under it that bears some."""


@dataclass(frozen=True)
class Pool:
    """One body: its vessels, volume, area, brim in m3, intake of the pump in m3 (nothing where none draws from it)."""

    keys: tuple[str, ...]
    volume: float
    area: float
    brim: float
    intake: float = 0.0


@dataclass(frozen=True, eq=False)
class Basis:
    """All that the faults are run on. `feeds` is the flow into the display by each pump, m3/s."""

    plan: Plan
    setting: Setting
    flow: FlowFacts
    heat: HeatFacts
    stock: StockFacts
    power: PowerFacts
    pools: tuple[Pool, ...]
    feeds: Mapping[str, float] = field(default_factory=dict)

    @property
    def display(self) -> Pool:
        return self.pools[0]

    @property
    def sump(self) -> Pool | None:
        """The vessel that pumps draw from and all comes back to."""
        return self.pools[1] if len(self.pools) > 1 else None

    def pool_of(self, vessel: str) -> int:
        """The number of the body that a vessel belongs to; the display's where none is known."""
        return next((number for number, pool in enumerate(self.pools) if vessel in pool.keys), 0)

    @property
    def air_pressure(self) -> float:
        """Mean pressure of the air at the site, Pa."""
        return float(suction.air_pressure(self.plan.site.elevation or 0.0))

    @property
    def air_share(self) -> float:
        """Oxygen that the air of the site gives, of that at one atmosphere."""
        return float(oxygen.air_share(self.setting.sal_psu, self.setting.temp_c, self.air_pressure))

    def backed(self, item: OnCircuit) -> float:
        """Hours for which something goes on by itself when the power stops; the short end of what is known."""
        return goes_on(self.plan, self.power.backups, item)


def basis_of(
    plan: Plan, setting: Setting, earlier: tuple[FlowFacts, HeatFacts, StockFacts, PowerFacts]
) -> Basis | None:
    """The bodies; None where no display's volume is known."""
    flow, heat, stock, power = earlier
    if setting.display not in setting.volumes:
        return None
    sump = _sump(plan, setting, flow)
    pools = [_pool(plan, setting, (setting.display,))]
    if sump:
        pools.append(_sump_pool(plan, setting, sump))
    whole = tuple(pools)
    return Basis(plan, setting, flow, heat, stock, power, whole, _feeds(flow, setting.display, whole))


def _sump(plan: Plan, setting: Setting, flow: FlowFacts) -> str:
    """The vessel that everything comes back to, by the circulation, else by its role."""
    stop = next((one.sump for one in flow.stops if one.sump in setting.volumes), "")
    if stop and stop != setting.display:
        return stop
    return next((key for key in setting.volumes if plan.vessels[key].role == "sump"), "")


def _pool(plan: Plan, setting: Setting, keys: tuple[str, ...]) -> Pool:
    vessel, volume = plan.vessels[keys[0]], setting.volumes[keys[0]]
    area = plan_area(vessel)
    return Pool(keys, volume, area, max(area * brim_depth(vessel), volume * (1.0 + 1e-6)))


def _sump_pool(plan: Plan, setting: Setting, key: str) -> Pool:
    """The sump, and with it all else that goes round: that stands at levels of its own and is mixed with it."""
    pool = _pool(plan, setting, (key,))
    inlets = [port.level for port in plan.vessels[key].ports.values() if port.kind == "inlet"]
    intake = min(max(min(inlets, default=0.0), 0.0) * pool.area, pool.volume)
    others = tuple(one for one in setting.volumes if one not in (setting.display, key))
    rest = sum(setting.volumes[one] for one in others)
    return Pool((key, *others), pool.volume + rest, pool.area, pool.brim + rest, intake + rest)


def _feeds(flow: FlowFacts, display: str, pools: tuple[Pool, ...]) -> dict[str, float]:
    """For every pump the flow that it drives into the display; nothing for those that feed other vessels."""
    if not flow.solved or len(pools) < 2:
        return {}
    return {pump.name: _reached(flow, pump.line, display) for pump in flow.pumps}


def _reached(flow: FlowFacts, line: str, vessel: str) -> float:
    """What a pumped line brings into a vessel, by itself or by lines that go on from its junctions, each once."""
    amount, followed, waiting = 0.0, set[str](), [line]
    while waiting:
        key = waiting.pop()
        if key in followed:
            continue
        followed.add(key)
        end = flow.line(key).circuit.end
        if end.partition(".")[0] == vessel and "." in end:
            amount += max(flow.flows[key], 0.0)
        waiting += [one.key for one in flow.lines if "." not in end and one.circuit.start == end]
    return amount


def exchange(name: str) -> Estimate:
    """Speed at which oxygen passes a surface of the catalogue, m/s."""
    row = table("oxygen")[name]
    return Estimate(row.si("speed_low"), row.si("speed"), row.si("speed_high"), row.title)
