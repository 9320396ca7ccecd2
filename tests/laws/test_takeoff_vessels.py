"""What must hold of every list of a vessel: totals, sheets that cover their walls, marks, plans with parts left out."""

from __future__ import annotations

import copy
from collections import Counter, defaultdict
from pathlib import Path
from typing import Any

import pytest
import tomlkit
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from tests.journeys.structure_plans import TANK, TOWER, VAT
from tests.laws.test_structure_spoilt import spoilt
from tests.many import many
from tidestead.build.lists import SheetPart, TakenOff
from tidestead.build.takeoff.vessels import vessels_taken
from tidestead.catalog import table
from tidestead.core.errors import PlanError
from tidestead.core.solids import Solid
from tidestead.plan import loads
from tidestead.plan.items import Item
from tidestead.plan.model import Plan
from tidestead.studies.structure.ask import Tables
from tidestead.studies.structure.round_box import box_sides, box_solids
from tidestead.studies.structure.round_tower import tower_solids

FOLDER = Path(__file__).parents[2] / "examples"
EXAMPLES = {path.stem: path.read_text(encoding="utf-8") for path in FOLDER.glob("*.toml")}
TEXTS = {**EXAMPLES, "tank": TANK, "vat": VAT, "tower": TOWER}
SOME = settings(max_examples=many(200, 25), deadline=None, suppress_health_check=list(HealthCheck))


def taken(text: str, sizes: dict[Item, tuple[float, float]] | None = None) -> TakenOff:
    return vessels_taken(loads(text).plan, sizes)


def changed(text: str, *changes: tuple[str, Any]) -> str:
    """A plan with values put in at dotted keys."""
    document: Any = copy.deepcopy(tomlkit.parse(text))
    for key, value in changes:
        node = document
        *way, last = key.split(".")
        for part in way:
            node = node[part] if part in node else node.setdefault(part, tomlkit.table())
        node[last] = value
    return tomlkit.dumps(document)


def net(part: SheetPart) -> float:
    """A part's area without its openings."""
    cut = sum((one[2][0] - one[0][0]) * (one[2][1] - one[0][1]) for one in part.openings)
    return part.count * (part.along * part.across - cut)


def check_list(found: TakenOff) -> None:
    """Nested lines are the sums of their pieces and parts; marks are told once; every line says where it is from."""
    nested: dict[tuple[Item, str], float] = defaultdict(float)
    for piece in found.pieces:
        assert piece.length > 0.0
        assert piece.count > 0
        nested[piece.item, piece.key] += piece.length * piece.count
    for part in found.parts:
        assert part.along > 0.0
        assert part.across > 0.0
        assert all(0.0 <= hole.x <= part.width and 0.0 <= hole.y <= part.height for hole in part.holes)
        nested[part.item, part.key] += net(part)
    told: dict[tuple[Item, str], float] = defaultdict(float)
    for line in found.lines:
        assert line.amount is not None
        assert line.amount.likely > 0.0
        assert line.basis
        assert line.key.startswith(f"vessels.{line.vessel}")
        if line.nested:
            told[line.item, line.key] += line.amount.likely
    assert told == pytest.approx(nested)
    marks = [*(piece.mark for piece in found.pieces), *(part.mark for part in found.parts)]
    assert len(set(marks)) == len(marks)
    assert all(key.startswith("vessels.") and sentence.endswith(".") for key, sentence in found.missing)


@pytest.mark.parametrize("name", TEXTS)
def test_lists_add_up(name: str) -> None:
    found = taken(TEXTS[name])
    check_list(found)
    assert found.pieces


@SOME
@given(spoilt())
def test_a_spoilt_plan_leaves_sentences_and_never_raises(text: str) -> None:
    try:
        plan = loads(text).plan
    except PlanError:
        return
    check_list(vessels_taken(plan))


def test_what_the_plan_leaves_out_is_missing() -> None:
    text = VAT.replace(', lies = "flat"', "").replace('fastener = "screw-no14x4", count = 2, ', "count = 2, ")
    found = dict(taken(text).missing)
    assert "vessels.vat.walls.north.rim" in found
    assert "vessels.vat.walls.north.studs.top.fastener" in found
    assert not any(".rim" in piece.key for piece in taken(text).pieces)


