"""Takeoffs done on paper, line by line, beside the program's: the packhouse's south wall and the skerry's tower."""

from __future__ import annotations

import math
from functools import lru_cache
from pathlib import Path

import numpy as np
import pytest

from tidestead.build.lists import Line, Piece, SheetPart, TakenOff
from tidestead.build.takeoff.ring_pieces import bent, halved, mitred
from tidestead.build.takeoff.struts import strut_of
from tidestead.build.takeoff.vessels import vessels_taken
from tidestead.plan import load
from tidestead.plan.items import Item, parse_item

EXAMPLES = Path(__file__).parents[2] / "examples"
INCH = 0.0254
FINE = 5e-5
"""A twentieth of a millimetre: sizes on paper are rounded to a tenth."""


@lru_cache(maxsize=2)
def taken(name: str) -> TakenOff:
    return vessels_taken(load(EXAMPLES / f"{name}.toml").plan)


def pieces(name: str, key: str) -> list[Piece]:
    return [piece for piece in taken(name).pieces if piece.key == key]


def parts(name: str, key: str) -> list[SheetPart]:
    return [part for part in taken(name).parts if part.key == key]


def lines(name: str, key: str) -> list[Line]:
    return [line for line in taken(name).lines if line.key == key]


def amounts(name: str, key: str) -> dict[Item, float]:
    return {line.item: line.amount.likely for line in lines(name, key) if line.amount is not None}


def counted(found: list[Piece]) -> list[tuple[float, int]]:
    return [(piece.length, piece.count) for piece in found]


def same(found: list[tuple[float, int]], paper: list[tuple[float, int]]) -> None:
    """The same lengths in metres, the same numbers of them."""
    assert [count for _, count in found] == [count for _, count in paper]
    assert [length for length, _ in found] == pytest.approx([length for length, _ in paper], abs=FINE)


SOUTH = "vessels.reef.walls.south"
LONG = f"{SOUTH}.windows.long"


def test_studs_of_the_packhouse_south_wall() -> None:
    # 12 ft wall, studs 8 in apart at most:     144/8 = 18 bays, 19 places at 0, 8, ... 144 in
    # window 7 ft = 84 in, in the middle:       (144 - 84)/2 = 30 in to 114 in, rests 2 in: opening 32 to 112 in
    # jambs 4-2x6 beside that, 4 x 1 1/2 = 6 in: 26 to 32 in and 112 to 118 in
    # whole studs at 0, 8, 16, 24 and 120, ... 144: 8; those at 32 and 112 would stand half in the jambs: none
    # between 32 and 112 in: 40, 48, ... 104: 9 short ones
    # whole:  wall 54 in less a plate of 1 1/2 in = 52 1/2 in
    # short:  sill of the sheet 8 in, of the opening 10 in, less 3 x 1 1/2 in of timber under it, less 1 1/2 in of
    #         plate = 4 in
    same(counted(pieces("packhouse", f"{SOUTH}.studs")), [(52.5 * INCH, 8), (4.0 * INCH, 9)])
    # metres of 2x6:  8 x 52.5 + 9 x 4 = 456 in
    two_by_six = parse_item("lumber 2x6 dfl-no2")
    assert amounts("packhouse", f"{SOUTH}.studs")[two_by_six] == pytest.approx(456.0 * INCH, abs=FINE)
    # heads: 3 screws in each of 17, feet: 6 in each
    screw = Item("fastener", "screw-no14x4")
    assert amounts("packhouse", f"{SOUTH}.studs.top") == {screw: 51.0}
    assert amounts("packhouse", f"{SOUTH}.studs.foot") == {screw: 102.0}


def test_level_timbers_of_the_packhouse_south_wall() -> None:
    # plate and ledger to the outside of the walls beside it:  144 + 2 x (sheet 0.719 + stud 5 1/2) = 156.438 in
    same(counted(pieces("packhouse", f"{SOUTH}.base")), [(156.438 * INCH, 1), (156.438 * INCH, 1)])
    # rim 3-2x8 flat, 7 1/4 in wide. Lowest and top plank run through: 144 + 2 x 7 1/4 = 158 1/2 in; middle one: 144 in
    same(counted(pieces("packhouse", f"{SOUTH}.rim")), [(158.5 * INCH, 2), (144.0 * INCH, 1)])
    # of the east wall it is the other way about: 60 in, 60 + 14 1/2 in
    same(counted(pieces("packhouse", "vessels.reef.walls.east.rim")), [(60.0 * INCH, 2), (74.5 * INCH, 1)])
    # ledger: a lag screw at each end and every 12 in: 13
    lag = Item("fastener", "screw-lag-3/8x5")
    assert amounts("packhouse", f"{SOUTH}.base")[lag] == 13.0
    # ties over both rims: 60 + 2 x 7 1/4 = 74 1/2 in, three of two pieces; 6 nails at 6 ends
    same(counted(pieces("packhouse", "vessels.reef.ties.cross")), [(74.5 * INCH, 6)])
    assert amounts("packhouse", "vessels.reef.ties.cross.end_joint") == {Item("fastener", "nail-16d"): 36.0}
    # corners: 6 lag screws at 4
    half = Item("fastener", "screw-lag-1/2x6")
    assert amounts("packhouse", "vessels.reef.corners.joint") == {half: 24.0}


