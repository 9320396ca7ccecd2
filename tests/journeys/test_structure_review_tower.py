"""Parts of a tower that were passed over in silence, as a hostile reader found, and what is said of them now."""

from __future__ import annotations

import math

import pytest

from tests.journeys.structure_plans import (
    TOWER,
    asked,
    changed,
    checks,
    missing,
    only_vessel,
    tower,
    use,
    value,
    worked,
)
from tidestead.core.answer import Verdict

EYE = """
[vessels.tower.walls.3.windows.eye]
material = "acrylic-cast"
thickness = "12 mm"
width = "120 mm"
height = "220 mm"
sill = "0.89 m"
edges = { left = "seat", right = "seat", bottom = "seat", top = "seat" }
seat = { width = "15 mm", bed = "silicone-neutral", bed_thickness = "4 mm", gap = "3 mm", membrane = "clamp flange" }
temperature = "20 degC"

[vessels.tower.walls.3.windows.eye.opening]
sill = { section = "45 x 45 mm", grade = "C24", joint = { fastener = "screw-5x80", count = 1, into = "side" } }
header = { section = "45 x 45 mm", grade = "C24", joint = { fastener = "screw-5x80", count = 1, into = "side" } }

[vessels.tower.walls.3.windows.eye.opening.jambs]
section = "45 x 45 mm"
grade = "C24"
top = { fastener = "screw-5x80", count = 2, into = "side" }
foot = { fastener = "screw-5x80", count = 2, into = "side" }
"""
"""Between the rings at 0.8 m and 1.2 m."""
WINDOWED = TOWER + EYE
HERE = "tower.3.eye"


# ---- ribs, faces, grain ----------------------------------------------------------------------------


@pytest.mark.parametrize("gone", ['grade = "C24"\nper_face = 1\n', "per_face = 1\n"])
def test_ribs_half_described_are_not_passed_over(gone: str) -> None:
    text = changed(TOWER, (gone, gone.replace("per_face = 1\n", "").replace('grade = "C24"\n', "")))
    assert "per_face" in missing(text, "tower.ribs.bending")


def test_face_without_a_rib_at_its_corners_spans_from_ring_to_ring() -> None:
    """400 mm between rings where ribs would be 124 mm apart."""
    bare = changed(TOWER, ("at_corners = true\n", ""))
    assert (
        value(bare, "tower.sheathing.bending").likely > 3.0 * value(TOWER, "tower.sheathing.bending").likely
    )
    no_ribs = (
        TOWER[: TOWER.index("[vessels.tower.ribs]")] + TOWER[TOWER.index("[vessels.tower.buttresses]") :]
    )
    for name in ("bending", "rolling"):
        assert value(no_ribs, f"tower.sheathing.{name}") == value(bare, f"tower.sheathing.{name}")


def grained(text: str, way: str) -> str:
    return changed(text, ('face_grain = "across studs"', f'face_grain = "{way}"'))


def test_grain_is_weak_across_and_strong_along_whichever_way_the_strip_spans() -> None:
    bare = changed(TOWER, ("at_corners = true\n", ""))
    for level, upright in (("along rings", "across rings"), ("across studs", "along studs")):
        assert use(grained(bare, upright), "tower.sheathing.bending") < use(
            grained(bare, level), "tower.sheathing.bending"
        )
        assert use(grained(TOWER, level), "tower.sheathing.bending") < use(
            grained(TOWER, upright), "tower.sheathing.bending"
        )
    for one, other in (("along rings", "across studs"), ("across rings", "along studs")):
        assert use(grained(bare, one), "tower.sheathing.bending") == use(
            grained(bare, other), "tower.sheathing.bending"
        )


# ---- rings -----------------------------------------------------------------------------------------


def test_corner_joint_takes_the_pull_of_a_side_and_its_push_together() -> None:
    """The side's pull q r and half its load, at right angles: q R, R to the corner."""
    ring = max(tower(TOWER).rings, key=lambda one: one.line_load)
    corner = 0.3 / math.cos(math.pi / 8.0)
    assert worked(TOWER, "tower.rings.joint.force", "P") == pytest.approx(1.35 * ring.line_load * corner)


def test_rings_are_judged_at_the_half_left_at_a_lap() -> None:
    """Half of 45 by 95 mm: the pull goes past four holes of M10 side by side in it, the side's push has all of it."""
    ring = max(tower(TOWER).rings, key=lambda one: one.line_load)
    piece = tower(TOWER).ring_piece
    half = 0.0225 * 0.095
    net = 0.0225 * (0.095 - 4 * 0.010)
    assert use(TOWER, "tower.rings.lap") == pytest.approx(1.35 * ring.pull / net / piece.tension)
    screwed = changed(
        TOWER, ('fastener = "bolt-m10", count = 4, rows = 4', 'fastener = "screw-5x80", count = 4, rows = 4')
    )
    assert use(screwed, "tower.rings.lap") == pytest.approx(1.35 * ring.pull / half / piece.tension)
    side = ring.line_load * 2.0 * 0.3 * math.tan(math.pi / 8.0)
    shear = 1.35 * 1.5 * side / 2.0 / (half * 0.67)
    assert value(TOWER, "tower.rings.shear").likely == pytest.approx(shear)
    thin = changed(
        screwed,
        ('section = "45 x 95 mm"\ngrade = "C24"\nspacing', 'section = "10 x 20 mm"\ngrade = "C24"\nspacing'),
    )
    assert checks(thin)["tower.rings.shear"].verdict is Verdict.FAILS
    wide = changed(TOWER, ("count = 4, rows = 4", "count = 10, rows = 10"))
    assert checks(wide)["tower.rings.lap"].verdict is Verdict.UNPROVEN
    assert "leave nothing" in checks(wide)["tower.rings.lap"].missing


