"""Linings: the flat sheet that lines a box, its flanges at windows; or coats with their litres, fabric and cloth."""

from __future__ import annotations

from collections.abc import Iterator

from tidestead.build.lists import Line
from tidestead.build.takeoff.coats import TOUCH_UP, CoatPlan, by_transfer, coat_plan
from tidestead.build.takeoff.findings import Finding, Gap
from tidestead.build.takeoff.seams import coated_height
from tidestead.build.takeoff.wetted import Inside, built, windows_of
from tidestead.core.answer import Estimate
from tidestead.core.source import COMPUTED, PRACTICE, Known, Source
from tidestead.core.units import show
from tidestead.physics import lining as laws
from tidestead.plan.items import OWN, Item
from tidestead.plan.model import Lining, Plan

OVER_RIM = 0.3048
"""How far a sheet reaches over the rim where the plan is silent: 1 ft. Common practice, no source."""

STRIP = 0.15
"""Width of fabric in a corner. Common practice, no source."""

POND = Source("pond-liner trade", "sheet = (L + 2D + 2o) x (W + 2D + 2o), worked examples", Known.READ)
NIEDERER = Source("Niederer, Estimating Epoxy Amounts", "cloth, three fill coats, some 15 % lost", Known.READ)


def linings_taken(plan: Plan) -> Iterator[Finding]:
    """Linings of every vessel of the builder's own."""
    for inside in built(plan):
        if isinstance(inside, Gap):
            yield inside
        else:
            yield from _lining(plan, inside)


def _lining(plan: Plan, inside: Inside) -> Iterator[Finding]:
    lining, path = inside.vessel.lining, f"{inside.path}.lining"
    if lining is None or lining.kind is None:
        yield Gap(f"{path}.kind", f"Say what keeps the water in {inside.key}: a sheet or a coating.")
    elif lining.kind == "coating":
        yield from _coating(plan, inside, lining)
    elif lining.product is None:
        yield Gap(f"{path}.product", f"Say what sheet lines {inside.key}: a catalogue name.")
    else:
        yield from _sheet(plan, inside, lining, Item("liner", lining.product))
    yield from _clamps(plan, inside)


def _sheet(plan: Plan, inside: Inside, lining: Lining, item: Item) -> Iterator[Finding]:
    """One flat sheet for a box, one that is welded for a tower; strips for the flanges of windows."""
    over, source = (lining.over_rim, POND) if lining.over_rim is not None else (OVER_RIM, PRACTICE)
    vessel, system = inside.vessel, plan.show
    key, depth = f"{inside.path}.lining", vessel.height
    welded = float(laws.welded_area(inside.floor, inside.girth, depth, over))
    reach = f"{show(over, 'm', system)} over the rim" + (" (assumed)" if lining.over_rim is None else "")
    if vessel.shape == "box":
        sides = [float(laws.liner_side(side or 0.0, depth, over)) for side in (vessel.length, vessel.width)]
        area = sides[0] * sides[1]
        size = " x ".join(show(side, "m", system) for side in sides)
        folds = show(float(laws.folded_area(depth, over)), "m2", system)
        basis = (
            f"one flat sheet of {size}, to the top of the wall and {reach}; four corner folds hold {folds} of it. "
            f"Welded to the box it would take {show(welded, 'm2', system)} and laps."
        )
        what = f"liner of {inside.key}, one sheet of {size}"
    else:
        area, what = welded, f"liner of {inside.key}, welded to shape"
        basis = (
            f"floor and walls to the top and {reach}; a tower is not folded, laps at its seams come on top"
        )
    yield Line(item, Estimate.exact(area), "m2", what, key, "lining", "lining", inside.key, basis, source)
    yield from _flanges(plan, inside, item)


def _flanges(plan: Plan, inside: Inside, item: Item) -> Iterator[Finding]:
    """A strip of the sheet as wide as the seat round each window; the sheet itself is cut only once it is fitted."""
    for one in windows_of(inside):
        if one.window.seat.membrane is None:
            yield Gap(
                f"{one.path}.seat.membrane", f"Say how the lining meets window {one.name} of {inside.key}."
            )
        seated = one.seated()
        if seated is None:
            yield Gap(f"{one.path}.seat.width", f"Say how wide window {one.name} of {inside.key} is seated, and how "
                      "its edges are held: the liner's flange there is not counted.")  # fmt: skip
            continue
        length, width = seated
        basis = f"{show(length, 'm', plan.show)} of seat, {show(width, 'm', plan.show)} wide, cut of the same sheet"
        yield Line(item, Estimate.exact(length * width), "m2", f"flange strips of window {one.name}, {one.wall}",
                   one.path, "lining", "windows", inside.key, basis)  # fmt: skip


