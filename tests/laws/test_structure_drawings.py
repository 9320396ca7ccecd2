"""What the drawings of a structure say of it: words that name the right thing, sizes a builder needs."""

from __future__ import annotations

import pytest

from tests.journeys.structure_plans import PLAIN, TOWER, VAT, asked, changed
from tidestead.core.scene import Area, Measure, Note, Scene, Stroke


def scene(text: str, ident: str) -> Scene:
    return next(one for one in asked(text).scenes if one.id == f"structure.{ident}")


def test_ties_are_timber_and_the_dashed_line_is_the_brim() -> None:
    shapes = scene(VAT, "vat.south.elevation").shapes
    ties = [shape for shape in shapes if isinstance(shape, Area) and shape.part == "vat.ties"]
    assert [tie.stuff for tie in ties] == ["timber", "timber"]
    ghosts = [shape for shape in shapes if isinstance(shape, Stroke) and shape.stuff == "ghost"]
    assert [ghost.label for ghost in ghosts] == ["brim"]
    assert ghosts[0].points[0][1] == pytest.approx(27.0 * 0.0254)


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