SHEETED = (("packhouse", "reef"), ("skerry", "basin"), ("vat", "vat"), ("tank", "tank"))


@pytest.mark.parametrize(("name", "key"), SHEETED)
@given(st.tuples(st.floats(0.9, 3.0), st.floats(0.6, 1.6)), st.integers(1, 3), st.booleans())
@settings(max_examples=many(60, 8), deadline=None)
def test_sheets_and_openings_cover_the_walls(
    name: str, key: str, size: tuple[float, float], layers: int, upright: bool
) -> None:
    """Whatever size is sold: parts and clear openings together are the walls of every layer, with their corners."""
    plan = sheeted(name, key, layers, "along studs" if upright else "across studs")
    vessel = plan.vessels[key]
    sheet = vessel.walls["all"].sheathing
    assert sheet is not None
    item = Item("sheet", sheet.sheet or "")
    parts = [
        part for part in vessels_taken(plan, {item: size}).parts if part.item == item and part.vessel == key
    ]
    assert all(part.along <= size[0] + 1e-5 and part.across <= size[1] + 1e-5 for part in parts)
    # seen from above a layer is a rectangle's rim: outside less inside, over its thickness
    outside, inside = footprint(plan, key, layers), footprint(plan, key, 0)
    thick = outside[2]
    walls = (outside[0] * outside[1] - inside[0] * inside[1]) * vessel.height
    assert thick * (sum(map(net, parts)) + layers * openings(plan, key)) == pytest.approx(walls, rel=1e-4)


def sheeted(name: str, key: str, layers: int, grain: str) -> Plan:
    """A plan with so many layers on all walls of a vessel."""
    plan = loads(TEXTS[name]).plan
    vessel = plan.vessels[key]
    every = vessel.walls["all"]
    assert every.sheathing is not None
    sheathing = every.sheathing.model_copy(update={"layers": layers, "face_grain": grain})
    walls = {**vessel.walls, "all": every.model_copy(update={"sheathing": sheathing})}
    vessels = {**plan.vessels, key: vessel.model_copy(update={"walls": walls})}
    return plan.model_copy(update={"vessels": vessels})


def footprint(plan: Plan, key: str, layers: int) -> tuple[float, float, float]:
    """Length and width of a box so many sheets out, and one sheet's thickness, out of its bottom plates."""
    vessel = plan.vessels[key]
    plates = {piece.key: piece.length for piece in vessels_taken(plan).pieces if "bottom plate" in piece.what}
    every = vessel.walls["all"].sheathing
    one = (
        (plates[f"vessels.{key}.walls.east.base"] - (vessel.width or 0.0))
        / 2.0
        / (every.layers if every else 1)
    )
    return (vessel.length or 0.0) + 2.0 * layers * one, (vessel.width or 0.0) + 2.0 * layers * one, one


def openings(plan: Plan, key: str) -> float:
    """Clear openings of all windows, by their seats."""
    found = 0.0
    for wall in plan.vessels[key].walls.values():
        for window in wall.windows.values():
            edges, seat = window.edges, window.seat.width or 0.0
            assert edges is not None
            width, height = window.width or 0.0, window.height or 0.0
            width -= seat * sum(edge == "seat" for edge in (edges.left, edges.right))
            height -= seat * sum(edge == "seat" for edge in (edges.bottom, edges.top))
            found += width * height
    return found


@given(st.integers(2, 9), st.sampled_from(["north", "south", "east", "west"]))
@settings(max_examples=many(40, 10), deadline=None)
def test_twice_the_length_has_as_many_more_studs_as_bays(bays: int, wall: str) -> None:
    """A wall without a window has one stud more than bays; twice as long it has twice the bays."""
    along = "length" if wall in ("north", "south") else "width"
    plain = TANK.replace('at = ["4 ft", "8 ft"]', 'at = ["1 in"]')
    found = []
    for times in (1, 2):
        text = changed(plain, (f"vessels.tank.{along}", f"{16 * bays * times} in"))
        studs = f"vessels.tank.walls.{wall}.studs"
        found.append(sum(piece.count for piece in taken(text).pieces if piece.key == studs))
    assert found == [bays + 1, 2 * bays + 1]


