"""Fittings through walls, and shutting off parts of the pipework, against hand calculations."""

from __future__ import annotations

from typing import Any

import pytest

from tests.published.case import FOOT, INCH, LBF, PCF, PSI, Case
from tidestead.core.errors import ImpossibleInput
from tidestead.physics.flow import bulkheads, isolation
from tidestead.physics.flow.bulkheads import BulkheadSize, HolePlace
from tidestead.physics.flow.draining import upright_basin
from tidestead.physics.flow.isolation import OpenWater, Piece

HAND = "geometry and hydrostatics, by hand"
GRAPH = "a pumped loop of two vessels, worked on paper"
MM = 1e-3
LITRE = 1e-3

TWO_INCH = BulkheadSize(hole=3 * INCH, flange=4.125 * INCH, clamps_from=4 * MM, clamps_to=1 * INCH)
BETWEEN_STUDS = HolePlace(to_stud=7.25 * INCH, to_edge=5 * INCH, to_other=8 * INCH, other_flange=3 * INCH)

WATERS = {
    "tank": OpenWater(upright_basin(0.0, 1.3, 6.0), 1.2),
    "sump": OpenWater(upright_basin(-0.8, 0.0, 1.0), -0.4),
}
"""sump - pump - check - a - valve up - b - return - tank;  tank - drain - c - valve down - sump."""
LOOP = (
    Piece("suction", "pipe", "sump", "p", -0.7, -0.7, 0.001),
    Piece("pump", "pump", "p", "q", -0.7, -0.7, 0.0),
    Piece("check", "check valve", "q", "a", -0.7, -0.6, 0.0),
    Piece("valve up", "valve", "a", "b", -0.6, -0.6, 0.0),
    Piece("return", "pipe", "b", "tank", -0.6, 1.0, 0.004),
    Piece("drain", "bulkhead", "tank", "c", 0.1, 0.1, 0.0),
    Piece("valve down", "valve", "c", "sump", 0.1, -0.3, 0.001),
    Piece("tap", "fitting", "b", "dead", -0.6, -0.6, 0.0),
)
OPEN_DRAIN = (*LOOP[:6], Piece("down", "pipe", "c", "sump", 0.1, -0.3, 0.001))
"""The same loop with no valve in the drain."""


def _isolated(name: str) -> dict[str, Any]:
    return {"pieces": LOOP, "waters": WATERS, "name": name}


CASES = [
    Case("3/4 in plywood, 1/4 in backing, 1/16 in liner", bulkheads.wall_build_up,
         {"layers": (0.75 * INCH, 0.25 * INCH, 0.0625 * INCH)}, 1.0625, 5e-5, HAND, "sum", "computed", unit=INCH),
    Case("and it is 1/16 in too thick for a nut of 1 in", bulkheads.clamp_fit,
         {"size": TWO_INCH, "wall": 1.0625 * INCH}, -0.0625, 5e-5, HAND, "1 - 1 1/16", "computed", unit=INCH,
         pick=lambda found: found.thicker_by),
    Case("flange 4 1/8 in between studs 14 1/2 in apart", bulkheads.hole_room,
         {"size": TWO_INCH, "place": BETWEEN_STUDS}, 5.1875, 5e-5, HAND, "7 1/4 - 2 1/16", "computed", unit=INCH,
         pick=lambda found: found.flange_to_stud),
    Case("its neighbour 8 in off", bulkheads.hole_room, {"size": TWO_INCH, "place": BETWEEN_STUDS}, 4.4375, 5e-5,
         HAND, "8 - 2 1/16 - 1 1/2", "computed", unit=INCH, pick=lambda found: found.flange_to_other),
    Case("sheet left beside the hole", bulkheads.hole_room, {"size": TWO_INCH, "place": BETWEEN_STUDS}, 3.5, 0.05,
         HAND, "5 - 1 1/2", "computed", unit=INCH, pick=lambda found: found.hole_to_edge),
    Case("blank of 3 in under 4 ft: 12.25 lbf", bulkheads.blank_load,
         {"density": 62.4 * PCF, "head": 4 * FOOT, "diameter": 3 * INCH}, 12.25, 0.005, HAND, "1.7333*7.0686",
         "computed", unit=LBF, pick=lambda found: found.push),
    Case("blank of 3 in under 4 ft: 1.7333 psi", bulkheads.blank_load,
         {"density": 62.4 * PCF, "head": 4 * FOOT, "diameter": 3 * INCH}, 1.7333, 5e-5, HAND, "62.4*4/144",
         "computed", unit=PSI, pick=lambda found: found.pressure),
    Case("the pump opened: suction has no valve, the sump runs out to it", isolation.isolation, _isolated("pump"),
         301.0, 0.5, GRAPH, "1.0*(-0.4 + 0.7) m3 and the suction pipe", "computed", unit=LITRE,
         pick=lambda found: found.lost),
    Case("the return opened at its foot: the tank sinks to its mouth", isolation.isolation, _isolated("return"),
         1204.0, 0.5, GRAPH, "6*(1.2 - 1.0) m3 and 4 L of pipe", "computed", unit=LITRE,
         pick=lambda found: found.lost),
    Case("the tank emptied: its own 7.2 m3 and 4 L of pipe", isolation.vessel_isolation,
         {"pieces": LOOP, "waters": WATERS, "place": "tank"}, 7204.0, 0.5, GRAPH, "6*1.2 m3 and 4 L", "computed",
         unit=LITRE, pick=lambda found: found.lost),
    Case("with nothing shut all but the dead end may flow", isolation.still_flowing,
         {"pieces": LOOP, "waters": WATERS, "shut": ()}, 7.0, 0.05, GRAPH, "8 pieces less the tap", "computed",
         pick=len),
    Case("with the drain shut its branch is dead", isolation.still_flowing,
         {"pieces": LOOP, "waters": WATERS, "shut": ("valve down",)}, 5.0, 0.05, GRAPH,
         "suction, pump, check, valve up, return", "computed", pick=len),
    Case("without its valve the drain feeds the sump down to the tank's mouth", isolation.fed_by,
         {"pieces": OPEN_DRAIN, "lips": (), "waters": WATERS, "places": ("sump",)}, 0.1, 5e-10, GRAPH,
         "mouth of the drain at 0.1 m", "computed", pick=lambda found: dict(found.vessels)["tank"]),
    Case("and over a riser only down to its lip", isolation.fed_by,
         {"pieces": OPEN_DRAIN[:-1], "lips": (isolation.Lip("c", "sump", 1.15),), "waters": WATERS,
          "places": ("sump",)}, 1.15, 5e-10, GRAPH, "lip at 1.15 m", "computed",
         pick=lambda found: dict(found.vessels)["tank"]),
]  # fmt: skip


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_bulkheads_hold_to_hand(case: Case) -> None:
    assert case.holds()


