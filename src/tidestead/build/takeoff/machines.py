"""Machines and what hangs on them: pumps, heaters, lamps, covers, filters, bottles; circuits of power as allowance."""

from __future__ import annotations

from collections.abc import Iterator

from tidestead.build.lists import Line
from tidestead.build.takeoff.findings import YEAR, Finding, Gap
from tidestead.core.answer import Estimate
from tidestead.core.source import PRACTICE, YOURS
from tidestead.core.units import show
from tidestead.plan.items import OWN, Item
from tidestead.plan.model import Plan
from tidestead.plan.model.electrics import ElectricCircuit
from tidestead.plan.water_fields import ON_TABLES
from tidestead.studies.vessels import plan_area

ELECTRICIAN = (
    "Mains beside seawater: circuits, residual-current devices and their earthing are work for a licensed electrician; "
    "local codes govern. What is listed of them is an allowance."
)

_MONTHS = (12.0, 6.0, 4.0)
"""Months that a carbon cartridge lasts: longest, usual, shortest. Common practice, no source."""

_ONCE = Estimate.exact(1.0)


def machines_taken(plan: Plan) -> Iterator[Finding]:
    """Everything that draws, moves, warms, lights or cleans; what the plan tells twice is listed in its circuit."""
    twice = {
        f"{ON_TABLES[one.same_as.kind]}.{one.same_as.name}" for one in plan.apparatus.values() if one.same_as
    }
    for part in (_moving, _warming, _covers, _cleaning, _powered):
        yield from (one for one in part(plan) if one.key not in twice)


def _line(item: Item, key: str, what: str, vessel: str = "", count: int = 1, basis: str = "") -> Line:
    """So many machines of one sort."""
    amount = Estimate.exact(float(count))
    words = basis or f"{count} in the plan"
    return Line(item, amount, "1", what, key, "machines", "machines", vessel, words, YOURS)


def _moving(plan: Plan) -> Iterator[Finding]:
    for name in plan.pumps:
        yield _line(Item("pump", name), f"pumps.{name}", f"pump {name}")
    for name, apparatus in plan.apparatus.items():
        same = apparatus.same_as
        basis = "" if same is None else f"1, whose power the plan tells as {same.kind} {same.name}"
        yield _line(Item("apparatus", name), f"apparatus.{name}", f"{apparatus.kind} {name}", basis=basis)
    for name, air in plan.airpumps.items():
        stones = "" if air.stones is None else f"1 with {air.stones} stones"
        yield _line(Item("airpump", name), f"airpumps.{name}", f"air pump {name}", air.vessel, 1, stones)
    for key, vessel in plan.vessels.items():
        if vessel.top_off is not None:
            yield _line(Item(OWN, "float valve"), f"vessels.{key}.top_off", f"float valve of {key}", key)


def _warming(plan: Plan) -> Iterator[Finding]:
    for name, heater in plan.heaters.items():
        basis = f"{heater.count} of {show(heater.power, 'W', plan.show)}"
        yield _line(
            Item("heater", name), f"heaters.{name}", f"heater {name}", heater.vessel, heater.count, basis
        )
    for name, chiller in plan.chillers.items():
        yield _line(Item("chiller", name), f"chillers.{name}", f"chiller {name}", chiller.vessel)
    for name, fan in plan.fans.items():
        yield _line(Item("fan", name), f"fans.{name}", f"fan {name}", fan.over)
    for name, lamp in plan.lamps.items():
        basis = f"lamps of {show(lamp.power, 'W', plan.show)}, all of them as one"
        yield _line(Item("lamp", name), f"lamps.{name}", f"lamps {name}", lamp.over, 1, basis)


def _covers(plan: Plan) -> Iterator[Finding]:
    """By the surface that they cover."""
    for name, cover in plan.covers.items():
        vessel = plan.vessels.get(cover.over)
        whole = 0.0 if vessel is None or not _measured(vessel.shape, vessel.sides) else plan_area(vessel)
        if whole <= 0.0:
            words = f"Say the inside sizes of {cover.over}: cover {name} has no area without."
            yield Gap(f"vessels.{cover.over}.length", words)
            continue
        basis = f"{100.0 * cover.share:.0f} % of {show(whole, 'm2', plan.show)}; what lies on the rim comes on top"
        amount = Estimate.exact(cover.share * whole)
        yield Line(Item("cover", name), amount, "m2", f"cover {name}", f"covers.{name}", "machines", "machines",
                   cover.over, basis)  # fmt: skip


def _measured(shape: str, sides: int | None) -> bool:
    return shape != "polygon" or (sides or 0) >= 3


