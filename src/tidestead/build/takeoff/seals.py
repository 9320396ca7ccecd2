"""Seals: the bed that each window lies in, and the bead in the gap round it."""

from __future__ import annotations

from collections.abc import Iterator

from tidestead.build.lists import Line
from tidestead.build.takeoff.findings import Finding, Gap, rows_of
from tidestead.build.takeoff.wetted import Inside, Set, built, windows_of
from tidestead.core.answer import Estimate
from tidestead.core.source import PRACTICE
from tidestead.core.units import show
from tidestead.plan.items import Item
from tidestead.plan.model import Plan

_GASKET = "gasket"

LEAST_DEEP = 0.006
"""A bead is at least so deep, metres; else half as deep as it is wide. Common practice, no source."""


def seals_taken(plan: Plan) -> Iterator[Finding]:
    """The bed of every window of every vessel of the builder's own; gaps in sizes are told with the linings."""
    for inside in built(plan):
        if isinstance(inside, Inside):
            for one in windows_of(inside):
                yield from _bed(plan, inside, one)


def _bed(plan: Plan, inside: Inside, one: Set) -> Iterator[Finding]:
    seat, system = one.window.seat, plan.show
    words = f"window {one.name} of {inside.key}"
    seated = one.seated()
    if seated is None:
        yield Gap(f"{one.path}.seat.width", f"Say the size of {words}, how its edges are held and how wide it is "
                  "seated: its seal is not counted.")  # fmt: skip
    if seat.bed is None:
        yield Gap(f"{one.path}.seat.bed", f"Say what seals {words}.")
    if seated is None or seat.bed is None or seated[0] <= 0.0:
        return
    length, width = seated
    item, what = Item("seal", seat.bed), f"bed of {words}, {one.wall}"
    if rows_of(plan, "seals")[seat.bed].tag("kind") == _GASKET:
        basis = f"seated edges, {show(length, 'm', system)}"
        yield Line(item, Estimate.exact(length), "m", what, one.path, "windows", "windows", inside.key, basis)
    elif seat.bed_thickness is None:
        yield Gap(f"{one.path}.seat.bed_thickness", f"Say how thick the bed of {words} is.")
    else:
        thick = seat.bed_thickness
        basis = f"{show(length, 'm', system)} of seat x {show(width, 'm', system)} x {show(thick, 'm', system, 'fine')}"
        volume = Estimate.exact(length * width * thick)
        yield Line(item, volume, "m3", what, one.path, "windows", "windows", inside.key, basis)
        yield from _bead(plan, inside, one, (item, length))


def _bead(plan: Plan, inside: Inside, one: Set, of: tuple[Item, float]) -> Iterator[Finding]:
    """What closes the gap round the seated edges, half as deep as it is wide over a backing rod."""
    (item, length), gap, system = of, one.window.seat.gap, plan.show
    words = f"window {one.name} of {inside.key}"
    if gap is None:
        yield Gap(
            f"{one.path}.seat.gap", f"Say how wide the gap round {words} is: the bead in it is not counted."
        )
        return
    deep = max(gap / 2.0, LEAST_DEEP)
    basis = f"{show(length, 'm', system)} of gap x {show(gap, 'm', system, 'fine')} x {show(deep, 'm', system, 'fine')}"
    basis += "; assumed half as deep as wide, over a backing rod"
    yield Line(item, Estimate.exact(length * gap * deep), "m3", f"bead in the gap of {words}, {one.wall}", one.path,
               "windows", "windows", inside.key, basis, PRACTICE)  # fmt: skip
