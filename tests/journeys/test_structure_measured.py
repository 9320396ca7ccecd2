"""Values measured on the vessel as it stands: worse than planned uses more, and lowers how high it may be filled."""

from __future__ import annotations

import pytest

from tests.journeys.structure_plans import PLAIN, VAT, asked, changed, checks, only_vessel, use, value
from tidestead.core.answer import Estimate, Verdict
from tidestead.core.units import show
from tidestead.studies.structure.levels import SafeLevel

PANE = "vat.south.pane"
STUDS = 'spacing = "12 in"\n'
FOOT = 'foot = { fastener = "screw-no14x4", count = 3, into = "side"'
END = 'end_joint = { fastener = "screw-no14x4", count = 3, into = "side"'


def measured_pane(thickness: str) -> str:
    return changed(
        VAT,
        ('temperature = "72 degF"', f'temperature = "72 degF"\nas_built = {{ thickness = "{thickness}" }}'),
    )


def rotten(lost: str, spacing: str = "12 in") -> str:
    """The studs of every wall with a share of their depth lost."""
    return changed(PLAIN, (STUDS, f'spacing = "{spacing}"\nas_built = {{ lost = "{lost}" }}\n'))


def levels(text: str) -> tuple[SafeLevel, SafeLevel]:
    """How high the vat may be filled, as found and as drawn."""
    vessel = only_vessel(text)
    assert vessel.level is not None
    assert vessel.level_as_drawn is not None
    return vessel.level, vessel.level_as_drawn


def spread(estimate: Estimate) -> float:
    return estimate.high / estimate.low


# ---- windows -------------------------------------------------------------------------------------


def test_thinner_sheet_than_planned_uses_more() -> None:
    """The bow goes as thickness to the third, the stress to the second; on a soft bed a little less than that."""
    planned, thin = measured_pane("31.75 mm"), measured_pane("25 mm")
    ratio = 31.75 / 25.0
    for name, power in (("stress.air", 2.0), ("bow.short", 3.0), ("bow.long", 3.0)):
        grown = value(thin, f"{PANE}.{name}").likely / value(planned, f"{PANE}.{name}").likely
        assert 1.05 < grown <= ratio**power, name
        assert use(thin, f"{PANE}.{name}") > use(planned, f"{PANE}.{name}")


def test_exact_thickness_takes_away_the_range_of_delivery() -> None:
    """Cast sheet may be thinner by 0.4 mm and a tenth (ISO 7823-1, as quoted): t2 for stress, t3 for bow."""
    ordered, exact = VAT, measured_pane("31.75 mm")
    least = 31.75 - 0.4 - 3.175
    for name, power in (("stress.air", 2), ("stress.water", 2), ("bow.short", 3)):
        ident = f"{PANE}.{name}"
        assert spread(value(exact, ident)) == 1.0
        assert spread(value(ordered, ident)) == pytest.approx((31.75 / least) ** power)
        assert value(exact, ident).likely == pytest.approx(value(ordered, ident).likely)
        assert value(exact, ident).basis == "measured thickness" or not value(exact, ident).basis
        assert "thin as its standard" in value(ordered, ident).basis


def test_thick_sheet_that_came_thin_lowers_the_level_and_both_levels_are_told() -> None:
    text = measured_pane("12.7 mm")
    found, drawn = levels(text)
    assert found.holds is not None
    assert drawn.holds is not None
    assert found.holds < drawn.holds
    assert found.governs == "bow for good"
    (table,) = [table for table in asked(text).tables if table.id == "structure.vat.level"]
    rows = {row[0]: row for row in table.rows}
    assert rows["as found"][1:3] == (found.sound, found.holds)
    assert rows["as drawn"][1:3] == (drawn.sound, drawn.holds)
    assert asked(text).verdict is Verdict.FAILS
    assert show(found.holds, "m", "us", "level") in asked(text).sentence


def test_only_one_level_is_told_where_nothing_is_measured() -> None:
    (table,) = [table for table in asked(PLAIN).tables if table.id == "structure.vat.level"]
    assert [row[0] for row in table.rows] == ["as planned"]
    assert only_vessel(PLAIN).level_as_drawn is None


# ---- timber and sheets -----------------------------------------------------------------------------


def test_rot_takes_depth_off_the_studs() -> None:
    """Of a depth d is left 0.7 d: stress by 1/0.49, shear by 1/0.7, bow by 1/0.343.

    What is left is no better wood: size factors go by the depth it was graded at, so uses grow as stresses do.
    """
    text = rotten("30 %")
    for name, power in (("bending", 2), ("shear", 1), ("bow", 3)):
        for wall in ("south", "east"):
            ident = f"vat.{wall}.studs.{name}"
            assert value(text, ident).likely / value(PLAIN, ident).likely == pytest.approx(0.7**-power)
            assert use(text, ident) / use(PLAIN, ident) == pytest.approx(0.7**-power)


