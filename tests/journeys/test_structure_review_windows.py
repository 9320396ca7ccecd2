"""What a hostile reader found in windows and bought vessels, each with the plan that would have shown it."""

from __future__ import annotations

import pytest

from tests.journeys.structure_plans import (
    PLAIN,
    SHEET,
    VAT,
    asked,
    changed,
    checks,
    limit,
    missing,
    use,
    value,
)
from tidestead.core.answer import Verdict

GLASS = changed(
    SHEET,
    ("[yours.clear.printed]", "[yours.clear.unused]"),
    ('material = "yours:printed"', 'material = "glass-annealed"'),
    ('as_built = { thickness = "50 mm" }\n', ""),
)
"""A single pane with a free upper edge."""
STRESS = "box.south.sheet.stress"

SUMP = """
[vessels.sump]
role = "sump"
made = "bought"
shape = "box"
length = "2 m"
width = "1 m"
height = "0.8 m"
water = "0.4 m"
stands_on = { kind = "joists", floor = "home-us" }
"""


# ---- heat ------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("temp", "proved"), [("39", True), ("41", False), ("79", False)])
def test_stress_of_hot_acrylic_is_not_proved_by_limits_found_in_rooms(temp: str, proved: bool) -> None:
    text = changed(VAT, ('temperature = "72 degF"', f'temperature = "{temp} degC"'))
    if proved:
        assert checks(text)["vat.south.pane.stress.water"].verdict is Verdict.SOUND
    else:
        assert "rooms" in missing(text, "vat.south.pane.stress")
        assert "vat.south.pane.stress.water" not in checks(text)


# ---- glass edges -----------------------------------------------------------------------------------


@pytest.mark.parametrize(("work", "factor"), [("polished", 1.0), ("seamed", 0.9), ("as cut", 0.8)])
def test_free_edge_of_glass_bears_what_its_working_leaves(work: str, factor: float) -> None:
    """ke of EN 16612: 1.0 polished, 0.9 seamed, 0.8 other; on annealed glass it is all of the strength."""
    worked = changed(GLASS, ('thickness = "50 mm"', f'thickness = "19 mm"\nedge_work = "{work}"'))
    silent = changed(GLASS, ('thickness = "50 mm"', 'thickness = "19 mm"'))
    full = limit(changed(silent, ('top = "free"', 'top = "held"')), STRESS)
    assert limit(worked, STRESS) == pytest.approx(factor * full)
    assert limit(silent, STRESS) == pytest.approx(0.8 * full)
    key = "vessels.box.walls.south.windows.sheet.edge_work"
    assert key in {one.key for one in asked(silent).assumptions}
    assert key not in {one.key for one in asked(worked).assumptions}


# ---- what thickness? -------------------------------------------------------------------------------


def thicknesses(text: str, vessel: str) -> list[tuple[float | str | None, ...]]:
    (table,) = [one for one in asked(text).tables if one.id == f"structure.{vessel}.thickness"]
    return list(table.rows)


def number(cell: float | str | None) -> float:
    """A cell that must hold a number."""
    assert isinstance(cell, float), cell
    return cell


def test_no_single_pane_is_called_sound_by_the_table_of_thicknesses() -> None:
    rows = thicknesses(GLASS, "box")
    assert rows
    assert {row[-1] for row in rows} <= {"unproven", "fails"}


def test_sheet_whose_seal_fails_is_not_called_sound() -> None:
    """A bed no thicker than paint cannot follow: the table must say so as the checks do."""
    thin = changed(VAT, ('bed_thickness = "1/4 in"', 'bed_thickness = "0.02 mm"'))
    tried = thicknesses(VAT, "vat")
    assert tried[-1][-1] == "sound"
    for row in thicknesses(thin, "vat"):
        if row[1] == tried[-1][1]:
            assert row[-1] == "fails", row
        assert number(row[4]) > 1.0 or row[-1] != "fails"


def test_table_of_thicknesses_agrees_with_the_checks_of_the_sheet_it_names() -> None:
    for row in thicknesses(VAT, "vat"):
        sheet = changed(VAT, ('thickness = "1 1/4 in"', f'thickness = "{number(row[1]) / 0.0254:.6f} in"'))
        for cell, names in (
            (row[2], ("stress.water", "stress.air")),
            (row[3], ("bow.short", "bow.long")),
            (row[4], ("seat", "seal.turn", "seal.lift")),
        ):
            worst = max(use(sheet, f"vat.south.pane.{name}") for name in names)
            assert cell == pytest.approx(worst, rel=1e-4)


# ---- bought vessels --------------------------------------------------------------------------------


def test_bought_vessel_presses_on_its_floor_as_a_built_one_does() -> None:
    """0.8 m of water and 12 % of its weight for the vessel itself, on a floor of 40 lb/ft2."""
    text = PLAIN + SUMP
    check = checks(text)["sump.stands_on.pressure"]
    density = 1025.0
    assert check.verdict is Verdict.FAILS
    assert value(text, "sump.stands_on.pressure").likely == pytest.approx(
        1.12 * density * 9.80665 * 0.8, rel=2e-3
    )
    assert asked(text).verdict is Verdict.FAILS
    assert "vessels.sump.dry_mass_share" in {one.key for one in asked(text).assumptions}
    assert any("engineer" in word for word in check.cautions)


def test_bought_vessel_on_unsaid_ground_is_unproven() -> None:
    silent = PLAIN + SUMP.replace('stands_on = { kind = "joists", floor = "home-us" }\n', "")
    assert "vessels.sump.stands_on" in missing(silent, "sump.stands_on.pressure")


def test_bought_vessel_on_good_ground_is_sound_and_drawn_from_above_and_cut() -> None:
    good = PLAIN + SUMP.replace(
        'kind = "joists", floor = "home-us"', 'kind = "slab", slab_thickness = "6 in", soil = "gravel"'
    )
    for name in ("pressure", "edge"):
        assert use(good, f"sump.stands_on.{name}") < 0.8
    drawn = {scene.id for scene in asked(good).scenes if "sump" in scene.id}
    assert drawn == {"structure.sump.plan", "structure.sump.section"}
