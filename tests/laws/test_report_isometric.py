"""Views in the round: bodies measured as the plan measures them, and the nearer face always over the farther one."""

from __future__ import annotations

import dataclasses
import itertools
import math
import random
import re
import xml.etree.ElementTree as ET
from importlib import resources

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.laws.report_samples import BOOK, tank
from tidestead.core.answer import Check, Estimate, Verdict
from tidestead.core.scene import Point, Stuff
from tidestead.core.solids import Corner, Round, Solid, Spot, Tag, between, upright
from tidestead.report.isometric import draw
from tidestead.report.isometric_faces import Face, Look, look_from, seen_faces, shared
from tidestead.report.isometric_order import ordered, seen_pieces
from tidestead.report.isometric_paint import SCALE, SHADES, STUFFS, Colours
from tidestead.report.round_uses import PartUse, told_uses, uses_object, uses_of

SVG = "{http://www.w3.org/2000/svg}"
CORNERS: tuple[Corner, ...] = ("south-west", "south-east", "north-east", "north-west")


def block(low: Spot, high: Spot, part: str = "block", stuff: Stuff = "timber") -> Solid:
    outline = ((low[0], low[1]), (high[0], low[1]), (high[0], high[1]), (low[0], high[1]))
    return upright(outline, (low[2], high[2]), stuff, part)


def view_of(*solids: Solid, corner: Corner = "south-west") -> Round:
    return Round("structure.round", "All of it", "In words.", solids, seen_from=corner)


def volume(solid: Solid) -> float:
    """By the divergence theorem: a sixth of each triangle's corners multiplied out."""
    total = 0.0
    for face in solid.faces:
        first = solid.points[face[0]]
        for one, other in itertools.pairwise(face[1:]):
            (ax, ay, az), (bx, by, bz), (cx, cy, cz) = first, solid.points[one], solid.points[other]
            total += ax * (by * cz - bz * cy) + ay * (bz * cx - bx * cz) + az * (bx * cy - by * cx)
    return total / 6.0


def inside(outline: tuple[Point, ...], place: Point) -> bool:
    return all(
        (bx - ax) * (place[1] - ay) - (by - ay) * (place[0] - ax) > 1e-9
        for (ax, ay), (bx, by) in zip(outline, (*outline[1:], outline[0]), strict=True)
    )


def ray_meets(solid: Solid, look: Look, place: Point) -> float | None:
    """How near the nearest point of a convex body is on the line of sight through a place of the picture: found from
    its half spaces in space, and not from how it is drawn.
    """
    start = tuple(place[0] * look.right[k] + place[1] * look.up[k] for k in range(3))
    low, high = -math.inf, math.inf
    for face in solid.faces:
        a, b, c = (solid.points[number] for number in face[:3])
        u, v = tuple(b[k] - a[k] for k in range(3)), tuple(c[k] - a[k] for k in range(3))
        n = (u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0])
        ahead = sum(n[k] * look.eye[k] for k in range(3))
        room = sum(n[k] * (a[k] - start[k]) for k in range(3))
        if abs(ahead) < 1e-12:
            if room < 0.0:
                return None
        elif ahead > 0.0:
            high = min(high, room / ahead)
        else:
            low = max(low, room / ahead)
    return high if high > low + 1e-6 else None


def shown_at(faces: list[Face], place: Point) -> Face | None:
    """What a painter leaves to be seen at a place: the last face laid over it."""
    return next((face for face in reversed(faces) if inside(face.outline, place)), None)


def right_everywhere(view: Round, places: int = 300) -> int:
    """Every place of the picture that is looked at shows what the line of sight meets first. How many met something."""
    wrong, met = looked_at(view, places)
    assert wrong == []
    return met


def looked_at(view: Round, places: int) -> tuple[list[Point], int]:
    """Places that show something else than the line of sight meets first; and how many met something."""
    wrong = []
    look = look_from(view.seen_from)
    faces = ordered(seen_faces(view, look))
    spots = [look.flat(point) for solid in view.solids for point in solid.points]
    xs, ys = zip(*spots, strict=True)
    dice, met = random.Random(5), 0
    for _ in range(places):
        place = (dice.uniform(min(xs), max(xs)), dice.uniform(min(ys), max(ys)))
        hits = [
            (near, solid.part) for solid in view.solids if (near := ray_meets(solid, look, place)) is not None
        ]
        hits.sort(reverse=True)
        if not hits or (len(hits) > 1 and hits[0][0] - hits[1][0] < 1e-3):
            continue
        seen = shown_at(faces, place)
        if seen is not None:  # None only on the line between two faces
            wrong += [] if seen.solid.part == hits[0][1] else [place]
            met += 1
    return wrong, met


