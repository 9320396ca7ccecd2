"""What the drawings of a structure say of it: words that name the right thing, sizes a builder needs."""

from __future__ import annotations

import math
import re
from pathlib import Path

import pytest

from tests.journeys.structure_plans import PLAIN, TOWER, VAT, asked, changed
from tidestead.catalog import table
from tidestead.core.scene import Area, Measure, Note, Scene, Stroke
from tidestead.report import svg

EXAMPLES = Path(__file__).parents[2] / "examples"


def scene(text: str, ident: str) -> Scene:
    return next(one for one in asked(text).scenes if one.id == f"structure.{ident}")


def test_ties_are_timber_and_the_dashed_line_is_the_brim() -> None:
    shapes = scene(VAT, "vat.south.elevation").shapes
    ties = [shape for shape in shapes if isinstance(shape, Area) and shape.part == "vat.ties"]
    assert [tie.stuff for tie in ties] == ["timber", "timber"]
    ghosts = [shape for shape in shapes if isinstance(shape, Stroke) and shape.stuff == "ghost"]
    assert [ghost.label for ghost in ghosts] == ["edge of the clear sheet", "brim"]
    assert ghosts[1].points[0][1] == pytest.approx(27.0 * 0.0254)


def test_elevation_has_the_sizes_a_builder_cuts_by() -> None:
    """Stud spacing 12 in or a little less, sill 6 in, and the sheet's thickness in its label."""
    shapes = scene(VAT, "vat.south.elevation").shapes
    sizes = [
        abs(shape.end[0] - shape.start[0]) + abs(shape.end[1] - shape.start[1])
        for shape in shapes
        if isinstance(shape, Measure)
    ]
    assert [size for size in sizes if size == pytest.approx(6.0 * 0.0254)]
    assert [size for size in sizes if 0.25 < size <= 12.0 * 0.0254 + 1e-9]
    assert [shape for shape in shapes if isinstance(shape, Area) and "1 1/4 in thick" in shape.label]


@pytest.mark.parametrize("name", ["packhouse", "skerry"])
def test_timbers_round_a_window_are_drawn_under_the_names_of_their_checks(name: str) -> None:
    answer = asked((EXAMPLES / f"{name}.toml").read_text("utf-8"))
    drawn = {getattr(shape, "part", "") for one in answer.scenes for shape in one.shapes}
    timbers = {
        found[0]
        for check in answer.checks
        if (found := re.match(r".+\.opening\.(jambs|sill|header)", check.part))
    }
    assert timbers
    assert timbers <= drawn


def test_every_wall_of_the_plan_is_named() -> None:
    notes = {shape.words: shape.at for shape in scene(VAT, "vat.plan").shapes if isinstance(shape, Note)}
    assert set(notes) == {"north", "south", "east", "west"}
    assert notes["north"][1] > notes["south"][1]
    assert notes["east"][0] > notes["west"][0]


def test_field_names_its_load_its_side_and_its_most() -> None:
    for system, unit in (("us", "in"), ("metric", "mm")):
        drawn = scene(changed(VAT, ('show = "us"', f'show = "{system}"')), "vat.south.pane.bow")
        for words in ("in service", "seen from outside", "up to ", f" {unit}"):
            assert words in drawn.title


def test_tower_section_shows_ribs_and_buttresses() -> None:
    parts = [getattr(shape, "part", "") for shape in scene(TOWER, "tower.section").shapes]
    assert parts.count("tower.ribs") == 2
    assert parts.count("tower.buttresses") == 2
    bare = TOWER[: TOWER.index("[vessels.tower.ribs]")] + TOWER[TOWER.index("[vessels.tower.cone]") :]
    left = [getattr(shape, "part", "") for shape in scene(bare, "tower.section").shapes]
    assert not {"tower.ribs", "tower.buttresses"} & set(left)


def test_wall_without_a_window_has_no_sill_to_measure() -> None:
    assert len([one for one in scene(PLAIN, "vat.south.elevation").shapes if isinstance(one, Measure)]) == 4


