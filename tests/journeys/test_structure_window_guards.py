"""Guards of the structure study round its windows, as a user meets them; VAT is sound until something is changed."""

from __future__ import annotations

import pytest

from tests.journeys.structure_plans import (
    SHEET,
    TOWER,
    VAT,
    asked,
    changed,
    checks,
    limit,
    missing,
    only_vessel,
    use,
    value,
)
from tidestead.core.answer import Verdict

PANE = "vat.south.pane"
HELD = '{ left = "held", right = "held", bottom = "held", top = "free" }'

WIDE = changed(
    SHEET,
    ("poisson = 0.38", "poisson = 0.3"),
    ('height = "1.2 m"\nsill', 'height = "60 cm"\nsill'),
    ('water = "1.2 m"', 'water = "60 cm"'),
    ('brim = "1.2 m"', 'brim = "60 cm"'),
)


def test_wide_window_on_three_edges_is_governed_by_the_twist_at_its_corner() -> None:
    """Three times as wide as high, nu 0.3: 0.113 q b2, computed; mid-edge alone would be 0.098."""
    ident = "box.south.sheet.stress.air"
    moment = value(WIDE, ident).likely * 0.05**2 / 6.0
    q = only_vessel(WIDE).water.density * 9.80665 * 0.6
    assert moment / (q * 0.6**2) == pytest.approx(0.113, abs=0.0005)
    (step,) = [
        step
        for one in asked(WIDE).working
        if one.check == f"structure.{ident}"
        for step in one.steps
        if step.symbol == "M"
    ]
    at = {given.symbol: given.value for given in step.numbers}
    assert min(at["x"], 1.8 - at["x"]) < 0.3
    assert at["y"] < 0.3


def test_twist_pulls_on_the_water_side_too_where_bending_alone_would_press() -> None:
    """Nothing is clamped: without the twist the wet face is pressed everywhere and would use nothing."""
    found = checks(WIDE)
    water, air = (found[f"box.south.sheet.stress.{side}"] for side in ("water", "air"))
    assert water.use is not None
    assert air.use is not None
    assert water.use > air.use


def seats(edge: str) -> str:
    """The printed window of 2.0 by 1.2 m, every edge of one kind."""
    every = f'{{ left = "{edge}", right = "{edge}", bottom = "{edge}", top = "{edge}" }}'
    return changed(
        SHEET,
        ('width = "1.8 m"', 'width = "2.0 m"'),
        (HELD, every),
        ("19.1 to 25 degC", "17.806 to 25 degC"),
    )


def test_seats_that_only_push_raise_the_moment() -> None:
    """Computed: 833.3 held, 860.7 on seats that push; water of 10.055 kN/m3. To 0.4 %, as that solver's mesh has it."""
    assert only_vessel(seats("seat")).water.density * 9.80665 == pytest.approx(10055.0, rel=2e-5)
    moments = {edge: value(seats(edge), "box.south.sheet.stress.air").likely * 0.05**2 / 6.0
               for edge in ("held", "seat")}  # fmt: skip
    assert moments["held"] == pytest.approx(833.3, rel=0.004)
    assert moments["seat"] == pytest.approx(860.7, rel=0.004)
    assert moments["seat"] / moments["held"] == pytest.approx(860.7 / 833.3, rel=0.002)
    assert value(seats("seat"), "box.south.sheet.bow.short").likely == pytest.approx(2.821e-3, rel=0.0015)


MEASURED = changed(
    VAT, ('temperature = "72 degF"', 'temperature = "72 degF"\nas_built = { thickness = "31.75 mm" }')
)