def test_which_valves_and_vessels() -> None:
    pump = isolation.isolation(LOOP, WATERS, "pump")
    assert (pump.valves, pump.drains, pump.serviceable) == (("valve up",), ("sump",), False)
    assert pump.down_to == (-0.7,)
    tank = isolation.vessel_isolation(LOOP, WATERS, "tank")
    assert set(tank.valves) == {"valve up", "valve down"}
    assert tank.serviceable
    assert tank.pumps == ()
    drain = isolation.isolation(LOOP, WATERS, "drain")
    assert (drain.valves, drain.drains) == (("valve down",), ("tank",))


def test_a_second_valve_makes_a_pump_serviceable() -> None:
    pieces = (
        Piece("stop", "valve", "sump", "s", -0.7, -0.7),
        Piece("suction", "pipe", "s", "p", -0.7, -0.7, 0.001),
    )
    pump = isolation.isolation((*pieces, *LOOP[1:]), WATERS, "pump")
    assert set(pump.valves) == {"stop", "valve up"}
    assert pump.serviceable
    assert pump.lost == pytest.approx(0.001)


def test_a_check_valve_is_not_trusted() -> None:
    pieces = tuple(piece for piece in LOOP if piece.name != "valve up")
    joined = (*pieces, Piece("riser", "pipe", "a", "b", -0.6, -0.6))
    assert isolation.isolation(joined, WATERS, "pump").drains == ("sump", "tank")


def test_what_feeds_a_place_is_stopped_at_the_first_valve_or_pump() -> None:
    tank = isolation.fed_by(LOOP, (), WATERS, ["tank"])
    assert (tank.valves, tank.pumps, tank.vessels) == (("valve up",), (), ())
    sump = isolation.fed_by(LOOP, (), WATERS, ["sump"])
    assert (sump.valves, sump.pumps, sump.vessels) == (("valve down",), (), ())
    open_drain = isolation.fed_by(OPEN_DRAIN, (), WATERS, ["sump"])
    assert (open_drain.valves, open_drain.vessels) == (("valve up",), (("tank", 0.1),))
    no_valve = tuple(piece for piece in LOOP if piece.name != "valve up")
    joined = (*no_valve, Piece("riser", "pipe", "a", "b", -0.6, -0.6))
    assert isolation.fed_by(joined, (), WATERS, ["tank"]).pumps == ("pump",)


def test_a_lip_above_the_water_gives_nothing() -> None:
    dry = (isolation.Lip("c", "sump", 1.25),)
    assert isolation.fed_by(OPEN_DRAIN[:-1], dry, WATERS, ["sump"]).vessels == ()


def test_what_cannot_be_is_refused() -> None:
    with pytest.raises(ImpossibleInput, match="no piece"):
        isolation.isolation(LOOP, WATERS, "chiller")
    with pytest.raises(ImpossibleInput, match="several"):
        isolation.isolation((*LOOP, LOOP[0]), WATERS, "suction")
    with pytest.raises(ImpossibleInput, match="no open water"):
        isolation.vessel_isolation(LOOP, WATERS, "vat")
    with pytest.raises(ImpossibleInput, match="not under water"):
        bulkheads.blank_load(1025.0, 0.01, 0.1)
    with pytest.raises(ImpossibleInput, match="flange"):
        BulkheadSize(hole=0.08, flange=0.07, clamps_from=0.0, clamps_to=0.02)
