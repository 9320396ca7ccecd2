"""Vessels taken off the plan: timber, sheets and fixings of those that are built, the bought ones whole."""

from __future__ import annotations

from collections.abc import Mapping

from tidestead.build.lists import TakenOff
from tidestead.build.takeoff.box import take_box
from tidestead.build.takeoff.gathered import Counted, Gathered, Part
from tidestead.build.takeoff.sheeting import METRIC_SHEET, US_SHEET
from tidestead.build.takeoff.tower import take_tower
from tidestead.catalog import table
from tidestead.plan.items import Item
from tidestead.plan.model import Plan, Vessel
from tidestead.studies.structure.ask import Tables
from tidestead.studies.structure.drawings_holes import bored_of
from tidestead.studies.structure.found import as_drawn

SheetSizes = Mapping[Item, tuple[float, float]]
"""What is sold of a sheet: its length along the face grain and across it, metres."""


def vessels_taken(plan: Plan, sheet_sizes: SheetSizes | None = None) -> TakenOff:
    """Everything the vessels take, as planned: what was measured since changes nothing that is bought.

    A sheet that `sheet_sizes` does not hold is 2440 x 1220 mm, one with an American rating 8 x 4 ft.
    """
    tables, sizes = _tables(plan), sheet_sizes or {}
    found = TakenOff(())
    for key, vessel in plan.vessels.items():
        gathered = Gathered(key, plan.show)
        if vessel.made == "bought":
            _bought(gathered, vessel)
        else:
            _built(gathered, plan, as_drawn(vessel), tables, sizes)
        found = found + gathered.taken()
    return found


def _tables(plan: Plan) -> Tables:
    ours = table("sheathing")
    own = plan.yours.get("sheathing")
    return Tables({"sheathing": ours.with_yours(own, plan.gallons) if own else ours})


def _bought(gathered: Gathered, vessel: Vessel) -> None:
    key = gathered.vessel
    basis = "bought whole" + (", its cone with it" if vessel.cone is not None else "")
    part = Part(f"vessels.{key}", f"{vessel.role} {key}, bought", "")
    gathered.counted(Item("vessel", key), 1.0, part, basis, Counted(trade="machines", phase="pipework"))


def _built(gathered: Gathered, plan: Plan, vessel: Vessel, tables: Tables, sizes: SheetSizes) -> None:
    def size_of(sheet: str) -> tuple[float, float]:
        given = sizes.get(Item("sheet", sheet))
        if given is not None:
            return given
        rows = tables["sheathing"]
        return US_SHEET if sheet in rows and rows[sheet].tag("basis", "") == "NDS" else METRIC_SHEET

    bored = bored_of(plan, gathered.vessel)
    if vessel.shape == "box":
        take_box(gathered, vessel, tables, size_of, bored)
    else:
        take_tower(gathered, vessel, tables, size_of, bored)