def test_round_the_window_of_the_packhouse_south_wall() -> None:
    # jambs: 2 x 4 of 52 1/2 in; sill 3 of 112 - 32 = 80 in; 8 lag screws at 2 heads, 16 at 2 feet, 12 at 2 ends of it
    lag = Item("fastener", "screw-lag-1/2x6")
    same(counted(pieces("packhouse", f"{LONG}.opening.jambs")), [(52.5 * INCH, 8)])
    same(counted(pieces("packhouse", f"{LONG}.opening.sill")), [(80.0 * INCH, 3)])
    for end, number in (("jambs.top", 16.0), ("jambs.foot", 32.0), ("sill.joint", 24.0)):
        assert amounts("packhouse", f"{LONG}.opening.{end}") == {lag: number}
    # the sheet: 7 ft x 3 ft 10 in, 3 in thick, may be turned when it is cut
    (pane,) = parts("packhouse", LONG)
    assert (pane.width, pane.height) == pytest.approx((84.0 * INCH, 46.0 * INCH), abs=FINE)
    assert pane.item == parse_item("clear acrylic-cast 3 in")
    assert pane.turns


def test_sheets_of_the_packhouse_south_wall() -> None:
    # grain level, sheets of 8 x 4 ft: courses of 48 in and of 6 in. From outside to outside: -0.719 to 144.719 in.
    # A sheet reaches from -0.719 to 95.281 in: the last upright there from plate to rim is the left jamb's middle,
    # 29 in. From there 96 in reach to 125 in: the stud at 120 in. Then the rest.
    # opening: seat of 2 in at left, right and below, none at the free top: 32 to 112 in, 10 to 54 in.
    # lower course: 29.719; 91 x 48 with 3 to 83 by 10 to 48 cut out of it; 24.719
    # upper course: the opening takes the middle and leaves 3 in and 8 in: 29.719; 3; 8; 24.719, all 6 in high
    found = sorted(
        (round(part.width / INCH, 2), round(part.height / INCH, 2), part.count)
        for part in parts("packhouse", f"{SOUTH}.sheathing")
    )
    ends = [(24.72, 6.0, 1), (24.72, 48.0, 1), (29.72, 6.0, 1), (29.72, 48.0, 1)]
    assert found == [(3.0, 6.0, 1), (8.0, 6.0, 1), *ends, (91.0, 48.0, 1)]
    (cut,) = [part for part in parts("packhouse", f"{SOUTH}.sheathing") if part.openings]
    assert np.asarray(cut.openings[0]) == pytest.approx(
        INCH * np.asarray([(3.0, 10.0), (83.0, 10.0), (83.0, 48.0), (3.0, 48.0)]), abs=FINE
    )
    assert cut.level == "along"
    # blocking 48 in up: between studs 8 - 1 1/2 = 6 1/2 in, three bays a side; from the stud at 24 in to the jamb at 26
    # 2 - 3/4 = 1 1/4 in is no room for a block
    blocks = [piece for piece in pieces("packhouse", f"{SOUTH}.sheathing") if "blocking" in piece.what]
    same(counted(blocks), [(6.5 * INCH, 6)])


def test_screws_between_planks_of_the_packhouse_south_wall() -> None:
    # rim: two planes between three planks of 158 1/2, 144 and 158 1/2 in: 2/3 x 461 = 307.3 in = 7.807 m: 27 places of
    # 300 mm, two rows: 54.  jambs: 2 x 3 planes of 52 1/2 in = 315 in = 8.001 m: 27, 54.  sill: 2 x 80 in = 4.064 m:
    # 14, 28.
    # six blocks with two screws at each end: 24
    screw = Item("extra", "joining-screw")
    for key, number in ((f"{SOUTH}.rim", 54), (f"{LONG}.opening.jambs", 54), (f"{LONG}.opening.sill", 28)):
        assert amounts("packhouse", key)[screw] == number
    assert amounts("packhouse", f"{SOUTH}.sheathing")[screw] == 24