def test_what_was_measured_changes_nothing_that_is_bought() -> None:
    measured = changed(
        TEXTS["skerry"],
        ("vessels.basin.walls.all.studs.as_built", {"depth": "140 mm", "lost": "10 %"}),
        ("vessels.basin.ties.cross.as_built", {"cracked": [2]}),
        ("vessels.basin.walls.south.windows.long.as_built", {"thickness": "58 mm"}),
        ("vessels.basin.walls.all.sheathing.as_built", {"thickness": "17 mm"}),
    )
    assert taken(measured) == taken(TEXTS["skerry"])


def test_a_vessel_that_is_filled_is_listed_all_the_same() -> None:
    filled = changed(TEXTS["skerry"], ("vessels.basin.stage", "filled"))
    assert taken(filled) == taken(TEXTS["skerry"])


def test_a_bought_vessel_is_one_line() -> None:
    found = taken(changed(TEXTS["skerry"], ("vessels.tower.made", "bought")))
    assert [line.item for line in found.lines if line.vessel == "tower"] == [Item("vessel", "tower")]
    assert not [piece for piece in found.pieces if piece.vessel == "tower"]


# ---- beside the view in the round ---------------------------------------------------------------------


def drawn(name: str, key: str) -> Counter[tuple[str, str]]:
    """How many solids of each label and part the view in the round has."""
    return Counter((solid.label, solid.part) for solid in solids_of(TEXTS[name], key))


def solids_of(text: str, key: str) -> list[Solid]:
    """All solids of a vessel in the view in the round."""
    vessel = loads(text).plan.vessels[key]
    tables = Tables({"sheathing": table("sheathing")})
    if vessel.shape == "box":
        return list(box_solids(key, vessel, tables, box_sides(vessel, (0.0, 0.0), 0.0), "metric"))
    return list(tower_solids(key, vessel, tables, (0.0, 0.0), 0.0))


def extents(name: str, key: str, label: str) -> list[tuple[float, float, float]]:
    """How far the solids of one label reach in x, y and height; `name` may be a plan itself."""
    found = []
    for solid in solids_of(TEXTS.get(name, name), key):
        if solid.label == label:
            low, high = (
                tuple(end(spot[way] for spot in solid.points) for way in range(3)) for end in (min, max)
            )
            found.append((high[0] - low[0], high[1] - low[1], high[2] - low[2]))
    return found


def listed(name: str, key: str, what: str, whole: int = 1) -> int:
    """Pieces whose words begin so, as timbers of so many pieces."""
    found = taken(TEXTS[name]).pieces
    return sum(one.count for one in found if one.vessel == key and one.what.startswith(what)) // whole


PLAIN = [
    ("packhouse", "reef", "north"),
    ("packhouse", "reef", "east"),
    ("skerry", "basin", "north"),
    ("vat", "vat", "north"),
]


@pytest.mark.parametrize(("name", "key", "wall"), PLAIN)
def test_as_many_studs_as_the_view_in_the_round_has(name: str, key: str, wall: str) -> None:
    found = [piece for piece in taken(TEXTS[name]).pieces if piece.key == f"vessels.{key}.walls.{wall}.studs"]
    assert sum(piece.count for piece in found) == drawn(name, key)["stud", f"{key}.{wall}.studs"] > 3


def test_as_many_timbers_as_the_view_in_the_round_has() -> None:
    basin, tower = drawn("skerry", "basin"), drawn("skerry", "tower")
    assert basin["tie", "basin.ties.cross"] == listed("skerry", "basin", "ties", 2) == 3
    assert (
        basin["jamb", "basin.west.end.opening.jambs"]
        == listed("skerry", "basin", "jambs of window end", 2)
        == 2
    )
    assert (
        basin["sill", "basin.south.long.opening.sill"]
        == listed("skerry", "basin", "sill of window long", 3)
        == 1
    )
    assert basin["rim", "basin.south.rim"] == listed("skerry", "basin", "rim of the south", 3) == 1
    assert (
        basin["bottom plate", "basin.east.base"] == listed("skerry", "basin", "bottom plate of the east") == 1
    )
    rings = (
        listed("skerry", "tower", "ring")
        + listed("skerry", "tower", "bottom")
        + listed("skerry", "tower", "top")
    )
    assert tower["ring", "tower.rings"] == rings == 36
    assert tower["buttress", "tower.buttresses"] == listed("skerry", "tower", "buttress") == 6