BOUGHT = (
    PLAIN
    + """
[vessels.sump]
role = "sump"
made = "bought"
shape = "box"
length = "1.8 m"
width = "1.0 m"
height = "0.75 m"
water = "0.45 m"
stands_on = { kind = "slab", slab_thickness = "150 mm", soil = "gravel" }

[vessels.sump.ports]
back = { kind = "spill", level = "0.60 m" }
spare = { kind = "spill", level = "0.60 m" }
[vessels.sump.ports.low]
kind = "inlet"
level = "195 mm"
bulkhead = { fitting = "heavy-3", wall = "east", from_left = "0.30 m", seat = "rigid", thickness = "15 mm" }

[vessels.sump.ports.high]
kind = "inlet"
level = "250 mm"
bulkhead = { fitting = "metric-50", wall = "north", from_left = "0.40 m" }

[vessels.column]
role = "vat"
made = "bought"
shape = "round"
across = "400 mm"
height = "1.8 m"
water = "1.4 m"
cone = { height = "250 mm", neck = "280 mm" }
"""
)
"""The vat without its window, and two bought vessels of invented sizes beside it."""

WINDOWED = changed(
    TOWER,
    (
        "[vessels.tower.rings]",
        """[vessels.tower.walls.3.windows.eye]
material = "acrylic-cast"
thickness = "12 mm"
width = "100 mm"
height = "200 mm"
sill = "0.9 m"

[vessels.tower.ports]
out = { kind = "inlet", level = "150 mm", bulkhead = { fitting = "metric-50", wall = "5", from_left = "60 mm" } }

[vessels.tower.rings]""",
    ),
)


def areas(drawn: Scene, part: str) -> list[Area]:
    return [shape for shape in drawn.shapes if isinstance(shape, Area) and shape.part == part]


def extent(area: Area) -> tuple[float, float, float, float]:
    """Left, bottom, right, top."""
    across, up = zip(*area.outline, strict=True)
    return min(across), min(up), max(across), max(up)


def measured(drawn: Scene) -> list[float]:
    return [math.dist(shape.start, shape.end) for shape in drawn.shapes if isinstance(shape, Measure)]


def test_every_vessel_has_a_plan_and_a_section_and_an_elevation_where_a_wall_has_something() -> None:
    idents = [one.id for one in asked(BOUGHT).scenes]
    assert len(set(idents)) == len(idents)
    for key in ("vat", "sump", "column"):
        assert {f"structure.{key}.plan", f"structure.{key}.section"} <= set(idents)
    walls = {
        ident.split(".")[2]
        for ident in idents
        if ident.startswith("structure.sump.") and "elevation" in ident
    }
    assert walls == {"east", "north"}
    assert not [ident for ident in idents if ident.startswith("structure.column.") and "elevation" in ident]


def test_bulkhead_is_drawn_where_the_plan_says_and_as_large_as_its_fitting() -> None:
    """A hole of 4 1/2 in and a flange of 6 in, by the table of fittings; 0.30 m from the left, 195 mm up."""
    drawn = scene(BOUGHT, "sump.east.elevation")
    across = []
    for area in areas(drawn, "sump.low.bulkhead"):
        left, bottom, right, top = extent(area)
        assert ((left + right) / 2.0, (bottom + top) / 2.0) == pytest.approx((0.30, 0.195))
        across.append(right - left)
    assert sorted(across) == pytest.approx([4.5 * 0.0254, 6.0 * 0.0254])
    sizes = measured(drawn)
    for size in (0.30, 0.195, 1.0, 0.75, 0.45):
        assert [one for one in sizes if one == pytest.approx(size)], size


def test_places_along_a_wall_count_from_its_left_end_as_seen_from_outside() -> None:
    """The left end of the north wall is its east one; of the east wall, its south one."""
    drawn = scene(BOUGHT, "sump.plan")
    (low,), (high,) = areas(drawn, "sump.low.bulkhead"), areas(drawn, "sump.high.bulkhead")
    left, bottom, right, top = extent(low)
    assert left < 1.8 < right
    assert (bottom + top) / 2.0 == pytest.approx(0.30)
    left, bottom, right, top = extent(high)
    assert bottom < 1.0 < top
    assert (left + right) / 2.0 == pytest.approx(1.8 - 0.40)