def laid_over(view: Round) -> set[tuple[str, str]]:
    """Which body's faces are painted over which other's, where their outlines overlap."""
    faces = ordered(seen_faces(view, look_from(view.seen_from)))
    return {
        (first.solid.part, then.solid.part)
        for first, then in itertools.combinations(faces, 2)
        if first.solid.part != then.solid.part and shared(first, then)
    }


# ---- bodies --------------------------------------------------------------------------------------------------


def test_a_block_holds_what_its_sides_say() -> None:
    assert volume(block((0.0, 0.0, 0.0), (2.0, 3.0, 0.5))) == pytest.approx(3.0)


def test_a_pyramid_cut_off_holds_what_euclid_says() -> None:
    """The frustum: h/3 (A + a + sqrt(A a)). Source: Euclid, Elements XII.7 with its corollary, from memory."""
    low = [(-1.0, -1.0, 0.0), (1.0, -1.0, 0.0), (1.0, 1.0, 0.0), (-1.0, 1.0, 0.0)]
    high = [(x / 2.0, y / 2.0, 3.0) for x, y, _ in low]
    assert volume(between(low, high, "outline", "cone")) == pytest.approx(3.0 / 3.0 * (4.0 + 1.0 + 2.0))


@pytest.mark.parametrize("corner", CORNERS)
def test_the_look_is_isometric(corner: Corner) -> None:
    """The three axes are drawn at one length, sqrt(2/3) of the true one, and the eye is square to the picture."""
    look = look_from(corner)
    for axis in ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0)):
        assert math.hypot(*look.flat(axis)) == pytest.approx(math.sqrt(2.0 / 3.0))
    assert look.flat(look.eye) == pytest.approx((0.0, 0.0), abs=1e-12)
    assert look.flat((0.0, 0.0, 1.0))[1] > 0.0


@pytest.mark.parametrize("corner", CORNERS)
def test_three_sides_of_a_block_are_seen_from_any_corner(corner: Corner) -> None:
    faces = list(seen_faces(view_of(block((0, 0, 0), (1, 2, 3)), corner=corner), look_from(corner)))
    assert sorted(face.turned for face in faces) == [0, 1, 2]
    assert all(face.area > 0.0 for face in faces)


# ---- the nearer over the farther ---------------------------------------------------------------------------


@pytest.mark.parametrize("corner", CORNERS)
@pytest.mark.parametrize("swap", [False, True])
def test_of_two_blocks_the_one_nearer_the_corner_is_drawn_last(corner: Corner, swap: bool) -> None:
    """Known answer: side by side, the one on the eye's side hides the other, in whatever order they are given."""
    y, x = (-2.0 if "south" in corner else 2.0), (-2.0 if "west" in corner else 2.0)
    far, near = block((0, 0, 0), (1, 1, 2), "far"), block((x, y, 0), (x + 1, y + 1, 2), "near")
    solids = (near, far) if swap else (far, near)
    view = view_of(*solids, corner=corner)
    assert laid_over(view) == {("far", "near")}
    assert right_everywhere(view) > 50


def test_what_stands_on_another_is_drawn_after_it() -> None:
    view = view_of(block((0, 0, 1), (1, 1, 2), "upper"), block((0, 0, 0), (1, 1, 1), "lower"))
    assert laid_over(view) <= {("lower", "upper")}
    assert right_everywhere(view) > 50


def test_what_is_wholly_hidden_is_left_out_and_what_is_behind_clear_sheet_is_not() -> None:
    small = block((1.2, 2.2, 0.4), (1.3, 2.3, 0.6), "small")
    wall = block((-1, -1, -3), (1, 1, 4), "wall")
    parts = {face.solid.part for face in ordered(seen_faces(view_of(small, wall), look_from("south-west")))}
    assert parts == {"wall"}
    clear = dataclasses.replace(wall, stuff="clear")
    parts = {face.solid.part for face in ordered(seen_faces(view_of(small, clear), look_from("south-west")))}
    assert parts == {"wall", "small"}