def test_warm_acrylic_asks_how_warm_and_decides_by_the_worse_creep() -> None:
    cool, unsaid = MEASURED, changed(MEASURED, ('temperature = "72 degF"\n', ""))
    warm = changed(MEASURED, ('"72 degF"', '"90 degF"'))
    assert "temperature" in missing(unsaid, f"{PANE}.temperature")
    assert f"{PANE}.temperature" not in checks(warm)
    bow = {name: value(text, f"{PANE}.bow.long") for name, text in
           (("cool", cool), ("unsaid", unsaid), ("warm", warm))}  # fmt: skip
    assert bow["cool"].low == bow["cool"].likely == bow["cool"].high
    for name in ("unsaid", "warm"):
        assert bow[name].likely == pytest.approx(bow["cool"].likely)
        assert bow[name].high == pytest.approx(bow["cool"].likely * 0.5 / 0.33)
        assert use(unsaid, f"{PANE}.bow.long") == pytest.approx(
            bow[name].high / limit(unsaid, f"{PANE}.bow.long")
        )
    assert any("creep" in word for word in checks(warm)[f"{PANE}.bow.long"].cautions)


def test_acrylic_past_its_lasting_heat_proves_nothing() -> None:
    hot = changed(VAT, ('temperature = "72 degF"', 'temperature = "190 degF"'))
    assert "hotter" in missing(hot, f"{PANE}.stress")


def test_extruded_acrylic_is_never_sound() -> None:
    thick = changed(
        VAT, ('"acrylic-cast"', '"acrylic-extruded"'), ('thickness = "1 1/4 in"', 'thickness = "3 in"')
    )
    assert "Extruded" in missing(thick, f"{PANE}.stress")
    assert asked(thick).verdict is Verdict.UNPROVEN


def test_water_above_a_free_edge_fails() -> None:
    free = changed(VAT, ('top = "seat"', 'top = "free"'))
    check = checks(free)[f"{PANE}.freeboard"]
    assert check.verdict is Verdict.FAILS
    assert check.case == "filled to the brim"
    assert value(free, f"{PANE}.freeboard").likely == pytest.approx(-3.0 * 0.0254)


def test_held_edge_needs_a_clamp_and_not_silicone() -> None:
    glued = changed(
        VAT, ('left = "seat"', 'left = "held"'), ('membrane = "clamp flange"', 'membrane = "bed"')
    )
    clamped = changed(VAT, ('left = "seat"', 'left = "held"'))
    assert "silicone carries no permanent pull" in missing(glued, f"{PANE}.held")
    assert f"{PANE}.held" not in checks(clamped)


def test_single_glass_and_unnamed_seats_are_not_proved() -> None:
    glass = changed(
        VAT,
        ('"acrylic-cast"', '"glass-annealed"'),
        ('thickness = "1 1/4 in"', 'thickness = "19 mm"'),
        ('temperature = "72 degF"\n', ""),
    )
    assert "laminate" in missing(glass, f"{PANE}.broken_ply")
    bare = changed(VAT, ('width = "1 1/2 in"\nbed', "bed"))
    assert "seat.width" in missing(bare, f"{PANE}.seat")


def test_jamb_of_the_other_rules_is_named() -> None:
    text = changed(
        VAT,
        (
            'grade = "dfl-no2"\ntop = { fastener = "screw-no14x4", count = 3',
            'grade = "C30"\ntop = { fastener = "screw-no14x4", count = 3',
        ),
    )
    assert "C30" in missing(text, "vat.timber.rules")


def test_jamb_of_the_other_rules_in_a_tower_without_rings_is_named_too() -> None:
    """Nothing is reckoned of the tower, its window is: the timber beside it is still of the wrong rules."""
    eye = (
        '[vessels.tower.walls.1.windows.eye]\nmaterial = "acrylic-cast"\nthickness = "20 mm"\nwidth = "150 mm"\n'
        'height = "300 mm"\nsill = "500 mm"\n'
        'edges = { left = "seat", right = "seat", bottom = "seat", top = "seat" }\n'
        '[vessels.tower.walls.1.windows.eye.opening]\njambs = { section = "45 x 45 mm", grade = "C24" }\n\n'
    )
    text = changed(
        TOWER,
        ('timber_rules = "EC5"', 'timber_rules = "NDS"'),
        ('section = "45 x 95 mm"\ngrade = "C24"\nspacing', 'section = "45 x 95 mm"\nspacing'),
        ("[vessels.tower.rings]", eye + "[vessels.tower.rings]"),
    )
    assert "C24" in missing(text, "tower.timber.rules")