def test_fabric_over_joints_of_the_skerry() -> None:
    # sheets of 3000 x 1500 mm: no level joint in 1300 mm. North wall: one upright joint, south wall: two, each coated
    # 1.18 + 0.11 = 1.29 m up. Tower: 1220 mm, so a level joint at 1200 mm on six faces, 383.36 mm wide outside
    plan = load(EXAMPLES / "skerry.toml").plan
    found = vessels_taken(plan, {Item("sheet", "birch-plywood-18"): (3.0, 1.5)})
    fabric = {
        line.key: line.amount.likely for line in found.lines if line.item.sort == "fabric" and line.amount
    }
    walls = "vessels.basin.walls"
    assert fabric == pytest.approx(
        {
            f"{walls}.north.sheathing": 1.29,
            f"{walls}.south.sheathing": 2 * 1.29,
            "vessels.tower.walls.all.sheathing": 5 * 0.38336,
            "vessels.tower.walls.6.sheathing": 0.38336,
        },
        abs=1e-4,
    )


def test_anchors_of_the_packhouse() -> None:
    # north: 144/16 = 9 bays, 10 anchors; east and west: 60/16 = 3.75, 4 bays, 5 anchors
    anchor = Item.anchor(0.5 * INCH)
    for wall, number in (("north", 10.0), ("east", 5.0), ("west", 5.0)):
        assert amounts("packhouse", f"vessels.reef.walls.{wall}.base")[anchor] == number
    # studs of the east wall, 16 in at most: 4 bays of 15 in, 5 studs
    assert counted(pieces("packhouse", "vessels.reef.walls.east.studs"))[0][1] == 5


def test_rings_of_the_skerry_tower() -> None:
    # 640 mm inside, birch plywood of 12 mm: rings begin 332 mm from the middle and are 70 mm deep
    # outer side 2 x 402 x tan 30 = 464.19 mm. Halved: each end goes on by 70/tan 60 = 40.41 mm: 545.02 mm
    # ends 90 - 60 = 30 degrees off square
    # rings 300 mm apart in 1500 mm: 5 bays, 6 rings with both plates, 6 pieces each
    found = pieces("skerry", "vessels.tower.rings")
    assert [piece.count for piece in found] == [6, 24, 6]
    assert [piece.length for piece in found] == pytest.approx([0.54502] * 3, abs=FINE)
    assert [piece.ends for piece in found] == [pytest.approx((math.pi / 6.0, math.pi / 6.0))] * 3
    # 9 screws at 6 corners of 6 rings
    assert amounts("skerry", "vessels.tower.rings.joint") == {Item("fastener", "screw-5x80"): 324.0}


def test_ribs_and_struts_of_the_skerry_tower() -> None:
    # ribs from plate to plate: 1500 - 2 x 70 = 1360 mm. Face 6: the eye stands from 940 to 1160 mm between the rings at
    # 900 and 1200 mm, so its rib goes from 70 to 865 mm, and from 1235 to 1430 mm
    found = pieces("skerry", "vessels.tower.ribs")
    same(counted(found), [(1.36, 5), (0.795, 1), (0.195, 1), (1.36, 6)])
    assert "bevelled 30" in found[-1].holes
    # timbers beside the eye, from ring to ring: 300 - 70 = 230 mm; under and over it as wide
    # as its opening, 120 - 2 x 15 = 90 mm
    eye = "vessels.tower.walls.6.windows.eye.opening"
    same(counted(pieces("skerry", f"{eye}.jambs")), [(0.230, 2)])
    same(counted(pieces("skerry", f"{eye}.sill")), [(0.090, 1)])
    # buttress 70 mm deep, head 1500 mm up, foot 350 mm out to its outside: its axis leans out by a, with
    # 350 - a = 70 x sqrt(a**2 + 1500**2)/1500; a = 278.8 mm does: 70 x 1525.7/1500 = 71.2
    # atan(278.8/1500) = 10.53 degrees; length (350 x 278.8 + 1500**2)/1525.7 = 1538.7 mm
    (prop,) = pieces("skerry", "vessels.tower.buttresses")
    assert prop.count == 6
    heels = amounts("skerry", "vessels.tower.buttresses.anchor_capacity")
    assert heels == {Item("extra", "heel-anchor"): 6.0}
    assert prop.length == pytest.approx(1.5387, abs=FINE)
    assert [math.degrees(end) for end in prop.ends] == pytest.approx([10.53, -10.53], abs=0.005)