def test_bars_that_lie_over_one_another_in_a_ring_are_cut() -> None:
    """Three bars along the three axes, each over the next: no order of whole faces is right, so one must be cut."""
    ring = (
        block((-3, 0, 2), (6, 1, 3), "along x"),
        block((2, -3, 0), (3, 6, 1), "along y"),
        block((0, 2, -3), (1, 3, 6), "along z"),
    )
    for three in itertools.permutations(ring):
        view = view_of(*three, corner="north-east")
        assert laid_over(view) == {("along y", "along x"), ("along z", "along y"), ("along x", "along z")}
        assert right_everywhere(view) > 50


def test_bodies_that_pass_through_one_another_are_cut_where_they_meet() -> None:
    cross = (block((0, 1, 0), (3, 2, 1), "along"), block((1, 0, 0), (2, 3, 1.2), "across"))
    for corner in CORNERS:
        assert right_everywhere(view_of(*cross, corner=corner)) > 50


places = st.integers(0, 6)
sizes = st.integers(1, 3)
blocks = st.lists(st.tuples(places, places, places, sizes, sizes, sizes), min_size=2, max_size=8)


@given(blocks, st.sampled_from(CORNERS))
def test_any_heap_of_blocks_is_drawn_as_it_is_seen(heap: list[tuple[int, ...]], corner: Corner) -> None:
    """Against a second way: lines of sight cut with each body's half spaces."""
    solids = [
        block((x, y, z), (x + dx, y + dy, z + dz), f"b{number}")
        for number, (x, y, z, dx, dy, dz) in enumerate(heap)
    ]
    wrong, _ = looked_at(view_of(*solids, corner=corner), 40)
    assert wrong == []


def test_a_line_is_hidden_just_where_a_body_stands_before_it() -> None:
    """A line along the far side of a block: what is seen of it, against lines of sight."""
    solid = block((0, 0, 0), (1, 1, 1))
    look = look_from("south-west")
    line = ((-1.0, 1.4, 0.0), (3.0, 1.4, 0.0))
    pieces = list(seen_pieces(line, list(seen_faces(view_of(solid), look)), look))
    begin, end = (look.flat(spot) for spot in line)
    shares = [tuple(math.dist(begin, place) / math.dist(begin, end) for place in piece) for piece in pieces]
    for step in range(401):
        share = step / 400.0
        spot = tuple(a + share * (b - a) for a, b in zip(*line, strict=True))
        met = ray_meets(solid, look, look.flat((spot[0], spot[1], spot[2])))
        seen = any(low - 1e-3 <= share <= high + 1e-3 for low, high in shares)
        hidden = met is not None and met > look.near((spot[0], spot[1], spot[2]))
        assert seen != hidden or any(abs(share - edge) < 5e-3 for piece in shares for edge in piece)


# ---- how much of its limit each part uses ------------------------------------------------------------------


def check(part: str, value: float, limit: float = 1.0) -> Check:
    return Check(f"s.{part}.x{value}", "bending", part, "m", Estimate.exact(value), limit, BOOK, part=part)


def test_checks_find_their_parts_by_the_longest_beginning() -> None:
    view = view_of(
        *(
            block((k, 0, 0), (k + 1, 1, 1), part)
            for k, part in enumerate(("tank.ties.cross", "tank.south.long", "tank.south.studs"))
        ),
        block((0, 5, 0), (1, 6, 1), "tank.water", "water"),
    )
    checks = [
        check("tank.ties.cross.end_joint", 0.9),
        check("tank.ties.cross", 0.2),
        check("tank.south", 0.6),
        check("tank.south.long", 0.3),
        check("tank", 1.4),
        check("other.part", 5.0),
    ]
    uses = uses_of(view, checks)
    assert {part: use.use for part, use in uses.items()} == {
        "tank.ties.cross": 0.9,  # its joint's, which is worse than its own
        "tank.south.long": 0.3,  # its own, and not the wall's
        "tank.south.studs": 0.6,  # the wall's, and not the tank's
    }
    assert uses["tank.ties.cross"].verdict is Verdict.NEAR


def test_what_cannot_be_told_is_unproven_and_has_no_number() -> None:
    view = view_of(block((0, 0, 0), (1, 1, 1), "tank.lid"), block((2, 0, 0), (3, 1, 1), "tank.rim"))
    silent = dataclasses.replace(check("tank.lid", 0.1), missing="say how thick it is")
    uses = uses_of(view, [silent, check("tank.rim", 1.0, 0.0)])
    assert (uses["tank.lid"].use, uses["tank.lid"].verdict) == (None, Verdict.UNPROVEN)
    written = uses_object(uses)
    assert written["tank.rim"]["use"] is None
    assert written["tank.rim"]["verdict"] == "fails"
    assert "say how thick it is" in told_uses(uses)