def test_section_of_a_bought_box_looks_the_way_it_says() -> None:
    """Cut along its longer side: looking north, east is at the right, and what goes through it too."""
    drawn = scene(BOUGHT, "sump.section")
    assert "looking north" in drawn.title
    (low,) = areas(drawn, "sump.low.bulkhead")
    assert extent(low)[0] < 1.8 < extent(low)[2]
    assert not areas(drawn, "sump.high.bulkhead")
    (slab,) = areas(drawn, "sump.stands_on")
    assert (extent(slab)[1], extent(slab)[3]) == pytest.approx((-0.15, 0.0))
    walls = [extent(area) for area in areas(drawn, "sump.walls")]
    assert {round(right - left, 6) for left, _, right, _ in walls} == {0.015}
    turned = changed(
        BOUGHT, ('length = "1.8 m"', 'length = "0.8 m"'), ('from_left = "0.40 m"', 'from_left = "0.2 m"')
    )
    across = scene(turned, "sump.section")
    assert "looking west" in across.title
    (high,) = areas(across, "sump.high.bulkhead")
    assert extent(high)[0] < 1.0 < extent(high)[2]


def test_ports_of_one_level_share_a_mark_and_are_told() -> None:
    drawn = scene(BOUGHT, "sump.section")
    notes = {shape.words: shape.at[1] for shape in drawn.shapes if isinstance(shape, Note)}
    levels = sorted(notes.values())
    assert levels == pytest.approx([0.195, 0.25, 0.60])
    (shared,) = [words for words, level in notes.items() if level == pytest.approx(0.60)]
    assert shared.startswith("back, spare ")
    for name in ("back", "spare", "low", "high"):
        assert f"{name} " in drawn.told
    assert "the plan does not say where" in scene(BOUGHT, "sump.plan").told


def test_round_column_has_its_sizes() -> None:
    """Inside, neck, height, cone and water."""
    for size in (0.4, 0.28):
        assert [one for one in measured(scene(BOUGHT, "column.plan")) if one == pytest.approx(size)]
    for size in (0.4, 0.28, 1.8, 0.25, 1.4):
        assert [one for one in measured(scene(BOUGHT, "column.section")) if one == pytest.approx(size)], size


def test_tower_is_seen_square_to_the_faces_that_have_something() -> None:
    idents = [one.id for one in asked(WINDOWED).scenes]
    assert [one for one in idents if "elevation" in one] == [
        "structure.tower.elevation",
        "structure.tower.5.elevation",
    ]
    assert [one.id for one in asked(TOWER).scenes if "elevation" in one.id] == ["structure.tower.elevation"]


def test_tower_from_outside_shows_a_window_at_its_true_size_over_the_sheathing() -> None:
    drawn = scene(WINDOWED, "tower.elevation")
    clear = [area for area in areas(drawn, "tower.3.eye") if area.stuff == "clear"]
    left, bottom, right, top = extent(clear[0])
    assert (right - left, bottom, top) == pytest.approx((0.1, 0.9, 1.1))
    assert left + right == pytest.approx(0.0)
    order = [shape.part for shape in drawn.shapes if isinstance(shape, Area)]
    assert order.index("tower.3.eye") > order.index("tower.sheathing")
    for size in (1.6, 1.5, 0.4, 0.9, 0.1, 0.2):
        assert [one for one in measured(drawn) if one == pytest.approx(size)], size
    boards = [extent(area) for area in areas(drawn, "tower.sheathing")]
    sheet = table("sheathing")["birch-plywood-15"].si("thickness")
    assert max(right for _, _, right, _ in boards) == pytest.approx(
        0.3 + sheet
    )  # two of eight faces stand edge on


def test_hole_in_a_face_counts_from_its_left_end() -> None:
    """A face of eight sides 600 mm across is 600 tan(22.5 deg) wide."""
    drawn = scene(WINDOWED, "tower.5.elevation")
    (flange, _) = areas(drawn, "tower.out.bulkhead")
    left, bottom, right, top = extent(flange)
    assert (left + right) / 2.0 == pytest.approx(0.06 - 0.3 * math.tan(math.pi / 8.0))
    assert (bottom + top) / 2.0 == pytest.approx(0.15)