def test_faces_of_the_skerry_tower() -> None:
    # outer side of a face 2 x 332 x tan 30 = 383.36 mm, inner 2 x 320 x tan 30 = 369.50 mm: 6.93 mm more at each end
    # a sheet is 1220 mm high: the joint lies on the ring at 1200 mm
    whole = parts("skerry", "vessels.tower.walls.all.sheathing")
    assert {(round(part.height, 4)) for part in whole} == {1.2, 0.3}
    assert [part.width for part in whole] == pytest.approx([0.38336] * len(whole), abs=FINE)
    assert sum(part.count for part in whole) == 10
    assert all("bevelled 30" in part.edges for part in whole)
    # outlet of face 3: 92 mm from the left inside, 98.9 mm from the left outside, 140 mm up, a hole of 62 mm
    (hole,) = [hole for part in whole for hole in part.holes]
    assert (hole.x, hole.y, hole.diameter) == pytest.approx((0.09893, 0.140, 0.062), abs=FINE)
    # eye: 120 x 220 mm less seats of 15 mm: 90 x 190 mm, from 955 mm up, in the middle
    (pane,) = [part for part in parts("skerry", "vessels.tower.walls.6.sheathing") if part.openings]
    (left, low), _, (right, high), _ = pane.openings[0]
    assert (right - left, high - low, low) == pytest.approx((0.090, 0.190, 0.955), abs=FINE)
    assert (left + right) / 2.0 == pytest.approx(pane.width / 2.0, abs=FINE)


def test_what_the_skerry_buys_whole() -> None:
    bought = {line.item for line in taken("skerry").lines if line.item.sort in ("vessel", "cone")}
    assert bought == {Item("vessel", "sump"), Item("vessel", "weirbox"), Item("cone", "tower")}
    assert taken("skerry").missing == taken("packhouse").missing == ()


# ---- pieces of rings and struts against their corner points -------------------------------------------


def corner(distance: float, sides: int) -> np.ndarray:
    """Right corner of the side that looks down, on a polygon so far from its middle."""
    half = math.pi / sides
    return distance / math.cos(half) * np.asarray((math.sin(half), -math.cos(half)))


@pytest.mark.parametrize("sides", [3, 4, 5, 6, 8, 12, 24, 64])
def test_mitred_pieces_close_round_a_polygon(sides: int) -> None:
    inner, depth = 0.35, 0.07
    piece = mitred(inner, depth, sides)
    far, near = corner(inner + depth, sides), corner(inner, sides)
    assert piece.length == pytest.approx(2.0 * far[0], rel=1e-12)
    across = far - near
    assert math.tan(piece.angle) == pytest.approx(across[0] / -across[1], rel=1e-9)
    assert sides * piece.length * math.cos(math.pi / sides) < 2.0 * math.pi * (inner + depth)


def test_a_ring_of_twelve_on_paper() -> None:
    # r = 500 mm, d = 100 mm: 2 x 600 x tan 15 = 321.54 mm, 15 degrees off square
    piece = mitred(0.5, 0.1, 12)
    assert (piece.length, math.degrees(piece.angle)) == pytest.approx((0.321539, 15.0), abs=1e-6)
    # halved: 100/tan 30 = 173.2 mm more at each end: 667.95 mm, 60 degrees off square
    lapped = halved(0.5, 0.1, 12)
    assert (lapped.length, math.degrees(lapped.angle)) == pytest.approx((0.667949, 60.0), abs=1e-6)


@pytest.mark.parametrize("sides", [3, 4, 5, 6, 8, 12, 24, 64])
def test_halved_ends_lie_under_the_whole_of_the_neighbour(sides: int) -> None:
    """The end runs along the outer side of the next piece, from the outer corner to where that meets the inner side."""
    inner, depth = 0.35, 0.07
    turn = 2.0 * math.pi / sides
    far = corner(inner + depth, sides)
    way = np.asarray((math.cos(turn), math.sin(turn)))  # along the next side
    steps = depth / way[1]  # up to the line of this piece's inner side
    end = far + steps * way
    assert end[1] == pytest.approx(-inner)
    piece = halved(inner, depth, sides)
    assert piece.length == pytest.approx(2.0 * max(far[0], end[0]), rel=1e-9)
    assert math.sin(piece.angle) == pytest.approx(abs(way[0]), abs=1e-12)


def test_a_hoop_is_its_outer_girth() -> None:
    assert bent(0.5, 0.1).length == pytest.approx(math.pi * 1.2)


STRUTS = [(0.35, 1.5, 0.07), (1.2, 1.2, 0.2), (0.9, 0.14, 0.14), (0.5, 0.1, 0.15)]


@pytest.mark.parametrize(("reach", "height", "depth"), STRUTS)
def test_a_strut_fits_between_wall_and_floor(reach: float, height: float, depth: float) -> None:
    """Its corner points: head against the wall, outside of the foot at the reach, as deep as it is."""
    strut = strut_of(reach, height, depth)
    assert strut is not None
    axis = np.asarray((math.sin(strut.angle), -math.cos(strut.angle)))
    square = np.asarray((axis[1], -axis[0]))
    head, foot = np.asarray((0.0, height)), np.asarray((reach, 0.0))
    assert (foot - head) @ axis == pytest.approx(strut.length)
    assert abs((foot - head) @ square) == pytest.approx(depth)


def test_a_strut_that_cannot_lean_is_none() -> None:
    assert strut_of(0.07, 1.5, 0.07) is None
    assert strut_of(0.5, 0.0, 0.07) is None