# ---- the picture --------------------------------------------------------------------------------------------

USES = {
    "basin.south.long": PartUse(1.79, Verdict.FAILS, "bow for good: 179 % used, fails"),
    "basin.west.studs": PartUse(0.4, Verdict.SOUND, "bending: 40 % used, sound"),
}


@pytest.mark.parametrize("uses", [None, USES], ids=["stuff", "use"])
def test_well_formed_and_told_to_those_who_cannot_see_it(uses: dict[str, PartUse] | None) -> None:
    view = tank()
    text = draw(view, "metric", uses=uses)
    root = ET.fromstring(text)
    assert root.get("role") == "img"
    assert root[0].text == view.title
    assert (root[1].text or "").startswith(view.told)
    if uses:
        assert "basin.south.long: bow for good: 179 % used, fails" in (root[1].text or "")
    assert root.get("aria-labelledby") == f"{root[0].get('id')} {root[1].get('id')}"
    assert re.findall(r"https?://[^\"' ]+", text) == ["http://www.w3.org/2000/svg"]
    ids = [element.get("id") for element in root.iter() if element.get("id")]
    assert len(ids) == len(set(ids))
    assert set(re.findall(r"url\(#([^)]+)\)", text)) <= set(ids)


def test_every_part_that_is_seen_can_be_pointed_at_and_dimensions_are_said() -> None:
    root = ET.fromstring(draw(tank(), "metric"))
    parts = {element.get("data-part") for element in root.iter() if element.get("data-part")}
    assert {"basin.south.long", "basin.west.studs", "basin.water", "basin.stands_on", "basin"} <= parts
    said = {span.text for text in root.iter(f"{SVG}text") for span in text}
    assert {"basin", "2.00 m", "north"} <= said
    assert "6 ft 6 3/4 in" in {
        span.text for text in ET.fromstring(draw(tank(), "us")).iter(f"{SVG}text") for span in text
    }


def test_what_fails_is_told_by_number_hatch_and_word_and_not_by_colour_alone() -> None:
    text = draw(tank(), "metric", uses=USES)
    said = {span.text for words in ET.fromstring(text).iter(f"{SVG}text") for span in words}
    assert {"179 %", SCALE["fails"].words, SCALE["little"].words, SCALE["unjudged"].words} <= said
    assert SCALE["near"].words not in said  # nothing is near: the scale shows the steps there are
    assert 'fill="url(#ts-structure-round-use-dense)"' in text


def test_no_step_of_the_scale_looks_like_another() -> None:
    looks = [(band.tint.role, band.tint.share, band.tint.hatch) for band in SCALE.values()]
    assert len(set(looks)) == len(looks)


@given(st.floats(allow_nan=True, allow_infinity=True), st.text(max_size=12))
def test_no_number_and_no_word_breaks_the_picture(odd: float, words: str) -> None:
    good = tank()
    bad = dataclasses.replace(block((0, 0, 0), (1, 1, 1)), part=words, label=words)
    spoilt = dataclasses.replace(bad, points=((odd, 0.0, 0.0), *bad.points[1:]))
    view = dataclasses.replace(
        good, title=words, told=words, solids=(*good.solids, bad, spoilt), tags=(Tag((0.0, 0.0, 2.0), words),)
    )
    assert ET.fromstring(draw(view, "metric")).tag.endswith("svg")


def page_rules() -> list[str]:
    """A rule for every colour a still drawing may use, in the page's variables: its paper is the sheet it lies on."""
    colours = Colours("")
    for tint in (*STUFFS.values(), *(band.tint for band in SCALE.values())):
        for turned in range(len(SHADES)):
            colours.fill(tint, turned)
            colours.fill(tint, turned, seamless=True)
    rules = (f"svg .{name}{{{rule}}}" for name, rule in sorted(colours.rules.items()))
    return [rule.replace("--ts-paper", "--sheet").replace("--ts-", "--") for rule in rules]


def test_the_page_has_a_rule_for_every_colour_of_a_still_drawing() -> None:
    """In the page a drawing brings no style of its own; where this fails, round.css wants what `page_rules` gives."""
    sheet = (resources.files("tidestead.web") / "static" / "round.css").read_text("utf-8")
    assert "\n".join(page_rules()) in sheet
    for uses in (None, USES):
        names = set(re.findall(r'class="(k[\w-]+)', draw(tank(), "metric", uses=uses, themed=False)))
        assert names
        assert all(f"svg .{name}{{" in sheet for name in names)
