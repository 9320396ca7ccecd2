"""From what a route names to laws of head against flow."""

from __future__ import annotations

from dataclasses import dataclass

from tidestead.catalog import Row, Table, table
from tidestead.physics.flow import fittings, pipes, pumps, valves
from tidestead.physics.flow.laws import Law
from tidestead.physics.flow.pumps import PowerPumpLaw, PumpLaw, PumpPoint
from tidestead.plan.flow_fields import CurvePoint, RouteItem
from tidestead.plan.model import Apparatus, Plan, Pump
from tidestead.studies.flow.facts import Run

TABLES = ("pipes", "fittings", "valves", "bulkheads")

CHECK = "check"
"""The kind of a valve that lets nothing back."""

LITTLE = 1e-3
"""Least share of its way that a valve or a strainer counts as open: less is shut."""


STRAINER = "strainer"
"""The kind of a fitting or an apparatus that fouls."""


@dataclass(frozen=True)
class Stock:
    """Our tables with the user's own rows, and the water's kinematic viscosity."""

    tables: dict[str, Table]
    viscosity: float


def stock_of(plan: Plan, viscosity: float) -> Stock:
    """The catalogue as this plan sees it."""
    tables = {
        name: table(name).with_yours(plan.yours[name], plan.gallons) if name in plan.yours else table(name)
        for name in TABLES
    }
    return Stock(tables, viscosity)


class Unknown(Exception):
    """Something a route passes cannot be reckoned; the message says what the plan must say."""


def runs_of(plan: Plan, route: tuple[RouteItem, ...], stock: Stock) -> tuple[Run, ...]:
    """Every item of a route with its law and the bore of the pipe nearest before it, else after it."""
    bores = _bores(route, stock)
    return tuple(_run(plan, item, bore, stock) for item, bore in zip(route, bores, strict=True))


def _bores(route: tuple[RouteItem, ...], stock: Stock) -> list[float]:
    rows = stock.tables["pipes"]
    known = [rows[item.name].si("bore") if item.kind == "pipe" else None for item in route]
    first = next((bore for bore in known if bore is not None), 0.0)
    found: list[float] = []
    for bore in known:
        found.append(bore if bore is not None else found[-1] if found else first)
    return found


def _run(plan: Plan, item: RouteItem, bore: float, stock: Stock) -> Run:
    if item.kind == "pipe":
        return _pipe(item, bore, stock)
    if item.kind == "fitting":
        return _fitting(item, bore, stock)
    if item.kind == "valve":
        return _valve(plan, item, bore, stock)
    if item.kind == "pump":
        return Run(item, f"pump {item.name}", pump_law(item.name, plan.pumps[item.name]), bore, 0.0)
    if item.kind == "apparatus":
        return _apparatus(item, plan.apparatus[item.name], bore)
    return Run(item, "open riser", fittings.FittingLaw(0.0, _needed(bore, item)), bore, 0.0)


def _needed(bore: float, item: RouteItem) -> float:
    if bore <= 0.0:
        raise Unknown(f"the bore at {item.name} is not known: put its pipe into the route")
    return bore


def _pipe(item: RouteItem, bore: float, stock: Stock) -> Run:
    row = stock.tables["pipes"][item.name]
    law = pipes.PipeLaw(item.length, bore, row.si("roughness"), stock.viscosity)
    return Run(item, row.title, law, bore, pipes.pipe_area(bore) * item.length)


def _fitting(item: RouteItem, bore: float, stock: Stock) -> Run:
    row = stock.tables["fittings"][item.name]
    law = fittings.FittingLaw(item.count * k_of(row, _needed(bore, item)), bore)
    return Run(item, row.title, law, bore, 0.0, kind=str(row.tag("kind", "")))


def _valve(plan: Plan, item: RouteItem, bore: float, stock: Stock) -> Run:
    valve = plan.valves[item.name]
    row = stock.tables["valves"][valve.kind]
    size = stock.tables["pipes"][valve.size].si("bore") if valve.size is not None else _needed(bore, item)
    checks, k = row.tag("kind") == CHECK, k_of(row, size)
    law: Law
    if checks:
        cracks = valve.cracking if valve.cracking is not None else row.si("cracking_head")
        law = valves.CheckLaw(k, size, cracks)
    else:
        curve = valves.ValveCurve(row.several("positions"), row.several("ks"))
        law = valves.ValveLaw(valve.open, size, k, curve).resistance
    words = f"valve {item.name}, {row.title[0].lower()}{row.title[1:]}"
    return Run(item, words, law, size, 0.0, checks, str(row.tag("kind")))


def k_of(row: Row, bore: float) -> float:
    """Velocity heads a row costs in a bore: as printed, or as a multiple of the turbulent friction factor."""
    if row.has("k"):
        return row.si("k")
    return fittings.multiple_k(row.si("multiple"), bore)


def _apparatus(item: RouteItem, apparatus: Apparatus, bore: float) -> Run:
    if apparatus.loss is None:
        raise Unknown(f"say what head {item.name} costs at a flow: apparatus.{item.name}.loss")
    if apparatus.fouled >= 1.0 - LITTLE:
        raise Unknown(f"{item.name} is blocked whole: apparatus.{item.name}.fouled")
    words = item.name if item.name == apparatus.kind else f"{apparatus.kind} {item.name}"
    law = resistance(apparatus.loss, _needed(bore, item), apparatus.fouled)
    return Run(item, words, law, bore, apparatus.volume or 0.0, kind=apparatus.kind)


def resistance(loss: CurvePoint, bore: float, fouled: float = 0.0) -> fittings.FittingLaw:
    """A loss known at one flow, grown with the square; openings blocked in part speed up the rest."""
    one = pipes.square_loss(loss.flow, bore, 1.0).head
    return fittings.FittingLaw(fittings.fouled_k(loss.head / one, fouled), bore)


def pump_law(name: str, pump: Pump) -> PumpLaw | PowerPumpLaw:
    """The pump's curve at its speed: its points, or a guess from the two ends or from one point."""
    points = tuple(PumpPoint(point.flow, point.head) for point in pump.curve)
    if not points:
        raise Unknown(f"say what pump {name} gives: pumps.{name}.curve")
    if pump.speed <= LITTLE:
        raise Unknown(f"pump {name} stands: pumps.{name}.speed")
    if is_guessed(pump):
        if len(points) == 1:
            guess = pumps.design_point_pump(points[0].flow, points[0].head)
        else:
            guess = pumps.parabola_pump(points[0].head, points[1].flow)
        return PowerPumpLaw(guess.shut_off_head, guess.coefficient, guess.exponent, pump.speed)
    return PumpLaw(points, pump.speed)


def is_guessed(pump: Pump) -> bool:
    """Whether only one point, or only the two ends, of its curve are known."""
    if len(pump.curve) == 1:
        return pump.curve[0].flow > 0.0
    return len(pump.curve) == 2 and pump.curve[0].flow <= 0.0 and pump.curve[1].head <= 0.0