def test_measured_sizes_stand_in_for_planned_ones() -> None:
    text = changed(PLAIN, (STUDS, f'{STUDS}as_built = {{ breadth = "1 1/4 in", depth = "3 1/4 in" }}\n'))
    ident = "vat.north.studs.bending"
    grown = value(text, ident).likely / value(PLAIN, ident).likely
    assert grown == pytest.approx((1.5 * 3.5**2) / (1.25 * 3.25**2))
    rim = changed(PLAIN, ('lies = "flat" }', 'lies = "flat", as_built = { depth = "5 in" } }'))
    for ident in (
        "vat.south.rim.bending",
        "vat.south.rim.shear",
        "vat.south.rim.bow",
        "vat.south.rim.pull_and_bending",
    ):
        assert use(rim, ident) > use(PLAIN, ident)


def test_rot_in_a_tie_is_taken_off_its_net_section() -> None:
    text = changed(PLAIN, ('across = "width"', 'across = "width"\nas_built = { lost = "40 %" }'))
    old, new = (value(one, "vat.ties.middle.tension").high for one in (PLAIN, text))
    assert new / old > 1.0 / 0.6


def test_thinner_sheathing_bears_less() -> None:
    text = changed(
        PLAIN,
        (
            'face_grain = "across studs" }',
            'face_grain = "across studs", as_built = { thickness = "5/8 in" } }',
        ),
    )
    left = 0.625 / 0.71875
    for name, power in (("bending", 2), ("rolling", 1)):
        ident = f"vat.west.sheathing.{name}"
        assert use(text, ident) / use(PLAIN, ident) == pytest.approx(left**-power)
    ident = "vat.west.sheathing.bow"
    assert value(text, ident).likely / value(PLAIN, ident).likely == pytest.approx(left**-3)


def test_rotten_studs_lower_the_level() -> None:
    found, drawn = levels(rotten("55 %", spacing="18 in"))
    assert found.sound is not None
    assert drawn.sound is not None
    assert found.sound < drawn.sound
    assert found.holds is not None
    assert found.holds < 0.6858
    assert found.governs_where.endswith("wall, studs")
    none, _ = levels(rotten("97 %"))
    assert none.holds is None


# ---- fasteners -------------------------------------------------------------------------------------


def test_missing_fasteners_leave_the_rest_to_carry() -> None:
    rows = (
        (FOOT, "vat.south.studs.foot.force", 3.0 / 2.0),
        (END, "vat.ties.middle.end_joint.force", 3.0 / 2.0),
    )
    for before, ident, ratio in rows:
        text = changed(PLAIN, (before, f"{before}, as_built = {{ missing = 1 }}"))
        assert use(text, ident) / use(PLAIN, ident) == pytest.approx(ratio)
        none = changed(PLAIN, (before, f"{before}, as_built = {{ missing = 3 }}"))
        assert checks(none)[ident].verdict is Verdict.FAILS


def test_missing_base_fasteners_share_the_whole_push_among_the_rest() -> None:
    """Five along 4 ft. Two missing at an end hurt most: 2 q overhang by 1, so 4 q on the next, and 0.5 q of its bay."""
    text = changed(PLAIN, ('spacing = "1 ft"', 'spacing = "1 ft"\nas_built = { missing = 2 }'))
    assert value(text, "vat.west.base.push").likely / value(
        PLAIN, "vat.west.base.push"
    ).likely == pytest.approx(4.5)
    assert value(text, "vat.south.base.push").likely > value(PLAIN, "vat.south.base.push").likely
    strong = changed(PLAIN, ('capacity = "400 lbf"', 'capacity = "9000 lbf"'))
    all_gone = changed(strong, ('spacing = "1 ft"', 'spacing = "1 ft"\nas_built = { missing = 5 }'))
    assert checks(all_gone)["vat.west.base.push"].verdict is Verdict.FAILS


def test_cracked_tie_lowers_the_level_and_is_out_of_the_drawn_one() -> None:
    """The tie that is left takes the other's share on an end joint that was made for its own."""
    scant = changed(PLAIN, (END, END.replace("count = 3", "count = 1")))
    text = changed(scant, ('across = "width"', 'across = "width"\nas_built = { cracked = [1] }'))
    found, drawn = levels(text)
    assert found.holds is not None
    assert drawn.holds is not None
    assert found.holds < drawn.holds
    assert found.governs == "pull on the end joint"
    uncracked = only_vessel(scant).level
    assert uncracked is not None
    assert uncracked.holds is not None
    assert drawn.holds == pytest.approx(uncracked.holds)