def _cleaning(plan: Plan) -> Iterator[Finding]:
    for name, media in plan.filters.items():
        basis = f"one lot with {show(media.surface, 'm2', plan.show)} of surface"
        yield _line(Item("filter", name), f"filters.{name}", f"filter {name}", media.vessel, 1, basis)
    for name, one in plan.adsorbers.items():
        item, key, load = Item("adsorber", name), f"adsorbers.{name}", show(one.mass, "kg", plan.show)
        yield Line(item, Estimate.exact(one.mass), "kg", f"granulate {name}, first load", key, "machines", "machines",
                   one.vessel, f"a load of {load}", YOURS)  # fmt: skip
        loads = YEAR / one.every
        basis = f"{loads:.1f} loads of {load} in a year"
        yield Line(item, Estimate.exact(loads * one.mass), "kg", f"granulate {name}", key, "machines", "machines",
                   one.vessel, basis, YOURS, yearly=True)  # fmt: skip
    for name, doser in plan.dosers.items():
        basis = f"1 with a bottle of {show(doser.bottle, 'm3', plan.show)}"
        yield _line(Item("doser", name), f"dosers.{name}", f"dosing pump {name}", doser.vessel, 1, basis)
    for name, reactor in plan.reactors.items():
        yield _line(Item("reactor", name), f"reactors.{name}", f"calcium reactor {name}", reactor.vessel, 1,
                    "1 with its pump, its cylinder and what lets the gas in")  # fmt: skip
    for name, source in plan.sources.items():
        if source.kind in ("osmosis", "well", "sea") or (source.kind == "mains" and source.carbon):
            words = {
                "osmosis": "membrane",
                "well": "well pump",
                "sea": "pump to the sea",
                "mains": "carbon filter",
            }
            yield _line(Item("source", name), f"sources.{name}", f"{words[source.kind]} of source {name}")
        if source.carbon and source.kind != "mains":
            yield from _cartridges(name)


def _cartridges(name: str) -> Iterator[Line]:
    """Carbon that takes the chlorine ahead of a source; what a filter on the tap holds comes with it."""
    item, key = Item(OWN, f"carbon cartridge of source {name}"), f"sources.{name}.carbon"
    yield _line(item, key, f"carbon cartridge of source {name}", basis="the first one")
    basis = f"one in {_MONTHS[1]:g} months, in {_MONTHS[2]:g} to {_MONTHS[0]:g}; its sheet tells for how much water"
    long, usual, short = (12.0 / months for months in _MONTHS)
    year = Estimate(long, usual, short)
    yield Line(item, year, "1", f"carbon cartridges of source {name}", key, "water", "water", "", basis, PRACTICE,
               yearly=True)  # fmt: skip


def _powered(plan: Plan) -> Iterator[Finding]:
    for name in plan.devices:
        yield _line(Item("device", name), f"devices.{name}", f"device {name}")
    for name, backup in plan.backups.items():
        yield _line(Item("backup", name), f"backups.{name}", f"{backup.kind} {name}")
    for name, circuit in plan.electrics.items():
        yield from _circuit(plan, name, circuit)
    if plan.supply is not None and plan.supply.distance is not None:
        away = show(plan.supply.distance, "m", plan.show)
        basis = f"{away} of cable from where the voltage is held, main device of {plan.supply.amps:g} A; allowance"
        yield Line(Item("electrics"), _ONCE, "1", "supply of the building", "supply", "electrics", "machines", "",
                   basis, PRACTICE)  # fmt: skip


def _circuit(plan: Plan, name: str, circuit: ElectricCircuit) -> Iterator[Finding]:
    """One circuit as an allowance: cable, breaker, residual-current device."""
    key = f"electrics.{name}"
    parts = [f"breaker of {circuit.breaker:g} A"]
    if circuit.length is None:
        yield Gap(f"{key}.length", f"Say how long the cable of circuit {name} is: its allowance counts none.")
    else:
        size = "" if circuit.cable is None else f" of {1e6 * circuit.cable:.3g} mm²"
        parts.insert(0, f"{show(circuit.length, 'm', plan.show)} of cable{size}")
    if circuit.residual is not None:
        parts.append(f"residual-current device of {1e3 * circuit.residual:g} mA")
    elif circuit.shares is not None:
        parts.append(f"on the residual-current device of circuit {circuit.shares}")
    else:
        yield Gap(
            f"{key}.residual", f"Say what residual-current device watches circuit {name}: none is listed."
        )
    basis = f"{', '.join(parts)}, for {len(circuit.feeds)} things; allowance"
    yield Line(Item("electrics"), _ONCE, "1", f"power circuit {name}", key, "electrics", "machines", "", basis,
               PRACTICE)  # fmt: skip