# ---- what it stands on -----------------------------------------------------------------------------


def strutted(section: str) -> str:
    before = 'reach = "400 mm"\nsection = "45 x 95 mm"'
    return changed(TOWER, (before, before.replace("45 x 95 mm", section)))


def test_buttress_of_nothing_holds_nobody_who_leans_on_the_tower() -> None:
    assert checks(TOWER)["tower.buttresses.strut"].verdict is Verdict.SOUND
    assert checks(strutted("5 x 5 mm"))["tower.buttresses.strut"].verdict is Verdict.FAILS
    silent = changed(TOWER, ('reach = "400 mm"\nsection = "45 x 95 mm"\n', 'reach = "400 mm"\n'))
    assert "section" in missing(silent, "tower.buttresses.strut")


def test_foot_presses_by_its_own_outline_and_not_by_the_square_round_it() -> None:
    """Past the kern of a round foot, a quarter of its radius, the peak is well above that of a square round it."""
    wide = changed(TOWER, ('across = "600 mm"', 'across = "1.2 m"'), ('height = "1.6 m"', 'height = "1.0 m"'),
                   ('water = "1.5 m"', 'water = "0.9 m"'), ('brim = "1.55 m"', 'brim = "0.95 m"'))  # fmt: skip
    for text, across, top in ((TOWER, 0.6, 2.0), (wide, 1.2, 1.4)):
        weight = only_vessel(text).cases[0].standing.weight
        square = weight / across**2 * (1.0 + 6.0 * 500.0 * top / weight / across)
        assert value(text, "tower.footing.pressure").likely > 1.15 * square


def test_shaken_tower_is_judged_and_the_rest_left_to_an_engineer() -> None:
    quake = '[site.earthquake]\nhorizontal = "%s g"\nsource = "local code"\n\n[building]'
    weak, strong = (changed(TOWER, ("[building]", quake % share)) for share in ("0.02", "0.5"))
    assert "engineer" in missing(weak, "tower.shaken.force")
    assert checks(weak)["tower.shaken.overturning"].verdict is Verdict.SOUND
    assert checks(strong)["tower.shaken.overturning"].verdict is Verdict.FAILS
    half, height = (0.3 + 0.4) * math.cos(math.pi / 4.0), 1.0
    assert value(strong, "tower.shaken.overturning").likely == pytest.approx(half / (0.5 * height))
    assert not [ident for ident in checks(TOWER) if "shaken" in ident]


# ---- windows in a face -----------------------------------------------------------------------------


def test_window_between_two_rings_hands_its_load_to_timbers_that_are_judged() -> None:
    assert not [
        check for check in asked(WINDOWED).checks if check.verdict in (Verdict.FAILS, Verdict.UNPROVEN)
    ]
    for part in ("sill", "header", "jambs"):
        assert use(WINDOWED, f"{HERE}.opening.{part}.bending") > 0.0
    for part in ("sill.joint", "header.joint", "jambs.top", "jambs.foot"):
        assert use(WINDOWED, f"{HERE}.opening.{part}.force") > 0.0


@pytest.mark.parametrize("part", ["sill", "header"])
def test_timber_left_out_round_a_window_is_not_passed_over(part: str) -> None:
    lines = [
        line for line in WINDOWED.splitlines(keepends=True) if not line.startswith(f"{part} = {{ section")
    ]
    assert part in missing("".join(lines), f"{HERE}.opening.{part}.bending")


def test_window_across_a_ring_is_refused() -> None:
    crossing = changed(WINDOWED, ('height = "220 mm"', 'height = "400 mm"'))
    assert "ring 3" in missing(crossing, f"{HERE}.ring.cut")
    near = changed(WINDOWED, ('sill = "0.89 m"', 'sill = "0.81 m"'))
    assert "ring 2" in missing(near, f"{HERE}.ring.cut")


def test_jambs_carry_all_that_presses_on_their_face() -> None:
    """Sheet, sill, header and the face beside it, in the bay from ring to ring, and nothing lost: at least the water
    that presses on half of it."""
    text = WINDOWED
    depth_low, depth_high = 1.55 - 0.8, 1.55 - 1.2
    face = 2.0 * 0.3 * math.tan(math.pi / 8.0)
    weight = only_vessel(text).water.density * 9.80665
    push = weight * (depth_low**2 - depth_high**2) / 2.0 * face
    ends = sum(value(text, f"{HERE}.opening.jambs.{end}.force").high for end in ("top", "foot"))
    assert ends >= 1.35 * push / 2.0
