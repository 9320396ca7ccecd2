"""Each coat before it is laid: its area, wet and dry film, what it takes and how much of a can that is."""

from __future__ import annotations

from collections.abc import Sequence

from tidestead.build.takeoff.coats import CoatPlan
from tidestead.core.answer import Column, Table
from tidestead.core.units import System, show


def planned_table(plan: CoatPlan, cans: Sequence[float], system: System) -> Table:
    """Coat by coat as planned; `cans` are the sizes on offer, m3."""
    columns = (
        Column("coat", "count"),
        Column("area", "m2"),
        Column("wet film", "m", "film"),
        Column("dry film", "m", "film"),
        Column("on the wall", "m3"),
        Column("takes, likely", "m3"),
        Column("takes, at most", "m3"),
        Column("cans"),
    )
    volume = plan.volume
    words = " or ".join(_share(volume.likely, can, system) for can in sorted(set(cans), reverse=True))
    rows = tuple(
        (float(number), plan.area, plan.wet, plan.each, plan.net, volume.likely, volume.high, words or None)
        for number in range(1, plan.coats + 1)
    )
    key = plan.inside.key
    solids = f"solids {100.0 * plan.solids:.0f} % by volume"
    note = f"{plan.counted}; {solids}. A can that is opened serves the next coat too."
    return Table(f"cost.{key}.coats-planned", f"Coats of {key}, as planned", columns, rows, note)


def _share(volume: float, can: float, system: System) -> str:
    """ "0.31 of 20 L"."""
    return f"{volume / can:.2f} of {show(can, 'm3', system)}"