def test_faces_of_a_tower_are_counted_from_the_south_by_the_east() -> None:
    drawn = scene(WINDOWED, "tower.plan")
    notes = {shape.words.split(",")[0]: shape.at for shape in drawn.shapes if isinstance(shape, Note)}
    assert set(notes) == {"north", *map(str, range(1, 9))}
    for number in range(1, 9):
        turn = math.degrees(math.atan2(notes[str(number)][1], notes[str(number)][0]))
        assert math.remainder(turn - (-90.0 + 45.0 * (number - 1)), 360.0) == pytest.approx(0.0, abs=1e-6)
    assert notes["north"][1] > 0.3
    reach = max(math.hypot(*point) for area in areas(drawn, "tower.buttresses") for point in area.outline)
    assert reach > 0.3 + 0.4


def test_hole_of_unknown_place_is_told_and_not_drawn() -> None:
    """In the floor, or with no distance along its wall."""
    for known, unknown in (
        (', from_left = "0.40 m"', ""),
        ('wall = "north", from_left = "0.40 m"', 'wall = "floor"'),
    ):
        text = changed(BOUGHT, (known, unknown))
        drawn = scene(text, "sump.plan")
        assert not areas(drawn, "sump.high.bulkhead")
        assert "high" in drawn.told.split("Not drawn")[1]
    north = scene(changed(BOUGHT, (', from_left = "0.40 m"', "")), "sump.north.elevation")
    assert not areas(north, "sump.high.bulkhead")
    assert "high, a hole of" in north.told
    assert "not drawn" in north.told


def test_round_tower_is_seen_from_the_south() -> None:
    round_tower = changed(TOWER, ('shape = "polygon"\nsides = 8', 'shape = "round"'))
    drawn = scene(round_tower, "tower.elevation")
    assert drawn.title.endswith("from the south")
    for size in (1.6, 1.5, 0.4):
        assert [one for one in measured(drawn) if one == pytest.approx(size)], size
    boards = [extent(area) for area in areas(drawn, "tower.sheathing")]
    sheet = table("sheathing")["birch-plywood-15"].si("thickness")
    assert max(right for _, _, right, _ in boards) == pytest.approx(0.3 + sheet, rel=0.01)  # by flat faces


@pytest.mark.parametrize("text", [BOUGHT, WINDOWED], ids=["bought", "tower"])
def test_outlines_turn_one_way_and_have_room(text: str) -> None:
    """Every outline of the new drawings is counter-clockwise and encloses something."""
    for drawn in asked(text).scenes:
        if drawn.id.split(".")[1] in ("sump", "column") or drawn.id.endswith(("elevation", "tower.plan")):
            for shape in drawn.shapes:
                if isinstance(shape, Area):
                    pairs = zip(shape.outline, (*shape.outline[1:], shape.outline[0]), strict=True)
                    assert sum(ax * by - bx * ay for (ax, ay), (bx, by) in pairs) > 0.0, (
                        drawn.id,
                        shape.part,
                    )


def test_figures_of_a_wall_stand_clear_of_it_and_in_one_unit() -> None:
    """No dimension runs through studs or window; in metres and millimetres at once nobody adds them up."""
    drawn = scene(VAT, "vat.south.elevation")
    wall = next(
        shape for shape in drawn.shapes if isinstance(shape, Area) and shape.part.endswith("sheathing")
    )
    right, top = (max(place[axis] for place in wall.outline) for axis in (0, 1))
    for size in (shape for shape in drawn.shapes if isinstance(shape, Measure)):
        upright = size.start[0] == size.end[0]
        assert size.start[0] in (0.0, right) if upright else size.start[1] in (0.0, top)
        assert size.aside
    metric = asked(VAT, "metric")
    walls = [one for one in metric.scenes if one.id.endswith(".elevation")]
    for one in walls:
        figures = re.findall(r">(?:[^<>]* )?[\d.]+ (mm|m)<", svg.draw(one, "metric"))
        assert len(set(figures)) == 1, one.id
        assert "ground" not in svg.draw(one, "metric")[svg.draw(one, "metric").index("</defs>") :]