def test_ties_and_ribs_of_the_view_in_the_round_are_as_long_as_those_of_the_list() -> None:
    """Ties lie on both rims, 2.2 m and 195 mm at each end; ribs go from plate to plate, cut at the eye alone."""
    ties = extents("skerry", "basin", "tie")
    assert [round(one[1], 5) for one in ties] == [2.59] * 3
    assert [round(one[2], 5) for one in ties] == [0.094] * 3
    assert sorted(round(one[2], 4) for one in extents("skerry", "tower", "rib")) == [
        0.195,
        0.795,
        *[1.36] * 11,
    ]
    for name, key, what in (("skerry", "basin", "ties"), ("packhouse", "reef", "ties")):
        pieces = {
            round(one.length, 5)
            for one in taken(TEXTS[name]).pieces
            if one.vessel == key and one.what.startswith(what)
        }
        assert {round(one[1], 5) for one in extents(name, key, "tie")} == pieces


def test_ties_that_are_fixed_into_their_ends_stand_between_the_rims() -> None:
    text = changed(TEXTS["skerry"], ("vessels.basin.ties.cross.end_joint.into", "end"))
    pieces = [one for one in taken(text).pieces if one.key == "vessels.basin.ties.cross"]
    assert [one.length for one in pieces] == [2.2]
    assert [round(one[1], 5) for one in extents(text, "basin", "tie")] == [2.2] * 3


def test_floor_ties_are_shared_by_the_walls_they_join() -> None:
    tie = {"section": "2x6", "grade": "spf-no2"}
    joint = {"fastener": "nail-16d", "count": 8}
    base = {"carried_by": "floor ties", "tie": tie, "tie_joint": joint}
    north, south = (f"vessels.tank.walls.{wall}.base" for wall in ("north", "south"))
    text = changed(TANK, (north, base | {"spacing": "24 in"}), (south, base | {"spacing": "18 in"}))
    found = [piece for piece in taken(text).pieces if "floor ties" in piece.what]
    # 144 in every 18 in: 9 of them; 72 in inside, and at each end a sheet of 0.719 in and a stud of 5 1/2 in
    assert [(piece.count, piece.key) for piece in found] == [(9, "vessels.tank.walls.south.base.tie")]
    assert found[0].length == pytest.approx(0.0254 * (72.0 + 2.0 * (0.719 + 5.5)), abs=1e-4)


def test_buttresses_stand_between_the_corners() -> None:
    prop = {"spacing": "3 ft", "reach": "2 ft", "section": "2-2x6", "grade": "spf-no2",
            "joint": {"fastener": "nail-16d", "count": 5}, "anchor_capacity": "900 lbf",
            "heel_capacity": "900 lbf"}  # fmt: skip
    found = taken(changed(TANK, ("vessels.tank.walls.north.buttresses", prop)))
    (strut,) = [piece for piece in found.pieces if "buttress" in piece.what]
    assert strut.count == 2 * 3  # 144 in in 4 bays: three between the corners, of two pieces each
    nails = [line for line in found.lines if line.key.endswith("buttresses.joint")]
    assert [line.amount.likely for line in nails if line.amount is not None] == [15.0]
    heels = [
        line.amount.likely
        for line in found.lines
        if line.item.name in ("heel-anchor", "uplift-anchor") and line.amount is not None
    ]
    assert heels == [3.0, 3.0]


def test_a_round_tower_is_bent_round() -> None:
    text = changed(TEXTS["skerry"], ("vessels.tower.shape", "round"))
    text = changed(text.replace("sides = 6\n", ""))
    text = text.replace("walls.6.windows.eye", "walls.1.windows.eye")
    text = text.replace('wall = "3", from_left', 'wall = "1", from_left')
    found = taken(text)
    hoops = [piece for piece in found.pieces if piece.key == "vessels.tower.rings"]
    assert sum(piece.count for piece in hoops) == 6
    assert hoops[0].length == pytest.approx(3.14159265 * (0.64 + 2 * 0.012 + 2 * 0.07))
    sheets = [part for part in found.parts if part.vessel == "tower" and part.item.sort == "sheet"]
    assert sum(net(part) for part in sheets) == pytest.approx(
        3.14159265 * 0.652 * 1.5 - 0.09 * 0.19, rel=1e-5
    )
    assert any(part.holes for part in sheets)