def _clamps(plan: Plan, inside: Inside) -> Iterator[Line]:
    """Bars that hold the lining on the seats of windows."""
    for one in windows_of(inside):
        seated = one.seated()
        if one.window.seat.membrane != "clamp flange" or seated is None:
            continue
        basis = (
            f"{show(seated[0], 'm', plan.show)} of seat; the plan does not tell its size, nor what holds it"
        )
        what = f"bars of the clamp flange of window {one.name}, {one.wall}"
        yield Line(Item(OWN, "clamp-bar"), Estimate.exact(seated[0]), "m", what, f"{one.path}.seat.membrane",
                   "windows", "windows", inside.key, basis)  # fmt: skip


def _coating(plan: Plan, inside: Inside, lining: Lining) -> Iterator[Finding]:
    for found in coat_plan(plan, inside, lining):
        if isinstance(found, Gap):
            yield found
        else:
            yield from _coats(plan, found)
    if lining.seams is None:
        yield Gap(
            f"{inside.path}.lining.seams",
            f"Say whether the seams of {inside.key} are reinforced with fabric.",
        )
    elif lining.seams == "reinforced":
        yield from _fabric(plan, inside)


def _coats(plan: Plan, coat: CoatPlan) -> Iterator[Line]:
    """A line for each coat, one for mending, cloth with its epoxy where there is any."""
    system, name = plan.show, coat.inside.key
    item = Item("coating", coat.row.name)
    dry, wet = show(coat.each, "m", system, "film"), show(coat.wet, "m", system, "film")
    wholly = f"{show(coat.area, 'm2', system)} ({coat.counted}), {show(coat.film, 'm', system, 'film')} dry in all, "
    wholly += f"{coat.why}"
    how = (
        f"{dry} dry, {wet} wet, {show(coat.net, 'm3', system)} in the film; 5 to 15 % stays in tools and cans"
    )
    count = max(coat.coats, 1)
    for number in range(1, count + 1):
        which = f"coat {number} of {count}" if coat.coats else "all coats"
        basis = f"{which}: {how}. {wholly}" if number == 1 else f"{which}: {how}"
        yield Line(item, coat.volume, "m3", f"coating of {name}, {which}", coat.key, "lining", "lining", name, basis,
                   PRACTICE)  # fmt: skip
    kept = by_transfer(TOUCH_UP * count * coat.net)
    yield Line(item, kept, "m3", f"coating of {name}, kept for mending", coat.key, "lining", "lining", name,
               f"{100 * TOUCH_UP:.0f} % of all coats", PRACTICE)  # fmt: skip
    if coat.lining.cloth is not None:
        yield from _cloth(plan, coat, coat.lining.cloth)


def _cloth(plan: Plan, coat: CoatPlan, weight: float) -> Iterator[Line]:
    """Glass cloth on all of it, and the epoxy that lays it; the coats come on top."""
    name, area = coat.inside.key, coat.area
    words = f"{show(area, 'm2', plan.show)} of {show(weight, 'kg/m2', plan.show)}"
    yield Line(Item(OWN, "glass cloth"), Estimate.exact(area), "m2", f"glass cloth of {name}", f"{coat.key}.cloth",
               "lining", "lining", name, f"{words}, laps of 15 to 20 % come on top")  # fmt: skip
    epoxy = Estimate.exact(float(laws.cloth_epoxy(area, weight)))
    yield Line(Item("coating", coat.row.name), epoxy, "m3", f"epoxy that lays the cloth of {name}",
               f"{coat.key}.cloth", "lining", "lining", name, words, NIEDERER)  # fmt: skip


def _fabric(plan: Plan, inside: Inside) -> Iterator[Line]:
    """Fabric in every inner corner; that over joints is listed with the sheets."""
    system, key = plan.show, f"{inside.path}.lining.seams"
    height = coated_height(inside.vessel)
    upright = inside.corners * height
    basis = f"{show(inside.girth, 'm', system)} round the floor"
    if inside.corners:
        basis += f", {inside.corners} upright corners of {show(height, 'm', system)}"
    basis += f"; strips of {show(STRIP, 'm', system)} are meant"
    yield Line(Item("fabric"), Estimate.exact(inside.girth + upright), "m", f"fabric in corners of {inside.key}", key,
               "lining", "lining", inside.key, basis, COMPUTED)  # fmt: skip
